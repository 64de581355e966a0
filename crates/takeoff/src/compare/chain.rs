//! From surfaces to the order without rounding, as a function of groups of inputs that are each taken from
//! one project or from the other. Not here: sharing out the difference (see `causes`).
//!
//! Coats are the same by the names of their build-up and of themselves, materials by name. What is on one
//! side only takes what it needs of the chain from that side: a coat that is not there takes nothing; a
//! build-up that is not there has no surface.

use super::{Line, One};
use crate::checked::{CheckedMaterial, CheckedMix};
use crate::evaluate::CoatFigures;
use crate::project::Name;
use hodful_quantities::mix::{Delivery, Quantity};
use hodful_quantities::order::{Holds, Offer};
use hodful_quantities::units::{Ratio, Volume};
use hodful_quantities::{CoatVolume, Fraction};

/// Groups of inputs that differ together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Group {
    Surface,
    DubbingOut,
    Coats,
    Thickness,
    Shrinkage,
    Loss,
    Mix,
    Yield,
    Damp,
    Screen,
    Stock,
    Prices,
    Mixer,
}

/// How many groups there are.
pub(super) const GROUPS: usize = 13;

impl Group {
    const ALL: [Self; GROUPS] = [
        Self::Surface,
        Self::DubbingOut,
        Self::Coats,
        Self::Thickness,
        Self::Shrinkage,
        Self::Loss,
        Self::Mix,
        Self::Yield,
        Self::Damp,
        Self::Screen,
        Self::Stock,
        Self::Prices,
        Self::Mixer,
    ];
}

/// Parts of a value that add up to it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    Flat,
    Edges,
    First,
    Stock,
}

/// How many parts there are.
pub(super) const PARTS: usize = 4;

impl Part {
    pub(super) const ALL: [Self; PARTS] = [Self::Flat, Self::Edges, Self::First, Self::Stock];
}

/// A value on each side.
#[derive(Debug, Clone, Copy)]
struct Both<T>([T; 2]);

impl<T: Copy> Both<T> {
    fn of(self, sides: &[bool; GROUPS], group: Group) -> T {
        let [a, b] = self.0;
        if sides.get(group as usize) == Some(&true) {
            b
        } else {
            a
        }
    }

    /// The same from both when it is there on one only.
    fn mend(of: [Option<T>; 2]) -> Option<Self> {
        match of {
            [Some(a), Some(b)] => Some(Self([a, b])),
            [Some(one), None] | [None, Some(one)] => Some(Self([one, one])),
            [None, None] => None,
        }
    }

    fn map<U>(self, f: impl Fn(T) -> U) -> Both<U> {
        Both(self.0.map(f))
    }
}

/// One coat of one build-up.
#[derive(Debug)]
struct Coat {
    name: (Name, Name),
    area: Both<f64>,
    growth: Both<f64>,
    /// Depth over the area that only the first coat carries.
    depth: Both<f64>,
    is_there: Both<bool>,
    from: Both<f64>,
    thickness: Both<f64>,
    shrinkage: Both<Fraction>,
    loss: Both<Fraction>,
    yielded: Both<Ratio>,
    /// What a volume of mixed plaster takes of each material, by side of the mix, then of the yield.
    takes: [[Vec<Option<Quantity>>; 2]; 2],
    /// The mixes differ.
    mixes_differ: bool,
}

/// One material.
#[derive(Debug)]
struct Material {
    name: Name,
    moisture: Both<Ratio>,
    bulking: Both<Ratio>,
    reject: Both<Fraction>,
    keeping_loss: Both<Fraction>,
    stock: Both<Quantity>,
    /// Price, and packages, of a unit of volume or mass.
    price: Both<Option<PerUnit>>,
    package: Both<Option<PerUnit>>,
}

/// So much for each unit of a measure.
#[derive(Debug, Clone, Copy, PartialEq)]
enum PerUnit {
    Volume(f64),
    Mass(f64),
}

impl PerUnit {
    fn of(self, need: &Quantity) -> Option<f64> {
        Some(match self {
            Self::Volume(each) => need.loose?.value * each,
            Self::Mass(each) => need.mass?.value * each,
        })
    }
}

/// Two projects, aligned.
#[derive(Debug)]
pub(super) struct Chain {
    coats: Vec<Coat>,
    materials: Vec<Material>,
    working: Option<Both<f64>>,
}

/// A volume that everything in proportion to it is worked out for, mm³.
const UNIT: f64 = 1.0e9;

fn volume(mm3: f64) -> Volume {
    Volume {
        value: mm3,
        ..Volume::default()
    }
}

impl Chain {
    /// Two projects; `None` where a coat that is on some face cannot be told.
    pub(super) fn between(a: &One<'_>, b: &One<'_>) -> Option<Self> {
        let both = [a, b];
        let mut names: Vec<Name> = Vec::new();
        for name in both.iter().flat_map(|one| one.project.materials.keys()) {
            if !names.contains(name) {
                names.push(name.clone());
            }
        }
        let mut keys: Vec<(Name, Name)> = Vec::new();
        for (build_up, coats) in both.iter().flat_map(|one| &one.project.build_ups) {
            for coat in coats {
                let key = (build_up.clone(), coat.coat.clone());
                if !keys.contains(&key) {
                    keys.push(key);
                }
            }
        }
        let coats = keys
            .into_iter()
            .filter_map(|key| coat(both, &names, key).transpose())
            .collect::<Result<_, Untold>>()
            .ok()?;
        let materials = names
            .iter()
            .map(|name| material(both, name))
            .collect::<Option<_>>()?;
        let working = both.map(|one| one.site.mixer.map(|mixer| mixer.working_volume.value));
        Some(Self {
            coats,
            materials,
            working: Both::mend(working),
        })
    }

    /// The groups in which the projects differ.
    pub(super) fn active(&self) -> Vec<Group> {
        let number = |both: &Both<f64>| both.0[0].to_bits() != both.0[1].to_bits();
        let share = |both: &Both<Ratio>| number(&both.map(|of| of.value));
        let fraction = |both: &Both<Fraction>| number(&both.map(Fraction::get));
        let coats = |f: &dyn Fn(&Coat) -> bool| self.coats.iter().any(f);
        let materials = |f: &dyn Fn(&Material) -> bool| self.materials.iter().any(f);
        let differs = |group: &Group| match group {
            Group::Surface => coats(&|c| number(&c.area) || number(&c.growth)),
            Group::DubbingOut => coats(&|c| number(&c.depth)),
            Group::Coats => coats(&|c| c.is_there.0[0] != c.is_there.0[1]),
            Group::Thickness => coats(&|c| number(&c.thickness) || number(&c.from)),
            Group::Shrinkage => coats(&|c| fraction(&c.shrinkage)),
            Group::Loss => coats(&|c| fraction(&c.loss)),
            Group::Mix => coats(&|c| c.mixes_differ),
            Group::Yield => coats(&|c| share(&c.yielded)),
            Group::Damp => materials(&|m| share(&m.moisture) || share(&m.bulking)),
            Group::Screen => materials(&|m| fraction(&m.reject) || fraction(&m.keeping_loss)),
            Group::Stock => materials(&|m| m.stock.0[0] != m.stock.0[1]),
            Group::Prices => {
                materials(&|m| m.price.0[0] != m.price.0[1] || m.package.0[0] != m.package.0[1])
            }
            Group::Mixer => self.working.as_ref().is_some_and(number),
        };
        Group::ALL.into_iter().filter(differs).collect()
    }

    /// The value of a line without rounding, by parts.
    pub(super) fn value(&self, line: &Line, sides: &[bool; GROUPS]) -> Option<[f64; PARTS]> {
        match line {
            Line::Placed { build_up, coat } => {
                Some(self.coat_sum(sides, Some((build_up, coat)), false))
            }
            Line::Mixed { build_up, coat } => {
                Some(self.coat_sum(sides, Some((build_up, coat)), true))
            }
            Line::AllPlaced => Some(self.coat_sum(sides, None, false)),
            Line::AllMixed => Some(self.coat_sum(sides, None, true)),
            Line::Batches => {
                let working = self.working?.of(sides, Group::Mixer);
                let mixed = self.coat_sum(sides, None, true);
                Some(mixed.map(|part| part / working))
            }
            Line::Loose(name) => self.need(name, sides, |need| Some(need.loose?.value)),
            Line::Mass(name) => self.need(name, sides, |need| Some(need.mass?.value)),
            Line::Packages(name) => match self.materials.iter().position(|m| m.name == *name) {
                Some(at) => self.to_buy(at, sides, |of| of.package),
                None => Some([0.0; PARTS]),
            },
            Line::Cost => {
                let mut sum = [0.0; PARTS];
                for at in 0..self.materials.len() {
                    let of = self.materials.get(at)?;
                    if of.price.of(sides, Group::Prices).is_none() {
                        continue;
                    }
                    let cost = self.to_buy(at, sides, |of| of.price)?;
                    for (sum, cost) in sum.iter_mut().zip(cost) {
                        *sum += cost;
                    }
                }
                Some(sum)
            }
            Line::Surface | Line::Payment | Line::Trips | Line::Bought => None,
        }
    }

    fn coat_sum(
        &self,
        sides: &[bool; GROUPS],
        only: Option<(&Name, &Name)>,
        mixed: bool,
    ) -> [f64; PARTS] {
        let mut sum = [0.0; PARTS];
        let wanted = |c: &&Coat| only.is_none_or(|(b, of)| c.name.0 == *b && c.name.1 == *of);
        for coat in self.coats.iter().filter(wanted) {
            for (sum, part) in sum.iter_mut().zip(coat.volumes(sides, mixed)) {
                *sum += part;
            }
        }
        sum
    }

    /// What is needed of a material as delivered, part by part.
    fn needs(&self, at: usize, sides: &[bool; GROUPS]) -> Option<[Option<Quantity>; PARTS]> {
        let material = self.materials.get(at)?;
        let delivery = material.delivery(sides);
        let mut sum = [None; PARTS];
        for coat in &self.coats {
            let side = |group: Group| usize::from(sides.get(group as usize) == Some(&true));
            let takes = coat.takes.get(side(Group::Mix))?.get(side(Group::Yield))?;
            let Some(takes) = takes.get(at).copied().flatten() else {
                continue;
            };
            for (sum, part) in sum.iter_mut().zip(coat.volumes(sides, true)) {
                let need = delivery.as_delivered(&takes.times(part / UNIT));
                *sum = Some(match *sum {
                    None => need,
                    Some(of) => need.plus(&of),
                });
            }
        }
        Some(sum)
    }

    fn need(
        &self,
        name: &Name,
        sides: &[bool; GROUPS],
        of: impl Fn(&Quantity) -> Option<f64>,
    ) -> Option<[f64; PARTS]> {
        let mut values = [0.0; PARTS];
        let Some(at) = self.materials.iter().position(|m| m.name == *name) else {
            return Some(values);
        };
        for (value, need) in values.iter_mut().zip(self.needs(at, sides)?) {
            if let Some(need) = need {
                *value = of(&need)?;
            }
        }
        Some(values)
    }

    /// What is needed less what lies in the yard, in packages or money.
    fn to_buy(
        &self,
        at: usize,
        sides: &[bool; GROUPS],
        each: impl Fn(&Material) -> Both<Option<PerUnit>>,
    ) -> Option<[f64; PARTS]> {
        let material = self.materials.get(at)?;
        let Some(each) = each(material).of(sides, Group::Prices) else {
            return Some([0.0; PARTS]);
        };
        let mut values = [0.0; PARTS];
        let needs = self.needs(at, sides)?;
        for (value, need) in values.iter_mut().zip(&needs) {
            if let Some(need) = need {
                *value = each.of(need)?;
            }
        }
        if needs.iter().any(Option::is_some)
            && let Some(stock) = values.last_mut()
        {
            *stock = -each.of(&material.stock.of(sides, Group::Stock))?;
        }
        Some(values)
    }
}

impl Coat {
    /// Its volumes by parts, placed or mixed, mm³.
    fn volumes(&self, sides: &[bool; GROUPS], mixed: bool) -> [f64; PARTS] {
        if !self.is_there.of(sides, Group::Coats) {
            return [0.0; PARTS];
        }
        let area = self.area.of(sides, Group::Surface);
        let t = self.thickness.of(sides, Group::Thickness);
        let from = self.from.of(sides, Group::Thickness);
        let growth = self.growth.of(sides, Group::Surface);
        let placed = [
            area * t,
            growth * t * (2.0 * from + t) / 2.0,
            area * self.depth.of(sides, Group::DubbingOut),
            0.0,
        ];
        if !mixed {
            return placed;
        }
        let shrinkage = self.shrinkage.of(sides, Group::Shrinkage);
        let loss = self.loss.of(sides, Group::Loss);
        placed.map(|part| CoatVolume::new(volume(part), shrinkage, loss).mixed.value)
    }
}

impl Material {
    fn delivery(&self, sides: &[bool; GROUPS]) -> Delivery {
        Delivery {
            moisture: self.moisture.of(sides, Group::Damp),
            bulking: self.bulking.of(sides, Group::Damp),
            reject: self.reject.of(sides, Group::Screen),
            keeping_loss: self.keeping_loss.of(sides, Group::Screen),
        }
    }
}

/// A coat as one side has it.
struct OneCoat<'p> {
    figures: &'p CoatFigures,
    shrinkage: Fraction,
    loss: Fraction,
    mix: &'p CheckedMix,
}

/// What a side has of a coat.
enum Seen<'p> {
    /// It, or nothing of it though the build-up is there.
    Here(Option<OneCoat<'p>>),
    /// Not even its build-up.
    NoBuildUp,
}

/// `None` where it cannot be told.
fn seen<'p>(one: &One<'p>, (build_up, coat): &(Name, Name)) -> Option<Seen<'p>> {
    let Some((b, _, coats)) = one.project.build_ups.get_full(build_up) else {
        return Some(Seen::NoBuildUp);
    };
    let Some(c) = coats.iter().position(|of| of.coat == *coat) else {
        return Some(Seen::Here(None));
    };
    let checked = one.site.build_ups.get(b)?.get(c)?.coat.as_ref()?;
    Some(Seen::Here(Some(OneCoat {
        figures: one.evaluation.coats.get(b)?.get(c)?.as_ref()?,
        shrinkage: checked.shrinkage,
        loss: checked.loss,
        mix: one.site.mix(checked.mix)?,
    })))
}

/// Something that is on a face cannot be told.
struct Untold;

/// A coat on both sides; none that is refused and on no face.
fn coat(both: [&One<'_>; 2], names: &[Name], key: (Name, Name)) -> Result<Option<Coat>, Untold> {
    let [Some(a), Some(b)] = both.map(|one| seen(one, &key)) else {
        return if on_some_face(both, &key.0) {
            Err(Untold)
        } else {
            Ok(None)
        };
    };
    aligned(both, names, key, &[a, b]).map(Some).ok_or(Untold)
}

fn aligned(
    both: [&One<'_>; 2],
    names: &[Name],
    key: (Name, Name),
    seen: &[Seen<'_>; 2],
) -> Option<Coat> {
    let here = seen.each_ref().map(|of| match of {
        Seen::Here(coat) => coat.as_ref(),
        Seen::NoBuildUp => None,
    });
    let get = |f: &dyn Fn(&OneCoat<'_>) -> f64| Both::mend(here.map(|of| of.map(f)));
    let share = |f: &dyn Fn(&OneCoat<'_>) -> Fraction| Both::mend(here.map(|of| of.map(f)));
    // Without its build-up there is no surface; without the coat alone, that of the other side does as
    // well, since nothing is taken from it.
    let surface = |f: &dyn Fn(&OneCoat<'_>) -> f64| {
        Both::mend(seen.each_ref().map(|of| match of {
            Seen::NoBuildUp => Some(0.0),
            Seen::Here(coat) => coat.as_ref().map(f),
        }))
    };
    let depth = here.map(|of| {
        let of = of?;
        let area = of.figures.surface.area.value;
        (area > 0.0).then(|| of.figures.first.total().value / area)
    });
    let yielded = Both::mend(here.map(|of| of.map(|of| of.mix.yielded.value)))?;
    let takes = |mix: usize, yielded: Ratio| {
        let own = here.get(mix).copied().flatten();
        let side = if own.is_some() { mix } else { 1 - mix };
        let of = here.get(side).copied().flatten()?;
        Some(taken(both.get(side)?, of.mix, names, yielded))
    };
    let [first, second] = yielded.0;
    let takes = [
        [takes(0, first)?, takes(0, second)?],
        [takes(1, first)?, takes(1, second)?],
    ];
    Some(Coat {
        area: surface(&|of| of.figures.surface.area.value)?,
        growth: surface(&|of| of.figures.surface.growth.value)?,
        depth: Both::mend(depth).unwrap_or(Both([0.0, 0.0])),
        is_there: Both(seen.each_ref().map(|of| !matches!(of, Seen::Here(None)))),
        from: get(&|of| of.figures.from.value)?,
        thickness: get(&|of| of.figures.thickness.value)?,
        shrinkage: share(&|of| of.shrinkage)?,
        loss: share(&|of| of.loss)?,
        yielded,
        mixes_differ: takes[0] != takes[1],
        takes,
        name: key,
    })
}

fn on_some_face(both: [&One<'_>; 2], build_up: &Name) -> bool {
    both.iter().any(|one| {
        let at = one.project.build_ups.get_index_of(build_up);
        let ground = at.and_then(|at| one.evaluation.grounds.get(at));
        ground.is_some_and(|ground| ground.surface.area.value > 0.0)
    })
}

/// What [`UNIT`] of a mixed plaster takes of each material, dry.
fn taken(one: &One<'_>, mix: &CheckedMix, names: &[Name], yielded: Ratio) -> Vec<Option<Quantity>> {
    let recipe = mix.mix.recipe(volume(UNIT), yielded);
    let mut taken = vec![None; names.len()];
    for (at, dry) in mix.takes(&recipe, one.site.water()) {
        let name = one.project.materials.get_index(at).map(|(name, _)| name);
        let place = names.iter().position(|other| Some(other) == name);
        if let Some(sum) = place.and_then(|at| taken.get_mut(at)) {
            *sum = Some(match *sum {
                None => dry,
                Some(of) => Quantity::plus(&dry, &of),
            });
        }
    }
    taken
}

/// `None` where something of it waits.
fn material(both: [&One<'_>; 2], name: &Name) -> Option<Material> {
    let seen = both.map(|one| {
        let at = one.project.materials.get_index_of(name)?;
        Some((
            one.site.materials.get(at)?,
            one.evaluation.materials.get(at)?,
        ))
    });
    if seen.iter().flatten().any(|(_, figures)| figures.waits) {
        return None;
    }
    let delivery = |f: &dyn Fn(&Delivery) -> Ratio| {
        Both::mend(seen.map(|of| of.map(|(material, _)| f(&material.delivery))))
    };
    let fraction = |f: &dyn Fn(&Delivery) -> Fraction| {
        Both::mend(seen.map(|of| of.map(|(material, _)| f(&material.delivery))))
    };
    // What no coat takes is not bought, and what lies of it in the yard is of no use.
    let stock = seen.map(|of| {
        let (_, figures) = of?;
        (!figures.uses.is_empty()).then_some(figures.stock)
    });
    let offers = |f: fn(&CheckedMaterial) -> Option<PerUnit>| {
        Both::mend(seen.map(|of| of.map(|(material, _)| f(material))))
    };
    Some(Material {
        name: name.clone(),
        moisture: delivery(&|of| of.moisture)?,
        bulking: delivery(&|of| of.bulking)?,
        reject: fraction(&|of| of.reject)?,
        keeping_loss: fraction(&|of| of.keeping_loss)?,
        stock: Both::mend(stock).unwrap_or(Both([Quantity::default(); 2])),
        price: offers(price)?,
        package: offers(package)?,
    })
}

/// A unit of the measure that a package holds, in so many packages.
fn per(offer: &Offer, times: f64) -> Option<PerUnit> {
    let of = match offer.holds {
        Holds::Volume(volume) => PerUnit::Volume(times / volume.value),
        Holds::Mass(mass) => PerUnit::Mass(times / mass.value),
    };
    let (PerUnit::Volume(each) | PerUnit::Mass(each)) = of;
    each.is_finite().then_some(of)
}

/// The least price of a unit among the packages.
fn price(of: &CheckedMaterial) -> Option<PerUnit> {
    let density = crate::evaluate::delivered_density(of);
    let priced = of.offers.iter().filter_map(|offer| {
        let each = per(offer, offer.price?.to_f64())?;
        // Held against each other by mass where that can be told.
        let by_mass = match (each, density) {
            (PerUnit::Volume(each), Some(density)) => each / density.value,
            (PerUnit::Mass(each) | PerUnit::Volume(each), _) => each,
        };
        Some((each, by_mass))
    });
    let least = priced.min_by(|(_, a), (_, b)| a.total_cmp(b));
    least.map(|(each, _)| each)
}

/// A unit in packages of the first kind.
fn package(of: &CheckedMaterial) -> Option<PerUnit> {
    per(of.offers.first()?, 1.0)
}
