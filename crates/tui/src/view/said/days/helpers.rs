//! What is said of a weekend with helpers: what fits, what must be ready before, who does what. Not here: planning it,
//! and its sentences (see `hodful_takeoff::days`).

use super::Said;
use crate::State;
use crate::state::OnSite;
use ecow::{EcoString, eco_format};
use hodful_quantities::print;
use hodful_takeoff::days::WeekendAhead;

/// The first weekend with helpers.
pub(super) fn weekend(state: &State, on_site: &OnSite, said: &mut Vec<Said>) {
    let units = state.units();
    let of = match &on_site.weekend {
        Ok(of) => of,
        Err(why) => {
            said.push(Said::Bad(eco_format!("It cannot be planned: {why}.")));
            return;
        }
    };
    said.push(Said::Head("The first weekend with helpers".into()));
    said.push(Said::Words(of.fits(units)));
    said.push(Said::words(
        "The people are those of the work. Others: hodful plan --weekend DAYS --begins DATE --people COUNT.",
    ));
    said.push(Said::Gap);
    said.push(Said::Head("Ready before they come".into()));
    if of.before.is_empty() {
        said.push(Said::words(WeekendAhead::NOTHING_TO_PREPARE));
    }
    for ahead in &of.before {
        let hours = print::fixed(ahead.hours, 1, units.grouping());
        said.push(Said::Pair(
            ahead.what.clone(),
            eco_format!("{hours} hours of people, done by {}", ahead.by()),
        ));
    }
    for mix in &of.mixes {
        said.push(Said::Words(eco_format!("{}:", of.heaps(mix, units))));
        for (name, quantity) in &mix.materials {
            let loose = quantity
                .loose
                .map(|of| eco_format!("{}", print::bulk_volume(of, units)));
            let mass = quantity
                .mass
                .map(|of| eco_format!("{}", print::mass(of, units)));
            let both: Vec<EcoString> = loose.into_iter().chain(mass).collect();
            said.push(Said::Pair(name.clone(), both.join(", ").into()));
        }
    }
    said.push(Said::Gap);
    said.push(Said::Head("Who does what".into()));
    said.extend(of.who(units).into_iter().map(Said::Words));
    if let Some(left) = of.left() {
        said.push(Said::Gap);
        said.push(Said::Words(left));
    }
}
