//! How a number of people is best shared out between mixing, carrying, placing and finishing for one coat. Not
//! here: plans.

use crate::plan::Limit;
use crate::site::{Coat, Crew, Mixing};
use crate::tolerance::{MOST_PEOPLE, count, real};

/// People by their roles, and what comes of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shared {
    /// Who does what. Always [`Crew::Roles`].
    pub crew: Crew,
    /// Surface that all together do in an hour, m².
    pub m2_per_hour: f64,
    /// What holds the work up.
    pub limit: Limit,
}

/// Shares people out so that most square metres are done in an hour: the rate is the least of placing, finishing,
/// mixing and carrying. Of equal ways the one with the fewest at the mixer, then carrying, then finishing.
///
/// Litres of mix go on each square metre; 0 takes nobody to mix or carry. None: there are too few people for the
/// roles, or more than [`MOST_PEOPLE`], or a number is not above 0.
///
/// ```
/// use hodful_workplan::{Crew, Limit, example, share_out};
/// let site = example();
/// // 30 litres on a square metre: the mixer gives 360 / 30 = 12 m² an hour, four people place as much.
/// let eight = share_out(8, &site.coats[0], 30.0, site.mixing, site.carried_per_hour).unwrap();
/// assert_eq!((eight.m2_per_hour, eight.limit), (12.0, Limit::Mixers));
/// assert_eq!(eight.crew, Crew::Roles { mixing: 1, carrying: 1, placing: 6, finishing: 0 });
/// ```
pub fn share_out(
    people: usize,
    coat: &Coat,
    litres_per_m2: f64,
    mixing: Option<Mixing>,
    carried_per_hour: Option<f64>,
) -> Option<Shared> {
    if people > MOST_PEOPLE || !(0.0..f64::INFINITY).contains(&litres_per_m2) {
        return None;
    }
    let wet = litres_per_m2 > 0.0;
    let mixed = |hands: usize| match mixing {
        Some(mixing) if wet => {
            let manned = hands.checked_div(mixing.hands_each).unwrap_or(0);
            let (mixers, limit) = if manned < mixing.mixers {
                (manned, Limit::MixingHands)
            } else {
                (mixing.mixers, Limit::Mixers)
            };
            let rate = real(count(mixers)) * mixing.litres_per_hour() / litres_per_m2;
            (rate, limit)
        }
        _ => (f64::INFINITY, Limit::Mixers),
    };
    let rate = |rate: Option<f64>, hands: usize| {
        rate.map_or(f64::INFINITY, |rate| rate * real(count(hands)))
    };
    let carrier = carried_per_hour
        .filter(|_| wet)
        .map(|litres| litres / litres_per_m2);
    let most = |role: bool| if role { people } else { 0 };
    let mut best: Option<Shared> = None;
    for mixers in 0..=most(mixing.is_some() && wet) {
        for carriers in 0..=most(carrier.is_some()).saturating_sub(mixers) {
            let left = people.saturating_sub(mixers).saturating_sub(carriers);
            for finishers in 0..=left.min(most(coat.finishing.is_some())) {
                let placers = left - finishers;
                let (m2_per_hour, limit) = [
                    (rate(Some(coat.placing), placers), Limit::Placing),
                    (rate(coat.finishing, finishers), Limit::Finishing),
                    mixed(mixers),
                    (rate(carrier, carriers), Limit::Carrying),
                ]
                .into_iter()
                // Of equal rates the last: more people placing would not help.
                .fold((f64::INFINITY, Limit::Placing), |least, next| {
                    if next.0 <= least.0 { next } else { least }
                });
                let better = best.is_none_or(|best| m2_per_hour > best.m2_per_hour);
                if m2_per_hour > 0.0 && m2_per_hour.is_finite() && better {
                    best = Some(Shared {
                        crew: Crew::Roles {
                            mixing: mixers,
                            carrying: carriers,
                            placing: placers,
                            finishing: finishers,
                        },
                        m2_per_hour,
                        limit,
                    });
                }
            }
        }
    }
    best
}
