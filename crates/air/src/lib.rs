//! Damp air and what it does to a wet wall: the state of the air, how fast water leaves a film or a coat, how long
//! a coat takes to dry, whether it may freeze before, and how much water a room can be rid of.
//!
//! Still air of 20 °C and half full of vapour: the face of a wet wall cools to 13.8 °C and gives off a little more
//! than half a litre a square metre and day.
//!
//! ```
//! use hodful_air::{Air, moist::STANDARD_PA, wall};
//!
//! let air = Air::new(20.0, 0.5, STANDARD_PA)?;
//! let face = wall::wet_face(&air, wall::STILL_ROOM_W_M2K, 0.0);
//! assert!((face.celsius - 13.78).abs() < 0.01);
//! assert!((face.kg_m2_h * 24.0 - 0.55).abs() < 0.01);
//! # Ok::<(), hodful_air::AirFault>(())
//! ```
//!
//! Everything is plain numbers. Temperatures are in °C, humidity is relative and from 0 to 1, and the unit of all
//! else is in the name (`_pa`, `_kg_m3`, `_w_m2k`) or beside it. Nobody has published how an earth coat dries by
//! its thickness and the air: what is said here of days is an estimate between bounds, never one date.
//!
//! Not here: files, projects, words for people, and any clock.

pub mod drying;
mod fault;
pub mod film;
pub mod frost;
mod hour;
pub mod moist;
pub mod outside;
pub mod room;
pub mod sun;
mod tolerance;
pub mod wall;
mod weather;

pub use fault::AirFault;
pub use hour::Hour;
pub use moist::Air;
pub use weather::{Span, Station, Weather, WeatherFault};
