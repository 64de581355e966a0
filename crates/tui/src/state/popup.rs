//! Boxes over the screen, each with its own data. Not here: how they look.

use crate::start::Recovered;
use ecow::{EcoString, eco_format};
use hodful_takeoff::{Node, Project};
use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;
use tui_input::Input;

/// A box over the screen.
#[derive(Debug, Clone)]
pub enum Popup {
    /// The keys that work here, and how things are typed.
    Help {
        /// What is searched for.
        query: Input,
        /// The first line shown.
        top: usize,
    },
    /// Every command.
    Commands {
        /// What is searched for.
        query: Input,
        /// The chosen row.
        row: usize,
    },
    /// The totals, one of which is to be explained.
    Totals {
        /// The chosen row.
        row: usize,
    },
    /// How a figure came about.
    Why(Why),
    /// A question.
    Ask(Question),
    /// A line to be typed.
    Prompt(Prompt),
    /// Something to read.
    Text {
        /// What it is about.
        title: EcoString,
        /// Its paragraphs.
        lines: Vec<EcoString>,
        /// The first line shown.
        top: usize,
    },
}

impl Popup {
    /// Something to read.
    pub fn text(title: impl Into<EcoString>, lines: Vec<EcoString>) -> Self {
        Self::Text {
            title: title.into(),
            lines,
            top: 0,
        }
    }

    /// Whether characters are typed into it.
    pub fn takes_text(&self) -> bool {
        self.input().is_some()
    }

    /// The line that is typed into it.
    pub fn input(&self) -> Option<&Input> {
        match self {
            Self::Help { query, .. } | Self::Commands { query, .. } => Some(query),
            Self::Prompt(prompt) => Some(&prompt.input),
            Self::Totals { .. } | Self::Why(_) | Self::Ask(_) | Self::Text { .. } => None,
        }
    }

    /// The same, to be changed.
    pub(crate) fn input_mut(&mut self) -> Option<&mut Input> {
        match self {
            Self::Help { query, .. } | Self::Commands { query, .. } => Some(query),
            Self::Prompt(prompt) => Some(&mut prompt.input),
            Self::Totals { .. } | Self::Why(_) | Self::Ask(_) | Self::Text { .. } => None,
        }
    }
}

/// A question, with one letter for each answer.
#[derive(Debug, Clone)]
pub struct Question {
    /// The question.
    pub words: EcoString,
    /// A letter and words for each answer; the first is chosen by Enter.
    pub answers: Vec<(char, &'static str, Answer)>,
    /// The chosen answer.
    pub row: usize,
}

/// What an answer leads to.
#[derive(Debug, Clone)]
pub enum Answer {
    /// Close the question, nothing else.
    Nothing,
    /// Leave the program; with `true` what is not saved is dropped.
    Quit(bool),
    /// Save first, then leave.
    SaveAndQuit,
    /// Save over what somebody else wrote, and leave afterwards when that was wanted.
    SaveOver(PathBuf, bool),
    /// Give another name to save to, and leave afterwards when that was wanted.
    SaveAs(bool),
    /// Take the work of the earlier run back.
    TakeBack(Arc<Project>),
    /// Drop the work of the earlier run.
    DropFound,
}

impl Question {
    fn new(words: impl Into<EcoString>, answers: Vec<(char, &'static str, Answer)>) -> Self {
        Self {
            words: words.into(),
            answers,
            row: 0,
        }
    }

    /// Whether a file that is not there is to be made.
    pub fn create(file: &str) -> Self {
        Self::new(
            eco_format!(
                "There is no file {file} yet. Begin a new project in it? It is written when you save."
            ),
            vec![
                ('b', "begin it", Answer::Nothing),
                ('q', "quit", Answer::Quit(true)),
            ],
        )
    }

    /// Whether the work of an earlier run is wanted.
    pub fn recover(found: Recovered) -> Self {
        let changed = if found.file_changed {
            " The file on the disk was changed since that work began from it."
        } else {
            ""
        };
        Self::new(
            eco_format!(
                "Work on {} was not saved: last changed {}, {} walls.{changed} Bring it back?",
                found.project.name,
                found.when,
                found.project.walls.len()
            ),
            vec![
                (
                    'b',
                    "bring it back",
                    Answer::TakeBack(Arc::new(found.project)),
                ),
                ('d', "drop it for good", Answer::DropFound),
                ('l', "leave it for later", Answer::Nothing),
            ],
        )
    }

    /// Whether to leave with work that is not saved.
    pub fn quit(file: Option<&str>) -> Self {
        Self::new(
            match file {
                Some(file) => eco_format!("There are changes that are not saved to {file}."),
                None => "This project is not saved to any file yet.".into(),
            },
            vec![
                ('s', "save, then quit", Answer::SaveAndQuit),
                ('d', "drop the changes and quit", Answer::Quit(true)),
                (
                    'k',
                    "quit, keep them for the next start",
                    Answer::Quit(false),
                ),
                ('c', "go on working", Answer::Nothing),
            ],
        )
    }

    /// What to do about a file that somebody else wrote: the project's own since it was opened, or
    /// another one of that name.
    pub fn changed(file: &str, own: bool, path: PathBuf, quit: bool) -> Self {
        Self::new(
            if own {
                eco_format!(
                    "{file} was changed on the disk since it was opened. Saving would lose what is there now."
                )
            } else {
                eco_format!("There is a file {file} already. Saving would lose what is in it.")
            },
            vec![
                ('o', "save under another name", Answer::SaveAs(quit)),
                ('w', "write over it", Answer::SaveOver(path, quit)),
                ('c', "do not save now", Answer::Nothing),
            ],
        )
    }
}

impl Answer {
    /// Whether something is lost by it that nothing brings back: it wants Enter besides its letter.
    pub fn destroys(&self) -> bool {
        matches!(
            self,
            Self::Quit(true) | Self::DropFound | Self::SaveOver(..)
        )
    }
}

/// A line to be typed.
#[derive(Debug, Clone)]
pub struct Prompt {
    /// What for.
    pub what: PromptFor,
    /// What is typed.
    pub input: Input,
    /// What is wrong with it.
    pub fault: Option<EcoString>,
    /// What held before: closing the box brings it back.
    pub before: EcoString,
}

/// What a line is typed for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PromptFor {
    /// A file to save to; with `true` the program is left afterwards.
    File {
        /// Whether to leave when it is saved.
        quit: bool,
    },
    /// Letters that walls in the list must have.
    Filter,
    /// How many such pockets there are.
    PocketCount,
    /// How often a wall is repeated.
    WallCount,
    /// How often an opening stands side by side, and from one to the next: `3 every 9'`.
    OpeningCount,
}

impl PromptFor {
    /// What is asked for.
    pub fn words(self) -> &'static str {
        match self {
            Self::File { .. } => {
                "Save to which file? (.hodful.json is added when there is no ending)"
            }
            Self::Filter => "Only walls with these letters (empty: all)",
            Self::PocketCount => "How many such pockets are there?",
            Self::WallCount => "How many such walls are there?",
            Self::OpeningCount => {
                "How many side by side, and from one to the next? Like: 3 every 9' 6\""
            }
        }
    }
}

/// How a figure came about: its tree, of which some parts are unfolded.
#[derive(Debug, Clone)]
pub struct Why {
    /// The figure.
    pub root: Arc<Node>,
    /// Nodes whose terms are shown, each by the way to it.
    pub open: BTreeSet<Vec<usize>>,
    /// The chosen row.
    pub row: usize,
}

impl WhyRow<'_> {
    /// The path under which the terms of a figure can be had that is shown without them.
    pub fn more(&self) -> Option<&EcoString> {
        let bare = self.node.terms.is_empty() && self.node.typed.is_none();
        self.node.path.as_ref().filter(|_| bare)
    }
}

/// One row of the tree.
#[derive(Debug, Clone)]
pub struct WhyRow<'a> {
    /// The node.
    pub node: &'a Node,
    /// The way to it.
    pub way: Vec<usize>,
    /// Whether its terms are shown.
    pub open: bool,
}

impl Why {
    /// The tree of a figure, its first terms shown.
    pub fn new(root: Node) -> Self {
        Self {
            root: Arc::new(root),
            open: BTreeSet::from([Vec::new()]),
            row: 0,
        }
    }

    /// Puts a tree in place of a figure that was shown without what it is made of.
    pub(crate) fn put(&mut self, way: &[usize], node: Node) {
        let mut at = Arc::make_mut(&mut self.root);
        for step in way {
            match at.terms.get_mut(*step) {
                Some(term) => at = term,
                None => return,
            }
        }
        at.formula = node.formula;
        at.terms = node.terms;
    }

    /// The rows that are shown.
    pub fn rows(&self) -> Vec<WhyRow<'_>> {
        let mut rows = Vec::new();
        self.walk(&self.root, &[], &mut rows);
        rows
    }

    fn walk<'a>(&'a self, node: &'a Node, way: &[usize], rows: &mut Vec<WhyRow<'a>>) {
        let open = self.open.contains(way);
        rows.push(WhyRow {
            node,
            way: way.to_vec(),
            open,
        });
        if open {
            for (at, term) in node.terms.iter().enumerate() {
                self.walk(term, &[way, &[at]].concat(), rows);
            }
        }
    }
}
