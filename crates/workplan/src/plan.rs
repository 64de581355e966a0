//! A plan as it is read: tasks with their times and people, days, what holds the end, what no plan undercuts. Not
//! here: how it is found.

use crate::site::Role;
use jiff::civil::{Date, DateTime};

/// A plan that can be done.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// Of each task of the site, in its order. None: see [`Plan::unplanned`].
    pub tasks: Vec<Option<TaskPlan>>,
    /// Who is where, by person and time.
    pub stints: Vec<Stint>,
    /// The days on which something is done.
    pub days: Vec<Day>,
    /// What holds the end, from the first task to the last.
    pub chain: Vec<Link>,
    /// What no plan of the planned tasks undercuts. None: nothing is planned.
    pub bounds: Option<Bounds>,
    /// Tasks that found no place, and why.
    pub unplanned: Vec<Unplanned>,
    /// What should be known besides.
    pub notices: Vec<Notice>,
}

/// A task with its time.
#[derive(Debug, Clone, PartialEq)]
pub struct TaskPlan {
    /// Begin.
    pub begin: DateTime,
    /// End.
    pub end: DateTime,
    /// When it is dry, where something waits for that; else its end.
    pub dry: DateTime,
    /// Its parts without a break between.
    pub portions: Vec<Portion>,
    /// Person-hours at the place itself, without the mixer and carrying of a crew with roles.
    pub hours: f64,
    /// Batches; the last may be a part of one. 0 where mix comes ready.
    pub batches: u64,
    /// What holds it up: with more of this it would be done sooner.
    pub limit: Limit,
    /// Surface on which an edge can be kept wet at this pace, m²; see [`crate::wet_edge`]. None: no workable time.
    pub wet_edge: Option<f64>,
}

/// Work at one task without a break.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Portion {
    /// Begin.
    pub begin: DateTime,
    /// End.
    pub end: DateTime,
    /// Which part of the task, from 0; another part is on another day, behind a joint.
    pub part: usize,
    /// Surface, m².
    pub m2: f64,
    /// Mix, litres.
    pub litres: f64,
    /// People placing, preparing, or doing everything.
    pub hands: usize,
    /// People finishing.
    pub finishing: usize,
}

/// A person in a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Stint {
    /// Which person, from 0.
    pub person: usize,
    /// Begin.
    pub begin: DateTime,
    /// End.
    pub end: DateTime,
    /// At which task. None: at the mixer or carrying, for all that is placed meanwhile.
    pub task: Option<usize>,
    /// Doing what.
    pub role: Role,
}

/// A day.
#[derive(Debug, Clone, PartialEq)]
pub struct Day {
    /// Its date.
    pub date: Date,
    /// What is done on it, by the first begin.
    pub tasks: Vec<usize>,
    /// What is mixed.
    pub mixes: Vec<Mix>,
    /// Person-hours at work.
    pub worked: f64,
    /// Person-hours of people who are there and have nothing of this plan to do.
    pub idle: f64,
}

/// Mix of one coat on one day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mix {
    /// Which coat.
    pub coat: usize,
    /// Litres.
    pub litres: f64,
    /// Batches, the last perhaps a part of one. 0 where mix comes ready.
    pub batches: u64,
}

/// What holds a task up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Limit {
    /// The people who place.
    Placing,
    /// The people who finish.
    Finishing,
    /// The mixers.
    Mixers,
    /// The people at the mixers.
    MixingHands,
    /// The people who carry.
    Carrying,
    /// People, where they do everything or prepare.
    Hands,
    /// The room for people at this place.
    Room,
}

/// What no plan can undercut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bounds {
    /// The end, if each task had all people and all mix for itself: waits and shortest times alone. True as long as
    /// what ends later is not dry earlier.
    pub chain: DateTime,
    /// The end, if people and mixers never stood still once the first of their work can begin.
    pub work: DateTime,
    /// Whose work that is.
    pub work_of: Limit,
}

/// A step of what holds the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Link {
    /// Which task.
    pub task: usize,
    /// Why it did not begin sooner.
    pub because: Because,
}

/// Why a task did not begin sooner.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Because {
    /// It begins with the first quarter of an hour.
    First,
    /// It may not begin sooner, for what was put on before these days: [`crate::Task::not_before`].
    NotBefore,
    /// A task before it had to end, and the wait after that to pass.
    Waits {
        /// Which.
        task: usize,
    },
    /// A task before it had to be dry.
    Dries {
        /// Which.
        task: usize,
    },
    /// The people or the mix were at another task.
    Taken {
        /// Which.
        task: usize,
    },
    /// It did not fit into the rest of the day, after another task.
    DayEnd {
        /// Which.
        task: usize,
    },
}

/// A task without a place in the plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unplanned {
    /// Which.
    pub task: usize,
    /// Why.
    pub why: Why,
}

/// Why a task found no place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Why {
    /// It takes more than a day and must be done in one.
    TooLarge {
        /// Hours that it takes with all people and all mix.
        hours: f64,
        /// What holds it up.
        limit: Limit,
    },
    /// Nobody does this, or nothing gives the mix.
    Nobody {
        /// What is missing.
        limit: Limit,
    },
    /// A task before it has no place.
    After {
        /// Which.
        task: usize,
    },
    /// The days are up.
    NoDaysLeft,
}

/// What should be known besides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Notice {
    /// A face takes more than a day: so many parts, with a joint between two, best at a corner or an opening.
    Joint {
        /// Which task.
        task: usize,
        /// Parts.
        parts: usize,
        /// The fewest people at it with whom it would fit in a day, with enough mix and time. None: no number.
        hands: Option<usize>,
    },
    /// A face is larger than the surface on which an edge can be kept wet: go in strips, and wet the edge again.
    LosesWetEdge {
        /// Which task.
        task: usize,
        /// That surface, m².
        m2: f64,
    },
}

impl Plan {
    /// The end of the last task. None: nothing is planned.
    pub fn end(&self) -> Option<DateTime> {
        self.tasks.iter().flatten().map(|task| task.end).max()
    }

    /// Person-hours at work, all together.
    pub fn worked(&self) -> f64 {
        self.days.iter().map(|day| day.worked).sum()
    }
}

impl Bounds {
    /// No plan ends before.
    pub fn end(&self) -> DateTime {
        self.chain.max(self.work)
    }
}

impl Limit {
    /// What holds the work up, for people.
    ///
    /// ```
    /// assert_eq!(hodful_workplan::Limit::Mixers.words(), "the mixer holds the work up");
    /// ```
    pub fn words(self) -> &'static str {
        match self {
            Self::Placing => "placing holds the work up",
            Self::Finishing => "finishing holds the work up",
            Self::Mixers => "the mixer holds the work up",
            Self::MixingHands => "people at the mixer are short",
            Self::Carrying => "carrying holds the work up",
            Self::Hands => "people are short",
            Self::Room => "no more people find room there",
        }
    }
}
