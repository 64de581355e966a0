//! What keys lead to on the page of the days: a plan off the key path, its weather, fields, and what is said where
//! something is missing. Not here: how it looks.

use crate::driver::{Driver, demo, start};
use hodful_takeoff::form::Subject;
use hodful_tui::state::{DayRow, Screen};
use hodful_tui::{Effect, Opened, Start};

const WORKSHOP: &str = "thistlebank-workshop";

fn planned(driver: &Driver) -> usize {
    let asked = |effect: &&Effect| matches!(effect, Effect::Days { .. });
    driver.effects.iter().filter(asked).count()
}

fn ends(driver: &Driver) -> String {
    driver.state.days().unwrap().plan.end().unwrap().to_string()
}

#[test]
fn the_days_are_planned_off_the_key_path_and_once() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.play("3 + -");
    assert_eq!(planned(&driver), 0);
    driver.play("shift-d");
    assert_eq!(planned(&driver), 1);
    assert!(driver.state.days().is_none() && !driver.state.is_on_site());
    // Until it is there the list has the work alone, with what stands under it.
    driver.play("down down");
    let of_work = [
        DayRow::Work,
        DayRow::Room(0),
        DayRow::Room(1),
        DayRow::Preparation(0),
        DayRow::Preparation(1),
        DayRow::Helpers,
    ];
    assert_eq!(driver.state.day_rows(), of_work);
    driver.answer();
    assert!(driver.state.is_on_site());
    let rows = driver.state.day_rows().len();
    // Four straw-bale walls with three coats outside and two inside, a tower with two and two, and the days.
    assert!(rows > 1 + 24 + 10, "{rows}");
    driver.play("down down end home up");
    assert_eq!(planned(&driver), 1);
}

/// Goes to the first scratch coat in the list, and says what it is.
fn to_a_coat(driver: &mut Driver) -> String {
    for _ in 0..40 {
        let days = driver.state.days().unwrap();
        let task = driver.state.day_row().task();
        let task = task.and_then(|task| days.tasks.get(task));
        if let Some(of) = task.filter(|of| of.coat == "scratch") {
            return of.said().to_string();
        }
        driver.key("down");
    }
    panic!("no coat among the first rows");
}

/// A weekend with helpers stands above the days: what fits in it, what must be ready, who does what, what is left.
#[test]
fn a_weekend_with_helpers_stands_above_the_days() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.play("shift-d");
    driver.answer();
    let rows = driver.state.day_rows();
    let at = rows.iter().position(|row| *row == DayRow::Helpers).unwrap();
    for _ in 0..at {
        driver.key("down");
    }
    let mut said = String::new();
    for _ in 0..8 {
        said.push_str(&driver.screen(120, 40));
        driver.play(".");
    }
    let on_site = driver.state.on_site().unwrap();
    let weekend = on_site.weekend.as_ref().unwrap();
    let [saturday, sunday] = [18, 19].map(|day| jiff::civil::date(2026, 4, day));
    let worked: Vec<_> = weekend.days.plan.days.iter().map(|day| day.date).collect();
    assert_eq!(worked, [saturday, sunday]);
    for words in [
        "The first weekend with helpers",
        "On Sat 2026-04-18 and Sun 2026-04-19",
        "Ready before they come",
        "done by",
        "at the mixer",
        "Who does what",
        "Left for later",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
}

/// A rate that is changed on the page changes the plan; the old one stays in sight until the new one is there.
#[test]
fn the_plan_follows_a_rate_that_is_typed() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.play("shift-d");
    driver.answer();
    let before = ends(&driver);
    let plan = driver.state.days().unwrap().plan.clone();
    to_a_coat(&mut driver);
    let Some(Subject::Coat { .. }) = driver.state.subject() else {
        panic!("{:?}", driver.state.subject());
    };
    let end_of = |driver: &Driver| {
        let task = driver.state.day_row().task().unwrap();
        let days = driver.state.days().unwrap();
        let hours = days.plan.tasks[task].as_ref().unwrap().hours;
        (days.tasks[task].said(), hours)
    };
    let (name, hours) = end_of(&driver);
    // Its rate is the first of its fields.
    driver.play("tab \"1.25 m2\" enter");
    let rates = &driver.project().work.as_ref().unwrap().rates;
    assert_eq!(rates["scratch"].placing.as_ref().unwrap().text(), "1.25 m2");
    assert_eq!(planned(&driver), 2);
    assert!(!driver.state.is_on_site());
    assert_eq!(ends(&driver), before);
    let stale = |driver: &Driver| {
        let area = ratatui::layout::Rect::new(0, 0, 120, 40);
        let mut buffer = ratatui::buffer::Buffer::empty(area);
        ratatui::widgets::Widget::render(&driver.state, area, &mut buffer);
        crate::driver::text_of(&buffer).contains("before the last change")
    };
    driver.play("esc");
    assert!(stale(&driver));
    driver.answer();
    assert!(driver.state.is_on_site() && !stale(&driver));
    assert!(ends(&driver) >= before && driver.state.days().unwrap().plan != plan);
    // The same coat on the same face is chosen still, and takes one person twice as long.
    let (after, longer) = end_of(&driver);
    assert_eq!(after, name);
    assert!((longer / hours - 2.0).abs() < 0.15, "{hours} and {longer}");
    driver.play("u");
    driver.answer();
    assert_eq!(ends(&driver), before);
    assert_eq!(end_of(&driver), (name, hours));
    assert_eq!(driver.state.screen(), Screen::Days);
}

#[test]
fn an_answer_to_an_older_request_is_dropped() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.play("shift-d");
    let old = driver.days.take().unwrap();
    driver.play("tab");
    driver.play("\"2026-05-04\" enter");
    let new = driver.days.take().unwrap();
    assert!(new.0 > old.0);
    driver.days = Some(old);
    driver.answer();
    assert!(driver.state.days().is_none());
    driver.days = Some(new);
    driver.answer();
    let from = driver.state.days().unwrap().site.begins;
    assert_eq!(from.to_string(), "2026-05-04");
}

#[test]
fn without_a_first_day_it_says_what_to_type_and_the_key_leads_there() {
    let mut project = demo(WORKSHOP);
    project.work = None;
    let mut driver = Driver::new(start(project));
    driver.play("shift-d");
    let screen = driver.screen(120, 40);
    assert!(
        screen.contains("Press Tab and type the day at 'begins'"),
        "{screen}"
    );
    driver.play("tab");
    assert_eq!(driver.state.subject(), Some(Subject::Work));
    assert_eq!(driver.state.rows()[driver.state.field()].key, "begins");
    driver.play("\"2026-04-13\" enter");
    driver.answer();
    assert!(driver.state.days().is_some());
    // Back where it was, and again.
    driver.play("esc u");
    assert_eq!(driver.project().work, None);
    driver.play("r");
    assert!(driver.project().work.is_some());
}

#[test]
fn what_is_refused_of_the_work_is_gone_to() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.play("shift-d tab down \"8:10\" enter");
    assert!(
        driver.notice().contains("no time on a quarter"),
        "{}",
        driver.notice()
    );
    let screen = driver.screen(120, 40);
    assert!(screen.contains("The days cannot be planned"), "{screen}");
    driver.play("esc 1 g");
    assert_eq!(driver.state.screen(), Screen::Days);
    assert_eq!(driver.state.subject(), Some(Subject::Work));
    assert_eq!(driver.state.rows()[driver.state.field()].key, "from");
}

#[test]
fn weather_that_is_not_there_or_is_broken_is_told_and_the_days_are_planned_without() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.weather.clear();
    driver.play("shift-d");
    let screen = driver.screen(120, 60);
    assert!(driver.state.days().unwrap().weather.is_none());
    let told = driver.state.on_site().unwrap().fault.clone().unwrap();
    assert!(told.contains("no 'hollowmere.epw'"), "{told}");
    assert!(screen.contains("There is no 'hollowmere.epw'"), "{screen}");
    // The file is there when the page is come to again.
    driver
        .weather
        .insert("hollowmere.epw".into(), crate::driver::HOLLOWMERE.into());
    driver.play("1 shift-d");
    driver.answer();
    assert!(driver.state.days().unwrap().weather.is_some());
    let broken = crate::driver::HOLLOWMERE.replacen(",2.3,1.6,", ",warm,1.6,", 1);
    driver
        .weather
        .insert("hollowmere.epw".into(), broken.into());
    driver.play("1 shift-d");
    let screen = driver.screen(120, 60);
    assert!(screen.contains("line 9, column 7"), "{screen}");
    assert_eq!(planned(&driver), 3);
}

#[test]
fn a_project_without_a_file_has_no_weather_beside_it() {
    let mut driver = Driver::new(Start {
        path: None,
        opened: Opened::Unnamed,
        ..start(demo(WORKSHOP))
    });
    driver.play("shift-d");
    driver.answer();
    let told = driver.state.on_site().unwrap().fault.clone().unwrap();
    assert!(told.contains("save it first"), "{told}");
    // Saved, the weather beside the file is read.
    driver.play("f6 ctrl-u \"barn\" enter");
    driver.answer();
    let fault = driver.state.on_site().unwrap().fault.clone();
    assert_eq!(fault, None);
}

#[test]
fn nothing_is_added_copied_moved_or_removed_on_the_page() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.play("shift-d");
    driver.answer();
    let begin = driver.project().clone();
    for key in ["c", "d", "delete", "shift-up", "shift-down", "+", "-"] {
        driver.play("end").key(key);
        assert!(driver.project() == &begin, "{key}");
    }
    assert!(
        driver.notice().contains("this is for the coats page"),
        "{}",
        driver.notice()
    );
}

/// Where there is no room beside the list, the key that goes on in the words shows them in a box.
#[test]
fn in_a_small_window_the_words_come_in_a_box() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.play("shift-d");
    driver.screen(40, 12);
    driver.answer();
    let name = to_a_coat(&mut driver);
    driver.play(".");
    let screen = driver.screen(40, 12);
    assert!(screen.contains(&name), "{screen}");
    driver.play("down down down down down down down down");
    let screen = driver.screen(40, 12);
    assert!(screen.contains("likely"), "{screen}");
    driver.play("esc down");
    assert!(driver.state.popup().is_none());
}

/// What is said of the work is no option: it stays when what was tried is kept as one.
#[test]
fn the_work_stays_when_an_option_is_kept() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.play("m shift-d tab \"2026-05-04\" enter esc 3 down +");
    let options = driver.project().options.len();
    driver.play("9 a");
    assert_eq!(driver.project().options.len(), options + 1);
    let begins = driver
        .project()
        .work
        .as_ref()
        .unwrap()
        .begins
        .clone()
        .unwrap();
    assert_eq!(begins.text(), "2026-05-04");
}

/// A coat that is removed takes its rate along, or the project would be refused for it.
#[test]
fn a_coat_that_is_removed_takes_its_rate_along() {
    let mut driver = Driver::demo(WORKSHOP);
    let coats = driver.project().build_ups.values().flatten();
    let scratch = coats.filter(|coat| coat.coat == "scratch").count();
    assert_eq!(scratch, 2);
    driver.play("3 d");
    assert!(
        driver
            .project()
            .work
            .as_ref()
            .unwrap()
            .rates
            .contains_key("scratch")
    );
    let inside = driver
        .state
        .coat_rows()
        .iter()
        .position(|row| {
            let Subject::Coat { build_up, coat } = *row else {
                return false;
            };
            driver.project().build_ups[build_up][coat].coat == "scratch"
        })
        .unwrap();
    driver.key("home");
    for _ in 0..inside {
        driver.key("down");
    }
    driver.key("d");
    assert!(
        !driver
            .project()
            .work
            .as_ref()
            .unwrap()
            .rates
            .contains_key("scratch")
    );
    driver.play("u u");
    assert!(driver.project() == &demo(WORKSHOP));
}

/// Rooms, what is prepared and records of drying are made, copied and removed on the page, and undone.
#[test]
fn rooms_preparing_and_records_are_made_on_the_page() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.play("shift-d");
    driver.answer();
    let before = driver.project().clone();
    let counts = |driver: &Driver| {
        let work = driver.project().work.as_ref().unwrap();
        [work.rooms.len(), work.prepare.len(), work.dried.len()]
    };
    assert_eq!(counts(&driver), [2, 2, 0]);
    driver.play("j");
    assert_eq!(counts(&driver), [2, 3, 0]);
    assert_eq!(driver.state.subject(), Some(Subject::Preparation(2)));
    driver.play("e");
    assert_eq!(counts(&driver), [2, 3, 1]);
    assert_eq!(driver.state.subject(), Some(Subject::Dried(0)));
    // Every wall stands in a room already.
    driver.play("home a");
    assert_eq!(counts(&driver), [2, 3, 1]);
    driver.play("down delete");
    assert_eq!(counts(&driver), [1, 3, 1]);
    driver.play("a");
    assert_eq!(counts(&driver), [2, 3, 1]);
    driver.play("u u u u");
    assert!(*driver.project() == before);
}
