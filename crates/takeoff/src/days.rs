//! The days on site: each coat of each face as a task for the crew, when it is dry, which nights may freeze it, and
//! when it dries too fast to be worked.
//!
//! What a project says of its people, hours and rates is taken; what it does not say is taken from where it is
//! published or usual, and [`Days::notes`] says so. When a coat is dry is a band, never one day alone: the plan goes
//! by the likely end, or by the slow rule of thumb where nothing better is known.
//!
//! Coats that are recorded as done are left out, and what stands on them waits until they are dry. Rooms become damp
//! by the coats in them, which slows these down; plan and rooms are worked out in turns until they agree.
//!
//! Not here: how a plan is found (see `hodful_workplan`), how a wall or a room dries and freezes (see `hodful_air`),
//! and reading weather.

mod before;
mod cautions;
mod climate;
mod drying;
mod lacking;
mod learned;
mod nights;
mod rooms;
pub mod said;
mod site;
mod tasks;
mod together;
mod weekend;

pub use drying::{ByRule, Drying, Until};
pub use lacking::Lacking;
pub use learned::{LearnedDrying, SeenDrying};
pub use nights::{HASTE_BY, Hasty, NightAhead, RainAhead};
pub use rooms::{DampDay, DampRoom, Needed};
pub use together::{Cautioned, NightOnSite, RainOnSite, coats_on_walls};
pub use weekend::{Ahead, Hands, MixAhead, WeekendAhead};

use crate::check::values::Values;
use crate::check::work;
use crate::check::work::rooms::CheckedRoom;
use crate::checked::FindWall;
use crate::compare::One;
use crate::project::{Name, Side};
use before::Recorded;
use climate::Climate;
use ecow::{EcoString, eco_format};
use hodful_air::Weather;
use hodful_air::drying::Record;
use hodful_air::film::open_minutes;
use hodful_air::frost::Binder;
use hodful_workplan::{Plan, Site, Task, TaskPlan, wet_edge};
use jiff::civil::{Date, DateTime, Time};
use rooms::Wet;
use std::iter::zip;
use tasks::Found;

/// Most tasks that are planned. Ours: more are no work of one crew, and finding a plan takes too long.
pub const MOST_TASKS: usize = 2000;

/// The days on site.
#[derive(Debug, Clone, PartialEq)]
pub struct Days {
    /// What the plan is made from; its first tasks are those below, in the same order, then what is prepared.
    pub site: Site,
    /// The plan.
    pub plan: Plan,
    /// Each coat on each face, wall by wall.
    pub tasks: Vec<DayTask>,
    /// Where the weather is from, when there is weather.
    pub weather: Option<EcoString>,
    /// Its first hour, where the work begins before that.
    pub weather_begins: Option<DateTime>,
    /// Its last hour, where it ends within what was looked at.
    pub weather_ends: Option<DateTime>,
    /// Whether it is a typical year and no forecast.
    pub is_typical: bool,
    /// What the weather does not say, in some hours at least: of what hangs on it nothing may be told as safe.
    pub lacking: Vec<Lacking>,
    /// Rooms with a coat in the plan or on the wall, when there is weather.
    pub rooms: Vec<DampRoom>,
    /// What records of drying say.
    pub learned: Vec<LearnedDrying>,
    /// Coats that are on the walls already, and not planned.
    pub on_wall: Vec<OnWall>,
    /// What was taken for what the project does not say.
    pub notes: Vec<EcoString>,
}

/// A coat that was put on before the first day.
#[derive(Debug, Clone, PartialEq)]
pub struct OnWall {
    /// The coat, with its drying and its nights from the first day on, where it is still wet as far as is known.
    pub task: DayTask,
    /// When it was put on, where that is recorded.
    pub placed: Option<Date>,
    /// When it was found dry, where that is recorded.
    pub dry: Option<Date>,
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
    /// Whether it is the first coat on straw.
    pub on_straw: bool,
    /// The room that an inside face is in, where one is given.
    pub room: Option<Name>,
    /// How long it can be worked; nothing where that is not known, or where the task has no place in the plan.
    pub open: Option<Open>,
    /// When it is dry; nothing where the task has no place in the plan.
    pub drying: Option<Drying>,
    /// Nights in which it may freeze, until it is dry at the latest; with weather alone, outside and in rooms.
    pub nights: Vec<NightAhead>,
    /// Days on which it rains on it while it is wet; outside, open to rain and with weather alone.
    pub rain: Vec<RainAhead>,
    /// When it dries too fast to be worked; outside and with weather alone.
    pub hasty: Vec<Hasty>,
    /// Keys of the cautions that the task calls for.
    pub cautions: Vec<&'static str>,
}

/// How long a coat can be worked, and on how much an edge stays wet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Open {
    /// Minutes.
    pub minutes: f64,
    /// The largest surface to keep a wet edge on at the planned pace, m².
    pub m2: f64,
    /// Whether the minutes were measured; else they are estimated from the driest hour.
    pub is_measured: bool,
}

/// All that days are planned from.
struct Planner {
    found: Vec<Found>,
    on_wall: Vec<(Found, Recorded)>,
    rooms: Vec<CheckedRoom>,
    climate: Climate,
    learned: Vec<LearnedDrying>,
    site: Site,
    notes: Vec<EcoString>,
    has_mixer: bool,
}

/// Dated coats that are on the walls: they may be wet still.
fn on_the_wall(on_wall: &[(Found, Recorded)], day_ends: Time) -> Vec<Wet<'_>> {
    let each = on_wall.iter().filter_map(|(of, recorded)| {
        Some(Wet {
            of,
            m2: of.task.m2,
            from: DateTime::from_parts(recorded.placed?, day_ends),
        })
    });
    each.collect()
}

/// Most rounds in which plan and rooms are worked out in turns.
const ROUNDS: usize = 6;

impl Planner {
    fn new(
        one: &One<'_>,
        walls: &dyn FindWall,
        weather: Option<&Weather>,
        begins: Option<Date>,
    ) -> Result<Self, EcoString> {
        // What is refused is told by the check; a project that is assessed has nothing of it.
        let values = &mut Values::default();
        let work = work::read(one.project, values);
        let rooms = work::rooms::read(one.project, values);
        let dried = work::dried::read(one.project, values);
        let begins = begins.or(work.begins).ok_or(
            "the project does not say when the work begins; give the day, such as 2026-04-13",
        )?;
        let mut notes = Vec::new();
        let all = tasks::all(one, walls, &rooms, &mut notes);
        if all.is_empty() {
            return Err("there is nothing to plan: no face has a coat that can be told".into());
        }
        let (mut found, mut on_wall) = before::part(all, one, &dried);
        let placed = on_wall.iter().filter_map(|(_, of)| of.placed);
        let earliest = placed.min().unwrap_or(begins);
        let coats: Vec<Found> = on_wall
            .iter()
            .map(|(of, _)| of)
            .chain(&found)
            .cloned()
            .collect();
        let mut climate = Climate::new(
            weather,
            [earliest, begins],
            work.place,
            &coats,
            &rooms,
            &mut notes,
        );
        let wet = on_the_wall(&on_wall, work.hours.to);
        climate.rooms = rooms::airs(&rooms, &wet, &climate);
        let times = (begins, work.hours.to);
        let learned = learned::all(&coats, &dried, &climate, times, &mut notes);
        let both = found.iter_mut().chain(on_wall.iter_mut().map(|(of, _)| of));
        for of in both {
            let own = learned.iter().find(|learned| learned.side == of.task.side);
            of.record = own.map_or(Record::NONE, LearnedDrying::record);
        }
        before::notes(&found, &on_wall, begins, &mut notes);
        let standing: Vec<usize> = before::standing(&found, &on_wall)
            .map(|(at, ..)| at)
            .collect();
        for (at, of) in found.iter_mut().enumerate() {
            of.on_recorded = standing.contains(&at);
        }
        if rooms.iter().any(|room| room.celsius.is_none()) && climate.is_known() {
            notes.push("A room that is not kept at a warmth is taken as warm as outside over the day, and for frost as cold as outside; drying cools it further, which is not counted.".into());
        }
        let is_wet = |of: &Recorded| of.placed.is_some() && of.dry.is_none();
        if found.is_empty() && !on_wall.iter().any(|(_, recorded)| is_wet(recorded)) {
            return Err("there is nothing left to plan: every coat is recorded as done".into());
        }
        if found.len() > MOST_TASKS {
            return Err(eco_format!(
                "{} coats on faces are too many for one plan; {MOST_TASKS} at most",
                found.len()
            ));
        }
        let mut of_site = Vec::new();
        let site = site::site(one, &work, begins, &found, &mut of_site);
        if found.is_empty() {
            notes.push("Every coat is recorded as done: there is nothing left to plan. What is told is of coats that are still wet.".into());
        } else {
            notes.append(&mut of_site);
        }
        let mut planner = Self {
            on_wall,
            has_mixer: one.project.mixer.is_some(),
            found,
            rooms,
            climate,
            learned,
            site,
            notes,
        };
        planner.hold();
        Ok(planner)
    }

    /// Lets what stands on a coat that is on the wall wait for it.
    fn hold(&mut self) {
        let times = [self.site.hours.from, self.site.hours.to];
        for (at, under, recorded) in before::standing(&self.found, &self.on_wall) {
            if let Some(task) = self.site.tasks.get_mut(at) {
                task.not_before = before::may_begin(under, recorded, &self.climate, times);
            }
        }
    }

    /// All that gives water to rooms: what is on the walls, and what a plan puts there, part by part.
    fn wet(&self, plan: &Plan) -> Vec<Wet<'_>> {
        let mut wet = on_the_wall(&self.on_wall, self.site.hours.to);
        for (of, planned) in zip(&self.found, &plan.tasks) {
            let portions = planned.iter().flat_map(|planned| &planned.portions);
            wet.extend(portions.map(|part| Wet {
                of,
                m2: part.m2,
                from: part.end,
            }));
        }
        wet
    }

    /// When a task that ended then is dry, for the plan.
    fn dry(&self, task: usize, end: DateTime) -> DateTime {
        match self.found.get(task) {
            Some(of) => self.climate.drying(of, end).planned_with(end),
            None => end,
        }
    }

    /// A plan, and the rooms that it makes damp, worked out in turns until they agree.
    fn agree<T>(
        &mut self,
        mut plan: impl FnMut(&Self) -> Result<T, EcoString>,
        of: impl Fn(&T) -> &Plan,
    ) -> Result<T, EcoString> {
        let mut made = plan(self)?;
        if self.rooms.is_empty() || !self.climate.is_known() {
            return Ok(made);
        }
        for _ in 0..ROUNDS {
            let airs = rooms::airs(&self.rooms, &self.wet(of(&made)), &self.climate);
            self.climate.rooms = airs;
            self.hold();
            let next = plan(self)?;
            let is_same = of(&next).tasks == of(&made).tasks;
            made = next;
            if is_same {
                return Ok(made);
            }
        }
        self.notes.push("Rooms and plan did not quite agree: what is told of rooms is of a plan that is a little earlier or later.".into());
        Ok(made)
    }

    /// The tasks with all that is told of them in a plan.
    fn tasks(&self, plan: &Plan) -> Vec<DayTask> {
        let each = zip(zip(&self.found, &self.site.tasks), &plan.tasks);
        let each = each.map(|((of, of_site), planned)| {
            let mut task = of.task.clone();
            if let Some(planned) = planned {
                let drying = self.climate.drying(of, planned.end);
                let times = [planned.begin, planned.end];
                task.nights = self.climate.nights(of, times, &drying);
                task.rain = self.climate.rain(of, planned.begin, &drying);
                task.hasty = self.climate.hasty(of, planned);
                task.open = self.open(of, of_site, planned);
                task.drying = Some(drying);
            }
            let hottest = planned
                .as_ref()
                .and_then(|planned| self.climate.hottest(of, planned));
            let end = planned.as_ref().map(|planned| planned.end);
            task.cautions = self.cautions(of, &task, end, hottest);
            task
        });
        each.collect()
    }

    /// What is on the walls already, with what is told of what is still wet.
    fn on_wall(&self) -> Vec<OnWall> {
        let each = self.on_wall.iter().map(|(of, recorded)| {
            let mut task = of.task.clone();
            if let Some(placed) = recorded.placed {
                let end = DateTime::from_parts(placed, self.site.hours.to);
                let mut drying = self.climate.drying(of, end);
                let begin = end.max(self.site.begins.at(0, 0, 0, 0));
                if let Some(dry) = recorded.dry {
                    let at = DateTime::from_parts(dry, self.site.hours.from);
                    drying.slow = drying.slow.map(|slow| Until { at, ..slow });
                    drying.likely = drying.slow;
                }
                task.nights = self.climate.nights(of, [begin, end], &drying);
                task.rain = self.climate.rain(of, begin, &drying);
                task.drying = recorded.dry.is_none().then_some(drying);
                if self.calls_for_frost(of, &task, Some(end)) {
                    task.cautions.push("frost");
                }
            }
            OnWall {
                task,
                placed: recorded.placed,
                dry: recorded.dry,
            }
        });
        each.collect()
    }

    /// How long a coat can be worked in the driest hour of its work.
    fn open(&self, of: &Found, of_site: &Task, planned: &TaskPlan) -> Option<Open> {
        let coat = self.site.coats.get(of_site.coat()?);
        let measured = coat.and_then(|coat| coat.open_minutes);
        if measured.is_none() && of.task.binder != Binder::Earth {
            // Lime and cement set, however slowly they dry.
            return None;
        }
        let minutes = measured.or_else(|| {
            let worked = planned.portions.iter().flat_map(|part| {
                let begin = self.climate.known_from(of, part.begin);
                let hours = if begin < part.end {
                    part.end.duration_since(begin).as_hours() + 1
                } else {
                    0
                };
                let rates = self.climate.quick(of, begin).hours();
                rates
                    .into_iter()
                    .flat_map(move |rates| rates.take(usize::try_from(hours).unwrap_or(1)))
            });
            open_minutes(worked.fold(0.0, f64::max))
        })?;
        let spent: f64 = planned
            .portions
            .iter()
            .map(|part| part.end.duration_since(part.begin).as_secs_f64() / 3600.0)
            .sum();
        Some(Open {
            minutes,
            m2: wet_edge(of.task.m2 / spent, minutes),
            is_measured: measured.is_some(),
        })
    }
}

impl Days {
    /// The days of a project whose walls are found there.
    pub(crate) fn of(
        one: &One<'_>,
        walls: &dyn FindWall,
        weather: Option<&Weather>,
        begins: Option<Date>,
    ) -> Result<Self, EcoString> {
        let mut planner = Planner::new(one, walls, weather, begins)?;
        let plan = planner.agree(
            |planner| {
                let plan =
                    hodful_workplan::plan(&planner.site, &mut |task, end| planner.dry(task, end));
                plan.map_err(|refused| eco_format!("{refused}"))
            },
            |plan| plan,
        )?;
        Ok(planner.told(plan))
    }
}

impl Planner {
    fn told(mut self, plan: Plan) -> Days {
        let (tasks, on_wall) = (self.tasks(&plan), self.on_wall());
        let slow = |task: &DayTask| Some(task.drying?.slow?.at);
        let on_walls = on_wall.iter().map(|of| &of.task);
        let last = tasks.iter().chain(on_walls).filter_map(slow).max();
        let last = last.max(plan.end());
        self.notes.extend(self.cold_inside(&plan));
        Days {
            tasks,
            weather: self.climate.told(),
            rooms: rooms::all(&self.rooms, &self.wet(&plan), &self.climate),
            weather_begins: self.climate.begins(),
            weather_ends: self.climate.ends_before(last),
            is_typical: self.climate.is_typical,
            lacking: self.climate.lacking,
            on_wall,
            learned: self.learned,
            site: self.site,
            plan,
            notes: self.notes,
        }
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
