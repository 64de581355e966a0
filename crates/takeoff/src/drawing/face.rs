//! A face of a wall, as seen by whoever stands before it. Not here: sections.

use super::limits::{MOST_COPIES, MOST_TURN};
use super::line;
use super::number::{self, length, or_nothing, size};
use super::opening::{Lines, Lining, Shape, left_of};
use super::outline::{self, Outline};
use super::{DimensionLine, Drawing, Edge, Label, Point, Role, Stand, shown};
use crate::form::Subject;
use crate::project::{CornerAngle, End, Project, Side, Wall, WallEnd, WallShape};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;

/// A face of a wall: its outline, its openings with all their copies, and what is plastered of them.
///
/// The inside is drawn as seen from inside, which is the mirror image of the wall's own numbers, and
/// says so. A wall curved on plan is drawn developed. Pockets, which have no place, stand side by side
/// along the base. The figures of an opening ("from left", "width", "sill", "height") are marked to be
/// shown only while it is chosen.
///
/// A wall that is not there gives an empty drawing; numbers that make no line are left out.
///
/// ```
/// use hodful_takeoff::{Project, Side, drawing};
/// # fn show(project: &Project) {
/// let south = drawing::face(project, 0, Side::Outside);
/// if let Some([left, bottom, right, top]) = south.bounds {
///     println!("{} mm wide, {} mm high", right - left, top - bottom);
/// }
/// # }
/// ```
pub fn face(project: &Project, wall: usize, side: Side) -> Drawing {
    let Some(there) = project.walls.get(wall) else {
        return Drawing::default();
    };
    let mut sheet = Sheet {
        drawing: Drawing::default(),
        wall: there,
        side,
        units: project.units,
        subject: Subject::Wall(wall),
    };
    sheet.captions();
    let outline = outline::of_wall(there, side);
    let ring = outline.as_ref().map_or(&[][..], |outline| &outline.ring);
    let plastered = sheet.plastered(ring);
    let standing = plastered.as_deref().unwrap_or(ring);
    if let Some(face) = there.face(side) {
        for end in there.ends.iter().filter(|end| end.face == side) {
            sheet.corner(end, standing);
        }
        if face.inset.is_some() {
            sheet.plastered_length(ring, standing);
        }
    }
    sheet.pockets(wall, standing);
    let scale = outline.as_ref().map_or(1.0, |outline| outline.scale);
    if scale.is_finite() && scale > 0.0 {
        sheet.drawing.along.scale = scale;
    }
    for number in 0..there.openings.len() {
        sheet.opening(wall, number, scale);
    }
    sheet.finish(outline)
}

/// A face being drawn.
struct Sheet<'a> {
    drawing: Drawing,
    wall: &'a Wall,
    side: Side,
    units: UnitSystem,
    subject: Subject,
}

impl Sheet<'_> {
    fn captions(&mut self) {
        if self.side == Side::Inside {
            self.drawing.captions.push("seen from inside".into());
        }
        if self.wall.face(self.side).is_none() {
            self.drawing.captions.push("not plastered".into());
        }
        if let WallShape::Curved { radius, .. } = &self.wall.shape {
            let radius = number::mm(radius).unwrap_or_default();
            let radius = match self.side {
                Side::Outside => radius,
                Side::Inside => radius - or_nothing(Some(&self.wall.thickness)),
            };
            self.drawing.captions.push(eco_format!(
                "curved, radius {}, drawn flat",
                length(radius, self.units)
            ));
        }
    }

    /// The outline after insets, when there are any.
    fn plastered(&mut self, ring: &[Point]) -> Option<Vec<Point>> {
        let inset = self.wall.face(self.side)?.inset.as_deref()?;
        let plastered = outline::inset(ring, inset);
        if plastered.is_empty() {
            self.drawing
                .captions
                .push("the insets leave nothing".into());
            return None;
        }
        self.drawing
            .stroke(Role::Plaster, plastered.clone(), true, Some(self.subject));
        Some(plastered)
    }

    /// The line at which a rounded corner or a cove begins on the face.
    fn corner(&mut self, end: &WallEnd, ring: &[Point]) {
        let radius = match end.angle {
            CornerAngle::External => or_nothing(end.radius.as_ref()),
            CornerAngle::Internal => or_nothing(end.cove.as_ref()),
        };
        let turn = match &end.turn {
            Some(turn) => turn.value().value,
            None => core::f64::consts::FRAC_PI_2,
        };
        let (Some([left, _, right, _]), true) = (line::bounds(ring), turn > 0.0) else {
            return;
        };
        let strip = radius * libm::tan(turn.min(MOST_TURN) / 2.0);
        let at = match end.end {
            End::Left => left + strip,
            End::Right => right - strip,
        };
        if strip > 0.0 && at > left && at < right {
            for line in line::upright_in(ring, at) {
                let of = Some(self.subject);
                self.drawing.stroke(Role::Rounded, line.to_vec(), false, of);
            }
        }
    }

    /// The length of the plaster where it is another than that of the wall.
    fn plastered_length(&mut self, wall: &[Point], plaster: &[Point]) {
        let (Some(whole), Some([left, bottom, right, _])) =
            (line::bounds(wall), line::bounds(plaster))
        else {
            return;
        };
        if whole[0] < left || right < whole[2] {
            self.figure(
                "plastered length",
                [[left, bottom], [right, bottom]],
                (Edge::Above, 1),
                40,
                None,
            );
        }
    }

    /// Pockets side by side along the base.
    fn pockets(&mut self, wall: usize, ring: &[Point]) {
        let Some([left, bottom, right, _]) = line::bounds(ring) else {
            return;
        };
        let mut at = left;
        for (i, pocket) in self.wall.pockets.iter().enumerate() {
            let (Some(width), Some(height)) = (size(&pocket.width), size(&pocket.height)) else {
                continue;
            };
            if pocket.face != self.side {
                continue;
            }
            let of = Subject::Pocket { wall, pocket: i };
            let gap = width / 2.0;
            for copy in 0..pocket.count.unwrap_or(1).min(MOST_COPIES) {
                at += gap;
                if at + width > right {
                    break;
                }
                let frame = [at, bottom, at + width, bottom + height];
                self.drawing
                    .stroke(Role::Pocket, corners(frame), true, Some(of));
                if copy == 0 {
                    self.drawing.labels.push(Label {
                        at: middle(frame),
                        text: "pocket".into(),
                        stand: Stand::In(frame),
                        weight: 20,
                        of: Some(of),
                        names: true,
                        only_marked: false,
                    });
                }
                at += width;
            }
        }
        if at > left {
            self.drawing
                .captions
                .push("pockets drawn along the base, wherever they stand".into());
        }
    }

    fn opening(&mut self, wall: usize, number: usize, scale: f64) {
        let Some(opening) = self.wall.openings.get(number) else {
            return;
        };
        let of = Subject::Opening {
            wall,
            opening: number,
        };
        let sill = number::mm(&opening.sill).unwrap_or_default();
        let Some(shape) = Shape::of(&opening.shape) else {
            // Nothing to be drawn, but it is named where it would stand.
            let left = number::mm(&opening.from_left).unwrap_or_default();
            self.name([left, sill, left, sill], &opening.id, of, true);
            return;
        };
        let lines = Lines::of(&shape, &Lining::of(self.wall, opening, self.side));
        let [l, b, r, t] = shape.bounds();
        let half = (r - l) / 2.0;
        let copies = opening.count.unwrap_or(1);
        for copy in 0..copies.min(MOST_COPIES) {
            let Some(left) = left_of(opening, copy, half, scale) else {
                break;
            };
            let by = [left - l, sill - b];
            self.lines(&lines, by, of);
            let frame = [left, sill, left + (r - l), sill + (t - b)];
            self.name(frame, &opening.id, of, copy == 0);
            if copy == 0 {
                self.opening_figures(opening, frame, scale, of);
            }
        }
        if copies > MOST_COPIES {
            self.drawing.captions.push(eco_format!(
                "{}: {MOST_COPIES} of {copies} drawn",
                opening.id
            ));
        }
    }

    fn lines(&mut self, lines: &Lines, by: [f64; 2], of: Subject) {
        let moved = |points: &[Point]| -> Vec<Point> {
            points
                .iter()
                .map(|p| [p[0] + by[0], p[1] + by[1]])
                .collect()
        };
        let of = Some(of);
        let drawing = &mut self.drawing;
        for (role, some) in [(Role::Lath, &lines.lath), (Role::Rounded, &lines.rounded)] {
            for (line, closed) in some {
                drawing.stroke(role, moved(line), *closed, of);
            }
        }
        for fold in &lines.folds {
            drawing.stroke(Role::RevealSurface, moved(fold), false, of);
        }
        if let Some(hole) = &lines.hole {
            drawing.stroke(Role::Hole, moved(hole), true, of);
        }
        drawing.stroke(Role::Frame, moved(&lines.frame), true, of);
    }

    fn name(&mut self, frame: [f64; 4], id: &EcoString, of: Subject, first: bool) {
        self.drawing.labels.push(Label {
            at: middle(frame),
            text: id.clone(),
            stand: Stand::In(frame),
            weight: if first { 70 } else { 50 },
            of: Some(of),
            names: first,
            only_marked: false,
        });
    }

    fn opening_figures(
        &mut self,
        opening: &crate::project::Opening,
        [left, bottom, right, top]: [f64; 4],
        scale: f64,
        of: Subject,
    ) {
        let of = Some(of);
        let chain = (Edge::Below, 0);
        let up = (Edge::Right, 0);
        self.figure("from left", [[0.0, bottom], [left, bottom]], chain, 98, of);
        self.figure("width", [[left, bottom], [right, bottom]], chain, 100, of);
        self.figure("sill", [[right, 0.0], [right, bottom]], up, 97, of);
        self.figure("height", [[right, bottom], [right, top]], up, 99, of);
        if opening.count.unwrap_or(1) > 1
            && let Some(second) = left_of(opening, 1, (right - left) / 2.0, scale)
        {
            let over = (Edge::Above, 0);
            self.figure("spacing", [[left, top], [second, top]], over, 60, of);
        }
    }

    /// A figure; what belongs to something smaller than the wall is shown only while that is chosen.
    fn figure(
        &mut self,
        name: &'static str,
        [from, to]: [Point; 2],
        (edge, row): (Edge, u8),
        weight: u8,
        of: Option<Subject>,
    ) {
        let axis = usize::from(!edge.is_level());
        let size = match (from.get(axis), to.get(axis)) {
            (Some(from), Some(to)) => to - from,
            _ => return,
        };
        if size.abs() > 0.0 {
            self.drawing.dimensions.push(DimensionLine {
                name,
                from,
                to,
                edge,
                row,
                text: length(size, self.units),
                weight,
                of: of.or(Some(self.subject)),
                only_chosen: of.is_some(),
            });
        }
    }

    /// The heights at the ends and the overall length.
    fn wall_figures(&mut self, [left, bottom, right, top]: [f64; 4]) {
        let upright = |v: f64| [[left, bottom], [left, v]];
        let (near, far) = ((Edge::Left, 0), (Edge::Right, 1));
        match &self.wall.shape {
            WallShape::Gable { eaves, .. } => {
                let eaves = number::mm(eaves).unwrap_or_default();
                self.figure("eaves", upright(eaves), near, 80, None);
                self.figure("ridge", upright(top), far, 78, None);
            }
            WallShape::Raked {
                left: low,
                right: high,
                ..
            } => {
                let [low, high] = [low, high].map(|t| number::mm(t).unwrap_or_default());
                self.figure("left height", upright(low), near, 80, None);
                self.figure("right height", upright(high), far, 78, None);
            }
            _ => self.figure("height", upright(top), near, 80, None),
        }
        let along = [[left, bottom], [right, bottom]];
        self.figure("length", along, (Edge::Below, 1), 90, None);
    }

    fn finish(mut self, outline: Option<Outline>) -> Drawing {
        let of = Some(self.subject);
        let main = outline
            .as_ref()
            .and_then(|outline| line::bounds(&outline.ring));
        if let (Some(outline), Some(main)) = (outline, main) {
            self.wall_figures(main);
            self.drawing.labels.push(Label {
                at: upper_left(&outline.ring),
                text: self.wall.id.clone(),
                stand: Stand::At,
                weight: 10,
                of,
                names: true,
                only_marked: true,
            });
            self.drawing.stroke(Role::Outline, outline.ring, true, of);
        } else {
            let reason = "the sizes of the wall make no outline".into();
            self.drawing.captions.insert(0, reason);
        }
        let all = self.drawing.extent();
        self.drawing.bounds = match (main, all) {
            (Some(main), Some(all)) => Some(shown(main, all)),
            (_, all) => all,
        };
        if self.side == Side::Inside
            && let Some([left, _, right, _]) = main.or(all)
        {
            self.drawing.mirror([left, right]);
            self.drawing.along.mirrored = Some([left, right]);
        }
        self.drawing
    }
}

/// The corner of a ring that lies furthest to the upper left.
fn upper_left(ring: &[Point]) -> Point {
    let rank = |p: &Point| p[1] - p[0];
    let corners = ring.iter().copied();
    corners
        .max_by(|a, b| rank(a).total_cmp(&rank(b)))
        .unwrap_or_default()
}

fn corners([left, bottom, right, top]: [f64; 4]) -> Vec<Point> {
    vec![[left, bottom], [right, bottom], [right, top], [left, top]]
}

fn middle([left, bottom, right, top]: [f64; 4]) -> Point {
    [f64::midpoint(left, right), f64::midpoint(bottom, top)]
}
