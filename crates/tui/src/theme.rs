//! How things look, by what they mean: sixteen colours at most, or none. Meaning is never told by
//! colour alone. Not here: where things stand.

use crate::sketch::{Marker, Styles};
use crate::state::Looks;
use ratatui::style::{Color, Modifier, Style};

/// Styles by meaning.
#[derive(Debug, Clone, Copy)]
pub struct Theme {
    /// Words.
    pub text: Style,
    /// What stands back.
    pub dim: Style,
    /// Headings.
    pub heading: Style,
    /// The chosen row of the part that has the keyboard.
    pub selected: Style,
    /// The chosen row of another part.
    pub chosen: Style,
    /// Refused.
    pub bad: Style,
    /// Doubtful.
    pub doubtful: Style,
    /// What changed.
    pub change: Style,
    /// A key.
    pub key: Style,
    /// Lines between parts.
    pub line: Style,
}

impl Theme {
    /// The styles for what the terminal can show.
    pub fn of(looks: Looks) -> Self {
        let plain = Style::new();
        let bold = plain.add_modifier(Modifier::BOLD);
        let colour = |style: Style, colour: Color| {
            if looks.colour {
                style.fg(colour)
            } else {
                style
            }
        };
        Self {
            text: plain,
            dim: plain.add_modifier(Modifier::DIM),
            heading: bold,
            selected: plain.add_modifier(Modifier::REVERSED),
            chosen: bold,
            bad: colour(bold, Color::Red),
            doubtful: colour(bold, Color::Magenta),
            change: colour(bold, Color::Green),
            key: colour(bold, Color::Cyan),
            line: plain.add_modifier(Modifier::DIM),
        }
    }
}

/// The styles of drawings.
pub fn sketch_styles(looks: Looks) -> Styles {
    if !looks.colour {
        return Styles::PLAIN;
    }
    let theme = Theme::of(looks);
    let of = |colour| Style::new().fg(colour);
    Styles {
        frame: of(Color::Cyan),
        reveal: of(Color::Cyan),
        plaster: of(Color::Yellow),
        detail: of(Color::Blue),
        dubbing_out: of(Color::Blue),
        coats: [of(Color::Yellow), of(Color::Green), of(Color::Cyan)],
        refused: theme.bad,
        doubtful: theme.doubtful,
        ..Styles::PLAIN
    }
}

/// What lines of drawings are made of.
pub fn marker(looks: Looks) -> Marker {
    match (looks.signs, looks.braille) {
        (true, true) => Marker::Braille,
        (true, false) => Marker::HalfBlock,
        (false, _) => Marker::Ascii,
    }
}
