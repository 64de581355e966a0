//! Tests of the crate from outside: properties, exact solids, cuts and overlaps, odd input.
//!
//! Published values of single formulas are tested beside the formulas.

#![expect(
    clippy::unwrap_used,
    reason = "what builds the input of a test is known to be sound"
)]
#![expect(
    clippy::disallowed_methods,
    reason = "an oracle takes its trigonometry from elsewhere than the code it checks"
)]

mod arbitrary;
mod build;
mod cuts;
mod faults;
mod invariants;
mod solids;
mod tiers;
