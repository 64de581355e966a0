//! When no blend meets the target: what stands against what, how far the materials reach, and the nearest.
//! Not here: finding a blend that meets it.

use hodful_quantities::units::{Mass, kilogram};

use super::figures::Blend;
use super::model::{Model, Supply, scaled};
use super::requirement::{Limit, Line, Requirement, Row, dot};
use super::tolerance::{LEAST_MADE, MET, NO_END, REACH_STEP};
use super::{Aim, BlendFault};

/// Steps towards the end of a reach that are taken at most; about five are needed.
const STEPS: usize = 60;

/// Why no blend meets a target, and what can be had instead.
#[derive(Debug, Clone, PartialEq)]
pub struct Impossible {
    /// Limits that cannot all be kept; without any one of them, the others can. There may be other such
    /// sets. Supplies are named only where the requirements alone would agree.
    pub conflict: Vec<Limit>,
    /// How far the materials and their supplies reach, for each requirement by itself, in the order of
    /// the target.
    pub reach: Vec<Reach>,
    /// The blend that misses the requirements least. The misses are added up as shares of the blend: for
    /// a share, the share by which it is missed; for a ratio r to 1, as much of the two together as would
    /// have to be r/(1 + r) of them and is not, with volumes on the scale of the lightest material. Supplies
    /// are kept. Its [`Blend::missing`] says what is missed and by how much: nothing, when only the amount
    /// falls short.
    pub nearest: Blend,
    /// All that there is, when it is less than what is wanted; `nearest` uses all of it.
    pub all_there_is: Option<Mass>,
    /// The most dry mass of blend that would meet every requirement, when supplies stand against the
    /// amount; `None` when that is less than a thousandth of it, or no amount was given.
    pub within_supplies: Option<Mass>,
}

/// How far the materials reach by one requirement alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// Which figure.
    pub requirement: Requirement,
    /// The least that can be had; `None` when no blend has such a figure.
    pub least: Option<f64>,
    /// The most that can be had, infinite when the other part of a ratio can be left out; `None` as above.
    pub most: Option<f64>,
}

impl Model {
    /// What to say when the target cannot be met.
    pub(super) fn impossible(&self, aim: Aim) -> Result<Impossible, BlendFault> {
        let (had, all) = self.had();
        let conflict = self.conflict(all.is_some())?;
        let wanted = self.amount;
        let mass = |share: f64| wanted.map(|amount| Mass::new::<kilogram>(share * amount));
        let nearest = had
            .nearest(aim)?
            .ok_or_else(|| BlendFault::GaveUp("the nearest blend could not be found".to_owned()))?;
        let within_supplies = self.within_supplies()?.filter(|_| {
            conflict
                .iter()
                .any(|limit| matches!(limit, Limit::Supply(_)))
        });
        Ok(Impossible {
            conflict,
            reach: had.rows.iter().map(|row| had.reach(row)).collect(),
            nearest,
            all_there_is: all.and_then(mass),
            within_supplies: within_supplies.and_then(mass),
        })
    }

    /// Limits that cannot all be kept, none of them idle: one after the other is left out, and stays out
    /// when the rest still cannot be kept (a deletion filter: J. W. Chinneck and E. W. Dravnieks, "Locating minimal
    /// infeasible constraint sets in linear programs", ORSA Journal on Computing 3, 1991; from memory).
    ///
    /// When there is too little of all materials together, and the requirements alone agree, that is the
    /// conflict.
    fn conflict(&self, too_little: bool) -> Result<Vec<Limit>, BlendFault> {
        let supplies = self.supplies.iter().enumerate();
        let limited = supplies.filter(|(_, supply)| supply.most().is_some());
        let mut lines = self.lines();
        // Supplies are left out first, so that they are named only when they matter; then the last asked.
        let mut limits: Vec<Limit> = limited.map(|(i, _)| Limit::Supply(i)).collect();
        if too_little && self.programme(&lines, |_| false).solve()?.is_some() {
            return Ok(limits);
        }
        limits.extend(lines.iter().rev().map(|line| line.limit));
        let mut kept = limits.clone();
        for limit in limits {
            let fewer: Vec<Limit> = kept.iter().copied().filter(|l| *l != limit).collect();
            let fewer_lines: Vec<Line> =
                lines.iter().filter(|l| l.limit != limit).cloned().collect();
            let programme = self.programme(&fewer_lines, |l| fewer.contains(&l));
            if programme.solve()?.is_none() {
                (kept, lines) = (fewer, fewer_lines);
            }
        }
        kept.sort_unstable();
        Ok(kept)
    }

    /// The same question for all that there is, and how much that is of what is wanted; `None` when it
    /// suffices.
    fn had(&self) -> (Self, Option<f64>) {
        let most: Option<f64> = self.supplies.iter().map(Supply::most).sum();
        let mut had = self.clone();
        let Some(most) = most.filter(|most| *most > 0.0 && *most < 1.0) else {
            return (had, None);
        };
        for supply in &mut had.supplies {
            supply.yard = supply.yard.map(|share| share / most);
        }
        // Short by less than counts is enough.
        (had, Some(most).filter(|most| *most < 1.0 - MET))
    }

    /// How much of the wanted amount could meet every requirement.
    fn within_supplies(&self) -> Result<Option<f64>, BlendFault> {
        let mut programme = self.programme(&self.lines(), |_| true);
        // The rows compare sums, so they hold for any amount; ask for the most of it.
        let whole = vec![1.0; 2 * self.count()];
        programme.equal.clear();
        programme
            .at_least
            .push((whole.iter().map(|c| -c).collect(), -1.0));
        programme.costs = whole.iter().map(|c| -c).collect();
        let Some(found) = programme.solve()? else {
            return Ok(None);
        };
        let made = dot(&whole, &found);
        let shares = self.clean(&found);
        let mut lines = self.rows.iter().flat_map(Row::lines);
        let met = lines.all(|line| dot(&line.coefficients, &shares) >= -MET);
        Ok(Some(made).filter(|made| met && *made >= LEAST_MADE))
    }

    /// How far a figure can be brought by the supplies alone.
    fn reach(&self, row: &Row) -> Reach {
        let (part, rest) = row.coefficients();
        let figure = |share: f64| {
            if !row.requirement.is_ratio() {
                share
            } else if 1.0 - share < NO_END {
                f64::INFINITY
            } else {
                share / (1.0 - share)
            }
        };
        Reach {
            requirement: row.requirement,
            // The least of the part is what the most of the rest leaves.
            least: self.furthest(rest, part).map(|share| figure(1.0 - share)),
            most: self.furthest(part, rest).map(figure),
        }
    }

    /// The most that `part` can be of `part` and `rest` together; `None` when there is never any of
    /// either. By W. Dinkelbach, "On nonlinear fractional programming", Management Science 13, 1967 (from
    /// memory).
    fn furthest(&self, part: &[f64], rest: &[f64]) -> Option<f64> {
        let share_of = |shares: &[f64]| {
            let (part, rest) = (dot(part, shares), dot(rest, shares));
            (part + rest > 0.0).then(|| part / (part + rest))
        };
        let both = || part.iter().zip(rest);
        let whole: Vec<f64> = both().map(|(part, rest)| part + rest).collect();
        let mut share = share_of(&self.most_of(&whole)?)?;
        for _ in 0..STEPS {
            let gain = both().map(|(part, rest)| part * (1.0 - share) - rest * share);
            let next = share_of(&self.most_of(&gain.collect::<Vec<f64>>())?);
            match next {
                Some(next) if next > share + REACH_STEP => share = next,
                _ => break,
            }
        }
        Some(share)
    }

    /// The shares whose sum with the coefficients is largest: as much as there is of the best, then of the
    /// next.
    fn most_of(&self, coefficients: &[f64]) -> Option<Vec<f64>> {
        let mut order: Vec<(usize, f64)> = coefficients.iter().copied().enumerate().collect();
        order.sort_by(|a, b| b.1.total_cmp(&a.1));
        let mut shares = vec![0.0; self.count()];
        let mut left = 1.0;
        for (i, _) in order {
            let most = self.supplies.get(i)?.most().unwrap_or(1.0);
            let taken = if most < left { most } else { left };
            *shares.get_mut(i)? = taken;
            left -= taken;
        }
        scaled(shares.into_iter())
    }
}
