//! Figures that may be off: the spreads of inputs, draws from a seed, what is read off the drawn figures, which
//! input matters, and what is learnt from records.
//!
//! Forty square metres of wall and a coat of 12 mm, give or take 1.5 mm. Of a thickness that is normal the volume
//! is normal too, about 480 litres with a standard deviation of 60. Enough in nine of ten cases is
//! 480 + 1.2816 · 60 = 556.9 litres.
//!
//! ```
//! use hodful_chance::{Sample, Spread, draws};
//!
//! let thickness = Spread::normal(12.0, 1.5)?;
//! let litres = draws(40_000, 1, || (), |(), stream, _| 40.0 * thickness.draw(stream));
//! let litres = Sample::from(litres).ok_or("a draw is no number")?;
//! assert!((litres.mean() - 480.0).abs() < 3.0 * litres.standard_error());
//! assert!((litres.least_for(0.1) - 556.9).abs() < 1.5);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Everything is plain numbers, whatever their unit; the same seed gives the same draws on any number of cores.
//!
//! Not here: quantities, projects, where a spread comes from, and any clock, file or randomness besides the seed.

mod fault;
mod learn;
mod moments;
mod normals;
mod sample;
mod shares;
mod spread;
mod stream;
mod tolerance;

pub use fault::ChanceFault;
pub use learn::{Observation, Posterior, learn};
pub use normals::normals;
pub use sample::{Histogram, Sample};
pub use shares::{Inputs, rest, shares};
pub use spread::Spread;
pub use stream::{Stream, draws, normal};
pub use tolerance::CHUNK;
