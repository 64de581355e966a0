//! Whether the sides of a plan make a ring: once round, closed, not crossing itself, with room for the
//! thickness of its walls. Not here: the sizes one by one.

use super::sides::Walk;
use super::text::{shown, shown_turn};
use super::{Faults, Measured, Plan, tolerance};
use core::f64::consts::{FRAC_PI_2, TAU};
use ecow::{EcoString, eco_format};
use hodful_geometry as geometry;
use hodful_quantities::print::UnitSystem;

type Point = [f64; 2];

/// Most ways to close a ring that are offered.
const MOST_OFFERS: usize = 3;

/// Everything about a ring that takes more than one of its sizes to see.
pub(super) fn check(walk: &Walk, thickness: Option<f64>, plan: &Plan, faults: &mut Faults) {
    if let Some(fault) = not_once_round(walk) {
        faults.add(fault);
        return;
    }
    let measured: Vec<f64> = walk.sides.iter().map(|side| side.length).collect();
    if let Some(fault) = gap_fault(walk, &measured, plan.units) {
        faults.add(fault);
        return;
    }
    if let Some(why) = crossing(&outline(walk, &measured)) {
        faults.add(eco_format!("sides: their corners {why}"));
        return;
    }
    let Some(thickness) = thickness else {
        return;
    };
    let (other, lengths) = match plan.measured {
        Measured::Outside => ("inside", walk.inside_lengths(plan.measured, thickness)),
        Measured::Inside => ("outside", walk.outside_lengths(plan.measured, thickness)),
    };
    let typed = plan.thickness.text();
    let mut room = true;
    for (side, length) in std::iter::zip(&walk.sides, &lengths) {
        if *length < tolerance::LEAST_SIZE {
            room = false;
            faults.add(eco_format!(
                "thickness: '{typed}' leaves nothing of the {other} of {} '{}'",
                side.name,
                side.typed.text()
            ));
        }
    }
    if room && let Some(why) = crossing(&outline(walk, &lengths)) {
        faults.add(eco_format!(
            "thickness: '{typed}' is too much for this plan; on the {other} the corners {why}"
        ));
    }
}

/// The corners of a ring with these lengths: closed, the little it misses spread over it in proportion
/// to the way walked (the compass rule of surveying, after Bowditch), or open with its loose end.
pub(super) fn outline(walk: &Walk, lengths: &[f64]) -> Vec<Point> {
    let (mut corners, end) = walked(walk, lengths);
    if size(end) > allowed(walk, lengths) {
        corners.push(end);
        return corners;
    }
    let whole: f64 = lengths.iter().sum();
    let mut way = 0.0;
    for (corner, length) in corners.iter_mut().zip(lengths) {
        let share = if whole > 0.0 { way / whole } else { 0.0 };
        *corner = [corner[0] - end[0] * share, corner[1] - end[1] * share];
        way += length;
    }
    corners
}

/// The corner before each side, and where the last side ends.
fn walked(walk: &Walk, lengths: &[f64]) -> (Vec<Point>, Point) {
    let mut at = [0.0, 0.0];
    let corners = directions(walk).zip(lengths).map(|(along, length)| {
        let corner = at;
        at = [at[0] + along[0] * length, at[1] + along[1] * length];
        corner
    });
    let corners = corners.collect();
    (corners, at)
}

/// The direction of each side.
fn directions(walk: &Walk) -> impl Iterator<Item = Point> + '_ {
    walk.sides.iter().scan(0.0, |heading, side| {
        let along = [libm::cos(*heading), libm::sin(*heading)];
        *heading += side.turn;
        Some(along)
    })
}

/// The gap that is let pass, mm.
fn allowed(walk: &Walk, lengths: &[f64]) -> f64 {
    let skew = walk.sides.iter().any(|side| {
        let quarters = side.turn / FRAC_PI_2;
        (quarters - quarters.round()).abs() * FRAC_PI_2 > tolerance::SAME_TURN
    });
    let more = if skew {
        tolerance::SKEW * lengths.iter().sum::<f64>()
    } else {
        0.0
    };
    tolerance::CLOSES + more
}

fn size(way: Point) -> f64 {
    libm::hypot(way[0], way[1])
}

fn not_once_round(walk: &Walk) -> Option<EcoString> {
    let turned: f64 = walk.sides.iter().map(|side| side.turn).sum();
    let over = turned - TAU;
    if over.abs() <= tolerance::ONCE_ROUND {
        return None;
    }
    if (turned + TAU).abs() <= tolerance::ONCE_ROUND {
        return Some(
            "turns: they go round to the right; walk with the building on the left, or swap left and right"
                .into(),
        );
    }
    let what = if over > 0.0 { "too many" } else { "missing" };
    Some(eco_format!(
        "turns: they add up to {}, and once round is 360.0° to the left; {} {what}",
        shown_turn(turned),
        shown_turn(over.abs()),
    ))
}

fn gap_fault(walk: &Walk, lengths: &[f64], units: UnitSystem) -> Option<EcoString> {
    let (_, end) = walked(walk, lengths);
    if size(end) <= allowed(walk, lengths) {
        return None;
    }
    let offers = one_side(walk, lengths, end, units)
        .or_else(|| two_sides(walk, lengths, end, units))
        .unwrap_or_else(|| "look for a side or a turn that is left out".into());
    let taken = walk
        .last_turn
        .map(|turn| {
            eco_format!(
                "; the last turn was taken as what is left of once round, {}",
                shown_turn(turn)
            )
        })
        .unwrap_or_default();
    Some(eco_format!(
        "sides: the ring ends {} from where it began; {offers}{taken}",
        shown(size(end), units)
    ))
}

/// The sides that would close the ring alone, with their lengths.
fn one_side(walk: &Walk, lengths: &[f64], end: Point, units: UnitSystem) -> Option<EcoString> {
    let allowed = allowed(walk, lengths);
    let offers: Vec<EcoString> = directions(walk)
        .zip(std::iter::zip(&walk.sides, lengths))
        .filter_map(|(along, (side, length))| {
            let more = -(end[0] * along[0] + end[1] * along[1]);
            let left = [end[0] + along[0] * more, end[1] + along[1] * more];
            let closes = size(left) <= allowed && length + more >= tolerance::LEAST_SIZE;
            closes.then(|| {
                let length = shown(length + more, units);
                eco_format!(
                    "{} of {length} instead of '{}'",
                    side.name,
                    side.typed.text()
                )
            })
        })
        .take(MOST_OFFERS)
        .collect();
    (!offers.is_empty()).then(|| eco_format!("{} would close it", offers.join(", or ")))
}

/// The last side and the nearest before it in another direction, with the lengths that close the ring.
fn two_sides(walk: &Walk, lengths: &[f64], end: Point, units: UnitSystem) -> Option<EcoString> {
    let all: Vec<_> = directions(walk)
        .zip(std::iter::zip(&walk.sides, lengths))
        .collect();
    let ((b, (last, last_length)), before) = all.split_last()?;
    before.iter().rev().find_map(|(a, (side, length))| {
        // end + x·a + y·b = 0, by Cramer's rule.
        let cross = a[0] * b[1] - a[1] * b[0];
        if cross.abs() < tolerance::SKEW {
            return None;
        }
        let x = (b[0] * end[1] - b[1] * end[0]) / cross;
        let y = (a[1] * end[0] - a[0] * end[1]) / cross;
        let (one, other) = (*length + x, *last_length + y);
        (one >= tolerance::LEAST_SIZE && other >= tolerance::LEAST_SIZE).then(|| {
            eco_format!(
                "no side would close it alone; {} of {} and {} of {} would",
                side.name,
                shown(one, units),
                last.name,
                shown(other, units)
            )
        })
    })
}

/// What the geometry has against the corners as an outline, in words that follow "corners".
fn crossing(corners: &[Point]) -> Option<String> {
    let least = |axis: fn(&Point) -> f64| corners.iter().map(axis).fold(f64::INFINITY, f64::min);
    let [left, low] = [least(|corner| corner[0]), least(|corner| corner[1])];
    let shifted = corners.iter().map(|[x, y]| [x - left, y - low]).collect();
    geometry::Outline::new(geometry::OutlineShape::Polygon { corners: shifted })
        .err()
        .and_then(|faults| faults.into_iter().next())
        .map(|fault| fault.why)
}
