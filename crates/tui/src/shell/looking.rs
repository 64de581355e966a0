//! The thread that works out what takes long: what is doubtful in a project, a blend, what to buy, the days on
//! site in the weather of a file. Of each only the newest request is answered, and only once no newer one came for a moment, so that it does not
//! compete with keys that are held down. Not here: what is doubtful, and how a purchase is planned.

use super::watched::{Event, Events, watched};
use crate::state::{compare, foresee, look_for_blend, plan_days};
use crate::{Message, WeatherReader};
use hodful_takeoff::bench::Bench;
use hodful_takeoff::project::Name;
use hodful_takeoff::{Project, RuleBook};
use rayon::ThreadPoolBuilder;
use std::io;
use std::mem::discriminant;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::Duration;

/// Longer than the time between two repeats of a held key, which is some 30 ms: common practice, no source.
const QUIET: Duration = Duration::from_millis(150);

/// What is to be worked out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum What {
    /// What is refused and doubtful.
    Problems,
    /// What comes of a blend, by its position.
    Blend(usize),
    /// What to buy from whom.
    Supply,
    /// Options side by side, held against one of this name or against the project.
    Compare(Option<Name>),
    /// How sure the figures are, and what the records say.
    Foresee,
    /// The days on site; weather lies beside this file.
    Days(Option<PathBuf>),
}

/// What is to be worked out, of which project, and the number of the request.
#[derive(Debug)]
pub(super) struct Request {
    pub(super) id: u64,
    pub(super) project: Arc<Project>,
    pub(super) what: What,
}

/// The way to the thread. The thread ends when this is dropped.
#[derive(Debug)]
pub(super) struct Looking(Sender<Request>);

impl Looking {
    pub(super) fn start(
        rules: Arc<RuleBook>,
        weather: WeatherReader,
        events: &Events,
    ) -> io::Result<Self> {
        let (requests, waiting) = channel();
        let sender = events.clone();
        // A core stays free for keys, and the pool that answers them is not the one that looks.
        let cores = std::thread::available_parallelism().map_or(1, usize::from);
        let pool = ThreadPoolBuilder::new()
            .num_threads(cores.saturating_sub(1).max(1))
            .build()
            .map_err(io::Error::other)?;
        watched("looker", events, move || {
            while let Some(requests) =
                newest(&waiting, QUIET, |of: &Request| discriminant(&of.what))
            {
                for Request { id, project, what } in requests {
                    let answer = pool.install(|| match what {
                        What::Problems => Message::Looked {
                            id,
                            problems: hodful_takeoff::all_problems(&project, &rules),
                        },
                        What::Blend(at) => {
                            let bench = Bench::new(project, Arc::clone(&rules));
                            Message::Blended {
                                id,
                                blending: Box::new(look_for_blend(&bench, at)),
                            }
                        }
                        What::Compare(base) => Message::Compared {
                            id,
                            compared: Box::new(compare(&project, &rules, base.as_ref())),
                        },
                        What::Foresee => Message::Foreseen {
                            id,
                            foreseen: Box::new(foresee(&project, &rules)),
                        },
                        What::Days(path) => Message::OnSite {
                            id,
                            on_site: Box::new(plan_days(
                                &project,
                                &rules,
                                path.as_deref(),
                                &weather,
                            )),
                        },
                        What::Supply => Message::Supplied {
                            id,
                            supply: Box::new(Bench::new(project, Arc::clone(&rules)).supply()),
                        },
                    });
                    if sender.send(Event::Answer(answer)).is_err() {
                        return;
                    }
                }
            }
        })?;
        Ok(Self(requests))
    }

    /// A looker that panicked looks no more; the loop hears of that by itself.
    pub(super) fn give(&self, request: Request) {
        let _ = self.0.send(request);
    }
}

/// Waits for a request, then until none came for as long as `quiet`: the newest of each kind, the kind
/// asked for last at the end. Nothing when nobody asks any more.
fn newest<T, K: PartialEq>(
    waiting: &Receiver<T>,
    quiet: Duration,
    kind: impl Fn(&T) -> K,
) -> Option<Vec<T>> {
    let mut newest = vec![waiting.recv().ok()?];
    loop {
        match waiting.recv_timeout(quiet) {
            Ok(newer) => {
                newest.retain(|older| kind(older) != kind(&newer));
                newest.push(newer);
            }
            Err(RecvTimeoutError::Timeout) => return Some(newest),
            Err(RecvTimeoutError::Disconnected) => return None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_those_that_wait_the_newest_of_each_kind_is_taken() {
        let (asking, waiting) = channel();
        for id in 1..=5 {
            asking.send(id).expect("it is held");
        }
        let even = |id: &i32| id % 2;
        assert_eq!(newest(&waiting, Duration::ZERO, even), Some(vec![4, 5]));
        drop(asking);
        assert_eq!(newest(&waiting, Duration::ZERO, even), None);
    }

    #[test]
    fn nothing_is_looked_at_once_nobody_asks() {
        let (asking, waiting) = channel();
        asking.send(1).expect("it is held");
        drop(asking);
        assert_eq!(newest(&waiting, Duration::MAX, |id: &i32| *id), None);
    }
}
