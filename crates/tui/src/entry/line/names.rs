//! Names in a line: of a wall first, of a build-up or background, or one that is given. Names with
//! blanks stand in quotation marks; a known one may do without. Not here: values.

use super::super::pieces::is_quote;
use super::super::words::begins;
use super::super::{Role, known};
use super::Heard;
use core::ops::Range;
use ecow::{EcoString, eco_format};

/// How many names a message lists.
const LISTED: usize = 6;

/// What a name is of: in a message, and as the meaning of a completion.
type What = (&'static str, &'static str);

impl Heard<'_> {
    /// A text in quotation marks, or up to the next blank: where it is, with the marks, and itself.
    fn chunk(&self) -> Option<(Range<usize>, Range<usize>)> {
        let start = self.next()?.range.start;
        let rest = self.line.get(start..)?;
        let first = rest.chars().next()?;
        if is_quote(first) {
            let inner = start + first.len_utf8();
            let after = self.line.get(inner..)?;
            return Some(match after.char_indices().find(|(_, c)| is_quote(*c)) {
                Some((at, c)) => (start..inner + at + c.len_utf8(), inner..inner + at),
                None => (start..self.line.len(), inner..self.line.len()),
            });
        }
        let length = rest.find(char::is_whitespace).unwrap_or(rest.len());
        Some((start..start + length, start..start + length))
    }

    fn take_name(&mut self, range: Range<usize>) {
        let end = range.end;
        self.span(range, Role::Name);
        self.go_to(end);
    }

    /// Any name.
    pub(super) fn name_next(&mut self, ask: &str) -> Option<EcoString> {
        let (range, inner) = self.chunk()?;
        self.value_may_stand(ask, range.end);
        let name = EcoString::from(self.text(inner).trim());
        self.take_name(range);
        (!name.is_empty()).then_some(name)
    }

    /// A name of the project: whole, or shortened while only one it could be.
    pub(super) fn name_among<'n>(
        &mut self,
        (what, meaning): What,
        names: impl Iterator<Item = &'n EcoString> + Clone,
    ) -> Option<EcoString> {
        let offers: Vec<(EcoString, &'static str)> =
            names.clone().map(|name| (name.clone(), meaning)).collect();
        let Some((range, inner)) = self.chunk() else {
            self.may_stand(&offers, None, None);
            self.waits = Some(self.before());
            let at = self.before();
            self.wrong(at..at, eco_format!("which {what}? {}", there_is(names)));
            return None;
        };
        let rest = self.text(inner.start..self.line.len()).trim_end();
        let quoted = inner != range;
        let whole = names
            .clone()
            .filter(|name| !name.is_empty() && begins(rest, name))
            .filter(|name| {
                let after = rest.get(name.len()..).and_then(|rest| rest.chars().next());
                after.is_none_or(|c| c.is_whitespace() || quoted && is_quote(c))
            })
            .max_by_key(|name| name.len());
        let short = |typed: &str| {
            let mut fitting = names.clone().filter(|name| begins(name, typed));
            fitting.next().filter(|_| fitting.next().is_none())
        };
        let to_end = inner.start..inner.start + rest.len();
        let (found, end) = if let Some(name) = whole {
            let mut end = inner.start + name.len();
            if quoted {
                end = end.max(range.end);
            }
            (Some(name), end)
        } else if let Some(name) = short(rest) {
            (Some(name), to_end.end.max(range.end))
        } else {
            (short(self.text(inner.clone())), range.end)
        };
        // While it is typed it may have blanks.
        let typing = if names.clone().any(|name| begins(name, rest)) {
            to_end
        } else {
            inner.clone()
        };
        self.may_stand(&offers, None, Some(typing));
        let range = range.start..end;
        let found = found.cloned();
        if let Some(name) = &found {
            if self.text(inner).len() < name.len() {
                self.shortened = Some(end);
            }
            self.take_name(range);
        } else {
            let typed = EcoString::from(self.text(inner));
            let message = eco_format!("'{typed}' is no {what} of the project; {}", there_is(names));
            self.wrong(range.clone(), message);
            self.span(range.clone(), Role::Wrong);
            self.go_to(range.end);
        }
        found
    }

    /// The wall that is named first, when the line begins with the name of one and an opening, a
    /// pocket or nothing follows.
    pub(super) fn named_wall(
        &mut self,
        is_followed: impl Fn(&str, &[super::Piece]) -> bool,
        begins_line: impl Fn(&str) -> bool,
    ) {
        let Some((range, inner)) = self.chunk() else {
            return;
        };
        let after = self
            .pieces
            .iter()
            .position(|piece| piece.range.start >= range.end)
            .unwrap_or(self.pieces.len());
        let rest = self.pieces.get(after..).unwrap_or_default();
        if !rest.is_empty() && !is_followed(self.line, rest) {
            return;
        }
        let typed = self.text(inner);
        let found = known::wall(self.context, typed, !rest.is_empty());
        if let Some(position) = found {
            self.wall = Some(position);
            self.take_name(range);
        } else if !rest.is_empty()
            && !typed.starts_with(|c: char| c.is_ascii_digit())
            && !begins_line(typed)
        {
            let message = eco_format!("there is no wall '{typed}'");
            self.wrong(range.clone(), message);
            self.span(range.clone(), Role::Wrong);
            self.go_to(range.end);
        }
    }
}

/// `there is outside bale, inside bale`.
fn there_is<'n>(names: impl Iterator<Item = &'n EcoString> + Clone) -> EcoString {
    let listed: Vec<&str> = names.clone().take(LISTED).map(EcoString::as_str).collect();
    match (listed.is_empty(), names.count() > LISTED) {
        (true, _) => "the project has none yet".into(),
        (false, more) => {
            let more = if more { " ..." } else { "" };
            eco_format!("there is {}{more}", listed.join(", "))
        }
    }
}
