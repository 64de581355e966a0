//! The files of measurement rules and of cautions, as tables.
//!
//! Not here: the files (data) and what the rules do (see `hodful_takeoff::rule`).

use crate::field::Field;
use crate::kind::Kind;
use crate::mark::{Format, IsFormat, Version};
use crate::reading::Reading;
use crate::record::record;
use crate::value::{Word, from_word, word_fields, words};
use crate::writing::Out;
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::units::{Area, Length};
use hodful_takeoff::rule::{Band, Deduct, Rule};
use hodful_takeoff::{Caution, When};

/// Marks a file with a measurement rule.
#[derive(Debug)]
pub(crate) struct RuleFormat;

impl IsFormat for RuleFormat {
    const NAME: &'static str = "hodful-rule";
    const WHAT: &'static str = "a measurement rule";
}

/// Marks the file of cautions.
#[derive(Debug)]
pub(crate) struct CautionFormat;

impl IsFormat for CautionFormat {
    const NAME: &'static str = "hodful-cautions";
    const WHAT: &'static str = "a list of cautions";
}

/// A measurement rule as its file has it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct RuleFile {
    pub(crate) key: EcoString,
    title: EcoString,
    edition: EcoString,
    source: EcoString,
    net: bool,
    bands: Vec<BandFile>,
    reveals_by_length_up_to: Option<Typed<Length>>,
    pub(crate) notes: Vec<EcoString>,
}

impl RuleFile {
    /// The rule. A net rule has no bands.
    pub(crate) fn rule(&self) -> Rule {
        let band = |band: &BandFile| Band {
            up_to: band.up_to.as_ref().map(Typed::value),
            deduct: band.deduct,
            deduct_without_reveal: band.deduct_without_reveal,
            add_reveals: band.add_reveals,
        };
        Rule {
            title: self.title.clone(),
            edition: self.edition.clone(),
            source: self.source.clone(),
            bands: (!self.net).then(|| self.bands.iter().map(band).collect()),
            reveals_by_length_up_to: self.reveals_by_length_up_to.as_ref().map(Typed::value),
        }
    }
}

#[derive(Debug, Clone, PartialEq)]
struct BandFile {
    up_to: Option<Typed<Area>>,
    deduct: Deduct,
    deduct_without_reveal: Option<Deduct>,
    add_reveals: bool,
}

/// The cautions as their file has them.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct CautionFile {
    pub(crate) cautions: Vec<Caution>,
}

word_fields! {
    When => "a kind of work", Self::ALL, Self::word;
}

record! {
    /// A measurement rule.
    RuleFile, "a measurement rule", open {
        /// Says that this is a measurement rule.
        format: Format<RuleFormat>;
        /// The version of this format.
        version: Version;
        /// Key that a project names it by.
        key: EcoString => key;
        /// Title.
        title: EcoString => title;
        /// Edition or year.
        edition: EcoString => edition;
        /// Where it is published.
        source: EcoString => source;
        /// Whether the true surface itself is measured; such a rule has no bands.
        net: bool => net;
        /// What happens to openings of each size, in rising order.
        bands each "band": Vec<BandFile> => bands;
        /// Reveals up to this width are measured by length and not in the area.
        reveals_by_length_up_to: Option<Typed<Length>> => reveals_by_length_up_to;
        /// How it was read, and what it leaves out.
        notes: Vec<EcoString> => notes;
    }

    /// What happens to openings of one size.
    BandFile, "a band" {
        /// Largest opening of the band; absent for all that are larger.
        up_to: Option<Typed<Area>> => up_to;
        /// How much of the opening is taken out.
        deduct: Deduct => deduct;
        /// How much is taken out when no reveal of the opening is plastered on this face.
        deduct_without_reveal: Option<Deduct> => deduct_without_reveal;
        /// Whether plastered reveals are added.
        add_reveals: bool => add_reveals;
    }

    /// The cautions.
    CautionFile, "a list of cautions", open {
        /// Says that these are cautions.
        format: Format<CautionFormat>;
        /// The version of this format.
        version: Version;
        /// The cautions.
        cautions each "caution": Vec<Caution> => cautions;
    }

    /// A caution.
    Caution, "a caution"; by key {
        /// Short key.
        key: EcoString => key;
        /// Title.
        title: EcoString => title;
        /// The heart of it in one line, with a short source.
        brief: EcoString => brief;
        /// What to do.
        text: EcoString => text;
        /// The work it is for.
        applies: When => applies;
        /// Where it comes from.
        source: EcoString => source;
    }
}

/// The one way to deduct that is a word.
#[derive(Debug, Clone, Copy)]
struct NarrowerReveal;

impl Word for NarrowerReveal {
    const WHAT: &'static str = "a way to deduct";
    const WORDS: &'static [Self] = &[Self];

    fn word(self) -> &'static str {
        "narrower reveal"
    }
}

impl Field for Deduct {
    const KIND: Kind = Kind::Share(words::<NarrowerReveal>);

    fn text(reading: &mut Reading, text: &str) -> Option<Self> {
        from_word::<NarrowerReveal>(reading, text).map(|_| Self::NarrowerReveal)
    }

    #[allow(clippy::cast_precision_loss, reason = "nothing above 1 is taken")]
    fn whole(reading: &mut Reading, number: u64) -> Option<Self> {
        Self::number(reading, number as f64)
    }

    fn number(reading: &mut Reading, number: f64) -> Option<Self> {
        if (0.0..=1.0).contains(&number) {
            return Some(Self::Share(number));
        }
        reading.refuse(eco_format!(
            "{number} is not a share; {}",
            Self::KIND.want()
        ));
        None
    }

    fn put(&self, out: &mut Out) {
        match self {
            Self::Share(share) => out.bare(&eco_format!("{share}")),
            Self::NarrowerReveal => out.text(NarrowerReveal.word()),
        }
    }
}
