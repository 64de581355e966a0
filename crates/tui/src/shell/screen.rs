//! Frames: what is drawn, gathered and sent in one piece between the marks of a synchronised update, so that a
//! terminal that knows them never shows half a frame. Not here: what is drawn, and the modes of the terminal.

use super::term;
use ratatui::backend::CrosstermBackend;
use ratatui::layout::Rect;
use ratatui::{Frame, Terminal, TerminalOptions, Viewport};
use std::cell::RefCell;
use std::io::{self, Write};
use std::rc::Rc;

/// Begin and end of a synchronised update (private mode 2026).
const BEGIN: &[u8] = b"\x1b[?2026h";
const END: &[u8] = b"\x1b[?2026l";

/// Plain letters, everything cleared.
const CLEAR: &[u8] = b"\x1b[m\x1b[2J";

/// A terminal that does not say its size is taken to have the size of the oldest ones.
const USUAL: (u16, u16) = (80, 24);

/// What the terminal shows.
pub(super) struct Screen {
    terminal: Terminal<CrosstermBackend<Gathered>>,
    gathered: Gathered,
    size: (u16, u16),
    /// Whether nothing of what was drawn before can be relied on.
    anew: bool,
}

/// What is to be sent. The backend flushes after each of its parts; the frame is sent when it is whole.
#[derive(Debug, Clone, Default)]
struct Gathered(Rc<RefCell<Vec<u8>>>);

impl Write for Gathered {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.borrow_mut().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl Screen {
    pub(super) fn new() -> io::Result<Self> {
        let gathered = Gathered::default();
        let size = term::size().unwrap_or(USUAL);
        Ok(Self {
            terminal: terminal(&gathered, size)?,
            gathered,
            size,
            anew: true,
        })
    }

    /// Columns and rows of the next frame.
    pub(super) fn size(&self) -> (u16, u16) {
        self.size
    }

    /// Asks the terminal for its size; the new one when it changed.
    pub(super) fn resized(&mut self) -> io::Result<Option<(u16, u16)>> {
        let size = term::size().unwrap_or(self.size);
        if size == self.size {
            return Ok(None);
        }
        self.size = size;
        self.forget()?;
        Ok(Some(size))
    }

    /// Draws everything anew at the next frame.
    pub(super) fn forget(&mut self) -> io::Result<()> {
        self.terminal = terminal(&self.gathered, self.size)?;
        self.anew = true;
        Ok(())
    }

    /// Draws and sends a frame: what differs from the last one.
    pub(super) fn draw(&mut self, draw: impl FnOnce(&mut Frame<'_>)) -> io::Result<()> {
        {
            let mut bytes = self.gathered.0.borrow_mut();
            bytes.clear();
            bytes.extend_from_slice(BEGIN);
            if std::mem::take(&mut self.anew) {
                bytes.extend_from_slice(CLEAR);
            }
        }
        self.terminal.draw(draw)?;
        let mut bytes = self.gathered.0.borrow_mut();
        bytes.extend_from_slice(END);
        term::emit(&bytes)
    }
}

/// A fixed area: ratatui then asks the terminal nothing by itself.
fn terminal(
    gathered: &Gathered,
    (width, height): (u16, u16),
) -> io::Result<Terminal<CrosstermBackend<Gathered>>> {
    Terminal::with_options(
        CrosstermBackend::new(gathered.clone()),
        TerminalOptions {
            viewport: Viewport::Fixed(Rect::new(0, 0, width, height)),
        },
    )
}
