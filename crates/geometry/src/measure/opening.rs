//! The figures of one opening on one face: its hole and the parts of its reveal, whole or cut by the face.
//!
//! Overlaps with other openings are not known here: reveals and edges are measured whole however holes overlap.

use core::f64::consts::PI;

use crate::arch::{
    Band, Segment, Spread, circular_band, elliptical_band, elliptical_edge, half_ellipse_arc,
    half_turn_tan,
};
use crate::hole::{Head, Hole};
use crate::opening::{Frame, Opening};
use crate::polygon::{outward, sides};
use crate::profile::{Bounds, Point};
use crate::reveal::{Bevel, Part, Reveal};
use crate::tolerance::TOUCH;

use super::cut::{Cut, length};
use super::part::{Lines, PartMeasure};

/// The figures of one copy of an opening on one face. Areas in mm², lengths in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OpeningMeasure {
    /// The copy these figures are for, counted from zero: the first of several that are alike.
    pub first_copy: u32,
    /// How many copies they are for.
    pub copies: u32,
    /// Width of the frame.
    pub frame_width: f64,
    /// Height of the frame.
    pub frame_height: f64,
    /// Area of the frame inside the face.
    pub frame_area: f64,
    /// Width of the hole, splay included, before any cut.
    pub hole_width: f64,
    /// Height of the hole, before any cut.
    pub hole_height: f64,
    /// Area of the hole inside the face.
    pub hole_area: f64,
    /// Whether nothing of it is cut off by the face.
    pub whole: bool,
    /// Depth of the reveal, square to the wall.
    pub depth: f64,
    /// Area the rounded edges take from the face.
    pub strips: f64,
    /// Plastered reveal, less its strips.
    pub reveals: f64,
    /// Surface of the rounded edges.
    pub edges: f64,
    /// Length of the edges along the sharp arris.
    pub edge_length: f64,
    /// Area of lath along the edges.
    pub lath: f64,
    /// Surface gained per millimetre of offset.
    pub growth: f64,
    /// The parts that a strip is wider than, a bit each. Kept apart from the parts, which vanish where nobody listens.
    overdrawn: u8,
    /// Jambs or ring, head, sill; a part that is not plastered has no lines.
    parts: [PartMeasure; 3],
}

impl OpeningMeasure {
    /// The plastered parts of the reveal.
    #[inline]
    pub fn parts(&self) -> impl Iterator<Item = &PartMeasure> {
        self.parts.iter().filter(|part| part.lines > 0)
    }

    /// Whether a strip is wider than its part.
    #[inline]
    pub(super) fn is_overdrawn(&self) -> bool {
        self.overdrawn > 0
    }

    /// The parts that a strip is wider than.
    #[inline]
    pub(super) fn overdrawn(&self) -> impl Iterator<Item = Part> {
        let bits = self.overdrawn;
        [Part::Jambs, Part::Ring, Part::Head, Part::Sill]
            .into_iter()
            .filter(move |part| (bits >> *part as u8) & 1 > 0)
    }

    /// Takes what lies under the floor from the areas of hole and frame; an arch lies above it.
    #[inline]
    pub(super) fn cut_by_floor(&mut self, hole: &Bounds, floor: f64) {
        let lost = floor - hole.bottom;
        if lost > TOUCH {
            self.whole = false;
            self.hole_area -= hole.width() * lost;
            self.frame_area -= self.frame_width * floor.max(0.0);
        }
    }

    #[inline]
    fn put(&mut self, part: PartMeasure) {
        let [first, head, sill] = &mut self.parts;
        *match part.part {
            Part::Jambs | Part::Ring => first,
            Part::Head => head,
            Part::Sill => sill,
        } = part;
        self.overdrawn |= u8::from(part.is_overdrawn()) << part.part as u8;
        self.strips += part.strip_area;
        self.reveals += part.net_reveal_area();
        self.edges += part.arc_area;
        self.edge_length += part.face_line;
        self.growth += part.edge_growth + part.inside_growth;
    }
}

/// Measures one copy. Areas of hole and frame, and the number of copies, are for the caller to correct where the face cuts.
pub(super) fn measure(
    opening: &Opening,
    reveal: &Reveal,
    depth: f64,
    hole: &Hole<'_>,
    cut: &impl Cut,
) -> OpeningMeasure {
    if let &Frame::Rectangle { width, height } = opening.frame() {
        return rectangle([width, height], reveal, depth, hole.bounds(), cut);
    }
    let (frame_width, frame_height) = opening.frame_size();
    let mut m = OpeningMeasure {
        copies: 1,
        frame_width,
        frame_height,
        hole_width: hole.bounds().width(),
        hole_height: hole.bounds().height(),
        hole_area: hole.area(),
        whole: true,
        depth,
        ..OpeningMeasure::default()
    };
    match opening.frame() {
        Frame::Rectangle { .. } => {}
        Frame::Arched {
            width,
            springing,
            rise,
            arc,
            elliptical,
        } => {
            m.frame_area = Hole::of_frame(opening).area();
            let arch = Arch {
                half: width / 2.0,
                rise: *rise,
                springing: *springing,
                arc: *arc,
                elliptical: *elliptical,
            };
            arched(&mut m, reveal, hole, &arch, cut);
        }
        Frame::Circle { diameter } => {
            m.frame_area = PI / 4.0 * diameter * diameter;
            if reveal.ring().plastered {
                let share = cut.curve_share(hole);
                let lines = Lines {
                    count: 1,
                    frame: PI * diameter * share,
                    face: PI * hole.bounds().width() * share,
                    extra: 0.0,
                    inside_growth: -2.0 * PI * depth * share,
                };
                m.put(PartMeasure::new(Part::Ring, reveal.ring(), depth, lines));
            }
        }
        Frame::Polygon(frame) => {
            m.frame_area = frame.area;
            if reveal.ring().plastered
                && let Some(corners) = hole.corners()
            {
                let lines = many_sided(&frame.corners, corners, reveal.ring(), depth, cut);
                m.put(PartMeasure::new(Part::Ring, reveal.ring(), depth, lines));
            }
        }
    }
    m.lath = m.edge_length * reveal.lath();
    m
}

/// One square-headed copy, from the size of its frame and the box of its hole.
#[expect(
    clippy::inline_always,
    reason = "figures nobody listens to vanish only when this is inlined"
)]
#[inline(always)]
pub(super) fn rectangle(
    [width, height]: [f64; 2],
    reveal: &Reveal,
    depth: f64,
    hole: &Bounds,
    cut: &impl Cut,
) -> OpeningMeasure {
    let mut m = OpeningMeasure {
        copies: 1,
        frame_width: width,
        frame_height: height,
        frame_area: width * height,
        hole_width: hole.width(),
        hole_height: hole.height(),
        hole_area: hole.width() * hole.height(),
        whole: true,
        depth,
        ..OpeningMeasure::default()
    };
    if reveal.jambs().plastered {
        let lines = Lines {
            count: 2,
            frame: cut.up(0.0, 0.0, height) + cut.up(width, 0.0, height),
            face: cut.up(hole.left, hole.bottom, hole.top)
                + cut.up(hole.right, hole.bottom, hole.top),
            extra: 0.0,
            inside_growth: 0.0,
        };
        m.put(PartMeasure::new(Part::Jambs, reveal.jambs(), depth, lines));
    }
    if reveal.head().plastered {
        let folds = if reveal.jambs().plastered {
            cut.fold_share([0.0, height], [hole.left, hole.top])
                + cut.fold_share([width, height], [hole.right, hole.top])
        } else {
            0.0
        };
        let lines = Lines {
            count: 1,
            frame: cut.across(height, 0.0, width),
            face: cut.across(hole.top, hole.left, hole.right),
            extra: 0.0,
            inside_growth: folds * reveal.head_fold() * depth,
        };
        m.put(PartMeasure::new(Part::Head, reveal.head(), depth, lines));
    }
    sill(&mut m, reveal, hole, reveal.sill_fold() * depth, cut);
    m.lath = m.edge_length * reveal.lath();
    m
}

/// The sill; `fold` is what one of its two folds loses.
#[expect(
    clippy::inline_always,
    reason = "figures nobody listens to vanish only when this is inlined"
)]
#[inline(always)]
fn sill(m: &mut OpeningMeasure, reveal: &Reveal, b: &Bounds, fold: f64, cut: &impl Cut) {
    if !reveal.sill().plastered {
        return;
    }
    let folds = if fold < 0.0 {
        cut.fold_share([0.0, 0.0], [b.left, b.bottom])
            + cut.fold_share([m.frame_width, 0.0], [b.right, b.bottom])
    } else {
        0.0
    };
    let lines = Lines {
        count: 1,
        frame: cut.across(0.0, 0.0, m.frame_width),
        face: cut.across(b.bottom, b.left, b.right),
        extra: 0.0,
        inside_growth: folds * fold,
    };
    m.put(PartMeasure::new(Part::Sill, reveal.sill(), m.depth, lines));
}

/// The arch of a frame.
struct Arch {
    half: f64,
    rise: f64,
    springing: f64,
    arc: f64,
    elliptical: bool,
}

impl Arch {
    fn segment(&self) -> Segment {
        Segment {
            half: self.half,
            rise: self.rise,
        }
    }

    /// What the intrados comes to.
    fn band(&self, spread: &Spread) -> Band {
        if self.elliptical {
            if spread.is_square() {
                return Band {
                    area: self.arc * spread.depth,
                    turning: -PI * spread.depth,
                    ..Band::default()
                };
            }
            elliptical_band(self.half, self.rise, spread)
        } else {
            circular_band(self.segment(), spread)
        }
    }

    /// Tangent of half the angle between arch and sill where there is no jamb between them.
    fn foot(&self) -> f64 {
        if self.elliptical {
            1.0
        } else {
            self.half / self.rise
        }
    }
}

/// Jambs, arch and sill. An opening of no springing height has no jambs: its arch folds with the sill. That fold is exact for a
/// square reveal and left at its square value where such a reveal is splayed.
fn arched(m: &mut OpeningMeasure, reveal: &Reveal, hole: &Hole<'_>, arch: &Arch, cut: &impl Cut) {
    let Some((hole_springing, head)) = hole.head() else {
        return;
    };
    let depth = m.depth;
    let b = hole.bounds();
    let (jambs, top) = (reveal.jambs(), reveal.head());
    let spread = Spread {
        depth,
        jamb_tan: jambs.tan,
        jamb_secant: jambs.secant,
        head_tan: top.tan,
        head_secant: top.secant,
    };
    let band = arch.band(&spread);
    let footed = arch.springing <= TOUCH && hole_springing - b.bottom <= TOUCH;
    let share = cut.curve_share(hole);
    if jambs.plastered {
        let lines = Lines {
            count: 2,
            frame: cut.up(0.0, 0.0, arch.springing) + cut.up(m.frame_width, 0.0, arch.springing),
            face: cut.up(b.left, b.bottom, hole_springing)
                + cut.up(b.right, b.bottom, hole_springing),
            extra: 2.0 * band.jamb_extra * share,
            inside_growth: 0.0,
        };
        m.put(PartMeasure::new(Part::Jambs, jambs, depth, lines));
    }
    if top.plastered {
        let folds = if jambs.plastered && !footed && band.springing < 0.0 {
            cut.fold_share([0.0, arch.springing], [b.left, hole_springing])
                + cut.fold_share([m.frame_width, arch.springing], [b.right, hole_springing])
        } else {
            0.0
        };
        let face = match head {
            Head::Circular { arc, .. } => arc,
            Head::Elliptical { .. } if spread.is_square() => arch.arc,
            Head::Elliptical { half, rise } => half_ellipse_arc(half, rise),
        };
        let edge = if arch.elliptical && !spread.is_square() {
            let mean = elliptical_edge(arch.half, arch.rise, &spread);
            top.with_edge(mean.turn, mean.half_tan, reveal.radius())
        } else {
            *top
        };
        let trapezoid = f64::midpoint(arch.arc, face) * depth * top.secant;
        let lines = Lines {
            count: 1,
            frame: arch.arc * share,
            face: face * share,
            extra: (band.area - trapezoid) * share,
            inside_growth: band.turning * share + band.springing * folds,
        };
        m.put(PartMeasure::new(Part::Head, &edge, depth, lines));
    }
    let fold = if footed {
        if top.plastered {
            -2.0 * arch.foot() * depth
        } else {
            0.0
        }
    } else {
        reveal.sill_fold() * depth
    };
    sill(m, reveal, b, fold, cut);
}

/// The ring of a many-sided opening: each side a trapezoid, each corner a fold of its own turn. `frame` and `face` go round side by
/// side, anticlockwise.
fn many_sided(frame: &[Point], face: &[Point], bevel: &Bevel, depth: f64, cut: &impl Cut) -> Lines {
    let mut lines = Lines {
        count: 1,
        frame: 0.0,
        face: 0.0,
        extra: 0.0,
        inside_growth: 0.0,
    };
    for ((a, b), (c, d)) in sides(frame).zip(sides(face)) {
        lines.frame += cut.straight(a, b);
        lines.face += cut.straight(c, d);
    }
    let normals: Vec<Point> = sides(frame).map(|(a, b)| outward(a, b)).collect();
    let before = normals.last().into_iter().chain(&normals);
    let cosine_of_splay = 1.0 / bevel.secant;
    let square = cosine_of_splay * cosine_of_splay;
    for (((corner, moved), n), p) in frame.iter().zip(face).zip(&normals).zip(before) {
        // Turn of the frame at this corner, and of the two slanting sides that meet there.
        let level = n[0] * p[0] + n[1] * p[1];
        let turn = half_turn_tan(square * level + (1.0 - square));
        let spread = length(*corner, *moved);
        let run = (depth * depth + spread * spread).sqrt();
        let hollow = p[0] * n[1] - p[1] * n[0] > 0.0;
        let fold = 2.0 * turn * run * cut.fold_share(*corner, *moved);
        lines.inside_growth += if hollow { -fold } else { fold };
    }
    lines
}
