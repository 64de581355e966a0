//! The harness: a program in a pseudo-terminal, the screen it draws, and how it ended. Not here: any test.

use portable_pty::{Child, CommandBuilder, ExitStatus, MasterPty, PtySize, native_pty_system};
use rustix::process::{Pid, Signal, kill_process};
use std::ffi::OsStr;
use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::path::PathBuf;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError, mpsc};
use std::time::{Duration, Instant};
use tempfile::TempDir;
use vt100::{MouseProtocolMode, Screen};

pub(crate) const CTRL_Q: &str = "\x11";
pub(crate) const CTRL_L: &str = "\x0c";
pub(crate) const CTRL_S: &str = "\x13";
pub(crate) const CTRL_Z: &str = "\x1a";

/// How long a step may take on a machine that does much else.
const PATIENCE: Duration = Duration::from_secs(20);

/// Longer than the program waits before it does something in the background.
const QUIET: Duration = Duration::from_millis(400);

/// A folder to run in, with a home of its own.
pub(crate) struct Place(TempDir);

impl Place {
    pub(crate) fn new() -> Self {
        let place = Self(TempDir::new().unwrap());
        for folder in ["home", "state", "config"] {
            std::fs::create_dir(place.path(folder)).unwrap();
        }
        place
    }

    /// A place with a demo project, whose name is [`Self::NAME`], in `room.hodful.json`.
    pub(crate) fn with_room() -> Self {
        let place = Self::new();
        std::fs::write(place.path("room.hodful.json"), Self::ROOM).unwrap();
        place
    }

    const ROOM: &str = include_str!("../../../../demo-projects/saltcedar-room.hodful.json");
    /// The beginning of its name: the head line of a small window has no room for more.
    pub(crate) const NAME: &str = "Saltcedar r";

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// A command that knows this place and nothing of the machine it runs on.
    pub(crate) fn command(&self, program: impl AsRef<OsStr>, arguments: &[&str]) -> CommandBuilder {
        let mut command = CommandBuilder::new(program);
        command.args(arguments);
        command.cwd(self.0.path());
        command.env_clear();
        for (name, value) in [
            ("HOME", "home"),
            ("XDG_STATE_HOME", "state"),
            ("XDG_CONFIG_HOME", "config"),
        ] {
            command.env(name, self.path(value));
        }
        command.env("PATH", "/usr/bin:/bin");
        command.env("TERM", "xterm-256color");
        command
    }

    /// Runs `hodful`, on 80 columns and 24 rows.
    pub(crate) fn hodful(&self, arguments: &[&str]) -> Terminal {
        Terminal::run(self.command(env!("CARGO_BIN_EXE_hodful"), arguments))
    }

    /// Opens the demo project and waits until it is shown.
    pub(crate) fn open_room(&self) -> Terminal {
        let mut terminal = self.hodful(&["room.hodful.json"]);
        terminal.until("the room is shown", |screen| {
            screen.alternate_screen() && screen.contents().contains(Self::NAME)
        });
        terminal
    }
}

/// A running program and what it shows.
pub(crate) struct Terminal {
    child: Option<Box<dyn Child + Send + Sync>>,
    pid: Pid,
    master: Box<dyn MasterPty + Send>,
    writer: Box<dyn Write + Send>,
    shown: Arc<Shown>,
    /// How the terminal treats lines and keys, as the program found it.
    ordinary: String,
}

struct Shown {
    state: Mutex<State>,
    changed: Condvar,
}

struct State {
    parser: vt100::Parser,
    /// Everything the program sent.
    sent: Vec<u8>,
    closed: bool,
    /// Nobody looks any more.
    left_alone: bool,
}

impl Terminal {
    pub(crate) fn run(command: CommandBuilder) -> Self {
        let pair = native_pty_system().openpty(size(80, 24)).unwrap();
        let ordinary = modes(&*pair.master);
        let child = pair.slave.spawn_command(command).unwrap();
        drop(pair.slave);
        let shown = Arc::new(Shown {
            state: Mutex::new(State {
                parser: vt100::Parser::new(short(24), short(80), 0),
                sent: Vec::new(),
                closed: false,
                left_alone: false,
            }),
            changed: Condvar::new(),
        });
        let mut reader = pair.master.try_clone_reader().unwrap();
        let seeing = shown.clone();
        std::thread::spawn(move || {
            let mut bytes = vec![0; 65536];
            loop {
                let count = reader.read(&mut bytes).unwrap_or(0);
                let mut state = seeing.state();
                if state.left_alone {
                    return;
                }
                state.closed = count == 0;
                state.sent.extend_from_slice(&bytes[..count]);
                state.parser.process(&bytes[..count]);
                seeing.changed.notify_all();
                if count == 0 {
                    return;
                }
            }
        });
        Self {
            pid: Pid::from_raw(child.process_id().unwrap().cast_signed()).unwrap(),
            child: Some(child),
            writer: pair.master.take_writer().unwrap(),
            master: pair.master,
            shown,
            ordinary,
        }
    }

    /// Presses keys, one read of the program or several.
    pub(crate) fn press(&mut self, keys: &str) {
        self.writer.write_all(keys.as_bytes()).unwrap();
        self.writer.flush().unwrap();
    }

    /// Waits until the screen is as it must be.
    #[track_caller]
    pub(crate) fn until(&mut self, what: &str, is_so: impl Fn(&Screen) -> bool) {
        self.wait(what, |state| is_so(state.parser.screen()));
    }

    /// Waits until these words can be read.
    #[track_caller]
    pub(crate) fn reads(&mut self, words: &str) {
        self.until(&format!("'{words}' can be read"), |screen| {
            screen.contents().contains(words)
        });
    }

    /// Waits until this many frames came.
    #[track_caller]
    pub(crate) fn frames(&mut self, least: usize) {
        self.wait(&format!("{least} frames came"), |state| {
            frames(&state.sent) >= least
        });
    }

    /// Waits until nothing more came for a while, as when what is done in the background is shown too.
    pub(crate) fn settle(&mut self) {
        let mut state = self.shown.state();
        loop {
            let before = state.sent.len();
            state = self.shown.changed.wait_timeout(state, QUIET).unwrap().0;
            if state.sent.len() == before {
                return;
            }
        }
    }

    /// Frames so far.
    pub(crate) fn frames_so_far(&self) -> usize {
        frames(&self.shown.state().sent)
    }

    pub(crate) fn text(&self) -> String {
        self.shown.state().parser.screen().contents()
    }

    /// Everything the program sent, as text.
    pub(crate) fn sent(&self) -> String {
        String::from_utf8_lossy(&self.shown.state().sent).into_owned()
    }

    pub(crate) fn resize(&mut self, columns: u16, rows: u16) {
        self.shown
            .state()
            .parser
            .screen_mut()
            .set_size(short(rows), short(columns));
        self.master.resize(size(columns, rows)).unwrap();
    }

    pub(crate) fn signal(&self, signal: Signal) {
        kill_process(self.pid, signal).unwrap();
    }

    /// The terminal goes away, as when its window is closed. How the program took it.
    #[track_caller]
    pub(crate) fn close(mut self) -> ExitStatus {
        let child = self.child.take().unwrap();
        let shown = self.shown.clone();
        // The reader holds the terminal open until it hears of something: here of the keys that the library
        // sends when the writer is dropped.
        shown.state().left_alone = true;
        drop(self);
        status(child, &shown)
    }

    /// Waits until the program has ended by itself, and says how.
    #[track_caller]
    pub(crate) fn ended(mut self) -> Ended {
        self.wait("the program has ended", |state| state.closed);
        let status = status(self.child.take().unwrap(), &self.shown);
        Ended {
            status,
            is_ordinary: modes(&*self.master) == self.ordinary,
            sent: self.sent(),
            screen: self.shown.state().parser.screen().clone(),
        }
    }

    #[track_caller]
    fn wait(&self, what: &str, is_so: impl Fn(&State) -> bool) {
        let until = Instant::now() + PATIENCE;
        let mut state = self.shown.state();
        while !is_so(&state) {
            let left = until.saturating_duration_since(Instant::now());
            let contents = state.parser.screen().contents();
            assert!(
                !left.is_zero() && !state.closed,
                "not so: {what}; the screen shows\n{contents}"
            );
            state = self.shown.changed.wait_timeout(state, left).unwrap().0;
        }
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        if let Some(mut child) = self.child.take() {
            let _ = child.kill();
            let _ = child.wait();
        }
    }
}

impl Shown {
    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// How a program ended and what it left behind.
pub(crate) struct Ended {
    pub(crate) status: ExitStatus,
    pub(crate) sent: String,
    is_ordinary: bool,
    screen: Screen,
}

impl Ended {
    /// Every mode of the terminal is as it was before.
    #[track_caller]
    pub(crate) fn gave_the_terminal_back(&self) -> &Self {
        assert!(self.sent.contains("\x1b[?1049h"), "it was taken before");
        assert!(!self.screen.alternate_screen(), "the alternate screen");
        assert!(!self.screen.bracketed_paste(), "bracketed paste");
        assert!(!self.screen.hide_cursor(), "the cursor");
        assert!(!self.screen.application_cursor(), "the cursor keys");
        let mouse = self.screen.mouse_protocol_mode();
        assert_eq!(mouse, MouseProtocolMode::None, "the mouse");
        assert!(self.is_ordinary, "lines and keys");
        self
    }

    pub(crate) fn text(&self) -> String {
        self.screen.contents()
    }

    pub(crate) fn frames(&self) -> usize {
        frames(self.sent.as_bytes())
    }
}

/// Waits for the end of a program that is about to end.
#[track_caller]
fn status(mut child: Box<dyn Child + Send + Sync>, shown: &Shown) -> ExitStatus {
    let mut killer = child.clone_killer();
    let (telling, told) = mpsc::channel();
    std::thread::spawn(move || telling.send(child.wait()));
    if let Ok(status) = told.recv_timeout(PATIENCE) {
        return status.unwrap();
    }
    let _ = killer.kill();
    panic!(
        "it did not end; the screen shows\n{}",
        shown.state().parser.screen().contents()
    );
}

/// Each frame ends with the end of a synchronised update.
fn frames(sent: &[u8]) -> usize {
    sent.windows(8).filter(|end| *end == b"\x1b[?2026l").count()
}

fn modes(master: &dyn MasterPty) -> String {
    format!("{:?}", master.get_termios().unwrap())
}

fn size(cols: u16, rows: u16) -> PtySize {
    PtySize {
        rows,
        cols,
        pixel_width: 0,
        pixel_height: 0,
    }
}

fn short(number: u16) -> NonZeroU16 {
    NonZeroU16::new(number).unwrap()
}
