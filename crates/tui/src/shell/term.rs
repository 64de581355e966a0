//! The modes of the terminal: taken on, and given back by one function, whatever ends the program.
//!
//! There is one terminal, so there is one record of its modes, behind a lock. [`leave`] gives back what was
//! taken, in reverse, and may be called any number of times: by the guard when it is dropped, by the hook of a
//! panic on any thread, and before the program is stopped. While the modes are not held, [`emit`] sends
//! nothing, so that no late frame lands among the words of the shell.
//!
//! Not here: what is drawn.

use rustix::event::{PollFd, PollFlags, poll};
use rustix::io::Errno;
use rustix::process::getpgrp;
use rustix::stdio::{stdin, stdout};
use rustix::termios::{OptionalActions, Termios, tcgetattr, tcgetpgrp, tcgetwinsize, tcsetattr};
use std::io::{self, IsTerminal};
use std::sync::{Mutex, MutexGuard, PoisonError};

/// The alternate screen, bracketed paste, the cursor hidden.
const ENTER: &[u8] = b"\x1b[?1049h\x1b[?2004h\x1b[?25l";

/// Ends a frame that was cut short, then gives back in reverse: cursor shown, mouse and bracketed paste off,
/// plain letters, the ordinary screen.
const LEAVE: &[u8] =
    b"\x1b[?2026l\x1b[?25h\x1b[?1006l\x1b[?1002l\x1b[?1000l\x1b[?2004l\x1b[m\x1b[?1049l";

/// Presses, drags and the wheel, with columns beyond 223. Not movement alone, which nothing here needs and
/// which would wake the program all the time.
const MOUSE_ON: &[u8] = b"\x1b[?1000h\x1b[?1002h\x1b[?1006h";
const MOUSE_OFF: &[u8] = b"\x1b[?1006l\x1b[?1002l\x1b[?1000l";

static MODES: Mutex<Modes> = Mutex::new(Modes {
    entered: false,
    ordinary: None,
    mouse: false,
});

struct Modes {
    entered: bool,
    /// How the terminal treated lines and keys before; kept until it is given back.
    ordinary: Option<Termios>,
    /// Whether the mouse is wanted; kept while the program is stopped.
    mouse: bool,
}

/// Holds the modes of the terminal until it is dropped.
#[derive(Debug)]
pub struct Guard(());

impl Guard {
    /// Takes the terminal: raw, alternate screen, bracketed paste, cursor hidden. From here on a panic on any
    /// thread gives it back before its message is shown.
    ///
    /// # Errors
    /// When input or output is no terminal, in words; and what the terminal said.
    pub fn enter() -> io::Result<Self> {
        if !io::stdin().is_terminal() || !io::stdout().is_terminal() {
            return Err(io::Error::other(
                "the screen needs a terminal for what is typed and for what is shown",
            ));
        }
        leave_on_panic();
        let guard = Self(());
        take()?;
        Ok(guard)
    }
}

impl Drop for Guard {
    fn drop(&mut self) {
        leave();
        modes().mouse = false;
    }
}

/// Takes the terminal, the mouse as it was. Does nothing when it is held.
pub(super) fn take() -> io::Result<()> {
    let mut modes = modes();
    if modes.entered {
        return Ok(());
    }
    let ordinary = match &modes.ordinary {
        Some(ordinary) => ordinary.clone(),
        None => tcgetattr(stdin())?,
    };
    let mut raw = ordinary.clone();
    raw.make_raw();
    tcsetattr(stdin(), OptionalActions::Now, &raw)?;
    modes.ordinary = Some(ordinary);
    modes.entered = true;
    write(ENTER)?;
    if modes.mouse { write(MOUSE_ON) } else { Ok(()) }
}

/// Gives back what was taken. Does nothing when nothing is held; a terminal that is gone is no fault.
pub(super) fn leave() {
    let mut modes = modes();
    if modes.entered {
        modes.entered = false;
        let _ = write(LEAVE);
        if let Some(ordinary) = modes.ordinary.take() {
            let _ = tcsetattr(stdin(), OptionalActions::Now, &ordinary);
        }
    }
}

/// Somebody else took the terminal: nothing of it is held, and nothing is given back.
pub(super) fn lose() {
    modes().entered = false;
}

/// Listens to the mouse or leaves it to the terminal.
pub(super) fn mouse(on: bool) -> io::Result<()> {
    let mut modes = modes();
    if modes.mouse == on {
        return Ok(());
    }
    modes.mouse = on;
    match (modes.entered, on) {
        (true, true) => write(MOUSE_ON),
        (true, false) => write(MOUSE_OFF),
        (false, _) => Ok(()),
    }
}

/// Whether the terminal is ours to take: a program in the background that touches it is stopped.
pub(super) fn is_ours() -> bool {
    tcgetpgrp(stdin()).is_ok_and(|group| group == getpgrp())
}

/// Sends bytes to the terminal, in one piece where it takes them; nothing while its modes are not held.
pub(super) fn emit(bytes: &[u8]) -> io::Result<()> {
    let modes = modes();
    if modes.entered { write(bytes) } else { Ok(()) }
}

/// Columns and rows. Nothing on a terminal that does not say.
pub(super) fn size() -> Option<(u16, u16)> {
    let size = tcgetwinsize(stdout()).ok()?;
    Some((size.ws_col, size.ws_row))
}

/// What holds the lock cannot leave the record half changed, so a panic meanwhile does not matter.
fn modes() -> MutexGuard<'static, Modes> {
    MODES.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Past the buffer of the standard library, which holds back and splits. A terminal that somebody else set not
/// to wait is waited for.
fn write(mut bytes: &[u8]) -> io::Result<()> {
    while !bytes.is_empty() {
        match rustix::io::write(stdout(), bytes) {
            Ok(0) => return Err(io::ErrorKind::WriteZero.into()),
            Ok(count) => bytes = bytes.get(count..).unwrap_or_default(),
            Err(Errno::INTR) => {}
            Err(Errno::AGAIN) => {
                let _ = poll(
                    &mut [PollFd::from_borrowed_fd(stdout(), PollFlags::OUT)],
                    None,
                );
            }
            Err(fault) => return Err(fault.into()),
        }
    }
    Ok(())
}

/// The message of a panic must not be lost on the alternate screen.
fn leave_on_panic() {
    let previous = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |panic| {
        leave();
        previous(panic);
    }));
}
