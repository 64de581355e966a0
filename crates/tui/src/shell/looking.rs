//! The thread that looks projects over for what is doubtful. Only the newest project is looked at, and only
//! once no newer one came for a moment, so that it does not compete with keys that are held down.
//! Not here: what is doubtful.

use super::watched::{Event, Events, watched};
use crate::Message;
use hodful_takeoff::{Project, RuleBook};
use rayon::ThreadPoolBuilder;
use std::io;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::Duration;

/// Longer than the time between two repeats of a held key, which is some 30 ms: common practice, no source.
const QUIET: Duration = Duration::from_millis(150);

/// A project to look over, and the number of the request.
#[derive(Debug)]
pub(super) struct Look {
    pub(super) id: u64,
    pub(super) project: Arc<Project>,
}

/// The way to the thread. The thread ends when this is dropped.
#[derive(Debug)]
pub(super) struct Looking(Sender<Look>);

impl Looking {
    pub(super) fn start(rules: Arc<RuleBook>, events: &Events) -> io::Result<Self> {
        let (looks, waiting) = channel();
        let sender = events.clone();
        // A core stays free for keys, and the pool that answers them is not the one that looks.
        let cores = std::thread::available_parallelism().map_or(1, usize::from);
        let pool = ThreadPoolBuilder::new()
            .num_threads(cores.saturating_sub(1).max(1))
            .build()
            .map_err(io::Error::other)?;
        watched("looker", events, move || {
            while let Some(Look { id, project }) = newest(&waiting, QUIET) {
                let problems = pool.install(|| hodful_takeoff::all_problems(&project, &rules));
                let looked = Message::Looked { id, problems };
                if sender.send(Event::Answer(looked)).is_err() {
                    return;
                }
            }
        })?;
        Ok(Self(looks))
    }

    /// A looker that panicked looks no more; the loop hears of that by itself.
    pub(super) fn give(&self, look: Look) {
        let _ = self.0.send(look);
    }
}

/// Waits for a request, then until none came for as long as `quiet`. Nothing when nobody asks any more.
fn newest<T>(waiting: &Receiver<T>, quiet: Duration) -> Option<T> {
    let mut newest = waiting.recv().ok()?;
    loop {
        match waiting.recv_timeout(quiet) {
            Ok(newer) => newest = newer,
            Err(RecvTimeoutError::Timeout) => return Some(newest),
            Err(RecvTimeoutError::Disconnected) => return None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_those_that_wait_the_newest_is_taken() {
        let (asking, waiting) = channel();
        for id in 1..=5 {
            asking.send(id).expect("it is held");
        }
        assert_eq!(newest(&waiting, Duration::ZERO), Some(5));
        drop(asking);
        assert_eq!(newest::<i32>(&waiting, Duration::ZERO), None);
    }

    #[test]
    fn nothing_is_looked_at_once_nobody_asks() {
        let (asking, waiting) = channel();
        asking.send(1).expect("it is held");
        drop(asking);
        assert_eq!(newest(&waiting, Duration::MAX), None);
    }
}
