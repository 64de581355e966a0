//! How much mix can come to the walls in a quarter of an hour, and who stands there for it. Counts whole
//! millilitres, so that sums are exact. Not here: the walls.

use crate::plan::Limit;
use crate::site::{Crew, Role, Site};
use crate::tolerance::{STEPS_PER_HOUR, count, down, number};

/// What makes and carries the mix.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Supply {
    mixers: Option<Mixers>,
    /// Millilitres that a carrier brings in a step.
    carrier: Option<u64>,
    /// How many do everything, if all do.
    everyone: Option<usize>,
}

#[derive(Debug, Clone, Copy)]
struct Mixers {
    number: usize,
    hands_each: usize,
    /// Millilitres that one makes in a step.
    each: u64,
}

impl Supply {
    pub(crate) fn new(site: &Site) -> Self {
        let a_step = |litres_per_hour: f64| down(litres_per_hour * 1000.0 / STEPS_PER_HOUR);
        Self {
            mixers: site.mixing.map(|mixing| Mixers {
                number: mixing.mixers,
                hands_each: mixing.hands_each,
                each: a_step(mixing.litres_per_hour()),
            }),
            carrier: site.carried_per_hour.map(a_step),
            everyone: match site.crew {
                Crew::Everyone(people) => Some(people),
                Crew::Roles { .. } => None,
            },
        }
    }

    /// Millilitres a step with so many people at the mixers and carrying, and which of the two holds it up.
    pub(crate) fn most(&self, mixing: usize, carrying: usize) -> (u64, Limit) {
        let mixed = self.mixers.map(|mixers| {
            let manned = self
                .everyone
                .unwrap_or(mixing)
                .checked_div(mixers.hands_each)
                .unwrap_or(0);
            let (number, limit) = if manned < mixers.number {
                (manned, Limit::MixingHands)
            } else {
                (mixers.number, Limit::Mixers)
            };
            (mixers.each.saturating_mul(count(number)), limit)
        });
        // Where all do everything, carrying is a part of everybody's hours.
        let carried = self
            .carrier
            .filter(|_| self.everyone.is_none())
            .map(|each| (each.saturating_mul(count(carrying)), Limit::Carrying));
        mixed
            .into_iter()
            .chain(carried)
            .min_by_key(|&(ml, _)| ml)
            .unwrap_or((u64::MAX, Limit::Hands))
    }

    /// The people that are needed in a role for so many millilitres a step.
    pub(crate) fn needed(&self, role: Role, flow: u64) -> usize {
        if self.everyone.is_some() || flow == 0 {
            return 0;
        }
        match role {
            Role::Mixing => self.mixers.map_or(0, |mixers| {
                share(flow, mixers.each).saturating_mul(mixers.hands_each)
            }),
            Role::Carrying => self.carrier.map_or(0, |each| share(flow, each)),
            _ => 0,
        }
    }

    /// Whether a rate of carrying is known; if not, all carriers carry while mix flows.
    pub(crate) fn counts_carriers(&self) -> bool {
        self.carrier.is_some()
    }
}

fn share(flow: u64, each: u64) -> usize {
    if each == 0 {
        usize::MAX
    } else {
        number(flow.div_ceil(each))
    }
}
