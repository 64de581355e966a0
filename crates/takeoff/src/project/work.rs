//! Who works when, and in which weather, as typed. Not here: the days that follow from it (see
//! `crate::days`).

use super::{Name, Named, words};
use hodful_quantities::Typed;
use hodful_quantities::read::{Day, Number};
use hodful_quantities::units::Area;

words! {
    /// Days of the week.
    Weekday {
        /// Monday.
        Monday = "monday",
        /// Tuesday.
        Tuesday = "tuesday",
        /// Wednesday.
        Wednesday = "wednesday",
        /// Thursday.
        Thursday = "thursday",
        /// Friday.
        Friday = "friday",
        /// Saturday.
        Saturday = "saturday",
        /// Sunday.
        Sunday = "sunday",
    }
}

/// The work on site. All of it may be left out.
///
/// Times of the day are kept as they were typed, `8:00`; breaks as two of them, `12:00-12:30`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Work {
    /// The first day that may be worked.
    pub begins: Option<Typed<Day>>,
    /// Begin of the day.
    pub from: Option<Name>,
    /// End of the day.
    pub to: Option<Name>,
    /// Breaks.
    pub breaks: Vec<Name>,
    /// Days of the week that are worked; Monday to Friday when none is given.
    pub weekdays: Vec<Weekday>,
    /// Dates that are not worked.
    pub days_off: Vec<Typed<Day>>,
    /// People who do everything in turn, instead of the four counts below.
    pub people: Option<u32>,
    /// People at the mixer.
    pub mixing: Option<u32>,
    /// People who carry.
    pub carrying: Option<u32>,
    /// People who place.
    pub placing: Option<u32>,
    /// People who finish.
    pub finishing: Option<u32>,
    /// Minutes from one batch to the next.
    pub batch_minutes: Option<Typed<Number>>,
    /// What people do in an hour, by the name of the coat.
    pub rates: Named<Rate>,
    /// Degrees north of the equator, south below 0.
    pub latitude: Option<Typed<Number>>,
    /// Degrees east of Greenwich, west below 0.
    pub longitude: Option<Typed<Number>>,
    /// A file of weather beside the project.
    pub weather: Option<Name>,
}

/// What one person does of a coat in an hour.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rate {
    /// Surface that is placed.
    pub placing: Option<Typed<Area>>,
    /// Surface that is finished; who places finishes as they go when not given.
    pub finishing: Option<Typed<Area>>,
}
