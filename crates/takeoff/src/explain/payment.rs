//! The tree of what is measured for payment on a face. Not here: surfaces.

use super::faces::Face;
use super::openings::heeded;
use super::times;
use crate::evaluate::count;
use crate::figure::{Dimension, Formula, Node};
use ecow::eco_format;

/// The quantity measured for payment.
pub(super) fn measured(face: &Face<'_>) -> Node {
    let rule = &face.source.site.rule;
    let source = eco_format!("{}, {}: {}", rule.title, rule.edition, rule.source);
    let label = face.called("measured for payment");
    if rule.bands.is_none() {
        let surface = face.true_surface();
        let value = surface.figure.value;
        return Node::new(
            label,
            Dimension::Area,
            value,
            Formula::Of("#0"),
            vec![surface],
        )
        .with_source(source);
    }
    let mut terms = vec![face.outline()];
    for o in heeded(face) {
        let counted = count(rule, face.checked_wall, face.side, o.index, o.measure);
        let Some(counted) = counted else { continue };
        let share = Node::given(
            "part of the opening deducted",
            Dimension::Number,
            counted.share,
        );
        let frame = Node::new(
            eco_format!(
                "frame on this face (its size is {:.4} m²)",
                counted.size / 1e6
            ),
            Dimension::Area,
            counted.on_face,
            Formula::From,
            o.inputs(),
        );
        let reveals = Node::given("reveals that are added", Dimension::Area, counted.reveals);
        let value = counted.reveals - counted.share * counted.on_face;
        let one = Node::new(
            eco_format!("{} in the measured quantity", o.opening.id),
            Dimension::Area,
            value,
            Formula::Of("#0 − #1 × #2"),
            vec![reveals, share, frame],
        )
        .at(o.place.clone());
        terms.push(times(counted.copies, one));
    }
    Node::sum(label, Dimension::Area, face.figures.measured, terms).with_source(source)
}
