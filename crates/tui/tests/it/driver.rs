//! Plays the front end: keys in, effects done at once against a disk that is only a map. Not here: what
//! is tested.

use hodful_quantities::print::UnitSystem;
use hodful_takeoff::bench::Bench;
use hodful_takeoff::project::Name;
use hodful_takeoff::{Project, all_problems};
use hodful_tui::keymap::chord;
use hodful_tui::state::{compare, foresee, look_for_blend, plan_days};
use hodful_tui::{
    Effect, Message, Opened, SaveFault, Start, State, WeatherRead, WeatherReader, update,
};
use ratatui::buffer::Buffer;
use ratatui::crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use ratatui::layout::Rect;
use ratatui::widgets::Widget;
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;

/// The weather of the demo projects: a year of our own.
pub(crate) const HOLLOWMERE: &str = include_str!("../../../../demo-projects/hollowmere.epw");

/// A front end that is played.
pub(crate) struct Driver {
    pub(crate) state: State,
    /// Saved files.
    pub(crate) disk: BTreeMap<PathBuf, Arc<Project>>,
    /// Files that somebody else changed.
    pub(crate) foreign: Vec<PathBuf>,
    /// Every effect so far, in order.
    pub(crate) effects: Vec<Effect>,
    /// Keys pressed so far.
    pub(crate) pressed: usize,
    /// What is to be bought is worked out when somebody looks, of several requests the last.
    pub(crate) supply: Option<(u64, Arc<Project>)>,
    /// Options likewise.
    pub(crate) compare: Option<(u64, Arc<Project>, Option<Name>)>,
    /// What is foreseen likewise.
    pub(crate) foresee: Option<(u64, Arc<Project>)>,
    /// The days likewise, with the file beside which the weather lies.
    pub(crate) days: Option<(u64, Arc<Project>, Option<PathBuf>)>,
    /// The files of weather, by name.
    pub(crate) weather: BTreeMap<String, Arc<str>>,
    /// A blend likewise.
    pub(crate) blend: Option<(u64, Arc<Project>, usize)>,
}

/// A demo project.
pub(crate) fn demo(name: &str) -> Project {
    let demo = hodful_project_file::demo_projects()
        .find(|demo| demo.name == name)
        .unwrap();
    hodful_project_file::read(demo.bytes).unwrap()
}

/// What a new project starts from.
pub(crate) fn empty() -> Project {
    hodful_project_file::starting_project()
}

/// A start with a project that stands in a file.
pub(crate) fn start(project: Project) -> Start {
    Start {
        path: Some("barn.hodful.json".into()),
        project,
        opened: Opened::Whole,
        recovered: None,
        rules: Arc::new(hodful_project_file::rules()),
        cautions: hodful_project_file::cautions(),
        keymap: None,
        colour: true,
        signs: true,
        braille: true,
    }
}

impl Driver {
    pub(crate) fn new(start: Start) -> Self {
        let (state, effects) = State::new(start);
        let mut driver = Self {
            state,
            disk: BTreeMap::new(),
            foreign: Vec::new(),
            effects: Vec::new(),
            pressed: 0,
            supply: None,
            foresee: None,
            compare: None,
            days: None,
            weather: [("hollowmere.epw".to_owned(), HOLLOWMERE.into())].into(),
            blend: None,
        };
        driver.send(Message::Resized(120, 40));
        driver.perform(effects);
        driver
    }

    /// A demo project that stands in a file.
    pub(crate) fn demo(name: &str) -> Self {
        Self::new(start(demo(name)))
    }

    /// A new project.
    pub(crate) fn unnamed() -> Self {
        Self::new(Start {
            path: None,
            opened: Opened::Unnamed,
            ..start(empty())
        })
    }

    pub(crate) fn send(&mut self, message: Message) {
        let effects = update(&mut self.state, message);
        self.perform(effects);
    }

    fn perform(&mut self, effects: Vec<Effect>) {
        for effect in effects {
            self.effects.push(effect.clone());
            match effect {
                Effect::Save {
                    id,
                    path,
                    project,
                    over,
                } => {
                    let outcome = if self.foreign.contains(&path) && !over {
                        Err(SaveFault::ChangedOnDisk)
                    } else {
                        self.disk.insert(path, project);
                        Ok(())
                    };
                    self.send(Message::Saved { id, outcome });
                }
                Effect::Look { id, project } => {
                    let problems = all_problems(&project, &hodful_project_file::rules());
                    self.send(Message::Looked { id, problems });
                }
                Effect::Foresee { id, project } => self.foresee = Some((id, project)),
                Effect::Days { id, project, path } => {
                    // A save answers at once, and what follows from that comes before what was asked first.
                    if self.days.as_ref().is_none_or(|(own, ..)| *own < id) {
                        self.days = Some((id, project, path));
                    }
                }
                Effect::Supply { id, project } => self.supply = Some((id, project)),
                Effect::Compare { id, project, base } => self.compare = Some((id, project, base)),
                Effect::Blend { id, project, blend } => self.blend = Some((id, project, blend)),
                Effect::Copy(_) => self.send(Message::Copied(Ok(()))),
                Effect::Suspend => self.send(Message::Resumed),
                Effect::Record { .. }
                | Effect::ForgetFound
                | Effect::Mouse(_)
                | Effect::Redraw
                | Effect::Quit { .. } => {}
            }
        }
    }

    /// Presses a key by its name.
    pub(crate) fn key(&mut self, name: &str) -> &mut Self {
        self.pressed += 1;
        self.send(event(name));
        self
    }

    /// Types letters.
    pub(crate) fn text(&mut self, text: &str) -> &mut Self {
        for letter in text.chars() {
            self.pressed += 1;
            let modifiers = if letter.is_uppercase() {
                KeyModifiers::SHIFT
            } else {
                KeyModifiers::NONE
            };
            self.send(Message::Key(KeyEvent::new(
                KeyCode::Char(letter),
                modifiers,
            )));
        }
        self
    }

    /// Types a line into the entry line and takes it.
    pub(crate) fn line(&mut self, text: &str) -> &mut Self {
        self.text(text).key("enter")
    }

    /// Plays words: keys by name between blanks, letters in double quotes as they are.
    pub(crate) fn play(&mut self, script: &str) -> &mut Self {
        for (at, part) in script.split('"').enumerate() {
            if at % 2 == 1 {
                self.text(part);
            } else {
                for key in part.split_whitespace() {
                    self.key(key);
                }
            }
        }
        self
    }

    pub(crate) fn project(&self) -> &Project {
        self.state.project()
    }

    /// The words at the foot.
    pub(crate) fn notice(&self) -> &str {
        self.state
            .notice()
            .map_or("", |notice| notice.words.as_str())
    }

    /// Answers the requests for a blend and for what is to be bought.
    pub(crate) fn answer(&mut self) {
        if let Some((id, project, at)) = self.blend.take() {
            let bench = Bench::new(project, Arc::new(hodful_project_file::rules()));
            let blending = Box::new(look_for_blend(&bench, at));
            self.send(Message::Blended { id, blending });
        }
        if let Some((id, project, base)) = self.compare.take() {
            let rules = hodful_project_file::rules();
            let compared = Box::new(compare(&project, &rules, base.as_ref()));
            self.send(Message::Compared { id, compared });
        }
        if let Some((id, project)) = self.foresee.take() {
            let foreseen = Box::new(foresee(&project, &hodful_project_file::rules()));
            self.send(Message::Foreseen { id, foreseen });
        }
        if let Some((id, project, path)) = self.days.take() {
            let files = self.weather.clone();
            let reader: WeatherReader = Box::new(move |_, name| {
                let text = files.get(name);
                let text =
                    text.ok_or_else(|| format!("There is no '{name}' beside the project."))?;
                let read = hodful_weather::read(text.as_bytes(), &format!("'{name}'"));
                let read = read.map_err(|faults| faults.to_string())?;
                Ok(WeatherRead {
                    weather: read.weather,
                    notes: read.notes.iter().map(ToString::to_string).collect(),
                })
            });
            let rules = hodful_project_file::rules();
            let on_site = Box::new(plan_days(&project, &rules, path.as_deref(), &reader));
            self.send(Message::OnSite { id, on_site });
        }
        if let Some((id, project)) = self.supply.take() {
            let bench = Bench::new(project, Arc::new(hodful_project_file::rules()));
            let supply = Box::new(bench.supply());
            self.send(Message::Supplied { id, supply });
        }
    }

    /// The cells of the screen.
    pub(crate) fn cells(&mut self, columns: u16, rows: u16) -> Buffer {
        self.answer();
        self.send(Message::Resized(columns, rows));
        let area = Rect::new(0, 0, columns, rows);
        let mut buffer = Buffer::empty(area);
        (&self.state).render(area, &mut buffer);
        buffer
    }

    /// The screen as text.
    pub(crate) fn screen(&mut self, columns: u16, rows: u16) -> String {
        text_of(&self.cells(columns, rows))
    }

    pub(crate) fn units(&self) -> UnitSystem {
        self.project().units
    }
}

fn event(name: &str) -> Message {
    let key = chord(name).unwrap_or_else(|words| panic!("{words}"));
    let crokey::OneToThree::One(code) = key.codes else {
        panic!("{name} is more than one key");
    };
    Message::Key(KeyEvent::new(code, key.modifiers))
}

/// Cells as text, a line a row, blanks at the ends of lines left out.
pub(crate) fn text_of(buffer: &Buffer) -> String {
    let area = buffer.area;
    let mut out = String::new();
    for y in area.top()..area.bottom() {
        let mut line = String::new();
        let mut skip = 0;
        for x in area.left()..area.right() {
            let symbol = buffer[(x, y)].symbol();
            if skip == 0 {
                line.push_str(symbol);
                skip = hodful_tui::text::width(symbol).max(1);
            }
            skip -= 1;
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
    out
}
