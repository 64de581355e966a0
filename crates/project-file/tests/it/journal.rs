//! The bytes of a journal: every whole line counts, nothing behind a torn one does, and no bytes bring
//! the reader down. Not here: journals on disk, which are tested beside the code.

use crate::LARKFIELD;
use crate::any::project;
use hodful_project_file::journal::{Fingerprint, Kept, Origin, Scribe, read};
use hodful_project_file::{empty_project, read as read_project, starting_project};
use hodful_quantities::Typed;
use hodful_takeoff::project::Project;
use proptest::collection::vec;
use proptest::prelude::*;
use std::path::Path;
use std::sync::Arc;

/// A journal of these states, and where each of its lines ends.
fn journal(origin: &Origin, states: &[Project]) -> (Vec<u8>, Vec<usize>) {
    let (first, _) = states.split_first().unwrap();
    let (mut scribe, mut bytes) = Scribe::begin(origin, first);
    let mut ends = vec![bytes.len()];
    for pair in states.windows(2) {
        let [before, after] = pair else { continue };
        if let Some((next, line)) = scribe.change(before, after) {
            assert_eq!(line.split_inclusive(|b| *b == b'\n').count(), 1, "a line");
            scribe = next;
            bytes.extend(line);
        }
        ends.push(bytes.len());
    }
    (bytes, ends)
}

fn origin() -> Origin {
    Origin::new(
        Some(Path::new("/site/larkfield.hodful.json")),
        Some(Fingerprint::of(LARKFIELD.as_bytes())),
    )
}

/// A small history: a wall changed, one put in, one taken out, the rest changed, all of it taken out.
fn history() -> Vec<Project> {
    let mut states = vec![read_project(LARKFIELD.as_bytes()).unwrap()];
    let mut next = |change: fn(&mut Project)| {
        let mut project = states.last().unwrap().clone();
        change(&mut project);
        states.push(project);
    };
    next(|p| Arc::make_mut(&mut p.walls[0]).thickness = Typed::read("20 in").unwrap());
    next(|p| {
        let mut wall = p.walls[0].clone();
        Arc::make_mut(&mut wall).id = "S2".into();
        p.walls.insert(1, wall);
    });
    next(|p| {
        let last = p.walls.len() - 1;
        for at in [0, last] {
            Arc::make_mut(&mut p.walls[at]).sheet = Some("A-1".into());
        }
    });
    next(|p| p.note = Some("two lines\nand a \"quote\"".into()));
    next(|p| {
        p.walls.remove(0);
        p.materials.swap_indices(0, 1);
    });
    next(|p| p.walls.clear());
    states
}

#[test]
fn a_journal_gives_back_the_last_state_and_what_it_belongs_to() {
    let states = history();
    let (bytes, _) = journal(&origin(), &states);
    let kept = read(&bytes).unwrap();
    assert_eq!(kept.origin, origin());
    assert_eq!(kept.changes, states.len() - 1);
    assert!(!kept.torn);
    assert_eq!(Some(&kept.project), states.last());
    assert!(
        kept.project
            .materials
            .keys()
            .eq(states.last().unwrap().materials.keys())
    );
}

#[test]
fn cut_at_any_byte_it_gives_what_stood_before() {
    let states = history();
    let (bytes, ends) = journal(&origin(), &states);
    for cut in 0..=bytes.len() {
        let whole = ends.iter().filter(|end| **end <= cut).count();
        match read(&bytes[..cut]) {
            None => assert_eq!(whole, 0, "cut at {cut}"),
            Some(kept) => {
                assert_eq!(kept.project, states[whole - 1], "cut at {cut}");
                assert_eq!(kept.torn, !ends.contains(&cut), "cut at {cut}");
            }
        }
    }
}

#[test]
fn with_any_byte_flipped_it_gives_what_stood_before() {
    let states = history();
    let (bytes, ends) = journal(&origin(), &states);
    for at in 0..bytes.len() {
        for flip in [0x01, 0x20, 0x80] {
            let mut broken = bytes.clone();
            broken[at] ^= flip;
            let whole = ends.iter().filter(|end| **end <= at).count();
            match read(&broken) {
                None => assert_eq!(whole, 0, "flipped at {at}"),
                Some(kept) => {
                    assert_eq!(kept.project, states[whole - 1], "flipped at {at}");
                    assert!(kept.torn);
                }
            }
        }
    }
}

#[test]
fn a_line_out_of_its_place_is_left_out() {
    let states = history();
    let (bytes, ends) = journal(&origin(), &states);
    let line = |i: usize| &bytes[ends[i - 1]..ends[i]];
    let head = &bytes[..ends[0]];
    let changes = |bytes: &[&[u8]]| read(&bytes.concat()).unwrap().changes;
    assert_eq!(changes(&[head, line(1), line(2)]), 2);
    assert_eq!(changes(&[head, line(2), line(1)]), 0, "changed places");
    assert_eq!(changes(&[head, line(1), line(1)]), 1, "twice");
    assert_eq!(changes(&[head, line(1), line(3)]), 1, "one is missing");
    assert_eq!(changes(&[head, line(1), &[0; 4096]]), 1, "zeros");
}

#[test]
fn a_project_without_a_file_says_so() {
    let (bytes, _) = journal(&Origin::default(), &[starting_project()]);
    let kept = read(&bytes).unwrap();
    assert_eq!(kept.origin, Origin::new(None, None));
    assert_eq!(kept.origin.disk(), None);
    let text = String::from_utf8(bytes).unwrap();
    let head = text.lines().next().unwrap();
    assert!(
        head.ends_with(r#" { "format": "hodful-journal", "version": 1 }"#),
        "{head}"
    );
}

#[test]
fn the_change_of_a_wall_costs_a_wall() {
    let mut before = starting_project();
    let wall = read_project(LARKFIELD.as_bytes()).unwrap().walls[0].clone();
    before.walls = (0..10_000)
        .map(|i| {
            let mut wall = wall.clone();
            Arc::make_mut(&mut wall).id = format!("S{i}").into();
            wall
        })
        .collect();
    let (scribe, whole) = Scribe::begin(&Origin::default(), &before);
    let mut after = before.clone();
    Arc::make_mut(&mut after.walls[7000]).thickness = Typed::read("21 in").unwrap();
    let (_, line) = scribe.change(&before, &after).unwrap();
    assert!(line.len() < whole.len() / 5000, "{} bytes", line.len());
    assert!(scribe.change(&before, &before.clone()).is_none());
}

#[test]
fn nothing_is_no_journal() {
    for bytes in [
        &b""[..],
        b"\n",
        b"{}\n",
        b"0000000000000000 {}\n",
        &[0; 100],
    ] {
        assert_eq!(read(bytes), None);
    }
    let project = String::from_utf8(hodful_project_file::write(&empty_project())).unwrap();
    assert_eq!(read(project.as_bytes()), None);
}

/// States that follow from one another: each has some of the walls of the one before, the same ones, and
/// some of its own.
fn states() -> impl Strategy<Value = Vec<Project>> {
    vec((project(), any::<[u8; 3]>(), any::<bool>()), 1..5).prop_map(|drawn| {
        let mut states: Vec<Project> = Vec::new();
        for (mut project, [from, to, at], own_rest) in drawn {
            if let Some(last) = states.last() {
                let walls = project.walls.split_off(0);
                let mut next = if own_rest { project } else { last.clone() };
                next.walls.clone_from(&last.walls);
                let count = next.walls.len() + 1;
                let (from, to) = (usize::from(from) % count, usize::from(to) % count);
                next.walls.drain(from.min(to)..from.max(to));
                let at = usize::from(at) % (next.walls.len() + 1);
                next.walls.splice(at..at, walls);
                project = next;
            }
            states.push(project);
        }
        states
    })
}

proptest! {
    #[test]
    fn any_history_comes_back(states in states()) {
        let (bytes, _) = journal(&Origin::default(), &states);
        let kept = read(&bytes);
        prop_assert_eq!(kept.as_ref().map(|kept| (&kept.project, kept.torn)), states.last().map(|last| (last, false)));
    }

    #[test]
    fn any_history_cut_and_flipped_gives_one_of_its_states(
        states in states(), cut in any::<prop::sample::Index>(), at in any::<prop::sample::Index>(), flip in 0..=255_u8,
    ) {
        let (mut bytes, ends) = journal(&Origin::default(), &states);
        bytes.truncate(cut.index(bytes.len() + 1));
        let mut sound = bytes.len();
        if !bytes.is_empty() && flip != 0 {
            sound = at.index(bytes.len());
            bytes[sound] ^= flip;
        }
        let whole = ends.iter().filter(|end| **end <= sound).count();
        let kept = read(&bytes).map(|kept| kept.project);
        prop_assert_eq!(kept.as_ref(), whole.checked_sub(1).map(|last| &states[last]));
    }

    #[test]
    fn any_bytes_are_read_or_not(bytes in vec(any::<u8>(), 0..300)) {
        prop_assert_eq!(read(&bytes), None::<Kept>);
    }
}
