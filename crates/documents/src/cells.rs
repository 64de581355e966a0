//! Cells and columns of tables from quantities, printed by the rules of the quantities. Not here: words.

use crate::{Cell, Column, Row, RowKind};
use ecow::EcoString;
use hodful_quantities::print::{self, Figure, UnitSystem};
use hodful_quantities::read::Money;
use hodful_quantities::units::{
    Area, Length, Mass, Volume, area_of_mm2, cubic_foot, cubic_meter, cubic_yard, foot, gallon,
    kilogram, length_of_mm, liter, meter, pound, square_foot, square_meter,
};

/// What stands where a figure is not known.
pub(crate) const UNKNOWN: &str = "–";

/// A column of words.
pub(crate) fn words(head: &str, width: f64) -> Column {
    Column {
        head: head.into(),
        unit: EcoString::new(),
        right: false,
        width,
    }
}

/// A column of figures.
pub(crate) fn figures(head: &str, unit: &str, width: f64) -> Column {
    Column {
        head: head.into(),
        unit: unit.into(),
        right: true,
        width,
    }
}

/// A row of many.
pub(crate) fn body(cells: Vec<Cell>) -> Row {
    Row {
        cells,
        kind: RowKind::Body,
    }
}

/// A sum of those over it.
pub(crate) fn total(cells: Vec<Cell>) -> Row {
    Row {
        cells,
        kind: RowKind::Total,
    }
}

/// A row that names those under it, in a table of so many columns.
pub(crate) fn group(name: impl Into<EcoString>, columns: usize) -> Row {
    let mut cells = vec![Cell::Empty; columns];
    if let Some(first) = cells.first_mut() {
        *first = text(name);
    }
    Row {
        cells,
        kind: RowKind::Group,
    }
}

/// Words.
pub(crate) fn text(words: impl Into<EcoString>) -> Cell {
    Cell::Words(words.into())
}

/// Where a figure is not known.
pub(crate) fn unknown() -> Cell {
    text(UNKNOWN)
}

/// A printed figure with its value in the unit it is printed in.
fn cell(shown: Figure, value: f64) -> Cell {
    let decimals = shown
        .digits
        .rsplit_once('.')
        .map_or(0, |(_, part)| part.len());
    Cell::Figure {
        shown: shown.digits.into(),
        value,
        decimals: u8::try_from(decimals).unwrap_or(u8::MAX),
    }
}

/// A number to so many decimals.
pub(crate) fn number(value: f64, decimals: u8, units: UnitSystem) -> Cell {
    Cell::Figure {
        shown: print::fixed(value, u32::from(decimals), units.grouping()).into(),
        value,
        decimals,
    }
}

/// A whole count.
pub(crate) fn count(of: u64, units: UnitSystem) -> Cell {
    #[allow(
        clippy::cast_precision_loss,
        reason = "counts stay below 2^53 (see the orders)"
    )]
    cell(print::count(of, units), of as f64)
}

/// Square millimetres as an area.
pub(crate) fn area(mm2: f64, units: UnitSystem) -> Cell {
    let area = area_of_mm2(mm2);
    let value = match units {
        UnitSystem::Us => area.get::<square_foot>(),
        UnitSystem::Metric => area.get::<square_meter>(),
    };
    cell(print::area(area, units), value)
}

/// Plaster.
pub(crate) fn plaster(volume: Volume, units: UnitSystem) -> Cell {
    let value = match units {
        UnitSystem::Us => volume.get::<cubic_foot>(),
        UnitSystem::Metric => volume.get::<liter>(),
    };
    cell(print::volume(volume, units), value)
}

/// What comes by the load.
pub(crate) fn heap(volume: Volume, units: UnitSystem) -> Cell {
    let value = match units {
        UnitSystem::Us => volume.get::<cubic_yard>(),
        UnitSystem::Metric => volume.get::<cubic_meter>(),
    };
    cell(print::bulk_volume(volume, units), value)
}

/// A mass.
pub(crate) fn mass(of: Mass, units: UnitSystem) -> Cell {
    let value = match units {
        UnitSystem::Us => of.get::<pound>(),
        UnitSystem::Metric => of.get::<kilogram>(),
    };
    cell(print::mass(of, units), value)
}

/// A price.
pub(crate) fn money(of: Money, units: UnitSystem) -> Cell {
    let value = of.amount().to_string().parse().unwrap_or(f64::NAN);
    cell(print::money(of, units), value)
}

/// A figure that may not be known.
pub(crate) fn or_unknown<T>(of: Option<T>, cell: impl FnOnce(T) -> Cell) -> Cell {
    of.map_or_else(unknown, cell)
}

/// Water from the tap, to the whole gallon or litre.
pub(crate) fn tap(volume: Volume, units: UnitSystem) -> EcoString {
    let (value, unit) = match units {
        UnitSystem::Us => (volume.get::<gallon>(), "gal"),
        UnitSystem::Metric => (volume.get::<liter>(), "L"),
    };
    let digits = print::fixed(value, 0, units.grouping());
    ecow::eco_format!("{digits} {unit} from the tap")
}

/// Millimetres of run, to a tenth of a foot or of a metre.
pub(crate) fn run(mm: f64, units: UnitSystem) -> EcoString {
    let length: Length = length_of_mm(mm);
    let (value, unit) = match units {
        UnitSystem::Us => (length.get::<foot>(), "ft"),
        UnitSystem::Metric => (length.get::<meter>(), "m"),
    };
    ecow::eco_format!("{} {unit}", print::fixed(value, 1, units.grouping()))
}

/// The units of columns.
pub(crate) fn unit_of_area(units: UnitSystem) -> &'static str {
    print::area(Area::default(), units).unit
}

/// As [`unit_of_area`], of plaster.
pub(crate) fn unit_of_plaster(units: UnitSystem) -> &'static str {
    print::volume(Volume::default(), units).unit
}

/// As [`unit_of_area`], of what comes by the load.
pub(crate) fn unit_of_heap(units: UnitSystem) -> &'static str {
    print::bulk_volume(Volume::default(), units).unit
}

/// As [`unit_of_area`], of a mass.
pub(crate) fn unit_of_mass(units: UnitSystem) -> &'static str {
    print::mass(Mass::default(), units).unit
}
