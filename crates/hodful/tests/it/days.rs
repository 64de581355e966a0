//! `hodful plan`: what is told, what is refused, what is written.

use crate::golden::WEATHER;
use crate::run::Site;
use serde_json::Value;

fn site() -> Site {
    Site::with_demo("thistlebank-workshop")
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
    let site = site();
    std::fs::remove_file(site.path("hollowmere.epw")).unwrap();
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
fn every_ending_is_written_and_none_over_another() {
    let site = site();
    for (file, words) in [
        ("days.ics", "BEGIN:VCALENDAR"),
        ("days.svg", "<svg"),
        ("days.pdf", "%PDF-"),
        ("days.html", "<h1>Work plan</h1>"),
        ("days.md", "# Work plan"),
        ("days.csv", "Day,What,Hours,Hands,Surface (ft²),Batches"),
        ("days.json", "\"hodful-days\""),
        ("days.xlsx", "PK"),
    ] {
        let said = site.run(&["plan", "demo.hodful.json", "--to", file]);
        assert_eq!(said.code, Some(0), "{}", said.words);
        let bytes = std::fs::read(site.path(file)).unwrap();
        assert!(String::from_utf8_lossy(&bytes).contains(words), "{file}");
        let again = site.run(&["plan", "demo.hodful.json", "--to", file]);
        assert_eq!(again.code, Some(2), "{}", again.words);
    }
    let said = site.run(&["plan", "demo.hodful.json", "--to", "days.txt"]);
    assert!(
        said.words.contains("end it with one of .csv, .html, .ics"),
        "{}",
        said.words
    );
}

/// A weekend is written as the other days are: pages, figures, a calendar of its two days.
#[test]
fn a_weekend_is_written_in_every_form() {
    let site = site();
    for (file, words) in [
        ("helpers.html", "<h1>Days with helpers</h1>"),
        ("helpers.md", "## Ready before they come"),
        ("helpers.json", "\"before\""),
        ("helpers.ics", "DTSTART:20260418T"),
        ("helpers.svg", "<svg"),
        ("helpers.csv", "What,Person-hours,Done by"),
    ] {
        let to = ["plan", "demo.hodful.json", "--weekend", "--to", file];
        let said = site.run(&to);
        assert_eq!(said.code, Some(0), "{}", said.words);
        let text = site.read(file);
        assert!(text.contains(words), "{file}: {text}");
    }
    let calendar = site.read("helpers.ics");
    let begins = calendar.lines().filter(|line| line.starts_with("DTSTART:"));
    let days = begins.map(|line| &line[8..16]);
    assert!(days.clone().count() > 2);
    assert!(
        days.clone()
            .all(|day| ["20260418", "20260419"].contains(&day)),
        "{calendar}"
    );
    // What must be ready stands there too, on the day by which it must be.
    let whole = calendar.replace("\r\n ", "");
    let ready = whole
        .split("BEGIN:VEVENT")
        .find(|of| of.contains("CATEGORIES:preparing"));
    let ready = ready.unwrap_or_else(|| panic!("{whole}"));
    assert!(
        ready.contains("done by") && ready.contains("DTSTART;VALUE=DATE:202604"),
        "{ready}"
    );
    // And that the weather of the demo is that of a typical year.
    assert!(whole.contains("which is no forecast"), "{whole}");
}

/// `export --what plan` takes the same weather and the same day as `plan`.
#[test]
fn the_export_is_what_the_command_writes() {
    let site = site();
    let later = ["--weather", "hollowmere.epw", "--begins", "2026-05-11"];
    for (more, file) in [(&[][..], "own"), (&later[..], "later")] {
        let to = format!("{file}.md");
        let arguments = ["export", "demo.hodful.json", "--what", "plan", "--to", &to];
        let said = site.run(&[&arguments[..], more].concat());
        assert_eq!(said.code, Some(0), "{}", said.words);
        let from_plan = format!("{file}-plan.md");
        let arguments = ["plan", "demo.hodful.json", "--to", &from_plan];
        site.run(&[&arguments[..], more].concat());
        assert_eq!(site.read(&to), site.read(&from_plan));
    }
    assert!(site.read("own.md").contains("| Mon 2026-04-13 |"));
    assert!(site.read("later.md").contains("| Mon 2026-05-11 |"));
    let said = site.run(&[
        "export",
        "demo.hodful.json",
        "--to",
        "p.json",
        "--what",
        "plan",
    ]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    let printed = site.run(&["plan", "demo.hodful.json", "--format", "json"]);
    assert_eq!(site.read("p.json"), printed.figures);
}

/// What stands on the paper is what is printed, row by row.
#[test]
fn paper_and_print_have_the_same_rows() {
    let site = site();
    let printed = site.run(&["plan", "demo.hodful.json", "--to", "plan.md"]);
    let cells = |line: &str| -> Vec<String> {
        let cells = line.trim_matches('|').split('|').map(str::trim);
        cells
            .filter(|cell| !cell.is_empty())
            .map(str::to_owned)
            .collect()
    };
    let paper = site.read("plan.md");
    let rows: Vec<Vec<String>> = paper
        .lines()
        .filter(|line| {
            line.starts_with("| ") && line.contains(", scratch") && !line.contains("estimate")
        })
        .map(cells)
        .collect();
    assert_eq!(rows.len(), 16, "{rows:?}");
    for row in rows {
        let has = |line: &str| row.iter().all(|cell| line.contains(cell));
        assert!(printed.figures.lines().any(has), "{row:?}");
    }
}

#[test]
fn everything_has_the_plan_where_the_project_says_when_it_begins() {
    let site = site();
    let read = |site: &Site, more: &[&str]| {
        let arguments = ["export", "demo.hodful.json", "--force", "--to", "all.json"];
        let said = site.run(&[&arguments[..], more].concat());
        assert_eq!(said.code, Some(0), "{}", said.words);
        let all: Value = serde_json::from_str(&site.read("all.json")).unwrap();
        all["plan"]["begins"].as_str().map(str::to_owned)
    };
    assert_eq!(read(&site, &[]).as_deref(), Some("2026-04-13"));
    let barn = Site::with_demo("marlpit-barn");
    assert_eq!(read(&barn, &[]), None);
    let day = ["--begins", "2026-06-01"];
    assert_eq!(read(&barn, &day).as_deref(), Some("2026-06-01"));
    for (more, words) in [
        (
            &["--what", "order", "--begins", "2026-06-01"][..],
            "are for the work plan",
        ),
        (&["--what", "plan"], "when the work begins"),
    ] {
        let arguments = ["export", "demo.hodful.json", "--to", "x.pdf"];
        let said = barn.run(&[&arguments[..], more].concat());
        assert_eq!(said.code, Some(2));
        assert!(said.words.contains(words), "{}", said.words);
    }
    let arguments = [
        "export",
        "demo.hodful.json",
        "--to",
        "x.ics",
        "--what",
        "order",
    ];
    let said = site.run(&arguments);
    assert!(said.words.contains("a calendar holds the work plan alone"));
}

/// A wall put in before the others leaves what their entries are known by, so that a calendar moves them.
#[test]
fn entries_of_a_calendar_stay_known_when_a_wall_is_put_in() {
    let site = site();
    let entries = |site: &Site| -> Vec<(String, String)> {
        let said = site.run(&["plan", "demo.hodful.json", "--force", "--to", "days.ics"]);
        assert_eq!(said.code, Some(0), "{}", said.words);
        let text = site.read("days.ics").replace("\r\n ", "");
        let of = |entry: &str, key: &str| -> String {
            let line = entry.lines().find_map(|line| line.strip_prefix(key));
            line.unwrap_or_default().to_owned()
        };
        let entries = text.split("BEGIN:VEVENT").skip(1);
        entries
            .map(|entry| (of(entry, "UID:"), of(entry, "SUMMARY:")))
            .collect()
    };
    let before = entries(&site);
    let mut project: Value = serde_json::from_str(&site.read("demo.hodful.json")).unwrap();
    let walls = project["walls"].as_array_mut().unwrap();
    let mut wall = walls[0].clone();
    wall["id"] = "S, again".into();
    walls.insert(0, wall);
    for key in ["options", "uncertain"] {
        project.as_object_mut().unwrap().remove(key);
    }
    project["work"]["begins"] = "2026-04-20".into();
    site.write("demo.hodful.json", &project.to_string());
    let after = entries(&site);
    assert!(after.len() > before.len());
    let known: std::collections::BTreeSet<&String> = after.iter().map(|(uid, _)| uid).collect();
    assert_eq!(
        known.len(),
        after.len(),
        "no two entries are known by the same"
    );
    // RFC 9562: 32 digits in groups, version 8, variant 10.
    let is_uuid = |uid: &str| {
        let groups: Vec<usize> = uid.split('-').map(str::len).collect();
        let at = |place: usize| uid.chars().nth(place);
        groups == [8, 4, 4, 4, 12]
            && at(14) == Some('8')
            && at(19).is_some_and(|digit| "89ab".contains(digit))
    };
    assert!(after.iter().all(|(uid, _)| is_uuid(uid)), "{after:?}");
    // Of each name the first part at least is there again, and what is known by the same is called the same.
    for (uid, name) in &before {
        let same = after.iter().find(|(other, _)| other == uid);
        if let Some((_, other)) = same {
            assert_eq!(other, name);
        }
    }
    let kept = before.iter().filter(|(uid, _)| known.contains(uid));
    let names = |entries: &mut dyn Iterator<Item = &(String, String)>| {
        entries
            .map(|(_, name)| name.clone())
            .collect::<std::collections::BTreeSet<_>>()
    };
    assert_eq!(names(&mut kept.into_iter()), names(&mut before.iter()));
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
