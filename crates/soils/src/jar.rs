//! The jar test: soil shaken up with water, left to settle, and marked. Not here: the settling law itself, and
//! sand that is only flooded (see `bulking`).
//!
//! A jar shows heights of wet loose layers, and clay lies fluffier than sand; a mark shows where the heap stood
//! at an hour, and the hour decides which grain it parts from which. So a jar is read as bounds:
//!
//! - *As they stand*: height over height. Common in leaflets for gardeners; it makes clay too much.
//! - *By dry mass*: each height times the dry mass that a settled volume of it holds ([`SETTLED_MASS`]).
//! - *At the limits*: a mark at the wrong hour parts at another diameter than the system's. The share between the
//!   two is taken to be as dense over the logarithm of diameter as the silt layer is, and moved to the other side.
//! - *What fell from low down*: when a mark is made, finer grains that started near the bottom lie there too. Of
//!   grains of diameter x a share (x/d)² is down when d has fallen through all of the water. Of grains spread evenly
//!   over the logarithm of diameter, from a span of n factors e below d up to d, the integral of (x/d)² hides half
//!   a factor's worth: 1 part for every 2·n − 1 that are still above. Silt is spread between the two cuts, clay over
//!   the decade below its cut. So much less may be sand, and so much more clay.
//! - *Reading*: 1 mm either way at each of the three marks (common practice, no source).
//!
//! The bounds hold all of these; the best guess is the middle between as they stand and by dry mass, both at the
//! limits. Take the answer as good to one texture class either way (common practice, no source).

use core::fmt;

use hodful_quantities::units::{Celsius, Length, Time};

use crate::fractions::{Fractions, NotFractions, Part, Shares};
use crate::grading::{Border, Grading, NotAGrading};
use crate::settling::{Settling, SettlingFault};
use crate::sizes::System;
use crate::tolerance::RIGHT_CUT;
use crate::words::{Clock, Millimetres};

mod split;

use split::{Bands, Split};

/// Dry mass in a settled volume of sand, silt and clay, kg/m³: Lara and Pemberton, *Initial unit weight of
/// deposited sediments*, 1963, for sediment that is always under water (from memory: 97, 70 and 26 lb/ft³).
pub const SETTLED_MASS: [f64; 3] = [1554.0, 1121.0, 416.0];

/// What was read off a jar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JarTest {
    /// The system whose fractions are wanted.
    pub system: System,
    /// Height of the lowest layer, up to the first mark.
    pub sand: Length,
    /// Height from the first mark to the second.
    pub silt: Length,
    /// Height from the second mark to the top of what has settled when the water is clear.
    pub clay: Length,
    /// When the two marks were made, since the jar was set down. `None`: at the right hours, see [`marks`].
    pub read_at: Option<(Time, Time)>,
    /// From the surface of the water to the bottom of the jar.
    pub water: Length,
    /// Of the water.
    pub temperature: Celsius,
}

/// When to mark a jar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Marks {
    /// The top of the sand.
    pub sand: Time,
    /// The top of the silt.
    pub silt: Time,
}

/// When the finest sand, and the finest silt, has sunk through water of a depth: the hours at which the marks
/// part what the system parts. Grains of 2650 kg/m³.
///
/// # Errors
/// [`SettlingFault`] when the depth is not above nothing or the temperature is outside 0 to 40 °C.
///
/// ```
/// use hodful_soils::{jar::marks, sizes::System};
/// use hodful_quantities::units::{Celsius, hour, length_of_mm as mm, second};
/// let at = marks(mm(200.0), Celsius(20.0), System::Iso)?;
/// assert_eq!(at.sand.get::<second>().round(), 56.0);
/// assert_eq!(at.silt.get::<hour>().round(), 15.0);
/// # Ok::<(), hodful_soils::settling::SettlingFault>(())
/// ```
pub fn marks(depth: Length, temperature: Celsius, system: System) -> Result<Marks, SettlingFault> {
    let settling = Settling::of_soil(temperature)?;
    let limits = system.limits();
    Ok(Marks {
        sand: settling.time(depth, limits.silt)?,
        silt: settling.time(depth, limits.clay)?,
    })
}

/// What a jar tells.
#[derive(Debug, Clone, PartialEq)]
pub struct JarReading {
    /// The diameter that each mark parts at its hour.
    pub cuts: Cuts,
    /// Height over height, at the cuts.
    pub as_they_stand: Fractions,
    /// By the dry mass of the layers, at the cuts.
    pub by_dry_mass: Fractions,
    /// At the limits of the system, within bounds. No gravel: what was screened off is not in the jar.
    pub fractions: Shares,
    /// What to say beside it.
    pub notes: Vec<Note>,
}

/// The diameters that two marks part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cuts {
    /// All coarser grains lie below the first mark.
    pub sand: Length,
    /// All coarser grains lie below the second mark.
    pub silt: Length,
}

impl JarTest {
    /// Reads the jar.
    ///
    /// # Errors
    /// [`JarFault`] when a layer is negative or there is none, the water is not deeper than they are, the marks
    /// were not made one after the other, or settling cannot be told.
    ///
    /// ```
    /// use hodful_soils::{jar::JarTest, sizes::System};
    /// use hodful_quantities::units::{Celsius, length_of_mm as mm};
    /// let jar = JarTest {
    ///     system: System::Usda, sand: mm(50.0), silt: mm(30.0), clay: mm(20.0), read_at: None,
    ///     water: mm(200.0), temperature: Celsius(20.0),
    /// };
    /// let reading = jar.read()?;
    /// assert_eq!(reading.as_they_stand.clay(), 0.2);
    /// // 20 · 416 / (50 · 1554 + 30 · 1121 + 20 · 416) = 8320 / 119 650.
    /// assert!((reading.by_dry_mass.clay() - 0.0695).abs() < 5e-5);
    /// assert!((reading.fractions.clay().best().unwrap() - 0.1348).abs() < 5e-5);
    /// # Ok::<(), hodful_soils::jar::JarFault>(())
    /// ```
    pub fn read(&self) -> Result<JarReading, JarFault> {
        let marks_mm = self.marks_mm()?;
        let settling = Settling::of_soil(self.temperature)?;
        let limits = self.system.limits();
        let right = Cuts {
            sand: limits.silt,
            silt: limits.clay,
        };
        let mut notes = Vec::new();
        let cuts = if let Some((sand, silt)) = self.read_at {
            let cuts = Cuts {
                sand: settling.diameter(self.water, sand)?,
                silt: settling.diameter(self.water, silt)?,
            };
            if silt.value <= sand.value {
                return Err(JarFault::Order { sand, silt });
            }
            notes.extend(Note::of_cut(Border::SandAndSilt, cuts.sand, right.sand));
            notes.extend(Note::of_cut(Border::SiltAndClay, cuts.silt, right.silt));
            cuts
        } else {
            notes.push(Note::HoursAssumed(Marks {
                sand: settling.time(self.water, right.sand)?,
                silt: settling.time(self.water, right.silt)?,
            }));
            right
        };
        notes.push(Note::LayersAreNotMass);
        notes.push(Note::WithoutGravel);
        let bands = Bands { cuts, right };
        let wanting = JarFault::NoLayers;
        let stand = Split::of_heights(marks_mm, [1.0; 3]).ok_or(wanting)?;
        let mass = Split::of_heights(marks_mm, SETTLED_MASS).ok_or(wanting)?;
        Ok(JarReading {
            cuts,
            as_they_stand: stand.fractions(self.system)?,
            by_dry_mass: mass.fractions(self.system)?,
            fractions: bands.shares(self.system, marks_mm, stand, mass)?,
            notes,
        })
    }

    /// Heights of the three marks above the bottom, mm, checked.
    fn marks_mm(&self) -> Result<[f64; 3], JarFault> {
        let mut height = 0.0;
        let layers = [
            (Part::Sand, self.sand),
            (Part::Silt, self.silt),
            (Part::Clay, self.clay),
        ];
        let mut marks = [0.0; 3];
        for (mark, (part, layer)) in marks.iter_mut().zip(layers) {
            let mm = layer.value;
            if !(mm.is_finite() && mm >= 0.0) {
                return Err(JarFault::Layer { part, mm });
            }
            height += mm;
            *mark = height;
        }
        let water = self.water.value;
        if height <= 0.0 {
            return Err(JarFault::NoLayers);
        }
        if water.is_finite() && water > height {
            Ok(marks)
        } else {
            Err(JarFault::Water {
                mm: water,
                layers: height,
            })
        }
    }
}

impl JarReading {
    /// The best guess as a curve through the limits of the system, all of it finer than gravel.
    ///
    /// # Errors
    /// [`NotAGrading`] never for a reading that [`JarTest::read`] gave.
    pub fn grading(&self) -> Result<Grading, NotAGrading> {
        let limits = self.fractions.system().limits();
        let clay = self.fractions.clay().best().unwrap_or_default();
        let silt = self.fractions.silt().best().unwrap_or_default();
        Grading::new([
            (limits.clay, clay),
            (limits.silt, (clay + silt).min(1.0)),
            (limits.sand, 1.0),
        ])
    }
}

/// What to say beside a reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Note {
    /// No hours were given; these are the right ones.
    HoursAssumed(Marks),
    /// A mark parts at another diameter than the system.
    Cut {
        /// Which two it should part.
        border: Border,
        /// Where it parts.
        at: Length,
        /// Where it should.
        should: Length,
    },
    /// Layers are room, not mass.
    LayersAreNotMass,
    /// Gravel is not in the jar.
    WithoutGravel,
}

impl Note {
    fn of_cut(border: Border, at: Length, should: Length) -> Option<Self> {
        ((at.value / should.value - 1.0).abs() > RIGHT_CUT).then_some(Self::Cut {
            border,
            at,
            should,
        })
    }
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::HoursAssumed(at) => write!(
                f,
                "no hours are given; the marks are taken to be made {} and {} after the jar was set down, as this \
                 depth and temperature ask",
                Clock(at.sand.value),
                Clock(at.silt.value)
            ),
            Self::Cut { border, at, should } => {
                let (lower, upper) = match border {
                    Border::GravelAndSand => ("gravel", "sand"),
                    Border::SandAndSilt => ("sand", "silt"),
                    Border::SiltAndClay => ("silt", "clay"),
                };
                let (at, should) = (at.value, should.value);
                let (when, effect) = if at > should {
                    ("early", format!("some {lower} is read as {upper}"))
                } else {
                    ("late", format!("some {upper} is read as {lower}"))
                };
                write!(
                    f,
                    "the mark between {lower} and {upper} was made {when}: it parts at {}, not at {}, so that {effect}",
                    Millimetres(at),
                    Millimetres(should)
                )
            }
            Self::LayersAreNotMass => f.write_str(
                "layers are heights of wet loose soil, and clay lies fluffier than sand: take the reading as good to \
                 one texture class either way",
            ),
            Self::WithoutGravel => {
                f.write_str("what was screened off before is not in the jar, and not in the shares")
            }
        }
    }
}

/// Why a jar cannot be read.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum JarFault {
    /// A height that is none.
    #[error("a layer of {part} of {} cannot be; measure its height, 0 if there is none", Millimetres(*.mm))]
    Layer {
        /// Which.
        part: Part,
        /// As given, mm.
        mm: f64,
    },
    /// Nothing settled.
    #[error("all three layers are 0; give the height of at least one")]
    NoLayers,
    /// Water that does not cover the layers.
    #[error(
        "water {} deep does not stand over layers of {}; measure from the surface to the bottom of the jar",
        Millimetres(*.mm), Millimetres(*.layers)
    )]
    Water {
        /// As given, mm.
        mm: f64,
        /// All layers, mm.
        layers: f64,
    },
    /// The silt mark is not later than the sand mark.
    #[error(
        "the mark over the silt after {} is not later than the one over the sand after {}; give both from when the jar was set down",
        Clock(.silt.value), Clock(.sand.value)
    )]
    Order {
        /// When the first was made.
        sand: Time,
        /// When the second was made.
        silt: Time,
    },
    /// Settling cannot be told.
    #[error(transparent)]
    Settling(#[from] SettlingFault),
    /// Heights too odd to make shares.
    #[error(transparent)]
    Fractions(#[from] NotFractions),
}

#[cfg(test)]
mod tests {
    use super::*;
    use hodful_quantities::units::{hour, length_of_mm as mm, second};

    fn jar() -> JarTest {
        JarTest {
            system: System::Usda,
            sand: mm(40.0),
            silt: mm(40.0),
            clay: mm(20.0),
            read_at: None,
            water: mm(200.0),
            temperature: Celsius(20.0),
        }
    }

    fn at(sand: f64, silt: f64) -> (Time, Time) {
        (Time::new::<second>(sand), Time::new::<hour>(silt))
    }

    /// Twice 44.5 s and 2 h for twice 100 mm: the cuts are 50 µm and 3.93 µm (worked out beside the settling law
    /// with its constants). By hand, the silt layer holds 0.4 / ln(50 / 3.93) = 0.157 in a factor e of diameter,
    /// so that 0.157 · ln(3.93 / 2) = 0.106 of the 0.20 on top is coarser than clay.
    #[test]
    fn a_silt_mark_that_comes_early_leaves_less_clay() {
        let jar = JarTest {
            read_at: Some(at(89.0, 4.0)),
            ..jar()
        };
        let reading = jar.read().unwrap();
        assert!((reading.cuts.silt.value - 0.003_93).abs() < 1e-5);
        assert!((reading.cuts.sand.value - 0.05).abs() < 1e-4);
        assert!(reading.fractions.clay().least() < 0.20 - 0.106);
        let right = JarTest {
            read_at: None,
            ..jar
        };
        let right = right.read().unwrap();
        let less =
            right.fractions.clay().best().unwrap() - reading.fractions.clay().best().unwrap();
        // As they stand 0.106; by dry mass all of the clay goes: 8320 / 115 320 · 1 = 0.0721 before.
        assert!((less - f64::midpoint(0.106, 0.0721)).abs() < 2e-3, "{less}");
        assert!(matches!(
            reading.notes.first(),
            Some(Note::Cut {
                border: Border::SiltAndClay,
                ..
            })
        ));
        assert_eq!(
            reading.notes.first().map(ToString::to_string).as_deref(),
            Some(
                "the mark between silt and clay was made early: it parts at 0.0039 mm, not at 0.002 mm, so that \
                 some silt is read as clay"
            )
        );
    }

    /// Marks at the right hours, much too early and much too late: what was read as it stands is never ruled out.
    #[test]
    fn bounds_hold_both_readings() {
        for read_at in [None, Some(at(30.0, 1.0)), Some(at(120.0, 72.0))] {
            let reading = JarTest { read_at, ..jar() }.read().unwrap();
            assert_within(&reading.fractions, &reading.as_they_stand);
            assert_within(&reading.fractions, &reading.by_dry_mass);
        }
    }

    /// The same jar read by somebody else, each mark 1 mm higher or lower.
    #[test]
    fn bounds_hold_a_millimetre_at_each_mark() {
        let reading = jar().read().unwrap();
        for off in [
            [1.0, -1.0, 0.0],
            [-1.0, 1.0, 0.0],
            [0.0, 1.0, -1.0],
            [0.0, -1.0, 1.0],
            [1.0, -2.0, 2.0],
        ] {
            let [sand, silt, clay] = off;
            let other = JarTest {
                sand: mm(40.0 + sand),
                silt: mm(40.0 + silt),
                clay: mm(20.0 + clay),
                ..jar()
            };
            let other = other.read().unwrap();
            assert_within(&reading.fractions, &other.as_they_stand);
            assert_within(&reading.fractions, &other.by_dry_mass);
        }
    }

    /// By hand: sand is most by dry mass with its mark at 41 mm and the others at 79 and 99 mm:
    /// 41 · 1554 / (41 · 1554 + 38 · 1121 + 20 · 416) = 63 714 / 114 632.
    #[test]
    fn the_upper_bound_of_sand_is_a_millimetre_away() {
        let sand = jar().read().unwrap().fractions.sand();
        assert!(
            (sand.most() - 63_714.0 / 114_632.0).abs() < 1e-9,
            "{sand:?}"
        );
    }

    #[track_caller]
    fn assert_within(bounds: &Shares, soil: &Fractions) {
        for part in Part::ALL {
            let (known, share) = (bounds.share(part), soil.share(part));
            assert!(
                known.least() - share < 1e-12 && share - known.most() < 1e-12,
                "{part}: {share}, {known:?}"
            );
        }
    }

    #[test]
    fn odd_jars_are_refused_in_words() {
        let refused = |jar: JarTest| jar.read().unwrap_err().to_string();
        assert_eq!(
            refused(JarTest {
                water: mm(90.0),
                ..jar()
            }),
            "water 90 mm deep does not stand over layers of 100 mm; measure from the surface to the bottom of the jar"
        );
        assert_eq!(
            refused(JarTest {
                read_at: Some(at(7200.0, 1.0)),
                ..jar()
            }),
            "the mark over the silt after 60 min is not later than the one over the sand after 2 h 0 min; give both \
             from when the jar was set down"
        );
        let dry = JarTest {
            sand: mm(0.0),
            silt: mm(0.0),
            clay: mm(0.0),
            ..jar()
        };
        assert_eq!(dry.read(), Err(JarFault::NoLayers));
    }
}
