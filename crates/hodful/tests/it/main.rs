//! The binary, run as a person would run it: each test in a folder of its own. Not here: figures.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::string_slice,
    clippy::float_cmp,
    clippy::format_push_string,
    clippy::format_collect,
    clippy::indexing_slicing,
    reason = "test helpers: a failure is the message"
)]

mod buying;
mod chances;
mod commands;
mod days;
mod export;
mod formats;
mod golden;
mod opening;
mod outlook;
mod readme;
mod run;
mod soils;
mod sweeping;
mod tables;
