//! Shares that are known within bounds, because a test is rough or a curve ends early. Not here: where bounds come
//! from (`grading`, `jar`).

use core::fmt;

use super::{FineEarth, Fractions, Part};
use crate::sizes::System;
use crate::tolerance::SAME_SHARE;
use crate::words::Percent;

/// A share that is known within bounds: `0 <= least <= best <= most <= 1`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known {
    best: Option<f64>,
    least: f64,
    most: f64,
}

impl Known {
    /// Checks bounds, and the best guess between them; `None` when nothing between them is likelier than
    /// anything else.
    ///
    /// # Errors
    /// [`NotKnown`] when they are no numbers from 0 to 1, or stand in the wrong order.
    pub fn new(best: Option<f64>, least: f64, most: f64) -> Result<Self, NotKnown> {
        let fault = NotKnown { best, least, most };
        let ordered = 0.0 <= least
            && least <= most
            && most <= 1.0
            && best.is_none_or(|best| (least..=most).contains(&best));
        ordered.then_some(Self { best, least, most }).ok_or(fault)
    }

    /// One value, without doubt.
    ///
    /// # Errors
    /// [`NotKnown`] when it is no number from 0 to 1.
    pub fn exactly(share: f64) -> Result<Self, NotKnown> {
        Self::new(Some(share), share, share)
    }

    /// The best guess, if there is one.
    pub fn best(&self) -> Option<f64> {
        self.best
    }

    /// It is not less than this.
    pub fn least(&self) -> f64 {
        self.least
    }

    /// It is not more than this.
    pub fn most(&self) -> f64 {
        self.most
    }

    /// Whether it is one value.
    pub fn is_exact(&self) -> bool {
        self.most - self.least <= SAME_SHARE
    }

    /// From values that are known to be near 0 to 1 and in order, but for rounding.
    pub(crate) fn tidied(best: Option<f64>, least: f64, most: f64) -> Self {
        // A NaN goes to the bound, so that no odd number gets past here.
        let into = |value: f64, low: f64, high: f64| value.max(low).min(high);
        let least = into(least, 0.0, 1.0);
        let most = into(most, least, 1.0);
        Self {
            best: best.map(|best| into(best, least, most)),
            least,
            most,
        }
    }
}

/// Bounds that are none.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error(
    "a share between {} and {}{} cannot be; give 0 to 100 %, the smaller bound first and the best guess between",
    Percent(*.least), Percent(*.most), Guess(*.best)
)]
pub struct NotKnown {
    /// Best guess as given.
    pub best: Option<f64>,
    /// Lower bound as given.
    pub least: f64,
    /// Upper bound as given.
    pub most: f64,
}

struct Guess(Option<f64>);

impl fmt::Display for Guess {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0
            .map_or(Ok(()), |best| write!(f, ", at best {}", Percent(best)))
    }
}

/// Shares of the whole dry mass that are known within bounds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shares {
    system: System,
    gravel: Known,
    sand: Known,
    silt: Known,
    clay: Known,
}

/// Sand, silt and clay within bounds, as shares of what is finer than gravel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FineShares {
    /// Share from 0 to 1.
    pub sand: Known,
    /// Share from 0 to 1.
    pub silt: Known,
    /// Share from 0 to 1.
    pub clay: Known,
}

impl Shares {
    /// Checks that the bounds leave room for a whole, and draws in what cannot be reached: when the others are
    /// at least 80 %, none is more than 20 %.
    ///
    /// # Errors
    /// [`NotShares`] when the least together are over the whole, the most together under it, or four best
    /// guesses are not the whole.
    pub fn new(
        system: System,
        gravel: Known,
        sand: Known,
        silt: Known,
        clay: Known,
    ) -> Result<Self, NotShares> {
        let all = [gravel, sand, silt, clay];
        let least: f64 = all.iter().map(Known::least).sum();
        let most: f64 = all.iter().map(Known::most).sum();
        if least > 1.0 + SAME_SHARE {
            return Err(NotShares::TooMuch { least });
        }
        if most < 1.0 - SAME_SHARE {
            return Err(NotShares::TooLittle { most });
        }
        if let Some(sum) = all.iter().map(Known::best).sum::<Option<f64>>()
            && (sum - 1.0).abs() > SAME_SHARE
        {
            return Err(NotShares::Best { sum });
        }
        let drawn = all.map(|known| {
            let others_least = least - known.least;
            let others_most = most - known.most;
            Known::tidied(
                known.best,
                known.least.max(1.0 - others_most),
                known.most.min(1.0 - others_least),
            )
        });
        let [gravel, sand, silt, clay] = drawn;
        Ok(Self {
            system,
            gravel,
            sand,
            silt,
            clay,
        })
    }

    /// Nothing known of any part.
    pub fn unknown(system: System) -> Self {
        let open = Known::tidied(None, 0.0, 1.0);
        Self {
            system,
            gravel: open,
            sand: open,
            silt: open,
            clay: open,
        }
    }

    /// The system of sizes they are meant in.
    pub fn system(&self) -> System {
        self.system
    }

    /// Gravel and coarser, of the whole.
    pub fn gravel(&self) -> Known {
        self.gravel
    }

    /// Sand, of the whole.
    pub fn sand(&self) -> Known {
        self.sand
    }

    /// Silt, of the whole.
    pub fn silt(&self) -> Known {
        self.silt
    }

    /// Clay, of the whole.
    pub fn clay(&self) -> Known {
        self.clay
    }

    /// One part, of the whole.
    pub fn share(&self, part: Part) -> Known {
        match part {
            Part::Gravel => self.gravel,
            Part::Sand => self.sand,
            Part::Silt => self.silt,
            Part::Clay => self.clay,
        }
    }

    /// The best guesses as one soil; `None` when one of them is wanting.
    pub fn best(&self) -> Option<Fractions> {
        Fractions::new(
            self.system,
            self.gravel.best?,
            self.sand.best?,
            self.silt.best?,
            self.clay.best?,
        )
        .ok()
    }

    /// Bounds of sand, silt and clay in what is finer than gravel; `None` when all of it may only be gravel.
    ///
    /// Each bound is one that some soil within these shares reaches.
    pub fn of_fines(&self) -> Option<FineShares> {
        let corners = self.fine_corners();
        let best = self.best().and_then(|best| best.of_fines());
        let bounds = |of: fn(&FineEarth) -> f64| {
            let (least, most) = corners
                .iter()
                .map(of)
                .fold((1.0_f64, 0.0_f64), |(least, most), share| {
                    (least.min(share), most.max(share))
                });
            Known::tidied(best.as_ref().map(of), least, most)
        };
        (!corners.is_empty()).then(|| FineShares {
            sand: bounds(|fine| fine.sand),
            silt: bounds(|fine| fine.silt),
            clay: bounds(|fine| fine.clay),
        })
    }

    /// Corners of all the soils within these shares, as fine earth: their convex hull is all of them.
    ///
    /// The soils are a box cut by the plane on which shares sum to 1; at its corners three shares are at a
    /// bound. Leaving the gravel out is a view from the all-gravel soil, which keeps straight lines straight,
    /// so corners stay corners; the all-gravel soil itself has no fine earth and adds none.
    pub(crate) fn fine_corners(&self) -> Vec<FineEarth> {
        let all = [self.gravel, self.sand, self.silt, self.clay];
        let mut corners = Vec::new();
        for free in 0..all.len() {
            for choice in 0_u8..8 {
                let mut choice = choice;
                let mut at = all.map(|known| known.least);
                for (index, (share, known)) in at.iter_mut().zip(&all).enumerate() {
                    if index == free {
                        *share = 0.0;
                        continue;
                    }
                    if choice % 2 == 1 {
                        *share = known.most;
                    }
                    choice /= 2;
                }
                let rest = 1.0 - at.iter().sum::<f64>();
                let fits = all.get(free).is_some_and(|known| {
                    rest >= known.least - SAME_SHARE && rest <= known.most + SAME_SHARE
                });
                if let Some(share) = at.get_mut(free)
                    && fits
                {
                    *share = rest.max(0.0);
                    let [gravel, sand, silt, clay] = at;
                    corners.extend(
                        Fractions::new(self.system, gravel.min(1.0), sand, silt, clay)
                            .ok()
                            .and_then(|soil| soil.of_fines()),
                    );
                }
            }
        }
        corners
    }
}

impl From<Fractions> for Shares {
    fn from(soil: Fractions) -> Self {
        let exactly = |share| Known::tidied(Some(share), share, share);
        Self {
            system: soil.system,
            gravel: exactly(soil.gravel),
            sand: exactly(soil.sand),
            silt: exactly(soil.silt),
            clay: exactly(soil.clay),
        }
    }
}

/// Why bounds are not those of a soil.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum NotShares {
    /// The lower bounds are over the whole.
    #[error("the lower bounds come to {} together; lower one, so that 100 % can be met", Percent(*.least))]
    TooMuch {
        /// What they come to.
        least: f64,
    },
    /// The upper bounds are under the whole.
    #[error("the upper bounds come to {} together; raise one, so that 100 % can be met", Percent(*.most))]
    TooLittle {
        /// What they come to.
        most: f64,
    },
    /// The best guesses are not the whole.
    #[error("the best guesses come to {} together; change them so that they come to 100 %", Percent(*.sum))]
    Best {
        /// What they come to.
        sum: f64,
    },
}

#[cfg(test)]
mod tests {
    use super::*;

    fn known(least: f64, most: f64) -> Known {
        Known::new(None, least, most).unwrap()
    }

    #[test]
    fn bounds_that_cannot_be_reached_are_drawn_in() {
        let shares = Shares::new(
            System::Usda,
            known(0.0, 0.0),
            known(0.5, 1.0),
            known(0.3, 0.4),
            known(0.0, 1.0),
        )
        .unwrap();
        assert!((shares.clay().most() - 0.2).abs() < 1e-12);
        assert!((shares.sand().most() - 0.7).abs() < 1e-12);
        assert!((shares.sand().least() - 0.5).abs() < 1e-12);
    }

    /// By hand: all but the sand are 0.6 together at most, so sand is 0.4 at least; then gravel is 0.2, and sand is
    /// half of the rest.
    #[test]
    fn what_the_others_cannot_be_is_left_to_one() {
        let few = known(0.0, 0.2);
        let shares = Shares::new(System::Usda, few, known(0.0, 1.0), few, few).unwrap();
        assert!((shares.sand().least() - 0.4).abs() < 1e-12);
        assert!((shares.of_fines().unwrap().sand.least() - 0.5).abs() < 1e-12);
    }

    /// By hand: with no gravel clay is 0.1 to 0.2 of all; with half gravel, 0.2 to 0.4 of the rest.
    #[test]
    fn gravel_widens_the_fine_bounds() {
        let shares = Shares::new(
            System::Usda,
            known(0.0, 0.5),
            known(0.0, 1.0),
            known(0.0, 1.0),
            known(0.1, 0.2),
        )
        .unwrap();
        let fine = shares.of_fines().unwrap();
        assert!((fine.clay.least() - 0.1).abs() < 1e-12);
        assert!((fine.clay.most() - 0.4).abs() < 1e-12);
    }

    #[test]
    fn faults_say_what_to_do() {
        let fault = Known::new(Some(0.5), 0.1, 0.2).unwrap_err();
        assert_eq!(
            fault.to_string(),
            "a share between 10 % and 20 %, at best 50 % cannot be; give 0 to 100 %, the smaller bound first \
             and the best guess between"
        );
        let fault = Shares::new(
            System::Usda,
            known(0.6, 0.7),
            known(0.6, 0.7),
            known(0.0, 1.0),
            known(0.0, 1.0),
        );
        assert_eq!(fault, Err(NotShares::TooMuch { least: 1.2 }));
    }
}
