//! Rules of thumb for drying, as they are told. Not here: which of them bound a band.

/// What is told of drying.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rule {
    /// Of what.
    pub what: &'static str,
    /// The slowest it says, mm a day.
    pub least_mm_day: f64,
    /// The fastest it says, mm a day; the same when it says one figure.
    pub most_mm_day: f64,
    /// Who tells it.
    pub source: &'static str,
}

/// The rules that were found, from the fastest.
pub const RULES: [Rule; 5] = [
    Rule {
        what: "clay topcoat of 15 mm in ideal conditions: 3 to 4 days",
        least_mm_day: 3.75,
        most_mm_day: 5.0,
        source: "public guide to the upkeep of buildings, entry on clay plaster",
    },
    Rule {
        what: "lime, lime-cement and gypsum plaster: a day or more a millimetre",
        least_mm_day: 1.0,
        most_mm_day: 1.0,
        source: "German trade lexicon, practice behind DIN 18550",
    },
    Rule {
        what: "clay: 1 to 2 days a millimetre, longer in thick coats",
        least_mm_day: 0.5,
        most_mm_day: 1.0,
        source: "public page, weak",
    },
    Rule {
        what: "wet construction in good conditions: a month for 25 mm",
        least_mm_day: 0.83,
        most_mm_day: 0.83,
        source: "British building control advice, Drying out buildings",
    },
    Rule {
        what: "wet construction: a week of good drying for 5 mm",
        least_mm_day: 0.71,
        most_mm_day: 0.71,
        source: "trade data sheet",
    },
];
