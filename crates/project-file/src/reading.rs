//! Reading: where the reader stands in the file, what it has found wrong, and how it goes on.
//!
//! The file is read in one pass, straight into the project. A value that is wrong is noted with its
//! place and skipped; reading goes on behind it. Only broken syntax stops. Not here: what each kind
//! of value looks like (see `field`, `value`, `group` and the tables).

use crate::field::{Member, MemberSeed};
use crate::hint;
use crate::kind::{Kind, listed};
use ecow::{EcoString, eco_format};
use hodful_takeoff::problem::{Place, Problem, Step};
use serde::de::{IgnoredAny, MapAccess};

/// Problems listed one by one; further ones are counted. No person reads on, and a hostile file must
/// not fill the memory.
const MOST_LISTED: usize = 10_000;

/// The state of one reading.
#[derive(Debug, Default)]
pub(crate) struct Reading {
    path: Vec<Standing>,
    problems: Vec<Problem>,
    unlisted: usize,
}

/// One step of the way from the file to the value being read.
#[derive(Debug)]
enum Standing {
    /// Under a key. `each` names the things listed there, one by one, and then the things in those.
    Key {
        name: &'static str,
        each: &'static [&'static str],
    },
    /// A thing, and how many problems there were before it.
    Thing {
        noun: &'static str,
        called: Called,
        before: usize,
    },
}

/// What a thing is called.
#[derive(Debug)]
pub(crate) enum Called {
    /// By its name.
    Name(EcoString),
    /// By its number in the list, as long as its name is not known.
    Number(usize),
}

impl Called {
    /// As a message has it. A number is put into words here and not before: mostly nothing is wrong.
    fn shown(&self) -> EcoString {
        match self {
            Self::Name(name) => hint::shown(name),
            Self::Number(number) => eco_format!("number {number}"),
        }
    }
}

/// What was found where something else was wanted.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Found {
    Text,
    Number,
    Flag,
    Nothing,
    Object,
    List,
}

impl Found {
    fn words(self) -> &'static str {
        match self {
            Self::Text => "is text",
            Self::Number => "is a number",
            Self::Flag => "is true or false",
            Self::Nothing => "is null",
            Self::Object => "is a group in braces",
            Self::List => "is a list",
        }
    }
}

/// What stands under a key.
#[derive(Debug)]
pub(crate) enum Slot<T> {
    /// The key has not been seen.
    Absent,
    /// The value is wrong; the problem is noted.
    Refused,
    /// The value.
    Read(T),
}

impl<T> Slot<T> {
    fn of(read: Option<T>) -> Self {
        read.map_or(Self::Refused, Self::Read)
    }

    /// Whether the key has been seen.
    pub(crate) fn is_present(&self) -> bool {
        !matches!(self, Self::Absent)
    }

    /// The value, when there is one.
    pub(crate) fn value(self) -> Option<T> {
        match self {
            Self::Read(value) => Some(value),
            Self::Absent | Self::Refused => None,
        }
    }
}

impl Reading {
    /// Ends the reading: everything that was found wrong.
    pub(crate) fn finish(mut self) -> Vec<Problem> {
        if self.unlisted > 0 {
            let message = eco_format!("and {} more problems, not listed", self.unlisted);
            self.problems
                .push(Problem::refused(Place::project(), message));
        }
        self.problems
    }

    /// Notes a problem at the value being read.
    pub(crate) fn refuse(&mut self, message: impl Into<EcoString>) {
        self.refuse_with(|| message.into());
    }

    /// The same, where the message is made only when there is room for it.
    fn refuse_with(&mut self, message: impl FnOnce() -> EcoString) {
        if let Some(place) = self.room() {
            self.problems.push(Problem::refused(place, message()));
        }
    }

    /// Notes a problem with a key of the record being read.
    pub(crate) fn refuse_key(&mut self, key: &str, message: impl Into<EcoString>) {
        if let Some(place) = self.room() {
            self.problems
                .push(Problem::refused(place.field(key), message));
        }
    }

    /// Notes that something of the wrong kind stands here.
    pub(crate) fn wrong<T>(&mut self, found: Found, wanted: &Kind) -> Option<T> {
        self.refuse_with(|| eco_format!("{}; {}", found.words(), wanted.want()));
        None
    }

    /// Notes a key that the object does not have.
    pub(crate) fn unknown_key(&mut self, key: &str, what: &str, known: &[&'static str]) {
        self.refuse_with(|| {
            let key = hint::shown(key);
            let hint = hint::nearest(&key, known).map_or_else(
                || format!("{what} has {}", listed(known, "and")),
                |near| format!("did you mean '{near}'?"),
            );
            eco_format!("unknown key '{key}'; {hint}")
        });
    }

    /// The place being read.
    pub(crate) fn place(&self) -> Place {
        let last = self.path.len().saturating_sub(1);
        let mut place = Place::project();
        for (i, step) in self.path.iter().enumerate() {
            place = match step {
                // The key of a list is told only where the list itself is meant: 'wall S' is enough for
                // one of its walls.
                Standing::Key { name, each } if i == last || each.is_empty() => place.field(*name),
                Standing::Key { .. } => place,
                Standing::Thing { noun, called, .. } => place.thing(noun, called.shown()),
            };
        }
        place
    }

    fn room(&mut self) -> Option<Place> {
        if self.problems.len() < MOST_LISTED {
            return Some(self.place());
        }
        self.unlisted += 1;
        None
    }

    /// Reads what stands under a key, or skips it when the key stood there before.
    pub(crate) fn member<'de, A: MapAccess<'de>, M: Member>(
        &mut self,
        map: &mut A,
        name: &'static str,
        each: &'static [&'static str],
        slot: &mut Slot<M>,
    ) -> Result<(), A::Error> {
        if slot.is_present() {
            self.refuse_key(name, "stands here twice; keep one");
            map.next_value::<IgnoredAny>()?;
            return Ok(());
        }
        self.path.push(Standing::Key { name, each });
        // On broken syntax the path stays as it is: it says where the file broke.
        *slot = Slot::of(map.next_value_seed(MemberSeed::new(self))?);
        self.path.pop();
        Ok(())
    }

    /// Enters a thing: one of a list, or one with a name.
    pub(crate) fn enter(&mut self, noun: &'static str, called: Called) {
        self.path.push(Standing::Thing {
            noun,
            called,
            before: self.problems.len(),
        });
    }

    /// Enters a part that has no name of its own.
    pub(crate) fn enter_part(&mut self, name: &'static str) {
        self.path.push(Standing::Key { name, each: &[] });
    }

    /// What the things in the list or group being read are called, one by one; empty when they are not
    /// told apart.
    pub(crate) fn each(&self) -> &'static str {
        for (depth, step) in self.path.iter().rev().enumerate() {
            if let Standing::Key { each, .. } = step {
                return each.get(depth).copied().unwrap_or_default();
            }
        }
        ""
    }

    /// Leaves the thing entered last.
    pub(crate) fn leave(&mut self) {
        self.path.pop();
    }

    /// The name of the thing being read has been read: problems noted in it before are told with
    /// the name too.
    pub(crate) fn known_as(&mut self, name: &EcoString) {
        if name.trim().is_empty() {
            return;
        }
        let Some(Standing::Thing { called, before, .. }) = self.path.last_mut() else {
            return;
        };
        *called = Called::Name(name.clone());
        let before = *before;
        if before < self.problems.len() {
            let depth = self.place().steps().len();
            for problem in self.problems.iter_mut().skip(before) {
                problem.place = renamed(&problem.place, depth, &hint::shown(name));
            }
        }
    }
}

/// A place whose step number `depth`, counted from one, has another name.
fn renamed(place: &Place, depth: usize, name: &EcoString) -> Place {
    let mut renamed = Place::project();
    for (i, step) in place.steps().iter().enumerate() {
        renamed = match step {
            Step::Thing(noun, _) if i + 1 == depth => renamed.thing(noun, name.clone()),
            Step::Thing(noun, other) => renamed.thing(noun, other.clone()),
            Step::Field(field) => renamed.field(field.clone()),
        };
    }
    renamed
}
