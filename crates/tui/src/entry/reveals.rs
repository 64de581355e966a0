//! The frame and the reveals of an opening from what was heard. Not here: its size and place.

use super::known::Like;
use super::line::{Form, Heard, Noun, OpeningKind, Value};
use super::values;
use super::words::Word;
use hodful_quantities::Typed;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::units::Length;
use hodful_takeoff::project::{Frame, Opening, Reveal, RevealPart, Side, Splay, Wall};
use std::sync::Arc;

/// Share of the thickness of a wall before a frame, and that of the frame itself, when neither is known:
/// so it stands in the outer third, out of the rain and with most of the reveal inside. Common practice,
/// no source.
const OUTER: f64 = 1.0 / 6.0;

/// What a supposed frame is rounded to: a quarter of an inch, or five millimetres.
fn step(units: UnitSystem) -> f64 {
    match units {
        UnitSystem::Us => 6.35,
        UnitSystem::Metric => 5.0,
    }
}

/// The frame of a new opening.
#[derive(Debug)]
pub(super) struct Framed {
    pub(super) frame: Arc<Frame>,
    /// Whether the line says where it stands or how deep it is.
    pub(super) said: bool,
    /// Whether it is supposed, as nothing is known.
    pub(super) supposed: bool,
}

/// The frame: said, as that of the last opening, or supposed to be in the outer third of the wall.
pub(super) fn frame(
    kind: OpeningKind,
    heard: &Heard<'_>,
    wall: &Wall,
    like: &Like<'_>,
) -> Option<Framed> {
    let is_passage = kind.noun.unwrap_or(Noun::Opening) == Noun::Opening;
    let from_outside = heard.length(Word::Frame).cloned();
    let depth = heard.length(Word::Deep).cloned();
    let said = from_outside.is_some() || depth.is_some();
    let thickness = values::mm(&wall.thickness);
    let fits = |frame: &&Arc<Frame>| {
        values::mm(&frame.from_outside) + values::mm(&frame.depth) <= thickness
    };
    let framed = |opening: Option<&'_ Opening>| opening.and_then(|o| o.frame.clone());
    let any = if is_passage { None } else { framed(like.any) };
    let before = framed(like.noun).or(any);
    if let (Some(before), false) = (before.as_ref().filter(fits), said) {
        return Some(Framed {
            frame: Arc::clone(before),
            said,
            supposed: false,
        });
    }
    let units = heard.units();
    let supposed = |least: f64| -> Option<Typed<Length>> {
        let share = (thickness * OUTER / step(units)).round() * step(units);
        values::worked_out(share.max(least), units)
    };
    // Before the frame there is room for the rounded edge.
    let radius = heard
        .length_on(Word::Rounded, Side::Outside)
        .map_or(0.0, values::mm);
    let none = || values::of(0, 0, units);
    let (first, second) = if is_passage {
        (none()?, none()?)
    } else {
        (supposed(radius)?, supposed(0.0)?)
    };
    let frame = Frame {
        from_outside: from_outside
            .or_else(|| Some(before.as_ref()?.from_outside.clone()))
            .unwrap_or(first),
        depth: depth
            .or_else(|| Some(before.as_ref()?.depth.clone()))
            .unwrap_or(second),
    };
    Some(Framed {
        frame: Arc::new(frame),
        said,
        supposed: !said && !is_passage,
    })
}

/// The reveals on a side: what was said, then as those of the last of the kind, then the usual ones.
/// `None` where there are none, and where the wall is not plastered.
pub(super) fn reveal(
    kind: OpeningKind,
    side: Side,
    heard: &Heard<'_>,
    wall: &Wall,
    like: &Like<'_>,
) -> Option<Arc<Reveal>> {
    let told = |word: Word| heard.on(word, side);
    if heard.is_left_out(side) || told(Word::Bare).is_some() || wall.face(side).is_none() {
        return None;
    }
    let of = |opening: Option<&Opening>| opening.and_then(|opening| held(opening, side).cloned());
    let before = of(like.noun);
    let new = heard.notes.iter().any(|note| {
        note.side == Some(side) && matches!(note.word, Word::Rounded | Word::Splay | Word::Lath)
    });
    if like.noun.is_some() && before.is_none() && !new {
        return None;
    }
    // Edges are alike all over a building; a splay belongs to its kind.
    let edges = before.clone().or_else(|| of(like.any));
    let round = kind.form == Form::Round;
    let is_ring = |reveal: &&Arc<Reveal>| reveal.plastered.contains(&RevealPart::Ring) == round;
    let like_parts = before.as_ref().filter(is_ring);
    let plastered = like_parts.map_or_else(|| usual(kind, side), |r| r.plastered.clone());
    let mut splay = like_parts
        .and_then(|reveal| reveal.splay.as_deref().cloned())
        .unwrap_or_default();
    for of in [None, Some(side)] {
        for note in heard.notes.iter().filter(|note| note.side == of) {
            if let (Word::Splay, Value::Angle(part, angle)) = (note.word, &note.value) {
                open_out(&mut splay, kind.form, *part, angle);
            }
        }
    }
    let size = |word: Word, before: Option<Typed<Length>>| {
        let size = heard.length_on(word, side).cloned().or(before);
        size.filter(|size| values::mm(size) > 0.0)
    };
    let reveal = Reveal {
        plastered,
        splay: (splay != Splay::default()).then(|| Box::new(splay)),
        radius: size(Word::Rounded, edges.as_ref().and_then(|r| r.radius.clone())),
        lath: size(Word::Lath, edges.as_ref().and_then(|r| r.lath.clone())),
    };
    Some(match before {
        Some(before) if *before == reveal => before,
        _ => Arc::new(reveal),
    })
}

fn held(opening: &Opening, side: Side) -> Option<&Arc<Reveal>> {
    match side {
        Side::Outside => opening.outside.as_ref(),
        Side::Inside => opening.inside.as_ref(),
    }
}

/// The parts that are plastered when nothing is known: all round inside a window, no sill where a
/// window throws water off or a door is walked through. Common practice, no source.
fn usual(kind: OpeningKind, side: Side) -> Vec<RevealPart> {
    use RevealPart::{Head, Jambs, Ring, Sill};
    match (kind.form, kind.noun, side) {
        (Form::Round, ..) => vec![Ring],
        (_, Some(Noun::Window), Side::Inside) => vec![Jambs, Head, Sill],
        _ => vec![Jambs, Head],
    }
}

/// Splays one part, or the upright sides and what has to go with them: an arch splays with its jambs.
fn open_out(
    splay: &mut Splay,
    form: Form,
    part: Option<RevealPart>,
    angle: &Typed<hodful_quantities::units::Angle>,
) {
    let angle = Some(angle.clone());
    match (part, form) {
        (Some(RevealPart::Ring), _) | (None, Form::Round) => splay.ring = angle,
        (Some(RevealPart::Head), _) => splay.head = angle,
        (Some(RevealPart::Sill), _) => splay.sill = angle,
        (None, Form::Arched) => {
            splay.head.clone_from(&angle);
            splay.jambs = angle;
        }
        (Some(RevealPart::Jambs), _) | (None, Form::Square) => splay.jambs = angle,
    }
}
