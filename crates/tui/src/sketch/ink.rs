//! The lines and areas of a drawing laid on dots, and the dots as signs on the screen.
//!
//! Dots carry what they belong to, so that a cell shared by two lines takes the look of the more
//! important one. Lines that matter less keep a dot's distance from those that matter more: otherwise
//! a rounded edge of an inch would make the whole frame a smear. Not here: words.

use super::fit::{Fit, nearest};
use super::raster::{
    AREA, DOTTED, Dot, Dots, FALLING, GROUND, LEVEL, RISING, Raster, UPRIGHT, follow,
};
use super::words::Page;
use super::{Mark, Marker, Sketch, State};
use hodful_takeoff::drawing::Role;
use ratatui::buffer::Buffer;
use ratatui::style::Style;
use ratatui::symbols;
use ratatui::widgets::Widget;
use ratatui::widgets::canvas::{Canvas, Context};

/// How much a line of a kind matters among the others; those under [`FIRM`] give way.
fn rank(role: Role) -> u8 {
    match role {
        Role::Lath => 2,
        Role::Rounded => 3,
        Role::RevealSurface => 4,
        Role::Plaster => 5,
        Role::Hole => 6,
        Role::Break => 8,
        Role::Pocket => 9,
        Role::DubbingOut => 10,
        Role::Coat(_) => 11,
        Role::Background => 12,
        Role::Floor => 13,
        Role::Frame => 14,
        Role::Outline => 15,
    }
}

const FIRM: u8 = 8;

/// Lines under this are dotted where there are only letters.
const FINE: u8 = 5;

/// Added to the rank by what a state makes important.
fn raised(state: State) -> u8 {
    let mark = match state.mark {
        Mark::Sound => 0,
        Mark::Doubtful => 16,
        Mark::Refused => 32,
    };
    if state.chosen { mark + 64 } else { mark }
}

/// Dots drawn and left out along a line of a kind.
fn dash(role: Role) -> [u32; 2] {
    match role {
        Role::Lath => [1, 3],
        Role::Rounded | Role::RevealSurface | Role::DubbingOut => [1, 1],
        Role::Plaster => [3, 1],
        Role::Pocket => [2, 2],
        Role::Break => [1, 2],
        _ => [1, 0],
    }
}

/// The dots of a drawing, areas first, then lines from those that matter most.
pub(super) fn draw(sketch: &Sketch<'_>, fit: &Fit) -> Raster {
    let mut raster = Raster::new([fit.canvas.width, fit.canvas.height], fit.cell_dots());
    for fill in &sketch.drawing.fills {
        let state = sketch.state(fill.of);
        let look = raster.look((fill.role, state));
        let ring: Vec<[f64; 2]> = fill.ring.iter().map(|p| fit.dot(*p)).collect();
        area(&mut raster, &ring, fill.role, look);
    }
    let mut order: Vec<(u8, usize)> = Vec::with_capacity(sketch.drawing.strokes.len());
    for (i, stroke) in sketch.drawing.strokes.iter().enumerate() {
        order.push((rank(stroke.role), i));
    }
    order.sort_by_key(|(rank, _)| core::cmp::Reverse(*rank));
    let mut trail = Vec::new();
    for (rank, i) in order {
        let Some(stroke) = sketch.drawing.strokes.get(i) else {
            continue;
        };
        let state = sketch.state(stroke.of);
        let look = raster.look((stroke.role, state));
        trail.clear();
        let dotted = rank < FINE && sketch.marker == Marker::Ascii;
        let limits = raster.size();
        let points = stroke.points.iter().map(|p| fit.dot(*p));
        let pattern = if sketch.marker == Marker::Braille {
            dash(stroke.role)
        } else {
            [1, 0]
        };
        follow(points, stroke.closed, limits, pattern, &mut trail);
        if rank < FIRM {
            trail.retain(|&(x, y, _)| !raster.is_crowded(x, y));
        }
        for &(x, y, runs) in &trail {
            let runs = if dotted { DOTTED } else { runs };
            let rank = rank + raised(state);
            raster.set(x, y, Dot { rank, runs, look });
        }
    }
    raster
}

/// The dots of an area, by its hatching.
fn area(raster: &mut Raster, ring: &[[f64; 2]], role: Role, look: u8) {
    let mut crossings = Vec::new();
    let [wide, high] = raster.size().map(|n| i32::try_from(n).unwrap_or_default());
    for y in 0..high {
        let v = f64::from(y);
        crossings.clear();
        for (a, b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
            if (a[1] <= v) != (b[1] <= v) {
                crossings.push(a[0] + (b[0] - a[0]) * (v - a[1]) / (b[1] - a[1]));
            }
        }
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            let [from, to] = pair else { continue };
            let most = f64::from(u16::MAX);
            let first = nearest(from.ceil().clamp(0.0, most));
            let last = nearest(to.floor().min(most));
            let last = last.min(wide - 1);
            for x in first..=last {
                if hatched(role, x, y) {
                    raster.set(
                        x,
                        y,
                        Dot {
                            rank: GROUND,
                            runs: AREA,
                            look,
                        },
                    );
                }
            }
        }
    }
}

/// Whether the hatching of a kind of area has a dot at a place.
fn hatched(role: Role, x: i32, y: i32) -> bool {
    let every = |sum: i32, n: i32| sum.rem_euclid(n) == 0;
    match role {
        Role::DubbingOut => every(x + 2 * y, 5) && every(y, 2),
        Role::Coat(number) => match number % 3 {
            0 => every(x, 2) && every(y, 2),
            1 => every(x + y, 2),
            _ => every(x + 2 * y, 4),
        },
        Role::Frame => every(x - y, 3),
        _ => every(x + y, 6),
    }
}

/// The sign for an area where there are only letters.
fn area_sign(role: Role) -> char {
    match role {
        Role::DubbingOut => ',',
        Role::Coat(number) => match number % 3 {
            0 => ':',
            1 => '%',
            _ => '.',
        },
        Role::Frame => '=',
        _ => '/',
    }
}

/// The sign for lines that run so where there are only letters.
fn line_sign(runs: u8) -> char {
    let has = |way: u8| runs & way > 0;
    if has(LEVEL) && has(UPRIGHT) || has(RISING) && has(FALLING) {
        '+'
    } else if has(UPRIGHT) {
        '|'
    } else if has(LEVEL) {
        '-'
    } else if has(RISING) {
        '/'
    } else if has(FALLING) {
        '\\'
    } else {
        '.'
    }
}

/// The dots as signs on the screen, with the style of what matters most in each cell. Cells of words
/// keep their style to themselves.
pub(super) fn paint(
    sketch: &Sketch<'_>,
    fit: &Fit,
    raster: &Raster,
    page: &Page,
    buffer: &mut Buffer,
) {
    let ground = sketch.styles.ground;
    buffer.set_style(fit.canvas, ground);
    let marker = match sketch.marker {
        Marker::Braille => Some(symbols::Marker::Braille),
        Marker::HalfBlock => Some(symbols::Marker::HalfBlock),
        Marker::Ascii => None,
    };
    if let Some(marker) = marker {
        Canvas::default()
            .marker(marker)
            .background_color(ground.bg.unwrap_or_default())
            .paint(|context: &mut Context<'_>| context.draw(&Dots(raster)))
            .render(fit.canvas, buffer);
    }
    let looks: Vec<Style> = raster
        .looks
        .iter()
        .map(|(role, state)| sketch.styled(sketch.styles.of(*role), *state))
        .collect();
    for row in fit.canvas.rows() {
        let y = i32::from(fit.canvas.bottom()) - 1 - i32::from(row.y);
        for cell in row.columns() {
            let x = i32::from(cell.x) - i32::from(fit.canvas.x);
            let dot = raster.top(x, y);
            if dot.rank == 0 || page.is_taken(i32::from(cell.x), i32::from(cell.y)) {
                continue;
            }
            let Some(cell) = buffer.cell_mut((cell.x, cell.y)) else {
                continue;
            };
            let look = usize::from(dot.look);
            if marker.is_none() {
                let role = raster.looks.get(look).map(|(role, _)| *role);
                cell.set_char(match role {
                    Some(role) if dot.runs & AREA > 0 => area_sign(role),
                    _ => line_sign(dot.runs),
                });
            }
            if let Some(style) = looks.get(look) {
                cell.set_style(ground.patch(*style));
            }
        }
    }
}
