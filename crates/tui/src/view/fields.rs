//! The fields of what is chosen, with what is understood or wrong under the one that is typed.

use super::list::top;
use super::{Pen, over};
use crate::State;
use crate::state::Focus;
use crate::text::{lines, width};
use ecow::{EcoString, eco_format};
use hodful_takeoff::Severity;
use hodful_takeoff::form::{self, Row};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

/// One line of the panel.
enum Line {
    Heading(&'static str),
    Field(usize),
    /// Words under a field, and whether they tell of a fault.
    Under(EcoString, bool),
}

/// Paints the fields; gives where the cursor stands.
pub(super) fn paint(
    state: &State,
    pen: &Pen,
    area: Rect,
    buffer: &mut Buffer,
) -> Option<(u16, u16)> {
    let subject = state.subject()?;
    let title = form::title(state.project(), subject);
    let under = pen.theme.heading.add_modifier(Modifier::UNDERLINED);
    pen.put(buffer, area.x, area.y, area.width, &title, under);
    let rows = state.rows();
    let (all, at_line) = panel(state, subject, &rows, usize::from(area.width));
    let high = usize::from(area.height.saturating_sub(1));
    let first = top(at_line, all.len(), high);
    let mut cursor = None;
    for (y, line) in (area.y + 1..area.bottom()).zip(all.iter().skip(first)) {
        let row = Rect::new(area.x, y, area.width, 1);
        match line {
            Line::Heading(words) => {
                pen.put(buffer, area.x, y, area.width, words, pen.theme.heading);
            }
            Line::Under(words, bad) => {
                let style = if *bad {
                    pen.theme.bad
                } else {
                    pen.theme.change
                };
                pen.put(
                    buffer,
                    area.x + 2,
                    y,
                    area.width.saturating_sub(2),
                    words,
                    style,
                );
            }
            Line::Field(at) => {
                if let Some(of) = rows.get(*at) {
                    cursor = field(state, pen, row, of, *at == state.field(), buffer).or(cursor);
                }
            }
        }
    }
    cursor
}

/// The lines of the panel, and the one of the chosen field.
fn panel(state: &State, subject: form::Subject, rows: &[Row], wide: usize) -> (Vec<Line>, usize) {
    let under = |words: &str, bad: bool| {
        lines(words, wide.saturating_sub(2))
            .into_iter()
            .map(move |line| Line::Under(line, bad))
    };
    let chosen = state.field();
    let mut all = Vec::new();
    let (mut group, mut at_line) = ("", 0);
    for (at, row) in rows.iter().enumerate() {
        if row.group != group {
            group = row.group;
            if !group.is_empty() {
                all.push(Line::Heading(group));
            }
        }
        if at == chosen {
            at_line = all.len();
        }
        all.push(Line::Field(at));
        if at != chosen || state.focus() != Focus::Fields {
            continue;
        }
        match state.typing().map(|typing| &typing.understood) {
            Some(Ok(words)) => all.push(Line::Under(words.into(), false)),
            Some(Err(words)) => all.extend(under(words, true)),
            None => {
                if let Some(words) = wrong(state, subject, &row.key) {
                    all.extend(under(&words, true));
                }
            }
        }
    }
    (all, at_line)
}

/// One field; gives where the cursor stands when it is the chosen one.
fn field(
    state: &State,
    pen: &Pen,
    area: Rect,
    row: &Row,
    chosen: bool,
    buffer: &mut Buffer,
) -> Option<(u16, u16)> {
    let theme = &pen.theme;
    let has_focus = state.focus() == Focus::Fields;
    let wide = label_width(usize::from(area.width));
    let (y, indent) = (area.y, u16::from(!row.group.is_empty()));
    pen.put(
        buffer,
        area.x,
        y,
        1,
        if chosen { ">" } else { " " },
        theme.heading,
    );
    let room = wide.saturating_sub(2 + indent);
    pen.put(buffer, area.x + 1 + indent, y, room, &row.label, theme.dim);
    let value = Rect::new(area.x + wide, y, area.width.saturating_sub(wide), 1);
    if let Some(typing) = state.typing().filter(|_| chosen) {
        return Some(typed_line(
            pen,
            value,
            &typing.input,
            theme.selected,
            buffer,
        ));
    }
    let (text, style) = match (&row.text, &row.default) {
        (Some(text), _) => (text.clone(), theme.text),
        (None, Some(default)) => (eco_format!("({default})"), theme.dim),
        (None, None) => (pen.sign("–", "-").into(), theme.dim),
    };
    pen.put(buffer, value.x, y, value.width, &text, style);
    if chosen {
        over(
            buffer,
            area,
            if has_focus {
                theme.selected
            } else {
                theme.chosen
            },
        );
    }
    (chosen && has_focus).then_some((value.x, y))
}

/// Columns of the labels.
pub(super) fn label_width(wide: usize) -> u16 {
    u16::try_from((wide * 11 / 20).min(17)).unwrap_or(u16::MAX)
}

/// What is wrong with a field, in words.
fn wrong(state: &State, subject: form::Subject, key: &str) -> Option<EcoString> {
    let here = state.located().subjects.iter().zip(state.doc().problems());
    let problem = here
        .filter(|(of, _)| **of == subject)
        .map(|(_, problem)| problem)
        .find(|problem| {
            let found = form::find(state.project(), &problem.place);
            found.is_some_and(|(of, field)| of == subject && field.as_deref() == Some(key))
        })?;
    let sign = match problem.severity {
        Severity::Refused => "!",
        Severity::Doubtful => "?",
    };
    Some(eco_format!("{sign} {}", problem.message))
}

/// Paints a line that is typed, so that its cursor is in sight. Gives where the cursor stands.
pub(super) fn typed_line(
    pen: &Pen,
    area: Rect,
    input: &tui_input::Input,
    style: Style,
    buffer: &mut Buffer,
) -> (u16, u16) {
    let room = usize::from(area.width.saturating_sub(1));
    let start = input.visual_scroll(room);
    // Skip whole letters up to the scroll.
    let mut skipped = 0;
    let shown: String = input
        .value()
        .chars()
        .skip_while(|letter| {
            let skip = skipped < start;
            skipped += if skip {
                width(letter.encode_utf8(&mut [0; 4]))
            } else {
                0
            };
            skip
        })
        .collect();
    over(buffer, area, style);
    pen.put(buffer, area.x, area.y, area.width, &shown, style);
    let cursor = input.visual_cursor().saturating_sub(start).min(room);
    (area.x + u16::try_from(cursor).unwrap_or(0), area.y)
}
