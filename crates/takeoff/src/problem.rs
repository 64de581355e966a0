//! What is refused and what is doubtful, each with its place and, where a code or handbook stands
//! behind it, its source. Not here: deciding it (see `check` and `evaluate`).

use ecow::EcoString;
use std::fmt;

/// Whether a finding stops the evaluation or only wants a look.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Severity {
    /// The figure cannot be had until it is mended.
    Refused,
    /// Computed all the same.
    Doubtful,
}

/// One finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// How bad it is.
    pub severity: Severity,
    /// Where it is.
    pub place: Place,
    /// What is wrong, which value, and what to do: lower case, no final stop.
    pub message: EcoString,
    /// The code or handbook behind it, when there is one.
    pub source: Option<&'static str>,
    /// The name that is not there, when that is the problem.
    pub missing: Option<EcoString>,
}

impl Problem {
    /// A refusal.
    pub fn refused(place: Place, message: impl Into<EcoString>) -> Self {
        Self {
            severity: Severity::Refused,
            place,
            message: message.into(),
            source: None,
            missing: None,
        }
    }

    /// A doubt with the source of the limit behind it.
    pub fn doubtful(
        place: Place,
        message: impl Into<EcoString>,
        source: Option<&'static str>,
    ) -> Self {
        Self {
            severity: Severity::Doubtful,
            place,
            message: message.into(),
            source,
            missing: None,
        }
    }
}

impl Problem {
    /// A refusal of a name that is not there.
    pub(crate) fn missing(place: Place, name: &EcoString, message: EcoString) -> Self {
        Self {
            missing: Some(name.clone()),
            ..Self::refused(place, message)
        }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.place, self.message)
    }
}

/// Where in a project something stands: `wall S, opening W1, sill`.
///
/// A list of steps from the whole to the part, each a kind of thing with its name, or a field.
#[derive(Debug, Clone, PartialEq, Eq, Default, Hash)]
pub struct Place(Vec<Step>);

/// One step of a [`Place`].
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Step {
    /// A thing with a name: `wall` and `S`.
    Thing(&'static str, EcoString),
    /// A field: `sill`.
    Field(EcoString),
}

impl Place {
    /// The project as a whole.
    pub fn project() -> Self {
        Self::default()
    }

    /// A thing in this place.
    #[must_use]
    pub fn thing(&self, kind: &'static str, name: impl Into<EcoString>) -> Self {
        self.with(Step::Thing(kind, name.into()))
    }

    /// A field of this place.
    #[must_use]
    pub fn field(&self, field: impl Into<EcoString>) -> Self {
        self.with(Step::Field(field.into()))
    }

    /// The steps, from the whole to the part.
    pub fn steps(&self) -> &[Step] {
        &self.0
    }

    fn with(&self, step: Step) -> Self {
        let mut steps = self.0.clone();
        steps.push(step);
        Self(steps)
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0.is_empty() {
            return f.write_str("project");
        }
        for (i, step) in self.0.iter().enumerate() {
            if i > 0 {
                f.write_str(", ")?;
            }
            match step {
                Step::Thing(kind, name) => write!(f, "{kind} {name}")?,
                Step::Field(field) => f.write_str(field)?,
            }
        }
        Ok(())
    }
}
