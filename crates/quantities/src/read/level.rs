//! A value that may be a length or a share: how far an input may be off. Not here: what it is a share of.

use crate::typed::{Measure, Misread};
use crate::units::{Length, Ratio, ratio};

/// A length, or a share of something.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Level {
    /// A length.
    Length(Length),
    /// A share: 0.9 of `90 %`.
    Share(f64),
}

impl Measure for Level {
    const WHAT: &'static str = "a length or a share";
    const SPELLINGS: &'static str = "7/8 in, 22 mm, 90 % or 0.8";

    /// Reads a share, or else a length.
    ///
    /// ```
    /// use hodful_quantities::{Measure, read::Level};
    /// assert_eq!(Level::read("90 %")?, Level::Share(0.9));
    /// assert!(matches!(Level::read("7/8 in")?, Level::Length(_)));
    /// # Ok::<(), hodful_quantities::Misread>(())
    /// ```
    fn read(text: &str) -> Result<Self, Misread> {
        match (Ratio::read(text), Length::read(text)) {
            (Ok(share), _) => Ok(Self::Share(share.get::<ratio>())),
            (_, Ok(length)) => Ok(Self::Length(length)),
            (Err(as_share), Err(as_length)) => {
                // What has a percent sign was meant as a share.
                Err(if text.contains('%') {
                    as_share
                } else {
                    as_length
                })
            }
        }
    }
}
