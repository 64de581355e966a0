//! The hole an opening makes in a face: its frame, opened out by the splay of the reveal.
//!
//! Also how a hole sits relative to its frame. What is cut off by the face is decided by the measuring modules.

use core::f64::consts::{FRAC_PI_2, PI, TAU};
use std::borrow::Cow;

use crate::arch::{Curve, Segment, concentric};
use crate::clip;
use crate::opening::{Frame, Opening};
use crate::polygon::{bounds_of, first_crossing, offset_ring, signed_area};
use crate::profile::{Bounds, Point};
use crate::reveal::Reveal;
use crate::tolerance::TOUCH;

/// Why a splay is refused when a notch closes.
pub(crate) const NOTCH: &str = "is too wide for a notch of this opening";

/// Why a splay is refused when the jambs lie beyond the arch.
const BEYOND: &str = "is wrong: the head needs at least the splay of the jambs";

/// Why a splay is refused when the arch comes down to the sill.
const UNDER: &str = "of the jambs takes the springing of the arch under the sill";

/// A hole, in millimetres from the lower left of the frame's box.
#[derive(Clone, Debug)]
pub(crate) struct Hole<'a> {
    bounds: Bounds,
    form: Form<'a>,
}

#[derive(Clone, Debug)]
enum Form<'a> {
    Rectangle,
    Arched { springing: f64, head: Head },
    Circle,
    Polygon { ring: Cow<'a, [Point]>, area: f64 },
}

/// The arch of a hole.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Head {
    Circular { segment: Segment, arc: f64 },
    Elliptical { half: f64, rise: f64 },
}

impl Head {
    /// Area between the arch and its springing line, in mm².
    fn area(&self) -> f64 {
        match *self {
            Self::Circular { segment, arc } => {
                let radius = segment.radius();
                segment.area_with(radius, arc / (2.0 * radius))
            }
            Self::Elliptical { half, rise } => FRAC_PI_2 * half * rise,
        }
    }
}

/// The arch of a hole and its springing, from those of the frame and how far jambs, head and sill move out.
fn opened_arch(
    frame: Segment,
    springing: f64,
    [jamb, head, sill]: [f64; 3],
) -> Result<(Segment, f64), &'static str> {
    let (opened, lift) = concentric(frame, jamb, head).ok_or(BEYOND)?;
    let springing = springing + lift;
    if springing < -sill - TOUCH {
        return Err(UNDER);
    }
    Ok((opened, springing))
}

impl<'a> Hole<'a> {
    /// The frame itself.
    pub(crate) fn of_frame(opening: &'a Opening) -> Self {
        let (width, height) = opening.frame_size();
        let bounds = Bounds {
            left: 0.0,
            right: width,
            bottom: 0.0,
            top: height,
        };
        let form = match opening.frame() {
            Frame::Rectangle { .. } => Form::Rectangle,
            Frame::Circle { .. } => Form::Circle,
            Frame::Arched {
                width,
                springing,
                rise,
                arc,
                elliptical,
            } => {
                let half = width / 2.0;
                let head = if *elliptical {
                    Head::Elliptical { half, rise: *rise }
                } else {
                    Head::Circular {
                        segment: Segment { half, rise: *rise },
                        arc: *arc,
                    }
                };
                Form::Arched {
                    springing: *springing,
                    head,
                }
            }
            Frame::Polygon(frame) => Form::Polygon {
                ring: Cow::Borrowed(&frame.corners),
                area: frame.area,
            },
        };
        Self { bounds, form }
    }

    /// The hole behind a reveal of that depth in millimetres, or why there is none.
    pub(crate) fn new(
        opening: &'a Opening,
        reveal: &Reveal,
        depth: f64,
    ) -> Result<Self, &'static str> {
        let mut hole = Self::of_frame(opening);
        let ring = depth * reveal.ring().tan;
        let jamb = depth * reveal.jambs().tan;
        let head_out = depth * reveal.head().tan;
        let sill = depth * reveal.sill().tan;
        let Bounds { right, top, .. } = hole.bounds;
        let around = |left: f64, up: f64, down: f64| Bounds {
            left: -left,
            right: right + left,
            bottom: -down,
            top: top + up,
        };
        match &mut hole.form {
            Form::Rectangle => hole.bounds = around(jamb, head_out, sill),
            Form::Circle => hole.bounds = around(ring, ring, ring),
            Form::Arched { springing, head } => {
                hole.bounds = around(jamb, head_out, sill);
                if jamb > 0.0 || head_out > 0.0 {
                    match head {
                        Head::Elliptical { half, rise } => {
                            *half += jamb;
                            *rise += head_out;
                        }
                        Head::Circular { segment, arc } => {
                            let opened;
                            (opened, *springing) =
                                opened_arch(*segment, *springing, [jamb, head_out, sill])?;
                            *segment = opened;
                            *arc = opened.arc();
                        }
                    }
                }
            }
            Form::Polygon {
                ring: corners,
                area,
            } => {
                if ring > 0.0 {
                    let moved = offset_ring(corners, ring).ok_or(NOTCH)?;
                    hole.bounds = bounds_of(&moved);
                    *area = signed_area(&moved);
                    *corners = Cow::Owned(moved);
                }
            }
        }
        Ok(hole)
    }

    /// Height of the springing of an arched hole behind a reveal of that depth in millimetres, or why there is no such hole: what
    /// [`Hole::new`] and [`Hole::head`] give, without the arc. `None` for other shapes.
    pub(crate) fn springing(
        opening: &Opening,
        reveal: &Reveal,
        depth: f64,
    ) -> Result<Option<f64>, &'static str> {
        let &Frame::Arched {
            width,
            springing,
            rise,
            elliptical,
            ..
        } = opening.frame()
        else {
            return Ok(None);
        };
        let out = [reveal.jambs(), reveal.head(), reveal.sill()].map(|part| depth * part.tan);
        if elliptical || !(out[0] > 0.0 || out[1] > 0.0) {
            return Ok(Some(springing));
        }
        let segment = Segment {
            half: width / 2.0,
            rise,
        };
        opened_arch(segment, springing, out).map(|(_, springing)| Some(springing))
    }

    /// The box around the hole, from the lower left of the frame's box.
    pub(crate) fn bounds(&self) -> &Bounds {
        &self.bounds
    }

    pub(crate) fn is_rectangle(&self) -> bool {
        matches!(self.form, Form::Rectangle)
    }

    /// Height of the springing and the arch, when there is one.
    pub(crate) fn head(&self) -> Option<(f64, Head)> {
        match self.form {
            Form::Arched { springing, head } => Some((springing, head)),
            _ => None,
        }
    }

    /// Corners of a many-sided hole.
    pub(crate) fn corners(&self) -> Option<&[Point]> {
        match &self.form {
            Form::Polygon { ring, .. } => Some(ring),
            _ => None,
        }
    }

    /// Area in mm².
    pub(crate) fn area(&self) -> f64 {
        match &self.form {
            Form::Rectangle => self.bounds.width() * self.bounds.height(),
            Form::Circle => PI / 4.0 * self.bounds.width() * self.bounds.width(),
            Form::Arched { springing, head } => {
                self.bounds.width() * (springing - self.bounds.bottom).max(0.0) + head.area()
            }
            Form::Polygon { area, .. } => *area,
        }
    }

    /// The part under the arch as a box: what a level floor cuts of an arched hole, it cuts of this.
    pub(crate) fn under_springing(&self) -> Option<Bounds> {
        self.head().map(|(springing, _)| Bounds {
            top: springing,
            ..self.bounds
        })
    }

    /// Whether the mitred sides of a many-sided hole cross.
    pub(crate) fn crosses_itself(&self) -> bool {
        match &self.form {
            Form::Polygon {
                ring: Cow::Owned(ring),
                ..
            } => first_crossing(ring).is_some(),
            _ => false,
        }
    }

    /// The arch or circle, moved by `(u, v)`; none for straight sides.
    pub(crate) fn curve(&self, u: f64, v: f64) -> Option<Curve> {
        let middle = f64::midpoint(self.bounds.left, self.bounds.right) + u;
        match &self.form {
            Form::Circle => {
                let radius = self.bounds.width() / 2.0;
                Some(Curve {
                    centre: [middle, self.bounds.bottom + radius + v],
                    radii: [radius, radius],
                    from: 0.0,
                    sweep: TAU,
                })
            }
            Form::Arched { springing, head } => Some(match *head {
                Head::Elliptical { half, rise } => Curve {
                    centre: [middle, springing + v],
                    radii: [half, rise],
                    from: 0.0,
                    sweep: PI,
                },
                Head::Circular { segment, arc } => {
                    let radius = segment.radius();
                    let angle = arc / (2.0 * radius);
                    Curve {
                        centre: [middle, springing + v - (radius - segment.rise)],
                        radii: [radius, radius],
                        from: FRAC_PI_2 - angle,
                        sweep: 2.0 * angle,
                    }
                }
            }),
            Form::Rectangle | Form::Polygon { .. } => None,
        }
    }

    /// The arch or circle as a line of chords, moved by `(u, v)`; empty for straight sides.
    fn chords(&self, u: f64, v: f64) -> Vec<Point> {
        match (self.curve(u, v), &self.form) {
            (Some(curve), Form::Circle) => clip::round(curve.centre, curve.radii),
            (Some(curve), _) => clip::chords(curve.centre, curve.radii, curve.from, curve.sweep),
            (None, _) => Vec::new(),
        }
    }

    /// The hole as a ring, anticlockwise, moved by `(u, v)`.
    pub(crate) fn ring(&self, u: f64, v: f64) -> Vec<Point> {
        let Bounds {
            left,
            right,
            bottom,
            top,
        } = self.bounds.shifted(u, v);
        match &self.form {
            Form::Rectangle => vec![[left, bottom], [right, bottom], [right, top], [left, top]],
            Form::Circle => {
                let mut ring = self.chords(u, v);
                // A full turn comes back to its first corner.
                ring.pop();
                ring
            }
            Form::Arched { .. } => {
                let mut ring = vec![[left, bottom], [right, bottom]];
                ring.extend(self.chords(u, v));
                ring
            }
            Form::Polygon { ring, .. } => ring.iter().map(|p| [p[0] + u, p[1] + v]).collect(),
        }
    }
}
