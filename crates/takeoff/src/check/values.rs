//! Typed values turned into checked numbers, with a problem at the place of each that is refused.
//! Not here: what the values belong to.

use super::nearest;
use crate::problem::{Place, Problem};
use crate::project::Name;
use ecow::eco_format;
use hodful_geometry::Fault;
use hodful_quantities::read::Number;
use hodful_quantities::units::{Angle, Area, Length, Mass, MassDensity, Ratio, Time, Volume};
use hodful_quantities::{Fraction, Measure, Typed};

/// Collects the problems while values are read.
#[derive(Debug, Default)]
pub(crate) struct Values {
    problems: Vec<Problem>,
}

/// A kind of value whose sign and size can be looked at.
pub(crate) trait Magnitude: Measure {
    /// The value in base units.
    fn magnitude(&self) -> f64;
}

macro_rules! magnitudes {
    ($($quantity:ty)*) => {
        $(impl Magnitude for $quantity {
            fn magnitude(&self) -> f64 {
                self.value
            }
        })*
    };
}

magnitudes!(Length Area Volume Mass MassDensity Ratio Angle Time);

impl Magnitude for Number {
    fn magnitude(&self) -> f64 {
        self.get()
    }
}

impl Values {
    /// How many problems there are so far.
    pub(crate) fn count_of_problems(&self) -> usize {
        self.problems.len()
    }

    /// Every problem found.
    pub(crate) fn into_problems(self) -> Vec<Problem> {
        self.problems
    }

    /// A refusal.
    pub(crate) fn refuse(&mut self, place: Place, message: impl Into<ecow::EcoString>) {
        self.push(Problem::refused(place, message));
    }

    /// A problem that is made already.
    pub(crate) fn push(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    /// A value that may not be negative, when it is not.
    pub(crate) fn sound<T: Magnitude + Default>(
        &mut self,
        place: &Place,
        field: &'static str,
        typed: &Typed<T>,
    ) -> Option<T> {
        let before = self.problems.len();
        let value = self.at_least_nothing(place, field, typed);
        (self.problems.len() == before).then_some(value)
    }

    /// A name that people must be able to read and type.
    pub(crate) fn name(&mut self, place: &Place, field: &'static str, name: &Name) {
        if name.trim().is_empty() {
            self.refuse(place.field(field), "is empty; give it a name");
        } else if name.chars().any(char::is_control) {
            self.refuse(
                place.field(field),
                eco_format!(
                    "'{}' has a character that cannot be seen",
                    name.escape_debug()
                ),
            );
        }
    }

    /// A value that may not be negative; `T`'s default stands in when it is refused.
    pub(crate) fn at_least_nothing<T: Magnitude + Default>(
        &mut self,
        place: &Place,
        field: &'static str,
        typed: &Typed<T>,
    ) -> T {
        let value = typed.value();
        if value.magnitude().is_finite() && value.magnitude() >= 0.0 {
            return value;
        }
        self.refuse(
            place.field(field),
            eco_format!("'{}' is negative", typed.text()),
        );
        T::default()
    }

    /// As [`Self::at_least_nothing`], of a value that may be absent.
    pub(crate) fn optional<T: Magnitude + Default>(
        &mut self,
        place: &Place,
        field: &'static str,
        typed: Option<&Typed<T>>,
    ) -> Option<T> {
        typed.map(|typed| self.at_least_nothing(place, field, typed))
    }

    /// A value that must be above nothing.
    pub(crate) fn above_nothing<T: Magnitude + Default>(
        &mut self,
        place: &Place,
        field: &'static str,
        typed: &Typed<T>,
    ) -> T {
        let value = self.at_least_nothing(place, field, typed);
        if typed.value().magnitude() == 0.0 {
            self.refuse(
                place.field(field),
                eco_format!("'{}' must be more than 0", typed.text()),
            );
        }
        value
    }

    /// A share that leaves something over.
    pub(crate) fn fraction(
        &mut self,
        place: &Place,
        field: &'static str,
        typed: Option<&Typed<Ratio>>,
        usual: Fraction,
    ) -> Fraction {
        let Some(typed) = typed else { return usual };
        Fraction::new(typed.value()).unwrap_or_else(|fault| {
            self.refuse(
                place.field(field),
                eco_format!("'{}' {fault}", typed.text()),
            );
            usual
        })
    }

    /// A count, at least 1.
    pub(crate) fn count(&mut self, place: &Place, count: Option<u32>) -> u32 {
        if count == Some(0) {
            self.refuse(
                place.field("count"),
                "0 is none at all; give 1 or more, or leave it out",
            );
        }
        count.unwrap_or(1).max(1)
    }

    /// A name that is not there, with the nearest that is.
    pub(crate) fn missing<'a>(
        &mut self,
        place: &Place,
        kind: &'static str,
        name: &Name,
        known: impl Iterator<Item = &'a Name> + Clone,
    ) {
        let all: Vec<&str> = known.clone().map(Name::as_str).collect();
        let hint = match (nearest(name, known), all.is_empty()) {
            (Some(near), _) => eco_format!("did you mean '{near}'?"),
            (None, true) => eco_format!("the project has none"),
            (None, false) => eco_format!("there is {}", all.join(", ")),
        };
        let message = eco_format!("there is no {kind} '{name}'; {hint}");
        self.push(Problem::missing(place.clone(), name, message));
    }

    /// Faults of the geometry, each at its field and with the text typed there.
    pub(crate) fn faults(
        &mut self,
        place: &Place,
        faults: Vec<Fault>,
        text: impl Fn(&str) -> Option<String>,
    ) {
        for fault in faults {
            let message = text(fault.field).map_or_else(
                || eco_format!("{}", fault.why),
                |text| eco_format!("'{text}' {}", fault.why),
            );
            self.refuse(place.field(fault.field), message);
        }
    }
}
