//! The layout of what is written: two blanks a level; what fits on a line of a hundred characters or
//! little more stands on one.
//!
//! Not here: what is written.

use crate::kind::Kind;

/// The longest line that an object or a list of several values is put on, in bytes: a coat, a corner or
/// a gable with all its keys just fits.
const LINE: usize = 110;

/// A JSON text being written.
#[derive(Debug, Default)]
pub(crate) struct Out {
    bytes: Vec<u8>,
    /// Where the present line began.
    line: usize,
    depth: usize,
    /// Whether nothing stands yet in the present object or list.
    first: bool,
    /// While an object is tried on one line: where that line must end.
    limit: Option<usize>,
    /// Whether the line being tried ran over its limit.
    over: bool,
}

impl Out {
    /// A JSON text that stands on one line, however long.
    pub(crate) fn on_a_line() -> Self {
        Self {
            limit: Some(usize::MAX),
            ..Self::default()
        }
    }

    /// What was written, with the final newline.
    pub(crate) fn finish(mut self) -> Vec<u8> {
        self.bytes.push(b'\n');
        self.bytes
    }

    /// Writes a text.
    pub(crate) fn text(&mut self, text: &str) {
        let plain = |b: u8| b >= 0x20 && b != b'"' && b != b'\\';
        if text.bytes().all(plain) {
            self.push("\"");
            self.push(text);
            self.push("\"");
        } else {
            // Text always has a JSON spelling; there is no case in which this fails.
            self.push(&serde_json::to_string(text).unwrap_or_default());
        }
    }

    /// Writes something that needs no quotes.
    pub(crate) fn bare(&mut self, text: &str) {
        self.push(text);
    }

    /// Writes an object whose keys `body` gives. `open`: on several lines in any case.
    pub(crate) fn object(&mut self, open: bool, body: impl Fn(&mut Self)) {
        self.group("{", "}", true, open, body);
    }

    /// Writes a list whose items `body` gives.
    pub(crate) fn list(&mut self, item: &Kind, body: impl Fn(&mut Self)) {
        let airy = !item.is_plain() && !matches!(item, Kind::Corner(_));
        self.group("[", "]", airy, item.is_open(), body);
    }

    /// Writes a key and its value.
    pub(crate) fn key(&mut self, key: &str, value: impl FnOnce(&mut Self)) {
        self.item(|out| {
            out.text(key);
            out.push(": ");
            value(out);
        });
    }

    /// Writes one item of a list.
    pub(crate) fn item(&mut self, value: impl FnOnce(&mut Self)) {
        if self.over {
            return;
        }
        let first = std::mem::replace(&mut self.first, false);
        if !first {
            self.push(",");
        }
        if self.limit.is_none() {
            self.new_line();
        } else if !first {
            self.push(" ");
        }
        value(self);
    }

    fn group(&mut self, begin: &str, end: &str, airy: bool, open: bool, body: impl Fn(&mut Self)) {
        if self.limit.is_some() {
            return self.on_one_line(begin, end, airy, &body);
        }
        if !open {
            let start = self.bytes.len();
            // One less than the line: a comma may follow.
            self.limit = Some(self.line + LINE - 1);
            self.on_one_line(begin, end, airy, &body);
            self.limit = None;
            if !std::mem::take(&mut self.over) {
                return;
            }
            self.bytes.truncate(start);
        }
        self.push(begin);
        self.depth += 1;
        self.first = true;
        body(self);
        self.depth -= 1;
        if !std::mem::replace(&mut self.first, false) {
            self.new_line();
        }
        self.push(end);
    }

    fn on_one_line(&mut self, begin: &str, end: &str, airy: bool, body: &impl Fn(&mut Self)) {
        self.push(begin);
        let inside = self.bytes.len();
        if airy {
            self.push(" ");
        }
        self.first = true;
        body(self);
        let empty = std::mem::replace(&mut self.first, false);
        if empty {
            self.bytes.truncate(inside);
        } else if airy {
            self.push(" ");
        }
        self.push(end);
    }

    fn new_line(&mut self) {
        self.bytes.push(b'\n');
        self.line = self.bytes.len();
        self.bytes.extend(std::iter::repeat_n(b' ', 2 * self.depth));
    }

    fn push(&mut self, text: &str) {
        if self
            .limit
            .is_some_and(|limit| self.bytes.len() + text.len() > limit)
        {
            self.over = true;
        }
        if !self.over {
            self.bytes.extend_from_slice(text.as_bytes());
        }
    }
}
