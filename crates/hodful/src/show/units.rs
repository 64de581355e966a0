//! Base values of the evaluation as printed figures. Not here: rounding, which is in the printing of
//! quantities.

use hodful_quantities::print::{self, Figure, UnitSystem};
use hodful_quantities::units::{Area, Length, Mass, Volume, cubic_foot, foot, liter, meter};

/// Square millimetres.
pub(super) fn area(mm2: f64, units: UnitSystem) -> Figure {
    print::area(
        Area {
            value: mm2,
            ..Area::default()
        },
        units,
    )
}

/// Millimetres of run, to a tenth of a foot or of a metre.
pub(super) fn run(mm: f64, units: UnitSystem) -> String {
    let length = Length {
        value: mm,
        ..Length::default()
    };
    let (value, unit) = match units {
        UnitSystem::Us => (length.get::<foot>(), "ft"),
        UnitSystem::Metric => (length.get::<meter>(), "m"),
    };
    format!("{} {unit}", print::fixed(value, 1, units.grouping()))
}

/// The digits of a figure that may not be known.
pub(super) fn digits(figure: Option<Figure>) -> String {
    figure.map_or_else(|| "–".to_owned(), |figure| figure.digits)
}

/// Plaster.
pub(super) fn plaster(volume: Volume, units: UnitSystem) -> String {
    print::volume(volume, units).digits
}

/// The volume of something in one batch, a digit finer than plaster on walls.
pub(super) fn batch_volume(volume: Volume, units: UnitSystem) -> String {
    let (value, decimals) = match units {
        UnitSystem::Us => (volume.get::<cubic_foot>(), 2),
        UnitSystem::Metric => (volume.get::<liter>(), 1),
    };
    print::fixed(value, decimals, units.grouping())
}

/// The unit of a kind of figure, for the head of a column.
pub(super) fn unit(of: Column, units: UnitSystem) -> &'static str {
    match of {
        Column::Area => print::area(Area::default(), units).unit,
        Column::Plaster => print::volume(Volume::default(), units).unit,
        Column::Heap => print::bulk_volume(Volume::default(), units).unit,
        Column::Mass => print::mass(Mass::default(), units).unit,
    }
}

/// Kinds of columns.
#[derive(Debug, Clone, Copy)]
pub(super) enum Column {
    Area,
    Plaster,
    Heap,
    Mass,
}
