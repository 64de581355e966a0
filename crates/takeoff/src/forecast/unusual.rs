//! Records that tell of far more or less than was worked out, which a slip of the pen makes. Not here: records that
//! cannot be (see `check::done`), and what is learned from those that can.

use super::faces::Seen;
use crate::check::done::records;
use crate::check::values::Values;
use crate::checked::FindWall;
use crate::compare::One;
use crate::problem::{Place, Problem};
use ecow::eco_format;

/// A coat that took so many times what was worked out, or as many times less, is looked at again: ours, no source. The
/// widest of our own spreads reach half as far.
const FAR: f64 = 3.0;

/// A doubt for each record that is far off. It is about the entry as a whole: the coat, the walls or the amount may be
/// the slip.
pub(crate) fn doubts(one: &One<'_>, walls: &dyn FindWall) -> Vec<Problem> {
    let all = records(one.project, one.site.mixer.as_ref(), &mut Values::default());
    let seen = all.into_iter().flatten();
    let seen = seen.filter_map(|record| Seen::of(one, walls, record));
    let far = seen.filter_map(|seen| {
        let times = seen.record.took.mixed.value / seen.spread.sum;
        let place = Place::project().thing("record", eco_format!("{}", seen.record.number));
        (!(1.0 / FAR..=FAR).contains(&times)).then(|| {
            let words = eco_format!(
                "{} took {times:.2} times what was worked out for these walls; all that is left is forecast by it: check the amount, the coat and the walls",
                seen.record.coat
            );
            Problem::doubtful(place.field("took"), words, None)
        })
    });
    far.collect()
}
