//! Finding the blend that suits the aim. Not here: the widest margin, and what to say when there is none.

use super::figures::Blend;
use super::model::{Model, scaled};
use super::programme::Programme;
use super::requirement::{Limit, Line, dot};
use super::tolerance::{NOTHING, TIE, TIE_AT_NOTHING, TIE_SHARE, TIE_SMALL};
use super::{Aim, BlendFault};

/// Something to have little of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Goal {
    /// Money.
    Cost,
    /// Mass bought.
    Bought,
    /// Materials late in the list.
    Late,
}

impl Model {
    /// The goals of an aim, the first that counts first. Cost is left out when a price is not known.
    pub(super) fn goals(&self, aim: Aim) -> Vec<Goal> {
        let goals = match aim {
            Aim::LeastCost | Aim::WidestMargin => [Goal::Cost, Goal::Bought, Goal::Late],
            Aim::LeastBought => [Goal::Bought, Goal::Cost, Goal::Late],
        };
        let priced = self.check_prices().is_ok();
        goals
            .into_iter()
            .filter(|goal| priced || *goal != Goal::Cost)
            .collect()
    }

    /// The shares of dry mass that suit the aim best; `None` when nothing meets the target.
    pub(super) fn search(&self, aim: Aim) -> Result<Option<Vec<f64>>, BlendFault> {
        let goals = self.goals(aim);
        if aim != Aim::WidestMargin {
            return self.least(self.programme(&self.lines(), |_| true), &goals);
        }
        let first = goals.get(..1).unwrap_or_default();
        match self.least(self.programme(&self.lines(), |_| true), first)? {
            Some(start) => Ok(Some(self.widest(start, &goals)?)),
            None => Ok(None),
        }
    }

    /// The programme of the lines, and of the supplies for which `keep` says so. Its variables: what each
    /// material gives from the yard, then what is bought of each, shares of the dry mass of the blend.
    pub(super) fn programme(&self, lines: &[Line], keep: impl Fn(Limit) -> bool) -> Programme {
        let kept = |i: usize| keep(Limit::Supply(i));
        let supplies = || self.supplies.iter().enumerate();
        let yard = supplies().map(|(i, supply)| match supply.yard {
            Some(share) if supply.can_buy || kept(i) => (0.0, share),
            _ => (0.0, 1.0),
        });
        let bought = supplies().map(|(_, supply)| {
            let some = supply.can_buy && supply.yard.is_some();
            (0.0, if some { 1.0 } else { 0.0 })
        });
        let rows = lines.iter().map(|line| (twice(&line.coefficients), 0.0));
        Programme {
            costs: Vec::new(),
            bounds: yard.chain(bought).collect(),
            at_least: rows.collect(),
            equal: vec![(vec![1.0; 2 * self.count()], 1.0)],
        }
    }

    /// The shares of dry mass that meet a programme with least of the first goal, then of the second, and
    /// so on; `None` when nothing meets it. Variables after those of the materials stay free.
    pub(super) fn least(
        &self,
        mut programme: Programme,
        goals: &[Goal],
    ) -> Result<Option<Vec<f64>>, BlendFault> {
        let mut best: Option<Vec<f64>> = None;
        for (i, goal) in goals.iter().enumerate() {
            programme.costs = self.costs(*goal);
            // A tie that cannot be broken is left as it is.
            let found = match (programme.solve(), &best) {
                (Ok(Some(found)), _) => found,
                (Ok(None), None) => return Ok(None),
                (Err(fault), None) => return Err(fault),
                (Ok(None) | Err(_), Some(_)) => break,
            };
            let shares = self.clean(&found);
            if let Some(before) = &best {
                let earlier = goals.get(..i).unwrap_or_default();
                if earlier
                    .iter()
                    .any(|goal| self.worse(*goal, before, &shares))
                {
                    break;
                }
            }
            // The goal may not become worse: held as a share of its value, as that is promised.
            let value = dot(&programme.costs, &found);
            let scale = 1.0 / value.clamp(TIE_SMALL, 1.0);
            let back: Vec<f64> = programme.costs.iter().map(|c| -c * scale).collect();
            programme.at_least.push((back, -value * scale - TIE));
            best = Some(shares);
        }
        Ok(best)
    }

    /// What one share of each variable adds to a goal, the largest scaled to 1.
    fn costs(&self, goal: Goal) -> Vec<f64> {
        let n = self.count();
        let from_yard: Vec<f64>;
        let bought: Vec<f64>;
        match goal {
            Goal::Cost => {
                let both = self.prices.iter().zip(&self.supplies);
                let paid = both.map(|(price, supply)| price.filter(|_| supply.can_buy));
                let paid: Vec<f64> = paid.map(Option::unwrap_or_default).collect();
                let largest = paid.iter().copied().fold(0.0, f64::max);
                let scale = if largest > 0.0 { largest } else { 1.0 };
                from_yard = vec![0.0; n];
                bought = paid.iter().map(|price| price / scale).collect();
            }
            Goal::Bought => {
                from_yard = vec![0.0; n];
                bought = vec![1.0; n];
            }
            Goal::Late => {
                #[allow(clippy::cast_precision_loss, reason = "a number of materials")]
                let late = |i: usize| (i + 1) as f64 / n as f64;
                from_yard = (0..n).map(late).collect();
                bought = from_yard.clone();
            }
        }
        from_yard.into_iter().chain(bought).collect()
    }

    /// Whether a goal is reached less well than before, past what rounding does.
    fn worse(&self, goal: Goal, before: &[f64], after: &[f64]) -> bool {
        let costs = self.costs(goal);
        let value = |shares: &[f64]| {
            let bought = self.bought(shares);
            let yard = shares.iter().zip(&bought).map(|(s, b)| s - b);
            let variables: Vec<f64> = yard.chain(bought.iter().copied()).collect();
            dot(&costs, &variables)
        };
        value(after) > value(before) * (1.0 + TIE_SHARE) + TIE_AT_NOTHING
    }

    /// Shares of dry mass from the variables of a programme: nothing below 0, no traces, the sum 1.
    pub(super) fn clean(&self, variables: &[f64]) -> Vec<f64> {
        let n = self.count();
        let (yard, bought) = variables.split_at_checked(n).unwrap_or((variables, &[]));
        let both = yard.iter().zip(bought).map(|(y, b)| (y + b).max(0.0));
        let raw: Vec<f64> = both.collect();
        let tidy = raw
            .iter()
            .map(|share| if *share < NOTHING { 0.0 } else { *share });
        let tidy = scaled(tidy).unwrap_or_default();
        let raw = scaled(raw.into_iter()).unwrap_or_default();
        // Leaving traces out of many materials at once may add up: then they stay.
        let lines = self.lines();
        let slack = |shares: &[f64]| {
            let slacks = lines.iter().map(|line| dot(&line.coefficients, shares));
            slacks.fold(0.0, f64::min)
        };
        if slack(&tidy) < slack(&raw) - NOTHING {
            raw
        } else {
            tidy
        }
    }

    /// The nearest blend in place of none: see [`super::Impossible::nearest`].
    pub(super) fn nearest(&self, aim: Aim) -> Result<Option<Blend>, BlendFault> {
        let lines = self.lines();
        let mut programme = self.programme(&lines, |_| true);
        let before = programme.bounds.len();
        // One variable more for each line: by how much it is missed.
        for (i, (row, _)) in programme.at_least.iter_mut().enumerate() {
            row.resize(before + i, 0.0);
            row.push(1.0);
        }
        programme
            .bounds
            .extend(lines.iter().map(|_| (0.0, f64::INFINITY)));
        let mut missed = vec![0.0; before];
        missed.resize(before + lines.len(), 1.0);
        programme.costs.clone_from(&missed);
        let Some(found) = programme.solve()? else {
            return Ok(None);
        };
        let value = dot(&missed, &found);
        let fallback = self.clean(&found);
        let back: Vec<f64> = missed.iter().map(|c| -c).collect();
        programme.at_least.push((back, -value - TIE));
        let shares = self.least(programme, &self.goals(aim)).ok().flatten();
        Ok(Some(self.blend(&shares.unwrap_or(fallback))))
    }
}

/// Coefficients for what is taken from the yard, and again for what is bought.
pub(super) fn twice(coefficients: &[f64]) -> Vec<f64> {
    coefficients.iter().chain(coefficients).copied().collect()
}
