//! How few keys a whole building takes.

use super::{empty, refused, typed};
use hodful_takeoff::project::{RevealPart, Side};

/// The most keys that the four walls, three windows and a door of a building may take.
const MOST: usize = 120;

/// Whole words throughout: nothing is shortened.
const IN_WORDS: &[&str] = &[
    "plan 36'x24' high 9' thick 18 rounded 2",
    "S window 4'x3' sill 2'8 at 6' rounded 2",
    "E window",
    "N window",
    "W door 3'x6'8",
];

/// The same, shortened as somebody would who does it every day.
const SHORT: &[&str] = &[
    "pl 36'x24' h9' t18 r2",
    "S wi 4'x3' si 2'8 a 6' r2",
    "E wi",
    "N wi",
    "W d 3'x6'8",
];

/// Each line and Enter.
fn keys(lines: &[&str]) -> usize {
    lines.iter().map(|line| line.chars().count() + 1).sum()
}

fn is_the_building(lines: &[&str]) {
    let project = typed(empty(), lines);
    assert_eq!(refused(&project), Vec::<String>::new());
    let ids: Vec<&str> = project.walls.iter().map(|wall| wall.id.as_str()).collect();
    assert_eq!(ids, ["S", "E", "N", "W"]);
    for (wall, kind) in project
        .walls
        .iter()
        .zip(["window", "window", "window", "door"])
    {
        for side in [Side::Outside, Side::Inside] {
            assert!(wall.face(side).is_some());
        }
        let rounded = |side| {
            let mut ends = wall.ends.iter().filter(move |end| end.face == side);
            ends.find_map(|end| end.radius.as_ref().map(|r| r.value().value))
        };
        assert_eq!(rounded(Side::Outside), Some(50.8), "corner of {}", wall.id);
        let [opening] = wall.openings.as_slice() else {
            panic!("{} openings in {}", wall.openings.len(), wall.id);
        };
        assert_eq!(opening.kind.as_deref(), Some(kind));
        for side in [Side::Outside, Side::Inside] {
            let reveal = opening.reveal(side).unwrap();
            assert!(reveal.plastered.contains(&RevealPart::Jambs));
            assert_eq!(reveal.radius.as_ref().map(|r| r.value().value), Some(50.8));
        }
    }
}

#[test]
fn a_building_in_few_keys() {
    for (name, lines) in [("whole words", IN_WORDS), ("shortened", SHORT)] {
        is_the_building(lines);
        println!("{name}: {} keys", keys(lines));
        assert!(keys(lines) <= MOST, "{name}: {}", keys(lines));
    }
}

/// Inside faces are shorter by the thickness at each end: 36 ft less twice 18 in is 33 ft.
#[test]
fn inside_lengths_are_said() {
    let reading = super::read(&empty(), IN_WORDS[0]);
    assert!(
        reading
            .said
            .iter()
            .any(|line| line == "lengths inside S 33', E 21', N 33', W 21'")
    );
}
