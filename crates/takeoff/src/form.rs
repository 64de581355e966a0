//! Every field of every thing of a project: listed, read from typed text, set, and found by place.
//!
//! One table of fields a record feeds all of these. A field has a key, which is the dotted text by which
//! a [`Place`] names it, and a text as typed. Not here: whether a value makes sense where it stands (see
//! [`crate::check()`]), adding and removing things, and how fields look on a screen.

mod find;
pub(crate) mod held;
mod ranges;
mod rename;
mod rows;
mod set;
mod shape;
pub(crate) mod tables;
#[cfg(test)]
pub(crate) mod tests;
mod understand;

use crate::problem::Place;
use crate::project::{Name, Project};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;
pub(crate) use rename::{Kind as Renamed, mentioned};

/// What a field belongs to, by positions in the project.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Subject {
    /// The project itself.
    Project,
    /// The mixer.
    Mixer,
    /// A background.
    Background(usize),
    /// A build-up.
    BuildUp(usize),
    /// A coat of a build-up.
    Coat {
        /// Position of the build-up.
        build_up: usize,
        /// Position of the coat in it.
        coat: usize,
    },
    /// A mix.
    Mix(usize),
    /// A material.
    Material(usize),
    /// A package of a material.
    Package {
        /// Position of the material.
        material: usize,
        /// Position of the package in it.
        package: usize,
    },
    /// A test panel of a mix.
    Panel {
        /// Position of the mix.
        mix: usize,
        /// Position of the panel in it.
        panel: usize,
    },
    /// A blend.
    Blend(usize),
    /// A supplier.
    Supplier(usize),
    /// How the order is placed.
    Buying,
    /// A phase of the order.
    Phase(usize),
    /// An option.
    Alternative(usize),
    /// A change of an option.
    Alteration {
        /// Position of the option.
        alternative: usize,
        /// Position of the change in it.
        change: usize,
    },
    /// The work on site.
    Work,
    /// Something that is prepared before the first coat.
    Preparation(usize),
    /// A room that coats dry into.
    Room(usize),
    /// A record of how long a coat took to dry.
    Dried(usize),
    /// An uncertain input.
    Uncertain(usize),
    /// A record of a coat that was put on.
    Done(usize),
    /// A record of material that came.
    Delivered(usize),
    /// A wall.
    Wall(usize),
    /// An opening of a wall.
    Opening {
        /// Position of the wall.
        wall: usize,
        /// Position of the opening in it.
        opening: usize,
    },
    /// A pocket of a wall.
    Pocket {
        /// Position of the wall.
        wall: usize,
        /// Position of the pocket in it.
        pocket: usize,
    },
}

/// What the keys of the rates of a coat begin with, which belong to the work on site.
pub(crate) const RATE: &str = "rate.";

/// What the keys of rates of the work itself begin with, before the name of a coat that is not there.
pub(crate) const RATES: &str = "rates.";

/// One field of a thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The field, as [`Place`] names it: `sill`, `frame.depth`, `outside.radius`.
    pub key: EcoString,
    /// The heading it stands under; empty for the fields of the thing itself.
    pub group: &'static str,
    /// The field in a word or two.
    pub label: EcoString,
    /// The field at length: what is measured, from where.
    pub doc: &'static str,
    /// What may be typed.
    pub kind: Kind,
    /// What was typed; `None` when not given.
    pub text: Option<EcoString>,
    /// Whether it may be left empty.
    pub optional: bool,
    /// What holds when it is not given, in words.
    pub default: Option<EcoString>,
}

/// What may be typed in a field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Kind {
    /// A length.
    Length,
    /// An area.
    Area,
    /// A length shown as a thickness.
    Thickness,
    /// An angle.
    Angle,
    /// A share, in percent.
    Share,
    /// A mass per loose volume.
    Density,
    /// A mass per volume that a mix takes.
    Dose,
    /// A volume.
    Volume,
    /// A volume, a mass, or a number of packages.
    Amount,
    /// Plaster as mixed: a volume, or a number of batches or buckets.
    Mixed,
    /// A mass.
    Mass,
    /// A length, or a share of what the project has.
    Level,
    /// A span of time.
    Time,
    /// A temperature.
    Temperature,
    /// A day of the calendar.
    Day,
    /// Days of the calendar, with commas between them.
    Days,
    /// Where a face looks to: `south`, `SW`, `225`.
    Facing,
    /// Bounds of a share: `8 % to 12 %`, `at least 8 %`, `any`.
    ShareRange,
    /// Bounds of a number: `2 to 3`.
    NumberRange,
    /// Sieves and what passes them: `2 mm 98 %; 0.06 mm 40 %`.
    Sieves,
    /// Sieves and bounds of what passes them: `2 mm 90 % to 100 %; 0.5 mm 40 % to 60 %`.
    SieveRanges,
    /// A price.
    Money,
    /// A plain number.
    Number,
    /// A whole number of things.
    Count,
    /// Any words.
    Text,
    /// A short name of a thing.
    Id,
    /// One of some words, or of the names in the project.
    OneOf(Vec<EcoString>),
    /// Some of some words, with commas between them.
    SomeOf(Vec<EcoString>),
    /// Corners of a polygon: `x,y; x,y`, each a length.
    Corners,
}

/// A typed text as it was understood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Understood {
    /// What is stored: as typed, with the unit added to a bare number.
    pub stored: EcoString,
    /// What it means: `= 12' 6 1/2"`, or the word that was meant.
    pub shown: String,
}

/// The fields of a thing that can be filled in as it stands; none when the thing is not there.
///
/// A mixer that is not there has its fields, to be given; a bare face, a corner and a reveal that are
/// not there have only the field that makes them.
pub fn rows(project: &Project, subject: Subject) -> Vec<Row> {
    rows::all(project, subject)
}

/// Reads a typed text for a field, in the units of a project.
///
/// A bare number is inches or millimetres where a length is wanted, degrees where an angle is, and
/// percent where a share is and the number is 1 or more (under 1 it is a share as it stands: `0.22` is
/// 22 %, as in a project file). The unit is added to what is stored; else the text is kept to the
/// letter, except that words and names lose outer blanks and are completed: the beginning of a word is
/// enough where only one begins so.
///
/// # Errors
/// In words, what is wrong with the text and what would be right.
///
/// ```
/// use hodful_quantities::print::UnitSystem;
/// use hodful_takeoff::form::{Kind, understand};
/// let sill = understand(&Kind::Length, "381", UnitSystem::Metric)?;
/// assert_eq!((&*sill.stored, &*sill.shown), ("381 mm", "= 0.381 m"));
/// let sill = understand(&Kind::Length, "27", UnitSystem::Us)?;
/// assert_eq!((&*sill.stored, &*sill.shown), ("27\"", "= 2' 3\""));
/// let shape = Kind::OneOf(vec!["rectangle".into(), "gable".into()]);
/// assert_eq!(understand(&shape, "ga", UnitSystem::Us)?.shown, "gable");
/// assert_eq!(
///     understand(&shape, "round", UnitSystem::Us).unwrap_err(),
///     "'round' is none of rectangle and gable",
/// );
/// # Ok::<(), ecow::EcoString>(())
/// ```
pub fn understand(kind: &Kind, text: &str, units: UnitSystem) -> Result<Understood, EcoString> {
    understand::understand(kind, text, units)
}

/// Sets one field from typed text; a blank text clears a field that may be left empty.
///
/// What must be there is made: a face takes background and build-up of the nearest wall before (or else
/// behind) whose same side is plastered, a frame its other measure from the nearest opening
/// before that has one (or else the last), a reveal its plastered parts likewise. What becomes empty is taken away. Where two fields
/// exclude one another, the one set takes the other's place. A new name of a background, build-up, mix,
/// material or package goes to all that name it. A kind of shape turns the shape into that kind, with
/// what both have. A face made bare takes its corners, and the reveals on that side, with it.
///
/// A key of a field that is not among [`rows`] only because what it belongs to is not there can be set
/// as well: `outside.radius` makes the reveal.
///
/// # Errors
/// In words, why it cannot be set; the project is then as it was.
pub fn set(
    project: &mut Project,
    subject: Subject,
    key: &str,
    text: &str,
) -> Result<(), EcoString> {
    let Some(row) = rows::one(project, subject, key) else {
        return Err(held::no_field(key));
    };
    let stored = if text.trim().is_empty() {
        match row.text {
            None => return Ok(()),
            Some(_) if !row.optional => {
                return Err(eco_format!("{} {}", row.label, held::NEEDED));
            }
            Some(_) => None,
        }
    } else if row.text.as_deref() == Some(text) {
        return Ok(());
    } else {
        Some(understand(&row.kind, text, project.units)?.stored)
    };
    set::put_text(project, subject, key, stored.as_deref())
}

/// The thing a place is about, and the key of the row of its field, or of the nearest, when it has one.
///
/// Where a thing is not there, or the place is a list of things, what it stands in. Of two of one name,
/// the first; the last where the place is that thing as a whole, because then it is one too many. A
/// pocket, which a place tells by its face, is the first on that face of which the field cannot be, or
/// else the first.
pub fn find(project: &Project, place: &Place) -> Option<(Subject, Option<EcoString>)> {
    Some(find::find(project, place))
}

/// The things that many places are about, in their order: as [`find`], without the fields.
pub fn subjects<'p>(project: &Project, places: impl Iterator<Item = &'p Place>) -> Vec<Subject> {
    find::subjects(project, places)
}

/// The thing in words: `wall S`, `opening W1 of wall S`; empty when it is not there.
pub fn title(project: &Project, subject: Subject) -> EcoString {
    title_of(project, subject).unwrap_or_default()
}

fn title_of(project: &Project, subject: Subject) -> Option<EcoString> {
    let wall = |i: usize| project.walls.get(i);
    Some(match subject {
        Subject::Project => "project".into(),
        Subject::Mixer => "mixer".into(),
        Subject::Background(i) => {
            eco_format!("background {}", project.backgrounds.get_index(i)?.0)
        }
        Subject::BuildUp(i) => eco_format!("build-up {}", project.build_ups.get_index(i)?.0),
        Subject::Coat { build_up, coat } => {
            let (name, coats) = project.build_ups.get_index(build_up)?;
            eco_format!("coat {} of {name}", coats.get(coat)?.coat)
        }
        Subject::Mix(i) => eco_format!("mix {}", project.mixes.get_index(i)?.0),
        Subject::Material(i) => eco_format!("material {}", project.materials.get_index(i)?.0),
        Subject::Package { material, package } => {
            let (name, of) = project.materials.get_index(material)?;
            eco_format!("package {} of {name}", of.packages.get(package)?.name)
        }
        Subject::Panel { mix, panel } => {
            let (name, of) = project.mixes.get_index(mix)?;
            of.test_panels.get(panel)?;
            eco_format!("test panel {} of mix {name}", panel.saturating_add(1))
        }
        Subject::Blend(i) => eco_format!("blend {}", project.blends.get_index(i)?.0),
        Subject::Supplier(i) => eco_format!("supplier {}", project.suppliers.get_index(i)?.0),
        Subject::Buying => "order".into(),
        Subject::Phase(i) => {
            let phase = project.buying.as_ref()?.phases.get(i)?;
            eco_format!("phase {}", phase.name)
        }
        Subject::Alternative(i) => eco_format!("option {}", project.options.get_index(i)?.0),
        Subject::Alteration {
            alternative,
            change,
        } => {
            let (name, of) = project.options.get_index(alternative)?;
            of.changes.get(change)?;
            eco_format!("change {} of option {name}", change.saturating_add(1))
        }
        Subject::Work => "work on site".into(),
        Subject::Preparation(i) => {
            let of = project.work.as_ref()?.prepare.get(i)?;
            eco_format!("preparing: {}", of.what.word())
        }
        Subject::Room(i) => {
            eco_format!("room {}", project.work.as_ref()?.rooms.get_index(i)?.0)
        }
        Subject::Dried(i) => {
            let of = project.work.as_ref()?.dried.get(i)?;
            eco_format!("drying of {} {}, {}", of.wall, of.face.word(), of.coat)
        }
        Subject::Uncertain(i) => {
            let of = project.uncertain.get(i)?;
            let whose = of.name.as_deref().unwrap_or("all");
            eco_format!("{} of {whose}", of.of.word())
        }
        Subject::Done(i) => {
            let of = project.done.get(i)?;
            eco_format!("record {}: {}", i.saturating_add(1), of.coat)
        }
        Subject::Delivered(i) => {
            let of = project.delivered.get(i)?;
            eco_format!("delivery {}: {}", i.saturating_add(1), of.material)
        }
        Subject::Wall(i) => eco_format!("wall {}", wall(i)?.id),
        Subject::Opening { wall: i, opening } => {
            let of = wall(i)?;
            eco_format!("opening {} of wall {}", of.openings.get(opening)?.id, of.id)
        }
        Subject::Pocket { wall: i, pocket } => {
            let of = wall(i)?;
            of.pockets.get(pocket)?;
            eco_format!("pocket {} of wall {}", pocket.saturating_add(1), of.id)
        }
    })
}

/// A name like one that no wall, opening, background, build-up, mix, material, blend or supplier of the
/// project has:
/// `like` itself when it is free, else with the next number: `S` gives `S2`, `W1` gives `W2`,
/// `inside bale` gives `inside bale 2`.
pub fn new_id(project: &Project, like: &str) -> Name {
    rename::next(project, like)
}
