//! No size of the terminal is too small to live through.

use crate::driver::Driver;

#[test]
fn every_state_draws_at_every_size() {
    let scripts = [
        "",
        "o",
        "o o",
        "o o o",
        "down tab",
        "down tab \"3'\"",
        "f \"x\"",
        "2",
        "3 +",
        "4 down",
        "5",
        "n \"window 4' x\"",
        "f1",
        "f2",
        "w right",
        "shift-w",
        "3 + q",
        "f6",
        "down p",
        "f5",
        "t t",
        "6",
        "6 end",
        "6 tab \"3\"",
        "7",
        "7 end tab",
        "8",
        "shift-d",
        "shift-d down",
        "shift-d down down",
        "shift-d end .",
        "shift-d tab",
        "shift-d down down tab \"3\"",
    ];
    for script in scripts {
        let yard = script.starts_with(['6', '7', '8']);
        let demo = if yard {
            "marlpit-barn"
        } else {
            "thistlebank-workshop"
        };
        let mut driver = Driver::demo(demo);
        driver.play(script);
        for columns in 0..=60 {
            for rows in 0..=20 {
                driver.cells(columns, rows);
            }
        }
    }
}

#[test]
fn a_very_large_terminal_is_drawn_too() {
    let mut driver = Driver::demo("thistlebank-workshop");
    for script in ["", "3", "4", "5", "2", "6", "7", "8", "shift-d"] {
        driver.play(script).cells(500, 200);
    }
}

#[test]
fn at_the_smallest_size_the_totals_are_all_there() {
    let mut driver = Driver::demo("thistlebank-workshop");
    let screen = driver.play("3 +").screen(40, 12);
    for word in [
        "surf", "placed", "loose", "fibre", "binder", "batch", "cost",
    ] {
        assert!(screen.contains(word), "{word}\n{screen}");
    }
}
