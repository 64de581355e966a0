//! The project file: the work on site, as a table. Not here: walls, and what was done.

use crate::record::record;
use ecow::EcoString;
use hodful_quantities::Typed;
use hodful_quantities::read::{Day, Number};
use hodful_quantities::units::{Area, Celsius, Mass, Ratio, Volume};
use hodful_takeoff::project::{
    Dried, HeaterFuel, Named, Preparation, Preparing, Rate, Room, Side, Weekday, Work,
};

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
        /// Mixed plaster that one person carries to the wall in an hour; carrying holds nothing up when absent.
        carried_per_hour: Option<Typed<Volume>> => carried_per_hour;
        /// What is prepared before the first coat.
        prepare each "preparation": Vec<Preparation> => prepare;
        /// Rooms whose air the inside coats dry into.
        rooms each "room": Named<Room> => rooms;
        /// How long coats really took to dry, which moves what is said of the others.
        dried each "drying": Vec<Dried> => dried;
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
        /// Minutes that the coat stays workable on the wall; estimated from the weather when absent.
        open_minutes: Option<Typed<Number>> => open_minutes;
    }

    /// Something that is prepared before the first coat.
    Preparation, "a preparation" {
        /// What.
        what: Preparing => what;
        /// Person-hours.
        hours: Typed<Number> => hours;
        /// Hours that must pass from its end to the first coat: clay that soaks.
        then_wait: Option<Typed<Number>> => then_wait;
    }

    /// A room whose air the inside coats dry into. Without weather its air is taken as steady.
    Room, "a room" {
        /// The air in it.
        volume: Typed<Volume> => volume;
        /// Ids of the walls whose inside faces it has; all when there is none and it is the only room.
        walls: Vec<EcoString> => walls;
        /// How warm it is kept; as warm as outside over the day when absent.
        temperature: Option<Typed<Celsius>> => temperature;
        /// How often in an hour its air is changed: 0.5 shut, up to 4 with tilted windows, 5 to 15 with open ones; 0.5 when absent.
        air_changes: Option<Typed<Number>> => air_changes;
        /// Whether a fan moves the air along the walls.
        fan: Option<bool> => fan;
        /// What burns in a heater without a flue, which wets the air.
        heater: Option<HeaterFuel> => heater;
        /// How much of that burns in a day.
        fuel_per_day: Option<Typed<Mass>> => fuel_per_day;
        /// Water that people, cooking and wet floors give to the air in a day.
        water_per_day: Option<Typed<Volume>> => water_per_day;
        /// Relative humidity to stay below; 70 % when absent.
        stay_below: Option<Typed<Ratio>> => stay_below;
        /// U-value of its coldest part in W/(m²·K), a ceiling under a cold roof; no dripping is told when absent.
        ceiling_u: Option<Typed<Number>> => ceiling_u;
    }

    /// How long a coat really took to dry.
    Dried, "a drying" {
        /// Id of the wall.
        wall: EcoString => wall;
        /// The face.
        face: Side => face;
        /// Name of the coat.
        coat: EcoString => coat;
        /// The day on which it was put on.
        placed: Typed<Day> => placed;
        /// The day on which it was found dry; not yet when absent.
        dry: Option<Typed<Day>> => dry;
    }
}
