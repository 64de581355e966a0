//! How the figures are had for one value of a field: the short way over the sums of the walls, which are
//! summed again where a depth of a background moves, and the whole way over a bench. Not here: which
//! values.

use super::Ask;
use crate::bench::Bench;
use crate::check::site;
use crate::check::values::Values;
use crate::checked::{CheckedFace, FindWall, Site};
use crate::compare::{Line, One};
use crate::evaluate::{CHUNK, Evaluation, FaceFigures, Ground, Sums};
use crate::form::{self, Subject};
use crate::headline::Headline;
use crate::problem::{Place, Problem};
use crate::project::{Project, Side};
use crate::tolerance::LOOK_CLOSER;
use ecow::{EcoString, eco_format};
use std::collections::HashMap;
use std::iter::zip;
use std::sync::Arc;

/// A value of the field.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Point {
    /// In base units.
    pub(super) x: f64,
    /// The text that is read as it; `None` when no text is.
    pub(super) text: Option<EcoString>,
}

/// Something that is counted and makes steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Thing {
    /// Packages of the material at a position.
    Packages(usize),
    /// Loads of the mixer.
    Batches,
}

/// How many, by position of the package; of batches, all under one position. `None` while it cannot be
/// told.
pub(super) type Counted = Option<Vec<(usize, u64)>>;

/// What one value comes to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Reading {
    /// By line.
    pub(super) values: Vec<Option<f64>>,
    /// By thing that is counted.
    pub(super) counts: Vec<Counted>,
}

/// What is the same for every value.
#[derive(Debug)]
pub(super) struct Way<'a> {
    bench: &'a Bench,
    ask: &'a Ask,
    lines: &'a [Line],
    pub(super) things: Vec<Thing>,
    /// What is refused in the project as it stands.
    known: HashMap<&'a Place, Vec<&'a EcoString>>,
    /// By build-up, the least room for coats on any face, mm; `None` when every value goes the whole
    /// way.
    rooms: Option<Vec<f64>>,
    /// Every face, by chunk of walls, when they are to be summed again.
    faces: Vec<Vec<Face<'a>>>,
}

/// A face with its figures, and how many such walls there are.
type Face<'a> = (u32, &'a CheckedFace, &'a FaceFigures);

impl<'a> Way<'a> {
    pub(super) fn new(bench: &'a Bench, ask: &'a Ask, lines: &'a [Line]) -> Self {
        let mut known: HashMap<&Place, Vec<&EcoString>> = HashMap::new();
        for problem in bench.problems() {
            known
                .entry(&problem.place)
                .or_default()
                .push(&problem.message);
        }
        // A wall that is left out may count again, and then the sums are others.
        let short = bench.left_out() == 0 && ask.subjects.iter().all(|of| leaves_walls(*of));
        let is_depth = |of: &Subject| matches!(of, Subject::Background(_));
        let faces = if short && ask.subjects.iter().any(is_depth) {
            faces(bench)
        } else {
            Vec::new()
        };
        Self {
            things: things(bench.project(), lines),
            rooms: short.then(|| rooms(bench)),
            faces,
            bench,
            ask,
            lines,
            known,
        }
    }

    /// The same, with every value on the whole way.
    #[cfg(test)]
    pub(super) fn whole(bench: &'a Bench, ask: &'a Ask, lines: &'a [Line]) -> Self {
        Self {
            rooms: None,
            ..Self::new(bench, ask, lines)
        }
    }

    /// The project whose figures they are.
    pub(super) fn project(&self) -> &'a Project {
        self.bench.project()
    }

    pub(super) fn is_short(&self) -> bool {
        self.rooms.is_some()
    }

    /// What it comes to as it stands.
    pub(super) fn now(&self) -> Reading {
        self.reading(&self.bench.one(None))
    }

    pub(super) fn worker(&self) -> Worker<'_> {
        Worker {
            way: self,
            light: None,
            whole: None,
        }
    }

    fn reading(&self, one: &One<'_>) -> Reading {
        let count = |thing: &Thing| match thing {
            Thing::Packages(at) => {
                let figures = one.evaluation.materials.get(*at)?;
                let cover = figures.cover.as_ref().filter(|_| !figures.waits)?;
                let mut counts = cover.counts.clone();
                counts.sort_unstable();
                Some(counts)
            }
            Thing::Batches => {
                let batches = Headline::of(one.project, one.evaluation).batches?;
                Some(vec![(0, batches)])
            }
        };
        Reading {
            values: self.lines.iter().map(|line| line.value(one)).collect(),
            counts: self.things.iter().map(count).collect(),
        }
    }

    /// What is refused first that is not refused in the project as it stands.
    fn refusal<'p>(&self, mut problems: impl Iterator<Item = &'p Problem>) -> Option<&'p Problem> {
        problems.find(|problem| {
            let known = self.known.get(&problem.place);
            !known.is_some_and(|known| known.contains(&&problem.message))
        })
    }

    /// Why a text is refused, with where; `None` where it is not.
    pub(super) fn why_refused(&self, text: &str) -> Option<EcoString> {
        let mut project = Project::clone(self.bench.project());
        let Ask { subjects, key, .. } = self.ask;
        for subject in subjects {
            if let Err(why) = form::set(&mut project, *subject, key, text) {
                return Some(eco_format!("{why}"));
            }
        }
        let bench = Bench::new(Arc::new(project), Arc::clone(self.bench.rules()));
        let problem = self.refusal(bench.problems())?;
        Some(eco_format!("{}: {}", problem.place, problem.message))
    }

    /// Puts a text into the field of every thing; `None` where it cannot be.
    fn put(&self, project: &mut Project, text: &str) -> Option<()> {
        let Ask { subjects, key, .. } = self.ask;
        subjects
            .iter()
            .try_for_each(|subject| form::set(project, *subject, key, text))
            .ok()
    }
}

/// Whether a number typed in a thing leaves every wall and what was measured of it as it is.
fn leaves_walls(subject: Subject) -> bool {
    match subject {
        Subject::Background(_)
        | Subject::Mixer
        | Subject::Coat { .. }
        | Subject::Mix(_)
        | Subject::Material(_)
        | Subject::Package { .. }
        | Subject::Panel { .. }
        | Subject::Blend(_)
        | Subject::Supplier(_)
        | Subject::Buying
        | Subject::Phase(_)
        | Subject::Work
        | Subject::Preparation(_)
        | Subject::Room(_)
        | Subject::Dried(_) => true,
        Subject::Project
        | Subject::BuildUp(_)
        | Subject::Alternative(_)
        | Subject::Alteration { .. }
        | Subject::Uncertain(_)
        | Subject::Done(_)
        | Subject::Delivered(_)
        | Subject::Wall(_)
        | Subject::Opening { .. }
        | Subject::Pocket { .. } => false,
    }
}

/// Every face of the walls, by the chunks in which the bench sums them.
fn faces(bench: &Bench) -> Vec<Vec<Face<'_>>> {
    let mut chunks: Vec<Vec<Face<'_>>> = Vec::new();
    for at in 0..bench.project().walls.len() {
        if at.is_multiple_of(CHUNK) {
            chunks.push(Vec::new());
        }
        let (Some(wall), Some(chunk)) = (bench.find(at), chunks.last_mut()) else {
            continue;
        };
        for (face, figures) in zip(&wall.entry.faces, bench.faces(at)) {
            if let (Some(face), Some(figures)) = (face, figures) {
                chunk.push((wall.entry.count, face, figures));
            }
        }
    }
    chunks
}

/// What is counted for some figures.
fn things(project: &Project, lines: &[Line]) -> Vec<Thing> {
    let mut things: Vec<Thing> = Vec::new();
    let all = (0..project.materials.len()).map(Thing::Packages);
    for thing in all.chain([Thing::Batches]) {
        let of = thing.line(project);
        if of.is_some_and(|of| lines.iter().any(|line| super::steps::has(line, &of))) {
            things.push(thing);
        }
    }
    things
}

impl Thing {
    /// The line that counts it.
    pub(super) fn line(self, project: &Project) -> Option<Line> {
        Some(match self {
            Self::Packages(at) => Line::Packages(project.materials.get_index(at)?.0.clone()),
            Self::Batches => Line::Batches,
        })
    }
}

/// By build-up, the thickness of coats, mm, from which on some face has no surface left.
fn rooms(bench: &Bench) -> Vec<f64> {
    let project = bench.project();
    let mut rooms = vec![f64::INFINITY; project.build_ups.len()];
    for (at, wall) in project.walls.iter().enumerate() {
        for (side, figures) in zip([Side::Outside, Side::Inside], bench.faces(at)) {
            let Some(m) = figures.map(|figures| &figures.measure) else {
                continue;
            };
            if m.growth < 0.0
                && let Some(face) = wall.face(side)
                && let Some(build_up) = project.build_ups.get_index_of(&face.build_up)
                && let Some(room) = rooms.get_mut(build_up)
            {
                *room = room.min(m.true_surface() / -m.growth);
            }
        }
    }
    rooms
}

/// Goes either way for one value after another.
#[derive(Debug)]
pub(super) struct Worker<'a> {
    way: &'a Way<'a>,
    light: Option<Light>,
    whole: Option<Bench>,
}

/// What the short way works in.
#[derive(Debug)]
struct Light {
    /// The project without its walls.
    bare: Project,
    /// The figures without those of faces.
    evaluation: Evaluation,
}

/// What the short way came to.
enum Short {
    Told(Option<Reading>),
    /// A face may have no room for the coats, so that the sums may be others.
    NoRoom,
}

impl Worker<'_> {
    /// What a text comes to; `None` where it is refused.
    pub(super) fn read(&mut self, text: &str) -> Option<Reading> {
        if let Short::Told(reading) = self.short(text) {
            return reading;
        }
        let way = self.way;
        let mut project = Project::clone(way.bench.project());
        way.put(&mut project, text)?;
        let project = Arc::new(project);
        let bench = match &mut self.whole {
            Some(bench) => {
                bench.set(project);
                bench
            }
            none => none.insert(Bench::new(project, Arc::clone(way.bench.rules()))),
        };
        let refusal = way.refusal(bench.problems());
        refusal.is_none().then(|| way.reading(&bench.one(None)))
    }

    fn short(&mut self, text: &str) -> Short {
        let way = self.way;
        let Some(rooms) = &way.rooms else {
            return Short::NoRoom;
        };
        let Light { bare, evaluation } = self.light.get_or_insert_with(|| Light::new(way.bench));
        if way.put(bare, text).is_none() {
            return Short::Told(None);
        }
        let mut values = Values::default();
        let site = site(bare, way.bench.rules(), &mut values);
        if way.refusal(values.into_problems().iter()).is_some() {
            return Short::Told(None);
        }
        if is_cramped(rooms, &site) {
            return Short::NoRoom;
        }
        if !way.faces.is_empty() {
            evaluation.grounds = summed(&way.faces, &site);
        }
        evaluation.order(&site);
        Short::Told(Some(way.reading(&One {
            project: bare,
            site: &site,
            evaluation,
            supply: None,
        })))
    }
}

impl Light {
    fn new(bench: &Bench) -> Self {
        let mut bare = Project::clone(bench.project());
        bare.walls.clear();
        let of = bench.evaluation();
        Self {
            bare,
            evaluation: Evaluation {
                totals: of.totals,
                grounds: of.grounds.clone(),
                ..Evaluation::default()
            },
        }
    }
}

/// What all faces bring to the coats: added in the order of the bench, so that it is the same to the last
/// bit.
fn summed(faces: &[Vec<Face<'_>>], site: &Site) -> Vec<Ground> {
    let mut all = Sums::new(site);
    for chunk in faces {
        let mut sums = Sums::new(site);
        for (count, face, figures) in chunk {
            sums.add_face(site, *count, face, figures);
        }
        all.add(&sums);
    }
    all.grounds
}

/// Whether coats could be more than some face has room for.
fn is_cramped(rooms: &[f64], site: &Site) -> bool {
    zip(rooms, site.thicknesses()).any(|(room, thickness)| {
        thickness.is_some_and(|thickness| thickness * (1.0 + LOOK_CLOSER) >= *room)
    })
}
