//! Pockets from what was heard. Not here: the words.

use super::line::Heard;
use super::words::Word;
use super::{Change, Context, opening, values};
use ecow::eco_format;
use hodful_takeoff::project::{Pocket, Side};

/// Depth in inches and in millimetres of a pocket in a sketch, while none is said.
const SKETCHED: (u32, u32) = (2, 50);

/// The pocket that was heard.
pub(super) fn make(heard: &mut Heard<'_>, context: &Context<'_>) -> Option<Change> {
    let position = opening::wall_for(heard, context)?;
    let wall = context.project.walls.get(position)?;
    let last = wall.pockets.last().or_else(|| {
        let mut walls = context.project.walls.iter().rev();
        walls.find_map(|wall| wall.pockets.last())
    });
    let missing = eco_format!("how large? Add: {}", heard.example(Word::Less));
    let mut sizes = heard.size.iter().cloned();
    let (width, height) = match (sizes.next(), sizes.next(), last) {
        (Some(width), Some(height), _) => (width, height),
        (Some(width), None, _) => {
            heard.lacks(missing);
            (width.clone(), width)
        }
        (None, _, Some(last)) => (last.width.clone(), last.height.clone()),
        (None, ..) => {
            heard.lacks(missing);
            return None;
        }
    };
    let said = heard.length(Word::Deep).cloned();
    let depth = if let Some(depth) = said.or_else(|| last.map(|last| last.depth.clone())) {
        depth
    } else {
        let message = heard.add("how deep?", Word::Deep);
        heard.lacks(message);
        values::of(SKETCHED.0, SKETCHED.1, heard.units())?
    };
    let plastered = |side: &Side| wall.face(*side).is_some();
    let face = heard
        .side
        .or_else(|| last.map(|last| last.face).filter(plastered))
        .unwrap_or(if plastered(&Side::Inside) {
            Side::Inside
        } else {
            Side::Outside
        });
    if !plastered(&face) {
        let (side, id) = (face.word(), &wall.id);
        heard.refuse(eco_format!(
            "wall {id} is not plastered {side}; say the other side"
        ));
    }
    let many = heard
        .count
        .map_or_else(String::new, |count| format!("{count} × "));
    let line = eco_format!(
        "{many}pocket in wall {}, {}: {} wide, {} high, {} deep",
        wall.id,
        face.word(),
        heard.shown(&width),
        heard.shown(&height),
        heard.thin(&depth)
    );
    heard.say(line);
    Some(Change::Pocket {
        wall: position,
        pocket: Pocket {
            face,
            width,
            height,
            depth,
            count: heard.count,
        },
    })
}
