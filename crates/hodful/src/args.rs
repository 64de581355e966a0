//! The command line: the one definition that the help, the shell completions and the manual page are
//! made from. Not here: doing anything.

use clap::error::ErrorKind;
use clap::{Args, CommandFactory, Parser, Subcommand, ValueEnum, ValueHint};
use hodful_quantities::print::UnitSystem;
use std::ffi::OsString;
use std::path::PathBuf;

/// Measures walls for earth plaster and turns them into what must be ordered, mixed and done.
///
/// Without a command it opens the project on the screen: draw up the walls of a building and see their
/// figures as you type. The commands print the figures of a project file for paper and pipes. Figures go
/// to standard output, words to standard error. Exit code 0: done. 1: the project has problems. 2: it
/// could not be done.
#[derive(Debug, Parser)]
#[command(
    name = "hodful",
    version,
    max_term_width = 80,
    args_conflicts_with_subcommands = true,
    after_help = "Example:\n  hodful barn.hodful.json"
)]
pub(crate) struct Cli {
    /// The project file to open on the screen
    ///
    /// One that is not there yet can be begun; without a file a new project is. A file that is called
    /// like a command opens by its folder: hodful ./order
    #[arg(value_hint = ValueHint::FilePath)]
    pub(crate) file: Option<PathBuf>,
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: Option<Command>,
}

/// How alike a word and a command must be to be taken for a slip of the finger, from 0 to 1
/// (Jaro-Winkler): by trying.
const ALIKE: f64 = 0.8;

impl Cli {
    /// Reads the arguments, the name of the program first.
    ///
    /// # Errors
    /// What is wrong with them, ready to be shown; or the help or version asked for.
    pub(crate) fn read(arguments: &[OsString]) -> Result<Self, clap::Error> {
        Self::try_parse_from(arguments).map_err(|error| {
            let first = arguments.get(1).map(|first| first.to_string_lossy());
            match first.filter(|_| error.kind() == ErrorKind::ArgumentConflict) {
                Some(first) => Self::no_such_command(&first),
                None => error,
            }
        })
    }

    /// A word with others behind it was meant as a command.
    fn no_such_command(word: &str) -> clap::Error {
        let mut top = Self::command();
        let near = top
            .get_subcommands()
            .map(|command| {
                (
                    strsim::jaro_winkler(word, command.get_name()),
                    command.get_name(),
                )
            })
            .filter(|(alike, _)| *alike > ALIKE)
            .max_by(|(a, _), (b, _)| a.total_cmp(b));
        let hint = near.map_or_else(
            || "and a file to open stands alone".to_owned(),
            |(_, near)| format!("did you mean '{near}'?"),
        );
        let words = format!("there is no command '{word}'; {hint}");
        top.error(ErrorKind::InvalidSubcommand, words)
    }
}

/// What can be done.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Writes a new project file to start from
    ///
    /// Without --from it is the straw-bale workshop; --list names them all. A file that is there already is left
    /// alone.
    #[command(after_help = "Example:\n  hodful new barn.hodful.json --from saltcedar-room")]
    New {
        /// The file to write
        #[arg(required_unless_present_any = ["list"])]
        file: Option<PathBuf>,
        /// The demo project to start from
        #[arg(long, value_name = "NAME")]
        from: Option<String>,
        /// Lists the demo projects
        #[arg(long)]
        list: bool,
    },
    /// Prints the surfaces of every face
    ///
    /// Outline, openings (the hole in the face, splay included), field, reveals, rounded edges, true
    /// surface, and the quantity measured for payment under the rule of the project.
    #[command(after_help = "Example:\n  hodful measure barn.hodful.json --units metric")]
    Measure {
        #[command(flatten)]
        input: Input,
        #[command(flatten)]
        output: Output,
    },
    /// Prints coats with their volumes, then what to order
    ///
    /// Materials stand as delivered: damp, before the screen, with what is in the yard taken off and
    /// the rest rounded up to packages.
    #[command(after_help = "Example:\n  hodful order barn.hodful.json --format csv > order.csv")]
    Order {
        #[command(flatten)]
        input: Input,
        #[command(flatten)]
        output: Output,
    },
    /// Prints how a figure came about, down to what was typed
    ///
    /// WHAT is the path of a figure; names with blanks stand in double quotes inside the path.
    /// See the examples.
    #[command(
        after_help = "Example:\n  hodful explain barn.hodful.json 'coats.\"outside bale\".scratch'"
    )]
    Explain {
        #[command(flatten)]
        input: Input,
        /// The path of the figure; left out, the paths of the project are listed
        what: Option<String>,
        /// Levels of the tree to print
        #[arg(long, value_name = "LEVELS")]
        depth: Option<usize>,
        #[command(flatten)]
        output: Output,
    },
    /// Prints everything refused and doubtful, with its place
    ///
    /// Exits with 1 when something is refused.
    #[command(after_help = "Example:\n  hodful check barn.hodful.json")]
    Check {
        #[command(flatten)]
        input: Input,
        /// How to print
        #[arg(long, value_enum, default_value_t = Format::Table)]
        format: Format,
    },
    /// Lists the measurement rules a project can name
    ///
    /// Each with the key that a project names it by, its edition, its source, and how far it was read.
    #[command(after_help = "Example:\n  hodful rules")]
    Rules,
    /// Prints the cautions for the work, whole and with their sources
    #[command(after_help = "Example:\n  hodful cautions")]
    Cautions,
    /// Prints the completions for a shell
    #[command(
        after_help = "Example:\n  hodful completions bash > ~/.local/share/bash-completion/completions/hodful"
    )]
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
    /// Prints the manual page, in the format of man
    #[command(after_help = "Example:\n  hodful manual > hodful.1 && man ./hodful.1")]
    Manual,
}

/// The project to read.
#[derive(Debug, Args)]
pub(crate) struct Input {
    /// The project file; - reads standard input
    pub(crate) file: PathBuf,
}

/// How to print figures.
#[derive(Debug, Clone, Copy, Args)]
pub(crate) struct Output {
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub(crate) format: Format,
    /// Units of the table, over those of the project; JSON and CSV are always metric
    #[arg(long, value_enum)]
    pub(crate) units: Option<Units>,
}

/// How figures are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// For people, at most 80 columns wide
    Table,
    /// JSON, International System, not rounded
    Json,
    /// CSV (RFC 4180), International System, not rounded
    Csv,
}

/// The units of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Units {
    /// Feet, cubic feet and yards, pounds
    Us,
    /// Metres, litres, kilograms
    Metric,
}

impl From<Units> for UnitSystem {
    fn from(units: Units) -> Self {
        match units {
            Units::Us => Self::Us,
            Units::Metric => Self::Metric,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_definition_holds_together() {
        Cli::command().debug_assert();
    }

    #[test]
    fn a_file_alone_opens_and_a_command_stays_a_command() {
        let file = |arguments: &[&str]| {
            let cli = Cli::try_parse_from([&["hodful"], arguments].concat()).unwrap();
            (cli.file, cli.command.is_some())
        };
        assert_eq!(file(&[]), (None, false));
        assert_eq!(file(&["barn.json"]), (Some("barn.json".into()), false));
        assert_eq!(file(&["./order"]), (Some("./order".into()), false));
        assert_eq!(file(&["--", "order"]), (Some("order".into()), false));
        assert_eq!(file(&["order", "barn.json"]), (None, true));
        assert_eq!(file(&["rules"]), (None, true));
        let told = |arguments: &[&str]| {
            let arguments: Vec<_> = ["hodful"].iter().chain(arguments).map(Into::into).collect();
            Cli::read(&arguments).unwrap_err().to_string()
        };
        let told_of_ordr = told(&["ordr", "barn.json"]);
        assert!(
            told_of_ordr.contains("there is no command 'ordr'; did you mean 'order'?"),
            "{told_of_ordr}"
        );
        let told_of_two = told(&["barn.json", "byre.json"]);
        assert!(
            told_of_two.contains("'barn.json'; and a file to open stands alone"),
            "{told_of_two}"
        );
        for wrong in [
            &["barn.json", "order"][..],
            &["barn.json", "byre.json"],
            &["order"],
            &["--screen"],
        ] {
            let parsed = Cli::try_parse_from([&["hodful"], wrong].concat());
            assert!(parsed.is_err(), "{wrong:?}");
        }
    }

    #[test]
    fn every_command_has_an_example() {
        let top = Cli::command();
        let help = top.get_after_help().map(ToString::to_string);
        assert!(help.is_some_and(|help| help.contains("hodful barn.hodful.json")));
        for command in top.get_subcommands() {
            let help = command
                .get_after_help()
                .map(ToString::to_string)
                .unwrap_or_default();
            assert!(
                help.contains(&format!("hodful {}", command.get_name())),
                "{}",
                command.get_name()
            );
        }
    }
}
