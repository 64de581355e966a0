//! The entry line: a whole wall, opening or building in words of the trade, understood at each key.
//!
//! [`understand`] reads a line and says what it would do to the project, what it took the words for,
//! what may come next, and what is missing. Not here: the screen, the history of lines, undo.
//!
//! The grammar is small: a thing, its sizes, then words with a value each in any order. A word may be
//! shortened while only one word it could be stands at that place. What is left out is as in the last
//! wall or opening of the kind. A bare number is in inches or millimetres, after `splay` and `sweep`
//! in degrees. [`GRAMMAR`] is the whole of it by examples.

mod change;
mod known;
mod line;
mod opening;
mod pieces;
mod plan;
mod pocket;
mod reveals;
mod said;
mod tolerance;
mod values;
mod wall;
mod words;

#[cfg(test)]
mod tests;

pub use change::Change;

use core::ops::Range;
use ecow::EcoString;
use hodful_takeoff::Project;

/// What the line is read against.
#[derive(Debug, Clone, Copy)]
pub struct Context<'a> {
    /// The project.
    pub project: &'a Project,
    /// Position of the chosen wall, into which openings go that name none.
    pub wall: Option<usize>,
    /// Position of the chosen opening in that wall: what a new one leaves out is as in it when it is of
    /// the kind, and as in the last of the kind when it is not.
    pub opening: Option<usize>,
}

/// What a line was understood as.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Reading {
    /// The parts of the line and what each was taken for, in order, never across one another.
    pub spans: Vec<Span>,
    /// What the line would do. With a `fault` it is only a sketch to draw while the line is typed:
    /// sizes that are still missing are stood in for. See [`Reading::ready`].
    pub change: Option<Change>,
    /// The first thing that is wrong or missing.
    pub fault: Option<Fault>,
    /// What is understood, in words, values in the units of the project; a line each.
    pub said: Vec<EcoString>,
    /// What may come at the cursor, in words.
    pub expects: EcoString,
    /// How the word at the cursor may go on.
    pub completions: Vec<Completion>,
}

impl Reading {
    /// The change, when nothing is wrong or missing: what Enter does.
    pub fn ready(&self) -> Option<&Change> {
        self.change.as_ref().filter(|_| self.fault.is_none())
    }
}

/// A part of the line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Span {
    /// Its bytes in the line, on whole characters.
    pub range: Range<usize>,
    /// What it was taken for.
    pub role: Role,
}

/// What a part of the line was taken for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// A word of the grammar.
    Word,
    /// A size, an angle or a number of things.
    Value,
    /// A name: of a wall, a build-up, a background, or one that is given.
    Name,
    /// Not understood.
    Wrong,
}

/// What is wrong or missing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Where in the line, on whole characters; empty where something is missing.
    pub range: Range<usize>,
    /// What it is and what to do, in words.
    pub message: EcoString,
}

/// One way the word at the cursor may go on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Completion {
    /// The word or name as a whole.
    pub word: EcoString,
    /// What is to be inserted at the cursor.
    pub text: EcoString,
    /// What the word means.
    pub meaning: &'static str,
}

/// The grammar by examples: what may be typed and what it means, a row a line of the help.
pub const GRAMMAR: &[(&str, &str)] = &[
    (
        "plan 36' x 24' high 9' thick 18\" rounded 2\" inside cove 1 1/2\"",
        "four walls by outside sizes, both faces; also `plan round 24'`, `plan L 36' x 24' less 12' x 8'`",
    ),
    (
        "plan 30' left 20' left 30' left 20' high 9' thick 18\"",
        "a ring of sides and turns, walked with the building on the left; `left 45°` for another angle",
    ),
    (
        "wall 24' x 9' thick 18\" base 4\" ceiling 8'6\"",
        "one wall; base and ceiling say where its plaster begins and ends",
    ),
    (
        "gable 24' x 9' ridge 14'",
        "also `raked 24' x 9' to 11'`, `curved 30' x 9' radius 20'`",
    ),
    (
        "window 4' x 3' at 6' sill 2'8\"",
        "in the chosen wall, or in one named first: `S window ...`; without `at` in the middle",
    ),
    (
        "arched door 3' x 7' rise 1' at 6' from right",
        "the height is to the crown; without `rise` half a circle; also `round window 2' sill 5'`",
    ),
    (
        "3 windows 2'6\" x 4' sill 30 every 9'",
        "alike, left edge to left edge; without `every` spread evenly",
    ),
    (
        "door 3' x 6'8\" frame 4\" deep 3\" splay 20 rounded 2\" lath 6\"",
        "from the outside to the frame, its depth, and the reveals: splay, edges, lath, or `bare`",
    ),
    (
        "door 3' x 6'8\" outside bare inside rounded 2\" splay 15",
        "the words after `inside` or `outside` are for that side; `only`: the other has no plaster",
    ),
    (
        "2 pockets 12\" x 12\" deep 2\" inside",
        "hollows filled on their own; `on`, `with`, `name`, `id`: background, build-up, names",
    ),
];

/// Understands a line as far as it goes. `cursor` is the byte the cursor stands at; one beyond the end,
/// or inside a character, is taken as the next place before it that is none.
///
/// ```
/// use hodful_tui::entry::{Context, understand};
/// # let demo = hodful_project_file::demo_projects().find(|d| d.name == "thistlebank-workshop").unwrap();
/// # let project = hodful_project_file::read(demo.bytes).unwrap();
/// let context = Context { project: &project, wall: None, opening: None };
/// let line = "N window 2' x 2' at 3' sill 5'";
/// let reading = understand(line, line.len(), &context);
/// assert_eq!(reading.fault, None);
/// assert_eq!(reading.said[0], "window W5 in wall N: 2' wide, 2' high, 3' from the left, sill 5'");
/// ```
pub fn understand(line: &str, cursor: usize, context: &Context<'_>) -> Reading {
    let mut heard = line::hear(line, cursor, context);
    let change = match &heard.thing {
        None => None,
        Some(line::Thing::Plan) => plan::make(&mut heard, context),
        Some(line::Thing::Wall(shape)) => wall::make(*shape, &mut heard, context),
        Some(line::Thing::Opening(kind)) => opening::make(*kind, &mut heard, context),
        Some(line::Thing::Pocket) => pocket::make(&mut heard, context),
    };
    heard.into_reading(change)
}
