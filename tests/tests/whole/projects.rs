//! Small projects made for properties: walls as they come, one build-up, one mix. Invented.

use hodful_project_file as file;
use hodful_takeoff::Assessed;
use hodful_takeoff::project::Project;
use serde_json::{Value, json};

/// A project with these walls.
pub(crate) fn with_walls(walls: &[Value]) -> Project {
    let project = json!({
        "format": "hodful-project", "version": 1, "name": "Property", "units": "metric",
        "measurement_rule": "net",
        "backgrounds": {
            "bale": { "kind": "straw bale", "dubbing_out": "9 mm" },
            "lath": { "kind": "metal lath", "dubbing_out": "3 mm" }
        },
        "materials": {
            "sand": {
                "kind": "sand", "loose_density": "1450 kg/m3", "moisture": "4 %", "bulking": "25 %",
                "packages": [ { "name": "bag", "holds": "1 m3", "price": "60" } ]
            },
            "clay": {
                "kind": "clay", "loose_density": "1100 kg/m3", "clay": "60 %",
                "packages": [ { "name": "sack", "holds": "25 kg", "price": "11" } ]
            },
            "water": { "kind": "water" }
        },
        "mixes": { "base": { "parts": { "sand": 7, "clay": 3 }, "water": "20 %", "air": "3 %" } },
        "build_ups": {
            "all": [
                { "coat": "scratch", "thickness": "12 mm", "mix": "base", "loss": "8 %" },
                { "coat": "fill", "thickness": "15 mm", "mix": "base", "loss": "6 %" }
            ]
        },
        "mixer": { "working_volume": "100 L" },
        "walls": walls
    });
    let bytes = serde_json::to_vec(&project).unwrap();
    file::read(&bytes).unwrap_or_else(|wrong| panic!("{wrong:?}"))
}

/// A rectangular wall, sizes in millimetres.
pub(crate) fn wall(id: &str, length: u32, height: u32, openings: &[Value]) -> Value {
    json!({
        "id": id,
        "shape": { "kind": "rectangle", "length": mm(length), "height": mm(height) },
        "thickness": "450 mm",
        "faces": {
            "outside": { "background": "bale", "build_up": "all", "rain": "sheltered" },
            "inside": { "background": "bale", "build_up": "all" }
        },
        "openings": openings
    })
}

/// A window with reveals on both sides.
pub(crate) fn window(id: &str, from_left: u32, sill: u32, width: u32, height: u32) -> Value {
    json!({
        "id": id, "kind": "window",
        "shape": { "kind": "rectangle", "width": mm(width), "height": mm(height) },
        "from_left": mm(from_left), "sill": mm(sill),
        "frame": { "from_outside": "80 mm", "depth": "100 mm" },
        "reveals": {
            "outside": { "plastered": ["jambs", "head"], "radius": "20 mm", "lath": "150 mm" },
            "inside": {
                "plastered": ["jambs", "head", "sill"],
                "splay": { "jambs": "15 deg" }, "radius": "40 mm"
            }
        }
    })
}

/// A length as typed.
pub(crate) fn mm(length: u32) -> String {
    format!("{length} mm")
}

/// The figures that must not change: surfaces, volumes, what is needed of each material.
pub(crate) fn figures(project: &Project) -> Vec<(String, f64)> {
    let rules = file::rules();
    let of = Assessed::new(project, &rules).unwrap_or_else(|wrong| panic!("{wrong:?}"));
    let m = &of.evaluation.totals.measure;
    let mut figures = vec![
        ("outline".to_owned(), m.outline),
        ("openings".to_owned(), m.openings),
        ("field".to_owned(), m.field),
        ("reveals".to_owned(), m.reveals),
        ("edges".to_owned(), m.edges),
        ("edge length".to_owned(), m.edge_length),
        ("lath".to_owned(), m.lath),
        ("growth".to_owned(), m.growth),
        ("measured".to_owned(), of.evaluation.totals.measured),
    ];
    for (_, coat, c) in of.coats() {
        figures.push((format!("{} placed", coat.coat), c.volume.placed.value));
        figures.push((format!("{} mixed", coat.coat), c.volume.mixed.value));
    }
    for (name, material) in project.materials.keys().zip(&of.evaluation.materials) {
        figures.extend(
            material
                .delivered
                .loose
                .map(|v| (format!("{name} loose"), v.value)),
        );
        figures.extend(
            material
                .delivered
                .mass
                .map(|v| (format!("{name} mass"), v.value)),
        );
    }
    figures
}
