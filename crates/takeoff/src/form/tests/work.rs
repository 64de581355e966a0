//! Fields of the work on site: hours, people, rates of coats, where faces look to. Not here: other fields.

#![allow(clippy::unwrap_used, reason = "a failure is the message")]

use super::{WALL, project, put, refused, shown};
use crate::form::{Kind, Subject, find, rows, understand};
use crate::problem::{Place, Severity};
use crate::project::{Project, Weekday};
use crate::rule::{Rule, RuleBook};
use hodful_quantities::print::UnitSystem::{Metric, Us};

const WORK: Subject = Subject::Work;
const COAT: Subject = Subject::Coat {
    build_up: 0,
    coat: 0,
};

#[test]
fn the_work_comes_and_goes_with_what_is_typed() {
    let mut project = project();
    let begin = project.clone();
    for (key, text) in [
        ("begins", "2026-04-13"),
        ("from", "7:30"),
        ("to", "16:00"),
        ("breaks", "10:00-10:15, 12:00-12:30"),
        ("weekdays", "mon, tu, saturday"),
        ("days_off", "2026-05-01 2026-05-14"),
        ("people", "6"),
        ("batch_minutes", "12"),
        ("weather", "hollowmere.epw"),
        ("latitude", "51.2"),
        ("longitude", "-2.5"),
    ] {
        put(&mut project, WORK, key, text);
    }
    let work = project.work.clone().unwrap();
    assert_eq!(work.breaks, ["10:00-10:15", "12:00-12:30"]);
    let days = [Weekday::Monday, Weekday::Tuesday, Weekday::Saturday];
    assert_eq!(work.weekdays, days);
    assert_eq!(work.days_off.len(), 2);
    assert_eq!(
        shown(&project, WORK, "days_off").as_deref(),
        Some("2026-05-01, 2026-05-14")
    );
    refused(&mut project, WORK, "begins", "13/4/2026", "is not a day");
    refused(
        &mut project,
        WORK,
        "days_off",
        "2026-05-01, May",
        "is not a day",
    );
    refused(&mut project, WORK, "weekdays", "t", "tuesday or thursday");
    refused(&mut project, WORK, "people", "six", "whole number");
    for row in rows(&project, WORK) {
        assert!(row.optional, "{row:?}");
        put(&mut project, WORK, &row.key, "");
    }
    assert_eq!(project, begin);
}

#[test]
fn people_who_do_everything_and_people_by_what_they_do_exclude_one_another() {
    let mut project = project();
    put(&mut project, WORK, "mixing", "1");
    put(&mut project, WORK, "placing", "4");
    put(&mut project, WORK, "people", "6");
    assert_eq!(shown(&project, WORK, "placing"), None);
    put(&mut project, WORK, "finishing", "2");
    assert_eq!(shown(&project, WORK, "people"), None);
    assert_eq!(shown(&project, WORK, "finishing").as_deref(), Some("2"));
}

#[test]
fn a_rate_stands_at_its_coat() {
    let mut project = project();
    put(&mut project, COAT, "rate.placing", "2.5");
    assert_eq!(
        shown(&project, COAT, "rate.placing").as_deref(),
        Some("2.5 m2")
    );
    put(&mut project, COAT, "rate.finishing", "30 ft2");
    let rates = &project.work.as_ref().unwrap().rates;
    assert_eq!(
        rates["scratch"].finishing.as_ref().unwrap().text(),
        "30 ft2"
    );
    // It goes along with a new name.
    put(&mut project, COAT, "coat", "first");
    assert_eq!(
        shown(&project, COAT, "rate.placing").as_deref(),
        Some("2.5 m2")
    );
    put(&mut project, COAT, "rate.placing", "");
    put(&mut project, COAT, "rate.finishing", "");
    assert_eq!(project.work, None);
    assert_eq!(
        understand(&Kind::Area, "27", Us).unwrap().shown,
        "= 27.0 ft²"
    );
}

#[test]
fn a_coat_of_two_build_ups_that_is_renamed_in_one_keeps_its_rate_in_both() {
    let mut project = project();
    let coats = project.build_ups[0].clone();
    project.build_ups.insert("other".into(), coats);
    put(&mut project, COAT, "rate.placing", "2.5");
    put(&mut project, COAT, "coat", "first");
    for build_up in [0, 1] {
        let coat = Subject::Coat { build_up, coat: 0 };
        assert_eq!(
            shown(&project, coat, "rate.placing").as_deref(),
            Some("2.5 m2")
        );
    }
    // A name that has a rate of its own keeps that one, and nothing is left over of the other.
    put(&mut project, COAT, "rate.placing", "3");
    put(&mut project, COAT, "coat", "scratch");
    let rates = &project.work.as_ref().unwrap().rates;
    assert_eq!(rates.len(), 1);
    assert_eq!(
        shown(&project, COAT, "rate.placing").as_deref(),
        Some("2.5 m2")
    );
}

#[test]
fn a_rate_without_its_coat_can_be_taken_away() {
    let mut project = project();
    put(&mut project, COAT, "rate.placing", "2.5");
    project.build_ups[0][0].coat = "1. first".into();
    let place = Place::project()
        .field("work")
        .thing("rate", "scratch")
        .field("placing");
    let found = find(&project, &place).unwrap();
    assert_eq!(found, (WORK, Some("rates.scratch.placing".into())));
    put(&mut project, WORK, "rates.scratch.placing", "");
    assert_eq!(project.work, None);
    // A name with a point in it is a name all the same.
    put(&mut project, COAT, "rate.placing", "2.5");
    let place = Place::project().field("work").thing("rate", "1. first");
    let found = find(&project, &place).unwrap();
    assert_eq!(found, (COAT, Some("rate.placing".into())));
}

/// What the check refuses of the work leads to the field that is meant.
#[test]
fn what_is_refused_leads_to_its_field() {
    let rules: RuleBook = [("net".into(), Rule::default())].into_iter().collect();
    let led = |change: &dyn Fn(&mut Project)| {
        let mut project = project();
        change(&mut project);
        let problems = crate::check(&project, &rules).unwrap_err();
        assert_eq!(problems.len(), 1, "{problems:?}");
        assert_eq!(problems[0].severity, Severity::Refused);
        find(&project, &problems[0].place).unwrap()
    };
    for (key, text) in [
        ("from", "8:10"),
        ("to", "7:00"),
        ("breaks", "noon"),
        ("people", "0"),
        ("batch_minutes", "0"),
        ("latitude", "91"),
    ] {
        let found = led(&|project| {
            put(project, WORK, "longitude", "0");
            put(project, WORK, "latitude", "0");
            put(project, WORK, key, text);
        });
        assert_eq!(found, (WORK, Some(key.into())));
    }
    let found = led(&|project| put(project, WORK, "latitude", "51"));
    assert_eq!(found, (WORK, Some("longitude".into())));
    let found = led(&|project| put(project, COAT, "rate.finishing", "0 m2"));
    assert_eq!(found, (COAT, Some("rate.finishing".into())));
    let found = led(&|project| {
        put(project, WALL, "outside", "plastered");
        let wall = std::sync::Arc::make_mut(&mut project.walls[0]);
        wall.outside.as_mut().unwrap().facing = Some("up".into());
    });
    assert_eq!(found, (WALL, Some("outside.facing".into())));
}

#[test]
fn an_outside_face_looks_somewhere() {
    let mut project = project();
    // It makes the face.
    put(&mut project, WALL, "outside.facing", "SW");
    assert_eq!(
        shown(&project, WALL, "outside.facing").as_deref(),
        Some("SW")
    );
    put(&mut project, WALL, "outside.shaded", "no");
    let face = project.walls[0].outside.clone().unwrap();
    assert_eq!(
        (face.facing.as_deref(), face.shaded),
        (Some("SW"), Some(false))
    );
    refused(
        &mut project,
        WALL,
        "outside.facing",
        "up",
        "is no direction",
    );
    // A face in a room is asked neither, unless it was said.
    assert_eq!(
        rows(&project, WALL)
            .iter()
            .filter(|row| row.key.ends_with(".facing"))
            .count(),
        1
    );
    put(&mut project, WALL, "inside.shaded", "yes");
    assert_eq!(
        shown(&project, WALL, "inside.shaded").as_deref(),
        Some("yes")
    );
    for (text, told) in [("225", "225"), ("-90", "270"), ("north-east", "45")] {
        let shown = understand(&Kind::Facing, text, Metric).unwrap().shown;
        assert_eq!(shown, format!("= {told}° from north by east"));
    }
}
