//! The thread of the keeper: saving and the journal, one after the other, off the path of the keys.
//! Not here: how a project is saved.

use super::watched::{Event, Events, Panic, watched};
use crate::{Keeper, Message};
use hodful_takeoff::Project;
use std::io;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::JoinHandle;

/// Something for the keeper to do.
#[derive(Debug)]
pub(super) enum Job {
    Save {
        id: u64,
        path: PathBuf,
        project: Arc<Project>,
        over: bool,
    },
    Record {
        before: Arc<Project>,
        after: Arc<Project>,
    },
    ForgetFound,
    Finish {
        keep: bool,
    },
}

/// The thread, and the way to it.
#[derive(Debug)]
pub(super) struct Keeping {
    jobs: Sender<Job>,
    thread: JoinHandle<Option<Panic>>,
}

impl Keeping {
    pub(super) fn start(keeper: Box<dyn Keeper>, events: &Events) -> io::Result<Self> {
        let (jobs, waiting) = channel();
        let sender = events.clone();
        let thread = watched("keeper", events, move || keep(keeper, &waiting, &sender))?;
        Ok(Self { jobs, thread })
    }

    /// A keeper that panicked takes no jobs any more; the loop hears of that by itself.
    pub(super) fn give(&self, job: Job) {
        let _ = self.jobs.send(job);
    }

    /// Does what is left, then finishes, and waits for that. What the keeper panicked with, when the loop did
    /// not hear of it.
    pub(super) fn finish(self, keep: bool) -> Option<Panic> {
        self.give(Job::Finish { keep });
        self.thread.join().unwrap_or_else(Some)
    }
}

fn keep(mut keeper: Box<dyn Keeper>, waiting: &Receiver<Job>, events: &Events) {
    while let Ok(first) = waiting.recv() {
        for job in merged(std::iter::once(first).chain(waiting.try_iter())) {
            let answer = match job {
                Job::Save {
                    id,
                    path,
                    project,
                    over,
                } => Some(Message::Saved {
                    id,
                    outcome: keeper.save(&path, &project, over),
                }),
                Job::Record { before, after } => keeper
                    .record(&before, &after)
                    .err()
                    .map(Message::JournalFailed),
                Job::ForgetFound => {
                    keeper.forget_found();
                    None
                }
                Job::Finish { keep } => return keeper.finish(keep),
            };
            if let Some(answer) = answer {
                let _ = events.send(Event::Answer(answer));
            }
        }
    }
    keeper.finish(true);
}

/// Records that wait one behind the other are one record.
fn merged(jobs: impl Iterator<Item = Job>) -> Vec<Job> {
    let mut merged: Vec<Job> = Vec::new();
    for job in jobs {
        match (merged.last_mut(), job) {
            (Some(Job::Record { after: last, .. }), Job::Record { after, .. }) => *last = after,
            (_, job) => merged.push(job),
        }
    }
    merged
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::SaveFault;
    use std::path::Path;
    use std::sync::mpsc::sync_channel;

    /// Says what it is asked to do.
    struct Told(Sender<String>);

    impl Told {
        fn tell(&self, words: String) {
            self.0.send(words).expect("somebody listens");
        }
    }

    impl Keeper for Told {
        fn save(&mut self, path: &Path, project: &Project, over: bool) -> Result<(), SaveFault> {
            self.tell(format!("save {} {} {over}", project.name, path.display()));
            Err(SaveFault::ChangedOnDisk)
        }

        fn record(&mut self, before: &Project, after: &Project) -> Result<(), String> {
            self.tell(format!("{} to {}", before.name, after.name));
            Err("the disk is full".to_owned())
        }

        fn forget_found(&mut self) {
            self.tell("forget".to_owned());
        }

        fn weather(&self) -> crate::WeatherReader {
            Box::new(|_, _| Err("there is none".into()))
        }

        fn finish(&mut self, keep: bool) {
            self.tell(format!("finish {keep}"));
        }
    }

    fn named(name: &str) -> Arc<Project> {
        let mut project = hodful_project_file::empty_project();
        project.name = name.into();
        Arc::new(project)
    }

    fn record(before: &str, after: &str) -> Job {
        Job::Record {
            before: named(before),
            after: named(after),
        }
    }

    #[test]
    fn records_that_wait_one_behind_the_other_become_one() {
        let jobs = [
            record("a", "b"),
            record("b", "c"),
            record("c", "d"),
            Job::ForgetFound,
            record("d", "e"),
        ];
        let told: Vec<String> = merged(jobs.into_iter())
            .iter()
            .map(|job| match job {
                Job::Record { before, after } => format!("{} to {}", before.name, after.name),
                other => format!("{other:?}"),
            })
            .collect();
        assert_eq!(told, ["a to d", "ForgetFound", "d to e"]);
    }

    #[test]
    fn everything_is_done_in_order_before_the_end() {
        let (telling, told) = channel();
        let (events, answers) = sync_channel(16);
        let keeping = Keeping::start(Box::new(Told(telling)), &events).expect("a thread");
        keeping.give(Job::ForgetFound);
        keeping.give(record("a", "b"));
        keeping.give(Job::Save {
            id: 7,
            path: "house".into(),
            project: named("b"),
            over: true,
        });
        assert!(keeping.finish(false).is_none());
        let told: Vec<String> = told.iter().collect();
        assert_eq!(
            told,
            ["forget", "a to b", "save b house true", "finish false"]
        );
        let answers: Vec<Message> = answers
            .try_iter()
            .filter_map(|event| match event {
                Event::Answer(answer) => Some(answer),
                _ => None,
            })
            .collect();
        assert_eq!(
            answers,
            [
                Message::JournalFailed("the disk is full".to_owned()),
                Message::Saved {
                    id: 7,
                    outcome: Err(SaveFault::ChangedOnDisk)
                }
            ]
        );
    }

    #[test]
    fn a_loop_that_went_away_leaves_the_journal() {
        let (telling, told) = channel();
        let (events, _answers) = sync_channel(16);
        let Keeping { jobs, thread } =
            Keeping::start(Box::new(Told(telling)), &events).expect("a thread");
        drop(jobs);
        assert!(thread.join().is_ok_and(|panic| panic.is_none()));
        assert_eq!(told.iter().collect::<Vec<_>>(), ["finish true"]);
    }
}
