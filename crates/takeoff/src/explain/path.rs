//! Paths of figures. Not here: the figures.

use ecow::{EcoString, eco_format};

/// The first steps there are.
pub(super) const HEADS: [&str; 6] = ["walls", "totals", "coats", "batch", "mixes", "order"];

/// Why a path names nothing.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PathFault {
    /// No path at all.
    #[error("no figure is named; begin with one of {}", HEADS.join(", "))]
    Empty,
    /// The first step is unknown.
    #[error("there are no figures under '{head}'; begin with one of {}", HEADS.join(", "))]
    Head {
        /// The step.
        head: EcoString,
    },
    /// Something is missing after the first step.
    #[error("'{head}' wants more{}", try_one(there))]
    Short {
        /// The first step.
        head: EcoString,
        /// Paths that begin so.
        there: Vec<EcoString>,
    },
    /// A quotation mark is not closed.
    #[error("a quotation mark is not closed in '{path}'")]
    Quote {
        /// The path.
        path: EcoString,
    },
    /// A step names nothing.
    #[error("there is no {kind} '{name}'; there is {}", known(there))]
    Unknown {
        /// What the step should name.
        kind: &'static str,
        /// What it says.
        name: EcoString,
        /// What there is.
        there: Vec<EcoString>,
    },
    /// More than one thing answers to a name.
    #[error(
        "more than one answers to '{name}': {}; write one of them out",
        known(answer)
    )]
    Several {
        /// What it says.
        name: EcoString,
        /// What answers to it.
        answer: Vec<EcoString>,
    },
    /// The figure cannot be had.
    #[error("{what} cannot be told: {why}")]
    NotKnown {
        /// The figure.
        what: EcoString,
        /// What is missing.
        why: &'static str,
    },
    /// Something refused keeps the figure from being told.
    #[error("{what} waits: something that it comes from is refused; mend that first")]
    Waits {
        /// The figure.
        what: EcoString,
    },
}

fn try_one(there: &[EcoString]) -> EcoString {
    match there.first() {
        Some(first) => eco_format!("; try {first}"),
        None => "; the project has none yet".into(),
    }
}

fn known(there: &[EcoString]) -> EcoString {
    const SHOWN: usize = 12;
    if there.is_empty() {
        return "none".into();
    }
    let mut list: Vec<EcoString> = there.iter().take(SHOWN).map(|name| quoted(name)).collect();
    if there.len() > SHOWN {
        list.push(eco_format!("{} more", there.len() - SHOWN));
    }
    list.join(", ").into()
}

/// A name as it stands in a path: in quotation marks when it needs them.
pub fn quoted(name: &str) -> EcoString {
    let plain = |c: char| c.is_alphanumeric() || matches!(c, '_' | '-');
    if !name.is_empty() && name.chars().all(plain) {
        name.into()
    } else {
        eco_format!("\"{}\"", name.replace('"', "\"\""))
    }
}

/// Splits a path at its dots, names in quotation marks whole; a doubled mark inside is one mark.
pub(super) fn steps(path: &str) -> Result<Vec<EcoString>, PathFault> {
    let mut steps = Vec::new();
    let mut step = EcoString::new();
    let mut quoted = false;
    let mut chars = path.trim().chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => {
                step.push('"');
                chars.next();
            }
            '"' => quoted = !quoted,
            '.' if !quoted => steps.push(std::mem::take(&mut step)),
            c => step.push(c),
        }
    }
    if quoted {
        return Err(PathFault::Quote { path: path.into() });
    }
    if !(steps.is_empty() && step.is_empty()) {
        steps.push(step);
    }
    Ok(steps)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_split_at_dots_outside_quotes() {
        let split = |path: &str| steps(path).unwrap().join("|");
        assert_eq!(split("walls.S.outside"), "walls|S|outside");
        assert_eq!(
            split("coats.\"outside bale\".scratch"),
            "coats|outside bale|scratch"
        );
        assert_eq!(split("order.\"sand 0.2\""), "order|sand 0.2");
        assert_eq!(
            split(&eco_format!("order.{}", quoted("a \"b\" c"))),
            "order|a \"b\" c"
        );
        assert_eq!(split(""), "");
        assert!(steps("order.\"sand").is_err());
    }
}
