//! The shares of a jar: from heights of its layers to bounds, step by step as `jar` tells them. Not here: what is
//! read off a jar, and words about it.

use hodful_quantities::units::Length;

use super::{Cuts, JarFault, SETTLED_MASS};
use crate::fractions::{Fractions, Known, NotFractions, Shares};
use crate::sizes::System;
use crate::tolerance::MARK_MM;

/// Factors e in the decade of diameter below its limit that clay is spread over: finer still, the *Soil Survey
/// Manual* speaks of fine clay (under 0.2 µm, from memory), and hardly any of that falls while a jar stands.
const CLAY_SPAN: f64 = core::f64::consts::LN_10;

/// Shares of sand, silt and clay that sum to 1.
#[derive(Debug, Clone, Copy)]
pub(super) struct Split {
    sand: f64,
    silt: f64,
    clay: f64,
}

impl Split {
    /// From heights of the marks, and weights of the layers between them. `None` when nothing is there.
    pub(super) fn of_heights(
        [first, second, top]: [f64; 3],
        [sand, silt, clay]: [f64; 3],
    ) -> Option<Self> {
        let first = first.max(0.0);
        let second = second.max(first);
        let top = top.max(second);
        let weights = [first * sand, (second - first) * silt, (top - second) * clay];
        let whole: f64 = weights.iter().sum();
        let [sand, silt, clay] = weights.map(|weight| weight / whole);
        (whole.is_finite() && whole > 0.0).then_some(Self { sand, silt, clay })
    }

    pub(super) fn fractions(self, system: System) -> Result<Fractions, NotFractions> {
        Fractions::new(system, 0.0, self.sand, self.silt, self.clay)
    }

    /// Half way to another.
    fn middle(self, other: Self) -> Self {
        let mid = |a: f64, b: f64| f64::midpoint(a, b);
        Self {
            sand: mid(self.sand, other.sand),
            silt: mid(self.silt, other.silt),
            clay: mid(self.clay, other.clay),
        }
    }
}

/// Where the marks part the grains, and where they should.
pub(super) struct Bands {
    pub(super) cuts: Cuts,
    pub(super) right: Cuts,
}

impl Bands {
    /// Share of the silt layer in a factor e of diameter.
    fn slope(&self, split: Split) -> f64 {
        let span = libm::log(self.cuts.sand.value / self.cuts.silt.value);
        if span > 0.0 { split.silt / span } else { 0.0 }
    }

    /// The same soil parted at the limits of the system.
    fn at_limits(&self, split: Split) -> Split {
        let slope = self.slope(split);
        // Log of how much finer the right cut is; exactly nothing where they are one.
        let finer = |cut: Length, right: Length| libm::log(cut.value / right.value);
        let fines = split.silt + split.clay - slope * finer(self.cuts.sand, self.right.sand);
        let clay = split.clay - slope * finer(self.cuts.silt, self.right.silt);
        let fines = fines.clamp(0.0, 1.0);
        let clay = clay.clamp(0.0, fines);
        Split {
            sand: 1.0 - fines,
            silt: fines - clay,
            clay,
        }
    }

    /// With what may have fallen from low down put back: less sand, and more clay.
    fn fell_from_low(&self, split: Split) -> [Split; 2] {
        let span = libm::log(self.cuts.sand.value / self.cuts.silt.value);
        // No more than is still above, however close the marks are.
        let hidden = |above: f64, span: f64| above / (2.0 * span - 1.0).max(1.0);
        let from_sand = hidden(split.silt, span).min(split.sand);
        let from_silt = hidden(split.clay, CLAY_SPAN).min(split.silt);
        [
            Split {
                sand: split.sand - from_sand,
                silt: split.silt + from_sand,
                clay: split.clay,
            },
            Split {
                sand: split.sand,
                silt: split.silt - from_silt,
                clay: split.clay + from_silt,
            },
        ]
    }

    pub(super) fn shares(
        &self,
        system: System,
        marks_mm: [f64; 3],
        stand: Split,
        mass: Split,
    ) -> Result<Shares, JarFault> {
        let best = self.at_limits(stand).middle(self.at_limits(mass));
        let mut all = vec![best];
        for off in 0_u8..27 {
            let [first, second, top] = marks_mm;
            let by = |digit: u8| (f64::from(digit % 3) - 1.0) * MARK_MM;
            let read = [first + by(off), second + by(off / 3), top + by(off / 9)];
            for weights in [[1.0; 3], SETTLED_MASS] {
                let Some(split) = Split::of_heights(read, weights) else {
                    continue;
                };
                for split in [split, self.at_limits(split)] {
                    all.push(split);
                    all.extend(self.fell_from_low(split));
                }
            }
        }
        let known = |of: fn(&Split) -> f64| {
            let (least, most) = all
                .iter()
                .map(of)
                .fold((1.0_f64, 0.0_f64), |(least, most), share| {
                    (least.min(share), most.max(share))
                });
            Known::tidied(Some(of(&best)), least, most)
        };
        let none = Known::tidied(Some(0.0), 0.0, 0.0);
        Shares::new(
            system,
            none,
            known(|split| split.sand),
            known(|split| split.silt),
            known(|split| split.clay),
        )
        .map_err(|_| JarFault::NoLayers)
    }
}
