//! Published cases as data: their file format, and the units their answers are printed in.
//!
//! The cases themselves are JSON files in `cases/`, each case with its source. Running them belongs
//! to the tests; nothing here computes a figure of plaster.

pub mod case;
pub mod unit;
