//! One wall as it lies on the bench: checked and measured, good until it or what it names changes.
//! Not here: anything about more than one wall.

use crate::check::values::Values;
use crate::check::walls::{self, Reveals};
use crate::checked::{CheckedWall, OneWall, Site, Walls};
use crate::doubts::no_room;
use crate::evaluate::{FaceFigures, Finding, Found, measure_wall};
use crate::problem::Problem;
use crate::project::{Project, Side, Wall};
use hodful_geometry::{FaceEnd, Opening, Reveal};
use std::iter::zip;
use std::sync::Arc;

/// One wall, checked and measured.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    /// `None` only if the check gave nothing.
    entry: Option<CheckedWall>,
    openings: Box<[Opening]>,
    ends: Box<[FaceEnd]>,
    /// What the check refuses.
    pub(super) problems: Vec<Problem>,
    /// What the measuring found; the position of the wall is for others to fill in.
    pub(super) found: Vec<Finding>,
    figures: [Option<FaceFigures>; 2],
    /// Nothing is refused, by the check or the measuring.
    is_sound: bool,
}

/// What becomes of a wall when the names or the order of backgrounds and build-ups change.
pub(super) enum Renamed {
    /// Nothing.
    Same,
    /// Its faces are elsewhere in the order.
    Moved(Arc<Piece>),
    /// A name is missing, or was before: it must be checked anew.
    Unknown,
}

impl Piece {
    /// Checks a wall. It is not measured yet.
    pub(super) fn new(project: &Project, wall: &Wall, reveals: &mut Reveals) -> Self {
        let mut values = Values::default();
        let mut one = Walls::default();
        walls::add(&mut one, reveals, project, wall, &mut values);
        Self {
            entry: one.entries.pop(),
            openings: one.openings.into(),
            ends: one.ends.into(),
            problems: values.into_problems(),
            found: Vec::new(),
            figures: [None, None],
            is_sound: false,
        }
    }

    /// Measures the wall, when the check refuses nothing.
    pub(super) fn measure(&mut self, site: &Site, reveals: &[Reveal]) {
        let mut found = Vec::new();
        let mut figures = [None, None];
        if self.problems.is_empty()
            && let Some(wall) = self.wall(reveals)
        {
            measure_wall(&site.rule, wall, 0, &mut found, &mut figures);
        }
        if !site.rule_known {
            for face in figures.iter_mut().flatten() {
                face.measured = f64::NAN;
                face.measured_run = f64::NAN;
            }
        }
        let is_refused = |finding: &Finding| matches!(finding.found, Found::Refusal(_));
        self.is_sound = self.problems.is_empty() && !found.iter().any(is_refused);
        self.figures = figures;
        self.found = found;
    }

    /// Whether nothing is refused.
    pub(super) fn is_sound(&self) -> bool {
        self.is_sound
    }

    /// The wall as the measuring wants it.
    pub(super) fn wall<'a>(&'a self, reveals: &'a [Reveal]) -> Option<OneWall<'a>> {
        Some(OneWall {
            entry: self.entry.as_ref()?,
            openings: &self.openings,
            ends: &self.ends,
            reveals,
        })
    }

    /// The figures of both faces; none of a wall in which something is refused.
    pub(super) fn figures(&self) -> [Option<FaceFigures>; 2] {
        if self.is_sound {
            self.figures
        } else {
            [None, None]
        }
    }

    /// The entry of a sound wall.
    pub(super) fn entry(&self) -> Option<&CheckedWall> {
        self.entry.as_ref().filter(|_| self.is_sound)
    }

    /// The faces of a sound wall that lose surface as plaster builds out: the build-up, and the
    /// thickness of coats, mm, over which nothing is left.
    pub(super) fn rooms(&self) -> impl Iterator<Item = (usize, f64)> {
        self.faces().filter_map(|(_, build_up, figures)| {
            let m = &figures.measure;
            (m.growth < 0.0).then(|| (build_up, m.true_surface() / -m.growth))
        })
    }

    /// The faces of a sound wall that have no room for all coats, which are so thick, mm, by build-up.
    pub(super) fn cramped(&self, thicknesses: &[Option<f64>]) -> impl Iterator<Item = Side> {
        self.faces().filter_map(|(side, build_up, figures)| {
            let thickness = thicknesses.get(build_up).copied().flatten()?;
            no_room(figures, thickness).then_some(side)
        })
    }

    fn faces(&self) -> impl Iterator<Item = (Side, usize, &FaceFigures)> {
        let faces = self.entry().into_iter().flat_map(|entry| &entry.faces);
        zip([Side::Outside, Side::Inside], zip(faces, &self.figures)).filter_map(
            |(side, (face, figures))| {
                let face = face.as_ref()?;
                Some((side, usize::from(face.build_up), figures.as_ref()?))
            },
        )
    }

    /// Finds backgrounds and build-ups again after their names or order changed.
    pub(super) fn find_names(&self, project: &Project, wall: &Wall) -> Renamed {
        let sound = self.entry.as_ref().filter(|_| self.problems.is_empty());
        let Some(mut faces) = sound.map(|entry| entry.faces.clone()) else {
            return Renamed::Unknown;
        };
        let mut same = true;
        for (side, face) in zip([Side::Outside, Side::Inside], &mut faces) {
            let Some(typed) = wall.face(side) else {
                continue;
            };
            let position = |found: Option<usize>| u16::try_from(found?).ok();
            let build_up = position(project.build_ups.get_index_of(&typed.build_up));
            let background = position(project.backgrounds.get_index_of(&typed.background));
            let (Some(face), Some(build_up), Some(background)) = (face, build_up, background)
            else {
                return Renamed::Unknown;
            };
            same &= (face.build_up, face.background) == (build_up, background);
            face.build_up = build_up;
            face.background = background;
        }
        if same {
            return Renamed::Same;
        }
        let mut piece = self.clone();
        if let Some(entry) = &mut piece.entry {
            entry.faces = faces;
        }
        Renamed::Moved(Arc::new(piece))
    }
}
