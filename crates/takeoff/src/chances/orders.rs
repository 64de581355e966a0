//! Orders held against what may be needed. Not here: the needs themselves.

use super::{Chances, FigureChances};
use crate::check::done::deliveries;
use crate::check::values::Values;
use crate::compare::{Line, One};
use crate::evaluate::{Evaluation, MaterialFigures};
use crate::project::{MaterialKind, Name};
use hodful_quantities::mix::Quantity;
use hodful_quantities::order::{Cover, Holds, Offer, cover, round_up};
use hodful_quantities::units::{Mass, Volume};

/// A material that is ordered.
#[derive(Debug, Clone, PartialEq)]
pub struct Ordered {
    /// Its name.
    pub material: Name,
    /// What lay in the yard at the start.
    pub stock: Quantity,
    /// What came since, as the project says; `None` when nothing is said.
    pub came: Option<Quantity>,
    /// What is ordered as it is worked out, nothing being off; `None` when no package covers it.
    pub cover: Option<Cover>,
    /// What lies in the yard and that order together, as far as its packages can be told in a measure.
    pub there: Quantity,
    /// How often that is short, 0 to 1; `None` when it cannot be told.
    pub short: Option<f64>,
    /// Position in the project.
    at: usize,
    /// The order goes by mass and not by volume.
    by_mass: bool,
    offers: Vec<Offer>,
}

impl Ordered {
    /// Every material that some coat takes, but water.
    pub(super) fn all(one: &One<'_>) -> Vec<Self> {
        let all_came = deliveries(one.project, one.site, &mut Values::default());
        let came = |at: usize| {
            let own = all_came.iter().flatten().filter(|(of, _)| *of == at);
            own.map(|(_, came)| *came)
                .reduce(|sum, came| sum.plus(&came))
        };
        let materials = one.project.materials.iter().enumerate();
        let each = materials.filter_map(|(at, (name, material))| {
            let figures = one.evaluation.materials.get(at)?;
            let is_taken = !figures.uses.is_empty() && !figures.waits;
            if !is_taken || material.kind == MaterialKind::Water {
                return None;
            }
            let offers = one.site.materials.get(at)?.offers.clone();
            let by_mass = match offers.first() {
                Some(offer) => matches!(offer.holds, Holds::Mass(_)),
                None => figures.delivered.loose.is_none(),
            };
            Some(Self {
                material: name.clone(),
                stock: figures.stock,
                came: came(at),
                cover: figures.cover.clone(),
                there: there(figures),
                short: None,
                at,
                by_mass,
                offers,
            })
        });
        each.collect()
    }

    /// Short in so many of the draws.
    pub(super) fn with(mut self, short: Option<usize>, draws: usize) -> Self {
        #[allow(clippy::cast_precision_loss, reason = "counts stay below 2^53")]
        let share = |short: usize| short as f64 / draws as f64;
        self.short = short.map(share);
        self
    }

    /// Whether the plain order is short in a draw.
    pub(super) fn is_short(&self, drawn: &Evaluation) -> Option<bool> {
        let figures = drawn.materials.get(self.at)?;
        if figures.uses.is_empty() && !figures.waits {
            return Some(false);
        }
        let needed = figures.cover.as_ref()?;
        let ordered = self.cover.as_ref()?;
        if needed.counts.is_empty() {
            return Some(false);
        }
        let mut times = 0.0;
        for (offer, count) in &ordered.counts {
            #[allow(clippy::cast_precision_loss, reason = "at most 1e15")]
            let count = *count as f64;
            times += count * self.offers.get(*offer)?.holds.share_of(&figures.to_buy)?;
        }
        // How often that order would have to be made, a hair of rounding forgiven as in the order itself.
        Some(round_up(1.0 / times).is_none_or(|orders| orders > 1))
    }

    /// Packages for a need, what lies in the yard taken off; `None` when none can cover it.
    fn cover(&self, need: &Quantity) -> Option<Cover> {
        cover(&need.less(&self.stock), &self.offers)
    }
}

/// What lies in the yard and what the packages hold together.
fn there(figures: &MaterialFigures) -> Quantity {
    let bought = figures.cover.as_ref().filter(|of| !of.counts.is_empty());
    let bought = bought.map_or(0.0, |of| of.times_need);
    figures.stock.plus(&figures.to_buy.times(bought))
}

impl Chances {
    /// How often a material is short when so much of it is there in all, what lay in the yard included: 0 to
    /// 1. Held against the need in the measure of its first package, or in the other when only that is given.
    pub fn short(&self, material: &str, there: &Quantity) -> Option<f64> {
        let order = self.order(material)?;
        let by_volume = || {
            let sample = &self.loose(order)?.sample;
            Some(sample.chance_over(there.loose?.value))
        };
        let by_mass = || {
            let sample = &self.mass(order)?.sample;
            Some(sample.chance_over(there.mass?.value))
        };
        let short = if order.by_mass {
            by_mass().or_else(by_volume)
        } else {
            by_volume().or_else(by_mass)
        };
        short.filter(|short| !short.is_nan())
    }

    /// How much of a material must be there so that it is short at most so often, and the packages that bring
    /// it, what lies in the yard taken off; no packages when none can cover it. Volume and mass are each told
    /// by their own draws.
    pub fn order_for(&self, material: &str, chance: f64) -> Option<(Quantity, Option<Cover>)> {
        let order = self.order(material)?;
        if chance.is_nan() {
            return None;
        }
        let least = |of: Option<&FigureChances>| Some(of?.sample.least_for(chance));
        let need = Quantity {
            loose: least(self.loose(order)).map(|value| Volume {
                value,
                ..Volume::default()
            }),
            mass: least(self.mass(order)).map(|value| Mass {
                value,
                ..Mass::default()
            }),
        };
        if need.loose.is_none() && need.mass.is_none() {
            return None;
        }
        let cover = order.cover(&need);
        Some((need, cover))
    }

    /// The figure that an order goes by: the loose volume of a material or its mass.
    pub fn need_of(&self, material: &str) -> Option<&FigureChances> {
        let order = self.order(material)?;
        if order.by_mass {
            self.mass(order).or_else(|| self.loose(order))
        } else {
            self.loose(order).or_else(|| self.mass(order))
        }
    }

    fn loose(&self, order: &Ordered) -> Option<&FigureChances> {
        self.figure(&Line::Loose(order.material.clone()))
    }

    fn mass(&self, order: &Ordered) -> Option<&FigureChances> {
        self.figure(&Line::Mass(order.material.clone()))
    }
}
