//! Who works when, as the project says, and where a face looks to. Not here: the days that follow from it
//! (see `crate::days`).

pub(crate) mod dried;
pub(crate) mod rooms;

use super::values::Values;
use crate::problem::Place;
use crate::project::{Name, Preparing, Project, Weekday, Work};
use ecow::eco_format;
use hodful_quantities::Typed;
use hodful_quantities::read::Number;
use hodful_quantities::units::{Area, liter, square_meter};
use hodful_workplan::{Crew, Hours, MOST_PEOPLE, STEP_MINUTES};
use indexmap::{IndexMap, IndexSet};
use jiff::civil::{Date, Time, time};
use std::iter::zip;

/// What a facing may be, after the text as typed.
pub(crate) const NO_FACING: &str =
    "is no direction; write 'south', 'SW' or degrees from north by east, such as 225";

/// Hours when none are given: ours.
const FROM: Time = time(8, 0, 0, 0);
const TO: Time = time(16, 30, 0, 0);
const BREAK: (Time, Time) = (time(12, 0, 0, 0), time(12, 30, 0, 0));

/// Days of the week when none is given: ours.
const WEEKDAYS: [Weekday; 5] = [
    Weekday::Monday,
    Weekday::Tuesday,
    Weekday::Wednesday,
    Weekday::Thursday,
    Weekday::Friday,
];

/// The work, as numbers. What is not given is what is usual.
#[derive(Debug, Clone)]
pub(crate) struct CheckedWork {
    pub(crate) begins: Option<Date>,
    pub(crate) hours: Hours,
    /// Whether begin and end of the day are ours.
    pub(crate) usual_hours: bool,
    pub(crate) crew: Option<Crew>,
    pub(crate) batch_minutes: Option<f64>,
    /// Latitude and longitude, degrees.
    pub(crate) place: Option<(f64, f64)>,
    /// By name of coat.
    pub(crate) rates: IndexMap<Name, CheckedRate>,
    /// Litres that one person carries in an hour.
    pub(crate) carried_per_hour: Option<f64>,
    pub(crate) prepare: Vec<CheckedPreparation>,
}

/// What one person does in an hour, m², and minutes that a coat stays workable.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct CheckedRate {
    pub(crate) placing: Option<f64>,
    pub(crate) finishing: Option<f64>,
    pub(crate) open_minutes: Option<f64>,
}

/// Something to prepare: person-hours, and hours to wait after it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct CheckedPreparation {
    pub(crate) what: Preparing,
    pub(crate) hours: f64,
    pub(crate) then_wait: f64,
}

/// Looks the work over, but for what of it names walls.
pub(crate) fn check(project: &Project, values: &mut Values) {
    read(project, values);
}

/// Looks over what of the work names walls: rooms, and records of drying.
pub(crate) fn check_walls(project: &Project, values: &mut Values) {
    rooms::read(project, values);
    dried::read(project, values);
}

/// The work of a project; what is usual where it says nothing.
pub(crate) fn read(project: &Project, values: &mut Values) -> CheckedWork {
    let nothing = Work::default();
    let work = project.work.as_deref().unwrap_or(&nothing);
    let place = Place::project().field("work");
    CheckedWork {
        begins: work.begins.as_ref().map(|day| day.value().date()),
        hours: hours(work, &place, values),
        usual_hours: work.from.is_none() && work.to.is_none(),
        crew: crew(work, &place, values),
        batch_minutes: above(values, &place, "batch_minutes", work.batch_minutes.as_ref()),
        place: on_the_globe(work, &place, values),
        rates: rates(project, work, &place, values),
        carried_per_hour: work.carried_per_hour.as_ref().and_then(|typed| {
            let before = values.count_of_problems();
            let volume = values.above_nothing(&place, "carried_per_hour", typed);
            (values.count_of_problems() == before).then(|| volume.get::<liter>())
        }),
        prepare: prepare(work, &place, values),
    }
}

fn prepare(work: &Work, place: &Place, values: &mut Values) -> Vec<CheckedPreparation> {
    let each = zip(1.., &work.prepare).filter_map(|(number, of)| {
        let place = place.thing("preparation", eco_format!("{number}"));
        let hours = above(values, &place, "hours", Some(&of.hours));
        let then_wait = match &of.then_wait {
            Some(typed) => values.sound(&place, "then_wait", typed).map(Number::get),
            None => Some(0.0),
        };
        Some(CheckedPreparation {
            what: of.what,
            hours: hours?,
            then_wait: then_wait?,
        })
    });
    each.collect()
}

/// Degrees from north by east of a direction as typed; `None` when it is none.
///
/// Words of the compass and their letters, and numbers from -360 to 360 with or without a sign for degrees.
pub(crate) fn facing(text: &str) -> Option<f64> {
    let letters: String = text
        .to_lowercase()
        .chars()
        .filter(|c| !matches!(c, '-' | ' '))
        .collect();
    // Whole words to letters; what is left are letters of the compass or a number.
    let short = [("north", "n"), ("south", "s"), ("east", "e"), ("west", "w")]
        .into_iter()
        .fold(letters.clone(), |text, (word, letter)| {
            text.replace(word, letter)
        });
    let point = POINTS.iter().position(|point| *point == short);
    if let Some(point) = point.and_then(|at| u32::try_from(at).ok()) {
        return Some(f64::from(point) * 22.5);
    }
    let text = text.trim();
    let number = text
        .strip_suffix('°')
        .or_else(|| text.strip_suffix("deg"))
        .unwrap_or(text);
    let degrees: f64 = number.trim().parse().ok()?;
    (-360.0..=360.0).contains(&degrees).then_some(degrees)
}

/// The sixteen points of the compass from north by east, 22.5° apart.
const POINTS: [&str; 16] = [
    "n", "nne", "ne", "ene", "e", "ese", "se", "sse", "s", "ssw", "sw", "wsw", "w", "wnw", "nw",
    "nnw",
];

fn hours(work: &Work, place: &Place, values: &mut Values) -> Hours {
    let mut clock = |field: &'static str, text: Option<&Name>, usual: Time| match text {
        None => usual,
        Some(text) => clock(text).unwrap_or_else(|| {
            let message = eco_format!(
                "'{text}' is no time on a quarter of an hour; write it as 8:00 or 16:30"
            );
            values.refuse(place.field(field), message);
            usual
        }),
    };
    let from = clock("from", work.from.as_ref(), FROM);
    let to = clock("to", work.to.as_ref(), TO);
    if from >= to {
        let message = eco_format!(
            "the day begins at {} and ends at {}; put them in order",
            shown(from),
            shown(to)
        );
        values.refuse(place.field("to"), message);
    }
    let mut breaks = Vec::new();
    for text in &work.breaks {
        let pair = text.split_once(['-', '–']);
        let pair = pair.and_then(|(from, to)| Some((self::clock(from)?, self::clock(to)?)));
        match pair.filter(|(from, to)| from < to) {
            Some(pair) => breaks.push(pair),
            None => values.refuse(
                place.field("breaks"),
                eco_format!("'{text}' is no break on quarters of an hour; write it as 12:00-12:30"),
            ),
        }
    }
    if work.breaks.is_empty() && work.from.is_none() && work.to.is_none() {
        breaks.push(BREAK);
    }
    if from < to && covered(from, to, &breaks) {
        values.refuse(
            place.field("breaks"),
            "leave no time to work; make them shorter",
        );
    }
    let weekdays = if work.weekdays.is_empty() {
        &WEEKDAYS[..]
    } else {
        &work.weekdays
    };
    Hours {
        from,
        to,
        breaks,
        weekdays: weekdays.iter().map(|day| weekday(*day)).collect(),
        days_off: work.days_off.iter().map(|day| day.value().date()).collect(),
    }
}

/// Whether breaks take all of a day.
fn covered(from: Time, to: Time, breaks: &[(Time, Time)]) -> bool {
    let mut sorted = breaks.to_vec();
    sorted.sort();
    let mut at = from;
    for (begin, end) in sorted {
        if begin > at {
            break;
        }
        at = at.max(end);
    }
    at >= to
}

/// A time as typed, on a quarter of an hour.
fn clock(text: &str) -> Option<Time> {
    let (hour, minute) = text.trim().split_once(':')?;
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if minute.len() != 2 || !digits(hour) || !digits(minute) {
        return None;
    }
    let minute: i8 = minute.parse().ok()?;
    let on_step = i64::from(minute) % STEP_MINUTES == 0;
    Time::new(hour.parse().ok()?, minute, 0, 0)
        .ok()
        .filter(|_| on_step)
}

fn shown(time: Time) -> ecow::EcoString {
    eco_format!("{}:{:02}", time.hour(), time.minute())
}

fn weekday(day: Weekday) -> jiff::civil::Weekday {
    use jiff::civil::Weekday as Civil;
    match day {
        Weekday::Monday => Civil::Monday,
        Weekday::Tuesday => Civil::Tuesday,
        Weekday::Wednesday => Civil::Wednesday,
        Weekday::Thursday => Civil::Thursday,
        Weekday::Friday => Civil::Friday,
        Weekday::Saturday => Civil::Saturday,
        Weekday::Sunday => Civil::Sunday,
    }
}

fn crew(work: &Work, place: &Place, values: &mut Values) -> Option<Crew> {
    let roles = [work.mixing, work.carrying, work.placing, work.finishing];
    let with_roles = roles.iter().any(Option::is_some);
    let count = |of: Option<u32>| usize::try_from(of.unwrap_or(0)).unwrap_or(usize::MAX);
    let (field, crew) = match (work.people, with_roles) {
        (None, false) => return None,
        (Some(_), true) => {
            let message = "stands beside mixing, carrying, placing or finishing; give people who do \
                           everything in turn, or how many do what";
            values.refuse(place.field("people"), message);
            return None;
        }
        (people @ Some(_), false) => ("people", Crew::Everyone(count(people))),
        (None, true) => (
            "placing",
            Crew::Roles {
                mixing: count(work.mixing),
                carrying: count(work.carrying),
                placing: count(work.placing),
                finishing: count(work.finishing),
            },
        ),
    };
    let nobody = match crew {
        Crew::Everyone(people) => people == 0,
        Crew::Roles { placing, .. } => placing == 0,
    };
    if nobody {
        values.refuse(place.field(field), "nobody is there; give 1 or more");
        return None;
    }
    if crew.people() > MOST_PEOPLE {
        let message = eco_format!(
            "{} people are too many to plan for; {MOST_PEOPLE} at most",
            crew.people()
        );
        values.refuse(place.field(field), message);
        return None;
    }
    Some(crew)
}

fn on_the_globe(work: &Work, place: &Place, values: &mut Values) -> Option<(f64, f64)> {
    let mut within = |field: &'static str, typed: Option<&Typed<Number>>, most: f64| {
        let typed = typed?;
        let value = typed.value().get();
        if (-most..=most).contains(&value) {
            return Some(value);
        }
        let message = eco_format!(
            "'{}' is not on the globe; it is from -{most} to {most}",
            typed.text()
        );
        values.refuse(place.field(field), message);
        None
    };
    let latitude = within("latitude", work.latitude.as_ref(), 90.0);
    let longitude = within("longitude", work.longitude.as_ref(), 180.0);
    let (field, missing) = match (&work.latitude, &work.longitude) {
        (Some(_), None) => ("longitude", true),
        (None, Some(_)) => ("latitude", true),
        _ => ("", false),
    };
    if missing {
        values.refuse(
            place.field(field),
            "is missing; give latitude and longitude together",
        );
    }
    latitude.zip(longitude)
}

fn rates(
    project: &Project,
    work: &Work,
    place: &Place,
    values: &mut Values,
) -> IndexMap<Name, CheckedRate> {
    let coats: IndexSet<&Name> = project
        .build_ups
        .values()
        .flatten()
        .map(|coat| &coat.coat)
        .collect();
    let each = work.rates.iter().map(|(name, rate)| {
        let place = place.thing("rate", name.clone());
        if !coats.contains(name) {
            values.missing(&place, "coat", name, coats.iter().copied());
        }
        let mut m2 = |field, typed: Option<&Typed<Area>>| {
            let typed = typed?;
            let before = values.count_of_problems();
            let area = values.above_nothing(&place, field, typed);
            (values.count_of_problems() == before).then(|| area.get::<square_meter>())
        };
        let rate = CheckedRate {
            placing: m2("placing", rate.placing.as_ref()),
            finishing: m2("finishing", rate.finishing.as_ref()),
            open_minutes: above(values, &place, "open_minutes", rate.open_minutes.as_ref()),
        };
        (name.clone(), rate)
    });
    each.collect()
}

/// A number above nothing, when it is one.
fn above(
    values: &mut Values,
    place: &Place,
    field: &'static str,
    typed: Option<&Typed<Number>>,
) -> Option<f64> {
    let before = values.count_of_problems();
    let value = values.above_nothing(place, field, typed?).get();
    (values.count_of_problems() == before).then_some(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn directions_are_read() {
        for (text, degrees) in [
            ("north", 0.0),
            ("N", 0.0),
            ("NNE", 22.5),
            ("north-east", 45.0),
            ("South West", 225.0),
            ("SW", 225.0),
            ("west", 270.0),
            ("225", 225.0),
            ("225°", 225.0),
            ("12.5 deg", 12.5),
            ("-90", -90.0),
        ] {
            assert_eq!(facing(text), Some(degrees), "{text}");
        }
        for text in ["", "up", "NS", "500", "NaN", "inf", "12 m"] {
            assert_eq!(facing(text), None, "{text}");
        }
    }

    #[test]
    fn times_are_on_quarters() {
        assert_eq!(clock("8:00"), Some(time(8, 0, 0, 0)));
        assert_eq!(clock(" 16:45 "), Some(time(16, 45, 0, 0)));
        for text in ["8", "8:0", "8:10", "24:00", "-1:00", "8:00 am", "+8:00", ""] {
            assert_eq!(clock(text), None, "{text}");
        }
    }

    #[test]
    fn breaks_that_take_the_day_are_seen() {
        let at = |hour| time(hour, 0, 0, 0);
        assert!(covered(at(8), at(12), &[(at(10), at(13)), (at(7), at(10))]));
        assert!(!covered(
            at(8),
            at(12),
            &[(at(8), at(10)), (at(11), at(12))]
        ));
        assert!(!covered(at(8), at(12), &[]));
    }
}
