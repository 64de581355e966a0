//! Readings with hands, tape and knife, and what each suggests of the clay. Not here: the jar (see `jar`).
//!
//! A reading suggests, it does not measure: clays differ more in how they bind than these tests can tell.

use hodful_quantities::units::Length;

use crate::words::Millimetres;

/// One reading of moist soil.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reading {
    /// A ball of soil that just broke when rolled to a thread of 3 mm, pressed between the fingers.
    Ball(Ball),
    /// Length at which a ribbon pressed out between thumb and finger breaks off.
    PressedRibbon(Length),
    /// Length at which a ribbon 6 mm wide, flattened from a 3 mm thread, breaks when slid over the edge of a palm.
    SlidRibbon(Length),
    /// The thinnest thread that the soil can be rolled to.
    Thread(Length),
    /// Width of the disc that a ball of 200 g makes when dropped 2 m onto a hard flat floor.
    Drop(Length),
    /// Face of a fresh cut with a knife.
    Cut(Shine),
}

/// How a ball behaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ball {
    /// No ball can be made.
    CannotBeMade,
    /// It crumbles.
    Crumbles,
    /// It can only be crushed with much force.
    HardToCrush,
}

/// How a cut face looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Shine {
    /// It shines.
    Shiny,
    /// It does not.
    Dull,
}

/// How far what is said can be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HowSure {
    /// Read in the source that is named.
    Read,
    /// The source is named from memory, and was not read.
    FromMemory,
}

/// What a reading suggests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Suggests {
    /// In words.
    pub words: &'static str,
    /// Clay from and to, shares of dry mass; `None` when the source gives no figures.
    pub clay: Option<(f64, f64)>,
    /// Where it is published.
    pub source: &'static str,
    /// How far it can be relied on.
    pub how_sure: HowSure,
}

const MINKE_BALL: &str = "Minke, Building with Earth, consistency test, p. 23";
const MINKE_RIBBON: &str = "Minke, Building with Earth, cohesion test, p. 23 (lengths from memory)";
const MINKE_DROP: &str = "Minke, Building with Earth, p. 25, after DIN 18952";
const THIEN: &str = "Thien, A flow diagram for teaching texture by feel analysis, 1979, with the clay of the classes it names (from memory)";
const LAG: &str = "Berge, The Ecology of Building Materials, table 8.4, after Låg 1979";
const SHINE: &str = "Practical Action, Mud plasters and renders; Minke, Building with Earth";

impl Reading {
    /// What it suggests.
    ///
    /// # Errors
    /// [`FieldFault`] when a length is negative or no number, or a thread or a disc is not above nothing.
    ///
    /// ```
    /// use hodful_soils::field::Reading;
    /// use hodful_quantities::units::length_of_mm as mm;
    /// let suggests = Reading::Thread(mm(2.0)).suggests()?;
    /// assert_eq!(suggests.clay, Some((0.15, 0.25)));
    /// # Ok::<(), hodful_soils::field::FieldFault>(())
    /// ```
    pub fn suggests(&self) -> Result<Suggests, FieldFault> {
        Ok(match *self {
            Self::Ball(ball) => of_ball(ball),
            Self::PressedRibbon(length) => of_pressed(checked(length, true)?),
            Self::SlidRibbon(length) => of_slid(checked(length, true)?),
            Self::Thread(thickness) => of_thread(checked(thickness, false)?),
            Self::Drop(width) => of_drop(checked(width, false)?),
            Self::Cut(shine) => of_cut(shine),
        })
    }
}

fn checked(length: Length, may_be_nothing: bool) -> Result<f64, FieldFault> {
    let mm = length.value;
    let fits = mm.is_finite() && (mm > 0.0 || may_be_nothing && mm >= 0.0);
    fits.then_some(mm).ok_or(FieldFault { mm })
}

fn of_ball(ball: Ball) -> Suggests {
    let words = match ball {
        Ball::CannotBeMade => "too sandy: it does not hold together",
        Ball::Crumbles => "lean: little clay",
        Ball::HardToCrush => "clayey: it wants sand",
    };
    Suggests {
        words,
        clay: None,
        source: MINKE_BALL,
        how_sure: HowSure::Read,
    }
}

/// Loams hold under 27 % clay (sandy to silt loam), clay loams 20 to 40 %, clays 35 % and more: the clay of the
/// classes of the texture triangle.
fn of_pressed(mm: f64) -> Suggests {
    let (words, clay) = match mm {
        _ if mm <= 0.0 => ("a loamy sand: a ball, but no ribbon", (0.0, 0.15)),
        _ if mm < 25.0 => ("a loam", (0.0, 0.27)),
        _ if mm < 50.0 => ("a clay loam", (0.20, 0.40)),
        _ => ("a clay", (0.35, 1.0)),
    };
    Suggests {
        words,
        clay: Some(clay),
        source: THIEN,
        how_sure: HowSure::FromMemory,
    }
}

fn of_slid(mm: f64) -> Suggests {
    let words = match mm {
        _ if mm < 100.0 => "too little clay to bind well",
        _ if mm <= 200.0 => "binds middling well",
        _ => "binds strongly: rich in clay",
    };
    Suggests {
        words,
        clay: None,
        source: MINKE_RIBBON,
        how_sure: HowSure::FromMemory,
    }
}

/// The table has 3–6, 3, 2, 1–1.5, 1 and under 1 mm; a thickness between two rows belongs to the thicker one, the
/// last that was reached.
fn of_thread(mm: f64) -> Suggests {
    let (words, clay) = match mm {
        _ if mm > 6.0 => (
            "no thread of 6 mm holds: less clay than the table begins with",
            (0.0, 0.02),
        ),
        _ if mm > 3.0 => ("hardly any clay", (0.02, 0.05)),
        _ if mm > 2.0 => ("little clay", (0.05, 0.15)),
        _ if mm > 1.5 => ("some clay", (0.15, 0.25)),
        _ if mm > 1.0 => ("clayey", (0.25, 0.40)),
        _ if mm >= 1.0 => ("stiff clay", (0.40, 0.60)),
        _ => ("very stiff clay", (0.60, 1.0)),
    };
    Suggests {
        words,
        clay: Some(clay),
        source: LAG,
        how_sure: HowSure::Read,
    }
}

fn of_drop(mm: f64) -> Suggests {
    let words = match mm {
        _ if mm < 48.0 => "stiffer than the standard stiffness: add water before other tests",
        _ if mm <= 52.0 => "standard stiffness: ready for other tests",
        _ => "softer than the standard stiffness: let it dry before other tests",
    };
    Suggests {
        words,
        clay: None,
        source: MINKE_DROP,
        how_sure: HowSure::Read,
    }
}

fn of_cut(shine: Shine) -> Suggests {
    let words = match shine {
        Shine::Shiny => "rich in clay",
        Shine::Dull => "rich in silt or sand",
    };
    Suggests {
        words,
        clay: None,
        source: SHINE,
        how_sure: HowSure::Read,
    }
}

/// A length that cannot be read.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("a length of {} cannot be; measure again", Millimetres(*.mm))]
pub struct FieldFault {
    /// As given, mm.
    pub mm: f64,
}

#[cfg(test)]
mod tests {
    use super::*;
    use hodful_quantities::units::length_of_mm as mm;

    /// Rows of the table, and a thickness between two of them: 2.5 mm was rolled past 3 mm and did not reach 2.
    #[test]
    fn a_thread_between_two_rows_belongs_to_the_thicker() {
        let clay = |thickness| Reading::Thread(mm(thickness)).suggests().unwrap().clay;
        assert_eq!(clay(2.5), clay(3.0));
        assert_eq!(clay(1.7), clay(2.0));
        assert_ne!(clay(1.0), clay(1.2));
    }

    #[test]
    fn the_drop_is_held_to_two_millimetres() {
        let words = |width| Reading::Drop(mm(width)).suggests().unwrap().words;
        assert_eq!(words(48.0), words(52.0));
        assert!(words(47.9).contains("add water") && words(52.1).contains("let it dry"));
        let fault = Reading::Drop(mm(0.0)).suggests().unwrap_err();
        assert_eq!(
            fault.to_string(),
            "a length of 0 mm cannot be; measure again"
        );
    }
}
