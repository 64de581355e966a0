//! The days on site, planned once for a state of the project, off the key path, and what stands in their list. Not
//! here: how it looks, and the plan itself (see `hodful_takeoff::days`).

use super::State;
use crate::effect::{Effect, WeatherReader};
use ecow::EcoString;
use hodful_takeoff::air::Verdict;
use hodful_takeoff::days::{DayTask, Days, NightAhead, Stretch, WeekendAhead};
use hodful_takeoff::form::Subject;
use hodful_takeoff::project::{Project, Side};
use hodful_takeoff::{Assessed, RuleBook};
use jiff::civil::Date;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Days on which helpers come: a weekend.
const HELPERS_DAYS: usize = 2;

/// What came of planning the days.
#[derive(Debug, Clone, PartialEq)]
pub struct OnSite {
    /// The days, or what keeps them from being planned, in words.
    pub days: Result<Days, EcoString>,
    /// The first weekend with helpers, or what keeps it from being planned.
    pub weekend: Result<Box<WeekendAhead>, EcoString>,
    /// What should be known of the weather that was read, in words.
    pub notes: Vec<EcoString>,
    /// Why the weather that the project names is not there, in words.
    pub fault: Option<EcoString>,
}

/// Plans the days, in the weather of the file that the project names. It may take some tenths of a second, and reads
/// that file.
pub fn plan_days(
    project: &Project,
    rules: &RuleBook,
    path: Option<&Path>,
    weather: &WeatherReader,
) -> OnSite {
    let refused = "something of the project is refused";
    let mut on_site = OnSite {
        days: Err(refused.into()),
        weekend: Err(refused.into()),
        notes: Vec::new(),
        fault: None,
    };
    let named = project.work.as_ref().and_then(|work| work.weather.as_ref());
    let read = named.and_then(|name| {
        let read = match path {
            Some(path) => weather(path, name),
            None => Err(
                "The weather lies beside the file of the project, which has none yet; save it first."
                    .to_owned(),
            ),
        };
        read.map_err(|words| on_site.fault = Some(words.into())).ok()
    });
    let Ok(of) = Assessed::new(project, rules) else {
        return on_site;
    };
    let weather = read.as_ref().map(|read| &read.weather);
    on_site.days = of.days(weather, None);
    on_site.weekend = of.weekend(weather, None, HELPERS_DAYS).map(Box::new);
    let notes = read.into_iter().flat_map(|read| read.notes);
    on_site.notes = notes.map(EcoString::from).collect();
    on_site
}

/// A row of the list of days.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DayRow {
    /// The work as a whole.
    Work,
    /// A room, by its position.
    Room(usize),
    /// Something to prepare, by its position.
    Preparation(usize),
    /// A record of drying, by its position.
    Dried(usize),
    /// The first weekend with helpers.
    Helpers,
    /// A day on which something is done, or that ends in a night of frost.
    Day(Date),
    /// What is done of a task, by its position, on a day.
    Task(usize, Stretch),
    /// A task that found no place.
    Unplanned(usize),
}

impl DayRow {
    /// The day that it is on.
    pub fn date(self) -> Option<Date> {
        match self {
            Self::Day(date) => Some(date),
            Self::Task(_, stretch) => Some(stretch.begin.date()),
            _ => None,
        }
    }

    /// The task that it is about.
    pub fn task(self) -> Option<usize> {
        match self {
            Self::Task(task, _) | Self::Unplanned(task) => Some(task),
            _ => None,
        }
    }

    /// The thing of the work that it is, where it is one.
    pub fn thing(self) -> Option<Subject> {
        match self {
            Self::Room(at) => Some(Subject::Room(at)),
            Self::Preparation(at) => Some(Subject::Preparation(at)),
            Self::Dried(at) => Some(Subject::Dried(at)),
            _ => None,
        }
    }
}

/// Where one stands on the page of the days.
#[derive(Debug, Default)]
pub(crate) struct Page {
    /// The chosen row.
    pub(crate) row: usize,
    /// Whether to plan anew though the project is the same: the file of weather may be another one.
    pub(crate) again: bool,
    kept: Option<Kept>,
    /// The request that is not answered yet.
    asked: Option<Asked>,
}

/// What is asked for: its number, the project, its file.
type Asked = (u64, Arc<Project>, Option<PathBuf>);

/// What came, with the project and the file that it is of, and the rows that follow.
#[derive(Debug)]
struct Kept {
    project: Arc<Project>,
    path: Option<PathBuf>,
    on_site: OnSite,
    rows: Vec<DayRow>,
}

/// The work, and what stands under it, of which the plan is made.
fn of_work(project: &Project) -> impl Iterator<Item = DayRow> {
    let work = project.work.as_deref();
    let [rooms, prepare, dried] = work.map_or([0; 3], |work| {
        [work.rooms.len(), work.prepare.len(), work.dried.len()]
    });
    let rooms = (0..rooms).map(DayRow::Room);
    let prepare = (0..prepare).map(DayRow::Preparation);
    let dried = (0..dried).map(DayRow::Dried);
    std::iter::once(DayRow::Work)
        .chain(rooms)
        .chain(prepare)
        .chain(dried)
        .chain([DayRow::Helpers])
}

/// Whether a night is likely to freeze a coat that is likely wet.
pub(crate) fn freezes(night: &NightAhead) -> bool {
    night.likely_wet && night.night.verdict() == Verdict::Freezes
}

/// The rows of some days: day by day what is done, then what found no place.
fn rows(days: &Days) -> Vec<DayRow> {
    let mut all: Vec<(Date, usize, Stretch)> = Vec::new();
    for task in 0..days.plan.tasks.len() {
        let stretches = days.stretches(task).into_iter();
        all.extend(stretches.map(|stretch| (stretch.begin.date(), task, stretch)));
    }
    all.sort_by_key(|(date, task, stretch)| (*date, stretch.begin, *task));
    let nights = days.nights().into_iter();
    let nights = nights.filter(|night| night.worst.night.verdict() == Verdict::Freezes);
    let mut dates: Vec<Date> = nights.map(|night| night.worst.night.evening).collect();
    dates.extend(all.iter().map(|(date, ..)| *date));
    dates.sort_unstable();
    dates.dedup();
    let mut rows = Vec::new();
    let mut all = all.into_iter().peekable();
    for date in dates {
        rows.push(DayRow::Day(date));
        while let Some((_, task, stretch)) = all.next_if(|(own, ..)| *own == date) {
            rows.push(DayRow::Task(task, stretch));
        }
    }
    rows.extend(
        days.plan
            .unplanned
            .iter()
            .map(|of| DayRow::Unplanned(of.task)),
    );
    rows
}

/// What a row is about, whatever its place in the list: to find it again in another plan.
type Name<'d> = (Option<Date>, Option<(&'d str, Side, &'d str)>);

fn name(days: &Days, row: DayRow) -> Name<'_> {
    let task = row.task().and_then(|task| days.tasks.get(task));
    let named = task.map(|of: &DayTask| (of.wall.as_str(), of.side, of.coat.as_str()));
    // A task is itself on whatever day it is done.
    (row.date().filter(|_| named.is_none()), named)
}

impl State {
    /// What came of planning the days; of an earlier state of the project while they are being planned anew.
    pub fn on_site(&self) -> Option<&OnSite> {
        self.yard.days.kept.as_ref().map(|kept| &kept.on_site)
    }

    /// The days, when they could be planned.
    pub fn days(&self) -> Option<&Days> {
        self.on_site()?.days.as_ref().ok()
    }

    /// Whether the days are those of the project as it is now.
    pub fn is_on_site(&self) -> bool {
        let kept = self.yard.days.kept.as_ref();
        kept.is_some_and(|of| Arc::ptr_eq(&of.project, self.project()) && of.path == self.path)
    }

    /// The rows of the list of days: the work with its rooms, what is prepared and records as they are now, then the
    /// plan that is there.
    pub fn day_rows(&self) -> Vec<DayRow> {
        self.each_day_row().collect()
    }

    fn each_day_row(&self) -> impl Iterator<Item = DayRow> {
        let kept = self.yard.days.kept.iter();
        let planned = kept.flat_map(|kept| kept.rows.iter().copied());
        of_work(self.project()).chain(planned)
    }

    /// The chosen row of the list of days.
    pub fn day_row(&self) -> DayRow {
        let row = self.each_day_row().nth(self.yard.days.row);
        row.unwrap_or(DayRow::Work)
    }

    /// What the fields of a row are of: the coat of a task, else the work.
    pub(crate) fn day_subject(&self, row: DayRow) -> Subject {
        let coat = || {
            let of = self.days()?.tasks.get(row.task()?)?;
            let (build_up, _, coats) = self.project().build_ups.get_full(&of.build_up)?;
            let coat = coats.iter().position(|coat| coat.coat == of.coat)?;
            Some(Subject::Coat { build_up, coat })
        };
        row.thing().or_else(coat).unwrap_or(Subject::Work)
    }

    /// Asks for the days, unless they are there or were asked for.
    pub(crate) fn ask_for_days(&mut self) -> Option<Effect> {
        let (project, path) = (Arc::clone(self.project()), self.path.clone());
        let asked = self.yard.days.asked.as_ref();
        let is_asked =
            asked.is_some_and(|(_, of, beside)| Arc::ptr_eq(of, &project) && *beside == path);
        let again = std::mem::take(&mut self.yard.days.again);
        if !again && (self.is_on_site() || is_asked) {
            return None;
        }
        let id = self.request();
        self.yard.days.asked = Some((id, Arc::clone(&project), path.clone()));
        Some(Effect::Days { id, project, path })
    }

    /// The days came back. The same task or day stays chosen, as far as it is there.
    pub(crate) fn came_on_site(&mut self, id: u64, on_site: OnSite) {
        let asked = self.yard.days.asked.take_if(|(asked, ..)| *asked == id);
        let Some((_, project, path)) = asked else {
            return;
        };
        let rows = match &on_site.days {
            Ok(days) => rows(days),
            Err(_) => Vec::new(),
        };
        let was = self.day_row();
        let under_work = of_work(self.project()).count();
        let found = match (self.days(), &on_site.days) {
            // The work and its things stay where they are.
            _ if self.yard.days.row < under_work => None,
            (Some(old), Ok(new)) => {
                let is_same = |row: &DayRow| name(new, *row) == name(old, was);
                // Of the days of one task the one as far on as before.
                let all = self.day_rows();
                let before = all.iter().take(self.yard.days.row).skip(under_work);
                let nth = before
                    .filter(|row| name(old, **row) == name(old, was))
                    .count();
                let mut same = (0..rows.len())
                    .filter(|at| rows.get(*at).is_some_and(is_same))
                    .map(|at| at + under_work);
                let first = same.next();
                match nth.checked_sub(1) {
                    Some(more) => same.nth(more).or(first),
                    None => first,
                }
            }
            _ => None,
        };
        self.yard.days.row = found
            .unwrap_or(self.yard.days.row)
            .min((under_work + rows.len()).saturating_sub(1));
        self.yard.days.kept = Some(Kept {
            project,
            path,
            on_site,
            rows,
        });
    }
}
