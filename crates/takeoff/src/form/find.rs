//! From a place, as problems and explanations have it, to a thing and a field. Not here: what the
//! places are (see `check`, `doubts`, `explain`).

use super::{Row, Subject, rows};
use crate::problem::{Place, Step};
use crate::project::{Coat, Mix, Named, Project, Side, Wall};
use ecow::EcoString;
use std::collections::HashMap;

/// The thing and the field of a place. Where the thing is not there, what it would stand in.
pub(super) fn find(project: &Project, place: &Place) -> (Subject, Option<EcoString>) {
    let (subject, rest) = subject(project, place.steps());
    let mut rest: Vec<&str> = rest.iter().flat_map(words).collect();
    // The fields of a shape are fields of what has the shape.
    if rest.len() > 1 {
        rest.retain(|word| *word != "shape");
    }
    // A rate is a field of its coat.
    let of_work = matches!(place.steps().first(), Some(Step::Field(field)) if field == "work");
    if of_work && matches!(subject, Subject::Coat { .. }) {
        rest.insert(0, "rate");
    }
    let key = if rest.is_empty() {
        None
    } else {
        key(&rows::all(project, subject), &rest)
    };
    (subject, key)
}

/// What a step adds to a key: `corner left` both words, a rate of a coat that is not there too, another thing
/// its name.
fn words(step: &Step) -> impl Iterator<Item = &str> {
    let (kind, name) = match step {
        Step::Thing(kind @ "corner", name) => (Some(*kind), name),
        Step::Thing("rate", name) => (Some("rates"), name),
        Step::Thing(_, name) | Step::Field(name) => (None, name),
    };
    kind.into_iter().chain(std::iter::once(name.as_str()))
}

/// The thing, and the steps that are left.
fn subject<'s>(project: &Project, steps: &'s [Step]) -> (Subject, &'s [Step]) {
    let Some((first, rest)) = steps.split_first() else {
        return (Subject::Project, steps);
    };
    match first {
        Step::Field(field) if field == "mixer" => (Subject::Mixer, rest),
        Step::Field(field) if field == "buying" => {
            let phases = project.buying.iter().flat_map(|buying| &buying.phases);
            let phases: Vec<_> = phases.collect();
            match part(rest, "phase", &phases, |phase| &phase.name) {
                Some((phase, rest)) => (Subject::Phase(phase), rest),
                None => (Subject::Buying, fields_of(rest)),
            }
        }
        Step::Field(field) if field == "work" => rate(project, rest)
            .or_else(|| of_work(project, rest))
            .unwrap_or((Subject::Work, rest)),
        Step::Field(_) => (Subject::Project, steps),
        Step::Thing(kind, name) => {
            within(project, kind, name, rest).unwrap_or((Subject::Project, &[]))
        }
    }
}

/// What of the work is a thing of its own.
fn of_work<'s>(project: &Project, steps: &'s [Step]) -> Option<(Subject, &'s [Step])> {
    let work = project.work.as_ref()?;
    let Some((Step::Thing(kind, name), rest)) = steps.split_first() else {
        return None;
    };
    let subject = match *kind {
        "preparation" => Subject::Preparation(number(name, work.prepare.len())?),
        "room" => Subject::Room(work.rooms.get_index_of(name)?),
        "drying" => Subject::Dried(number(name, work.dried.len())?),
        _ => return None,
    };
    Some((subject, rest))
}

/// A rate stands at the first coat of its name.
fn rate<'s>(project: &Project, steps: &'s [Step]) -> Option<(Subject, &'s [Step])> {
    let Some(Step::Thing("rate", name)) = steps.first() else {
        return None;
    };
    let coats = |coats: &Vec<Coat>| coats.iter().position(|coat| coat.coat == *name);
    let mut each = (0..).zip(project.build_ups.values());
    let (build_up, coat) = each.find_map(|(at, of)| Some((at, coats(of)?)))?;
    Some((Subject::Coat { build_up, coat }, steps.get(1..)?))
}

fn within<'s>(
    project: &Project,
    kind: &str,
    name: &str,
    rest: &'s [Step],
) -> Option<(Subject, &'s [Step])> {
    fn at<T>(named: &Named<T>, name: &str) -> Option<usize> {
        named.get_index_of(name)
    }
    Some(match kind {
        "background" => (Subject::Background(at(&project.backgrounds, name)?), rest),
        "blend" => (Subject::Blend(at(&project.blends, name)?), rest),
        "supplier" => (Subject::Supplier(at(&project.suppliers, name)?), rest),
        "option" => {
            let alternative = at(&project.options, name)?;
            let (_, of) = project.options.get_index(alternative)?;
            match numbered(rest, "change", of.changes.len()) {
                Some((change, rest)) => {
                    let subject = Subject::Alteration {
                        alternative,
                        change,
                    };
                    (subject, rest)
                }
                None => (Subject::Alternative(alternative), fields_of(rest)),
            }
        }
        "uncertain input" => {
            let at = number(name, project.uncertain.len())?;
            (Subject::Uncertain(at), rest)
        }
        "record" => (Subject::Done(number(name, project.done.len())?), rest),
        "delivery" => {
            let at = number(name, project.delivered.len())?;
            (Subject::Delivered(at), rest)
        }
        "mix" => {
            let mix = at(&project.mixes, name)?;
            let (_, of) = project.mixes.get_index(mix)?;
            match panel(of, rest) {
                Some((panel, rest)) => (Subject::Panel { mix, panel }, rest),
                None => (Subject::Mix(mix), fields_of(rest)),
            }
        }
        "build-up" => {
            let build_up = at(&project.build_ups, name)?;
            let (_, coats) = project.build_ups.get_index(build_up)?;
            match part(rest, "coat", coats, |coat| &coat.coat) {
                Some((coat, rest)) => (Subject::Coat { build_up, coat }, rest),
                None => (Subject::BuildUp(build_up), fields_of(rest)),
            }
        }
        "material" => {
            let material = at(&project.materials, name)?;
            let (_, of) = project.materials.get_index(material)?;
            match part(rest, "package", &of.packages, |package| &package.name) {
                Some((package, rest)) => (Subject::Package { material, package }, rest),
                None => (Subject::Material(material), fields_of(rest)),
            }
        }
        "wall" => {
            let wall = position(&project.walls, name, rest.is_empty(), |wall| &wall.id)?;
            within_wall(project, wall, rest)?
        }
        _ => return None,
    })
}

fn within_wall<'s>(
    project: &Project,
    wall: usize,
    rest: &'s [Step],
) -> Option<(Subject, &'s [Step])> {
    let of = project.walls.get(wall)?;
    Some(
        if let Some((opening, rest)) = part(rest, "opening", &of.openings, |o| &o.id) {
            (Subject::Opening { wall, opening }, rest)
        } else if let Some((pocket, rest)) = pocket(of, rest) {
            (Subject::Pocket { wall, pocket }, rest)
        } else {
            (Subject::Wall(wall), fields_of(rest))
        },
    )
}

/// The things of many places: as [`find`] without the fields, and without a search through all walls for
/// each place.
pub(super) fn subjects<'p>(
    project: &Project,
    places: impl Iterator<Item = &'p Place>,
) -> Vec<Subject> {
    // The first wall of each id, and the last where it stands twice.
    let mut walls: HashMap<&str, [usize; 2]> = HashMap::with_capacity(project.walls.len());
    for (at, wall) in project.walls.iter().enumerate() {
        walls.entry(&wall.id).or_insert([at, at])[1] = at;
    }
    let quick = |place: &Place| {
        let (Step::Thing("wall", id), rest) = place.steps().split_first()? else {
            return None;
        };
        let [first, last] = *walls.get(id.as_str())?;
        let wall = if rest.is_empty() { last } else { first };
        Some(within_wall(project, wall, rest)?.0)
    };
    places
        .map(|place| quick(place).unwrap_or_else(|| subject(project, place.steps()).0))
        .collect()
}

/// The steps, unless they go on in a thing that is not there.
fn fields_of(steps: &[Step]) -> &[Step] {
    match steps.first() {
        Some(Step::Thing(
            "change" | "opening" | "pocket" | "coat" | "package" | "phase" | "test panel",
            _,
        )) => &[],
        _ => steps,
    }
}

/// The part that the next step names, and the steps behind.
fn part<'s, T>(
    steps: &'s [Step],
    kind: &str,
    among: &[T],
    name: impl Fn(&T) -> &EcoString,
) -> Option<(usize, &'s [Step])> {
    match steps.split_first()? {
        (Step::Thing(noun, called), rest) if *noun == kind => {
            Some((position(among, called, rest.is_empty(), name)?, rest))
        }
        _ => None,
    }
}

/// Where a name stands; where a thing as a whole is meant the last, because the last of two of one name
/// is one too many.
fn position<T>(
    among: &[T],
    called: &str,
    whole: bool,
    name: impl Fn(&T) -> &EcoString,
) -> Option<usize> {
    let is = |of: &T| name(of) == called;
    let found = if whole {
        among.iter().rposition(is)
    } else {
        among.iter().position(is)
    };
    found.or_else(|| {
        let number: usize = called.strip_prefix("number ")?.parse().ok()?;
        number.checked_sub(1).filter(|at| *at < among.len())
    })
}

/// A test panel, by its number.
fn panel<'s>(mix: &Mix, steps: &'s [Step]) -> Option<(usize, &'s [Step])> {
    numbered(steps, "test panel", mix.test_panels.len())
}

/// A part that is known by its number.
fn numbered<'s>(steps: &'s [Step], kind: &str, count: usize) -> Option<(usize, &'s [Step])> {
    match steps.split_first()? {
        (Step::Thing(noun, name), rest) if *noun == kind => Some((number(name, count)?, rest)),
        _ => None,
    }
}

/// The position that a number from one stands for: `2`, `number 2`, `2 (thickness of scratch)`.
fn number(name: &str, count: usize) -> Option<usize> {
    let number = name.strip_prefix("number ").unwrap_or(name);
    let number = number.split_once(" (").map_or(number, |(number, _)| number);
    let at = number.parse::<usize>().ok()?.checked_sub(1)?;
    (at < count).then_some(at)
}

/// A pocket: `pocket number 2`, or by the face it is in. Then it is the first on that face of which
/// the field cannot be, else the first.
fn pocket<'s>(wall: &Wall, steps: &'s [Step]) -> Option<(usize, &'s [Step])> {
    let (first, rest) = steps.split_first()?;
    match first {
        Step::Thing("pocket", number) => {
            let number = number.strip_prefix("number ").unwrap_or(number);
            let at = number.parse::<usize>().ok()?.checked_sub(1)?;
            (at < wall.pockets.len()).then_some((at, rest))
        }
        Step::Field(side) => {
            let side = Side::from_word(side)?;
            let (second, rest) = rest.split_first()?;
            if *second != Step::Field("pocket".into()) {
                return None;
            }
            let field = rest.first().and_then(|step| words(step).next());
            let in_face = wall.pockets.iter().enumerate();
            let mut in_face = in_face.filter(|(_, pocket)| pocket.face == side);
            let wrong = in_face.clone().find(|(_, pocket)| {
                let sound = |of: f64| of.is_finite() && of > 0.0;
                !match field {
                    Some("width") => sound(pocket.width.value().value),
                    Some("height") => sound(pocket.height.value().value),
                    Some("depth") => sound(pocket.depth.value().value),
                    Some("count") => pocket.count != Some(0),
                    _ => true,
                }
            });
            let (at, _) = wrong.or_else(|| in_face.next())?;
            Some((at, rest))
        }
        Step::Thing(..) => None,
    }
}

/// Places that stand for a row of another name.
const ALIASES: &[(&str, &str)] = &[
    ("faces", "outside"),
    ("frame", "frame.depth"),
    ("outside.left", "outside.corner.left"),
    ("outside.right", "outside.corner.right"),
    ("inside.left", "inside.corner.left"),
    ("inside.right", "inside.corner.right"),
];

/// The row of a place in a thing, or the nearest: the first below it, else the same field of the thing
/// itself, else what it is part of.
fn key(rows: &[Row], steps: &[&str]) -> Option<EcoString> {
    let exact = |key: &str| rows.iter().find(|row| row.key == key);
    let below = |key: &str| {
        let under = |row: &&Row| {
            let rest = row.key.strip_prefix(key);
            rest.is_some_and(|rest| rest.starts_with('.'))
        };
        rows.iter().find(under)
    };
    let whole = steps.join(".");
    let other = ALIASES.iter().find(|(place, _)| *place == whole);
    let found = other
        .and_then(|(_, key)| exact(key))
        .or_else(|| exact(&whole))
        .or_else(|| below(&whole))
        .or_else(|| steps.last().and_then(|last| exact(last)))
        .or_else(|| {
            let shorter = (1..steps.len()).rev();
            let mut shorter = shorter.filter_map(|n| steps.get(..n));
            shorter.find_map(|steps| {
                let key = steps.join(".");
                exact(&key).or_else(|| below(&key))
            })
        });
    let found = found.or_else(|| {
        let corner = steps.first().is_some_and(|step| step.starts_with("corner"));
        corner.then(|| exact("corners")).flatten()
    });
    found.map(|row| row.key.clone())
}
