//! What each wall contributes to a ring: its length on either face, its curve, the turn after it. Not
//! here: where it stands.

use super::super::sides::tangent;
use super::super::tolerance;
use crate::project::{CornerAngle, End, Name, Side, Wall, WallEnd, WallShape};
use core::f64::consts::{FRAC_PI_2, TAU};
use std::sync::Arc;

/// The face whose lengths a ring is walked by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Base {
    Outside,
    Inside,
}

impl Base {
    /// How often the thickness lies between this face and the other, to the left.
    pub(super) fn to_other(self) -> f64 {
        match self {
            Self::Outside => 1.0,
            Self::Inside => -1.0,
        }
    }
}

/// A wall of a ring.
#[derive(Debug, Clone)]
pub(super) struct Leg<'a> {
    pub(super) wall: usize,
    pub(super) id: &'a Name,
    pub(super) thickness: f64,
    /// Angle on plan of a curved wall, radians; 0 of a straight one.
    pub(super) sweep: f64,
    /// Turn at the right end, radians, more than 0 to the left.
    pub(super) turn: f64,
    /// Lengths of the outside and the inside face, mm.
    lengths: [f64; 2],
    /// Radius to the outside face; 0 of a straight wall.
    outside_radius: f64,
}

impl Leg<'_> {
    pub(super) fn length(&self, base: Base) -> f64 {
        let [outside, inside] = self.lengths;
        match base {
            Base::Outside => outside,
            Base::Inside => inside,
        }
    }

    /// Radius of a face, mm; 0 of a straight wall.
    pub(super) fn radius(&self, base: Base) -> f64 {
        match base {
            Base::Inside if self.sweep > 0.0 => self.outside_radius - self.thickness,
            _ => self.outside_radius,
        }
    }

    /// From the left end to the right end, ahead and to the left.
    pub(super) fn chord(&self, base: Base) -> (f64, f64) {
        if self.sweep > 0.0 {
            let radius = self.radius(base);
            (
                radius * libm::sin(self.sweep),
                radius * (1.0 - libm::cos(self.sweep)),
            )
        } else {
            (self.length(base), 0.0)
        }
    }

    /// Whether it turns otherwise than in quarters.
    pub(super) fn is_skew(&self) -> bool {
        let quarters = (self.sweep + self.turn) / FRAC_PI_2;
        (quarters - quarters.round()).abs() * FRAC_PI_2 > tolerance::SAME_TURN
    }
}

/// Walls with what they are on plan.
#[derive(Debug)]
pub(super) struct Legs<'a> {
    walls: &'a [Arc<Wall>],
    plans: Vec<Option<OnPlan>>,
}

/// A wall alone.
#[derive(Debug, Clone, Copy)]
struct OnPlan {
    length: f64,
    thickness: f64,
    sweep: f64,
    radius: f64,
}

impl<'a> Legs<'a> {
    pub(super) fn new(walls: &'a [Arc<Wall>]) -> Self {
        let plans = walls.iter().map(|wall| on_plan(wall)).collect();
        Self { walls, plans }
    }

    /// How many walls from this one on go once round, the fewest; whether their lengths close is not
    /// asked.
    pub(super) fn closes_from(&self, start: usize) -> Option<usize> {
        let mut heading = self.plan(start)?.sweep;
        if (heading - TAU).abs() <= tolerance::SAME_TURN {
            return Some(1);
        }
        for at in start + 1..self.walls.len().min(start + tolerance::MOST_SIDES) {
            let sweep = self.plan(at)?.sweep;
            heading += self.turn(at - 1, at)? + sweep;
            // No turn brings it back from further than that.
            if heading.abs() > 2.0 * TAU {
                return None;
            }
            let once = |turn: f64| (heading + turn - TAU).abs() <= tolerance::ONCE_ROUND;
            if self.turn(at, start).is_some_and(once) && self.lengths_close(start, at + 1 - start) {
                return Some(at + 1 - start);
            }
        }
        None
    }

    fn lengths_close(&self, start: usize, count: usize) -> bool {
        self.run(start, count).is_some_and(|run| {
            [Base::Outside, Base::Inside]
                .into_iter()
                .any(|base| super::closed(&run, base).is_some())
        })
    }

    /// The walls of a ring with their turns.
    pub(super) fn run(&self, start: usize, count: usize) -> Option<Vec<Leg<'a>>> {
        let at = |number: usize| start + number % count.max(1);
        let turns: Vec<f64> = (0..count)
            .map(|number| match count {
                // One wall all the way round meets itself.
                1 => Some(0.0),
                _ => self.turn(at(number), at(number + 1)),
            })
            .collect::<Option<_>>()?;
        (0..count)
            .map(|number| {
                let before = turns.get((number + count - 1) % count)?;
                let after = turns.get(number)?;
                let wall = self.walls.get(at(number))?;
                let plan = self.plan(at(number))?;
                Some(Leg {
                    wall: at(number),
                    id: &wall.id,
                    thickness: plan.thickness,
                    sweep: plan.sweep,
                    turn: *after,
                    lengths: lengths(wall, plan, *before, *after),
                    outside_radius: plan.radius,
                })
            })
            .collect()
    }

    fn plan(&self, at: usize) -> Option<OnPlan> {
        self.plans.get(at).copied().flatten()
    }

    /// The turn from one wall to the next; `None` when the corners entered contradict one another.
    fn turn(&self, at: usize, next: usize) -> Option<f64> {
        let (this, that) = (self.walls.get(at)?, self.walls.get(next)?);
        let ends = |wall: &'a Wall, end: End| wall.ends.iter().filter(move |e| e.end == end);
        let mut entered = ends(this, End::Right)
            .chain(ends(that, End::Left))
            .map(signed_turn);
        let Some(turn) = entered.next() else {
            let straight = self.plan(at)?.sweep + self.plan(next)?.sweep <= 0.0;
            return Some(if straight { FRAC_PI_2 } else { 0.0 });
        };
        let sound = turn.abs() <= tolerance::MOST_TURN + tolerance::SAME_TURN;
        let agree = entered.all(|other| (other - turn).abs() <= tolerance::ONCE_ROUND);
        (sound && agree).then_some(turn)
    }
}

/// The turn a corner makes of the building, more than 0 to the left.
fn signed_turn(end: &WallEnd) -> f64 {
    let turn = end
        .turn
        .as_ref()
        .map_or(FRAC_PI_2, |turn| turn.value().value);
    match (end.face, end.angle) {
        (Side::Outside, CornerAngle::External) | (Side::Inside, CornerAngle::Internal) => turn,
        _ => -turn,
    }
}

fn on_plan(wall: &Wall) -> Option<OnPlan> {
    if wall.count.is_some_and(|count| count != 1) {
        return None;
    }
    let thickness = wall.thickness.value().value;
    let (length, sweep, radius) = match &wall.shape {
        WallShape::Rectangle { length, .. }
        | WallShape::Gable { length, .. }
        | WallShape::Raked { length, .. } => (length.value().value, 0.0, 0.0),
        WallShape::Polygon { corners } => {
            let along = || corners.iter().map(|[along, _]| along.value().value);
            let least = along().fold(f64::INFINITY, f64::min);
            let most = along().fold(f64::NEG_INFINITY, f64::max);
            (most - least, 0.0, 0.0)
        }
        WallShape::Curved {
            radius,
            sweep,
            length,
            ..
        } => {
            let radius = radius.value().value;
            let sweep = match (sweep, length) {
                (Some(sweep), None) => sweep.value().value,
                (None, Some(length)) => length.value().value / radius,
                _ => return None,
            };
            (radius * sweep, sweep, radius)
        }
    };
    let sound = (tolerance::LEAST_SIZE..=tolerance::LONGEST).contains(&length)
        && (0.0..=tolerance::LONGEST).contains(&thickness)
        && (0.0..=TAU + tolerance::SAME_TURN).contains(&sweep)
        && (radius > thickness || sweep <= 0.0);
    sound.then_some(OnPlan {
        length,
        thickness,
        sweep,
        radius,
    })
}

/// Lengths of the outside and the inside face of a wall between two turns.
fn lengths(wall: &Wall, plan: OnPlan, before: f64, after: f64) -> [f64; 2] {
    if plan.sweep > 0.0 {
        return [plan.length, (plan.radius - plan.thickness) * plan.sweep];
    }
    let (left, right) = (tangent(before), tangent(after));
    let insets = |side| {
        wall.face(side).map(|face| {
            let inset = face.inset.as_deref();
            let mm = |end: Option<&hodful_quantities::Typed<hodful_quantities::units::Length>>| {
                end.map_or(0.0, |typed| typed.value().value)
            };
            [
                mm(inset.and_then(|inset| inset.left.as_ref())),
                mm(inset.and_then(|inset| inset.right.as_ref())),
            ]
        })
    };
    // Of a face that is not plastered, the insets are those a plan would give it.
    let given = |tangent: f64| plan.thickness * tangent.max(0.0);
    let [out_left, out_right] = insets(Side::Outside).unwrap_or([given(-left), given(-right)]);
    let [in_left, in_right] = insets(Side::Inside).unwrap_or([given(left), given(right)]);
    // Elsewhere than at a re-entrant corner the outside is plastered less far than the wall goes.
    let re_entrant = |tangent: f64, inset: f64| if tangent < 0.0 { inset } else { 0.0 };
    let outside = plan.length - re_entrant(left, out_left) - re_entrant(right, out_right);
    [outside, plan.length - in_left - in_right]
}
