//! What may be off in a project and how far: what it says itself, and our defaults for the rest. Not here: the
//! checking of what it says (see `crate::check`), and the drawing.

use super::defaults::{self, OURS, Usual};
use super::faces::Faces;
use super::target::Target;
use crate::check::uncertain::{Entry, entries, thing};
use crate::check::values::Values;
use crate::compare::One;
use crate::project::{MaterialKind, Name, UncertainInput};
use ecow::{EcoString, eco_format};
use hodful_chance::{Spread, Stream};
use hodful_quantities::Typed;
use hodful_quantities::print::{UnitSystem, fixed};
use hodful_quantities::read::Level;

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

    /// The mean that a number is drawn about.
    fn mean(&self, target: Target) -> Option<f64> {
        let number = self.numbers.iter().find(|of| of.target == target)?;
        Some(number.spread.mean())
    }
}

/// Everything that may be off.
#[derive(Debug)]
pub(super) struct Inputs {
    /// In words: first those of `common`, then thickness and dubbing out from wall to wall where they differ.
    pub(super) said: Vec<Input>,
    pub(super) common: Vec<Common>,
    /// By build-up: standard deviation of the factor on all its coats, from face to face.
    pub(super) thickness: Vec<f64>,
    /// By background: the same of its dubbing out.
    pub(super) dubbing_out: Vec<f64>,
    /// By background: the mean depth, mm.
    pub(super) mean_depth: Vec<f64>,
    pub(super) has_thickness: bool,
    pub(super) has_dubbing_out: bool,
}

/// What differs from wall to wall, gathered.
#[derive(Debug, Default)]
struct WallToWall {
    of: Vec<(Target, f64)>,
    /// Sources of what the project says.
    sources: Vec<EcoString>,
    /// Some of it is a default.
    has_default: bool,
}

impl Inputs {
    /// Of a project; entries in which something is refused count for nothing.
    pub(super) fn of(one: &One<'_>, faces: &Faces) -> Self {
        let all = entries(one.project, one.site, &mut Values::default());
        let all: Vec<Entry<'_>> = all.into_iter().flatten().collect();
        let mut inputs = Self {
            said: Vec::new(),
            common: Vec::new(),
            thickness: Vec::new(),
            dubbing_out: Vec::new(),
            mean_depth: Vec::new(),
            has_thickness: false,
            has_dubbing_out: false,
        };
        for of in UncertainInput::ALL {
            inputs.add_common(one, faces, &all, *of);
        }
        let thickness = wall_to_wall(one, faces, &all, UncertainInput::Thickness);
        inputs.thickness = by_build_up(one, &thickness);
        let dubbing_out = wall_to_wall(one, faces, &all, UncertainInput::DubbingOut);
        let depths = one.site.dubbing_out.iter().enumerate();
        inputs.mean_depth = depths
            .map(|(at, depth)| {
                let target = Target {
                    of: UncertainInput::DubbingOut,
                    at: (at, 0),
                };
                let drawn = inputs.common.iter().find_map(|common| common.mean(target));
                drawn.unwrap_or_else(|| depth.map_or(0.0, |depth| depth.value))
            })
            .collect();
        inputs.dubbing_out = vec![0.0; one.site.dubbing_out.len()];
        for (target, sd) in &dubbing_out.of {
            let has_depth = inputs.mean_depth.get(target.at.0).is_some_and(|d| *d > 0.0);
            if let Some(of) = inputs.dubbing_out.get_mut(target.at.0)
                && has_depth
            {
                *of = *sd;
            }
        }
        inputs.has_thickness = inputs.thickness.iter().any(|sd| *sd > 0.0);
        inputs.has_dubbing_out = inputs.dubbing_out.iter().any(|sd| *sd > 0.0);
        let units = one.project.units;
        if inputs.has_thickness {
            inputs.said.push(thickness.said("thickness", units));
        }
        if inputs.has_dubbing_out {
            inputs.said.push(dubbing_out.said("dubbing out", units));
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
                self.said.push(said(entry));
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

/// What differs from wall to wall: by the entry of a name, else by that of all, else by default.
fn wall_to_wall(
    one: &One<'_>,
    faces: &Faces,
    entries: &[Entry<'_>],
    of: UncertainInput,
) -> WallToWall {
    let mut found = WallToWall::default();
    let usual = match of {
        UncertainInput::Thickness => defaults::THICKNESS_WALL_TO_WALL,
        _ => defaults::DUBBING_OUT_WALL_TO_WALL,
    };
    let says_something =
        |entry: &&Entry<'_>| !entry.together.is_empty() || !entry.wall_to_wall.is_empty();
    let own = entries.iter().filter(|entry| entry.typed.of == of);
    let own: Vec<&Entry<'_>> = own.filter(says_something).collect();
    for (name, target) in Target::all(one.project, of) {
        if !matters(one, faces, target) {
            continue;
        }
        let by_name = own.iter().find(|e| e.typed.name.as_ref() == Some(name));
        let entry = by_name.or_else(|| own.iter().find(|e| e.typed.name.is_none()));
        let Some(entry) = entry else {
            found.of.push((target, usual));
            found.has_default |= target.value(one.site).is_some_and(|has| has > 0.0);
            continue;
        };
        // That walls do not differ is said by 0 %; who says nothing of it has not thought of it.
        let sd = entry.wall_to_wall.iter().find(|(own, _)| *own == target);
        let Some((_, sd)) = sd else {
            found.of.push((target, usual));
            found.has_default |= target.value(one.site).is_some_and(|has| has > 0.0);
            continue;
        };
        found.of.push((target, *sd));
        let source = source(entry);
        if !found.sources.contains(&source) {
            found.sources.push(source);
        }
    }
    found
}

/// Of each build-up the standard deviation of the one factor that a face has for all its coats: the mean of
/// those of the coats, each weighing as much as its thickness.
fn by_build_up(one: &One<'_>, of: &WallToWall) -> Vec<f64> {
    let each = one.site.build_ups.iter().enumerate().map(|(b, layers)| {
        let thickness = |c: usize| layers.get(c)?.thickness.map(|t| t.value);
        let whole: f64 = (0..layers.len()).filter_map(thickness).sum();
        let own = of.of.iter().filter(|(target, _)| target.at.0 == b);
        let off: f64 = own
            .filter_map(|(target, sd)| Some(sd * thickness(target.at.1)?))
            .sum();
        if whole > 0.0 { off / whole } else { 0.0 }
    });
    each.map(|sd| if sd.is_finite() { sd } else { 0.0 })
        .collect()
}

impl WallToWall {
    fn said(&self, what: &str, units: UnitSystem) -> Input {
        let sds = || self.of.iter().map(|(_, sd)| *sd);
        let least = sds().fold(f64::INFINITY, f64::min);
        let most = sds().fold(0.0, f64::max);
        let percent = |sd: f64| fixed(sd * 100.0, 0, units.grouping());
        let (least, most) = (percent(least), percent(most));
        let between = if least == most {
            eco_format!("{most} %")
        } else {
            eco_format!("{least} % to {most} %")
        };
        let mut sources = self.sources.clone();
        if self.has_default {
            sources.push(OURS.into());
        }
        Input {
            words: eco_format!("{what} from wall to wall"),
            spread: eco_format!("standard deviation {between}"),
            is_default: self.sources.is_empty(),
            source: sources.join("; ").into(),
            is_wall_to_wall: true,
        }
    }
}

/// Who says what an entry says.
fn source(entry: &Entry<'_>) -> EcoString {
    let given = entry.typed.source.clone();
    given.unwrap_or_else(|| eco_format!("uncertain input {}", entry.number))
}

fn said(entry: &Entry<'_>) -> Input {
    let typed = entry.typed;
    let what = typed.of.word();
    let text = |level: &Option<Typed<Level>>| level.as_ref().map(|of| EcoString::from(of.text()));
    let has = || EcoString::from("what the project has");
    let spread = if let (Some(lowest), Some(highest)) = (text(&typed.lowest), text(&typed.highest))
    {
        let likely = text(&typed.likely).unwrap_or_else(has);
        eco_format!("{lowest} to {highest}, most likely {likely}")
    } else {
        let mean = text(&typed.mean).unwrap_or_else(has);
        let sd = text(&typed.spread).unwrap_or_default();
        eco_format!("mean {mean}, standard deviation {sd}")
    };
    Input {
        words: typed.name.as_ref().map_or_else(
            || eco_format!("{what} of every {}", thing(typed.of)),
            |name| eco_format!("{what} of {name}"),
        ),
        spread,
        is_default: false,
        source: source(entry),
        is_wall_to_wall: false,
    }
}
