//! What is doubtful in soils, trials, blends and what is bought: tests that contradict one another, trials
//! that warn, and what is looked for and not to be had. Not here: values outside what is usual.

use crate::blend;
use crate::checked::Checked;
use crate::evaluate::Evaluation;
use crate::problem::{Place, Problem};
use crate::project::{Cracks, Material, Mix, Project, Soil, TestPanel, TrialBatch};
use crate::soil::{self, SoilFigures, Way};
use crate::sources::{self, Sourced};
use crate::supply;
use crate::tolerance::SAME_SHARE;
use ecow::{EcoString, eco_format};
use hodful_quantities::mix::{self, WATER_DENSITY};
use hodful_quantities::print::{self, significant};
use hodful_quantities::read::Amount;
use hodful_quantities::units::{
    Mass, MassDensity, kilogram, kilogram_per_cubic_meter, percent, ratio,
};
use hodful_soils::blend::Outcome;
use hodful_soils::fractions::{FineShares, Known};
use hodful_soils::grading::Border;
use hodful_soils::jar::Note;
use std::iter::zip;

/// Adds what is doubtful of the materials and mixes.
pub(super) fn tests(project: &Project, checked: &Checked, found: &mut Vec<Problem>) {
    for (name, material) in &project.materials {
        let place = Place::project().thing("material", name.clone());
        if let Some(of) = material.soil.as_deref() {
            clay_beside_test(material, &place, found);
            marks(material, of, &place, found);
            contradictions(material, of, &place, found);
            unfinished(material, of, &place, found);
        }
        swell(material, &place, found);
    }
    for ((name, mix), made) in zip(&project.mixes, &checked.site.mixes) {
        let place = Place::project().thing("mix", name.clone());
        let made = made.made.as_ref().map(|made| &made.mix);
        water_of_trial(mix, made, &place, found);
        last_panel(mix, &place, found);
    }
}

/// A jar that is only half measured.
fn unfinished(material: &Material, of: &Soil, place: &Place, found: &mut Vec<Problem>) {
    for way in of.ways() {
        if let Err(fault) = soil::by(material, of, way)
            && fault.is_unfinished
        {
            let place = place.field("soil").field(way.field()).field("water_depth");
            found.push(Problem::doubtful(place, fault.message, None));
        }
    }
}

/// What keeps only so long wants phases with days; a coat that no phase names comes with the first.
fn phases(project: &Project, evaluation: &Evaluation, found: &mut Vec<Problem>) {
    let phases = project
        .buying
        .as_ref()
        .map(|buying| buying.phases.as_slice());
    let phases = phases.unwrap_or_default();
    let dated = phases.iter().filter(|phase| phase.date.is_some()).count();
    for ((name, material), figures) in zip(&project.materials, &evaluation.materials) {
        if let Some(keeps) = &material.keeps
            && !figures.uses.is_empty()
            && dated < phases.len().max(1)
        {
            found.push(Problem::doubtful(
                Place::project().thing("material", name.clone()).field("keeps"),
                eco_format!(
                    "it keeps '{}', but not every order has its day, so that this cannot be held to; give the order phases with days",
                    keeps.text()
                ),
                None,
            ));
        }
    }
    let Some(first) = phases.first() else { return };
    let mut told: Vec<&str> = Vec::new();
    for coat in project.build_ups.values().flatten() {
        let named = phases.iter().any(|phase| phase.coats.contains(&coat.coat));
        if !named && !told.contains(&coat.coat.as_str()) {
            told.push(&coat.coat);
            found.push(Problem::doubtful(
                Place::project()
                    .field("buying")
                    .thing("phase", first.name.clone())
                    .field("coats"),
                eco_format!(
                    "no phase names the coat '{}', so that it comes with {}",
                    coat.coat,
                    first.name
                ),
                None,
            ));
        }
    }
}

/// Adds what is doubtful of what is looked for: blends, and what to buy from whom where that is asked.
pub(super) fn looked_for(
    project: &Project,
    checked: &Checked,
    evaluation: &Evaluation,
    found: &mut Vec<Problem>,
) {
    for name in project.blends.keys() {
        let place = Place::project().thing("blend", name.clone());
        match blend::find(project, &checked.site, name) {
            Err(words) => found.push(Problem::doubtful(
                place,
                eco_format!("cannot be computed: {words}"),
                None,
            )),
            Ok(blended) => {
                if let Outcome::Impossible(impossible) = &blended.outcome {
                    let limits = impossible.conflict.iter();
                    let limits: Vec<EcoString> =
                        limits.map(|limit| blended.limit(*limit)).collect();
                    found.push(Problem::doubtful(place, impossible_words(&limits), None));
                }
            }
        }
    }
    phases(project, evaluation, found);
    if project.suppliers.is_empty() && project.buying.is_none() {
        return;
    }
    let place = || Place::project().field("buying").field("aim");
    match supply::find(project, &checked.site, evaluation) {
        Err(words) => found.push(Problem::doubtful(
            place(),
            eco_format!("what to buy from whom cannot be planned: {words}"),
            None,
        )),
        Ok(supply) => {
            let notes = supply.notes.into_iter();
            found.extend(notes.map(|note| Problem::doubtful(place(), note, None)));
        }
    }
}

/// That limits cannot all be kept.
fn impossible_words(limits: &[EcoString]) -> EcoString {
    match limits {
        [] => "cannot be had as it is asked; change what is asked, or give other materials".into(),
        [one] => eco_format!(
            "cannot be had as it is asked: {one} cannot be kept with these materials; change it, or give other materials"
        ),
        [head @ .., last] => eco_format!(
            "cannot be had as it is asked: {} and {last} cannot all be kept; change one of them, or give other materials",
            head.join(", ")
        ),
    }
}

/// Clay that was typed stands before the test: it should be within what the test leaves open.
fn clay_beside_test(material: &Material, place: &Place, found: &mut Vec<Problem>) {
    let (Some(typed), Some(Ok(figures))) = (&material.clay, soil::figures(material)) else {
        return;
    };
    let (least, most) = clay_of(&figures);
    let limit = limit_of(figures.way);
    let clay = typed.value().get::<ratio>();
    let slack = limit.value / 100.0 + SAME_SHARE;
    if clay < least - slack || clay > most + slack {
        found.push(Problem::doubtful(
            place.field("clay"),
            eco_format!(
                "'{}' is outside what the {} leaves open, {}; correct one of the two, or take the figure out to go by the test",
                typed.text(),
                test(figures.way),
                between(least, most)
            ),
            Some(limit.source),
        ));
    }
}

/// The least and the most clay by a test, before and past the screen.
fn clay_of(figures: &SoilFigures) -> (f64, f64) {
    let as_tested = figures.shares.clay();
    // A jar holds what is past the screen; a sieve list grows richer by what the screen holds back.
    let past = figures.used.fractions.map(|of| of.clay());
    let least = past.map_or(as_tested.least(), |past| as_tested.least().min(past));
    let most = past.map_or(as_tested.most(), |past| as_tested.most().max(past));
    (least, most)
}

/// How far apart shares may be and still be the same, by the way they were found.
fn limit_of(way: Way) -> Sourced<f64> {
    match way {
        Way::Jar => sources::JAR_BOUNDS,
        Way::Sieve | Way::Shares => sources::SHARES_PRINTED,
    }
}

/// The way in a sentence.
fn test(way: Way) -> &'static str {
    match way {
        Way::Sieve => "sieve list",
        Way::Shares => "report of shares",
        Way::Jar => "jar test",
    }
}

/// `18 to 31 %`, or `24 %` where it is one.
fn between(least: f64, most: f64) -> EcoString {
    let shown = |share: f64| significant(share * 100.0, 3);
    if most - least <= SAME_SHARE {
        eco_format!("{} %", shown(least))
    } else {
        eco_format!("{} to {} %", shown(least), shown(most))
    }
}

/// Marks of a jar at a wrong hour.
fn marks(material: &Material, of: &Soil, place: &Place, found: &mut Vec<Problem>) {
    let (Some(typed), Ok(figures)) = (&of.jar, soil::by(material, of, Way::Jar)) else {
        return;
    };
    let (Some(reading), Some(right)) = (figures.jar, soil::marks(of)) else {
        return;
    };
    for note in reading.notes {
        let Note::Cut { border, .. } = note else {
            continue;
        };
        let (field, mark, right) = match border {
            Border::SiltAndClay => ("silt_marked", &typed.silt_marked, right.silt),
            Border::SandAndSilt | Border::GravelAndSand => {
                ("sand_marked", &typed.sand_marked, right.sand)
            }
        };
        let Some(mark) = mark else { continue };
        found.push(Problem::doubtful(
            place.field("soil").field("jar").field(field),
            eco_format!(
                "'{}': {note}; mark it {} after the jar is set down",
                mark.text(),
                print::time(right)
            ),
            Some(sources::SETTLING),
        ));
    }
}

/// Two tests of one soil that cannot both be right. Gravel is left out: a jar holds none.
fn contradictions(material: &Material, of: &Soil, place: &Place, found: &mut Vec<Problem>) {
    let tested = of.ways().filter_map(|way| {
        let fines = soil::by(material, of, way).ok()?.shares.of_fines()?;
        Some((way, fines))
    });
    let tested: Vec<(Way, FineShares)> = tested.collect();
    for (at, (surer, first)) in tested.iter().enumerate() {
        for (way, second) in tested.iter().skip(at + 1) {
            // A jar is held to its own bounds, which are the wider.
            let limit = limit_of(*way);
            let slack = limit.value / 100.0 + SAME_SHARE;
            let apart: Vec<EcoString> = parts(first, second)
                .filter(|(_, a, b)| a.least() > b.most() + slack || b.least() > a.most() + slack)
                .map(|(part, a, b)| {
                    eco_format!(
                        "{part} {} against {}",
                        between(b.least(), b.most()),
                        between(a.least(), a.most())
                    )
                })
                .collect();
            if apart.is_empty() {
                continue;
            }
            found.push(Problem::doubtful(
                place.field("soil").field(way.field()),
                eco_format!(
                    "the {} contradicts the {}: {} of what is finer than gravel; test once more, the {} is gone by",
                    test(*way),
                    test(*surer),
                    apart.join(", "),
                    test(*surer)
                ),
                Some(limit.source),
            ));
        }
    }
}

/// The same parts of two tests.
fn parts(
    first: &FineShares,
    second: &FineShares,
) -> impl Iterator<Item = (&'static str, Known, Known)> {
    [
        ("sand", first.sand, second.sand),
        ("silt", first.silt, second.silt),
        ("clay", first.clay, second.clay),
    ]
    .into_iter()
}

fn swell(material: &Material, place: &Place, found: &mut Vec<Problem>) {
    let Some(typed) = &material.swell else { return };
    let (least, most) = (sources::LEAST_SWELL, sources::GREATEST_SWELL);
    let value = typed.value().get::<percent>();
    let beyond = if value < least.value - SAME_SHARE * 100.0 {
        least
    } else if value > most.value + SAME_SHARE * 100.0 {
        most
    } else {
        return;
    };
    found.push(Problem::doubtful(
        place.field("swell"),
        eco_format!(
            "'{}' is outside the published {} to {} %; measure a hole and what came out of it",
            typed.text(),
            least.value,
            most.value
        ),
        Some(beyond.source),
    ));
}

/// Water of a trial batch that is not the water the mix is reckoned with.
fn water_of_trial(mix: &Mix, made: Option<&mix::Mix>, place: &Place, found: &mut Vec<Problem>) {
    let (Some(wanted), Some(trial), Some(made)) = (&mix.water, &mix.trial_batch, made) else {
        return;
    };
    let added = trial_water(trial, made.loose_density());
    let Some(tried) = added
        .zip(brought(made))
        .map(|(added, brought)| added + brought)
    else {
        return;
    };
    let limit = sources::TRIAL_WATER;
    let off = tried - wanted.value().get::<percent>();
    if off.abs() > limit.value + SAME_SHARE * 100.0 {
        found.push(Problem::doubtful(
            place.field("trial_batch").field("water"),
            eco_format!(
                "the trial batch held {} % of water by dry mass, with what the materials brought, and the mix is reckoned with '{}'; give the mix the water of the trial, or try again",
                significant(tried, 3),
                wanted.text()
            ),
            Some(limit.source),
        ));
    }
}

/// Water that the minerals of a mix bring, % of their dry mass; `None` where a density is not known.
fn brought(mix: &mix::Mix) -> Option<f64> {
    let (mut water, mut dry) = (0.0, 0.0);
    for mineral in mix.minerals().iter().filter(|mineral| mineral.parts > 0.0) {
        let mass = mineral.loose_density?.value * mineral.parts;
        water += mass * mineral.moisture.get::<percent>();
        dry += mass;
    }
    Some(water / dry)
}

/// Water that went into a trial batch, % of the dry mass of its minerals; `None` where a mass is not known.
fn trial_water(trial: &TrialBatch, density: Option<MassDensity>) -> Option<f64> {
    let mass = |of: &Amount, density: Option<MassDensity>| match of {
        Amount::Mass(mass) => Some(*mass),
        Amount::Volume(volume) => density.map(|density| -> Mass { *volume * density }),
        Amount::Packages { .. } => None,
    };
    let water = MassDensity::new::<kilogram_per_cubic_meter>(WATER_DENSITY);
    let water = mass(&trial.water.as_ref()?.value(), Some(water))?;
    let dry = mass(&trial.loose.value(), density)?;
    let share = (water / dry).get::<percent>();
    (dry.get::<kilogram>() > 0.0 && share.is_finite()).then_some(share)
}

/// Cracks and shrinkage of the last panel of a mix.
fn last_panel(mix: &Mix, place: &Place, found: &mut Vec<Problem>) {
    let Some(panel) = mix.test_panels.last() else {
        return;
    };
    let place_of_panel =
        |at: usize| place.thing("test panel", eco_format!("number {}", at.saturating_add(1)));
    let place = place_of_panel(mix.test_panels.len().saturating_sub(1));
    if panel.cracks == Some(Cracks::Open) {
        found.push(Problem::doubtful(
            place.field("cracks"),
            "the last panel cracked open; try more sand or fibre, less water, or a thinner coat before the wall is plastered",
            Some(sources::OPEN_CRACKS),
        ));
    }
    let most = sources::GREATEST_SHRINKAGE;
    if let Some((at, _, lost)) = crate::check::measured_shrinkage(mix)
        && lost.get() * 100.0 > most.most + SAME_SHARE * 100.0
    {
        found.push(Problem::doubtful(
            place_of_panel(at).field("dry_thickness"),
            eco_format!(
                "the panel lost {} % of its thickness, over {} %, and the coats are reckoned with it; measure it again",
                significant(lost.get() * 100.0, 3),
                most.most
            ),
            Some(most.source),
        ));
    }
    let Some(shrunk) = shrinkage_of_length(panel) else {
        return;
    };
    let (strict, standard) = (
        sources::SHRINKAGE_OF_BAR,
        sources::GREATEST_SHRINKAGE_OF_BAR,
    );
    let slack = SAME_SHARE * 100.0;
    let limit = if shrunk > standard.value + slack {
        standard
    } else if shrunk > strict.value + slack {
        strict
    } else {
        return;
    };
    found.push(Problem::doubtful(
        place.field("dry_length"),
        eco_format!(
            "the last panel or bar shrank by {} % of its length, over {} %; try more sand or fibre, or less water",
            significant(shrunk, 3),
            limit.value
        ),
        Some(limit.source),
    ));
}

/// What a bar lost of its length, %.
fn shrinkage_of_length(panel: &TestPanel) -> Option<f64> {
    let (wet, dry) = (panel.wet_length.as_ref()?, panel.dry_length.as_ref()?);
    let lost = (1.0 - (dry.value() / wet.value()).get::<ratio>()) * 100.0;
    lost.is_finite().then_some(lost)
}
