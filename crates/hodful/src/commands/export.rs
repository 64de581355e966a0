//! `hodful export`: documents of a project into a file. Not here: what stands in a document, and formats.

pub(super) mod drawings;
mod spreadsheet;

use super::chances::{is_said, usual};
use super::outlook::{Wanted as Options, with_options};
use super::{Answer, End, cards, say, shown, with_answer};
use crate::args::{Input, Units, What};
use anyhow::{Result, anyhow, bail};
use hodful_documents::{
    Block, Document, Facts, Foot, Paper, batch_cards, chances, comparison, deliveries,
    dimension_sheet, forecast, order_list, summary,
};
use hodful_exchange as exchange;
use hodful_project_file as file;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Assessed;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::path::{Path, PathBuf};

/// What is wanted.
#[derive(Debug)]
pub(super) struct Wanted {
    pub(super) to: PathBuf,
    pub(super) what: Option<What>,
    pub(super) force: bool,
}

/// The formats there are, by the ending of the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ending {
    Csv,
    Html,
    Json,
    Markdown,
    Pdf,
    Svg,
    Xlsx,
}

impl Ending {
    const ALL: [(&'static str, Self); 7] = [
        ("csv", Self::Csv),
        ("html", Self::Html),
        ("json", Self::Json),
        ("md", Self::Markdown),
        ("pdf", Self::Pdf),
        ("svg", Self::Svg),
        ("xlsx", Self::Xlsx),
    ];

    /// The format of a path.
    fn of(path: &Path) -> Result<Self> {
        let ending = path.extension().map(|ending| ending.to_string_lossy());
        let ending = ending.unwrap_or_default();
        let found = Self::ALL
            .into_iter()
            .find(|(word, _)| word.eq_ignore_ascii_case(&ending));
        if let Some((_, found)) = found {
            return Ok(found);
        }
        let known: Vec<String> = Self::ALL
            .iter()
            .map(|(word, _)| format!(".{word}"))
            .collect();
        bail!(
            "'{}' does not say which format is wanted; end it with one of {}",
            shown(path),
            known.join(", ")
        )
    }
}

/// Writes documents of a project, or says why not; nothing is written then.
pub(super) fn export(input: &Input, wanted: &Wanted, units: Option<Units>) -> Result<End> {
    let ending = Ending::of(&wanted.to)?;
    let what = what(ending, wanted.what)?;
    guard(&input.file, &wanted.to)?;
    let alter = |project: &mut hodful_takeoff::Project| {
        if let Some(units) = units {
            project.units = UnitSystem::from(units);
        }
        Ok(())
    };
    with_answer(input, alter, |assessed| {
        let files = files(assessed, &name_of(&input.file), &wanted.to, ending, what)?;
        // All are looked at before one is written.
        for (path, _) in &files {
            free(path, wanted.force)?;
        }
        for (path, bytes) in &files {
            file::save_bytes(path, bytes)?;
            say(&format!("wrote '{}'", shown(path)));
        }
        Ok(Answer::done(Vec::new()))
    })
}

/// What is written when nothing is said: one document where the format holds one, else all.
fn what(ending: Ending, asked: Option<What>) -> Result<What> {
    match (ending, asked) {
        (Ending::Csv, Some(What::All)) => bail!(
            "CSV holds one document; say which with --what order, dimensions, card, summary, comparison, chances or forecast, or write .xlsx"
        ),
        (Ending::Csv, None) => Ok(What::Order),
        (Ending::Svg, Some(What::Order | What::Card | What::Comparison | What::Forecast)) => bail!(
            "SVG holds drawings, and there are none in this; say --what dimensions, chances or summary, or write .pdf"
        ),
        (Ending::Json, Some(What::Summary)) => bail!(
            "a summary is for people; for a program say --what order, dimensions, card, comparison, chances, forecast or all"
        ),
        (_, asked) => Ok(asked.unwrap_or(What::All)),
    }
}

/// Keeps the project itself from being written over.
pub(super) fn guard(project: &Path, to: &Path) -> Result<()> {
    let same = match (project.canonicalize(), to.canonicalize()) {
        (Ok(project), Ok(to)) => project == to,
        _ => false,
    };
    let name = to
        .file_name()
        .map(|name| name.to_string_lossy().to_lowercase());
    if same || name.is_some_and(|name| name.ends_with(".hodful.json")) {
        bail!(
            "'{}' is the name of a project, and documents are not written over projects; give another",
            shown(to)
        );
    }
    Ok(())
}

/// Whether a path may be written.
pub(super) fn free(path: &Path, force: bool) -> Result<()> {
    // A link that leads nowhere is there too.
    if !force && path.symlink_metadata().is_ok() {
        bail!(
            "'{}' is there already and is left alone; --force writes over it",
            shown(path)
        );
    }
    Ok(())
}

/// The name of the project's file, without its folder.
pub(super) fn name_of(path: &Path) -> String {
    if path == Path::new("-") {
        return "standard input".to_owned();
    }
    path.file_name()
        .map_or_else(|| shown(path), |name| name.to_string_lossy().into_owned())
}

/// The day, as year-month-day, where the program runs; by the clock of Greenwich where that is not known.
fn today() -> String {
    let zone = TimeZone::try_system().unwrap_or(TimeZone::UTC);
    zone.to_datetime(Timestamp::now()).date().to_string()
}

/// The files to write.
fn files(
    of: &Assessed<'_>,
    from: &str,
    to: &Path,
    ending: Ending,
    what: What,
) -> Result<Vec<(PathBuf, Vec<u8>)>> {
    if ending == Ending::Json {
        return Ok(vec![(to.to_owned(), reports(of, what)?)]);
    }
    let rules = file::rules();
    let cautions = file::cautions();
    let rule = rules.get(&of.project.measurement_rule);
    let version = concat!("Hodful ", env!("CARGO_PKG_VERSION"));
    let foot = Foot::new(from, today(), version, rule, of.project.units);
    let facts = Facts {
        project: of.project,
        assessed: Some(of),
        problems: &of.doubts,
        cautions: &cautions,
        foot,
    };
    let documents = documents(&facts, of, what)?;
    let bytes = match ending {
        Ending::Svg => return drawings::files(of, &documents, what, to),
        Ending::Csv => spreadsheet::csv(&documents)?,
        Ending::Html => exchange::html(&documents)?.into_bytes(),
        Ending::Markdown => {
            let texts: Vec<String> = documents.iter().map(exchange::markdown).collect();
            texts.join("\n").into_bytes()
        }
        Ending::Pdf => exchange::pdf(&documents)?,
        Ending::Xlsx => exchange::xlsx(&facts, &behind(documents, what))?,
        Ending::Json => return Ok(Vec::new()),
    };
    Ok(vec![(to.to_owned(), bytes)])
}

/// The documents wanted, in the order in which they are handed over.
fn documents(facts: &Facts<'_>, of: &Assessed<'_>, what: What) -> Result<Vec<Document>> {
    let is_wanted = |one| what == one || what == What::All;
    let mut documents = Vec::new();
    if is_wanted(What::Summary) {
        documents.push(summary(facts));
    }
    if is_wanted(What::Order) {
        documents.push(order_list(facts, deliveries(facts)));
    }
    if is_wanted(What::Dimensions) {
        documents.push(dimension_sheet(facts));
    }
    match cards(of, None) {
        Ok(_) if is_wanted(What::Card) => documents.extend(batch_cards(facts)),
        Err(none) if what == What::Card => return Err(none),
        // A project without a mixer has its other documents.
        _ => {}
    }
    let has_options = !of.project.options.is_empty();
    if what == What::Comparison && !has_options {
        bail!("there is no option in the project, so there is nothing to compare");
    }
    if is_wanted(What::Comparison) && has_options {
        let all = Options::default();
        documents.push(with_options(of, &all, |beside| comparison(facts, beside))?);
    }
    if what == What::Chances || (what == What::All && is_said(of)) {
        documents.push(chances(facts, &usual(of)));
    }
    if what == What::Forecast || (what == What::All && !of.project.done.is_empty()) {
        documents.push(forecast(facts, &of.forecast()));
    }
    Ok(documents)
}

/// What stands behind the workbook, which has the surfaces and the materials in sheets of its own: with
/// everything wanted the order list, for its deliveries, comparison, chances and forecast, and the cards. One sheet holds all
/// cards.
fn behind(documents: Vec<Document>, what: What) -> Vec<Document> {
    let is_card = |document: &Document| document.paper == Paper::BatchCard;
    let (cards, mut others): (Vec<_>, Vec<_>) = documents.into_iter().partition(is_card);
    if what == What::All {
        others.retain(|document| {
            matches!(
                document.paper,
                Paper::Order | Paper::Comparison | Paper::Chances | Paper::Forecast
            )
        });
    }
    let joined = cards.into_iter().reduce(|mut joined, next| {
        joined.blocks.push(Block::Heading(next.title));
        joined.blocks.extend(next.blocks);
        joined
    });
    others.extend(joined);
    others
}

/// The figures for a program.
fn reports(of: &Assessed<'_>, what: What) -> Result<Vec<u8>> {
    let cards = || cards(of, None).map(|all| exchange::cards(&of.project.name, &all));
    let sure = || {
        let drawn = usual(of).map_err(|why| anyhow!("{why}"))?;
        anyhow::Ok(exchange::chances(of.project, &drawn))
    };
    let compared = || with_options(of, &Options::default(), exchange::compare);
    let bytes = match what {
        What::Order => exchange::json(&exchange::order(of))?,
        What::Dimensions => exchange::json(&exchange::measure(of))?,
        What::Card => exchange::json(&cards()?)?,
        What::Comparison if of.project.options.is_empty() => {
            bail!("there is no option in the project, so there is nothing to compare")
        }
        What::Comparison => exchange::json(&compared()?)?,
        What::Chances => exchange::json(&sure()?)?,
        What::Forecast => {
            let forecast = of.forecast().map_err(|why| anyhow!("{why}"))?;
            exchange::json(&exchange::forecast(of.project, &forecast))?
        }
        What::Summary | What::All => {
            let has_options = !of.project.options.is_empty();
            let forecast = (!of.project.done.is_empty()).then(|| of.forecast().ok());
            let forecast = forecast.flatten();
            let all = exchange::AllReport {
                format: "hodful-all",
                version: 1,
                measure: exchange::measure(of),
                order: exchange::order(of),
                cards: cards().ok(),
                comparison: has_options.then(compared).transpose()?,
                chances: is_said(of).then(|| sure().ok()).flatten(),
                forecast: forecast.map(|found| exchange::forecast(of.project, &found)),
            };
            exchange::json(&all)?
        }
    };
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ending_says_the_format_and_nothing_else_does() {
        for (word, ending) in Ending::ALL {
            for path in [format!("a.{word}"), format!("b/a.{}", word.to_uppercase())] {
                assert_eq!(Ending::of(Path::new(&path)).unwrap(), ending, "{path}");
            }
        }
        for path in ["a", "a.doc", "pdf", ".pdf", "a.pdf/"] {
            let told = Ending::of(Path::new(path)).map_err(|wrong| wrong.to_string());
            if path != "a.pdf/" {
                assert!(
                    told.unwrap_err().contains("end it with one of .csv"),
                    "{path}"
                );
            }
        }
    }

    #[test]
    fn csv_holds_one_document_and_svg_drawings() {
        assert_eq!(what(Ending::Csv, None).unwrap(), What::Order);
        assert_eq!(what(Ending::Pdf, None).unwrap(), What::All);
        assert!(what(Ending::Csv, Some(What::All)).is_err());
        assert!(what(Ending::Svg, Some(What::Card)).is_err());
    }
}
