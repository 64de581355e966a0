//! Openings: the size and place of the frame, copies included, and which reveals suit it.
//!
//! What a reveal makes of the frame on a face (the hole) is in the hole module.

use core::num::NonZeroU16;

use crate::arch::{Segment, half_ellipse_arc};
use crate::fault::{Fault, Faults};
use crate::hole::Hole;
use crate::outline::Side;
use crate::polygon;
use crate::profile::{Bounds, Point};
use crate::reveal::Reveal;
use crate::tolerance::{MAX_COPIES, MAX_LENGTH, MIN_CORNER, TOUCH};

/// The shape of a frame. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum OpeningShape {
    /// Square-headed.
    Rectangle {
        /// Between the jambs.
        width: f64,
        /// From sill to head.
        height: f64,
    },
    /// Upright jambs under an arch.
    Arched {
        /// Between the jambs.
        width: f64,
        /// From the sill to the springing; may be zero.
        springing: f64,
        /// The arch.
        head: ArchHead,
    },
    /// Round.
    Circle {
        /// Across.
        diameter: f64,
    },
    /// Straight sides that do not cross.
    Polygon {
        /// Corners as `[along, up]` from the lower left of the box around them; that corner is placed at `from_left` and `sill`.
        corners: Vec<[f64; 2]>,
    },
}

/// The arch over an opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ArchHead {
    /// Part of a circle, at most half of it.
    Segmental {
        /// Of the crown over the springing, in millimetres.
        rise: f64,
    },
    /// Half a circle.
    Semicircular,
    /// Half an ellipse.
    Elliptical {
        /// Of the crown over the springing, in millimetres.
        rise: f64,
    },
}

/// Place of a reveal in the list of a wall's reveals.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct RevealIndex(NonZeroU16);

impl RevealIndex {
    /// The reveal at `place`, counted from zero; `None` beyond 65 534.
    ///
    /// # Examples
    /// ```
    /// use hodful_geometry::RevealIndex;
    /// assert_eq!(RevealIndex::new(3).map(RevealIndex::get), Some(3));
    /// assert_eq!(RevealIndex::new(70_000), None);
    /// ```
    pub fn new(place: usize) -> Option<Self> {
        let next = u16::try_from(place).ok()?.checked_add(1)?;
        NonZeroU16::new(next).map(Self)
    }

    /// The place, counted from zero.
    pub fn get(self) -> usize {
        usize::from(self.0.get()) - 1
    }
}

/// An opening as typed. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct OpeningSpec {
    /// Shape and size of the frame.
    pub shape: OpeningShape,
    /// From the left end of the wall, seen from outside, to the left of the frame; on a curved wall along the outside face.
    pub from_left: f64,
    /// From the base of the wall to the bottom of the frame.
    pub sill: f64,
    /// From the outside face to the frame: the depth of the reveal outside.
    pub from_outside: f64,
    /// Depth of the frame itself; what is left of the wall is the depth of the reveal inside.
    pub frame_depth: f64,
    /// How many there are, at least one.
    pub count: u32,
    /// From one to the next; needed when there is more than one.
    pub spacing: Option<f64>,
    /// The reveal outside and the reveal inside.
    pub reveals: [Option<RevealIndex>; 2],
}

/// A checked opening.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    shape: Frame,
    from_left: f64,
    sill: f64,
    from_outside: f64,
    frame_depth: f64,
    spacing: f64,
    count: u32,
    reveals: [Option<RevealIndex>; 2],
}

/// A frame, checked, with its curve's length worked out.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Frame {
    Rectangle {
        width: f64,
        height: f64,
    },
    Arched {
        width: f64,
        springing: f64,
        rise: f64,
        /// Length of the arch in millimetres.
        arc: f64,
        elliptical: bool,
    },
    Circle {
        diameter: f64,
    },
    /// Corners anticlockwise from the lower left of their box.
    Polygon(Box<PolygonFrame>),
}

#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PolygonFrame {
    pub(crate) corners: Box<[Point]>,
    pub(crate) area: f64,
    pub(crate) bounds: Bounds,
}

impl Opening {
    /// Checks an opening.
    ///
    /// # Errors
    /// Every fault: a number that is not finite, negative or over 10 km; zero where a size is needed; a segmental rise over
    /// half the span; corners that cross, are sharper than 1°, or enclose nothing; a count of zero or over 10 000; a spacing that is
    /// missing or zero when there is more than one. Whether it fits a wall is for [`Opening::fits`].
    ///
    /// # Examples
    /// ```
    /// use hodful_geometry::{ArchHead, Opening, OpeningShape, OpeningSpec};
    /// let door = OpeningSpec {
    ///     shape: OpeningShape::Arched {
    ///         width: 900.0, springing: 2000.0, head: ArchHead::Segmental { rise: 500.0 },
    ///     },
    ///     from_left: 1200.0, sill: 0.0, from_outside: 75.0, frame_depth: 115.0,
    ///     count: 1, spacing: None, reveals: [None, None],
    /// };
    /// let faults = Opening::new(door).unwrap_err();
    /// assert_eq!(faults[0].to_string(), "rise is over half the span: write an elliptical head");
    /// ```
    pub fn new(spec: OpeningSpec) -> Result<Self, Vec<Fault>> {
        let mut faults = Faults::default();
        let shape = checked_frame(spec.shape, &mut faults);
        faults.length("from_left", spec.from_left);
        faults.length("sill", spec.sill);
        faults.length("frame.from_outside", spec.from_outside);
        faults.length("frame.depth", spec.frame_depth);
        if spec.count == 0 {
            faults.add("count", "is zero");
        } else if spec.count > MAX_COPIES {
            faults.add("count", "is over 10 000");
        }
        let spacing = match spec.spacing {
            None if spec.count > 1 => {
                faults.add("spacing", "is needed when there is more than one");
                0.0
            }
            None => 0.0,
            Some(spacing) if spec.count > 1 => {
                faults.size("spacing", spacing);
                spacing
            }
            Some(spacing) => {
                faults.length("spacing", spacing);
                spacing
            }
        };
        faults.or(Self {
            shape,
            from_left: spec.from_left,
            sill: spec.sill,
            from_outside: spec.from_outside,
            frame_depth: spec.frame_depth,
            spacing,
            count: spec.count,
            reveals: spec.reveals,
        })
    }

    /// How many copies there are.
    pub fn count(&self) -> u32 {
        self.count
    }

    /// From the left end of the wall to the left of copy `copy` (counted from zero) along the outside face, in millimetres.
    pub fn from_left(&self, copy: u32) -> f64 {
        self.from_left + f64::from(copy) * self.spacing
    }

    /// From the base of the wall to the bottom of the frame, in millimetres.
    pub fn sill(&self) -> f64 {
        self.sill
    }

    /// The reveal on one side, by its place in the wall's list.
    pub fn reveal(&self, side: Side) -> Option<RevealIndex> {
        match side {
            Side::Outside => self.reveals[0],
            Side::Inside => self.reveals[1],
        }
    }

    /// Width and height of the frame (of its box), in millimetres.
    pub fn frame_size(&self) -> (f64, f64) {
        match &self.shape {
            Frame::Rectangle { width, height } => (*width, *height),
            Frame::Arched {
                width,
                springing,
                rise,
                ..
            } => (*width, springing + rise),
            Frame::Circle { diameter } => (*diameter, *diameter),
            Frame::Polygon(frame) => (frame.bounds.width(), frame.bounds.height()),
        }
    }

    /// Area of the frame in mm².
    ///
    /// # Examples
    /// ```
    /// # use hodful_geometry::{Opening, OpeningShape, OpeningSpec};
    /// let round = Opening::new(OpeningSpec {
    ///     shape: OpeningShape::Circle { diameter: 600.0 }, from_left: 0.0, sill: 0.0,
    ///     from_outside: 0.0, frame_depth: 0.0, count: 1, spacing: None, reveals: [None, None],
    /// }).unwrap();
    /// assert!((round.frame_area() - core::f64::consts::PI * 300.0 * 300.0).abs() < 1e-6);
    /// ```
    pub fn frame_area(&self) -> f64 {
        Hole::of_frame(self).area()
    }

    /// Depth in millimetres of the reveal on one side of a wall of that thickness: in front of the frame outside, behind it
    /// inside. Negative when the frame is deeper than what is left of the wall. A wall thinner than rounding is taken as zero.
    #[inline]
    pub fn depth(&self, side: Side, thickness: f64) -> f64 {
        match side {
            Side::Outside => self.from_outside,
            Side::Inside => {
                let depth = thickness - self.from_outside - self.frame_depth;
                if depth < 0.0 && depth > -TOUCH {
                    0.0
                } else {
                    depth
                }
            }
        }
    }

    /// Whether the frame fits into a wall of that thickness (millimetres): no fault, or one on `"frame"`.
    pub fn fits(&self, thickness: f64) -> Vec<Fault> {
        let mut faults = Faults::default();
        // Not the plain comparison the other way round: a thickness that is not a number fits nothing.
        let fits = self.depth(Side::Inside, thickness) >= 0.0;
        if !fits {
            faults.add("frame", "is deeper than the wall is thick");
        }
        faults.into_vec()
    }

    /// Whether a reveal suits this opening on one side of a wall of that thickness (millimetres).
    ///
    /// Gives every fault: a frame that does not fit the wall (`"frame"`); jambs, head or sill on a round or many-sided opening
    /// (`"plastered"`, `"splay.jambs"` and so on); a head splayed less than its jambs, jambs whose splay takes the springing
    /// under the sill, or a ring splayed so far that a notch closes (`"splay"`); a rounded edge whose strip is wider than the
    /// reveal (`"radius"`).
    pub fn accepts(&self, reveal: &Reveal, side: Side, thickness: f64) -> Vec<Fault> {
        let mut faults = Faults::default();
        for fault in self.fits(thickness) {
            faults.add(fault.field, fault.why);
        }
        let spec = reveal.spec();
        let ringed = self.is_ringed();
        if ringed {
            const WHY: &str = "names a part this opening does not have: it has only a ring";
            if spec.plastered.jambs || spec.plastered.head || spec.plastered.sill {
                faults.add("plastered", WHY);
            }
            for (field, angle) in [
                ("splay.jambs", spec.splay.jambs),
                ("splay.head", spec.splay.head),
                ("splay.sill", spec.splay.sill),
            ] {
                if angle > 0.0 {
                    faults.add(field, WHY);
                }
            }
        }
        if !faults.is_empty() {
            return faults.into_vec();
        }
        let depth = self.depth(side, thickness);
        match Hole::new(self, reveal, depth) {
            Err(why) => faults.add("splay", why),
            Ok(hole) => {
                let bounds = hole.bounds();
                if bounds.width().max(bounds.height()) > MAX_LENGTH {
                    faults.add("splay", "opens the hole to over 10 km");
                } else if hole.crosses_itself() {
                    faults.add("splay", crate::hole::NOTCH);
                }
            }
        }
        let parts = if ringed {
            [Some(reveal.ring()), None, None]
        } else {
            [
                Some(reveal.jambs()),
                Some(reveal.head()),
                Some(reveal.sill()),
            ]
        };
        let wide = |part: &crate::reveal::Bevel| {
            part.plastered && part.strip > depth * part.secant + TOUCH
        };
        if parts.into_iter().flatten().any(wide) {
            faults.add("radius", "takes a strip wider than the reveal is deep");
        }
        faults.into_vec()
    }

    pub(crate) fn frame(&self) -> &Frame {
        &self.shape
    }

    /// Whether its reveal is one ring.
    pub(crate) fn is_ringed(&self) -> bool {
        matches!(self.shape, Frame::Circle { .. } | Frame::Polygon(_))
    }
}

fn checked_frame(shape: OpeningShape, faults: &mut Faults) -> Frame {
    match shape {
        OpeningShape::Rectangle { width, height } => {
            faults.size("width", width);
            faults.size("height", height);
            Frame::Rectangle { width, height }
        }
        OpeningShape::Arched {
            width,
            springing,
            head,
        } => {
            let wide = faults.size("width", width);
            faults.length("springing", springing);
            let half = width / 2.0;
            let (rise, elliptical) = match head {
                ArchHead::Semicircular => (half, false),
                ArchHead::Segmental { rise } => {
                    if faults.size("rise", rise) && wide && rise > half {
                        faults.add("rise", "is over half the span: write an elliptical head");
                    }
                    (rise, false)
                }
                ArchHead::Elliptical { rise } => {
                    faults.size("rise", rise);
                    (rise, true)
                }
            };
            let arc = if elliptical {
                half_ellipse_arc(half, rise)
            } else {
                Segment { half, rise }.arc()
            };
            Frame::Arched {
                width,
                springing,
                rise,
                arc,
                elliptical,
            }
        }
        OpeningShape::Circle { diameter } => {
            faults.size("diameter", diameter);
            Frame::Circle { diameter }
        }
        OpeningShape::Polygon { corners } => {
            let before = faults.count();
            let mut ring = polygon::checked_ring(corners, faults);
            if faults.count() == before && polygon::sharpest_corner(&ring) < MIN_CORNER {
                faults.add("corners", "make a corner sharper than 1°");
            }
            let bounds = polygon::bounds_of(&ring);
            for corner in &mut ring {
                *corner = [corner[0] - bounds.left, corner[1] - bounds.bottom];
            }
            Frame::Polygon(Box::new(PolygonFrame {
                area: polygon::signed_area(&ring),
                bounds: bounds.shifted(-bounds.left, -bounds.bottom),
                corners: ring.into_boxed_slice(),
            }))
        }
    }
}
