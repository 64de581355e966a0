//! What a plan is made from: hours, people, mixing, coats, tasks. Plain data as given. Not here: whether it can be
//! worked with, and the plan.

use jiff::civil::{Date, DateTime, Time, Weekday};

/// All that a plan is made from.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// The first day that may be worked.
    pub begins: Date,
    /// When work goes on.
    pub hours: Hours,
    /// Who is there.
    pub crew: Crew,
    /// How mix is made. None: it comes ready, and mixing holds nothing up.
    pub mixing: Option<Mixing>,
    /// Litres of mix that one person carries to the wall in an hour. None: carrying holds nothing up.
    pub carried_per_hour: Option<f64>,
    /// The kinds of coats, with their rates.
    pub coats: Vec<Coat>,
    /// What is to be done, in the order in which you would do it.
    pub tasks: Vec<Task>,
}

/// When work goes on: the same hours on each working day, on whole quarters of an hour.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hours {
    /// Begin of the day.
    pub from: Time,
    /// End of the day, at most 23:45.
    pub to: Time,
    /// Breaks, each from and to. They may overlap or lie outside the day.
    pub breaks: Vec<(Time, Time)>,
    /// Days of the week that are worked.
    pub weekdays: Vec<Weekday>,
    /// Dates that are not worked all the same.
    pub days_off: Vec<Date>,
}

/// What a person does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Role {
    /// At the mixer or the mixing board.
    Mixing,
    /// Brings the mix to the wall.
    Carrying,
    /// Puts the coat on.
    Placing,
    /// Levels, floats, smooths or keys it.
    Finishing,
    /// All of these in turn.
    Everything,
}

/// Who is there. At most [`crate::MOST_PEOPLE`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Crew {
    /// Each person keeps to one role. People are numbered in this order, from 0.
    Roles {
        /// At the mixer.
        mixing: usize,
        /// Carrying.
        carrying: usize,
        /// Placing.
        placing: usize,
        /// Finishing; nobody is needed for coats without a rate of finishing.
        finishing: usize,
    },
    /// All do everything in turn: mix, carry, place, finish, as it is needed. The way of one to four people.
    Everyone(usize),
}

/// How mix is made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mixing {
    /// Mixers, or boards for mixing by hand.
    pub mixers: usize,
    /// People that each takes while it runs.
    pub hands_each: usize,
    /// Mixed litres of one batch.
    pub litres_per_batch: f64,
    /// Minutes from one batch to the next, with filling and emptying.
    pub minutes_per_batch: f64,
}

/// A kind of coat.
#[derive(Debug, Clone, PartialEq)]
pub struct Coat {
    /// Its name.
    pub name: String,
    /// Square metres that one person places in an hour, with all the small things between.
    pub placing: f64,
    /// Square metres that one person finishes in an hour. None: who places finishes as they go.
    pub finishing: Option<f64>,
    /// Minutes that the coat stays workable on the wall.
    pub open_minutes: Option<f64>,
    /// Where the rates are from: your own measurement, or a [`crate::published::Rate`].
    pub source: String,
}

/// One thing to be done.
#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    /// What people call it: the face of a wall, or the thing to prepare.
    pub name: String,
    /// What is done.
    pub work: Work,
    /// What must be done before.
    pub after: Vec<After>,
    /// When it may begin at the earliest: what is below it was put on before these days and dries. None: at once.
    pub not_before: Option<DateTime>,
    /// Most people that find room: placing for a coat, all for preparing. None: as many as there are.
    pub most_hands: Option<usize>,
    /// Whether it must be done in one day. Otherwise what is too large for a day is cut by joints.
    pub in_one_go: bool,
}

/// What is done.
#[derive(Debug, Clone, PartialEq)]
pub enum Work {
    /// A coat on a face.
    Coat {
        /// Which of [`Site::coats`].
        coat: usize,
        /// Which side of the wall. It is told on, for who knows the drying.
        side: Side,
        /// Surface, m².
        m2: f64,
        /// Mixed volume with loss, litres. May be 0.
        litres: f64,
    },
    /// Something that needs hands alone.
    Prepare {
        /// What.
        what: Preparing,
        /// Person-hours.
        hours: f64,
        /// Who does it, in a crew with roles. [`Role::Everything`] is read as placing.
        by: Role,
    },
}

/// Side of a wall.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Outside.
    Outside,
    /// Inside.
    Inside,
}

/// What is prepared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Preparing {
    /// Earth, sand and straw brought to the mixer.
    Heaps,
    /// Clay laid in water.
    Soaking,
    /// Stones and lumps taken out.
    Screening,
    /// Jars, panels, trial patches.
    Tests,
    /// Floors, frames and boxes covered.
    Masking,
    /// The background trimmed, keyed, meshed, dampened.
    Background,
}

/// That one task comes after another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct After {
    /// Which of [`Site::tasks`] comes before.
    pub task: usize,
    /// Hours that must pass since its end, day and night.
    pub hours: f64,
    /// Whether it must be dry besides: the caller of [`crate::plan`] says when it is.
    pub dry: bool,
}

impl Crew {
    /// How many there are.
    ///
    /// ```
    /// use hodful_workplan::Crew;
    /// assert_eq!(Crew::Roles { mixing: 1, carrying: 1, placing: 4, finishing: 2 }.people(), 8);
    /// ```
    pub fn people(self) -> usize {
        match self {
            Self::Roles {
                mixing,
                carrying,
                placing,
                finishing,
            } => [mixing, carrying, placing, finishing]
                .into_iter()
                .fold(0, usize::saturating_add),
            Self::Everyone(people) => people,
        }
    }

    /// Who has a role: the first number, and how many.
    pub(crate) fn who(self, role: Role) -> (usize, usize) {
        match self {
            Self::Everyone(people) => (0, people),
            Self::Roles {
                mixing,
                carrying,
                placing,
                finishing,
            } => match role {
                Role::Mixing => (0, mixing),
                Role::Carrying => (mixing, carrying),
                Role::Placing | Role::Everything => (mixing.saturating_add(carrying), placing),
                Role::Finishing => (
                    mixing.saturating_add(carrying).saturating_add(placing),
                    finishing,
                ),
            },
        }
    }
}

impl Mixing {
    /// Litres that one mixer makes in an hour: `60 · litres / minutes` of a batch.
    ///
    /// ```
    /// use hodful_workplan::Mixing;
    /// let mixer = Mixing { mixers: 1, hands_each: 1, litres_per_batch: 120.0, minutes_per_batch: 20.0 };
    /// assert_eq!(mixer.litres_per_hour(), 360.0);
    /// ```
    pub fn litres_per_hour(&self) -> f64 {
        60.0 * self.litres_per_batch / self.minutes_per_batch
    }
}

impl Task {
    /// Mixed volume, litres; 0 for preparing.
    pub fn litres(&self) -> f64 {
        match self.work {
            Work::Coat { litres, .. } => litres,
            Work::Prepare { .. } => 0.0,
        }
    }

    /// Surface, m²; 0 for preparing.
    pub fn m2(&self) -> f64 {
        match self.work {
            Work::Coat { m2, .. } => m2,
            Work::Prepare { .. } => 0.0,
        }
    }

    /// Which coat, if it is one.
    pub fn coat(&self) -> Option<usize> {
        match self.work {
            Work::Coat { coat, .. } => Some(coat),
            Work::Prepare { .. } => None,
        }
    }
}
