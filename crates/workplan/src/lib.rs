//! What is to be done at the walls, by whom and when: coats as tasks, a crew with its hours, a mixer, and waits until
//! a coat is dry, made into a plan that can be done.
//!
//! Four people place 3 m² of base coat an hour each. On a face of 48 m² that takes 48 / 12 = 4 hours, if the mixer
//! keeps up: 48 m² at 30 litres are 1440 litres, 360 an hour. It just does.
//!
//! ```
//! use hodful_workplan::{Limit, example, plan};
//!
//! let site = example();
//! let plan = plan(&site, &mut |_, end| end)?;
//! let first = plan.tasks[0].as_ref().ok_or("no place")?;
//! assert_eq!(first.begin.to_string(), "2030-05-06T08:00:00");
//! assert_eq!(first.end.to_string(), "2030-05-06T12:00:00");
//! assert_eq!(first.batches, 12);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! The plan is found by a rule, not by trying all: it can be done, and [`Bounds`] says what no plan undercuts. One
//! more person mostly brings the end forward, but need not: a rule that starts the most urgent first can end later
//! with more hands (Graham, Bounds on multiprocessing timing anomalies, SIAM Journal on Applied Mathematics 17,
//! 1969, from memory).
//!
//! Times are civil; where clocks change at night nothing is lost but that hour of a wait. Not here: how fast a coat
//! dries, the surfaces and volumes, the weather, costs, and any input or output.

mod axis;
mod bound;
mod faults;
mod find;
mod grid;
mod held;
mod piece;
mod plan;
mod plan_fault;
pub mod published;
mod read_off;
mod refusal;
mod schedule;
mod share_out;
mod site;
mod supply;
mod tolerance;
mod weekend;
mod wet_edge;

pub use faults::faults;
pub use find::{example, plan};
pub use plan::{
    Because, Bounds, Day, Limit, Link, Mix, Notice, Plan, Portion, Stint, TaskPlan, Unplanned, Why,
};
pub use plan_fault::PlanFault;
pub use refusal::{Refused, SiteFault, refusals};
pub use share_out::{Shared, share_out};
pub use site::{After, Coat, Crew, Hours, Mixing, Preparing, Role, Side, Site, Task, Work};
pub use tolerance::{MOST_PEOPLE, STEP_MINUTES};
pub use weekend::{Before, Weekend, weekend};
pub use wet_edge::wet_edge;
