//! The integer programme: its variables and goal, and the answer of the solver as counts. Not here: what is
//! done with an answer.
//!
//! For every package and phase a count n, for every supplier and phase the trips T, and y, 0 or 1, where
//! there is a least order. The rows say:
//!
//! - cover: what has come up to a phase holds what is needed up to it. Where goods go off, shares flow from
//!   the phase they come in to the phases they serve;
//! - trucks: Σ mass·n ≤ most·T, Σ volume·n ≤ most·T, and n ≤ (most on one truck)·T for each package, since
//!   packages are not split;
//! - of the packages of more than half a truck at most T in all, of those of more than a third at most 2 T,
//!   and so on, weighed as in the dual feasible functions of S. P. Fekete and J. Schepers, "New classes of
//!   fast lower bounds for bin packing problems", Mathematical Programming 91, 2001 (from memory);
//! - least order: Σ price·n ≥ least·y, n ≤ most·y.
//!
//! Sums over trucks are less than loads: two packages of 0.6 of a truck and one of 0.8 sum to two trucks and
//! take three. Where that shows, the trips of the supplier are counted by the ways to fill a truck, as P. C.
//! Gilmore and R. E. Gomory, "A linear programming approach to the cutting-stock problem", Operations
//! Research 9, 1961, count the ways to cut a length (from memory): T = Σ x, n ≤ Σ (n on the filling)·x.
//!
//! Prices are whole numbers of the smallest decimal in use, so that the solver can tell that nothing lies
//! between two of them.

mod cover;
mod trucks;

pub(crate) use trucks::Filling;

use crate::asked::Aim;
use crate::case::{Case, Counts};
use crate::money::{whole, whole_by};
use crate::settle::Known;
use crate::tolerance::ROW_SLACK;
use hodful_quantities::read::Money;
use microlp::{
    ComparisonOp, OptimizationDirection, Problem, Solution, SolutionStatus, SolveOptions,
    SolveOutcome, Variable,
};

/// What the solver found.
#[derive(Debug)]
pub(crate) struct Answer {
    pub(crate) counts: Counts,
    /// Trips counted, by supplier and phase; none are counted where nothing depends on them.
    pub(crate) trips: Vec<Vec<u64>>,
    /// The ways trucks are filled, where they are counted so.
    pub(crate) known: Vec<Known>,
    /// Whether the solver tried everything.
    pub(crate) optimal: bool,
}

/// A list that covers all needs, to start from.
#[derive(Debug)]
pub(crate) struct Start {
    pub(crate) counts: Counts,
    /// By supplier and phase.
    pub(crate) trips: Vec<Vec<u64>>,
    pub(crate) loads: Vec<Known>,
}

/// The ways to fill a truck, by supplier and phase, where trips are counted by them.
pub(crate) type Fillings = Vec<Vec<Option<Vec<Filling>>>>;

/// Every way to fill a truck of a supplier, by phase; `None` when there are too many.
pub(crate) fn fillings(case: &Case, supplier: usize) -> Option<Vec<Option<Vec<Filling>>>> {
    (0..case.phases)
        .map(|phase| trucks::fillings(case, supplier, phase).map(Some))
        .collect()
}

/// What is made least, within what.
#[derive(Debug, Clone, Copy)]
enum Goal {
    Trips,
    Cost { most_trips: Option<u64> },
}

/// The best counts by the aim; `None` when the solver has none, or none within the nodes.
///
/// The nodes that were used are taken off.
pub(crate) fn solve(
    case: &Case,
    aim: Aim,
    fillings: &Fillings,
    start: &Start,
    nodes: &mut u64,
) -> Option<Answer> {
    let mut most_trips = None;
    let mut optimal = true;
    if aim == Aim::FewestDeliveries {
        // Half of what is left, so that the price gets its turn.
        let mut half = *nodes / 2;
        *nodes -= half;
        let answer = Programme::new(case, Goal::Trips, fillings)?.solve(case, start, &mut half);
        *nodes += half;
        let answer = answer?;
        optimal = answer.optimal;
        most_trips = Some(answer.trips.iter().flatten().sum());
    }
    let programme = Programme::new(case, Goal::Cost { most_trips }, fillings)?;
    let mut answer = programme.solve(case, start, nodes)?;
    answer.optimal &= optimal;
    Some(answer)
}

/// The trips of a supplier in a phase.
#[derive(Debug, Clone)]
enum Trips {
    /// Nothing depends on them.
    Uncounted,
    Summed(Variable),
    Filled(Vec<(Filling, Variable)>),
}

impl Trips {
    fn variables(&self) -> Vec<Variable> {
        match self {
            Self::Uncounted => Vec::new(),
            Self::Summed(trips) => vec![*trips],
            Self::Filled(fillings) => fillings.iter().map(|(_, trips)| *trips).collect(),
        }
    }
}

#[derive(Debug)]
struct Programme {
    problem: Problem,
    /// By row and phase.
    counts: Vec<Vec<Variable>>,
    /// By supplier and phase.
    trips: Vec<Vec<Trips>>,
    /// By supplier and phase, where there is a least order.
    used: Vec<Vec<Option<Variable>>>,
}

impl Programme {
    fn new(case: &Case, goal: Goal, fillings: &Fillings) -> Option<Self> {
        let prices = case.rows.iter().filter_map(|row| row.price);
        let by = whole_by(prices.chain(case.sellers.iter().map(|s| s.charge)));
        let cost = |price: Money| match goal {
            Goal::Cost { .. } => whole(price, by),
            Goal::Trips => Some(0.0),
        };
        let mut programme = Self {
            problem: Problem::new(OptimizationDirection::Minimize),
            counts: Vec::new(),
            trips: Vec::new(),
            used: Vec::new(),
        };
        for row in &case.rows {
            let price = cost(row.price.unwrap_or_default())?;
            let most = row.most.iter();
            let counts = most.map(|most| programme.whole_number(price, *most));
            let counts = counts.collect();
            programme.counts.push(counts);
        }
        for (supplier, seller) in case.sellers.iter().enumerate() {
            let each = match goal {
                Goal::Trips => Some(1.0),
                Goal::Cost { most_trips: None } if seller.charge == Money::ZERO => None,
                Goal::Cost { .. } => Some(cost(seller.charge)?),
            };
            let mut trips = Vec::new();
            let mut used = Vec::new();
            for phase in 0..case.phases {
                let most = most_trips(case, supplier, phase);
                let ways = fillings.get(supplier).and_then(|f| f.get(phase)?.as_ref());
                trips.push(match (each, ways) {
                    (None, _) => Trips::Uncounted,
                    (Some(each), None) => Trips::Summed(programme.whole_number(each, most)),
                    (Some(each), Some(ways)) => Trips::Filled(
                        ways.iter()
                            .map(|way| (way.clone(), programme.whole_number(each, most)))
                            .collect(),
                    ),
                });
                used.push(seller.least.map(|_| programme.problem.add_binary_var(0.0)));
            }
            programme.trips.push(trips);
            programme.used.push(used);
        }
        programme.cover_needs(case);
        programme.fill_trucks(case);
        programme.reach_least_orders(case)?;
        if let Goal::Cost {
            most_trips: Some(most),
        } = goal
        {
            let all = programme.trips.iter().flatten();
            let all: Vec<_> = all.flat_map(Trips::variables).map(|v| (v, 1.0)).collect();
            programme.at_most(&all, float(most));
        }
        Some(programme)
    }

    fn whole_number(&mut self, cost: f64, most: u64) -> Variable {
        let most = i32::try_from(most).unwrap_or(i32::MAX);
        self.problem.add_integer_var(cost, (0, most))
    }

    fn at_most(&mut self, terms: &[(Variable, f64)], most: f64) {
        self.problem.add_constraint(terms, ComparisonOp::Le, most);
    }

    fn at_least(&mut self, terms: &[(Variable, f64)], least: f64) {
        self.problem.add_constraint(terms, ComparisonOp::Ge, least);
    }

    fn reach_least_orders(&mut self, case: &Case) -> Option<()> {
        for (supplier, seller) in case.sellers.iter().enumerate() {
            let Some(least) = seller.least else { continue };
            let least = f64::try_from(least.amount()).ok()?;
            for phase in 0..case.phases {
                let used = self.used.get(supplier).and_then(|u| u.get(phase).copied());
                let Some(Some(used)) = used else { continue };
                let mut goods = Vec::new();
                for (place, row) in case.rows_of(Some(supplier)) {
                    let count = *self.counts.get(place)?.get(phase)?;
                    let price = f64::try_from(row.price?.amount()).ok()?;
                    if price > 0.0 {
                        // One package that is dearer than the least order reaches it, no more.
                        goods.push((count, (price / least).min(1.0)));
                    }
                    let most = float(*row.most.get(phase)?);
                    self.at_most(&[(count, 1.0), (used, -most)], 0.0);
                }
                goods.push((used, -1.0));
                self.at_least(&goods, 0.0);
            }
        }
        Some(())
    }

    fn solve(&self, case: &Case, start: &Start, nodes: &mut u64) -> Option<Answer> {
        let mut options = SolveOptions::default();
        options.node_limit = Some(*nodes);
        options.tolerances.feasibility = ROW_SLACK;
        options.warm_start = Some(self.hint(case, start));
        let outcome = self.problem.solve_with(options).ok()?;
        *nodes = nodes.saturating_sub(outcome.stats().nodes_solved);
        match outcome {
            SolveOutcome::Solution(solution) => Some(self.answer(case, &solution)),
            SolveOutcome::Interrupted(_) => None,
        }
    }

    fn hint(&self, case: &Case, start: &Start) -> Vec<(Variable, f64)> {
        let mut hint = Vec::new();
        for (row, counts) in self.counts.iter().zip(&start.counts) {
            hint.extend(row.iter().zip(counts).map(|(v, count)| (*v, float(*count))));
        }
        for (supplier, (row, counts)) in self.trips.iter().zip(&start.trips).enumerate() {
            for (phase, (trips, count)) in row.iter().zip(counts).enumerate() {
                match trips {
                    Trips::Uncounted => {}
                    Trips::Summed(trips) => hint.push((*trips, float(*count))),
                    Trips::Filled(fillings) => {
                        let mut times = vec![0; fillings.len()];
                        let mut loads = start.loads.iter();
                        while let Some(known) =
                            loads.find(|k| k.supplier == supplier && k.phase == phase)
                        {
                            let way = fillings.iter().position(|(filling, _)| {
                                let limited = known.load.iter().copied().filter(|(place, _)| {
                                    case.rows.get(*place).is_some_and(|r| r.fits.is_some())
                                });
                                trucks::holds(filling, &limited.collect::<Vec<_>>())
                            });
                            if let Some(there) = way.and_then(|way| times.get_mut(way)) {
                                *there += known.times;
                            }
                        }
                        let trips = fillings.iter().map(|(_, trips)| *trips);
                        hint.extend(trips.zip(times.into_iter().map(float)));
                    }
                }
            }
        }
        for (row, trips) in self.used.iter().zip(&start.trips) {
            for (used, trips) in row.iter().zip(trips) {
                hint.extend(used.map(|used| (used, float((*trips).min(1)))));
            }
        }
        hint
    }

    fn answer(&self, case: &Case, solution: &Solution) -> Answer {
        let value = |v: &Variable| rounded(solution.var_value(*v));
        let mut known = Vec::new();
        for (supplier, by_phase) in self.trips.iter().enumerate() {
            for (phase, trips) in by_phase.iter().enumerate() {
                if let Trips::Filled(fillings) = trips {
                    known.extend(fillings.iter().map(|(filling, trips)| Known {
                        supplier,
                        phase,
                        times: value(trips),
                        load: filling.clone(),
                    }));
                }
            }
        }
        known.retain(|known| known.times > 0);
        let counts = self.counts.iter().take(case.rows.len());
        Answer {
            counts: counts.map(|row| row.iter().map(value).collect()).collect(),
            trips: self
                .trips
                .iter()
                .map(|row| {
                    let trips = row.iter().map(Trips::variables);
                    trips.map(|t| t.iter().map(value).sum()).collect()
                })
                .collect(),
            known,
            optimal: solution.status() == SolutionStatus::Optimal,
        }
    }
}

/// Most trips that packages could need, each kind on trucks of its own.
fn most_trips(case: &Case, supplier: usize, phase: usize) -> u64 {
    case.rows_of(Some(supplier))
        .filter_map(|(_, row)| {
            let most = *row.most.get(phase)?;
            Some(row.fits.map_or(1, |fits| most.div_ceil(fits.max(1))))
        })
        .sum()
}

/// A count as a coefficient.
fn float(count: u64) -> f64 {
    #[allow(
        clippy::cast_precision_loss,
        reason = "counts that are searched are small"
    )]
    let float = count as f64;
    float
}

/// The whole number nearest to what the solver gives; nothing for what is below.
fn rounded(value: f64) -> u64 {
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a rounded number within the bounds of the variable, not negative"
    )]
    let whole = value.round().max(0.0) as u64;
    whole
}
