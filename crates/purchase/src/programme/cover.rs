//! Rows that cover the needs. Not here: trucks and least orders.

use super::{Programme, float};
use crate::case::{Case, Cover};
use crate::tolerance::{COUNT_SLACK, MOST_ROUNDINGS, MOST_RUNS, MOST_UNITS};
use microlp::Variable;

impl Programme {
    /// Whole packages that hold at least so much together: the row itself in the smallest unit of which all
    /// sizes are multiples, and the row in each size, sizes and sum rounded up (the cuts of V. Chvátal and
    /// R. E. Gomory; from memory).
    fn packages_at_least(&mut self, terms: &[(Variable, f64)], least: f64) {
        let mut sizes: Vec<f64> = terms.iter().map(|(_, size)| *size).collect();
        sizes.sort_by(f64::total_cmp);
        sizes.dedup_by(|a, b| (*a - *b).abs() <= COUNT_SLACK);
        let up = |exact: f64| (exact - exact * COUNT_SLACK).ceil();
        // A package that holds more than is needed covers no more than that.
        let capped = |unit: f64, least: f64, size: fn(f64) -> f64| -> Vec<(Variable, f64)> {
            let sizes = terms.iter();
            sizes
                .map(|(v, a)| (*v, size(a / unit).min(least)))
                .collect()
        };
        match common_unit(&sizes) {
            Some(unit) => {
                let least = up(least / unit);
                self.at_least(&capped(unit, least, f64::round), least);
            }
            None => self.at_least(&capped(1.0, least, |size| size), least),
        }
        let rounded_up = |exact: f64| (exact - exact * COUNT_SLACK).ceil();
        for unit in sizes.iter().take(MOST_ROUNDINGS) {
            let least = up(least / unit);
            self.at_least(&capped(*unit, least, rounded_up), least);
        }
    }

    pub(super) fn cover_needs(&mut self, case: &Case) {
        for wanted in &case.wanted {
            if !matches!(wanted.cover, Cover::Priced | Cover::Unpriced) {
                continue;
            }
            let rows: Vec<_> = wanted
                .rows
                .iter()
                .filter_map(|place| Some((*place, case.rows.get(*place)?)))
                .collect();
            let largest = rows.iter().map(|(_, row)| row.share).fold(0.0, f64::max);
            let counts = self.counts.clone();
            let arriving = |phase: usize| -> Vec<(Variable, f64)> {
                rows.iter()
                    .filter_map(|(place, row)| {
                        Some((*counts.get(*place)?.get(phase)?, row.share / largest))
                    })
                    .collect()
            };
            let needs = || {
                let needs = wanted.by_phase.iter().map(|need| need / largest);
                needs.enumerate().filter(|(_, need)| *need > 0.0)
            };
            if wanted.goes_off() {
                let mut to: Vec<Vec<(Variable, f64)>> = vec![Vec::new(); case.phases];
                for from in 0..case.phases {
                    let mut balance = Vec::new();
                    for (phase, need) in needs().filter(|(to, _)| wanted.serves(from, *to)) {
                        let flow = self.problem.add_var(0.0, (0.0, need));
                        balance.push((flow, 1.0));
                        if let Some(to) = to.get_mut(phase) {
                            to.push((flow, 1.0));
                        }
                    }
                    if !balance.is_empty() {
                        balance.extend(arriving(from).into_iter().map(|(v, share)| (v, -share)));
                        self.at_most(&balance, 0.0);
                    }
                }
                for (phase, need) in needs() {
                    if let Some(flows) = to.get(phase) {
                        self.at_least(flows, need * (1.0 - COUNT_SLACK));
                    }
                }
                // What follows from the flows, for runs of phases; with it, whole packages can be rounded up.
                let phases: Vec<_> = needs().take(MOST_RUNS).collect();
                for first in 0..phases.len() {
                    for last in first..phases.len() {
                        let run = phases.get(first..=last).unwrap_or_default();
                        let least = run.iter().map(|(_, need)| need).sum::<f64>();
                        let serving = (0..case.phases)
                            .filter(|from| run.iter().any(|(to, _)| wanted.serves(*from, *to)));
                        let come: Vec<_> = serving.flat_map(&arriving).collect();
                        self.packages_at_least(&come, least * (1.0 - COUNT_SLACK));
                    }
                }
            } else {
                let mut come = Vec::new();
                let mut so_far = 0.0;
                let mut next = 0;
                for (phase, need) in needs() {
                    for earlier in next..=phase {
                        come.extend(arriving(earlier));
                    }
                    next = phase + 1;
                    so_far += need;
                    self.packages_at_least(&come, so_far * (1.0 - COUNT_SLACK));
                }
            }
            for (place, row) in &rows {
                if let (Some(most), Some(counts)) = (row.most_in_all, self.counts.get(*place)) {
                    let all: Vec<_> = counts.iter().map(|v| (*v, 1.0)).collect();
                    self.at_most(&all, float(most));
                }
            }
        }
    }
}

/// The largest unit of which all sizes are multiples, if the smallest size is not more than ten of it. Sizes
/// are in order.
fn common_unit(sizes: &[f64]) -> Option<f64> {
    let smallest = sizes.first()?;
    (1..=MOST_UNITS)
        .map(|parts| smallest / f64::from(parts))
        .find(|unit| {
            sizes.iter().all(|size| {
                let times = size / unit;
                (times - times.round()).abs() <= COUNT_SLACK * times
            })
        })
}
