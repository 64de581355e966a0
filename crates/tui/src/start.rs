//! What the front end starts with. Not here: reading it from the disk.

use hodful_takeoff::{Caution, Problem, Project, RuleBook};
use std::path::PathBuf;
use std::sync::Arc;

/// What the front end starts with.
#[derive(Debug, Clone)]
pub struct Start {
    /// The file, when one was named.
    pub path: Option<PathBuf>,
    /// The project: as read, or the one to start from.
    pub project: Project,
    /// How it was come by.
    pub opened: Opened,
    /// Work of an earlier run that was never saved.
    pub recovered: Option<Recovered>,
    /// The measurement rules there are.
    pub rules: Arc<RuleBook>,
    /// The cautions for the work.
    pub cautions: Vec<Caution>,
    /// The text of the user's keymap file and what it is called, when there is one.
    pub keymap: Option<(String, String)>,
    /// Whether colours may be used.
    pub colour: bool,
    /// Whether signs outside ASCII may be used.
    pub signs: bool,
    /// Whether the terminal's letters have braille patterns; half blocks are drawn with where they have not.
    pub braille: bool,
}

/// How the project was come by.
#[derive(Debug, Clone, PartialEq)]
pub enum Opened {
    /// No file was named.
    Unnamed,
    /// The file is not there.
    Missing,
    /// The file was read.
    Whole,
    /// The file was read in part; it can be looked at only.
    Broken(Vec<Problem>),
}

/// Work of an earlier run that was never saved.
#[derive(Debug, Clone, PartialEq)]
pub struct Recovered {
    /// The project as it was last.
    pub project: Project,
    /// When it was last changed, in words: `today at 14:32`.
    pub when: String,
    /// Whether the file on the disk is another one than the work began from.
    pub file_changed: bool,
}
