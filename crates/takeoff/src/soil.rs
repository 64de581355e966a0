//! What the tests of a soil come to: its grains within bounds, its texture, and what the hand suggests.
//!
//! Not here: the laws behind it (see `hodful_soils`), what is refused (see `check`) and what is doubtful
//! (see `doubts`).

use crate::project::{HandTests, JarTest, Material, Shine, SizeSystem, Soil, SoilShares, Squeeze};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::units::{Celsius, Length, Time, ratio};
use hodful_soils::field::{self, Reading, Suggests};
use hodful_soils::fractions::{Fractions, Known, NotKnown, Shares};
use hodful_soils::grading::{Grading, Point};
use hodful_soils::jar::{self, JarReading, Marks};
use hodful_soils::sizes::System;
use hodful_soils::texture::{Class, class_of, classes_within};

/// The temperature of the water in a jar when none is given, °C: common practice, no source, a room.
pub const USUAL_WATER: Celsius = Celsius(20.0);

/// What a jar without its water wants.
const NO_DEPTH: &str = "it wants the depth of the water, from its surface to the bottom of the jar: how deep the grains fell tells what a mark parts";

/// How the grains of a material are known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Way {
    /// By sieves, and a hydrometer for the fine end.
    Sieve,
    /// As typed, from a report.
    Shares,
    /// By a jar test.
    Jar,
}

impl Way {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Sieve => "sieves",
            Self::Shares => "shares as given",
            Self::Jar => "jar test",
        }
    }

    /// The field of a soil that holds it.
    pub fn field(self) -> &'static str {
        match self {
            Self::Sieve => "sieve",
            Self::Shares => "shares",
            Self::Jar => "jar",
        }
    }
}

/// What is known of the grains of a material.
#[derive(Debug, Clone, PartialEq)]
pub struct SoilFigures {
    /// How; of several ways the surest.
    pub way: Way,
    /// Shares of the dry mass as tested, before the screen.
    pub shares: Shares,
    /// The grading as tested, where a curve is known.
    pub grading: Option<Grading>,
    /// Past the screen: as it goes into a mix. As tested where no mesh is given.
    pub used: Used,
    /// What the jar says, where it is a jar.
    pub jar: Option<JarReading>,
    /// The texture class of the best guess, USDA sizes; `None` where it cannot be told.
    pub class: Option<Class>,
    /// Every class it may be in.
    pub classes: Vec<Class>,
}

/// The grains as they go into a mix.
#[derive(Debug, Clone, PartialEq)]
pub struct Used {
    /// Shares of the dry mass; the best guesses.
    pub fractions: Option<Fractions>,
    /// The grading, where a curve is known.
    pub grading: Option<Grading>,
}

/// Why what was typed of a soil is none: the field of the soil, and what is wrong with it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SoilFault {
    /// The way that is at fault.
    pub way: Way,
    /// In words.
    pub message: EcoString,
    /// Whether only something is left to be typed: nothing is wrong with what is.
    pub is_unfinished: bool,
}

impl SizeSystem {
    /// The system of particle sizes.
    pub fn system(self) -> System {
        match self {
            Self::Usda => System::Usda,
            Self::Iso => System::Iso,
            Self::Astm => System::Astm,
        }
    }
}

impl Soil {
    /// The system that its sizes are named by.
    pub fn sizes(&self) -> System {
        self.system.map_or(System::Usda, SizeSystem::system)
    }

    /// The ways in which it is known, the surest first.
    pub fn ways(&self) -> impl Iterator<Item = Way> + use<> {
        [
            (Way::Sieve, !self.sieve.is_empty()),
            (Way::Shares, self.shares.is_some()),
            (Way::Jar, self.jar.is_some()),
        ]
        .into_iter()
        .filter_map(|(way, known)| known.then_some(way))
    }
}

/// What the surest test of a material says; `None` where there is none.
///
/// # Errors
/// [`SoilFault`] when that test cannot be.
pub fn figures(material: &Material) -> Option<Result<SoilFigures, SoilFault>> {
    let soil = material.soil.as_deref()?;
    let way = soil.ways().next()?;
    Some(by(material, soil, way))
}

/// What one test of a material says.
///
/// # Errors
/// [`SoilFault`] when it cannot be, or was not made.
pub fn by(material: &Material, soil: &Soil, way: Way) -> Result<SoilFigures, SoilFault> {
    let mesh = material.screen_test.as_ref().and_then(|t| t.mesh.as_ref());
    let mesh = mesh.map(Typed::value);
    let reject = reject(material);
    let fault = |message: EcoString| SoilFault {
        way,
        message,
        is_unfinished: false,
    };
    match way {
        Way::Sieve => {
            let points = soil.sieve.iter();
            let points = points.map(|p| (p.size.value(), p.passing.value().get::<ratio>()));
            let grading = Grading::new(points).map_err(|wrong| fault(eco_format!("{wrong}")))?;
            let shares = grading.fractions(soil.sizes()).shares();
            let usda = grading.fractions(System::Usda).shares();
            let at = mesh.or_else(|| grading.diameter_at(1.0 - reject?));
            let past = at.and_then(|mesh| screened(&grading, mesh));
            let used = past.unwrap_or_else(|| grading.clone());
            let figures = SoilFigures {
                way,
                shares,
                used: Used {
                    fractions: used.fractions(soil.sizes()).whole(),
                    grading: Some(used),
                },
                grading: Some(grading),
                jar: None,
                class: None,
                classes: Vec::new(),
            };
            Ok(figures.classed(&usda))
        }
        Way::Shares => {
            let typed = soil.shares.as_ref();
            let typed = typed.ok_or_else(|| fault("there are no shares".into()))?;
            let all =
                fractions(typed, soil.sizes()).map_err(|wrong| fault(eco_format!("{wrong}")))?;
            let shares = exactly(&all).map_err(|wrong| fault(eco_format!("{wrong}")))?;
            let no_gravel = mesh.is_some_and(|mesh| mesh.value <= soil.sizes().limits().sand.value);
            let used = if no_gravel {
                fine(&all)
            } else {
                less_gravel(&all, reject.unwrap_or_default())
            };
            let figures = SoilFigures {
                way,
                shares,
                grading: through_limits(&all),
                used: Used {
                    grading: used.as_ref().and_then(through_limits),
                    fractions: used,
                },
                jar: None,
                class: None,
                classes: Vec::new(),
            };
            Ok(figures.classed(&shares))
        }
        Way::Jar => {
            let typed = soil.jar.as_ref();
            let typed = typed.ok_or_else(|| fault("there is no jar test".into()))?;
            if typed.water_depth.is_none() {
                return Err(SoilFault {
                    is_unfinished: true,
                    ..fault(NO_DEPTH.into())
                });
            }
            let read = |system| {
                let jar = jar_test(typed, system)?;
                jar.read().map_err(|wrong| eco_format!("{wrong}"))
            };
            let reading = read(soil.sizes()).map_err(fault)?;
            let usda = read(System::Usda).map_err(fault)?.fractions;
            let grading = reading.grading().ok();
            // Stones were picked out before it went into the jar: where no mesh says so, nobody knows how
            // much passes more than sand does.
            let limits = soil.sizes().limits();
            let no_gravel = mesh.is_some_and(|mesh| mesh.value <= limits.sand.value);
            let open = grading.as_ref().and_then(|of| {
                let points = of.points().iter();
                let finer = points.filter(|p| p.diameter.value < limits.sand.value);
                Grading::new(finer.map(|p| (p.diameter, p.passing))).ok()
            });
            let figures = SoilFigures {
                way,
                shares: reading.fractions,
                used: Used {
                    fractions: reading.fractions.best(),
                    grading: if no_gravel {
                        grading.clone()
                    } else {
                        open.or(grading.clone())
                    },
                },
                grading,
                jar: Some(reading),
                class: None,
                classes: Vec::new(),
            };
            Ok(figures.classed(&usda))
        }
    }
}

impl SoilFigures {
    /// With the texture of shares in USDA sizes.
    fn classed(self, usda: &Shares) -> Self {
        Self {
            class: usda.best().and_then(|best| class_of(&best).ok()),
            classes: classes_within(usda).unwrap_or_default(),
            ..self
        }
    }
}

fn fractions(
    typed: &SoilShares,
    system: System,
) -> Result<Fractions, hodful_soils::fractions::NotFractions> {
    let share = |of: &Typed<hodful_quantities::units::Ratio>| of.value().get::<ratio>();
    Fractions::new(
        system,
        typed.gravel.as_ref().map_or(0.0, share),
        share(&typed.sand),
        share(&typed.silt),
        share(&typed.clay),
    )
}

/// Shares that are known exactly.
fn exactly(of: &Fractions) -> Result<Shares, NotKnown> {
    let known = Known::exactly;
    let (gravel, sand) = (known(of.gravel())?, known(of.sand())?);
    let (silt, clay) = (known(of.silt())?, known(of.clay())?);
    Ok(Shares::new(of.system(), gravel, sand, silt, clay)
        .unwrap_or_else(|_| Shares::unknown(of.system())))
}

/// The curve through the limits of the system: all that shares say of a grading. With gravel in it, it
/// ends at the limit of sand, since nobody said how coarse the gravel is.
fn through_limits(of: &Fractions) -> Option<Grading> {
    let limits = of.system().limits();
    let fines = of.clay() + of.silt();
    Grading::new([
        (limits.clay, of.clay()),
        (limits.silt, fines.min(1.0)),
        (limits.sand, (fines + of.sand()).min(1.0)),
    ])
    .ok()
}

/// What the screen holds back of a material: by its trial, else as typed.
fn reject(material: &Material) -> Option<f64> {
    let test = material.screen_test.as_ref();
    let tested = test
        .and_then(crate::check::held_back)
        .map(hodful_quantities::Fraction::get);
    let typed = || material.reject.as_ref().map(|of| of.value().get::<ratio>());
    tested
        .or_else(typed)
        .filter(|share| *share > 0.0 && *share < 1.0)
}

/// How much more room a material takes damp: by its jar, else as typed.
pub(crate) fn bulking(material: &Material) -> Option<hodful_quantities::units::Ratio> {
    let test = material.bulking_test.as_ref();
    let tested = test.and_then(|test| {
        hodful_soils::bulking::of_jar(test.damp.value(), test.flooded.value()).ok()
    });
    tested.or_else(|| material.bulking.as_ref().map(Typed::value))
}

/// Without what a screen holds back, which is gravel as long as there is any.
fn less_gravel(of: &Fractions, reject: f64) -> Option<Fractions> {
    let held = reject.min(of.gravel());
    let left = 1.0 - held;
    Fractions::new(
        of.system(),
        (of.gravel() - held) / left,
        of.sand() / left,
        of.silt() / left,
        of.clay() / left,
    )
    .ok()
}

/// Without its gravel.
fn fine(of: &Fractions) -> Option<Fractions> {
    let fine = of.of_fines()?;
    Fractions::new(of.system(), 0.0, fine.sand, fine.silt, fine.clay).ok()
}

/// A grading past a mesh: what passes, of what passes the mesh. `None` where the curve does not reach it.
fn screened(grading: &Grading, mesh: Length) -> Option<Grading> {
    let through = grading.passing(mesh).filter(|share| *share > 0.0)?;
    let finer = grading
        .points()
        .iter()
        .filter(|p| p.diameter.value < mesh.value);
    let finer = finer.map(|Point { diameter, passing }| (*diameter, (passing / through).min(1.0)));
    Grading::new(finer.chain([(mesh, 1.0)])).ok()
}

/// A jar as it was read.
fn jar_test(typed: &JarTest, system: System) -> Result<jar::JarTest, EcoString> {
    let water = typed.water_depth.as_ref().ok_or(NO_DEPTH)?;
    let (water, temperature) = (water.value(), temperature(typed));
    let given = |time: &Option<Typed<Time>>| time.as_ref().map(Typed::value);
    let read_at = match (given(&typed.sand_marked), given(&typed.silt_marked)) {
        (None, None) => None,
        (sand, silt) => {
            let right = jar::marks(water, temperature, system).map_err(|w| eco_format!("{w}"))?;
            Some((sand.unwrap_or(right.sand), silt.unwrap_or(right.silt)))
        }
    };
    Ok(jar::JarTest {
        system,
        sand: typed.sand.value(),
        silt: typed.silt.value(),
        clay: typed.clay.value(),
        read_at,
        water,
        temperature,
    })
}

fn temperature(typed: &JarTest) -> Celsius {
    typed.temperature.as_ref().map_or(USUAL_WATER, Typed::value)
}

/// When to mark the jar of a soil; `None` without a jar, or where its water is not said.
pub fn marks(soil: &Soil) -> Option<Marks> {
    let typed = soil.jar.as_ref()?;
    let water = typed.water_depth.as_ref()?.value();
    jar::marks(water, temperature(typed), soil.sizes()).ok()
}

/// What the hand says of a soil: the test, its field, and what it suggests or why it cannot be.
pub fn hand(
    tests: &HandTests,
) -> Vec<(
    &'static str,
    &'static str,
    Result<Suggests, field::FieldFault>,
)> {
    let length = |of: &Option<Typed<Length>>| of.as_ref().map(Typed::value);
    let squeeze = tests.squeeze.map(|squeeze| {
        Reading::Ball(match squeeze {
            Squeeze::FallsApart => field::Ball::CannotBeMade,
            Squeeze::Crumbles => field::Ball::Crumbles,
            Squeeze::Hard => field::Ball::HardToCrush,
        })
    });
    let shine = tests.shine.map(|shine| {
        Reading::Cut(match shine {
            Shine::Shiny => field::Shine::Shiny,
            Shine::Dull => field::Shine::Dull,
        })
    });
    [
        ("squeeze", "squeeze", squeeze),
        (
            "ribbon",
            "ribbon",
            length(&tests.ribbon).map(Reading::PressedRibbon),
        ),
        ("roll", "roll", length(&tests.roll).map(Reading::Thread)),
        ("drop", "drop", length(&tests.drop).map(Reading::Drop)),
        ("cut", "shine", shine),
    ]
    .into_iter()
    .filter_map(|(words, field, reading)| Some((words, field, reading?.suggests())))
    .collect()
}
