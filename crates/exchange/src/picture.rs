//! A drawing set out for paper: lines, areas and words in millimetres of the page, at a standard scale,
//! with dimensions outside and a scale bar under it. Not here: what is drawn (see the drawings of the
//! takeoff), and formats (SVG and PDF take the same set-out).
//!
//! Line widths are of the series of ISO 128-2 (from memory): 0.13, 0.18, 0.25, 0.35, 0.5, 0.7 mm. Everything
//! is black on white: areas are told apart by greys a printer holds and by hatching, never by colour.

mod dimensions;
mod ink;
mod labels;
mod scale;

use crate::letters::Letters;
use hodful_documents::Picture;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::drawing::Drawing;
use scale::Scale;

/// A point of the page: to the right and down, mm.
pub(crate) type At = [f64; 2];

/// Size of the letters of figures and names, mm: 8.5 points.
pub(crate) const LETTERS: f64 = 3.0;

/// The part of a drawing and its outside that a picture is set in, mm of the page.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Room {
    pub(crate) wide: f64,
    pub(crate) high: f64,
}

/// A picture set out.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Plot {
    /// Its width, mm.
    pub(crate) wide: f64,
    /// Its height, mm.
    pub(crate) high: f64,
    /// What is in it, the lowest first.
    pub(crate) marks: Vec<Mark>,
}

/// One thing on the page.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Mark {
    /// A black line.
    Line {
        points: Vec<At>,
        closed: bool,
        /// mm.
        width: f64,
        dash: Dash,
    },
    /// An area without an edge.
    Area {
        ring: Vec<At>,
        /// From 0, black, to 1, white.
        grey: f64,
    },
    /// Words, black.
    Words {
        /// On the base line: the left or the middle of the words.
        at: At,
        text: String,
        /// mm.
        size: f64,
        hold: Hold,
        /// Whether they run up the page, read from the right.
        upright: bool,
    },
}

/// How a line is broken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Dash {
    Whole,
    Dashed,
    /// A long and a short stroke.
    Chain,
}

impl Dash {
    /// Strokes and gaps in turn, mm.
    pub(crate) fn pattern(self) -> &'static [f64] {
        match self {
            Self::Whole => &[],
            Self::Dashed => &[1.6, 0.8],
            Self::Chain => &[4.0, 0.8, 0.6, 0.8],
        }
    }
}

/// By what words are held at their place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Hold {
    Left,
    Middle,
}

/// From millimetres of the drawing to millimetres of the page.
#[derive(Debug, Clone, Copy)]
struct Fit {
    bounds: [f64; 4],
    /// Millimetres drawn in one of the page.
    scale: f64,
}

impl Fit {
    fn wide(&self) -> f64 {
        (self.bounds[2] - self.bounds[0]) / self.scale
    }

    fn high(&self) -> f64 {
        (self.bounds[3] - self.bounds[1]) / self.scale
    }

    fn at(&self, [u, v]: [f64; 2]) -> At {
        let [left, _, _, top] = self.bounds;
        [(u - left) / self.scale, (top - v) / self.scale]
    }
}

/// Sets a picture out in a room, at the largest standard scale at which all of it fits. `None` when there
/// is nothing to be drawn, or when it would not fit at any scale.
pub(crate) fn plot(
    picture: &Picture,
    units: UnitSystem,
    room: Room,
    letters: &Letters,
) -> Option<Plot> {
    let bounds = grown(picture.drawing.bounds?)?;
    if picture.to_scale {
        return scale::all(units)
            .iter()
            // What is too large by itself is not worth setting out.
            .filter(|scale| {
                let [left, bottom, right, top] = bounds.map(|mm| mm / scale.ratio);
                right - left <= room.wide && top - bottom <= room.high
            })
            .map(|scale| set_out(&picture.drawing, bounds, Some(scale), 0.0, units, letters))
            .find(|plot| fits(plot, room));
    }
    // A chart has no scale: as large as it may be, in steps.
    let [wide, high] = [bounds[2] - bounds[0], bounds[3] - bounds[1]];
    let most = (wide / room.wide).max(high / room.high);
    (0..STEPS)
        .map(|step| most * (1.0 + f64::from(step) * STEP))
        .map(|free| set_out(&picture.drawing, bounds, None, free, units, letters))
        .find(|plot| fits(plot, room))
}

/// Steps in which a chart is tried smaller, and how much smaller each is.
const STEPS: u32 = 60;
const STEP: f64 = 0.05;

fn fits(plot: &Plot, room: Room) -> bool {
    let slack = 1.0 + crate::tolerance::ROOM;
    plot.wide <= room.wide * slack && plot.high <= room.high * slack
}

/// Bounds that have a width and a height; a drawing of a single line gets a little of either.
fn grown([left, bottom, right, top]: [f64; 4]) -> Option<[f64; 4]> {
    let (wide, high) = (right - left, top - bottom);
    let large = wide.max(high);
    let known = wide.is_finite() && high.is_finite();
    if !known || large <= 0.0 {
        return None;
    }
    let least = large * 0.02;
    let more = |size: f64| ((least - size) / 2.0).max(0.0);
    let (by_u, by_v) = (more(wide), more(high));
    Some([left - by_u, bottom - by_v, right + by_u, top + by_v])
}

/// The drawing at one scale, with all that stands round it. Parts are set out round the drawing's own
/// upper left corner, then all is moved to where it belongs.
fn set_out(
    drawing: &Drawing,
    bounds: [f64; 4],
    scale: Option<&Scale>,
    free: f64,
    units: UnitSystem,
    letters: &Letters,
) -> Plot {
    let fit = Fit {
        bounds,
        scale: scale.map_or(free, |scale| scale.ratio),
    };
    let mut marks = ink::marks(drawing, &fit);
    let beside = labels::place(drawing, &fit, letters, &mut marks);
    let around = dimensions::place(drawing, &fit, &beside, letters, &mut marks);
    let mut high = around.bottom;
    if let Some(scale) = scale {
        high += scale::bar(scale, units, [around.left, high], letters, &mut marks);
    }
    let wide = around.right - around.left;
    let least = scale.map_or(0.0, |scale| scale::bar_width(scale, units, letters));
    for mark in &mut marks {
        mark.shift([-around.left, -around.top]);
    }
    Plot {
        wide: wide.max(least),
        high: high - around.top,
        marks,
    }
}

/// The box that a set-out takes, mm, round the drawing's own corner.
#[derive(Debug, Clone, Copy)]
struct Around {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

impl Mark {
    fn shift(&mut self, by: At) {
        let points = match self {
            Self::Line { points, .. } => points.as_mut_slice(),
            Self::Area { ring, .. } => ring.as_mut_slice(),
            Self::Words { at, .. } => std::slice::from_mut(at),
        };
        for point in points {
            *point = [point[0] + by[0], point[1] + by[1]];
        }
    }
}

/// A thin line.
fn thin(points: Vec<At>) -> Mark {
    Mark::Line {
        points,
        closed: false,
        width: 0.13,
        dash: Dash::Whole,
    }
}
