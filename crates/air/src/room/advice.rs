//! What openings change of the air, and what heaters give to it. Not here: any reckoning.

/// How much air an opening lets through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Opening {
    /// Which opening.
    pub name: &'static str,
    /// Changes of air, least and most that are given, 1/h.
    pub changes_per_h: (f64, f64),
    /// Who gives them.
    pub source: &'static str,
}

const TABLES: &str = "German public advice on airing, several tables";

/// Changes of air in a living room at all times, 1/h. Source: DIN 4108-2, as quoted in public advice.
pub const RESTING_CHANGES_H: f64 = 0.5;

/// Openings from the closest to the widest.
pub const OPENINGS: [Opening; 6] = [
    Opening {
        name: "all shut",
        changes_per_h: (0.0, 0.3),
        source: TABLES,
    },
    Opening {
        name: "tilted, blind down",
        changes_per_h: (0.3, 1.5),
        source: TABLES,
    },
    Opening {
        name: "tilted",
        changes_per_h: (0.5, 4.0),
        source: "German public advice on airing; tables differ: 0.5 to 2 and 0.8 to 4",
    },
    Opening {
        name: "half open",
        changes_per_h: (5.0, 10.0),
        source: TABLES,
    },
    Opening {
        name: "wide open",
        changes_per_h: (9.0, 15.0),
        source: TABLES,
    },
    Opening {
        name: "opposite windows wide open",
        changes_per_h: (20.0, 40.0),
        source: "German public advice on airing: up to 40; an Austrian course: 20 to 60",
    },
];

/// What burns in a heater without a flue, and the water it gives to the room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fuel {
    /// Which fuel.
    pub name: &'static str,
    /// Carbon and hydrogen atoms of a molecule, as it is burnt.
    pub carbon: f64,
    /// Hydrogen atoms of a molecule.
    pub hydrogen: f64,
}

impl Fuel {
    /// Water for each kilogram of fuel, kg: two atoms of hydrogen make one molecule of water (masses of the atoms:
    /// IUPAC, from memory).
    ///
    /// ```
    /// let propane = hodful_air::room::FUELS[0];
    /// assert!((propane.water_kg_kg() - 1.63).abs() < 0.01);
    /// ```
    pub fn water_kg_kg(&self) -> f64 {
        const CARBON: f64 = 12.011;
        const HYDROGEN: f64 = 1.008;
        const WATER: f64 = 18.015;
        self.hydrogen / 2.0 * WATER / (self.carbon * CARBON + self.hydrogen * HYDROGEN)
    }
}

/// Fuels of heaters without a flue, which wet the room they warm. They need fresh air, and may give off carbon
/// monoxide: keep to the maker's words and local codes.
pub const FUELS: [Fuel; 3] = [
    Fuel {
        name: "propane",
        carbon: 3.0,
        hydrogen: 8.0,
    },
    Fuel {
        // As methane, its main part.
        name: "natural gas",
        carbon: 1.0,
        hydrogen: 4.0,
    },
    Fuel {
        // As dodecane, a usual stand-in.
        name: "kerosene",
        carbon: 12.0,
        hydrogen: 26.0,
    },
];
