//! The card beside the mixer: what one full batch takes, counted as the crew counts, in the order in which
//! it goes in; how many batches; and what the last, smaller one takes. Not here: the recipe, and how the
//! card looks.

pub mod said;

use crate::checked::{CheckedMaterial, Site};
use crate::evaluate::{CoatFigures, Evaluation};
use crate::project::{Coat, MaterialKind, Name, Project};
use hodful_quantities::mix::Quantity;
use hodful_quantities::units::{Volume, ratio};
use hodful_quantities::{Counted, Fraction};
use std::iter::zip;

/// Water that is held back until the mix has turned, when nothing is said, per water to add: common
/// practice, no source; how wet the sand lies is never known to the last bucket.
pub const USUAL_HOLD_BACK: f64 = 0.2;

/// What the cup for binder holds when nothing is said: a cup of the United States, 8 fl oz, and the
/// metric cup of 250 mL (from memory).
fn usual_cup(units: hodful_quantities::print::UnitSystem) -> Volume {
    use hodful_quantities::print::UnitSystem;
    use hodful_quantities::units::{gallon, milliliter};
    match units {
        UnitSystem::Us => Volume::new::<gallon>(1.0 / 16.0),
        UnitSystem::Metric => Volume::new::<milliliter>(250.0),
    }
}

/// The card of one mix.
#[derive(Debug, Clone, PartialEq)]
pub struct Card<'p> {
    /// The mix.
    pub mix: &'p Name,
    /// Mixed plaster that a full batch makes.
    pub makes: Volume,
    /// What goes in, in the order of loading: what is dry first, sand before the rest, fibre after it,
    /// water last (common practice, no source).
    pub loads: Vec<Load<'p>>,
    /// Water, when the mix has any.
    pub water: Option<Water>,
    /// The coats that are made of it.
    pub coats: Vec<CoatBatches<'p>>,
}

/// What goes in of one material.
#[derive(Debug, Clone, PartialEq)]
pub struct Load<'p> {
    /// The material.
    pub material: &'p Name,
    /// Its kind.
    pub kind: MaterialKind,
    /// Damp and past the screen, as it is measured into the mixer.
    pub quantity: Quantity,
    /// In buckets and shovels.
    pub counted: Counted,
    /// In handfuls, to the nearest whole one, where a handful was weighed.
    pub handfuls: Option<u64>,
    /// In cups, to the nearest quarter, as quarters; for binder whose density is known.
    pub cup_quarters: Option<u64>,
}

/// Water of a batch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Water {
    /// What is to be added, in all.
    pub to_add: Volume,
    /// What of it is held back until the mix has turned.
    pub held_back: Volume,
    /// All of it, and what goes in at once, in buckets.
    pub counted: Counted,
    /// What goes in at once, in buckets.
    pub first_counted: Counted,
    /// Whether how much is held back was said.
    pub is_said: bool,
}

/// The batches of one coat.
#[derive(Debug, Clone, PartialEq)]
pub struct CoatBatches<'p> {
    /// The build-up.
    pub build_up: &'p Name,
    /// The coat.
    pub coat: &'p Coat,
    /// Times the mixer is loaded, the last perhaps not full.
    pub batches: u64,
    /// The last, as a share of a full one.
    pub last: f64,
    /// What the last takes, when it is not full.
    pub last_loads: Vec<Load<'p>>,
    /// Water of the last, when it is not full.
    pub last_water: Option<Water>,
    /// Days, rounded up, where the batches of a day are known.
    pub days: Option<u64>,
}

/// The card of every mix that a coat on a wall is made of; none without a mixer.
pub(crate) fn cards<'p>(
    project: &'p Project,
    site: &Site,
    evaluation: &Evaluation,
) -> Vec<Card<'p>> {
    let Some(mixer) = &site.mixer else {
        return Vec::new();
    };
    let sheet = Sheet { project, site };
    let mixes = project.mixes.keys().filter_map(|mix| {
        let coats: Vec<_> = coats(project, evaluation)
            .filter(|(_, coat, _)| coat.mix == *mix)
            .collect();
        if coats.is_empty() {
            return None;
        }
        let (loads, water) = sheet.batch(mix, 1.0)?;
        let coats = coats.into_iter().filter_map(|(build_up, coat, figures)| {
            let batches = figures.batches.as_ref()?;
            let is_full = batches.last >= 1.0 || batches.loads == 0;
            let part = (!is_full).then(|| sheet.batch(mix, batches.last)).flatten();
            let (last_loads, last_water) = part.unwrap_or_default();
            Some(CoatBatches {
                build_up,
                coat,
                batches: batches.loads,
                last: batches.last,
                last_loads,
                last_water,
                days: mixer.batches_per_day.and_then(|a_day| {
                    #[allow(clippy::cast_precision_loss, reason = "counts stay below 2^53")]
                    hodful_quantities::order::round_up(batches.loads as f64 / a_day)
                }),
            })
        });
        Some(Card {
            mix,
            makes: mixer.working_volume,
            loads,
            water,
            coats: coats.collect(),
        })
    });
    mixes.collect()
}

/// Every coat that is on some face, with its figures.
fn coats<'p, 'e>(
    project: &'p Project,
    evaluation: &'e Evaluation,
) -> impl Iterator<Item = (&'p Name, &'p Coat, &'e CoatFigures)> {
    zip(&project.build_ups, &evaluation.coats).flat_map(|((name, coats), figures)| {
        zip(coats, figures)
            .filter_map(|(coat, figures)| Some((coat, figures.as_ref()?)))
            .filter(|(_, figures)| figures.volume.placed.value > 0.0)
            .map(move |(coat, figures)| (name, coat, figures))
    })
}

/// What the counting needs.
struct Sheet<'p, 's> {
    project: &'p Project,
    site: &'s Site,
}

impl<'p> Sheet<'p, '_> {
    /// What a share of a full batch takes.
    fn batch(&self, mix: &str, share: f64) -> Option<(Vec<Load<'p>>, Option<Water>)> {
        let all = self.site.batch_of(self.project, mix);
        if all.is_empty() {
            return None;
        }
        let mut loads: Vec<Load<'p>> = Vec::new();
        let mut water = None;
        for (name, quantity) in all {
            let (at, _, material) = self.project.materials.get_full(name)?;
            let quantity = quantity.times(share);
            if material.kind == MaterialKind::Water {
                water = quantity.loose.map(|to_add| self.water(to_add));
                continue;
            }
            let checked = self.site.materials.get(at)?;
            loads.push(self.load(name, checked, quantity));
        }
        loads.sort_by_key(|load| turn(load.kind));
        Some((loads, water))
    }

    fn load(&self, material: &'p Name, of: &CheckedMaterial, quantity: Quantity) -> Load<'p> {
        let mixer = self.site.mixer.as_ref();
        let bucket = mixer.and_then(|mixer| mixer.bucket);
        let shovel = of.shovel.or_else(|| mixer.and_then(|mixer| mixer.shovel));
        let counted = match quantity.loose {
            Some(loose) => Counted::new(loose, bucket, shovel),
            None => Counted {
                bucket_quarters: None,
                shovels: None,
            },
        };
        let handfuls = of
            .handful
            .zip(quantity.mass)
            .and_then(|(one, mass)| whole(mass / one));
        let is_binder = of.kind == MaterialKind::Binder;
        let cup = mixer.and_then(|mixer| mixer.cup);
        let cup = cup.unwrap_or_else(|| usual_cup(self.project.units));
        let cups = quantity.loose.filter(|_| is_binder);
        let cup_quarters =
            cups.and_then(|loose| Counted::new(loose, Some(cup), None).bucket_quarters);
        Load {
            material,
            kind: of.kind,
            quantity,
            counted,
            handfuls,
            cup_quarters,
        }
    }

    fn water(&self, to_add: Volume) -> Water {
        let mixer = self.site.mixer.as_ref();
        let said = mixer.and_then(|mixer| mixer.hold_back);
        let held = to_add * said.map_or(USUAL_HOLD_BACK, Fraction::get);
        let bucket = mixer.and_then(|mixer| mixer.bucket);
        Water {
            to_add,
            held_back: held,
            counted: Counted::new(to_add, bucket, None),
            first_counted: Counted::new(to_add - held, bucket, None),
            is_said: said.is_some(),
        }
    }
}

/// The nearest whole number; `None` past counting.
fn whole(of: hodful_quantities::units::Ratio) -> Option<u64> {
    let nearest = (of.get::<ratio>() + 0.5).floor();
    hodful_quantities::order::round_up(nearest)
}

/// The turn of a kind in the order of loading.
fn turn(kind: MaterialKind) -> u8 {
    match kind {
        MaterialKind::Sand => 0,
        MaterialKind::Premix => 1,
        MaterialKind::Soil => 2,
        MaterialKind::Clay => 3,
        MaterialKind::Lime | MaterialKind::Cement => 4,
        MaterialKind::Binder => 5,
        MaterialKind::Fibre => 6,
        MaterialKind::Water => 7,
    }
}
