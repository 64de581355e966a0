//! What the threads tell the loop, and how they are started: a panic on one of them ends the program in order
//! instead of leaving it half alive. Not here: what the threads do.

use crate::Message;
use std::any::Any;
use std::io;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::SyncSender;
use std::thread::{Builder, JoinHandle};

/// What a panic carries.
pub(super) type Panic = Box<dyn Any + Send>;

/// Where threads tell the loop what happened.
pub(super) type Events = SyncSender<Event>;

/// Everything that wakes the loop.
#[derive(Debug)]
pub(super) enum Event {
    /// What one read of the terminal gave.
    Input(Vec<Message>),
    /// An answer of a thread.
    Answer(Message),
    /// The terminal may have another size.
    Resized,
    /// This signal asks the program to end.
    Ending(i32),
    /// There is no terminal any more.
    Gone,
    /// A signal asks the program to stop.
    Stop,
    /// The program runs again after it was stopped.
    Continued,
    /// A thread panicked.
    Panicked(Panic),
}

/// Starts a thread. What it panics with goes to the loop, or, when that is gone, to whoever joins it.
pub(super) fn watched(
    name: &str,
    events: &Events,
    work: impl FnOnce() + Send + 'static,
) -> io::Result<JoinHandle<Option<Panic>>> {
    let events = events.clone();
    Builder::new().name(name.to_owned()).spawn(move || {
        let panic = catch_unwind(AssertUnwindSafe(work)).err()?;
        match events.send(Event::Panicked(panic)).err()?.0 {
            Event::Panicked(panic) => Some(panic),
            _ => None,
        }
    })
}
