//! A value together with the text it was typed as.
//!
//! What a person typed is what the file keeps; the value is only read from it. Not here: the
//! readers themselves (see `read`).

use ecow::EcoString;

/// A kind of value that can be read from what an estimator types.
pub trait Measure: Clone + PartialEq + core::fmt::Debug {
    /// The kind in words, with its article: `a length`.
    const WHAT: &'static str;
    /// Two or three right spellings, for the end of a message: `2' 3", 27 in or 685 mm`.
    const SPELLINGS: &'static str;

    /// Reads the text.
    ///
    /// # Errors
    /// [`Misread`] when the text is not of this kind; the message says what would be right.
    fn read(text: &str) -> Result<Self, Misread>;
}

/// Why a text could not be read, in words for the person who typed it.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("'{text}' {why}; write {spellings}")]
pub struct Misread {
    /// What was typed.
    pub text: EcoString,
    /// What is wrong with it: `is not a length`, `has a unit of volume where a length is wanted`.
    pub why: EcoString,
    /// Right spellings of the kind.
    pub spellings: &'static str,
}

/// A value and the text it was read from. Equal when the text is equal.
#[derive(Debug, Clone)]
pub struct Typed<T> {
    text: EcoString,
    value: T,
}

impl<T: Measure> Typed<T> {
    /// Reads a value and keeps its text, outer blanks included.
    ///
    /// # Errors
    /// [`Misread`] as [`Measure::read`].
    pub fn read(text: impl Into<EcoString>) -> Result<Self, Misread> {
        let text = text.into();
        let value = T::read(&text)?;
        Ok(Self { text, value })
    }

    /// The value.
    pub fn value(&self) -> T {
        self.value.clone()
    }

    /// The text as typed.
    pub fn text(&self) -> &str {
        &self.text
    }
}

impl<T> PartialEq for Typed<T> {
    fn eq(&self, other: &Self) -> bool {
        self.text == other.text
    }
}

impl<T> Eq for Typed<T> {}

impl<T> core::hash::Hash for Typed<T> {
    fn hash<H: core::hash::Hasher>(&self, state: &mut H) {
        self.text.hash(state);
    }
}
