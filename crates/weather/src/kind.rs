//! What a file of weather can hold: names, and the values that can be. Not here: units as typed (see `unit`).

/// What a file of weather can hold, and the unit it is kept in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Temperature of the air, °C.
    Temperature,
    /// Dew point, °C.
    DewPoint,
    /// Relative humidity, 0 to 1.
    Humidity,
    /// Pressure at the place, Pa.
    Pressure,
    /// Speed of the wind, m/s.
    Wind,
    /// Sun and sky on level ground, W/m².
    Sun,
    /// Straight from the sun, W/m².
    Beam,
    /// From the sky alone, W/m².
    Diffuse,
    /// Share of the sky under cloud, 0 to 1.
    Cloud,
    /// Rain, mm.
    Rain,
}

/// How many kinds there are.
pub(super) const KINDS: usize = 10;

impl Kind {
    /// Its place in a row.
    pub(super) fn at(self) -> usize {
        self as usize
    }

    /// The words for it.
    pub fn words(self) -> &'static str {
        match self {
            Self::Temperature => "temperature",
            Self::DewPoint => "dew point",
            Self::Humidity => "humidity",
            Self::Pressure => "pressure",
            Self::Wind => "wind",
            Self::Sun => "sun on level ground",
            Self::Beam => "direct sun",
            Self::Diffuse => "diffuse sun",
            Self::Cloud => "cloud",
            Self::Rain => "rain",
        }
    }

    /// The lowest and the highest value that can be, both let in: EnergyPlus Auxiliary Programs, weather data
    /// dictionary. Humidity up to 110 % is an instrument that reads high. The dictionary has no highest sun and rain.
    /// Ours: more sun than ever comes to the ground (1361 W/m² come to the top of the air, and the edge of a cloud adds
    /// to it), and more rain than any hour on record had (305 mm, World Meteorological Organization; from memory).
    pub(super) fn range(self) -> (f64, f64) {
        match self {
            Self::Temperature | Self::DewPoint => (-70.0, 70.0),
            Self::Humidity => (0.0, 1.1),
            Self::Pressure => (31_000.0, 120_000.0),
            Self::Wind => (0.0, 40.0),
            Self::Cloud => (0.0, 1.0),
            Self::Sun | Self::Beam | Self::Diffuse => (0.0, 2000.0),
            Self::Rain => (0.0, 900.0),
        }
    }

    /// The range in words, in the units of print.
    pub(super) fn range_words(self) -> &'static str {
        match self {
            Self::Temperature | Self::DewPoint => "from −70 to 70 °C",
            Self::Humidity => "from 0 to 110 %",
            Self::Pressure => "from 31 000 to 120 000 Pa",
            Self::Wind => "from 0 to 40 m/s",
            Self::Cloud => "from none of the sky to all of it",
            Self::Sun | Self::Beam | Self::Diffuse => "from 0 to 2000 W/m²",
            Self::Rain => "from 0 to 900 mm",
        }
    }

    /// Whether an hour is nothing without it; other values that cannot be are left out.
    pub(super) fn needed(self) -> bool {
        matches!(self, Self::Temperature | Self::Humidity | Self::Pressure)
    }
}
