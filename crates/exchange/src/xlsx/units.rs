//! The units of a workbook: one for each kind of figure, so that a formula needs no factor but the one
//! from thickness to length. Not here: printing.

use hodful_quantities::print::UnitSystem;
use hodful_quantities::units::{
    Area, Length, Mass, MassDensity, Volume, area_of_mm2, length_of_mm,
};
use hodful_quantities::units::{
    cubic_foot, cubic_meter, foot, inch, kilogram, kilogram_per_cubic_meter, meter, millimeter,
    pound, pound_per_cubic_foot, square_foot, square_meter,
};

/// What figures are written in.
#[derive(Debug, Clone, Copy)]
pub(super) struct Units(pub(super) UnitSystem);

impl Units {
    fn us(self) -> bool {
        self.0 == UnitSystem::Us
    }

    /// Whether sheets are of the paper of the United States.
    pub(super) fn us_paper(self) -> bool {
        self.us()
    }

    /// Thickness in inches or millimetres.
    pub(super) fn thickness(self, of: Length) -> f64 {
        if self.us() {
            of.get::<inch>()
        } else {
            of.get::<millimeter>()
        }
    }

    pub(super) fn thickness_word(self) -> &'static str {
        if self.us() { "in" } else { "mm" }
    }

    /// So many of the units of thickness make one of length.
    pub(super) fn per_length(self) -> f64 {
        if self.us() { 12.0 } else { 1000.0 }
    }

    /// Length in feet or metres, from millimetres.
    pub(super) fn length_of_mm(self, mm: f64) -> f64 {
        let of = length_of_mm(mm);
        if self.us() {
            of.get::<foot>()
        } else {
            of.get::<meter>()
        }
    }

    pub(super) fn length_word(self) -> &'static str {
        if self.us() { "ft" } else { "m" }
    }

    /// Area in square feet or metres.
    pub(super) fn area(self, of: Area) -> f64 {
        if self.us() {
            of.get::<square_foot>()
        } else {
            of.get::<square_meter>()
        }
    }

    /// The same from square millimetres.
    pub(super) fn area_of_mm2(self, mm2: f64) -> f64 {
        self.area(area_of_mm2(mm2))
    }

    pub(super) fn area_word(self) -> &'static str {
        if self.us() { "ft²" } else { "m²" }
    }

    /// Decimals of an area, as they are shown everywhere.
    pub(super) fn area_decimals(self) -> u8 {
        if self.us() { 1 } else { 2 }
    }

    /// Volume in cubic feet or metres.
    pub(super) fn volume(self, of: Volume) -> f64 {
        if self.us() {
            of.get::<cubic_foot>()
        } else {
            of.get::<cubic_meter>()
        }
    }

    pub(super) fn volume_word(self) -> &'static str {
        if self.us() { "ft³" } else { "m³" }
    }

    /// Decimals of a volume: a tenth of a cubic foot, or a litre.
    pub(super) fn volume_decimals(self) -> u8 {
        if self.us() { 1 } else { 3 }
    }

    /// Mass in pounds or kilograms.
    pub(super) fn mass(self, of: Mass) -> f64 {
        if self.us() {
            of.get::<pound>()
        } else {
            of.get::<kilogram>()
        }
    }

    pub(super) fn mass_word(self) -> &'static str {
        if self.us() { "lb" } else { "kg" }
    }

    /// Density in pounds per cubic foot or kilograms per cubic metre.
    pub(super) fn density(self, of: MassDensity) -> f64 {
        if self.us() {
            of.get::<pound_per_cubic_foot>()
        } else {
            of.get::<kilogram_per_cubic_meter>()
        }
    }

    pub(super) fn density_word(self) -> &'static str {
        if self.us() { "lb/ft³" } else { "kg/m³" }
    }
}
