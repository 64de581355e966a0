//! A few days with many hands, as blocks. Not here: planning them, and the days themselves.

use super::days;
use crate::cells::{
    body, figures, heap, mass, number, or_unknown, text, unit_of_heap, unit_of_mass, words,
};
use crate::{Block, Table};
use ecow::eco_format;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Area, Volume, liter, square_meter};
use hodful_takeoff::Caution;
use hodful_takeoff::days::{WeekendAhead, said};

/// What fits into a few days with many hands: surface, what must be ready before, who does what, what is left, and
/// then the days as others are told.
pub fn weekend(of: &WeekendAhead, all: &[Caution], units: UnitSystem) -> Vec<Block> {
    let mut blocks = Vec::new();
    let area = print::area(Area::new::<square_meter>(of.m2), units);
    let count = of.days.plan.days.len();
    let people = of.days.site.crew.people();
    let counted = |count: usize, one: &str, many: &str| {
        eco_format!("{count} {}", if count == 1 { one } else { many })
    };
    blocks.push(Block::Words(eco_format!(
        "In {} with {} {area} can be placed.",
        counted(count, "day", "days"),
        counted(people, "person", "people"),
    )));
    blocks.extend(of.left().map(Block::Words));
    blocks.push(Block::Heading("Ready before they come".into()));
    blocks.extend(before(of, units));
    for mix in &of.mixes {
        let volume = print::volume(Volume::new::<liter>(mix.litres), units);
        let batch = of.days.site.mixing.map(|mixing| mixing.litres_per_batch);
        let batches = batch.map_or_else(Default::default, |batch| {
            eco_format!(", {:.0} batches", (mix.litres / batch).ceil())
        });
        blocks.push(Block::Words(eco_format!(
            "For {volume} of {}{batches}, dry and screened, at the mixer:",
            mix.mix
        )));
        blocks.push(Block::Table(materials(mix, units)));
    }
    blocks.push(Block::Heading("Who does what".into()));
    if of.hands.is_empty() {
        blocks.push(Block::Words(
            "These people cannot be shared out so that a coat gets done.".into(),
        ));
    }
    blocks.extend(of.hands.iter().map(|hands| Block::Words(hands.said(units))));
    blocks.extend(days(&of.days, all, units));
    blocks
}

fn before(of: &WeekendAhead, units: UnitSystem) -> Vec<Block> {
    if of.before.is_empty() {
        return vec![Block::Words(
            "The project names nothing to prepare. Usual are heaps at the mixer, clay in water, screening, masking, trimmed and keyed backgrounds: give them hours under 'prepare'.".into(),
        )];
    }
    let columns = vec![
        words("What", 2.0),
        figures("Person-hours", "", 1.0),
        words("Done by", 1.8),
    ];
    let rows = of.before.iter().map(|ahead| {
        body(vec![
            text(ahead.what.clone()),
            number(ahead.hours, 1, units),
            text(eco_format!(
                "{} {}",
                said::day(ahead.by.date()),
                said::clock(ahead.by)
            )),
        ])
    });
    let rows = rows.collect();
    vec![Block::Table(Table { columns, rows })]
}

fn materials(of: &hodful_takeoff::days::MixAhead, units: UnitSystem) -> Table {
    let columns = vec![
        words("Material", 2.0),
        figures("Loose", unit_of_heap(units), 1.0),
        figures("Mass", unit_of_mass(units), 1.0),
    ];
    let rows = of.materials.iter().map(|(name, quantity)| {
        body(vec![
            text(name.clone()),
            or_unknown(quantity.loose, |loose| heap(loose, units)),
            or_unknown(quantity.mass, |of| mass(of, units)),
        ])
    });
    Table {
        columns,
        rows: rows.collect(),
    }
}
