//! Which words may stand at each place of a line, and which sizes. Not here: what they do.

use super::super::words::Word;
use super::{Form, Heard, PlanForm, Thing, WallKind};
use hodful_takeoff::project::Side;

/// What begins a line.
pub(super) const HEADS: &[Word] = &[
    Word::Plan,
    Word::Wall,
    Word::Gable,
    Word::Raked,
    Word::Curved,
    Word::Window,
    Word::Door,
    Word::Opening,
    Word::Arched,
    Word::Round,
    Word::Pocket,
];

/// What stands in a wall.
pub(super) const IN_WALL: &[Word] = &[
    Word::Window,
    Word::Door,
    Word::Opening,
    Word::Arched,
    Word::Round,
    Word::Pocket,
];

/// What there can be several of.
pub(super) const SEVERAL: &[Word] = &[
    Word::Of,
    Word::Window,
    Word::Door,
    Word::Opening,
    Word::Arched,
    Word::Round,
    Word::Pocket,
    Word::Wall,
    Word::Gable,
    Word::Raked,
    Word::Curved,
];

const NOUNS: &[Word] = &[Word::Window, Word::Door, Word::Opening];

const PLAN: &[Word] = &[
    Word::High,
    Word::Thick,
    Word::Rounded,
    Word::Cove,
    Word::Base,
    Word::Ceiling,
    Word::Clear,
];

const WALL: &[Word] = &[
    Word::Thick,
    Word::Base,
    Word::Ceiling,
    Word::Left,
    Word::Right,
];

const FACES: &[Word] = &[Word::With, Word::On];

const NAMES: &[Word] = &[Word::Name, Word::Id];

const OPENING: &[Word] = &[
    Word::At,
    Word::Sill,
    Word::Frame,
    Word::Deep,
    Word::Splay,
    Word::Rounded,
    Word::Lath,
    Word::Bare,
];

impl Heard<'_> {
    /// The words that may stand next.
    pub(super) fn among(&self) -> Vec<Word> {
        let bare = self.size.is_empty() && self.notes.is_empty();
        let mut among: Vec<Word> = Vec::new();
        let Some(thing) = self.thing else {
            return match (self.wall, self.count) {
                (None, None) => HEADS,
                (Some(_), None) => IN_WALL,
                (None, Some(_)) => SEVERAL,
                (Some(_), Some(_)) => SEVERAL.get(..7).unwrap_or(SEVERAL),
            }
            .to_vec();
        };
        let round = self.form == PlanForm::Round;
        let one_size = match thing {
            Thing::Plan => round,
            Thing::Opening(kind) => kind.form == Form::Round,
            _ => false,
        };
        if self.size.len() == 1 && self.notes.is_empty() && !one_size && self.sides.is_empty() {
            among.push(Word::By);
        }
        match thing {
            Thing::Plan => {
                if bare && self.form == PlanForm::Sides {
                    among.extend([Word::Round, Word::Ell]);
                }
                let turns = self.size.len() == 1 && self.notes.is_empty();
                if turns && self.form == PlanForm::Sides {
                    among.extend([Word::Left, Word::Right]);
                }
                if self.form == PlanForm::Ell {
                    among.push(Word::Less);
                }
                among.extend_from_slice(PLAN);
                among.extend_from_slice(FACES);
            }
            Thing::Wall(kind) => {
                among.extend_from_slice(match kind {
                    WallKind::Level => &[Word::High],
                    WallKind::Gable => &[Word::Ridge, Word::At],
                    WallKind::Raked => &[Word::To],
                    WallKind::Curved => &[Word::Radius, Word::Sweep, Word::High],
                });
                among.extend_from_slice(WALL);
                among.extend_from_slice(FACES);
                among.extend_from_slice(NAMES);
            }
            Thing::Opening(kind) => {
                if bare && kind.noun.is_none() {
                    among.extend_from_slice(NOUNS);
                }
                if kind.form == Form::Arched {
                    among.extend([Word::Rise, Word::Springing, Word::Elliptical]);
                }
                if self.has(Word::At) {
                    among.push(Word::From);
                }
                if self.count.is_some() {
                    among.push(Word::Every);
                }
                among.extend_from_slice(OPENING);
                among.extend_from_slice(NAMES);
            }
            Thing::Pocket => among.push(Word::Deep),
        }
        among.extend([Word::Inside, Word::Outside]);
        if self.side.is_some() && thing != Thing::Pocket {
            among.push(Word::Only);
        }
        let sized = self.size.len() > 1;
        among.retain(|word| match word {
            // Said by the second size.
            Word::High if thing != Thing::Plan && sized => false,
            Word::Springing if sized => false,
            _ => !self.is_used(*word),
        });
        among
    }

    /// Whether a word was said for the side it would be for now.
    pub(super) fn is_used(&self, word: Word) -> bool {
        match word {
            Word::Inside => self.side == Some(Side::Inside),
            Word::Outside => self.side == Some(Side::Outside),
            // Each part has its own; and a ring turns more than once.
            Word::Splay => false,
            Word::Left | Word::Right if self.thing == Some(Thing::Plan) => false,
            _ => {
                let mut notes = self.notes.iter();
                notes.any(|note| note.word == word && note.side == self.side)
            }
        }
    }

    /// What a size that may stand next would be.
    pub(super) fn ask(&self) -> Option<&'static str> {
        let thing = self.thing?;
        if !(self.size.is_empty() && self.notes.is_empty()) {
            return None;
        }
        Some(match (thing, self.form) {
            (Thing::Plan, PlanForm::Round) => "the outside diameter",
            (Thing::Plan, _) => "the outside length of the south side",
            (Thing::Wall(_), _) => "the length",
            (Thing::Opening(kind), _) if kind.form == Form::Round => "the diameter",
            (Thing::Opening(_) | Thing::Pocket, _) => "the width",
        })
    }
}
