//! What this process has taken of memory and of the processor, as Linux tells it. Not here: what it was taken for.

use std::fs;
use std::io;
use std::time::Duration;

/// The most memory that was resident at once since the process began, in bytes.
///
/// Source: `VmHWM` in `/proc/self/status`, proc(5).
///
/// # Errors
/// When the system has no such file, or it has no such line.
pub fn peak() -> io::Result<u64> {
    line("VmHWM:")
}

/// The memory that is resident now, in bytes.
///
/// Source: `VmRSS` in `/proc/self/status`, proc(5).
///
/// # Errors
/// As [`peak`].
pub fn resident() -> io::Result<u64> {
    line("VmRSS:")
}

fn line(name: &str) -> io::Result<u64> {
    let status = fs::read_to_string("/proc/self/status")?;
    status
        .lines()
        .find_map(|line| line.strip_prefix(name))
        .and_then(|rest| rest.split_whitespace().next()?.parse::<u64>().ok())
        .map(|kibibytes| kibibytes * 1024)
        .ok_or_else(|| io::Error::other(format!("/proc/self/status has no {name}")))
}

/// The time the processor has spent on this process so far, all threads together.
///
/// Source: `utime` and `stime` in `/proc/self/stat`, proc(5), in hundredths of a second as on every common Linux.
///
/// # Errors
/// When the system has no such file, or it has no such fields.
pub fn processor_time() -> io::Result<Duration> {
    let stat = fs::read_to_string("/proc/self/stat")?;
    // The name of the program, in brackets, may hold blanks; twelve more fields stand before the times.
    let ticks = stat.rsplit_once(')').and_then(|(_, rest)| {
        let mut fields = rest.split_whitespace().skip(11);
        let [user, system] = [fields.next()?, fields.next()?].map(str::parse::<u64>);
        Some(user.ok()? + system.ok()?)
    });
    ticks
        .map(|ticks| Duration::from_millis(10 * ticks))
        .ok_or_else(|| io::Error::other("/proc/self/stat has no times"))
}
