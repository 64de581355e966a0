//! The faces of a project as plain rings, for a polygon library to measure: the outline of every face after its insets,
//! and the hole every opening makes in it, splay included.
//!
//! Worked out here from what was typed, by formulas of its own, so that equal areas say that both sides did the same work.
//! An arc is a chain of chords, 32 to the half circle, with its corners on the arc. Not here: shapes that the projects of
//! [`crate::terrace`] do not have (they give no ring at all), and areas.

use core::f64::consts::{FRAC_PI_2, PI};
use hodful_quantities::Typed;
use hodful_quantities::units::{Angle, Length};
use hodful_takeoff::project::{Face, Opening, OpeningShape, Project, Side, Wall, WallShape};
use std::io::{self, Write};

/// Chords to a half circle.
const CHORDS: f64 = 32.0;

/// Rings one after another.
#[derive(Debug, Default, Clone, PartialEq)]
pub struct Chain {
    /// Corners `[along, up]` in millimetres, anticlockwise; the first is not repeated.
    pub corners: Vec<[f64; 2]>,
    /// Where each ring ends among the corners.
    pub ends: Vec<u64>,
}

impl Chain {
    fn push(&mut self, ring: impl IntoIterator<Item = [f64; 2]>) {
        self.corners.extend(ring);
        self.ends.push(self.corners.len() as u64);
    }

    /// Counts of rings and corners, then where the rings end, then the corners: 64-bit numbers, least byte first.
    fn write(&self, out: &mut impl Write) -> io::Result<()> {
        let counts = [self.ends.len() as u64, self.corners.len() as u64];
        for number in counts.iter().chain(&self.ends) {
            out.write_all(&number.to_le_bytes())?;
        }
        for number in self.corners.as_flattened() {
            out.write_all(&number.to_le_bytes())?;
        }
        Ok(())
    }
}

/// The faces of a project, wall by wall, outside then inside.
#[derive(Debug, Default, Clone, PartialEq)]
pub struct Rings {
    /// One ring a face.
    pub outlines: Chain,
    /// As many rings a face as its wall has openings.
    pub holes: Chain,
}

impl Rings {
    /// The rings of every plastered face whose outline is a rectangle or a gable with its ridge in the middle.
    pub fn of(project: &Project) -> Self {
        let mut rings = Self::default();
        for wall in &project.walls {
            for side in [Side::Outside, Side::Inside] {
                let Some(face) = wall.face(side) else {
                    continue;
                };
                let Some(outline) = outline(wall, face) else {
                    continue;
                };
                rings.outlines.push(outline);
                for opening in &wall.openings {
                    rings.holes.push(hole(wall, opening, side));
                }
            }
        }
        rings
    }

    /// Writes outlines, then holes.
    ///
    /// # Errors
    /// When writing fails.
    pub fn write(&self, out: &mut impl Write) -> io::Result<()> {
        self.outlines.write(out)?;
        self.holes.write(out)
    }
}

fn mm(typed: &Typed<Length>) -> f64 {
    typed.value().value
}

fn outline(wall: &Wall, face: &Face) -> Option<Vec<[f64; 2]>> {
    let inset = face.inset.as_deref();
    let cut = |typed: Option<&Typed<Length>>| typed.map_or(0.0, mm);
    let left = cut(inset.and_then(|i| i.left.as_ref()));
    let trimmed = cut(inset.and_then(|i| i.right.as_ref()));
    let lowered = cut(inset.and_then(|i| i.top.as_ref()));
    let floor = cut(inset.and_then(|i| i.bottom.as_ref()));
    match &wall.shape {
        WallShape::Rectangle { length, height } => {
            let (right, top) = (mm(length) - trimmed, mm(height) - lowered);
            Some(vec![
                [left, floor],
                [right, floor],
                [right, top],
                [left, top],
            ])
        }
        WallShape::Gable {
            length,
            eaves,
            ridge,
            ridge_from_left: None,
        } => {
            let (length, eaves, ridge) = (mm(length), mm(eaves), mm(ridge));
            let right = length - trimmed;
            let half = length / 2.0;
            let top = |u: f64| eaves + (ridge - eaves) * (1.0 - (u - half).abs() / half) - lowered;
            let at = |u: f64| [u, top(u)];
            Some(vec![
                [left, floor],
                [right, floor],
                at(right),
                at(half),
                at(left),
            ])
        }
        _ => None,
    }
}

/// The frame opened out by the splays: each jamb, the head and the sill by depth · tan of their own.
fn hole(wall: &Wall, opening: &Opening, side: Side) -> Vec<[f64; 2]> {
    let (outer, frame) = opening
        .frame
        .as_ref()
        .map_or((0.0, 0.0), |f| (mm(&f.from_outside), mm(&f.depth)));
    let depth = match side {
        Side::Outside => outer,
        Side::Inside => mm(&wall.thickness) - outer - frame,
    };
    let splay = opening
        .reveal(side)
        .and_then(|reveal| reveal.splay.as_deref());
    let out =
        |typed: Option<&Typed<Angle>>| typed.map_or(0.0, |a| depth * libm::tan(a.value().value));
    let jamb = out(splay.and_then(|s| s.jambs.as_ref()));
    let head = out(splay.and_then(|s| s.head.as_ref()));
    let sill = out(splay.and_then(|s| s.sill.as_ref()));
    let (left, base) = (mm(&opening.from_left), mm(&opening.sill));
    match &opening.shape {
        OpeningShape::Rectangle { width, height } => {
            let (l, r) = (left - jamb, left + mm(width) + jamb);
            let (b, t) = (base - sill, base + mm(height) + head);
            vec![[l, b], [r, b], [r, t], [l, t]]
        }
        OpeningShape::Arched {
            width,
            springing,
            rise,
            ..
        } => {
            let half = mm(width) / 2.0;
            let rise = rise.as_ref().map_or(half, mm);
            // r = (s² + 4h²)/(8h): International Correspondence Schools, The Building Trades Pocketbook, mensuration.
            let radius = (half * half + rise * rise) / (2.0 * rise);
            let centre = [left + half, base + mm(springing) + rise - radius];
            arch(
                [centre[0], centre[1]],
                radius + head,
                half + jamb,
                base - sill,
            )
        }
        _ => Vec::new(),
    }
}

/// Jambs `half` off the middle, from `bottom` up to an arc round `centre`.
fn arch(centre: [f64; 2], radius: f64, half: f64, bottom: f64) -> Vec<[f64; 2]> {
    let half = half.min(radius);
    let angle = libm::asin(half / radius);
    let chords = (CHORDS * 2.0 * angle / PI).ceil();
    let mut ring = vec![[centre[0] - half, bottom], [centre[0] + half, bottom]];
    let mut step = 0.0;
    while step <= chords {
        let at = FRAC_PI_2 - angle + 2.0 * angle * step / chords;
        ring.push([
            centre[0] + radius * libm::cos(at),
            centre[1] + radius * libm::sin(at),
        ]);
        step += 1.0;
    }
    ring
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::terrace;

    /// Twice the area by the corners. Source: the shoelace formula.
    fn area(ring: &[[f64; 2]]) -> f64 {
        let next = ring.iter().cycle().skip(1);
        ring.iter()
            .zip(next)
            .map(|(a, b)| a[0] * b[1] - b[0] * a[1])
            .sum::<f64>()
            / 2.0
    }

    fn rings(chain: &Chain) -> impl Iterator<Item = &[[f64; 2]]> {
        let starts = std::iter::once(0).chain(chain.ends.iter().copied());
        starts.zip(&chain.ends).map(|(start, end)| {
            let place = |n: u64| usize::try_from(n).expect("it fits the memory");
            &chain.corners[place(start)..place(*end)]
        })
    }

    /// Where nothing overlaps or is cut but by the floor under a door, outlines less holes are the net areas.
    #[test]
    fn areas_are_those_of_the_evaluation() {
        let project = terrace::project(terrace::Walls::Rectangles, 300);
        let checked = hodful_takeoff::check(&project, &hodful_project_file::rules())
            .expect("nothing is refused");
        let evaluation = hodful_takeoff::evaluate(&checked);
        let own = Rings::of(&project);
        assert_eq!((own.outlines.ends.len(), own.holes.ends.len()), (600, 1800));
        let mut holes = rings(&own.holes);
        let figures = evaluation.faces.iter().flatten().flatten();
        for (outline, figures) in rings(&own.outlines).zip(figures) {
            let floor = outline[0][1];
            let mut net = area(outline);
            for hole in holes.by_ref().take(3) {
                let above: Vec<_> = hole.iter().map(|c| [c[0], c[1].max(floor)]).collect();
                net -= area(&above);
            }
            let measure = figures.measure;
            let ours = measure.outline - measure.openings;
            assert!((net / ours - 1.0).abs() < 1e-12, "{net} and {ours}");
        }
    }

    /// A chord of 48 and a rise of 18 have a radius of 25 and 636.3764 between arc and chord. Source: International
    /// Correspondence Schools, The Building Trades Pocketbook, mensuration; the area worked out by hand from
    /// r²·(θ − sin θ)/2 with θ = 4·atan(18/24).
    #[test]
    fn arcs_are_on_their_circle() {
        let ring = arch([24.0, -7.0], 25.0, 24.0, -10.0);
        let arc = &ring[2..];
        assert_eq!(arc.len(), 28);
        for corner in arc {
            let off = libm::sqrt((corner[0] - 24.0).powi(2) + (corner[1] + 7.0).powi(2)) - 25.0;
            assert!(off.abs() < 1e-12);
        }
        assert!((arc[0][0] - 48.0).abs() < 1e-12 && arc[0][1].abs() < 1e-12);
        // Chords lie inside the arc: a thousandth less.
        let share = (area(&ring) - 48.0 * 10.0) / 636.3764;
        assert!(share > 0.998 && share < 1.0, "{share}");
    }
}
