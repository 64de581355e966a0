//! What comes in from outside: keys, the mouse, answers. Not here: what follows from it.

use crate::effect::SaveFault;
use crate::state::{Blending, Compared, Foreseen, OnSite, Planned};
use hodful_takeoff::Problem;
use ratatui::crossterm::event::{KeyEvent, MouseEvent};

/// Something that happened.
#[derive(Debug, Clone, PartialEq)]
pub enum Message {
    /// A key was pressed. Releases never come here.
    Key(KeyEvent),
    /// A text was pasted.
    Paste(String),
    /// The mouse did something.
    Mouse(MouseEvent),
    /// The terminal has this many columns and rows.
    Resized(u16, u16),
    /// A save is done.
    Saved {
        /// Number of the request.
        id: u64,
        /// How it went.
        outcome: Result<(), SaveFault>,
    },
    /// A project was looked over.
    Looked {
        /// Number of the request.
        id: u64,
        /// Everything refused and doubtful.
        problems: Vec<Problem>,
    },
    /// A blend was looked for.
    Blended {
        /// Number of the request.
        id: u64,
        /// What came of it.
        blending: Box<Blending>,
    },
    /// What to buy was worked out.
    Supplied {
        /// Number of the request.
        id: u64,
        /// The plan, or what keeps it from being planned, in words.
        supply: Box<Planned>,
    },
    /// The options were compared.
    Compared {
        /// Number of the request.
        id: u64,
        /// What came of it.
        compared: Box<Compared>,
    },
    /// It was looked ahead.
    Foreseen {
        /// Number of the request.
        id: u64,
        /// What came of it.
        foreseen: Box<Foreseen>,
    },
    /// The days on site were planned.
    OnSite {
        /// Number of the request.
        id: u64,
        /// What came of it.
        on_site: Box<OnSite>,
    },
    /// The journal could not be written; in words.
    JournalFailed(String),
    /// A text was sent to the clipboard, or why not.
    Copied(Result<(), String>),
    /// The program was asked from outside to end (a signal, or the terminal is gone).
    Ending,
    /// The program runs again after it was stopped.
    Resumed,
}
