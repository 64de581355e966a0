//! When a coat is dry: outside by the weather, inside by steady air, without weather by rules of thumb. Not here:
//! the formulas (see `hodful_air`).

use super::tasks::Found;
use crate::project::Side;
use ecow::{EcoString, eco_format};
use hodful_air::drying::{Band, Bound, Coat, FAST_MM_DAY, Origin, SLOW_MM_DAY, band};
use hodful_air::moist::STANDARD_PA;
use hodful_air::outside::{Sky, Stand};
use hodful_air::sun::Place;
use hodful_air::wall::{STILL_ROOM_W_M2K, wet_face};
use hodful_air::{Air, Hour, Weather};
use jiff::SignedDuration;
use jiff::civil::{Date, DateTime};

/// Hours of weather that are looked ahead: some 400 days.
const AHEAD: usize = 9_600;

/// Air of a room of which nothing is said, °C and share: ours, no source. It is heated or it is summer, and aired.
const ROOM: (f64, f64) = (20.0, 0.6);

/// When a coat is dry, at each of three speeds. Nothing where it cannot be told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drying {
    /// Not before.
    pub fast: Option<Until>,
    /// Likely; nothing by rules of thumb.
    pub likely: Option<Until>,
    /// To reckon with.
    pub slow: Option<Until>,
    /// Whether the weather that is known ends before, so that rules of thumb stand in.
    pub beyond_weather: bool,
}

/// When, and by what.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Until {
    /// When.
    pub at: DateTime,
    /// By what.
    pub from: Origin,
}

impl Drying {
    /// What the plan goes by: the likely end, else the slow one, else the given.
    pub(super) fn planned_with(&self, otherwise: DateTime) -> DateTime {
        self.likely
            .or(self.slow)
            .map_or(otherwise, |until| until.at)
    }
}

/// The weather of the work, hour by hour from its first day on, and what faces give off in it.
#[derive(Debug)]
pub(super) struct Outdoors {
    from: DateTime,
    pub(super) hours: Vec<Hour>,
    /// What each stand gives off while wet, kg/(m²·h).
    rates: Vec<(Stand, Vec<f64>)>,
    /// What a face in a room gives off while wet.
    room: Option<f64>,
    told: Option<EcoString>,
}

impl Outdoors {
    pub(super) fn new(
        weather: Option<&Weather>,
        begins: Date,
        place: Option<(f64, f64)>,
        found: &[Found],
        notes: &mut Vec<EcoString>,
    ) -> Self {
        let from = begins.at(0, 0, 0, 0);
        let (celsius, humidity) = ROOM;
        let room = Air::new(celsius, humidity, STANDARD_PA).ok();
        let room = room.map(|air| wet_face(&air, STILL_ROOM_W_M2K, 0.0).kg_m2_h);
        let mut outdoors = Self {
            from,
            hours: Vec::new(),
            rates: Vec::new(),
            room,
            told: None,
        };
        if found.iter().any(|of| of.task.side == Side::Inside) {
            notes.push(eco_format!(
                "Rooms are reckoned at {celsius} °C and {} % in still air (ours, no source); a damp or cold room dries far more slowly.",
                humidity * 100.0
            ));
        }
        if found.iter().any(|of| of.stand.is_some()) {
            match weather {
                Some(weather) => outdoors.take(weather, place, found, notes),
                None => notes.push("Without weather outside faces have rules of thumb alone: 1 to 5 mm a day, and the plan goes by the slow one. Nothing is said of frost.".into()),
            }
        }
        outdoors
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
            notes.push("Neither the project nor the weather says where it is; give latitude and longitude. Until then outside faces have rules of thumb alone.".into());
            return;
        };
        self.hours = weather
            .span(self.from, AHEAD)
            .map_while(|hour| hour)
            .collect();
        if self.hours.is_empty() {
            notes.push("The weather has no hour of the first day; outside faces have rules of thumb alone.".into());
            return;
        }
        let skies: Vec<Sky> = self
            .hours
            .iter()
            .map_while(|hour| Sky::of(&place, hour).ok())
            .collect();
        for stand in found.iter().filter_map(|of| of.stand) {
            if !self.rates.iter().any(|(known, _)| *known == stand) {
                let rates = skies.iter().map(|sky| sky.wet_face(&stand).kg_m2_h);
                self.rates.push((stand, rates.collect()));
            }
        }
        let name = station.map_or("weather without a name", |station| station.name.as_str());
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

    /// The place of an hour in the rates.
    pub(super) fn index(&self, at: DateTime) -> Option<usize> {
        usize::try_from(at.duration_since(self.from).as_hours()).ok()
    }

    /// What an outside face gives off from an hour on.
    pub(super) fn rates_from(&self, stand: &Stand, at: DateTime) -> Option<&[f64]> {
        let (_, rates) = self.rates.iter().find(|(known, _)| known == stand)?;
        rates.get(self.index(at)?..)
    }

    /// When a task that ended then is dry.
    pub(super) fn drying(&self, of: &Found, end: DateTime) -> Drying {
        let coat = Coat::of_mix(of.task.water_kg_m2, of.task.dry_kg_m2);
        let thickness = of.task.thickness_mm;
        let by_rates = match (&of.stand, coat) {
            (Some(stand), Ok(coat)) => self
                .rates_from(stand, end)
                .and_then(|rates| band(&coat, thickness, 1.0, rates.iter().copied()).ok()),
            (None, Ok(coat)) => self.room.and_then(|rate| {
                band(&coat, thickness, 1.0, std::iter::repeat_n(rate, AHEAD)).ok()
            }),
            _ => None,
        };
        let until = |bound: Option<Bound>| {
            let bound = bound?;
            let after = SignedDuration::try_from_secs_f64(bound.hours * 3600.0).ok()?;
            // To the minute: a drying time is not known any better.
            let after = SignedDuration::from_mins(after.as_mins());
            Some(Until {
                at: end.checked_add(after).ok()?,
                from: bound.from,
            })
        };
        let rule = |mm_day: f64| {
            until(Some(Bound {
                hours: thickness / mm_day * 24.0,
                from: Origin::RuleOfThumb,
            }))
        };
        match by_rates {
            Some(Band { fast, likely, slow }) => Drying {
                fast: until(fast).or_else(|| rule(FAST_MM_DAY)),
                likely: until(likely),
                slow: until(slow).or_else(|| rule(SLOW_MM_DAY)),
                beyond_weather: slow.is_none(),
            },
            None => Drying {
                fast: rule(FAST_MM_DAY),
                likely: None,
                slow: rule(SLOW_MM_DAY),
                beyond_weather: of.stand.is_some() && !self.rates.is_empty(),
            },
        }
    }
}
