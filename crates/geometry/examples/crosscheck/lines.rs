//! Faces and figures as lines of JSON. Lengths in millimetres, angles in radians, areas in mm², volumes in mm³.
//!
//! Nothing is computed here.

use crate::solids::Solid;
use crate::wall::Wall;
use hodful_geometry::{
    Angle, ArchHead, End, EndSpec, Extent, FaceMeasure, Inset, OpeningMeasure, OpeningShape,
    OpeningSpec, OutlineShape, Part, PartMeasure, RevealSpec, Side,
};
use serde_json::{Map, Value, json};
use std::error::Error;

type Line = Result<Value, Box<dyn Error>>;

/// A face and its measure.
pub(crate) fn face(wall: &Wall) -> Line {
    let measured = wall
        .measure()
        .map_err(|faults| format!("{wall:?}: {faults:?}"))?;
    let mut line = typed(wall);
    line.insert("total".into(), total(&measured.total));
    let openings = measured.heard.openings.iter();
    line.insert(
        "measured".into(),
        openings.map(|(index, m)| opening(*index, m)).collect(),
    );
    Ok(Value::Object(line))
}

/// A solid, the faces that make it up, and the volumes of its layers.
pub(crate) fn solid(solid: &Solid) -> Line {
    let faces = solid
        .walls
        .iter()
        .map(face)
        .collect::<Result<Vec<_>, _>>()?;
    let measures = solid
        .walls
        .iter()
        .map(|wall| wall.measure().map(|m| m.total))
        .collect::<Result<Vec<_>, _>>()
        .map_err(|faults| format!("{}: {faults:?}", solid.name))?;
    let layers: Vec<Value> = solid
        .layers
        .iter()
        .map(|&[offset, thickness]| {
            let volumes = measures.iter().map(|m| m.layer_volume(offset, thickness));
            json!({"offset": offset, "thickness": thickness, "volume": volumes.sum::<f64>()})
        })
        .collect();
    let coves: f64 = measures.iter().map(|m| m.coves).sum();
    Ok(json!({"name": solid.name, "faces": faces, "layers": layers, "coves": coves}))
}

fn typed(wall: &Wall) -> Map<String, Value> {
    let Inset {
        left,
        right,
        top,
        bottom,
    } = wall.inset;
    let mut line = Map::new();
    let mut put = |key: &str, value: Value| line.insert(key.into(), value);
    put("outline", outline(&wall.shape));
    put("thickness", json!(wall.thickness));
    put("side", json!(side(wall.side)));
    put(
        "inset",
        json!({"left": left, "right": right, "top": top, "bottom": bottom}),
    );
    put(
        "openings",
        wall.openings
            .iter()
            .map(|spec| opening_spec(spec, wall))
            .collect(),
    );
    put("ends", wall.ends.iter().map(end).collect());
    line
}

fn side(side: Side) -> &'static str {
    match side {
        Side::Outside => "outside",
        Side::Inside => "inside",
    }
}

fn outline(shape: &OutlineShape) -> Value {
    match shape {
        OutlineShape::Rectangle { length, height } => {
            json!({"kind": "rectangle", "length": length, "height": height})
        }
        OutlineShape::Gable {
            length,
            eaves,
            ridge,
            ridge_from_left,
        } => json!({
            "kind": "gable", "length": length, "eaves": eaves, "ridge": ridge,
            "ridge_from_left": ridge_from_left,
        }),
        OutlineShape::Raked {
            length,
            left,
            right,
        } => json!({"kind": "raked", "length": length, "left": left, "right": right}),
        OutlineShape::Polygon { corners } => json!({"kind": "polygon", "corners": corners}),
        OutlineShape::Curved {
            radius,
            extent,
            height,
        } => {
            let (key, value) = match extent {
                Extent::Sweep(sweep) => ("sweep", sweep),
                Extent::Length(length) => ("length", length),
            };
            json!({"kind": "curved", "radius": radius, key: value, "height": height})
        }
    }
}

fn opening_spec(spec: &OpeningSpec, wall: &Wall) -> Value {
    let [outside, inside] = spec.reveals;
    let index = match wall.side {
        Side::Outside => outside,
        Side::Inside => inside,
    };
    let own = index.and_then(|index| wall.reveals.get(index.get()));
    json!({
        "shape": opening_shape(&spec.shape),
        "from_left": spec.from_left,
        "sill": spec.sill,
        "from_outside": spec.from_outside,
        "frame_depth": spec.frame_depth,
        "count": spec.count,
        "spacing": spec.spacing,
        "reveal": own.map(reveal),
    })
}

fn opening_shape(shape: &OpeningShape) -> Value {
    match shape {
        OpeningShape::Rectangle { width, height } => {
            json!({"kind": "rectangle", "width": width, "height": height})
        }
        OpeningShape::Arched {
            width,
            springing,
            head,
        } => {
            let (kind, rise) = match head {
                ArchHead::Segmental { rise } => ("segmental", *rise),
                ArchHead::Semicircular => ("semicircular", width / 2.0),
                ArchHead::Elliptical { rise } => ("elliptical", *rise),
            };
            json!({"kind": kind, "width": width, "springing": springing, "rise": rise})
        }
        OpeningShape::Circle { diameter } => json!({"kind": "circle", "diameter": diameter}),
        OpeningShape::Polygon { corners } => json!({"kind": "polygon", "corners": corners}),
    }
}

fn reveal(spec: &RevealSpec) -> Value {
    let RevealSpec {
        plastered,
        splay,
        radius,
        lath,
    } = spec;
    let parts: Vec<&str> = [
        (plastered.jambs, "jambs"),
        (plastered.head, "head"),
        (plastered.sill, "sill"),
        (plastered.ring, "ring"),
    ]
    .into_iter()
    .filter_map(|(on, part)| on.then_some(part))
    .collect();
    json!({
        "plastered": parts,
        "splay": {"jambs": splay.jambs, "head": splay.head, "sill": splay.sill, "ring": splay.ring},
        "radius": radius,
        "lath": lath,
    })
}

fn end(spec: &EndSpec) -> Value {
    let end = match spec.end {
        End::Left => "left",
        End::Right => "right",
    };
    let (angle, radius) = match spec.angle {
        Angle::External { radius } => ("external", radius),
        Angle::Internal { cove } => ("internal", cove),
    };
    json!({"end": end, "angle": angle, "radius": radius, "turn": spec.turn})
}

fn total(m: &FaceMeasure) -> Value {
    json!({
        "outline": m.outline, "openings": m.openings, "strips": m.strips, "field": m.field,
        "reveals": m.reveals, "edges": m.edges, "edge_length": m.edge_length, "lath": m.lath,
        "growth": m.growth, "coves": m.coves,
    })
}

fn opening(index: usize, m: &OpeningMeasure) -> Value {
    json!({
        "opening": index, "first_copy": m.first_copy, "copies": m.copies, "whole": m.whole, "hole_area": m.hole_area,
        "parts": m.parts().map(part).collect::<Vec<_>>(),
    })
}

fn part(m: &PartMeasure) -> Value {
    let name = match m.part {
        Part::Jambs => "jambs",
        Part::Head => "head",
        Part::Sill => "sill",
        Part::Ring => "ring",
    };
    json!({
        "part": name, "frame_line": m.frame_line, "face_line": m.face_line,
        "reveal_area": m.reveal_area,
    })
}
