//! Tests of damp air: each figure beside where it was found. Not here: reference libraries, which the cross-check
//! asks (`tests/crosscheck/air.py`).
#![allow(clippy::unwrap_used, clippy::panic, reason = "test helpers")]

mod drying;
mod film;
mod frost;
mod moist;
mod odd;
mod outside;
mod properties;
mod room;
mod sun;
mod wall;
mod weather;

use hodful_air::{Air, moist::STANDARD_PA};

/// Air at sea level.
fn air(celsius: f64, humidity: f64) -> Air {
    Air::new(celsius, humidity, STANDARD_PA).unwrap()
}

/// Fails when a figure is further from the expected one than may be.
#[track_caller]
fn near(what: &str, found: f64, expected: f64, may: f64) {
    assert!(
        (found - expected).abs() <= may,
        "{what}: {found}, expected {expected} ± {may}"
    );
}
