//! Projects of many walls, made from a fixed seed, for measuring how fast the program is and how much memory it takes.
//!
//! - [`terrace`]: the projects;
//! - [`rings`]: the outlines and holes of their faces as plain rings, for another library to measure;
//! - [`memory`]: what this process has taken.
//!
//! The benches and the limits that must hold are in `benches/` and `src/bin/ratios/`. Not here: anything that the
//! program itself needs.

pub mod memory;
pub mod rings;
mod spelling;
pub mod terrace;
