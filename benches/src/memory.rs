//! Memory that this process has taken, as Linux tells it. Not here: what it was taken for.

use std::fs;
use std::io;

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
