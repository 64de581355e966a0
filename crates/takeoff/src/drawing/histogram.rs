//! How often a figure comes out where: its values to the right, the draws up, with marks at what is worked out
//! and at what is enough nine times out of ten. Not here: the draws (see [`crate::chances`]).
//!
//! It borrows the roles of walls as a curve does: bars are areas like a coat under an outline, what is worked out
//! stands like a frame, what is enough is dashed, and marks are fine dots.

use super::axis::Axis;
use super::field::{FIELD, Field};
use super::{Drawing, Role, Stand};
use crate::chances::FigureChances;
use crate::chances::said::{TOLD, often};
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
const MOST_BARS: f64 = 40.0;

/// Bars side by side, all as wide.
#[derive(Debug)]
struct Bars {
    from: f64,
    width: f64,
    counts: Vec<usize>,
}

impl Bars {
    /// Of whole things a bar holds as many whole numbers as the others, with its number in its middle.
    fn of(figure: &FigureChances) -> Self {
        let sample = &figure.sample;
        if figure.line.dimension() != Dimension::Count {
            #[allow(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a small whole number"
            )]
            let drawn = sample.histogram(sample.bins().min(MOST_BARS as usize));
            return Self {
                from: drawn.lowest,
                width: drawn.width,
                counts: drawn.counts,
            };
        }
        let from = sample.lowest() - 0.5;
        let range = sample.highest() + 0.5 - from;
        let width = (range / MOST_BARS).ceil().max(1.0);
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
        }
    }

    /// The height of one, in draws.
    fn height(count: usize) -> f64 {
        #[allow(clippy::cast_precision_loss, reason = "at most a million")]
        let count = count as f64;
        count
    }

    fn to(&self) -> f64 {
        self.from + self.width * Self::height(self.counts.len())
    }
}

/// The histogram of one figure. A drawing of nothing, with the reason, when all draws are one.
pub fn histogram(of: &FigureChances, units: UnitSystem) -> Drawing {
    let name = of.line.label();
    if of.sample.lowest().total_cmp(&of.sample.highest()).is_eq() {
        let all = of.line.shown(of.base, units);
        return Drawing::nothing(eco_format!("{name} is {all} in all draws"));
    }
    let bars = Bars::of(of);
    let most = bars.counts.iter().copied().max().unwrap_or_default();
    let dimension = of.line.dimension();
    let (from, to) = (bars.from.min(of.base), bars.to().max(of.base));
    let across = Axis::of_values(dimension, from, to, units);
    let up = Axis::of_figure(Dimension::Count, 0.0, Bars::height(most), units);
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
            let high = Bars::height(*count);
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
            let value = of.sample.at(*share);
            let words = eco_format!("{name}: {}", shown(value));
            mark(Role::Pocket, value, ROWS[1], words);
            let often = often(*share);
            drawing.captions.push(eco_format!("dashed: enough {often}"));
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
        let bars = Bars::of(&of);
        assert_eq!((bars.from, bars.width), (2.5, 1.0));
        assert_eq!(bars.counts, [2, 1, 0, 1]);
        let drawing = histogram(&of, UnitSystem::Metric);
        // The field is 2000 mm by 1000 mm for 4 batches and 2 draws.
        let ring = &drawing.fills[0].ring;
        assert_eq!(ring[0], [0.0, 0.0]);
        assert_eq!(ring[1..3], [[0.0, 1000.0], [500.0, 1000.0]]);
        assert_eq!(ring[3..5], [[500.0, 500.0], [1000.0, 500.0]]);
        assert_eq!(ring.last(), Some(&[2000.0, 0.0]));
        let words: Vec<&str> = drawing.labels.iter().map(|of| &*of.text).collect();
        assert!(words.contains(&"as worked out 4"), "{words:?}");
        // Type 7 of Hyndman and Fan (1996): 0.9 of the way along three gaps is 4 + 0.7 × 2.
        assert!(words.contains(&"9 of 10: 5"), "{words:?}");
        for whole in ["3", "4", "5", "6"] {
            assert!(words.contains(&whole), "{whole} in {words:?}");
        }
    }

    #[test]
    fn many_whole_things_share_bars_and_none_is_lost() {
        let values: Vec<f64> = (0..1000_u32).map(|n| f64::from(n * n % 997)).collect();
        let bars = Bars::of(&figure(Line::Batches, 4.0, &values));
        assert!(bars.counts.len() <= 40 && bars.width == 25.0, "{bars:?}");
        assert_eq!(bars.counts.iter().sum::<usize>(), 1000);
        let bars = Bars::of(&figure(Line::Cost, 4.0, &values));
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
