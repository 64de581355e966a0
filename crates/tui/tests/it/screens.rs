//! Every page and every box on a demo project, at four sizes, as text; the look of some in colour and
//! without. `UPDATE=1` writes the files anew; read the difference before keeping it.

use crate::driver::{Driver, HOLLOWMERE, demo, start, text_of};
use hodful_quantities::Typed;
use hodful_takeoff::Project;
use hodful_takeoff::form::{self, Subject};
use hodful_takeoff::project::ShareBetween;
use hodful_tui::{Opened, Recovered, Start};
use ratatui::buffer::Buffer;
use std::fmt::Write;
use std::path::Path;
use std::sync::Arc;

/// Sizes of the screens.
const SIZES: [(u16, u16); 4] = [(120, 40), (80, 24), (60, 16), (40, 12)];

/// Each page and box with the keys that lead to it.
const SCREENS: &[(&str, &str)] = &[
    ("walls", ""),
    ("walls-inside", "o"),
    ("walls-level-section", "down o o"),
    ("walls-upright-section", "down o o o"),
    ("walls-opening", "down"),
    ("walls-fields", "down tab down down"),
    ("walls-typing", "down tab down \"3' 2+\""),
    ("walls-understood", "down tab down \"3' 2\""),
    ("walls-ticked", "t t shift-t shift-t tab"),
    ("walls-filter", "f \"s\""),
    ("plan", "2"),
    ("coats", "3"),
    ("coats-thicker", "3 + + +"),
    ("coats-curve", "3 down k k k + + + +"),
    ("stores", "4 down down down"),
    ("problems", "5"),
    ("entry", "n \"window 4' x 3' at 6' sil\""),
    ("entry-fault", "n \"window 4' x banana\""),
    ("help", "f1"),
    ("help-search", "f1 \"thick\""),
    ("commands", "f2"),
    ("commands-search", "f2 \"copy\""),
    ("why", "w down right down right"),
    ("why-totals", "shift-w"),
    ("quit", "3 + q"),
    ("save-as", "f6"),
    ("repeat", "down p"),
    ("cautions", "f5"),
    ("soils", "6 down"),
    ("soils-typing", "6 down tab \"30\""),
    ("soils-untested", "6"),
    ("soils-jar", "6 down"),
    ("blend", "6 end up"),
    ("blend-unknown", "6 end up"),
    ("blend-impossible", "6 end"),
    ("blend-waits", "6 end"),
    ("order", "7"),
    ("order-fields", "7 end tab"),
    ("order-waits", "7"),
    ("card", "8"),
    ("card-fields", "8 tab"),
    ("options", "9"),
    ("options-chosen", "9 down"),
    ("options-fields", "9 down down tab"),
    ("chances", "0"),
    ("records", "0"),
    ("days", "shift-d"),
    ("days-prepared", "shift-d down down down down"),
    ("days-helpers", "shift-d down down down down down"),
    ("days-day", "shift-d down down down down down down"),
    (
        "days-task",
        "shift-d down down down down down down down down down down down",
    ),
    ("days-frost", "shift-d"),
    (
        "days-frost-night",
        "shift-d down down down down down down down down down down",
    ),
    (
        "days-frost-task",
        "shift-d down down down down down down down down down",
    ),
    ("days-box", "shift-d down down ."),
    ("days-fields", "shift-d down down tab"),
    ("days-work", "shift-d tab"),
    ("days-unbegun", "shift-d"),
    ("days-refused", "shift-d"),
    ("days-no-weather", "shift-d"),
    ("days-bad-weather", "shift-d"),
    ("days-waits", "shift-d"),
    ("panel", "4 down down down down"),
];

/// The demo project that shows most of what a building can have.
const DEMO: &str = "thistlebank-workshop";

/// The one that shows most of what a yard can have.
const YARD: &str = "marlpit-barn";

/// The demo project that a screen is of.
fn demo_of(screen: &str) -> Project {
    let yard = ["soils", "blend", "order", "card", "panel", "records"];
    let is_of_yard = yard
        .iter()
        .any(|page| screen.split('-').next() == Some(page));
    let mut project = demo(if is_of_yard { YARD } else { DEMO });
    match screen {
        "blend-unknown" => project.materials["milled clay"].soil = None,
        // The jar alone is left of its tests.
        "soils-jar" => project.materials[1].soil.as_mut().unwrap().sieve.clear(),
        "soils-untested" => project.materials[0].soil = None,
        "days-unbegun" => project.work = None,
        "days-frost" | "days-frost-night" | "days-frost-task" => {
            let work = project.work.as_mut().unwrap();
            work.begins = Some(Typed::read("2026-03-12").unwrap());
            // Outside alone, so that there are no rooms.
            work.rooms.clear();
            for wall in 0..project.walls.len() {
                let wall = Subject::Wall(wall);
                form::set(&mut project, wall, "inside", "bare").unwrap();
            }
            for wall in &mut project.walls {
                Arc::make_mut(wall).pockets.clear();
            }
        }
        "days-refused" => project.work.as_mut().unwrap().from = Some("8:10".into()),
        "days-no-weather" => project.work.as_mut().unwrap().weather = None,
        "days-bad-weather" => project.work.as_mut().unwrap().weather = Some("broken.epw".into()),
        // Less clay than there is in any of what it may be made of.
        "blend-impossible" => {
            let asked = &mut project.blends.values_mut().last().unwrap().clay;
            *asked = Some(ShareBetween {
                least: None,
                most: Some(Typed::read("3 %").unwrap()),
            });
        }
        _ => {}
    }
    project
}

/// A front end that was led to a screen.
fn led(name: &str, script: &str, size: (u16, u16), looks: fn(&mut Start)) -> Driver {
    let mut start = start(demo_of(name));
    looks(&mut start);
    let mut driver = Driver::new(start);
    let broken = HOLLOWMERE.replacen(",2.3,1.6,", ",warm,1.6,", 1);
    driver.weather.insert("broken.epw".into(), broken.into());
    driver.screen(size.0, size.1);
    // The list of days is there once they are planned.
    let (page, rest) = script.split_once(' ').unwrap_or((script, ""));
    driver.play(page);
    if name.starts_with("days") && !name.ends_with("waits") {
        driver.answer();
    }
    driver.play(rest);
    if name.ends_with("waits") {
        // What was asked for is not answered.
        (driver.supply, driver.blend, driver.days) = (None, None, None);
    }
    driver
}

fn held_against(file: &str, made: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/screens")
        .join(file);
    if std::env::var_os("UPDATE").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, made).unwrap();
        return;
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept == made,
        "{file} is not what the front end draws; look at it and run with UPDATE=1\n{made}"
    );
}

#[test]
fn every_screen_at_four_sizes() {
    for (name, script) in SCREENS {
        let mut out = String::new();
        for (columns, rows) in SIZES {
            let mut driver = led(name, script, (columns, rows), |_| {});
            let screen = driver.screen(columns, rows);
            writeln!(out, "{columns}x{rows}\n{screen}").unwrap();
        }
        held_against(&format!("{name}.txt"), &out);
    }
}

#[test]
fn the_screens_a_run_can_begin_with() {
    let recovered = Recovered {
        project: demo(DEMO),
        when: "today at 14:32".into(),
        file_changed: true,
    };
    let broken = {
        let bytes = br#"{ "format": "hodful-project", "version": 1, "name": "Shed", "units": "us",
            "walls": [ { "id": "S", "shape": { "kind": "rectangle", "length": "12'", "height": 9 },
                         "thickness": "18 im" } ] }"#;
        let (project, problems) = hodful_project_file::read_what_can_be(bytes);
        (project.unwrap(), problems)
    };
    let starts = [
        (
            "start-unnamed",
            Start {
                path: None,
                opened: Opened::Unnamed,
                ..start(crate::driver::empty())
            },
        ),
        (
            "start-missing",
            Start {
                opened: Opened::Missing,
                ..start(crate::driver::empty())
            },
        ),
        (
            "start-recovered",
            Start {
                recovered: Some(recovered),
                ..start(demo(DEMO))
            },
        ),
        (
            "start-broken",
            Start {
                opened: Opened::Broken(broken.1),
                ..start(broken.0)
            },
        ),
        (
            "start-keymap",
            Start {
                keymap: Some(("keys".into(), "svae = f2\nsave = q\n".into())),
                ..start(demo(DEMO))
            },
        ),
    ];
    for (name, start) in starts {
        let mut out = String::new();
        for (columns, rows) in SIZES {
            let mut driver = Driver::new(start.clone());
            let screen = driver.screen(columns, rows);
            writeln!(out, "{columns}x{rows}\n{screen}").unwrap();
        }
        held_against(&format!("{name}.txt"), &out);
    }
}

fn without_colour(start: &mut Start) {
    start.colour = false;
}

/// Cells with their styles: a line for each run of one style.
fn styled(buffer: &Buffer) -> String {
    let mut out = String::new();
    for y in 0..buffer.area.height {
        let mut x = 0;
        while x < buffer.area.width {
            let style = buffer[(x, y)].style();
            let begin = x;
            let mut words = String::new();
            while x < buffer.area.width && buffer[(x, y)].style() == style {
                words.push_str(buffer[(x, y)].symbol());
                x += 1;
            }
            let plain = style.add_modifier.is_empty()
                && style.fg.is_none_or(|c| c == ratatui::style::Color::Reset);
            if !plain && !words.trim().is_empty() {
                writeln!(
                    out,
                    "{y:>2} {begin:>3} {:?} {:?} {}",
                    style.fg.unwrap_or_default(),
                    style.add_modifier,
                    words.trim()
                )
                .unwrap();
            }
        }
    }
    out
}

#[test]
fn looks_in_colour_and_without() {
    for (name, script) in SCREENS {
        for colour in [true, false] {
            let looks: fn(&mut Start) = if colour { |_| {} } else { without_colour };
            let mut driver = led(name, script, (80, 24), looks);
            let made = styled(&driver.cells(80, 24));
            let look = if colour { "colour" } else { "mono" };
            held_against(&format!("{look}/{name}.txt"), &made);
        }
    }
}

#[test]
fn words_are_the_same_in_colour_and_without() {
    for (name, script) in SCREENS {
        for (columns, rows) in SIZES {
            let [colour, mono] = [true, false].map(|colour| {
                let looks: fn(&mut Start) = if colour { |_| {} } else { without_colour };
                led(name, script, (columns, rows), looks).screen(columns, rows)
            });
            assert!(colour == mono, "{name} at {columns}x{rows}");
        }
    }
}

#[test]
fn without_colour_nothing_has_a_colour_and_the_chosen_row_is_still_set_off() {
    for (name, script) in SCREENS {
        let mut driver = led(name, script, (80, 24), without_colour);
        let cells = driver.cells(80, 24);
        let mut reversed = false;
        for cell in &cells.content {
            assert_eq!(cell.fg, ratatui::style::Color::Reset, "{name}");
            assert_eq!(cell.bg, ratatui::style::Color::Reset, "{name}");
            reversed |= cell.modifier.contains(ratatui::style::Modifier::REVERSED);
        }
        assert!(reversed, "{name} shows no chosen row");
    }
}

#[test]
fn without_signs_the_screen_is_ascii() {
    for (name, script) in SCREENS {
        for (columns, rows) in [(120, 40), (80, 24), (60, 16)] {
            let mut driver = led(name, script, (columns, rows), |start| start.signs = false);
            let screen = text_of(&driver.cells(columns, rows));
            let other = screen.chars().find(|c| !c.is_ascii());
            assert_eq!(other, None, "{name} at {columns}x{rows}\n{screen}");
        }
    }
}

#[test]
fn no_screen_is_left_over() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/screens");
    for file in std::fs::read_dir(folder).unwrap() {
        let name = file.unwrap().file_name().into_string().unwrap();
        let known = match name.strip_suffix(".txt") {
            Some(screen) => {
                screen.starts_with("start-") || SCREENS.iter().any(|(own, _)| *own == screen)
            }
            None => ["colour", "mono"].contains(&name.as_str()),
        };
        assert!(known, "nothing draws {name} any more");
    }
}
