//! Published figures of work and waits, as data with their sources: to offer while nothing is measured. Not here:
//! what is done with them.
//!
//! No published rate for earth plaster on bales was found. The rates are of lime, gypsum and cement, net or gross as
//! said; they are no standards of what people should manage. Measure a wall of your own as soon as there is one.

/// A published rate of placing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rate {
    /// What was done.
    pub work: &'static str,
    /// The least and the most that one plasterer does in an hour, m².
    pub m2_per_hour: (f64, f64),
    /// The least and the most that it takes of all people together, person-hours on a square metre.
    pub person_hours_per_m2: (f64, f64),
    /// How the figure came about.
    pub note: &'static str,
    /// Where.
    pub source: &'static str,
}

/// A published wait between two coats.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wait {
    /// Of which coats.
    pub coats: &'static str,
    /// Hours at least. None: it depends on the thickness or on drying alone.
    pub hours: Option<f64>,
    /// Days for each millimetre of thickness.
    pub days_per_mm: Option<f64>,
    /// Whether it must be dry besides.
    pub dry: bool,
    /// Where.
    pub source: &'static str,
}

/// A square yard in m²: 0.9144², exact. NIST Special Publication 811, appendix B.8, "square yard".
pub const SQUARE_YARD: f64 = 0.836_127_36;

/// Hours of a working day behind labour constants in days: "Indian Standard IS 7272 (Part 1), 1974, amendment 1".
pub const HOURS_OF_A_DAY: f64 = 8.0;

const CYCLOPEDIA: &str =
    "Cyclopedia of Architecture, Carpentry and Building, 'Plastering', read in a reprint";

/// Published rates.
pub const RATES: [Rate; 5] = [
    Rate {
        work: "lime, three coats on lath, all coats",
        m2_per_hour: (2.090, 2.613),
        person_hours_per_m2: (0.57, 0.72),
        note: "two plasterers and a helper do 40 to 50 square yards in a day of 8 hours",
        source: CYCLOPEDIA,
    },
    Rate {
        work: "lime, two coats on lath, all coats",
        m2_per_hour: (3.135, 3.658),
        person_hours_per_m2: (0.41, 0.48),
        note: "two plasterers and a helper do 60 to 70 square yards in a day of 8 hours",
        source: CYCLOPEDIA,
    },
    Rate {
        work: "lime, three coats, all coats",
        m2_per_hour: (2.57, 3.22),
        person_hours_per_m2: (0.55, 0.69),
        note: "100 square yards take a plasterer 3.25 days and a helper 2.5; days of 10 or 8 hours, not said which",
        source: "A Treatise on Architecture and Building Construction, volume 4, 'Plastering', section 69",
    },
    Rate {
        work: "cement and sand, one coat, much by hand",
        m2_per_hour: (1.68, 1.68),
        person_hours_per_m2: (2.08, 2.08),
        note: "a mason 0.0744 days, a labourer 0.0929 and a water carrier 0.0929 on a square metre, of 8 hours; read in a trade page",
        source: "Central Public Works Department of India, labour coefficients of plastering",
    },
    Rate {
        work: "thick base coat of 15 mm, alone, with mixing",
        m2_per_hour: (1.88, 2.5),
        person_hours_per_m2: (0.40, 0.53),
        note: "15 to 20 square metres a day of 8 hours, told by a plasterer; an anecdote",
        source: "trade page",
    },
];

/// Published waits.
pub const WAITS: [Wait; 6] = [
    Wait {
        coats: "clay on clay",
        hours: None,
        days_per_mm: None,
        dry: true,
        source: "trade data sheets: dry, seen by its colour, and done with shrinking; dampened before the next",
    },
    Wait {
        coats: "second coat of cement on the first",
        hours: Some(48.0),
        days_per_mm: None,
        dry: false,
        source: "International Building Code, table 2512.6",
    },
    Wait {
        coats: "finish coat on the second coat of cement",
        hours: Some(168.0),
        days_per_mm: None,
        dry: false,
        source: "International Building Code, table 2512.6",
    },
    Wait {
        coats: "thrown bond coat of cement",
        hours: Some(24.0),
        days_per_mm: None,
        dry: false,
        source: "International Building Code, 2510.7",
    },
    Wait {
        coats: "lime, lime and cement, gypsum",
        hours: None,
        days_per_mm: Some(1.0),
        dry: false,
        source: "trade page: one day for each millimetre at least",
    },
    Wait {
        coats: "thrown bond coat under clay",
        hours: Some(24.0),
        days_per_mm: None,
        dry: false,
        source: "trade page: one day at least",
    },
];

/// Person-hours to mix a cubic metre of mortar by hand: 0.75 days of a labourer and 0.07 of a carrier, of 8 hours.
/// A sheet of labour constants after IS 7272.
pub const HAND_MIXING: f64 = (0.75 + 0.07) * HOURS_OF_A_DAY;

/// Person-hours for a cubic metre from a mixer: 0.50 days of a labourer, 0.10 of a carrier, 0.07 of who runs it.
/// The same sheet; for concrete.
pub const MACHINE_MIXING: f64 = (0.50 + 0.10 + 0.07) * HOURS_OF_A_DAY;

/// The least and the most by which all hours exceed those at the work itself: earth walls, 7.0 to 5.5 by hand and
/// 5.0 to 3.5 by machine. The Ecology of Building Materials, chapter on earth, read in a reprint. Walls, not plaster.
pub const GROSS_OVER_NET: (f64, f64) = (7.0 / 5.5, 5.0 / 3.5);

/// The smallest crew that is told for plaster on bales: 1 mixing, 1 carrying, 4 placing, 2 finishing. Trade page.
pub const BALE_CREW: crate::Crew = crate::Crew::Roles {
    mixing: 1,
    carrying: 1,
    placing: 4,
    finishing: 2,
};

/// A net rate, with nothing but the work itself, as a gross one with all the small things between: `rate / factor`.
///
/// ```
/// use hodful_workplan::published::{GROSS_OVER_NET, gross};
/// // 3.5 m² an hour net: 2.75 gross, with hands alone.
/// assert!((gross(3.5, GROSS_OVER_NET.0) - 2.75).abs() < 1e-12);
/// ```
pub fn gross(m2_per_hour: f64, factor: f64) -> f64 {
    m2_per_hour / factor
}
