//! What may stand at the cursor: in words, and how the word there may go on. Not here: which words may
//! stand where.

use super::super::Completion;
use super::super::words::{Word, begins};
use super::Heard;
use core::ops::Range;
use ecow::EcoString;

/// How many words are listed of what may come.
const LISTED: usize = 12;

impl Heard<'_> {
    /// Whether the cursor stands at the end of a shortened word, which is still being typed, or where a
    /// value has to come first.
    fn is_held(&self, start: usize) -> bool {
        self.cursor == start && self.shortened == Some(start) || self.waits == Some(start)
    }

    /// A place where one of some words may stand, and a value when `ask` says what it would be.
    pub(super) fn words_may_stand(&mut self, among: &[Word], ask: Option<&str>) {
        let offers: Vec<(EcoString, &'static str)> = among
            .iter()
            .filter_map(|word| word.row())
            .map(|row| (row.text.into(), row.meaning))
            .collect();
        let word = self
            .next()
            .filter(|piece| piece.kind == super::super::pieces::Kind::Letters)
            .map(|piece| piece.range.clone());
        self.may_stand(&offers, ask, word);
    }

    /// A place where one of some texts may stand; `typed` is where one stands already.
    pub(super) fn may_stand(
        &mut self,
        offers: &[(EcoString, &'static str)],
        ask: Option<&str>,
        typed: Option<Range<usize>>,
    ) {
        let start = self.before();
        let end = match (&typed, self.next()) {
            (Some(range), _) => range.end,
            (None, Some(piece)) => piece.range.start,
            (None, None) => self.line.len(),
        };
        if self.cursor < start || self.cursor > end || self.is_held(start) {
            return;
        }
        let from = typed.map_or(self.cursor, |range| range.start.min(self.cursor));
        let typed = self.text(from..self.cursor);
        let whole_word = typed.is_empty() || self.cursor == end;
        let apart = typed.is_empty() && self.cursor == start && start > 0;
        let fitting = || offers.iter().filter(|(text, _)| begins(text, typed));
        let completions = fitting()
            .filter(|_| whole_word)
            .filter_map(|(text, meaning)| {
                let rest = text.get(typed.len()..)?;
                let blank = if apart { " " } else { "" };
                Some(Completion {
                    word: text.clone(),
                    text: ecow::eco_format!("{blank}{rest}"),
                    meaning,
                })
            })
            .collect();
        let mut expects: Vec<&str> = ask.into_iter().filter(|_| typed.is_empty()).collect();
        expects.extend(fitting().take(LISTED).map(|(text, _)| text.as_str()));
        let mut expects: EcoString = expects.join(", ").into();
        if fitting().count() > LISTED {
            expects.push_str(" ...");
        }
        self.completions = completions;
        self.expects = expects;
    }

    /// A place where a value is missing.
    pub(super) fn value_waits(&mut self, ask: &str) {
        let end = self.next().map_or(self.line.len(), |p| p.range.start);
        self.value_may_stand(ask, end);
        self.waits = Some(self.before());
    }

    /// A place where a value stands or may stand, up to a byte.
    pub(super) fn value_may_stand(&mut self, ask: &str, end: usize) {
        let start = self.before();
        if (start..=end).contains(&self.cursor) && !self.is_held(start) {
            self.completions = Vec::new();
            self.expects = ask.into();
        }
    }
}
