//! The lines and areas of a drawing, cut at its bounds: how wide each line is, how grey and how hatched
//! each area. Not here: words.

use super::{At, Dash, Fit, Mark};
use crate::tolerance::EDGE;
use hodful_takeoff::drawing::{Drawing, Role};

/// How the line of a thing looks: width in mm of the page, and how it is broken.
fn line(role: Role) -> (f64, Dash) {
    match role {
        Role::Floor => (0.7, Dash::Whole),
        Role::Outline => (0.5, Dash::Whole),
        Role::Frame => (0.35, Dash::Whole),
        Role::Plaster | Role::Background | Role::Hole => (0.25, Dash::Whole),
        Role::Pocket => (0.25, Dash::Dashed),
        Role::DubbingOut | Role::Coat(_) => (0.18, Dash::Whole),
        Role::Break => (0.18, Dash::Chain),
        Role::Lath => (0.13, Dash::Chain),
        Role::Rounded => (0.13, Dash::Dashed),
        Role::RevealSurface => (0.13, Dash::Whole),
    }
}

/// How an area looks: its grey, and its hatching as a slope and a distance in mm of the page.
struct Look {
    grey: f64,
    hatch: Option<(Slope, f64)>,
}

#[derive(Clone, Copy)]
enum Slope {
    Rising,
    Falling,
}

fn look(role: Role) -> Look {
    let (grey, hatch) = match role {
        Role::Background => (1.0, Some((Slope::Rising, 2.4))),
        Role::DubbingOut => (1.0, Some((Slope::Falling, 0.9))),
        // Coats in turn: light, dark, middle. The step from one to the next holds in a photocopy.
        Role::Coat(number) => match number % 3 {
            0 => (0.88, None),
            1 => (0.62, None),
            _ => (0.76, None),
        },
        Role::Floor => (0.8, None),
        Role::Frame => (1.0, None),
        _ => (0.94, None),
    };
    Look { grey, hatch }
}

/// The areas, then the lines.
pub(super) fn marks(drawing: &Drawing, fit: &Fit) -> Vec<Mark> {
    let mut marks = Vec::new();
    let cut = [0.0, 0.0, fit.wide(), fit.high()];
    for fill in &drawing.fills {
        let ring: Vec<At> = fill.ring.iter().map(|point| fit.at(*point)).collect();
        let ring = within(&ring, cut);
        if ring.len() < 3 {
            continue;
        }
        let look = look(fill.role);
        let hatch = look
            .hatch
            .map(|(slope, apart)| hatching(&ring, slope, apart));
        marks.push(Mark::Area {
            ring,
            grey: look.grey,
        });
        for points in hatch.into_iter().flatten() {
            marks.push(super::thin(points));
        }
    }
    // A frame lets nothing of the wall through, on a plan least of all.
    let frames = drawing
        .strokes
        .iter()
        .filter(|stroke| stroke.role == Role::Frame && stroke.closed);
    for frame in frames {
        let ring: Vec<At> = frame.points.iter().map(|point| fit.at(*point)).collect();
        marks.push(Mark::Area {
            ring: within(&ring, cut),
            grey: 1.0,
        });
    }
    for stroke in &drawing.strokes {
        let (width, dash) = line(stroke.role);
        let points: Vec<At> = stroke.points.iter().map(|point| fit.at(*point)).collect();
        if points.iter().all(|point| is_in(*point, cut)) {
            marks.push(Mark::Line {
                points,
                closed: stroke.closed,
                width,
                dash,
            });
            continue;
        }
        let first = points.first().copied().filter(|_| stroke.closed);
        for points in pieces(points.into_iter().chain(first), cut) {
            marks.push(Mark::Line {
                points,
                closed: false,
                width,
                dash,
            });
        }
    }
    marks
}

fn is_in([x, y]: At, [left, top, right, bottom]: [f64; 4]) -> bool {
    x >= left - EDGE && x <= right + EDGE && y >= top - EDGE && y <= bottom + EDGE
}

/// The part of a straight piece within a box (Liang and Barsky, 1984), as shares of it.
fn inside(from: At, to: At, cut: [f64; 4]) -> Option<[f64; 2]> {
    let [left, top, right, bottom] = cut;
    let [run, fall] = [to[0] - from[0], to[1] - from[1]];
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for (step, room) in [
        (-run, from[0] - left),
        (run, right - from[0]),
        (-fall, from[1] - top),
        (fall, bottom - from[1]),
    ] {
        if step < 0.0 {
            enter = enter.max(room / step);
        } else if step > 0.0 {
            leave = leave.min(room / step);
        } else if room < 0.0 {
            return None;
        }
    }
    (enter < leave).then_some([enter, leave])
}

/// The pieces of a line within a box.
fn pieces(points: impl Iterator<Item = At>, cut: [f64; 4]) -> Vec<Vec<At>> {
    let mut pieces: Vec<Vec<At>> = Vec::new();
    let mut open = false;
    let mut last: Option<At> = None;
    for point in points {
        let Some(from) = last.replace(point) else {
            continue;
        };
        let Some([enter, leave]) = inside(from, point, cut) else {
            open = false;
            continue;
        };
        let at = |share: f64| {
            [
                from[0] + (point[0] - from[0]) * share,
                from[1] + (point[1] - from[1]) * share,
            ]
        };
        match pieces.last_mut().filter(|_| open && enter <= 0.0) {
            Some(piece) => piece.push(at(leave)),
            None => pieces.push(vec![at(enter), at(leave)]),
        }
        open = leave >= 1.0;
    }
    pieces
}

/// The part of an area within a box, edge by edge (Sutherland and Hodgman, 1974).
fn within(ring: &[At], [left, top, right, bottom]: [f64; 4]) -> Vec<At> {
    let sides = [
        (0, left, 1.0),
        (0, right, -1.0),
        (1, top, 1.0),
        (1, bottom, -1.0),
    ];
    let mut ring = ring.to_vec();
    for (axis, limit, sign) in sides {
        let of = |point: &At| {
            let [x, y] = *point;
            sign * (if axis == 0 { x } else { y } - limit)
        };
        let mut kept = Vec::with_capacity(ring.len());
        let mut before = ring.last().copied();
        for point in &ring {
            if let Some(last) = before.replace(*point) {
                let (from, to) = (of(&last), of(point));
                if (from < 0.0) != (to < 0.0) {
                    let share = from / (from - to);
                    kept.push([
                        last[0] + (point[0] - last[0]) * share,
                        last[1] + (point[1] - last[1]) * share,
                    ]);
                }
            }
            if of(point) >= 0.0 {
                kept.push(*point);
            }
        }
        ring = kept;
    }
    ring
}

/// Lines at 45 degrees (ISO 128-3, from memory) across an area, so far apart, mm of the page.
fn hatching(ring: &[At], slope: Slope, apart: f64) -> Vec<Vec<At>> {
    // Turned so that the lines lie level: along s = x ± y, across t.
    let turned: Vec<[f64; 2]> = ring
        .iter()
        .map(|[x, y]| match slope {
            Slope::Rising => [x - y, x + y],
            Slope::Falling => [x + y, x - y],
        })
        .collect();
    let least = turned.iter().map(|p| p[1]).fold(f64::INFINITY, f64::min);
    let most = turned
        .iter()
        .map(|p| p[1])
        .fold(f64::NEG_INFINITY, f64::max);
    let step = apart * core::f64::consts::SQRT_2;
    let mut lines = Vec::new();
    let mut level = (least / step).ceil() * step;
    while level < most && lines.len() < MOST_HATCHES {
        let next = turned.iter().cycle().skip(1);
        let mut cuts: Vec<f64> = turned
            .iter()
            .zip(next)
            .filter(|(a, b)| (a[1] <= level) != (b[1] <= level))
            .map(|(a, b)| a[0] + (b[0] - a[0]) * (level - a[1]) / (b[1] - a[1]))
            .collect();
        cuts.sort_by(f64::total_cmp);
        for pair in cuts.chunks_exact(2) {
            if let [from, to] = *pair {
                let back = |s: f64| match slope {
                    Slope::Rising => [f64::midpoint(s, level), (level - s) / 2.0],
                    Slope::Falling => [f64::midpoint(s, level), (s - level) / 2.0],
                };
                lines.push(vec![back(from), back(to)]);
            }
        }
        level += step;
    }
    lines
}

/// Most lines of one hatching: far more than a page has room for.
const MOST_HATCHES: usize = 4000;
