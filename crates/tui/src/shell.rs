//! The loop: terminal, threads and signals around [`update()`](crate::update()) and [`draw`].
//!
//! ```text
//! input ──┐                        ┌─► keeper   saves, journal; in order
//! signals ─┼─► events ─► the loop ─┼─► looker   what is doubtful, what to buy; the newest only
//! keeper ──┤                       └─► terminal one write a frame
//! looker ──┘
//! ```
//!
//! The loop waits for one event, takes in all that wait, and draws once. Nothing happens by the clock: a
//! program that nobody touches sleeps. However it ends (asked to, a signal, a terminal that went away, a panic
//! on any thread) the terminal is given back first and the keeper finishes last. It is for Unix systems.
//!
//! Not here: what follows from a message, and what is drawn.

mod clipboard;
mod decode;
mod input;
mod keeping;
mod looking;
mod screen;
mod signals;
mod term;
mod watched;

pub use term::Guard;

use crate::{Effect, Keeper, Message, Start, State, WeatherReader, draw, update};
use clipboard::Between;
use input::Input;
use keeping::{Job, Keeping};
use looking::{Looking, Request, What};
use screen::Screen;
use std::collections::VecDeque;
use std::io;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::sync::mpsc::{Receiver, sync_channel};
use std::time::{Duration, Instant};
use watched::{Event, Events, Panic};

/// Events that may wait; a thread with more to say waits itself, and the terminal with it.
const WAITING: usize = 256;

/// However much comes in, a frame is drawn this often: common practice, no source.
const LONGEST_BETWEEN_FRAMES: Duration = Duration::from_millis(30);

/// Shows the front end until it is left.
///
/// A signal that asks the program to end (SIGTERM, SIGHUP, SIGINT) ends it as that signal does, once
/// everything is kept and the terminal given back, and `run` does not come back.
///
/// # Errors
/// When input or output is no terminal or the terminal went away, in words; and when the system gives no
/// threads. The keeper has finished then, and what was not saved is in its journal.
///
/// # Panics
/// With what a thread panicked with, after the terminal was given back and the keeper has finished.
pub fn run(start: Start, keeper: Box<dyn Keeper>) -> io::Result<()> {
    // The colours are our own matter; left to itself the library answers NO_COLOR by cancelling reverse too.
    ratatui::crossterm::style::force_color_output(true);
    let guard = Guard::enter()?;
    let (events, happening) = sync_channel(WAITING);
    let weather = keeper.weather();
    let keeping = Keeping::start(keeper, &events)?;
    let shown = catch_unwind(AssertUnwindSafe(|| {
        show(start, &keeping, weather, &events, &happening)
    }));
    drop(guard);
    let unheard = happening.try_iter().find_map(|event| match event {
        Event::Panicked(panic) => Some(panic),
        _ => None,
    });
    // From here on a thread with something to say is not held up by it.
    drop(happening);
    let ended = match (shown, unheard) {
        (Ok(ended), None) => ended,
        (Err(panic), _) | (Ok(_), Some(panic)) => Ok(End::Panicked(panic)),
    };
    let keep = ended.as_ref().map_or(true, End::keeps);
    if let Some(panic) = keeping.finish(keep) {
        resume_unwind(panic);
    }
    match ended? {
        End::Left { .. } => Ok(()),
        End::Asked { signal, .. } => {
            signals::die_of(signal);
            Ok(())
        }
        End::Gone { .. } => Err(io::Error::new(
            io::ErrorKind::UnexpectedEof,
            "the terminal went away; what was not saved is kept for the next start",
        )),
        End::Panicked(panic) => resume_unwind(panic),
    }
}

/// How it ended.
#[derive(Debug)]
enum End {
    Left { keep: bool },
    Asked { signal: i32, keep: bool },
    Gone { keep: bool },
    Panicked(Panic),
}

impl End {
    /// Whether the journal stays.
    fn keeps(&self) -> bool {
        match self {
            Self::Left { keep } | Self::Asked { keep, .. } | Self::Gone { keep } => *keep,
            Self::Panicked(_) => true,
        }
    }
}

fn show(
    start: Start,
    keeping: &Keeping,
    weather: WeatherReader,
    events: &Events,
    happening: &Receiver<Event>,
) -> io::Result<End> {
    signals::listen(events)?;
    let looking = Looking::start(start.rules.clone(), weather, events)?;
    let screen = Screen::new()?;
    let (state, effects) = State::new(start);
    let mut shell = Shell {
        state,
        screen,
        keeping,
        looking,
        input: Input::start(events)?,
        between: Between::told_by(
            std::env::var_os("TMUX").is_some(),
            std::env::var_os("STY").is_some(),
            &std::env::var("TERM").unwrap_or_default(),
        ),
        run: Run::On,
        end: None,
    };
    let shown = shell
        .begin(effects)
        .and_then(|()| shell.turn(happening))
        .or_else(|fault| {
            if !is_gone(&fault) {
                return Err(fault);
            }
            let keep = shell.wants_to_keep();
            Ok(End::Gone { keep })
        });
    shell.input.end();
    shown
}

/// What a write says when the other end of a terminal is closed.
fn is_gone(fault: &io::Error) -> bool {
    fault.raw_os_error() == Some(rustix::io::Errno::IO.raw_os_error())
}

/// Whether the program runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Run {
    On,
    /// The terminal is not ours; a signal will say when it is again.
    Resting,
    /// It was stopped and runs again; the signal that woke it is on its way.
    Woken,
}

/// Everything the loop holds.
struct Shell<'a> {
    state: State,
    screen: Screen,
    keeping: &'a Keeping,
    looking: Looking,
    input: Input,
    between: Between,
    run: Run,
    end: Option<End>,
}

impl Shell<'_> {
    fn begin(&mut self, effects: Vec<Effect>) -> io::Result<()> {
        let (columns, rows) = self.screen.size();
        self.tell(Message::Resized(columns, rows))?;
        self.follow(effects)?;
        self.draw()
    }

    /// Turns until the end.
    fn turn(&mut self, happening: &Receiver<Event>) -> io::Result<End> {
        loop {
            let first = happening.recv().unwrap_or(Event::Gone);
            self.take(first)?;
            let began = Instant::now();
            while self.end.is_none() && began.elapsed() < LONGEST_BETWEEN_FRAMES {
                match happening.try_recv() {
                    Ok(event) => self.take(event)?,
                    Err(_) => break,
                }
            }
            if let Some(end) = self.end.take() {
                return Ok(end);
            }
            if self.run != Run::Resting {
                self.draw()?;
            }
        }
    }

    fn draw(&mut self) -> io::Result<()> {
        if let Some((columns, rows)) = self.screen.resized()? {
            self.tell(Message::Resized(columns, rows))?;
        }
        let state = &self.state;
        self.screen.draw(|frame| draw(state, frame))
    }

    fn take(&mut self, event: Event) -> io::Result<()> {
        match event {
            Event::Input(messages) => messages
                .into_iter()
                .try_for_each(|message| self.tell(message)),
            Event::Answer(message) => self.tell(message),
            // The size is asked for before each frame.
            Event::Resized => Ok(()),
            Event::Ending(signal) => {
                let keep = self.wants_to_keep();
                self.end = Some(End::Asked { signal, keep });
                Ok(())
            }
            Event::Gone => {
                let keep = self.wants_to_keep();
                self.end = Some(End::Gone { keep });
                Ok(())
            }
            Event::Stop => self.stop(),
            Event::Continued => self.go_on(),
            Event::Panicked(panic) => {
                self.end = Some(End::Panicked(panic));
                Ok(())
            }
        }
    }

    /// Asked from outside to end: the state has its say, then it ends. Whether the journal stays. What cannot be
    /// done any more is let go, so that the end is not held up.
    fn wants_to_keep(&mut self) -> bool {
        let _ = self.tell(Message::Ending);
        self.end.take().is_none_or(|end| end.keeps())
    }

    fn tell(&mut self, message: Message) -> io::Result<()> {
        let effects = update(&mut self.state, message);
        self.follow(effects)
    }

    /// Does what is asked, and what follows from the answers that are there at once.
    fn follow(&mut self, effects: Vec<Effect>) -> io::Result<()> {
        let mut effects = VecDeque::from(effects);
        while let Some(effect) = effects.pop_front() {
            if self.end.is_some() {
                break;
            }
            if let Some(answer) = self.perform(effect)? {
                effects.extend(update(&mut self.state, answer));
            }
        }
        Ok(())
    }

    fn perform(&mut self, effect: Effect) -> io::Result<Option<Message>> {
        match effect {
            Effect::Save {
                id,
                path,
                project,
                over,
            } => self.keeping.give(Job::Save {
                id,
                path,
                project,
                over,
            }),
            Effect::Record { before, after } => self.keeping.give(Job::Record { before, after }),
            Effect::ForgetFound => self.keeping.give(Job::ForgetFound),
            Effect::Look { id, project } => self.looking.give(Request {
                id,
                project,
                what: What::Problems,
            }),
            Effect::Blend { id, project, blend } => self.looking.give(Request {
                id,
                project,
                what: What::Blend(blend),
            }),
            Effect::Compare { id, project, base } => self.looking.give(Request {
                id,
                project,
                what: What::Compare(base),
            }),
            Effect::Foresee { id, project } => self.looking.give(Request {
                id,
                project,
                what: What::Foresee,
            }),
            Effect::Days { id, project, path } => self.looking.give(Request {
                id,
                project,
                what: What::Days(path),
            }),
            Effect::Supply { id, project } => self.looking.give(Request {
                id,
                project,
                what: What::Supply,
            }),
            Effect::Copy(text) => {
                let sent = match clipboard::sequence(&text, self.between) {
                    Ok(bytes) => term::emit(&bytes).map(Ok)?,
                    Err(words) => Err(words),
                };
                return Ok(Some(Message::Copied(sent)));
            }
            Effect::Mouse(on) => term::mouse(on)?,
            Effect::Suspend => return self.suspend(),
            Effect::Redraw => self.screen.forget()?,
            Effect::Quit { keep } => self.end = Some(End::Left { keep }),
        }
        Ok(None)
    }

    /// Gives the terminal back and asks the job to stop; we do when our own signal comes round.
    fn suspend(&mut self) -> io::Result<Option<Message>> {
        if !signals::can_be_woken() {
            self.screen.forget()?;
            return Ok(Some(Message::Resumed));
        }
        self.rest();
        if signals::stop_job().is_err() {
            self.stop()?;
        }
        Ok(None)
    }

    fn rest(&mut self) {
        self.input.rest();
        term::leave();
        self.run = Run::Resting;
    }

    fn stop(&mut self) -> io::Result<()> {
        if !signals::can_be_woken() {
            return Ok(());
        }
        self.rest();
        signals::stop()?;
        if term::is_ours() {
            self.resume()?;
            self.run = Run::Woken;
        }
        Ok(())
    }

    /// The signal that wakes a stopped program came.
    fn go_on(&mut self) -> io::Result<()> {
        match self.run {
            Run::Woken => {
                self.run = Run::On;
                return Ok(());
            }
            Run::Resting => {}
            // Stopped by the signal that cannot be caught: the shell has had the terminal since.
            Run::On => {
                self.input.rest();
                self.run = Run::Resting;
                term::lose();
            }
        }
        if term::is_ours() {
            self.resume()
        } else {
            Ok(())
        }
    }

    fn resume(&mut self) -> io::Result<()> {
        term::take()?;
        self.input.go_on();
        self.run = Run::On;
        self.screen.forget()?;
        self.tell(Message::Resumed)
    }
}
