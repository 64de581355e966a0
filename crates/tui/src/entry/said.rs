//! What was understood, in words with values in the units of the project. Not here: understanding.

use super::line::Heard;
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Length, length_of_mm};
use hodful_takeoff::project::{
    CornerAngle, Face, Opening, OpeningShape, Reveal, RevealPart, Side, Wall, WallShape,
};

/// Walls of a building that are listed with their lengths.
const LISTED: usize = 8;

/// A length in millimetres in the units of the project.
pub(super) fn length(mm: f64, units: UnitSystem) -> String {
    print::length(length_of_mm(mm), units).to_string()
}

/// Says a wall.
pub(super) fn wall(heard: &mut Heard<'_>, wall: &Wall) {
    let many = times(wall.count);
    let line = eco_format!(
        "{many}wall {}: {}, {} thick",
        wall.id,
        outline(heard, &wall.shape),
        heard.thin(&wall.thickness)
    );
    heard.say(line);
    faces(heard, wall);
}

/// Says the walls of a building.
pub(super) fn plan(heard: &mut Heard<'_>, walls: &[Wall]) {
    let Some(first) = walls.first() else { return };
    let units = heard.units();
    let lengths = |side: Side| -> String {
        let listed = walls.iter().take(LISTED).map(|wall| {
            let length = length(face_length(wall, side), units);
            format!("{} {length}", wall.id)
        });
        let more = if walls.len() > LISTED { " ..." } else { "" };
        format!("{}{more}", listed.collect::<Vec<_>>().join(", "))
    };
    let (outside, inside) = (lengths(Side::Outside), lengths(Side::Inside));
    let line = match &first.shape {
        WallShape::Curved { .. } => eco_format!(
            "round wall {}, {} thick",
            outline(heard, &first.shape),
            heard.thin(&first.thickness)
        ),
        shape => {
            let height = match shape {
                WallShape::Rectangle { height, .. } => heard.shown(height),
                _ => String::new(),
            };
            let count = walls.len();
            let thick = heard.thin(&first.thickness);
            eco_format!("{count} walls, {height} high, {thick} thick; outside {outside}")
        }
    };
    heard.say(line);
    if first.inside.is_some() && walls.len() > 1 {
        heard.say(eco_format!("lengths inside {inside}"));
    }
    corners(heard, first);
    faces(heard, first);
}

/// The corner at the end of a wall, on both sides.
fn corners(heard: &mut Heard<'_>, wall: &Wall) {
    for end in wall.ends.iter() {
        let line = match (end.angle, &end.radius, &end.cove) {
            (CornerAngle::External, Some(radius), _) => {
                eco_format!("corners {} rounded {}", end.face.word(), heard.thin(radius))
            }
            (CornerAngle::Internal, _, Some(cove)) => {
                eco_format!("angles {} coved {}", end.face.word(), heard.thin(cove))
            }
            _ => continue,
        };
        heard.say(line);
    }
}

/// The faces of a wall.
fn faces(heard: &mut Heard<'_>, wall: &Wall) {
    for side in [Side::Outside, Side::Inside] {
        let line = wall.face(side).map_or_else(
            || eco_format!("{}: not plastered", side.word()),
            |face| face_line(heard, side, face),
        );
        heard.say(line);
    }
}

fn face_line(heard: &Heard<'_>, side: Side, face: &Face) -> EcoString {
    let mut line = eco_format!("{}: {} on {}", side.word(), face.build_up, face.background);
    if let Some(inset) = face.inset.as_deref() {
        if let Some(bottom) = &inset.bottom {
            line.push_str(&eco_format!(", from {} up", heard.shown(bottom)));
        }
        if let Some(ceiling) = &inset.ceiling {
            line.push_str(&eco_format!(", ceiling at {}", heard.shown(ceiling)));
        }
        if let Some(top) = &inset.top {
            line.push_str(&eco_format!(", {} short of the top", heard.shown(top)));
        }
    }
    line
}

fn outline(heard: &Heard<'_>, shape: &WallShape) -> EcoString {
    let shown = |length: &Typed<Length>| heard.shown(length);
    match shape {
        WallShape::Rectangle { length, height } => {
            eco_format!("{} long, {} high", shown(length), shown(height))
        }
        WallShape::Gable {
            length,
            eaves,
            ridge,
            ridge_from_left,
        } => {
            let at = match ridge_from_left {
                Some(at) => format!("{} from the left", shown(at)),
                None => "in the middle".into(),
            };
            eco_format!(
                "gable {} long, eaves at {}, ridge at {} {at}",
                shown(length),
                shown(eaves),
                shown(ridge)
            )
        }
        WallShape::Raked {
            length,
            left,
            right,
        } => eco_format!(
            "{} long, {} high at the left, {} at the right",
            shown(length),
            shown(left),
            shown(right)
        ),
        WallShape::Curved {
            radius,
            sweep,
            length,
            height,
        } => {
            let along = match (length, sweep) {
                (Some(length), _) => format!("{} long", shown(length)),
                (None, Some(sweep)) => print::angle(sweep.value(), heard.units()).to_string(),
                (None, None) => String::new(),
            };
            let (radius, height) = (shown(radius), shown(height));
            eco_format!("{along} round a radius of {radius}, {height} high")
        }
        WallShape::Polygon { corners } => eco_format!("{} corners", corners.len()),
    }
}

/// Length of a face in millimetres: that of the wall less the insets at its ends.
fn face_length(wall: &Wall, side: Side) -> f64 {
    let inset = wall.face(side).and_then(|face| face.inset.as_deref());
    let less = inset.map_or(0.0, |inset| {
        [&inset.left, &inset.right]
            .into_iter()
            .flatten()
            .map(super::values::mm)
            .sum()
    });
    wall.shape.length().map_or(0.0, |length| length.value) - less
}

fn times(count: Option<u32>) -> String {
    match count {
        Some(count) if count > 1 => format!("{count} × "),
        _ => String::new(),
    }
}

/// Says an opening; `size` is that of the box round it in millimetres.
pub(super) fn opening(
    heard: &mut Heard<'_>,
    wall: &Wall,
    opening: &Opening,
    (width, height): (f64, f64),
) {
    let units = heard.units();
    let size = match &opening.shape {
        OpeningShape::Circle { .. } => format!("{} across", length(width, units)),
        _ => format!(
            "{} wide, {} high",
            length(width, units),
            length(height, units)
        ),
    };
    let mut line = eco_format!(
        "{}{} {} in wall {}: {size}, {} from the left, sill {}",
        times(opening.count),
        opening.kind.as_deref().unwrap_or("opening"),
        opening.id,
        wall.id,
        heard.shown(&opening.from_left),
        heard.shown(&opening.sill)
    );
    if let Some(spacing) = &opening.spacing {
        line.push_str(&eco_format!(", every {}", heard.shown(spacing)));
    }
    heard.say(line);
}

/// Says where the frame stands.
pub(super) fn frame(heard: &mut Heard<'_>, opening: &Opening, supposed: bool) {
    let Some(frame) = opening.frame.as_deref() else {
        return;
    };
    let why = if supposed {
        "; in the outer third, as no frame was given yet"
    } else {
        ""
    };
    let line = eco_format!(
        "frame {} from the outside face, {} deep{why}",
        heard.thin(&frame.from_outside),
        heard.thin(&frame.depth)
    );
    heard.say(line);
}

/// Says the reveals of both sides.
pub(super) fn reveals(heard: &mut Heard<'_>, opening: &Opening) {
    for side in [Side::Outside, Side::Inside] {
        let line = opening.reveal(side).map_or_else(
            || eco_format!("{}: no reveals", side.word()),
            |reveal| reveal_line(heard, side, reveal),
        );
        heard.say(line);
    }
}

fn reveal_line(heard: &Heard<'_>, side: Side, reveal: &Reveal) -> EcoString {
    let parts: Vec<&str> = reveal.plastered.iter().map(|part| part.word()).collect();
    let mut line = eco_format!("{}: {}", side.word(), parts.join(", "));
    if let Some(splay) = reveal.splay.as_deref() {
        for (part, angle) in [
            (RevealPart::Jambs, &splay.jambs),
            (RevealPart::Head, &splay.head),
            (RevealPart::Sill, &splay.sill),
            (RevealPart::Ring, &splay.ring),
        ] {
            if let Some(angle) = angle {
                let angle = print::angle(angle.value(), heard.units());
                line.push_str(&eco_format!("; {} splayed {angle}", part.word()));
            }
        }
    }
    if let Some(radius) = &reveal.radius {
        line.push_str(&eco_format!("; edges rounded {}", heard.thin(radius)));
    }
    if let Some(lath) = &reveal.lath {
        line.push_str(&eco_format!("; lath {}", heard.thin(lath)));
    }
    line
}
