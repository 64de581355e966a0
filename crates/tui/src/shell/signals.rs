//! Signals, as events of the loop; and stopping. Not here: what follows from them.

use super::watched::{Event, Events, watched};
use rustix::process::{Signal, getpgrp, getsid, kill_current_process_group};
use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGTERM, SIGTSTP, SIGWINCH};
use signal_hook::iterator::Signals;
use signal_hook::low_level::emulate_default_handler;
use std::io;

/// Begins to listen, until the program ends.
pub(super) fn listen(events: &Events) -> io::Result<()> {
    let mut signals = Signals::new([SIGTERM, SIGHUP, SIGINT, SIGTSTP, SIGCONT, SIGWINCH])?;
    let sender = events.clone();
    watched("signals", events, move || {
        let mut ending = false;
        for signal in signals.forever() {
            let event = match signal {
                SIGTSTP => Event::Stop,
                SIGCONT => Event::Continued,
                SIGWINCH => Event::Resized,
                // Asked twice: whatever keeps the program from ending, the journal is on the disk.
                ending_signal if ending => {
                    super::term::leave();
                    die_of(ending_signal);
                    return;
                }
                ending_signal => {
                    ending = true;
                    Event::Ending(ending_signal)
                }
            };
            // When the loop is gone the program is about to end; a second signal is still heard.
            let _ = sender.send(event);
        }
    })?;
    Ok(())
}

/// Ends the program by a signal, so that whoever started it sees what it died of. Comes back only when the
/// system refuses.
pub(super) fn die_of(signal: i32) {
    let _ = emulate_default_handler(signal);
}

/// Whether somebody is there to wake the program after it was stopped: a shell gives each of its jobs a process
/// group of its own, apart from the group of the session's leader. A terminal that runs this program in place
/// of a shell would stay stopped for ever.
pub(super) fn can_be_woken() -> bool {
    getsid(None).is_ok_and(|session| session != getpgrp())
}

/// Asks the whole job to stop, ourselves by [`Event::Stop`]: a script that started us must stop too, or the
/// shell would go on waiting for it.
pub(super) fn stop_job() -> io::Result<()> {
    Ok(kill_current_process_group(Signal::TSTP)?)
}

/// Stops; comes back when woken.
pub(super) fn stop() -> io::Result<()> {
    emulate_default_handler(SIGTSTP)
}
