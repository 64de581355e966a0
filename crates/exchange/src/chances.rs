//! How sure the figures of a project are. Not here: drawing them.

use crate::forecast::{AmountRow, PackageRow, amount, package_rows};
use crate::line::{LineRow, key, line, si, unit};
use crate::write::plain_text;
use hodful_quantities::order::Cover;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::read::Money;
use hodful_takeoff::Project;
use hodful_takeoff::chances::{Asked, Chances, FigureChances, Input, Ordered};
use serde::Serialize;
use std::collections::BTreeMap;

/// The chances of a project, in the International System.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChancesReport {
    /// `hodful-chances`.
    pub format: &'static str,
    /// Version of this format.
    pub version: u32,
    /// What the project is called.
    pub project: String,
    /// How many draws.
    pub draws: usize,
    /// From which seed.
    pub seed: u64,
    /// Draws in which something was brought back to what can be.
    pub clamped_draws: usize,
    /// Every order.
    pub orders: Vec<ChancesOrderRow>,
    /// Orders that were asked for.
    pub asked: Vec<ChancesAskedRow>,
    /// Every figure.
    pub figures: Vec<ChancesFigureRow>,
    /// Everything that may be off.
    pub inputs: Vec<ChancesInputRow>,
    /// How it comes about and what is left out, in words.
    pub notes: Vec<String>,
}

/// One order, and the one that is short no more often than `enough_short_share`.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct ChancesOrderRow {
    pub material: String,
    pub stock: AmountRow,
    pub order: Option<Vec<PackageRow>>,
    pub price: Option<f64>,
    pub there: AmountRow,
    pub short_share: Option<f64>,
    pub came: Option<AmountRow>,
    pub came_short_share: Option<f64>,
    pub enough_short_share: f64,
    pub enough: Option<AmountRow>,
    pub enough_order: Option<Vec<PackageRow>>,
    pub enough_price: Option<f64>,
}

/// An order that was asked for: what is ordered, that and what lay in the yard, and how often it is short.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct ChancesAskedRow {
    pub material: String,
    pub order: String,
    pub ordered: AmountRow,
    pub there: AmountRow,
    pub short_share: f64,
}

/// One figure as it may turn out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChancesFigureRow {
    /// Which figure.
    #[serde(flatten)]
    pub line: LineRow,
    /// `worked_out`, `lowest`, `p10`, `p50`, `p80`, `p90`, `highest`, `mean` and `sd`, with the unit in the key.
    #[serde(flatten)]
    pub values: BTreeMap<String, f64>,
    /// What share of its variance comes from which input, the most first.
    pub causes: Vec<CauseRow>,
    /// What is left: from inputs together, from rounding up, and from the chance of the draws.
    pub left_share: f64,
}

/// The part of one input.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct CauseRow {
    pub input: String,
    pub share: f64,
}

/// An input that may be off.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct ChancesInputRow {
    pub input: String,
    pub spread: String,
    pub is_default: bool,
    pub from_wall_to_wall: bool,
    pub source: String,
}

/// One line of the CSV: a figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct ChancesLine {
    pub figure: &'static str,
    pub build_up: String,
    pub coat: String,
    pub material: String,
    pub unit: &'static str,
    pub worked_out: f64,
    pub lowest: f64,
    pub p10: f64,
    pub p50: f64,
    pub p80: f64,
    pub p90: f64,
    pub highest: f64,
    pub mean: f64,
    pub sd: f64,
}

/// The lines of the CSV of some chances.
pub fn chances_lines(of: &Chances) -> Vec<ChancesLine> {
    let text = |of: Option<String>| of.as_deref().map_or_else(String::new, plain_text);
    let each = of.figures.iter().map(|of| {
        let names = line(&of.line);
        let [worked_out, lowest, p10, p50, p80, p90, highest, mean, sd] =
            told(of).map(|(_, value)| value);
        ChancesLine {
            figure: names.figure,
            build_up: text(names.build_up),
            coat: text(names.coat),
            material: text(names.material),
            unit: unit(&of.line),
            worked_out,
            lowest,
            p10,
            p50,
            p80,
            p90,
            highest,
            mean,
            sd,
        }
    });
    each.collect()
}

/// The chances of a project, as a report.
pub fn chances(project: &Project, of: &Chances) -> ChancesReport {
    let figure = |figure: &FigureChances| {
        let values = told(figure).map(|(word, value)| (key(word, &figure.line), value));
        let causes = figure.ranked().into_iter().filter_map(|(at, share)| {
            Some(CauseRow {
                input: of.inputs.get(at)?.words.to_string(),
                share,
            })
        });
        ChancesFigureRow {
            line: line(&figure.line),
            values: values.into_iter().collect(),
            causes: causes.collect(),
            left_share: figure.left(),
        }
    };
    let notes = of.notes(UnitSystem::Metric);
    ChancesReport {
        format: "hodful-chances",
        version: 1,
        project: project.name.to_string(),
        draws: of.draws,
        seed: of.seed,
        clamped_draws: of.clamped,
        orders: of
            .orders
            .iter()
            .map(|one| order(project, of, one))
            .collect(),
        asked: of.asked.iter().map(asked).collect(),
        figures: of.figures.iter().map(figure).collect(),
        inputs: of.inputs.iter().map(input).collect(),
        notes: notes.into_iter().map(Into::into).collect(),
    }
}

/// What is told of a figure, with its keys, in the International System.
fn told(of: &FigureChances) -> [(&'static str, f64); 9] {
    let sample = &of.sample;
    [
        ("worked_out", of.base),
        ("lowest", sample.lowest()),
        ("p10", of.enough(0.1)),
        ("p50", of.enough(0.5)),
        ("p80", of.enough(0.8)),
        ("p90", of.enough(0.9)),
        ("highest", sample.highest()),
        ("mean", sample.mean()),
        ("sd", sample.sd()),
    ]
    .map(|(word, value)| (word, si(&of.line, value)))
}

fn order(project: &Project, of: &Chances, one: &Ordered) -> ChancesOrderRow {
    let enough = of.order_for(&one.material, of.accepted);
    let (enough, cover) = enough.map_or((None, None), |(need, cover)| (Some(need), cover));
    let packages = |cover: Option<&Cover>| package_rows(project, &one.material, cover);
    let price = |cover: Option<&Cover>| cover.and_then(|of| of.price).map(Money::to_f64);
    ChancesOrderRow {
        material: one.material.to_string(),
        stock: amount(&one.stock),
        order: packages(one.cover.as_ref()),
        price: price(one.cover.as_ref()),
        there: amount(&one.there),
        short_share: one.short,
        came: one.came.as_ref().map(amount),
        came_short_share: of.came_short(&one.material).map(|(_, short)| short),
        enough_short_share: of.accepted,
        enough: enough.as_ref().map(amount),
        enough_order: packages(cover.as_ref()),
        enough_price: price(cover.as_ref()),
    }
}

fn asked(of: &Asked) -> ChancesAskedRow {
    ChancesAskedRow {
        material: of.material.to_string(),
        order: of.words.to_string(),
        ordered: amount(&of.ordered),
        there: amount(&of.there),
        short_share: of.short,
    }
}

fn input(of: &Input) -> ChancesInputRow {
    ChancesInputRow {
        input: of.words.to_string(),
        spread: of.spread.to_string(),
        is_default: of.is_default,
        from_wall_to_wall: of.is_wall_to_wall,
        source: of.source.to_string(),
    }
}
