//! What was tried: a batch and panels, as typed. Not here: what follows from them (see `check` and
//! `doubts`).

use super::{Name, words};
use hodful_quantities::Typed;
use hodful_quantities::read::{Amount, Day};
use hodful_quantities::units::{Length, Volume};

/// What went into a trial batch and what came out.
#[derive(Debug, Clone, PartialEq)]
pub struct TrialBatch {
    /// The mineral materials together: their loose dry volume, or their dry mass.
    pub loose: Typed<Amount>,
    /// Volume of plaster it made.
    pub mixed: Typed<Volume>,
    /// Water that went in, by volume or mass.
    pub water: Option<Typed<Amount>>,
    /// The day.
    pub date: Option<Typed<Day>>,
    /// What was seen.
    pub note: Option<Name>,
}

impl TrialBatch {
    /// A batch of which nothing but what went in and came out is known.
    pub fn of(loose: Typed<Amount>, mixed: Typed<Volume>) -> Self {
        Self {
            loose,
            mixed,
            water: None,
            date: None,
            note: None,
        }
    }
}

/// A panel or a bar of a mix, wet and dry.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TestPanel {
    /// The day on which it was made.
    pub date: Option<Typed<Day>>,
    /// Length of a bar, or of the panel, between marks when wet.
    pub wet_length: Option<Typed<Length>>,
    /// The same when dry.
    pub dry_length: Option<Typed<Length>>,
    /// Thickness when wet.
    pub wet_thickness: Option<Typed<Length>>,
    /// The same when dry.
    pub dry_thickness: Option<Typed<Length>>,
    /// Cracks when dry.
    pub cracks: Option<Cracks>,
    /// What else was seen.
    pub note: Option<Name>,
}

words! {
    /// Cracks of a panel.
    Cracks {
        /// None.
        None = "none",
        /// As fine as a hair.
        Hairline = "hairline",
        /// Wider.
        Open = "open",
    }
}
