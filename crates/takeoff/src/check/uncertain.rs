//! How far inputs may be off, as the project says. Not here: what is taken when it says nothing, and what
//! follows (see `crate::chances`).

use super::values::Values;
use crate::chances::Target;
use crate::checked::Site;
use crate::problem::Place;
use crate::project::{Name, Project, Uncertain, UncertainInput};
use ecow::{EcoString, eco_format};
use hodful_chance::Spread;
use hodful_quantities::Typed;
use hodful_quantities::read::Level;
use std::iter::zip;

/// What one entry says.
#[derive(Debug)]
pub(crate) struct Entry<'p> {
    /// Its number in the project, from 1.
    pub(crate) number: usize,
    /// As typed.
    pub(crate) typed: &'p Uncertain,
    /// Everything that it is about, each with how far it may be off, all off together; nothing when it tells of
    /// walls only. In millimetres or as a share.
    pub(crate) together: Vec<(Target, Spread)>,
    /// The same from wall to wall, as standard deviations of a factor about 1.
    pub(crate) wall_to_wall: Vec<(Target, f64)>,
}

/// Looks the uncertain inputs over.
pub(crate) fn check(project: &Project, site: &Site, values: &mut Values) {
    entries(project, site, values);
}

/// Every entry, in the order of the project; nothing where something of it is refused.
pub(crate) fn entries<'p>(
    project: &'p Project,
    site: &Site,
    values: &mut Values,
) -> Vec<Option<Entry<'p>>> {
    let each = zip(1.., &project.uncertain).map(|(number, typed)| {
        let place = place(number, typed);
        let before = values.count_of_problems();
        let mut others = project.uncertain.iter().take(number - 1);
        if others.any(|other| other.of == typed.of && other.name == typed.name) {
            let message = "stands twice; say it once how far an input may be off";
            values.refuse(place.clone(), message);
        }
        let targets = targets(project, typed, &place, values);
        levels(typed, &place, values);
        forms(typed, &place, values);
        if values.count_of_problems() > before {
            return None;
        }
        let mut entry = Entry {
            number,
            typed,
            together: Vec::new(),
            wall_to_wall: Vec::new(),
        };
        for target in targets {
            let Some(has) = target.value(site) else {
                continue;
            };
            match spread(typed, has) {
                Ok(spread) => entry.together.extend(spread.map(|spread| (target, spread))),
                Err((field, message)) => {
                    values.refuse(place.field(field), message);
                    return None;
                }
            }
            let middle = entry.together.last().map_or(has, |(_, of)| of.mean());
            if let Some(level) = &typed.wall_to_wall {
                let share = match level.value() {
                    Level::Share(share) => share,
                    Level::Length(length) if middle > 0.0 => length.value / middle,
                    Level::Length(_) => 0.0,
                };
                entry.wall_to_wall.push((target, share));
            }
        }
        Some(entry)
    });
    each.collect()
}

/// What an entry is about, in words: `thickness of scratch`, `loss of every coat`.
pub(crate) fn words(of: &Uncertain) -> EcoString {
    let what = of.of.word();
    of.name.as_ref().map_or_else(
        || eco_format!("{what} of every {}", thing(of.of)),
        |name| eco_format!("{what} of {name}"),
    )
}

/// Where an entry stands: by its number and by what it is about.
pub(crate) fn place(number: usize, of: &Uncertain) -> Place {
    Place::project().thing("uncertain input", eco_format!("{number} ({})", words(of)))
}

/// Everything that an entry is about; a name that nothing has is refused.
fn targets(
    project: &Project,
    typed: &Uncertain,
    place: &Place,
    values: &mut Values,
) -> Vec<Target> {
    let all = Target::all(project, typed.of);
    let Some(name) = &typed.name else {
        return all.into_iter().map(|(_, target)| target).collect();
    };
    let own = all.iter().filter(|(of, _)| *of == name);
    let own: Vec<Target> = own.map(|(_, target)| *target).collect();
    if own.is_empty() {
        let mut names: Vec<&Name> = Vec::new();
        for (name, _) in all {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        let place = place.field("name");
        values.missing(&place, thing(typed.of), name, names.into_iter());
    }
    own
}

/// What an input is of.
pub(crate) fn thing(of: UncertainInput) -> &'static str {
    match of {
        UncertainInput::Thickness | UncertainInput::Shrinkage | UncertainInput::Loss => "coat",
        UncertainInput::DubbingOut => "background",
        UncertainInput::Yield => "mix",
        UncertainInput::Moisture | UncertainInput::Bulking | UncertainInput::Reject => "material",
    }
}

/// Whether an input is a length, of which a share is a share of what the project has.
pub(crate) fn is_length(of: UncertainInput) -> bool {
    matches!(of, UncertainInput::Thickness | UncertainInput::DubbingOut)
}

/// Every level by itself.
fn levels(typed: &Uncertain, place: &Place, values: &mut Values) {
    let lengths = is_length(typed.of);
    let whole = matches!(
        typed.of,
        UncertainInput::Shrinkage | UncertainInput::Loss | UncertainInput::Reject
    );
    for (field, level, is_value) in [
        ("lowest", &typed.lowest, true),
        ("likely", &typed.likely, true),
        ("highest", &typed.highest, true),
        ("mean", &typed.mean, true),
        ("spread", &typed.spread, false),
        ("wall_to_wall", &typed.wall_to_wall, false),
    ] {
        let Some(level) = level else { continue };
        let text = level.text();
        let mut refuse = |why: &str| {
            values.refuse(place.field(field), eco_format!("'{text}' {why}"));
        };
        let value = match level.value() {
            Level::Length(_) if !lengths => {
                refuse(if is_value {
                    "is a length; give a share, 8 % or 0.8"
                } else {
                    "is a length; give points of the share, 2 % or 0.02"
                });
                continue;
            }
            Level::Length(length) => length.value,
            Level::Share(share) => share,
        };
        if !value.is_finite() || value < 0.0 {
            refuse("is negative");
        } else if is_value && whole && value >= 1.0 {
            refuse("must be at least 0 % and under 100 %");
        } else if is_value && typed.of == UncertainInput::Yield && value <= 0.0 {
            refuse("must be more than 0");
        }
    }
}

/// What is given and what is not.
fn forms(typed: &Uncertain, place: &Place, values: &mut Values) {
    let mut refuse = |field: &'static str, message: &'static str| {
        values.refuse(place.field(field), message);
    };
    let is_measured = typed.mean.is_some() || typed.spread.is_some();
    match (&typed.lowest, &typed.highest) {
        (Some(_), None) => refuse("highest", "is missing; give it with the lowest"),
        (None, Some(_)) => refuse("lowest", "is missing; give it with the highest"),
        (None, None) if typed.likely.is_some() && !is_measured => {
            refuse(
                "likely",
                "stands alone; give the lowest and the highest too",
            );
        }
        _ => {}
    }
    let points = [&typed.lowest, &typed.likely, &typed.highest];
    if is_measured && points.iter().any(|level| level.is_some()) {
        let message =
            "stands beside lowest, likely or highest; give three points, or a mean and its spread";
        let field = if typed.mean.is_some() {
            "mean"
        } else {
            "spread"
        };
        refuse(field, message);
    } else if typed.mean.is_some() && typed.spread.is_none() {
        refuse("spread", "is missing; give it with the mean");
    }
    if typed.wall_to_wall.is_some() && !is_length(typed.of) {
        refuse(
            "wall_to_wall",
            "is of thickness and dubbing out only; leave it out",
        );
    }
}

/// How far a number may be off that the project has at `has`; `None` when the entry tells of walls only.
fn spread(typed: &Uncertain, has: f64) -> Result<Option<Spread>, (&'static str, EcoString)> {
    let value = |level: &Option<Typed<Level>>| {
        let level = level.as_ref()?.value();
        Some(match level {
            Level::Length(length) => length.value,
            Level::Share(share) if is_length(typed.of) => share * has,
            Level::Share(share) => share,
        })
    };
    let text = |level: &Option<Typed<Level>>| level.as_ref().map_or("", |of| of.text()).to_owned();
    if let (Some(lowest), Some(highest)) = (value(&typed.lowest), value(&typed.highest)) {
        let likely = value(&typed.likely).unwrap_or(has);
        let beside = if typed.likely.is_some() {
            eco_format!("'{}'", text(&typed.likely))
        } else {
            "what the project has".into()
        };
        if lowest > highest {
            let message = eco_format!(
                "'{}' is above the highest, '{}'; put them in order",
                text(&typed.lowest),
                text(&typed.highest)
            );
            return Err(("lowest", message));
        }
        if lowest > likely {
            let message = eco_format!(
                "'{}' is above the likeliest, {beside}; put them in order",
                text(&typed.lowest)
            );
            return Err(("lowest", message));
        }
        if likely > highest {
            let message = eco_format!(
                "'{}' is below the likeliest, {beside}; put them in order",
                text(&typed.highest)
            );
            return Err(("highest", message));
        }
        let spread = Spread::triangular(lowest, likely, highest);
        return spread
            .map(Some)
            .map_err(|fault| ("highest", eco_format!("{fault}")));
    }
    let Some(sd) = value(&typed.spread) else {
        return Ok(None);
    };
    let mean = value(&typed.mean).unwrap_or(has);
    let spread = Spread::normal(mean, sd);
    spread
        .map(Some)
        .map_err(|fault| ("spread", eco_format!("{fault}")))
}
