//! What differs from wall to wall, by build-up or by background, and which entry says so. Not here: what is off on
//! all walls together, and the factors of the faces (see `super::super::faces`).

use super::{matters, source, within};
use crate::chances::defaults;
use crate::chances::faces::Faces;
use crate::chances::inputs::Input;
use crate::chances::nonsense;
use crate::chances::target::Target;
use crate::check::uncertain::{Entry, thing};
use crate::compare::One;
use crate::project::{Name, UncertainInput};
use crate::sources::OURS;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{UnitSystem, fixed};

/// What differs from wall to wall, of one kind.
///
/// Build-ups whose coats have it from the same entries are one input: their factors are drawn each by itself, and who
/// would make them less has that entry to look at.
#[derive(Debug, Default)]
pub(in crate::chances) struct Walls {
    /// By build-up or background: standard deviation of the factor, from face to face.
    pub(in crate::chances) sds: Vec<f64>,
    /// By build-up or background: which of `said` it goes into; `None` where nothing differs.
    pub(in crate::chances) input: Vec<Option<usize>>,
    /// The inputs in words.
    pub(in crate::chances) said: Vec<Input>,
}

/// One number with how far it is off from wall to wall.
#[derive(Debug)]
struct Number<'p> {
    name: &'p Name,
    target: Target,
    sd: f64,
    /// Position of the entry that says so; `None` of a default.
    entry: Option<usize>,
}

impl Walls {
    /// Thickness. All coats of a face have one factor: its standard deviation is the mean of those of the coats,
    /// each weighing as much as its thickness.
    pub(super) fn of_thickness(one: &One<'_>, faces: &Faces, entries: &[Entry<'_>]) -> Self {
        let mut numbers = numbers(one, faces, entries, UncertainInput::Thickness);
        numbers.retain(|number| number.target.value(one.site).is_some_and(|has| has > 0.0));
        let each = one.site.build_ups.iter().enumerate().map(|(b, layers)| {
            let thickness = |c: usize| layers.get(c)?.thickness.map(|t| t.value);
            let whole: f64 = (0..layers.len()).filter_map(thickness).sum();
            let own = numbers.iter().filter(|number| number.target.at.0 == b);
            let off: f64 = own
                .filter_map(|number| Some(number.sd * thickness(number.target.at.1)?))
                .sum();
            if whole > 0.0 { off / whole } else { 0.0 }
        });
        let sds = each.collect();
        Self::new(one, entries, &numbers, sds, UncertainInput::Thickness)
    }

    /// Dubbing out, where there is some depth.
    pub(super) fn of_dubbing_out(
        one: &One<'_>,
        faces: &Faces,
        entries: &[Entry<'_>],
        mean_depth: &[f64],
    ) -> Self {
        let mut numbers = numbers(one, faces, entries, UncertainInput::DubbingOut);
        numbers.retain(|number| {
            let depth = mean_depth.get(number.target.at.0);
            depth.is_some_and(|depth| *depth > 0.0)
        });
        let mut sds = vec![0.0; mean_depth.len()];
        for number in &numbers {
            if let Some(sd) = sds.get_mut(number.target.at.0) {
                *sd = number.sd;
            }
        }
        Self::new(one, entries, &numbers, sds, UncertainInput::DubbingOut)
    }

    /// Gathers what is said by the same entries into one input.
    fn new(
        one: &One<'_>,
        entries: &[Entry<'_>],
        numbers: &[Number<'_>],
        mut sds: Vec<f64>,
        of: UncertainInput,
    ) -> Self {
        let mut groups: Vec<(Vec<Option<usize>>, Vec<usize>)> = Vec::new();
        for (at, sd) in sds.iter_mut().enumerate() {
            if !(sd.is_finite() && *sd > 0.0) {
                *sd = 0.0;
                continue;
            }
            let own = numbers.iter().filter(|number| number.target.at.0 == at);
            let mut said_by: Vec<Option<usize>> = own.map(|number| number.entry).collect();
            said_by.sort_unstable();
            said_by.dedup();
            match groups.iter_mut().find(|(by, _)| *by == said_by) {
                Some((_, all)) => all.push(at),
                None => groups.push((said_by, vec![at])),
            }
        }
        let mut input = vec![None; sds.len()];
        let mut said = Vec::new();
        for (said_by, members) in &groups {
            for at in members {
                if let Some(input) = input.get_mut(*at) {
                    *input = Some(said.len());
                }
            }
            let own: Vec<&Number<'_>> = numbers
                .iter()
                .filter(|number| members.contains(&number.target.at.0))
                .collect();
            let names = if groups.len() == 1 {
                None
            } else {
                Some(names(one, numbers, &own))
            };
            let said_by: Vec<Option<&Entry<'_>>> = said_by
                .iter()
                .map(|at| at.and_then(|at| entries.get(at)))
                .collect();
            said.push(words(
                of,
                &own,
                names.as_deref(),
                &said_by,
                one.project.units,
            ));
        }
        Self { sds, input, said }
    }
}

/// Every number of a kind: by the entry of its name, else by that of all, else by default.
fn numbers<'p>(
    one: &One<'p>,
    faces: &Faces,
    entries: &[Entry<'_>],
    of: UncertainInput,
) -> Vec<Number<'p>> {
    let says_something = |entry: &Entry<'_>| {
        entry.typed.of == of && !(entry.together.is_empty() && entry.wall_to_wall.is_empty())
    };
    let own = || {
        entries
            .iter()
            .enumerate()
            .filter(|(_, e)| says_something(e))
    };
    let all = Target::all(one.project, of).into_iter();
    let all = all.filter(|(_, target)| matters(one, faces, *target));
    let each = all.map(|(name, target)| {
        let by_name = own().find(|(_, e)| e.typed.name.as_ref() == Some(name));
        let entry = by_name.or_else(|| own().find(|(_, e)| e.typed.name.is_none()));
        // That walls do not differ is said by 0 %; who says nothing of it has not thought of it.
        let said = entry.and_then(|(at, entry)| {
            let mut sds = entry.wall_to_wall.iter();
            let (_, sd) = sds.find(|(own, _)| *own == target)?;
            Some((at, *sd))
        });
        Number {
            name,
            target,
            sd: said.map_or_else(|| defaults::wall_to_wall(of), |(_, sd)| sd),
            entry: said.map(|(at, _)| at),
        }
    });
    each.collect()
}

/// What some numbers are of: their coats or backgrounds, or the build-ups where others have coats of these names too.
fn names<'p>(one: &One<'p>, all: &[Number<'p>], own: &[&Number<'p>]) -> Vec<&'p str> {
    let mut names: Vec<&str> = Vec::new();
    for number in own {
        if !names.contains(&number.name.as_str()) {
            names.push(number.name);
        }
    }
    let is_own = |number: &Number<'_>| own.iter().any(|of| of.target == number.target);
    let is_shared = |number: &Number<'_>| !is_own(number) && names.contains(&number.name.as_str());
    if !all.iter().any(is_shared) {
        return names;
    }
    let build_ups = one.project.build_ups.keys().enumerate();
    let build_ups = build_ups.filter(|(b, _)| own.iter().any(|of| of.target.at.0 == *b));
    build_ups.map(|(_, name)| name.as_str()).collect()
}

/// One input in words: `thickness of scratch and fill from wall to wall`; of everything where no names are given.
fn words(
    of: UncertainInput,
    own: &[&Number<'_>],
    names: Option<&[&str]>,
    said_by: &[Option<&Entry<'_>>],
    units: UnitSystem,
) -> Input {
    let first = own.first().map_or("", |number| number.name.as_str());
    let what = match names {
        Some([first @ .., last]) if !first.is_empty() => {
            eco_format!("{} and {last}", first.join(", "))
        }
        Some([one]) => EcoString::from(*one),
        _ if own.iter().all(|number| number.name == first) => first.into(),
        _ => eco_format!("every {}", thing(of)),
    };
    let percent = |sd: f64| fixed(sd * 100.0, 0, units.grouping());
    let sds = || own.iter().map(|number| number.sd);
    let least = percent(sds().fold(f64::INFINITY, f64::min));
    let most = percent(sds().fold(0.0, f64::max));
    let between = if least == most {
        eco_format!("{most} %")
    } else {
        eco_format!("{least} % to {most} %")
    };
    let sources = said_by
        .iter()
        .map(|entry| entry.map_or(OURS.into(), source));
    let mut said: Vec<EcoString> = Vec::new();
    for source in sources {
        if !said.contains(&source) {
            said.push(source);
        }
    }
    // What the project says before what is ours.
    said.sort_by_key(|source| source == OURS);
    let mut typed = said_by.iter().flatten();
    Input {
        words: eco_format!("{} of {what} from wall to wall", of.word()),
        spread: within(&between),
        is_default: said_by.iter().all(Option::is_none),
        source: said.join("; ").into(),
        is_wall_to_wall: true,
        nonsense: typed.find_map(|entry| nonsense::wall_to_wall(entry)),
    }
}
