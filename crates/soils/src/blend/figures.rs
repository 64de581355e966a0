//! A blend and its figures, held against what was asked. Not here: finding a blend.

use super::model::Model;
use super::parts::Rounded;
use super::requirement::{Limit, Requirement, Row, dot};
use super::tolerance::MET;

/// A blend of the candidates; every list is in their order.
#[derive(Debug, Clone, PartialEq)]
pub struct Blend {
    /// Shares of dry mass; they add up to 1.
    pub mass_shares: Vec<f64>,
    /// Shares of loose volume, as measured dry; they add up to 1.
    pub volume_parts: Vec<f64>,
    /// What is bought of each, share of the dry mass of the blend; the yard is used first.
    pub bought: Vec<f64>,
    /// Parts to count out in buckets that meet the target as well, or miss no limit by more than this blend;
    /// `None` when no rounded parts do.
    pub rounded: Option<Rounded>,
    /// The figure of every requirement, in the order of the target.
    pub figures: Vec<Figure>,
    /// Money per kilogram of dry blend; `None` when something bought has no price.
    pub cost: Option<f64>,
    /// Limits that the blend stands at, within a millionth of the blend.
    pub binding: Vec<Limit>,
    /// Limits that the blend does not keep, by more than a millionth of the blend. Empty for a blend that
    /// was found.
    pub missing: Vec<Miss>,
}

impl Blend {
    /// Everything bought, share of the dry mass of the blend.
    pub fn bought_share(&self) -> f64 {
        self.bought.iter().fold(0.0, |sum, bought| sum + bought)
    }

    /// The least margin of any figure, in widths of its range; `None` when nothing with a width is asked.
    pub fn margin(&self) -> Option<f64> {
        self.figures
            .iter()
            .filter_map(|figure| figure.margin_in_widths)
            .min_by(f64::total_cmp)
    }
}

/// What a blend comes to, by one requirement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// Which figure.
    pub requirement: Requirement,
    /// A share from 0 to 1, or a ratio: infinite when there is none of the other. `None` when the blend holds
    /// neither of the two.
    pub value: Option<f64>,
    /// The least that is allowed.
    pub least: Option<f64>,
    /// The most that is allowed.
    pub most: Option<f64>,
    /// How far inside the nearest end, in the unit of the figure; below 0 when outside. `None` without an
    /// end or a value.
    pub margin: Option<f64>,
    /// The same in widths of the range ([`super::Range::width`]); `None` also when the range has no width.
    pub margin_in_widths: Option<f64>,
}

/// A limit that a blend does not keep.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Miss {
    /// Which limit.
    pub limit: Limit,
    /// By how much, above 0: in the unit of the figure (infinite for a ratio to nothing); for a supply, share
    /// of the dry mass of the blend.
    pub by: f64,
}

impl Figure {
    /// The figure of a row for shares of dry mass.
    fn of(row: &Row, shares: &[f64]) -> Self {
        let (least, most) = (row.range.least(), row.range.most());
        let value = row.value(shares);
        let margin = value.and_then(|value| {
            let ends = [least.map(|l| value - l), most.map(|m| m - value)];
            ends.into_iter().flatten().min_by(f64::total_cmp)
        });
        let width = row.range.width();
        Self {
            requirement: row.requirement,
            value,
            least,
            most,
            margin,
            margin_in_widths: margin.filter(|_| width > 0.0).map(|m| m / width),
        }
    }
}

impl Model {
    /// The blend of shares of dry mass, without rounded parts.
    pub(super) fn blend_as_is(&self, shares: &[f64]) -> Blend {
        let bought = self.bought(shares);
        let mut paid = bought.iter().zip(&self.prices).filter(|(b, _)| **b > 0.0);
        let (mut binding, mut missing) = (Vec::new(), Vec::new());
        for row in &self.rows {
            for line in row.lines() {
                let slack = dot(&line.coefficients, shares);
                if slack < -MET {
                    let bound = match line.limit {
                        Limit::Least(_) => row.range.least(),
                        _ => row.range.most(),
                    };
                    let both = row.value(shares).zip(bound);
                    let by = both.map_or(0.0, |(value, bound)| (value - bound).abs());
                    let limit = line.limit;
                    missing.push(Miss { limit, by });
                } else if slack <= MET {
                    binding.push(line.limit);
                }
            }
        }
        for (i, (supply, share)) in self.supplies.iter().zip(shares).enumerate() {
            let limit = Limit::Supply(i);
            match supply.yard {
                Some(yard) if !supply.can_buy && *share > yard + MET => missing.push(Miss {
                    limit,
                    by: share - yard,
                }),
                Some(yard) if yard > 0.0 && *share >= yard - MET => binding.push(limit),
                _ => {}
            }
        }
        Blend {
            mass_shares: shares.to_vec(),
            volume_parts: self.volume_shares(shares),
            rounded: None,
            figures: self
                .rows
                .iter()
                .map(|row| Figure::of(row, shares))
                .collect(),
            cost: paid.try_fold(0.0, |sum, (bought, price)| Some(sum + bought * (*price)?)),
            bought,
            binding,
            missing,
        }
    }

    /// The blend of shares of dry mass, with the parts for people where there are any.
    pub(super) fn blend(&self, shares: &[f64]) -> Blend {
        let blend = self.blend_as_is(shares);
        Blend {
            rounded: self.rounded(&blend),
            ..blend
        }
    }

    /// Whether shares of dry mass keep every limit, or miss none by more than the shares `than` do.
    pub(super) fn keeps(&self, shares: &[f64], than: &[f64]) -> bool {
        let supplied = self.supplies.iter().zip(shares);
        let mut lines = self.rows.iter().flat_map(Row::lines);
        lines.all(|line| {
            let slack = |shares: &[f64]| dot(&line.coefficients, shares);
            slack(shares) >= (slack(than) + MET).min(0.0) - MET
        }) && supplied
            .into_iter()
            .all(|(supply, share)| supply.most().is_none_or(|most| *share <= most + MET))
    }
}
