//! The project file: the work on site, as a table. Not here: walls, and what was done.

use crate::record::record;
use ecow::EcoString;
use hodful_quantities::Typed;
use hodful_quantities::read::{Day, Number};
use hodful_quantities::units::Area;
use hodful_takeoff::project::{Named, Rate, Weekday, Work};

record! {
    /// The work on site: days, hours, people, rates, and the weather.
    Work, "the work", open {
        /// The first day that may be worked.
        begins: Option<Typed<Day>> => begins;
        /// Begin of the day, such as '8:00'; on a quarter of an hour.
        from: Option<EcoString> => from;
        /// End of the day, such as '16:30'.
        to: Option<EcoString> => to;
        /// Breaks, each such as '12:00-12:30'.
        breaks: Vec<EcoString> => breaks;
        /// Days of the week that are worked; Monday to Friday when there is none.
        weekdays: Vec<Weekday> => weekdays;
        /// Dates that are not worked.
        days_off: Vec<Typed<Day>> => days_off;
        /// People who all do everything in turn; or give the four counts below.
        people: Option<u32> => people;
        /// People at the mixer.
        mixing: Option<u32> => mixing;
        /// People who carry.
        carrying: Option<u32> => carrying;
        /// People who place.
        placing: Option<u32> => placing;
        /// People who finish.
        finishing: Option<u32> => finishing;
        /// Minutes from one batch to the next.
        batch_minutes: Option<Typed<Number>> => batch_minutes;
        /// What one person does in an hour, by the name of the coat.
        rates each "rate": Named<Rate> => rates;
        /// Degrees north of the equator, south below 0; that of the weather file when absent.
        latitude: Option<Typed<Number>> => latitude;
        /// Degrees east of Greenwich, west below 0; that of the weather file when absent.
        longitude: Option<Typed<Number>> => longitude;
        /// A file of weather beside the project.
        weather: Option<EcoString> => weather;
    }

    /// What one person does of a coat in an hour.
    Rate, "a rate" {
        /// Surface that is placed.
        placing: Option<Typed<Area>> => placing;
        /// Surface that is finished; who places finishes as they go when absent.
        finishing: Option<Typed<Area>> => finishing;
    }
}
