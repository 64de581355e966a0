//! The sheet of the order: each material as delivered, less the yard, in packages with their price. Not
//! here: choosing the packages.

use super::book::{Book, Sheet};
use super::takes::{self, Takes};
use super::units::Units;
use crate::fault::PaperFault;
use hodful_quantities::order::Holds;
use hodful_quantities::tolerance::COUNT_SLACK;
use hodful_quantities::units::ratio;
use hodful_takeoff::project::{Material, Package};
use hodful_takeoff::{Assessed, MaterialFigures};
use std::iter::zip;

const NAME: &str = "Order";

/// Writes it.
pub(super) fn sheet(book: &mut Book, of: &Assessed<'_>, takes: &Takes) -> Result<(), PaperFault> {
    let units = book.units;
    let (volume, mass) = (units.volume_word(), units.mass_word());
    let mut sheet = book.sheet(NAME)?;
    sheet.head(
        0,
        &[
            "Material no.".into(),
            "Material".into(),
            format!("Dry, loose {volume}"),
            format!("Dry {mass}"),
            "Screen reject".into(),
            "Lost lying".into(),
            "Bulking".into(),
            "Moisture".into(),
            format!("Delivered, loose {volume}"),
            format!("Delivered {mass}"),
            format!("In the yard {volume}"),
            format!("In the yard {mass}"),
            format!("To buy {volume}"),
            format!("To buy {mass}"),
            "Package".into(),
            format!("One holds {volume}"),
            format!("One holds {mass}"),
            "Packages".into(),
            "Each".into(),
            "Price".into(),
        ],
    )?;
    let mut rows = Rows {
        sheet,
        units,
        of,
        takes,
        row: 1,
    };
    for (at, (name, material)) in of.project.materials.iter().enumerate() {
        let figures = of.evaluation.materials.get(at);
        if let Some(figures) = figures.filter(|figures| !figures.uses.is_empty()) {
            rows.material(at, name, material, figures)?;
        }
    }
    let (row, last) = (rows.row, rows.row.max(2));
    rows.sheet.bold(row, 1, "All packages that have a price")?;
    let cost = plain(of.evaluation.cost);
    rows.sheet
        .total(row, 19, &format!("=SUM(T2:T{last})"), cost, 2)?;
    rows.sheet.end("Order", units.us_paper())
}

struct Rows<'b, 'a> {
    sheet: Sheet<'b>,
    units: Units,
    of: &'a Assessed<'a>,
    takes: &'a Takes,
    row: u32,
}

/// Money as a number of the sheet.
fn plain(of: hodful_quantities::read::Money) -> f64 {
    of.amount().to_string().parse().unwrap_or_default()
}

impl Rows<'_, '_> {
    fn material(
        &mut self,
        at: usize,
        name: &str,
        material: &Material,
        figures: &MaterialFigures,
    ) -> Result<(), PaperFault> {
        let (row, r) = (self.row, self.row + 1);
        let volumes = self.units.volume_decimals();
        #[allow(clippy::cast_precision_loss, reason = "materials of a project")]
        self.sheet.number(row, 0, (at + 1) as f64, 0)?;
        self.sheet.text(row, 1, name)?;
        let sum = |column: &str| {
            let (first, last, name) = (self.takes.first, self.takes.last, takes::NAME);
            format!(
                "=SUMIF({name}!$C${first}:$C${last},$A{r},{name}!${column}${first}:${column}${last})"
            )
        };
        let (loose, mass) = (sum("J"), sum("L"));
        let dry = figures.dry;
        if let Some(value) = dry.loose {
            self.sheet
                .formula(row, 2, &loose, self.units.volume(value), volumes)?;
        }
        if let Some(value) = dry.mass {
            self.sheet
                .formula(row, 3, &mass, self.units.mass(value), 1)?;
        }
        let delivery = self.of.checked.delivery_of(at).copied().unwrap_or_default();
        for (column, share) in [
            (4, delivery.reject.get()),
            (5, delivery.keeping_loss.get()),
            (6, delivery.bulking.get::<ratio>()),
            (7, delivery.moisture.get::<ratio>()),
        ] {
            self.sheet.share(row, column, share)?;
        }
        let delivered = figures.delivered;
        let rest = format!("/(1-E{r})/(1-F{r})");
        if let Some(value) = delivered.loose {
            let value = self.units.volume(value);
            self.sheet
                .formula(row, 8, &format!("=C{r}{rest}*(1+G{r})"), value, volumes)?;
        }
        if let Some(value) = delivered.mass {
            let value = self.units.mass(value);
            self.sheet
                .formula(row, 9, &format!("=D{r}{rest}*(1+H{r})"), value, 1)?;
        }
        if let Some(value) = figures.stock.loose {
            self.sheet
                .typed(row, 10, self.units.volume(value), volumes)?;
        }
        if let Some(value) = figures.stock.mass {
            self.sheet.typed(row, 11, self.units.mass(value), 1)?;
        }
        if let Some(value) = figures.to_buy.loose {
            let value = self.units.volume(value);
            self.sheet
                .formula(row, 12, &format!("=MAX(0,I{r}-K{r})"), value, volumes)?;
        }
        if let Some(value) = figures.to_buy.mass {
            let value = self.units.mass(value);
            self.sheet
                .formula(row, 13, &format!("=MAX(0,J{r}-L{r})"), value, 1)?;
        }
        self.packages(r, material, figures)
    }

    /// A row for each kind of package. The last one covers what the others leave, by a formula; how many
    /// there are of the others was chosen by the program. Where nothing is to be bought the first package
    /// stands there with its formula, for a need that grows.
    fn packages(
        &mut self,
        need: u32,
        material: &Material,
        figures: &MaterialFigures,
    ) -> Result<(), PaperFault> {
        let counts = figures.cover.iter().flat_map(|cover| &cover.counts);
        let mut bought: Vec<(&Package, u64)> = counts
            .filter_map(|(at, count)| Some((material.packages.get(*at)?, *count)))
            .collect();
        if bought.is_empty() && figures.cover.is_some() {
            let first = material.packages.iter().find(|package| {
                match Holds::from_amount(&package.holds.value()) {
                    Some(Holds::Volume(_)) => figures.to_buy.loose.is_some(),
                    Some(Holds::Mass(_)) => figures.to_buy.mass.is_some(),
                    None => false,
                }
            });
            bought.extend(first.map(|package| (package, 0)));
        }
        let first = self.row;
        for (turn, (package, count)) in zip(0_u32.., &bought) {
            let (row, r) = (first + turn, first + turn + 1);
            self.sheet.text(row, 14, &package.name)?;
            let (holds, column, to_buy) = match Holds::from_amount(&package.holds.value()) {
                Some(Holds::Volume(volume)) => (self.units.volume(volume), "P", "M"),
                Some(Holds::Mass(mass)) => (self.units.mass(mass), "Q", "N"),
                None => continue,
            };
            self.sheet
                .typed(row, if column == "P" { 15 } else { 16 }, holds, 3)?;
            #[allow(clippy::cast_precision_loss, reason = "counts stay below 2^53")]
            let count = *count as f64;
            let is_last = usize::try_from(turn).is_ok_and(|turn| turn + 1 == bought.len());
            let same = bought.iter().all(|(other, _)| {
                let by = Holds::from_amount(&other.holds.value());
                matches!(by, Some(Holds::Volume(_))) == (column == "P")
            });
            if is_last && (turn == 0 || same) {
                let others = (0..turn).map(|before| {
                    let b = first + before + 1;
                    format!("-R{b}*{column}{b}")
                });
                let rest: String = others.collect();
                let formula = format!(
                    "=MAX(0,ROUNDUP(({to_buy}{need}{rest})/{column}{r}*(1-{COUNT_SLACK:?}),0))"
                );
                self.sheet.formula(row, 17, &formula, count, 0)?;
            } else {
                self.sheet.typed(row, 17, count, 0)?;
            }
            if let Some(price) = &package.price {
                let each = plain(price.value());
                self.sheet.typed(row, 18, each, 2)?;
                self.sheet
                    .formula(row, 19, &format!("=R{r}*S{r}"), each * count, 2)?;
            }
        }
        self.row += u32::try_from(bought.len().max(1)).unwrap_or(1);
        Ok(())
    }
}
