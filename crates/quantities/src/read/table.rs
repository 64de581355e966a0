//! The units that may be typed, one row a unit, with their exact factors.
//!
//! The table feeds the reader, the hint at a mistyped unit, and the list of known units. Not here:
//! the grammar round a number and its unit.
//!
//! Sources of the factors: NIST Handbook 44, appendix C, "General tables of units of measurement",
//! and NIST Special Publication 811 (2008), appendix B. Exact by definition: inch 25.4 mm, pound
//! 0.453 592 37 kg, US gallon 231 in³, imperial gallon 4.546 09 L; a foot is 12 in, a yard 3 ft, a
//! quart a quarter of a gallon, a pint an eighth, a cup a sixteenth, a fluid ounce a 128th, an ounce
//! a sixteenth of a pound, a short ton 2000 lb. A day is 24 hours of 3600 seconds. Metric prefixes: the SI brochure (BIPM, 9th edition).

use crate::print::UnitSystem;
use std::collections::HashMap;
use std::sync::LazyLock;

/// A kind of quantity that units belong to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub enum Kind {
    /// Base unit millimetre.
    Length,
    /// Base unit square millimetre.
    Area,
    /// Base unit cubic millimetre.
    Volume,
    /// Base unit kilogram.
    Mass,
    /// Mass per volume; base unit kilogram per cubic millimetre.
    MassDensity,
    /// A plain number.
    Ratio,
    /// Base unit radian.
    Angle,
    /// Base unit second.
    Time,
}

impl Kind {
    /// The kind in words, with its article.
    pub fn what(self) -> &'static str {
        match self {
            Self::Length => "a length",
            Self::Area => "an area",
            Self::Volume => "a volume",
            Self::Mass => "a mass",
            Self::MassDensity => "a mass per volume",
            Self::Ratio => "a plain number",
            Self::Angle => "an angle",
            Self::Time => "a time",
        }
    }
}

/// How many base units of its kind (see [`Kind`]) one of a unit is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Factor {
    /// The first number over the second, exactly.
    Exact(u64, u64),
    /// Pi over the number.
    PiOver(u64),
}

/// A unit that may be typed.
#[derive(Debug, Clone, Copy)]
pub struct Unit {
    /// What it measures.
    pub kind: Kind,
    /// How it is printed: `ft²`.
    pub symbol: &'static str,
    /// How it may be typed, in small letters, a raised 2 or 3 as a digit: `ft2`, `sq ft`.
    pub spellings: &'static [&'static str],
    /// Its size in base units.
    pub factor: Factor,
    /// Whose unit it is. Only units of one system stand together in one quantity (`1 m 20 cm`).
    pub system: Option<UnitSystem>,
    /// Whether a comma before three digits groups thousands (`1,500 lb`). With the other units the
    /// comma may as well be a decimal one (`1,500 kg`), and the number is refused.
    pub thousands: bool,
}

const US: Option<UnitSystem> = Some(UnitSystem::Us);
const METRIC: Option<UnitSystem> = Some(UnitSystem::Metric);

const fn row(
    kind: Kind,
    symbol: &'static str,
    spellings: &'static [&'static str],
    factor: Factor,
    system: Option<UnitSystem>,
    thousands: bool,
) -> Unit {
    Unit {
        kind,
        symbol,
        spellings,
        factor,
        system,
        thousands,
    }
}

/// Every unit that may be typed. A density is typed as any mass over any volume (`kg/m3`, `lb/gal`).
///
/// `ton` is the short ton of the United States (2000 lb), `t` and `tonne` the metric one (1000 kg);
/// `gal`, `qt`, `pt`, `cup` and `fl oz` are those of the United States for liquids, and the imperial
/// gallon is only ever `imp gal`. Inches do not group thousands, because a thickness in decimal
/// inches has three decimals.
#[rustfmt::skip]
pub const UNITS: &[Unit] = {
    use Factor::{Exact, PiOver};
    use Kind::{Angle, Area, Length, Mass, MassDensity, Ratio, Time, Volume};
    &[
        row(Length, "mm", &["mm", "millimetre", "millimetres", "millimeter", "millimeters"], Exact(1, 1), METRIC, false),
        row(Length, "cm", &["cm", "centimetre", "centimetres", "centimeter", "centimeters"], Exact(10, 1), METRIC, false),
        row(Length, "m", &["m", "metre", "metres", "meter", "meters"], Exact(1_000, 1), METRIC, false),
        row(Length, "in", &["in", "\"", "inch", "inches", "ins"], Exact(254, 10), US, false),
        row(Length, "ft", &["ft", "'", "foot", "feet"], Exact(3_048, 10), US, true),
        row(Length, "yd", &["yd", "yds", "yard", "yards"], Exact(9_144, 10), US, true),

        row(Area, "mm²", &["mm2", "sq mm", "square millimetre", "square millimetres", "square millimeter", "square millimeters"], Exact(1, 1), METRIC, false),
        row(Area, "cm²", &["cm2", "sq cm", "square centimetre", "square centimetres", "square centimeter", "square centimeters"], Exact(100, 1), METRIC, false),
        row(Area, "m²", &["m2", "sq m", "sqm", "square metre", "square metres", "square meter", "square meters"], Exact(1_000_000, 1), METRIC, false),
        row(Area, "in²", &["in2", "sq in", "square inch", "square inches"], Exact(64_516, 100), US, true),
        row(Area, "ft²", &["ft2", "sq ft", "sqft", "sf", "square foot", "square feet"], Exact(9_290_304, 100), US, true),
        row(Area, "yd²", &["yd2", "sq yd", "sq yds", "sqyd", "sy", "square yard", "square yards"], Exact(83_612_736, 100), US, true),

        row(Volume, "mm³", &["mm3", "cu mm", "cubic millimetre", "cubic millimetres", "cubic millimeter", "cubic millimeters"], Exact(1, 1), METRIC, false),
        row(Volume, "mL", &["ml", "millilitre", "millilitres", "milliliter", "milliliters", "cm3", "cc", "cu cm", "cubic centimetre", "cubic centimetres", "cubic centimeter", "cubic centimeters"], Exact(1_000, 1), METRIC, false),
        row(Volume, "L", &["l", "litre", "litres", "liter", "liters", "ltr", "dm3"], Exact(1_000_000, 1), METRIC, false),
        row(Volume, "m³", &["m3", "cu m", "cum", "cubic metre", "cubic metres", "cubic meter", "cubic meters"], Exact(1_000_000_000, 1), METRIC, false),
        row(Volume, "in³", &["in3", "cu in", "cubic inch", "cubic inches"], Exact(16_387_064, 1_000), US, true),
        row(Volume, "ft³", &["ft3", "cu ft", "cuft", "cf", "cubic foot", "cubic feet"], Exact(28_316_846_592, 1_000), US, true),
        row(Volume, "yd³", &["yd3", "cu yd", "cu yds", "cuyd", "cy", "cubic yard", "cubic yards"], Exact(764_554_857_984, 1_000), US, true),
        row(Volume, "fl oz", &["fl oz", "floz", "fluid ounce", "fluid ounces"], Exact(295_735_295_625, 10_000_000), US, true),
        row(Volume, "cup", &["cup", "cups"], Exact(2_365_882_365, 10_000), US, true),
        row(Volume, "pt", &["pt", "pts", "pint", "pints"], Exact(473_176_473, 1_000), US, true),
        row(Volume, "qt", &["qt", "qts", "quart", "quarts"], Exact(946_352_946, 1_000), US, true),
        row(Volume, "gal", &["gal", "gals", "gallon", "gallons", "us gal", "us gallon", "us gallons"], Exact(3_785_411_784, 1_000), US, true),
        row(Volume, "imp gal", &["imp gal", "imperial gallon", "imperial gallons"], Exact(4_546_090, 1), None, true),

        row(Mass, "g", &["g", "gram", "grams", "gramme", "grammes"], Exact(1, 1_000), METRIC, false),
        row(Mass, "kg", &["kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"], Exact(1, 1), METRIC, false),
        row(Mass, "t", &["t", "tonne", "tonnes", "metric ton", "metric tons"], Exact(1_000, 1), METRIC, false),
        row(Mass, "oz", &["oz", "ounce", "ounces"], Exact(28_349_523_125, 1_000_000_000_000), US, true),
        row(Mass, "lb", &["lb", "lbs", "pound", "pounds"], Exact(45_359_237, 100_000_000), US, true),
        row(Mass, "short ton", &["short ton", "short tons", "ton", "tons", "us ton", "us tons"], Exact(90_718_474, 100_000), US, true),

        row(MassDensity, "pcf", &["pcf"], Exact(45_359_237, 2_831_684_659_200_000), US, true),

        row(Ratio, "%", &["%", "percent", "per cent", "pct"], Exact(1, 100), None, false),

        row(Angle, "°", &["°", "deg", "degs", "degree", "degrees"], PiOver(180), None, false),
        row(Time, "s", &["s", "sec", "secs", "second", "seconds"], Exact(1, 1), METRIC, true),
        row(Time, "min", &["min", "mins", "minute", "minutes"], Exact(60, 1), METRIC, true),
        row(Time, "h", &["h", "hr", "hrs", "hour", "hours"], Exact(3_600, 1), METRIC, true),
        row(Time, "days", &["d", "day", "days"], Exact(86_400, 1), METRIC, true),
        row(Time, "weeks", &["week", "weeks", "wk", "wks"], Exact(604_800, 1), METRIC, true),

        row(Angle, "rad", &["rad", "radian", "radians"], Exact(1, 1), None, false),
    ]
};

/// The most blank-separated words in a spelling of a unit.
pub(super) const MOST_WORDS: usize = 2;

/// The unit of a spelling in small letters with single blanks.
pub(super) fn find(spelling: &str) -> Option<&'static Unit> {
    static BY_SPELLING: LazyLock<HashMap<&str, &Unit>> = LazyLock::new(|| {
        let rows = |unit: &'static Unit| unit.spellings.iter().map(move |s| (*s, unit));
        UNITS.iter().flat_map(rows).collect()
    });
    BY_SPELLING.get(spelling).copied()
}

/// The unit of the wanted kind (for a density: of mass or volume) a mistyped word is nearest to.
///
/// One slip of the finger (a letter wrong, missing, doubled or swapped) in a word of two letters or
/// more, two in a word of six or more.
pub(super) fn nearest(word: &str, wanted: Kind) -> Option<&'static str> {
    let letters = word.chars().count();
    let most = match letters {
        2..=5 => 1,
        6..=24 => 2,
        _ => return None,
    };
    let first = word.chars().next();
    UNITS
        .iter()
        .filter(|unit| match wanted {
            Kind::MassDensity => matches!(unit.kind, Kind::Mass | Kind::Volume | Kind::MassDensity),
            kind => unit.kind == kind,
        })
        .flat_map(|unit| {
            unit.spellings
                .iter()
                .map(move |spelling| (*spelling, unit.symbol))
        })
        .map(|(spelling, symbol)| {
            let slips = strsim::damerau_levenshtein(word, spelling);
            let other_start = spelling.chars().next() != first;
            let other_length = spelling.chars().count().abs_diff(letters);
            ((slips, other_start, other_length), symbol)
        })
        .filter(|((slips, ..), _)| *slips <= most)
        .min_by_key(|(rank, _)| *rank)
        .map(|(_, symbol)| symbol)
}

/// The symbols of the units of a kind, for a message: `mm, cm, m, in, ft or yd`.
///
/// ```
/// use hodful_quantities::read::{Kind, known_units};
/// assert_eq!(known_units(Kind::Length), "mm, cm, m, in, ft or yd");
/// ```
pub fn known_units(kind: Kind) -> String {
    let symbols: Vec<_> = UNITS
        .iter()
        .filter(|unit| unit.kind == kind)
        .map(|unit| unit.symbol)
        .collect();
    match symbols.split_last() {
        Some((last, [])) => (*last).to_owned(),
        Some((last, others)) => format!("{} or {last}", others.join(", ")),
        None => String::new(),
    }
}
