//! The foot of the screen: the entry line with what it is understood as, words, and the keys that work
//! now. Not here: the grammar of the line.

use super::fields::typed_line;
use super::{Pen, over};
use crate::State;
use crate::command::{COMMANDS, Command, Layer, layers};
use crate::entry::Role;
use crate::state::Focus;
use crate::text::{lines, width};
use crokey::KeyCombination;
use ecow::{EcoString, eco_format};
use hodful_takeoff::form::Kind;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

/// Paints the foot; gives where the cursor stands in the entry line.
pub(super) fn paint(
    state: &State,
    pen: &Pen,
    area: Rect,
    buffer: &mut Buffer,
) -> Option<(u16, u16)> {
    if area.is_empty() {
        return None;
    }
    let row = |at: u16| Rect::new(area.x, area.y + at, area.width, 1).intersection(area);
    let last = row(area.height - 1);
    if state.focus() != Focus::Entry {
        let above = Rect::new(area.x, area.y, area.width, area.height - 1);
        let told = words(state, pen, above, buffer);
        if area.height >= 3 && told < 2 {
            let key = state.keymap().first(crate::command::Id::Enter);
            let words = eco_format!("{key}: type a plan, a wall, a window here");
            pen.put(buffer, area.x, area.y, area.width, &words, pen.theme.dim);
        }
        hints(state, pen, last, buffer);
        return None;
    }
    let cursor = line(state, pen, row(0), buffer);
    let reading = state.entry().reading.as_ref();
    let fault = reading.and_then(|reading| reading.fault.as_ref());
    let said: EcoString = reading
        .map(|reading| reading.said.join("; ").into())
        .unwrap_or_default();
    let expects = reading
        .map(|reading| reading.expects.clone())
        .unwrap_or_default();
    let empty = state.entry().input.value().trim().is_empty();
    // The rows under the line.
    let under = Rect::new(area.x, area.y + 1, area.width, area.height - 1);
    // As many rows as words take, from the top, the last row left for what may come next.
    let top = |words: &str| {
        let rows = lines(words, usize::from(area.width)).len();
        let most = under.height.saturating_sub(1).max(1);
        let rows = u16::try_from(rows).unwrap_or(most).clamp(1, most);
        Rect::new(under.x, under.y, under.width, rows.min(under.height))
    };
    let good = said_or(&said, &expects, empty);
    if let Some(notice) = state.notice() {
        let style = if notice.bad {
            pen.theme.bad
        } else {
            pen.theme.text
        };
        put_lines(pen, top(&notice.words), &notice.words, style, buffer);
        if under.height >= 2 {
            hints(state, pen, last, buffer);
        }
        return Some(cursor);
    }
    match fault.filter(|_| !empty) {
        Some(fault) if under.height < 2 || said.is_empty() => {
            put_lines(
                pen,
                top(&fault.message),
                &fault.message,
                pen.theme.bad,
                buffer,
            );
        }
        Some(fault) => {
            put_lines(pen, top(&said), &said, pen.theme.change, buffer);
            put_lines(pen, last, &fault.message, pen.theme.bad, buffer);
        }
        None => {
            let style = if empty {
                pen.theme.dim
            } else {
                pen.theme.change
            };
            put_lines(pen, top(&good), &good, style, buffer);
            if under.height >= 2 && !empty && !expects.is_empty() {
                let next = eco_format!("next: {expects}");
                pen.put(buffer, last.x, last.y, last.width, &next, pen.theme.dim);
            } else if under.height >= 2 {
                hints(state, pen, last, buffer);
            }
        }
    }
    Some(cursor)
}

/// What the line is understood as, or what may be typed into an empty one.
fn said_or(said: &str, expects: &str, empty: bool) -> EcoString {
    if empty { expects.into() } else { said.into() }
}

/// The entry line, its parts told apart.
fn line(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) -> (u16, u16) {
    let before = "> ";
    let taken = pen.put(buffer, area.x, area.y, area.width, before, pen.theme.key);
    let own = Rect::new(area.x + taken, area.y, area.width.saturating_sub(taken), 1);
    let entry = state.entry();
    let cursor = typed_line(pen, own, &entry.input, pen.theme.text, buffer);
    let value = entry.input.value();
    let scrolled = entry
        .input
        .visual_scroll(usize::from(own.width.saturating_sub(1)));
    for span in entry.reading.iter().flat_map(|reading| &reading.spans) {
        let style = match span.role {
            Role::Word => pen.theme.heading,
            Role::Value | Role::Name => pen.theme.text,
            Role::Wrong => pen.theme.bad.add_modifier(Modifier::UNDERLINED),
        };
        let at = |byte: usize| width(value.get(..byte).unwrap_or(value)).checked_sub(scrolled);
        if let (Some(from), Some(to)) = (at(span.range.start), at(span.range.end)) {
            let from = own
                .x
                .saturating_add(u16::try_from(from).unwrap_or(u16::MAX));
            let to = own
                .x
                .saturating_add(u16::try_from(to).unwrap_or(u16::MAX))
                .min(own.right());
            over(
                buffer,
                Rect::new(from, own.y, to.saturating_sub(from), 1),
                style,
            );
        }
    }
    // The rest of the word at the cursor, as it would be completed.
    let rest = entry
        .reading
        .as_ref()
        .and_then(|reading| reading.completions.first())
        // Only of a word that is begun.
        .filter(|rest| rest.text.trim_end().len() < rest.word.len())
        .filter(|_| entry.input.cursor() == value.chars().count());
    if let Some(rest) = rest {
        let room = own.right().saturating_sub(cursor.0);
        pen.put(buffer, cursor.0, own.y, room, &rest.text, pen.theme.dim);
    }
    cursor
}

/// Words of the front end over as many rows as they take, else the field at length, else what will be
/// undone. Gives the rows they took, from the lowest up.
fn words(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) -> u16 {
    let (text, style) = if let Some(notice) = state.notice() {
        let style = if notice.bad {
            pen.theme.bad
        } else {
            pen.theme.text
        };
        (notice.words.clone(), style)
    } else {
        (standing(state), pen.theme.dim)
    };
    if text.is_empty() {
        return 0;
    }
    put_lines(pen, area, &text, style, buffer)
}

/// Puts words at the foot of an area, broken into lines; what has no room is cut. Gives the rows taken.
fn put_lines(pen: &Pen, area: Rect, text: &str, style: Style, buffer: &mut Buffer) -> u16 {
    let mut of = lines(text, usize::from(area.width));
    if of.len() > usize::from(area.height) {
        // The last line goes on, so that it is seen to be cut.
        let rest: Vec<EcoString> = of
            .drain(usize::from(area.height.saturating_sub(1))..)
            .collect();
        of.push(rest.join(" ").into());
    }
    let taken = u16::try_from(of.len())
        .unwrap_or(area.height)
        .min(area.height);
    for (y, line) in (area.bottom() - taken..area.bottom()).zip(&of) {
        pen.put(buffer, area.x, y, area.width, line, style);
    }
    taken
}

/// What stands at the foot when there is nothing to say.
fn standing(state: &State) -> EcoString {
    if state.focus() == Focus::Fields {
        let rows = state.rows();
        let Some(row) = rows.get(state.field()) else {
            return EcoString::new();
        };
        let mut words = EcoString::from(row.doc);
        if let Kind::OneOf(all) | Kind::SomeOf(all) = &row.kind {
            words.push_str(&eco_format!(": {}", all.join(", ")));
        }
        return words;
    }
    let undo = state.keymap().first(crate::command::Id::Undo);
    state.doc().next_undo().map_or_else(EcoString::new, |step| {
        eco_format!("{undo} undoes: {}", step.label)
    })
}

/// The commands to hint at now, the chief ones first.
pub(crate) fn hinted(state: &State) -> Vec<&'static Command> {
    let layers = layers(state);
    let own = |layer: Layer| layers.iter().position(|l| *l == layer);
    let mut of: Vec<&Command> = COMMANDS
        .iter()
        .filter(|command| !command.hint.is_empty() && own(command.layer).is_some())
        .filter(|command| (command.enabled)(state).is_ok())
        .filter(|command| command.id != crate::command::Id::Enter || state.focus() != Focus::Entry)
        .collect();
    // Help and quit stand first, so that they are there in the narrowest window; then what belongs to
    // this place, then what works anywhere.
    of.sort_by_key(|command| match command.id {
        crate::command::Id::Help | crate::command::Id::Quit => 0,
        _ => 1 + own(command.layer).unwrap_or(0),
    });
    of
}

fn hints(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) {
    let mut x = area.x;
    let here = layers(state).first().copied();
    // The keys of this place come before the letters; those of all others only where they are not typed.
    let works = |command: &Command, key: KeyCombination| match here {
        _ if here == Some(command.layer) => true,
        Some(Layer::Typing | Layer::Entry) => !crate::update::is_of_the_line(key),
        Some(Layer::Fields) => crate::keymap::typed(key).is_none(),
        _ => true,
    };
    for command in hinted(state) {
        let keys = state.keymap().keys(command.id);
        let key = keys
            .iter()
            .find(|key| works(command, **key))
            .map(|key| crate::keymap::shown(*key));
        let Some(key) = key else { continue };
        let wide = u16::try_from(width(&key) + 1 + width(command.hint)).unwrap_or(u16::MAX);
        if x.saturating_add(wide) > area.right() {
            break;
        }
        x += pen.put(buffer, x, area.y, wide, &key, pen.theme.key) + 1;
        x += pen.put(buffer, x, area.y, wide, command.hint, pen.theme.dim) + 2;
    }
}
