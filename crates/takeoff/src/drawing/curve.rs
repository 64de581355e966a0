//! One figure over the range of one input: the input to the right, the figure up, with marks at round
//! numbers of the project's units. Not here: the values (see [`crate::sweep`]), and names of figures.
//!
//! It is a scene like those of walls, and borrows their roles by how a line is to look: the curve is as
//! firm as an outline, where the project stands and where a package or a batch more is needed stand like
//! a frame, limits are dashed like the edge of plaster, and marks are fine dots.

use super::axis::Axis;
use super::field::{BELOW, FIELD, Field, LEFT};
use super::{Drawing, Point, Role, Stand};
use crate::figure::Dimension;
use crate::sweep::{Curve, Limit, Step, Sweep};
use ecow::eco_format;
use hodful_quantities::print::UnitSystem;
use std::iter::zip;

/// Room for the words above the field, mm.
const ABOVE: f64 = 100.0;

/// Half of a mark on the curve, mm.
const MARK: f64 = 30.0;

/// Most marks of steps on a curve: more would hide it.
const MOST_MARKS: usize = 60;

/// Down from the top, mm, from the words of one limit to those of the next.
const ROW: f64 = 90.0;

/// The curve of a figure by its position among those of a sweep. `name` is what the figure is called:
/// `sand, loose`.
///
/// Where a value is refused the curve breaks off; between two values it is straight, except that counts
/// and money jump where the step is. A drawing of nothing, with the reason, when no value is there.
pub fn curve(sweep: &Sweep, at: usize, name: &str, units: UnitSystem) -> Drawing {
    let Some(curve) = sweep.curves.get(at) else {
        return Drawing::nothing("there is no such figure");
    };
    let told = curve.values.iter().flatten();
    let Some([least, most]) = told.fold(None, |so_far, value| {
        let [least, most] = so_far.unwrap_or([*value, *value]);
        Some([least.min(*value), most.max(*value)])
    }) else {
        return Drawing::nothing(eco_format!("{name} cannot be told at any value"));
    };
    let (Some(first), Some(last)) = (sweep.xs.first(), sweep.xs.last()) else {
        return Drawing::nothing("the range is empty");
    };
    let across = Axis::of_input(&sweep.scale, *first, *last, units);
    let up = Axis::of_figure(curve.line.dimension(), least, most, units);
    let (Some(across), Some(up)) = (across, up) else {
        return Drawing::nothing(eco_format!("{name} is too large to be drawn"));
    };
    let chart = Chart {
        sweep,
        curve,
        field: Field { across, up },
    };
    let mut drawing = Drawing::default();
    chart.field.draw(true, &mut drawing);
    chart.limits(&mut drawing);
    chart.line(&mut drawing);
    chart.present(&mut drawing, units);
    chart.words(&mut drawing, name, units);
    drawing.bounds = Some(Field::bounds(ABOVE, BELOW));
    drawing
}

struct Chart<'a> {
    sweep: &'a Sweep,
    curve: &'a Curve,
    field: Field,
}

impl Chart<'_> {
    fn limits(&self, drawing: &mut Drawing) {
        for (row, limit) in zip(0_u32.., &self.sweep.limits) {
            let [u, _] = self.field.place(limit.at, 0.0);
            drawing.stroke(Role::Plaster, vec![[u, 0.0], [u, FIELD[1]]], false, None);
            let v = FIELD[1] - ROW * (f64::from(row) + 0.5);
            if v > 0.0 {
                drawing.label([u, v], limit.name.clone(), 75, Stand::Next);
            }
        }
    }

    /// The steps of the figure between two values.
    fn steps_between(&self, from: f64, to: f64) -> impl Iterator<Item = &Step> {
        let steps = self.sweep.steps_of(&self.curve.line);
        steps.filter(move |step| (from..to).contains(&step.at))
    }

    fn line(&self, drawing: &mut Drawing) {
        let jumps = matches!(
            self.curve.line.dimension(),
            Dimension::Count | Dimension::Money
        );
        let few = self.sweep.steps_of(&self.curve.line).take(MOST_MARKS + 1);
        let marked = !jumps && few.count() <= MOST_MARKS;
        let mut line: Vec<Point> = Vec::new();
        let mut before: Option<(f64, f64)> = None;
        for (x, value) in zip(&self.sweep.xs, &self.curve.values) {
            let Some(value) = value else {
                Self::end(drawing, &mut line);
                before = None;
                continue;
            };
            if let Some((from, was)) = before {
                let mut steps = self.steps_between(from, *x);
                let is_jump = jumps && was.to_bits() != value.to_bits();
                if is_jump && let (Some(step), None) = (steps.next(), steps.next()) {
                    line.push(self.field.place(step.at, was));
                    line.push(self.field.place(step.at, *value));
                } else if marked {
                    for step in self.steps_between(from, *x) {
                        let share = (step.at - from) / (x - from);
                        let [u, v] = self.field.place(step.at, was + (value - was) * share);
                        let mark = vec![[u, v - MARK], [u, v + MARK]];
                        drawing.stroke(Role::Frame, mark, false, None);
                    }
                }
            }
            line.push(self.field.place(*x, *value));
            before = Some((*x, *value));
        }
        Self::end(drawing, &mut line);
    }

    /// Ends a stretch of the curve; a value that stands alone is a cross.
    fn end(drawing: &mut Drawing, line: &mut Vec<Point>) {
        match line.as_slice() {
            [] => {}
            [[u, v]] => {
                let level = vec![[u - MARK, *v], [u + MARK, *v]];
                let upright = vec![[*u, v - MARK], [*u, v + MARK]];
                drawing.stroke(Role::Outline, level, false, None);
                drawing.stroke(Role::Outline, upright, false, None);
            }
            _ => drawing.stroke(Role::Outline, std::mem::take(line), false, None),
        }
        line.clear();
    }

    /// Where the project stands, when that is within the range.
    fn present(&self, drawing: &mut Drawing, units: UnitSystem) {
        let (Some(x), Some(value)) = (self.within(), self.curve.now) else {
            return;
        };
        let [u, v] = self.field.place(x, value);
        drawing.stroke(Role::Frame, vec![[u, 0.0], [u, v]], false, None);
        let diamond = vec![[u - MARK, v], [u, v - MARK], [u + MARK, v], [u, v + MARK]];
        drawing.stroke(Role::Frame, diamond, true, None);
        let words = eco_format!("now {}", self.sweep.scale.show(x, units));
        drawing.label([u, FIELD[1] + ABOVE / 2.0], words, 80, Stand::At);
    }

    fn within(&self) -> Option<f64> {
        let present = self.sweep.present?;
        let (first, last) = (self.sweep.xs.first()?, self.sweep.xs.last()?);
        (*first..=*last).contains(&present).then_some(present)
    }

    fn words(&self, drawing: &mut Drawing, name: &str, units: UnitSystem) {
        let Sweep { label, of, .. } = self.sweep;
        let source = |limit: &Limit| {
            let source = limit.source.map(|source| eco_format!("; {source}"));
            source.unwrap_or_default()
        };
        let unit = self.field.up.unit.clone();
        // Whole things and money have none.
        let is_counted = matches!(
            self.curve.line.dimension(),
            Dimension::Count | Dimension::Money
        );
        if !is_counted {
            drawing.label([-LEFT / 2.0, FIELD[1] + ABOVE / 2.0], unit, 70, Stand::Here);
        }
        let captions = &mut drawing.captions;
        captions.push(eco_format!("{name} by {label}, {of}"));
        captions.push(eco_format!(
            "up: {}, right: {}",
            self.field.up.unit,
            self.field.across.unit
        ));
        for limit in &self.sweep.limits {
            let at = limit.shown(&self.sweep.scale, units);
            let source = source(limit);
            captions.push(eco_format!("dashed at {at}: {}{source}", limit.words));
        }
        for limit in &self.sweep.broken {
            let source = source(limit);
            let side = if limit.at_most { "over" } else { "under" };
            captions.push(eco_format!(
                "all of this range is {side}: {}{source}",
                limit.words
            ));
        }
    }
}

#[cfg(test)]
mod tests;
