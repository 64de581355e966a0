//! A few days with many hands: what fits, what must be ready before, who does what. Not here: the plan itself (see
//! `hodful_workplan`).

use super::{DayTask, Days, Planner};
use crate::checked::FindWall;
use crate::compare::One;
use crate::project::{Name, Weekday};
use ecow::{EcoString, eco_format};
use hodful_air::Weather;
use hodful_quantities::mix::Quantity;
use hodful_quantities::units::{Volume, liter};
use hodful_workplan::{Crew, Limit, Weekend, Why, share_out};
use jiff::civil::Weekday::{Friday, Monday, Saturday, Sunday, Thursday, Tuesday, Wednesday};
use jiff::civil::{Date, DateTime};

/// A few days with many hands.
#[derive(Debug, Clone, PartialEq)]
pub struct WeekendAhead {
    /// The plan of these days, as other days are told.
    pub days: Days,
    /// Surface that is placed, m².
    pub m2: f64,
    /// What is to be prepared before, by the time it must be done.
    pub before: Vec<Ahead>,
    /// What must lie at the mixer when the days begin.
    pub mixes: Vec<MixAhead>,
    /// How the people are best shared out for each coat that is placed.
    pub hands: Vec<Hands>,
    /// Coats on faces that are left for later.
    pub left: Vec<DayTask>,
}

/// Something to prepare.
#[derive(Debug, Clone, PartialEq)]
pub struct Ahead {
    /// What.
    pub what: EcoString,
    /// Person-hours.
    pub hours: f64,
    /// When it must be done.
    pub by: DateTime,
}

/// A mix that the days take.
#[derive(Debug, Clone, PartialEq)]
pub struct MixAhead {
    /// Its name.
    pub mix: Name,
    /// Mixed, litres.
    pub litres: f64,
    /// Each material, dry and screened as it goes into the mixer.
    pub materials: Vec<(Name, Quantity)>,
}

/// How people are best shared out for one coat.
#[derive(Debug, Clone, PartialEq)]
pub struct Hands {
    /// Name of the coat.
    pub coat: Name,
    /// Who does what.
    pub crew: Crew,
    /// Surface that all together do in an hour, m².
    pub m2_per_hour: f64,
    /// What holds the work up.
    pub limit: Limit,
}

impl WeekendAhead {
    /// So many days in a row from a day that is given; else of the days from the first of the project on those of the
    /// weekend.
    pub(crate) fn of(
        one: &One<'_>,
        walls: &dyn FindWall,
        weather: Option<&Weather>,
        begins: Option<Date>,
        count: usize,
    ) -> Result<Self, EcoString> {
        let mut planner = Planner::new(one, walls, weather, begins)?;
        if planner.found.is_empty() {
            return Err("every coat is recorded as done".into());
        }
        let work = one.project.work.as_ref();
        let weekdays = work.map_or(&[][..], |work| &work.weekdays);
        planner.site.hours.weekdays = match begins {
            Some(_) => ALL.to_vec(),
            None if is_weekend(weekdays) => std::mem::take(&mut planner.site.hours.weekdays),
            None => vec![Saturday, Sunday],
        };
        let weekend = planner.agree(
            |planner| {
                let dry = &mut |task, end| planner.dry(task, end);
                let weekend = hodful_workplan::weekend(&planner.site, count, dry);
                weekend.map_err(|refused| eco_format!("{refused}"))
            },
            |weekend| &weekend.plan,
        )?;
        let Weekend {
            plan,
            before,
            m2,
            left,
        } = weekend;
        let mut days = planner.told(plan);
        // What finds no day in these few is told as left, not as what can never be done.
        let is_left = |why: &Why| matches!(why, Why::NoDaysLeft | Why::After { .. });
        days.plan.unplanned.retain(|of| !is_left(&of.why));
        for (task, planned) in std::iter::zip(&mut days.tasks, &days.plan.tasks) {
            // Nobody need take care for what is left for later.
            if planned.is_none() {
                task.cautions.clear();
            }
        }
        let before = before.into_iter().filter_map(|of| {
            Some(Ahead {
                what: days.site.tasks.get(of.task)?.name.as_str().into(),
                hours: of.hours,
                by: of.by,
            })
        });
        Ok(Self {
            m2,
            before: before.collect(),
            mixes: mixes(one, &days),
            hands: hands(&days),
            left: left
                .into_iter()
                .filter_map(|task| days.tasks.get(task).cloned())
                .collect(),
            days,
        })
    }
}

/// The days of the week.
const ALL: [jiff::civil::Weekday; 7] = [
    Monday, Tuesday, Wednesday, Thursday, Friday, Saturday, Sunday,
];

/// Whether days of the week are such that helpers come on: Friday to Sunday.
fn is_weekend(weekdays: &[Weekday]) -> bool {
    use Weekday::{Friday, Saturday, Sunday};
    !weekdays.is_empty()
        && weekdays
            .iter()
            .all(|day| [Friday, Saturday, Sunday].contains(day))
}

/// The tasks that are placed.
fn placed(days: &Days) -> impl Iterator<Item = &DayTask> {
    let all = std::iter::zip(&days.tasks, &days.plan.tasks);
    all.filter_map(|(task, planned)| planned.as_ref().map(|_| task))
}

fn mixes(one: &One<'_>, days: &Days) -> Vec<MixAhead> {
    let mut mixes: Vec<MixAhead> = Vec::new();
    for task in placed(days) {
        match mixes.iter_mut().find(|of| of.mix == task.mix) {
            Some(of) => of.litres += task.litres,
            None => mixes.push(MixAhead {
                mix: task.mix.clone(),
                litres: task.litres,
                materials: Vec::new(),
            }),
        }
    }
    for of in &mut mixes {
        let at = one.project.mixes.get_index_of(&of.mix);
        let Some(mix) = at.and_then(|at| one.site.mix(at)) else {
            continue;
        };
        let recipe = mix
            .mix
            .recipe(Volume::new::<liter>(of.litres), mix.yielded.value);
        let named = mix
            .takes(&recipe, None)
            .into_iter()
            .filter_map(|(at, quantity)| {
                Some((one.project.materials.get_index(at)?.0.clone(), quantity))
            });
        of.materials = named.collect();
    }
    mixes
}

fn hands(days: &Days) -> Vec<Hands> {
    let people = days.site.crew.people();
    let mut found: Vec<Hands> = Vec::new();
    // One kind for each coat and mix, as the plan has them.
    let mut kinds: Vec<usize> = Vec::new();
    for (number, task) in days.tasks.iter().enumerate() {
        let is_placed = days.plan.tasks.get(number).is_some_and(Option::is_some);
        let kind = days.site.tasks.get(number);
        let kind = kind.and_then(hodful_workplan::Task::coat);
        let Some(kind) = kind.filter(|kind| is_placed && !kinds.contains(kind)) else {
            continue;
        };
        let Some(coat) = days.site.coats.get(kind) else {
            continue;
        };
        kinds.push(kind);
        let shared = share_out(
            people,
            coat,
            task.litres / task.m2,
            days.site.mixing,
            days.site.carried_per_hour,
        );
        found.extend(shared.map(|shared| Hands {
            coat: coat.name.as_str().into(),
            crew: shared.crew,
            m2_per_hour: shared.m2_per_hour,
            limit: shared.limit,
        }));
    }
    found
}
