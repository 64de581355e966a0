//! The outline of a wall and the outline of each of its faces.
//!
//! Here are the shapes a wall can have and how an inset trims them. How areas inside an outline come about is in the profile
//! and polygon modules; openings are not here.

mod level;

use core::f64::consts::TAU;

use crate::fault::{Fault, Faults, number_fault};
use crate::polygon::{self, PolygonFace};
use crate::profile::{Bounds, Fence, Point, Profile, TopLine};
use crate::tolerance::{MIN_SIZE, TOUCH, TURN_SLACK};

/// The shape of a wall seen from outside. Lengths in millimetres, angles in radians.
#[derive(Clone, Debug, PartialEq)]
pub enum OutlineShape {
    /// Level top.
    Rectangle {
        /// Along the wall.
        length: f64,
        /// From base to top.
        height: f64,
    },
    /// Two slopes that meet at a ridge.
    Gable {
        /// Along the wall.
        length: f64,
        /// Height at both ends; zero makes a triangle.
        eaves: f64,
        /// Height of the ridge, not under the eaves.
        ridge: f64,
        /// Place of the ridge along the wall.
        ridge_from_left: f64,
    },
    /// One slope from end to end.
    Raked {
        /// Along the wall.
        length: f64,
        /// Height at the left end; zero makes a triangle.
        left: f64,
        /// Height at the right end; zero makes a triangle.
        right: f64,
    },
    /// Any outline of straight sides that does not cross itself, in either direction of going round; the last corner may
    /// repeat the first.
    Polygon {
        /// Corners as `[along, up]`.
        corners: Vec<[f64; 2]>,
    },
    /// A wall that is an arc of a circle on plan, with a level top.
    Curved {
        /// From the centre to the outside face.
        radius: f64,
        /// How far round it goes.
        extent: Extent,
        /// From base to top.
        height: f64,
    },
}

/// How far a curved wall goes round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Extent {
    /// Angle at the centre in radians, at most a full turn.
    Sweep(f64),
    /// Developed length of the outside face in millimetres, at most once round.
    Length(f64),
}

/// One side of a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// The weather side.
    Outside,
    /// The room side.
    Inside,
}

impl Side {
    /// Both sides, outside first.
    pub const BOTH: [Self; 2] = [Self::Outside, Self::Inside];
}

/// An end of a face, as seen from outside for both faces.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum End {
    /// At the least u.
    Left,
    /// At the greatest u.
    Right,
}

/// How much of a face is left bare along its sides, in millimetres measured on that face.
///
/// `bottom` is measured up from the lowest point of the outline; `top` moves the top line straight down, on a slope as well.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Inset {
    /// Trimmed from the left end.
    pub left: f64,
    /// Trimmed from the right end.
    pub right: f64,
    /// Lowering of the top line.
    pub top: f64,
    /// Trimmed from the base.
    pub bottom: f64,
}

/// The checked outline of a wall.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline(Kind);

#[derive(Clone, Debug, PartialEq)]
enum Kind {
    Straight {
        length: f64,
        top: TopLine,
    },
    Curved {
        radius: f64,
        length: f64,
        height: f64,
    },
    Polygon(Vec<Point>),
}

impl Outline {
    /// Checks a shape.
    ///
    /// # Errors
    /// Every fault of the shape: a number that is not finite, negative or over 10 km; zero where a size is needed; a ridge
    /// outside the wall or under the eaves; a polygon with fewer than three corners, more than 1000, a crossing or touching
    /// itself, or enclosing nothing; a curved wall that goes more than once round.
    ///
    /// # Examples
    /// ```
    /// use hodful_geometry::{Inset, Outline, OutlineShape, Side};
    /// let gable = Outline::new(OutlineShape::Gable {
    ///     length: 6000.0, eaves: 2400.0, ridge: 4400.0, ridge_from_left: 2500.0,
    /// }).unwrap();
    /// let face = gable.face(Side::Outside, 450.0, &Inset::default()).unwrap();
    /// assert_eq!(face.area(), 6000.0 * (2400.0 + 4400.0) / 2.0);
    /// ```
    pub fn new(shape: OutlineShape) -> Result<Self, Vec<Fault>> {
        let mut faults = Faults::default();
        let kind = match shape {
            OutlineShape::Rectangle { length, height } => {
                faults.size("length", length);
                faults.size("height", height);
                Kind::Straight {
                    length,
                    top: TopLine::Level(height),
                }
            }
            OutlineShape::Gable {
                length,
                eaves,
                ridge,
                ridge_from_left,
            } => {
                let long = faults.size("length", length);
                let low = faults.length("eaves", eaves);
                let high = faults.size("ridge", ridge);
                let place = faults.length("ridge_from_left", ridge_from_left);
                if low && high && ridge < eaves {
                    faults.add(
                        "ridge",
                        "is below the eaves: write a valley roof as a polygon",
                    );
                }
                if long && place && ridge_from_left > length {
                    faults.add("ridge_from_left", "is beyond the end of the wall");
                }
                Kind::Straight {
                    length,
                    top: gable_top(length, eaves, ridge, ridge_from_left),
                }
            }
            OutlineShape::Raked {
                length,
                left,
                right,
            } => {
                faults.size("length", length);
                let both = faults.length("left", left) & faults.length("right", right);
                if both && left.max(right) < MIN_SIZE {
                    faults.add("left", "is zero at both ends: the wall has no height");
                }
                Kind::Straight {
                    length,
                    top: TopLine::Sloped {
                        left,
                        ridge_at: length,
                        ridge: right,
                        right,
                    },
                }
            }
            OutlineShape::Polygon { corners } => {
                Kind::Polygon(polygon::checked_ring(corners, &mut faults))
            }
            OutlineShape::Curved {
                radius,
                extent,
                height,
            } => {
                let sound = faults.size("radius", radius);
                faults.size("height", height);
                let length = developed(radius, sound, extent, &mut faults);
                Kind::Curved {
                    radius,
                    length,
                    height,
                }
            }
        };
        faults.or(Self(kind))
    }

    /// The outline of one face after its inset, in the developed plane of that face.
    ///
    /// `thickness` is the wall's, in millimetres. A curved wall's inside face is developed at the outside radius less the
    /// thickness; its insets are lengths on that face. The box and corner positions of a polygon cut by an inset are right to
    /// 8e-9 of the wall's extent; everything else is exact to rounding.
    ///
    /// # Errors
    /// A thickness that is not a size, or not less than the radius of a curved wall (`"thickness"`); an inset that is not
    /// finite or is negative (`"inset.left"` and so on), or insets that leave nothing (`"inset"`).
    pub fn face(
        &self,
        side: Side,
        thickness: f64,
        inset: &Inset,
    ) -> Result<FaceOutline, Vec<Fault>> {
        let mut faults = Faults::default();
        let thick = faults.size("thickness", thickness);
        let mut sound = true;
        for (field, value) in [
            ("inset.left", inset.left),
            ("inset.right", inset.right),
            ("inset.top", inset.top),
            ("inset.bottom", inset.bottom),
        ] {
            if let Some(why) = number_fault(value) {
                faults.add(field, why);
                sound = false;
            }
        }
        if let Kind::Curved { radius, .. } = self.0
            && thick
            && thickness > radius - MIN_SIZE
        {
            faults.add(
                "thickness",
                "is not less than the radius to the outside face",
            );
        }
        if !sound || !faults.is_empty() {
            return Err(faults.into_vec());
        }
        let face = self.trimmed(side, thickness, inset);
        let bounds = face.bounds();
        let smallest = MIN_SIZE * MIN_SIZE;
        if bounds.width() < MIN_SIZE || bounds.height() < MIN_SIZE || face.area() < smallest {
            faults.add("inset", "leaves nothing of the face");
        }
        faults.or(face)
    }

    fn trimmed(&self, side: Side, thickness: f64, inset: &Inset) -> FaceOutline {
        let straight = |length, top, radius| {
            FaceOutline(Form::Profile {
                profile: Profile {
                    length,
                    top,
                    inset: *inset,
                },
                radius,
            })
        };
        match &self.0 {
            Kind::Straight { length, top } => straight(*length, *top, 0.0),
            Kind::Curved {
                radius,
                length,
                height,
            } => {
                let top = TopLine::Level(*height);
                match side {
                    Side::Outside => straight(*length, top, *radius),
                    Side::Inside => {
                        let inner = radius - thickness;
                        straight(length * (inner / radius), top, -inner)
                    }
                }
            }
            Kind::Polygon(ring) => {
                FaceOutline(Form::Polygon(Box::new(PolygonFace::new(ring, inset))))
            }
        }
    }
}

/// A gable's top; a ridge at an end of the wall is one slope.
fn gable_top(length: f64, eaves: f64, ridge: f64, ridge_from_left: f64) -> TopLine {
    if ridge_from_left < TOUCH {
        return TopLine::Sloped {
            left: ridge,
            ridge_at: length,
            ridge: eaves,
            right: eaves,
        };
    }
    if ridge_from_left > length - TOUCH {
        return TopLine::Sloped {
            left: eaves,
            ridge_at: length,
            ridge,
            right: ridge,
        };
    }
    TopLine::Sloped {
        left: eaves,
        ridge_at: ridge_from_left,
        ridge,
        right: eaves,
    }
}

/// Developed length of the outside face.
fn developed(radius: f64, sound: bool, extent: Extent, faults: &mut Faults) -> f64 {
    match extent {
        Extent::Sweep(sweep) => {
            match number_fault(sweep) {
                Some(why) => faults.add("sweep", why),
                None if sweep <= 0.0 => faults.add("sweep", "is zero"),
                None if sweep > TAU + TURN_SLACK => faults.add("sweep", "is over a full turn"),
                None if sound && radius * sweep < MIN_SIZE => {
                    faults.add("sweep", "makes a wall of no length");
                }
                None => {}
            }
            radius * sweep
        }
        Extent::Length(length) => {
            if faults.size("length", length) && sound && length > radius * (TAU + TURN_SLACK) {
                faults.add("length", "goes more than once round");
            }
            length
        }
    }
}

/// The outline of one face: what is left of the wall's outline after the inset, and the outline before it.
#[derive(Clone, Debug, PartialEq)]
pub struct FaceOutline(Form);

#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Form {
    /// `radius` is that of the face on plan: more than zero where the wall bulges towards the viewer (outside), less than zero
    /// where it is hollow (inside), zero where it is flat.
    Profile {
        profile: Profile,
        radius: f64,
    },
    Polygon(Box<PolygonFace>),
}

impl FaceOutline {
    /// Area of the face in mm², openings included.
    pub fn area(&self) -> f64 {
        match &self.0 {
            Form::Profile { profile, .. } => profile.area(),
            Form::Polygon(polygon) => polygon.area(),
        }
    }

    /// Length in millimetres of the vertical edge at an end; zero where the face runs out to a point. For a polygon the total
    /// length of the vertical sides at its extreme u.
    pub fn end_height(&self, end: End) -> f64 {
        match (&self.0, end) {
            (Form::Profile { profile, .. }, End::Left) => profile.edge_at(profile.left()),
            (Form::Profile { profile, .. }, End::Right) => profile.edge_at(profile.right()),
            (Form::Polygon(polygon), end) => polygon.end_height(end),
        }
    }

    /// Radius of the face on plan in millimetres, when it is curved: positive outside (bulging), negative inside (hollow).
    pub fn radius(&self) -> Option<f64> {
        match self.0 {
            Form::Profile { radius, .. } if radius.abs() > 0.0 => Some(radius),
            _ => None,
        }
    }

    /// The upright box around the face, in millimetres. Where an inset from the base eats a low end of a sloping face away,
    /// the box still reaches to the trimmed end.
    pub fn bounds(&self) -> Bounds {
        match &self.0 {
            Form::Profile { profile, .. } => profile.bounds(),
            Form::Polygon(polygon) => polygon.bounds(),
        }
    }

    /// Developed length of the face in millimetres, from its trimmed left end to its trimmed right end.
    pub fn developed_length(&self) -> f64 {
        self.bounds().width()
    }

    pub(crate) fn form(&self) -> &Form {
        &self.0
    }

    /// What one millimetre along the outside face measures on this face.
    pub(crate) fn scale(&self, thickness: f64) -> Option<f64> {
        match self.0 {
            Form::Profile { radius, .. } if radius < 0.0 => {
                let scale = -radius / (thickness - radius);
                // A thickness the face was not made for, or no number at all, moves nothing.
                (scale > 0.0 && scale <= 1.0).then_some(scale)
            }
            _ => None,
        }
    }

    #[inline]
    pub(crate) fn contains(&self, area: &Bounds) -> bool {
        match &self.0 {
            Form::Profile { profile, .. } => profile.contains(area),
            Form::Polygon(polygon) => polygon.contains(area),
        }
    }

    /// Whether a place is inside, the sides included.
    pub(crate) fn covers(&self, place: Point) -> bool {
        match &self.0 {
            Form::Profile { profile, .. } => {
                let [u, v] = place;
                profile.contains(&Bounds {
                    left: u,
                    right: u,
                    bottom: v,
                    top: v,
                })
            }
            Form::Polygon(polygon) => polygon.covers(place),
        }
    }

    /// Whether a box lies inside but for what the floor of a profile cuts off it, something is left of it, and all of it is
    /// inside the wall's own outline.
    #[inline]
    pub(crate) fn contains_above_floor(&self, area: &Bounds) -> bool {
        match &self.0 {
            Form::Profile { profile, .. } => {
                let kept = Bounds {
                    bottom: area.bottom.max(profile.floor()),
                    ..*area
                };
                kept.bottom < kept.top && area.bottom >= -TOUCH && profile.contains(&kept)
            }
            Form::Polygon(polygon) => {
                // A box of its own, so that the one asked about can stay out of memory on the other way.
                let kept = *area;
                polygon.contains(&kept)
            }
        }
    }

    /// The face when it is a rectangle.
    #[inline]
    pub(crate) fn fence(&self) -> Option<Fence> {
        match &self.0 {
            Form::Profile { profile, .. } => profile.fence(),
            Form::Polygon(_) => None,
        }
    }

    /// Level of the floor of a profile; a polygon has none.
    #[inline]
    pub(crate) fn floor(&self) -> f64 {
        match &self.0 {
            Form::Profile { profile, .. } => profile.floor(),
            Form::Polygon(_) => f64::NEG_INFINITY,
        }
    }

    /// Length of a straight line inside the face, its edges included.
    pub(crate) fn inside_length(&self, a: Point, b: Point) -> f64 {
        match &self.0 {
            Form::Profile { profile, .. } => profile.inside_length(a, b),
            Form::Polygon(polygon) => polygon.inside_length(a, b),
        }
    }

    /// The same face before its inset.
    pub(crate) fn untrimmed(&self) -> Self {
        match &self.0 {
            Form::Profile { profile, radius } => Self(Form::Profile {
                profile: profile.untrimmed(),
                radius: *radius,
            }),
            Form::Polygon(polygon) => Self(Form::Polygon(Box::new(polygon.untrimmed()))),
        }
    }

    /// The face as rings that go round anticlockwise.
    pub(crate) fn rings(&self) -> Vec<Vec<Point>> {
        match &self.0 {
            Form::Profile { profile, .. } => vec![profile.ring()],
            Form::Polygon(polygon) => polygon.rings().to_vec(),
        }
    }
}
