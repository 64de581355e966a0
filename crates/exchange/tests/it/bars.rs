//! The days as bars on paper, where there are many of them and their names are long. Not here: the days.

use crate::project::demo;
use hodful_documents::Picture;
use hodful_exchange as exchange;
use hodful_takeoff::days::Days;
use hodful_takeoff::drawing::{Role, Stand, day_sheets};
use hodful_takeoff::{Assessed, Project};
use jiff::civil::date;
use std::iter::zip;
use std::sync::Arc;

const LONG: &str =
    "the wall behind the stair, beside the cistern and under the lean-to of the wood store";

/// Forty walls in frosty March, the first with a long name.
fn school() -> Project {
    let mut project = demo("quillmere-school");
    let first = project.walls.first_mut().unwrap();
    Arc::make_mut(first).id = LONG.into();
    project
}

fn days(project: &Project) -> Days {
    let rules = hodful_project_file::rules();
    let assessed = Assessed::new(project, &rules).unwrap();
    let bytes = hodful_project_file::demo_weather("hollowmere.epw").unwrap();
    let read = hodful_weather::read(bytes, "weather").unwrap();
    let begins = Some(date(2026, 3, 9));
    assessed.days(Some(&read.weather), begins).unwrap()
}

#[test]
fn every_name_stands_whole_on_a_page_and_every_night_has_its_mark() {
    let project = school();
    let days = days(&project);
    let sheets = day_sheets(&days);
    assert!(days.tasks.len() > 150 && sheets.len() > 3);
    let mut names = String::new();
    let mut crosses = 0;
    for drawing in sheets {
        let rows = drawing.labels.iter();
        let rows: Vec<_> = rows.filter(|of| of.stand == Stand::Before).collect();
        assert!(rows.len() <= 38, "{}", rows.len());
        for label in &rows {
            names.push_str(&label.text);
            names.push(' ');
        }
        // A cross that stands by itself is firm: two strokes of two points each.
        let strokes = drawing.strokes.iter();
        let firm = strokes.filter(|of| of.role == Role::Outline && of.points.len() == 2);
        // One cross is in the words under the bars.
        crosses += firm.count() / 2 - 1;
        let picture = Picture {
            drawing,
            caption: "bars".into(),
            to_scale: false,
            share: 1.0,
            is_tall: true,
        };
        let svg = exchange::svg(&picture, project.units).unwrap();
        for label in &picture.drawing.labels {
            // The standard apart, quotes and the like do not occur in these names.
            assert!(svg.contains(&format!(">{}<", label.text)), "{}", label.text);
        }
        // Black and greys alone.
        for colour in svg
            .split("=\"#")
            .skip(1)
            .filter_map(|rest| rest.split('"').next())
        {
            let digits: Vec<char> = colour.chars().collect();
            let mut parts = digits.chunks(digits.len() / 3);
            let first = parts.next().unwrap();
            assert!(parts.all(|part| part == first), "{colour}");
        }
        let size = |key: &str| -> f64 {
            let (_, rest) = svg.split_once(&format!(" {key}=\"")).unwrap();
            rest.split("mm").next().unwrap().parse().unwrap()
        };
        // A4 is 210 mm by 297 mm (ISO 216).
        assert!(size("width") < 210.0 && size("height") < 297.0);
    }
    let planned = zip(&days.tasks, &days.plan.tasks).filter(|(_, plan)| plan.is_some());
    let expected: Vec<String> = planned.map(|(task, _)| task.said().into()).collect();
    assert_eq!(names.trim_end(), expected.join(" "));
    let nights: usize = days.tasks.iter().map(|task| task.nights.len()).sum();
    assert!(nights > 10);
    let freezing = days.tasks.iter().flat_map(|task| &task.nights);
    let freezing = freezing.filter(|night| night.verdict() == "may freeze");
    assert_eq!(crosses, freezing.count());
}
