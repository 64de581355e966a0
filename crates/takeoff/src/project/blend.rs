//! What is to be made of the materials at hand, as typed. Not here: finding the parts (see
//! `crate::blend`).

use super::{Named, words};
use hodful_quantities::Typed;
use hodful_quantities::read::Number;
use hodful_quantities::units::{Length, Ratio, Volume};

/// A blend that is looked for: from what, towards what.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Blend {
    /// The materials that may go in, by name, each with bounds of its share by loose volume.
    pub materials: Named<ShareBetween>,
    /// Clay in the dry blend, by mass.
    pub clay: Option<ShareBetween>,
    /// Silt in the dry blend, by mass.
    pub silt: Option<ShareBetween>,
    /// Sand grains to clay grains, by volume, whatever heap they come from.
    pub sand_to_clay: Option<NumberBetween>,
    /// Buckets of the sands to buckets of all else, dry and loose.
    pub sand_to_rest: Option<NumberBetween>,
    /// What passes a sieve, by mass.
    pub sieves: Vec<SieveBand>,
    /// A curve that the grading keeps near to.
    pub curve: Option<CurveBand>,
    /// The coat that goes on in one pass: grains are at most a third of it.
    pub single_pass: Option<Typed<Length>>,
    /// What is wanted most; the least cost when not given.
    pub aim: Option<BlendAim>,
    /// How much is wanted, dry and loose: what is in the yard goes so far.
    pub amount: Option<Typed<Volume>>,
}

words! {
    /// What a blend is chosen by.
    BlendAim {
        /// The least money.
        LeastCost = "least cost",
        /// The least mass that comes from outside.
        LeastBought = "least bought in",
        /// The middle of what is allowed.
        WidestMargin = "widest margin",
    }
}

/// Bounds of a share.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ShareBetween {
    /// Not less.
    pub least: Option<Typed<Ratio>>,
    /// Not more.
    pub most: Option<Typed<Ratio>>,
}

/// Bounds of a number.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct NumberBetween {
    /// Not less.
    pub least: Option<Typed<Number>>,
    /// Not more.
    pub most: Option<Typed<Number>>,
}

/// Bounds of what passes a sieve.
#[derive(Debug, Clone, PartialEq)]
pub struct SieveBand {
    /// Opening of the sieve.
    pub size: Typed<Length>,
    /// Not less passes.
    pub least: Option<Typed<Ratio>>,
    /// Not more passes.
    pub most: Option<Typed<Ratio>>,
}

/// A grading curve by a power of the size, and how far off it a blend may be.
#[derive(Debug, Clone, PartialEq)]
pub struct CurveBand {
    /// The largest grain.
    pub largest: Typed<Length>,
    /// The power: 0.5 when not given.
    pub power: Option<Typed<Number>>,
    /// How far off the curve, up and down, in points of the share passing.
    pub within: Option<Typed<Ratio>>,
}
