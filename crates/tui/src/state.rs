//! Everything the front end knows. Changed in [`crate::update()`] only; reading it is all that drawing does.

mod compared;
mod curve;
mod foreseen;
mod on_site;
mod plan;
mod popup;
mod rows;
mod totals;
mod worked;

pub use compared::{Compared, compare};
pub use curve::Curve;
pub use foreseen::{Foreseen, foresee};
pub(crate) use on_site::freezes;
pub use on_site::{DayRow, OnSite, plan_days};
pub use popup::{Answer, Popup, Prompt, PromptFor, Question, Why, WhyRow};
pub use rows::{Located, Sort, WallRow, locate};
pub use totals::Total;
pub use worked::{Blending, Looked, Planned, Test, is_soil, look_for_blend};

use crate::command::Id;
use crate::doc::Doc;
use crate::effect::Effect;
use crate::entry::Reading;
use crate::keymap::Keymap;
use crate::start::{Opened, Start};
use ecow::{EcoString, eco_format};
use hodful_quantities::mix::Quantity;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::drawing::Drawing;
use hodful_takeoff::form::{self, Kind, Row, Subject};
use hodful_takeoff::project::{Name, Side, Wall};
use hodful_takeoff::{Caution, Headline, Project};
use std::collections::{BTreeSet, HashMap};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tui_input::Input;

/// The pages of the front end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Screen {
    /// Walls with their openings.
    Walls,
    /// The plan of the building.
    Plan,
    /// Build-ups with their coats.
    Coats,
    /// Backgrounds, mixes, materials, the mixer.
    Stores,
    /// What is refused and doubtful.
    Problems,
    /// Soils with their textures, and blends.
    Soils,
    /// What to buy from whom.
    Order,
    /// The card beside the mixer.
    Card,
    /// Options side by side.
    Options,
    /// How sure the figures are, and what the work has taught.
    Chances,
    /// The days on site.
    Days,
}

impl Screen {
    /// Every page, in order, with its name.
    pub const ALL: [(Self, &'static str, Id); 11] = [
        (Self::Walls, "Walls", Id::Walls),
        (Self::Plan, "Plan", Id::Plan),
        (Self::Coats, "Coats", Id::Coats),
        (Self::Stores, "Stores", Id::Stores),
        (Self::Problems, "Problems", Id::Problems),
        (Self::Soils, "Soils", Id::Soils),
        (Self::Order, "Order", Id::Order),
        (Self::Card, "Card", Id::Card),
        (Self::Options, "Options", Id::Options),
        (Self::Chances, "Chances", Id::Chances),
        (Self::Days, "Days", Id::Days),
    ];
}

/// Which part has the keyboard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Focus {
    /// The list at the left.
    List,
    /// The fields of what is chosen.
    Fields,
    /// The entry line.
    Entry,
}

/// How a wall is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Look {
    /// One of its faces.
    Face(Side),
    /// Cut through level, at an opening.
    Level,
    /// Cut through upright, at an opening.
    Upright,
}

impl Look {
    /// The next way of looking.
    #[must_use]
    pub fn next(self) -> Self {
        match self {
            Self::Face(Side::Outside) => Self::Face(Side::Inside),
            Self::Face(Side::Inside) => Self::Level,
            Self::Level => Self::Upright,
            Self::Upright => Self::Face(Side::Outside),
        }
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Face(Side::Outside) => "outside",
            Self::Face(Side::Inside) => "inside",
            Self::Level => "level section",
            Self::Upright => "upright section",
        }
    }
}

/// What of a wall is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Part {
    /// The wall itself.
    Wall,
    /// One of its openings.
    Opening(usize),
    /// One of its pockets.
    Pocket(usize),
}

/// What stands in the list of walls.
#[derive(Debug, Clone)]
pub struct Walls {
    /// Walls in the list, by position in the project, filtered and sorted.
    pub shown: Vec<usize>,
    /// The chosen wall.
    pub wall: usize,
    /// What of it is chosen.
    pub part: Part,
    /// How it is looked at.
    pub look: Look,
    /// Only walls with these letters.
    pub filter: EcoString,
    /// The order of the list.
    pub sort: Sort,
    /// What is ticked: walls, and openings of walls, by their ids.
    pub ticked: BTreeSet<(Name, Option<Name>)>,
}

/// A field that is being typed.
#[derive(Debug, Clone)]
pub struct Typing {
    /// What it is a field of.
    pub subject: Subject,
    /// The field.
    pub row: Row,
    /// What is typed.
    pub input: Input,
    /// What it is understood as, or what is wrong with it.
    pub understood: Result<String, EcoString>,
    /// The project as it would be.
    pub preview: Option<Arc<Project>>,
}

/// The entry line.
#[derive(Debug, Default)]
pub struct EntryLine {
    /// What is typed.
    pub input: Input,
    /// What it is understood as.
    pub reading: Option<Reading>,
    /// The project as it would be, and what would be chosen in it.
    pub preview: Option<(Arc<Project>, Subject)>,
    /// Lines that were taken, the last one last.
    pub lines: Vec<String>,
    /// The line that was brought back.
    pub at: Option<usize>,
    /// What was typed before a line was brought back.
    pub draft: String,
}

/// Words at the foot of the screen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Notice {
    /// The words.
    pub words: EcoString,
    /// Whether they tell of something that went wrong.
    pub bad: bool,
}

/// What can be told by colour and sign.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Looks {
    /// Whether colours may be used.
    pub colour: bool,
    /// Whether signs outside ASCII may be used.
    pub signs: bool,
    /// Whether there are braille patterns.
    pub braille: bool,
}

/// A save that is under way.
#[derive(Debug, Clone)]
pub(crate) struct Saving {
    /// Number of the request.
    pub(crate) id: u64,
    /// The state of the project that is saved.
    pub(crate) number: u64,
    /// The file.
    pub(crate) path: PathBuf,
    /// Whether to leave when it is done.
    pub(crate) quit: bool,
}

/// Everything the front end knows.
#[derive(Debug)]
pub struct State {
    pub(crate) doc: Doc,
    pub(crate) path: Option<PathBuf>,
    pub(crate) read_only: bool,
    /// What the project was called at the start.
    pub(crate) first_name: Name,
    pub(crate) screen: Screen,
    pub(crate) focus: Focus,
    pub(crate) walls: Walls,
    /// The chosen row of the coats, the stores and the problems.
    pub(crate) coats_row: usize,
    pub(crate) stores_row: usize,
    pub(crate) problems_row: usize,
    pub(crate) yard: worked::Yard,
    /// The problem that was gone to last.
    pub(crate) problem_seen: Option<usize>,
    pub(crate) field: usize,
    pub(crate) typing: Option<Typing>,
    pub(crate) entry: EntryLine,
    /// The plan, and the project it is of.
    pub(crate) plan: Option<(Arc<Project>, Drawing)>,
    pub(crate) popups: Vec<Popup>,
    pub(crate) notice: Option<Notice>,
    /// The totals at the mark.
    pub(crate) mark: Headline,
    /// The project at the mark.
    pub(crate) mark_project: Arc<Project>,
    /// What of each material was to be delivered at the mark.
    pub(crate) mark_delivered: HashMap<Name, Quantity>,
    /// What the page of coats draws.
    pub(crate) curve: Curve,
    pub(crate) keymap: Keymap,
    pub(crate) looks: Looks,
    pub(crate) cautions: Vec<Caution>,
    pub(crate) mouse: bool,
    pub(crate) drag: Option<crate::update::Drag>,
    pub(crate) size: (u16, u16),
    /// Where each of the problems stands.
    pub(crate) located: Located,
    /// Requests given out; those whose answers are waited for.
    pub(crate) requests: u64,
    pub(crate) saving: Option<Saving>,
    pub(crate) looking: u64,
    pub(crate) last: Option<Id>,
}

impl State {
    /// The state to start with, and what must be done outside first.
    #[allow(clippy::too_many_lines, reason = "one line a part of the state")]
    pub fn new(start: Start) -> (Self, Vec<Effect>) {
        let read_only = matches!(start.opened, Opened::Broken(_));
        let saved = matches!(
            start.opened,
            Opened::Whole | Opened::Unnamed | Opened::Broken(_)
        );
        let empty = start.project.walls.is_empty();
        let first_name = start.project.name.clone();
        let doc = Doc::new(start.project, start.rules, saved);
        let mark = *doc.headline();
        let mark_project = Arc::clone(doc.project());
        let (keymap, faults) = match &start.keymap {
            Some((file, text)) => match Keymap::with_file(file, text) {
                Ok(keymap) => (keymap, Vec::new()),
                Err(faults) => (Keymap::default(), faults),
            },
            None => (Keymap::default(), Vec::new()),
        };
        let mut state = Self {
            doc,
            path: start.path,
            read_only,
            first_name,
            screen: Screen::Walls,
            focus: Focus::List,
            walls: Walls {
                shown: Vec::new(),
                wall: 0,
                part: Part::Wall,
                look: Look::Face(Side::Outside),
                filter: EcoString::new(),
                sort: Sort::Entered,
                ticked: BTreeSet::new(),
            },
            // The first coat, under its build-up: the keys that make it thicker work at once.
            coats_row: 1,
            stores_row: 0,
            problems_row: 0,
            yard: worked::Yard::default(),
            problem_seen: None,
            field: 0,
            typing: None,
            entry: EntryLine::default(),
            plan: None,
            popups: Vec::new(),
            notice: None,
            mark,
            mark_project,
            mark_delivered: HashMap::new(),
            curve: Curve::default(),
            keymap,
            looks: Looks {
                colour: start.colour,
                signs: start.signs,
                braille: start.braille,
            },
            cautions: start.cautions,
            mouse: false,
            drag: None,
            size: (80, 24),
            located: Located::default(),
            requests: 0,
            saving: None,
            looking: 0,
            last: None,
        };
        state.set_mark();
        state.refresh();
        state.field = state.first_size();
        if empty && !read_only {
            state.focus = Focus::Entry;
            state.read_entry();
        }
        if !faults.is_empty() {
            let mut lines: Vec<EcoString> = faults;
            lines.push("The keys are left as they were.".into());
            state
                .popups
                .push(Popup::text("The keymap file has faults", lines));
        }
        if let Opened::Broken(problems) = start.opened {
            let count = problems.len();
            state.doc.set_problems(problems);
            state.relocate();
            state.screen = Screen::Problems;
            state.notice = Some(Notice {
                words: eco_format!(
                    "{count} faults in the file: it can be looked at only, what could be read of it"
                ),
                bad: true,
            });
        } else if start.opened == Opened::Missing {
            let file = state.path.as_deref().map(shown_path).unwrap_or_default();
            state.popups.push(Popup::Ask(Question::create(&file)));
        }
        let mut effects = Vec::new();
        if let Some(recovered) = start.recovered {
            state.popups.push(Popup::Ask(Question::recover(recovered)));
        }
        if !read_only {
            effects.push(state.look());
        }
        (state, effects)
    }

    /// The project with its figures and history.
    pub fn doc(&self) -> &Doc {
        &self.doc
    }

    /// The project as it is now.
    pub fn project(&self) -> &Arc<Project> {
        self.doc.project()
    }

    /// The project as it would be with what is being typed, or as it is.
    pub fn preview(&self) -> &Arc<Project> {
        match self.focus {
            Focus::Entry => self.entry.preview.as_ref().map(|(project, _)| project),
            Focus::Fields => self
                .typing
                .as_ref()
                .and_then(|typing| typing.preview.as_ref()),
            Focus::List => None,
        }
        .unwrap_or_else(|| self.project())
    }

    /// What is drawn: what would be chosen with what is being typed, or what is.
    pub fn pictured(&self) -> Option<Subject> {
        match (self.focus, &self.entry.preview) {
            (Focus::Entry, Some((_, subject))) => Some(*subject),
            _ => self.subject(),
        }
    }

    /// The units figures are shown in.
    pub fn units(&self) -> UnitSystem {
        self.project().units
    }

    /// Whether the project can be looked at only.
    pub fn is_read_only(&self) -> bool {
        self.read_only
    }

    /// The page.
    pub fn screen(&self) -> Screen {
        self.screen
    }

    /// Which part has the keyboard when no popup has it.
    pub fn focus(&self) -> Focus {
        self.focus
    }

    /// The popup on top.
    pub fn popup(&self) -> Option<&Popup> {
        self.popups.last()
    }

    /// The field that is being typed.
    pub fn typing(&self) -> Option<&Typing> {
        self.typing.as_ref()
    }

    /// The entry line.
    pub fn entry(&self) -> &EntryLine {
        &self.entry
    }

    /// The list of walls.
    pub fn walls(&self) -> &Walls {
        &self.walls
    }

    /// Words at the foot of the screen.
    pub fn notice(&self) -> Option<&Notice> {
        self.notice.as_ref()
    }

    /// The keys.
    pub fn keymap(&self) -> &Keymap {
        &self.keymap
    }

    /// The totals at the mark.
    pub fn mark(&self) -> &Headline {
        &self.mark
    }

    /// What can be told by colour and sign.
    pub fn looks(&self) -> Looks {
        self.looks
    }

    /// The file, when the project has one.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// Whether the mouse is listened to.
    pub fn has_mouse(&self) -> bool {
        self.mouse
    }

    /// The chosen wall.
    pub fn wall(&self) -> Option<&Wall> {
        self.project()
            .walls
            .get(self.walls.wall)
            .map(|wall| &**wall)
    }

    /// What is chosen on the page.
    pub fn subject(&self) -> Option<Subject> {
        match self.screen {
            Screen::Walls => {
                let wall = self.walls.wall;
                // What the filter hides is not chosen.
                self.walls.shown_at(wall)?;
                self.wall()?;
                Some(match self.walls.part {
                    Part::Wall => Subject::Wall(wall),
                    Part::Opening(opening) => Subject::Opening { wall, opening },
                    Part::Pocket(pocket) => Subject::Pocket { wall, pocket },
                })
            }
            Screen::Coats => rows::coats(self.project()).get(self.coats_row).copied(),
            Screen::Stores => rows::stores(self.project()).get(self.stores_row).copied(),
            Screen::Soils | Screen::Order | Screen::Card | Screen::Options | Screen::Chances => {
                self.page_rows().get(self.page_row()).copied()
            }
            Screen::Days => Some(self.day_subject(self.day_row())),
            Screen::Plan | Screen::Problems => None,
        }
    }

    /// The chosen coat: its build-up and its position.
    pub fn coat(&self) -> Option<(usize, usize)> {
        match self.subject()? {
            Subject::Coat { build_up, coat } => Some((build_up, coat)),
            _ => None,
        }
    }

    /// The fields of what is chosen.
    pub fn rows(&self) -> Vec<Row> {
        let Some(subject) = self.subject() else {
            return Vec::new();
        };
        let mut rows = form::rows(self.project(), subject);
        // Which rules there are, the project itself does not know.
        if let Some(rule) = rows.iter_mut().find(|row| row.key == "measurement_rule") {
            rule.kind = Kind::OneOf(self.doc.bench().rules().keys().cloned().collect());
        }
        if self.screen == Screen::Soils && matches!(subject, Subject::Material(_)) {
            rows.sort_by_key(|row| rows::tests_first(&row.key));
        }
        if self.screen == Screen::Days && matches!(subject, Subject::Coat { .. }) {
            // What one person does in an hour comes first, and the rest under a heading of its own.
            rows.sort_by_key(|row| !row.key.starts_with("rate."));
            for row in rows.iter_mut().filter(|row| row.group.is_empty()) {
                row.group = "the coat itself";
            }
        }
        rows
    }

    /// How many rows the list of the page has.
    pub fn list_len(&self) -> usize {
        match self.screen {
            Screen::Walls => self.wall_rows(),
            Screen::Coats => rows::coats(self.project()).len(),
            Screen::Stores => rows::stores(self.project()).len(),
            Screen::Problems => self.doc.problems().len(),
            Screen::Soils | Screen::Order | Screen::Card | Screen::Options | Screen::Chances => {
                self.page_rows().len()
            }
            Screen::Days => self.day_rows().len(),
            Screen::Plan => self.walls.shown.len(),
        }
    }

    /// The chosen row of the list of the page.
    pub fn list_row(&self) -> usize {
        match self.screen {
            Screen::Walls => self.wall_row(),
            Screen::Coats => self.coats_row,
            Screen::Stores => self.stores_row,
            Screen::Problems => self.problems_row,
            Screen::Soils | Screen::Order | Screen::Card | Screen::Options | Screen::Chances => {
                self.page_row()
            }
            Screen::Days => self.yard.days.row,
            Screen::Plan => self.walls.shown_at(self.walls.wall).unwrap_or(0),
        }
    }

    /// The rows of the list of soils, of the order or of the card; none on other pages.
    pub fn page_rows(&self) -> Vec<Subject> {
        match self.screen {
            Screen::Soils => rows::soils(self.project()),
            Screen::Order => rows::order(self.project(), self.doc.bench().evaluation()),
            Screen::Card => rows::card(self.project()),
            Screen::Options => rows::options(self.project()),
            Screen::Chances => rows::chances(self.project()),
            Screen::Days => {
                let rows = self.day_rows().into_iter();
                rows.map(|row| self.day_subject(row)).collect()
            }
            _ => Vec::new(),
        }
    }

    fn page_row(&self) -> usize {
        match self.screen {
            Screen::Soils => self.yard.soils_row,
            Screen::Order => self.yard.order_row,
            Screen::Options => self.yard.options_row,
            Screen::Chances => self.yard.chances_row,
            Screen::Days => self.yard.days.row,
            _ => self.yard.card_row,
        }
    }

    /// The rows of the coats: build-ups, each with its coats.
    pub fn coat_rows(&self) -> Vec<Subject> {
        rows::coats(self.project())
    }

    /// The rows of the stores.
    pub fn store_rows(&self) -> Vec<Subject> {
        rows::stores(self.project())
    }

    /// Where the problems stand.
    pub fn located(&self) -> &Located {
        &self.located
    }

    /// The chosen row of the problems.
    pub fn problem_row(&self) -> usize {
        self.problems_row
    }

    /// The chosen field.
    pub fn field(&self) -> usize {
        self.field
    }

    /// Size of the terminal in columns and rows.
    pub fn size(&self) -> (u16, u16) {
        self.size
    }

    /// The file in words.
    pub fn file_name(&self) -> EcoString {
        self.path.as_deref().map_or_else(
            || "not saved yet".into(),
            |path| {
                path.file_name().map_or_else(
                    || shown_path(path),
                    |name| name.to_string_lossy().as_ref().into(),
                )
            },
        )
    }

    /// Counts changes from the figures as they are now.
    pub(crate) fn set_mark(&mut self) {
        self.mark = *self.doc.headline();
        self.mark_project = Arc::clone(self.doc.project());
        let figures = &self.doc.bench().evaluation().materials;
        self.mark_delivered = self
            .project()
            .materials
            .keys()
            .cloned()
            .zip(figures.iter().map(|of| of.delivered))
            .collect();
    }

    /// What of a material was to be delivered at the mark.
    pub fn delivered_at_mark(&self, material: &str) -> Option<&Quantity> {
        self.mark_delivered.get(material)
    }

    /// The first field that is a size or a quantity: names come before it and are seldom changed.
    pub(crate) fn first_size(&self) -> usize {
        if self.screen == Screen::Days {
            return 0;
        }
        let named = |row: &Row| {
            matches!(
                row.kind,
                Kind::Id | Kind::Text | Kind::Count | Kind::OneOf(_) | Kind::SomeOf(_)
            )
        };
        let rows = self.rows();
        rows.iter()
            .position(|row| !named(row) && !row.optional)
            .or_else(|| rows.iter().position(|row| !named(row)))
            .unwrap_or(0)
    }

    /// Says something at the foot of the screen.
    pub(crate) fn say(&mut self, words: impl Into<EcoString>) {
        self.notice = Some(Notice {
            words: words.into(),
            bad: false,
        });
    }

    /// Says that something went wrong.
    pub(crate) fn complain(&mut self, words: impl Into<EcoString>) {
        self.notice = Some(Notice {
            words: words.into(),
            bad: true,
        });
    }

    /// The number of a new request.
    pub(crate) fn request(&mut self) -> u64 {
        self.requests += 1;
        self.requests
    }

    /// Asks for the project to be looked over.
    pub(crate) fn look(&mut self) -> Effect {
        self.looking = self.request();
        Effect::Look {
            id: self.looking,
            project: Arc::clone(self.project()),
        }
    }
}

/// A path as people write it.
pub(crate) fn shown_path(path: &Path) -> EcoString {
    eco_format!("{}", path.display())
}
