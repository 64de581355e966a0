//! Rows that put what is bought on trucks, and the ways to fill one. Not here: how loads are packed once the
//! counts are known.

use super::{Programme, Trips, float};
use crate::case::{Case, Row, room_for};
use crate::tolerance::{COUNT_SLACK, MOST_FILLINGS};
use microlp::Variable;

/// Places of the rows and how many of each are on a full truck.
pub(crate) type Filling = Vec<(usize, u64)>;

impl Programme {
    pub(super) fn fill_trucks(&mut self, case: &Case) {
        for supplier in 0..case.sellers.len() {
            for phase in 0..case.phases {
                let trips = self.trips.get(supplier).and_then(|t| t.get(phase));
                let Some(trips) = trips.cloned() else {
                    continue;
                };
                let rows: Vec<_> = case
                    .rows_of(Some(supplier))
                    .filter_map(|(place, row)| {
                        let count = *self.counts.get(place)?.get(phase)?;
                        Some((place, row, count, *row.most.get(phase)?))
                    })
                    .collect();
                match trips {
                    Trips::Uncounted => {}
                    Trips::Summed(trips) => self.sum_loads(&rows, trips),
                    Trips::Filled(fillings) => {
                        for (place, row, count, most) in &rows {
                            let on = |filling: &Filling| match row.fits {
                                Some(_) => filling.iter().find(|(p, _)| p == place).map(|f| f.1),
                                None => Some(*most),
                            };
                            let mut terms = vec![(*count, 1.0)];
                            terms.extend(fillings.iter().filter_map(|(filling, trips)| {
                                on(filling).map(|on| (*trips, -float(on)))
                            }));
                            self.at_most(&terms, 0.0);
                        }
                    }
                }
            }
        }
    }

    /// Loads no larger together than the trucks, and no package split.
    fn sum_loads(&mut self, rows: &[(usize, &Row, Variable, u64)], trips: Variable) {
        for side in 0..2 {
            let takes: Vec<_> = rows.iter().map(|(_, row, ..)| row.takes[side]).collect();
            for weights in weighings(&takes) {
                let mut terms: Vec<_> = rows
                    .iter()
                    .zip(&weights)
                    .filter(|(_, weight)| **weight > 0.0)
                    .map(|((_, _, count, _), weight)| (*count, *weight))
                    .collect();
                terms.push((trips, -1.0));
                self.at_most(&terms, 0.0);
            }
        }
        for (_, row, count, most) in rows {
            let on_one = row.fits.map_or(*most, |fits| fits.min(*most));
            self.at_most(&[(*count, 1.0), (trips, -float(on_one))], 0.0);
        }
    }
}

/// Every way to fill a truck of a supplier in a phase to which nothing of use can be added; `None` when there
/// are too many.
pub(crate) fn fillings(case: &Case, supplier: usize, phase: usize) -> Option<Vec<Filling>> {
    let rows: Vec<_> = case
        .rows_of(Some(supplier))
        .filter_map(|(place, row)| {
            let on_one = row.fits?.min(*row.most.get(phase)?);
            (on_one > 0).then_some((place, row.takes, on_one))
        })
        .collect();
    let mut found = Vec::new();
    fill(&rows, &mut Vec::new(), [0.0; 2], &mut found);
    // What is below another one in every package is not needed.
    let below = |a: &Filling, b: &Filling| a != b && holds(b, a);
    let full = found.iter().filter(|a| !found.iter().any(|b| below(a, b)));
    let full: Vec<Filling> = full.cloned().collect();
    (found.len() <= MOST_FILLINGS).then_some(full)
}

/// Whether one load has at least what another has.
pub(crate) fn holds(load: &[(usize, u64)], other: &[(usize, u64)]) -> bool {
    other
        .iter()
        .all(|(place, count)| load.iter().any(|(there, on)| there == place && count <= on))
}

fn fill(
    rows: &[(usize, [f64; 2], u64)],
    filling: &mut Filling,
    taken: [f64; 2],
    found: &mut Vec<Filling>,
) {
    if found.len() > MOST_FILLINGS {
        return;
    }
    let Some(((place, takes, most), rest)) = rows.split_first() else {
        found.push(filling.iter().copied().filter(|f| f.1 > 0).collect());
        return;
    };
    let fit = room_for(*takes, taken).unwrap_or(*most).min(*most);
    // The last package takes what room is left.
    let least = if rest.is_empty() { fit } else { 0 };
    for count in (least..=fit).rev() {
        let more = |side: usize| taken[side] + takes[side] * float(count);
        filling.push((*place, count));
        fill(rest, filling, [more(0), more(1)], found);
        filling.pop();
        if found.len() > MOST_FILLINGS {
            return;
        }
    }
}

/// The parts of a truck that packages take, as they are and as dual feasible functions weigh them; each
/// weighing of what goes on one truck sums to no more than 1.
fn weighings(takes: &[f64]) -> Vec<Vec<f64>> {
    let mut found: Vec<Vec<f64>> = Vec::new();
    if takes.iter().all(|t| *t <= 0.0) {
        return found;
    }
    found.push(takes.to_vec());
    for parts in [2.0, 3.0, 4.0] {
        let weigh = |takes: f64| {
            let times = takes * parts;
            if (times - times.round()).abs() <= COUNT_SLACK * parts {
                takes
            } else {
                times.floor() / (parts - 1.0)
            }
        };
        let weights: Vec<f64> = takes.iter().map(|t| weigh(*t)).collect();
        let heavier = |(weight, takes): (&f64, &f64)| *weight > takes + COUNT_SLACK;
        if weights.iter().zip(takes).any(heavier) && !found.contains(&weights) {
            found.push(weights);
        }
    }
    found
}
