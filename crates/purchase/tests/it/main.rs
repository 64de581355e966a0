//! The lists as a caller sees them: worked cases, everything tried on small cases, properties, refusals. Not
//! here: what only this crate's own modules can see.
#![allow(clippy::unwrap_used, clippy::panic, reason = "test helpers")]

mod brute;
mod cases;
mod made_up;
mod properties;
mod refusals;
