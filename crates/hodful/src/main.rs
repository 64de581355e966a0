//! The binary: arguments, wiring, exit codes. Not here: any computation or format.

mod args;
mod commands;
mod host;
mod show;

use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments: Vec<_> = std::env::args_os().collect();
    let cli = args::Cli::read(&arguments).unwrap_or_else(|error| error.exit());
    let ended = match cli.command {
        Some(command) => commands::run(command),
        None => host::open(cli.file.as_deref()),
    };
    match ended {
        Ok(end) => end.code(),
        Err(fault) if closed_pipe(&fault) => ExitCode::SUCCESS,
        Err(fault) => {
            commands::say(&format!("hodful: {fault:#}"));
            ExitCode::from(2)
        }
    }
}

/// Whether the reader of our output went away, which is no fault.
fn closed_pipe(fault: &anyhow::Error) -> bool {
    fault
        .chain()
        .filter_map(|cause| cause.downcast_ref::<std::io::Error>())
        .any(|io| io.kind() == std::io::ErrorKind::BrokenPipe)
}
