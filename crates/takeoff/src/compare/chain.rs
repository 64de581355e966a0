//! From surfaces to the order without rounding, as a function of groups of inputs that are each taken from
//! one project or from the other. Not here: sharing out the difference (see `causes`), and finding what
//! belongs together in two projects (see `align`).

mod align;

use super::{Line, One};
use crate::project::Name;
use hodful_quantities::mix::{Delivery, Quantity};
use hodful_quantities::units::{Ratio, Volume};
use hodful_quantities::{CoatVolume, Fraction};

/// Groups of inputs that differ together, in the order of the chain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
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

    /// Whether a line can depend on it.
    fn matters(self, line: &Line) -> bool {
        let last = match line {
            Line::Surface | Line::Payment | Line::Trips | Line::Bought => return false,
            Line::Placed { .. } | Line::AllPlaced => Self::Thickness,
            Line::Mixed { .. } | Line::AllMixed => Self::Loss,
            Line::Batches => return self <= Self::Loss || self == Self::Mixer,
            Line::Loose(_) | Line::Mass(_) => Self::Screen,
            Line::Packages(_) | Line::Cost => Self::Prices,
        };
        self <= last
    }
}

/// Parts of a value that add up to it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    Flat,
    Edges,
    First,
    /// What of it lies in the yard, below nothing: never more than is needed.
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

/// Whether a choice takes a group from the second project.
fn second(sides: &[bool; GROUPS], group: Group) -> bool {
    sides.get(group as usize) == Some(&true)
}

impl<T> Both<T> {
    fn get(&self, sides: &[bool; GROUPS], group: Group) -> &T {
        let [a, b] = &self.0;
        if second(sides, group) { b } else { a }
    }
}

impl<T: Copy> Both<T> {
    fn of(&self, sides: &[bool; GROUPS], group: Group) -> T {
        *self.get(sides, group)
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
    is_there: Both<bool>,
    /// Whether it is the first on the background.
    is_first: Both<bool>,
    /// Coves, which the first coat carries.
    coves: Both<f64>,
    /// What else the first coat carries, by side of the surface, then of the depths.
    dubbing: Both<Both<f64>>,
    from: Both<f64>,
    thickness: Both<f64>,
    shrinkage: Both<Fraction>,
    loss: Both<Fraction>,
    yielded: Both<Ratio>,
    /// What [`UNIT`] of mixed plaster takes of each material, by side of the mix, then of the yield, then
    /// of the moisture.
    takes: Both<Both<Both<Vec<Option<Quantity>>>>>,
    /// The mixes differ, whatever the yield and the moisture.
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
    /// Price, and packages, of a unit of volume or mass, in the packages that were chosen.
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
    /// Two projects. What cannot be told is left out: the lines that it goes into cannot be told either.
    pub(super) fn between(a: &One<'_>, b: &One<'_>) -> Self {
        align::align([a, b])
    }

    /// The groups in which the projects differ, of those that a line depends on.
    pub(super) fn active(&self, line: &Line) -> Vec<Group> {
        let number = |both: &Both<f64>| both.0[0].to_bits() != both.0[1].to_bits();
        let share = |both: &Both<Ratio>| number(&both.map(|of| of.value));
        let fraction = |both: &Both<Fraction>| number(&both.map(Fraction::get));
        let coats = |f: &dyn Fn(&Coat) -> bool| self.coats.iter().any(f);
        let materials = |f: &dyn Fn(&Material) -> bool| self.materials.iter().any(f);
        let dubbing = |c: &Coat| c.dubbing.0.iter().any(number);
        let differs = |group: &Group| match group {
            Group::Surface => coats(&|c| {
                let [a, b] = &c.dubbing.0;
                let dubbing = number(&Both([a.0[0], b.0[0]])) || number(&Both([a.0[1], b.0[1]]));
                number(&c.area) || number(&c.growth) || number(&c.coves) || dubbing
            }),
            Group::DubbingOut => coats(&dubbing),
            Group::Coats => {
                coats(&|c| c.is_there.0[0] != c.is_there.0[1] || c.is_first.0[0] != c.is_first.0[1])
            }
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
        let matters = Group::ALL.into_iter().filter(|group| group.matters(line));
        matters.filter(differs).collect()
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
                Some(at) => self.to_buy(at, sides, &self.mixed(sides), |of| &of.package),
                None => Some([0.0; PARTS]),
            },
            Line::Cost => {
                let mixed = self.mixed(sides);
                let mut sum = [0.0; PARTS];
                for at in 0..self.materials.len() {
                    let cost = self.to_buy(at, sides, &mixed, |of| &of.price)?;
                    for (sum, cost) in sum.iter_mut().zip(cost) {
                        *sum += cost;
                    }
                }
                Some(sum)
            }
            Line::Surface | Line::Payment | Line::Trips | Line::Bought => None,
        }
    }

    /// Every coat as mixed, by parts.
    fn mixed(&self, sides: &[bool; GROUPS]) -> Vec<[f64; PARTS]> {
        let coats = self.coats.iter();
        coats.map(|coat| coat.volumes(sides, true)).collect()
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

    /// What is needed of a material as delivered, part by part, for coats mixed in these volumes.
    fn needs(
        &self,
        at: usize,
        sides: &[bool; GROUPS],
        mixed: &[[f64; PARTS]],
    ) -> Option<[Option<Quantity>; PARTS]> {
        let delivery = self.materials.get(at)?.delivery(sides);
        let mut sum: [Option<Quantity>; PARTS] = [None; PARTS];
        for (coat, parts) in self.coats.iter().zip(mixed) {
            let takes = coat.takes.get(sides, Group::Mix);
            let takes = takes.get(sides, Group::Yield).get(sides, Group::Damp);
            let Some(takes) = takes.get(at).copied().flatten() else {
                continue;
            };
            for (sum, part) in sum.iter_mut().zip(parts) {
                let dry = takes.times(part / UNIT);
                *sum = Some(match *sum {
                    None => dry,
                    Some(of) => dry.plus(&of),
                });
            }
        }
        Some(sum.map(|dry| dry.map(|dry| delivery.as_delivered(&dry))))
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
        let needs = self.needs(at, sides, &self.mixed(sides))?;
        for (value, need) in values.iter_mut().zip(needs) {
            if let Some(need) = need {
                *value = of(&need)?;
            }
        }
        Some(values)
    }

    /// What is needed less what of it lies in the yard, in packages or money.
    fn to_buy(
        &self,
        at: usize,
        sides: &[bool; GROUPS],
        mixed: &[[f64; PARTS]],
        each: impl Fn(&Material) -> &Both<Option<PerUnit>>,
    ) -> Option<[f64; PARTS]> {
        let material = self.materials.get(at)?;
        let mut values = [0.0; PARTS];
        let Some(each) = each(material).of(sides, Group::Prices) else {
            return Some(values);
        };
        let needs = self.needs(at, sides, mixed)?;
        for (value, need) in values.iter_mut().zip(&needs) {
            if let Some(need) = need {
                *value = each.of(need)?;
            }
        }
        if needs.iter().any(Option::is_some)
            && let [flat, edges, first, stock] = &mut values
        {
            let there = each.of(&material.stock.of(sides, Group::Stock))?;
            *stock = -there.min(*flat + *edges + *first);
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
        let mut placed = [area * t, growth * t * (2.0 * from + t) / 2.0, 0.0, 0.0];
        if self.is_first.of(sides, Group::Coats)
            && let [_, edges, first, _] = &mut placed
        {
            *edges += self.coves.of(sides, Group::Surface);
            let dubbing = self.dubbing.of(sides, Group::Surface);
            *first += dubbing.of(sides, Group::DubbingOut);
        }
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
