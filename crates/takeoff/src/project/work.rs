//! Who works when, and in which weather, as typed. Not here: the days that follow from it (see
//! `crate::days`).

use super::{Name, Named, Side, words};
use hodful_quantities::Typed;
use hodful_quantities::read::{Day, Number};
use hodful_quantities::units::{Area, Celsius, Mass, Ratio, Volume};

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

words! {
    /// What is prepared before the first coat.
    Preparing {
        /// Earth, sand and straw brought to the mixer.
        Heaps = "heaps",
        /// Clay laid in water.
        Soaking = "soaking",
        /// Stones and lumps taken out.
        Screening = "screening",
        /// Jars, panels, trial patches.
        Tests = "tests",
        /// Floors, frames and boxes covered.
        Masking = "masking",
        /// Backgrounds trimmed, keyed, meshed, dampened.
        Background = "background",
    }
}

words! {
    /// What burns in a heater without a flue.
    HeaterFuel {
        /// Propane.
        Propane = "propane",
        /// Natural gas.
        NaturalGas = "natural gas",
        /// Kerosene.
        Kerosene = "kerosene",
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
    /// Mix that one person carries to the wall in an hour.
    pub carried_per_hour: Option<Typed<Volume>>,
    /// What is prepared before the first coat.
    pub prepare: Vec<Preparation>,
    /// Rooms whose air the inside coats dry into, by name.
    pub rooms: Named<Room>,
    /// How long coats really took to dry.
    pub dried: Vec<Dried>,
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
    /// Minutes that the coat stays workable on the wall; not what a person does, but measured at the same time.
    pub open_minutes: Option<Typed<Number>>,
}

/// Something that is prepared before the first coat.
#[derive(Debug, Clone, PartialEq)]
pub struct Preparation {
    /// What.
    pub what: Preparing,
    /// Person-hours.
    pub hours: Typed<Number>,
    /// Hours that must pass from its end to the first coat: clay that soaks.
    pub then_wait: Option<Typed<Number>>,
}

/// A room whose air the inside coats dry into.
#[derive(Debug, Clone, PartialEq)]
pub struct Room {
    /// The air in it.
    pub volume: Typed<Volume>,
    /// Ids of the walls whose inside faces it has; all walls when none is named and there is one room.
    pub walls: Vec<Name>,
    /// How warm it is kept; as warm as it is outside over the day when not given.
    pub temperature: Option<Typed<Celsius>>,
    /// How often in an hour its air is changed.
    pub air_changes: Option<Typed<Number>>,
    /// Whether a fan moves the air along the walls.
    pub fan: Option<bool>,
    /// What burns in a heater without a flue.
    pub heater: Option<HeaterFuel>,
    /// How much of that in a day.
    pub fuel_per_day: Option<Typed<Mass>>,
    /// Water that people, cooking and wet floors give to the air in a day.
    pub water_per_day: Option<Typed<Volume>>,
    /// Relative humidity to stay below.
    pub stay_below: Option<Typed<Ratio>>,
    /// U-value of its coldest part, W/(m²·K): the ceiling under a cold roof.
    pub ceiling_u: Option<Typed<Number>>,
}

/// How long a coat really took to dry.
#[derive(Debug, Clone, PartialEq)]
pub struct Dried {
    /// Id of the wall.
    pub wall: Name,
    /// The face.
    pub face: Side,
    /// Name of the coat.
    pub coat: Name,
    /// The day on which it was put on.
    pub placed: Typed<Day>,
    /// The day on which it was found dry; not yet when not given.
    pub dry: Option<Typed<Day>>,
}
