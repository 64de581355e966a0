//! What is on the walls already, how long coats can be worked, and rooms, as blocks of the work plan. Not here: what
//! is said of them (see `hodful_takeoff::days::said`).

use crate::cells::{
    area, body, figures, mass, number, or_unknown, text, unit_of_area, unit_of_mass, words,
};
use crate::{Block, Table};
use ecow::EcoString;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Celsius, Mass, kilogram};
use hodful_takeoff::days::{DampRoom, Days, OnWall, Open, said};
use hodful_takeoff::project::Side;

/// Coats that are on the walls already.
pub(super) fn on_wall(of: &Days) -> Vec<Block> {
    let mut blocks = Vec::new();
    if !of.on_wall.is_empty() {
        blocks.push(Block::Heading("On the walls already".into()));
    }
    let each = of.on_wall.iter().map(OnWall::said);
    blocks.extend(each.map(Block::Words));
    blocks
}

/// How long each coat can be worked at least, and on how much an edge stays wet.
pub(super) fn workable(of: &Days, units: UnitSystem) -> Vec<Block> {
    let mut least: Vec<(EcoString, Side, Open)> = Vec::new();
    for task in &of.tasks {
        let Some(open) = task.open else { continue };
        let mut own = least.iter_mut();
        match own.find(|(coat, side, _)| *coat == task.coat && *side == task.side) {
            Some((.., known)) if open.minutes < known.minutes => *known = open,
            Some(_) => {}
            None => least.push((task.coat.clone(), task.side, open)),
        }
    }
    if least.is_empty() {
        return Vec::new();
    }
    let columns = vec![
        words("Coat", 2.0),
        figures("Minutes", "", 0.9),
        figures("Surface", unit_of_area(units), 0.9),
        words("By", 1.4),
    ];
    let rows = least.into_iter().map(|(coat, side, open)| {
        let by = if open.is_measured {
            "measured"
        } else {
            "estimate"
        };
        body(vec![
            text(ecow::eco_format!("{coat}, {}", side.word())),
            if open.is_all_day() {
                text("all day")
            } else {
                number(open.minutes, 0, units)
            },
            or_unknown((!open.is_all_day()).then_some(open.m2 * 1e6), |of| {
                area(of, units)
            }),
            text(by),
        ])
    });
    let rows = rows.collect();
    vec![
        Block::Heading("How long it stays workable".into()),
        Block::Table(Table { columns, rows }),
        Block::Words(
            "In the driest hour of the work, and the largest surface on which an edge stays wet then. Clay can be wetted again; lime and cement cannot. The estimate is ours: until the face has lost a kilogram of water on each square metre.".into(),
        ),
    ]
}

/// Rooms, each with its days.
pub(super) fn rooms(of: &Days, units: UnitSystem) -> Vec<Block> {
    of.rooms.iter().flat_map(|room| one(room, units)).collect()
}

fn one(room: &DampRoom, units: UnitSystem) -> Vec<Block> {
    let mut blocks = vec![
        Block::Heading(ecow::eco_format!("Room {}", room.name)),
        Block::Words(room.water(units)),
        Block::Words(room.open()),
    ];
    blocks.extend(room.warnings(units).into_iter().map(Block::Words));
    let mut columns = vec![
        words("Day", 1.3),
        figures("Warmth", "", 0.8),
        figures("Humidity", "%", 0.8),
        figures("Highest", "%", 0.8),
        figures("Water", unit_of_mass(units), 0.8),
        figures("Too damp", "h", 0.8),
        figures("Air no use", "h", 0.9),
    ];
    if room.has_ceiling {
        columns.push(figures("Drips", "h", 0.7));
    }
    let hours = |hours: u32| number(f64::from(hours), 0, units);
    let rows = room.days.iter().map(|day| {
        let mut cells = vec![
            text(said::day(day.date)),
            text(ecow::eco_format!(
                "{}",
                print::temperature(Celsius(day.celsius), units)
            )),
            number(day.humidity * 100.0, 0, units),
            number(day.highest * 100.0, 0, units),
            mass(Mass::new::<kilogram>(day.water_kg), units),
            hours(day.too_damp_h),
            hours(day.no_help_h),
        ];
        if room.has_ceiling {
            cells.push(hours(day.drips_h));
        }
        body(cells)
    });
    let rows = rows.collect();
    blocks.push(Block::Table(Table { columns, rows }));
    blocks.push(Block::Words(ecow::eco_format!("Humidity as the mean and the highest of the day; hours above what it should stay below; of these, hours in which no airing brings it below, as the air outside is too damp. {}", said::FRESH_EARTH)));
    blocks
}
