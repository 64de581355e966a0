//! What of a sweep stands in its table: round values with the ends, and the figures that change. Not here: printing it.

use hodful_quantities::print::UnitSystem;
use hodful_takeoff::compare::Line;
use hodful_takeoff::sweep::{Curve, Sweep};
use std::iter::zip;

/// A field over a range as it is shown.
#[derive(Debug)]
pub(crate) struct Swept {
    /// The figures at round values and at the ends.
    pub(super) round: Sweep,
    /// The whole range.
    pub(super) whole: Sweep,
    /// What does not change and is left out of the table, as it stands or else as it is at any value.
    pub(super) still: Vec<(Line, f64)>,
    /// Why some values are refused.
    pub(super) refused: Vec<String>,
}

impl Swept {
    /// The same figures at round values and over the whole range. Where asked for, figures that never change are left
    /// out of the table, unless nothing would be left of it.
    pub(crate) fn new(round: Sweep, whole: Sweep, refused: Vec<String>, leave_out: bool) -> Self {
        let mut swept = Self {
            still: Vec::new(),
            round,
            whole,
            refused,
        };
        let pairs = zip(&swept.round.curves, &swept.whole.curves);
        let change: Vec<bool> = pairs.map(|(a, b)| changes(&[a, b])).collect();
        if leave_out && change.contains(&true) {
            let curves = zip(&swept.whole.curves, &change);
            let still = curves.filter(|(_, changes)| !**changes);
            let value = |of: &Curve| {
                of.now
                    .or_else(|| of.values.iter().flatten().copied().next())
            };
            let still = still.filter_map(|(of, _)| Some((of.line.clone(), value(of)?)));
            swept.still = still.collect();
            for sweep in [&mut swept.round, &mut swept.whole] {
                let mut change = change.iter();
                sweep.curves.retain(|_| change.next() == Some(&true));
            }
        }
        swept
    }
}

/// Whether a figure is not the same everywhere it is told, as it stands included.
pub(crate) fn changes(of: &[&Curve]) -> bool {
    let told = of.iter().flat_map(|of| of.values.iter().chain([&of.now]));
    let mut told = told.flatten().map(|value| value.to_bits());
    let first = told.next();
    told.any(|value| Some(value) != first)
}

/// The values of the table: the round ones between the ends of the whole range.
pub(super) fn with_ends(round: &Sweep, whole: &Sweep, units: UnitSystem) -> Sweep {
    let mut all = round.clone();
    let shown = |x: &f64| whole.scale.show(*x, units);
    let Some(last) = whole.xs.len().checked_sub(1) else {
        return all;
    };
    for (at, to) in [(0, 0), (last, usize::MAX)] {
        let Some(x) = whole.xs.get(at) else { continue };
        // What is shown as an end is that end.
        while let Some(same) = all.xs.iter().position(|other| shown(other) == shown(x)) {
            all.xs.remove(same);
            for curve in &mut all.curves {
                curve.values.remove(same);
            }
        }
        all.xs.insert(to.min(all.xs.len()), *x);
        for (curve, of) in zip(&mut all.curves, &whole.curves) {
            let value = of.values.get(at).copied().flatten();
            curve.values.insert(to.min(curve.values.len()), value);
        }
    }
    all
}
