//! One hole in its place: how much of it the face leaves, and which other holes it overlaps.
//!
//! Reveals and figures of openings are not here.

use std::collections::BTreeSet;

use crate::clip;
use crate::hole::Hole;
use crate::notes::{Doubt, OpeningCopy};
use crate::outline::{FaceOutline, Form};
use crate::profile::{Bounds, Point};
use crate::tolerance::SAME_AREA;

/// One copy of an opening on the face.
pub(super) struct Placed<'a> {
    pub(super) copy: OpeningCopy,
    pub(super) hole: Hole<'a>,
    /// Lower left of the frame's box.
    pub(super) at: Point,
    /// Box of the hole.
    pub(super) bounds: Bounds,
    /// Area of the hole inside the face.
    pub(super) area: f64,
    /// How much the face cuts it.
    pub(super) cut: Cutting,
    /// Whether it shares nothing with another hole.
    pub(super) apart: bool,
}

/// How much of a hole is inside a face.
pub(super) struct Inside {
    pub(super) area: f64,
    pub(super) cut: Cutting,
}

/// How much a face cuts a hole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Cutting {
    /// Its box lies inside: nothing to cut.
    Clear,
    /// Its box pokes out, its area does not. Its lines are still cut like those of any other: a tip that pokes out by less than shows
    /// in the area may be long.
    Grazed,
    /// Cut, and what is left is a closed form.
    Closed,
    /// Cut, and what is left comes from the polygon engine.
    Drawn,
}

impl Cutting {
    pub(super) fn is_whole(self) -> bool {
        matches!(self, Self::Clear | Self::Grazed)
    }

    pub(super) fn is_closed(self) -> bool {
        self != Self::Drawn
    }
}

/// Area of a hole inside a face, in closed form where there is one.
pub(super) fn area_inside(face: &FaceOutline, hole: &Hole<'_>, at: Point) -> Inside {
    let bounds = hole.bounds().shifted(at[0], at[1]);
    if face.contains(&bounds) {
        return Inside {
            area: hole.area(),
            cut: Cutting::Clear,
        };
    }
    if let Form::Profile { profile, .. } = face.form() {
        let cut = |area: f64| Inside {
            area,
            cut: Cutting::Closed,
        };
        if hole.is_rectangle() {
            return cut(profile.box_area(&bounds));
        }
        if let Some(under) = hole.under_springing() {
            let under = under.shifted(at[0], at[1]);
            let above = Bounds {
                bottom: bounds.bottom.max(profile.floor()),
                ..bounds
            };
            // Only the floor cuts it, and under the springing.
            if profile.floor() <= under.top && profile.contains(&above) {
                let lost = under.width() * (above.bottom - under.bottom);
                return cut((hole.area() - lost).max(0.0));
            }
        }
    }
    let area = hole.area();
    let inside = clip::common_area(&face.rings(), &[hole.ring(at[0], at[1])]);
    if inside >= area * (1.0 - SAME_AREA) {
        return Inside {
            area,
            cut: Cutting::Grazed,
        };
    }
    Inside {
        area: inside.min(area),
        cut: Cutting::Drawn,
    }
}

/// Marks the holes that overlap another, and reports each two openings once.
pub(super) fn find_overlaps(all: &mut [Placed<'_>], mut report: impl FnMut(Doubt)) {
    let mut by_left: Vec<usize> = (0..all.len()).collect();
    let left = |i: &usize| all.get(*i).map_or(0.0, |p| p.bounds.left);
    by_left.sort_by(|a, b| left(a).total_cmp(&left(b)).then(a.cmp(b)));
    let mut pairs: BTreeSet<(OpeningCopy, OpeningCopy)> = BTreeSet::new();
    let mut seen: BTreeSet<(usize, usize)> = BTreeSet::new();
    let mut touched = vec![false; all.len()];
    for (n, &i) in by_left.iter().enumerate() {
        for &j in by_left.iter().skip(n + 1) {
            let (Some(a), Some(b)) = (all.get(i), all.get(j)) else {
                continue;
            };
            if b.bounds.left >= a.bounds.right {
                break;
            }
            if !a.bounds.overlaps(&b.bounds) || !holes_overlap(a, b) {
                continue;
            }
            for k in [i, j] {
                if let Some(flag) = touched.get_mut(k) {
                    *flag = true;
                }
            }
            let (first, second) = if a.copy <= b.copy {
                (a.copy, b.copy)
            } else {
                (b.copy, a.copy)
            };
            // Left to right, the first pair of copies met is the one to name.
            if seen.insert((first.opening, second.opening)) {
                pairs.insert((first, second));
            }
        }
    }
    for (p, touched) in all.iter_mut().zip(touched) {
        p.apart = !touched;
    }
    for (first, second) in pairs {
        report(Doubt::Overlap { first, second });
    }
}

/// Whether two holes whose boxes overlap do so themselves.
fn holes_overlap(a: &Placed<'_>, b: &Placed<'_>) -> bool {
    if a.hole.is_rectangle() && b.hole.is_rectangle() {
        return true;
    }
    let common = clip::common_area(
        &[a.hole.ring(a.at[0], a.at[1])],
        &[b.hole.ring(b.at[0], b.at[1])],
    );
    common > SAME_AREA * a.hole.area().min(b.hole.area())
}
