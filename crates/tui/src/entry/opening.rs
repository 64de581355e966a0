//! Openings from what was heard: where they stand and how large they are. Not here: their reveals.

use super::known::Like;
use super::line::{Form, Heard, Noun, OpeningKind, Value};
use super::words::Word;
use super::{Change, Context, reveals, said, values};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::units::Length;
use hodful_takeoff::project::{ArchKind, End, Name, Opening, OpeningShape, Side, Wall};
use std::sync::Arc;

/// Sill in inches and in millimetres of a window in a sketch, while none is said.
const SKETCHED_SILL: (u32, u32) = (32, 800);

impl Noun {
    /// The word for it.
    fn word(self) -> &'static str {
        match self {
            Self::Window => "window",
            Self::Door => "door",
            Self::Opening => "opening",
        }
    }
}

impl OpeningKind {
    /// What it is called when no name is given.
    fn name(self) -> Name {
        let noun = self.noun.unwrap_or(Noun::Opening).word();
        match self.form {
            Form::Square => noun.into(),
            Form::Arched => eco_format!("arched {noun}"),
            Form::Round => eco_format!("round {noun}"),
        }
    }
}

/// The opening that was heard.
pub(super) fn make(
    kind: OpeningKind,
    heard: &mut Heard<'_>,
    context: &Context<'_>,
) -> Option<Change> {
    let position = wall_for(heard, context)?;
    let wall = context.project.walls.get(position)?;
    let noun = kind.noun.unwrap_or(Noun::Opening);
    let like = Like::find(context, noun, kind.form);
    let mut as_before: Vec<&'static str> = Vec::new();
    let shape = shape(kind.form, heard, like.same, &mut as_before)?;
    let sill = sill(noun, heard, like.same.or(like.noun), &mut as_before)?;
    let [width, height] = shape.size().map(|length| length.value);
    let (from_left, spacing) = place(heard, wall, width)?;
    let frame = reveals::frame(kind, heard, wall, &like);
    let reveal = |side| reveals::reveal(kind, side, heard, wall, &like);
    let (outside, inside) = (reveal(Side::Outside), reveal(Side::Inside));
    let plastered = outside.is_some() || inside.is_some();
    let frame = frame.filter(|frame| plastered || frame.said);
    if like.noun.is_some() && plastered {
        let new = [Word::Splay, Word::Rounded, Word::Lath, Word::Bare];
        if !new.iter().all(|word| heard.has(*word)) {
            as_before.push("reveals");
        }
    }
    let id = match heard.name(Word::Id) {
        Some(id) => id.clone(),
        None => free_id(wall, like.id(noun)),
    };
    if wall.openings.iter().any(|opening| opening.id == id) {
        heard.refuse(eco_format!(
            "wall {} has {id} already; give another id",
            wall.id
        ));
    }
    let opening = Opening {
        id,
        kind: Some(
            heard
                .name(Word::Name)
                .cloned()
                .unwrap_or_else(|| kind.name()),
        ),
        count: heard.count.filter(|count| *count > 1),
        spacing,
        shape,
        from_left,
        sill,
        frame: frame.as_ref().map(|frame| Arc::clone(&frame.frame)),
        outside,
        inside,
    };
    said::opening(heard, wall, &opening, (width, height));
    if let Some(frame) = &frame {
        said::frame(heard, &opening, frame.supposed);
    }
    said::reveals(heard, &opening);
    if let Some(before) = like.same.or(like.noun).filter(|_| !as_before.is_empty()) {
        heard.say(eco_format!("as in {}: {}", before.id, as_before.join(", ")));
    }
    Some(Change::Opening {
        wall: position,
        opening,
    })
}

/// The wall a thing goes into: named first, chosen, or the only one.
pub(super) fn wall_for(heard: &mut Heard<'_>, context: &Context<'_>) -> Option<usize> {
    let walls = &context.project.walls;
    let position = heard
        .wall
        .or(context.wall)
        .filter(|at| *at < walls.len())
        .or((walls.len() == 1).then_some(0));
    if position.is_none() {
        match walls.first() {
            None => heard.refuse("there is no wall yet; begin with: plan, or wall"),
            Some(wall) => heard.refuse(eco_format!(
                "in which wall? Choose one, or name it first, as in: {} window",
                wall.id
            )),
        }
    }
    position
}

/// An id that the wall does not have, beginning with the one that is next in the project.
fn free_id(wall: &Wall, id: Name) -> Name {
    let mut free = id;
    while wall.openings.iter().any(|opening| opening.id == free) {
        free = eco_format!("{free}'");
    }
    free
}

fn shape(
    form: Form,
    heard: &mut Heard<'_>,
    same: Option<&Opening>,
    as_before: &mut Vec<&'static str>,
) -> Option<OpeningShape> {
    let mut sizes = heard.size.iter().cloned();
    let (first, second) = (sizes.next(), sizes.next());
    let Some(width) = first else {
        let Some(same) = same else {
            let (door, across) = match heard.units() {
                hodful_quantities::print::UnitSystem::Us => ("3' x 6'8\"", "2'"),
                hodful_quantities::print::UnitSystem::Metric => ("900 x 2000", "600"),
            };
            heard.lacks(match form {
                Form::Round => eco_format!("how large across? Add: {across}"),
                Form::Square | Form::Arched => eco_format!("how wide and high? Add: {door}"),
            });
            return None;
        };
        as_before.push("size");
        return Some(same.shape.clone());
    };
    if form == Form::Round {
        return Some(OpeningShape::Circle { diameter: width });
    }
    let springing = heard.length(Word::Springing).cloned();
    let height = if let Some(height) = second {
        height
    } else {
        let before = same.and_then(|same| match &same.shape {
            OpeningShape::Rectangle { height, .. } => Some(height.clone()),
            _ => None,
        });
        if before.is_none() && springing.is_none() {
            let example = heard.second();
            heard.lacks(eco_format!("how high? Add: x {example}"));
        }
        // As high as wide, to draw.
        before.unwrap_or_else(|| width.clone())
    };
    if form == Form::Square {
        return Some(OpeningShape::Rectangle { width, height });
    }
    let rise = heard.length(Word::Rise).cloned();
    let head = match (&rise, heard.has(Word::Elliptical)) {
        (_, true) => ArchKind::Elliptical,
        (None, false) => ArchKind::Semicircular,
        (Some(_), false) => ArchKind::Segmental,
    };
    let up = rise.as_ref().map_or(values::mm(&width) / 2.0, values::mm);
    let springing = if let Some(springing) = springing {
        springing
    } else {
        let left = values::mm(&height) - up;
        if left < 0.0 {
            let high = heard.shown(&height);
            heard.refuse(eco_format!(
                "the arch rises more than the {high} of the whole height"
            ));
        }
        values::worked_out(left.max(0.0), heard.units())?
    };
    Some(OpeningShape::Arched {
        width,
        springing,
        rise,
        head: Some(head),
    })
}

fn sill(
    noun: Noun,
    heard: &mut Heard<'_>,
    before: Option<&Opening>,
    as_before: &mut Vec<&'static str>,
) -> Option<Typed<Length>> {
    if let Some(sill) = heard.length(Word::Sill) {
        return Some(sill.clone());
    }
    if let Some(before) = before {
        as_before.push("sill");
        return Some(before.sill.clone());
    }
    if noun != Noun::Window {
        return values::of(0, 0, heard.units());
    }
    let message = heard.add("how high is the sill?", Word::Sill);
    heard.lacks(message);
    values::of(SKETCHED_SILL.0, SKETCHED_SILL.1, heard.units())
}

/// From the left end to the first, and from one to the next. `width` in millimetres.
fn place(
    heard: &mut Heard<'_>,
    wall: &Wall,
    width: f64,
) -> Option<(Typed<Length>, Option<Typed<Length>>)> {
    let units = heard.units();
    let length = wall.shape.length().map_or(0.0, |length| length.value);
    let count = f64::from(heard.count.unwrap_or(1));
    let every = heard.length(Word::Every).cloned();
    let at = heard.length(Word::At).cloned();
    // Spread evenly, with as much at the ends as between.
    let gap = (length - count * width) / (count + 1.0);
    let several = heard.count.is_some_and(|count| count > 1);
    let spacing = match every {
        Some(every) => Some(every),
        None if several && at.is_none() => Some(values::worked_out(gap + width, units)?),
        None if several => {
            let message = heard.add("how far from one to the next?", Word::Every);
            heard.lacks(message);
            Some(values::worked_out(2.0 * width, units)?)
        }
        None => None,
    };
    let spacing = spacing.filter(|_| several);
    let across = width + (count - 1.0) * spacing.as_ref().map_or(0.0, values::mm);
    if across > length {
        let (id, long) = (&wall.id, said::length(length, units));
        heard.refuse(eco_format!(
            "wall {id} is {long} long, which is too short for it"
        ));
    }
    let from_right = heard
        .notes
        .iter()
        .any(|note| note.value == Value::End(End::Right));
    let from_left = match at {
        Some(at) if !from_right => at,
        Some(at) => {
            let from_left = length - across - values::mm(&at);
            if from_left < 0.0 {
                let message: EcoString = eco_format!(
                    "{} from the right end is beyond the left end of wall {}",
                    heard.shown(&at),
                    wall.id
                );
                heard.refuse(message);
            }
            values::worked_out(from_left.max(0.0), units)?
        }
        None => values::worked_out(((length - across) / 2.0).max(0.0), units)?,
    };
    Some((from_left, spacing))
}
