//! Corners at the ends of a face, with what was typed of them. Not here: the figures they enter.

use super::faces::Face;
use super::typed;
use crate::figure::{Dimension, Node};
use crate::problem::Place;
use crate::project::WallEnd;
use ecow::{EcoString, eco_format};
use hodful_geometry::{Angle, EndMeasure};

/// A corner of a face with its figures.
pub(super) struct Corner<'a> {
    face: &'a Face<'a>,
    pub(super) measure: &'a EndMeasure,
    typed: &'a WallEnd,
}

pub(super) fn corners<'a>(face: &'a Face<'a>) -> impl Iterator<Item = Corner<'a>> {
    let typed = face.wall.ends.iter().filter(|end| end.face == face.side);
    std::iter::zip(&face.heard.ends, typed).map(|(measure, typed)| Corner {
        face,
        measure,
        typed,
    })
}

impl Corner<'_> {
    pub(super) fn name(&self) -> EcoString {
        let side = self.typed.end.word();
        let angle = if is_external(self.measure) {
            "external corner"
        } else {
            "internal angle"
        };
        eco_format!("{angle} at the {side} end")
    }

    fn place(&self) -> Place {
        self.face.place.thing("corner", self.typed.end.word())
    }

    pub(super) fn length(&self) -> Node {
        let label = eco_format!("length of the {}", self.name());
        let height = self.face.height(self.measure.length);
        Node { label, ..height }
    }

    pub(super) fn turn(&self) -> Node {
        let turn = self.measure.turn;
        match &self.typed.turn {
            Some(t) => typed(
                "turn",
                Dimension::Angle,
                turn,
                t,
                &self.place().field("turn"),
            ),
            None => Node::given("turn", Dimension::Angle, turn).with_source("90° when not given"),
        }
    }

    /// Radius of the background at an external corner, of the finished cove in an internal angle.
    pub(super) fn radius(&self) -> Node {
        let (field, text) = if is_external(self.measure) {
            ("radius", &self.typed.radius)
        } else {
            ("cove", &self.typed.cove)
        };
        match text {
            Some(t) => typed(
                field,
                Dimension::Length,
                t.value().value,
                t,
                &self.place().field(field),
            ),
            None => Node::given(field, Dimension::Length, 0.0).with_source("sharp when not given"),
        }
    }
}

/// Whether an end is an external corner.
pub(super) fn is_external(end: &EndMeasure) -> bool {
    matches!(end.angle, Angle::External { .. })
}
