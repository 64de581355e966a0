//! Documents and pictures through every format, from outside. Not here: parts of the crate on their own.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot go on fails"
)]

mod bars;
mod golden;
mod odd;
mod project;
mod sound;
mod workbook;
