//! Where the sun stands and what falls on a wall. Not here: what a wall does with it.

mod split;

use crate::fault::{AirFault, within};
use jiff::civil::{Date, DateTime, date};

pub use split::{Light, split};

/// Share of the light on the ground that the ground throws back: 0.2 for grass and earth. Source: Liu and Jordan, as in
/// Duffie and Beckman, Solar Engineering of Thermal Processes (from memory).
pub const GROUND: f64 = 0.2;

/// A place on the globe and its clock. One that exists can be worked with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    sin_latitude: f64,
    cos_latitude: f64,
    /// Degrees.
    longitude: f64,
    /// Where the sun is on its noon by the clock, degrees.
    meridian: f64,
}

impl Place {
    /// A place by latitude (degrees, north above 0), longitude (degrees, east above 0), and hours that its standard
    /// time is ahead of universal time.
    ///
    /// # Errors
    ///
    /// When one is not on the globe: beyond ±90°, ±180° and ±15 hours.
    pub fn new(latitude: f64, longitude: f64, zone_h: f64) -> Result<Self, AirFault> {
        let latitude = radians(within("a latitude", latitude, 90.0)?);
        let longitude = within("a longitude", longitude, 180.0)?;
        // An hour is 15 degrees.
        let meridian = within("a time zone, at 15° an hour,", 15.0 * zone_h, 225.0)?;
        Ok(Self {
            sin_latitude: libm::sin(latitude),
            cos_latitude: libm::cos(latitude),
            longitude,
            meridian,
        })
    }
}

/// Where the sun stands, as the three parts of an arrow of length 1 to it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sun {
    /// To the north.
    pub north: f64,
    /// To the east.
    pub east: f64,
    /// Upwards; below 0 at night.
    pub up: f64,
    /// Light of the sun beyond the air on a face square to it, W/m².
    pub beyond_w_m2: f64,
}

const SECONDS_A_DAY: f64 = 86_400.0;

/// The sun beyond the air, yearly mean, W/m². Source: ASTM E490-00 (from memory).
const SOLAR_W_M2: f64 = 1366.1;

impl Sun {
    /// Where the sun stands at a time of the clock, in local standard time.
    ///
    /// ```
    /// use hodful_air::sun::{Place, Sun};
    /// // Noon in June on the northern tropic: the sun is overhead.
    /// let place = Place::new(23.44, 0.0, 0.0)?;
    /// let sun = Sun::at(&place, jiff::civil::date(2025, 6, 21).at(12, 2, 0, 0));
    /// assert!(sun.altitude() > 89.5);
    /// # Ok::<(), hodful_air::AirFault>(())
    /// ```
    pub fn at(place: &Place, time: DateTime) -> Self {
        let minutes = f64::from(time.hour()) * 60.0
            + f64::from(time.minute())
            + f64::from(time.second()) / 60.0;
        Self::of(place, time.date(), minutes)
    }

    /// In the middle of the hour that begins at a time of the clock: for light that is a mean of the hour.
    pub fn mid_hour(place: &Place, begins: DateTime) -> Self {
        let minutes = f64::from(begins.hour()) * 60.0 + f64::from(begins.minute()) + 30.0;
        Self::of(place, begins.date(), minutes)
    }

    /// By the minutes of the clock from midnight.
    ///
    /// Source: Astronomical Almanac, low precision formulas for the sun, good to 0.01° from 1950 to 2050 (from memory;
    /// held against a public library).
    fn of(place: &Place, day: Date, minutes: f64) -> Self {
        let days = day.duration_since(date(2000, 1, 1)).as_secs_f64() / SECONDS_A_DAY;
        // Days from noon of that day, universal time.
        let n = days - 0.5 + (minutes - 4.0 * place.meridian) / 1440.0;
        let mean_longitude = 280.460 + 0.985_647_4 * n;
        let (sin_g, cos_g) = libm::sincos(radians(357.528 + 0.985_600_3 * n));
        // Of twice the angle.
        let (sin_2g, cos_2g) = (2.0 * sin_g * cos_g, cos_g * cos_g - sin_g * sin_g);
        let longitude = radians(mean_longitude + 1.915 * sin_g + 0.020 * sin_2g);
        let distance = 1.000_14 - 0.016_71 * cos_g - 0.000_14 * cos_2g;
        let (sin_tilt, cos_tilt) = libm::sincos(radians(23.439 - 0.000_000_4 * n));
        let (sin_longitude, x) = libm::sincos(longitude);
        // The sun among the stars, and the stars above the place by its own clock.
        let (y, z) = (cos_tilt * sin_longitude, sin_tilt * sin_longitude);
        let (sin_sky, cos_sky) = libm::sincos(radians(
            mean_longitude + minutes / 4.0 - 180.0 + place.longitude - place.meridian,
        ));
        let (to_noon, past_noon) = (x * cos_sky + y * sin_sky, x * sin_sky - y * cos_sky);
        Self {
            north: place.cos_latitude * z - place.sin_latitude * to_noon,
            east: -past_noon,
            up: place.sin_latitude * z + place.cos_latitude * to_noon,
            beyond_w_m2: SOLAR_W_M2 / (distance * distance),
        }
    }

    /// Height above the horizon, degrees; below 0 at night.
    pub fn altitude(&self) -> f64 {
        libm::asin(self.up.clamp(-1.0, 1.0)).to_degrees()
    }

    /// Direction, degrees from north by east, 0 to 360.
    pub fn azimuth(&self) -> f64 {
        let degrees = libm::atan2(self.east, self.north).to_degrees();
        if degrees < 0.0 {
            degrees + 360.0
        } else {
            degrees
        }
    }
}

/// Which way an upright wall looks. One that exists can be worked with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Facing {
    north: f64,
    east: f64,
}

impl Facing {
    /// A wall that looks towards a direction, degrees from north by east: 90 is a wall that looks east.
    ///
    /// # Errors
    ///
    /// When the direction is not between −360 and 360.
    pub fn new(azimuth: f64) -> Result<Self, AirFault> {
        let (east, north) = libm::sincos(radians(within("a direction", azimuth, 360.0)?));
        Ok(Self { north, east })
    }
}

/// What falls on an upright wall, W/m²: the beam, half of the sky, and half of what the ground throws back
/// (a sky that is equally bright: Liu and Jordan, as in Duffie and Beckman, from memory). A wall in the shade has no
/// beam, and its ground has none either.
///
/// ```
/// use hodful_air::sun::{Facing, Light, Sun, on_wall_w_m2};
/// let sun = Sun { north: 0.0, east: 0.6, up: 0.8, beyond_w_m2: 1366.0 };
/// let light = Light { beam: 800.0, diffuse: 100.0, global: 740.0 };
/// let east = on_wall_w_m2(&sun, &light, &Facing::new(90.0)?, false);
/// assert!((east - (480.0 + 50.0 + 74.0)).abs() < 1e-6);
/// let shaded = on_wall_w_m2(&sun, &light, &Facing::new(90.0)?, true);
/// assert!((shaded - 60.0).abs() < 1e-6);
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
pub fn on_wall_w_m2(sun: &Sun, light: &Light, facing: &Facing, shaded: bool) -> f64 {
    let towards = sun.north * facing.north + sun.east * facing.east;
    let (beam, global) = if shaded || sun.up <= 0.0 {
        (0.0, light.diffuse)
    } else {
        (light.beam * towards.max(0.0), light.global)
    };
    beam + light.diffuse / 2.0 + GROUND * global / 2.0
}

fn radians(degrees: f64) -> f64 {
    degrees.to_radians()
}
