//! The sheet of what each coat takes of each material, dry and screened. Not here: what is delivered.

use super::book::{Book, Sheet};
use super::coats::{self, CoatRow};
use super::units::Units;
use crate::fault::PaperFault;
use hodful_quantities::Typed;
use hodful_quantities::mix::{Quantity, WATER_DENSITY};
use hodful_quantities::units::{MassDensity, kilogram_per_cubic_meter, ratio};
use hodful_takeoff::Assessed;
use hodful_takeoff::project::{Dose, DosePer, MaterialKind, Mix};

/// The name of the sheet.
pub(super) const NAME: &str = "Takes";

/// The rows of the sheet, as a formula names them.
pub(super) struct Takes {
    pub(super) first: u32,
    pub(super) last: u32,
}

/// Writes it.
pub(super) fn sheet(
    book: &mut Book,
    of: &Assessed<'_>,
    coats: &[CoatRow<'_>],
) -> Result<Takes, PaperFault> {
    let units = book.units;
    let (volume, mass) = (units.volume_word(), units.mass_word());
    let density = units.density_word();
    let mut sheet = book.sheet(NAME)?;
    sheet.head(
        0,
        &[
            "Build-up".into(),
            "Coat".into(),
            "Material no.".into(),
            "Material".into(),
            format!("Mixed {volume}"),
            "Yield".into(),
            "Parts".into(),
            "All parts".into(),
            format!("Dose {density}"),
            format!("Loose, dry {volume}"),
            format!("Loose density {density}"),
            format!("Weight, dry {mass}"),
            "Moisture".into(),
            format!("Water in it {mass}"),
        ],
    )?;
    let mut rows = Rows {
        sheet,
        units,
        of,
        row: 1,
    };
    for coat in coats {
        rows.coat(coat)?;
    }
    let last = rows.row.max(2);
    rows.sheet.end("What each coat takes", units.us_paper())?;
    Ok(Takes { first: 2, last })
}

struct Rows<'b, 'a> {
    sheet: Sheet<'b>,
    units: Units,
    of: &'a Assessed<'a>,
    row: u32,
}

impl Rows<'_, '_> {
    fn coat(&mut self, coat: &CoatRow<'_>) -> Result<(), PaperFault> {
        let project = self.of.project;
        let found = project.build_ups.get_index(coat.build_up);
        let found = found.and_then(|(name, coats)| Some((name, coats.get(coat.coat)?)));
        let Some((build_up, typed)) = found else {
            return Ok(());
        };
        let Some((mix_at, _, mix)) = project.mixes.get_full(&typed.mix) else {
            return Ok(());
        };
        let yielded = self.of.checked.yield_of(mix_at);
        let yielded = yielded.map_or(0.0, |of| of.value.get::<ratio>());
        let sum: f64 = mix.parts.values().map(|parts| parts.value().get()).sum();
        let names = (build_up.as_str(), typed.coat.as_str());
        let first = self.row + 1;
        for (material, parts) in &mix.parts {
            let parts = parts.value().get();
            self.one(coat, names, material, yielded, Taken::Parts(parts, sum))?;
        }
        let minerals = self.row;
        for dose in mix.fibre.iter().chain(&mix.binder) {
            self.one(coat, names, &dose.material, yielded, dosed(dose, sum))?;
        }
        self.water(coat, names, mix, [first, minerals])
    }

    /// Who takes what: the first cells of a row. Nothing when the coat takes none of it.
    fn begin(
        &mut self,
        coat: &CoatRow<'_>,
        names: (&str, &str),
        material: usize,
        yielded: Option<f64>,
    ) -> Result<Option<Quantity>, PaperFault> {
        let uses = self.of.evaluation.materials.get(material).map(|m| &m.uses);
        let used = uses
            .into_iter()
            .flatten()
            .find(|used| used.build_up == coat.build_up && used.coat == coat.coat);
        let named = self.of.project.materials.get_index(material);
        let (Some(used), Some((name, _))) = (used, named) else {
            return Ok(None);
        };
        let row = self.row;
        self.sheet.text(row, 0, names.0)?;
        self.sheet.text(row, 1, names.1)?;
        #[allow(clippy::cast_precision_loss, reason = "materials of a project")]
        self.sheet.number(row, 2, (material + 1) as f64, 0)?;
        self.sheet.text(row, 3, name)?;
        let mixed = self.units.volume(coat.figures.volume.mixed);
        let from = format!("={}!O{}", coats::NAME, coat.row);
        self.sheet
            .formula(row, 4, &from, mixed, self.units.volume_decimals())?;
        if let Some(yielded) = yielded {
            self.sheet.typed(row, 5, yielded, 4)?;
        }
        Ok(Some(used.dry))
    }

    fn one(
        &mut self,
        coat: &CoatRow<'_>,
        names: (&str, &str),
        material: &str,
        yielded: f64,
        takes: Taken,
    ) -> Result<(), PaperFault> {
        let Some((at, _, typed)) = self.of.project.materials.get_full(material) else {
            return Ok(());
        };
        let Some(dry) = self.begin(coat, names, at, Some(yielded))? else {
            return Ok(());
        };
        let (row, r) = (self.row, self.row + 1);
        let density = typed.loose_density.as_ref().map(Typed::value);
        if let Some(density) = density {
            self.sheet.typed(row, 10, self.units.density(density), 1)?;
        }
        let loose = dry.loose.map(|v| self.units.volume(v));
        let mass = dry.mass.map(|m| self.units.mass(m));
        let volumes = self.units.volume_decimals();
        match takes {
            Taken::Parts(parts, sum) => {
                self.sheet.typed(row, 6, parts, 3)?;
                self.sheet.number(row, 7, sum, 3)?;
                if let Some(loose) = loose {
                    self.sheet
                        .formula(row, 9, &format!("=E{r}/F{r}*G{r}/H{r}"), loose, volumes)?;
                }
                if let Some(mass) = mass {
                    self.sheet
                        .formula(row, 11, &format!("=J{r}*K{r}"), mass, 1)?;
                }
            }
            Taken::Dose(dose, per) => {
                self.sheet.typed(row, 8, self.units.density(dose), 2)?;
                if let Some(mass) = mass {
                    let formula = match per {
                        DosePer::Mixed => format!("=E{r}*I{r}"),
                        DosePer::Loose => format!("=E{r}/F{r}*I{r}"),
                    };
                    self.sheet.formula(row, 11, &formula, mass, 1)?;
                }
                if let Some(loose) = loose {
                    self.sheet
                        .formula(row, 9, &format!("=L{r}/K{r}"), loose, volumes)?;
                }
            }
        }
        let moisture = self.of.checked.delivery_of(at);
        let moisture = moisture.map_or(0.0, |of| of.moisture.get::<ratio>());
        self.sheet.share(row, 12, moisture)?;
        if let Some(mass) = mass {
            self.sheet
                .formula(row, 13, &format!("=L{r}*M{r}"), mass * moisture, 1)?;
        }
        self.row += 1;
        Ok(())
    }

    /// Water to add: that of the mix on the dry minerals, less what all of it brings.
    fn water(
        &mut self,
        coat: &CoatRow<'_>,
        names: (&str, &str),
        mix: &Mix,
        [first, minerals]: [u32; 2],
    ) -> Result<(), PaperFault> {
        let mut kinds = self.of.project.materials.values();
        let at = kinds.position(|m| m.kind == MaterialKind::Water);
        let (Some(at), Some(water)) = (at, &mix.water) else {
            return Ok(());
        };
        let all = self.row;
        let Some(dry) = self.begin(coat, names, at, None)? else {
            return Ok(());
        };
        let (row, r) = (self.row, self.row + 1);
        self.sheet.share(row, 8, water.value().get::<ratio>())?;
        let density = MassDensity::new::<kilogram_per_cubic_meter>(WATER_DENSITY);
        self.sheet.number(row, 10, self.units.density(density), 1)?;
        if let Some(mass) = dry.mass {
            let formula = format!("=MAX(0,I{r}*SUM(L{first}:L{minerals})-SUM(N{first}:N{all}))");
            self.sheet
                .formula(row, 11, &formula, self.units.mass(mass), 1)?;
        }
        if let Some(loose) = dry.loose {
            let decimals = self.units.volume_decimals();
            let loose = self.units.volume(loose);
            self.sheet
                .formula(row, 9, &format!("=L{r}/K{r}"), loose, decimals)?;
        }
        self.row += 1;
        Ok(())
    }
}

/// How a mix takes a material.
#[derive(Clone, Copy)]
enum Taken {
    /// Parts of all parts.
    Parts(f64, f64),
    /// A dose.
    Dose(MassDensity, DosePer),
}

fn dosed(dose: &Dose, sum: f64) -> Taken {
    match (&dose.dose, &dose.parts) {
        (Some(density), _) => Taken::Dose(density.value(), dose.per.unwrap_or(DosePer::Mixed)),
        (None, parts) => Taken::Parts(parts.as_ref().map_or(0.0, |p| p.value().get()), sum),
    }
}
