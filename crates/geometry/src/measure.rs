//! The measure of a face: outline less openings and strips, with reveals and rounded edges, and what its offset gains.
//!
//! The sums are here. The figures of one opening are in `measure/opening.rs` and `measure/part.rs`, what is cut off its lines
//! in `measure/cut.rs`, how holes lie and overlap in `measure/place.rs`, and who measures what how in `measure/arrange.rs`.

mod arrange;
mod cut;
mod opening;
mod part;
mod place;
mod rules;
mod tier;

pub use opening::OpeningMeasure;
pub use part::PartMeasure;
pub use rules::{frame_area_on_face, reveal_width};
pub use tier::{Tier, net_area_with};

use crate::edge::{Angle, FaceEnd};
use crate::notes::{Notes, Refusal};
use crate::opening::Opening;
use crate::outline::{End, FaceOutline, Side};
use crate::reveal::{Part, Reveal};
use crate::tolerance::SAME_AREA;
use arrange::Site;

/// The measure of one face. Areas in mm², lengths in millimetres.
///
/// `field = outline − openings − strips`; [`FaceMeasure::true_surface`] is field + reveals + edges.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FaceMeasure {
    /// Area of the face's outline after its inset.
    pub outline: f64,
    /// Area of the holes in the face, splay included, cut by the outline, overlaps counted once.
    pub openings: f64,
    /// What the holes would come to more if overlaps were counted twice.
    pub overlap: f64,
    /// Area of the frames on the face, each cut by the outline, overlaps not looked for.
    pub frame_openings: f64,
    /// Area the rounded edges take from the face.
    pub strips: f64,
    /// The flat of the face (developed where the wall is curved).
    pub field: f64,
    /// Plastered reveals, less the strips the rounded edges take from them.
    pub reveals: f64,
    /// Surface of the rounded edges, of openings and of external ends.
    pub edges: f64,
    /// Length of the edges, sharp and rounded, along the sharp arris: of openings (plastered parts only) and external ends.
    pub edge_length: f64,
    /// Area of metal lath along the edges of openings.
    pub lath: f64,
    /// Surface gained for every millimetre the face is offset outwards, in millimetres (mm² per mm).
    ///
    /// Source: Steiner's formula for parallel surfaces; each convex edge adds its length times the turn when rounded, twice the
    /// tangent of half the turn when sharp; each internal angle takes the latter away; a curved surface adds its area over its
    /// radius. Left out: the terms of third order at the corners where three planes meet (4·t³ at a square window), and the
    /// wedge that a splayed reveal's plaster fills against the frame (t²·tan θ/2 per length of the frame).
    pub growth: f64,
    /// Volume in mm³ that coves add at internal ends, once, whatever the number of coats.
    pub coves: f64,
}

impl FaceMeasure {
    /// The surface to be plastered in mm².
    pub fn true_surface(&self) -> f64 {
        self.field + self.reveals + self.edges
    }

    /// Volume in mm³ of a layer of plaster between two offsets from the background: it starts at `offset` and is `thickness` thick,
    /// both in millimetres. Coves are not in it. Numbers that are not finite give one that is not.
    ///
    /// Source: Steiner's formula, V = t·(A + g·(2a + t)/2) with A the true surface and g the growth.
    ///
    /// # Examples
    /// A tower of 2 m radius to the outside, 3 m high, under 25 mm of plaster: π·(2025² − 2000²)·3000 mm³.
    /// ```
    /// use hodful_geometry::{Extent, Inset, Outline, OutlineShape, Side, Silent, measure_face};
    /// let tower = Outline::new(OutlineShape::Curved {
    ///     radius: 2000.0, extent: Extent::Sweep(core::f64::consts::TAU), height: 3000.0,
    /// }).unwrap();
    /// let face = tower.face(Side::Outside, 350.0, &Inset::default()).unwrap();
    /// let measure = measure_face(&face, Side::Outside, 350.0, &[], &[], &[], &mut Silent);
    /// let exact = core::f64::consts::PI * (2025.0 * 2025.0 - 2000.0 * 2000.0) * 3000.0;
    /// assert!((measure.layer_volume(0.0, 25.0) / exact - 1.0).abs() < 1e-12);
    /// ```
    pub fn layer_volume(&self, offset: f64, thickness: f64) -> f64 {
        thickness * (self.true_surface() + self.growth * (2.0 * offset + thickness) / 2.0)
    }
}

/// The figures of one end of a face. Areas in mm², lengths in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EndMeasure {
    /// Which end.
    pub end: End,
    /// What angle is there.
    pub angle: Angle,
    /// How far the surface turns, in radians.
    pub turn: f64,
    /// Length of the vertical edge.
    pub length: f64,
    /// Width of one of the two strips a rounded edge takes.
    pub strip: f64,
    /// Area of both strips, taken from this face.
    pub strip_area: f64,
    /// Surface of the rounded edge.
    pub arc_area: f64,
    /// Surface gained per millimetre of offset; less than zero at an internal angle.
    pub growth: f64,
    /// Volume of the cove in mm³.
    pub cove_volume: f64,
}

impl EndMeasure {
    fn new(end: &FaceEnd, length: f64) -> Self {
        let spec = end.spec();
        let half_tan = end.half_tan();
        let turn = spec.turn;
        let mut measure = Self {
            end: spec.end,
            angle: spec.angle,
            turn,
            length,
            strip: 0.0,
            strip_area: 0.0,
            arc_area: 0.0,
            growth: 0.0,
            cove_volume: 0.0,
        };
        match spec.angle {
            Angle::External { radius } if radius > 0.0 => {
                measure.strip = radius * half_tan;
                measure.strip_area = 2.0 * measure.strip * length;
                measure.arc_area = radius * turn * length;
                measure.growth = turn * length;
            }
            Angle::External { .. } => measure.growth = 2.0 * half_tan * length,
            Angle::Internal { cove } => {
                measure.growth = -2.0 * half_tan * length;
                measure.cove_volume = length * cove * cove * (half_tan - turn / 2.0);
            }
        }
        measure
    }
}

/// Measures one face of a wall.
///
/// `face` is the outline of that face from [`crate::Outline::face`], for the same side and thickness (millimetres). Openings take their
/// reveals from `reveals` by index. `ends` are the angles entered on this face. On a wall curved on plan `from_left` runs along the
/// outside face; inside, the middle of an opening keeps its angle at the centre and its size is unchanged.
///
/// A cut by the face's inset cuts openings, reveals and edges with it. Every straight part has a line on the frame and a line on
/// the face, and its area is the mean of what is inside of both, times the slant; a curved part is taken in the share of its
/// line on the face that is inside. Edges are as long as the sharp arris: where two rounded edges meet at a mitre, an error of the order
/// of the radius squared is left per corner: (π − 3)·r² at a square corner, π(π − 3)·r² around a circle, see the tests.
///
/// Exact for standard shapes that are whole, for rectangles however they are cut or overlap on a face with straight top lines, and
/// for arched openings cut by the floor. Arcs that are cut otherwise or overlap are drawn: areas are right to a millionth of
/// the hole, lengths exact. Takes any checked input, cannot panic, and gives nothing below zero but growth.
///
/// # Examples
/// ```
/// use hodful_geometry::*;
/// let wall = Outline::new(OutlineShape::Rectangle { length: 6000.0, height: 2700.0 }).unwrap();
/// let window = Opening::new(OpeningSpec {
///     shape: OpeningShape::Rectangle { width: 1000.0, height: 1200.0 },
///     from_left: 2000.0, sill: 900.0, from_outside: 100.0, frame_depth: 100.0,
///     count: 1, spacing: None, reveals: [RevealIndex::new(0), None],
/// }).unwrap();
/// let reveal = Reveal::new(RevealSpec {
///     plastered: Parts { jambs: true, head: true, ..Parts::default() }, ..RevealSpec::default()
/// }).unwrap();
/// let face = wall.face(Side::Outside, 450.0, &Inset::default()).unwrap();
/// let m = measure_face(&face, Side::Outside, 450.0, &[window], &[reveal], &[], &mut Silent);
/// assert_eq!(m.field, 6000.0 * 2700.0 - 1000.0 * 1200.0);
/// assert_eq!(m.reveals, (2.0 * 1200.0 + 1000.0) * 100.0);
/// ```
pub fn measure_face(
    face: &FaceOutline,
    side: Side,
    thickness: f64,
    openings: &[Opening],
    reveals: &[Reveal],
    ends: &[FaceEnd],
    notes: &mut impl Notes,
) -> FaceMeasure {
    let here = Site::new(face, side, thickness, reveals);
    let mut sum = Sum {
        total: FaceMeasure {
            outline: face.area(),
            ..FaceMeasure::default()
        },
        widest: (0.0, None),
    };
    if here.is_plain(openings) {
        for (index, opening) in openings.iter().enumerate() {
            // Two calls, so that a rectangle's figures never meet the others' in memory: see `rectangle`.
            if let Some(measure) = here.plain_rectangle(opening) {
                sum.add(index, &measure, notes);
            } else {
                sum.add(index, &here.plain(opening), notes);
            }
        }
    } else {
        here.measure_each(openings, &mut sum, notes);
    }
    for (index, end) in ends.iter().enumerate() {
        let measure = EndMeasure::new(end, face.end_height(end.spec().end));
        sum.total.strips += measure.strip_area;
        sum.total.edges += measure.arc_area;
        sum.total.growth += measure.growth;
        sum.total.coves += measure.cove_volume;
        if matches!(measure.angle, Angle::External { .. }) {
            sum.total.edge_length += measure.length;
        }
        notes.end(index, &measure);
    }
    sum.finish(face, notes)
}

/// What a field curved on plan gains per millimetre of offset. Apart and cold, so that flat faces do not wait for a division.
#[cold]
fn curving(field: f64, radius: f64) -> f64 {
    field / radius
}

/// Refuses the parts of an opening that a strip is wider than. Apart and cold, as it is next to never called.
#[cold]
fn refuse_strips(index: usize, parts: impl Iterator<Item = Part>, notes: &mut impl Notes) {
    for part in parts {
        notes.refuse(Refusal::StripOverReveal {
            opening: index,
            part,
        });
    }
}

/// The running sum over a face.
struct Sum {
    total: FaceMeasure,
    /// Widest strips of one opening so far.
    widest: (f64, Option<usize>),
}

impl Sum {
    /// Adds the copies of an opening.
    #[inline]
    fn add(&mut self, index: usize, measure: &OpeningMeasure, notes: &mut impl Notes) {
        let n = f64::from(measure.copies);
        let total = &mut self.total;
        total.openings += n * measure.hole_area;
        total.frame_openings += n * measure.frame_area;
        total.strips += n * measure.strips;
        total.reveals += n * measure.reveals;
        total.edges += n * measure.edges;
        total.edge_length += n * measure.edge_length;
        total.lath += n * measure.lath;
        total.growth += n * measure.growth;
        if measure.strips > self.widest.0 {
            self.widest = (measure.strips, Some(index));
        }
        notes.opening(index, measure);
        if measure.is_overdrawn() {
            refuse_strips(index, measure.overdrawn(), notes);
        }
    }

    fn finish(mut self, face: &FaceOutline, notes: &mut impl Notes) -> FaceMeasure {
        let total = &mut self.total;
        let field = total.outline - total.openings - total.strips;
        if field < -SAME_AREA * total.outline && total.strips > 0.0 {
            notes.refuse(Refusal::StripsOverField {
                opening: self.widest.1,
            });
        }
        total.field = field.max(0.0);
        if let Some(radius) = face.radius() {
            total.growth += curving(total.field, radius);
        }
        self.total
    }
}
