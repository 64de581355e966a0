//! Trees of openings on a face: holes, reveals, edges. Not here: the face as a whole, its corners, and
//! what is measured for payment.

use super::corners::{Corner, corners, is_external};
use super::faces::Face;
use super::{times, typed};
use crate::check::walls::wall_place;
use crate::doubts::part_word;
use crate::figure::{Dimension, Formula, Node};
use crate::problem::Place;
use crate::project::{Opening, OpeningShape, Reveal, RevealPart, Side};
use crate::tolerance::FORMULA_HOLDS;
use ecow::eco_format;
use hodful_geometry::{Angle, Doubt, EndMeasure, Notes, OpeningMeasure, PartMeasure, Refusal};
use hodful_quantities::Typed;
use hodful_quantities::units::Length;
use std::f64::consts::FRAC_PI_2 as RIGHT_ANGLE;

/// Everything the measuring of a face had to say.
#[derive(Debug, Default)]
pub(super) struct Heard {
    openings: Vec<(usize, OpeningMeasure)>,
    pub(super) ends: Vec<EndMeasure>,
}

impl Notes for Heard {
    fn doubt(&mut self, _: Doubt) {}

    fn refuse(&mut self, _: Refusal) {}

    fn opening(&mut self, index: usize, measure: &OpeningMeasure) {
        self.openings.push((index, *measure));
    }

    fn end(&mut self, _: usize, measure: &EndMeasure) {
        self.ends.push(*measure);
    }
}

/// Behind the areas of arched heads.
const ARCHES: &str = "segment: r = (s² + 4h²)/8h (The Building Trades Pocketbook, mensuration), area r²(θ − sin θ)/2; half an ellipse πab/2";

/// Whether a short formula comes to the figure.
fn same(short: f64, figure: f64) -> bool {
    (short - figure).abs() <= FORMULA_HOLDS * figure.abs()
}

/// One opening of a face with its figures.
pub(super) struct Heeded<'a> {
    pub(super) face: &'a Face<'a>,
    pub(super) opening: &'a Opening,
    pub(super) index: usize,
    pub(super) measure: &'a OpeningMeasure,
    pub(super) place: Place,
}

pub(super) fn heeded<'a>(face: &'a Face<'a>) -> impl Iterator<Item = Heeded<'a>> {
    face.heard.openings.iter().filter_map(|(index, measure)| {
        let opening = face.wall.openings.get(*index)?;
        let place = wall_place(face.wall).thing("opening", opening.id.clone());
        Some(Heeded {
            face,
            opening,
            index: *index,
            measure,
            place,
        })
    })
}

/// A figure of a face as the sum of what the parts of its openings and its corners bring.
struct Summed<'a> {
    label: ecow::EcoString,
    dimension: Dimension,
    value: f64,
    of_opening: &'a dyn Fn(&OpeningMeasure) -> f64,
    of_part: &'a dyn Fn(&Heeded<'_>, &PartMeasure) -> Node,
    of_end: &'a dyn Fn(&Corner<'_>) -> Option<Node>,
}

/// The tree of such a sum; nothing is left out but zeros.
fn summed(face: &Face<'_>, of: &Summed<'_>) -> Node {
    let some = |node: &Node| node.figure.value != 0.0;
    let openings = heeded(face).map(|o| {
        let parts = o
            .measure
            .parts()
            .map(|part| (of.of_part)(&o, part))
            .filter(some)
            .collect();
        let value = (of.of_opening)(o.measure);
        let one = Node::sum(o.opening.id.clone(), of.dimension, value, parts).at(o.place.clone());
        times(o.measure.copies, one)
    });
    let ends = corners(face).filter_map(|corner| (of.of_end)(&corner));
    Node::sum(
        of.label.clone(),
        of.dimension,
        of.value,
        openings.chain(ends).filter(some).collect(),
    )
}

/// The length of all edges.
pub(super) fn edge_length(face: &Face<'_>) -> Node {
    summed(
        face,
        &Summed {
            label: face.called("length of edges"),
            dimension: Dimension::Length,
            value: face.figures.measure.edge_length,
            of_opening: &|o| o.edge_length,
            of_part: &|o, part| o.arris(part),
            of_end: &|c| is_external(c.measure).then(|| c.length()),
        },
    )
}

/// The strips of lath.
pub(super) fn lath(face: &Face<'_>) -> Node {
    summed(
        face,
        &Summed {
            label: face.called("lath"),
            dimension: Dimension::Area,
            value: face.figures.measure.lath,
            of_opening: &|o| o.lath,
            of_part: &|o, part| {
                let width = o.of_reveal("lath", |r| r.lath.as_ref());
                let value = part.face_line * width.figure.value;
                let terms = vec![o.arris(part), width];
                Node::new(
                    "lath",
                    Dimension::Area,
                    value,
                    Formula::Of("#0 × #1"),
                    terms,
                )
            },
            of_end: &|_| None,
        },
    )
}

/// The growth of the surface with the offset, without the curve of the wall.
pub(super) fn growth(face: &Face<'_>) -> Node {
    summed(
        face,
        &Summed {
            label: face.called("what edges and corners gain as plaster builds out"),
            dimension: Dimension::Length,
            value: face.figures.measure.growth,
            of_opening: &|o| o.growth,
            of_part: &|o, part| {
                let arris = o.arris(part);
                let turn = o.turn(part);
                let formula = if part.arc_area > 0.0 {
                    "#0 × #1 × π ÷ 180°"
                } else {
                    "2 × #0 × tan(#1 ÷ 2)"
                };
                let edge = Node::new(
                    "edge",
                    Dimension::Length,
                    part.edge_growth,
                    Formula::Of(formula),
                    vec![arris, turn],
                );
                let inside = Node::given(
                    "internal angles and bends inside the reveal",
                    Dimension::Length,
                    part.inside_growth,
                );
                Node::sum(
                    part_word(part.part),
                    Dimension::Length,
                    part.edge_growth + part.inside_growth,
                    [edge, inside]
                        .into_iter()
                        .filter(|n| n.figure.value != 0.0)
                        .collect(),
                )
            },
            of_end: &|c| {
                let formula = match c.measure.angle {
                    Angle::External { radius } if radius > 0.0 => "#0 × #1 × π ÷ 180°",
                    Angle::External { .. } => "2 × #0 × tan(#1 ÷ 2)",
                    Angle::Internal { .. } => "−2 × #0 × tan(#1 ÷ 2)",
                };
                Some(Node::new(
                    c.name(),
                    Dimension::Length,
                    c.measure.growth,
                    Formula::Of(formula),
                    vec![c.length(), c.turn()],
                ))
            },
        },
    )
}

/// The volume that coves add.
pub(super) fn coves(face: &Face<'_>) -> Node {
    summed(
        face,
        &Summed {
            label: face.called("coves"),
            dimension: Dimension::Volume,
            value: face.figures.measure.coves,
            of_opening: &|_| 0.0,
            of_part: &|_, _| Node::given("no cove", Dimension::Volume, 0.0),
            of_end: &|c| {
                Some(Node::new(
                    c.name(),
                    Dimension::Volume,
                    c.measure.cove_volume,
                    Formula::Of("#0 × #1 × #1 × (tan(#2 ÷ 2) − #2 ÷ 2 × π ÷ 180°)"),
                    vec![c.length(), c.radius(), c.turn()],
                ))
            },
        },
    )
    .with_source("length × radius² × (tan(turn/2) − turn/2), added once to the first coat")
}

/// The holes in the face.
pub(super) fn holes(face: &Face<'_>) -> Node {
    let m = &face.figures.measure;
    let mut terms: Vec<Node> = heeded(face)
        .map(|o| times(o.measure.copies, o.hole()))
        .filter(|node| node.figure.value != 0.0)
        .collect();
    let counted_twice = terms.iter().map(|t| t.figure.value).sum::<f64>() - m.openings;
    if counted_twice > FORMULA_HOLDS * m.openings {
        terms.push(Node::given(
            "overlaps, which would be counted twice",
            Dimension::Area,
            -counted_twice,
        ));
    }
    Node::sum(
        "openings: the holes in the face",
        Dimension::Area,
        m.openings,
        terms,
    )
    .with_path(face.path("openings"))
}

/// The strips that rounded edges take from the face.
pub(super) fn strips(face: &Face<'_>) -> Node {
    summed(
        face,
        &Summed {
            label: "strips the rounded edges take from the face".into(),
            dimension: Dimension::Area,
            value: face.figures.measure.strips,
            of_opening: &|o| o.strips,
            of_part: &|o, part| o.strip(part),
            of_end: &|c| {
                Some(Node::new(
                    c.name(),
                    Dimension::Area,
                    c.measure.strip_area,
                    Formula::Of("2 × #0 × tan(#1 ÷ 2) × #2"),
                    vec![c.radius(), c.turn(), c.length()],
                ))
            },
        },
    )
}

/// The plastered reveals.
pub(super) fn reveals(face: &Face<'_>) -> Node {
    let terms = heeded(face)
        .map(|o| {
            let parts = o.measure.parts().map(|part| o.reveal(part)).collect();
            let one = Node::sum(
                eco_format!("{} reveals", o.opening.id),
                Dimension::Area,
                o.measure.reveals,
                parts,
            )
            .at(o.place.clone());
            times(o.measure.copies, one)
        })
        .filter(|node| node.figure.value != 0.0)
        .collect();
    Node::sum(
        "reveals",
        Dimension::Area,
        face.figures.measure.reveals,
        terms,
    )
    .with_path(face.path("reveals"))
}

/// The rounded edges.
pub(super) fn edges(face: &Face<'_>) -> Node {
    summed(
        face,
        &Summed {
            label: "rounded edges".into(),
            dimension: Dimension::Area,
            value: face.figures.measure.edges,
            of_opening: &|o| o.edges,
            of_part: &|o, part| o.edge(part),
            of_end: &|c| {
                Some(Node::new(
                    c.name(),
                    Dimension::Area,
                    c.measure.arc_area,
                    Formula::Of("#0 × #1 × #2 × π ÷ 180°"),
                    vec![c.length(), c.radius(), c.turn()],
                ))
            },
        },
    )
    .with_path(face.path("edges"))
}

impl Heeded<'_> {
    fn leaf(&self, label: &str, typed_as: &Typed<Length>, field: &str) -> Node {
        typed(
            label,
            Dimension::Length,
            typed_as.value().value,
            typed_as,
            &self.place.field(field),
        )
    }

    /// Every typed dimension of the opening's shape.
    pub(super) fn inputs(&self) -> Vec<Node> {
        match &self.opening.shape {
            OpeningShape::Rectangle { width, height } => {
                vec![
                    self.leaf("width", width, "width"),
                    self.leaf("height", height, "height"),
                ]
            }
            OpeningShape::Arched {
                width,
                springing,
                rise,
                ..
            } => {
                let mut inputs = vec![
                    self.leaf("width", width, "width"),
                    self.leaf("height of the springing", springing, "springing"),
                ];
                inputs.extend(rise.as_ref().map(|rise| self.leaf("rise", rise, "rise")));
                inputs
            }
            OpeningShape::Circle { diameter } => vec![self.leaf("diameter", diameter, "diameter")],
            OpeningShape::Polygon { corners } => corners
                .iter()
                .enumerate()
                .flat_map(|(i, [u, v])| {
                    [
                        self.leaf(&eco_format!("corner {} from the left", i + 1), u, "corners"),
                        self.leaf(&eco_format!("corner {} up", i + 1), v, "corners"),
                    ]
                })
                .collect(),
        }
    }

    /// The hole in the face.
    fn hole(&self) -> Node {
        let m = self.measure;
        let whole = if m.whole {
            ""
        } else {
            ", as much as lies on the face"
        };
        let label = eco_format!("{} hole{whole}", self.opening.id);
        let boxed = m.hole_width * m.hole_height;
        let round = std::f64::consts::PI * m.hole_width * m.hole_width / 4.0;
        let node = match &self.opening.shape {
            OpeningShape::Rectangle { width, height } if same(boxed, m.hole_area) => {
                let width = self.leaf("width", width, "width");
                let height = self.leaf("height", height, "height");
                let terms = vec![
                    self.widened(
                        "width of the hole",
                        m.hole_width,
                        width,
                        [RevealPart::Jambs; 2],
                    ),
                    self.widened(
                        "height of the hole",
                        m.hole_height,
                        height,
                        [RevealPart::Head, RevealPart::Sill],
                    ),
                ];
                Node::new(
                    label,
                    Dimension::Area,
                    m.hole_area,
                    Formula::Of("#0 × #1"),
                    terms,
                )
            }
            OpeningShape::Circle { diameter } if same(round, m.hole_area) => {
                let across = self.leaf("diameter", diameter, "diameter");
                let across = self.widened(
                    "diameter of the hole",
                    m.hole_width,
                    across,
                    [RevealPart::Ring; 2],
                );
                let formula = Formula::Of("π × #0 × #0 ÷ 4");
                Node::new(label, Dimension::Area, m.hole_area, formula, vec![across])
            }
            shape => {
                let mut inputs = self.inputs();
                inputs.extend(self.splays().map(|(_, node)| node));
                let node = Node::new(label, Dimension::Area, m.hole_area, Formula::From, inputs);
                if matches!(shape, OpeningShape::Arched { .. }) {
                    node.with_source(ARCHES)
                } else {
                    node
                }
            }
        };
        node.at(self.place.clone())
    }

    /// A size of the frame, widened by the splay of the parts at its two ends.
    fn widened(&self, label: &str, value: f64, frame: Node, ends: [RevealPart; 2]) -> Node {
        let splay = |part: RevealPart| {
            let own = self.splays().find(|(of, _)| *of == part);
            own.or_else(|| self.splays().find(|(of, _)| *of == RevealPart::Ring))
                .map(|(_, n)| n)
        };
        let [first, second] = ends.map(splay);
        let (formula, terms) = match (first, second) {
            (None, None) => return frame,
            (Some(splay), Some(_)) if ends[0] == ends[1] => (
                Formula::Of("#0 + 2 × #1 × tan(#2)"),
                vec![frame, self.depth(), splay],
            ),
            (Some(one), Some(two)) => (
                Formula::Of("#0 + #1 × (tan(#2) + tan(#3))"),
                vec![frame, self.depth(), one, two],
            ),
            (Some(splay), None) | (None, Some(splay)) => (
                Formula::Of("#0 + #1 × tan(#2)"),
                vec![frame, self.depth(), splay],
            ),
        };
        Node::new(label, Dimension::Length, value, formula, terms)
    }

    /// The splays that widen the hole, as typed.
    fn splays(&self) -> impl Iterator<Item = (RevealPart, Node)> {
        let splay = self
            .opening
            .reveal(self.face.side)
            .and_then(|r| r.splay.as_deref());
        let place = self.place.field(self.face.side.word()).field("splay");
        splay
            .map(|s| {
                [
                    (RevealPart::Jambs, &s.jambs),
                    (RevealPart::Head, &s.head),
                    (RevealPart::Sill, &s.sill),
                    (RevealPart::Ring, &s.ring),
                ]
            })
            .into_iter()
            .flatten()
            .filter_map(move |(part, t)| {
                let t = t.as_ref()?;
                let label = eco_format!("splay of the {}", part.word());
                let place = place.field(part.word());
                Some((
                    part,
                    typed(&label, Dimension::Angle, t.value().value, t, &place),
                ))
            })
    }

    /// Depth of the reveal on this side.
    fn depth(&self) -> Node {
        let Some(frame) = &self.opening.frame else {
            return Node::given("depth of the reveal", Dimension::Length, self.measure.depth);
        };
        let from = self.leaf(
            "from outside to the frame",
            &frame.from_outside,
            "frame.from_outside",
        );
        match self.face.side {
            Side::Outside => Node {
                label: "depth of the reveal".into(),
                ..from
            },
            Side::Inside => Node::new(
                "depth of the reveal",
                Dimension::Length,
                self.measure.depth,
                Formula::Of("#0 − #1 − #2"),
                vec![
                    self.face.thickness(),
                    from,
                    self.leaf("depth of the frame", &frame.depth, "frame.depth"),
                ],
            ),
        }
    }

    fn reveal(&self, part: &PartMeasure) -> Node {
        let depth = self.depth();
        let word = part_word(part.part);
        let slant = match self.splay_of(part) {
            Some(splay) => Node::new(
                "width along the slant",
                Dimension::Length,
                part.slant,
                Formula::Of("#0 ÷ cos(#1)"),
                vec![depth, splay],
            ),
            None => depth,
        };
        let lines = if part.lines > 1 { "lines" } else { "line" };
        let value = part.net_reveal_area();
        let frame = self.line(part, eco_format!("{lines} of the {word} on the frame"));
        let face = self.line_on_face(part);
        let strip = self.strip(part);
        let long = f64::midpoint(part.frame_line, part.face_line) * part.slant;
        let square = part.frame_line.to_bits() == part.face_line.to_bits();
        let (formula, terms) = match (square, part.strip_area > 0.0) {
            _ if !same(long - part.strip_area, value) => {
                (Formula::From, vec![frame, face, slant, strip])
            }
            (true, false) => (Formula::Of("#0 × #1"), vec![frame, slant]),
            (true, true) => (Formula::Of("#0 × #1 − #2"), vec![frame, slant, strip]),
            (false, false) => (Formula::Of("(#0 + #1) ÷ 2 × #2"), vec![frame, face, slant]),
            (false, true) => (
                Formula::Of("(#0 + #1) ÷ 2 × #2 − #3"),
                vec![frame, face, slant, strip],
            ),
        };
        Node::new(
            eco_format!("{} {word}", self.opening.id),
            Dimension::Area,
            value,
            formula,
            terms,
        )
    }

    /// The line of a part on the frame: a size as typed, where it is one.
    fn line(&self, part: &PartMeasure, label: ecow::EcoString) -> Node {
        let value = part.frame_line;
        let sized = |size: Node| match part.lines {
            1 if same(size.figure.value, value) => Some((Formula::Of("#0"), size)),
            2 if same(2.0 * size.figure.value, value) => Some((Formula::Of("2 × #0"), size)),
            _ => None,
        };
        let (formula, terms) = match self.inputs().into_iter().find_map(sized) {
            Some((formula, size)) => (formula, vec![size]),
            None => (Formula::From, self.inputs()),
        };
        Node::new(label, Dimension::Length, value, formula, terms)
    }

    /// A length of the reveal as typed; nothing when it is not given.
    fn of_reveal(
        &self,
        field: &'static str,
        pick: impl Fn(&Reveal) -> Option<&Typed<Length>>,
    ) -> Node {
        let place = self.place.field(self.face.side.word()).field(field);
        match self.opening.reveal(self.face.side).and_then(pick) {
            Some(t) => typed(field, Dimension::Length, t.value().value, t, &place),
            None => Node::given(field, Dimension::Length, 0.0),
        }
    }

    /// The edge of a part, along the sharp arris.
    fn arris(&self, part: &PartMeasure) -> Node {
        let label = eco_format!("{} edge, along the sharp arris", part_word(part.part));
        Node {
            label,
            ..self.line_on_face(part)
        }
    }

    /// How far the surface turns from the face into the reveal.
    fn turn(&self, part: &PartMeasure) -> Node {
        let label = "turn of the edge";
        let splay = self.splay_of(part);
        match splay.filter(|s| same(RIGHT_ANGLE - s.figure.value, part.turn)) {
            Some(splay) => Node::new(
                label,
                Dimension::Angle,
                part.turn,
                Formula::Of("90° − #0"),
                vec![splay],
            ),
            None => Node::given(label, Dimension::Angle, part.turn),
        }
    }

    /// The splay of a part, as typed.
    fn splay_of(&self, part: &PartMeasure) -> Option<Node> {
        self.splays()
            .map(|(_, node)| node)
            .find(|node| node.figure.value.to_bits() == part.splay.to_bits())
            .filter(|_| part.splay > 0.0)
    }

    /// The line of a part on the face: that on the frame, where the reveal is square.
    fn line_on_face(&self, part: &PartMeasure) -> Node {
        let label = eco_format!("{} on the face", part_word(part.part));
        if part.frame_line.to_bits() == part.face_line.to_bits() {
            return self.line(part, label);
        }
        let mut terms = self.inputs();
        terms.push(self.depth());
        terms.extend(self.splays().map(|(_, splay)| splay));
        Node::new(
            label,
            Dimension::Length,
            part.face_line,
            Formula::From,
            terms,
        )
    }

    fn strip(&self, part: &PartMeasure) -> Node {
        let radius = self.of_reveal("radius", |r| r.radius.as_ref());
        let turn = self.turn(part);
        let short = radius.figure.value * libm::tan(part.turn / 2.0) * part.face_line;
        let formula = if same(short, part.strip_area) {
            Formula::Of("#0 × tan(#1 ÷ 2) × #2")
        } else {
            Formula::From
        };
        Node::new(
            eco_format!("strip along the {}", part_word(part.part)),
            Dimension::Area,
            part.strip_area,
            formula,
            vec![radius, turn, self.arris(part)],
        )
    }

    fn edge(&self, part: &PartMeasure) -> Node {
        let radius = self.of_reveal("radius", |r| r.radius.as_ref());
        let short = part.face_line * radius.figure.value * part.turn;
        let formula = if same(short, part.arc_area) {
            Formula::Of("#0 × #1 × #2 × π ÷ 180°")
        } else {
            Formula::From
        };
        Node::new(
            eco_format!("rounded edge of the {}", part_word(part.part)),
            Dimension::Area,
            part.arc_area,
            formula,
            vec![self.arris(part), radius, self.turn(part)],
        )
    }
}
