//! Published figures, one a line, each with its source and how it was read. Nothing here comes from this program.
//! Not here: properties that hold for every soil (see `properties.rs`).

#![allow(
    missing_docs,
    clippy::unwrap_used,
    reason = "the helpers of a test are part of the test"
)]

use hodful_quantities::units::{
    Celsius, Length, MassDensity, Time, hour, kilogram_per_cubic_meter, length_of_mm as mm, minute,
    percent, second, volume_of_mm3,
};
use hodful_soils::field::Reading;
use hodful_soils::grading::{Grading, talbot};
use hodful_soils::heap::{self, HeapFactors, State};
use hodful_soils::jar::SETTLED_MASS;
use hodful_soils::settling::{Settling, viscosity, water_density};
use hodful_soils::sizes::System;
use hodful_soils::texture::{Class, classify};
use hodful_soils::{bulking, jar};

/// How a figure was come by.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Read {
    /// In the source itself, or in a page that reports it.
    InPage,
    /// From memory.
    FromMemory,
    /// Worked out by hand from published constants, outside this program.
    WorkedOut,
}
use Read::{FromMemory, InPage, WorkedOut};

struct Figure {
    what: &'static str,
    source: &'static str,
    read: Read,
    expected: f64,
    within: f64,
    ours: fn() -> f64,
}

const SSM: &str = "Soil Survey Manual, ch. 3: the rules of the twelve classes";
const TEXTBOOK: &str = "textbook examples of the texture triangle";

/// Sand, silt, clay in percent, class, source, how read. The first eight stand on lines between classes.
const CLASSES: [([f64; 3], &str, &str, Read); 17] = [
    // Also the soil of Taylor, Vardy and MacDougall, Queen's University, 2006.
    ([4.0, 69.0, 27.0], "silty clay loam", SSM, InPage),
    ([85.0, 15.0, 0.0], "loamy sand", SSM, InPage),
    ([86.0, 14.0, 0.0], "sand", SSM, InPage),
    ([70.0, 15.0, 15.0], "sandy loam", SSM, InPage),
    ([52.0, 28.0, 20.0], "loam", SSM, InPage),
    ([45.0, 28.0, 27.0], "clay loam", SSM, InPage),
    ([20.0, 40.0, 40.0], "silty clay", SSM, InPage),
    ([43.0, 50.0, 7.0], "silt loam", SSM, InPage),
    ([70.0, 30.0, 0.0], "sandy loam", SSM, InPage),
    ([20.0, 80.0, 0.0], "silt", SSM, InPage),
    ([45.0, 15.0, 40.0], "clay", SSM, InPage),
    ([80.0, 0.0, 20.0], "sandy clay loam", SSM, InPage),
    ([65.0, 0.0, 35.0], "sandy clay", SSM, InPage),
    ([40.0, 40.0, 20.0], "loam", TEXTBOOK, FromMemory),
    ([35.0, 30.0, 35.0], "clay loam", TEXTBOOK, FromMemory),
    ([60.0, 30.0, 10.0], "sandy loam", TEXTBOOK, FromMemory),
    ([20.0, 60.0, 20.0], "silt loam", TEXTBOOK, FromMemory),
];

#[test]
fn published_soils_have_their_class() {
    for (shares, name, source, read) in CLASSES {
        let [sand, silt, clay] = shares.map(|share| share / 100.0);
        let ours = classify(sand, silt, clay).map(Class::name);
        assert_eq!(ours, Some(name), "{shares:?} ({source}, {read:?})");
    }
}

fn soil(celsius: f64) -> Settling {
    Settling::of_soil(Celsius(celsius)).unwrap()
}

fn hours(celsius: f64) -> f64 {
    let time = soil(celsius).time(mm(100.0), mm(0.002)).unwrap();
    time.get::<hour>()
}

/// Micrometres that a mark in 100 mm of water at 20 °C parts.
fn parted(after: Time) -> f64 {
    soil(20.0).diameter(mm(100.0), after).unwrap().value * 1000.0
}

/// With grains of 2600 kg/m³, as the pipette tables have it.
fn pipette(diameter: Length) -> Time {
    let grains = MassDensity::new::<kilogram_per_cubic_meter>(2600.0);
    let settling = Settling::new(Celsius(20.0), grains).unwrap();
    settling.time(mm(100.0), diameter).unwrap()
}

fn das() -> Grading {
    Grading::new([(mm(0.3), 0.1), (mm(0.41), 0.3), (mm(0.77), 0.6)]).unwrap()
}

fn load_factor(soil: usize) -> f64 {
    let row = heap::PUBLISHED[soil];
    HeapFactors::new(row.swell, 0.0).unwrap().load_factor()
}

/// By the rows of FM 5-434: swell and shrink alone, against the rest of its table.
fn field_manual(swell: f64, shrink: f64, from: State, to: State) -> f64 {
    let factors = HeapFactors::new(swell, shrink).unwrap();
    factors.convert(volume_of_mm3(1.0), from, to).value
}

fn thread(thickness: f64) -> (f64, f64) {
    let suggests = Reading::Thread(mm(thickness)).suggests().unwrap();
    suggests.clay.unwrap()
}

fn density_line(opening: f64) -> f64 {
    talbot(mm(opening), mm(19.0), 0.45).unwrap() * 100.0
}

const fn figure(
    what: &'static str,
    source: &'static str,
    read: Read,
    (expected, within): (f64, f64),
    ours: fn() -> f64,
) -> Figure {
    Figure {
        what,
        source,
        read,
        expected,
        within,
        ours,
    }
}

const WATER: &str = "CRC Handbook and IAPWS tables of water at atmospheric pressure";
const STOKES: &str = "Stokes' law with grains 2650, water 998.2 kg/m³ and 1.002 mPa·s; g 9.81 m/s²";
const STOKES_AT: &str = "Stokes' law with grains 2650 kg/m³, g 9.80665 m/s², and water of a public library of the IAPWS formulations";
const PIPETTE: &str =
    "International pipette method (Robinson; Piper, Soil and Plant Analysis, 1942)";
const HANDBOOK: &str = "handbook table of swell and load factors, two reprints";
const FM: &str = "US Army FM 5-434, table 1-1";
const LAG: &str = "Berge, The Ecology of Building Materials, table 8.4, after Låg 1979";
const DAS: &str = "Das, Principles of Geotechnical Engineering, 9th ed., problem 2.2";
const LINE: &str =
    "maximum density line of asphalt pavement manuals, n = 0.45, largest grain 19 mm";

#[rustfmt::skip]
fn figures() -> Vec<Figure> {
    vec![
        // Water.
        figure("viscosity at 0 °C, mPa·s", WATER, FromMemory, (1.7916, 0.0005), || viscosity(Celsius(0.0)).unwrap()),
        figure("viscosity at 10 °C", WATER, FromMemory, (1.3059, 0.0001), || viscosity(Celsius(10.0)).unwrap()),
        figure("viscosity at 15 °C", WATER, FromMemory, (1.1375, 0.0001), || viscosity(Celsius(15.0)).unwrap()),
        figure("viscosity at 20 °C", WATER, FromMemory, (1.0016, 0.0001), || viscosity(Celsius(20.0)).unwrap()),
        figure("viscosity at 25 °C", WATER, FromMemory, (0.8900, 0.0001), || viscosity(Celsius(25.0)).unwrap()),
        figure("viscosity at 30 °C", WATER, FromMemory, (0.7972, 0.0001), || viscosity(Celsius(30.0)).unwrap()),
        figure("viscosity at 40 °C", WATER, FromMemory, (0.6527, 0.0001), || viscosity(Celsius(40.0)).unwrap()),
        figure("density at 0 °C, kg/m³", WATER, FromMemory, (999.84, 0.01), || water_density(Celsius(0.0)).unwrap()),
        figure("density at 4 °C", WATER, FromMemory, (999.97, 0.01), || water_density(Celsius(4.0)).unwrap()),
        figure("density at 10 °C", WATER, FromMemory, (999.70, 0.01), || water_density(Celsius(10.0)).unwrap()),
        figure("density at 15 °C", WATER, FromMemory, (999.10, 0.01), || water_density(Celsius(15.0)).unwrap()),
        figure("density at 20 °C", WATER, FromMemory, (998.21, 0.01), || water_density(Celsius(20.0)).unwrap()),
        figure("density at 25 °C", WATER, FromMemory, (997.05, 0.01), || water_density(Celsius(25.0)).unwrap()),
        figure("density at 30 °C", WATER, FromMemory, (995.65, 0.01), || water_density(Celsius(30.0)).unwrap()),
        figure("density at 35 °C", WATER, FromMemory, (994.03, 0.01), || water_density(Celsius(35.0)).unwrap()),
        figure("density at 40 °C", WATER, FromMemory, (992.22, 0.01), || water_density(Celsius(40.0)).unwrap()),
        // Settling.
        figure("63 µm, mm/s", STOKES, WorkedOut, (3.565, 0.005), || soil(20.0).velocity(mm(0.063)).unwrap()),
        figure("50 µm, mm/s", STOKES, WorkedOut, (2.245, 0.003), || soil(20.0).velocity(mm(0.05)).unwrap()),
        figure("20 µm, mm/s", STOKES, WorkedOut, (0.359, 0.001), || soil(20.0).velocity(mm(0.02)).unwrap()),
        figure("2 µm, mm/s", STOKES, WorkedOut, (0.003_59, 0.000_01), || soil(20.0).velocity(mm(0.002)).unwrap()),
        figure("2 µm through 100 mm at 10 °C, h", STOKES_AT, WorkedOut, (10.09, 0.01), || hours(10.0)),
        figure("2 µm through 100 mm at 15 °C, h", STOKES_AT, WorkedOut, (8.78, 0.01), || hours(15.0)),
        figure("2 µm through 100 mm at 20 °C, h", STOKES, WorkedOut, (7.73, 0.01), || hours(20.0)),
        figure("2 µm through 100 mm at 25 °C, h", STOKES_AT, WorkedOut, (6.86, 0.01), || hours(25.0)),
        figure("2 µm through 100 mm at 30 °C, h", STOKES_AT, WorkedOut, (6.14, 0.01), || hours(30.0)),
        figure("parted after 1 min, µm", STOKES, WorkedOut, (43.0, 0.5), || parted(Time::new::<minute>(1.0))),
        figure("parted after 2 h, µm", STOKES, WorkedOut, (3.9, 0.05), || parted(Time::new::<hour>(2.0))),
        figure("parted after 6 h, µm", STOKES, WorkedOut, (2.3, 0.05), || parted(Time::new::<hour>(6.0))),
        figure("pipette at 100 mm for 2 µm, h", PIPETTE, FromMemory, (8.0, 0.1), || pipette(mm(0.002)).get::<hour>()),
        figure("pipette at 100 mm for 20 µm, s", PIPETTE, FromMemory, (288.0, 3.0), || pipette(mm(0.02)).get::<second>()),
        figure("pipette at 100 mm for 2 µm, grains 2650, h (7:45 to 8:09 by density)",
            "Gee and Bauder, Methods of Soil Analysis, part 1, ch. 15, 1986", FromMemory,
            (7.95, 0.25), || hours(20.0)),
        figure("small pipette at 25 mm, h (about 2)",
            "Miller and Miller, A micro-pipette method for soil mechanical analysis, 1987 (abstract)", InPage,
            (2.0, 0.15), || soil(20.0).time(mm(25.0), mm(0.002)).unwrap().get::<hour>()),
        figure("sand mark in 100 mm, ISO, s", STOKES, WorkedOut, (28.1, 0.1),
            || jar::marks(mm(100.0), Celsius(20.0), System::Iso).unwrap().sand.get::<second>()),
        figure("sand mark in 100 mm, USDA, s", STOKES, WorkedOut, (44.5, 0.1),
            || jar::marks(mm(100.0), Celsius(20.0), System::Usda).unwrap().sand.get::<second>()),
        // Settled mass: Lara and Pemberton print pounds per cubic foot; 1 lb/ft³ is 16.0185 kg/m³.
        figure("settled sand, lb/ft³", "Lara and Pemberton 1963", FromMemory, (97.0, 0.05), || SETTLED_MASS[0] / 16.0185),
        figure("settled silt, lb/ft³", "Lara and Pemberton 1963", FromMemory, (70.0, 0.05), || SETTLED_MASS[1] / 16.0185),
        figure("settled clay, lb/ft³", "Lara and Pemberton 1963", FromMemory, (26.0, 0.05), || SETTLED_MASS[2] / 16.0185),
        // Sizes, mm.
        figure("USDA silt", "Soil Survey Manual, ch. 3", InPage, (0.05, 0.0), || System::Usda.limits().silt.value),
        figure("USDA sand", "Soil Survey Manual, ch. 3", InPage, (2.0, 0.0), || System::Usda.limits().sand.value),
        figure("USDA clay", "Soil Survey Manual, ch. 3", InPage, (0.002, 0.0), || System::Usda.limits().clay.value),
        figure("ISO silt", "ISO 14688-1", InPage, (0.063, 0.0), || System::Iso.limits().silt.value),
        figure("ISO sand", "ISO 14688-1", InPage, (2.0, 0.0), || System::Iso.limits().sand.value),
        figure("ISO gravel", "ISO 14688-1", InPage, (63.0, 0.0), || System::Iso.limits().gravel.value),
        figure("ASTM fines", "ASTM D2487", InPage, (0.075, 0.0), || System::Astm.limits().silt.value),
        figure("ASTM sand", "ASTM D2487", InPage, (4.75, 0.0), || System::Astm.limits().sand.value),
        // Curves.
        figure("coefficient of uniformity", DAS, InPage, (2.57, 0.005), || das().uniformity().unwrap()),
        figure("coefficient of curvature: 0.41² / (0.77 · 0.3)", DAS, WorkedOut, (0.728, 0.0005), || das().curvature().unwrap()),
        figure("12.5 mm, % passing", LINE, FromMemory, (82.8, 0.1), || density_line(12.5)),
        figure("9.5 mm, % passing", LINE, FromMemory, (73.2, 0.1), || density_line(9.5)),
        figure("4.75 mm, % passing", LINE, FromMemory, (53.6, 0.1), || density_line(4.75)),
        figure("2.36 mm, % passing", LINE, FromMemory, (39.1, 0.1), || density_line(2.36)),
        // Bulking, %.
        figure("200 mm flooded to 160", "CPWD Specifications, appendix D", InPage, (25.0, 1e-9),
            || bulking::of_jar(mm(200.0), mm(160.0)).unwrap().get::<percent>()),
        figure("1000 cm³ dried to 720", "Sabin, Cement and Concrete, art. 262", InPage, (38.9, 0.05),
            || bulking::of_jar(mm(1000.0), mm(720.0)).unwrap().get::<percent>()),
        figure("the same by its voids, 54.5 and 67.2 %", "Sabin, Cement and Concrete, art. 262", InPage, (38.9, 0.3),
            || bulking::of_voids(0.545, 0.672).unwrap().get::<percent>()),
        // Earth dug and packed. 1 / 1.40 is 0.714, printed 0.72.
        figure("load factor of clay", HANDBOOK, InPage, (0.72, 0.006), || load_factor(0)),
        figure("load factor of earth or loam", HANDBOOK, InPage, (0.80, 0.005), || load_factor(1)),
        figure("load factor of sand or gravel", HANDBOOK, InPage, (0.89, 0.005), || load_factor(2)),
        figure("load factor of hardpan", HANDBOOK, InPage, (0.67, 0.005), || load_factor(3)),
        figure("sand, loose to compacted", FM, FromMemory, (0.86, 0.006), || field_manual(0.11, 0.05, State::Loose, State::Compacted)),
        figure("loam, loose to compacted", FM, FromMemory, (0.72, 0.005), || field_manual(0.25, 0.10, State::Loose, State::Compacted)),
        figure("clay, loose to compacted", FM, FromMemory, (0.63, 0.005), || field_manual(0.43, 0.10, State::Loose, State::Compacted)),
        figure("sand, compacted to bank", FM, FromMemory, (1.05, 0.005), || field_manual(0.11, 0.05, State::Compacted, State::Bank)),
        figure("loam, compacted to loose", FM, FromMemory, (1.39, 0.005), || field_manual(0.25, 0.10, State::Compacted, State::Loose)),
        figure("clay, compacted to loose", FM, FromMemory, (1.59, 0.005), || field_manual(0.43, 0.10, State::Compacted, State::Loose)),
        figure("clay, loose to bank", FM, FromMemory, (0.70, 0.005), || field_manual(0.43, 0.10, State::Loose, State::Bank)),
        // Threads, share of clay.
        figure("6 mm, least", LAG, InPage, (0.02, 0.0), || thread(6.0).0),
        figure("6 mm, most", LAG, InPage, (0.05, 0.0), || thread(6.0).1),
        figure("3 mm, least", LAG, InPage, (0.05, 0.0), || thread(3.0).0),
        figure("3 mm, most", LAG, InPage, (0.15, 0.0), || thread(3.0).1),
        figure("2 mm, most", LAG, InPage, (0.25, 0.0), || thread(2.0).1),
        figure("1.5 mm, least", LAG, InPage, (0.25, 0.0), || thread(1.5).0),
        figure("1.5 mm, most", LAG, InPage, (0.40, 0.0), || thread(1.5).1),
        figure("1 mm, most", LAG, InPage, (0.60, 0.0), || thread(1.0).1),
        figure("under 1 mm, least", LAG, InPage, (0.60, 0.0), || thread(0.9).0),
    ]
}

#[test]
fn published_figures_are_met() {
    let missed: Vec<String> = figures()
        .iter()
        .filter_map(|figure| {
            let ours = (figure.ours)();
            // Written so that what is not a number fails as well.
            let met = (ours - figure.expected).abs() <= figure.within;
            (!met).then(|| {
                format!(
                    "{}: {ours}, published {} ± {} ({}, {:?})",
                    figure.what, figure.expected, figure.within, figure.source, figure.read
                )
            })
        })
        .collect();
    assert!(missed.is_empty(), "{}", missed.join("\n"));
}

/// Load factors printed beside a swell in the offered table are those of that swell, to their two digits.
#[test]
fn offered_factors_agree_with_themselves() {
    for row in heap::PUBLISHED {
        let ours = HeapFactors::new(row.swell, row.shrink.unwrap_or(0.0)).unwrap();
        if let Some(printed) = row.load_factor {
            assert!((ours.load_factor() - printed).abs() < 0.006, "{row:?}");
        }
    }
}
