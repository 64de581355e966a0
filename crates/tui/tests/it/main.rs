//! The front end as a whole, without a terminal: played by keys, looked at as cells.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::cast_precision_loss,
    reason = "a test that cannot go on fails"
)]

mod days;
mod driver;
mod figures;
mod keys;
mod outlook;
mod readme;
mod screens;
mod sequences;
mod sizes;
mod svg;
mod work;
mod yard;
