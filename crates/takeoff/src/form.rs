//! Every field of every thing of a project: listed, read from typed text, set, and found by place.
//!
//! Not here: whether a value makes sense where it stands (see [`crate::check()`]), adding and removing
//! things, and how fields look on a screen.

use crate::problem::Place;
use crate::project::{Name, Project};
use ecow::EcoString;
use hodful_quantities::print::UnitSystem;

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

/// One field of a thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The field, as [`Place`] names it: `sill`, `frame.depth`, `outside.radius`.
    pub key: EcoString,
    /// The heading it stands under; empty for the fields of the thing itself.
    pub group: &'static str,
    /// The field in words.
    pub label: &'static str,
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

/// The fields of a thing; none when it is not there.
pub fn rows(project: &Project, subject: Subject) -> Vec<Row> {
    let _ = (project, subject);
    Vec::new()
}

/// Reads a typed text for a field, in the units of a project.
///
/// # Errors
/// In words, what is wrong with the text.
pub fn understand(kind: &Kind, text: &str, units: UnitSystem) -> Result<Understood, EcoString> {
    let _ = (kind, units);
    Ok(Understood {
        stored: text.into(),
        shown: text.into(),
    })
}

/// Sets one field from typed text.
///
/// # Errors
/// In words, why it cannot be set; the project is then as it was.
pub fn set(
    project: &mut Project,
    subject: Subject,
    key: &str,
    text: &str,
) -> Result<(), EcoString> {
    let _ = (project, subject, key, text);
    Ok(())
}

/// The thing a place is about, and the key of its field, when it has one.
pub fn find(project: &Project, place: &Place) -> Option<(Subject, Option<EcoString>)> {
    let _ = (project, place);
    None
}

/// The thing in words: `wall S`, `opening W1 of wall S`.
pub fn title(project: &Project, subject: Subject) -> EcoString {
    let _ = (project, subject);
    EcoString::new()
}

/// The next name like one that no wall or opening of the project has: `S` gives `S2`, `W1` gives `W2`.
pub fn new_id(project: &Project, like: &str) -> Name {
    let _ = project;
    like.into()
}
