//! Hears a line: which word may stand at each place, and what each does. Not here: values and names.

use super::super::pieces::{Kind, Piece, cut};
use super::super::words::{Match, Word, find, known};
use super::super::{Context, Role};
use super::stand::{HEADS, IN_WALL, SEVERAL};
use super::{Form, Heard, Note, Noun, OpeningKind, PlanForm, Thing, Turned, WallKind};
use ecow::{EcoString, eco_format};
use hodful_takeoff::project::Side;

/// Most letters of a word that a message repeats.
const SHOWN: usize = 24;

/// Hears a line.
pub(in super::super) fn hear<'a>(line: &'a str, cursor: usize, context: &Context<'a>) -> Heard<'a> {
    let mut heard = Heard {
        line,
        cursor: line.floor_char_boundary(cursor),
        context: *context,
        pieces: cut(line),
        at: 0,
        side: None,
        shortened: None,
        waits: None,
        thing: None,
        wall: None,
        count: None,
        form: PlanForm::Sides,
        size: Vec::new(),
        sides: Vec::new(),
        notes: Vec::new(),
        spans: Vec::new(),
        fault: None,
        said: Vec::new(),
        expects: EcoString::new(),
        completions: Vec::new(),
    };
    heard.named_wall(is_in_wall, |typed| find(typed, HEADS) != Match::None);
    while heard.step() {}
    if heard.thing.is_none() && !line.trim().is_empty() {
        let among = either(&heard.among());
        heard.lacks(eco_format!("what is it? Add one of {among}"));
    }
    heard
}

/// Whether pieces begin something that stands in a wall.
fn is_in_wall(line: &str, pieces: &[Piece]) -> bool {
    let text = |at: usize| {
        let piece = pieces.get(at).filter(|piece| piece.kind == Kind::Letters);
        piece.and_then(|piece| line.get(piece.range.clone()))
    };
    let begins = |at, among| text(at).is_some_and(|typed| find(typed, among) != Match::None);
    let number = pieces.first().is_some_and(|p| p.kind == Kind::Number);
    begins(0, IN_WALL) || number && begins(1, SEVERAL)
}

impl Heard<'_> {
    /// Hears one word with its value, or one size. False at the end of the line.
    fn step(&mut self) -> bool {
        let among = self.among();
        let ask = self.ask();
        self.words_may_stand(&among, ask);
        let Some(piece) = self.next().cloned() else {
            return false;
        };
        match piece.kind {
            Kind::Letters => match find(self.text(piece.range.clone()), &among) {
                Match::One(_) => {
                    if let Some(word) = self.word_next(&among) {
                        self.word(word);
                    }
                }
                Match::Several(words) => self.uncertain(&piece, &words),
                Match::None => self.unknown(&piece, &among),
            },
            Kind::Times if among.contains(&Word::By) => {
                self.span(piece.range, Role::Word);
                self.at += 1;
                self.word(Word::By);
            }
            _ if self.counts() => {}
            _ if self.at_value() && ask.is_some() => {
                if let Some(length) = self.length_next(ask.unwrap_or_default()) {
                    self.size.push(length);
                }
            }
            _ => self.stray(&piece),
        }
        true
    }

    /// A word that may stand here.
    fn word(&mut self, word: Word) {
        let kind = |noun, form| Some(Thing::Opening(OpeningKind { noun, form }));
        match (word, self.thing) {
            (Word::Plan, None) => self.thing = Some(Thing::Plan),
            (Word::Wall, None) => self.thing = Some(Thing::Wall(WallKind::Level)),
            (Word::Gable, None) => self.thing = Some(Thing::Wall(WallKind::Gable)),
            (Word::Raked, None) => self.thing = Some(Thing::Wall(WallKind::Raked)),
            (Word::Curved, None) => self.thing = Some(Thing::Wall(WallKind::Curved)),
            (Word::Pocket, None) => self.thing = Some(Thing::Pocket),
            (Word::Arched, None) => self.thing = kind(None, Form::Arched),
            (Word::Round, None) => self.thing = kind(None, Form::Round),
            (Word::Window | Word::Door | Word::Opening, thing) => {
                let form = match thing {
                    Some(Thing::Opening(kind)) => kind.form,
                    _ => Form::Square,
                };
                let noun = match word {
                    Word::Window => Noun::Window,
                    Word::Door => Noun::Door,
                    _ => Noun::Opening,
                };
                self.thing = kind(Some(noun), form);
            }
            (Word::Round, _) => self.form = PlanForm::Round,
            (Word::Ell, _) => self.form = PlanForm::Ell,
            (Word::By, _) => self.by(),
            (Word::Left | Word::Right, Some(Thing::Plan)) => self.turn(word == Word::Right),
            (Word::Inside, _) => self.on_side(Side::Inside),
            (Word::Outside, _) => self.on_side(Side::Outside),
            _ => {
                if let Some(value) = self.taken(word) {
                    self.notes.push(Note {
                        word,
                        side: self.side,
                        value,
                    });
                }
            }
        }
    }

    /// The words after it are for one side. At the end of what is said of an opening it is for the word
    /// before it: `splay 15 inside`.
    fn on_side(&mut self, side: Side) {
        self.side = Some(side);
        if matches!(self.thing, Some(Thing::Opening(_)))
            && self.next().is_none()
            && let Some(last) = self.notes.last_mut().filter(|last| last.side.is_none())
        {
            last.side = Some(side);
        }
    }

    /// The second size.
    fn by(&mut self) {
        let ask = match self.thing {
            Some(Thing::Plan) => "the outside length of the east side",
            Some(Thing::Wall(WallKind::Gable)) => "the height at the eaves",
            Some(Thing::Wall(WallKind::Raked)) => "the height at the left end",
            _ => "the height",
        };
        let length = if self.at_value() {
            self.length_next(ask)
        } else {
            self.value_waits(ask);
            None
        };
        match length {
            Some(length) => self.size.push(length),
            None => self.lacks(eco_format!("{ask} is missing. Add: {}", self.second())),
        }
    }

    /// A turn of a ring, and the side after it.
    fn turn(&mut self, right: bool) {
        let turn = if self.at_angle() {
            self.angle_next("the turn in degrees")
        } else {
            None
        };
        let ask = "the length of the next side";
        let length = if self.at_value() {
            self.length_next(ask)
        } else {
            self.value_waits(ask);
            None
        };
        self.sides.push(Turned {
            right,
            turn,
            length,
        });
    }

    /// A number of things, when one comes next.
    fn counts(&mut self) -> bool {
        if self.thing.is_some() || self.count.is_some() {
            return false;
        }
        let Some(piece) = self.next().filter(|p| p.kind == Kind::Number).cloned() else {
            return false;
        };
        if self.is_measured() {
            return false;
        }
        let Some(count) = self
            .text(piece.range.clone())
            .parse()
            .ok()
            .filter(|n| *n > 0)
        else {
            return false;
        };
        self.count = Some(count);
        self.span(piece.range, Role::Value);
        self.at += 1;
        self.words_may_stand(SEVERAL, None);
        self.word_next(&[Word::Of]);
        true
    }

    /// A word that could be several.
    fn uncertain(&mut self, piece: &Piece, words: &[Word]) {
        let typed = EcoString::from(self.text(piece.range.clone()));
        let message = eco_format!("'{typed}' could be {}; type on", either(words));
        self.shortened = Some(piece.range.end);
        self.set_aside(piece, message);
    }

    /// A word that may not stand here.
    fn unknown(&mut self, piece: &Piece, among: &[Word]) {
        let typed: EcoString = self.text(piece.range.clone()).chars().take(SHOWN).collect();
        let message = match known(self.text(piece.range.clone())) {
            Some(word) if self.is_used(word) => eco_format!("'{typed}' stands twice"),
            Some(_) if self.thing.is_some() => {
                eco_format!("'{typed}' does not go here; write {}", either(among))
            }
            Some(_) => eco_format!("'{typed}' cannot begin a line; write {}", either(among)),
            None => eco_format!(
                "'{typed}' is not a word of this line; write {}",
                either(among)
            ),
        };
        self.shortened = Some(piece.range.end);
        self.set_aside(piece, message);
    }

    /// What is neither a word nor a value that may stand here.
    fn stray(&mut self, piece: &Piece) {
        if !self.at_value() {
            let shown: EcoString = self.text(piece.range.clone()).escape_debug().collect();
            return self.set_aside(
                piece,
                eco_format!("'{shown}' says nothing here; take it out"),
            );
        }
        let value = self.pass_value();
        let shown: EcoString = self.text(value.clone()).chars().take(SHOWN).collect();
        let message = if self.thing.is_none() {
            eco_format!("'{shown}' of what? Say it first, as in: wall {shown}")
        } else {
            eco_format!("what '{shown}' is has to be said by a word before it")
        };
        self.wrong(value.clone(), message);
        self.span(value, Role::Wrong);
    }

    fn set_aside(&mut self, piece: &Piece, message: EcoString) {
        self.wrong(piece.range.clone(), message);
        self.span(piece.range.clone(), Role::Wrong);
        self.at += 1;
        // What it would have taken goes with it.
        if self.thing.is_some() && self.at_value() {
            let value = self.pass_value();
            self.span(value, Role::Wrong);
        }
    }
}

/// `sill, splay or rounded`.
fn either(words: &[Word]) -> EcoString {
    let texts: Vec<&str> = words.iter().map(|word| word.text()).collect();
    match texts.split_last() {
        Some((last, [])) => (*last).into(),
        Some((last, others)) => eco_format!("{} or {last}", others.join(", ")),
        None => "nothing more".into(),
    }
}
