//! Dimensions outside a drawing: a line between two places with a stroke at either end, the figure over
//! it, and thin lines that lead to the drawing. Figures that run up are read from the right (ISO 129-1,
//! from memory). Not here: which dimensions there are.

use super::{Around, At, Dash, Fit, Hold, LETTERS, Mark, thin};
use crate::letters::{CAPITAL, Letters, Weight};
use hodful_takeoff::drawing::{DimensionLine, Drawing, Edge};

/// From the drawing to where the first line of dimensions begins to take room, mm.
const GAP: f64 = 1.5;

/// From a line to the base of its figure, mm.
const OVER: f64 = 0.7;

/// Paper left free beside a figure, mm.
const FREE: f64 = 0.5;

/// Half of the stroke at the end of a line, along and across, mm.
const STROKE: f64 = 0.8;

/// Half of the room of a line itself, mm.
const LINE: f64 = 1.2;

/// A dimension in millimetres along its edge of the page.
struct Span<'a> {
    from: f64,
    to: f64,
    text: &'a str,
    wide: f64,
    weight: u8,
}

impl Span<'_> {
    fn middle(&self) -> f64 {
        f64::midpoint(self.from, self.to)
    }

    /// The figure with the paper round it.
    fn figure(&self) -> [f64; 2] {
        let half = self.wide / 2.0 + FREE;
        [self.middle() - half, self.middle() + half]
    }

    fn holds_figure(&self) -> bool {
        self.wide + 2.0 * FREE <= self.to - self.from
    }
}

/// Places all dimensions round a drawing that takes the box `inner` with its names; gives the box with
/// them.
pub(super) fn place(
    drawing: &Drawing,
    fit: &Fit,
    inner: &Around,
    letters: &Letters,
    marks: &mut Vec<Mark>,
) -> Around {
    let mut around = *inner;
    for edge in [Edge::Below, Edge::Above, Edge::Left, Edge::Right] {
        let mut rows: Vec<u8> = shown(drawing, edge).map(|figure| figure.row).collect();
        rows.sort_unstable();
        rows.dedup();
        let mut out = 0.0;
        for row in rows {
            let spans: Vec<Span<'_>> = shown(drawing, edge)
                .filter(|figure| figure.row == row)
                .map(|figure| span(figure, fit, letters))
                .collect();
            out = one_row(edge, &spans, out, fit, inner, marks);
            // A figure wider than its line may stand past the end of the drawing.
            for span in &spans {
                let [from, to] = span.figure();
                if edge.is_level() {
                    around.left = around.left.min(from);
                    around.right = around.right.max(to);
                } else {
                    around.top = around.top.min(from);
                    around.bottom = around.bottom.max(to);
                }
            }
        }
        match edge {
            Edge::Below => around.bottom = around.bottom.max(inner.bottom + out),
            Edge::Above => around.top = around.top.min(inner.top - out),
            Edge::Left => around.left = around.left.min(inner.left - out),
            Edge::Right => around.right = around.right.max(inner.right + out),
        }
    }
    around
}

fn shown(drawing: &Drawing, edge: Edge) -> impl Iterator<Item = &DimensionLine> {
    drawing.dimensions.iter().filter(move |figure| {
        let ends = [figure.from, figure.to];
        figure.edge == edge && !figure.only_chosen && ends.iter().flatten().all(|n| n.is_finite())
    })
}

fn span<'a>(figure: &'a DimensionLine, fit: &Fit, letters: &Letters) -> Span<'a> {
    let [from, to] = [fit.at(figure.from), fit.at(figure.to)];
    let (from, to, most) = if figure.edge.is_level() {
        (from[0], to[0], fit.wide())
    } else {
        (from[1], to[1], fit.high())
    };
    Span {
        from: from.min(to).clamp(0.0, most),
        to: from.max(to).clamp(0.0, most),
        text: &figure.text,
        wide: letters.width(&figure.text, Weight::Regular) * LETTERS,
        weight: figure.weight,
    }
}

/// Where the figure of a span stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Track {
    Over,
    Under,
    Nowhere,
}

/// The tracks of the figures of a row: over the line where they have room, under it where only there; of
/// two that would stand on one another the less important one is left out.
fn tracks(spans: &[Span<'_>]) -> Vec<Track> {
    let mut order: Vec<usize> = (0..spans.len()).collect();
    let rank = |at: &usize| {
        let span = spans.get(*at);
        span.map(|span| (!span.holds_figure(), core::cmp::Reverse(span.weight)))
    };
    order.sort_by_key(rank);
    let mut tracks = vec![Track::Nowhere; spans.len()];
    let (mut over, mut under): (Vec<[f64; 2]>, Vec<[f64; 2]>) = (Vec::new(), Vec::new());
    for at in order {
        let (Some(span), Some(track)) = (spans.get(at), tracks.get_mut(at)) else {
            continue;
        };
        let figure = span.figure();
        let free = |taken: &[[f64; 2]]| {
            taken
                .iter()
                .all(|other| figure[1] <= other[0] || figure[0] >= other[1])
        };
        if free(&over) {
            over.push(figure);
            *track = Track::Over;
        } else if free(&under) {
            under.push(figure);
            *track = Track::Under;
        }
    }
    tracks
}

/// Places a row of dimensions `out` past the box; gives how far out it reaches.
fn one_row(
    edge: Edge,
    spans: &[Span<'_>],
    out: f64,
    fit: &Fit,
    inner: &Around,
    marks: &mut Vec<Mark>,
) -> f64 {
    let tracks = tracks(spans);
    let letters_high = LETTERS * CAPITAL + OVER + FREE;
    let under = if tracks.contains(&Track::Under) {
        letters_high + FREE
    } else {
        LINE
    };
    // Over is up the page for level figures and left for upright ones.
    let over_is_out = matches!(edge, Edge::Above | Edge::Left);
    let (near, far) = if over_is_out {
        (under, letters_high)
    } else {
        (letters_high, under)
    };
    let line = out + if out > 0.0 { 0.0 } else { GAP } + near;
    // From along and out to the page.
    let page = |along: f64, out: f64| -> At {
        match edge {
            Edge::Below => [along, inner.bottom + out],
            Edge::Above => [along, inner.top - out],
            Edge::Left => [inner.left - out, along],
            Edge::Right => [inner.right + out, along],
        }
    };
    for span in spans {
        marks.push(thin(vec![page(span.from, line), page(span.to, line)]));
        for end in [span.from, span.to] {
            let [x, y] = page(end, line);
            marks.push(Mark::Line {
                points: vec![[x - STROKE, y + STROKE], [x + STROKE, y - STROKE]],
                closed: false,
                width: 0.25,
                dash: Dash::Whole,
            });
            // From the drawing itself, past names that stand between.
            let start = match edge {
                Edge::Below => [end, fit.high() + GAP / 2.0],
                Edge::Above => [end, -GAP / 2.0],
                Edge::Left => [-GAP / 2.0, end],
                Edge::Right => [inner.right + GAP / 2.0, end],
            };
            marks.push(thin(vec![start, page(end, line + LINE)]));
        }
    }
    // Figures over all lines, so that the paper round one breaks what leads past it.
    for (span, track) in spans.iter().zip(tracks) {
        let [x, y] = page(span.middle(), line);
        let shift = match track {
            Track::Over => -OVER,
            Track::Under => OVER + LETTERS * CAPITAL,
            Track::Nowhere => continue,
        };
        let level = edge.is_level();
        if !span.holds_figure() {
            let (half, high) = (span.wide / 2.0 + FREE / 2.0, LETTERS * CAPITAL);
            let ring = [
                [-half, shift + OVER / 2.0],
                [half, shift + OVER / 2.0],
                [half, shift - high - OVER / 2.0],
                [-half, shift - high - OVER / 2.0],
            ];
            let turned = |[along, across]: At| {
                if level {
                    [x + along, y + across]
                } else {
                    [x + across, y + along]
                }
            };
            marks.push(Mark::Area {
                ring: ring.map(turned).to_vec(),
                grey: 1.0,
            });
        }
        marks.push(Mark::Words {
            at: if level {
                [x, y + shift]
            } else {
                [x + shift, y]
            },
            text: span.text.to_owned(),
            size: LETTERS,
            hold: Hold::Middle,
            upright: !level,
        });
    }
    line + far
}
