//! Soils: particle sizes, texture, settling in a jar, readings in the field, heaps, and blending.
//!
//! Shares are of dry mass, from 0 to 1, unless a name says otherwise. Not here: the project, materials
//! as they are bought, drawings, and any input or output.

pub mod blend;
pub mod bulking;
pub mod field;
pub mod fractions;
pub mod grading;
pub mod heap;
pub mod jar;
pub mod settling;
pub mod sizes;
pub mod texture;
mod tolerance;
mod words;
