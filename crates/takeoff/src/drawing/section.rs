//! A section through a wall at an opening: background, frame, reveals, rounded edges, plaster of both
//! sides, all to scale. Not here: the face, and a build-up on its own.
//!
//! Either edge of the opening is made once, in lengths of its own: `s` from the edge of the frame into
//! the wall, `d` from the face to the frame. Then it is laid where it belongs.

mod edge;

use super::number::{self, angle, length, or_nothing, thickness};
use super::opening::{Lining, Shape};
use super::{DimensionLine, Drawing, Edge, Label, Point, Role, Stand, line, outline};
use crate::form::Subject;
use crate::project::{Opening, Project, Side, Wall};
use ecow::EcoString;
use edge::{Jamb, Layers};
use hodful_quantities::print::UnitSystem;

/// Which way a section cuts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cut {
    /// Level, through the jambs, seen from above: outside at the bottom.
    Level,
    /// Upright, through sill and head: outside on the left.
    Upright,
}

/// A section through a wall at one of its openings, or through the plain wall.
///
/// Each side that is plastered shows its build-up: dubbing out on the face alone, the coats round the
/// edge to the frame where the reveal is plastered. A wall curved on plan is drawn straight. What does
/// not fit the wall (a frame deeper than it, say) is drawn as typed, as far as it goes.
///
/// A wall that is not there, or without thickness, gives a drawing of nothing.
///
/// ```
/// use hodful_takeoff::{Project, drawing::{Cut, section}};
/// # fn show(project: &Project) {
/// let jambs = section(project, 0, Some(0), Cut::Level);
/// let sill_and_head = section(project, 0, Some(0), Cut::Upright);
/// # }
/// ```
pub fn section(project: &Project, wall: usize, opening: Option<usize>, cut: Cut) -> Drawing {
    let Some(there) = project.walls.get(wall) else {
        return Drawing::default();
    };
    let deep = or_nothing(Some(&there.thickness));
    if deep <= 0.0 {
        return Drawing::nothing("the wall has no thickness");
    }
    let mut sheet = Sheet {
        drawing: Drawing::default(),
        units: project.units,
        cut,
        thickness: deep,
        wall: Subject::Wall(wall),
        faces: [Side::Outside, Side::Inside].map(|side| Layers::of(project, there, side)),
    };
    if outline::curve(there).is_some() {
        sheet.drawing.captions.push("curved, drawn straight".into());
    }
    let at = opening.and_then(|number| there.openings.get(number).map(|there| (number, there)));
    let shape = at.and_then(|(_, opening)| Shape::of(&opening.shape));
    match (at, shape) {
        (Some((number, opening)), Some(shape)) => {
            let of = Subject::Opening {
                wall,
                opening: number,
            };
            sheet.opening(there, opening, &shape, of);
        }
        _ => sheet.plain(),
    }
    sheet.finish()
}

struct Sheet {
    drawing: Drawing,
    units: UnitSystem,
    cut: Cut,
    thickness: f64,
    wall: Subject,
    faces: [Layers; 2],
}

/// Where an edge of the opening is laid: at `at`, with the wall towards more or less.
#[derive(Debug, Clone, Copy)]
struct Place {
    at: f64,
    ahead: bool,
}

impl Sheet {
    /// A point of an edge, from its own lengths on a side into the drawing.
    fn lay(&self, place: Place, side: Side, [s, d]: Point) -> Point {
        let along = if place.ahead {
            place.at + s
        } else {
            place.at - s
        };
        let across = match side {
            Side::Outside => d,
            Side::Inside => self.thickness - d,
        };
        self.point(along, across)
    }

    /// A point from along the cut and across the wall.
    fn point(&self, along: f64, across: f64) -> Point {
        match self.cut {
            Cut::Level => [along, across],
            Cut::Upright => [across, along],
        }
    }

    /// The wall without an opening.
    fn plain(&mut self) {
        let half = self.thickness;
        let whole = Jamb {
            reach: 2.0 * half,
            depth: 0.0,
            splay: 0.0,
            radius: 0.0,
            plastered: false,
        };
        let place = Place {
            at: -half,
            ahead: true,
        };
        let of = Some(self.wall);
        let [outside, inside] = [Side::Outside, Side::Inside].map(|side| {
            let path = whole.path(0.0, 0.0).into_iter();
            path.map(|p| self.lay(place, side, p)).collect::<Vec<_>>()
        });
        let mut ring = outside.clone();
        ring.extend(inside.iter().rev());
        self.drawing.fill(Role::Background, ring, of);
        let ends = outside.iter().zip(&inside);
        let ends: Vec<Vec<Point>> = ends.map(|(a, b)| vec![*a, *b]).collect();
        for end in ends {
            self.drawing.stroke(Role::Break, end, false, of);
        }
        for line in [outside, inside] {
            self.drawing.stroke(Role::Outline, line, false, of);
        }
        let faces = self.faces.clone();
        for (side, layers) in [Side::Outside, Side::Inside].into_iter().zip(&faces) {
            self.plaster(place, side, whole, layers);
        }
        self.across([-half, half], None);
    }

    fn opening(&mut self, wall: &Wall, opening: &Opening, shape: &Shape, of: Subject) {
        let linings = [Side::Outside, Side::Inside].map(|side| Lining::of(wall, opening, side));
        let ringed = matches!(shape, Shape::Circle { .. } | Shape::Polygon { .. });
        // Parts in the order of a lining: jambs, head, sill, ring.
        let (parts, [low, high]) = match self.cut {
            Cut::Level => ([0, 0], level_ends(opening, shape)),
            Cut::Upright => ([2, 1], upright_ends(opening, shape)),
        };
        let parts = if ringed { [3, 3] } else { parts };
        let jambs = parts.map(|part| {
            linings.map(|lining| {
                let jamb = Jamb {
                    reach: 0.0,
                    depth: lining.depth,
                    splay: lining.splay.get(part).copied().unwrap_or_default(),
                    radius: lining.radius,
                    plastered: lining.plastered.get(part) == Some(&true),
                };
                (jamb, jamb.opened() + jamb.strip())
            })
        });
        // Past the widest rounded edge by most of the thickness: enough to see what the wall is.
        let widest = jambs
            .iter()
            .flatten()
            .fold(0.0, |widest: f64, (_, w)| widest.max(*w));
        let reach = widest + self.thickness * 0.75;
        let sides = jambs.map(|pair| pair.map(|(jamb, _)| Jamb { reach, ..jamb }));
        let [lower, upper] = sides;
        self.body(
            Place {
                at: low,
                ahead: false,
            },
            lower,
        );
        self.body(
            Place {
                at: high,
                ahead: true,
            },
            upper,
        );
        let outside = linings.first().map_or(0.0, |lining| lining.depth);
        if let Some(frame) = opening.frame.as_deref() {
            let inner = outside + or_nothing(Some(&frame.depth));
            let ring = vec![
                self.point(low, outside),
                self.point(high, outside),
                self.point(high, inner),
                self.point(low, inner),
            ];
            self.drawing.fill(Role::Frame, ring.clone(), Some(of));
            self.drawing.stroke(Role::Frame, ring, true, Some(of));
            self.depths([0.0, outside, inner, self.thickness], of);
        }
        self.widths([low, high], sides, of);
        self.angles([low, high], sides, of);
        let at = self.point(f64::midpoint(low, high), self.thickness * 0.5);
        self.label(at, opening.id.clone(), 70, Some(of), true);
        self.across([low - reach, high + reach], Some(of));
    }

    /// The wall on one side of the opening: background, plaster of both faces.
    fn body(&mut self, place: Place, [outside, inside]: [Jamb; 2]) {
        let sides = [(Side::Outside, outside), (Side::Inside, inside)];
        let mut ring = Vec::new();
        for (side, jamb) in sides {
            let path = jamb.path(0.0, 0.0).into_iter();
            let path: Vec<Point> = path.map(|p| self.lay(place, side, p)).collect();
            match side {
                Side::Outside => ring.extend(path),
                Side::Inside => ring.extend(path.into_iter().rev()),
            }
        }
        self.drawing
            .fill(Role::Background, ring.clone(), Some(self.wall));
        for ((side, jamb), layers) in sides.into_iter().zip(self.faces.clone()) {
            self.plaster(place, side, jamb, &layers);
        }
        let of = Some(self.wall);
        // The wall goes on where it is cut off.
        if let (Some(first), Some(last)) = (ring.first(), ring.last()) {
            let line = vec![*first, *last];
            self.drawing.stroke(Role::Break, line, false, of);
        }
        self.drawing.stroke(Role::Outline, ring, false, of);
    }

    fn plaster(&mut self, place: Place, side: Side, jamb: Jamb, layers: &Layers) {
        let lay = |sheet: &Self, path: Vec<Point>| -> Vec<Point> {
            path.into_iter()
                .map(|p| sheet.lay(place, side, p))
                .collect()
        };
        let mut finished = None;
        for layer in layers.each() {
            let [under, over] = [0, 1].map(|i| {
                let [on_face, in_reveal] = [layer.on_face, layer.in_reveal]
                    .map(|ends: [f64; 2]| if i == 0 { ends[0] } else { ends[1] });
                lay(self, jamb.path(on_face, in_reveal))
            });
            let mut ring = under;
            ring.extend(over.iter().rev());
            self.drawing.fill(layer.role, ring, layer.of);
            finished = Some(over);
        }
        if let Some(line) = finished.filter(|_| layers.total() > 0.0) {
            self.drawing
                .stroke(Role::Plaster, line, false, Some(self.wall));
        }
    }

    /// Words for the two sides and the thickness of the wall; `ends` along the cut.
    fn across(&mut self, [low, high]: [f64; 2], of: Option<Subject>) {
        let room = self.thickness * 0.3;
        let middle = f64::midpoint(low, high);
        let [outside, inside] = self.faces.clone().map(|layers| layers.total());
        let out = self.point(middle, -outside - room);
        let inn = self.point(middle, self.thickness + inside + room);
        self.label(out, "outside".into(), 85, None, false);
        self.label(inn, "inside".into(), 84, None, false);
        let (edge, row) = match self.cut {
            Cut::Level => (Edge::Left, 0),
            Cut::Upright => (Edge::Below, 1),
        };
        let ends = [self.point(low, 0.0), self.point(low, self.thickness)];
        self.figure("thickness", ends, (edge, row), 90, self.wall);
        let (edge, plaster) = match self.cut {
            Cut::Level => (Edge::Left, 1),
            Cut::Upright => (Edge::Below, 2),
        };
        if of.is_none() {
            for (name, from, to) in [
                ("plaster outside", -outside, 0.0),
                ("plaster inside", self.thickness, self.thickness + inside),
            ] {
                let ends = [self.point(low, from), self.point(low, to)];
                self.figure(name, ends, (edge, plaster), 60, self.wall);
            }
        }
        // Room for the words.
        let corners = [
            self.point(low, -outside - 2.0 * room),
            self.point(high, self.thickness + inside + 2.0 * room),
        ];
        self.drawing.bounds = line::bounds(&corners);
    }

    /// Depths of the reveals and of the frame, across the wall.
    fn depths(&mut self, [face, frame, back, room]: [f64; 4], of: Subject) {
        let place = match self.cut {
            Cut::Level => (Edge::Right, 0),
            Cut::Upright => (Edge::Below, 0),
        };
        for (name, from, to, weight) in [
            ("reveal outside", face, frame, 76),
            ("frame depth", frame, back, 74),
            ("reveal inside", back, room, 78),
        ] {
            let ends = [self.point(0.0, from), self.point(0.0, to)];
            self.figure(name, ends, place, weight, of);
        }
    }

    /// The size of the frame, and of the hole in each face that is larger.
    fn widths(&mut self, [low, high]: [f64; 2], [lower, upper]: [[Jamb; 2]; 2], of: Subject) {
        let (name, near, far) = match self.cut {
            Cut::Level => ("width", (Edge::Below, 0), (Edge::Above, 0)),
            Cut::Upright => ("height", (Edge::Left, 0), (Edge::Right, 0)),
        };
        let ends = [self.point(low, 0.0), self.point(high, 0.0)];
        self.along(name, ends, near, 88, of);
        for (i, name) in [(0, "hole outside"), (1, "hole inside")] {
            let (Some(under), Some(over)) = (lower.get(i), upper.get(i)) else {
                continue;
            };
            let (under, over) = (under.opened(), over.opened());
            if under > 0.0 || over > 0.0 {
                let ends = [self.point(low - under, 0.0), self.point(high + over, 0.0)];
                let place = if i == 0 { (near.0, 1) } else { far };
                self.along(name, ends, place, 50, of);
            }
        }
    }

    /// The splay of each reveal that has one, and the radius of each rounded edge, within the opening;
    /// of two edges alike, once.
    fn angles(&mut self, [low, high]: [f64; 2], [lower, upper]: [[Jamb; 2]; 2], of: Subject) {
        let sides = [Side::Outside, Side::Inside];
        for ((side, under), over) in sides.into_iter().zip(lower).zip(upper) {
            let place = |at, ahead| Place { at, ahead };
            let differs = |a: f64, b: f64| (a - b).abs() > 0.0;
            self.splay(place(low, false), side, under, of);
            if differs(under.splay, over.splay) {
                self.splay(place(high, true), side, over, of);
            }
            self.radius(place(low, false), side, under, of);
            if differs(under.radius, over.radius) || under.plastered != over.plastered {
                self.radius(place(high, true), side, over, of);
            }
        }
    }

    fn splay(&mut self, place: Place, side: Side, jamb: Jamb, of: Subject) {
        if jamb.splay > 0.0 && jamb.depth > 0.0 {
            let at = self.lay(place, side, [-jamb.depth * 0.4, jamb.depth * 0.5]);
            let text = angle(jamb.splay, self.units);
            self.label(at, text, 66, Some(of), false);
        }
    }

    fn radius(&mut self, place: Place, side: Side, jamb: Jamb, of: Subject) {
        if jamb.plastered && jamb.strip() > 0.0 {
            let lift = -self.thickness * 0.12;
            let at = self.lay(place, side, [jamb.opened() + jamb.strip(), lift]);
            let text = ecow::eco_format!("r {}", thickness(jamb.radius, self.units));
            self.label(at, text, 34, Some(of), false);
        }
    }

    fn label(&mut self, at: Point, text: EcoString, weight: u8, of: Option<Subject>, names: bool) {
        self.drawing.labels.push(Label {
            at,
            text,
            stand: Stand::At,
            weight,
            of,
            names,
            only_marked: false,
        });
    }

    /// A figure across the wall, as a thickness.
    fn figure(
        &mut self,
        name: &'static str,
        ends: [Point; 2],
        place: (Edge, u8),
        weight: u8,
        of: Subject,
    ) {
        self.dimension(name, ends, place, weight, of, thickness);
    }

    /// A figure along the cut, as a length.
    fn along(
        &mut self,
        name: &'static str,
        ends: [Point; 2],
        place: (Edge, u8),
        weight: u8,
        of: Subject,
    ) {
        self.dimension(name, ends, place, weight, of, length);
    }

    fn dimension(
        &mut self,
        name: &'static str,
        [from, to]: [Point; 2],
        (edge, row): (Edge, u8),
        weight: u8,
        of: Subject,
        print: fn(f64, UnitSystem) -> EcoString,
    ) {
        let size = if edge.is_level() {
            to[0] - from[0]
        } else {
            to[1] - from[1]
        };
        if size.abs() > 0.0 {
            self.drawing.dimensions.push(DimensionLine {
                name,
                from,
                to,
                edge,
                row,
                text: print(size, self.units),
                weight,
                of: Some(of),
                only_chosen: false,
            });
        }
    }

    fn finish(mut self) -> Drawing {
        let extent = self.drawing.extent();
        self.drawing.bounds = match (self.drawing.bounds, extent) {
            (Some([l, b, r, t]), Some([left, bottom, right, top])) => {
                Some([l.min(left), b.min(bottom), r.max(right), t.max(top)])
            }
            (_, extent) => extent,
        };
        self.drawing
    }
}

/// The edges of a frame along the wall, mm from its left end; at the left end when its place is no number.
fn level_ends(opening: &Opening, shape: &Shape) -> [f64; 2] {
    let [left, _, right, _] = shape.bounds();
    let at = number::mm(&opening.from_left).unwrap_or_default();
    [at, at + (right - left)]
}

/// The underside and the top of a frame, mm above the bottom of the wall.
fn upright_ends(opening: &Opening, shape: &Shape) -> [f64; 2] {
    let [_, bottom, _, top] = shape.bounds();
    let at = number::mm(&opening.sill).unwrap_or_default();
    [at, at + (top - bottom)]
}
