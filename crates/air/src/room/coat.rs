//! A room and the coats on its walls, hour by hour, each acting on the others. Not here: the closed forms.

use super::balance::{Room, Spell, WetWalls};
use crate::drying::Coat;
use crate::fault::{AirFault, not_negative, positive};
use crate::moist::Air;
use crate::wall::wet_face;
use std::iter::zip;

/// What an hour brings to a room that dries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoomHour {
    /// The outside air.
    pub outside: Air,
    /// Temperature of the room, °C, kept by heating.
    pub celsius: f64,
    /// How the air is changed.
    pub room: Room,
    /// Water that people, cooking and heaters give to the air, kg/h.
    pub given_kg_h: f64,
}

/// A coat that dries in a room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoomCoat {
    /// Its water.
    pub coat: Coat,
    /// On how many square metres.
    pub area_m2: f64,
    /// The hour from which it is on the wall; it gives off nothing before.
    pub from: usize,
    /// Real time of drying over the predicted one, 1 when nothing is known.
    pub record: f64,
}

/// A room hour by hour, and when its coat is dry.
#[derive(Debug, Clone, PartialEq)]
pub struct DriedRoom {
    /// Humidity of the room at the end of each hour, 0 to 1.
    pub humidity: Vec<f64>,
    /// Hours until the coat is dry, `None` when they did not suffice.
    pub dry_after_h: Option<f64>,
    /// Water that the coat gave off, kg.
    pub given_kg: f64,
    /// Water that was too much for the air and ran down or was taken up elsewhere, kg.
    pub dripped_kg: f64,
}

/// A room hour by hour, with all coats that dry in it.
#[derive(Debug, Clone, PartialEq)]
pub struct DriedCoats {
    /// Humidity of the room at the end of each hour, 0 to 1.
    pub humidity: Vec<f64>,
    /// What a face that stays wet gives off in each hour, kg/(m²·h): for [`crate::drying::band`].
    pub wet_kg_m2_h: Vec<f64>,
    /// What all coats gave off in each hour, kg.
    pub given_kg: Vec<f64>,
    /// Of each coat, hours from the first on until it is dry; `None` when they did not suffice.
    pub dry_after_h: Vec<Option<f64>>,
    /// Water that was too much for the air in each hour, and ran down or was taken up elsewhere, kg.
    pub dripped_kg: Vec<f64>,
}

/// Dries a coat on so many square metres in a room, from air of the room at the beginning, with so much heat from air
/// to face (W/(m²·K)). Hours after the coat is dry are left out. As [`dry_coats`] with one.
///
/// # Errors
///
/// As [`dry_coats`].
pub fn dry_room(
    coat: &Coat,
    area_m2: f64,
    h_w_m2k: f64,
    begin: &Air,
    hours: impl IntoIterator<Item = RoomHour>,
) -> Result<DriedRoom, AirFault> {
    let one = [RoomCoat {
        coat: *coat,
        area_m2,
        from: 0,
        record: 1.0,
    }];
    let mut course = Course::new(&one, h_w_m2k, begin)?;
    for hour in hours {
        course.hour(&hour)?;
        if course.is_dry() {
            break;
        }
    }
    let dried = course.dried;
    Ok(DriedRoom {
        dry_after_h: dried.dry_after_h.first().copied().flatten(),
        given_kg: dried.given_kg.iter().sum(),
        dripped_kg: dried.dripped_kg.iter().sum(),
        humidity: dried.humidity,
    })
}

/// Dries coats in a room, each from its hour on, from air of the room at the beginning, with so much heat from air to
/// face (W/(m²·K)). All hours are gone through, also when everything is dry.
///
/// Air that is let in is counted by its volume inside, warmed. Within an hour weather and the speed of the coats stay
/// the same; the rest is in closed form. What one coat gives off slows the others down, as all share the air.
///
/// # Errors
///
/// When an area is below 0 or a record not above 0, or when the air of the room would be none that air can be.
///
/// ```
/// use hodful_air::{Air, drying::Coat, moist::STANDARD_PA};
/// use hodful_air::room::{Room, RoomCoat, RoomHour, dry_coats};
/// let outside = Air::new(5.0, 0.8, STANDARD_PA)?;
/// let hour = RoomHour { outside, celsius: 20.0, room: Room::new(50.0, 4.0)?, given_kg_h: 0.0 };
/// let coat = RoomCoat { coat: Coat::of_mix(5.0, 17.0)?, area_m2: 20.0, from: 0, record: 1.0 };
/// let begin = Air::new(20.0, 0.3, STANDARD_PA)?;
/// let alone = dry_coats(&[coat], 2.5, &begin, std::iter::repeat_n(hour, 2000))?;
/// let beside = dry_coats(&[coat, coat], 2.5, &begin, std::iter::repeat_n(hour, 2000))?;
/// assert!(beside.dry_after_h[0] > alone.dry_after_h[0]);
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
pub fn dry_coats(
    coats: &[RoomCoat],
    h_w_m2k: f64,
    begin: &Air,
    hours: impl IntoIterator<Item = RoomHour>,
) -> Result<DriedCoats, AirFault> {
    let mut course = Course::new(coats, h_w_m2k, begin)?;
    for hour in hours {
        course.hour(&hour)?;
    }
    Ok(course.dried)
}

/// A room while it dries.
struct Course<'a> {
    coats: &'a [RoomCoat],
    h_w_m2k: f64,
    vapour: f64,
    /// Of each coat, kg/m².
    water: Vec<f64>,
    dried: DriedCoats,
}

impl<'a> Course<'a> {
    fn new(coats: &'a [RoomCoat], h_w_m2k: f64, begin: &Air) -> Result<Self, AirFault> {
        for coat in coats {
            not_negative("area of the coat (m²)", coat.area_m2)?;
            positive("real time of drying over the predicted one", coat.record)?;
        }
        Ok(Self {
            coats,
            h_w_m2k,
            vapour: begin.vapour_kg_m3(),
            water: coats.iter().map(|coat| coat.coat.free_kg_m2()).collect(),
            dried: DriedCoats {
                humidity: Vec::new(),
                wet_kg_m2_h: Vec::new(),
                given_kg: Vec::new(),
                dry_after_h: vec![None; coats.len()],
                dripped_kg: Vec::new(),
            },
        })
    }

    fn is_dry(&self) -> bool {
        self.dried.dry_after_h.iter().all(Option::is_some)
    }

    fn hour(&mut self, hour: &RoomHour) -> Result<(), AirFault> {
        let number = self.dried.humidity.len();
        let pressure = hour.outside.pressure_pa();
        let air = Air::with_vapour(hour.celsius, self.vapour, pressure)?;
        // What each coat gives off as surface that is wet through, m².
        let wet: Vec<f64> = zip(self.coats, &self.water)
            .map(|(of, water)| {
                let on_wall = of.from <= number;
                let share = of.coat.share_of_wet(*water) / of.record;
                if on_wall { of.area_m2 * share } else { 0.0 }
            })
            .collect();
        let area: f64 = wet.iter().sum();
        let walls = WetWalls::in_air(area, &air, self.h_w_m2k);
        let spell = Spell {
            outside_kg_m3: hour.outside.at(hour.celsius)?.vapour_kg_m3(),
            given_kg_h: hour.given_kg_h,
            walls,
        };
        let left: f64 = zip(zip(self.coats, &self.water), &wet)
            .filter(|(_, wet)| **wet > 0.0)
            .map(|((of, water), _)| of.area_m2 * water)
            .sum();
        let (after, given) = hour.room.with_walls(self.vapour, &spell, 1.0, left);
        let full = Air::new(hour.celsius, 1.0, pressure)?.vapour_kg_m3();
        let dripped = (after - full).max(0.0) * hour.room.volume_m3();
        self.dried.dripped_kg.push(dripped);
        let rate = if area > 0.0 {
            given / area
        } else {
            // Nothing is wet: the mean of the hour is near enough to that of its ends.
            let mean = f64::midpoint(self.vapour, after.min(full));
            let air = Air::with_vapour(hour.celsius, mean, pressure)?;
            wet_face(&air, self.h_w_m2k, 0.0).kg_m2_h
        };
        self.vapour = after.min(full);
        self.dried.humidity.push(self.vapour / full);
        self.dried.wet_kg_m2_h.push(rate);
        self.dried.given_kg.push(given);
        for (at, (of, wet)) in zip(self.coats, wet).enumerate() {
            let (Some(water), Some(dry)) =
                (self.water.get_mut(at), self.dried.dry_after_h.get_mut(at))
            else {
                continue;
            };
            let before = *water;
            if wet > 0.0 {
                *water = (before - rate * wet / of.area_m2).max(0.0);
            }
            if dry.is_none() && *water <= of.coat.left_kg_m2() {
                let part = (before - of.coat.left_kg_m2()) / (before - *water);
                let started = u32::try_from(number).unwrap_or(u32::MAX);
                *dry = Some(f64::from(started) + part);
            }
        }
        Ok(())
    }
}
