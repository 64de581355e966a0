//! The work bench: a project lies on it while it is edited, and its figures lie beside it, at hand
//! after every key.
//!
//! Each wall is checked and measured on its own and kept so until it is another wall, or what it names
//! is somewhere else. Walls are summed in chunks, in the order of [`crate::evaluate()`], and only chunks
//! in which something changed are summed again. Everything after the sums (coats, materials, the order)
//! is always worked out anew: it is a handful of rows however many walls there are.
//!
//! While a project is typed, something is often refused. Figures are there all the same, for what is
//! sound: a wall in which something is refused counts for nothing, and [`Bench::left_out`] says how many
//! such walls there are. A figure that needs something refused is absent. When nothing is refused, the
//! figures are those of [`crate::evaluate()`] to the last bit.
//!
//! Not here: what is only doubtful, which looks at everything at once (see
//! [`crate::doubts::all_problems`]), and the history of edits (see [`crate::change`]).

mod ids;
mod part;
mod piece;
mod spread;

use crate::blend::{self, Blended};
use crate::card::{self, Card};
use crate::change::Rest;
use crate::check::values::Values;
use crate::check::walls::Reveals;
use crate::check::{done, site, work};
use crate::checked::{CheckedMixer, FindWall, OneWall, Site};
use crate::compare::One;
use crate::doubts::no_room_for_coats;
use crate::evaluate::{CHUNK, CoatFigures, Evaluation, FaceFigures, MaterialFigures};
use crate::explain::{PathFault, Source, explain, paths};
use crate::figure::Node;
use crate::forecast::Forecast;
use crate::problem::Problem;
use crate::project::{Mix, Name, Project, Side, Wall};
use crate::rule::{Rule, RuleBook};
use crate::supply::{self, Supply};
use ecow::EcoString;
use hodful_quantities::mix::Quantity;
use hodful_quantities::read::Money;
use hodful_quantities::units::Length;
use ids::Ids;
use part::{Cramped, Part};
use piece::{Piece, Renamed};
use rayon::prelude::*;
use spread::Spread;
use std::collections::HashMap;
use std::iter::zip;
use std::sync::Arc;

/// Walls that are measured on one core: waking the others takes longer than so many.
const ALONE: usize = 64;

/// Walls up to which a sum over all faces is explained whole: some ten thousand figures, a few
/// milliseconds.
const TREES_WHOLE: usize = 200;

/// A project that is being edited, with its figures.
///
/// ```
/// use hodful_takeoff::bench::Bench;
/// use hodful_takeoff::{Project, RuleBook};
/// use std::sync::Arc;
/// # fn of(project: Project, rules: RuleBook) {
/// let mut bench = Bench::new(Arc::new(project), Arc::new(rules));
/// let mut edited = Project::clone(bench.project());
/// if let Some(wall) = edited.walls.first_mut() {
///     Arc::make_mut(wall).count = Some(2);
/// }
/// bench.set(Arc::new(edited));
/// assert!(bench.is_whole() || bench.problems().next().is_some());
/// # }
/// ```
#[derive(Debug)]
pub struct Bench {
    project: Arc<Project>,
    rules: Arc<RuleBook>,
    site: Site,
    /// What is refused besides the walls.
    site_problems: Vec<Problem>,
    /// By wall.
    pieces: Vec<Arc<Piece>>,
    /// What the pieces point into. Reveals that no wall has any longer stay until there are too many.
    reveals: Reveals,
    ids: Ids,
    /// What is refused in the records and the deliveries.
    record_problems: Vec<Problem>,
    parts: Vec<Part>,
    cramped: Cramped,
    /// The faces of those, in words.
    cramped_problems: Vec<Problem>,
    evaluation: Evaluation,
}

/// What of the walls depends on the rest of the project, and changed with it.
#[derive(Debug, Clone, Copy)]
struct Touched {
    /// Which names there are of backgrounds and build-ups, or their order.
    names: bool,
    /// The measurement rule.
    rule: bool,
    /// What the sums are made with: depths of backgrounds, the number of build-ups.
    sums: bool,
}

impl Bench {
    /// Lays a project on the bench: checks, measures and sums up everything.
    pub fn new(project: Arc<Project>, rules: Arc<RuleBook>) -> Self {
        let mut values = Values::default();
        let site = site(&project, &rules, &mut values);
        let mut bench = Self {
            project,
            rules,
            site,
            site_problems: values.into_problems(),
            pieces: Vec::new(),
            reveals: Reveals::default(),
            ids: Ids::default(),
            record_problems: Vec::new(),
            parts: Vec::new(),
            cramped: Cramped::default(),
            cramped_problems: Vec::new(),
            evaluation: Evaluation::default(),
        };
        let project = Arc::clone(&bench.project);
        bench.pieces = bench.make(project.walls.iter());
        for wall in &project.walls {
            bench.ids.add(wall);
        }
        bench.ids.tell(&project.walls);
        bench.look_at_records();
        bench.sum_up();
        bench
    }

    /// Changes the project for another state of it, and does again only what changed. Walls that are
    /// held by the same reference in both are the same.
    pub fn set(&mut self, project: Arc<Project>) {
        let old = std::mem::replace(&mut self.project, project);
        let new = Arc::clone(&self.project);
        if Arc::ptr_eq(&old, &new) {
            return;
        }
        // Which reveal is one too many depends on all of them.
        if self.reveals.overflowed() {
            return self.begin_anew();
        }
        let touched = Rest::between(&old, &new).map(|_| self.set_site(&old, &new));
        if touched.is_some_and(|touched| touched.names) {
            self.find_names(&old, &new);
        }
        let walls_changed = self.set_walls(&old, &new);
        if self.reveals.overflowed() {
            return self.begin_anew();
        }
        if touched.is_some_and(|touched| touched.rule) {
            self.measure_all();
        }
        if touched.is_some_and(|touched| touched.names || touched.rule || touched.sums) {
            self.all_stale();
        }
        if touched.is_some() || walls_changed {
            self.look_at_records();
            self.sum_up();
        }
    }

    /// The project.
    pub fn project(&self) -> &Arc<Project> {
        &self.project
    }

    /// The rules that the project may name.
    pub fn rules(&self) -> &Arc<RuleBook> {
        &self.rules
    }

    /// The figures, of what is sound. When nothing is refused they are those of
    /// [`crate::evaluate()`] to the last bit. While something is:
    ///
    /// - the faces of a wall in which something is refused are `None`, and no sum has them;
    /// - a coat is `None` while it, its mix or the thickness of a coat under it is refused;
    /// - a material [waits](MaterialFigures::waits), and those of its quantities are absent that are
    ///   made from something refused;
    /// - quantities for payment are not a number while the [rule](Self::rule) is not known, and what
    ///   the first coat carries is not a number while a depth of a background is refused;
    /// - `cost` is that of the materials that can be told: [`Self::cost`] tells whether it is all.
    pub fn evaluation(&self) -> &Evaluation {
        &self.evaluation
    }

    /// The figures of a coat by the positions of its build-up and of itself; `None` while they cannot
    /// be told.
    pub fn coat(&self, build_up: usize, coat: usize) -> Option<&CoatFigures> {
        self.evaluation.coats.get(build_up)?.get(coat)?.as_ref()
    }

    /// The figures of the faces of a wall, outside then inside; `None` for a face that is not
    /// plastered, and for both while something in the wall is refused.
    pub fn faces(&self, wall: usize) -> [Option<&FaceFigures>; 2] {
        let faces = self.evaluation.faces.get(wall);
        faces.map_or([None, None], |faces| faces.each_ref().map(Option::as_ref))
    }

    /// The figures of a material by its position; `None` while any of them cannot be told.
    pub fn material(&self, at: usize) -> Option<&MaterialFigures> {
        let figures = self.evaluation.materials.get(at)?;
        (!figures.waits).then_some(figures)
    }

    /// Price of all packages that have one; `None` while that of some material cannot be told.
    pub fn cost(&self) -> Option<Money> {
        let told = self.evaluation.materials.iter().all(|m| !m.waits);
        told.then_some(self.evaluation.cost)
    }

    /// The measurement rule; `None` while the project names none that there is.
    pub fn rule(&self) -> Option<&Rule> {
        self.site.rule_known.then_some(&self.site.rule)
    }

    /// The mixer; `None` when there is none, or while what it holds is refused.
    pub fn mixer(&self) -> Option<&CheckedMixer> {
        self.site.mixer.as_ref()
    }

    /// Everything refused: what [`crate::check()`] refuses, in its order, then what the measuring
    /// refuses, and faces without room for all their coats, by wall.
    pub fn problems(&self) -> impl Iterator<Item = &Problem> {
        let mut twice = self.ids.problems.iter().peekable();
        let mut troubled = self.parts.iter().flat_map(|part| &part.troubled).peekable();
        let walls = std::iter::from_fn(move || {
            let next = [
                twice.peek().map(|(at, _)| **at),
                troubled.peek().map(|at| **at),
            ];
            let at = next.into_iter().flatten().min()?;
            let id = twice.next_if(|(other, _)| **other == at);
            let own = troubled.next_if(|other| **other == at);
            let own = own.and_then(|at| self.pieces.get(*at));
            let own = own.into_iter().flat_map(|piece| &piece.problems);
            Some(id.map(|(_, problem)| problem).into_iter().chain(own))
        });
        self.site_problems
            .iter()
            .chain(walls.flatten())
            .chain(&self.record_problems)
            .chain(self.parts.iter().flat_map(|part| &part.refused))
            .chain(&self.cramped_problems)
    }

    /// Whether nothing is refused.
    pub fn is_whole(&self) -> bool {
        self.problems().next().is_none()
    }

    /// Whether the wall at a position is there and counts: nothing in it is refused.
    pub fn sound(&self, wall: usize) -> bool {
        let piece = self.pieces.get(wall);
        piece.is_some_and(|piece| piece.is_sound()) && !self.cramped.contains_key(&wall)
    }

    /// How many walls count for nothing because something in them is refused.
    pub fn left_out(&self) -> usize {
        self.parts.iter().map(|part| part.left_out).sum()
    }

    /// What lies on it, to be compared; the supply when it was planned.
    pub fn one<'a>(&'a self, supply: Option<&'a Supply>) -> One<'a> {
        One {
            project: &self.project,
            site: &self.site,
            evaluation: &self.evaluation,
            supply,
        }
    }

    /// The tree of a figure, by its path: see [`crate::explain()`]. Sums are explained over the walls
    /// that count.
    ///
    /// # Errors
    /// [`PathFault::Waits`] while something that the figure needs is refused, and any other
    /// [`PathFault`] when the path names nothing.
    pub fn explain(&self, path: &str) -> Result<Node, PathFault> {
        explain(self.source(), path)
    }

    /// The paths that can be asked for, the chief ones.
    pub fn paths(&self) -> Vec<EcoString> {
        paths(self.source())
    }

    fn source(&self) -> Source<'_> {
        Source::of_parts(
            &self.project,
            &self.site,
            self,
            &self.evaluation,
            self.left_out(),
        )
        .briefly(self.pieces.len() > TREES_WHOLE)
    }

    /// What one full batch of a mix takes: see [`crate::Assessed::batch_of`]. Nothing while it cannot be
    /// told.
    pub fn batch_of(&self, mix: &str) -> Vec<(&Name, Quantity)> {
        self.site.batch_of(&self.project, mix)
    }

    /// Looks for a blend of the project by its name.
    ///
    /// # Errors
    /// In words: what is missing for it, or what cannot be.
    pub fn blend(&self, name: &str) -> Result<Blended, EcoString> {
        blend::find(&self.project, &self.site, name)
    }

    /// A mix made of the blend of a name, with a name that is free, and the mix whose water, air, fibre and
    /// binder it takes.
    ///
    /// # Errors
    /// In words: why there is none to be had.
    pub fn blend_as_mix(&self, name: &str) -> Result<(Name, Mix, Option<Name>), EcoString> {
        blend::as_mix(&self.project, &self.site, name)
    }

    /// What to buy from whom. Takes far longer than the other figures, so it is for a thread of its own.
    ///
    /// # Errors
    /// In words: what keeps it from being planned.
    pub fn supply(&self) -> Result<Supply, EcoString> {
        supply::find(&self.project, &self.site, &self.evaluation)
    }

    /// What the rest takes, by what the walls took so far; records of walls that count for nothing are
    /// left out.
    ///
    /// # Errors
    /// In words: what keeps it from being told.
    pub fn forecast(&self) -> Result<Forecast, EcoString> {
        Forecast::of(&self.one(None), self)
    }

    /// The cards beside the mixer, one a mix.
    pub fn cards(&self) -> Vec<Card<'_>> {
        card::cards(&self.project, &self.site, &self.evaluation)
    }

    fn begin_anew(&mut self) {
        *self = Self::new(Arc::clone(&self.project), Arc::clone(&self.rules));
    }

    /// Checks everything but the walls anew.
    fn set_site(&mut self, old: &Project, new: &Project) -> Touched {
        let mut values = Values::default();
        let site = site(new, &self.rules, &mut values);
        self.site_problems = values.into_problems();
        let was = std::mem::replace(&mut self.site, site);
        let site = &self.site;
        // By their bits: quantities are compared through a conversion, which may round.
        let bits = |depth: &Option<Length>| depth.map(|depth| depth.value.to_bits());
        Touched {
            names: !(old.backgrounds.keys().eq(new.backgrounds.keys())
                && old.build_ups.keys().eq(new.build_ups.keys())),
            rule: old.measurement_rule != new.measurement_rule,
            sums: !was
                .dubbing_out
                .iter()
                .map(bits)
                .eq(site.dubbing_out.iter().map(bits))
                || was.is_lath != site.is_lath
                || bits(&was.lath_key) != bits(&site.lath_key)
                || was.build_ups.len() != site.build_ups.len(),
        }
    }

    /// Finds the names of backgrounds and build-ups again in every wall.
    fn find_names(&mut self, old: &Project, new: &Project) {
        for (piece, wall) in zip(&mut self.pieces, &old.walls) {
            match piece.find_names(new, wall) {
                Renamed::Same => {}
                Renamed::Moved(moved) => *piece = moved,
                Renamed::Unknown => {
                    let mut made = Piece::new(new, wall, &mut self.reveals);
                    made.measure(&self.site, self.reveals.list());
                    *piece = Arc::new(made);
                }
            }
        }
    }

    /// Takes over the walls that are new, and gives whether there are any, or some are gone.
    fn set_walls(&mut self, old: &Project, new: &Project) -> bool {
        let spread = Spread::between(&old.walls, &new.walls);
        if spread.left.is_empty() && spread.came.is_empty() {
            return false;
        }
        // A wall that only stands elsewhere now is known by its reference.
        let mut known: HashMap<*const Wall, Arc<Piece>> = HashMap::new();
        for at in &spread.left {
            if let (Some(wall), Some(piece)) = (old.walls.get(*at), self.pieces.get(*at)) {
                self.ids.remove(wall);
                known.insert(Arc::as_ptr(wall), Arc::clone(piece));
            }
        }
        let came = || spread.came.iter().filter_map(|at| new.walls.get(*at));
        let fresh = came().filter(|wall| !known.contains_key(&Arc::as_ptr(wall)));
        let mut made = self.make(fresh).into_iter();
        let next = came().filter_map(|wall| {
            known
                .get(&Arc::as_ptr(wall))
                .cloned()
                .or_else(|| made.next())
        });
        if spread.level {
            for (at, piece) in zip(&spread.came, next) {
                if let Some(place) = self.pieces.get_mut(*at) {
                    *place = piece;
                }
                if let Some(part) = self.parts.get_mut(at / CHUNK) {
                    part.is_stale = true;
                }
            }
        } else {
            let end = spread.front + spread.left.len();
            self.pieces.splice(spread.front..end, next);
            for part in self.parts.iter_mut().skip(spread.front / CHUNK) {
                part.is_stale = true;
            }
        }
        came().for_each(|wall| self.ids.add(wall));
        let id = |walls: &[Arc<Wall>], at: &usize| walls.get(*at).map(|wall| wall.id.clone());
        let same_id = |at: &usize| id(&old.walls, at) == id(&new.walls, at);
        if !(spread.level && spread.came.iter().all(same_id)) {
            self.ids.tell(&new.walls);
        }
        true
    }

    /// Checks and measures walls.
    fn make<'w>(&mut self, walls: impl Iterator<Item = &'w Arc<Wall>>) -> Vec<Arc<Piece>> {
        let mut made: Vec<Piece> = walls
            .map(|wall| Piece::new(&self.project, wall, &mut self.reveals))
            .collect();
        let (site, reveals) = (&self.site, self.reveals.list());
        if made.len() > ALONE {
            made.par_iter_mut()
                .for_each(|piece| piece.measure(site, reveals));
        } else {
            for piece in &mut made {
                piece.measure(site, reveals);
            }
        }
        made.into_iter().map(Arc::new).collect()
    }

    /// Measures every wall anew.
    fn measure_all(&mut self) {
        let (site, reveals) = (&self.site, self.reveals.list());
        self.pieces
            .par_iter_mut()
            .for_each(|piece| Arc::make_mut(piece).measure(site, reveals));
    }

    /// Looks over the records, which name walls.
    fn look_at_records(&mut self) {
        let mut values = Values::default();
        done::check(&self.project, &self.site, &mut values);
        work::check_walls(&self.project, &mut values);
        self.record_problems = values.into_problems();
    }

    fn all_stale(&mut self) {
        for part in &mut self.parts {
            part.is_stale = true;
        }
    }

    /// Sums up the chunks in which something changed, and works out what follows from the sums.
    fn sum_up(&mut self) {
        let count = self.pieces.len().div_ceil(CHUNK);
        let site = &self.site;
        self.parts.resize_with(count, || Part::new(site));
        let is_other_length = self.evaluation.faces.len() != self.pieces.len();
        for (part, pieces) in zip(&mut self.parts, self.pieces.chunks(CHUNK)) {
            if part.is_stale {
                part.look_for_room(site, pieces);
            }
        }
        self.look_for_cramped();
        let (project, site, cramped) = (&*self.project, &self.site, &self.cramped);
        let stale = self.parts.iter().filter(|part| part.is_stale).count();
        // With no wall there is no chunk to be stale, and yet every build-up has its sums, of nothing.
        let is_new = self.evaluation.grounds.len() != site.build_ups.len();
        if stale == 0 && !is_other_length && !is_new {
            return self.evaluation.order(site);
        }
        let faces = &mut self.evaluation.faces;
        faces.resize(self.pieces.len(), [None, None]);
        let one = |chunk: usize, part: &mut Part, pieces: &[Arc<Piece>], faces: &mut [_]| {
            if part.is_stale {
                part.sum(project, site, cramped, chunk * CHUNK, pieces, faces);
            }
        };
        if stale > 1 {
            let parts = self.parts.par_iter_mut().zip(self.pieces.par_chunks(CHUNK));
            parts
                .zip(faces.par_chunks_mut(CHUNK))
                .enumerate()
                .for_each(|(chunk, ((part, pieces), faces))| one(chunk, part, pieces, faces));
        } else {
            let parts = zip(&mut self.parts, self.pieces.chunks(CHUNK));
            for (chunk, ((part, pieces), faces)) in zip(parts, faces.chunks_mut(CHUNK)).enumerate()
            {
                one(chunk, part, pieces, faces);
            }
        }
        let sums = self.parts.iter().map(|part| &part.sums);
        self.evaluation.sum_up(site, sums);
    }

    /// Finds the walls without room for their coats. Chunks with other such walls than before are stale.
    fn look_for_cramped(&mut self) {
        let thicknesses = self.site.thicknesses();
        let mut cramped = Cramped::default();
        for (chunk, (part, pieces)) in zip(&self.parts, self.pieces.chunks(CHUNK)).enumerate() {
            if !part.may_be_cramped(&thicknesses) {
                continue;
            }
            for (at, piece) in zip(chunk * CHUNK.., pieces) {
                let sides: Vec<Side> = piece.cramped(&thicknesses).collect();
                if !sides.is_empty() {
                    cramped.insert(at, sides);
                }
            }
        }
        let was = std::mem::replace(&mut self.cramped, cramped);
        for at in was.keys().chain(self.cramped.keys()) {
            if was.get(at) != self.cramped.get(at)
                && let Some(part) = self.parts.get_mut(at / CHUNK)
            {
                part.is_stale = true;
            }
        }
        let problems = self.cramped.iter().filter_map(|(at, sides)| {
            let wall = self.project.walls.get(*at)?;
            Some(sides.iter().map(|side| no_room_for_coats(wall, *side)))
        });
        self.cramped_problems = problems.flatten().collect();
    }
}

impl FindWall for Bench {
    fn find(&self, at: usize) -> Option<OneWall<'_>> {
        let piece = self.pieces.get(at).filter(|_| self.sound(at))?;
        piece.wall(self.reveals.list())
    }
}
