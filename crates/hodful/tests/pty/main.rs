//! The program in a real terminal: a pseudo-terminal whose output is parsed to the screen a person would see.
//! Nothing sleeps: each step waits until the screen shows what it must, and fails when it does not in time.
//! Not here: what `update` and `draw` do, which needs no terminal.

#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "test helpers: a failure is the message"
)]

mod days;
mod ending;
mod recovery;
mod stopping;
mod storms;
mod terminal;
mod whole;
