//! Systems of particle sizes: where clay, silt, sand and gravel end. Not here: shares of them (see `fractions`).

use core::fmt;

use hodful_quantities::units::{Length, length_of_mm};

/// A published system of particle sizes. A share of sand or silt means nothing without it: between 0.05 and
/// 0.075 mm the same grain is sand in one and silt in another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub enum System {
    /// United States Department of Agriculture; the one of the texture triangle.
    #[default]
    Usda,
    /// ISO 14688-1.
    Iso,
    /// ASTM D2487. It tells clay from silt by plasticity; here its fines are split by size, at 0.002 mm.
    Astm,
}

/// The largest diameter of each fraction, rising.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Clay is finer than this.
    pub clay: Length,
    /// Silt is finer than this, and not clay.
    pub silt: Length,
    /// Sand is finer than this, and not silt.
    pub sand: Length,
    /// Gravel is finer than this, and not sand. Shares here count what is coarser still with the gravel.
    pub gravel: Length,
}

impl System {
    /// Every system, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::Usda, Self::Iso, Self::Astm];

    /// The word for it: `USDA`, `ISO` or `ASTM`.
    pub fn word(self) -> &'static str {
        match self {
            Self::Usda => "USDA",
            Self::Iso => "ISO",
            Self::Astm => "ASTM",
        }
    }

    /// The system a word stands for; large and small letters are the same. `None` for any other word.
    ///
    /// ```
    /// use hodful_soils::sizes::System;
    /// assert_eq!(System::from_word("iso"), Some(System::Iso));
    /// assert_eq!(System::from_word("sieve"), None);
    /// ```
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|system| system.word().eq_ignore_ascii_case(word))
    }

    /// Where its fractions end.
    ///
    /// ```
    /// use hodful_soils::sizes::System;
    /// use hodful_quantities::units::millimeter;
    /// assert_eq!(System::Usda.limits().silt.get::<millimeter>(), 0.05);
    /// ```
    pub fn limits(self) -> Limits {
        let [clay, silt, sand, gravel] = match self {
            Self::Usda => [0.002, 0.05, 2.0, 75.0],
            Self::Iso => [0.002, 0.063, 2.0, 63.0],
            Self::Astm => [0.002, 0.075, 4.75, 75.0],
        }
        .map(length_of_mm);
        Limits {
            clay,
            silt,
            sand,
            gravel,
        }
    }

    /// What is published, and where.
    pub fn source(self) -> &'static str {
        match self {
            Self::Usda => {
                "United States Department of Agriculture, Soil Survey Manual, ch. 3 (upper limit of gravel from memory)"
            }
            Self::Iso => "ISO 14688-1, identification and classification of soil",
            Self::Astm => {
                "ASTM D2487 (upper limit of gravel from memory); fines split at 0.002 mm by size, not by plasticity"
            }
        }
    }
}

impl fmt::Display for System {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}
