//! The command line: the one definition that the help, the shell completions and the manual page are
//! made from. Not here: the arguments of single commands that have many, and doing anything.

mod chances;
mod export;
mod output;
mod plan;
mod sweep;

pub(crate) use chances::ChancesOf;
pub(crate) use export::ExportOf;
pub(crate) use output::{Format, Input, Output, Sizes, Units, What};
pub(crate) use plan::{DaysFrom, PlanOf};
pub(crate) use sweep::{At, SweepOf};

use clap::error::ErrorKind;
use clap::{CommandFactory, Parser, Subcommand, ValueHint};
use hodful_quantities::read::Day;
use hodful_quantities::units::{Celsius, Length};
use hodful_quantities::{Misread, Typed};
use std::ffi::OsString;
use std::path::PathBuf;
use std::str::FromStr;

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
            let is_command = |word: &str| Self::command().find_subcommand(word).is_some();
            let first = first.filter(|first| !is_command(first));
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
    /// Without --from it is the straw-bale workshop; --list names them all. The weather that the project names is
    /// written beside it. A file that is there already is left alone.
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
        /// Writes over a weather file that is there already; over a project never
        #[arg(long)]
        force: bool,
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
    /// the rest rounded up to packages. Where the project says who sells, or when what is ordered, it
    /// tells too what to buy from whom: deliveries, trips and charges, beside the simple way of buying
    /// each material by itself. CSV has the packages to order: with deliveries those of the plan, with
    /// phase, date, supplier, trips and charge.
    #[command(
        after_help = "Examples:\n  hodful order barn.hodful.json --format csv > order.csv\n  hodful order barn.hodful.json --fewest"
    )]
    Order {
        #[command(flatten)]
        input: Input,
        /// Looks for the fewest trips, whatever the project wants most
        #[arg(long)]
        fewest: bool,
        #[command(flatten)]
        output: Output,
    },
    /// Prints the card beside the mixer, for a printer
    ///
    /// What one full batch takes, counted as the crew counts, in the order of loading; the water that
    /// goes in at once and what is held back; the batches of each coat and the days they take; and
    /// what the last, smaller batch takes.
    #[command(after_help = "Example:\n  hodful card barn.hodful.json scratch | lp")]
    Card {
        #[command(flatten)]
        input: Input,
        /// The mix; left out, there is a card for each
        mix: Option<String>,
        #[command(flatten)]
        output: Output,
    },
    /// Prints what is known of the soils
    ///
    /// Every material with a test of its grains: shares of dry mass within bounds, the texture class and
    /// what else it may be, what the marks of a jar part and when to make them, and what the hand
    /// suggests. Of several tests the first listed is gone by.
    #[command(after_help = "Example:\n  hodful soils barn.hodful.json")]
    Soils {
        #[command(flatten)]
        input: Input,
        /// How to print
        #[arg(long, value_enum, default_value_t = Format::Table)]
        format: Format,
    },
    /// Prints when to mark a jar of soil and water
    ///
    /// Tells when the finest sand and the finest silt have sunk to the bottom, and which grains a mark
    /// at other hours parts. Grains sink by Stokes' law. Needs no project.
    #[command(
        after_help = "Example:\n  hodful settle --depth 150mm --temperature 18C --system ISO"
    )]
    Settle {
        /// Depth of the water, from its surface to the bottom of the jar: 150mm, 6in
        #[arg(long, value_parser = length, allow_hyphen_values = true)]
        depth: Typed<Length>,
        /// Temperature of the water: 18C, 64F
        #[arg(long, value_parser = temperature, allow_hyphen_values = true, default_value = "20 C")]
        temperature: Typed<Celsius>,
        /// The system of sizes that says where sand and silt end
        #[arg(long, value_enum, ignore_case = true, default_value_t = Sizes::Usda)]
        system: Sizes,
        /// How to print
        #[arg(long, value_enum, default_value_t = Format::Table)]
        format: Format,
    },
    /// Prints the blends that are looked for
    ///
    /// Parts by loose volume, what they come to against what is asked, cost, what is bought in, and what
    /// limits it; or what stands against what, how far the materials reach, and the nearest that can be
    /// had. Exits with 1 when a blend cannot be had or cannot be computed.
    #[command(after_help = "Example:\n  hodful blend barn.hodful.json 'base from the pit'")]
    Blend {
        #[command(flatten)]
        input: Input,
        /// The blend; left out, every one of the project
        name: Option<String>,
        #[command(flatten)]
        output: Output,
    },
    /// Prints options of the project side by side, or two projects
    ///
    /// Each figure with its difference to the base, and what makes the difference: thickness, edges,
    /// loss, whole packages and the like, which add up to it. The base is the project as it stands, or
    /// the first of two files; with two files it tells too which walls are new, gone or otherwise. Exits
    /// with 1 when an option does not fit the project or is refused; the others are printed.
    #[command(
        after_help = "Examples:\n  hodful compare barn.hodful.json\n  hodful compare barn.hodful.json barn-as-built.hodful.json"
    )]
    Compare {
        #[command(flatten)]
        input: Input,
        /// A second project file, to be held against the first; - reads standard input
        #[arg(conflicts_with_all = ["base", "only"])]
        other: Option<PathBuf>,
        /// The option that the others are held against
        #[arg(long, value_name = "NAME")]
        base: Option<String>,
        /// Only this option; can be given several times
        #[arg(long, value_name = "NAME")]
        only: Vec<String>,
        #[command(flatten)]
        output: Output,
    },
    /// Prints what one field does to the order, over a range
    ///
    /// A coat from nothing to two inches, say: what becomes of batches, materials and cost, where one
    /// package or batch more is needed, and which limits stand in the range. Without --from and --to it
    /// goes over a sensible range. JSON and CSV have all points.
    #[command(
        after_help = "Examples:\n  hodful sweep barn.hodful.json --coat fill --from 0 --to 2in\n  hodful sweep barn.hodful.json loss --coat scratch --of 'yard sand' --of cost\n  hodful sweep barn.hodful.json price --material 'yard sand' --package 'bulk bag' --of cost"
    )]
    Sweep(Box<SweepOf>),
    /// Prints how sure the order is
    ///
    /// The job is drawn thousands of times, each time with other thicknesses, hollows, losses and yields:
    /// how often each order falls short and what is enough nine times out of ten, how much each figure may
    /// be, what matters most, and how far each input was taken to be off. What the project says of an
    /// input stands before a default of ours. The same seed gives the same figures. CSV has the figures.
    #[command(
        after_help = "Examples:\n  hodful chances barn.hodful.json\n  hodful chances barn.hodful.json --only 'yard sand' --only cost\n  hodful chances barn.hodful.json --order 'yard sand=4 tipped load' --short 5%"
    )]
    Chances(Box<ChancesOf>),
    /// Prints what the rest takes, by what the walls took so far
    ///
    /// The records of the project say what coats took on some walls. What the rest takes is forecast from
    /// it, with what was used, what lies in the yard, and what is still to order, beside what that would
    /// be without the records. CSV has the materials.
    #[command(after_help = "Example:\n  hodful forecast barn.hodful.json")]
    Forecast {
        #[command(flatten)]
        input: Input,
        #[command(flatten)]
        output: Output,
    },
    /// Prints the days on site: who does what when, and when it is dry
    ///
    /// Each coat of each face as a task for the crew, with its mix, and the days until it is dry: not
    /// before, likely, and to reckon with. With weather (an EPW file, a table of hours, or days as typed)
    /// it tells too which nights may freeze a coat and when a face dries too fast. Estimates, no
    /// forecast: look at the forecast of the day, and follow local codes. CSV has the tasks.
    #[command(
        after_help = "Examples:\n  hodful plan barn.hodful.json --weather april.epw\n  hodful plan barn.hodful.json --begins 2026-04-13 --to barn.ics\n  hodful plan barn.hodful.json --to barn.pdf"
    )]
    Plan(Box<PlanOf>),
    /// Writes documents of the project to a file
    ///
    /// The ending of PATH says the format: .pdf, .html and .md for people, .xlsx and .csv for
    /// spreadsheets, .json for programs, .svg for the drawings, .ics for calendars. One file a drawing
    /// is written beside PATH when there are several. The order list, dimension sheet, batch cards and
    /// summary are written all together, with the comparison where there are options, the chances where
    /// the project says how far an input may be off, the forecast where there are records and the work
    /// plan where the project says when the work begins; or one of them by --what. CSV holds one
    /// document, the order list when nothing else is said. The comparison holds the options against
    /// the project or against --base, or the project against another file. A file that is there already is left alone
    /// without --force.
    #[command(
        after_help = "Examples:\n  hodful export barn.hodful.json --to barn.pdf\n  hodful export barn.hodful.json --to order.csv --what order\n  hodful export barn.hodful.json --to changes.pdf --what comparison --against barn-as-built.hodful.json"
    )]
    Export(Box<ExportOf>),
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

/// A length as typed.
fn length(text: &str) -> Result<Typed<Length>, Misread> {
    Typed::read(text)
}

/// A day as typed.
fn day(text: &str) -> Result<Typed<Day>, Misread> {
    Typed::read(text)
}

/// A temperature as typed.
fn temperature(text: &str) -> Result<Typed<Celsius>, Misread> {
    Typed::read(text)
}

/// A whole number.
fn whole<N: FromStr>(text: &str) -> Result<N, &'static str> {
    let number = text.trim().parse();
    number.map_err(|_| "give a whole number, not below 0")
}

#[cfg(test)]
mod tests;
