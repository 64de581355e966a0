//! What coats dry into: the weather at each outside face, the air of each room. Not here: how long a coat takes (see
//! `drying`), and how a room becomes damp (see `rooms`).

use super::lacking::{self, Lacking};
use super::tasks::Found;
use crate::check::work::rooms::CheckedRoom;
use ecow::{EcoString, eco_format};
use hodful_air::moist::STANDARD_PA;
use hodful_air::outside::{Sky, Stand, quick_kg_m2_h};
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

/// What an outside face gives off hour by hour, kg/(m²·h).
#[derive(Debug)]
struct OutsideRates {
    stand: Stand,
    /// For drying.
    wet: Vec<f64>,
    /// For whether it dries too fast.
    quick: Vec<f64>,
}

/// A room hour by hour; empty where only the steady air is known.
#[derive(Debug, Default)]
pub(super) struct RoomAir {
    /// What a face that stays wet gives off, kg/(m²·h).
    pub(super) wet: Vec<f64>,
    /// The same for whether it dries too fast.
    pub(super) quick: Vec<f64>,
    /// Its air as hours of weather, for frost.
    pub(super) hours: Vec<Hour>,
}

/// The weather of the work, hour by hour from its first day on, and what faces give off in it.
#[derive(Debug)]
pub(super) struct Climate {
    from: DateTime,
    pub(super) hours: Vec<Hour>,
    outside: Vec<OutsideRates>,
    pub(super) rooms: Vec<RoomAir>,
    /// In the air of a room of which nothing is said: for drying, and for whether it is too fast.
    steady: Option<[f64; 2]>,
    told: Option<EcoString>,
    /// Its first hour, where the work begins before that.
    begins: Option<DateTime>,
    /// Its last hour, and whether it is the last there is, and not only of those that are looked at.
    ends: Option<(DateTime, bool)>,
    pub(super) is_typical: bool,
    /// What the weather does not say.
    pub(super) lacking: Vec<Lacking>,
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
        let steady = steady.map(|air| {
            let face = wet_face(&air, STILL_ROOM_W_M2K, 0.0);
            [face.kg_m2_h, quick_kg_m2_h(&air, 0.0, &face)]
        });
        let mut climate = Self {
            from: from(weather, earliest, begins),
            hours: Vec::new(),
            outside: Vec::new(),
            rooms: rooms.iter().map(|_| RoomAir::default()).collect(),
            steady,
            told: None,
            begins: None,
            ends: None,
            is_typical: weather.is_some_and(Weather::is_typical),
            lacking: Vec::new(),
        };
        let is_outside = found.iter().any(|of| of.stand.is_some());
        if is_outside || !rooms.is_empty() {
            match weather {
                Some(weather) => climate.take(weather, begins, place, found, notes),
                None if is_outside => notes.push("Without weather outside faces have rules of thumb alone: 0.5 to 5 mm a day, and the plan goes by the slow one. Nothing is said of frost: look at the forecast.".into()),
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
        begins: Date,
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
        // As far ahead of the first day, however long before it something was put on.
        let before = begins.at(0, 0, 0, 0).duration_since(self.from).as_hours();
        let ahead = i64::try_from(AHEAD).unwrap_or_default();
        let wanted = usize::try_from(ahead.saturating_add(before)).unwrap_or_default();
        let name = station.map_or("the file", |station| station.name.as_str());
        self.hours = weather
            .span(self.from, wanted)
            .map_while(|hour| hour)
            .collect();
        if self.hours.is_empty() {
            notes.push(eco_format!(
                "The weather of {name} has no hour from {begins} on; outside faces have rules of thumb alone, and nothing is said of frost: begin on a day that it has."
            ));
            return;
        }
        let starts = begins.at(0, 0, 0, 0);
        self.begins = Some(self.from).filter(|from| *from > starts);
        if let Some(from) = self.begins {
            notes.push(eco_format!(
                "The weather of {name} begins on {} at {}:{:02}. Before that nothing is said of frost, rain or haste, and a coat dries by the slow rule of thumb.",
                from.date(),
                from.hour(),
                from.minute()
            ));
        }
        let is_last = self.hours.len() < wanted;
        self.ends = self.hours.last().map(|last| (last.begins, is_last));
        if let Some(last) = self.hours.last().filter(|_| is_last) {
            notes.push(eco_format!("The weather of {name} ends on {}. After that drying is told by rules of thumb, and nothing is said of frost.", last.begins.date()));
        }
        let is_outside = found.iter().any(|of| of.stand.is_some());
        self.lacking = lacking::all(weather, &self.hours, place.is_some());
        let told = self
            .lacking
            .iter()
            .filter(|of| is_outside || of.is_of_rooms());
        notes.extend(told.map(|of| of.said().into()));
        let skies = skies(&self.hours, place.as_ref());
        for stand in found.iter().filter_map(|of| of.stand) {
            if !self.outside.iter().any(|known| known.stand == stand) {
                let faces = skies.iter().map(|sky| sky.face(&stand));
                let (wet, quick) = faces
                    .map(|face| (face.wet.kg_m2_h, face.quick_kg_m2_h))
                    .unzip();
                self.outside.push(OutsideRates { stand, wet, quick });
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

    /// The first hour of the weather, where the work begins before it.
    pub(super) fn begins(&self) -> Option<DateTime> {
        self.begins
    }

    /// The last hour of the weather that is known, where it ends or where something lies behind it.
    pub(super) fn ends_before(&self, last: Option<DateTime>) -> Option<DateTime> {
        let (ends, is_last) = self.ends?;
        (is_last || last.is_some_and(|last| last > ends)).then_some(ends)
    }

    /// Whether the weather is known from a time on until another.
    pub(super) fn is_known_in(&self, [from, until]: [DateTime; 2]) -> bool {
        self.hours_before(from) <= 0.0 && self.ends.is_some_and(|(ends, _)| until <= ends)
    }

    /// The place of an hour in the rates.
    pub(super) fn index(&self, at: DateTime) -> Option<usize> {
        usize::try_from(at.duration_since(self.from).as_hours()).ok()
    }

    /// The hours of weather from one on; all of them from a time before it begins.
    pub(super) fn hours_from(&self, at: DateTime) -> &[Hour] {
        self.hours.get(self.first(at)..).unwrap_or_default()
    }

    /// The place of the first hour of the weather that is not before a time.
    fn first(&self, at: DateTime) -> usize {
        self.index(at).unwrap_or(0)
    }

    /// Whether there is weather that a face could dry in.
    pub(super) fn is_known(&self) -> bool {
        !self.hours.is_empty()
    }

    /// The hours of a task's face from one on: of the weather outside, of its room inside. Nothing where it is in none.
    pub(super) fn air_from(&self, of: &Found, at: DateTime) -> &[Hour] {
        match (of.stand, of.room.and_then(|room| self.rooms.get(room))) {
            (Some(_), _) => self.hours_from(at),
            (None, Some(room)) => room.hours.get(self.first(at)..).unwrap_or_default(),
            (None, None) => &[],
        }
    }

    /// What a face that stays wet gives off from an hour on, for drying.
    pub(super) fn rates(&self, of: &Found, at: DateTime) -> Rates<'_> {
        self.series(of, at, |of| &of.wet, |of| &of.wet, 0)
    }

    /// The same for whether it dries too fast; not known before the weather begins.
    pub(super) fn quick(&self, of: &Found, at: DateTime) -> Rates<'_> {
        if at < self.known_from(of, at) {
            return Rates::Unknown;
        }
        self.series(of, at, |of| &of.quick, |of| &of.quick, 1)
    }

    /// A time, or the begin of the weather where a face hangs on that and it comes later.
    pub(super) fn known_from(&self, of: &Found, at: DateTime) -> DateTime {
        let hangs_on_it = of.stand.is_some() || of.room.is_some();
        if hangs_on_it && self.is_known() {
            at.max(self.from)
        } else {
            at
        }
    }

    /// Hours from a time until the weather begins; none where it lies in it or there is none.
    pub(super) fn hours_before(&self, at: DateTime) -> f64 {
        let before = self.from.duration_since(at).as_secs_f64() / 3600.0;
        if self.is_known() {
            before.max(0.0)
        } else {
            0.0
        }
    }

    fn series(
        &self,
        of: &Found,
        at: DateTime,
        outside: fn(&OutsideRates) -> &Vec<f64>,
        room: fn(&RoomAir) -> &Vec<f64>,
        steady: usize,
    ) -> Rates<'_> {
        let series = match (&of.stand, of.room) {
            (Some(stand), _) => self
                .outside
                .iter()
                .find(|known| known.stand == *stand)
                .map(outside),
            (None, Some(at)) => self.rooms.get(at).map(room),
            (None, None) => None,
        };
        match series {
            Some(rates) if !rates.is_empty() => {
                // What was put on before the weather begins has all of it.
                Rates::Hours(rates.get(self.first(at)..).unwrap_or_default())
            }
            _ if of.stand.is_some() => Rates::Unknown,
            _ => {
                let steady = self.steady.and_then(|of| of.get(steady).copied());
                steady.map_or(Rates::Unknown, Rates::Steady)
            }
        }
    }
}

/// Days before the first one of the work that are looked at, at most: a coat is dry by then. Ours.
const MOST_BEFORE: i32 = 400;

/// The first hour that is looked at: that of the earliest day from which on the weather is known without a gap up to
/// the begin of the work; where it is not known then, its first hour after that.
fn from(weather: Option<&Weather>, earliest: Date, begins: Date) -> DateTime {
    let is_known = |day: Date| weather.is_some_and(|of| of.at(day.at(0, 0, 0, 0)).is_some());
    let begin = begins.at(0, 0, 0, 0);
    if !is_known(begins) {
        let mut hours = weather.into_iter().flat_map(|of| of.span(begin, AHEAD));
        return hours.find_map(|hour| Some(hour?.begins)).unwrap_or(begin);
    }
    let mut day = begins;
    for _ in 0..MOST_BEFORE {
        let before = day.yesterday().ok();
        let Some(before) = before.filter(|before| *before >= earliest && is_known(*before)) else {
            break;
        };
        day = before;
    }
    day.at(0, 0, 0, 0)
}

/// What all faces share of each hour; without a place they are all in the shade.
fn skies(hours: &[Hour], place: Option<&Place>) -> Vec<Sky> {
    let sky = |hour: &Hour| match place {
        Some(place) => Sky::of(place, hour),
        None => Sky::without_place(hour),
    };
    hours.iter().map_while(|hour| sky(hour).ok()).collect()
}
