//! What was done and what came, as recorded on the site. Not here: what is learned from it (see
//! `crate::forecast`).

use super::{Name, Side};
use hodful_quantities::Typed;
use hodful_quantities::read::{Amount, Day};

/// A coat that was put on, with what it really took.
#[derive(Debug, Clone, PartialEq)]
pub struct Done {
    /// Name of the coat.
    pub coat: Name,
    /// Name of the build-up; every one that has such a coat when not given.
    pub build_up: Option<Name>,
    /// Ids of the walls; all of them when none is named.
    pub walls: Vec<Name>,
    /// The face; both when not given.
    pub face: Option<Side>,
    /// What it took, mixed: `14 batches`, `35 buckets`, `0.8 m3`.
    pub took: Typed<Amount>,
    /// The day.
    pub date: Option<Typed<Day>>,
    /// What was seen.
    pub note: Option<Name>,
}

/// Material that came.
#[derive(Debug, Clone, PartialEq)]
pub struct Delivered {
    /// Name of the material.
    pub material: Name,
    /// How much came: `2 tipped load`, `1.5 m3`.
    pub amount: Typed<Amount>,
    /// The day.
    pub date: Option<Typed<Day>>,
    /// Free text.
    pub note: Option<Name>,
}
