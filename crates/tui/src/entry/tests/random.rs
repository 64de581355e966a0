//! Lines of any characters, and of words in any order.

use super::super::words::WORDS;
use super::super::{Change, Context, understand};
use super::{empty, refused, workshop};
use hodful_takeoff::Project;
use proptest::prelude::*;

fn is_sound(project: &Project, line: &str, cursor: usize) {
    for wall in [None, Some(0), Some(77)] {
        let context = Context {
            project,
            wall,
            opening: Some(0),
        };
        let reading = understand(line, cursor, &context);
        let mut end = 0;
        for span in &reading.spans {
            assert!(span.range.start >= end && !span.range.is_empty(), "{line}");
            assert!(line.get(span.range.clone()).is_some(), "{line}");
            end = span.range.end;
        }
        if let Some(fault) = &reading.fault {
            assert!(line.get(fault.range.clone()).is_some(), "{line}");
            assert!(!fault.message.is_empty());
        }
        let blank = line.trim().is_empty();
        assert!(
            blank || reading.change.is_some() || reading.fault.is_some(),
            "{line}"
        );
        if let Some(change) = &reading.change {
            let mut project = project.clone();
            assert!(change.apply(&mut project).is_some());
            assert!(!change.label(&project).is_empty());
        }
    }
}

fn word() -> impl Strategy<Value = String> {
    let words: Vec<String> = WORDS.iter().map(|row| row.text.to_owned()).collect();
    let values = [
        "4'", "2'8\"", "18", "3 m", "x", "(2*3'", ")", "20°", "\"", "1/2", "S", "N", "0", "-",
        "+ 2'",
    ];
    prop_oneof![
        3 => proptest::sample::select(words),
        3 => proptest::sample::select(values.to_vec()).prop_map(str::to_owned),
        1 => "\\PC{0,3}",
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_line_is_read(line in ".{0,60}", cursor in 0_usize..80) {
        is_sound(&empty(), &line, cursor);
        is_sound(&workshop(), &line, cursor);
    }

    #[test]
    fn words_in_any_order_are_read(words in proptest::collection::vec(word(), 0..14), cursor in 0_usize..99) {
        let line = words.join(" ");
        is_sound(&empty(), &line, cursor);
        is_sound(&workshop(), &line, cursor);
    }

    /// Every window of sizes that fit is a change that passes the checks.
    #[test]
    fn windows_that_fit_pass(
        width in 12_u32..96, height in 12_u32..60, sill in 6_u32..40, at in 12_u32..150,
        radius in 0_u32..3, splay in 0_u32..25,
    ) {
        let mut project = super::typed(empty(), &["plan 36' x 24' high 9' thick 18"]);
        let line = format!(
            "S window {width} x {height} at {at} sill {sill} rounded {radius} inside splay {splay}"
        );
        let reading = super::read(&project, &line);
        prop_assert_eq!(&reading.fault, &None);
        let change = reading.ready().cloned().unwrap();
        let is_opening = matches!(change, Change::Opening { wall: 0, .. });
        prop_assert!(is_opening);
        change.apply(&mut project);
        prop_assert_eq!(refused(&project), Vec::<String>::new());
    }
}
