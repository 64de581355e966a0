//! A linear programme, and the solver behind it. Nothing here knows what the numbers stand for.

use core::time::Duration;

use microlp::{
    ComparisonOp, OptimizationDirection, Problem, SolutionStatus, SolveOptions, SolveOutcome,
};

use super::BlendFault;
use super::tolerance::{COEFFICIENT, SOLVER, SOLVER_AGAIN};

/// How long one programme may take: a thousand times what those of a building site do.
const LONGEST: Duration = Duration::from_secs(2);

/// Find the variables, within their bounds, that meet every row at least cost.
#[derive(Debug, Clone, Default)]
pub(super) struct Programme {
    /// What one of each variable costs; 0 where the list ends early.
    pub(super) costs: Vec<f64>,
    /// Least and most of each variable; the most may be infinite.
    pub(super) bounds: Vec<(f64, f64)>,
    /// Rows whose sum must not be below the number; coefficients are 0 where the list ends early.
    pub(super) at_least: Vec<(Vec<f64>, f64)>,
    /// Rows whose sum must be the number.
    pub(super) equal: Vec<(Vec<f64>, f64)>,
}

impl Programme {
    /// The variables; `None` when nothing meets every row.
    pub(super) fn solve(&self) -> Result<Option<Vec<f64>>, BlendFault> {
        // In this order: as exact as can be, then without what the solver simplifies first, then less exact.
        let tries = [(SOLVER, true), (SOLVER, false), (SOLVER_AGAIN, true)];
        let mut reason = String::new();
        for (tolerance, simplify) in tries {
            match self.solve_within(tolerance, simplify) {
                Ok(found) => return Ok(found),
                Err(why) => reason = why,
            }
        }
        Err(BlendFault::GaveUp(reason))
    }

    fn solve_within(&self, tolerance: f64, simplify: bool) -> Result<Option<Vec<f64>>, String> {
        let mut problem = Problem::new(OptimizationDirection::Minimize);
        let costs = self.costs.iter().copied().chain(core::iter::repeat(0.0));
        let variables: Vec<_> = self
            .bounds
            .iter()
            .zip(costs)
            .map(|(bounds, cost)| problem.add_var(cost, *bounds))
            .collect();
        let rows = self.at_least.iter().map(|row| (row, ComparisonOp::Ge));
        let equal = self.equal.iter().map(|row| (row, ComparisonOp::Eq));
        for ((coefficients, number), comparison) in rows.chain(equal) {
            let terms: Vec<_> = variables
                .iter()
                .zip(coefficients)
                .filter(|(_, c)| c.abs() > COEFFICIENT)
                .map(|(variable, c)| (*variable, *c))
                .collect();
            problem.add_constraint(terms, comparison, *number);
        }
        let mut options = SolveOptions::default();
        options.time_limit = Some(LONGEST);
        options.presolve = simplify;
        options.tolerances.feasibility = tolerance;
        match problem.solve_with(options) {
            Ok(SolveOutcome::Solution(solution))
                if solution.status() == SolutionStatus::Optimal =>
            {
                let values: Vec<f64> = variables.iter().map(|v| solution.var_value(*v)).collect();
                if values.iter().all(|v| v.is_finite()) {
                    Ok(Some(values))
                } else {
                    Err("a share is not a number".to_owned())
                }
            }
            Ok(_) => Err("it took too long".to_owned()),
            Err(microlp::Error::Infeasible) => Ok(None),
            Err(other) => Err(other.to_string()),
        }
    }
}
