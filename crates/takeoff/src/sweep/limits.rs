//! Limits that cross a range: those of codes turned into the thickness of one coat, what one pass takes,
//! and what is usual. Not here: the limits themselves (see [`crate::sources`]), and whether a project
//! keeps them (see [`crate::doubts()`]).

use super::{Ask, Limit};
use crate::bench::Bench;
use crate::checked::Site;
use crate::form::{self, Subject};
use crate::project::{BackgroundKind, Coat, DosePer, MaterialKind, Name, Project, Side};
use crate::sources::{self, Usual};
use crate::tolerance::{SAME_LENGTH, SAME_SHARE};
use ecow::{EcoString, eco_format};
use hodful_quantities::mix::PUBLISHED_YIELD;
use hodful_quantities::print;
use hodful_quantities::read::Amount;
use hodful_quantities::units::{
    Angle, Length, MassDensity, degree, kilogram_per_cubic_meter, ratio,
};
use std::collections::BTreeMap;

/// Percent in a whole.
const PERCENT: f64 = 100.0;

/// A limit as it applies to one thing.
struct Found {
    limit: Limit,
    /// What it holds for, in words.
    of: EcoString,
}

/// The limits that matter over a range.
pub(super) struct Limits {
    /// Those between its ends, along it.
    pub(super) within: Vec<Limit>,
    /// Those that no value of it keeps.
    pub(super) broken: Vec<Limit>,
}

/// The limits that matter between two ends; those of several things at one place are told as one.
pub(super) fn of(bench: &Bench, ask: &Ask, from: f64, to: f64) -> Limits {
    let all = || all(bench.project(), bench.one(None).site, ask);
    let is_within = |limit: &Limit| (from..=to).contains(&limit.at);
    // A limit under nothing is one of thickness, where the other coats are more than it already; of all else that is no
    // value that anything could have.
    let is_meant = |limit: &Limit| limit.at >= 0.0 || ask.key == "thickness";
    let is_broken = |limit: &Limit| {
        let is_past = if limit.at_most {
            limit.at < from
        } else {
            limit.at > to
        };
        is_past && is_meant(limit)
    };
    Limits {
        within: told(all(), ask, is_within),
        broken: told(all(), ask, is_broken),
    }
}

/// Some of the limits, along the field.
fn told(all: Vec<Found>, ask: &Ask, is_wanted: impl Fn(&Limit) -> bool) -> Vec<Limit> {
    let mut limits: Vec<(Limit, Vec<EcoString>)> = Vec::new();
    for Found { limit, of } in all.into_iter().filter(|found| is_wanted(&found.limit)) {
        let same = |(known, _): &&mut (Limit, Vec<EcoString>)| {
            let near = if known.words == limit.words && ask.key == "thickness" {
                (known.at - limit.at).abs() <= SAME_LENGTH
            } else {
                known.at.to_bits() == limit.at.to_bits()
            };
            near && known.words == limit.words && known.at_most == limit.at_most
        };
        match limits.iter_mut().find(same) {
            Some((_, things)) if things.contains(&of) => {}
            Some((_, things)) => things.push(of),
            None => limits.push((limit, vec![of])),
        }
    }
    limits.sort_by(|(a, _), (b, _)| a.at.total_cmp(&b.at));
    let told = limits.into_iter().map(|(limit, things)| Limit {
        words: eco_format!("{} ({})", limit.words, things.join(", ")),
        ..limit
    });
    told.collect()
}

fn all(project: &Project, site: &Site, ask: &Ask) -> Vec<Found> {
    let mut found = Vec::new();
    if ask.key == "thickness" {
        on_bale(project, &ask.subjects, &mut found);
    }
    for subject in &ask.subjects {
        let of = form::title(project, *subject);
        let one = one(project, *subject, &ask.key);
        found.extend(one.into_iter().map(|limit| Found {
            limit,
            of: of.clone(),
        }));
        if let (Subject::Mix(at), Some(part)) = (*subject, ask.key.strip_prefix("parts.")) {
            let clay = clay(project, site, at, part);
            found.extend(clay.into_iter().map(|limit| Found {
                limit,
                of: of.clone(),
            }));
        }
    }
    found
}

/// Limits that stand in the field itself.
fn one(project: &Project, subject: Subject, key: &str) -> Vec<Limit> {
    let percent = |usual: Usual| vec![usual_limit(usual, usual.most / PERCENT)];
    let mm = |usual: Usual| vec![usual_limit(usual, usual.most)];
    match (subject, key) {
        (Subject::Coat { build_up, coat }, "thickness") => {
            let coats = project.build_ups.get_index(build_up);
            let coat = coats.and_then(|(_, coats)| coats.get(coat));
            let limit = coat.and_then(|coat| one_pass(project, coat));
            limit.into_iter().collect()
        }
        (Subject::Coat { .. }, "shrinkage") => percent(sources::GREATEST_SHRINKAGE),
        (Subject::Coat { .. }, "loss") => percent(sources::USUAL_LOSS),
        (Subject::Background(_), "dubbing_out") => mm(sources::USUAL_DUBBING_OUT),
        (Subject::Material(_), "bulking") => percent(sources::USUAL_BULKING),
        (Subject::Mix(_), "water") => percent(sources::USUAL_WATER),
        (Subject::Mix(at), "fibre.dose") => {
            let mix = project.mixes.get_index(at);
            let fibre = mix.and_then(|(_, mix)| mix.fibre.as_ref());
            if fibre.is_some_and(|fibre| fibre.per == Some(DosePer::Loose)) {
                return Vec::new();
            }
            let usual = sources::USUAL_FIBRE;
            let at = MassDensity::new::<kilogram_per_cubic_meter>(usual.most);
            vec![usual_limit(usual, at.value)]
        }
        (Subject::Mix(at), "trial_batch.mixed") => trial(project, at),
        (Subject::Wall(_), "thickness") => mm(sources::USUAL_WALL),
        (Subject::Wall(_), "height" | "eaves" | "ridge" | "left" | "right") => {
            mm(sources::USUAL_HEIGHT)
        }
        (Subject::Opening { .. }, key) if key.contains(".splay.") => {
            let usual = sources::USUAL_SPLAY;
            vec![usual_limit(usual, Angle::new::<degree>(usual.most).value)]
        }
        _ => Vec::new(),
    }
}

fn usual_limit(usual: Usual, at: f64) -> Limit {
    Limit {
        at,
        name: "seldom over".into(),
        words: eco_format!("seldom over {} {}", usual.most, usual.unit),
        source: Some(usual.source),
        at_most: true,
    }
}

/// The thickest coat of its mix in one pass.
fn one_pass(project: &Project, coat: &Coat) -> Option<Limit> {
    let typed = project.mixes.get(&coat.mix)?.single_pass.as_ref()?;
    Some(Limit {
        at: typed.value().value,
        name: "one pass".into(),
        words: eco_format!("one pass of mix {} goes to {}", coat.mix, typed.text()),
        source: None,
        at_most: true,
    })
}

/// The published yields, as what a trial batch makes of the loose volume that went in.
fn trial(project: &Project, at: usize) -> Vec<Limit> {
    let mix = project.mixes.get_index(at);
    let trial = mix.and_then(|(_, mix)| mix.trial_batch.as_ref());
    let Some(Amount::Volume(loose)) = trial.map(|trial| trial.loose.value()) else {
        return Vec::new();
    };
    let (low, high) = PUBLISHED_YIELD;
    let limit = |value: f64, name: &str, at_most| Limit {
        at: loose.value * value,
        name: name.into(),
        words: eco_format!("{name}: {value} of what went in"),
        source: Some(sources::YIELD_SPREAD),
        at_most,
    };
    vec![
        limit(low, "least published yield", false),
        limit(high, "most published yield", true),
    ]
}

/// The code on straw bale, turned into the thickness of the coats that move: what the others leave of
/// its least and its most, shared evenly where several coats of one build-up move.
fn on_bale(project: &Project, subjects: &[Subject], found: &mut Vec<Found>) {
    let mut moving: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for subject in subjects {
        if let Subject::Coat { build_up, coat } = subject {
            let coats = moving.entry(*build_up).or_default();
            if !coats.contains(coat) {
                coats.push(*coat);
            }
        }
    }
    for (build_up, moving) in moving {
        let Some((name, coats)) = project.build_ups.get_index(build_up) else {
            continue;
        };
        if !is_on_bale(project, name) {
            continue;
        }
        let left = |limit: Length, counts: &dyn Fn(&Coat) -> bool| {
            let (mut others, mut share) = (0.0, 0.0);
            for (at, coat) in coats.iter().enumerate().filter(|(_, coat)| counts(coat)) {
                if moving.contains(&at) {
                    share += 1.0;
                } else {
                    others += coat.thickness.value().value;
                }
            }
            (share > 0.0).then(|| (limit.value - others) / share)
        };
        let least = sources::length(sources::LEAST_ON_BALE);
        let most = sources::length(sources::MOST_ON_BALE);
        let shown = |limit| print::thickness(limit, project.units);
        let mut push = |at: Option<f64>, limit: Limit| {
            found.extend(at.map(|at| Found {
                limit: Limit { at, ..limit },
                of: eco_format!("build-up {name}"),
            }));
        };
        push(
            left(least, &|coat| is_clay(project, coat)),
            Limit {
                at: 0.0,
                name: "least on bale".into(),
                words: eco_format!(
                    "straw bale: clay plaster of {} in all at least",
                    shown(least)
                ),
                source: Some(sources::LEAST_ON_BALE.source),
                at_most: false,
            },
        );
        push(
            left(most, &|_| true),
            Limit {
                at: 0.0,
                name: "most on bale".into(),
                words: eco_format!("straw bale: plaster of {} in all at most", shown(most)),
                source: Some(sources::MOST_ON_BALE.source),
                at_most: true,
            },
        );
    }
}

/// Whether a build-up is on some face of straw bale.
fn is_on_bale(project: &Project, build_up: &Name) -> bool {
    let faces = project.walls.iter().flat_map(|wall| {
        let face = move |side| wall.face(side);
        [Side::Outside, Side::Inside].into_iter().filter_map(face)
    });
    let mut faces = faces.filter(|face| face.build_up == *build_up);
    faces.any(|face| {
        let background = project.backgrounds.get(&face.background);
        background.is_some_and(|background| background.kind == BackgroundKind::StrawBale)
    })
}

/// Clay plaster: bound by neither lime nor cement.
fn is_clay(project: &Project, coat: &Coat) -> bool {
    let mix = project.mixes.get(&coat.mix);
    let mut parts = mix.into_iter().flat_map(|mix| mix.parts.keys());
    !parts.any(|name| {
        let material = project.materials.get(name);
        material.is_some_and(|of| matches!(of.kind, MaterialKind::Lime | MaterialKind::Cement))
    })
}

/// Where the clay of a mix, by dry mass, comes to the least and the most that is published, when the
/// parts of one material move. With the others of mass `B`, `A` of it clay, and a material of density
/// `d` and clay `c`, the clay of `p` parts is `(A + p·d·c) / (B + p·d)`.
fn clay(project: &Project, site: &Site, at: usize, part: &str) -> Vec<Limit> {
    let of_clay = project.mixes.get_index(at).is_some_and(|(name, _)| {
        let mut coats = project.build_ups.values().flatten();
        coats.any(|coat| coat.mix == *name && is_clay(project, coat))
    });
    let known = project.materials.get_index_of(part);
    let (Some(moving), Some(mix), true) = (known, site.mix(at), of_clay) else {
        return Vec::new();
    };
    let mut others = (0.0, 0.0);
    for (position, mineral) in mix.minerals.iter().zip(mix.mix.minerals()) {
        if *position == moving || mineral.parts <= 0.0 {
            continue;
        }
        let (Some(density), Some(clay)) = (mineral.loose_density, mineral.clay) else {
            return Vec::new();
        };
        let mass = mineral.parts * density.value;
        others.0 += mass * clay.get::<ratio>();
        others.1 += mass;
    }
    let material = site.materials.get(moving);
    let Some((density, clay)) = material.and_then(|m| m.loose_density.zip(m.clay)) else {
        return Vec::new();
    };
    let (density, clay) = (density.value, clay.get::<ratio>());
    let limit = |of: sources::Sourced<f64>, name: &str, is_least: bool| {
        let share = of.value / PERCENT;
        let at = (share * others.1 - others.0) / (density * (clay - share));
        let is_told = (clay - share).abs() > SAME_SHARE && at.is_finite();
        is_told.then(|| Limit {
            at,
            name: name.into(),
            words: eco_format!("{name}: {} % clay by dry mass", of.value),
            source: Some(of.source),
            // Sand makes lean what clay makes rich.
            at_most: (clay < share) == is_least,
        })
    };
    let lean = limit(sources::LEAN_MIX, "lean", true);
    let rich = limit(sources::RICH_MIX, "rich", false);
    lean.into_iter().chain(rich).collect()
}
