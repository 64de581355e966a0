//! The sheet of coats: from the surface to what is mixed, and batches. Not here: what a coat takes.

use super::book::Book;
use super::surfaces::{self, Grounds};
use super::units::Units;
use crate::fault::PaperFault;
use hodful_quantities::tolerance::COUNT_SLACK;
use hodful_quantities::units::Volume;
use hodful_takeoff::{Assessed, CoatFigures};
use std::iter::zip;

/// The name of the sheet.
pub(super) const NAME: &str = "Coats";

/// A coat that stands in the sheet.
pub(super) struct CoatRow<'a> {
    pub(super) build_up: usize,
    pub(super) coat: usize,
    pub(super) figures: &'a CoatFigures,
    /// The row, as a formula names it.
    pub(super) row: u32,
}

fn heads(units: Units) -> [String; 18] {
    let (thickness, area) = (units.thickness_word(), units.area_word());
    let (length, volume) = (units.length_word(), units.volume_word());
    [
        "Build-up no.".into(),
        "Build-up".into(),
        "Coat".into(),
        "Mix".into(),
        format!("Thickness {thickness}"),
        format!("Starts at {thickness}"),
        format!("Surface {area}"),
        format!("Growth {length}"),
        format!("Layer {volume}"),
        format!("Dubbing out, lath, pockets, coves {volume}"),
        format!("Placed {volume}"),
        "Shrinkage".into(),
        format!("Wet {volume}"),
        "Loss".into(),
        format!("Mixed {volume}"),
        format!("One batch {volume}"),
        "Batches, exact".into(),
        "Batches".into(),
    ]
}

/// Writes it. Gives the coats in the order in which they stand there.
pub(super) fn sheet<'a>(
    book: &mut Book,
    of: &'a Assessed<'_>,
    grounds: &Grounds,
) -> Result<Vec<CoatRow<'a>>, PaperFault> {
    let units = book.units;
    let mut sheet = book.sheet(NAME)?;
    sheet.head(0, &heads(units))?;
    let per = units.per_length();
    let decimals = units.volume_decimals();
    let sum = |column: &str, r: u32| {
        let (first, last, name) = (grounds.first, grounds.last, surfaces::NAME);
        format!(
            "=SUMIF({name}!$E${first}:$E${last},$A{r},{name}!${column}${first}:${column}${last})"
        )
    };
    let value = |of: Volume| units.volume(of);
    let working = of.checked.mixer().map(|mixer| mixer.working_volume);
    let mut rows = Vec::new();
    let mut row = 1;
    let all = zip(&of.project.build_ups, &of.evaluation.coats).enumerate();
    for (build_up, ((name, coats), figures)) in all {
        let mut before = false;
        for (at, (coat, figures)) in zip(coats, figures).enumerate() {
            let Some(figures) = figures.as_ref().filter(|f| f.volume.placed.value > 0.0) else {
                continue;
            };
            let r = row + 1;
            let (shrinkage, loss) = of.checked.losses_of(build_up, at).unwrap_or_default();
            #[allow(clippy::cast_precision_loss, reason = "at most 65 535 build-ups")]
            sheet.number(row, 0, (build_up + 1) as f64, 0)?;
            sheet.text(row, 1, name)?;
            sheet.text(row, 2, &coat.coat)?;
            sheet.text(row, 3, &coat.mix)?;
            sheet.typed(row, 4, units.thickness(figures.thickness), 3)?;
            let from = units.thickness(figures.from);
            if before {
                let above = r - 1;
                sheet.formula(row, 5, &format!("=F{above}+E{above}"), from, 3)?;
            } else {
                sheet.number(row, 5, from, 3)?;
            }
            let ground = figures.surface;
            let surface = units.area(ground.area);
            sheet.formula(row, 6, &sum("O", r), surface, units.area_decimals())?;
            let growth = units.length_of_mm(ground.growth.value);
            sheet.formula(row, 7, &sum("P", r), growth, 2)?;
            let layer = format!("=E{r}/{per}*(G{r}+H{r}*(2*F{r}+E{r})/{per}/2)");
            sheet.formula(row, 8, &layer, value(figures.layer), decimals)?;
            sheet.number(row, 9, value(figures.first.total()), decimals)?;
            let volume = &figures.volume;
            sheet.formula(
                row,
                10,
                &format!("=I{r}+J{r}"),
                value(volume.placed),
                decimals,
            )?;
            sheet.share(row, 11, shrinkage.get())?;
            let wet = value(volume.wet);
            sheet.formula(row, 12, &format!("=K{r}/(1-L{r})"), wet, decimals)?;
            sheet.share(row, 13, loss.get())?;
            let mixed = value(volume.mixed);
            sheet.formula(row, 14, &format!("=M{r}/(1-N{r})"), mixed, decimals)?;
            if let (Some(working), Some(batches)) = (working, &figures.batches) {
                sheet.typed(row, 15, value(working), decimals)?;
                sheet.formula(row, 16, &format!("=O{r}/P{r}"), batches.exact, 2)?;
                let up = format!("=ROUNDUP(Q{r}*(1-{COUNT_SLACK:?}),0)");
                #[allow(clippy::cast_precision_loss, reason = "counts stay below 2^53")]
                sheet.formula(row, 17, &up, batches.loads as f64, 0)?;
            }
            rows.push(CoatRow {
                build_up,
                coat: at,
                figures,
                row: r,
            });
            before = true;
            row += 1;
        }
    }
    sheet.end("Coats", units.us_paper())?;
    Ok(rows)
}
