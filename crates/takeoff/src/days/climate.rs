//! What coats dry into: the weather at each outside face, the air of each room. Not here: how long a coat takes (see
//! `drying`), and how a room becomes damp (see `rooms`).

use super::tasks::Found;
use crate::check::work::rooms::CheckedRoom;
use ecow::{EcoString, eco_format};
use hodful_air::moist::STANDARD_PA;
use hodful_air::outside::{Sky, Stand};
use hodful_air::sun::Place;
use hodful_air::wall::{STILL_ROOM_W_M2K, wet_face};
use hodful_air::{Air, Hour, Weather};
use jiff::civil::{Date, DateTime};

/// Hours of weather that are looked ahead: some 400 days.
pub(super) const AHEAD: usize = 9_600;

/// Air of a room of which nothing is said, °C and share: ours, no source. It is heated or it is summer, and aired.
const STEADY: (f64, f64) = (20.0, 0.6);

/// What a face that stays wet gives off, kg/(m²·h).
#[derive(Debug, Clone, Copy)]
pub(super) enum Rates<'a> {
    /// In each hour from the one that is asked for on.
    Hours(&'a [f64]),
    /// The same in each hour.
    Steady(f64),
    /// Not known.
    Unknown,
}

impl Rates<'_> {
    /// Hour by hour, to an end that may come before the coat is dry.
    pub(super) fn hours(self) -> Option<impl Iterator<Item = f64>> {
        let (given, steady) = match self {
            Self::Hours(given) => (given, None),
            Self::Steady(rate) => (&[][..], Some(rate)),
            Self::Unknown => return None,
        };
        let steady = steady
            .into_iter()
            .flat_map(|rate| std::iter::repeat_n(rate, AHEAD));
        Some(given.iter().copied().chain(steady))
    }
}

/// The weather of the work, hour by hour from its first day on, and what faces give off in it.
#[derive(Debug)]
pub(super) struct Climate {
    from: DateTime,
    pub(super) hours: Vec<Hour>,
    outside: Vec<(Stand, Vec<f64>)>,
    /// Of each room; empty where only the steady air is known.
    pub(super) rooms: Vec<Vec<f64>>,
    steady: Option<f64>,
    told: Option<EcoString>,
    ends: Option<DateTime>,
}

impl Climate {
    /// From the first day on, or from an earlier one on which something was put on, as far back as there is weather.
    pub(super) fn new(
        weather: Option<&Weather>,
        [earliest, begins]: [Date; 2],
        place: Option<(f64, f64)>,
        found: &[Found],
        rooms: &[CheckedRoom],
        notes: &mut Vec<EcoString>,
    ) -> Self {
        let (celsius, humidity) = STEADY;
        let steady = Air::new(celsius, humidity, STANDARD_PA).ok();
        let steady = steady.map(|air| wet_face(&air, STILL_ROOM_W_M2K, 0.0).kg_m2_h);
        let mut climate = Self {
            from: from(weather, earliest, begins),
            hours: Vec::new(),
            outside: Vec::new(),
            rooms: vec![Vec::new(); rooms.len()],
            steady,
            told: None,
            ends: None,
        };
        let is_outside = found.iter().any(|of| of.stand.is_some());
        if is_outside || !rooms.is_empty() {
            match weather {
                Some(weather) => climate.take(weather, place, found, notes),
                None if is_outside => notes.push("Without weather outside faces have rules of thumb alone: 1 to 5 mm a day, and the plan goes by the slow one. Nothing is said of frost.".into()),
                None => {}
            }
        }
        let without_room = |of: &Found| of.stand.is_none() && of.room.is_none();
        if found.iter().any(without_room) || (climate.hours.is_empty() && !rooms.is_empty()) {
            let missing = if rooms.is_empty() {
                ""
            } else if climate.hours.is_empty() {
                " Rooms need weather to be told."
            } else {
                " That is so of faces that stand in no room."
            };
            notes.push(eco_format!(
                "Rooms are reckoned at {celsius} °C and {} % in still air (ours, no source); a damp or cold room dries far more slowly.{missing}",
                humidity * 100.0
            ));
        }
        climate
    }

    fn take(
        &mut self,
        weather: &Weather,
        place: Option<(f64, f64)>,
        found: &[Found],
        notes: &mut Vec<EcoString>,
    ) {
        let station = weather.place();
        // An hour is 15 degrees of longitude.
        let place = match (place, station) {
            (Some((latitude, longitude)), station) => {
                let zone = station.map_or((longitude / 15.0).round(), |station| station.zone);
                Place::new(latitude, longitude, zone).ok()
            }
            (None, Some(of)) => Place::new(of.latitude, of.longitude, of.zone).ok(),
            (None, None) => None,
        };
        let Some(place) = place else {
            notes.push("Neither the project nor the weather says where it is; give latitude and longitude. Until then there are rules of thumb alone.".into());
            return;
        };
        let name = station.map_or("weather without a name", |station| station.name.as_str());
        self.hours = weather
            .span(self.from, AHEAD)
            .map_while(|hour| hour)
            .collect();
        if self.hours.is_empty() {
            notes.push(eco_format!(
                "The weather of {name} has no hour of {}; outside faces have rules of thumb alone.",
                self.from.date()
            ));
            return;
        }
        if let Some(last) = self.hours.last().filter(|_| self.hours.len() < AHEAD) {
            self.ends = Some(last.begins);
            notes.push(eco_format!("The weather of {name} ends on {}. After that drying is told by rules of thumb, and nothing is said of frost.", last.begins.date()));
        }
        let skies = skies(&self.hours, &place);
        for stand in found.iter().filter_map(|of| of.stand) {
            if !self.outside.iter().any(|(known, _)| *known == stand) {
                let rates = skies.iter().map(|sky| sky.wet_face(&stand).kg_m2_h);
                self.outside.push((stand, rates.collect()));
            }
        }
        self.told = Some(if weather.is_typical() {
            eco_format!("{name}, a typical year and no forecast")
        } else {
            name.into()
        });
    }

    /// Where the weather is from.
    pub(super) fn told(&self) -> Option<EcoString> {
        self.told.clone()
    }

    /// The last hour of the weather, where it ends within what is looked at.
    pub(super) fn ends(&self) -> Option<DateTime> {
        self.ends
    }

    /// The place of an hour in the rates.
    pub(super) fn index(&self, at: DateTime) -> Option<usize> {
        usize::try_from(at.duration_since(self.from).as_hours()).ok()
    }

    /// The hours of weather from one on.
    pub(super) fn hours_from(&self, at: DateTime) -> &[Hour] {
        let from = self.index(at).and_then(|at| self.hours.get(at..));
        from.unwrap_or_default()
    }

    /// Whether there is weather that a face could dry in.
    pub(super) fn is_known(&self) -> bool {
        !self.hours.is_empty()
    }

    /// What a face that stays wet gives off from an hour on.
    pub(super) fn rates(&self, of: &Found, at: DateTime) -> Rates<'_> {
        let series = match (&of.stand, of.room) {
            (Some(stand), _) => self.outside.iter().find(|(known, _)| known == stand),
            (None, _) => None,
        };
        let series = series.map(|(_, rates)| rates);
        let room = of.room.and_then(|room| self.rooms.get(room));
        match (
            series.or(room.filter(|_| of.stand.is_none())),
            self.index(at),
        ) {
            (Some(rates), Some(at)) if !rates.is_empty() => {
                Rates::Hours(rates.get(at..).unwrap_or_default())
            }
            _ if of.stand.is_some() => Rates::Unknown,
            _ => self.steady.map_or(Rates::Unknown, Rates::Steady),
        }
    }
}

/// The first day that is looked at.
fn from(weather: Option<&Weather>, earliest: Date, begins: Date) -> DateTime {
    let mut day = earliest.min(begins);
    let is_known = |day: Date| weather.is_some_and(|of| of.at(day.at(0, 0, 0, 0)).is_some());
    while day < begins && !is_known(day) {
        let Ok(next) = day.tomorrow() else { break };
        day = next;
    }
    day.at(0, 0, 0, 0)
}

fn skies(hours: &[Hour], place: &Place) -> Vec<Sky> {
    hours
        .iter()
        .map_while(|hour| Sky::of(place, hour).ok())
        .collect()
}
