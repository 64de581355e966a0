//! The lines of an opening on a face: frame, hole, folds of the reveal, rounded edges, strips of lath.
//!
//! Not here: where it stands, its figures, and its section.

use super::Point;
use super::limits::{ARCH_PIECES, CIRCLE_PIECES};
use super::line;
use super::number::{mm, or_nothing, size, splay};
use super::outline;
use crate::project::{ArchKind, Opening, OpeningShape, Reveal, RevealPart, Side, Wall};

/// The shape of a frame in numbers, mm from the lower left of its box.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Shape {
    Rectangle {
        width: f64,
        height: f64,
    },
    Arched {
        width: f64,
        springing: f64,
        rise: f64,
        elliptical: bool,
    },
    Circle {
        diameter: f64,
    },
    /// Anticlockwise.
    Polygon {
        ring: Vec<Point>,
    },
}

/// By how much each part is moved outwards, mm.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Out {
    pub(super) jambs: f64,
    pub(super) head: f64,
    pub(super) sill: f64,
    /// Of a round or many-sided opening.
    pub(super) ring: f64,
}

impl Out {
    /// The same, further out by another.
    fn and(self, by: Self) -> Self {
        Self {
            jambs: self.jambs + by.jambs,
            head: self.head + by.head,
            sill: self.sill + by.sill,
            ring: self.ring + by.ring,
        }
    }

    /// The same of some parts (jambs, head, sill, ring), nothing of the others.
    fn only(self, [jambs, head, sill, ring]: [bool; 4]) -> Self {
        let part = |keeps, out| if keeps { out } else { 0.0 };
        Self {
            jambs: part(jambs, self.jambs),
            head: part(head, self.head),
            sill: part(sill, self.sill),
            ring: part(ring, self.ring),
        }
    }

    fn is_some(self) -> bool {
        [self.jambs, self.head, self.sill, self.ring]
            .iter()
            .any(|out| *out > 0.0)
    }
}

/// What a reveal comes to, in numbers.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[allow(
    clippy::struct_excessive_bools,
    reason = "four parts, each plastered or not"
)]
pub(super) struct Lining {
    /// Depth from the face to the frame, mm.
    pub(super) depth: f64,
    /// Splay of jambs, head, sill and ring, radians.
    pub(super) splay: [f64; 4],
    /// Which of jambs, head, sill and ring are plastered.
    pub(super) plastered: [bool; 4],
    /// Radius of the background at the edge, mm.
    pub(super) radius: f64,
    /// Width of the strip of lath, mm.
    pub(super) lath: f64,
}

impl Lining {
    /// The lining of an opening on a side of a wall; a depth that cannot be is none.
    pub(super) fn of(wall: &Wall, opening: &Opening, side: Side) -> Self {
        let depth = opening.frame.as_deref().map_or(0.0, |frame| {
            let outside = or_nothing(Some(&frame.from_outside));
            match side {
                Side::Outside => outside,
                Side::Inside => {
                    or_nothing(Some(&wall.thickness)) - outside - or_nothing(Some(&frame.depth))
                }
            }
        });
        let bare = Self {
            depth: depth.max(0.0),
            ..Self::default()
        };
        match opening.reveal(side) {
            Some(reveal) => Self {
                splay: splays(reveal),
                plastered: parts(reveal),
                radius: or_nothing(reveal.radius.as_ref()),
                lath: or_nothing(reveal.lath.as_ref()),
                ..bare
            },
            None => bare,
        }
    }

    /// By how much the hole is larger than the frame.
    pub(super) fn opened(&self) -> Out {
        self.out(|splay| self.depth * libm::tan(splay))
    }

    /// Width of the strip the rounded edge takes of the face: r·tan(φ/2), φ the turn of the surface.
    pub(super) fn strips(&self) -> Out {
        self.out(|splay| self.radius * libm::tan((core::f64::consts::FRAC_PI_2 - splay) / 2.0))
    }

    fn out(&self, of: impl Fn(f64) -> f64) -> Out {
        let [jambs, head, sill, ring] = self.splay.map(of);
        Out {
            jambs,
            head,
            sill,
            ring,
        }
    }
}

/// Splay of jambs, head, sill and ring; the ring's stands for each of the others that has none.
fn splays(reveal: &Reveal) -> [f64; 4] {
    let given = reveal.splay.as_deref();
    let ring = splay(given.and_then(|s| s.ring.as_ref()));
    let or_ring = |angle: f64| if angle > 0.0 { angle } else { ring };
    [
        or_ring(splay(given.and_then(|s| s.jambs.as_ref()))),
        or_ring(splay(given.and_then(|s| s.head.as_ref()))),
        or_ring(splay(given.and_then(|s| s.sill.as_ref()))),
        ring,
    ]
}

fn parts(reveal: &Reveal) -> [bool; 4] {
    let has = |part| reveal.plastered.contains(&part);
    let ring = has(RevealPart::Ring);
    [
        ring || has(RevealPart::Jambs),
        ring || has(RevealPart::Head),
        ring || has(RevealPart::Sill),
        ring,
    ]
}

impl Shape {
    /// The shape of a frame; `None` when its numbers make none.
    pub(super) fn of(shape: &OpeningShape) -> Option<Self> {
        Some(match shape {
            OpeningShape::Rectangle { width, height } => Self::Rectangle {
                width: size(width)?,
                height: size(height)?,
            },
            OpeningShape::Arched {
                width,
                springing,
                rise,
                head,
            } => {
                let width = size(width)?;
                let rise = match (head, rise) {
                    (Some(ArchKind::Semicircular), _) | (_, None) => width / 2.0,
                    (_, Some(rise)) => or_nothing(Some(rise)),
                };
                Self::Arched {
                    width,
                    springing: mm(springing)?.max(0.0),
                    rise,
                    elliptical: *head == Some(ArchKind::Elliptical),
                }
            }
            OpeningShape::Circle { diameter } => Self::Circle {
                diameter: size(diameter)?,
            },
            OpeningShape::Polygon { corners } => {
                let ring = line::tidy(outline::points(corners)?);
                if ring.is_empty() {
                    return None;
                }
                Self::Polygon { ring }
            }
        })
    }

    /// The box of the frame, `[left, bottom, right, top]`, mm.
    pub(super) fn bounds(&self) -> [f64; 4] {
        match self {
            Self::Rectangle { width, height } => [0.0, 0.0, *width, *height],
            Self::Arched {
                width,
                springing,
                rise,
                ..
            } => [0.0, 0.0, *width, springing + rise],
            Self::Circle { diameter } => [0.0, 0.0, *diameter, *diameter],
            Self::Polygon { ring } => line::bounds(ring).unwrap_or_default(),
        }
    }

    /// The frame moved outwards, as a ring.
    pub(super) fn ring(&self, out: Out) -> Vec<Point> {
        match self {
            Self::Circle { diameter } => {
                let radius = diameter / 2.0 + out.ring;
                let centre = [diameter / 2.0, diameter / 2.0];
                let turn = core::f64::consts::TAU;
                let mut ring: Vec<Point> =
                    line::arc(centre, [radius, radius], 0.0, turn, CIRCLE_PIECES).collect();
                ring.pop();
                ring
            }
            Self::Polygon { ring } => line::moved(ring, |_| out.ring),
            Self::Rectangle { .. } | Self::Arched { .. } => {
                let [right, left] = self.corners(out);
                let mut ring = vec![left, right];
                ring.extend(self.head(out));
                ring
            }
        }
    }

    /// The edges of some of its parts (jambs, head, sill, ring), moved outwards: lines, and whether they
    /// close.
    pub(super) fn lines(&self, out: Out, [jambs, head, sill, ring]: [bool; 4]) -> Vec<Line> {
        if matches!(self, Self::Circle { .. } | Self::Polygon { .. }) {
            let whole = || vec![(self.ring(out), true)];
            return if ring { whole() } else { Vec::new() };
        }
        if jambs && head && sill {
            return vec![(self.ring(out), true)];
        }
        let [right, left] = self.corners(out);
        let arch = self.head(out);
        let (Some(&first), Some(&last)) = (arch.first(), arch.last()) else {
            return Vec::new();
        };
        // Round from the lower right corner, parts that follow each other in one line.
        let pieces = [
            (jambs, vec![right, first]),
            (head, arch),
            (jambs, vec![last, left]),
            (sill, vec![left, right]),
        ];
        let mut lines: Vec<Line> = Vec::new();
        let mut goes_on = false;
        for (plastered, piece) in pieces {
            match lines.last_mut() {
                Some((line, _)) if plastered && goes_on => line.extend(piece.iter().skip(1)),
                _ if plastered => lines.push((piece, false)),
                _ => {}
            }
            goes_on = plastered;
        }
        lines
    }

    /// The folds of a reveal between its plastered parts, from the frame to the hole.
    pub(super) fn folds(&self, out: Out, [jambs, head, sill, ring]: [bool; 4]) -> Vec<[Point; 2]> {
        match self {
            Self::Polygon { ring: corners } if ring => corners
                .iter()
                .copied()
                .zip(self.ring(out))
                .map(|(a, b)| [a, b])
                .collect(),
            Self::Circle { .. } | Self::Polygon { .. } => Vec::new(),
            Self::Rectangle { .. } | Self::Arched { .. } => {
                let ends = |out| {
                    let [right, left] = self.corners(out);
                    let arch = self.head(out);
                    [
                        Some(right),
                        Some(left),
                        arch.first().copied(),
                        arch.last().copied(),
                    ]
                };
                let wanted = [jambs || sill, jambs || sill, jambs || head, jambs || head];
                ends(Out::default())
                    .into_iter()
                    .zip(ends(out))
                    .zip(wanted)
                    .filter_map(|((from, to), wanted)| Some([from?, to?]).filter(|_| wanted))
                    .collect()
            }
        }
    }

    /// Lower right and lower left corner.
    fn corners(&self, out: Out) -> [Point; 2] {
        let [left, bottom, right, _] = self.bounds();
        [
            [right + out.jambs, bottom - out.sill],
            [left - out.jambs, bottom - out.sill],
        ]
    }

    /// The head from its right springing to its left one.
    fn head(&self, out: Out) -> Vec<Point> {
        let [left, _, right, top] = self.bounds();
        let (half, middle) = ((right - left) / 2.0, f64::midpoint(left, right));
        let Self::Arched {
            springing,
            rise,
            elliptical,
            ..
        } = *self
        else {
            return vec![
                [right + out.jambs, top + out.head],
                [left - out.jambs, top + out.head],
            ];
        };
        let quarter = core::f64::consts::FRAC_PI_2;
        let wide = half + out.jambs;
        if elliptical {
            let radii = [wide, rise + out.head];
            let turn = core::f64::consts::PI;
            return line::arc([middle, springing], radii, 0.0, turn, ARCH_PIECES).collect();
        }
        if rise <= 0.0 {
            let v = springing + out.head;
            return vec![[middle + wide, v], [middle - wide, v]];
        }
        // r = (s² + 4h²)/8h. The arc of the hole stays concentric and meets the jambs where they are.
        let radius = half * (half / rise) / 2.0 + rise / 2.0;
        let centre = [middle, springing + rise - radius];
        let outer = (radius + out.head).max(wide);
        let upright = ((outer - wide) * (outer + wide)).max(0.0).sqrt();
        // An arch over half a circle springs from under its centre.
        let upright = if rise > half { -upright } else { upright };
        let angle = libm::atan2(wide, upright);
        line::arc(
            centre,
            [outer, outer],
            quarter - angle,
            quarter + angle,
            ARCH_PIECES,
        )
        .collect()
    }
}

/// Points, and whether the last is joined to the first.
pub(super) type Line = (Vec<Point>, bool);

/// Every line of an opening on a face, mm from the lower left of its frame's box.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Lines {
    pub(super) frame: Vec<Point>,
    /// When the splay makes it another than the frame.
    pub(super) hole: Option<Vec<Point>>,
    pub(super) folds: Vec<[Point; 2]>,
    pub(super) rounded: Vec<Line>,
    pub(super) lath: Vec<Line>,
}

impl Lines {
    /// The lines of a frame with its lining.
    pub(super) fn of(shape: &Shape, lining: &Lining) -> Self {
        let opened = lining.opened();
        // A part that is not plastered has neither strip nor lath: lines end at its edge.
        let around = |by: Out| {
            let by = by.only(lining.plastered);
            shape.lines(opened.and(by), lining.plastered)
        };
        let lath = Out {
            jambs: lining.lath,
            head: lining.lath,
            sill: lining.lath,
            ring: lining.lath,
        };
        let splayed = opened.is_some();
        Self {
            frame: shape.ring(Out::default()),
            hole: splayed.then(|| shape.ring(opened)),
            folds: if splayed {
                shape.folds(opened, lining.plastered)
            } else {
                Vec::new()
            },
            rounded: if lining.radius > 0.0 {
                around(lining.strips())
            } else {
                Vec::new()
            },
            lath: if lining.lath > 0.0 {
                around(lath)
            } else {
                Vec::new()
            },
        }
    }
}

/// Left edge of a copy on a face whose lengths are `scale` of the outside's: its middle moves with the
/// wall, its width stays. mm.
pub(super) fn left_of(opening: &Opening, copy: u32, half: f64, scale: f64) -> Option<f64> {
    let first = mm(&opening.from_left)?;
    let spacing = opening.spacing.as_ref().and_then(mm).unwrap_or_default();
    Some((first + f64::from(copy) * spacing + half) * scale - half)
}
