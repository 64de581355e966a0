//! Soils as a table and words, and the marks of a jar. Not here: computing them.

use super::paragraph;
use super::table::Table;
use hodful_exchange::{HandRow, KnownRow, SoilRow, SoilsReport};
use hodful_quantities::print::{self, Grouping, significant};
use hodful_quantities::units::{Length, Time, millimeter, time_of_seconds};
use hodful_soils::field::HowSure;
use hodful_soils::jar::Marks;
use hodful_soils::sizes::System;
use hodful_takeoff::project::HandTests;
use hodful_takeoff::soil;

/// Digits of a diameter.
const DIGITS: u32 = 3;

/// Everything that is known of the soils of a project.
pub(crate) fn soils(of: &SoilsReport) -> String {
    let mut out = paragraph("", &of.project);
    out.push_str("\nSOILS\n");
    if of.soils.is_empty() {
        out.push_str(&paragraph(
            "",
            "No material has a test of its grains. Give one a soil: a jar, a sieve list, shares from a report, or what the hand says.",
        ));
        return out;
    }
    let mut table = Table::new(
        &[0, 1],
        [
            "Material\n",
            "Known by\n",
            "Gravel\n%",
            "Sand\n%",
            "Silt\n%",
            "Clay\n%",
        ],
    );
    for soil in &of.soils {
        let mut name = soil.material.clone();
        for test in &soil.tests {
            table.row([
                std::mem::take(&mut name),
                test.way.to_owned(),
                share(&test.gravel),
                share(&test.sand),
                share(&test.silt),
                share(&test.clay),
            ]);
        }
        if soil.tests.is_empty() {
            let mut row = vec![name, "the hand alone".to_owned()];
            row.extend(std::iter::repeat_n("–".to_owned(), 4));
            table.row(row);
        }
    }
    out.push_str(&table.print());
    out.push_str(&paragraph(
        "",
        "Shares of dry mass as tested, before the screen; in brackets what they may be. Of several tests the first is gone by.",
    ));
    for soil in &of.soils {
        out.push('\n');
        out.push_str(&one(soil));
    }
    out
}

/// `24 (18 to 31)`, `24` where it is known exactly, `18 to 31` where there is no best guess.
fn share(of: &KnownRow) -> String {
    let shown = |share: f64| print::fixed(share * 100.0, 0, Grouping::Space);
    let (least, most) = (shown(of.least), shown(of.most));
    match of.best.map(shown) {
        Some(best) if least == most => best,
        Some(best) => format!("{best} ({least} to {most})"),
        None if least == most => least,
        None => format!("{least} to {most}"),
    }
}

fn one(of: &SoilRow) -> String {
    let mut out = paragraph(
        "",
        &format!("{} ({}, sizes by {})", of.material, of.kind, of.system),
    );
    let mut say = |words: String| out.push_str(&paragraph("  ", &words));
    if let Some(clay) = of.clay_typed {
        say(format!(
            "Clay {} % is typed, and stands before the tests.",
            significant(clay * 100.0, DIGITS)
        ));
    }
    if let Some(past) = of.past_screen {
        let shares = [
            ("gravel", past.gravel),
            ("sand", past.sand),
            ("silt", past.silt),
            ("clay", past.clay),
        ];
        let shares = shares.map(|(grains, share)| {
            let share = print::fixed(share * 100.0, 1, Grouping::Space);
            format!("{grains} {share} %")
        });
        say(format!(
            "Past the screen, as it goes into mixes: {}.",
            shares.join(", ")
        ));
    }
    if let Some(test) = of.tests.first() {
        let others: Vec<&str> = test
            .may_be
            .iter()
            .copied()
            .filter(|name| Some(*name) != test.class)
            .collect();
        let class = match (test.class, others.is_empty()) {
            (Some(class), true) => format!("Texture: {class}."),
            (Some(class), false) => {
                format!("Texture: {class}; it may also be {}.", others.join(", "))
            }
            (None, false) => format!("Texture: one of {}.", others.join(", ")),
            (None, true) => "Texture: cannot be told from this.".to_owned(),
        };
        say(class);
        let uniformity = test.uniformity;
        let uniformity = uniformity.map(|cu| format!("Cu {}", significant(cu, DIGITS)));
        let curvature = test.curvature;
        let curvature = curvature.map(|cc| format!("Cc {}", significant(cc, DIGITS)));
        let both: Vec<String> = uniformity.into_iter().chain(curvature).collect();
        if !both.is_empty() {
            say(format!(
                "Grading: {} (how far the sizes are spread, and how the curve bends).",
                both.join(", ")
            ));
        }
    }
    if let Some(jar) = &of.jar {
        let hours = jar.mark_sand_after_s.zip(jar.mark_silt_after_s);
        if let Some((sand, silt)) = hours {
            say(format!(
                "Jar: mark the top of the sand {} and the top of the silt {} after it is set down.",
                print::time(time_of_seconds(sand)),
                print::time(time_of_seconds(silt))
            ));
        }
        say(format!(
            "Jar: its marks part at {} mm (sand from silt) and {} mm (silt from clay).",
            significant(jar.sand_mark_parts_mm, DIGITS),
            significant(jar.silt_mark_parts_mm, DIGITS)
        ));
        for note in &jar.notes {
            say(format!("Jar: {note}."));
        }
    }
    for reading in &of.hand {
        let clay = reading.clay_least.zip(reading.clay_most);
        let clay = clay.map_or_else(String::new, |(least, most)| {
            format!(
                ", clay {} to {} %",
                significant(least * 100.0, DIGITS),
                significant(most * 100.0, DIGITS)
            )
        });
        say(format!(
            "Hand, {}: {}{clay} [{}; {}].",
            reading.test, reading.suggests, reading.source, reading.how_sure
        ));
    }
    out
}

/// What the hand suggests, in rows.
pub(crate) fn hand(tests: &HandTests) -> Vec<HandRow> {
    let rows = soil::hand(tests).into_iter();
    let rows = rows.filter_map(|(test, _, suggests)| {
        let suggests = suggests.ok()?;
        Some(HandRow {
            test,
            suggests: suggests.words.to_owned(),
            clay_least: suggests.clay.map(|(least, _)| least),
            clay_most: suggests.clay.map(|(_, most)| most),
            source: suggests.source,
            how_sure: match suggests.how_sure {
                HowSure::Read => "the source was read",
                HowSure::FromMemory => "the source is from memory",
            },
        })
    });
    rows.collect()
}

/// When to mark a jar of water, its depth and temperature as typed, and what other marks part.
pub(crate) fn settle(
    [depth, temperature]: [&str; 2],
    system: System,
    right: Marks,
    marks: &[(Time, Option<Length>)],
) -> String {
    let limits = system.limits();
    let mm = |length: Length| significant(length.get::<millimeter>(), DIGITS);
    let mut out = paragraph(
        "",
        &format!("Water {depth} deep at {temperature}, sizes by {system}"),
    );
    out.push_str("\nMARK THE JAR\n");
    out.push_str(&paragraph(
        "",
        &format!(
            "The top of the sand {} after the jar is set down: every grain over {} mm has sunk.",
            print::time(right.sand),
            mm(limits.silt)
        ),
    ));
    out.push_str(&paragraph(
        "",
        &format!(
            "The top of the silt {} after the jar is set down: every grain over {} mm has sunk.",
            print::time(right.silt),
            mm(limits.clay)
        ),
    ));
    out.push_str("\nWHAT A MARK AT ANOTHER HOUR PARTS\n");
    let mut table = Table::new(&[2], ["After\n", "Parts at\nmm", "What is read wrongly\n"]);
    for (after, parts) in marks {
        table.row([
            print::time(*after).to_string(),
            parts.map_or_else(|| "–".to_owned(), mm),
            read_as(*parts, system),
        ]);
    }
    out.push_str(&table.print());
    out.push_str(&paragraph(
        "",
        &format!(
            "Grains of 2650 kg/m³ by Stokes' law. Plates of clay sink slower than this, and clay that forms lumps sinks faster. [{}]",
            system.source()
        ),
    ));
    out
}

/// What a mark at this hour does to the reading, taken for the top that it is nearer to by ratio.
fn read_as(parts: Option<Length>, system: System) -> String {
    let limits = system.limits();
    let Some(at) = parts else {
        return "too soon: sand is still sinking".to_owned();
    };
    let (sand, silt) = (limits.silt, limits.clay);
    let near_sand = at / sand > silt / at;
    let (top, is_early, under, over) = if near_sand {
        ("sand", at > sand, "sand", "silt")
    } else {
        ("silt", at > silt, "silt", "clay")
    };
    // Early, grains of the lower layer are still above the mark; late, some of the upper lie below it.
    if is_early {
        format!("as the top of the {top} it is early: some {under} is read as {over}")
    } else {
        format!("as the top of the {top} it is late: some {over} is read as {under}")
    }
}
