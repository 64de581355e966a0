//! Surfaces of walls to be plastered: outlines, openings, reveals, rounded edges.
//!
//! All lengths are millimetres, angles radians, areas mm², volumes mm³, in `f64`. In the plane of a wall u runs along it (zero at
//! the left end seen from outside, for both faces) and v runs up.
//!
//! By topic:
//! - a wall: [`Outline`] from an [`OutlineShape`]; one face of it: [`Outline::face`] with an [`Inset`] gives a [`FaceOutline`]
//! - an opening: [`Opening`] from an [`OpeningSpec`]; its lining: [`Reveal`] from a [`RevealSpec`]; whether they suit each other
//!   and the wall: [`Opening::accepts`], [`Opening::fits`]
//! - the angle at the end of a face: [`FaceEnd`] from an [`EndSpec`]
//! - the measure: [`measure_face`] gives a [`FaceMeasure`]; what it has to say on the way: [`Notes`]
//! - for rules of measurement: [`frame_area_on_face`], [`reveal_width`]
//! - for showing how a face's area comes about: [`FaceOutline::panels`]
//! - for tests: [`net_area_with`]
//!
//! Checked types are the only way in. Everything is plain, pure and total: no input panics, nothing is read or written.
//!
//! Not here: thicknesses of coats, mixes, money, files, and the project as an estimator thinks of it.

mod arch;
mod clip;
mod edge;
mod fault;
mod hole;
mod measure;
mod notes;
mod opening;
mod outline;
mod panel;
mod polygon;
mod profile;
mod reveal;
mod tolerance;
mod union;

pub use edge::{Angle, EndSpec, FaceEnd};
pub use fault::Fault;
pub use measure::{
    EndMeasure, FaceMeasure, OpeningMeasure, PartMeasure, Tier, frame_area_on_face, measure_face,
    net_area_with, reveal_width,
};
pub use notes::{Doubt, Notes, OpeningCopy, Refusal, Remarks, Silent};
pub use opening::{ArchHead, Opening, OpeningShape, OpeningSpec, RevealIndex};
pub use outline::{End, Extent, FaceOutline, Inset, Outline, OutlineShape, Side};
pub use panel::Panel;
pub use profile::Bounds;
pub use reveal::{Part, Parts, Reveal, RevealSpec, Splay};
