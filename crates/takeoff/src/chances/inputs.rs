//! What may be off in a project and how far: what it says itself, and our defaults for the rest. Not here: the
//! checking of what it says (see `crate::check`), and the drawing.

mod walls;

use super::defaults::{self, Usual};
use super::faces::Faces;
use super::nonsense;
use super::target::Target;
use crate::check::uncertain::{Entry, entries, is_length, words};
use crate::check::values::Values;
use crate::compare::One;
use crate::project::{MaterialKind, Name, UncertainInput};
use ecow::{EcoString, eco_format};
use hodful_chance::{Spread, Stream};
use hodful_quantities::Typed;
use hodful_quantities::print::{UnitSystem, fixed};
use hodful_quantities::read::Level;

pub(super) use walls::Walls;

/// One input that may be off.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// What it is: `thickness of scratch`.
    pub words: EcoString,
    /// How far it may be off, in words: `90 % to 125 % of what is written`.
    pub spread: EcoString,
    /// A default of ours and not what the project says.
    pub is_default: bool,
    /// Where that comes from.
    pub source: EcoString,
    /// It differs from wall to wall; else one value goes for all walls together.
    pub is_wall_to_wall: bool,
    /// What cannot be of that, when the project says it.
    pub nonsense: Option<EcoString>,
}

/// Numbers that are off together: one random value for all of them.
#[derive(Debug)]
pub(super) struct Common {
    numbers: Vec<Number>,
}

#[derive(Debug)]
struct Number {
    target: Target,
    spread: Spread,
    bounds: (f64, f64),
}

impl Common {
    fn new(one: &One<'_>, of: Vec<(Target, Spread)>) -> Self {
        let numbers = of.into_iter().filter_map(|(target, spread)| {
            Some(Number {
                bounds: target.bounds(target.value(one.site)?),
                target,
                spread,
            })
        });
        Self {
            numbers: numbers.collect(),
        }
    }

    /// Draws one random value and gives every number what follows from it. Gives the first number that varies
    /// and whether one had to be brought back to what can be.
    ///
    /// Each number is drawn from the same place of the stream, so that all stand at the same share of their
    /// spread; what one takes of the stream all take, since the spreads of one entry are of one kind.
    pub(super) fn draw(
        &self,
        stream: &mut Stream,
        mut give: impl FnMut(Target, f64),
    ) -> (f64, bool) {
        let begin = stream.clone();
        let mut first = None;
        let mut clamped = false;
        for number in &self.numbers {
            let mut own = begin.clone();
            let drawn = number.spread.draw(&mut own);
            let (low, high) = number.bounds;
            let value = drawn.clamp(low, high);
            clamped |= drawn < low || drawn > high;
            give(number.target, value);
            if !number.spread.is_fixed() {
                *stream = own;
                first.get_or_insert(value);
            }
        }
        (first.unwrap_or_default(), clamped)
    }

    /// Gives every number what is so many standard deviations from its mean, or the nearest that can be.
    pub(super) fn at(&self, sds: f64, mut give: impl FnMut(Target, f64)) {
        for number in &self.numbers {
            let (low, high) = number.bounds;
            let value = number.spread.mean() + sds * number.spread.sd();
            give(number.target, value.clamp(low, high));
        }
    }

    /// Whether one of the numbers is of such a kind.
    pub(super) fn is(&self, of: impl Fn(UncertainInput) -> bool) -> bool {
        self.numbers.iter().any(|number| of(number.target.of))
    }

    /// The mean that a number is drawn about.
    fn mean(&self, target: Target) -> Option<f64> {
        let number = self.numbers.iter().find(|of| of.target == target)?;
        Some(number.spread.mean())
    }
}

/// Everything that may be off.
#[derive(Debug)]
pub(super) struct Inputs {
    /// In words: first those of `common`, then those of `thickness` and of `dubbing_out`.
    pub(super) said: Vec<Input>,
    pub(super) common: Vec<Common>,
    /// Thickness from wall to wall, by build-up.
    pub(super) thickness: Walls,
    /// Dubbing out from wall to wall, by background.
    pub(super) dubbing_out: Walls,
    /// By background: the mean depth, mm.
    pub(super) mean_depth: Vec<f64>,
}

impl Inputs {
    /// Of a project; entries in which something is refused count for nothing.
    pub(super) fn of(one: &One<'_>, faces: &Faces) -> Self {
        let all = entries(one.project, one.site, &mut Values::default());
        let all: Vec<Entry<'_>> = all.into_iter().flatten().collect();
        let mut inputs = Self {
            said: Vec::new(),
            common: Vec::new(),
            thickness: Walls::default(),
            dubbing_out: Walls::default(),
            mean_depth: Vec::new(),
        };
        for of in UncertainInput::ALL {
            inputs.add_common(one, faces, &all, *of);
        }
        let depths = one.site.dubbing_out.iter().enumerate();
        let mean_depth = depths.map(|(at, depth)| {
            let target = Target {
                of: UncertainInput::DubbingOut,
                at: (at, 0),
            };
            let drawn = inputs.common.iter().find_map(|common| common.mean(target));
            drawn.unwrap_or_else(|| depth.map_or(0.0, |depth| depth.value))
        });
        inputs.mean_depth = mean_depth.collect();
        inputs.thickness = Walls::of_thickness(one, faces, &all);
        inputs.dubbing_out = Walls::of_dubbing_out(one, faces, &all, &inputs.mean_depth);
        for walls in [&inputs.thickness, &inputs.dubbing_out] {
            inputs.said.extend(walls.said.iter().cloned());
        }
        inputs
    }

    /// Entries of one kind, then defaults for what no entry is about.
    fn add_common(
        &mut self,
        one: &One<'_>,
        faces: &Faces,
        entries: &[Entry<'_>],
        of: UncertainInput,
    ) {
        let relevant: Vec<(&Name, Target)> = Target::all(one.project, of)
            .into_iter()
            .filter(|(_, target)| matters(one, faces, *target))
            .collect();
        let mut left: Vec<Target> = relevant.iter().map(|(_, target)| *target).collect();
        let own = entries
            .iter()
            .filter(|entry| entry.typed.of == of && !entry.together.is_empty());
        // What is said of a name stands before what is said of all.
        let mut own: Vec<&Entry<'_>> = own.collect();
        own.sort_by_key(|entry| entry.typed.name.is_none());
        for entry in own {
            let mut taken = entry.together.clone();
            taken.retain(|(target, _)| left.contains(target));
            left.retain(|target| taken.iter().all(|(other, _)| other != target));
            if !taken.is_empty() {
                self.said.push(said(one, entry));
                self.common.push(Common::new(one, taken));
            }
        }
        let mut names: Vec<&Name> = Vec::new();
        for (name, target) in &relevant {
            if left.contains(target) && !names.contains(name) {
                names.push(name);
            }
        }
        for name in names {
            let mut last: Option<Usual> = None;
            let mut taken = Vec::new();
            for (other, target) in &relevant {
                let Some(has) = target.value(one.site).filter(|has| *has > 0.0) else {
                    continue;
                };
                if other != &name || !left.contains(target) {
                    continue;
                }
                let mix = one.site.mix(target.at.0);
                let is_measured = mix.is_some_and(|mix| mix.yielded.trial.is_some());
                let usual = defaults::usual(of, has, is_measured);
                let spread = Spread::triangular(usual.lowest, usual.likely, usual.highest);
                taken.extend(spread.ok().map(|spread| (*target, spread)));
                last = Some(usual);
            }
            if let Some(usual) = last {
                self.said.push(Input {
                    words: eco_format!("{} of {name}", of.word()),
                    spread: usual.shown.into(),
                    is_default: true,
                    source: usual.source.into(),
                    is_wall_to_wall: false,
                    nonsense: None,
                });
                self.common.push(Common::new(one, taken));
            }
        }
    }
}

/// Whether a number has any part in the order.
fn matters(one: &One<'_>, faces: &Faces, target: Target) -> bool {
    let is_used = |b: usize| {
        let ground = one.evaluation.grounds.get(b);
        ground.is_some_and(|ground| ground.surface.area.value > 0.0)
    };
    let at = target.at.0;
    match target.of {
        UncertainInput::Thickness | UncertainInput::Shrinkage | UncertainInput::Loss => is_used(at),
        UncertainInput::DubbingOut => faces.has_background(at),
        UncertainInput::Yield => one
            .site
            .build_ups
            .iter()
            .enumerate()
            .any(|(b, layers)| is_used(b) && layers.iter().any(|layer| layer.mix == Some(at))),
        UncertainInput::Moisture | UncertainInput::Bulking | UncertainInput::Reject => {
            let figures = one.evaluation.materials.get(at);
            let material = one.site.materials.get(at);
            figures.is_some_and(|of| !of.uses.is_empty())
                && material.is_some_and(|of| of.kind != MaterialKind::Water)
        }
    }
}

/// Who says what an entry says.
fn source(entry: &Entry<'_>) -> EcoString {
    let given = entry.typed.source.clone();
    given.unwrap_or_else(|| "typed by you, no source given".into())
}

/// How far a normal value is from its mean, in words: within one standard deviation lie 68 of 100 (any table of the
/// normal distribution, from memory).
fn within(sd: &str) -> EcoString {
    eco_format!("2 times in 3 no more than {sd} off")
}

/// Points of a share: `4 points`, `1 point`.
pub(super) fn points(share: f64) -> EcoString {
    let points = fixed(share * 100.0, 2, UnitSystem::Metric.grouping());
    let points = points.trim_end_matches('0').trim_end_matches('.');
    let word = if points == "1" { "point" } else { "points" };
    eco_format!("{points} {word}")
}

fn said(one: &One<'_>, entry: &Entry<'_>) -> Input {
    let typed = entry.typed;
    let text = |level: &Option<Typed<Level>>| level.as_ref().map(|of| EcoString::from(of.text()));
    let has = || EcoString::from("what the project has");
    let spread = if let (Some(lowest), Some(highest)) = (text(&typed.lowest), text(&typed.highest))
    {
        let likely = text(&typed.likely).unwrap_or_else(has);
        eco_format!("{lowest} to {highest}, most likely {likely}")
    } else {
        let mean = text(&typed.mean).unwrap_or_else(has);
        let sd = match typed.spread.as_ref().map(|of| (of.value(), of.text())) {
            // Of a share it is points, not a share of that share.
            Some((Level::Share(share), _)) if !is_length(typed.of) => points(share),
            Some((_, text)) => text.into(),
            None => EcoString::new(),
        };
        eco_format!("{mean} in the mean, {}", within(&sd))
    };
    Input {
        words: words(typed),
        spread,
        is_default: false,
        source: source(entry),
        is_wall_to_wall: false,
        nonsense: nonsense::together(entry, one.site, one.project.units),
    }
}
