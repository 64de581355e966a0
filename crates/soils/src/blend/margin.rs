//! The blend that stays widest off every limit. Not here: the other aims, and breaking ties.
//!
//! A margin of t widths asks of a ratio of two sums that part − (least + t·width)·rest ≥ 0, where t stands beside
//! the sum `rest`: no linear row. For one t it is, though, and a step from one blend to the next, by the
//! linear programme that gains most over the margin reached, comes to the largest t in a few steps:
//! J.-P. Crouzeix, J. A. Ferland and S. Schaible, "An algorithm for generalized fractional programs",
//! Journal of Optimization Theory and Applications 47, 1985 (from memory).

use super::BlendFault;
use super::model::Model;
use super::requirement::{Limit, Line, Row};
use super::search::{Goal, twice};
use super::tolerance::{MARGIN_BACK, MARGIN_STEP, MARGIN_WHOLE};

/// Margins are followed up to here, in widths of the range: past a thousand nothing limits the blend.
const WIDEST: f64 = 1_000.0;

/// Steps that are taken at most; about five are needed.
const STEPS: usize = 60;

/// One bounded end of a row that has a width.
struct End<'a> {
    row: &'a Row,
    limit: Limit,
    bound: f64,
    /// Width of the range, above 0 for a lower end, below 0 for an upper one.
    inwards: f64,
}

impl End<'_> {
    /// The bound, moved inwards by a margin in widths.
    fn moved(&self, margin: f64) -> f64 {
        self.bound + margin * self.inwards
    }

    /// What the figure is a share of, or a ratio to, in shares of the blend.
    fn whole(&self, shares: &[f64]) -> f64 {
        let (part, rest) = self.row.sums(shares);
        if self.row.requirement.is_ratio() {
            rest
        } else {
            part + rest
        }
    }

    /// How many widths inside the bound a blend stands.
    fn margin(&self, shares: &[f64]) -> f64 {
        // A blend with neither of the two keeps any bound on their ratio.
        self.row
            .value(shares)
            .map_or(f64::INFINITY, |value| (value - self.bound) / self.inwards)
    }

    /// Coefficients of: the figure keeps the bound moved by `margin`, without the scale of
    /// [`Row::at_least`], so that a step of the margin counts the same in every row.
    fn coefficients(&self, margin: f64) -> Vec<f64> {
        let (part, rest) = self.row.coefficients();
        let bound = self.moved(margin);
        let way = self.inwards.signum();
        let ratio = self.row.requirement.is_ratio();
        let one = |(part, rest): (&f64, &f64)| {
            let whole = if ratio { *rest } else { part + rest };
            way * (part - bound * whole)
        };
        part.iter().zip(rest).map(one).collect()
    }

    /// The line of the bound moved by `margin`.
    fn line(&self, margin: f64) -> Line {
        let scale = 1.0 / (1.0 + self.moved(margin).abs());
        let coefficients = self.coefficients(margin);
        Line {
            limit: self.limit,
            coefficients: coefficients.iter().map(|c| c * scale).collect(),
        }
    }
}

impl Model {
    /// From a blend that meets the target to the one with the widest margin; ties are broken by `goals`.
    pub(super) fn widest(&self, start: Vec<f64>, goals: &[Goal]) -> Result<Vec<f64>, BlendFault> {
        let ends = self.ends();
        let least_margin = |shares: &[f64]| {
            let margins = ends.iter().map(|end| end.margin(shares));
            margins.fold(WIDEST, f64::min)
        };
        let mut best = start;
        let mut margin = least_margin(&best);
        for _ in 0..STEPS {
            if ends.is_empty() || margin >= WIDEST {
                break;
            }
            let Some(next) = self.step(&ends, &best, margin)? else {
                break;
            };
            let reached = least_margin(&next);
            if reached <= margin + MARGIN_STEP * margin.abs().max(MARGIN_STEP) {
                break;
            }
            let small = reached - margin <= MARGIN_STEP * margin.abs().max(1.0);
            (best, margin) = (next, reached);
            if small {
                break;
            }
        }
        let kept = (margin - MARGIN_BACK * margin.abs().max(1.0)).max(0.0);
        let moved = ends.iter().map(|end| end.line(kept));
        let lines: Vec<Line> = self.lines().into_iter().chain(moved).collect();
        let programme = self.programme(&lines, |_| true);
        match self.least(programme, goals) {
            Ok(Some(shares)) if least_margin(&shares) >= kept - MARGIN_BACK => Ok(shares),
            _ => Ok(best),
        }
    }

    /// The blend that gains most over `margin`, measured where `at` stands.
    fn step(
        &self,
        ends: &[End<'_>],
        at: &[f64],
        margin: f64,
    ) -> Result<Option<Vec<f64>>, BlendFault> {
        let mut programme = self.programme(&self.lines(), |_| true);
        let gain = programme.bounds.len();
        programme.bounds.push((0.0, 2.0 * WIDEST));
        programme.costs = vec![0.0; gain];
        programme.costs.push(-1.0);
        for end in ends {
            let mut row = twice(&end.coefficients(margin));
            let per_width = end.inwards.abs() * end.whole(at).max(MARGIN_WHOLE);
            row.push(-per_width);
            let scale = row.iter().fold(0.0, |most: f64, c| most.max(c.abs()));
            if scale > 0.0 {
                for c in &mut row {
                    *c /= scale;
                }
            }
            programme.at_least.push((row, 0.0));
        }
        Ok(programme.solve()?.map(|found| self.clean(&found)))
    }

    fn ends(&self) -> Vec<End<'_>> {
        let mut ends = Vec::new();
        for row in &self.rows {
            let width = row.range.width();
            if width <= 0.0 {
                continue;
            }
            let least = row
                .range
                .least()
                .map(|bound| (Limit::Least(row.requirement), bound, width));
            let most = row
                .range
                .most()
                .map(|bound| (Limit::Most(row.requirement), bound, -width));
            ends.extend(
                [least, most]
                    .into_iter()
                    .flatten()
                    .map(|(limit, bound, inwards)| End {
                        row,
                        limit,
                        bound,
                        inwards,
                    }),
            );
        }
        ends
    }
}
