//! A program in a pseudo-terminal, and when the bytes it sends arrive. Not here: what they show.

use crate::Outcome;
use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};
use std::io::{Read, Write};
use std::path::Path;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

const COLUMNS: u16 = 120;
const ROWS: u16 = 40;

/// Every frame ends with the end of a synchronised update.
const FRAME_ENDS: &[u8] = END_OF_FRAME.as_bytes();
pub(crate) const END_OF_FRAME: &str = "\x1b[?2026l";

/// After a frame nothing more must come for this long; longer than a frame takes, and well below the time between the
/// repeats of a held key, which is some 30 ms.
const QUIET: Duration = Duration::from_millis(8);

const PATIENCE: Duration = Duration::from_secs(10);

pub(crate) struct Terminal {
    /// From the start to the end of the first frame.
    pub(crate) first: Duration,
    child: Box<dyn Child + Send + Sync>,
    writer: Box<dyn Write + Send>,
    /// Held: the program loses its terminal when this goes.
    _master: Box<dyn MasterPty + Send>,
    came: Arc<Came>,
}

#[derive(Default)]
struct Came {
    state: Mutex<State>,
    changed: Condvar,
}

#[derive(Default)]
struct State {
    bytes: usize,
    frames: usize,
    last: Option<Instant>,
    closed: bool,
}

impl Terminal {
    /// Opens a file.
    pub(crate) fn start(program: &Path, folder: &Path, file: &Path) -> Outcome<Self> {
        let mut command = CommandBuilder::new(program);
        command.arg(file);
        Self::run(command, folder)
    }

    /// What sends every key back at once.
    pub(crate) fn echo(folder: &Path) -> Outcome<Self> {
        let mut command = CommandBuilder::new("/bin/sh");
        command.args(["-c", "stty raw -echo; printf '\\033[?2026l'; exec cat"]);
        Self::run(command, folder)
    }

    fn run(mut command: CommandBuilder, folder: &Path) -> Outcome<Self> {
        let pair = native_pty_system().openpty(PtySize {
            rows: ROWS,
            cols: COLUMNS,
            pixel_width: 0,
            pixel_height: 0,
        })?;
        command.cwd(folder);
        command.env_clear();
        command.env("PATH", "/usr/bin:/bin");
        command.env("TERM", "xterm-256color");
        for place in ["HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME"] {
            command.env(place, folder.join("home"));
        }
        // What an earlier run left behind would be offered.
        let _ = std::fs::remove_dir_all(folder.join("home"));
        std::fs::create_dir(folder.join("home"))?;
        let mut reader = pair.master.try_clone_reader()?;
        let came = Arc::<Came>::default();
        let seeing = came.clone();
        std::thread::spawn(move || {
            let mut bytes = vec![0; 1 << 16];
            let mut matched = 0;
            loop {
                let count = reader.read(&mut bytes).unwrap_or(0);
                let now = Instant::now();
                let mut state = seeing.state();
                for byte in bytes.iter().take(count) {
                    matched = match FRAME_ENDS.get(matched) {
                        Some(next) if next == byte => matched + 1,
                        _ => usize::from(FRAME_ENDS.first() == Some(byte)),
                    };
                    if matched == FRAME_ENDS.len() {
                        state.frames += 1;
                        matched = 0;
                    }
                }
                state.bytes += count;
                state.last = Some(now);
                state.closed = count == 0;
                seeing.changed.notify_all();
                if count == 0 {
                    return;
                }
            }
        });
        let start = Instant::now();
        let child = pair.slave.spawn_command(command)?;
        drop(pair.slave);
        let mut terminal = Self {
            first: Duration::ZERO,
            child,
            writer: pair.master.take_writer()?,
            _master: pair.master,
            came,
        };
        terminal.first = terminal.frame_after(start, 0)?;
        Ok(terminal)
    }

    /// Presses a key; from before it is written to the last byte that follows it.
    pub(crate) fn press(&mut self, key: &str) -> Outcome<Duration> {
        let start = Instant::now();
        self.press_for_a_frame(key)?;
        self.settle(QUIET);
        let last = self.came.state().last.ok_or("nothing came")?;
        Ok(last.duration_since(start))
    }

    /// Presses a key; from before it is written to the end of the first frame, whatever follows.
    pub(crate) fn press_for_a_frame(&mut self, key: &str) -> Outcome<Duration> {
        let frames = self.came.state().frames;
        let start = Instant::now();
        self.writer.write_all(key.as_bytes())?;
        self.writer.flush()?;
        self.frame_after(start, frames)
    }

    /// Waits until nothing came for this long.
    pub(crate) fn settle(&mut self, quiet: Duration) {
        let mut state = self.came.state();
        loop {
            let before = state.bytes;
            let waited = self.came.changed.wait_timeout(state, quiet);
            state = waited.unwrap_or_else(PoisonError::into_inner).0;
            if state.bytes == before {
                return;
            }
        }
    }

    /// Bytes so far.
    pub(crate) fn sent(&self) -> usize {
        self.came.state().bytes
    }

    /// Processor time of the program so far, in ticks of the system, as `/proc/PID/stat` tells it: fields 14 and 15
    /// (`proc_pid_stat(5)`).
    pub(crate) fn ticks(&self) -> Outcome<u32> {
        let pid = self.child.process_id().ok_or("it has no process")?;
        let stat = std::fs::read_to_string(format!("/proc/{pid}/stat"))?;
        let (_, behind_the_name) = stat.rsplit_once(')').ok_or("no name in stat")?;
        let mut times = behind_the_name.split_whitespace().skip(11).take(2);
        let mut next = || times.next().ok_or("no times in stat");
        Ok(next()?.parse::<u32>()? + next()?.parse::<u32>()?)
    }

    /// The time since `start` at which there were more frames than `before`.
    fn frame_after(&self, start: Instant, before: usize) -> Outcome<Duration> {
        let mut state = self.came.state();
        while state.frames <= before {
            let left = PATIENCE.saturating_sub(start.elapsed());
            if left.is_zero() || state.closed {
                return Err("the program draws no frame".into());
            }
            let waited = self.came.changed.wait_timeout(state, left);
            state = waited.unwrap_or_else(PoisonError::into_inner).0;
        }
        let last = state.last.ok_or("nothing came")?;
        Ok(last.duration_since(start))
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Came {
    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
