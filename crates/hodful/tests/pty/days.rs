//! The days on site in a real terminal, with the weather that lies beside the project. Not here: the plan, and how
//! its page looks.

use crate::terminal::{CTRL_Q, Place};

const WORKSHOP: &str = include_str!("../../../../demo-projects/thistlebank-workshop.hodful.json");
const WEATHER: &str = include_str!("../../../../demo-projects/hollowmere.epw");
const SHIFT_D: &str = "D";

#[test]
fn the_days_are_planned_in_the_weather_beside_the_project() {
    let place = Place::new();
    std::fs::write(place.path("barn.hodful.json"), WORKSHOP).unwrap();
    std::fs::write(place.path("hollowmere.epw"), WEATHER).unwrap();
    let mut terminal = place.hodful(&["barn.hodful.json"]);
    terminal.resize(120, 40);
    terminal.reads("Thistlebank");
    terminal.press(SHIFT_D);
    terminal.reads("Mon 2026-04-13");
    terminal.reads("a typical year and no forecast");
    // What stands there is what is printed.
    let text = terminal.text();
    let printed = std::process::Command::new(env!("CARGO_BIN_EXE_hodful"))
        .args(["plan", "barn.hodful.json"])
        .current_dir(place.path("."))
        .output()
        .unwrap();
    let printed = String::from_utf8(printed.stdout).unwrap();
    let ends = "The last coat is on the wall on ";
    let end = printed
        .lines()
        .find_map(|line| line.strip_prefix(ends))
        .unwrap();
    let end = end.split(" at ").next().unwrap();
    assert!(text.contains(&format!("last coat {end}")), "{end}\n{text}");
    terminal.press(CTRL_Q);
    assert!(terminal.ended().status.success());
}

#[test]
fn weather_that_is_missing_or_broken_is_told_on_the_page() {
    let place = Place::new();
    std::fs::write(place.path("barn.hodful.json"), WORKSHOP).unwrap();
    let mut terminal = place.hodful(&["barn.hodful.json"]);
    terminal.resize(120, 40);
    terminal.reads("Thistlebank");
    terminal.press(SHIFT_D);
    terminal.reads("There is no 'hollowmere.epw' beside");
    let broken = WEATHER.replacen(",2.3,1.6,", ",warm,1.6,", 1);
    std::fs::write(place.path("hollowmere.epw"), broken).unwrap();
    terminal.press("1");
    terminal.press(SHIFT_D);
    terminal.reads("line 9, column 7");
    std::fs::write(place.path("hollowmere.epw"), WEATHER).unwrap();
    terminal.press("1");
    terminal.press(SHIFT_D);
    terminal.reads("a typical year and no forecast");
    terminal.press(CTRL_Q);
    assert!(terminal.ended().status.success());
}
