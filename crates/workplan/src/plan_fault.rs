//! Why a plan cannot be done, in words. Not here: where that is found.

use jiff::civil::DateTime;

/// Why a plan cannot be done. Tasks and persons by number, from 0.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PlanFault {
    /// A plan of another site.
    #[error("the plan has {planned} tasks and the site {tasks}; plan it anew")]
    OtherSite {
        /// In the plan.
        planned: usize,
        /// On the site.
        tasks: usize,
    },
    /// A task begins before it may.
    #[error(
        "task {task} begins {begin}, but after task {before} it may not before {may}; plan it anew"
    )]
    TooEarly {
        /// Which.
        task: usize,
        /// Its begin.
        begin: DateTime,
        /// What comes before.
        before: usize,
        /// When it may begin. The begin of what comes before, where that has no place.
        may: DateTime,
    },
    /// A task begins before [`crate::Task::not_before`].
    #[error("task {task} begins {begin}, but it may not before {may}; plan it anew")]
    BeforeItsTime {
        /// Which.
        task: usize,
        /// Its begin.
        begin: DateTime,
        /// When it may begin.
        may: DateTime,
    },
    /// A person in two places.
    #[error("person {person} is in two places at {at}; plan it anew")]
    TwoPlaces {
        /// Who.
        person: usize,
        /// When the second begins.
        at: DateTime,
    },
    /// Someone who is not there, or who does what they do not do.
    #[error("person {person} is put to a role that is not theirs at {at}; plan it anew")]
    WrongRole {
        /// Who.
        person: usize,
        /// When.
        at: DateTime,
    },
    /// Work outside the working hours.
    #[error("work from {begin} to {end} is outside the working hours; plan it anew")]
    OutsideHours {
        /// Begin.
        begin: DateTime,
        /// End.
        end: DateTime,
    },
    /// More mix than there is.
    #[error(
        "at {at} the work takes {litres:.0} litres of mix an hour, there are {most:.0}; plan it anew"
    )]
    TooMuchMix {
        /// When.
        at: DateTime,
        /// Taken an hour.
        litres: f64,
        /// What mixers, the people at them and those who carry give.
        most: f64,
    },
    /// Too few people for what is to be done in the time, or others than told, or too many for the place.
    #[error("task {task} from {begin} has not the people that it needs; plan it anew")]
    WrongHands {
        /// Which.
        task: usize,
        /// From when.
        begin: DateTime,
    },
    /// Not all is done, or more than all.
    #[error("of the {wanted} of task {task}, {planned} are planned; plan it anew")]
    NotOnce {
        /// Which.
        task: usize,
        /// m², or litres, or person-hours.
        wanted: f64,
        /// The same.
        planned: f64,
    },
    /// A part of a face on two days.
    #[error("task {task} goes over the end of a day without a joint; plan it anew")]
    OverNight {
        /// Which.
        task: usize,
    },
    /// A task neither planned nor told as left, or both.
    #[error("task {task} is neither planned nor told as left, or both; plan it anew")]
    Lost {
        /// Which.
        task: usize,
    },
}
