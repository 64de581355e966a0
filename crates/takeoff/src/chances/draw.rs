//! The draws: a site and grounds as they may turn out, evaluated, and the figures read off. Not here: what may be
//! off (see `inputs`) and what a draw does to the faces (see `faces`).

use super::faces::{self, Faces, Grounds};
use super::inputs::Inputs;
use super::orders::Ordered;
use crate::checked::Site;
use crate::compare::{Line, One};
use crate::evaluate::Evaluation;
use hodful_chance::{CHUNK, Stream, draws};

/// Everything that the draws need.
#[derive(Debug)]
pub(super) struct Drawing<'p> {
    one: One<'p>,
    lines: Vec<Line>,
    pub(super) inputs: Inputs,
    grounds: Grounds,
    pub(super) orders: Vec<Ordered>,
}

/// What came of the draws, each list by draw.
#[derive(Debug)]
pub(super) struct Drawn {
    /// By line; not a number where it cannot be told.
    pub(super) figures: Vec<Vec<f64>>,
    /// By input.
    pub(super) inputs: Vec<Vec<f64>>,
    /// By order: draws in which it is short; `None` where that cannot be told.
    pub(super) short: Vec<Option<usize>>,
    /// Draws in which something was brought back to what can be.
    pub(super) clamped: usize,
}

/// What a chunk of draws works on.
#[derive(Debug)]
struct Scratch {
    site: Site,
    evaluation: Evaluation,
    /// Of the draws that share a stream.
    faces: faces::Drawn,
}

/// One draw.
#[derive(Debug)]
struct Row {
    /// Figures, then inputs.
    values: Vec<f64>,
    short: Vec<Option<bool>>,
    clamped: bool,
}

/// A figure that cannot be told in a draw: 0 of a material that no coat takes there, as when its one coat has come
/// to nothing, and of cost what the other materials cost.
fn unused(one: &One<'_>, line: &Line) -> f64 {
    if *line == Line::Cost {
        let waits = one.evaluation.materials.iter().any(|of| of.waits);
        let cost = one.evaluation.cost.to_f64();
        return if waits { f64::NAN } else { cost };
    }
    let (Line::Loose(name) | Line::Mass(name) | Line::Packages(name)) = line else {
        return f64::NAN;
    };
    let at = one.project.materials.get_index_of(name);
    let figures = at.and_then(|at| one.evaluation.materials.get(at));
    match figures {
        Some(figures) if figures.uses.is_empty() && !figures.waits => 0.0,
        _ => f64::NAN,
    }
}

impl<'p> Drawing<'p> {
    pub(super) fn new(one: &One<'p>, lines: Vec<Line>) -> Self {
        let faces = Faces::of(one);
        let inputs = Inputs::of(one, &faces);
        Self {
            one: *one,
            lines,
            grounds: Grounds::new(one, &faces, &inputs),
            inputs,
            orders: Ordered::all(one),
        }
    }

    /// Memory that a draw takes while it is kept, in bytes: its row, twice while rows are gathered, with its values and
    /// orders; the same values by figure and by input; and how far those of the inputs are from their mean.
    pub(super) const fn bytes(&self) -> usize {
        let number = size_of::<f64>();
        let values = (self.lines.len() + self.inputs.said.len()) * number;
        let orders = self.orders.len() * size_of::<Option<bool>>();
        2 * size_of::<Row>() + values + orders + values + self.inputs.said.len() * number
    }

    pub(super) fn run(&self, count: usize, seed: u64) -> Drawn {
        let begin = || Scratch {
            site: self.one.site.clone(),
            evaluation: Evaluation::default(),
            faces: faces::Drawn::default(),
        };
        let rows = draws(count, seed, begin, |scratch, stream, at| {
            self.draw(scratch, stream, at)
        });
        let column = |at: usize| -> Vec<f64> {
            let value = |row: &Row| row.values.get(at).copied().unwrap_or(f64::NAN);
            rows.iter().map(value).collect()
        };
        let lines = self.lines.len();
        let short = |at: usize| {
            let each = rows.iter().map(|row| row.short.get(at).copied().flatten());
            each.map(|short| short.map(usize::from)).sum()
        };
        Drawn {
            figures: (0..lines).map(column).collect(),
            inputs: (lines..lines + self.inputs.said.len())
                .map(column)
                .collect(),
            short: (0..self.orders.len()).map(short).collect(),
            clamped: rows.iter().filter(|row| row.clamped).count(),
        }
    }

    fn draw(&self, scratch: &mut Scratch, stream: &mut Stream, at: usize) -> Row {
        let Scratch {
            site,
            evaluation,
            faces,
        } = scratch;
        if at.is_multiple_of(CHUNK) {
            self.grounds.draw_faces(stream, CHUNK, faces);
        }
        let mut values = Vec::with_capacity(self.lines.len() + self.inputs.said.len());
        values.resize(self.lines.len(), f64::NAN);
        let mut clamped = false;
        for common in &self.inputs.common {
            let (first, back) = common.draw(stream, |target, value| target.set(site, value));
            values.push(first);
            clamped |= back;
        }
        let so_far = values.len();
        values.resize(self.lines.len() + self.inputs.said.len(), 0.0);
        let walls = values.get_mut(so_far..).unwrap_or_default();
        clamped |= self
            .grounds
            .fill(faces, at % CHUNK, site, evaluation, walls);
        evaluation.order(site);
        let one = One {
            site,
            evaluation,
            supply: None,
            ..self.one
        };
        for (value, line) in values.iter_mut().zip(&self.lines) {
            *value = line.value(&one).unwrap_or_else(|| unused(&one, line));
        }
        let short = self.orders.iter().map(|order| order.is_short(evaluation));
        Row {
            values,
            short: short.collect(),
            clamped,
        }
    }
}
