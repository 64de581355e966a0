//! The lines of a journal: written one by one, read as far as they are whole. Not here: the disk.

use super::{Fingerprint, Origin};
use crate::field::Field;
use crate::header::{read_as, read_project};
use crate::mark::{Format, IsFormat, Version};
use crate::record::record;
use crate::writing::Out;
use ecow::EcoString;
use hodful_takeoff::Project;
use hodful_takeoff::change::{Change, Splice};
use hodful_takeoff::project::{Wall, share};
use std::sync::Arc;
use xxhash_rust::xxh3::xxh3_64_with_seed;

/// Digits of a sum at the beginning of a line; a blank follows.
const DIGITS: usize = 16;

/// The sum before the first line.
const FIRST: u64 = 0;

/// Marks a journal.
#[derive(Debug)]
struct JournalFormat;

impl IsFormat for JournalFormat {
    const NAME: &'static str = "hodful-journal";
    const WHAT: &'static str = "a journal";
}

/// The first line.
struct Head {
    path: Option<EcoString>,
    disk: Option<EcoString>,
}

/// A change of a project, as a line has it.
struct Line {
    walls: Vec<Stretch>,
    rest: Option<Project>,
    count: u32,
}

/// A stretch of walls that gives way to another.
struct Stretch {
    at: u32,
    removed: u32,
    added: Vec<Arc<Wall>>,
}

record! {
    /// What a journal belongs to.
    Head, "a journal" {
        /// Says that this is a journal.
        format: Format<JournalFormat>;
        /// The version of this format.
        version: Version;
        /// Full path of the project file; absent for a project without one.
        path: Option<EcoString> => path;
        /// Length and sum of the file when the work began; absent when it was not there.
        disk: Option<EcoString> => disk;
    }

    /// A change: walls that give way to others, and the rest of the project when it is another.
    Line, "a change" {
        /// Stretches of walls, in order.
        walls each "stretch": Vec<Stretch> => walls;
        /// All of the project but its walls.
        rest: Option<Project> => rest;
        /// Walls there are then.
        count: u32 => count;
    }

    /// A stretch of walls that gives way to another.
    Stretch, "a stretch" {
        /// Walls before it.
        at: u32 => at;
        /// Walls taken out.
        removed: u32 => removed;
        /// Walls put in.
        added each "wall": Vec<Arc<Wall>> => added;
    }
}

/// Who writes the lines of a journal: it knows the sum of those written.
///
/// ```
/// use hodful_project_file::journal::{Origin, Scribe, read};
/// let before = hodful_project_file::starting_project();
/// let (scribe, mut bytes) = Scribe::begin(&Origin::default(), &before);
/// let mut after = before.clone();
/// after.name = "Byre".into();
/// let (_, line) = scribe.change(&before, &after).unwrap();
/// bytes.extend(&line);
/// assert_eq!(read(&bytes).unwrap().project.name, "Byre");
/// // Torn in its last line, it gives what stood before.
/// bytes.truncate(bytes.len() - 3);
/// assert_eq!(read(&bytes).unwrap().project, before);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Scribe {
    sum: u64,
}

impl Scribe {
    /// Begins a journal with a whole project: who writes on, and the bytes.
    pub fn begin(origin: &Origin, project: &Project) -> (Self, Vec<u8>) {
        let head = Head {
            path: origin.path.clone(),
            disk: origin.disk.map(Fingerprint::text),
        };
        let (scribe, mut bytes) = Self { sum: FIRST }.line(&head);
        let (scribe, whole) = scribe.line(project);
        bytes.extend(whole);
        (scribe, bytes)
    }

    /// The line for a change: who writes on once it is written, and the bytes. `None` when nothing
    /// changed, or when a project has more walls than can be counted in 32 bits.
    ///
    /// Walls are compared by reference first, so that a change of one among many costs that one. What is
    /// no wall is written whole: it is short.
    pub fn change(self, before: &Project, after: &Project) -> Option<(Self, Vec<u8>)> {
        let change = Change::between(before, after);
        if change.is_nothing() {
            return None;
        }
        let stretch = |splice: Splice<Arc<Wall>>| {
            Some(Stretch {
                at: u32::try_from(splice.at).ok()?,
                removed: u32::try_from(splice.removed.len()).ok()?,
                added: splice.added,
            })
        };
        let walls: Option<_> = change.walls.into_iter().map(stretch).collect();
        Some(self.line(&Line {
            walls: walls?,
            rest: change.rest.map(|_| rest_of(after)),
            count: u32::try_from(after.walls.len()).ok()?,
        }))
    }

    fn line(self, of: &impl Field) -> (Self, Vec<u8>) {
        let mut out = Out::on_a_line();
        of.put(&mut out);
        let body = out.finish();
        let next = Self {
            sum: self.sum_of(&body),
        };
        let mut line = next.digits().into_bytes();
        line.push(b' ');
        line.extend(body);
        (next, line)
    }

    /// The sum as it begins the line it is of.
    fn digits(self) -> String {
        format!("{:0DIGITS$x}", self.sum)
    }

    /// The sum of a line, its end included, and of all before it.
    fn sum_of(self, body: &[u8]) -> u64 {
        xxh3_64_with_seed(body, self.sum)
    }

    /// What stands in a line, when it is the next and whole.
    fn body(self, line: &[u8]) -> Option<(Self, &[u8])> {
        let (sum, rest) = line.split_at_checked(DIGITS)?;
        let body = rest
            .strip_prefix(b" ")
            .filter(|body| body.ends_with(b"\n"))?;
        let next = Self {
            sum: self.sum_of(body),
        };
        // As it is written and no other way: a sum in capitals is not ours.
        (next.digits().as_bytes() == sum).then_some((next, body))
    }
}

/// What a journal keeps.
#[derive(Debug, Clone, PartialEq)]
pub struct Kept {
    /// What it belongs to.
    pub origin: Origin,
    /// The project as it was last.
    pub project: Project,
    /// Changes since it was begun.
    pub changes: usize,
    /// Whether something stands behind the last whole line.
    pub torn: bool,
}

/// Reads a journal as far as its lines are whole. `None` when not even the project it was begun with is,
/// or when it is of a later version.
pub fn read(bytes: &[u8]) -> Option<Kept> {
    let mut lines = bytes.split_inclusive(|byte| *byte == b'\n');
    let (scribe, head) = Scribe { sum: FIRST }.body(lines.next()?)?;
    let head = sound(read_as::<Head>(head))?;
    let disk = match head.disk {
        Some(text) => Some(Fingerprint::from_text(&text)?),
        None => None,
    };
    let (mut scribe, whole) = scribe.body(lines.next()?)?;
    let mut kept = Kept {
        origin: Origin {
            path: head.path,
            disk,
        },
        project: sound(read_project(whole))?,
        changes: 0,
        torn: false,
    };
    for line in lines {
        let next = scribe.body(line).and_then(|(next, body)| {
            let change = sound(read_as::<Line>(body))?;
            let fits = change.fits(kept.project.walls.len());
            fits.then_some((next, change))
        });
        let Some((next, change)) = next else {
            kept.torn = true;
            break;
        };
        change.apply(&mut kept.project);
        scribe = next;
        kept.changes += 1;
    }
    share(&mut kept.project);
    Some(kept)
}

/// What was read, when nothing was wrong with it.
fn sound<T>((read, problems): crate::header::Read<T>) -> Option<T> {
    read.filter(|_| problems.is_empty())
}

impl Line {
    /// Whether the change can be made of that many walls.
    fn fits(&self, mut count: usize) -> bool {
        for stretch in &self.walls {
            let (at, removed) = (stretch.at as usize, stretch.removed as usize);
            if count.checked_sub(at).is_none_or(|after| after < removed) {
                return false;
            }
            count = count - removed + stretch.added.len();
        }
        count == self.count as usize
    }

    /// Makes the change, when it [`fits`](Self::fits).
    fn apply(self, project: &mut Project) {
        for stretch in self.walls {
            let at = (stretch.at as usize).min(project.walls.len());
            let end = (at + stretch.removed as usize).min(project.walls.len());
            project.walls.splice(at..end, stretch.added);
        }
        if let Some(rest) = self.rest {
            let walls = std::mem::take(&mut project.walls);
            *project = Project { walls, ..rest };
        }
    }
}

/// Whether two projects are alike, the order of what has names included.
pub(super) fn same(a: &Project, b: &Project) -> bool {
    Change::between(a, b).is_nothing()
}

/// A project without its walls.
fn rest_of(project: &Project) -> Project {
    let Project {
        name,
        units,
        measurement_rule,
        backgrounds,
        materials,
        mixes,
        build_ups,
        mixer,
        blends,
        suppliers,
        buying,
        walls: _,
        options,
        uncertain,
        done,
        delivered,
        work,
        note,
    } = project;
    Project {
        name: name.clone(),
        units: *units,
        measurement_rule: measurement_rule.clone(),
        backgrounds: backgrounds.clone(),
        materials: materials.clone(),
        mixes: mixes.clone(),
        build_ups: build_ups.clone(),
        mixer: mixer.clone(),
        blends: blends.clone(),
        suppliers: suppliers.clone(),
        buying: buying.clone(),
        walls: Vec::new(),
        options: options.clone(),
        uncertain: uncertain.clone(),
        done: done.clone(),
        delivered: delivered.clone(),
        work: work.clone(),
        note: note.clone(),
    }
}
