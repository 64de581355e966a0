//! The foot of the screen: the entry line with what it is understood as, words, and the keys that work
//! now. Not here: the grammar of the line.

use super::fields::typed_line;
use super::{Pen, over};
use crate::State;
use crate::command::{COMMANDS, Command, Layer, layers};
use crate::entry::Role;
use crate::state::Focus;
use crate::text::width;
use ecow::{EcoString, eco_format};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Modifier;

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
        let tall = area.height >= 3;
        if tall {
            let key = state.keymap().first(crate::command::Id::Enter);
            let words = eco_format!("{key}: type a plan, a wall, a window here");
            pen.put(buffer, area.x, area.y, area.width, &words, pen.theme.dim);
        }
        if area.height > 1 {
            words(state, pen, row(area.height - 2), buffer);
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
    let mut tell = |at: u16, words: &str, style| {
        let area = row(at);
        pen.put(buffer, area.x, area.y, area.width, words, style);
    };
    if let Some(notice) = state.notice() {
        let style = if notice.bad {
            pen.theme.bad
        } else {
            pen.theme.text
        };
        tell(1, &notice.words, style);
    } else if empty {
        tell(1, &expects, pen.theme.dim);
    } else if let (Some(fault), true) = (fault, area.height < 3 || said.is_empty()) {
        tell(1, &fault.message, pen.theme.bad);
    } else {
        tell(1, &said, pen.theme.change);
    }
    if area.height >= 3 {
        match fault {
            Some(fault) if !empty && !said.is_empty() => tell(2, &fault.message, pen.theme.bad),
            _ if !empty && !expects.is_empty() => {
                tell(2, &eco_format!("next: {expects}"), pen.theme.dim);
            }
            _ => hints(state, pen, last, buffer),
        }
    }
    Some(cursor)
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
        .filter(|_| entry.input.cursor() == value.chars().count() && !value.is_empty());
    if let Some(rest) = rest {
        let room = own.right().saturating_sub(cursor.0);
        pen.put(buffer, cursor.0, own.y, room, &rest.text, pen.theme.dim);
    }
    cursor
}

/// Words of the front end, or what will be undone.
fn words(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) {
    if let Some(notice) = state.notice() {
        let style = if notice.bad {
            pen.theme.bad
        } else {
            pen.theme.text
        };
        pen.put(buffer, area.x, area.y, area.width, &notice.words, style);
        return;
    }
    if state.focus() == Focus::Fields {
        if let Some(row) = state.rows().get(state.field()) {
            let mut words = EcoString::from(row.doc);
            if let hodful_takeoff::form::Kind::OneOf(all)
            | hodful_takeoff::form::Kind::SomeOf(all) = &row.kind
            {
                words.push_str(&eco_format!(": {}", all.join(", ")));
            }
            pen.put(buffer, area.x, area.y, area.width, &words, pen.theme.dim);
        }
        return;
    }
    let undo = state.keymap().first(crate::command::Id::Undo);
    if let Some(step) = state.doc().next_undo() {
        let words = eco_format!("{undo} takes back: {}", step.label);
        pen.put(buffer, area.x, area.y, area.width, &words, pen.theme.dim);
    }
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
    let writes = matches!(
        layers(state).first(),
        Some(Layer::Typing | Layer::Entry | Layer::Fields)
    );
    for command in hinted(state) {
        let keys = state.keymap().keys(command.id);
        // Where letters are typed, a key that is no letter.
        let key = keys
            .iter()
            .find(|key| !writes || crate::keymap::typed(**key).is_none())
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
