//! Why a value of a field is refused. Not here: what the others come to.

use super::way::Way;
use super::{Ask, Field};
use crate::bench::Bench;
use crate::form::Subject;
use ecow::{EcoString, eco_format};

/// Why a value, in base units, is refused, with where: the first of what the project as it stands does not have.
/// `None` where it is not refused, and where the field is no number at all.
pub fn why_refused(bench: &Bench, ask: &Ask, x: f64) -> Option<EcoString> {
    let field = Field::find(bench.project(), &ask.subjects, &ask.key).ok()?;
    let text = field.scale.point(x).text?;
    let why = Way::new(bench, ask, &[]).why_refused(&text)?;
    let are_coats = ask
        .subjects
        .iter()
        .all(|of| matches!(of, Subject::Coat { .. }));
    let is_no_coat = are_coats && ask.key == "thickness" && x <= 0.0;
    Some(if is_no_coat {
        eco_format!("{why}; to see the job without the coat, leave it out by an option")
    } else {
        why
    })
}
