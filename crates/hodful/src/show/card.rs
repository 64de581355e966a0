//! The card beside the mixer, for a printer. Not here: counting.

use super::crew::{buckets, of_quarters, otherwise, plural, shovels};
use super::order::take_care;
use super::paragraph;
use super::table::Table;
use super::units::{Column, batch_volume, digits, unit};
use hodful_quantities::Typed;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::Volume;
use hodful_takeoff::card::said::poured;
use hodful_takeoff::card::{Card, CoatBatches, Load, Water};
use hodful_takeoff::{Assessed, Caution};

/// The cards of some mixes, then the cautions.
pub(crate) fn cards(
    of: &Assessed<'_>,
    cards: &[Card<'_>],
    cautions: &[Caution],
    units: UnitSystem,
) -> String {
    let mut out = paragraph("", &of.project.name);
    for card in cards {
        out.push('\n');
        out.push_str(&one(of, card, units));
    }
    out.push('\n');
    out.push_str(&take_care(of, cautions));
    out
}

fn one(of: &Assessed<'_>, card: &Card<'_>, units: UnitSystem) -> String {
    let mut out = paragraph(
        "",
        &format!(
            "MIX {}: one full batch makes {}",
            card.mix,
            print::volume(card.makes, units)
        ),
    );
    out.push_str("\nINTO THE MIXER, IN THIS ORDER\n");
    out.push_str(&loads(&card.loads, units));
    if let Some(water) = &card.water {
        out.push_str(&paragraph("", &water_words(water, units)));
    }
    out.push_str(&paragraph("", &measures(of)));
    out.push_str("\nBATCHES\n");
    out.push_str(&coats(&card.coats));
    for coat in card.coats.iter().filter(|coat| coat.has_part()) {
        out.push('\n');
        let head = format!(
            "LAST BATCH of {}, {}: {} of a full one",
            coat.build_up,
            coat.coat.coat,
            percent(coat.last)
        );
        out.push_str(&paragraph("", &head));
        out.push_str(&loads(&coat.last_loads, units));
        if let Some(water) = &coat.last_water {
            out.push_str(&paragraph("", &water_words(water, units)));
        }
    }
    out
}

fn percent(share: f64) -> String {
    format!("{:.0} %", share * 100.0)
}

fn loads(loads: &[Load<'_>], units: UnitSystem) -> String {
    let known = |text: Option<String>| text.unwrap_or_else(|| "–".to_owned());
    let mut table = Table::new(
        &[1, 4],
        [
            "\n".to_owned(),
            "Material\n".to_owned(),
            "Buckets\n".to_owned(),
            "Shovels\n".to_owned(),
            "Or\n".to_owned(),
            format!("Loose\n{}", unit(Column::Plaster, units)),
            format!("Weight\n{}", unit(Column::Mass, units)),
        ],
    );
    for (at, load) in loads.iter().enumerate() {
        table.row([
            (at + 1).to_string(),
            load.material.to_string(),
            known(buckets(load)),
            known(shovels(load)),
            known(otherwise(load)),
            known(load.quantity.loose.map(|v| batch_volume(v, units))),
            digits(load.quantity.mass.map(|m| print::mass(m, units))),
        ]);
    }
    table.print()
}

/// Water in words: all of it, what goes in at once, what is held back.
pub(super) fn water_words(water: &Water, units: UnitSystem) -> String {
    let first = water.at_once();
    let with = |volume: Volume, quarters: Option<u64>| match quarters.filter(|of| *of > 0) {
        Some(quarters) => format!(
            "{} ({})",
            poured(volume, units),
            of_quarters(quarters, "bucket")
        ),
        None => poured(volume, units).into(),
    };
    let (all, at_once) = (
        water.counted.bucket_quarters,
        water.first_counted.bucket_quarters,
    );
    if water.to_add.value <= 0.0 {
        return "Water: none; the materials are wet enough.".to_owned();
    }
    let held = all
        .zip(at_once)
        .map(|(all, first)| all.saturating_sub(first));
    let why = if water.is_said {
        ""
    } else {
        " How much to hold back is not said in the project: a fifth is common practice."
    };
    format!(
        "Water last, {} in all: {} at once; hold back {} until the mix has turned, and add what it wants.{why}",
        with(water.to_add, all),
        with(first, at_once),
        with(water.held_back, held),
    )
}

/// What a bucket, a shovel and a cup hold, as typed.
pub(super) fn measures(of: &Assessed<'_>) -> String {
    let typed = of.project.mixer.as_ref();
    let size = |measure: Option<&Typed<Volume>>, word: &str| {
        measure.map(|v| format!("a {word} holds {}", v.text()))
    };
    let sizes: Vec<String> = [
        size(typed.and_then(|m| m.bucket.as_ref()), "bucket"),
        size(typed.and_then(|m| m.shovel.as_ref()), "shovel"),
        size(typed.and_then(|m| m.cup.as_ref()), "cup"),
    ]
    .into_iter()
    .flatten()
    .collect();
    let sizes = if sizes.is_empty() {
        "Give the mixer a bucket and a shovel in the project to have them counted.".to_owned()
    } else {
        format!("As measured: {}.", sizes.join(", "))
    };
    format!(
        "Materials are counted damp, as they lie in the heap; buckets and cups to the nearest quarter. {sizes}"
    )
}

fn coats(coats: &[CoatBatches<'_>]) -> String {
    let mut table = Table::new(&[0, 2], ["Coat", "Batches", "The last", "Days"]);
    for of in coats {
        let last = if of.has_part() {
            format!("{} of a full one", percent(of.last))
        } else {
            "full".to_owned()
        };
        table.row([
            format!("{}, {}", of.build_up, of.coat.coat),
            of.batches.to_string(),
            if of.batches == 0 {
                "–".to_owned()
            } else {
                last
            },
            of.days.map_or_else(|| "–".to_owned(), |n| n.to_string()),
        ]);
    }
    let mut out = table.print();
    let days: Option<u64> = coats.iter().map(|of| of.days).sum();
    let said = match days {
        Some(days) => format!("Each coat by itself; {} in all.", plural(days, "day")),
        None => "Give the mixer batches_per_day in the project to have the days.".to_owned(),
    };
    out.push_str(&paragraph("", &said));
    out
}
