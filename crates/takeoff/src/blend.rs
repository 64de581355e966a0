//! Finding a blend: from the materials of a project and what is asked, to parts, figures and margins; and
//! a mix made of it. Not here: the programme (see `hodful_soils::blend`) and what is refused (see `check`).

mod candidate;
mod notes;
mod words;

use crate::checked::Site;
use crate::form;
use crate::project::{Blend, BlendAim, CurveBand, Mix, Name, Project, SieveBand};
use crate::tolerance::NONE_OF_IT;
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::read::Number;
use hodful_quantities::units::{
    Length, Mass, MassDensity, Ratio, kilogram_per_cubic_meter, length_of_mm, millimeter, ratio,
};
use hodful_soils::blend::{
    Aim, BlendFault, Candidate, Impossible, Outcome, Range, Requirement, Target, solve,
};
use hodful_soils::grading::talbot;
use std::iter::zip;

/// The openings of sieves at which a grading is held against a curve, mm: the main series of ISO 565
/// and EN 933-2 (from memory).
pub const SIEVES: [f64; 9] = [0.063, 0.125, 0.25, 0.5, 1.0, 2.0, 4.0, 8.0, 16.0];

/// A coat is at least so many times as thick as its largest grain: common practice, no source.
pub const COAT_PER_GRAIN: f64 = 3.0;

/// The power of a grading curve when none is given: Fuller and Thompson, 1907.
pub const USUAL_POWER: f64 = 0.5;

/// How far off a curve a blend may be when nothing is said, points of the share passing: common
/// practice, no source.
pub const USUAL_WITHIN: f64 = 0.1;

/// How often the mass of an amount is worked out anew from the density of the blend found.
const ROUNDS: usize = 12;

/// A blend that was looked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Blended {
    /// The materials that may go in, in the order of the blend.
    pub materials: Vec<Name>,
    /// As the programme saw them.
    pub candidates: Vec<Candidate>,
    /// What was asked.
    pub target: Target,
    /// Why each sieve of the target is there.
    pub sieves: Vec<AskedBy>,
    /// What came of it.
    pub outcome: Outcome,
    /// What is to be said beside it.
    pub notes: Vec<EcoString>,
}

/// Why a sieve is asked about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum AskedBy {
    /// It was typed.
    Sieve,
    /// It is on the curve.
    Curve,
    /// The thickness of a coat in one pass.
    SinglePass,
}

impl Blended {
    /// The blend that was found, or the nearest that can be had.
    pub fn blend(&self) -> &hodful_soils::blend::Blend {
        match &self.outcome {
            Outcome::Found(blend) => blend,
            Outcome::Impossible(impossible) => &impossible.nearest,
        }
    }

    /// Why it cannot be had; `None` for one that was found.
    pub fn impossible(&self) -> Option<&Impossible> {
        match &self.outcome {
            Outcome::Impossible(impossible) => Some(impossible),
            Outcome::Found(_) => None,
        }
    }

    /// The blend of the parts that are shown: the rounded ones where there are such.
    pub fn shown(&self) -> &hodful_soils::blend::Blend {
        let blend = self.blend();
        blend
            .rounded
            .as_ref()
            .map_or(blend, |rounded| &rounded.blend)
    }

    /// Money for a cubic metre of its materials, dry and loose, of the parts that are shown; `None` where
    /// a price is not known.
    pub fn cost_per_loose(&self) -> Option<f64> {
        let shown = self.shown();
        let density = mean_density(&self.candidates, Some(&shown.volume_parts));
        Some(shown.cost? * density.get::<kilogram_per_cubic_meter>())
    }

    /// Parts by loose volume: such as can be counted out where there are such, else as exact as they are.
    pub fn parts(&self) -> Vec<f64> {
        let blend = self.blend();
        if let Some(rounded) = &blend.rounded {
            let one = f64::from(rounded.steps_per_part.max(1));
            let steps = rounded.steps.iter();
            return steps.map(|steps| f64::from(*steps) / one).collect();
        }
        let parts = blend.volume_parts.iter().copied();
        let least = parts
            .filter(|p| *p > NONE_OF_IT)
            .fold(f64::INFINITY, f64::min);
        let least = if least.is_finite() { least } else { 1.0 };
        let kept = |part: &f64| {
            if *part > NONE_OF_IT {
                part / least
            } else {
                0.0
            }
        };
        blend.volume_parts.iter().map(kept).collect()
    }

    /// A requirement in words, with the names of the project.
    pub fn words(&self, of: Requirement) -> EcoString {
        words::requirement(&self.materials, &self.target, of)
    }

    /// A limit in words, with the names of the project.
    pub fn limit(&self, of: hodful_soils::blend::Limit) -> EcoString {
        words::limit(&self.materials, &self.target, of)
    }
}

/// Looks for the blend of a name.
///
/// # Errors
/// In words: what is missing for it, or what cannot be.
pub(crate) fn find(project: &Project, site: &Site, name: &str) -> Result<Blended, EcoString> {
    let blend = project.blends.get(name).ok_or("there is no such blend")?;
    if blend.materials.is_empty() {
        return Err("says none of the materials it may be made of; give at least one".into());
    }
    let (target, sieves) = target(blend)?;
    let mut notes = Vec::new();
    let candidates: Vec<Candidate> = blend
        .materials
        .keys()
        .map(|name| candidate::of(project, site, name, &target, &mut notes))
        .collect::<Result<_, _>>()?;
    let materials: Vec<Name> = blend.materials.keys().cloned().collect();
    notes::beside(project, blend, &target, &sieves, &candidates, &mut notes);
    let aim = match blend.aim.unwrap_or(BlendAim::LeastCost) {
        BlendAim::LeastCost => Aim::LeastCost,
        BlendAim::LeastBought => Aim::LeastBought,
        BlendAim::WidestMargin => Aim::WidestMargin,
    };
    let said = |fault: BlendFault| words::fault(&materials, &target, &fault);
    let outcome = match &blend.amount {
        None => solve(&candidates, &target, aim, None).map_err(said)?,
        Some(amount) => {
            let mut density = mean_density(&candidates, None);
            let mut outcome = None;
            for _ in 0..ROUNDS {
                let mass: Mass = amount.value() * density;
                let found = solve(&candidates, &target, aim, Some(mass)).map_err(said)?;
                let blend = match &found {
                    Outcome::Found(blend) => blend,
                    Outcome::Impossible(impossible) => &impossible.nearest,
                };
                let now = mean_density(&candidates, Some(&blend.volume_parts));
                outcome = Some(found);
                if (now / density - Ratio::new::<ratio>(1.0))
                    .get::<ratio>()
                    .abs()
                    < NONE_OF_IT
                {
                    break;
                }
                density = now;
            }
            outcome.ok_or("no blend could be computed")?
        }
    };
    let mut blended = Blended {
        materials,
        candidates,
        target,
        sieves,
        outcome,
        notes,
    };
    let unsure = notes::unsure_clay(project, &blended);
    blended.notes.extend(unsure);
    Ok(blended)
}

/// Dry mass per loose volume of some parts of each, or of one part of each.
fn mean_density(candidates: &[Candidate], parts: Option<&[f64]>) -> MassDensity {
    let even = vec![1.0; candidates.len()];
    let parts = parts.unwrap_or(&even);
    let sum: f64 = parts.iter().sum();
    zip(candidates, parts)
        .map(|(of, part)| of.loose_density * (part / sum))
        .sum()
}

/// What is asked, as numbers.
fn target(blend: &Blend) -> Result<(Target, Vec<AskedBy>), EcoString> {
    let said = |wrong: BlendFault| eco_format!("{wrong}");
    let share = |least: Option<&Typed<Ratio>>, most: Option<&Typed<Ratio>>| {
        let value = |of: &Typed<Ratio>| of.value().get::<ratio>();
        Range::new(least.map(value), most.map(value)).map_err(said)
    };
    let number = |least: Option<&Typed<Number>>, most: Option<&Typed<Number>>| {
        let value = |of: &Typed<Number>| of.value().get();
        Range::new(least.map(value), most.map(value)).map_err(said)
    };
    let mut sieves = Vec::new();
    for SieveBand { size, least, most } in &blend.sieves {
        let range = share(least.as_ref(), most.as_ref())?;
        sieves.push((size.value(), range, AskedBy::Sieve));
    }
    for (size, range) in blend.curve.iter().flat_map(curve_band) {
        sieves.push((size, range, AskedBy::Curve));
    }
    if let Some(coat) = &blend.single_pass {
        let all = Range::at_least(1.0).map_err(said)?;
        sieves.push((coat.value() / COAT_PER_GRAIN, all, AskedBy::SinglePass));
    }
    let both = |of: &crate::project::ShareBetween| share(of.least.as_ref(), of.most.as_ref());
    let numbers = |of: &crate::project::NumberBetween| number(of.least.as_ref(), of.most.as_ref());
    let target = Target {
        clay: blend.clay.as_ref().map(both).transpose()?,
        silt: blend.silt.as_ref().map(both).transpose()?,
        sand_to_clay: blend.sand_to_clay.as_ref().map(numbers).transpose()?,
        sand_to_rest: blend.sand_to_rest.as_ref().map(numbers).transpose()?,
        sieves: sieves
            .iter()
            .map(|(size, range, _)| (*size, *range))
            .collect(),
        shares: blend
            .materials
            .values()
            .map(|of| match (&of.least, &of.most) {
                (None, None) => Ok(None),
                _ => both(of).map(Some),
            })
            .collect::<Result<_, _>>()?,
    };
    Ok((target, sieves.into_iter().map(|(.., by)| by).collect()))
}

/// The points of a curve at the sieves up to its largest grain: size and share passing.
pub fn curve(of: &CurveBand) -> Vec<(Length, f64)> {
    let largest = of.largest.value();
    let power = of
        .power
        .as_ref()
        .map_or(USUAL_POWER, |power| power.value().get());
    let sieves = SIEVES.iter().copied();
    let below = sieves.filter(|mm| *mm < largest.get::<millimeter>());
    below
        .map(length_of_mm)
        .chain([largest])
        .filter_map(|size| Some((size, talbot(size, largest, power)?)))
        .collect()
}

/// The same with what is allowed on both sides.
fn curve_band(of: &CurveBand) -> Vec<(Length, Range)> {
    let within = of.within.as_ref();
    let within = within.map_or(USUAL_WITHIN, |within| within.value().get::<ratio>());
    let around = |(size, share): (Length, f64)| {
        let range = Range::between((share - within).max(0.0), (share + within).min(1.0)).ok()?;
        Some((size, range))
    };
    curve(of).into_iter().filter_map(around).collect()
}

/// A mix of the project made of the blend of a name, its own name, and the mix that the rest is from. What a blend does not say (water,
/// air, fibre and binder) is taken from the first mix that shares a material with it, else from the first.
///
/// # Errors
/// In words: why there is no such blend to be had.
pub(crate) fn as_mix(
    project: &Project,
    site: &Site,
    name: &str,
) -> Result<(Name, Mix, Option<Name>), EcoString> {
    let blended = find(project, site, name)?;
    if let Outcome::Impossible(_) = blended.outcome {
        return Err(
            "cannot be had as it is asked; change what is asked, then make it a mix".into(),
        );
    }
    let written = |parts: f64| {
        let text = hodful_quantities::print::significant(parts, 4);
        Typed::read(text).map_err(|wrong| eco_format!("{wrong}"))
    };
    let parts = zip(&blended.materials, blended.parts()).filter(|(_, parts)| *parts > 0.0);
    let parts = parts
        .map(|(name, parts)| Ok((name.clone(), written(parts)?)))
        .collect::<Result<_, EcoString>>()?;
    let shares = |(_, mix): &(&Name, &Mix)| {
        let mut parts = mix.parts.keys();
        parts.any(|part| blended.materials.contains(part))
    };
    let mut mixes = project.mixes.iter();
    let like = mixes.find(shares).or_else(|| project.mixes.first());
    let from = like.map(|(name, _)| name.clone());
    let like = like.map(|(_, mix)| mix.clone()).unwrap_or_default();
    let single_pass = project.blends.get(name).and_then(|b| b.single_pass.clone());
    let mix = Mix {
        parts,
        trial_batch: None,
        test_panels: Vec::new(),
        single_pass: single_pass.or_else(|| like.single_pass.clone()),
        ..like
    };
    let name = if project.mixes.contains_key(name) {
        form::new_id(project, name)
    } else {
        name.into()
    };
    Ok((name, mix, from))
}
