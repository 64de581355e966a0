//! A chunk of the walls on the bench and what it comes to: only chunks in which something changed are
//! summed again. Not here: single walls, and what follows from all chunks.

use super::piece::Piece;
use crate::checked::Site;
use crate::doubts::measured;
use crate::evaluate::{FaceFigures, Finding, Found, Sums};
use crate::problem::Problem;
use crate::project::{Project, Side};
use crate::tolerance::LOOK_CLOSER;
use std::collections::BTreeMap;
use std::iter::zip;
use std::sync::Arc;

/// Walls that have no room for all coats, by position, with the faces.
pub(super) type Cramped = BTreeMap<usize, Vec<Side>>;

/// What a chunk of walls comes to.
#[derive(Debug)]
pub(super) struct Part {
    /// Of the sound walls.
    pub(super) sums: Sums,
    /// Positions of the walls in which the check refuses something.
    pub(super) troubled: Vec<usize>,
    /// What the measuring refuses.
    pub(super) refused: Vec<Problem>,
    /// Walls that count for nothing.
    pub(super) left_out: usize,
    /// By build-up, the least room for coats on any face, mm.
    rooms: Vec<f64>,
    /// Something in it changed since it was summed.
    pub(super) is_stale: bool,
}

impl Part {
    /// A chunk that is not summed yet.
    pub(super) fn new(site: &Site) -> Self {
        Self {
            sums: Sums::new(site),
            troubled: Vec::new(),
            refused: Vec::new(),
            left_out: 0,
            rooms: Vec::new(),
            is_stale: true,
        }
    }

    /// Finds the least room anew.
    pub(super) fn look_for_room(&mut self, site: &Site, pieces: &[Arc<Piece>]) {
        self.rooms.clear();
        self.rooms.resize(site.build_ups.len(), f64::INFINITY);
        for (build_up, room) in pieces.iter().flat_map(|piece| piece.rooms()) {
            if let Some(least) = self.rooms.get_mut(build_up) {
                *least = least.min(room);
            }
        }
    }

    /// Whether coats so thick, mm, by build-up, could be more than a face has room for.
    pub(super) fn may_be_cramped(&self, thicknesses: &[Option<f64>]) -> bool {
        zip(&self.rooms, thicknesses)
            .any(|(room, thickness)| thickness.is_some_and(|t| t * (1.0 + LOOK_CLOSER) >= *room))
    }

    /// Sums the chunk anew; its first wall stands at `start`.
    pub(super) fn sum(
        &mut self,
        project: &Project,
        site: &Site,
        cramped: &Cramped,
        start: usize,
        pieces: &[Arc<Piece>],
        figures: &mut [[Option<FaceFigures>; 2]],
    ) {
        let rooms = std::mem::take(&mut self.rooms);
        *self = Self {
            rooms,
            is_stale: false,
            ..Self::new(site)
        };
        for (i, (piece, figures)) in zip(pieces, figures).enumerate() {
            let at = start + i;
            if !piece.problems.is_empty() {
                self.troubled.push(at);
            }
            self.take_findings(project, at, &piece.found);
            let entry = piece.entry().filter(|_| !cramped.contains_key(&at));
            let Some(entry) = entry else {
                self.left_out += 1;
                *figures = [None, None];
                continue;
            };
            *figures = piece.figures();
            for (face, figures) in zip(&entry.faces, figures) {
                if let (Some(face), Some(figures)) = (face, figures) {
                    self.sums.add_face(site, entry.count, face, figures);
                }
            }
        }
    }

    fn take_findings(&mut self, project: &Project, at: usize, found: &[Finding]) {
        for finding in found {
            let finding = Finding {
                wall: u32::try_from(at).unwrap_or(u32::MAX),
                ..*finding
            };
            if matches!(finding.found, Found::Refusal(_)) {
                self.refused.extend(measured(project, &finding));
            }
            self.sums.findings.push(finding);
        }
    }
}
