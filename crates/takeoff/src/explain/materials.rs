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
use hodful_quantities::order::Holds;
use hodful_quantities::read::Money;
use hodful_quantities::units::ratio;

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
        other => Err(unknown(other)),
    }
}

fn unknown(figure: &str) -> PathFault {
    let there = ["loose", "mass", "dry_loose", "dry_mass", "to_buy", "cost"];
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
    let screen = of.material.reject.as_ref().map(|text| {
        let reject = of.checked.delivery.reject.get();
        typed(
            "reject of the screen",
            Dimension::Number,
            reject,
            text,
            &of.place.field("reject"),
        )
    });
    let swelling = text.as_ref().map(|text| {
        typed(
            field,
            Dimension::Number,
            share.get::<ratio>(),
            text,
            &of.place.field(field),
        )
    });
    let (label, formula) = match (&screen, &swelling) {
        (None, None) => ("as delivered", "#0"),
        (Some(_), None) => ("as delivered, before the screen", "#0 ÷ (1 − #1)"),
        (None, Some(_)) => ("as delivered, damp", "#0 × (1 + #1)"),
        (Some(_), Some(_)) => (
            "as delivered: damp and before the screen",
            "#0 ÷ (1 − #1) × (1 + #2)",
        ),
    };
    let damp = swelling.is_some();
    terms.extend(screen);
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

fn money(value: Money) -> f64 {
    use std::str::FromStr;
    f64::from_str(&value.amount().to_string()).unwrap_or_default()
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
                money(each.value()),
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
    Ok(Node::sum(label, Dimension::Money, money(price), terms).with_path(of.path("cost")))
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
        money(source.evaluation.cost),
        terms,
    )
    .with_path("order.cost")
}
