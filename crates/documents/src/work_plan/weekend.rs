//! A few days with many hands, as blocks. Not here: planning them, and the days themselves.

use super::days;
use crate::cells::{
    body, figures, heap, mass, number, or_unknown, text, unit_of_heap, unit_of_mass, words,
};
use crate::{Block, Table};
use ecow::eco_format;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Caution;
use hodful_takeoff::days::WeekendAhead;

/// What fits into a few days with many hands: surface, what must be ready before, who does what, what is left, and
/// then the days as others are told.
pub fn weekend(of: &WeekendAhead, all: &[Caution], units: UnitSystem) -> Vec<Block> {
    let mut blocks = vec![Block::Words(of.fits(units))];
    blocks.extend(of.left().map(Block::Words));
    blocks.push(Block::Heading("Ready before they come".into()));
    blocks.push(before(of, units));
    for mix in &of.mixes {
        blocks.push(Block::Words(eco_format!("{}:", of.heaps(mix, units))));
        blocks.push(Block::Table(materials(mix, units)));
    }
    blocks.push(Block::Heading("Who does what".into()));
    blocks.extend(of.who(units).into_iter().map(Block::Words));
    blocks.extend(days(&of.days, all, units));
    blocks
}

fn before(of: &WeekendAhead, units: UnitSystem) -> Block {
    if of.before.is_empty() {
        return Block::Words(WeekendAhead::NOTHING_TO_PREPARE.into());
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
            text(ahead.by()),
        ])
    });
    let rows = rows.collect();
    Block::Table(Table { columns, rows })
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
