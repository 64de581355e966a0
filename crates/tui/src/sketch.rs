//! A drawing of walls on the terminal: a [`Drawing`] painted to scale with its figures and names.
//!
//! The painter knows nothing of walls: what is drawn, named and measured comes with the drawing. Here
//! it is fitted into a rectangle of cells, with the figures in margins of their own, so that no words
//! ever stand on words; what has no room is left out, the least important first. What is refused or
//! doubtful carries a sign at its name besides its style, and what is chosen is set off by more than
//! colour.
//!
//! Not here: what there is to be drawn, keys, and what a click does.

mod figures;
mod fit;
mod ink;
mod pick;
mod raster;
mod words;

pub use pick::pick;

use fit::Fit;
use hodful_takeoff::drawing::{Drawing, Role};
use hodful_takeoff::form::Subject;
use raster::Raster;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};
use ratatui::widgets::Widget;
use words::Page;

/// What lines are made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Marker {
    /// Braille patterns, two by four dots a cell.
    #[default]
    Braille,
    /// Half blocks, one by two dots a cell.
    HalfBlock,
    /// Letters and signs that every terminal has, one a cell.
    Ascii,
}

impl Marker {
    /// Dots of a cell, across and up.
    fn dots(self) -> [u16; 2] {
        match self {
            Self::Braille => [2, 4],
            Self::HalfBlock => [1, 2],
            Self::Ascii => [1, 1],
        }
    }

    /// Height of a dot, of its width: a cell is about twice as high as wide.
    fn aspect(self) -> f64 {
        match self {
            Self::Braille | Self::HalfBlock => 1.0,
            Self::Ascii => 2.0,
        }
    }
}

/// How each part of a drawing looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Styles {
    /// Cells with nothing drawn in them.
    pub ground: Style,
    /// The outline of a wall.
    pub outline: Style,
    /// The edge of the plaster.
    pub plaster: Style,
    /// Frames of openings.
    pub frame: Style,
    /// Holes opened out by a splay, and the folds of their reveals.
    pub reveal: Style,
    /// Rounded edges, strips of lath and pockets.
    pub detail: Style,
    /// The background in a section.
    pub background: Style,
    /// Dubbing out in a section.
    pub dubbing_out: Style,
    /// Coats in a section, in turn.
    pub coats: [Style; 3],
    /// Dimension figures and their lines.
    pub figure: Style,
    /// Names in the drawing.
    pub label: Style,
    /// Words over the drawing.
    pub caption: Style,
    /// Lines of what is chosen, over their own style.
    pub chosen: Style,
    /// The name of what is chosen.
    pub chosen_label: Style,
    /// What is refused, over its own style.
    pub refused: Style,
    /// What is doubtful, over its own style.
    pub doubtful: Style,
}

impl Styles {
    /// Without any colour: only bold, dim, underlined and reversed.
    pub const PLAIN: Self = {
        let dim = Style::new().add_modifier(Modifier::DIM);
        let bold = Style::new().add_modifier(Modifier::BOLD);
        Self {
            ground: Style::new(),
            outline: Style::new(),
            plaster: dim,
            frame: Style::new(),
            reveal: dim,
            detail: dim,
            background: dim,
            dubbing_out: dim,
            coats: [Style::new(); 3],
            figure: Style::new(),
            label: Style::new(),
            caption: dim,
            chosen: bold,
            chosen_label: bold.add_modifier(Modifier::REVERSED),
            refused: bold.add_modifier(Modifier::UNDERLINED),
            doubtful: Style::new().add_modifier(Modifier::UNDERLINED),
        }
    };

    fn of(&self, role: Role) -> Style {
        match role {
            Role::Background | Role::Break => self.background,
            Role::DubbingOut => self.dubbing_out,
            Role::Coat(number) => {
                let [first, second, third] = self.coats;
                match number % 3 {
                    0 => first,
                    1 => second,
                    _ => third,
                }
            }
            Role::Lath | Role::Pocket | Role::Rounded => self.detail,
            Role::RevealSurface | Role::Hole => self.reveal,
            Role::Plaster => self.plaster,
            Role::Outline | Role::Floor => self.outline,
            Role::Frame => self.frame,
        }
    }
}

impl Default for Styles {
    fn default() -> Self {
        Self::PLAIN
    }
}

/// How a thing stands: what the screen must say of it besides its shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
struct State {
    chosen: bool,
    mark: Mark,
}

/// What is wrong with a thing, if anything.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
enum Mark {
    #[default]
    Sound,
    Doubtful,
    Refused,
}

impl Mark {
    /// The sign that stands at the name.
    fn sign(self) -> &'static str {
        match self {
            Self::Sound => "",
            Self::Doubtful => "?",
            Self::Refused => "!",
        }
    }
}

/// A drawing on the screen. Paints into any area, down to none, and never outside it.
///
/// ```
/// use hodful_takeoff::drawing::Drawing;
/// use hodful_tui::sketch::{Marker, Sketch, Styles};
/// use ratatui::{buffer::Buffer, layout::Rect, widgets::Widget};
/// let drawing = Drawing::default();
/// let sketch = Sketch {
///     drawing: &drawing,
///     chosen: None,
///     refused: &[],
///     doubtful: &[],
///     styles: &Styles::PLAIN,
///     marker: Marker::Braille,
/// };
/// let area = Rect::new(0, 0, 40, 12);
/// sketch.render(area, &mut Buffer::empty(area));
/// assert_eq!(sketch.at(area, 3, 3), None);
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Sketch<'a> {
    /// What is drawn.
    pub drawing: &'a Drawing,
    /// What is chosen: drawn strongly, and measured.
    pub chosen: Option<Subject>,
    /// What is refused: marked `!`.
    pub refused: &'a [Subject],
    /// What is doubtful: marked `?`.
    pub doubtful: &'a [Subject],
    /// How it looks.
    pub styles: &'a Styles,
    /// What lines are made of.
    pub marker: Marker,
}

impl Sketch<'_> {
    /// The place in the drawing, mm, under a cell of the screen, when the sketch is painted in `area`.
    ///
    /// `None` outside the area, and when nothing is drawn there.
    pub fn at(&self, area: Rect, column: u16, row: u16) -> Option<[f64; 2]> {
        if !area.contains((column, row).into()) {
            return None;
        }
        Some(Fit::new(self, area)?.place(column, row))
    }

    /// Everything in its place, ready to be painted; `None` when there is nothing to be drawn.
    fn composed(&self, area: Rect) -> Option<(Fit, Raster, Page)> {
        let fit = Fit::new(self, area)?;
        let raster = ink::draw(self, &fit);
        let mut page = Page::new(area, &fit, self.marker);
        figures::place(self, &fit, &mut page);
        words::place(self, &fit, &raster, &mut page);
        Some((fit, raster, page))
    }

    fn show(&self, area: Rect, buffer: &mut Buffer) {
        let area = area.intersection(buffer.area);
        if area.is_empty() {
            return;
        }
        match self.composed(area) {
            Some((fit, raster, page)) => {
                ink::paint(self, &fit, &raster, &page, buffer);
                page.write(buffer);
            }
            None => words::alone(self, area, buffer),
        }
    }

    fn state(&self, of: Option<Subject>) -> State {
        let Some(of) = of else {
            return State::default();
        };
        State {
            chosen: self.chosen == Some(of),
            mark: if self.refused.contains(&of) {
                Mark::Refused
            } else if self.doubtful.contains(&of) {
                Mark::Doubtful
            } else {
                Mark::Sound
            },
        }
    }

    /// A style with what a state adds to it.
    fn styled(&self, style: Style, state: State) -> Style {
        let style = match state.mark {
            Mark::Sound => style,
            Mark::Doubtful => style.patch(self.styles.doubtful),
            Mark::Refused => style.patch(self.styles.refused),
        };
        if state.chosen {
            style.patch(self.styles.chosen)
        } else {
            style
        }
    }
}

impl Widget for &Sketch<'_> {
    fn render(self, area: Rect, buffer: &mut Buffer) {
        self.show(area, buffer);
    }
}

impl Widget for Sketch<'_> {
    fn render(self, area: Rect, buffer: &mut Buffer) {
        self.show(area, buffer);
    }
}

#[cfg(test)]
mod tests;
