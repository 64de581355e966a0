//! What the front end asks to be done outside, as data, and who does it. Not here: doing it.

use hodful_takeoff::Project;
use hodful_takeoff::air::Weather;
use hodful_takeoff::project::Name;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Something to be done outside.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Save a project; [`crate::Message::Saved`] comes back with the same number.
    Save {
        /// Number of the request.
        id: u64,
        /// The file.
        path: PathBuf,
        /// What to save.
        project: Arc<Project>,
        /// Whether a file that somebody else changed meanwhile may be written over.
        over: bool,
    },
    /// Write what changed into the recovery journal, off the key path.
    Record {
        /// Before the change.
        before: Arc<Project>,
        /// After it.
        after: Arc<Project>,
    },
    /// Drop the journal that was found at the start: its work was taken back and recorded anew, or was
    /// not wanted.
    ForgetFound,
    /// Look a project over for what is doubtful; [`crate::Message::Looked`] comes back with the same
    /// number. Of several that wait only the last is done.
    Look {
        /// Number of the request.
        id: u64,
        /// What to look over.
        project: Arc<Project>,
    },
    /// Look for a blend; [`crate::Message::Blended`] comes back with the same number. Of several that wait
    /// only the last is done.
    Blend {
        /// Number of the request.
        id: u64,
        /// The project.
        project: Arc<Project>,
        /// The blend by its position.
        blend: usize,
    },
    /// Work out what to buy from whom; [`crate::Message::Supplied`] comes back with the same number. Of
    /// several that wait only the last is done.
    Supply {
        /// Number of the request.
        id: u64,
        /// What to buy for.
        project: Arc<Project>,
    },
    /// Compare the options with the project, or with one of them; [`crate::Message::Compared`] comes back with the same number. Of
    /// several that wait only the last is done.
    Compare {
        /// Number of the request.
        id: u64,
        /// The project.
        project: Arc<Project>,
        /// The option that the others are held against; the project when there is none.
        base: Option<Name>,
    },
    /// Look ahead: how sure the figures are, and what the records say; [`crate::Message::Foreseen`] comes back
    /// with the same number. Of several that wait only the last is done.
    Foresee {
        /// Number of the request.
        id: u64,
        /// The project.
        project: Arc<Project>,
    },
    /// Plan the days on site, in the weather that the project names; [`crate::Message::OnSite`] comes back with the
    /// same number. Of several that wait only the last is done.
    Days {
        /// Number of the request.
        id: u64,
        /// The project.
        project: Arc<Project>,
        /// Its file, beside which the weather lies; none when it has none.
        path: Option<PathBuf>,
    },
    /// Put a text on the clipboard of the terminal.
    Copy(String),
    /// Listen to the mouse, or leave it to the terminal.
    Mouse(bool),
    /// Stop until the shell wakes the program again.
    Suspend,
    /// Draw everything anew.
    Redraw,
    /// Leave. With `keep` the recovery journal stays for the next start.
    Quit {
        /// Whether there is work that was not saved and must stay in the journal.
        keep: bool,
    },
}

/// Why a project was not saved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SaveFault {
    /// The file is not as it was when it was opened or last saved.
    ChangedOnDisk,
    /// What the disk said, in words.
    Failed(String),
}

/// Weather that was read from a file.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherRead {
    /// The weather.
    pub weather: Weather,
    /// What should be known of it, in words: values filled in, left out, or taken from elsewhere.
    pub notes: Vec<String>,
}

/// Reads the weather of a file by its name, beside the file of a project; what keeps it from being read comes back
/// in words, with line and column. It is called on the thread that plans the days.
pub type WeatherReader = Box<dyn Fn(&Path, &str) -> Result<WeatherRead, String> + Send + Sync>;

/// Who saves projects and keeps the recovery journal. Lives on a thread of its own; its calls come one
/// after the other, in the order of the effects.
pub trait Keeper: Send {
    /// Saves a project, and begins a journal anew from it.
    ///
    /// # Errors
    /// [`SaveFault`]; what was on the disk before is whole.
    fn save(&mut self, path: &Path, project: &Project, over: bool) -> Result<(), SaveFault>;

    /// Adds a change to the journal. The first one brings the whole project with it.
    ///
    /// # Errors
    /// What the disk said, in words.
    fn record(&mut self, before: &Project, after: &Project) -> Result<(), String>;

    /// Removes the journal that was found at the start.
    fn forget_found(&mut self);

    /// What reads weather, for the thread that plans the days.
    fn weather(&self) -> WeatherReader;

    /// Ends: with `keep` the journal stays, without it is removed.
    fn finish(&mut self, keep: bool);
}
