//! Boxes over the screen. Not here: what they hold.

use super::fields::typed_line;
use super::help::{HelpLine, help_lines};
use super::list::top;
use super::{Pen, over};
use crate::State;
use crate::state::{Popup, Prompt, Question, Total, Why};
use crate::text::{left, lines};
use crate::update::found_commands;
use ecow::{EcoString, eco_format};
use hodful_quantities::print;
use hodful_quantities::units::volume_of_mm3;
use hodful_takeoff::Dimension;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};
use ratatui::widgets::{Clear, Widget};

/// Paints the box on top; gives where the cursor stands in it.
pub(super) fn paint(
    state: &State,
    pen: &Pen,
    area: Rect,
    buffer: &mut Buffer,
) -> Option<(u16, u16)> {
    match state.popup()? {
        Popup::Help { query, top: first } => {
            let inner = frame(pen, wide(area), "Help: type to search, Esc closes", buffer);
            let (line, rest) = split(inner);
            help(state, pen, rest, *first, buffer);
            search(pen, line, query, buffer)
        }
        Popup::Commands { query, row } => {
            let inner = frame(
                pen,
                wide(area),
                "Commands: type to search, Enter does it",
                buffer,
            );
            let (line, rest) = split(inner);
            commands(state, pen, rest, *row, buffer);
            search(pen, line, query, buffer)
        }
        Popup::Totals { row } => {
            totals(state, pen, area, *row, buffer);
            None
        }
        Popup::Why(of) => {
            let title = "Why? Right shows more, Enter on what was typed goes there, Esc closes";
            let inner = frame(pen, wide(area), title, buffer);
            why(state, pen, inner, of, buffer);
            None
        }
        Popup::Ask(question) => {
            ask(pen, area, question, buffer);
            None
        }
        Popup::Prompt(of) => prompt(pen, area, of, buffer),
        Popup::Text {
            title, top: first, ..
        } => {
            let inner = frame(pen, wide(area), title, buffer);
            let all = text_lines(state);
            // The last line stays in sight.
            let first = (*first).min(all.len().saturating_sub(usize::from(inner.height)));
            for (y, line) in (inner.y..inner.bottom()).zip(all.iter().skip(first)) {
                pen.put(buffer, inner.x, y, inner.width, line, pen.theme.text);
            }
            None
        }
    }
}

fn totals(state: &State, pen: &Pen, area: Rect, chosen: usize, buffer: &mut Buffer) {
    let inner = frame(pen, middle(area, 74, 9), "Why? Choose a total", buffer);
    for (y, (at, total)) in (inner.y..inner.bottom()).zip(Total::ALL.iter().enumerate()) {
        let shown = total.shown(state.doc().headline(), state.units());
        let (label, shown) = (left(total.label(), 11, true), left(&shown, 14, true));
        let words = eco_format!("{label} {shown}  {}", total.doc());
        pen.put(buffer, inner.x, y, inner.width, &words, pen.theme.text);
        choose(pen, buffer, inner, y, at == chosen);
    }
}

fn ask(pen: &Pen, area: Rect, question: &Question, buffer: &mut Buffer) {
    let columns = 64.min(area.width.saturating_sub(2));
    let words = lines(&question.words, usize::from(columns.saturating_sub(4)));
    let answers = u16::try_from(question.answers.len()).unwrap_or(u16::MAX);
    let high = u16::try_from(words.len())
        .unwrap_or(u16::MAX)
        .saturating_add(answers);
    let inner = frame(
        pen,
        middle(area, columns, high.saturating_add(3)),
        "",
        buffer,
    );
    let mut y = inner.y;
    for line in words.iter().take(usize::from(inner.height)) {
        pen.put(buffer, inner.x, y, inner.width, line, pen.theme.heading);
        y += 1;
    }
    // A blank row only where there is room for it.
    if y.saturating_add(1).saturating_add(answers) <= inner.bottom() {
        y += 1;
    }
    for (y, (at, (letter, words, _))) in
        (y..inner.bottom()).zip(question.answers.iter().enumerate())
    {
        let words = eco_format!("{letter}  {words}");
        pen.put(buffer, inner.x, y, inner.width, &words, pen.theme.text);
        choose(pen, buffer, inner, y, at == question.row);
    }
}

fn prompt(pen: &Pen, area: Rect, of: &Prompt, buffer: &mut Buffer) -> Option<(u16, u16)> {
    let columns = 70.min(area.width.saturating_sub(2));
    let room = usize::from(columns.saturating_sub(4));
    let words = lines(of.what.words(), room);
    let faults = of
        .fault
        .as_deref()
        .map_or_else(Vec::new, |fault| lines(fault, room));
    let high = u16::try_from(words.len() + 1 + faults.len()).unwrap_or(u16::MAX);
    let inner = frame(
        pen,
        middle(area, columns, high.saturating_add(2)),
        "",
        buffer,
    );
    for (y, line) in (inner.y..inner.bottom()).zip(&words) {
        pen.put(buffer, inner.x, y, inner.width, line, pen.theme.heading);
    }
    let y = inner
        .y
        .saturating_add(u16::try_from(words.len()).unwrap_or(u16::MAX));
    if y >= inner.bottom() {
        return None;
    }
    let line = Rect::new(inner.x, y, inner.width, 1);
    let cursor = typed_line(pen, line, &of.input, pen.theme.selected, buffer);
    for (y, line) in (y + 1..inner.bottom()).zip(&faults) {
        pen.put(buffer, inner.x, y, inner.width, line, pen.theme.bad);
    }
    Some(cursor)
}

/// The lines of a text to be read, broken as they are painted.
pub(crate) fn text_lines(state: &State) -> Vec<EcoString> {
    let Some(Popup::Text { lines: of, .. }) = state.popup() else {
        return Vec::new();
    };
    let (columns, rows) = state.size();
    let inner = wide(Rect::new(0, 0, columns, rows)).width.saturating_sub(4);
    of.iter()
        .flat_map(|paragraph| lines(paragraph, usize::from(inner)))
        .collect()
}

/// A large box.
fn wide(area: Rect) -> Rect {
    middle(area, area.width, area.height.saturating_sub(2))
}

/// A box of some size in the middle, or as much of it as there is room for.
fn middle(area: Rect, columns: u16, rows: u16) -> Rect {
    let (columns, rows) = (columns.min(area.width), rows.min(area.height));
    Rect::new(
        area.x + (area.width - columns) / 2,
        area.y + (area.height - rows) / 2,
        columns,
        rows,
    )
}

/// Clears a box and draws its frame; gives the room inside.
fn frame(pen: &Pen, area: Rect, title: &str, buffer: &mut Buffer) -> Rect {
    let area = area.intersection(buffer.area);
    Clear.render(area, buffer);
    if area.width < 4 || area.height < 3 {
        return Rect::new(area.x, area.y, area.width, area.height);
    }
    let (right, bottom) = (area.right() - 1, area.bottom() - 1);
    let level = pen.sign("─", "-");
    let upright = pen.sign("│", "|");
    for x in area.x..=right {
        pen.put(buffer, x, area.y, 1, level, pen.theme.line);
        pen.put(buffer, x, bottom, 1, level, pen.theme.line);
    }
    for y in area.y..=bottom {
        pen.put(buffer, area.x, y, 1, upright, pen.theme.line);
        pen.put(buffer, right, y, 1, upright, pen.theme.line);
    }
    let corners = [
        (area.x, area.y, "┌"),
        (right, area.y, "┐"),
        (area.x, bottom, "└"),
        (right, bottom, "┘"),
    ];
    for (x, y, corner) in corners {
        pen.put(buffer, x, y, 1, pen.sign(corner, "+"), pen.theme.line);
    }
    if !title.is_empty() {
        let title = eco_format!(" {title} ");
        pen.put(
            buffer,
            area.x + 1,
            area.y,
            area.width.saturating_sub(2),
            &title,
            pen.theme.heading,
        );
    }
    Rect::new(area.x + 2, area.y + 1, area.width - 4, area.height - 2)
}

/// The first row, and the rest.
fn split(area: Rect) -> (Rect, Rect) {
    let first = Rect::new(area.x, area.y, area.width, area.height.min(1));
    let rest = Rect::new(
        area.x,
        area.y + first.height,
        area.width,
        area.height - first.height,
    );
    (first, rest)
}

fn search(
    pen: &Pen,
    area: Rect,
    query: &tui_input::Input,
    buffer: &mut Buffer,
) -> Option<(u16, u16)> {
    if area.is_empty() {
        return None;
    }
    Some(typed_line(
        pen,
        area,
        query,
        pen.theme.text.add_modifier(Modifier::UNDERLINED),
        buffer,
    ))
}

/// Sets off the chosen row.
fn choose(pen: &Pen, buffer: &mut Buffer, area: Rect, y: u16, chosen: bool) {
    if chosen {
        over(
            buffer,
            Rect::new(area.x, y, area.width, 1),
            pen.theme.selected,
        );
    }
}

fn help(state: &State, pen: &Pen, area: Rect, first: usize, buffer: &mut Buffer) {
    let all = help_lines(state);
    let key_wide = if area.width >= 60 {
        26
    } else {
        area.width * 2 / 5
    };
    let mut y = area.y;
    for line in all.iter().skip(first) {
        if y >= area.bottom() {
            break;
        }
        match line {
            HelpLine::Heading(words) => {
                pen.put(
                    buffer,
                    area.x,
                    y,
                    area.width,
                    words,
                    pen.theme.heading.add_modifier(Modifier::UNDERLINED),
                );
                y += 1;
            }
            HelpLine::Pair(key, words) => {
                let keys = lines(key, usize::from(key_wide.saturating_sub(1)));
                let words = lines(words, usize::from(area.width.saturating_sub(key_wide)));
                for at in 0..keys.len().max(words.len()) {
                    if y >= area.bottom() {
                        break;
                    }
                    if let Some(key) = keys.get(at) {
                        pen.put(
                            buffer,
                            area.x,
                            y,
                            key_wide.saturating_sub(1),
                            key,
                            pen.theme.key,
                        );
                    }
                    if let Some(line) = words.get(at) {
                        pen.put(
                            buffer,
                            area.x + key_wide,
                            y,
                            area.width.saturating_sub(key_wide),
                            line,
                            pen.theme.text,
                        );
                    }
                    y += 1;
                }
            }
        }
    }
}

fn commands(state: &State, pen: &Pen, area: Rect, chosen: usize, buffer: &mut Buffer) {
    let found = found_commands(state);
    if found.is_empty() {
        pen.put(
            buffer,
            area.x,
            area.y,
            area.width,
            "No command has these words",
            pen.theme.dim,
        );
        return;
    }
    let first = top(chosen, found.len(), usize::from(area.height));
    for (y, (at, command)) in (area.y..area.bottom()).zip(found.iter().enumerate().skip(first)) {
        let now = crate::command::available(state, command);
        let style = if now.is_ok() {
            pen.theme.text
        } else {
            pen.theme.dim
        };
        let keys = state.keymap().shown(command.id);
        pen.put(buffer, area.x, y, 16, &keys, pen.theme.key);
        let words = match now {
            Ok(()) => eco_format!("{}: {}", command.name, command.doc),
            Err(why) => eco_format!("{}: not now, {why}", command.name),
        };
        let x = area.x + 17;
        pen.put(buffer, x, y, area.right().saturating_sub(x), &words, style);
        choose(pen, buffer, area, y, at == chosen);
    }
}

fn why(state: &State, pen: &Pen, area: Rect, of: &Why, buffer: &mut Buffer) {
    let units = state.units();
    let rows = of.rows();
    // What is said of the chosen row stands at the foot of the box.
    let chosen = rows.get(of.row);
    let mut foot: Vec<(EcoString, Style)> = Vec::new();
    if let Some(row) = chosen {
        let node = row.node;
        let mut add = |words: &str, style: Style| {
            foot.extend(
                lines(words, usize::from(area.width))
                    .into_iter()
                    .take(3)
                    .map(|line| (line, style)),
            );
        };
        if let Some(text) = node.formula_words(units) {
            add(&eco_format!("= {text}"), pen.theme.text);
        }
        if let Some(typed) = &node.typed {
            let place = node
                .place
                .as_ref()
                .map(|place| eco_format!(" at {place}"))
                .unwrap_or_default();
            add(
                &eco_format!("typed as {typed}{place}; Enter goes there"),
                pen.theme.change,
            );
        }
        if let Some(source) = &node.source {
            add(&eco_format!("[{source}]"), pen.theme.dim);
        }
    }
    let foot_high = u16::try_from(foot.len()).unwrap_or(0).min(area.height / 2);
    let tree = Rect::new(area.x, area.y, area.width, area.height - foot_high);
    let first = top(of.row, rows.len(), usize::from(tree.height));
    for (y, (at, row)) in (tree.y..tree.bottom()).zip(rows.iter().enumerate().skip(first)) {
        let depth = u16::try_from(row.way.len() * 2)
            .unwrap_or(u16::MAX)
            .min(tree.width / 2);
        let sign = match (row.node.terms.is_empty(), row.open) {
            (true, _) if row.node.typed.is_some() => pen.sign("· ", "- "),
            (true, _) if row.more().is_some() => pen.sign("▸ ", "> "),
            (true, _) => "  ",
            (false, true) => pen.sign("▾ ", "v "),
            (false, false) => pen.sign("▸ ", "> "),
        };
        let mut figure = row.node.figure.words(units);
        // The figure asked for stands besides as the rest of the screen prints it.
        if row.way.is_empty() && row.node.figure.dimension == Dimension::Volume {
            let volume = volume_of_mm3(row.node.figure.value);
            figure = format!("{} = {figure}", print::bulk_volume(volume, units));
        }
        let right = pen.put_right(buffer, tree, y, &figure, pen.theme.text);
        let room = tree.width.saturating_sub(depth + right + 2);
        let words = eco_format!("{sign}{}", row.node.label);
        pen.put(buffer, tree.x + depth, y, room, &words, pen.theme.text);
        choose(pen, buffer, tree, y, at == of.row);
    }
    for (y, (line, style)) in (tree.bottom()..area.bottom()).zip(&foot) {
        pen.put(buffer, area.x, y, area.width, line, *style);
    }
}
