//! The lines of a comparison: which figures there are, and the value of each. Not here: differences.

use super::One;
use crate::evaluate::{CoatFigures, MaterialFigures};
use crate::figure::Dimension;
use crate::headline::{batches, coats, cost};
use crate::project::Name;

/// One figure of a project, known by names, so that it is found again in another project.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Line {
    /// True surface of all faces.
    Surface,
    /// Quantity measured for payment.
    Payment,
    /// Plaster of a coat on the walls.
    Placed {
        /// The build-up.
        build_up: Name,
        /// The coat.
        coat: Name,
    },
    /// Plaster of a coat as mixed.
    Mixed {
        /// The build-up.
        build_up: Name,
        /// The coat.
        coat: Name,
    },
    /// Plaster of all coats on the walls.
    AllPlaced,
    /// Plaster of all coats as mixed.
    AllMixed,
    /// A material as delivered, loose.
    Loose(Name),
    /// A material as delivered, by mass.
    Mass(Name),
    /// Packages of a material.
    Packages(Name),
    /// Loads of the mixer.
    Batches,
    /// Trips of the suppliers, where they were planned.
    Trips,
    /// Price of all packages that have one.
    Cost,
    /// Price of goods and deliveries, where they were planned.
    Bought,
}

impl Line {
    /// What it measures.
    pub fn dimension(&self) -> Dimension {
        match self {
            Self::Surface | Self::Payment => Dimension::Area,
            Self::Placed { .. }
            | Self::Mixed { .. }
            | Self::AllPlaced
            | Self::AllMixed
            | Self::Loose(_) => Dimension::Volume,
            Self::Mass(_) => Dimension::Mass,
            Self::Packages(_) | Self::Batches | Self::Trips => Dimension::Count,
            Self::Cost | Self::Bought => Dimension::Money,
        }
    }

    /// Its value in base units: mm², mm³, kg, a count, money; `None` where it is not there or cannot be
    /// told.
    pub fn value(&self, of: &One<'_>) -> Option<f64> {
        let totals = &of.evaluation.totals;
        let told = match self {
            Self::Surface => Some(totals.measure.true_surface()),
            Self::Payment => Some(totals.measured),
            Self::Placed { build_up, coat } => {
                Some(coat_of(of, build_up, coat)?.volume.placed.value)
            }
            Self::Mixed { build_up, coat } => Some(coat_of(of, build_up, coat)?.volume.mixed.value),
            Self::AllPlaced => coats(of.evaluation)
                .map(|coat| Some(coat.as_ref()?.volume.placed.value))
                .sum(),
            Self::AllMixed => coats(of.evaluation)
                .map(|coat| Some(coat.as_ref()?.volume.mixed.value))
                .sum(),
            Self::Loose(name) => Some(material_of(of, name)?.delivered.loose?.value),
            Self::Mass(name) => Some(material_of(of, name)?.delivered.mass?.value),
            Self::Packages(name) => {
                let cover = material_of(of, name)?.cover.as_ref()?;
                Some(cover.counts.iter().map(|(_, count)| whole(*count)).sum())
            }
            Self::Batches => batches(of.evaluation).map(whole),
            Self::Trips => Some(whole(of.supply?.plan.deliveries_count)),
            Self::Bought => Some(of.supply?.plan.price?.to_f64()),
            Self::Cost => cost(of.evaluation).map(hodful_quantities::read::Money::to_f64),
        };
        told.filter(|value| value.is_finite())
    }
}

/// A count as a number.
#[allow(
    clippy::cast_precision_loss,
    reason = "counts stay under what f64 holds whole"
)]
pub(super) fn whole(count: u64) -> f64 {
    count as f64
}

/// The figures of a coat by its names.
fn coat_of<'p>(of: &One<'p>, build_up: &str, coat: &str) -> Option<&'p CoatFigures> {
    let (at, _, coats) = of.project.build_ups.get_full(build_up)?;
    let position = coats.iter().position(|one| one.coat == coat)?;
    of.evaluation.coats.get(at)?.get(position)?.as_ref()
}

/// The figures of a material by its name; `None` while something of it cannot be told.
fn material_of<'p>(of: &One<'p>, name: &str) -> Option<&'p MaterialFigures> {
    let at = of.project.materials.get_index_of(name)?;
    let figures = of.evaluation.materials.get(at)?;
    (!figures.waits).then_some(figures)
}
