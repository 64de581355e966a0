//! Every unit of the table and some hundred made-up spellings, as lines of JSON: what was typed, what
//! was read in base units (mm, mm², mm³, kg, kg/mm³, rad, s), and the same thing in words of plain
//! arithmetic and unit names, for another units library to work out. Read by
//! `tests/crosscheck/units.py`. Not here: any judgement of the values.
//!
//! `cargo run -p hodful-quantities --example unit_table`

use hodful_quantities::read::{Kind, UNITS};
use hodful_quantities::units::{Angle, Area, Length, Mass, MassDensity, Ratio, Time, Volume};
use hodful_quantities::{Measure, Misread};
use std::io::{self, Write};

fn main() -> io::Result<()> {
    let mut out = io::BufWriter::new(io::stdout().lock());
    let mut cases = units();
    cases.extend(densities());
    let mut random = Random(20_240_229);
    for _ in 0..60 {
        let numbers = Numbers::new(&mut random);
        cases.extend(compound_lengths(&numbers));
        cases.extend(compound_others(&numbers));
    }
    for case in cases {
        let value = read(case.kind, &case.text).map_err(io::Error::other)?;
        writeln!(
            out,
            "{{\"kind\":\"{}\",\"text\":{},\"plain\":{},\"value\":{value:e}}}",
            name(case.kind),
            quoted(&case.text),
            quoted(&case.plain),
        )?;
    }
    out.flush()
}

/// What is typed, and the same in plain arithmetic with the other library's names of units.
struct Case {
    kind: Kind,
    text: String,
    plain: String,
}

fn case(kind: Kind, text: String, plain: String) -> Case {
    Case { kind, text, plain }
}

fn read(kind: Kind, text: &str) -> Result<f64, Misread> {
    Ok(match kind {
        Kind::Length => Length::read(text)?.value,
        Kind::Area => Area::read(text)?.value,
        Kind::Volume => Volume::read(text)?.value,
        Kind::Mass => Mass::read(text)?.value,
        Kind::MassDensity => MassDensity::read(text)?.value,
        Kind::Angle => Angle::read(text)?.value,
        Kind::Time => Time::read(text)?.value,
        _ => Ratio::read(text)?.value,
    })
}

fn name(kind: Kind) -> &'static str {
    match kind {
        Kind::Length => "length",
        Kind::Area => "area",
        Kind::Volume => "volume",
        Kind::Mass => "mass",
        Kind::MassDensity => "density",
        Kind::Angle => "angle",
        Kind::Time => "time",
        _ => "ratio",
    }
}

/// The full name of a unit, by its symbol.
fn full_name(symbol: &str) -> &'static str {
    match symbol {
        "mm" => "millimeter",
        "cm" => "centimeter",
        "m" => "meter",
        "in" => "inch",
        "ft" => "foot",
        "yd" => "yard",
        "mm²" => "millimeter**2",
        "cm²" => "centimeter**2",
        "m²" => "meter**2",
        "in²" => "inch**2",
        "ft²" => "foot**2",
        "yd²" => "yard**2",
        "mm³" => "millimeter**3",
        "mL" => "milliliter",
        "L" => "liter",
        "m³" => "meter**3",
        "in³" => "inch**3",
        "ft³" => "foot**3",
        "yd³" => "yard**3",
        "fl oz" => "fluid_ounce",
        "cup" => "cup",
        "pt" => "pint",
        "qt" => "quart",
        "gal" => "gallon",
        "imp gal" => "imperial_gallon",
        "g" => "gram",
        "kg" => "kilogram",
        "t" => "metric_ton",
        "oz" => "ounce",
        "lb" => "pound",
        "short ton" => "short_ton",
        "pcf" => "pound / foot**3",
        "%" => "percent",
        "°" => "degree",
        "rad" => "radian",
        "s" => "second",
        "min" => "minute",
        "h" => "hour",
        "days" => "day",
        "weeks" => "week",
        // A unit added to the table and not here is a name that the other library does not know.
        _ => "unit_without_a_full_name",
    }
}

/// One of every unit, in every spelling.
fn units() -> Vec<Case> {
    let spellings = |unit: &'static hodful_quantities::read::Unit| {
        let plain = format!("1 * {}", full_name(unit.symbol));
        let all = unit.spellings.iter().copied().chain([unit.symbol]);
        all.map(move |spelling| case(unit.kind, format!("1 {spelling}"), plain.clone()))
    };
    UNITS.iter().flat_map(spellings).collect()
}

/// Every mass over every volume.
fn densities() -> Vec<Case> {
    let of = |kind| UNITS.iter().filter(move |unit| unit.kind == kind);
    of(Kind::Mass)
        .flat_map(|mass| of(Kind::Volume).map(move |volume| (mass, volume)))
        .map(|(mass, volume)| {
            let text = format!("7.25 {}/{}", mass.symbol, volume.symbol);
            let plain = format!(
                "7.25 * {} / ({})",
                full_name(mass.symbol),
                full_name(volume.symbol)
            );
            case(Kind::MassDensity, text, plain)
        })
        .collect()
}

/// Numbers to make spellings of.
struct Numbers {
    feet: u64,
    more_feet: u64,
    inches: u64,
    over: u64,
    under: u64,
    count: u64,
    metres: u64,
    centimetres: u64,
    hundredths: u64,
    lb: u64,
    oz: u64,
    litres: u64,
    degrees: u64,
}

impl Numbers {
    fn new(random: &mut Random) -> Self {
        let mut below = |most: u64| 1 + random.below(most - 1);
        let under = 1 << below(6);
        Self {
            feet: below(400),
            more_feet: below(90),
            inches: below(12),
            over: below(64) % under,
            under,
            count: below(9),
            metres: below(90),
            centimetres: below(100),
            hundredths: below(100),
            lb: below(900),
            oz: below(16),
            litres: below(900),
            degrees: below(360),
        }
    }
}

/// One of each shape of compound length.
fn compound_lengths(numbers: &Numbers) -> Vec<Case> {
    use Kind::Length;
    let Numbers {
        feet,
        inches,
        over,
        under,
        count,
        metres,
        centimetres,
        hundredths,
        ..
    } = numbers;
    let inch = format!("({inches} + {over}/{under}) * inch");
    vec![
        case(
            Length,
            format!("{feet}' {inches} {over}/{under}\""),
            format!("{feet} * foot + {inch}"),
        ),
        case(
            Length,
            format!("{feet}'-{inches} {over}/{under}"),
            format!("{feet} * foot + {inch}"),
        ),
        case(
            Length,
            format!("{feet} ft {inches} {over}/{under} in"),
            format!("{feet} * foot + {inch}"),
        ),
        case(
            Length,
            format!("{feet}-{inches}.5"),
            format!("{feet} * foot + {inches}.5 * inch"),
        ),
        case(
            Length,
            format!("{metres},{hundredths:02} m"),
            format!("{metres}.{hundredths:02} * meter"),
        ),
        case(
            Length,
            format!("{metres} m {centimetres} cm"),
            format!("{metres} * meter + {centimetres} * centimeter"),
        ),
        case(
            Length,
            format!("{count}*{feet}' + {inches} {over}/{under}\""),
            format!("{count} * {feet} * foot + {inch}"),
        ),
        case(
            Length,
            format!("({metres} m + {centimetres} cm)/{count}"),
            format!("({metres} * meter + {centimetres} * centimeter) / {count}"),
        ),
        case(
            Length,
            format!("{feet} yd - {count}*{inches} in"),
            format!("{feet} * yard - {count} * {inches} * inch"),
        ),
    ]
}

/// One of each shape of compound quantity of the other kinds.
fn compound_others(numbers: &Numbers) -> Vec<Case> {
    use Kind::{Angle, Area, Mass, MassDensity, Ratio, Volume};
    let Numbers {
        feet,
        more_feet,
        inches,
        over,
        under,
        count,
        ..
    } = numbers;
    let Numbers {
        metres,
        centimetres,
        hundredths,
        lb,
        oz,
        litres,
        degrees,
        ..
    } = numbers;
    vec![
        case(
            Area,
            format!("{feet}' {inches}\" x {more_feet}'"),
            format!("({feet} * foot + {inches} * inch) * ({more_feet} * foot)"),
        ),
        case(
            Area,
            format!("{metres}.{hundredths:02} m2 + {count} sq yd"),
            format!("{metres}.{hundredths:02} * meter**2 + {count} * yard**2"),
        ),
        case(
            Volume,
            format!("{feet}' * {more_feet}' * ({over}.5 in / {under})"),
            format!("{feet} * foot * {more_feet} * foot * ({over}.5 * inch / {under})"),
        ),
        case(
            Volume,
            format!("{lb} gal 3 qt + {litres} L"),
            format!("{lb} * gallon + 3 * quart + {litres} * liter"),
        ),
        case(
            Mass,
            format!("{lb} lb {oz} oz"),
            format!("{lb} * pound + {oz} * ounce"),
        ),
        case(
            Mass,
            format!("{lb} lb/yd3 * {metres}.{hundredths:02} m3"),
            format!("{lb} * pound / yard**3 * ({metres}.{hundredths:02} * meter**3)"),
        ),
        case(
            MassDensity,
            format!("{lb} lb / {litres} L"),
            format!("{lb} * pound / ({litres} * liter)"),
        ),
        case(
            Ratio,
            format!("{oz} lb / {litres} kg"),
            format!("{oz} * pound / ({litres} * kilogram)"),
        ),
        case(
            Ratio,
            format!("{centimetres}.{hundredths:02} %"),
            format!("{centimetres}.{hundredths:02} * percent"),
        ),
        case(
            Angle,
            format!("{degrees}.{hundredths:02}°"),
            format!("{degrees}.{hundredths:02} * degree"),
        ),
    ]
}

/// `SplitMix64` (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014, from
/// memory): the same numbers on every machine.
struct Random(u64);

impl Random {
    /// A number from 0 to below `most`.
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (z ^ (z >> 31)) % most.max(1)
    }
}

/// A JSON string; the texts here have quotation marks and nothing else to escape.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}
