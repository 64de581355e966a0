//! How long which binder must be kept from frost, and how cold its air may be. Not here: the weather.

/// What holds a coat together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Binder {
    /// Earth: it dries and does not set.
    Earth,
    /// Cement.
    Cement,
    /// Natural hydraulic lime.
    HydraulicLime,
    /// Air lime, as putty or hydrate.
    AirLime,
}

/// How long a coat must be kept from frost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Window {
    /// Until it is dry.
    UntilDry,
    /// So many hours from placing.
    Hours(f64),
}

/// How a coat is to be kept from frost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Care {
    /// What holds it together.
    pub binder: Binder,
    /// How long.
    pub window: Window,
    /// The coldest the air may be in that time, °C, where something says so.
    pub least_air: Option<f64>,
    /// Who says so.
    pub source: &'static str,
}

impl Care {
    /// Hours from placing in which the coat must be kept from frost, when it is dry after so many. One that dries
    /// later than the rule asks for is kept until it is dry.
    pub fn hours(&self, dry_after_h: f64) -> f64 {
        match self.window {
            Window::UntilDry => dry_after_h.max(0.0),
            Window::Hours(hours) => hours.max(dry_after_h),
        }
    }
}

const EARTH: Care = Care {
    binder: Binder::Earth,
    window: Window::UntilDry,
    least_air: None,
    source: "must dry without frost: trade guides to earth plaster; no limit in codes is known",
};

/// What is asked for, one row a binder.
pub const CARES: [Care; 4] = [
    EARTH,
    Care {
        binder: Binder::Cement,
        window: Window::Hours(48.0),
        least_air: Some(4.4),
        source: "above 40 °F during work and 48 h after: International Building Code 2018, 2512.4",
    },
    Care {
        binder: Binder::HydraulicLime,
        window: Window::Hours(72.0),
        least_air: Some(4.4),
        source: "40 to 85 °F, kept from frost for 72 h: trade page on lime over straw bales",
    },
    Care {
        binder: Binder::AirLime,
        // "The following weeks and months"; four weeks are ours.
        window: Window::Hours(672.0),
        least_air: Some(5.0),
        source: "not when it may fall below 5 °C in the weeks after: trade page on lime; four weeks taken",
    },
];

/// What is asked for with a binder.
pub fn care(binder: Binder) -> Care {
    CARES
        .into_iter()
        .find(|care| care.binder == binder)
        .unwrap_or(EARTH)
}
