//! Trees of the surfaces of faces, and of what faces bring to a build-up. Not here: single openings
//! (see `openings`).

use super::openings::{self, Heard};
use super::path::{PathFault, quoted};
use super::payment;
use super::{Source, times, typed, waits};
use crate::check::walls::wall_place;
use crate::checked::{CheckedFace, OneWall};
use crate::evaluate::{FaceFigures, ground_of, measure};
use crate::figure::{Dimension, Formula, Node};
use crate::problem::Place;
use crate::project::{Background, BackgroundKind, Inset, Name, Side, Wall, WallShape};
use crate::tolerance::FORMULA_HOLDS;
use ecow::{EcoString, eco_format};
use hodful_quantities::units::Length;
use hodful_quantities::{FirstCoat, Typed};

/// One face measured once more with every term kept: the same computation with an open ear.
pub(super) struct Face<'a> {
    pub(super) source: Source<'a>,
    pub(super) wall: &'a Wall,
    pub(super) checked_wall: OneWall<'a>,
    pub(super) checked: &'a CheckedFace,
    pub(super) side: Side,
    pub(super) figures: FaceFigures,
    pub(super) heard: Heard,
    pub(super) place: Place,
}

/// The figures of a face that can be asked for, by name.
const FIGURES: [&str; 11] = [
    "true_surface",
    "outline",
    "openings",
    "field",
    "reveals",
    "edges",
    "measured",
    "measured_run",
    "edge_length",
    "lath",
    "growth",
];

/// A figure of a face; its true surface when none is named.
pub(super) fn explain(
    source: Source<'_>,
    wall: &str,
    side: &str,
    rest: &[&str],
) -> Result<Node, PathFault> {
    let walls = &source.project.walls;
    let at = walls
        .iter()
        .position(|w| w.id == wall)
        .ok_or_else(|| PathFault::Unknown {
            kind: "wall",
            name: wall.into(),
            there: walls.iter().map(|w| w.id.clone()).collect(),
        })?;
    let side_of = Side::from_word(side);
    let plastered = |side: &Side| walls.get(at).is_some_and(|wall| wall.face(*side).is_some());
    let face = side_of.and_then(|side| hear(source, at, side));
    if face.is_none() && side_of.is_some_and(|side| plastered(&side)) {
        return Err(waits(eco_format!("wall {wall}, {side}")));
    }
    let face = face.ok_or_else(|| PathFault::Unknown {
        kind: "plastered face",
        name: side.into(),
        there: [Side::Outside, Side::Inside]
            .into_iter()
            .filter(plastered)
            .map(|side| side.word().into())
            .collect(),
    })?;
    match rest {
        [] => Ok(face.true_surface()),
        [figure] => face.figure(figure),
        [_, beyond, ..] => Err(unknown(beyond)),
    }
}

/// Measures a face again and listens.
pub(super) fn hear(source: Source<'_>, wall: usize, side: Side) -> Option<Face<'_>> {
    let typed = source.project.walls.get(wall)?;
    let checked_wall = source.walls.find(wall)?;
    let checked = checked_wall.entry.face(side)?;
    let mut heard = Heard::default();
    let rule = &source.site.rule;
    let figures = measure(rule, checked_wall, checked, side, &mut heard);
    let place = wall_place(typed).field(side.word());
    Some(Face {
        source,
        wall: typed,
        checked_wall,
        checked,
        side,
        figures,
        heard,
        place,
    })
}

/// Every plastered face.
fn all(source: Source<'_>) -> impl Iterator<Item = Face<'_>> {
    (0..source.project.walls.len()).flat_map(move |wall| {
        [Side::Outside, Side::Inside]
            .into_iter()
            .filter_map(move |side| hear(source, wall, side))
    })
}

/// A figure of all faces; the true surface when none is named.
pub(super) fn totals(source: Source<'_>, rest: &[&str]) -> Result<Node, PathFault> {
    let figure = match rest {
        [] => "true_surface",
        [figure] => *figure,
        [_, beyond, ..] => return Err(unknown(beyond)),
    };
    let mut value = 0.0;
    let mut dimension = Dimension::Area;
    let mut terms = Vec::new();
    for face in all(source) {
        let one = if source.brief && value_of(&face.figures, figure).is_some() {
            face.term(figure, Face::true_surface)
        } else {
            face.figure(figure)?
        };
        let node = times(face.checked_wall.entry.count, one);
        value += node.figure.value;
        dimension = node.figure.dimension;
        terms.push(node);
    }
    if !FIGURES.contains(&figure) {
        return Err(unknown(figure));
    }
    // The evaluation's own sum stands where it has one; it is the same but for the order of adding.
    let totals = &source.evaluation.totals;
    let value = value_of(totals, figure).unwrap_or(value);
    Ok(Node::sum(
        source.sum_of(eco_format!("{} of all faces", figure.replace('_', " "))),
        dimension,
        value,
        terms,
    )
    .with_path(eco_format!("totals.{figure}")))
}

fn unknown(figure: &str) -> PathFault {
    PathFault::Unknown {
        kind: "figure of a face",
        name: figure.into(),
        there: FIGURES.map(EcoString::from).to_vec(),
    }
}

fn value_of(figures: &FaceFigures, figure: &str) -> Option<f64> {
    let m = &figures.measure;
    Some(match figure {
        "true_surface" => m.true_surface(),
        "outline" => m.outline,
        "openings" => m.openings,
        "field" => m.field,
        "reveals" => m.reveals,
        "edges" => m.edges,
        "measured" => figures.measured,
        "measured_run" => figures.measured_run,
        "edge_length" => m.edge_length,
        "lath" => m.lath,
        "growth" => m.growth,
        _ => return None,
    })
}

/// What a figure of a face measures.
fn dimension_of(figure: &str) -> Dimension {
    match figure {
        "edge_length" | "growth" | "measured_run" => Dimension::Length,
        _ => Dimension::Area,
    }
}

impl Face<'_> {
    pub(super) fn path(&self, figure: &str) -> EcoString {
        eco_format!(
            "walls.{}.{}.{figure}",
            quoted(&self.wall.id),
            self.side.word()
        )
    }

    pub(super) fn called(&self, figure: &str) -> EcoString {
        eco_format!("{} {}, {figure}", self.wall.id, self.side.word())
    }

    fn figure(&self, figure: &str) -> Result<Node, PathFault> {
        Ok(match figure {
            "true_surface" => self.true_surface(),
            "outline" => self.outline(),
            "field" => self.field(),
            "openings" => openings::holes(self),
            "reveals" => openings::reveals(self),
            "edges" => openings::edges(self),
            "edge_length" => openings::edge_length(self),
            "lath" => openings::lath(self),
            "growth" => self.growth(),
            "measured" | "measured_run" if !self.source.site.rule_known => {
                return Err(waits(self.called("measured for payment")));
            }
            "measured" => payment::measured(self),
            "measured_run" => Node::given(
                self.called("measured by length"),
                Dimension::Length,
                self.figures.measured_run,
            )
            .with_source(self.source.site.rule.title.clone()),
            other => return Err(unknown(other)),
        }
        .with_path(self.path(figure)))
    }

    pub(super) fn true_surface(&self) -> Node {
        let value = self.figures.measure.true_surface();
        let terms = vec![self.field(), openings::reveals(self), openings::edges(self)];
        Node::sum(self.called("true surface"), Dimension::Area, value, terms)
            .with_path(self.path("true_surface"))
    }

    fn field(&self) -> Node {
        let m = &self.figures.measure;
        Node::new(
            "field: outline less openings and the strips of rounded edges",
            Dimension::Area,
            m.field,
            Formula::Of("#0 − #1 − #2"),
            vec![
                self.outline(),
                openings::holes(self),
                openings::strips(self),
            ],
        )
        .with_path(self.path("field"))
    }

    /// The outline after insets: width × height where it is a rectangle, panels under a sloping top,
    /// and the corners' area otherwise.
    pub(super) fn outline(&self) -> Node {
        let value = self.figures.measure.outline;
        let bounds = self.checked.outline.bounds();
        let width = self.width(bounds.width());
        let height = self.height(bounds.height());
        let boxed = bounds.width() * bounds.height();
        let node = if (boxed - value).abs() <= FORMULA_HOLDS * value {
            Node::new(
                "outline after insets",
                Dimension::Area,
                value,
                Formula::Of("#0 × #1"),
                vec![width, height],
            )
        } else {
            let panels: Vec<Node> = self
                .checked
                .outline
                .panels()
                .into_iter()
                .map(|panel| {
                    Node::new(
                        "panel under the top line",
                        Dimension::Area,
                        panel.area(),
                        Formula::Of("#0 × (#1 + #2) ÷ 2"),
                        vec![
                            Node::given("width", Dimension::Length, panel.width),
                            Node::given("height at its left", Dimension::Length, panel.left),
                            Node::given("height at its right", Dimension::Length, panel.right),
                        ],
                    )
                })
                .collect();
            let sum: f64 = panels.iter().map(|p| p.figure.value).sum();
            let inputs = self.shape_inputs();
            if panels.is_empty() || (sum - value).abs() > FORMULA_HOLDS * value {
                Node::new(
                    "area of the outline after insets, from its corners",
                    Dimension::Area,
                    value,
                    Formula::From,
                    inputs,
                )
            } else {
                let mut node = Node::sum("outline after insets", Dimension::Area, value, panels);
                if let Some(last) = node.terms.last_mut() {
                    last.terms.extend(inputs);
                }
                node
            }
        };
        node.at(self.place.clone()).with_path(self.path("outline"))
    }

    /// Every typed dimension of the wall's shape and the face's insets.
    fn shape_inputs(&self) -> Vec<Node> {
        let place = wall_place(self.wall).field("shape");
        let leaf = |label: &str, t: &Typed<Length>| {
            typed(
                label,
                Dimension::Length,
                t.value().value,
                t,
                &place.field(label),
            )
        };
        let mut inputs = match &self.wall.shape {
            WallShape::Rectangle { length, height } => {
                vec![leaf("length", length), leaf("height", height)]
            }
            WallShape::Gable {
                length,
                eaves,
                ridge,
                ridge_from_left,
            } => {
                let mut inputs = vec![
                    leaf("length", length),
                    leaf("eaves", eaves),
                    leaf("ridge", ridge),
                ];
                inputs.extend(ridge_from_left.as_ref().map(|t| leaf("ridge_from_left", t)));
                inputs
            }
            WallShape::Raked {
                length,
                left,
                right,
            } => {
                vec![
                    leaf("length", length),
                    leaf("left", left),
                    leaf("right", right),
                ]
            }
            WallShape::Polygon { corners } => corners
                .iter()
                .enumerate()
                .flat_map(|(i, [u, v])| {
                    [
                        leaf(&eco_format!("corner {} from the left", i + 1), u),
                        leaf(&eco_format!("corner {} up", i + 1), v),
                    ]
                })
                .collect(),
            WallShape::Curved { height, .. } => vec![leaf("height", height)],
        };
        inputs.extend(self.insets(|_| true));
        inputs
    }

    fn insets(&self, keep: impl Fn(&str) -> bool) -> Vec<Node> {
        let inset = self
            .wall
            .face(self.side)
            .and_then(|face| face.inset.as_deref());
        let place = self.place.field("inset");
        let Some(Inset {
            left,
            right,
            top,
            bottom,
            ceiling,
        }) = inset
        else {
            return Vec::new();
        };
        [
            ("left", left),
            ("right", right),
            ("top", top),
            ("bottom", bottom),
            ("ceiling", ceiling),
        ]
        .into_iter()
        .filter(|(name, _)| keep(name))
        .filter_map(|(name, t)| {
            let t = t.as_ref()?;
            let label = if name == "ceiling" {
                EcoString::from("level ceiling above the bottom")
            } else {
                eco_format!("inset {name}")
            };
            Some(typed(
                &label,
                Dimension::Length,
                t.value().value,
                t,
                &place.field(name),
            ))
        })
        .collect()
    }

    /// Width of the face: the length less its insets; on a curved wall developed at its own radius.
    fn width(&self, value: f64) -> Node {
        let place = wall_place(self.wall).field("shape");
        let full = match &self.wall.shape {
            WallShape::Rectangle { length, .. }
            | WallShape::Gable { length, .. }
            | WallShape::Raked { length, .. } => typed(
                "length",
                Dimension::Length,
                length.value().value,
                length,
                &place.field("length"),
            ),
            WallShape::Curved {
                radius,
                sweep,
                length,
                ..
            } => {
                let own = self.checked.outline.radius().map_or(0.0, f64::abs);
                let outer = typed(
                    "radius to the outside face",
                    Dimension::Length,
                    radius.value().value,
                    radius,
                    &place.field("radius"),
                );
                let own = if self.side == Side::Inside {
                    Node::new(
                        "radius to this face",
                        Dimension::Length,
                        own,
                        Formula::Of("#0 − #1"),
                        vec![outer.clone(), self.thickness()],
                    )
                } else {
                    outer.clone()
                };
                match (sweep, length) {
                    (Some(sweep), _) => {
                        let turn = typed(
                            "sweep, in radians",
                            Dimension::Number,
                            sweep.value().value,
                            sweep,
                            &place.field("sweep"),
                        );
                        Node::new(
                            "developed length",
                            Dimension::Length,
                            own.figure.value * turn.figure.value,
                            Formula::Of("#0 × #1"),
                            vec![own, turn],
                        )
                    }
                    (None, Some(length)) => {
                        let along = typed(
                            "length along the outside face",
                            Dimension::Length,
                            length.value().value,
                            length,
                            &place.field("length"),
                        );
                        Node::new(
                            "developed length",
                            Dimension::Length,
                            along.figure.value * own.figure.value / outer.figure.value,
                            Formula::Of("#0 × #1 ÷ #2"),
                            vec![along, own, outer],
                        )
                    }
                    (None, None) => outer,
                }
            }
            WallShape::Polygon { .. } => {
                return Node::new(
                    "width",
                    Dimension::Length,
                    value,
                    Formula::From,
                    self.shape_inputs(),
                );
            }
        };
        self.less("width", value, full, |side| {
            matches!(side, "left" | "right")
        })
    }

    pub(super) fn height(&self, value: f64) -> Node {
        let place = wall_place(self.wall).field("shape");
        let ceiling = self.insets(|name| name == "ceiling").pop();
        let ceiling = ceiling.filter(|c| match &self.wall.shape {
            WallShape::Rectangle { height, .. } | WallShape::Curved { height, .. } => {
                c.figure.value < height.value().value
            }
            _ => true,
        });
        let full = match (&self.wall.shape, ceiling) {
            (_, Some(ceiling)) => ceiling,
            (WallShape::Rectangle { height, .. } | WallShape::Curved { height, .. }, None) => {
                typed(
                    "height",
                    Dimension::Length,
                    height.value().value,
                    height,
                    &place.field("height"),
                )
            }
            _ => {
                let inputs = self.shape_inputs();
                return Node::new("height", Dimension::Length, value, Formula::From, inputs);
            }
        };
        self.less("height", value, full, |side| {
            matches!(side, "top" | "bottom")
        })
    }

    /// A length less the insets at its two ends.
    fn less(&self, label: &str, value: f64, full: Node, keep: impl Fn(&str) -> bool) -> Node {
        let insets = self.insets(keep);
        let formula = match insets.len() {
            0 => {
                return Node {
                    label: label.into(),
                    ..full
                };
            }
            1 => Formula::Of("#0 − #1"),
            _ => Formula::Of("#0 − #1 − #2"),
        };
        let mut terms = vec![full];
        terms.extend(insets);
        Node::new(label, Dimension::Length, value, formula, terms)
    }

    /// Thickness of the wall as typed.
    pub(super) fn thickness(&self) -> Node {
        let t = &self.wall.thickness;
        typed(
            "thickness of the wall",
            Dimension::Length,
            t.value().value,
            t,
            &wall_place(self.wall).field("thickness"),
        )
    }

    fn growth(&self) -> Node {
        let m = &self.figures.measure;
        let mut node = openings::growth(self);
        if let Some(radius) = self.checked.outline.radius() {
            node.terms.push(Node::new(
                "curve of the wall on plan",
                Dimension::Length,
                m.field / radius,
                Formula::Of("#0 ÷ #1"),
                vec![
                    self.field(),
                    Node::given("radius, negative inside", Dimension::Length, radius),
                ],
            ));
        }
        node.with_source(
            "rounded edge: length × turn; sharp edge: 2 × tan(turn/2) × length; internal angles take the same away; Steiner",
        )
    }
}

/// What the faces of a build-up bring to its coats.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sum {
    Area,
    Growth,
    DubbingOut,
    LathKey,
    Pockets,
    Coves,
}

/// A sum over all faces of a build-up.
pub(super) fn ground(source: Source<'_>, build_up: usize, sum: Sum) -> Node {
    let ground = source
        .evaluation
        .grounds
        .get(build_up)
        .copied()
        .unwrap_or_default();
    let (name, first) = source
        .project
        .build_ups
        .get_index(build_up)
        .map_or(("", ""), |(name, coats)| {
            (name, coats.first().map_or("", |c| &c.coat))
        });
    let path = |figure| eco_format!("coats.{}.{}.{figure}", quoted(name), quoted(first));
    let (label, dimension, value) = match sum {
        Sum::Area => ("true surface", Dimension::Area, ground.surface.area.value),
        Sum::Growth => (
            "what edges and corners gain as plaster builds out",
            Dimension::Length,
            ground.surface.growth.value,
        ),
        Sum::DubbingOut => (
            "dubbing out",
            Dimension::Volume,
            ground.first.dubbing_out.value,
        ),
        Sum::LathKey => (
            "key of lath",
            Dimension::Volume,
            ground.first.lath_key.value,
        ),
        Sum::Pockets => ("pockets", Dimension::Volume, ground.first.pockets.value),
        Sum::Coves => ("coves", Dimension::Volume, ground.first.coves.value),
    };
    let terms = all(source)
        .filter(|face| usize::from(face.checked.build_up) == build_up)
        .map(|face| times(face.checked_wall.entry.count, face.brings(sum)))
        .filter(|node| node.figure.value != 0.0)
        .collect();
    let node = Node::sum(
        source.sum_of(eco_format!("{label}, {name}")),
        dimension,
        value,
        terms,
    );
    if sum == Sum::Area {
        node.with_path(path("area"))
    } else if sum == Sum::Growth {
        node.with_path(path("growth"))
    } else {
        node
    }
}

impl Face<'_> {
    fn brings(&self, sum: Sum) -> Node {
        match sum {
            Sum::Area => self.term("true_surface", Self::true_surface),
            Sum::Growth => self.term("growth", |face| {
                face.growth().with_path(face.path("growth"))
            }),
            Sum::DubbingOut => self.dubbing_out(),
            Sum::LathKey => self.lath_key(),
            Sum::Pockets => self.pockets(),
            Sum::Coves => openings::coves(self),
        }
    }

    /// A figure as a term of a sum over all faces: where there are a great many, without its own terms,
    /// which its path gives.
    fn term(&self, figure: &str, whole: impl FnOnce(&Self) -> Node) -> Node {
        match value_of(&self.figures, figure).filter(|_| self.source.brief) {
            Some(value) => Node::given(
                self.called(&figure.replace('_', " ")),
                dimension_of(figure),
                value,
            )
            .with_path(self.path(figure)),
            None => whole(self),
        }
    }

    fn first_coat(&self) -> FirstCoat {
        ground_of(self.source.site, self.checked, &self.figures.measure, 1.0).first
    }

    /// The dubbing-out depth of a background as typed.
    fn depth_of(label: &str, name: &Name, background: &Background) -> Option<Node> {
        let t = background.dubbing_out.as_ref()?;
        let place = Place::project().thing("background", name.clone());
        let place = place.field("dubbing_out");
        Some(typed(label, Dimension::Length, t.value().value, t, &place))
    }

    fn dubbing_out(&self) -> Node {
        let backgrounds = &self.source.project.backgrounds;
        let own = self
            .wall
            .face(self.side)
            .and_then(|face| backgrounds.get_key_value(&face.background))
            .and_then(|(name, b)| Self::depth_of("mean depth of dubbing out", name, b));
        let mut terms = vec![self.term("field", Self::field)];
        terms.extend(own);
        Node::new(
            self.called("dubbing out"),
            Dimension::Volume,
            self.first_coat().dubbing_out.value,
            Formula::Of("#0 × #1"),
            terms,
        )
    }

    fn lath_key(&self) -> Node {
        let backgrounds = &self.source.project.backgrounds;
        let key = backgrounds
            .iter()
            .find(|(_, b)| b.kind == BackgroundKind::MetalLath)
            .and_then(|(name, b)| Self::depth_of("key of lath", name, b));
        let mut terms = vec![self.term("lath", |face| openings::lath(face))];
        terms.extend(key);
        Node::new(
            self.called("key of lath"),
            Dimension::Volume,
            self.first_coat().lath_key.value,
            Formula::Of("#0 × #1"),
            terms,
        )
    }

    fn pockets(&self) -> Node {
        let place = self.place.field("pocket");
        let pockets = self
            .wall
            .pockets
            .iter()
            .filter(|p| p.face == self.side)
            .map(|p| {
                let leaf = |label, t: &Typed<Length>| {
                    typed(
                        label,
                        Dimension::Length,
                        t.value().value,
                        t,
                        &place.field(label),
                    )
                };
                let sides = vec![
                    leaf("width", &p.width),
                    leaf("height", &p.height),
                    leaf("depth", &p.depth),
                ];
                let value = sides.iter().map(|s| s.figure.value).product();
                let formula = Formula::Of("#0 × #1 × #2");
                let one = Node::new("pocket", Dimension::Volume, value, formula, sides);
                times(p.count.unwrap_or(1), one)
            })
            .collect();
        let value = self.first_coat().pockets.value;
        Node::sum(self.called("pockets"), Dimension::Volume, value, pockets)
    }
}
