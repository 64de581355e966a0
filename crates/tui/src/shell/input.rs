//! The thread that reads the terminal. It waits for input without taking any, so that it can be told to rest
//! before the program is stopped: what is typed then belongs to the shell. Not here: what the bytes mean.

use super::decode::Decoder;
use super::watched::{Event, Events, watched};
use rustix::event::{PollFd, PollFlags, Timespec, poll};
use rustix::io::Errno;
use rustix::stdio::stdin;

use std::io;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};

/// How long half a sequence is waited for, in nanoseconds. Escape alone is heard after this time; the pieces of
/// one key come closer together on any line that is fit to work on.
const PAUSE: i64 = 20_000_000;

/// As much as a terminal gives at once.
const READ: usize = 4096;

/// Tells the thread to rest.
#[derive(Debug, Clone, Default)]
pub(super) struct Input(Arc<Gate>);

#[derive(Debug, Default)]
struct Gate {
    state: Mutex<State>,
    changed: Condvar,
}

#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
enum State {
    #[default]
    Reading,
    Resting,
    Ended,
}

impl Input {
    /// Begins to read.
    pub(super) fn start(events: &Events) -> io::Result<Self> {
        let input = Self::default();
        let gate = input.clone();
        let sender = events.clone();
        watched("input", events, move || gate.read_on(&sender))?;
        Ok(input)
    }

    /// Takes nothing from the terminal until [`Self::go_on`].
    pub(super) fn rest(&self) {
        self.become_(State::Resting);
    }

    /// Reads again.
    pub(super) fn go_on(&self) {
        self.become_(State::Reading);
    }

    /// Takes nothing any more.
    pub(super) fn end(&self) {
        self.become_(State::Ended);
    }

    fn become_(&self, state: State) {
        *self.0.state() = state;
        self.0.changed.notify_all();
    }

    fn read_on(&self, events: &Events) {
        let mut decoder = Decoder::default();
        let mut buffer = [0; READ];
        let mut messages = Vec::new();
        loop {
            match readable(decoder.waits()) {
                Readable::Again => {}
                Readable::Not => decoder.pause(&mut messages),
                Readable::Gone => break,
                Readable::Yes if !self.0.pass() => return,
                Readable::Yes => match read(&mut buffer) {
                    Some(bytes) => decoder.feed(bytes, &mut messages),
                    None => break,
                },
            }
            if !messages.is_empty()
                && events
                    .send(Event::Input(std::mem::take(&mut messages)))
                    .is_err()
            {
                return;
            }
        }
        let _ = events.send(Event::Gone);
    }
}

impl Gate {
    /// Waits while resting; whether to read.
    fn pass(&self) -> bool {
        let state = self
            .changed
            .wait_while(self.state(), |state| *state == State::Resting)
            .unwrap_or_else(PoisonError::into_inner);
        *state == State::Reading
    }

    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

enum Readable {
    Yes,
    /// Nothing came in time.
    Not,
    /// Something else interrupted the wait.
    Again,
    /// There is no terminal any more.
    Gone,
}

/// Waits until something can be read; only for a pause when something is begun.
fn readable(begun: bool) -> Readable {
    let pause = Timespec {
        tv_sec: 0,
        tv_nsec: PAUSE,
    };
    let mut input = [PollFd::from_borrowed_fd(stdin(), PollFlags::IN)];
    match poll(&mut input, begun.then_some(&pause)) {
        Ok(0) => Readable::Not,
        Ok(_) if input[0].revents().contains(PollFlags::IN) => Readable::Yes,
        Err(Errno::INTR | Errno::AGAIN) => Readable::Again,
        Ok(_) | Err(_) => Readable::Gone,
    }
}

/// What there is; nothing when there is no terminal any more.
fn read(buffer: &mut [u8]) -> Option<&[u8]> {
    match rustix::io::read(stdin(), &mut *buffer) {
        Ok(0) => None,
        Ok(count) => buffer.get(..count),
        Err(Errno::INTR | Errno::AGAIN) => Some(&[]),
        Err(_) => None,
    }
}
