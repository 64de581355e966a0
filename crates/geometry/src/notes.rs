//! What the measuring of a face has to say beside its figures: doubts, refusals, and the figures of each opening and end.
//!
//! Nothing here holds a sentence: who knows the names of walls and openings words them.

use crate::measure::{EndMeasure, OpeningMeasure};
use crate::reveal::Part;

/// Hears what happens while a face is measured. Every method but two does nothing unless it is written anew, and a listener that
/// ignores everything costs nothing.
pub trait Notes {
    /// Something doubtful that was measured all the same.
    fn doubt(&mut self, doubt: Doubt);

    /// Something that cannot be measured; what it touches counts as nothing.
    fn refuse(&mut self, refusal: Refusal);

    /// The figures of an opening, once for all copies that are alike, else copy by copy.
    fn opening(&mut self, _index: usize, _measure: &OpeningMeasure) {}

    /// The figures of an end of the face.
    fn end(&mut self, _index: usize, _measure: &EndMeasure) {}
}

/// Hears nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Silent;

impl Notes for Silent {
    fn doubt(&mut self, _doubt: Doubt) {}
    fn refuse(&mut self, _refusal: Refusal) {}
}

/// Keeps doubts and refusals in the order they came.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Remarks {
    /// What is doubtful.
    pub doubts: Vec<Doubt>,
    /// What cannot be measured.
    pub refusals: Vec<Refusal>,
}

impl Notes for Remarks {
    fn doubt(&mut self, doubt: Doubt) {
        self.doubts.push(doubt);
    }

    fn refuse(&mut self, refusal: Refusal) {
        self.refusals.push(refusal);
    }
}

/// One copy of an opening. Both counted from zero, the opening in the list given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct OpeningCopy {
    /// The opening.
    pub opening: usize,
    /// The copy of it.
    pub copy: u32,
}

/// Something doubtful that was measured all the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Doubt {
    /// The hole of an opening pokes out of the wall's own outline, insets aside. What is inside was measured.
    CutByOutline {
        /// The first copy that does.
        first: OpeningCopy,
        /// How many copies do.
        copies: u32,
    },
    /// Two openings overlap. Their holes count once; their reveals and edges were measured whole. Reported once for two
    /// openings, and once for an opening whose own copies overlap.
    Overlap {
        /// The first copy of the earlier opening that does.
        first: OpeningCopy,
        /// What it overlaps.
        second: OpeningCopy,
    },
}

/// Something that cannot be measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Refusal {
    /// An opening has no area inside the wall.
    OutsideWall {
        /// The first copy that has none.
        first: OpeningCopy,
        /// How many copies have none.
        copies: u32,
    },
    /// An opening names a reveal that is not in the list.
    NoSuchReveal {
        /// The opening.
        opening: usize,
    },
    /// The frame is deeper than the wall is thick, or the thickness is none.
    FrameTooDeep {
        /// The opening.
        opening: usize,
    },
    /// The reveal does not suit the opening; [`crate::Opening::accepts`] says why.
    UnsuitedReveal {
        /// The opening.
        opening: usize,
    },
    /// A rounded edge takes a strip wider than the part of the reveal it is taken from.
    StripOverReveal {
        /// The opening.
        opening: usize,
        /// The part.
        part: Part,
    },
    /// Rounded edges take more from the face than there is.
    StripsOverField {
        /// The opening with the widest strips, when any opening has some; else the ends of the face do.
        opening: Option<usize>,
    },
}

impl Refusal {
    /// The input to change, by its path in the project file.
    pub fn field(&self) -> &'static str {
        match self {
            Self::OutsideWall { .. } => "from_left",
            Self::NoSuchReveal { .. } => "reveals",
            Self::FrameTooDeep { .. } => "frame",
            Self::UnsuitedReveal { .. } => "splay",
            Self::StripOverReveal { .. } | Self::StripsOverField { .. } => "radius",
        }
    }
}
