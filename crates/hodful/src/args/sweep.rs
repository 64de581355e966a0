//! What `hodful sweep` is asked. Not here: what all commands have (see `output`), and doing anything.

use super::output::{Input, Output};
use clap::{Args, ValueHint};
use std::path::PathBuf;

/// One field over a range.
#[derive(Debug, Clone, Args)]
pub(crate) struct SweepOf {
    #[command(flatten)]
    pub(crate) input: Input,
    /// The field, of what the options name: thickness, shrinkage or loss of a coat, water of a mix, reject of a material,
    /// price of a package, length of a wall, width of an opening; a wrong one is answered with those that there are
    #[arg(default_value = "thickness")]
    pub(crate) field: String,
    #[command(flatten)]
    pub(crate) at: At,
    /// One end of the range: 0, 1/2in, 5%
    #[arg(long, value_name = "TEXT", allow_hyphen_values = true)]
    pub(crate) from: Option<String>,
    /// The other end
    #[arg(long, value_name = "TEXT", allow_hyphen_values = true)]
    pub(crate) to: Option<String>,
    /// How many values of JSON, CSV and the drawing, both ends included
    #[arg(long, value_name = "COUNT")]
    pub(crate) points: Option<usize>,
    /// A figure: batches, cost, placed, mixed or the name of a material; can be given several times
    #[arg(long = "of", value_name = "FIGURE")]
    pub(crate) figures: Vec<String>,
    /// Draws each figure to an SVG file, one beside this path for each when there are several
    #[arg(long, value_name = "PATH", value_hint = ValueHint::FilePath)]
    pub(crate) svg: Option<PathBuf>,
    /// Writes over a drawing that is there already
    #[arg(long)]
    pub(crate) force: bool,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// The thing whose field it is.
#[derive(Debug, Clone, Args)]
pub(crate) struct At {
    /// The coat, in every build-up that has one of that name
    #[arg(long, value_name = "NAME")]
    pub(crate) coat: Option<String>,
    /// The coat of this build-up alone
    #[arg(long, value_name = "NAME")]
    pub(crate) build_up: Option<String>,
    /// The background
    #[arg(long, value_name = "NAME")]
    pub(crate) background: Option<String>,
    /// The mix
    #[arg(long, value_name = "NAME")]
    pub(crate) mix: Option<String>,
    /// The material
    #[arg(long, value_name = "NAME")]
    pub(crate) material: Option<String>,
    /// The package of the material
    #[arg(long, value_name = "NAME")]
    pub(crate) package: Option<String>,
    /// The wall
    #[arg(long, value_name = "ID")]
    pub(crate) wall: Option<String>,
    /// The opening; of every wall that has one of that name when no wall is given
    #[arg(long, value_name = "ID")]
    pub(crate) opening: Option<String>,
    /// The mixer
    #[arg(long)]
    pub(crate) mixer: bool,
}
