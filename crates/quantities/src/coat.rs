//! The volume of a coat: a layer over a surface, what only the first coat carries, drying
//! shrinkage and loss. Not here: how large the surface is.

use crate::fraction::Fraction;
use crate::units::{Area, Length, Volume};

/// A surface to be plastered, with what its edges and bends do to an offset from it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Surface {
    /// Area of the background.
    pub area: Area,
    /// Surface gained per length of offset: positive at convex edges, negative in internal angles.
    pub growth: Length,
}

impl Surface {
    /// Volume of the layer that starts `from` above the background and is `thickness` thick.
    ///
    /// `t·(A + K·(2a + t)/2)` with `A` the area, `K` the growth, `a` the start and `t` the thickness:
    /// the offset area `A + K·x` summed from `a` to `a + t`.
    ///
    /// Source: Steiner's formula for parallel surfaces; for one edge it is Pappus' theorem.
    ///
    /// ```
    /// use hodful_quantities::{Surface, units::{Area, Length, square_meter, millimeter, liter}};
    /// let wall = Surface { area: Area::new::<square_meter>(1.0), ..Surface::default() };
    /// let litres = wall
    ///     .layer(Length::new::<millimeter>(0.0), Length::new::<millimeter>(1.0))
    ///     .get::<liter>();
    /// assert!((litres - 1.0).abs() < 1e-12);
    /// ```
    pub fn layer(&self, from: Length, thickness: Length) -> Volume {
        thickness * (self.area + self.growth * (from * 2.0 + thickness) / 2.0)
    }
}

/// What only the first coat carries, on top of its layer.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FirstCoat {
    /// Dubbing out: mean depth × field of the faces.
    pub dubbing_out: Volume,
    /// Key of lath strips.
    pub lath_key: Volume,
    /// Pockets filled on their own.
    pub pockets: Volume,
    /// Coves in internal angles.
    pub coves: Volume,
}

impl FirstCoat {
    /// All of it together.
    pub fn total(&self) -> Volume {
        self.dubbing_out + self.lath_key + self.pockets + self.coves
    }
}

/// A coat from the wall back to the mixer.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct CoatVolume {
    /// Dry, on the wall.
    pub placed: Volume,
    /// As it goes on the wall, before it shrinks.
    pub wet: Volume,
    /// What must be mixed.
    pub mixed: Volume,
}

impl CoatVolume {
    /// Works back from the placed volume: `wet = placed / (1 − shrinkage)`,
    /// `mixed = wet / (1 − loss)`.
    ///
    /// `shrinkage` is of thickness, per wet thickness; `loss` is per mixed volume.
    ///
    /// ```
    /// use hodful_quantities::{CoatVolume, Fraction, units::*};
    /// let tenth = Fraction::new(Ratio::new::<percent>(10.0)).unwrap();
    /// let coat = CoatVolume::new(Volume::new::<liter>(81.0), tenth, tenth);
    /// assert!((coat.mixed.get::<liter>() - 100.0).abs() < 1e-9);
    /// ```
    pub fn new(placed: Volume, shrinkage: Fraction, loss: Fraction) -> Self {
        let wet = placed / shrinkage.left();
        Self {
            placed,
            wet,
            mixed: wet / loss.left(),
        }
    }
}
