//! Trees of what is ordered. Not here: the coats that need it.

use super::path::{PathFault, quoted};
use super::{Source, coats, short, typed, waits};
use crate::checked::CheckedMaterial;
use crate::evaluate::MaterialFigures;
use crate::figure::{Dimension, Formula, Node};
use crate::problem::Place;
use crate::project::{Material, MaterialKind, Name};
use crate::sources;
use ecow::eco_format;
use hodful_quantities::Typed;
use hodful_quantities::order::Holds;
use hodful_quantities::read::Amount;
use hodful_quantities::units::{Ratio, ratio};

/// A material by its name, by its kind when only one is of it, or by a word of its name.
pub(super) fn find(source: Source<'_>, name: &str) -> Result<(usize, Name), PathFault> {
    let all = &source.project.materials;
    let one = |found: &mut dyn Iterator<Item = (usize, Name)>| {
        let first = found.next()?;
        found.next().is_none().then_some(first)
    };
    let numbered = || all.keys().cloned().enumerate();
    all.get_index_of(name)
        .map(|i| (i, Name::from(name)))
        .or_else(|| {
            let kind = MaterialKind::from_word(name)?;
            one(&mut numbered()
                .filter(|(i, _)| all.get_index(*i).is_some_and(|(_, m)| m.kind == kind)))
        })
        .or_else(|| {
            one(&mut numbered().filter(|(_, n)| n.split_whitespace().any(|word| word == name)))
        })
        .ok_or_else(|| {
            let kind = MaterialKind::from_word(name);
            let answers = |(n, m): &(&Name, &Material)| {
                Some(m.kind) == kind || n.split_whitespace().any(|word| word == name)
            };
            let several: Vec<Name> = all.iter().filter(answers).map(|(n, _)| n.clone()).collect();
            if several.is_empty() {
                PathFault::Unknown {
                    kind: "material",
                    name: name.into(),
                    there: all.keys().cloned().collect(),
                }
            } else {
                PathFault::Several {
                    name: name.into(),
                    answer: several,
                }
            }
        })
}

#[derive(Clone)]
struct Found<'a> {
    index: usize,
    name: Name,
    material: &'a Material,
    checked: &'a CheckedMaterial,
    figures: &'a MaterialFigures,
    place: Place,
}

impl Found<'_> {
    fn path(&self, figure: &str) -> Name {
        eco_format!("order.{}.{figure}", quoted(&self.name))
    }

    fn unknown(&self, figure: &str) -> PathFault {
        if self.figures.waits {
            return waits(self.path(figure));
        }
        let why = if self.figures.uses.is_empty() {
            "no coat takes it"
        } else {
            "give its loose_density"
        };
        PathFault::NotKnown {
            what: self.path(figure),
            why,
        }
    }
}

/// A figure of the order.
pub(super) fn explain(source: Source<'_>, rest: &[&str]) -> Result<Node, PathFault> {
    let (name, figure) = match rest {
        [] => return Err(short(source, "order")),
        ["cost"] if source.evaluation.materials.iter().any(|m| m.waits) => {
            return Err(waits("the cost of the order"));
        }
        ["cost"] => return Ok(total_cost(source)),
        [name] => (*name, ""),
        [name, figure] => (*name, *figure),
        [_, _, beyond, ..] => return Err(unknown(beyond)),
    };
    let (index, name) = find(source, name)?;
    let missing = || PathFault::Empty;
    let found = Found {
        index,
        material: source
            .project
            .materials
            .get_index(index)
            .ok_or_else(missing)?
            .1,
        checked: source.site.materials.get(index).ok_or_else(missing)?,
        figures: source.evaluation.materials.get(index).ok_or_else(missing)?,
        place: Place::project().thing("material", name.clone()),
        name,
    };
    match figure {
        "" => delivered(source, &found, false).or_else(|_| delivered(source, &found, true)),
        "loose" => delivered(source, &found, false),
        "mass" => delivered(source, &found, true),
        "dry_loose" => dry(source, &found, false),
        "dry_mass" => dry(source, &found, true),
        "to_buy" => to_buy(source, &found, false).or_else(|_| to_buy(source, &found, true)),
        "cost" => cost(source, &found),
        "in_ground" => in_ground(source, &found),
        other => Err(unknown(other)),
    }
}

fn unknown(figure: &str) -> PathFault {
    let there = [
        "loose",
        "mass",
        "dry_loose",
        "dry_mass",
        "to_buy",
        "cost",
        "in_ground",
    ];
    PathFault::Unknown {
        kind: "figure of a material",
        name: figure.into(),
        there: there.map(Into::into).to_vec(),
    }
}

fn dry(source: Source<'_>, of: &Found<'_>, by_mass: bool) -> Result<Node, PathFault> {
    let figure = if by_mass { "dry_mass" } else { "dry_loose" };
    let (dimension, value) = if by_mass {
        (Dimension::Mass, of.figures.dry.mass.map(|m| m.value))
    } else {
        (Dimension::Volume, of.figures.dry.loose.map(|v| v.value))
    };
    let value = value
        .filter(|_| !of.figures.uses.is_empty())
        .ok_or_else(|| of.unknown(figure))?;
    let terms = of
        .figures
        .uses
        .iter()
        .filter_map(|used| {
            let coat = coats::at(source, used.build_up, used.coat)?;
            let volume = coats::mixed(source, &coat);
            let taken = coats::Taken {
                source,
                coat: &coat,
                material: of.index,
                quantity: used.dry,
                volume,
            };
            taken.dry(by_mass)
        })
        .collect();
    Ok(Node::sum(
        eco_format!("{}, dry and screened", of.name),
        dimension,
        value,
        terms,
    )
    .with_path(of.path(figure)))
}

/// As delivered. Steps that change nothing are left out.
fn delivered(source: Source<'_>, of: &Found<'_>, by_mass: bool) -> Result<Node, PathFault> {
    let figure = if by_mass { "mass" } else { "loose" };
    let (dimension, value, field, text, share) = if by_mass {
        (
            Dimension::Mass,
            of.figures.delivered.mass.map(|m| m.value),
            "moisture",
            &of.material.moisture,
            of.checked.delivery.moisture,
        )
    } else {
        (
            Dimension::Volume,
            of.figures.delivered.loose.map(|v| v.value),
            "bulking",
            &of.material.bulking,
            of.checked.delivery.bulking,
        )
    };
    let value = value.ok_or_else(|| of.unknown(figure))?;
    let mut terms = vec![dry(source, of, by_mass)?];
    let screen = reject(of);
    let lying = of.material.keeping_loss.as_ref().map(|text| {
        let lost = of.checked.delivery.keeping_loss.get();
        let place = of.place.field("keeping_loss");
        typed("lost while it lies", Dimension::Number, lost, text, &place)
    });
    let tested = if by_mass { None } else { bulking(of) };
    let swelling = tested.or_else(|| {
        let share = share.get::<ratio>();
        let text = text.as_ref()?;
        Some(typed(
            field,
            Dimension::Number,
            share,
            text,
            &of.place.field(field),
        ))
    });
    let (label, formula) = match (&screen, &lying, &swelling) {
        (None, None, None) => ("as delivered", "#0"),
        (Some(_), None, None) => ("as delivered, before the screen", "#0 ÷ (1 − #1)"),
        (None, Some(_), None) => ("as delivered, with what is lost lying", "#0 ÷ (1 − #1)"),
        (None, None, Some(_)) => ("as delivered, damp", "#0 × (1 + #1)"),
        (Some(_), Some(_), None) => (
            "as delivered: before the screen, with what is lost lying",
            "#0 ÷ (1 − #1) ÷ (1 − #2)",
        ),
        (Some(_), None, Some(_)) => (
            "as delivered: damp and before the screen",
            "#0 ÷ (1 − #1) × (1 + #2)",
        ),
        (None, Some(_), Some(_)) => (
            "as delivered: damp, with what is lost lying",
            "#0 ÷ (1 − #1) × (1 + #2)",
        ),
        (Some(_), Some(_), Some(_)) => (
            "as delivered: damp, before the screen, with what is lost lying",
            "#0 ÷ (1 − #1) ÷ (1 − #2) × (1 + #3)",
        ),
    };
    let damp = swelling.is_some();
    terms.extend(screen);
    terms.extend(lying);
    terms.extend(swelling);
    let label = eco_format!("{}, {label}", of.name);
    let node =
        Node::new(label, dimension, value, Formula::Of(formula), terms).with_path(of.path(figure));
    Ok(match (damp, by_mass) {
        (false, _) => node,
        (true, true) => node.with_source("moisture is water per dry mass"),
        (true, false) => node.with_source(sources::BULKING),
    })
}

/// The volume in the ground of what is dug.
fn in_ground(source: Source<'_>, of: &Found<'_>) -> Result<Node, PathFault> {
    let (Some(heap), Some(swell)) = (of.figures.heap, &of.material.swell) else {
        return Err(PathFault::NotKnown {
            what: of.path("in_ground"),
            why: "give its loose_density and its swell",
        });
    };
    let value = swell.value().get::<ratio>();
    let swell = typed(
        "swell",
        Dimension::Number,
        value,
        swell,
        &of.place.field("swell"),
    );
    let loose = delivered(source, of, false)?;
    let label = eco_format!("{}, in the ground", of.name);
    Ok(Node::new(
        label,
        Dimension::Volume,
        heap.in_ground.value,
        Formula::Of("#0 ÷ (1 + #1)"),
        vec![loose, swell],
    )
    .with_source(sources::SWELL)
    .with_path(of.path("in_ground")))
}

/// What the screen holds back: by its trial, else as typed.
fn reject(of: &Found<'_>) -> Option<Node> {
    let reject = of.checked.delivery.reject.get();
    let label = "reject of the screen";
    let Some(test) = &of.material.screen_test else {
        let text = of.material.reject.as_ref()?;
        let place = of.place.field("reject");
        return Some(typed(label, Dimension::Number, reject, text, &place));
    };
    let place = of.place.field("screen_test");
    let (dimension, [held, raw]) = match (test.held.value(), test.raw.value()) {
        (Amount::Volume(held), Amount::Volume(raw)) => (Dimension::Volume, [held.value, raw.value]),
        (Amount::Mass(held), Amount::Mass(raw)) => (Dimension::Mass, [held.value, raw.value]),
        _ => return None,
    };
    let held = typed(
        "held back",
        dimension,
        held,
        &test.held,
        &place.field("held"),
    );
    let raw = typed(
        "thrown at the screen",
        dimension,
        raw,
        &test.raw,
        &place.field("raw"),
    );
    let label = measured(label, of.material.reject.as_ref());
    let terms = vec![held, raw];
    Some(Node::new(
        label,
        Dimension::Number,
        reject,
        Formula::Of("#0 ÷ #1"),
        terms,
    ))
}

/// The bulking by a jar test.
fn bulking(of: &Found<'_>) -> Option<Node> {
    let test = of.material.bulking_test.as_ref()?;
    let place = of.place.field("bulking_test");
    let (damp, flooded) = (&test.damp, &test.flooded);
    let length = Dimension::Length;
    let terms = vec![
        typed(
            "damp in the jar",
            length,
            damp.value().value,
            damp,
            &place.field("damp"),
        ),
        typed(
            "flooded and rodded",
            length,
            flooded.value().value,
            flooded,
            &place.field("flooded"),
        ),
    ];
    let value = of.checked.delivery.bulking.get::<ratio>();
    let label = measured("bulking", of.material.bulking.as_ref());
    let node = Node::new(
        label,
        Dimension::Number,
        value,
        Formula::Of("#0 ÷ #1 − 1"),
        terms,
    );
    Some(node.with_source(sources::BULKING))
}

/// A label that says that a test stands before what is typed.
pub(super) fn measured(label: &str, typed: Option<&Typed<Ratio>>) -> ecow::EcoString {
    typed.map_or_else(
        || eco_format!("{label}, tested"),
        |typed| {
            eco_format!(
                "{label}, tested; it stands before the {} typed",
                typed.text()
            )
        },
    )
}

/// What is left to buy: delivered less what is in the yard.
fn to_buy(source: Source<'_>, of: &Found<'_>, by_mass: bool) -> Result<Node, PathFault> {
    let (dimension, value, in_yard) = if by_mass {
        let stock = of.figures.stock.mass.map(|m| m.value);
        (
            Dimension::Mass,
            of.figures.to_buy.mass.map(|m| m.value),
            stock,
        )
    } else {
        let stock = of.figures.stock.loose.map(|v| v.value);
        (
            Dimension::Volume,
            of.figures.to_buy.loose.map(|v| v.value),
            stock,
        )
    };
    let (Some(value), Some(in_yard)) = (value, in_yard) else {
        return Err(of.unknown("to_buy"));
    };
    let need = delivered(source, of, by_mass)?;
    let label = eco_format!("{}, to buy", of.name);
    let Some(text) = &of.material.stock else {
        return Ok(Node::new(
            label,
            dimension,
            value,
            Formula::Of("#0"),
            vec![need],
        ));
    };
    let stock = typed(
        "in the yard",
        dimension,
        in_yard,
        text,
        &of.place.field("stock"),
    );
    Ok(Node::new(
        label,
        dimension,
        value,
        Formula::Of("max(#0 − #1, 0)"),
        vec![need, stock],
    ))
}

/// The packages of one kind that are ordered.
fn packages(source: Source<'_>, of: &Found<'_>, offer: usize, count: f64) -> Option<Node> {
    let package = of.material.packages.get(offer)?;
    let place = of
        .place
        .thing("package", package.name.clone())
        .field("holds");
    let (by_mass, dimension, holds) = match of.checked.offers.get(offer)?.holds {
        Holds::Volume(volume) => (false, Dimension::Volume, volume.value),
        Holds::Mass(mass) => (true, Dimension::Mass, mass.value),
    };
    let mut terms = vec![typed("one holds", dimension, holds, &package.holds, &place)];
    terms.extend(to_buy(source, of, by_mass));
    Some(Node::new(
        eco_format!("{}, rounded up to whole ones", package.name),
        Dimension::Count,
        count,
        Formula::From,
        terms,
    ))
}

fn cost(source: Source<'_>, of: &Found<'_>) -> Result<Node, PathFault> {
    let unknown = || {
        if of.figures.waits {
            return waits(of.path("cost"));
        }
        PathFault::NotKnown {
            what: of.path("cost"),
            why: "it has no package with a price",
        }
    };
    let cover = of.figures.cover.as_ref().ok_or_else(unknown)?;
    let price = cover.price.ok_or_else(unknown)?;
    let terms: Vec<Node> = cover
        .counts
        .iter()
        .filter_map(|(offer, count)| {
            let package = of.material.packages.get(*offer)?;
            let each = package.price.as_ref()?;
            let place = of.place.thing("package", package.name.clone());
            let place = place.field("price");
            let price = typed(
                "price of one",
                Dimension::Money,
                each.value().to_f64(),
                each,
                &place,
            );
            #[allow(clippy::cast_precision_loss, reason = "counts stay below 2^53")]
            let count = packages(source, of, *offer, *count as f64)?;
            Some(Node::new(
                eco_format!("{} of {}", package.name, package.holds.text()),
                Dimension::Money,
                count.figure.value * price.figure.value,
                Formula::Of("#0 × #1"),
                vec![count, price],
            ))
        })
        .collect();
    let label = eco_format!("{}, cost", of.name);
    Ok(Node::sum(label, Dimension::Money, price.to_f64(), terms).with_path(of.path("cost")))
}

fn total_cost(source: Source<'_>) -> Node {
    let terms: Vec<Node> = source
        .project
        .materials
        .keys()
        .filter_map(|name| explain(source, &[name, "cost"]).ok())
        .collect();
    Node::sum(
        "cost of the order",
        Dimension::Money,
        source.evaluation.cost.to_f64(),
        terms,
    )
    .with_path("order.cost")
}
