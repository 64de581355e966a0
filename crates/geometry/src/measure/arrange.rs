//! Where the openings of a face lie: which are whole, which are cut, which overlap, and what of their holes counts.
//!
//! The figures of an opening come from its own module; here they are placed, and cuts and overlaps are reported.

use crate::clip;
use crate::hole::Hole;
use crate::notes::{Doubt, Notes, OpeningCopy, Refusal};
use crate::opening::{Frame, Opening};
use crate::outline::{FaceOutline, Form, Side};
use crate::profile::{Bounds, Fence, Point};
use crate::reveal::Reveal;
use crate::tolerance::{MAX_LENGTH, SAME_AREA, TOUCH};
use crate::union;

use super::Sum;
use super::cut::{CutBy, Floor, Whole};
use super::opening::{OpeningMeasure, measure, rectangle};
use super::place::{Cutting, Placed, area_inside, find_overlaps};

/// The face openings are measured on.
pub(super) struct Site<'a> {
    pub(super) face: &'a FaceOutline,
    side: Side,
    thickness: f64,
    scale: Option<f64>,
    /// The face when it is a rectangle.
    fence: Option<Fence>,
    reveals: &'a [Reveal],
}

/// An opening with the reveal it has on this face.
struct Fitted<'a> {
    reveal: &'a Reveal,
    depth: f64,
    hole: Hole<'a>,
}

/// Copies of openings up to this many are compared with one another without sorting or storage.
const FEW: usize = 8;

/// Boxes that were found apart.
#[derive(Default)]
struct Boxes {
    boxes: [Bounds; FEW],
    count: usize,
}

impl Boxes {
    /// Puts one more when it is apart from those before and there is room for it.
    #[inline]
    fn put_apart(&mut self, hole: Bounds) -> bool {
        let Some((before, [slot, ..])) = self.boxes.split_at_mut_checked(self.count) else {
            return false;
        };
        let mut apart = true;
        for other in before {
            apart &= !hole.overlaps(other);
        }
        *slot = hole;
        self.count += 1;
        apart
    }
}

impl<'a> Site<'a> {
    pub(super) fn new(
        face: &'a FaceOutline,
        side: Side,
        thickness: f64,
        reveals: &'a [Reveal],
    ) -> Self {
        Self {
            face,
            side,
            thickness,
            scale: face.scale(thickness),
            fence: face.fence(),
            reveals,
        }
    }

    /// Left of the frame on this face.
    #[inline]
    pub(super) fn left_of(&self, opening: &Opening, copy: u32) -> f64 {
        let left = opening.from_left(copy);
        match self.scale {
            None => left,
            Some(scale) => {
                let half = opening.frame_size().0 / 2.0;
                (left + half) * scale - half
            }
        }
    }

    /// The reveal an opening names; a bare one when it names none; `None` when there is no such reveal.
    #[inline]
    fn reveal_of(&self, opening: &Opening) -> Option<&'a Reveal> {
        match opening.reveal(self.side) {
            Some(index) => self.reveals.get(index.get()),
            None => Some(&Reveal::BARE),
        }
    }

    /// Whether nothing is to be reported and nothing but the floor of an inset cuts: every opening is a standard shape in a sound
    /// reveal, inside the face or cut by its floor alone, and apart from the others.
    #[inline]
    pub(super) fn is_plain(&self, openings: &[Opening]) -> bool {
        let mut boxes = Boxes::default();
        for opening in openings {
            let Some(hole) = self.plain_hole(opening) else {
                return false;
            };
            let first = hole.shifted(self.left_of(opening, 0), opening.sill());
            if !self.is_inside(&first) || !boxes.put_apart(first) {
                return false;
            }
            for copy in 1..opening.count() {
                let next = hole.shifted(self.left_of(opening, copy), opening.sill());
                if !self.is_inside(&next) || !boxes.put_apart(next) {
                    return false;
                }
            }
        }
        true
    }

    /// Whether at most the floor of the face cuts a box.
    #[inline]
    fn is_inside(&self, hole: &Bounds) -> bool {
        match &self.fence {
            Some(fence) => fence.contains_above_floor(hole),
            None => self.face.contains_above_floor(hole),
        }
    }

    /// Box of the hole of a standard shape in a sound reveal, from the lower left of its frame.
    #[inline]
    fn plain_hole(&self, opening: &Opening) -> Option<Bounds> {
        let depth = opening.depth(self.side, self.thickness);
        let reveal = self.reveal_of(opening)?;
        if !is_depth(depth) {
            return None;
        }
        match opening.frame() {
            Frame::Rectangle { width, height } => Some(opened(*width, *height, reveal, depth)),
            Frame::Arched {
                width,
                springing,
                rise,
                ..
            } => {
                let lowest = Hole::springing(opening, reveal, depth)
                    .ok()??
                    .min(*springing);
                // Of both frame and hole, the floor cuts nothing but the upright part.
                let under = opening.sill() + lowest >= self.face.floor();
                under.then(|| opened(*width, springing + rise, reveal, depth))
            }
            Frame::Circle { diameter } => {
                let out = depth * reveal.ring().tan;
                let above = opening.sill() - out >= self.face.floor() - TOUCH;
                (above && !reveal.names_sides()).then_some(Bounds {
                    left: -out,
                    right: diameter + out,
                    bottom: -out,
                    top: diameter + out,
                })
            }
            Frame::Polygon(_) => None,
        }
    }

    /// All copies of one plain opening when it is a rectangle.
    #[expect(
        clippy::inline_always,
        reason = "figures nobody listens to vanish only when this is inlined"
    )]
    #[inline(always)]
    pub(super) fn plain_rectangle(&self, opening: &Opening) -> Option<OpeningMeasure> {
        let &Frame::Rectangle { width, height } = opening.frame() else {
            return None;
        };
        let reveal = self.reveal_of(opening).unwrap_or(&Reveal::BARE);
        let depth = opening.depth(self.side, self.thickness);
        let floor = Floor(self.face.floor() - opening.sill());
        let hole = opened(width, height, reveal, depth);
        let frame = [width, height];
        let mut m = if floor.is_under(&hole) {
            rectangle(frame, reveal, depth, &hole, &Whole)
        } else {
            let mut m = rectangle(frame, reveal, depth, &hole, &floor);
            m.cut_by_floor(&hole, floor.0);
            m
        };
        m.copies = opening.count();
        Some(m)
    }

    /// All copies of one plain opening of any shape.
    pub(super) fn plain(&self, opening: &Opening) -> OpeningMeasure {
        let reveal = self.reveal_of(opening).unwrap_or(&Reveal::BARE);
        let depth = opening.depth(self.side, self.thickness);
        let floor = Floor(self.face.floor() - opening.sill());
        let Ok(hole) = Hole::new(opening, reveal, depth) else {
            return OpeningMeasure::default();
        };
        let mut m = if floor.is_under(hole.bounds()) {
            measure(opening, reveal, depth, &hole, &Whole)
        } else {
            let mut m = measure(opening, reveal, depth, &hole, &floor);
            m.cut_by_floor(hole.bounds(), floor.0);
            m
        };
        m.copies = opening.count();
        m
    }

    /// The reveal, depth and hole of an opening; what does not suit is refused and left bare.
    fn fit<'b>(&self, index: usize, opening: &'b Opening, notes: &mut impl Notes) -> Fitted<'b>
    where
        'a: 'b,
    {
        let depth = opening.depth(self.side, self.thickness);
        let refusal = match self.reveal_of(opening) {
            None => Refusal::NoSuchReveal { opening: index },
            Some(_) if !is_depth(depth) => Refusal::FrameTooDeep { opening: index },
            Some(reveal) => match Hole::new(opening, reveal, depth) {
                Ok(hole) if !(opening.is_ringed() && reveal.names_sides()) => {
                    return Fitted {
                        reveal,
                        depth,
                        hole,
                    };
                }
                _ => Refusal::UnsuitedReveal { opening: index },
            },
        };
        notes.refuse(refusal);
        Fitted {
            reveal: &Reveal::BARE,
            depth: 0.0,
            hole: Hole::of_frame(opening),
        }
    }

    /// Measures openings of every kind and place, reporting what is doubtful.
    pub(super) fn measure_each(&self, openings: &[Opening], sum: &mut Sum, notes: &mut impl Notes) {
        let mut all: Vec<Placed<'_>> = Vec::with_capacity(openings.len());
        for (index, opening) in openings.iter().enumerate() {
            let fitted = self.fit(index, opening, notes);
            let start = all.len();
            self.place(index, opening, &fitted.hole, &mut all);
            let placed = all.get(start..).unwrap_or_default();
            self.report_cuts(placed, notes);
            self.measure_copies(index, opening, &fitted, placed, sum, notes);
        }
        find_overlaps(&mut all, |doubt| notes.doubt(doubt));
        let counted_twice: f64 = all.iter().filter(|p| !p.apart).map(|p| p.area).sum();
        if counted_twice > 0.0 {
            let united = self.union_area(all.iter().filter(|p| !p.apart));
            sum.total.overlap = (counted_twice - united).max(0.0);
            sum.total.openings = (sum.total.openings - sum.total.overlap).max(0.0);
        }
    }

    /// Places the copies of an opening; for tests that ask for a tier of their own as well.
    pub(super) fn place_all<'b>(
        &self,
        openings: &'b [Opening],
        notes: &mut impl Notes,
    ) -> Vec<Placed<'b>>
    where
        'a: 'b,
    {
        let mut all = Vec::with_capacity(openings.len());
        for (index, opening) in openings.iter().enumerate() {
            let fitted = self.fit(index, opening, notes);
            self.place(index, opening, &fitted.hole, &mut all);
        }
        find_overlaps(&mut all, |_| ());
        all
    }

    fn place<'b>(
        &self,
        index: usize,
        opening: &Opening,
        hole: &Hole<'b>,
        all: &mut Vec<Placed<'b>>,
    ) {
        for copy in 0..opening.count() {
            let at = [self.left_of(opening, copy), opening.sill()];
            let inside = area_inside(self.face, hole, at);
            all.push(Placed {
                copy: OpeningCopy {
                    opening: index,
                    copy,
                },
                hole: hole.clone(),
                at,
                bounds: hole.bounds().shifted(at[0], at[1]),
                area: inside.area,
                cut: inside.cut,
                apart: true,
            });
        }
    }

    /// Reports copies that the wall's own outline cuts, or that lie outside it.
    fn report_cuts(&self, placed: &[Placed<'_>], notes: &mut impl Notes) {
        if placed.iter().all(|p| p.cut.is_whole()) {
            return;
        }
        let wall = self.face.untrimmed();
        let mut cut = (None, 0);
        let mut outside = (None, 0);
        for p in placed.iter().filter(|p| !p.cut.is_whole()) {
            if self.face.contains_above_floor(&p.bounds) {
                continue;
            }
            let inside = area_inside(&wall, &p.hole, p.at);
            let (first, copies) = if inside.area <= SAME_AREA * p.hole.area() {
                &mut outside
            } else if inside.cut.is_whole() {
                continue;
            } else {
                &mut cut
            };
            first.get_or_insert(p.copy);
            *copies += 1;
        }
        if let (Some(first), copies) = outside {
            notes.refuse(Refusal::OutsideWall { first, copies });
        }
        if let (Some(first), copies) = cut {
            notes.doubt(Doubt::CutByOutline { first, copies });
        }
    }

    /// Adds the figures of an opening's copies, together when they are alike.
    fn measure_copies(
        &self,
        index: usize,
        opening: &Opening,
        fitted: &Fitted<'_>,
        placed: &[Placed<'_>],
        sum: &mut Sum,
        notes: &mut impl Notes,
    ) {
        let Fitted {
            reveal,
            depth,
            hole,
        } = fitted;
        if placed.iter().all(|p| p.cut == Cutting::Clear) {
            let mut m = measure(opening, reveal, *depth, hole, &Whole);
            m.copies = opening.count();
            sum.add(index, &m, notes);
            return;
        }
        let frame = Hole::of_frame(opening);
        for p in placed {
            let mut m = if p.cut == Cutting::Clear {
                measure(opening, reveal, *depth, hole, &Whole)
            } else if self.only_floor_cuts(p, &frame) {
                let floor = Floor(self.face.floor() - p.at[1]);
                let mut m = measure(opening, reveal, *depth, hole, &floor);
                m.cut_by_floor(hole.bounds(), floor.0);
                m
            } else {
                let cut = CutBy {
                    face: self.face,
                    at: p.at,
                };
                let mut m = measure(opening, reveal, *depth, hole, &cut);
                m.hole_area = p.area;
                m.frame_area = area_inside(self.face, &frame, p.at).area;
                m.whole = p.cut.is_whole();
                m
            };
            m.first_copy = p.copy.copy;
            sum.add(index, &m, notes);
        }
    }

    /// Whether nothing but the floor cuts a copy, and of hole and frame only what is upright.
    fn only_floor_cuts(&self, placed: &Placed<'_>, frame: &Hole<'_>) -> bool {
        let upright = match (placed.hole.head(), frame.head()) {
            (Some((hole, _)), Some((frame, _))) => {
                placed.at[1] + hole.min(frame) >= self.face.floor()
            }
            _ => placed.hole.is_rectangle(),
        };
        upright && self.face.contains_above_floor(&placed.bounds)
    }

    /// Area of the union of some holes inside the face, exactly where they are rectangles on a profile.
    fn union_area<'b>(&self, placed: impl Iterator<Item = &'b Placed<'b>> + Clone) -> f64 {
        self.slab_area(placed.clone())
            .unwrap_or_else(|| self.polygon_area(placed))
    }

    /// By the slab sweep, when every hole is a rectangle and the face a profile.
    pub(super) fn slab_area<'b>(
        &self,
        placed: impl Iterator<Item = &'b Placed<'b>>,
    ) -> Option<f64> {
        let Form::Profile { profile, .. } = self.face.form() else {
            return None;
        };
        let boxes: Option<Vec<Bounds>> = placed
            .map(|p| p.hole.is_rectangle().then_some(p.bounds))
            .collect();
        Some(union::boxes_on_profile(profile, &boxes?))
    }

    /// By the polygon engine.
    pub(super) fn polygon_area<'b>(&self, placed: impl Iterator<Item = &'b Placed<'b>>) -> f64 {
        let holes: Vec<Vec<Point>> = placed.map(|p| p.hole.ring(p.at[0], p.at[1])).collect();
        clip::common_area(&self.face.rings(), &holes)
    }
}

/// Box of an upright hole, from the lower left of its frame.
#[inline]
fn opened(width: f64, height: f64, reveal: &Reveal, depth: f64) -> Bounds {
    let jamb = depth * reveal.jambs().tan;
    Bounds {
        left: -jamb,
        right: width + jamb,
        bottom: -(depth * reveal.sill().tan),
        top: height + depth * reveal.head().tan,
    }
}

/// Whether a depth is one: a thickness that is no thickness makes depths that are none.
#[inline]
fn is_depth(depth: f64) -> bool {
    (0.0..=MAX_LENGTH).contains(&depth)
}
