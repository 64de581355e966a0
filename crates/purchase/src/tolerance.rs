//! The tolerances and limits of this crate, each with its reason. Nothing else here.

/// Relative slack of a cover and of a full truck: that of the counts of the order.
pub(crate) use hodful_quantities::tolerance::COUNT_SLACK;

/// How far the solver may miss a row, in the unit of that row (one largest package, one truck load): as
/// tight as it keeps well in `f64`, and nothing that could be weighed.
pub(crate) const ROW_SLACK: f64 = 1e-9;

/// How short a cover that is checked again may be, in largest packages: what the solver may miss, with room
/// for the sums over phases.
pub(crate) const CHECK_SLACK: f64 = 1e-8;

/// How far the share of a phase by volume may be from its share by mass: above the rounding of worked-out
/// quantities, below what could change a count.
pub(crate) const ONE_DENSITY: f64 = 1e-6;

/// Most of one package that is left to the solver: its tolerance for whole numbers (a millionth) is then a
/// tenth of a package in a row, and no more.
pub(crate) const MOST_PACKAGES: u64 = 100_000;

/// Most package counts (packages times phases) that are left to the solver, since no limit of nodes cuts the
/// first relaxation short: made-up cases of this size, one phase to a hundred, ended within a second.
pub(crate) const MOST_COUNTS: usize = 600;

/// Nodes of the search over all its stages, times the square of the package counts, since a node costs about
/// that much. Twelve packages in three phases ended within half a second where it was tried. A number of
/// steps and not a time, so that a list is the same on every machine.
pub(crate) const MOST_WORK: u64 = 2_000_000;

/// Nodes that are searched however many counts there are.
pub(crate) const LEAST_NODES: u64 = 20;

/// Ways to fill a truck that get a variable each; beyond, loads are only summed.
pub(crate) const MOST_FILLINGS: usize = 400;

/// Phases from the first on whose runs are rounded up to whole packages where goods go off: the rows grow
/// with the square of it.
pub(crate) const MOST_RUNS: usize = 6;

/// Sizes by which a cover is rounded up to whole packages; the smallest ones say most.
pub(crate) const MOST_ROUNDINGS: usize = 2;

/// Parts of the smallest package that are tried as a common unit of all: bags of 25 and 40 have one of a
/// fifth, odd sizes have none.
pub(crate) const MOST_UNITS: u32 = 10;
