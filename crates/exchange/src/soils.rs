//! What is known of the soils of a project, and when to mark a jar. Not here: computing it, and what the hand
//! says in words, which is handed in.

use crate::tolerance::SAME_SHARE;
use crate::write::plain_text;
use hodful_quantities::Typed;
use hodful_quantities::units::{Celsius, Length, Ratio, Time, meter, millimeter, ratio, second};
use hodful_takeoff::Assessed;
use hodful_takeoff::project::{HandTests, Material, Soil};
use hodful_takeoff::soil::{self, SoilFigures, Way};
use serde::Serialize;

/// The soils of a project.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SoilsReport {
    /// `hodful-soils`.
    pub format: &'static str,
    /// Version of this format.
    pub version: u32,
    /// What the project is called.
    pub project: String,
    /// Every material of which a test is there.
    pub soils: Vec<SoilRow>,
}

/// One soil.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SoilRow {
    /// The material.
    pub material: String,
    /// Its kind.
    pub kind: &'static str,
    /// The system that its sizes are named by.
    pub system: &'static str,
    /// Clay as typed, share of dry mass; it stands before the tests.
    pub clay_typed: Option<f64>,
    /// The tests, the surest first: that one is gone by.
    pub tests: Vec<TestRow>,
    /// What goes into mixes by the surest test, past the screen; nothing where that is what was tested.
    pub past_screen: Option<GrainsRow>,
    /// The jar, when there is one.
    pub jar: Option<JarRow>,
    /// What the hand suggests.
    pub hand: Vec<HandRow>,
}

/// What one test says: shares of dry mass.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct TestRow {
    pub way: &'static str,
    pub gravel: KnownRow,
    pub sand: KnownRow,
    pub silt: KnownRow,
    pub clay: KnownRow,
    pub class: Option<&'static str>,
    pub may_be: Vec<&'static str>,
    pub uniformity: Option<f64>,
    pub curvature: Option<f64>,
}

/// Best guesses, shares of dry mass.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct GrainsRow {
    pub gravel: f64,
    pub sand: f64,
    pub silt: f64,
    pub clay: f64,
}

/// A share within bounds.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct KnownRow {
    /// The best guess, when there is one.
    pub best: Option<f64>,
    /// Not less.
    pub least: f64,
    /// Not more.
    pub most: f64,
}

/// A jar: what its marks part, and when they should be made.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct JarRow {
    pub sand_mark_parts_mm: f64,
    pub silt_mark_parts_mm: f64,
    pub mark_sand_after_s: Option<f64>,
    pub mark_silt_after_s: Option<f64>,
    pub notes: Vec<String>,
}

/// One reading of the hand.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HandRow {
    /// The test.
    pub test: &'static str,
    /// What it suggests, in words.
    pub suggests: String,
    /// Clay from, share of dry mass, when the source gives figures.
    pub clay_least: Option<f64>,
    /// Clay to.
    pub clay_most: Option<f64>,
    /// Where it is published.
    pub source: &'static str,
    /// How far the source can be relied on.
    pub how_sure: &'static str,
}

/// One line of the CSV: a test of a soil.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct SoilLine {
    pub material: String,
    pub kind: &'static str,
    pub system: &'static str,
    pub way: &'static str,
    pub gravel: Option<f64>,
    pub sand: Option<f64>,
    pub silt: Option<f64>,
    pub clay: Option<f64>,
    pub gravel_least: Option<f64>,
    pub gravel_most: Option<f64>,
    pub sand_least: Option<f64>,
    pub sand_most: Option<f64>,
    pub silt_least: Option<f64>,
    pub silt_most: Option<f64>,
    pub clay_least: Option<f64>,
    pub clay_most: Option<f64>,
    pub class: &'static str,
    pub may_be: String,
    pub uniformity: Option<f64>,
    pub curvature: Option<f64>,
}

impl SoilsReport {
    /// The lines of the CSV; a soil that only the hand knows has one without figures.
    pub fn lines(&self) -> Vec<SoilLine> {
        let lines = self.soils.iter().flat_map(|soil| {
            let tests: Vec<Option<&TestRow>> = if soil.tests.is_empty() {
                vec![None]
            } else {
                soil.tests.iter().map(Some).collect()
            };
            tests.into_iter().map(|test| line(soil, test))
        });
        lines.collect()
    }
}

fn line(soil: &SoilRow, test: Option<&TestRow>) -> SoilLine {
    let best = |pick: fn(&TestRow) -> KnownRow| test.and_then(|test| pick(test).best);
    let least = |pick: fn(&TestRow) -> KnownRow| test.map(|test| pick(test).least);
    let most = |pick: fn(&TestRow) -> KnownRow| test.map(|test| pick(test).most);
    SoilLine {
        material: plain_text(&soil.material),
        kind: soil.kind,
        system: soil.system,
        way: test.map_or("hand", |test| test.way),
        gravel: best(|t| t.gravel),
        sand: best(|t| t.sand),
        silt: best(|t| t.silt),
        clay: best(|t| t.clay),
        gravel_least: least(|t| t.gravel),
        gravel_most: most(|t| t.gravel),
        sand_least: least(|t| t.sand),
        sand_most: most(|t| t.sand),
        silt_least: least(|t| t.silt),
        silt_most: most(|t| t.silt),
        clay_least: least(|t| t.clay),
        clay_most: most(|t| t.clay),
        class: test.and_then(|test| test.class).unwrap_or_default(),
        may_be: test.map_or_else(String::new, |test| test.may_be.join("; ")),
        uniformity: test.and_then(|test| test.uniformity),
        curvature: test.and_then(|test| test.curvature),
    }
}

/// The soils of an assessed project. `hand` puts what the hand says into words.
pub fn soils(of: &Assessed<'_>, hand: impl Fn(&HandTests) -> Vec<HandRow>) -> SoilsReport {
    let soils = of.project.materials.iter().filter_map(|(name, material)| {
        let soil = material.soil.as_deref()?;
        let tests = soil.ways();
        let tests = tests.filter_map(|way| Some(test(way, &soil::by(material, soil, way).ok()?)));
        Some(SoilRow {
            material: name.to_string(),
            kind: material.kind.word(),
            system: soil.sizes().word(),
            clay_typed: material.clay.as_ref().map(share),
            tests: tests.collect(),
            past_screen: past_screen(material),
            jar: jar(material, soil),
            hand: soil.hand.as_ref().map(&hand).unwrap_or_default(),
        })
    });
    SoilsReport {
        format: "hodful-soils",
        version: 1,
        project: of.project.name.to_string(),
        soils: soils.collect(),
    }
}

fn share(of: &Typed<Ratio>) -> f64 {
    of.value().get::<ratio>()
}

#[allow(
    clippy::redundant_closure_for_method_calls,
    reason = "the types of these methods are of a crate that this one does not depend on"
)]
fn test(way: Way, figures: &SoilFigures) -> TestRow {
    let shares = &figures.shares;
    let known = |best, least, most| KnownRow { best, least, most };
    let (gravel, sand) = (shares.gravel(), shares.sand());
    let (silt, clay) = (shares.silt(), shares.clay());
    TestRow {
        way: way.words(),
        gravel: known(gravel.best(), gravel.least(), gravel.most()),
        sand: known(sand.best(), sand.least(), sand.most()),
        silt: known(silt.best(), silt.least(), silt.most()),
        clay: known(clay.best(), clay.least(), clay.most()),
        class: figures.class.map(|class| class.name()),
        may_be: figures.classes.iter().map(|class| class.name()).collect(),
        uniformity: figures.grading.as_ref().and_then(|g| g.uniformity()),
        curvature: figures.grading.as_ref().and_then(|g| g.curvature()),
    }
}

/// What goes into mixes, where the screen makes it another than what was tested.
#[allow(
    clippy::redundant_closure_for_method_calls,
    reason = "the types of these methods are of a crate that this one does not depend on"
)]
fn past_screen(material: &Material) -> Option<GrainsRow> {
    let figures = soil::figures(material)?.ok()?;
    let used = figures.used.fractions?;
    let row = |[gravel, sand, silt, clay]: [f64; 4]| GrainsRow {
        gravel,
        sand,
        silt,
        clay,
    };
    let past = row([used.gravel(), used.sand(), used.silt(), used.clay()]);
    let tested = figures.shares.best();
    let tested = tested.map(|of| row([of.gravel(), of.sand(), of.silt(), of.clay()]));
    let is_other = tested.is_none_or(|tested| {
        let apart = |pick: fn(&GrainsRow) -> f64| (pick(&past) - pick(&tested)).abs();
        let apart = [
            apart(|of| of.gravel),
            apart(|of| of.sand),
            apart(|of| of.silt),
            apart(|of| of.clay),
        ];
        apart.iter().any(|apart| *apart > SAME_SHARE)
    });
    is_other.then_some(past)
}

fn jar(material: &Material, of: &Soil) -> Option<JarRow> {
    of.jar.as_ref()?;
    let reading = soil::by(material, of, Way::Jar).ok()?.jar?;
    let marks = soil::marks(of);
    Some(JarRow {
        sand_mark_parts_mm: reading.cuts.sand.get::<millimeter>(),
        silt_mark_parts_mm: reading.cuts.silt.get::<millimeter>(),
        mark_sand_after_s: marks.map(|marks| marks.sand.get::<second>()),
        mark_silt_after_s: marks.map(|marks| marks.silt.get::<second>()),
        notes: reading.notes.iter().map(ToString::to_string).collect(),
    })
}

/// When to mark a jar, and what a mark at an hour parts.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct SettleReport {
    pub format: &'static str,
    pub version: u32,
    pub depth_m: f64,
    pub temperature_celsius: f64,
    pub system: &'static str,
    pub clay_ends_mm: f64,
    pub silt_ends_mm: f64,
    pub mark_sand_after_s: f64,
    pub mark_silt_after_s: f64,
    pub marks: Vec<MarkRow>,
}

/// A mark at an hour: every grain coarser than `parts_mm` is down; nothing where that is too coarse for
/// the law of settling.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct MarkRow {
    pub after_s: f64,
    pub parts_mm: Option<f64>,
}

/// One line of the CSV: a mark at an hour, the two right ones first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct MarkLine {
    pub depth_m: f64,
    pub temperature_celsius: f64,
    pub system: &'static str,
    pub mark: &'static str,
    pub after_s: f64,
    pub parts_mm: Option<f64>,
}

impl SettleReport {
    /// The lines of the CSV.
    pub fn lines(&self) -> Vec<MarkLine> {
        let line = |mark, after_s, parts_mm| MarkLine {
            depth_m: self.depth_m,
            temperature_celsius: self.temperature_celsius,
            system: self.system,
            mark,
            after_s,
            parts_mm,
        };
        let sand = line(
            "top of the sand",
            self.mark_sand_after_s,
            Some(self.silt_ends_mm),
        );
        let silt = line(
            "top of the silt",
            self.mark_silt_after_s,
            Some(self.clay_ends_mm),
        );
        let others = self.marks.iter();
        let others = others.map(|mark| line("", mark.after_s, mark.parts_mm));
        [sand, silt].into_iter().chain(others).collect()
    }
}

/// A jar of water: its depth, its temperature, the word of the system of sizes, where its sand and its silt
/// end, each with the right hour for its mark, and what a mark at other hours parts.
pub fn settle(
    depth: Length,
    temperature: Celsius,
    system: &'static str,
    [(sand_to, sand), (silt_to, silt)]: [(Length, Time); 2],
    marks: &[(Time, Option<Length>)],
) -> SettleReport {
    let mark = |(after, parts): &(Time, Option<Length>)| MarkRow {
        after_s: after.get::<second>(),
        parts_mm: parts.map(|parts| parts.get::<millimeter>()),
    };
    SettleReport {
        format: "hodful-settle",
        version: 1,
        depth_m: depth.get::<meter>(),
        temperature_celsius: temperature.0,
        system,
        clay_ends_mm: silt_to.get::<millimeter>(),
        silt_ends_mm: sand_to.get::<millimeter>(),
        mark_sand_after_s: sand.get::<second>(),
        mark_silt_after_s: silt.get::<second>(),
        marks: marks.iter().map(mark).collect(),
    }
}
