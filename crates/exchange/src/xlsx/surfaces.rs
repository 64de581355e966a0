//! The sheet of surfaces: every plastered face, its count, its build-up. Not here: coats.

use super::book::Book;
use crate::fault::PaperFault;
use hodful_takeoff::Assessed;

/// The name of the sheet.
pub(super) const NAME: &str = "Surfaces";

/// Where the surfaces of a build-up stand: by the number of the build-up in one column, summed over the
/// rows of faces.
pub(super) struct Grounds {
    pub(super) first: u32,
    pub(super) last: u32,
}

const COLUMNS: [&str; 17] = [
    "Wall",
    "Sheet",
    "Face",
    "Count",
    "Build-up no.",
    "Build-up",
    "Outline",
    "Openings",
    "Rounded strips",
    "Field",
    "Reveals",
    "Rounded edges",
    "True surface",
    "Growth",
    "All: surface",
    "All: growth",
    "Measured, each",
];

/// Writes it.
pub(super) fn sheet(book: &mut Book, of: &Assessed<'_>) -> Result<Grounds, PaperFault> {
    let units = book.units;
    let mut sheet = book.sheet(NAME)?;
    let heads: Vec<String> = (0_usize..)
        .zip(COLUMNS)
        .map(|(at, head)| match at {
            6..=12 | 14 | 16 => format!("{head} {}", units.area_word()),
            13 | 15 => format!("{head} {}", units.length_word()),
            _ => head.to_owned(),
        })
        .collect();
    sheet.head(0, &heads)?;
    let decimals = units.area_decimals();
    let mut row = 1;
    let mut all = 0.0;
    for (wall, side, count, figures) in of.faces() {
        let r = row + 1;
        let face = wall.face(side);
        let build_up = face.map(|face| face.build_up.as_str()).unwrap_or_default();
        let number = of.project.build_ups.get_index_of(build_up);
        sheet.text(row, 0, &wall.id)?;
        sheet.text(row, 1, wall.sheet.as_deref().unwrap_or_default())?;
        sheet.text(row, 2, side.word())?;
        sheet.typed(row, 3, f64::from(count), 0)?;
        #[allow(clippy::cast_precision_loss, reason = "at most 65 535 build-ups")]
        sheet.number(row, 4, number.map_or(0.0, |at| (at + 1) as f64), 0)?;
        sheet.text(row, 5, build_up)?;
        let m = &figures.measure;
        for (column, mm2) in [(6, m.outline), (7, m.openings), (8, m.strips)] {
            sheet.number(row, column, units.area_of_mm2(mm2), decimals)?;
        }
        let area = |mm2: f64| units.area_of_mm2(mm2);
        sheet.formula(row, 9, &format!("=G{r}-H{r}-I{r}"), area(m.field), decimals)?;
        sheet.number(row, 10, area(m.reveals), decimals)?;
        sheet.number(row, 11, area(m.edges), decimals)?;
        let whole = m.true_surface();
        sheet.formula(row, 12, &format!("=J{r}+K{r}+L{r}"), area(whole), decimals)?;
        sheet.number(row, 13, units.length_of_mm(m.growth), 2)?;
        let times = f64::from(count);
        let sum = area(whole) * times;
        sheet.formula(row, 14, &format!("=D{r}*M{r}"), sum, decimals)?;
        let grown = units.length_of_mm(m.growth) * times;
        sheet.formula(row, 15, &format!("=D{r}*N{r}"), grown, 2)?;
        sheet.number(row, 16, area(figures.measured), decimals)?;
        all += sum;
        row += 1;
    }
    let last = row.max(2);
    if row > 1 {
        sheet.bold(row, 0, "All")?;
        sheet.total(row, 14, &format!("=SUM(O2:O{last})"), all, decimals)?;
    }
    sheet.end("Surfaces", units.us_paper())?;
    Ok(Grounds { first: 2, last })
}
