//! Blending: from the materials at hand and what is asked of the mix, the shares that meet it, at least
//! cost, with least bought, or as far from every limit as can be; or what makes it impossible, and the
//! nearest that can be had.
//!
//! A linear programme: the unknowns are shares of dry mass, taken from the yard and bought, and every
//! requirement is a part of a whole, both sums over the shares. It is as good as its figures: a blend is
//! computed from tests of samples, so make a trial batch and a test panel before plastering a wall with it.
//!
//! Not here: how the figures of a material are measured (grading, fractions), what a heap comes to after
//! screening, moisture and bulking of what is delivered, and prices of whole packages.
//!
//! ```
//! use hodful_soils::blend::{Aim, Candidate, Grains, Outcome, Range, Target, solve};
//! use hodful_quantities::units::{Mass, MassDensity, kilogram_per_cubic_meter};
//!
//! // Soil with 27 % clay and sand 1.6 times as dense (Taylor, Vardy and MacDougall, Queen's University,
//! // 2006): 7.94 % of clay stands in one part of soil to one and a half of sand.
//! let material = |density, [clay, silt, sand]: [f64; 3], is_sand| Candidate {
//!     loose_density: MassDensity::new::<kilogram_per_cubic_meter>(density),
//!     grain_density: MassDensity::new::<kilogram_per_cubic_meter>(2650.0),
//!     grains: Some(Grains { clay, silt, sand, gravel: 0.0 }),
//!     passing: vec![],
//!     is_sand,
//!     price: Some(0.04),
//!     in_yard: Mass::default(),
//!     can_buy: true,
//! };
//! let soil = material(1000.0, [0.27, 0.69, 0.04], false);
//! let sand = material(1600.0, [0.0, 0.0, 1.0], true);
//! let target = Target { clay: Some(Range::between(0.0793, 0.0795)?), ..Target::default() };
//! let Outcome::Found(blend) = solve(&[soil, sand], &target, Aim::WidestMargin, None)? else {
//!     panic!("both can be had");
//! };
//! assert!((blend.volume_parts[1] / blend.volume_parts[0] - 1.5).abs() < 0.01);
//! assert_eq!(blend.rounded.unwrap().to_string(), "1 : 1½");
//! # Ok::<(), hodful_soils::blend::BlendFault>(())
//! ```

use hodful_quantities::units::{Length, Mass, MassDensity};

mod fault;
mod figures;
mod impossible;
mod margin;
mod model;
mod parts;
mod programme;
mod requirement;
mod search;
mod tolerance;
mod two;

#[cfg(test)]
mod tests;

pub use fault::BlendFault;
pub use figures::{Blend, Figure, Miss};
pub use impossible::{Impossible, Reach};
pub use parts::Rounded;
pub use requirement::{Limit, Requirement};
pub use two::{clay_to_add, sand_to_add};

use model::Model;

/// A material that may go into the blend, dry and screened.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Dry mass per loose volume; between 1 and 23 000 kg/m³.
    pub loose_density: MassDensity,
    /// Mass per volume of the grains; between 1 and 23 000 kg/m³.
    pub grain_density: MassDensity,
    /// Shares of dry mass by size of grain; `None` when not known.
    pub grains: Option<Grains>,
    /// Share of dry mass, from 0 to 1, that passes sieves; those of the target are looked up here. A sieve
    /// that is missing is not known.
    pub passing: Vec<(Length, f64)>,
    /// Whether it counts as sand in [`Target::sand_to_rest`].
    pub is_sand: bool,
    /// Money per kilogram dry, screened, as bought; not below 0.
    pub price: Option<f64>,
    /// Dry, screened mass in the yard, free of charge.
    pub in_yard: Mass,
    /// Whether more can be bought, as much as is wanted.
    pub can_buy: bool,
}

/// Shares of dry mass by size of grain, from 0 to 1, that add up to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grains {
    /// Clay.
    pub clay: f64,
    /// Silt.
    pub silt: f64,
    /// Sand.
    pub sand: f64,
    /// Gravel.
    pub gravel: f64,
}

/// What a figure may be: at least, at most, or both.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Range {
    least: Option<f64>,
    most: Option<f64>,
}

impl Range {
    /// A range from its ends; `None` leaves an end open.
    ///
    /// # Errors
    /// [`BlendFault::Range`] when an end is not a finite number, or the least is above the most.
    pub fn new(least: Option<f64>, most: Option<f64>) -> Result<Self, BlendFault> {
        let finite = |end: Option<f64>| end.is_none_or(f64::is_finite);
        let ordered = least.zip(most).is_none_or(|(least, most)| least <= most);
        if finite(least) && finite(most) && ordered {
            Ok(Self { least, most })
        } else {
            Err(BlendFault::Range {
                least: least.unwrap_or(f64::NEG_INFINITY),
                most: most.unwrap_or(f64::INFINITY),
            })
        }
    }

    /// From `least` to `most`, both allowed.
    ///
    /// # Errors
    /// As [`Range::new`].
    pub fn between(least: f64, most: f64) -> Result<Self, BlendFault> {
        Self::new(Some(least), Some(most))
    }

    /// `least` or more.
    ///
    /// # Errors
    /// As [`Range::new`].
    pub fn at_least(least: f64) -> Result<Self, BlendFault> {
        Self::new(Some(least), None)
    }

    /// `most` or less.
    ///
    /// # Errors
    /// As [`Range::new`].
    pub fn at_most(most: f64) -> Result<Self, BlendFault> {
        Self::new(None, Some(most))
    }

    /// Lower end.
    pub fn least(&self) -> Option<f64> {
        self.least
    }

    /// Upper end.
    pub fn most(&self) -> Option<f64> {
        self.most
    }

    /// What a margin of 1 stands for, in the unit of the figure: the distance between the ends; with one
    /// end open, the other end itself.
    pub fn width(&self) -> f64 {
        match (self.least, self.most) {
            (Some(least), Some(most)) => most - least,
            (Some(end), None) | (None, Some(end)) => end,
            (None, None) => 0.0,
        }
    }
}

/// What is asked of a blend; everything is left open by default.
///
/// A range with both ends open asks nothing; its figure is worked out all the same where it is known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Target {
    /// Clay, share of dry mass, from 0 to 1.
    pub clay: Option<Range>,
    /// Silt, share of dry mass, from 0 to 1.
    pub silt: Option<Range>,
    /// Volume of sand grains to volume of clay grains, of the whole blend.
    pub sand_to_clay: Option<Range>,
    /// Loose volume of the sand materials to loose volume of the others: what is counted in buckets.
    pub sand_to_rest: Option<Range>,
    /// Share of dry mass that passes, from 0 to 1, by opening of the sieve.
    pub sieves: Vec<(Length, Range)>,
    /// Share of loose volume of each material, from 0 to 1, in the order of the candidates; those that
    /// are missing at the end are left open.
    pub shares: Vec<Option<Range>>,
}

/// Which of the blends that meet the target is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Aim {
    /// The cheapest; then the one with least bought; then the one with more of the materials listed first.
    LeastCost,
    /// The least mass bought; then the cheapest where every price is known; then as above.
    LeastBought,
    /// The one in the middle of what is allowed: it stays off every end by the same number of widths at
    /// least ([`Range::width`], a range of no width aside), and that number is as large as can be (a thousand
    /// at most). Then the cheapest where every price is known; then as above.
    WidestMargin,
}

/// What came of a question for a blend.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// A blend that meets the target.
    Found(Blend),
    /// No blend does.
    Impossible(Impossible),
}

/// The blend of `candidates` that meets `target` and suits `aim` best.
///
/// With an `amount` (dry mass of blend), what is in the yard is free and limited, and what cannot be
/// bought is limited to it. Without one, whatever is in the yard at all is taken to suffice.
///
/// A requirement counts as met when it is missed by no more than a millionth of the blend. Cost and what is
/// bought are right to a millionth of themselves, the margin to a millionth of a width (or of itself above 1),
/// and the same question gets the same blend every time.
///
/// # Errors
/// Every [`BlendFault`] but [`BlendFault::Range`] and [`BlendFault::Parts`]: no materials, figures that are
/// missing or cannot be, or a solver that gave up.
pub fn solve(
    candidates: &[Candidate],
    target: &Target,
    aim: Aim,
    amount: Option<Mass>,
) -> Result<Outcome, BlendFault> {
    let model = Model::new(candidates, target, amount, &vec![true; candidates.len()])?;
    model.check_to_have()?;
    if aim == Aim::LeastCost {
        model.check_prices()?;
    }
    if let Some(shares) = model.search(aim)? {
        return Ok(Outcome::Found(model.blend(&shares)));
    }
    let impossible = model.impossible(aim)?;
    // Missed by less than counts: at the very edge of what is possible, the nearest is the answer.
    if impossible.nearest.missing.is_empty() && impossible.all_there_is.is_none() {
        return Ok(Outcome::Found(impossible.nearest));
    }
    Ok(Outcome::Impossible(impossible))
}

/// The figures of a blend by given loose volume parts of the candidates, held against `target`; its
/// [`Blend::missing`] says what it does not meet.
///
/// A figure that is unknown for a material with no part does not matter. `amount` as in [`solve`].
///
/// # Errors
/// [`BlendFault::Parts`] when the parts are not one number per material, not below 0 and not all 0; else as
/// [`solve`].
pub fn assess(
    candidates: &[Candidate],
    target: &Target,
    parts: &[f64],
    amount: Option<Mass>,
) -> Result<Blend, BlendFault> {
    let used: Vec<bool> = parts.iter().map(|p| *p > 0.0).collect();
    let model = Model::new(candidates, target, amount, &used)?;
    let shares = model.mass_shares(parts).ok_or(BlendFault::Parts)?;
    Ok(Blend {
        rounded: None,
        ..model.blend(&shares)
    })
}
