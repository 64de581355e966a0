//! Coats, materials and a batch of each mix as tables, then the cautions. Not here: computing them.

use super::card::measures;
use super::crew::{buckets, otherwise, quarters, shovels};
use super::paragraph;
use super::supply::supply;
use super::table::Table;
use super::units::{Column, area, batch_volume, digits, plaster, unit};
use hodful_documents::without_package;
use hodful_quantities::Typed;
use hodful_quantities::mix::WATER_DENSITY;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::read::Amount;
use hodful_quantities::units::{
    Mass, MassDensity, Volume, gallon, kilogram_per_cubic_meter, liter,
};
use hodful_takeoff::forecast::said::beside_records;
use hodful_takeoff::project::{MaterialKind, Package};
use hodful_takeoff::{Assessed, Caution, MaterialFigures};
use std::iter::zip;

/// The order of an assessed project.
pub(crate) fn order(of: &Assessed<'_>, cautions: &[Caution], units: UnitSystem) -> String {
    let mut out = paragraph("", &of.project.name);
    out.push_str("\nCOATS\n");
    out.push_str(&coats(of, units));
    out.push_str("\nORDER\n");
    out.push_str(&materials(of, units));
    if let Some(words) = beside_records(of.project) {
        out.push_str(&paragraph("", words));
    }
    out.push_str(&supply(of, units));
    out.push_str(&batches(of, units));
    out.push('\n');
    out.push_str(&take_care(of, cautions));
    out
}

/// The cautions that the work calls for, in brief.
pub(super) fn take_care(of: &Assessed<'_>, cautions: &[Caution]) -> String {
    let mut out = "TAKE CARE (hodful cautions prints them whole)\n".to_owned();
    for caution in cautions.iter().filter(|c| of.calls_for(c.applies)) {
        out.push_str(&paragraph(
            "- ",
            &format!("{}: {}", caution.title, caution.brief),
        ));
    }
    out
}

/// Every caution whole, with its source.
pub(crate) fn cautions(cautions: &[Caution]) -> String {
    let whole = |caution: &Caution| {
        let title = caution.title.to_uppercase();
        let text = paragraph("", &caution.text);
        let source = paragraph("", &format!("[{}]", caution.source));
        format!("{title}\n{text}{source}")
    };
    cautions.iter().map(whole).collect::<Vec<_>>().join("\n")
}

fn coats(of: &Assessed<'_>, units: UnitSystem) -> String {
    let (square, cubic) = (unit(Column::Area, units), unit(Column::Plaster, units));
    let mixer = of.checked.mixer();
    let mut table = Table::new(
        &[0, 1],
        [
            "Coat\n".to_owned(),
            "Mix\n".to_owned(),
            format!("Surface\n{square}"),
            format!("Placed\n{cubic}"),
            format!("Wet\n{cubic}"),
            format!("Mixed\n{cubic}"),
            "Batches\n".to_owned(),
        ],
    );
    for (build_up, coat, figures) in of.coats() {
        let volume = &figures.volume;
        table.row([
            format!("{build_up}, {}", coat.coat),
            coat.mix.to_string(),
            area(figures.surface.area.value, units).digits,
            plaster(volume.placed, units),
            plaster(volume.wet, units),
            plaster(volume.mixed, units),
            figures
                .batches
                .map_or_else(|| "–".to_owned(), |b| b.loads.to_string()),
        ]);
    }
    let sum = |pick: fn(&hodful_quantities::CoatVolume) -> Volume| {
        plaster(of.coats().map(|(_, _, f)| pick(&f.volume)).sum(), units)
    };
    let loads = of
        .coats()
        .filter_map(|(_, _, f)| f.batches)
        .map(|b| b.loads)
        .sum::<u64>();
    table.totals([
        "All".to_owned(),
        String::new(),
        String::new(),
        sum(|v| v.placed),
        sum(|v| v.wet),
        sum(|v| v.mixed),
        if mixer.is_some() {
            loads.to_string()
        } else {
            "–".to_owned()
        },
    ]);
    let mut out = table.print();
    out.push_str("Placed is dry on the wall, wet is as it goes on, mixed is with what is lost.\n");
    if mixer.is_some() {
        out.push_str("The last batch of a coat may be a part of one.\n");
    }
    out
}

fn materials(of: &Assessed<'_>, units: UnitSystem) -> String {
    let (heap, weight) = (unit(Column::Heap, units), unit(Column::Mass, units));
    let mut table = Table::new(
        &[0, 4],
        [
            "Material\n".to_owned(),
            format!("Loose\n{heap}"),
            format!("Weight\n{weight}"),
            "In the yard\n".to_owned(),
            "Order\n".to_owned(),
            "Price\n".to_owned(),
            "Spare\n".to_owned(),
        ],
    );
    let used = zip(&of.project.materials, &of.evaluation.materials);
    for ((name, material), figures) in used.filter(|(_, figures)| !figures.uses.is_empty()) {
        let nothing = |text: Option<&str>| text.is_none_or(|text| text.trim().is_empty());
        let stock = material.stock.as_ref().map(Typed::text);
        table.row([
            name.to_string(),
            digits(
                figures
                    .delivered
                    .loose
                    .map(|v| print::bulk_volume(v, units)),
            ),
            digits(figures.delivered.mass.map(|m| print::mass(m, units))),
            if nothing(stock) {
                "–".to_owned()
            } else {
                stock.unwrap_or_default().to_owned()
            },
            match material.kind {
                MaterialKind::Water => from_the_tap(figures, units),
                _ => packages(figures, &material.packages),
            },
            price(figures, units),
            spare(figures, &material.packages, units),
        ]);
    }
    let priced = |f: &MaterialFigures| f.cover.as_ref().is_some_and(|c| c.price.is_some());
    let unpriced: Vec<&str> = zip(&of.project.materials, &of.evaluation.materials)
        .filter(|((_, m), f)| m.kind != MaterialKind::Water && !f.uses.is_empty() && !priced(f))
        .map(|((name, _), _)| name.as_str())
        .collect();
    let any = of.evaluation.materials.iter().any(priced);
    table.totals([
        "All".to_owned(),
        String::new(),
        String::new(),
        String::new(),
        String::new(),
        if any {
            print::money(of.evaluation.cost, units).to_string()
        } else {
            "–".to_owned()
        },
        String::new(),
    ]);
    let mut out = table.print();
    if any && !unpriced.is_empty() {
        let words = format!(
            "The price is without {}, which have none.",
            unpriced.join(", ")
        );
        out.push_str(&paragraph("", &words));
    }
    let missing = without_package(of);
    if !missing.is_empty() {
        let words = format!(
            "No package: {}. Give each what it is sold in, or order it by its weight.",
            missing.join(", ")
        );
        out.push_str(&paragraph("", &words));
    }
    let heaps: Vec<String> = zip(&of.project.materials, &of.evaluation.materials)
        .filter(|(_, figures)| !figures.uses.is_empty())
        .filter_map(|((name, material), figures)| Some((name, material, figures.heap?)))
        .map(|(name, material, heap)| {
            let volume = |v| print::bulk_volume(v, units).to_string();
            let rammed = material.shrink.as_ref().map(|_| heap.rammed);
            let rammed = rammed.map(|v| format!(", {} rammed", volume(v)));
            format!(
                "{name} {} in the ground{}",
                volume(heap.in_ground),
                rammed.unwrap_or_default()
            )
        })
        .collect();
    if !heaps.is_empty() {
        let words = format!("What is dug loose is: {}.", heaps.join("; "));
        out.push_str(&paragraph("", &words));
    }
    out.push_str(&paragraph(
        "",
        "Loose and weight are as delivered: damp and loosely tipped, before the screen. Spare is what is over when all is used. Water is what is added at the mixer.",
    ));
    out
}

/// What is over, in the measure of the packages that are bought.
fn spare(figures: &MaterialFigures, offers: &[Package], units: UnitSystem) -> String {
    let first = figures
        .cover
        .as_ref()
        .and_then(|cover| cover.counts.first());
    let holds = first
        .and_then(|(offer, _)| offers.get(*offer))
        .map(|p| p.holds.value());
    let figure = match holds {
        Some(Amount::Mass(_)) => figures.spare.mass.map(|m| print::mass(m, units)),
        Some(_) => figures.spare.loose.map(|v| print::bulk_volume(v, units)),
        None => {
            let loose = figures.spare.loose.map(|v| print::bulk_volume(v, units));
            let covered = figures.cover.as_ref().map(|_| ());
            covered.and_then(|()| loose.or(figures.spare.mass.map(|m| print::mass(m, units))))
        }
    };
    figure.map_or_else(|| "–".to_owned(), |figure| figure.to_string())
}

/// Water in what it is measured in.
fn from_the_tap(figures: &MaterialFigures, units: UnitSystem) -> String {
    let volume = figures.delivered.loose.unwrap_or_default();
    let (value, unit) = match units {
        UnitSystem::Us => (volume.get::<gallon>(), "gal"),
        UnitSystem::Metric => (volume.get::<liter>(), "L"),
    };
    format!(
        "{} {unit} from the tap",
        print::fixed(value, 0, units.grouping())
    )
}

/// `3 × tipped load (5 yd3) + 2 × bulk bag (1 yd3)`, or why there is none.
fn packages(figures: &MaterialFigures, offers: &[Package]) -> String {
    let Some(cover) = &figures.cover else {
        return if offers.is_empty() {
            "no package".to_owned()
        } else {
            "–".to_owned()
        };
    };
    if cover.counts.is_empty() {
        let needed = figures.dry.mass.is_some_and(|m| m.value > 0.0)
            || figures.dry.loose.is_some_and(|v| v.value > 0.0);
        let words = if needed {
            "enough in the yard"
        } else {
            "none needed"
        };
        return words.to_owned();
    }
    let rows: Vec<String> = cover
        .counts
        .iter()
        .filter_map(|(offer, n)| {
            let package = offers.get(*offer)?;
            Some(format!("{n} × {} ({})", package.name, package.holds.text()))
        })
        .collect();
    rows.join(" + ")
}

fn price(figures: &MaterialFigures, units: UnitSystem) -> String {
    let price = figures.cover.as_ref().and_then(|cover| cover.price);
    price.map_or_else(
        || "–".to_owned(),
        |price| print::money(price, units).to_string(),
    )
}

/// One full batch of every mix that a coat uses, as on the card beside the mixer.
fn batches(of: &Assessed<'_>, units: UnitSystem) -> String {
    let Some(mixer) = of.checked.mixer() else {
        return String::new();
    };
    let mut out = format!(
        "\nONE BATCH: {} mixed\n",
        print::volume(mixer.working_volume, units)
    );
    let mut table = Table::new(
        &[0, 1, 6],
        [
            "Mix\n".to_owned(),
            "Material\n".to_owned(),
            format!("Loose\n{}", unit(Column::Plaster, units)),
            "Buckets\n".to_owned(),
            "Shovels\n".to_owned(),
            format!("Weight\n{}", unit(Column::Mass, units)),
            "Or\n".to_owned(),
        ],
    );
    let known = |text: Option<String>| text.unwrap_or_else(|| "–".to_owned());
    let cards = of.cards();
    for card in &cards {
        let mut mix = card.mix.to_string();
        for load in &card.loads {
            table.row([
                std::mem::take(&mut mix),
                load.material.to_string(),
                known(load.quantity.loose.map(|v| batch_volume(v, units))),
                known(buckets(load)),
                known(shovels(load)),
                digits(load.quantity.mass.map(|m| print::mass(m, units))),
                otherwise(load).unwrap_or_default(),
            ]);
        }
        if let Some(water) = &card.water {
            let counted = water.counted.bucket_quarters;
            table.row([
                std::mem::take(&mut mix),
                water_name(of),
                batch_volume(water.to_add, units),
                known(counted.map(quarters)),
                "–".to_owned(),
                print::mass(water_mass(water.to_add), units).digits,
                String::new(),
            ]);
        }
    }
    out.push_str(&table.print());
    let held = cards.iter().filter_map(|card| card.water);
    let held = held.map(|water| water.held_back / water.to_add).next();
    let held = held.filter(|held| held.value.is_finite());
    let water = held.map_or_else(String::new, |held| {
        format!(
            " Hold back {} of the water until the mix shows what it wants.",
            print::percentage(held, units)
        )
    });
    out.push_str(&paragraph(
        "",
        &format!(
            "{}{water} The card of a mix (hodful card) has the last batches too.",
            measures(of)
        ),
    ));
    let parts: Vec<String> = cards
        .iter()
        .flat_map(|card| &card.coats)
        .filter(|coat| coat.has_part())
        .map(|of| {
            format!(
                "{}, {}: {:.0} %",
                of.build_up,
                of.coat.coat,
                of.last * 100.0
            )
        })
        .collect();
    if !parts.is_empty() {
        out.push_str(&paragraph(
            "",
            &format!("Last batches that are not full: {}.", parts.join("; ")),
        ));
    }
    out
}

/// What water weighs.
fn water_mass(volume: Volume) -> Mass {
    volume * MassDensity::new::<kilogram_per_cubic_meter>(WATER_DENSITY)
}

/// What the project calls its water.
fn water_name(of: &Assessed<'_>) -> String {
    let mut materials = of.project.materials.iter();
    let water = materials.find(|(_, material)| material.kind == MaterialKind::Water);
    water.map_or_else(|| "water".to_owned(), |(name, _)| name.to_string())
}
