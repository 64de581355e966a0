//! The days on site: each coat of each face as a task for the crew, when it is dry, which nights may freeze it, and
//! when it dries too fast to be worked.
//!
//! What a project says of its people, hours and rates is taken; what it does not say is taken from where it is
//! published or usual, and [`Days::notes`] says so. When a coat is dry is a band, never one day alone: the plan goes
//! by the likely end, or by the slow rule of thumb where nothing better is known.
//!
//! Not here: how a plan is found (see `hodful_workplan`), how a wall dries and freezes (see `hodful_air`), reading
//! weather, and rooms, whose air is taken as steady.

mod drying;
mod nights;
pub mod said;
mod tasks;

pub use drying::{Drying, Until};
pub use nights::{Hasty, NightAhead};

use crate::check::values::Values;
use crate::check::work;
use crate::checked::FindWall;
use crate::compare::One;
use crate::project::{Name, Side};
use drying::Outdoors;
use ecow::{EcoString, eco_format};
use hodful_air::Weather;
use hodful_air::frost::Binder;
use hodful_workplan::{Plan, Site};
use jiff::civil::{Date, DateTime};
use std::iter::zip;

/// Most tasks that are planned. Ours: more are no work of one crew, and finding a plan takes too long.
pub const MOST_TASKS: usize = 2000;

/// The days on site.
#[derive(Debug, Clone, PartialEq)]
pub struct Days {
    /// What the plan is made from; its tasks are those below, in the same order.
    pub site: Site,
    /// The plan.
    pub plan: Plan,
    /// Each coat on each face, wall by wall.
    pub tasks: Vec<DayTask>,
    /// Where the weather is from, when there is weather.
    pub weather: Option<EcoString>,
    /// What was taken for what the project does not say.
    pub notes: Vec<EcoString>,
}

/// One coat on one face.
#[derive(Debug, Clone, PartialEq)]
pub struct DayTask {
    /// Id of the wall.
    pub wall: Name,
    /// The face.
    pub side: Side,
    /// Name of the build-up.
    pub build_up: Name,
    /// Name of the coat.
    pub coat: Name,
    /// Name of the mix.
    pub mix: Name,
    /// Surface of all walls of the entry, m².
    pub m2: f64,
    /// Mixed with loss, litres.
    pub litres: f64,
    /// Mean thickness with dubbing out, mm.
    pub thickness_mm: f64,
    /// Water that the coat must give off, kg/m².
    pub water_kg_m2: f64,
    /// Dry mass, kg/m².
    pub dry_kg_m2: f64,
    /// What holds it together.
    pub binder: Binder,
    /// Whether the wall is higher than can be worked without a scaffold.
    pub is_high: bool,
    /// When it is dry; nothing where the task has no place in the plan.
    pub drying: Option<Drying>,
    /// Nights in which it may freeze, until it is dry at the latest; outside and with weather alone.
    pub nights: Vec<NightAhead>,
    /// When it dries too fast to be worked; outside and with weather alone.
    pub hasty: Vec<Hasty>,
    /// Keys of the cautions that the task calls for.
    pub cautions: Vec<&'static str>,
}

impl Days {
    /// The days of a project whose walls are found there.
    pub(crate) fn of(
        one: &One<'_>,
        walls: &dyn FindWall,
        weather: Option<&Weather>,
        begins: Option<Date>,
    ) -> Result<Self, EcoString> {
        // What is refused is told by the check; a project that is assessed has nothing of it.
        let work = work::read(one.project, &mut Values::default());
        let begins = begins.or(work.begins).ok_or(
            "the project does not say when the work begins; give the day, such as 2026-04-13",
        )?;
        let mut notes = Vec::new();
        let found = tasks::all(one, walls, &mut notes);
        if found.is_empty() {
            return Err("there is nothing to plan: no face has a coat that can be told".into());
        }
        if found.len() > MOST_TASKS {
            return Err(eco_format!(
                "{} coats on faces are too many for one plan; {MOST_TASKS} at most",
                found.len()
            ));
        }
        let site = tasks::site(one, &work, begins, &found, &mut notes);
        let outdoors = Outdoors::new(weather, begins, work.place, &found, &mut notes);
        let plan = hodful_workplan::plan(&site, &mut |task, end| match found.get(task) {
            Some(of) => outdoors.drying(of, end).planned_with(end),
            None => end,
        });
        let plan = plan.map_err(|refused| eco_format!("{refused}"))?;
        let tasks = zip(&found, &plan.tasks).map(|(of, planned)| {
            let mut task = of.task.clone();
            if let Some(planned) = planned {
                let drying = outdoors.drying(of, planned.end);
                task.nights = outdoors.nights(of, planned.begin, &drying);
                task.hasty = outdoors.hasty(of, planned);
                task.drying = Some(drying);
            }
            task.cautions = cautions(&task, one.project.mixer.is_some());
            task
        });
        let tasks = tasks.collect();
        Ok(Self {
            tasks,
            weather: outdoors.told(),
            site,
            plan,
            notes,
        })
    }
}

/// What is done of a task on one day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Begin.
    pub begin: DateTime,
    /// End.
    pub end: DateTime,
    /// Surface, m².
    pub m2: f64,
    /// Mix, litres.
    pub litres: f64,
    /// Most people at once who place, finish, or do everything.
    pub hands: usize,
}

impl Days {
    /// What is done of a task, by its position, on each of its days.
    pub fn stretches(&self, task: usize) -> Vec<Stretch> {
        let planned = self.plan.tasks.get(task).and_then(Option::as_ref);
        let mut found: Vec<Stretch> = Vec::new();
        for portion in planned.into_iter().flat_map(|planned| &planned.portions) {
            let hands = portion.hands.saturating_add(portion.finishing);
            match found.last_mut() {
                Some(last) if last.begin.date() == portion.begin.date() => {
                    last.end = portion.end;
                    last.m2 += portion.m2;
                    last.litres += portion.litres;
                    last.hands = last.hands.max(hands);
                }
                _ => found.push(Stretch {
                    begin: portion.begin,
                    end: portion.end,
                    m2: portion.m2,
                    litres: portion.litres,
                    hands,
                }),
            }
        }
        found
    }
}

/// Keys of the cautions that a task calls for.
fn cautions(task: &DayTask, has_mixer: bool) -> Vec<&'static str> {
    let calls = [
        ("dust", true),
        ("mixer", has_mixer),
        ("scaffold", task.is_high),
        ("frost", !task.nights.is_empty()),
        ("lime", task.binder != Binder::Earth),
    ];
    let called = calls.into_iter().filter(|(_, called)| *called);
    called.map(|(key, _)| key).collect()
}
