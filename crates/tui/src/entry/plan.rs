//! The walls of a building from what was heard. Not here: what a plan comes to (see
//! [`hodful_takeoff::plan`]).

use super::line::{Heard, PlanForm, Value};
use super::words::Word;
use super::{Change, Context, known, said, wall};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::units::Angle;
use hodful_takeoff::plan::{FacePlan, Measured, Plan, PlanShape, PlanSide, read_turn, walls};
use hodful_takeoff::project::Side;
use std::sync::Arc;

/// The walls of the building that was heard.
pub(super) fn make(heard: &mut Heard<'_>, context: &Context<'_>) -> Option<Change> {
    let last = context.project.walls.last().map(Arc::as_ref);
    let shape = shape(heard)?;
    let height = wall::height(heard, last)?;
    let thickness = wall::thickness(heard, last)?;
    let mut plan = Plan::new(shape, height, thickness, heard.units());
    if heard.has(Word::Clear) {
        plan.measured = Measured::Inside;
    }
    plan.ceiling = wall::ceiling(heard, Side::Inside);
    if wall::ceiling(heard, Side::Outside).is_some() {
        heard.refuse("a building has its ceiling inside; take out 'outside' before it");
    }
    let [outside, inside] = [Side::Outside, Side::Inside].map(|side| face(heard, side));
    (plan.outside, plan.inside) = (outside.ok()?, inside.ok()?);
    if plan.outside.is_none() && plan.inside.is_none() {
        heard.refuse("no side is plastered; take out one 'only'");
        return None;
    }
    // Names are given below, against all walls of the project at once.
    match walls(&plan, &[]) {
        Ok(mut walls) => {
            known::free_ids(&mut walls, context.project);
            for wall in &mut walls {
                keep_off_rain(wall, context);
            }
            said::plan(heard, &walls);
            Some(Change::Walls(walls))
        }
        Err(faults) => {
            let faults: Vec<&str> = faults.iter().map(EcoString::as_str).collect();
            heard.refuse(faults.join("; "));
            None
        }
    }
}

/// Rain reaches a face as it does the faces it is like.
fn keep_off_rain(wall: &mut hodful_takeoff::project::Wall, context: &Context<'_>) {
    for (side, face) in [
        (Side::Outside, &mut wall.outside),
        (Side::Inside, &mut wall.inside),
    ] {
        if let Some(face) = face {
            face.rain = known::face(context.project, side)
                .ok()
                .and_then(|face| face.rain);
        }
    }
}

fn shape(heard: &mut Heard<'_>) -> Option<PlanShape> {
    let mut sizes = heard.size.iter().cloned();
    let (first, second) = (sizes.next(), sizes.next());
    let example = heard.example(Word::Less);
    match heard.form {
        PlanForm::Round => {
            let Some(diameter) = first else {
                let example = heard.example(Word::Radius);
                heard.lacks(eco_format!("of what diameter outside? Add: {example}"));
                return None;
            };
            Some(PlanShape::Round { diameter })
        }
        PlanForm::Sides if !heard.sides.is_empty() => Some(PlanShape::Ring {
            sides: ring(heard, first?)?,
        }),
        PlanForm::Sides | PlanForm::Ell => {
            let (Some(length), Some(width)) = (first, second) else {
                heard.lacks(eco_format!(
                    "how long and how wide outside? As in: {example}"
                ));
                return None;
            };
            if heard.form == PlanForm::Sides {
                return Some(PlanShape::Rectangle { length, width });
            }
            let cut = heard.notes.iter().find_map(|note| match &note.value {
                Value::Size(cut) => Some(cut.clone()),
                _ => None,
            });
            let Some([cut_length, cut_width]) = cut else {
                let message = heard.add("less what at the north-east corner?", Word::Less);
                heard.lacks(message);
                return Some(PlanShape::Rectangle { length, width });
            };
            Some(PlanShape::Ell {
                length,
                width,
                cut_length,
                cut_width,
            })
        }
    }
}

/// The sides of a ring, each with the turn after it.
fn ring(
    heard: &mut Heard<'_>,
    first: Typed<hodful_quantities::units::Length>,
) -> Option<Vec<PlanSide>> {
    let mut sides = vec![PlanSide {
        length: first,
        turn: None,
    }];
    let turned = heard.sides.clone();
    let count = turned.len();
    for (at, turned) in turned.into_iter().enumerate() {
        match angle(turned.right, turned.turn.as_ref()) {
            Ok(turn) => {
                if let Some(side) = sides.last_mut() {
                    side.turn = Some(turn);
                }
            }
            Err(why) => {
                heard.refuse(why);
                return None;
            }
        }
        match turned.length {
            Some(length) => sides.push(PlanSide { length, turn: None }),
            // Back into the first side.
            None if at + 1 == count => {}
            None => {
                let example = heard.second();
                heard.lacks(eco_format!(
                    "how long is the side after each turn? As in: left {example}"
                ));
                return None;
            }
        }
    }
    Some(sides)
}

fn angle(right: bool, turn: Option<&Typed<Angle>>) -> Result<Typed<Angle>, EcoString> {
    let word = if right { "right" } else { "left" };
    read_turn(&match turn {
        Some(turn) => eco_format!("{word} {}", turn.text()),
        None => word.into(),
    })
}

/// What the faces of a side are to have.
fn face(heard: &mut Heard<'_>, side: Side) -> Result<Option<FacePlan>, ()> {
    if heard.is_left_out(side) {
        return Ok(None);
    }
    let face = wall::plain_face(heard, side)?;
    Ok(Some(FacePlan {
        base: heard.length_on(Word::Base, side).cloned(),
        radius: heard.length_on(Word::Rounded, side).cloned(),
        cove: heard.length_on(Word::Cove, side).cloned(),
        ..FacePlan::new(face.background, face.build_up)
    }))
}
