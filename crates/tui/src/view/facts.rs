//! Figures of what is chosen in the coats and the stores, a line each.

use super::Pen;
use crate::State;
use crate::state::Screen;
use crate::text::{lines, width};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::mix::Quantity;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Length, ratio_of};
use hodful_takeoff::form::Subject;
use hodful_takeoff::project::{Face, Name};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// A figure with its name; with no name a line of words.
type Fact = (EcoString, EcoString);

/// Rows that the facts take.
pub(super) fn rows(state: &State) -> u16 {
    u16::try_from(facts(state).len()).unwrap_or(u16::MAX)
}

/// Paints the facts.
pub(super) fn paint(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) {
    let mut y = area.y;
    let facts = facts(state);
    let longest = facts
        .iter()
        .map(|(name, _)| width(name) + 3)
        .max()
        .unwrap_or(0);
    let wide = u16::try_from(longest)
        .unwrap_or(u16::MAX)
        .min(area.width / 5 * 3);
    for (name, figure) in facts {
        if y >= area.bottom() {
            break;
        }
        if name.is_empty() {
            for line in lines(&figure, usize::from(area.width.saturating_sub(2))) {
                if y < area.bottom() {
                    pen.put(
                        buffer,
                        area.x + 1,
                        y,
                        area.width.saturating_sub(1),
                        &line,
                        pen.theme.dim,
                    );
                    y += 1;
                }
            }
            continue;
        }
        pen.put(
            buffer,
            area.x + 1,
            y,
            wide.saturating_sub(2),
            &name,
            pen.theme.dim,
        );
        let x = area.x + wide;
        pen.put(
            buffer,
            x,
            y,
            area.right().saturating_sub(x),
            &figure,
            pen.theme.text,
        );
        y += 1;
    }
}

fn facts(state: &State) -> Vec<Fact> {
    match (state.screen(), state.subject()) {
        (Screen::Coats, Some(Subject::BuildUp(at))) => build_up(state, at),
        (Screen::Coats, Some(Subject::Coat { build_up, coat })) => {
            coat_facts(state, build_up, coat)
        }
        (Screen::Stores, Some(Subject::Material(at) | Subject::Package { material: at, .. })) => {
            material(state, at)
        }
        (Screen::Stores, Some(Subject::Mix(at))) => mix(state, at),
        (Screen::Stores, Some(Subject::Panel { mix, panel })) => test_panel(state, mix, panel),
        (Screen::Stores, Some(Subject::Background(at))) => {
            let of = state.project().backgrounds.get_index(at);
            of.map_or_else(Vec::new, |(name, _)| {
                used_by(state, |face| face.background == *name)
            })
        }
        (Screen::Stores, Some(Subject::Project)) => state
            .project()
            .note
            .iter()
            .map(|note| (EcoString::new(), note.clone()))
            .collect(),
        _ => Vec::new(),
    }
}

fn fact(name: &str, figure: impl std::fmt::Display) -> Fact {
    (name.into(), eco_format!("{figure}"))
}

/// The faces that name something, as words.
fn used_by(state: &State, names: impl Fn(&Face) -> bool) -> Vec<Fact> {
    let of: Vec<EcoString> = state
        .project()
        .walls
        .iter()
        .flat_map(|wall| {
            let side = |face: &Option<Face>, word: &str| {
                face.as_ref()
                    .filter(|face| names(face))
                    .map(|_| eco_format!("{} {word}", wall.id))
            };
            [side(&wall.outside, "outside"), side(&wall.inside, "inside")]
        })
        .flatten()
        .take(13)
        .collect();
    let words = match of.len() {
        0 => "On no face yet.".into(),
        1..=12 => eco_format!("On {}.", of.join(", ")),
        _ => eco_format!(
            "On {} and more.",
            of.get(..12).unwrap_or_default().join(", ")
        ),
    };
    vec![(EcoString::new(), words)]
}

fn build_up(state: &State, at: usize) -> Vec<Fact> {
    let units = state.units();
    let Some((name, coats)) = state.project().build_ups.get_index(at) else {
        return Vec::new();
    };
    let mut facts = Vec::new();
    let figures = state.doc().bench().evaluation().coats.get(at);
    for (coat, figures) in coats.iter().zip(figures.into_iter().flatten()) {
        let Some(figures) = figures else {
            facts.push((coat.coat.clone(), "waits for what is refused".into()));
            continue;
        };
        let placed = print::bulk_volume(figures.volume.placed, units);
        let batches = match &figures.batches {
            Some(batches) if figures.volume.mixed.value > 0.0 => {
                eco_format!(", {} batches", print::count(batches.loads, units))
            }
            _ => EcoString::new(),
        };
        facts.push((coat.coat.clone(), eco_format!("{placed} placed{batches}")));
    }
    facts.extend(used_by(state, |face| face.build_up == *name));
    facts
}

fn coat_facts(state: &State, build_up: usize, coat: usize) -> Vec<Fact> {
    let units = state.units();
    let Some((name, _)) = state.project().build_ups.get_index(build_up) else {
        return Vec::new();
    };
    let figures = state.doc().bench().coat(build_up, coat);
    let mut facts = Vec::new();
    if let Some(of) = figures {
        facts.push(fact("surface", print::area(of.surface.area, units)));
        let first = of.first.total();
        let placed = print::bulk_volume(of.volume.placed, units);
        facts.push(if first.value > 0.0 {
            let first = print::bulk_volume(first, units);
            (
                EcoString::from("placed"),
                eco_format!("{placed}, levelling {first}"),
            )
        } else {
            fact("placed", placed)
        });
        facts.push(fact("wet", print::bulk_volume(of.volume.wet, units)));
        facts.push(fact("mixed", print::bulk_volume(of.volume.mixed, units)));
        facts.push(fact(
            "loose, dry",
            print::bulk_volume(of.recipe.loose, units),
        ));
        if let Some(batches) = &of.batches {
            facts.push(fact("batches", print::count(batches.loads, units)));
        }
    }
    facts.extend(used_by(state, |face| face.build_up == *name));
    facts
}

fn quantity(of: &Quantity, units: UnitSystem) -> EcoString {
    let volume = of
        .loose
        .map(|v| eco_format!("{}", print::bulk_volume(v, units)));
    let mass = of.mass.map(|m| eco_format!("{}", print::mass(m, units)));
    match (volume, mass) {
        (Some(volume), Some(mass)) => eco_format!("{volume}, {mass}"),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => "–".into(),
    }
}

/// What more of a material is delivered than at the mark.
fn since(state: &State, material: &str, now: &Quantity) -> EcoString {
    let units = state.units();
    let Some(then) = state.delivered_at_mark(material) else {
        return "all of it".into();
    };
    let volume = now.loose.zip(then.loose).map(|(now, then)| {
        let more = print::bulk_volume(now - then, units).to_string();
        (now.value > then.value, more)
    });
    let mass = now.mass.zip(then.mass).map(|(now, then)| {
        let more = print::mass(now - then, units).to_string();
        (now.value > then.value, more)
    });
    match volume.or(mass) {
        Some((true, more)) => eco_format!("+{more}"),
        Some((false, more)) => more.replace('-', "−").into(),
        None => "–".into(),
    }
}

fn material(state: &State, at: usize) -> Vec<Fact> {
    let units = state.units();
    let project = state.project();
    let (Some((name, of)), Some(figures)) = (
        project.materials.get_index(at),
        state.doc().bench().evaluation().materials.get(at),
    ) else {
        return Vec::new();
    };
    if figures.uses.is_empty() {
        return vec![(EcoString::new(), "No coat takes it yet.".into())];
    }
    let mut facts = vec![
        fact("needed, dry", quantity(&figures.dry, units)),
        fact("as delivered", quantity(&figures.delivered, units)),
        fact("since the mark", since(state, name, &figures.delivered)),
        fact("in the yard", quantity(&figures.stock, units)),
        fact("to buy", quantity(&figures.to_buy, units)),
    ];
    if let Some(cover) = &figures.cover {
        for (package, count) in &cover.counts {
            let name = of
                .packages
                .get(*package)
                .map(|package| package.name.clone())
                .unwrap_or_default();
            facts.push((name, print::count(*count, units).to_string().into()));
        }
        if let Some(price) = cover.price {
            facts.push(fact("price", print::money(price, units)));
        }
    } else if !of.packages.is_empty() {
        facts.push((EcoString::new(), "No package can be counted for it.".into()));
    }
    for used in &figures.uses {
        let named: Option<(&Name, _)> = project.build_ups.get_index(used.build_up);
        if let Some((name, coat)) =
            named.and_then(|(name, coats)| Some((name, coats.get(used.coat)?)))
        {
            facts.push((
                eco_format!("{name}, {}, dry", coat.coat),
                quantity(&used.dry, units),
            ));
        }
    }
    facts
}

/// What a test panel lost when it dried.
fn test_panel(state: &State, mix: usize, panel: usize) -> Vec<Fact> {
    let mixes = &state.project().mixes;
    let of = mixes.get_index(mix);
    let Some(of) = of.and_then(|(_, mix)| mix.test_panels.get(panel)) else {
        return Vec::new();
    };
    let lost = |wet: &Option<Typed<Length>>, dry: &Option<Typed<Length>>| {
        let (wet, dry) = (wet.as_ref()?.value().value, dry.as_ref()?.value().value);
        let lost = (wet - dry) / wet;
        lost.is_finite()
            .then(|| print::percentage(ratio_of(lost), state.units()))
    };
    let length = lost(&of.wet_length, &of.dry_length);
    let thickness = lost(&of.wet_thickness, &of.dry_thickness);
    let mut facts: Vec<Fact> = Vec::new();
    facts.extend(length.map(|of| fact("length lost", of)));
    facts.extend(thickness.map(|of| fact("thickness lost", of)));
    if facts.is_empty() {
        let words = "Measure it wet and dry: what it loses of its thickness is what a coat of the mix loses.";
        facts.push((EcoString::new(), words.into()));
    }
    facts
}

fn mix(state: &State, at: usize) -> Vec<Fact> {
    let units = state.units();
    let project = state.project();
    let Some((name, _)) = project.mixes.get_index(at) else {
        return Vec::new();
    };
    let mut facts = Vec::new();
    let batch = state.doc().bench().batch_of(name);
    if !batch.is_empty() {
        facts.push((
            EcoString::new(),
            "One batch, damp and past the screen:".into(),
        ));
        facts.extend(
            batch
                .iter()
                .map(|(material, of)| ((*material).clone(), quantity(of, units))),
        );
    }
    let coats = project
        .build_ups
        .iter()
        .flat_map(|(of, coats)| coats.iter().map(move |coat| (of, coat)));
    let of: Vec<EcoString> = coats
        .filter(|(_, coat)| coat.mix == *name)
        .map(|(of, coat)| eco_format!("{} of {of}", coat.coat))
        .collect();
    facts.push((
        EcoString::new(),
        if of.is_empty() {
            "In no coat yet.".into()
        } else {
            eco_format!("In {}.", of.join(", "))
        },
    ));
    facts
}
