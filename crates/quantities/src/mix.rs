//! A mix: its yield, and what one volume of mixed plaster takes of each material.
//!
//! Parts are by dry loose volume. Not here: which materials a project has, packages, batches.

use crate::fraction::Fraction;
use crate::units::{Mass, MassDensity, Ratio, Volume, kilogram_per_cubic_meter, ratio};

/// Density of the grains of mineral soil when none is given, kg/m³ (from memory: the usual value
/// of soil mechanics).
pub const USUAL_PARTICLE_DENSITY: f64 = 2650.0;

/// Density of water, kg/m³ (from memory; 998.2 at 20 °C).
pub const WATER_DENSITY: f64 = 1000.0;

/// Lower and upper end of the yields published for mortars, mixed per loose volume.
///
/// 0.75: dry = 1.33 × wet, an Indian site rule, and lime paste with three parts of sand in the
/// *Cyclopedia of Architecture, Carpentry and Building*, art. 93. 0.87: one part of sand to one of
/// paste by the rule of Gillette and Hill, *Concrete Construction Methods and Costs*, 1908. They are
/// for lime and cement; none was found for clay.
pub const PUBLISHED_YIELD: (f64, f64) = (0.75, 0.87);

/// How far wetted sand swells, and the usable share of its voids: Gillette and Hill, *Concrete
/// Construction Methods and Costs*, 1908. Published for cement paste.
pub const SAND_SWELL: f64 = 1.1;
/// See [`SAND_SWELL`].
pub const USABLE_VOIDS: f64 = 0.9;

/// What a material is like as delivered, against the dry and screened state a mix is written in.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Delivery {
    /// Water in it, mass per dry mass.
    pub moisture: Ratio,
    /// Room it takes more when damp, volume per dry volume.
    pub bulking: Ratio,
    /// What the screen holds back, per raw quantity.
    pub reject: Fraction,
    /// What is lost while it lies, per delivered quantity: a heap shrinks, bags spoil.
    pub keeping_loss: Fraction,
}

/// A quantity of a material, loose and by mass.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Quantity {
    /// Loose volume; `None` when its density is not known and only a mass was given.
    pub loose: Option<Volume>,
    /// Mass; `None` when its density is not known and only a volume was given.
    pub mass: Option<Mass>,
}

impl Quantity {
    /// From a loose volume.
    pub fn of_volume(loose: Volume, density: Option<MassDensity>) -> Self {
        Self {
            loose: Some(loose),
            mass: density.map(|d| d * loose),
        }
    }

    /// From a mass.
    pub fn of_mass(mass: Mass, density: Option<MassDensity>) -> Self {
        Self {
            loose: density.map(|d| mass / d),
            mass: Some(mass),
        }
    }

    /// Several times the quantity.
    #[must_use]
    pub fn times(&self, factor: f64) -> Self {
        Self {
            loose: self.loose.map(|v| v * factor),
            mass: self.mass.map(|m| m * factor),
        }
    }

    /// Both together; a side that one of them lacks is lacking in the sum.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        Self {
            loose: self.loose.zip(other.loose).map(|(a, b)| a + b),
            mass: self.mass.zip(other.mass).map(|(a, b)| a + b),
        }
    }

    /// What is left when another is taken off, never below nothing; a side that one of them lacks is lacking.
    ///
    /// ```
    /// use hodful_quantities::mix::Quantity;
    /// use hodful_quantities::units::{Mass, kilogram};
    /// let kg = |value| Quantity { loose: None, mass: Some(Mass::new::<kilogram>(value)) };
    /// assert_eq!(kg(75.0).less(&kg(50.0)), kg(25.0));
    /// assert_eq!(kg(50.0).less(&kg(75.0)), kg(0.0));
    /// ```
    #[must_use]
    pub fn less(&self, other: &Self) -> Self {
        Self {
            loose: less(self.loose, other.loose),
            mass: less(self.mass, other.mass),
        }
    }
}

/// One less the other; nothing when the other is as much.
fn less<T>(one: Option<T>, other: Option<T>) -> Option<T>
where
    T: Copy + Default + PartialOrd + std::ops::Sub<Output = T>,
{
    one.zip(other).map(|(one, other)| {
        if one > other {
            one - other
        } else {
            T::default()
        }
    })
}

impl Delivery {
    /// What must come on site for a dry, screened quantity: raw = screened / (1 − reject), delivered =
    /// raw / (1 − keeping loss), then volume × (1 + bulking) and mass × (1 + moisture).
    ///
    /// Source of bulking: Central Public Works Department (India), *Specifications*, app. D.
    #[must_use]
    pub fn as_delivered(&self, dry: &Quantity) -> Quantity {
        let raw = dry.times(1.0 / self.reject.left() / self.keeping_loss.left());
        Quantity {
            loose: raw.loose.map(|v| v * (1.0 + self.bulking.get::<ratio>())),
            mass: raw.mass.map(|m| m * (1.0 + self.moisture.get::<ratio>())),
        }
    }

    /// The same material past the screen, as it is measured into the mixer: damp, not raw.
    #[must_use]
    pub fn at_the_mixer(&self, dry: &Quantity) -> Quantity {
        Self {
            reject: Fraction::ZERO,
            keeping_loss: Fraction::ZERO,
            ..*self
        }
        .as_delivered(dry)
    }
}

/// A mineral material in a mix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mineral {
    /// Parts by dry loose volume; not negative.
    pub parts: f64,
    /// Whether it is sand, whose voids the paste fills.
    pub sand: bool,
    /// Dry mass per loose volume.
    pub loose_density: Option<MassDensity>,
    /// Mass per volume of the grains; [`USUAL_PARTICLE_DENSITY`] when not given.
    pub particle_density: Option<MassDensity>,
    /// Room between the grains; from the two densities when not given.
    pub void_fraction: Option<Ratio>,
    /// Clay, mass per dry mass.
    pub clay: Option<Ratio>,
    /// Water already in it, mass per dry mass.
    pub moisture: Ratio,
}

impl Mineral {
    /// Mass per volume of the grains.
    pub fn grains(&self) -> MassDensity {
        self.particle_density
            .unwrap_or_else(|| MassDensity::new::<kilogram_per_cubic_meter>(USUAL_PARTICLE_DENSITY))
    }

    /// Room between the grains, per loose volume; `None` without a loose density or a stated value.
    pub fn voids(&self) -> Option<f64> {
        match self.void_fraction {
            Some(v) => Some(v.get::<ratio>()),
            None => self
                .loose_density
                .map(|d| 1.0 - (d / self.grains()).get::<ratio>()),
        }
    }
}

/// Fibre or binder in a mix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Additive {
    /// How much.
    pub dose: AdditiveDose,
    /// Dry mass per loose volume.
    pub loose_density: Option<MassDensity>,
    /// Mass per volume of the stuff itself; when not given it is taken to add no volume.
    pub particle_density: Option<MassDensity>,
    /// Water already in it, mass per dry mass.
    pub moisture: Ratio,
}

/// How an additive is dosed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AdditiveDose {
    /// Mass per mixed volume.
    PerMixed(MassDensity),
    /// Mass per loose dry volume of the minerals together.
    PerLoose(MassDensity),
    /// Loose parts on the scale of the mineral parts.
    Parts(f64),
}

/// A mix, checked: at least one mineral with parts, everything finite and not negative.
#[derive(Debug, Clone, PartialEq)]
pub struct Mix {
    minerals: Vec<Mineral>,
    additives: Vec<Additive>,
    water: Option<Ratio>,
    air: Fraction,
    trial: Option<Trial>,
}

/// A trial batch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trial {
    /// Dry loose volume of the minerals, or their dry mass.
    pub loose: TrialInput,
    /// Plaster it made.
    pub mixed: Volume,
}

/// What went into a trial batch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TrialInput {
    /// Dry loose volume of the minerals together.
    Loose(Volume),
    /// Dry mass of the minerals together.
    Mass(Mass),
}

/// Why a mix is not one, or why its yield cannot be told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum MixFault {
    /// No parts, or parts that sum to nothing.
    #[error("the parts add up to 0; give at least one of the dry materials a part")]
    NoParts,
    /// Neither a trial batch nor what absolute volumes need.
    #[error(
        "the yield cannot be told; give a trial_batch, or loose_density of every part and the water"
    )]
    NoYield,
    /// A trial batch weighed in without loose densities to turn the mass into loose volume.
    #[error("the trial batch is weighed; give loose_density of every part, or measure it loose")]
    TrialNeedsDensity,
    /// A trial batch that made nothing or took nothing.
    #[error("the trial batch must take and make more than nothing")]
    EmptyTrial,
    /// Doses and air that leave no room for the rest.
    #[error("fibre, binder and air leave no room for anything else in the mixed volume")]
    NoRoom,
}

/// The yield of a mix: mixed volume per dry loose volume of its minerals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Yield {
    /// The yield that is used.
    pub value: Ratio,
    /// A trial batch behind it, as loose and mixed volume; `None` for absolute volumes.
    pub trial: Option<(Volume, Volume)>,
    /// The computed one, for comparison when a trial batch stands, with its terms.
    pub absolute: Option<AbsoluteVolumes>,
}

/// The yield by absolute volumes; every term is for the loose volume `loose` of minerals.
///
/// `V = (Σ m/ρ + water + additives) / (1 − air − Σ dose/ρ)`, but not less than 1.1 times the sand:
/// wetted sand stands so high however little paste lies between its grains. The floor holds on both
/// sides of the point where paste fills the voids, so that the yield does not jump there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AbsoluteVolumes {
    /// Dry loose volume of the minerals: 1 m³.
    pub loose: Volume,
    /// Dry mass of the minerals.
    pub dry_mass: Mass,
    /// The grains themselves.
    pub solids: Volume,
    /// All water of the mix.
    pub water: Volume,
    /// Fibre and binder dosed by parts or per loose volume.
    pub additives: Volume,
    /// Air, and fibre and binder dosed per mixed volume, as a share of the mixed volume.
    pub air_and_dosed: f64,
    /// All of it as mixed.
    pub whole: Volume,
    /// Loose sand.
    pub sand: Volume,
    /// Room between its grains.
    pub sand_voids: Volume,
    /// Fines and water.
    pub paste: Volume,
    /// Whether the paste fills the usable voids.
    pub paste_fills: bool,
    /// The mixed volume that counts.
    pub mixed: Volume,
}

impl Mix {
    /// Checks a mix.
    ///
    /// # Errors
    /// [`MixFault::NoParts`] and [`MixFault::EmptyTrial`]; negative or non-finite numbers count as
    /// nothing there, and are to be refused with their place before.
    pub fn new(
        minerals: Vec<Mineral>,
        additives: Vec<Additive>,
        water: Option<Ratio>,
        air: Fraction,
        trial: Option<Trial>,
    ) -> Result<Self, MixFault> {
        let sum: f64 = minerals.iter().map(|m| m.parts).sum();
        if !(sum.is_finite() && sum > 0.0 && minerals.iter().all(|m| m.parts >= 0.0)) {
            return Err(MixFault::NoParts);
        }
        if let Some(trial) = &trial {
            let input = match trial.loose {
                TrialInput::Loose(volume) => volume.value,
                TrialInput::Mass(mass) => mass.value,
            };
            let made = trial.mixed.value;
            if !(input.is_finite() && input > 0.0 && made.is_finite() && made > 0.0) {
                return Err(MixFault::EmptyTrial);
            }
        }
        Ok(Self {
            minerals,
            additives,
            water,
            air,
            trial,
        })
    }

    /// Sum of the parts; above nothing.
    pub fn sum_of_parts(&self) -> f64 {
        self.minerals.iter().map(|m| m.parts).sum()
    }

    /// The minerals, in order.
    pub fn minerals(&self) -> &[Mineral] {
        &self.minerals
    }

    /// Water of the mix, mass per dry mass of minerals.
    pub fn water(&self) -> Option<Ratio> {
        self.water
    }

    /// Dry mass per dry loose volume of the minerals together; `None` when a density is missing.
    pub fn loose_density(&self) -> Option<MassDensity> {
        let sum = self.sum_of_parts();
        self.minerals
            .iter()
            .filter(|m| m.parts > 0.0)
            .map(|m| m.loose_density.map(|d| d * (m.parts / sum)))
            .sum()
    }

    /// Clay in the dry minerals, by mass; `None` when a share or a density is missing.
    ///
    /// ```
    /// # use hodful_quantities::{mix::*, Fraction, units::*};
    /// // Soil with 27 % clay and sand 1.6 times as dense, 1 : 1.5 by volume (Taylor, Vardy and
    /// // MacDougall, Queen's University, 2006): 27 / 3.4 = 7.94 %.
    /// let density = |d| Some(MassDensity::new::<kilogram_per_cubic_meter>(d));
    /// let part = |parts, d, clay| Mineral {
    ///     parts, sand: clay == 0.0, loose_density: density(d), particle_density: None,
    ///     void_fraction: None, clay: Some(Ratio::new::<percent>(clay)), moisture: Ratio::default(),
    /// };
    /// let minerals = vec![part(1.0, 1000.0, 27.0), part(1.5, 1600.0, 0.0)];
    /// let mix = Mix::new(minerals, vec![], None, Fraction::ZERO, None).unwrap();
    /// assert!((mix.clay().unwrap().get::<percent>() - 7.94).abs() < 0.005);
    /// ```
    pub fn clay(&self) -> Option<Ratio> {
        let sum = self.sum_of_parts();
        let clay: MassDensity = self
            .minerals
            .iter()
            .filter(|m| m.parts > 0.0)
            .map(|m| {
                m.loose_density
                    .zip(m.clay)
                    .map(|(d, c)| d * c * (m.parts / sum))
            })
            .sum::<Option<_>>()?;
        Some(clay / self.loose_density()?)
    }

    /// The yield: from the trial batch, else by absolute volumes.
    ///
    /// # Errors
    /// [`MixFault::NoYield`], [`MixFault::TrialNeedsDensity`] or [`MixFault::NoRoom`].
    pub fn yield_ratio(&self) -> Result<Yield, MixFault> {
        let absolute = self.absolute_volumes();
        let Some(trial) = &self.trial else {
            let absolute = absolute?;
            return Ok(Yield {
                value: absolute.mixed / absolute.loose,
                trial: None,
                absolute: Some(absolute),
            });
        };
        let loose = match trial.loose {
            TrialInput::Loose(volume) => volume,
            TrialInput::Mass(mass) => {
                mass / self.loose_density().ok_or(MixFault::TrialNeedsDensity)?
            }
        };
        let value = trial.mixed / loose;
        Ok(Yield {
            value,
            trial: Some((loose, trial.mixed)),
            absolute: absolute.ok(),
        })
    }

    fn absolute_volumes(&self) -> Result<AbsoluteVolumes, MixFault> {
        let loose = Volume::new::<crate::units::cubic_meter>(1.0);
        let sum = self.sum_of_parts();
        let dry_mass = self.loose_density().ok_or(MixFault::NoYield)? * loose;
        let water = dry_mass * self.water.ok_or(MixFault::NoYield)?
            / MassDensity::new::<kilogram_per_cubic_meter>(WATER_DENSITY);
        let mut solids = Volume::default();
        let (mut sand, mut sand_solids, mut sand_voids) = <(Volume, Volume, Volume)>::default();
        for m in self.minerals.iter().filter(|m| m.parts > 0.0) {
            let volume = loose * (m.parts / sum);
            let grains = m.loose_density.ok_or(MixFault::NoYield)? * volume / m.grains();
            solids += grains;
            if m.sand {
                sand += volume;
                sand_solids += grains;
                sand_voids += volume * m.voids().ok_or(MixFault::NoYield)?;
            }
        }
        let mut additives = Volume::default();
        let mut air_and_dosed = self.air.get();
        for additive in &self.additives {
            let Some(own) = additive.particle_density else {
                continue;
            };
            match additive.dose {
                AdditiveDose::PerMixed(dose) => air_and_dosed += (dose / own).get::<ratio>(),
                AdditiveDose::PerLoose(dose) => additives += dose * loose / own,
                AdditiveDose::Parts(parts) => {
                    if let Some(density) = additive.loose_density {
                        additives += density * (loose * (parts / sum)) / own;
                    }
                }
            }
        }
        if !(0.0..1.0).contains(&air_and_dosed) {
            return Err(MixFault::NoRoom);
        }
        let whole = (solids + water + additives) / (1.0 - air_and_dosed);
        let paste = solids - sand_solids + water;
        let paste_fills = paste >= sand_voids * USABLE_VOIDS;
        let swollen = sand * SAND_SWELL;
        let mixed = if whole > swollen { whole } else { swollen };
        Ok(AbsoluteVolumes {
            loose,
            dry_mass,
            solids,
            water,
            additives,
            air_and_dosed,
            whole,
            sand,
            sand_voids,
            paste,
            paste_fills,
            mixed,
        })
    }
}

/// What a volume of mixed plaster takes, dry and screened.
#[derive(Debug, Clone, PartialEq)]
pub struct Recipe {
    /// Dry loose volume of the minerals together.
    pub loose: Volume,
    /// Each mineral, in the order of the mix.
    pub minerals: Vec<Quantity>,
    /// Each additive, in the order of the mix.
    pub additives: Vec<Quantity>,
    /// Water.
    pub water: Option<WaterNeed>,
}

/// Water of a volume of mixed plaster.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterNeed {
    /// All water in the mix.
    pub target: Mass,
    /// What the materials bring with them.
    pub in_materials: Mass,
}

impl WaterNeed {
    /// What is left to add; nothing when the materials bring more than the mix wants.
    pub fn to_add(&self) -> Mass {
        if self.target > self.in_materials {
            self.target - self.in_materials
        } else {
            Mass::default()
        }
    }
}

impl Mix {
    /// What `mixed` of plaster takes at this yield (mixed per loose; above nothing).
    pub fn recipe(&self, mixed: Volume, at: Ratio) -> Recipe {
        let loose = mixed / at;
        let sum = self.sum_of_parts();
        let share = |parts: f64| loose * (parts / sum);
        let minerals: Vec<Quantity> = self
            .minerals
            .iter()
            .map(|m| Quantity::of_volume(share(m.parts), m.loose_density))
            .collect();
        let additives: Vec<Quantity> = self
            .additives
            .iter()
            .map(|a| match a.dose {
                AdditiveDose::PerMixed(dose) => Quantity::of_mass(dose * mixed, a.loose_density),
                AdditiveDose::PerLoose(dose) => Quantity::of_mass(dose * loose, a.loose_density),
                AdditiveDose::Parts(parts) => Quantity::of_volume(share(parts), a.loose_density),
            })
            .collect();
        let held = |(quantity, moisture): (&Quantity, Ratio)| {
            if moisture == Ratio::default() {
                return Some(Mass::default());
            }
            quantity.mass.map(|mass| mass * moisture)
        };
        let in_minerals = minerals
            .iter()
            .zip(self.minerals.iter().map(|m| m.moisture));
        let in_additives = additives
            .iter()
            .zip(self.additives.iter().map(|a| a.moisture));
        let in_materials = in_minerals
            .chain(in_additives)
            .map(held)
            .sum::<Option<Mass>>();
        let water = self.water.zip(self.loose_density()).zip(in_materials).map(
            |((water, density), in_materials)| WaterNeed {
                target: density * loose * water,
                in_materials,
            },
        );
        Recipe {
            loose,
            minerals,
            additives,
            water,
        }
    }
}
