//! Trees of a mix: yield, clay, water. Not here: volumes of coats.

use super::path::{PathFault, quoted};
use super::{Source, typed, waits};
use crate::checked::CheckedMix;
use crate::figure::{Dimension, Formula, Node};
use crate::problem::Place;
use crate::project::{Material, Mix};
use crate::sources;
use ecow::eco_format;
use hodful_quantities::mix::{AbsoluteVolumes, Mineral, SAND_SWELL, USUAL_PARTICLE_DENSITY};
use hodful_quantities::units::ratio;
use std::iter::zip;

/// A mix by its name.
pub(super) fn find<'a>(
    source: Source<'a>,
    name: &str,
) -> Result<(&'a Mix, &'a CheckedMix, Place), PathFault> {
    let mixes = &source.project.mixes;
    let (at, name, mix) = mixes.get_full(name).ok_or_else(|| PathFault::Unknown {
        kind: "mix",
        name: name.into(),
        there: mixes.keys().cloned().collect(),
    })?;
    let place = Place::project().thing("mix", name.clone());
    source
        .site
        .mix(at)
        .map(|checked| (mix, checked, place))
        .ok_or_else(|| waits(eco_format!("mix '{name}'")))
}

/// A figure of a mix.
pub(super) fn explain(source: Source<'_>, name: &str, rest: &[&str]) -> Result<Node, PathFault> {
    let (_, checked, _) = find(source, name)?;
    let unknown = |why| PathFault::NotKnown {
        what: eco_format!("mix '{name}'"),
        why,
    };
    match rest {
        [] | ["yield"] => yielded(source, name),
        ["clay"] => {
            let clay = checked.clay.ok_or(unknown(
                "give clay and loose_density of each of its materials",
            ))?;
            let parts = minerals(source, name)?;
            let mass = Node::sum(
                "dry mass of 1 m³ loose",
                Dimension::Density,
                checked.mix.loose_density().map_or(0.0, |d| d.value),
                parts
                    .iter()
                    .map(|(m, name, place, material)| density(m, name, place, material, checked))
                    .collect(),
            );
            let of_clay = Node::sum(
                "clay in it",
                Dimension::Density,
                clay.value * mass.figure.value,
                parts
                    .iter()
                    .filter_map(|(m, name, place, material)| {
                        let clay = clay_of(m, place, material)?;
                        let dense = density(m, name, place, material, checked);
                        Some(Node::new(
                            eco_format!("{name}"),
                            Dimension::Density,
                            dense.figure.value * clay.figure.value,
                            Formula::Of("#0 × #1"),
                            vec![dense, clay],
                        ))
                    })
                    .collect(),
            );
            Ok(Node::new(
                eco_format!("clay in mix {name}, of its dry mass"),
                Dimension::Number,
                clay.get::<ratio>(),
                Formula::Of("#0 ÷ #1"),
                vec![of_clay, mass],
            )
            .with_path(eco_format!("mixes.{}.clay", quoted(name))))
        }
        ["water_to_add"] => water_to_add(source, name),
        [_, other, ..] | [other] => Err(PathFault::Unknown {
            kind: "figure of a mix",
            name: (*other).into(),
            there: ["yield", "clay", "water_to_add"].map(Into::into).to_vec(),
        }),
    }
}

/// Clay of a mineral: as typed, else by the test of its grains, else as usual.
fn clay_of(of: &Mineral, place: &Place, material: &Material) -> Option<Node> {
    let share = of.clay?.get::<ratio>();
    if let Some(text) = &material.clay {
        let place = place.field("clay");
        return Some(typed("clay", Dimension::Number, share, text, &place));
    }
    let tested = material.soil.as_deref().and_then(|of| of.ways().next());
    Some(match tested {
        Some(way) => {
            let label = eco_format!("clay past the screen, by its {}", way.words());
            let place = place.field("soil").field(way.field());
            Node::given(label, Dimension::Number, share).at(place)
        }
        None => Node::given("clay", Dimension::Number, share)
            .with_source("none in sand, lime and cement: common practice, no source"),
    })
}

type Part<'a> = (&'a Mineral, &'a str, Place, &'a Material);

fn minerals<'a>(source: Source<'a>, name: &str) -> Result<Vec<Part<'a>>, PathFault> {
    let (_, checked, _) = find(source, name)?;
    Ok(zip(checked.mix.minerals(), &checked.minerals)
        .filter_map(|(mineral, index)| {
            let (name, material) = source.project.materials.get_index(*index)?;
            let place = Place::project().thing("material", name.clone());
            Some((mineral, name.as_str(), place, material))
        })
        .collect())
}

/// The parts of one mineral over the sum of parts.
pub(super) fn share(source: Source<'_>, name: &str, material: usize) -> Option<Node> {
    let (mix, checked, place) = find(source, name).ok()?;
    let at = checked.minerals.iter().position(|m| *m == material)?;
    let (name, parts) = mix.parts.get_index(at)?;
    let sum = checked.mix.sum_of_parts();
    let own = typed(
        &eco_format!("parts of {name}"),
        Dimension::Number,
        parts.value().get(),
        parts,
        &place.field("parts").field(name.clone()),
    );
    Some(Node::new(
        "share by parts",
        Dimension::Number,
        own.figure.value / sum,
        Formula::Of("#0 ÷ #1"),
        vec![own, Node::given("sum of the parts", Dimension::Number, sum)],
    ))
}

/// Dry mass of a mineral per loose volume of all.
fn density(
    mineral: &Mineral,
    name: &str,
    place: &Place,
    material: &Material,
    checked: &CheckedMix,
) -> Node {
    let sum = checked.mix.sum_of_parts();
    let part = Node::new(
        eco_format!("share of {name} by parts"),
        Dimension::Number,
        mineral.parts / sum,
        Formula::Of("#0 ÷ #1"),
        vec![
            Node::given("parts", Dimension::Number, mineral.parts),
            Node::given("sum of the parts", Dimension::Number, sum),
        ],
    );
    let dense = loose_density(material, place);
    Node::new(
        eco_format!("{name}"),
        Dimension::Density,
        part.figure.value * dense.figure.value,
        Formula::Of("#0 × #1"),
        vec![part, dense],
    )
}

/// The loose density of a material as typed.
pub(super) fn loose_density(material: &Material, place: &Place) -> Node {
    match &material.loose_density {
        Some(d) => typed(
            "loose density, dry",
            Dimension::Density,
            d.value().value,
            d,
            &place.field("loose_density"),
        ),
        None => Node::given("loose density, not known", Dimension::Density, 0.0),
    }
}

/// The yield of a mix.
pub(super) fn yielded(source: Source<'_>, name: &str) -> Result<Node, PathFault> {
    let (mix, checked, place) = find(source, name)?;
    let (low, high) = hodful_quantities::mix::PUBLISHED_YIELD;
    let label = eco_format!("yield of mix {name}, mixed per loose (published {low} to {high})");
    let path = eco_format!("mixes.{}.yield", quoted(name));
    let value = checked.yielded.value.get::<ratio>();
    let node = match (
        &checked.yielded.trial,
        &mix.trial_batch,
        &checked.yielded.absolute,
    ) {
        (Some((loose, mixed)), Some(trial), absolute) => {
            let place = place.field("trial_batch");
            let made = typed(
                "trial batch made",
                Dimension::Volume,
                mixed.value,
                &trial.mixed,
                &place.field("mixed"),
            );
            let took = typed(
                "trial batch took, loose",
                Dimension::Volume,
                loose.value,
                &trial.loose,
                &place.field("loose"),
            );
            let mut terms = vec![made, took];
            if let Some(absolute) = absolute {
                terms.push(by_volumes(source, name, absolute)?);
            }
            Node::new(
                label,
                Dimension::Number,
                value,
                Formula::Of("#0 ÷ #1"),
                terms,
            )
            .with_source(eco_format!(
                "measured: a trial batch; {}",
                sources::YIELD_SPREAD
            ))
        }
        (_, _, Some(absolute)) => {
            let mut node = by_volumes(source, name, absolute)?;
            node.label = label;
            node.source = Some(eco_format!(
                "{}; {}",
                sources::ABSOLUTE_VOLUMES,
                sources::YIELD_SPREAD
            ));
            node
        }
        _ => Node::given(label, Dimension::Number, value),
    };
    Ok(node.with_path(path))
}

/// The yield by absolute volumes, for one cubic metre of loose minerals.
fn by_volumes(source: Source<'_>, name: &str, of: &AbsoluteVolumes) -> Result<Node, PathFault> {
    let whole = Node::new(
        "all of it as mixed",
        Dimension::Volume,
        of.whole.value,
        Formula::Of("(#0 + #1 + #2) ÷ (1 − #3)"),
        vec![
            solids(source, name, of)?,
            water(source, name, of)?,
            Node::given(
                "fibre and binder dosed by loose volume, as solid volume",
                Dimension::Volume,
                of.additives.value,
            ),
            Node::given(
                "air, and fibre and binder dosed by mixed volume (nothing where no particle_density is given)",
                Dimension::Number,
                of.air_and_dosed,
            ),
        ],
    );
    let mixed = if of.mixed == of.whole {
        whole
    } else {
        Node::new(
            "wetted sand, swollen: the least that the mix comes to",
            Dimension::Volume,
            of.mixed.value,
            Formula::Of("#0 × #1"),
            vec![
                Node::given("loose sand", Dimension::Volume, of.sand.value),
                Node::given("swelling of wetted sand", Dimension::Number, SAND_SWELL)
                    .with_source(sources::ABSOLUTE_VOLUMES),
                whole,
            ],
        )
    };
    Ok(Node::new(
        "yield by absolute volumes",
        Dimension::Number,
        (of.mixed / of.loose).get::<ratio>(),
        Formula::Of("#0 ÷ #1"),
        vec![
            mixed,
            Node::given(
                "sand, clay and the like, dry and loose",
                Dimension::Volume,
                of.loose.value,
            ),
        ],
    )
    .with_source(sources::ABSOLUTE_VOLUMES))
}

/// The grains of the minerals.
fn solids(source: Source<'_>, name: &str, of: &AbsoluteVolumes) -> Result<Node, PathFault> {
    let (_, checked, _) = find(source, name)?;
    let grains = minerals(source, name)?
        .into_iter()
        .map(|(mineral, name, place, material)| {
            let dense = density(mineral, name, &place, material, checked);
            let label = "density of the grains";
            let own = match &material.particle_density {
                Some(d) => {
                    let place = place.field("particle_density");
                    typed(label, Dimension::Density, d.value().value, d, &place)
                }
                None => Node::given(label, Dimension::Density, mineral.grains().value).with_source(
                    eco_format!(
                        "default {USUAL_PARTICLE_DENSITY} kg/m³ for mineral soil (from memory)"
                    ),
                ),
            };
            let one = Node::given(
                "sand, clay and the like, dry and loose",
                Dimension::Volume,
                of.loose.value,
            );
            Node::new(
                eco_format!("grains of {name}"),
                Dimension::Volume,
                one.figure.value * dense.figure.value / own.figure.value,
                Formula::Of("#0 × #1 ÷ #2"),
                vec![one, dense, own],
            )
        })
        .collect();
    Ok(Node::sum(
        "grains",
        Dimension::Volume,
        of.solids.value,
        grains,
    ))
}

/// The water of the mix, as volume.
fn water(source: Source<'_>, name: &str, of: &AbsoluteVolumes) -> Result<Node, PathFault> {
    let (mix, _, place) = find(source, name)?;
    let Some(w) = &mix.water else {
        return Ok(Node::given("water", Dimension::Volume, of.water.value));
    };
    let share = w.value().get::<ratio>();
    let density = crate::evaluate::water_density().value;
    Ok(Node::new(
        "water",
        Dimension::Volume,
        of.water.value,
        Formula::Of("#0 × #1 ÷ #2"),
        vec![
            Node::given(
                "dry mass of the loose parts",
                Dimension::Mass,
                of.dry_mass.value,
            ),
            typed(
                "water per dry mass",
                Dimension::Number,
                share,
                w,
                &place.field("water"),
            ),
            Node::given("density of water", Dimension::Density, density),
        ],
    ))
}

/// Water to add per mixed volume.
pub(super) fn water_to_add(source: Source<'_>, name: &str) -> Result<Node, PathFault> {
    let (mix, checked, place) = find(source, name)?;
    let one = hodful_quantities::units::Volume::new::<hodful_quantities::units::cubic_meter>(1.0);
    let need = checked
        .mix
        .recipe(one, checked.yielded.value)
        .water
        .ok_or(PathFault::NotKnown {
            what: eco_format!("water of mix '{name}'"),
            why: "give water, and loose_density of each of its materials",
        })?;
    let per = |mass: hodful_quantities::units::Mass| (mass / one).value;
    let dense = Node::given(
        "dry mass of the loose parts, per loose volume",
        Dimension::Density,
        checked.mix.loose_density().map_or(0.0, |d| d.value),
    );
    let mut terms = vec![dense, yielded(source, name)?];
    if let Some(water) = &mix.water {
        terms.push(typed(
            "water per dry mass",
            Dimension::Number,
            water.value().get::<ratio>(),
            water,
            &place.field("water"),
        ));
    }
    let target = Node::new(
        "water of the mix",
        Dimension::Density,
        per(need.target),
        Formula::Of("#0 ÷ #1 × #2"),
        terms,
    );
    let recipe = checked.mix.recipe(one, checked.yielded.value);
    let held = checked
        .takes(&recipe, None)
        .into_iter()
        .filter_map(|(material, quantity)| {
            let (name, material) = source.project.materials.get_index(material)?;
            let moisture = material.moisture.as_ref()?;
            let place = Place::project().thing("material", name.clone());
            let wet = typed(
                "moisture",
                Dimension::Number,
                moisture.value().get::<ratio>(),
                moisture,
                &place.field("moisture"),
            );
            let dry = Node::given(
                eco_format!("dry {name} in a mixed volume"),
                Dimension::Density,
                per(quantity.mass?),
            );
            Some(Node::new(
                eco_format!("water in {name}"),
                Dimension::Density,
                dry.figure.value * wet.figure.value,
                Formula::Of("#0 × #1"),
                vec![dry, wet],
            ))
        })
        .collect();
    let held = Node::sum(
        "water the materials hold",
        Dimension::Density,
        per(need.in_materials),
        held,
    );
    Ok(Node::new(
        eco_format!("water to add, per volume of mix {name}"),
        Dimension::Density,
        per(need.to_add()),
        Formula::Of("max(#0 − #1, 0)"),
        vec![target, held],
    )
    .with_path(eco_format!("mixes.{}.water_to_add", quoted(name))))
}
