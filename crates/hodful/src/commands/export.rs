//! `hodful export`: documents of a project into a file. Not here: what stands in a document, and formats.

pub(super) mod drawings;
mod ending;
mod figures;
mod spreadsheet;

use super::chances::{is_said, usual};
use super::compare::{Held, Wanted as Options, two_inputs, with_second};
use super::{Answer, End, cards, days, say, shown, with_answer};
use crate::args::{ExportOf, Input, Units, What};
use anyhow::{Result, anyhow, bail};
use ending::Ending;
use hodful_documents::{
    Block, Document, Facts, Foot, Paper, batch_cards, chances, comparison, comparison_of_projects,
    deliveries, dimension_sheet, forecast, order_list, summary, weekend_plan, work_plan,
};
use hodful_exchange as exchange;
use hodful_project_file as file;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::days::{Days, WeekendAhead};
use hodful_takeoff::project::Name;
use hodful_takeoff::{Assessed, Project};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::path::{Path, PathBuf};

/// Writes documents of a project, or says why not; nothing is written then.
pub(super) fn export(wanted: &ExportOf) -> Result<End> {
    let input = &wanted.input;
    let ending = Ending::of(&wanted.to)?;
    let what = what(ending, wanted.what)?;
    guard(&input.file, &wanted.to)?;
    let held = &wanted.held;
    if let Some(other) = &held.against {
        two_inputs(input, other)?;
    }
    if held.is_given() && !matches!(what, What::Comparison | What::All) {
        bail!("--base, --only and --against are for the comparison; say --what comparison");
    }
    with_answer(input, in_units(wanted.units), |assessed| {
        let days = planned(assessed, wanted, what)?;
        let written = |held: Held<'_>| {
            let job = Job {
                of: assessed,
                what,
                days: days.as_ref(),
                held,
            };
            write(&job.files(input, &wanted.to, ending)?, wanted.force)?;
            Ok(Answer::done(Vec::new()))
        };
        if let Some(other) = &held.against {
            return with_second(input, other, |second| written(Held::Project(second)));
        }
        written(Held::Options(Options {
            base: held.base.as_deref(),
            only: &held.only,
        }))
    })
}

/// Writes the days that were planned to a file, in the format that its ending says.
pub(super) fn export_days(
    of: &Assessed<'_>,
    input: &Input,
    days: &Planned,
    to: &Path,
    force: bool,
) -> Result<()> {
    let job = Job {
        of,
        what: What::Plan,
        days: Some(days),
        held: Held::Options(Options::default()),
    };
    write(&job.files(input, to, Ending::of(to)?)?, force)
}

/// Whether days can be written to a path: its ending says a format, and it is no project.
pub(super) fn can_hold_days(project: &Path, to: &Path) -> Result<()> {
    Ending::of(to)?;
    guard(project, to)
}

/// Puts a project into other units.
pub(super) fn in_units(units: Option<Units>) -> impl FnOnce(&mut Project) -> Result<()> {
    move |project| {
        if let Some(units) = units {
            project.units = UnitSystem::from(units);
        }
        Ok(())
    }
}

/// Writes files; none of them when one is there already.
fn write(files: &[(PathBuf, Vec<u8>)], force: bool) -> Result<()> {
    for (path, _) in files {
        free(path, force)?;
    }
    for (path, bytes) in files {
        file::save_bytes(path, bytes)?;
        say(&format!("wrote '{}'", shown(path)));
    }
    Ok(())
}

/// The days on site, when they are wanted: asked for, or with everything when the project says when the work begins.
///
/// # Errors
/// When they are asked for and cannot be planned, when the weather cannot be read, or when weather is given for what
/// has nothing to do with it.
fn planned(of: &Assessed<'_>, wanted: &ExportOf, what: What) -> Result<Option<Planned>> {
    let is_given = wanted.from.weather.is_some() || wanted.from.begins.is_some();
    let begins = of
        .project
        .work
        .as_ref()
        .is_some_and(|work| work.begins.is_some());
    match what {
        What::Plan => {
            let days = days::find(of, &wanted.input, &wanted.from)?;
            let days = days.map_err(|why| anyhow!("{why}"))?;
            Ok(Some(Planned::All(Box::new(Ok(days)))))
        }
        What::All if begins || is_given => {
            let days = days::find(of, &wanted.input, &wanted.from)?;
            Ok(Some(Planned::All(Box::new(days))))
        }
        What::All => Ok(None),
        _ if is_given => bail!("--weather and --begins are for the work plan; say --what plan"),
        _ => Ok(None),
    }
}

/// What is written when nothing is said: one document where the format holds one, else all.
fn what(ending: Ending, asked: Option<What>) -> Result<What> {
    match (ending, asked) {
        (Ending::Csv, Some(What::All)) => bail!(
            "CSV holds one document; say which with --what order, dimensions, card, summary, comparison, chances, forecast or plan, or write .xlsx"
        ),
        (Ending::Csv, None) => Ok(What::Order),
        (Ending::Calendar, None) => Ok(What::Plan),
        (Ending::Calendar, Some(other)) if other != What::Plan => {
            bail!("a calendar holds the work plan alone; say --what plan, or write .pdf")
        }
        (Ending::Svg, Some(What::Order | What::Card | What::Comparison | What::Forecast)) => bail!(
            "SVG holds drawings, and there are none in this; say --what dimensions, chances, plan or summary, or write .pdf"
        ),
        (Ending::Json, Some(What::Summary)) => bail!(
            "a summary is for people; for a program say --what order, dimensions, card, comparison, chances, forecast, plan or all"
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

/// What documents are made from.
struct Job<'a> {
    of: &'a Assessed<'a>,
    what: What,
    /// The days on site, where they are wanted.
    days: Option<&'a Planned>,
    /// What the comparison holds it against.
    held: Held<'a>,
}

/// The days that are written.
#[derive(Debug)]
pub(super) enum Planned {
    /// All of them, or why they cannot be planned.
    All(Box<Result<Days, Name>>),
    /// A few with helpers.
    Weekend(Box<WeekendAhead>),
}

impl Planned {
    /// The days, where they could be planned.
    fn days(&self) -> Option<&Days> {
        match self {
            Self::All(days) => days.as_ref().as_ref().ok(),
            Self::Weekend(of) => Some(&of.days),
        }
    }

    /// As a calendar, where they could be planned.
    fn calendar(&self, project: &Project) -> Option<String> {
        let now = Timestamp::now();
        match self {
            Self::All(_) => Some(exchange::days_calendar(project, self.days()?, now)),
            Self::Weekend(of) => Some(exchange::weekend_calendar(project, of, now)),
        }
    }

    fn document(&self, facts: &Facts<'_>) -> Document {
        match self {
            Self::All(days) => work_plan(facts, days),
            Self::Weekend(of) => weekend_plan(facts, of),
        }
    }
}

impl Job<'_> {
    /// Whether there is something to compare.
    ///
    /// # Errors
    /// When the comparison is asked for, and there is nothing.
    fn is_compared(&self) -> Result<bool> {
        let is_there = match self.held {
            Held::Project(_) => true,
            // An option that is named and not there is told as such.
            Held::Options(Options { base, only }) => {
                base.is_some() || !only.is_empty() || !self.of.project.options.is_empty()
            }
        };
        if self.what == What::Comparison && !is_there {
            bail!("there is no option in the project, so there is nothing to compare");
        }
        Ok(is_there)
    }

    /// The files to write.
    fn files(&self, input: &Input, to: &Path, ending: Ending) -> Result<Vec<(PathBuf, Vec<u8>)>> {
        let Self { of, what, days, .. } = *self;
        let rules = file::rules();
        let cautions = file::cautions();
        let rule = rules.get(&of.project.measurement_rule);
        let version = concat!("Hodful ", env!("CARGO_PKG_VERSION"));
        let foot = Foot::new(
            name_of(&input.file),
            today(),
            version,
            rule,
            of.project.units,
        );
        let facts = Facts {
            project: of.project,
            assessed: Some(of),
            problems: &of.doubts,
            cautions: &cautions,
            foot,
        };
        let documents = || self.documents(&facts);
        let bytes = match ending {
            Ending::Json => figures::json(self)?,
            Ending::Calendar => days
                .and_then(|days| days.calendar(of.project))
                .unwrap_or_default()
                .into_bytes(),
            Ending::Svg => return drawings::files(of, &documents()?, what, to),
            Ending::Csv => spreadsheet::csv(&documents()?)?,
            Ending::Html => exchange::html(&documents()?)?.into_bytes(),
            Ending::Markdown => {
                let documents = documents()?;
                let texts: Vec<String> = documents.iter().map(exchange::markdown).collect();
                texts.join("\n").into_bytes()
            }
            Ending::Pdf => exchange::pdf(&documents()?)?,
            Ending::Xlsx => exchange::xlsx(&facts, &behind(documents()?, what))?,
        };
        Ok(vec![(to.to_owned(), bytes)])
    }

    /// The documents wanted, in the order in which they are handed over.
    fn documents(&self, facts: &Facts<'_>) -> Result<Vec<Document>> {
        let Self {
            of,
            what,
            days,
            held,
        } = *self;
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
        if is_wanted(What::Comparison) && self.is_compared()? {
            let lay_out = match held {
                Held::Options(_) => comparison,
                Held::Project(_) => comparison_of_projects,
            };
            documents.push(held.with(of, |beside| lay_out(facts, beside))?);
        }
        if what == What::Chances || (what == What::All && is_said(of)) {
            documents.push(chances(facts, &usual(of)));
        }
        if what == What::Forecast || (what == What::All && !of.project.done.is_empty()) {
            documents.push(forecast(facts, &of.forecast()));
        }
        documents.extend(days.map(|days| days.document(facts)));
        Ok(documents)
    }
}

/// What stands behind the workbook, which has the surfaces and the materials in sheets of its own: with
/// everything wanted the order list, for its deliveries, comparison, chances, forecast and work plan, and the
/// cards. One sheet holds all cards.
fn behind(documents: Vec<Document>, what: What) -> Vec<Document> {
    let is_card = |document: &Document| document.paper == Paper::BatchCard;
    let (cards, mut others): (Vec<_>, Vec<_>) = documents.into_iter().partition(is_card);
    if what == What::All {
        others.retain(|document| {
            matches!(
                document.paper,
                Paper::Order
                    | Paper::Comparison
                    | Paper::Chances
                    | Paper::Forecast
                    | Paper::WorkPlan
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn csv_holds_one_document_and_svg_drawings() {
        assert_eq!(what(Ending::Csv, None).unwrap(), What::Order);
        assert_eq!(what(Ending::Pdf, None).unwrap(), What::All);
        assert!(what(Ending::Csv, Some(What::All)).is_err());
        assert!(what(Ending::Svg, Some(What::Card)).is_err());
    }
}
