//! From the shape of a plan to its sides: lengths and turns as numbers, with what was typed of them.
//! Not here: whether they close, and the walls they make.

use super::{Faults, Measured, Plan, PlanShape, PlanSide, text, tolerance};
use core::f64::consts::{FRAC_PI_2, TAU};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::units::{Angle, Length};

/// The outline of a building, its sizes checked one by one.
#[derive(Debug)]
pub(super) enum Outline {
    /// A circle of so many millimetres.
    Round { diameter: f64 },
    /// Sides and turns.
    Ring(Walk),
}

/// Sides and turns, the building on the left.
#[derive(Debug)]
pub(super) struct Walk {
    pub(super) sides: Vec<Side>,
    /// The last turn, when it is what was left of once round and not a quarter.
    pub(super) last_turn: Option<f64>,
}

/// One side and the turn after it.
#[derive(Debug)]
pub(super) struct Side {
    /// What it is called in messages.
    pub(super) name: EcoString,
    pub(super) typed: Typed<Length>,
    /// As measured, mm.
    pub(super) length: f64,
    /// Radians, more than 0 to the left.
    pub(super) turn: f64,
    pub(super) typed_turn: Option<Typed<Angle>>,
    /// Tangent of half the turn, with its sign.
    pub(super) tangent: f64,
}

impl Side {
    fn new(name: impl Into<EcoString>, typed: &Typed<Length>, length: f64, turn: f64) -> Self {
        let quarters = (turn / FRAC_PI_2).round();
        let turn = if (turn - quarters * FRAC_PI_2).abs() < tolerance::SAME_TURN {
            quarters * FRAC_PI_2
        } else {
            turn
        };
        Self {
            name: name.into(),
            typed: typed.clone(),
            length,
            turn,
            typed_turn: None,
            tangent: tangent(turn),
        }
    }
}

/// Tangent of half a turn; of a quarter turn exactly 1, so that a thickness stays what it is.
pub(super) fn tangent(turn: f64) -> f64 {
    if (turn.abs() - FRAC_PI_2).abs() < tolerance::SAME_TURN {
        turn.signum()
    } else if turn.abs() < tolerance::SAME_TURN {
        0.0
    } else {
        libm::tan(turn / 2.0)
    }
}

impl Walk {
    /// The tangents of half the turns at the left and right end of each side.
    pub(super) fn tangents(&self) -> impl Iterator<Item = [f64; 2]> + '_ {
        let before = self.sides.last().into_iter().chain(&self.sides);
        before
            .zip(&self.sides)
            .map(|(before, side)| [before.tangent, side.tangent])
    }

    /// Lengths of the outside faces, mm.
    pub(super) fn outside_lengths(&self, measured: Measured, thickness: f64) -> Vec<f64> {
        self.lengths(match measured {
            Measured::Outside => 0.0,
            Measured::Inside => thickness,
        })
    }

    /// Lengths of the inside faces, mm; not above nothing where the walls are too thick.
    pub(super) fn inside_lengths(&self, measured: Measured, thickness: f64) -> Vec<f64> {
        self.lengths(match measured {
            Measured::Outside => -thickness,
            Measured::Inside => 0.0,
        })
    }

    /// Lengths of faces `outwards` of the measured ones.
    fn lengths(&self, outwards: f64) -> Vec<f64> {
        std::iter::zip(&self.sides, self.tangents())
            .map(|(side, [left, right])| side.length + outwards * (left + right))
            .collect()
    }
}

/// The outline of a plan; `None` when one of its sizes cannot be.
pub(super) fn outline(plan: &Plan, faults: &mut Faults) -> Option<Outline> {
    match &plan.shape {
        PlanShape::Round { diameter } => faults
            .size("diameter", diameter)
            .map(|diameter| Outline::Round { diameter }),
        PlanShape::Rectangle { length, width } => {
            let (long, wide) = (faults.size("length", length), faults.size("width", width));
            let (long, wide) = (long?, wide?);
            Some(square(vec![
                Side::new("length", length, long, FRAC_PI_2),
                Side::new("width", width, wide, FRAC_PI_2),
                Side::new("length", length, long, FRAC_PI_2),
                Side::new("width", width, wide, FRAC_PI_2),
            ]))
        }
        PlanShape::Ell {
            length,
            width,
            cut_length,
            cut_width,
        } => {
            let along = cut(faults, plan, ["length", "cut_length"], [length, cut_length]);
            let across = cut(faults, plan, ["width", "cut_width"], [width, cut_width]);
            let ([long, cut_long, rest_long], rest_length) = along?;
            let ([wide, cut_wide, rest_wide], rest_width) = across?;
            Some(square(vec![
                Side::new("length", length, long, FRAC_PI_2),
                Side::new("width less cut_width", &rest_width, rest_wide, FRAC_PI_2),
                Side::new("cut_length", cut_length, cut_long, -FRAC_PI_2),
                Side::new("cut_width", cut_width, cut_wide, FRAC_PI_2),
                Side::new("length less cut_length", &rest_length, rest_long, FRAC_PI_2),
                Side::new("width", width, wide, FRAC_PI_2),
            ]))
        }
        PlanShape::Ring { sides } => ring(sides, faults).map(Outline::Ring),
    }
}

fn square(sides: Vec<Side>) -> Outline {
    Outline::Ring(Walk {
        sides,
        last_turn: None,
    })
}

/// A whole size, what is cut from it and what is left, mm, and the text of what is left.
fn cut(
    faults: &mut Faults,
    plan: &Plan,
    names: [&str; 2],
    typed: [&Typed<Length>; 2],
) -> Option<([f64; 3], Typed<Length>)> {
    let sizes: [Option<f64>; 2] = std::array::from_fn(|i| match (names.get(i), typed.get(i)) {
        (Some(name), Some(typed)) => faults.size(name, typed),
        _ => None,
    });
    let [Some(whole), Some(cut)] = sizes else {
        return None;
    };
    let rest = whole - cut;
    if rest < tolerance::LEAST_SIZE {
        let [[name, cut_name], [whole, cut]] = [names, typed.map(Typed::text)];
        faults.add(eco_format!(
            "{cut_name}: '{cut}' leaves nothing of the {name} '{whole}'; a rectangle has no cut"
        ));
        return None;
    }
    match text::length(rest, plan.units) {
        Ok(typed) => Some(([whole, cut, rest], typed)),
        Err(why) => {
            faults.add(why);
            None
        }
    }
}

fn ring(typed: &[PlanSide], faults: &mut Faults) -> Option<Walk> {
    let count = typed.len();
    if count < 3 {
        faults.add(eco_format!(
            "sides: {count} cannot close; a ring takes at least three"
        ));
        return None;
    }
    if count > tolerance::MOST_SIDES {
        faults.add(eco_format!(
            "sides: {count} are more than {}; enter the building in parts",
            tolerance::MOST_SIDES
        ));
        return None;
    }
    let mut sound = true;
    let mut sides: Vec<Side> = Vec::with_capacity(count);
    let mut turned = 0.0;
    let mut last_turn = None;
    for (number, side) in (1..).zip(typed) {
        let name = eco_format!("side {number}");
        let length = faults.size(&eco_format!("{name}, length"), &side.length);
        let turn = match &side.turn {
            Some(turn) => turn.value().value,
            None if number == count && (TAU - turned).abs() <= tolerance::MOST_TURN => {
                let rest = TAU - turned;
                let quarter = (rest - FRAC_PI_2).abs() < tolerance::SAME_TURN;
                last_turn = (!quarter).then_some(rest);
                rest
            }
            None => FRAC_PI_2,
        };
        if let Some(typed) = &side.turn
            && (turn.is_nan() || turn.abs() > tolerance::MOST_TURN)
        {
            faults.add(eco_format!(
                "{name}, turn: '{}' is over 170°, which no two walls make",
                typed.text()
            ));
            sound = false;
        }
        turned += turn;
        let mut made = Side::new(name, &side.length, length.unwrap_or_default(), turn);
        made.typed_turn.clone_from(&side.turn);
        sides.push(made);
        sound &= length.is_some();
    }
    sound.then_some(Walk { sides, last_turn })
}
