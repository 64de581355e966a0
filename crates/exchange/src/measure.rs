//! The surfaces of every face. Not here: measuring them.

use crate::write::plain_text;
use hodful_takeoff::{Assessed, FaceFigures, Side};
use serde::Serialize;

/// Surfaces of a project, in the International System.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MeasureReport {
    /// `hodful-measure`.
    pub format: &'static str,
    /// Version of this format.
    pub version: u32,
    /// What the project is called.
    pub project: String,
    /// Key of the measurement rule.
    pub rule: String,
    /// Every face, for one such wall.
    pub faces: Vec<FaceRow>,
    /// All faces, counts applied.
    pub totals: Surfaces,
}

/// One face.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FaceRow {
    /// Identifier of the wall.
    pub wall: String,
    /// `outside` or `inside`.
    pub face: &'static str,
    /// How many such walls there are.
    pub count: u32,
    /// The surfaces of one.
    #[serde(flatten)]
    pub surfaces: Surfaces,
}

/// Surfaces and lengths of a face or of all.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct Surfaces {
    pub outline_m2: f64,
    pub openings_m2: f64,
    pub field_m2: f64,
    pub reveals_m2: f64,
    pub edges_m2: f64,
    pub true_surface_m2: f64,
    pub measured_m2: f64,
    pub measured_run_m: f64,
    pub edge_length_m: f64,
    pub lath_m2: f64,
}

/// One line of the CSV: a face, or the totals under the wall `total`.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct MeasureLine {
    pub wall: String,
    pub face: &'static str,
    pub count: u32,
    pub outline_m2: f64,
    pub openings_m2: f64,
    pub field_m2: f64,
    pub reveals_m2: f64,
    pub edges_m2: f64,
    pub true_surface_m2: f64,
    pub measured_m2: f64,
    pub measured_run_m: f64,
    pub edge_length_m: f64,
    pub lath_m2: f64,
}

impl MeasureReport {
    /// The lines of the CSV.
    pub fn lines(&self) -> Vec<MeasureLine> {
        let line = |wall: &str, face, count, s: &Surfaces| MeasureLine {
            wall: plain_text(wall),
            face,
            count,
            outline_m2: s.outline_m2,
            openings_m2: s.openings_m2,
            field_m2: s.field_m2,
            reveals_m2: s.reveals_m2,
            edges_m2: s.edges_m2,
            true_surface_m2: s.true_surface_m2,
            measured_m2: s.measured_m2,
            measured_run_m: s.measured_run_m,
            edge_length_m: s.edge_length_m,
            lath_m2: s.lath_m2,
        };
        let faces = self
            .faces
            .iter()
            .map(|f| line(&f.wall, f.face, f.count, &f.surfaces));
        faces.chain([line("total", "", 1, &self.totals)]).collect()
    }
}

/// The surfaces of an assessed project.
pub fn measure(of: &Assessed<'_>) -> MeasureReport {
    let faces = of
        .faces()
        .map(|(wall, side, count, figures)| FaceRow {
            wall: wall.id.to_string(),
            face: Side::word(side),
            count,
            surfaces: surfaces(figures),
        })
        .collect();
    MeasureReport {
        format: "hodful-measure",
        version: 1,
        project: of.project.name.to_string(),
        rule: of.project.measurement_rule.to_string(),
        faces,
        totals: surfaces(&of.evaluation.totals),
    }
}

fn surfaces(of: &FaceFigures) -> Surfaces {
    let m2 = |mm2: f64| mm2 / 1e6;
    let m = |mm: f64| mm / 1e3;
    Surfaces {
        outline_m2: m2(of.measure.outline),
        openings_m2: m2(of.measure.openings),
        field_m2: m2(of.measure.field),
        reveals_m2: m2(of.measure.reveals),
        edges_m2: m2(of.measure.edges),
        true_surface_m2: m2(of.measure.true_surface()),
        measured_m2: m2(of.measured),
        measured_run_m: m(of.measured_run),
        edge_length_m: m(of.measure.edge_length),
        lath_m2: m2(of.measure.lath),
    }
}
