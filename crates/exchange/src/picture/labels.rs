//! Names in and beside a drawing, so that none stands on another. Not here: figures of dimensions.

use super::{Around, At, Fit, Hold, LETTERS, Mark, thin};
use crate::letters::{CAPITAL, Letters, Weight};
use hodful_takeoff::drawing::{Drawing, Label, Stand};

/// Paper left free round a name, mm.
const FREE: f64 = 0.4;

/// From the name of a row to the row, mm.
const BEFORE: f64 = 1.2;

/// From one line of names beside the drawing to the next, of their size.
const LEADING: f64 = 1.35;

/// Width of the lines that lead from the drawing to the names beside it, mm.
const LEADER: f64 = 5.0;

/// How much smaller a name may be so that it has room in its frame.
const SMALLEST: f64 = 0.75;

/// Lines by which a name that stands on another is moved, the nearest first.
const MOVES: [f64; 5] = [0.0, -1.0, 1.0, -2.0, 2.0];

/// Places the names; gives the box that the drawing takes with them.
pub(super) fn place(
    drawing: &Drawing,
    fit: &Fit,
    letters: &Letters,
    marks: &mut Vec<Mark>,
) -> Around {
    let mut around = Around {
        left: 0.0,
        top: 0.0,
        right: fit.wide(),
        bottom: fit.high(),
    };
    let shown = |label: &&Label| {
        !label.only_marked
            && !label.text.trim().is_empty()
            && label.at.iter().all(|n| n.is_finite())
    };
    let (beside, mut within): (Vec<&Label>, Vec<&Label>) = drawing
        .labels
        .iter()
        .filter(shown)
        .partition(|label| label.stand == Stand::Beside);
    within.sort_by_key(|label| core::cmp::Reverse(label.weight));
    let mut taken: Vec<[f64; 4]> = Vec::new();
    for label in within {
        name(label, fit, letters, &mut taken, marks);
    }
    for [left, top, right, bottom] in taken {
        around.left = around.left.min(left);
        around.top = around.top.min(top);
        around.right = around.right.max(right);
        around.bottom = around.bottom.max(bottom);
    }
    column(beside, fit, letters, &mut around, marks);
    around
}

/// A name at its place, or a line or two from it; left out where it would stand on one that matters more.
fn name(
    label: &Label,
    fit: &Fit,
    letters: &Letters,
    taken: &mut Vec<[f64; 4]>,
    marks: &mut Vec<Mark>,
) {
    let mut size = LETTERS;
    let wide = letters.width(&label.text, Weight::Regular);
    if let Stand::In([left, _, right, _]) = label.stand {
        let room = (right - left) / fit.scale - 2.0 * FREE;
        size = (room / wide).clamp(LETTERS * SMALLEST, LETTERS);
    }
    let [mut x, y] = fit.at(label.at);
    let half = wide * size / 2.0;
    if label.stand == Stand::Before {
        x -= half + BEFORE;
    }
    let high = size * CAPITAL;
    for lines in MOVES {
        let base = y + high / 2.0 + lines * size * LEADING;
        let block = [
            x - half - FREE,
            base - high - FREE,
            x + half + FREE,
            base + FREE,
        ];
        let stands_on = |other: &[f64; 4]| {
            block[0] < other[2] && other[0] < block[2] && block[1] < other[3] && other[1] < block[3]
        };
        if taken.iter().any(stands_on) {
            continue;
        }
        let [left, top, right, bottom] = block;
        marks.push(Mark::Area {
            ring: vec![[left, top], [right, top], [right, bottom], [left, bottom]],
            grey: 1.0,
        });
        marks.push(words([x, base], &label.text, size, Hold::Middle));
        taken.push(block);
        return;
    }
}

/// Names in a column at the right, each as near to the height of its place as the others let it, with a
/// line leading to it.
fn column(
    mut beside: Vec<&Label>,
    fit: &Fit,
    letters: &Letters,
    around: &mut Around,
    marks: &mut Vec<Mark>,
) {
    if beside.is_empty() {
        return;
    }
    let place = |label: &Label| fit.at(label.at);
    beside.sort_by(|a, b| place(a)[1].total_cmp(&place(b)[1]));
    let apart = LETTERS * LEADING;
    let mut heights: Vec<f64> = Vec::new();
    for label in &beside {
        let wanted = place(label)[1];
        let least = heights
            .last()
            .map_or(f64::NEG_INFINITY, |last| last + apart);
        heights.push(wanted.max(least));
    }
    // What was pushed down is moved back up by half of the way, so that a tight bundle stays in the middle.
    let pushed = beside
        .iter()
        .zip(&heights)
        .map(|(label, height)| height - place(label)[1]);
    let up = pushed.fold(0.0, f64::max) / 2.0;
    let right = fit.wide();
    let mut widest = 0.0_f64;
    for (label, height) in beside.iter().zip(&heights) {
        let y = height - up;
        marks.push(thin(vec![
            [right + FREE, place(label)[1]],
            [right + LEADER - 2.0 * FREE, y],
        ]));
        let at = [right + LEADER, y + LETTERS * CAPITAL / 2.0];
        marks.push(words(at, &label.text, LETTERS, Hold::Left));
        widest = widest.max(letters.width(&label.text, Weight::Regular) * LETTERS);
        around.top = around.top.min(y - LETTERS * LEADING / 2.0);
        around.bottom = around.bottom.max(y + LETTERS * LEADING / 2.0);
    }
    around.right = around.right.max(right + LEADER + widest);
}

pub(super) fn words(at: At, text: &str, size: f64, hold: Hold) -> Mark {
    Mark::Words {
        at,
        text: text.to_owned(),
        size,
        hold,
        upright: false,
    }
}
