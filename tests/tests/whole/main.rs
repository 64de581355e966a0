//! Properties of whole projects: what may change without changing a figure, and that every printed
//! formula comes to its figure. Not here: published answers (see `it`).

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

mod bench;
mod calculator;
mod chances;
mod compare;
mod days;
mod days_early;
mod days_rooms;
mod days_seen;
mod days_told;
mod days_weekend;
mod fields;
mod forecast;
mod formulas;
mod options;
mod orders;
mod plans;
mod projects;
mod properties;
mod refusals;
mod refusals_soils;
mod refusals_work;
