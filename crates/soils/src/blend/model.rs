//! A question for a blend, checked and turned into plain numbers. Not here: answering it.

use hodful_quantities::units::{Mass, kilogram};

use super::requirement::{Line, Requirement, Row, grain_density, loose_density};
use super::tolerance::{NOTHING, SUM_OF_GRAINS};
use super::{BlendFault, Candidate, Range, Target};

/// Densities that a material may have, kg/m³: nothing loose is as light as air (1.2 kg/m³), no metal as
/// heavy as osmium (22 590 kg/m³; both from memory).
const DENSITIES: (f64, f64) = (1.0, 23_000.0);

/// Largest ratio that can be asked for: past it the smaller of the two is less than [`super::tolerance::MET`].
const LARGEST_RATIO: f64 = 1e6;

/// A question for a blend, checked.
#[derive(Debug, Clone)]
pub(super) struct Model {
    pub(super) rows: Vec<Row>,
    /// What there is of each material.
    pub(super) supplies: Vec<Supply>,
    /// Money per kilogram.
    pub(super) prices: Vec<Option<f64>>,
    /// Dry mass per loose volume, kg/m³.
    densities: Vec<f64>,
    /// Dry mass of blend that is wanted, kg.
    pub(super) amount: Option<f64>,
}

/// What there is of a material.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Supply {
    /// From the yard, share of the blend; `None` without limit.
    pub(super) yard: Option<f64>,
    /// Whether more can be bought.
    pub(super) can_buy: bool,
}

impl Supply {
    /// The most of the blend that the material can be; `None` without limit.
    pub(super) fn most(&self) -> Option<f64> {
        if self.can_buy { None } else { self.yard }
    }
}

impl Model {
    /// Checks the question; figures of materials that are not `used` may be unknown.
    pub(super) fn new(
        candidates: &[Candidate],
        target: &Target,
        amount: Option<Mass>,
        used: &[bool],
    ) -> Result<Self, BlendFault> {
        if candidates.is_empty() {
            return Err(BlendFault::NoCandidates);
        }
        let amount = amount.map(|m| m.get::<kilogram>());
        if let Some(kilograms) = amount
            && !(kilograms.is_finite() && kilograms > 0.0)
        {
            return Err(BlendFault::Amount { kilograms });
        }
        for (i, candidate) in candidates.iter().enumerate() {
            check(candidate).map_err(|(figure, value, allowed)| BlendFault::Material {
                candidate: i,
                figure,
                value,
                allowed,
            })?;
        }
        if target.shares.len() > candidates.len() {
            return Err(BlendFault::TooManyShares {
                ranges: target.shares.len(),
                candidates: candidates.len(),
            });
        }
        let mut rows = Vec::new();
        for (requirement, range) in asked(target) {
            check_range(requirement, &range)?;
            match Row::new(candidates, target, requirement, range, used) {
                Ok(row) => rows.push(row),
                // Nothing is asked of it, so it need not be known.
                Err(BlendFault::Unknown { .. }) if range == Range::default() => {}
                Err(fault) => return Err(fault),
            }
        }
        Ok(Self {
            rows,
            supplies: candidates.iter().map(|c| supply(c, amount)).collect(),
            prices: candidates.iter().map(|c| c.price).collect(),
            densities: candidates.iter().map(loose_density).collect(),
            amount,
        })
    }

    /// Whether anything can be had at all.
    pub(super) fn check_to_have(&self) -> Result<(), BlendFault> {
        if self.supplies.iter().all(|s| s.most() == Some(0.0)) {
            return Err(BlendFault::NothingToHave);
        }
        Ok(())
    }

    /// Whether everything that can be bought has a price.
    pub(super) fn check_prices(&self) -> Result<(), BlendFault> {
        let both = self.supplies.iter().zip(&self.prices);
        match both
            .enumerate()
            .find(|(_, (supply, price))| supply.can_buy && price.is_none())
        {
            Some((candidate, _)) => Err(BlendFault::NoPrice { candidate }),
            None => Ok(()),
        }
    }

    /// How many materials there are.
    pub(super) fn count(&self) -> usize {
        self.supplies.len()
    }

    /// Every bounded end of every requirement.
    pub(super) fn lines(&self) -> Vec<Line> {
        self.rows.iter().flat_map(Row::lines).collect()
    }

    /// Shares of dry mass from loose volume parts; `None` when they are no parts.
    pub(super) fn mass_shares(&self, parts: &[f64]) -> Option<Vec<f64>> {
        if parts.len() != self.count() || !parts.iter().all(|p| p.is_finite() && *p >= 0.0) {
            return None;
        }
        let largest = parts.iter().copied().fold(0.0, f64::max);
        scaled(
            parts
                .iter()
                .zip(&self.densities)
                .map(|(p, d)| p / largest * d),
        )
    }

    /// Shares of loose volume from shares of dry mass.
    pub(super) fn volume_shares(&self, shares: &[f64]) -> Vec<f64> {
        scaled(shares.iter().zip(&self.densities).map(|(s, d)| s / d)).unwrap_or_default()
    }

    /// What is bought of each material when the yard is used first, share of the blend.
    pub(super) fn bought(&self, shares: &[f64]) -> Vec<f64> {
        let both = shares.iter().zip(&self.supplies);
        both.map(|(share, supply)| match supply.yard {
            Some(yard) if supply.can_buy && share - yard >= NOTHING => share - yard,
            _ => 0.0,
        })
        .collect()
    }
}

/// Numbers scaled so that they add up to 1; `None` when they add up to nothing.
pub(super) fn scaled(values: impl Iterator<Item = f64>) -> Option<Vec<f64>> {
    let values: Vec<f64> = values.collect();
    let sum: f64 = values.iter().sum();
    (sum.is_finite() && sum > 0.0).then(|| values.iter().map(|v| v / sum).collect())
}

fn supply(candidate: &Candidate, amount: Option<f64>) -> Supply {
    let there = candidate.in_yard.get::<kilogram>();
    Supply {
        yard: match amount {
            // More than is wanted is no limit.
            Some(amount) => Some(there / amount).filter(|share| *share < 1.0),
            None => (there <= 0.0).then_some(0.0),
        },
        can_buy: candidate.can_buy,
    }
}

/// Everything that a target asks for, in order.
fn asked(target: &Target) -> Vec<(Requirement, Range)> {
    let single = [
        (Requirement::Clay, target.clay),
        (Requirement::Silt, target.silt),
        (Requirement::SandToClay, target.sand_to_clay),
        (Requirement::SandToRest, target.sand_to_rest),
    ];
    let single = single
        .into_iter()
        .filter_map(|(r, range)| Some((r, range?)));
    let sieves = target.sieves.iter().enumerate();
    let sieves = sieves.map(|(i, (_, range))| (Requirement::Passing(i), *range));
    let shares = target.shares.iter().enumerate();
    let shares = shares.filter_map(|(i, range)| Some((Requirement::Share(i), (*range)?)));
    single.chain(sieves).chain(shares).collect()
}

fn check_range(requirement: Requirement, range: &Range) -> Result<(), BlendFault> {
    let (largest, allowed) = if requirement.is_ratio() {
        (LARGEST_RATIO, "a ratio from 0 to a million")
    } else {
        (1.0, "a share from 0 to 1")
    };
    for value in [range.least(), range.most()].into_iter().flatten() {
        if !(0.0..=largest).contains(&value) {
            return Err(BlendFault::Target {
                requirement,
                value,
                allowed,
            });
        }
    }
    Ok(())
}

/// The first figure of a material that cannot be, with what it may be.
fn check(candidate: &Candidate) -> Result<(), (&'static str, f64, &'static str)> {
    let densities = [
        ("the loose density", loose_density(candidate)),
        ("the density of the grains", grain_density(candidate)),
    ];
    for (figure, value) in densities {
        if !(DENSITIES.0..=DENSITIES.1).contains(&value) {
            return Err((figure, value, "between 1 and 23 000 kg/m³"));
        }
    }
    if let Some(grains) = &candidate.grains {
        let shares = [
            ("the clay", grains.clay),
            ("the silt", grains.silt),
            ("the sand", grains.sand),
            ("the gravel", grains.gravel),
        ];
        for (figure, value) in shares {
            if !(0.0..=1.0).contains(&value) {
                return Err((figure, value, "a share from 0 to 1"));
            }
        }
        let sum: f64 = shares.iter().map(|(_, share)| share).sum();
        if (sum - 1.0).abs() > SUM_OF_GRAINS {
            return Err(("the sum of clay, silt, sand and gravel", sum, "1"));
        }
    }
    for (_, share) in &candidate.passing {
        if !(0.0..=1.0).contains(share) {
            return Err(("what passes a sieve", *share, "a share from 0 to 1"));
        }
    }
    let yard = candidate.in_yard.get::<kilogram>();
    if !(yard.is_finite() && yard >= 0.0) {
        return Err(("the mass in the yard", yard, "a number not below 0"));
    }
    if let Some(price) = candidate.price
        && !(price.is_finite() && price >= 0.0)
    {
        return Err(("the price", price, "a number not below 0"));
    }
    Ok(())
}
