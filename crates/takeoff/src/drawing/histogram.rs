//! How often a figure comes out where: its values to the right, the draws up, with marks at what is worked out
//! and at what is enough nine times out of ten. Not here: the draws (see [`crate::chances`]).
//!
//! It borrows the roles of walls as a curve does: bars are areas like a coat under an outline, what is worked out
//! stands like a frame, what is enough is dashed, and marks are fine dots.

use super::axis::Axis;
use super::field::{FIELD, Field};
use super::{Drawing, Role, Stand};
use crate::chances::FigureChances;
use crate::chances::said::{TOLD, enough};
use crate::chances::told::AS_WORKED_OUT;
use crate::figure::Dimension;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{UnitSystem, fixed};

/// Room for the words above the field and right of it, mm.
const ABOVE: f64 = 230.0;
const RIGHT: f64 = 120.0;

/// Up from the field, mm, to the two rows of words.
const ROWS: [f64; 2] = [60.0, 170.0];

/// Most bars: more would be thin lines.
const MOST_BARS: usize = 40;

/// How far a bar of whole things goes beyond its whole numbers.
const HALF_A_THING: f64 = 0.5;

/// Bars side by side, all as wide, that hold all draws of a figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Bars {
    from: f64,
    width: f64,
    counts: Vec<usize>,
    /// Of whole things.
    is_whole: bool,
}

impl Bars {
    /// So many at most, one at least. Of whole things a bar holds as many whole numbers as the others, and stands half
    /// a thing to each side of them.
    pub fn of(figure: &FigureChances, most: usize) -> Self {
        let sample = &figure.sample;
        if figure.line.dimension() != Dimension::Count {
            let drawn = sample.histogram(sample.bins().min(most));
            return Self {
                from: drawn.lowest,
                width: drawn.width,
                counts: drawn.counts,
                is_whole: false,
            };
        }
        let from = sample.lowest() - HALF_A_THING;
        let range = sample.highest() + HALF_A_THING - from;
        let width = (range / height(most.max(1))).ceil().max(1.0);
        let mut counts = Vec::new();
        let mut so_far = 0;
        let mut to = from;
        while so_far < sample.count() {
            to += width;
            let below = sample.values().partition_point(|value| *value < to);
            counts.push(below - so_far);
            so_far = below;
        }
        Self {
            from,
            width,
            counts,
            is_whole: true,
        }
    }

    /// Draws in each.
    pub fn counts(&self) -> &[usize] {
        &self.counts
    }

    /// Draws in the highest.
    pub fn highest(&self) -> usize {
        self.counts.iter().copied().max().unwrap_or_default()
    }

    /// From which value to which each goes, in base units, with the draws in it: of whole things its first and its last
    /// whole number.
    pub fn spans(&self) -> impl Iterator<Item = ((f64, f64), usize)> {
        let half = if self.is_whole { HALF_A_THING } else { 0.0 };
        let each = self.counts.iter().enumerate();
        each.map(move |(at, count)| {
            let from = self.from + self.width * height(at);
            ((from + half, from + self.width - half), *count)
        })
    }

    fn to(&self) -> f64 {
        self.from + self.width * height(self.counts.len())
    }
}

/// A count as a number.
fn height(count: usize) -> f64 {
    #[allow(clippy::cast_precision_loss, reason = "at most a million")]
    let count = count as f64;
    count
}

/// The histogram of one figure. A drawing of nothing, with the reason, when all draws are one.
pub fn histogram(of: &FigureChances, units: UnitSystem) -> Drawing {
    let name = of.line.label();
    if of.sample.lowest().total_cmp(&of.sample.highest()).is_eq() {
        let all = of.line.shown(of.base, units);
        return Drawing::nothing(eco_format!("{name} is {all} in all draws"));
    }
    let bars = Bars::of(of, MOST_BARS);
    let most = bars.highest();
    let dimension = of.line.dimension();
    let (from, to) = (bars.from.min(of.base), bars.to().max(of.base));
    let across = Axis::of_values(dimension, from, to, units);
    let up = Axis::of_figure(Dimension::Count, 0.0, height(most), units);
    let (Some(across), Some(up)) = (across, up) else {
        return Drawing::nothing(eco_format!("{name} is too large to be drawn"));
    };
    let chart = Chart {
        of,
        field: Field { across, up },
    };
    let mut drawing = Drawing::default();
    chart.field.draw(false, &mut drawing);
    chart.bars(&bars, &mut drawing);
    chart.marks(&mut drawing, units);
    drawing.bounds = Some(Field::bounds(ABOVE, RIGHT));
    drawing
}

struct Chart<'a> {
    of: &'a FigureChances,
    field: Field,
}

impl Chart<'_> {
    /// All bars as one area.
    fn bars(&self, bars: &Bars, drawing: &mut Drawing) {
        let mut ring = vec![self.field.place(bars.from, 0.0)];
        let mut from = bars.from;
        for count in &bars.counts {
            let to = from + bars.width;
            let high = height(*count);
            ring.extend([self.field.place(from, high), self.field.place(to, high)]);
            from = to;
        }
        ring.push(self.field.place(from, 0.0));
        drawing.fill(Role::Coat(0), ring.clone(), None);
        drawing.stroke(Role::Outline, ring, true, None);
    }

    /// What is worked out, and the last of the shares that are told.
    fn marks(&self, drawing: &mut Drawing, units: UnitSystem) {
        let Self { of, .. } = self;
        let high = FIELD[1];
        let mut mark = |role, value: f64, row: f64, words: EcoString| {
            let [u, _] = self.field.place(value, 0.0);
            drawing.stroke(role, vec![[u, 0.0], [u, high + row / 2.0]], false, None);
            drawing.label([u, high + row], words, 80, Stand::At);
        };
        let shown = |value: f64| of.line.shown(value, units);
        let words = eco_format!("{AS_WORKED_OUT} {}", shown(of.base));
        mark(Role::Frame, of.base, ROWS[0], words);
        if let Some((share, name)) = TOLD.last() {
            let value = of.enough(*share);
            let words = eco_format!("{name}: {}", shown(value));
            mark(Role::Pocket, value, ROWS[1], words);
            let words = enough(1.0 - *share);
            drawing.captions.push(eco_format!("dashed: {words}"));
        }
        #[allow(clippy::cast_precision_loss, reason = "at most a million")]
        let draws = fixed(of.sample.count() as f64, 0, units.grouping());
        drawing.captions.push(eco_format!(
            "up: how many of {draws} draws, right: {}",
            self.field.across.unit
        ));
    }
}

#[cfg(test)]
mod tests {
    //! Bars hold all draws and stand where they fall.

    #![allow(
        clippy::unwrap_used,
        clippy::float_cmp,
        reason = "a failure is the message"
    )]

    use super::*;
    use crate::compare::Line;
    use hodful_chance::Sample;

    fn figure(line: Line, base: f64, values: &[f64]) -> FigureChances {
        FigureChances {
            line,
            base,
            sample: Sample::from(values.to_vec()).unwrap(),
            shares: Vec::new(),
        }
    }

    /// 3, 3, 4 and 6 batches: bars two, one, none and one high over 3 to 6, half a batch to each side.
    #[test]
    fn whole_things_have_a_bar_each() {
        let of = figure(Line::Batches, 4.0, &[3.0, 3.0, 4.0, 6.0]);
        let bars = Bars::of(&of, MOST_BARS);
        assert_eq!((bars.from, bars.width), (2.5, 1.0));
        assert_eq!(bars.counts, [2, 1, 0, 1]);
        let spans: Vec<_> = bars.spans().collect();
        assert_eq!(spans[0], ((3.0, 3.0), 2));
        assert_eq!(spans[3], ((6.0, 6.0), 1));
        // Two bars at most: 3 and 4, 5 and 6.
        let two: Vec<_> = Bars::of(&of, 2).spans().collect();
        assert_eq!(two, [((3.0, 4.0), 3), ((5.0, 6.0), 1)]);
        let drawing = histogram(&of, UnitSystem::Metric);
        // The field is 2000 mm by 1000 mm for 4 batches and 2 draws.
        let ring = &drawing.fills[0].ring;
        assert_eq!(ring[0], [0.0, 0.0]);
        assert_eq!(ring[1..3], [[0.0, 1000.0], [500.0, 1000.0]]);
        assert_eq!(ring[3..5], [[500.0, 500.0], [1000.0, 500.0]]);
        assert_eq!(ring.last(), Some(&[2000.0, 0.0]));
        let words: Vec<&str> = drawing.labels.iter().map(|of| &*of.text).collect();
        assert!(words.contains(&"as worked out 4"), "{words:?}");
        // 4 are enough 3 times in 4, 6 always.
        assert!(words.contains(&"9 of 10: 6"), "{words:?}");
        for whole in ["3", "4", "5", "6"] {
            assert!(words.contains(&whole), "{whole} in {words:?}");
        }
    }

    #[test]
    fn many_whole_things_share_bars_and_none_is_lost() {
        let values: Vec<f64> = (0..1000_u32).map(|n| f64::from(n * n % 997)).collect();
        let bars = Bars::of(&figure(Line::Batches, 4.0, &values), MOST_BARS);
        assert!(bars.counts.len() <= 40 && bars.width == 25.0, "{bars:?}");
        assert_eq!(bars.counts.iter().sum::<usize>(), 1000);
        let bars = Bars::of(&figure(Line::Cost, 4.0, &values), MOST_BARS);
        assert_eq!(bars.counts.iter().sum::<usize>(), 1000);
    }

    #[test]
    fn what_does_not_vary_is_said_and_not_drawn() {
        let drawing = histogram(&figure(Line::Batches, 4.0, &[4.0, 4.0]), UnitSystem::Us);
        assert!(drawing.bounds.is_none());
        assert_eq!(drawing.captions, ["batches is 4 in all draws"]);
        // What is worked out may lie beyond all draws: the field reaches there.
        let drawing = histogram(
            &figure(Line::AllMixed, 1e9, &[2e9, 3e9, 3e9]),
            UnitSystem::Metric,
        );
        let frame = drawing.strokes.iter().find(|of| of.role == Role::Frame);
        let [u, v] = frame.unwrap().points[0];
        assert!(u.abs() < 1e-6 && v == 0.0, "{u} {v}");
    }
}
