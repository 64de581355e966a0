//! `hodful sweep`: which field is meant, what stands in the table, and what is said of values that are refused.

use crate::run::{Said, Site};

const WORKSHOP: &str = "thistlebank-workshop";

fn sweep(site: &Site, arguments: &[&str]) -> Said {
    site.run(&[&["sweep", "demo.hodful.json"], arguments].concat())
}

/// The words of a text with single blanks between.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The first cells of a table: of each line between the rule and the words below.
fn first_cells(table: &str) -> Vec<String> {
    let rows = table.lines().skip_while(|line| !line.starts_with('─'));
    let rows = rows.skip(1);
    let rows = rows.take_while(|line| !line.is_empty() && !line.starts_with("As it"));
    rows.map(|line| line.split("  ").next().unwrap().to_owned())
        .collect()
}

#[test]
fn a_word_for_several_fields_is_refused_with_all_of_them() {
    let site = Site::with_demo(WORKSHOP);
    for (field, keys) in [
        (
            "parts",
            &["'parts.yard sand'", "'parts.pit clay'", "'fibre.parts'"][..],
        ),
        ("dose", &["'fibre.dose'", "'binder.dose'"]),
    ] {
        let said = sweep(&site, &[field, "--mix", "base"]);
        assert_eq!(said.code, Some(2), "{field}: {}", said.figures);
        let words = flat(&said.words);
        assert!(keys.iter().all(|key| words.contains(key)), "{words}");
    }
    // The word that stands for one alone is taken.
    for field in ["fibre.dose", "parts.yard sand", "mixed"] {
        let said = sweep(&site, &[field, "--mix", "finish"]);
        assert_eq!(said.code, Some(0), "{field}: {}", said.words);
    }
}

#[test]
fn the_ends_that_are_asked_for_are_rows() {
    let site = Site::with_demo(WORKSHOP);
    let coat = ["--coat", "fill", "--of", "batches"];
    for (from, to, rows) in [
        (
            "3/8in",
            "5/8in",
            &["3/8\"", "7/16\"", "1/2\"", "9/16\"", "5/8\""][..],
        ),
        ("1in", "1in", &["1\""]),
        ("0", "500ft", &["0\"", "600\"", "1200\""]),
    ] {
        let said = sweep(&site, &[&coat[..], &["--from", from, "--to", to]].concat());
        assert_eq!(said.code, Some(0), "{}", said.words);
        let cells = first_cells(&said.figures);
        assert!(
            cells.starts_with(&rows.iter().map(|row| (*row).to_owned()).collect::<Vec<_>>()),
            "{cells:?}"
        );
    }
    // Ends that are not round stand before and behind those that are.
    let said = sweep(
        &site,
        &[
            "--units", "metric", "--coat", "fill", "--from", "11.3mm", "--to", "31.7mm",
        ],
    );
    let cells = first_cells(&said.figures);
    assert_eq!(cells.first().unwrap(), "11.3 mm");
    assert_eq!(cells.last().unwrap(), "31.7 mm");
    assert_eq!(cells.get(1).unwrap(), "12.0 mm");
}

#[test]
fn what_does_not_change_is_told_below_the_table() {
    let site = Site::with_demo(WORKSHOP);
    let said = sweep(&site, &["parts.yard sand", "--mix", "base"]);
    let words = flat(&said.figures);
    assert!(
        words.contains("Nothing else changes: plaster mixed 14.14 yd³; batches 114;"),
        "{words}"
    );
    // Where nothing at all changes, every figure is there all the same.
    for asked in [
        &["moisture", "--material", "yard sand"][..],
        &["--coat", "fill", "--from", "1in", "--to", "1in"],
        &["--coat", "fill", "--points", "2"],
    ] {
        let said = sweep(&site, asked);
        let head = said.figures.lines().nth(3).unwrap();
        assert!(
            head.contains("batches") && head.contains("cost"),
            "{asked:?}: {head}"
        );
    }
    let still = sweep(&site, &["moisture", "--material", "yard sand"]);
    assert!(still.figures.contains("No figure changes over this range."));
    let csv = sweep(
        &site,
        &["moisture", "--material", "yard sand", "--format", "csv"],
    );
    let head = csv.figures.lines().next().unwrap();
    assert!(
        head.starts_with("moisture,all_mixed_m3,batches,cost,yard sand loose_m3,"),
        "{head}"
    );
}

#[test]
fn refused_values_are_told_with_why() {
    let site = Site::with_demo(WORKSHOP);
    let coat = ["--coat", "fill", "--of", "batches"];
    for (from, to, words) in [
        ("-1in", "2in", "From -1\" to 0\" it is refused."),
        ("-2in", "-1in", "Every value of this range is refused."),
        ("0", "500ft", "to 6000\" it is refused."),
        ("0", "2in", "At 0\" it is refused:"),
        (
            "0",
            "2in",
            "must be more than 0; to see the job without the coat",
        ),
    ] {
        for format in ["table", "csv"] {
            let range = ["--from", from, "--to", to, "--format", format];
            let said = sweep(&site, &[&coat[..], &range].concat());
            assert_eq!(said.code, Some(0), "{}", said.words);
            let told = if format == "csv" {
                &said.words
            } else {
                &said.figures
            };
            assert!(flat(told).contains(words), "{from} {format}: {told}");
        }
    }
    let fine = sweep(
        &site,
        &[&coat[..], &["--from", "1/2in", "--to", "1in"]].concat(),
    );
    assert!(!fine.figures.contains("refused"), "{}", fine.figures);
    for (points, code) in [("0", 2), ("1", 2), ("2001", 2), ("2", 0), ("2000", 0)] {
        let said = sweep(
            &site,
            &[
                "--coat", "fill", "--of", "cost", "--points", points, "--format", "csv",
            ],
        );
        assert_eq!(said.code, Some(code), "{points}: {}", said.words);
        assert!(
            code == 0 || said.words.contains("2 to 2000 values"),
            "{}",
            said.words
        );
    }
}

#[test]
fn a_wrong_word_is_answered_with_what_there_is() {
    let site = Site::with_demo(WORKSHOP);
    let said = sweep(&site, &["--coat", "nope"]);
    assert!(
        said.words.contains("there is scratch, fill, finish\n"),
        "{}",
        said.words
    );
    let said = sweep(&site, &["price", "--material", "yard sand"]);
    assert!(
        flat(&said.words).contains("name it by --package: there is tipped load, bulk bag"),
        "{}",
        said.words
    );
    let said = site.run(&[
        "chances",
        "demo.hodful.json",
        "--draws",
        "100",
        "--order",
        "sand=4 tipped load",
    ]);
    assert_eq!(said.code, Some(2));
    assert!(
        flat(&said.words).contains("did you mean 'yard sand'?"),
        "{}",
        said.words
    );
    let said = sweep(&site, &["moisture", "--material", "sand"]);
    assert!(
        flat(&said.words).contains("did you mean 'yard sand'?"),
        "{}",
        said.words
    );
}
