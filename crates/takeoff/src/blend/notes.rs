//! What is to be said beside a blend, whatever comes of it: what was taken for granted. Not here: finding
//! it, and what is missing for it.

use super::{AskedBy, Blended};
use crate::project::{Blend, Project};
use crate::soil::{self, Way};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::significant;
use hodful_quantities::units::ratio;
use hodful_soils::blend::{Candidate, Target};
use hodful_soils::sizes::System;
use std::iter::zip;

/// Digits of a factor.
const DIGITS: u32 = 3;

/// Adds the notes.
pub(super) fn beside(
    project: &Project,
    blend: &Blend,
    target: &Target,
    sieves: &[AskedBy],
    candidates: &[Candidate],
    notes: &mut Vec<EcoString>,
) {
    let names = || zip(blend.materials.keys(), candidates);
    let in_yard = names().filter(|(_, of)| of.in_yard.value > 0.0);
    let in_yard: Vec<&str> = in_yard.map(|(name, _)| name.as_str()).collect();
    if blend.amount.is_none() && !in_yard.is_empty() {
        notes.push(eco_format!(
            "what lies in the yard of {} is taken to suffice, and to cost nothing; give the amount that is wanted to have it counted",
            in_yard.join(", ")
        ));
    }
    damp(project, blend, notes);
    let mut systems: Vec<System> = Vec::new();
    let mut guessed: Vec<&str> = Vec::new();
    for name in blend.materials.keys() {
        let material = project.materials.get(name);
        let Some(of) = material.and_then(|of| of.soil.as_deref()) else {
            continue;
        };
        let Some(way) = of.ways().next() else {
            continue;
        };
        if !systems.contains(&of.sizes()) {
            systems.push(of.sizes());
        }
        if way != Way::Sieve {
            guessed.push(name);
        }
    }
    if systems.len() > 1 && (target.silt.is_some() || target.sand_to_clay.is_some()) {
        let words: Vec<&str> = systems.iter().map(|system| system.word()).collect();
        notes.push(eco_format!(
            "the materials are parted by sizes of {}: what one calls silt another calls sand; use one system to hold silt and sand to a figure",
            words.join(" and ")
        ));
    }
    if !sieves.is_empty() && !guessed.is_empty() {
        notes.push(eco_format!(
            "between clay, silt and sand the grading of {} is a straight line, since no sieve was used",
            guessed.join(", ")
        ));
    }
}

/// Parts are dry, heaps are damp: how much more of a bulked material makes the same.
fn damp(project: &Project, blend: &Blend, notes: &mut Vec<EcoString>) {
    let bulked = blend.materials.keys().filter_map(|name| {
        let material = project.materials.get(name)?;
        let bulking = soil::bulking(material)?.get::<ratio>();
        (bulking > 0.0).then(|| eco_format!("{name} × {}", significant(1.0 + bulking, DIGITS)))
    });
    let bulked: Vec<EcoString> = bulked.collect();
    if !bulked.is_empty() {
        notes.push(eco_format!(
            "parts are dry and loose; as it lies in the heap, damp, count {} (the batch card does)",
            bulked.join(", ")
        ));
    }
}

/// That the clay of the blend is only known within bounds, since that of a material is.
pub(super) fn unsure_clay(project: &Project, of: &Blended) -> Option<EcoString> {
    let (mut least, mut most) = (0.0, 0.0);
    let mut unsure: Vec<&str> = Vec::new();
    for ((name, candidate), share) in
        zip(zip(&of.materials, &of.candidates), &of.shown().mass_shares)
    {
        let best = candidate.grains.map(|grains| grains.clay)?;
        let material = project.materials.get(name)?;
        let tested = soil::figures(material).and_then(Result::ok);
        let known = tested.map(|of| of.shares.clay());
        let known = known.filter(|clay| material.clay.is_none() && !clay.is_exact());
        let bounds = known.map_or((best, best), |clay| (clay.least(), clay.most()));
        if known.is_some() && *share > 0.0 {
            unsure.push(name);
        }
        least += share * bounds.0;
        most += share * bounds.1;
    }
    if unsure.is_empty() {
        return None;
    }
    let percent = |share: f64| significant(share * 100.0, DIGITS);
    Some(eco_format!(
        "the clay of {} is only known within bounds, so that the blend may hold {} to {} % clay: make a trial batch and a panel",
        unsure.join(", "),
        percent(least),
        percent(most)
    ))
}
