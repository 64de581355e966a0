//! Quantities of plaster: units as they are typed, coats, mixes, yields, batches, packages, orders.
//!
//! Here belongs everything that turns a surface into what must be mixed and delivered. Not here:
//! the geometry of walls, the project as a whole, files, and any input or output.

// The units library's macros call one another by bare name.
#[macro_use]
extern crate uom;

pub mod batch;
pub mod coat;
pub mod fraction;
pub mod mix;
pub mod order;
pub mod print;
pub mod read;
pub mod tolerance;
pub mod typed;
pub mod units;

pub use batch::{Batches, Counted};
pub use coat::{CoatVolume, FirstCoat, Surface};
pub use fraction::{Fraction, NotAFraction};
pub use typed::{Measure, Misread, Typed};
