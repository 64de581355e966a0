//! Drawing the state. Reads it only. Where everything stands is told by [`areas`], for the mouse too.
//! Not here: changing anything.

mod areas;
mod bars;
mod facts;
mod fields;
mod foot;
mod help;
mod list;
mod picture;
mod popups;
mod said;
mod totals;

pub use areas::{Areas, areas};
pub(crate) use help::help_lines;
pub(crate) use list::{rows_area as list_rows, top as list_top};
pub(crate) use picture::{area as picture_area, picture};
pub(crate) use popups::text_lines;
pub(crate) use said::{said_plainly, said_size};

use crate::State;
use crate::state::{Looks, Screen};
use crate::text::{ascii, cut, width};
use crate::theme::Theme;
use hodful_takeoff::Severity;
use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::widgets::Widget;

/// The least size that everything has room in.
const LEAST: (u16, u16) = (40, 12);

/// Draws everything.
pub fn draw(state: &State, frame: &mut Frame<'_>) {
    let area = frame.area();
    let cursor = paint(state, area, frame.buffer_mut());
    if let Some(cursor) = cursor.filter(|(x, y)| area.contains((*x, *y).into())) {
        frame.set_cursor_position(cursor);
    }
}

/// Paints everything; gives where the cursor stands, when something is typed.
fn paint(state: &State, area: Rect, buffer: &mut Buffer) -> Option<(u16, u16)> {
    if area.is_empty() {
        return None;
    }
    let pen = Pen::new(state);
    if area.width < LEAST.0 || area.height < LEAST.1 {
        let words = format!("needs {}x{}", LEAST.0, LEAST.1);
        pen.put(buffer, area.x, area.y, area.width, &words, pen.theme.text);
        if area.height < 4 || area.width < 12 {
            return None;
        }
    }
    let areas = areas(state, area);
    title(state, &pen, areas.title, buffer);
    if let Some(area) = areas.list {
        list::paint(state, &pen, area, buffer);
    }
    let mut cursor = None;
    if let Some(area) = areas.picture {
        if state.screen() == Screen::Days {
            bars::paint(state, &pen, area, buffer);
        } else {
            picture::paint(state, &pen, area, buffer);
        }
    }
    if let Some(area) = areas.facts {
        match state.screen() {
            Screen::Soils
            | Screen::Order
            | Screen::Card
            | Screen::Options
            | Screen::Chances
            | Screen::Days => {
                said::paint(state, &pen, area, buffer);
            }
            _ => facts::paint(state, &pen, area, buffer),
        }
    }
    if let Some(area) = areas.fields {
        cursor = fields::paint(state, &pen, area, buffer);
    }
    for line in &areas.lines {
        for y in line.top()..line.bottom() {
            pen.put(buffer, line.x, y, 1, pen.sign("│", "|"), pen.theme.line);
        }
    }
    totals::paint(state, &pen, areas.totals, buffer);
    cursor = foot::paint(state, &pen, areas.foot, buffer).or(cursor);
    if state.popup().is_some() {
        cursor = popups::paint(state, &pen, area, buffer);
    }
    cursor
}

/// What everything is painted with.
pub(crate) struct Pen {
    pub(crate) theme: Theme,
    pub(crate) looks: Looks,
}

impl Pen {
    fn new(state: &State) -> Self {
        Self {
            theme: Theme::of(state.looks()),
            looks: state.looks(),
        }
    }

    /// A sign, or what stands for it where only ASCII may.
    pub(crate) fn sign<'a>(&self, sign: &'a str, ascii: &'a str) -> &'a str {
        if self.looks.signs { sign } else { ascii }
    }

    /// Puts a text in a row, cut to some columns. Gives the columns it took.
    pub(crate) fn put(
        &self,
        buffer: &mut Buffer,
        x: u16,
        y: u16,
        columns: u16,
        text: &str,
        style: Style,
    ) -> u16 {
        if columns == 0 || !buffer.area.contains((x, y).into()) {
            return 0;
        }
        let columns = columns.min(buffer.area.right() - x);
        let plain = if self.looks.signs {
            None
        } else {
            Some(ascii(text))
        };
        let text = plain.as_deref().unwrap_or(text);
        let text = cut(text, usize::from(columns), self.looks.signs);
        buffer.set_stringn(x, y, &text, usize::from(columns), style);
        u16::try_from(width(&text)).unwrap_or(columns)
    }

    /// Puts a text at the right end of a row.
    pub(crate) fn put_right(
        &self,
        buffer: &mut Buffer,
        area: Rect,
        y: u16,
        text: &str,
        style: Style,
    ) -> u16 {
        let wide = u16::try_from(width(text))
            .unwrap_or(area.width)
            .min(area.width);
        self.put(buffer, area.right() - wide, y, wide, text, style)
    }

    /// The sign and style of something wrong.
    pub(crate) fn mark(&self, worst: Option<Severity>) -> (&'static str, Style) {
        match worst {
            Some(Severity::Refused) => ("!", self.theme.bad),
            Some(Severity::Doubtful) => ("?", self.theme.doubtful),
            None => (" ", self.theme.text),
        }
    }
}

/// Gives cells a style over what stands in them.
pub(crate) fn over(buffer: &mut Buffer, area: Rect, style: Style) {
    buffer.set_style(area.intersection(buffer.area), style);
}

/// How many are refused and how many doubtful.
pub(crate) fn counts(state: &State) -> (usize, usize) {
    let problems = state.doc().problems();
    let refused = problems
        .iter()
        .filter(|p| p.severity == Severity::Refused)
        .count();
    (refused, problems.len() - refused)
}

/// Columns that the name of the project has at least beside the names of all pages.
const LEAST_NAME: usize = 8;

/// The keys of the pages, in short: `1-9, 0, D`.
fn page_keys(state: &State) -> String {
    let mut runs: Vec<(String, String)> = Vec::new();
    let number = |key: &str| key.parse::<u8>().ok();
    for (_, _, id) in Screen::ALL {
        let key = state.keymap().first(id).to_string();
        match runs.last_mut() {
            Some((_, last)) if number(&key).is_some_and(|of| of.checked_sub(1) == number(last)) => {
                *last = key;
            }
            _ => runs.push((key.clone(), key)),
        }
    }
    let runs = runs.into_iter().map(|(first, last)| {
        if first == last {
            first
        } else {
            format!("{first}-{last}")
        }
    });
    runs.collect::<Vec<_>>().join(", ")
}

/// The line at the top: the project, its file, the pages.
fn title(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) {
    if area.is_empty() {
        return;
    }
    let y = area.y;
    let (refused, doubtful) = counts(state);
    let mut pages = Vec::new();
    for (screen, name, id) in Screen::ALL {
        let key = state.keymap().first(id);
        let mut words = format!("{key} {name}");
        if screen == Screen::Problems && refused + doubtful > 0 {
            words = format!("{words} {refused}! {doubtful}?");
        }
        pages.push((screen, words));
    }
    let all: usize = pages.iter().map(|(_, words)| width(words)).sum();
    let room = usize::from(area.width);
    // Two blanks between pages, or one where it is narrow.
    let mut gap = 2;
    if all + 2 * pages.len() + LEAST_NAME > room {
        gap = 1;
        for (screen, words) in &mut pages {
            if *screen == Screen::Problems && refused == 0 {
                *words = words.replace(" 0!", "");
            }
        }
    }
    let sum = |pages: &[(Screen, String)], gap: usize| -> usize {
        pages.iter().map(|(_, words)| width(words) + gap).sum()
    };
    let mut wide = sum(&pages, gap);
    let name = &state.project().name;
    let changed = if state.is_read_only() {
        " (to look at only)"
    } else if state.doc().is_changed() {
        " (changed)"
    } else {
        ""
    };
    let full = format!("{name} · {}{changed}", state.file_name());
    let short = format!("{name}{}", if changed.is_empty() { "" } else { " *" });
    let left = if width(&full) + wide + 2 <= room {
        full
    } else {
        short
    };
    if wide + LEAST_NAME > room {
        gap = 2;
        // Only the page that is shown.
        pages.retain(|(screen, _)| *screen == state.screen());
        for (_, words) in &mut pages {
            *words = format!("{words} ({})", page_keys(state));
            if state.screen() != Screen::Problems && refused + doubtful > 0 {
                *words = format!("{words} {refused}! {doubtful}?");
            }
        }
        wide = sum(&pages, gap);
    }
    let wide = u16::try_from(wide).unwrap_or(area.width).min(area.width);
    let mut x = area.right() - wide;
    let own = x.saturating_sub(area.x + 1);
    // That it was changed is said however short the name is cut.
    let left = match (width(&left) > usize::from(own), changed.is_empty()) {
        (true, false) => {
            let name = cut(name, usize::from(own.saturating_sub(2)), pen.looks.signs);
            format!("{name} *")
        }
        _ => left,
    };
    pen.put(buffer, area.x, y, own, &left, pen.theme.heading);
    for (screen, words) in pages {
        let style = if screen == state.screen() {
            pen.theme.selected
        } else {
            pen.theme.text
        };
        let words = if gap == 2 {
            format!(" {words} ")
        } else {
            format!("{words} ")
        };
        x += pen.put(buffer, x, y, area.right().saturating_sub(x), &words, style);
    }
}

/// Paints without a terminal, for screens kept as files.
impl Widget for &State {
    fn render(self, area: Rect, buffer: &mut Buffer) {
        paint(self, area, buffer);
    }
}
