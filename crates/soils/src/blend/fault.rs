//! Why a blend cannot be computed. Not here: targets that no blend reaches, which are an outcome.

use super::requirement::Requirement;

/// Why a question about a blend has no answer. Materials and sieves are counted from 0 in the fields,
/// from 1 in the words.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BlendFault {
    /// No material was given.
    #[error("there is no material to blend; give at least one")]
    NoCandidates,
    /// Nothing in the yard and nothing to buy.
    #[error("none of the materials is in the yard and none can be bought; say what can be had")]
    NothingToHave,
    /// A requirement needs a figure that a material lacks.
    #[error(
        "material no. {} has no figure for {requirement}; test it, leave it out, or drop the requirement",
        candidate + 1
    )]
    Unknown {
        /// The material.
        candidate: usize,
        /// What asks for the figure.
        requirement: Requirement,
    },
    /// Least cost is asked for and a material that can be bought has no price.
    #[error("material no. {} can be bought but has no price; give one, or ask for least bought", candidate + 1)]
    NoPrice {
        /// The material.
        candidate: usize,
    },
    /// A figure of a material that cannot be.
    #[error("material no. {}: {figure} is {value}; it must be {allowed}", candidate + 1)]
    Material {
        /// The material.
        candidate: usize,
        /// Which figure of it.
        figure: &'static str,
        /// What was given.
        value: f64,
        /// What it may be.
        allowed: &'static str,
    },
    /// The two ends of a range do not make one.
    #[error(
        "a range from {least} to {most} is none; the least must be a number not above the most"
    )]
    Range {
        /// Lower end, as given.
        least: f64,
        /// Upper end, as given.
        most: f64,
    },
    /// A bound of the target that cannot be.
    #[error("{requirement}: {value} is asked for; it must be {allowed}")]
    Target {
        /// Where it was asked.
        requirement: Requirement,
        /// What was asked.
        value: f64,
        /// What it may be.
        allowed: &'static str,
    },
    /// More ranges for single materials than there are materials.
    #[error("{ranges} materials have a range of their own, but there are only {candidates}")]
    TooManyShares {
        /// Ranges given.
        ranges: usize,
        /// Materials given.
        candidates: usize,
    },
    /// An amount that is no amount.
    #[error("{kilograms} kg of blend is asked for; it must be a number above 0")]
    Amount {
        /// The mass asked for, kg.
        kilograms: f64,
    },
    /// Parts that are no parts.
    #[error("the parts must be one number per material, none below 0 and not all 0")]
    Parts,
    /// The solver did not come to an end that it could vouch for.
    #[error("no blend could be computed: {0}; ask for less at once")]
    GaveUp(String),
}
