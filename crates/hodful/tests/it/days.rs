//! `hodful plan`: what is told, what is refused, what is written.

use crate::golden::WEATHER;
use crate::run::Site;
use serde_json::Value;

fn site() -> Site {
    let site = Site::with_demo("thistlebank-workshop");
    site.write("hollowmere.epw", WEATHER);
    site
}

#[test]
fn the_formats_agree() {
    let site = site();
    let said = site.run(&["plan", "demo.hodful.json", "--format", "json"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    let report: Value = serde_json::from_str(&said.figures).unwrap();
    assert_eq!(report["format"], "hodful-days");
    let tasks = report["tasks"].as_array().unwrap();
    // Four straw-bale walls with three coats outside and two inside, a tower with two and two.
    assert_eq!(tasks.len(), 4 * 5 + 4);
    let csv = site.run(&["plan", "demo.hodful.json", "--format", "csv"]);
    assert_eq!(csv.figures.matches("\r\n").count(), tasks.len() + 1);
    for task in tasks {
        let of = |key: &str| task[key].as_str().unwrap();
        assert!(of("begin") < of("end"), "{task}");
        assert!(of("end") < of("dry_fast"), "{task}");
        assert!(of("dry_fast") <= of("dry_likely"), "{task}");
        assert!(of("dry_likely") <= of("dry_slow"), "{task}");
    }
    // A coat begins when the one under it is likely dry, on the same face.
    for pair in tasks.windows(2) {
        if (&pair[0]["wall"], &pair[0]["face"]) == (&pair[1]["wall"], &pair[1]["face"]) {
            let [before, after] = [pair[0]["dry_likely"].as_str(), pair[1]["begin"].as_str()];
            assert!(before <= after, "{pair:?}");
        }
    }
    let ends = report["ends"].as_str().unwrap();
    assert!(report["no_plan_ends_before"].as_str().unwrap() <= ends);
}

#[test]
fn what_is_mixed_is_what_is_ordered() {
    let site = site();
    let read = |command: &str| -> Value {
        let said = site.run(&[command, "demo.hodful.json", "--format", "json"]);
        serde_json::from_str(&said.figures).unwrap()
    };
    let sum = |of: &Value| -> f64 {
        of.as_array()
            .unwrap()
            .iter()
            .map(|row| row["mixed_m3"].as_f64().unwrap())
            .sum()
    };
    let (plan, order) = (read("plan"), read("order"));
    let (planned, ordered) = (sum(&plan["tasks"]), sum(&order["coats"]));
    assert!(
        (planned - ordered).abs() < 1e-9 * ordered,
        "{planned} and {ordered}"
    );
}

#[test]
fn weather_that_cannot_be_read_is_told_with_its_line() {
    let site = site();
    let broken = WEATHER.replacen(",2.3,1.6,", ",warm,1.6,", 1);
    site.write("broken.epw", &broken);
    let said = site.run(&["plan", "demo.hodful.json", "--weather", "broken.epw"]);
    assert_eq!(said.code, Some(2));
    assert!(said.words.contains("line 9, column 7"), "{}", said.words);
    let said = site.run(&["plan", "demo.hodful.json", "--weather", "none.epw"]);
    assert_eq!(said.code, Some(2));
    assert!(
        said.words.contains("'none.epw' cannot be read"),
        "{}",
        said.words
    );
}

#[test]
fn without_weather_there_are_rules_of_thumb() {
    let site = Site::with_demo("thistlebank-workshop");
    let said = site.run(&["plan", "demo.hodful.json"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(said.words.contains("hollowmere.epw"), "{}", said.words);
    assert!(said.figures.contains("rules of thumb"), "{}", said.figures);
    assert!(!said.figures.contains("NIGHTS"), "{}", said.figures);
}

#[test]
fn a_day_to_begin_is_wanted() {
    let site = Site::with_demo("marlpit-barn");
    let said = site.run(&["plan", "demo.hodful.json"]);
    assert_eq!(said.code, Some(2));
    assert!(
        said.words.contains("when the work begins"),
        "{}",
        said.words
    );
    let said = site.run(&["plan", "demo.hodful.json", "--begins", "2026-04-13"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
}

#[test]
fn calendar_and_drawing_are_written() {
    let site = site();
    for (file, words) in [("days.ics", "BEGIN:VCALENDAR"), ("days.svg", "<svg")] {
        let said = site.run(&["plan", "demo.hodful.json", "--to", file]);
        assert_eq!(said.code, Some(0), "{}", said.words);
        assert!(site.read(file).contains(words));
        let again = site.run(&["plan", "demo.hodful.json", "--to", file]);
        assert_eq!(again.code, Some(2), "{}", again.words);
    }
    let said = site.run(&["plan", "demo.hodful.json", "--to", "days.txt"]);
    assert!(
        said.words.contains("has to end in .ics or .svg"),
        "{}",
        said.words
    );
}

#[test]
fn what_is_wrong_with_the_work_is_told_with_its_place() {
    for (key, value, words) in [
        (
            "from",
            "8:10",
            "work, from: '8:10' is no time on a quarter of an hour",
        ),
        (
            "to",
            "7:00",
            "work, to: the day begins at 8:00 and ends at 7:00",
        ),
        (
            "batch_minutes",
            "0",
            "work, batch_minutes: '0' must be more than 0",
        ),
        ("longitude", "10", "work, latitude: is missing"),
    ] {
        let site = Site::with_demo("thistlebank-workshop");
        let mut project: Value = serde_json::from_str(&site.read("demo.hodful.json")).unwrap();
        project["work"][key] = value.into();
        site.write("demo.hodful.json", &project.to_string());
        let said = site.run(&["check", "demo.hodful.json"]);
        assert_eq!(said.code, Some(1), "{key}");
        let all = said
            .figures
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        assert!(all.contains(words), "{all}");
    }
}
