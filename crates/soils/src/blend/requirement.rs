//! What a target asks of a blend, as rows: every figure is a part of a whole, both of them sums over the
//! materials. The same row states the requirement to the solver and works out the figure of a blend.
//! Not here: the solver, and checking what was typed.

use core::fmt;

use hodful_quantities::units::kilogram_per_cubic_meter;

use super::tolerance::SAME_SIEVE;
use super::{BlendFault, Candidate, Range, Target};

/// One thing that is asked of a blend.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Requirement {
    /// Clay, share of dry mass.
    Clay,
    /// Silt, share of dry mass.
    Silt,
    /// Volume of sand grains to volume of clay grains.
    SandToClay,
    /// Loose volume of the sand materials to loose volume of the others.
    SandToRest,
    /// Share of dry mass that passes a sieve, by its place in [`Target::sieves`].
    Passing(usize),
    /// Share of loose volume of a material, by its place among the candidates.
    Share(usize),
}

impl Requirement {
    /// Whether the figure is a ratio of two things, from 0 without end, rather than a share from 0 to 1.
    pub fn is_ratio(self) -> bool {
        matches!(self, Self::SandToClay | Self::SandToRest)
    }
}

impl fmt::Display for Requirement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Clay => f.write_str("clay"),
            Self::Silt => f.write_str("silt"),
            Self::SandToClay => f.write_str("sand grains to clay grains"),
            Self::SandToRest => f.write_str("sand to the other materials"),
            Self::Passing(sieve) => write!(f, "what passes sieve no. {}", sieve + 1),
            Self::Share(candidate) => write!(f, "the share of material no. {}", candidate + 1),
        }
    }
}

/// A single limit on a blend: one end of a requirement, or what there is of a material.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Limit {
    /// The least that a requirement allows.
    Least(Requirement),
    /// The most that a requirement allows.
    Most(Requirement),
    /// What is in the yard of a material, by its place among the candidates.
    Supply(usize),
}

impl fmt::Display for Limit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Least(requirement) => write!(f, "the least of {requirement}"),
            Self::Most(requirement) => write!(f, "the most of {requirement}"),
            Self::Supply(candidate) => {
                write!(f, "what is in the yard of material no. {}", candidate + 1)
            }
        }
    }
}

/// A requirement as sums over the dry mass shares: the part that is asked about, and the rest of the whole.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Row {
    pub(super) requirement: Requirement,
    pub(super) range: Range,
    part: Vec<f64>,
    rest: Vec<f64>,
}

/// One end of a row: the limit, and coefficients whose sum with the shares must not be below 0.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    pub(super) limit: Limit,
    pub(super) coefficients: Vec<f64>,
}

/// The sum of products; what one side lacks counts as 0.
pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

impl Row {
    /// The row of a requirement. What a material lacks counts as 0 where `used` says it is not used.
    pub(super) fn new(
        candidates: &[Candidate],
        target: &Target,
        requirement: Requirement,
        range: Range,
        used: &[bool],
    ) -> Result<Self, BlendFault> {
        // Volumes on the scale of the lightest material, so that they are shares as masses are.
        let lightest =
            |of: fn(&Candidate) -> f64| candidates.iter().map(of).fold(f64::MAX, f64::min);
        let (loose, grain) = (lightest(loose_density), lightest(grain_density));
        let mut row = Self {
            requirement,
            range,
            part: Vec::with_capacity(candidates.len()),
            rest: Vec::with_capacity(candidates.len()),
        };
        for (i, candidate) in candidates.iter().enumerate() {
            let split = |share: f64| (share, 1.0 - share);
            let volume = loose / loose_density(candidate);
            let either = |is_part: bool| {
                if is_part {
                    (volume, 0.0)
                } else {
                    (0.0, volume)
                }
            };
            let found = match requirement {
                Requirement::Clay => candidate.grains.map(|g| split(g.clay)),
                Requirement::Silt => candidate.grains.map(|g| split(g.silt)),
                Requirement::SandToClay => {
                    let scale = grain / grain_density(candidate);
                    candidate.grains.map(|g| (g.sand * scale, g.clay * scale))
                }
                Requirement::SandToRest => Some(either(candidate.is_sand)),
                Requirement::Share(which) => Some(either(which == i)),
                Requirement::Passing(sieve) => {
                    let opening = target.sieves.get(sieve).map_or(f64::NAN, |s| s.0.value);
                    let same = |size: f64| (size - opening).abs() <= opening * SAME_SIEVE;
                    let at = candidate.passing.iter().find(|(size, _)| same(size.value));
                    at.map(|(_, share)| split(*share))
                }
            };
            let (part, rest) = match found {
                Some(found) => found,
                None if used.get(i) == Some(&false) => (0.0, 0.0),
                None => {
                    return Err(BlendFault::Unknown {
                        candidate: i,
                        requirement,
                    });
                }
            };
            row.part.push(part);
            row.rest.push(rest);
        }
        Ok(row)
    }

    /// The part and the rest of a blend, in shares of the blend.
    pub(super) fn sums(&self, shares: &[f64]) -> (f64, f64) {
        (dot(&self.part, shares), dot(&self.rest, shares))
    }

    /// The coefficients of the part, and of the rest.
    pub(super) fn coefficients(&self) -> (&[f64], &[f64]) {
        (&self.part, &self.rest)
    }

    /// The figure of a blend: a share, or a ratio; a ratio to nothing is infinite, and `None` stands where
    /// the blend holds neither of the two.
    pub(super) fn value(&self, shares: &[f64]) -> Option<f64> {
        let (part, rest) = self.sums(shares);
        let whole = part + rest;
        if whole <= 0.0 {
            None
        } else if self.requirement.is_ratio() {
            Some(part / rest)
        } else {
            Some(part / whole)
        }
    }

    /// A bound of the figure as a share of the whole: a ratio r of two things is r/(1 + r) of both.
    fn of_whole(&self, bound: f64) -> f64 {
        if self.requirement.is_ratio() {
            bound / (1.0 + bound)
        } else {
            bound
        }
    }

    /// Coefficients of: the figure is at least `bound`. Linear also for a ratio, whose part and rest are
    /// both sums: part·(1 − b) − rest·b ≥ 0 with b the bound's share of the whole.
    pub(super) fn at_least(&self, bound: f64) -> Vec<f64> {
        let share = self.of_whole(bound);
        let both = self.part.iter().zip(&self.rest);
        both.map(|(part, rest)| part * (1.0 - share) - rest * share)
            .collect()
    }

    /// Coefficients of: the figure is at most `bound`.
    pub(super) fn at_most(&self, bound: f64) -> Vec<f64> {
        let mut coefficients = self.at_least(bound);
        for c in &mut coefficients {
            *c = -*c;
        }
        coefficients
    }

    /// The ends that are bounded.
    pub(super) fn lines(&self) -> impl Iterator<Item = Line> {
        let least = self.range.least().map(|bound| Line {
            limit: Limit::Least(self.requirement),
            coefficients: self.at_least(bound),
        });
        let most = self.range.most().map(|bound| Line {
            limit: Limit::Most(self.requirement),
            coefficients: self.at_most(bound),
        });
        least.into_iter().chain(most)
    }
}

/// Dry mass per loose volume, kg/m³.
pub(super) fn loose_density(candidate: &Candidate) -> f64 {
    candidate.loose_density.get::<kilogram_per_cubic_meter>()
}

/// Mass per volume of the grains, kg/m³.
pub(super) fn grain_density(candidate: &Candidate) -> f64 {
    candidate.grain_density.get::<kilogram_per_cubic_meter>()
}
