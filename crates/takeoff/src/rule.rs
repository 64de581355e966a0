//! Measurement rules: what a published rule counts for payment, as data.
//!
//! A rule never touches the materials; those follow the true surface. Not here: the rules
//! themselves (data files with their sources) and the geometry.

use crate::tolerance::SAME_AREA;
use ecow::EcoString;
use hodful_quantities::units::{Area, Length};
use indexmap::IndexMap;

/// Every rule that can be chosen, by key.
pub type RuleBook = IndexMap<EcoString, Rule>;

/// One published rule.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rule {
    /// Title for people.
    pub title: EcoString,
    /// Edition or year.
    pub edition: EcoString,
    /// Where it is published and how far it was read.
    pub source: EcoString,
    /// `None`: net as executed, the true surface itself.
    pub bands: Option<Vec<Band>>,
    /// Reveals up to this width are measured by length and not in the area.
    pub reveals_by_length_up_to: Option<Length>,
}

/// What happens to openings of a size. Bands stand in rising order; a limit value belongs to the
/// smaller band, as the published texts say "not exceeding".
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Largest opening of the band; `None` for all that are larger.
    pub up_to: Option<Area>,
    /// How much of the opening is taken out.
    pub deduct: Deduct,
    /// How much is taken out instead when no reveal of the opening is plastered on this face.
    pub deduct_without_reveal: Option<Deduct>,
    /// Whether plastered reveals are added.
    pub add_reveals: bool,
}

/// How much of an opening a band takes out of one face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Deduct {
    /// This share of it, 0 to 1.
    Share(f64),
    /// All of it from the face whose reveal is narrower, none from the other; half from each when
    /// the reveals are of equal width and the other face is plastered too, none when it is not.
    NarrowerReveal,
}

impl Rule {
    /// The band an opening of this size falls in.
    pub fn band(&self, opening: Area) -> Option<&Band> {
        self.bands.as_ref()?.iter().find(|band| {
            band.up_to
                .is_none_or(|limit| opening <= limit * (1.0 + SAME_AREA))
        })
    }
}
