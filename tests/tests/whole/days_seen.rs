//! What was recorded on the site moves the days: coats that are done are left out, coats that dried slowly slow the
//! others down. Not here: how records are learned from in quantities (see `forecast`).

use crate::days::{BEGINS, at, days, dry, steady, two_walls};
use hodful_takeoff::days::Days;
use hodful_takeoff::project::Side;
use hodful_workplan::{Because, faults};
use jiff::civil::date;
use serde_json::{Value, json};

fn crew() -> Value {
    json!({ "people": 4 })
}

/// Of all coats those on the north wall's outside are done: what is left and what is recorded is all.
#[test]
fn what_is_done_is_left_out() {
    let all = days(&two_walls(&crew(), |_| {}), None);
    let project = two_walls(&crew(), |json| {
        json["done"] = json!([
            { "coat": "fill", "walls": ["N"], "face": "outside", "took": "0.3 m3" }
        ]);
    });
    let rest = days(&project, None);
    // The scratch coat under it is on the wall too.
    assert_eq!(
        (all.tasks.len(), rest.tasks.len(), rest.on_wall.len()),
        (8, 6, 2)
    );
    assert!(
        rest.tasks
            .iter()
            .all(|task| task.wall == "S" || task.side == Side::Inside)
    );
}

#[test]
fn nothing_is_planned_when_all_is_done() {
    let project = two_walls(&crew(), |json| {
        json["done"] = json!([{ "coat": "fill", "took": "2 m3" }]);
    });
    let rules = hodful_project_file::rules();
    let of = hodful_takeoff::Assessed::new(&project, &rules).unwrap();
    let why = of.days(None, Some(BEGINS)).unwrap_err();
    assert_eq!(
        why,
        "there is nothing left to plan: every coat is recorded as done"
    );
}

/// What stands on a recorded coat waits for that: until it was found dry, else until it is likely dry.
#[test]
fn what_stands_on_a_recorded_coat_waits_for_it() {
    let weather = steady(15.0, 0.6);
    let with = |dried: Value| {
        let mut work = crew();
        work["dried"] = json!([dried]);
        let days = days(&two_walls(&work, |_| {}), Some(&weather));
        let fill = at(&days, "N outside, fill");
        assert_eq!(days.on_wall.len(), 1);
        let found = faults(&days.site, &days.plan, &[], &mut dry(&days));
        assert!(found.is_empty(), "{found:?}");
        (days.site.tasks[fill].not_before.unwrap(), days)
    };
    let record = |dry: Value| json!({ "wall": "N", "face": "outside", "coat": "scratch", "placed": "2030-05-02", "dry": dry });
    let (seen, _) = with(record(json!("2030-05-14")));
    assert_eq!(seen.date(), date(2030, 5, 14));
    let mut wet = record(json!(null));
    wet.as_object_mut().unwrap().remove("dry");
    let (likely, days) = with(wet);
    // The same coat on the other wall takes as long from its own day on.
    let south = at(&days, "S outside, scratch");
    let end = days.plan.tasks[south].as_ref().unwrap().end;
    let takes = days.tasks[south]
        .drying
        .unwrap()
        .likely
        .unwrap()
        .at
        .duration_since(end);
    let since = likely.duration_since(date(2030, 5, 2).at(16, 30, 0, 0));
    let ratio = takes.as_secs_f64() / since.as_secs_f64();
    assert!((ratio - 1.0).abs() < 0.02, "{ratio}");
}

/// A coat that is still wet when the days begin can hold their end.
#[test]
fn a_wet_wall_can_hold_the_end() {
    let mut work = json!({ "people": 30 });
    work["dried"] = json!([
        { "wall": "N", "face": "inside", "coat": "scratch", "placed": "2030-05-05" }
    ]);
    let project = two_walls(&work, |json| {
        let walls = json["walls"].as_array_mut().unwrap();
        walls.truncate(1);
        walls[0]["faces"].as_object_mut().unwrap().remove("outside");
    });
    let days = days(&project, None);
    assert_eq!(days.plan.chain[0].because, Because::NotBefore);
    assert_eq!(
        days.held()[0],
        "N inside, fill: waits for the coat that is on the wall"
    );
}

/// A coat that was put on before the first day, in air that freezes it, is told with its nights.
#[test]
fn what_is_on_the_wall_may_freeze_too() {
    let mut work = crew();
    work["dried"] = json!([
        { "wall": "N", "face": "outside", "coat": "scratch", "placed": "2030-05-04" },
        { "wall": "S", "face": "outside", "coat": "scratch", "placed": "2030-05-01", "dry": "2030-05-05" }
    ]);
    let days = days(&two_walls(&work, |_| {}), Some(&steady(1.0, 0.6)));
    let [north, south] = &days.on_wall[..] else {
        panic!("{:?}", days.on_wall);
    };
    assert_eq!(north.task.nights[0].verdict(), "may freeze");
    assert!(north.task.nights[0].likely_wet);
    // Nights before a coat is there are none of its own.
    for (task, planned) in days.tasks.iter().zip(&days.plan.tasks) {
        let begin = planned.as_ref().unwrap().begin.date();
        assert!(task.nights.iter().all(|night| night.night.evening >= begin));
    }
    assert!(south.task.nights.is_empty() && south.task.drying.is_none());
}

fn factor(days: &Days, side: Side) -> Option<f64> {
    let learned = days.learned.iter().find(|learned| learned.side == side);
    learned.map(|learned| learned.factor)
}

/// The normal update on the log, as Gelman et al., Bayesian Data Analysis, section 2.5 (from memory), has it: prior 0
/// give or take ln 1.4, one observation give or take 0.2 and half a day.
#[test]
fn a_slow_wall_slows_its_side_and_no_other() {
    let weather = steady(15.0, 0.6);
    let plain = days(&two_walls(&crew(), |_| {}), Some(&weather));
    let scratch = at(&plain, "N outside, scratch");
    let end = plain.plan.tasks[scratch].as_ref().unwrap().end;
    let likely = plain.tasks[scratch].drying.unwrap().likely.unwrap().at;
    let predicted = likely.duration_since(end).as_secs_f64() / 86_400.0;
    let mut work = crew();
    work["dried"] = json!([{
        "wall": "N", "face": "outside", "coat": "scratch",
        "placed": "2030-05-06", "dry": "2030-06-05"
    }]);
    let moved = days(&two_walls(&work, |_| {}), Some(&weather));
    let prior = libm::log(1.4) * libm::log(1.4);
    let own = 0.2 * 0.2 + (0.5 / 30.0) * (0.5 / 30.0);
    let wanted = libm::exp(libm::log(30.0 / predicted) * prior / (prior + own));
    let found = factor(&moved, Side::Outside).unwrap();
    assert!((found / wanted - 1.0).abs() < 0.01, "{found} {wanted}");
    assert_eq!(factor(&moved, Side::Inside), None);
    let takes = |days: &Days, said: &str| {
        let task = at(days, said);
        let end = days.plan.tasks[task].as_ref().unwrap().end;
        let dry = days.tasks[task].drying.unwrap().likely.unwrap().at;
        dry.duration_since(end).as_secs_f64()
    };
    let ratio = takes(&moved, "S outside, scratch") / takes(&plain, "S outside, scratch");
    assert!((ratio / found - 1.0).abs() < 0.01, "{ratio} {found}");
    let inside = takes(&moved, "S inside, scratch") / takes(&plain, "S inside, scratch");
    assert!((inside - 1.0).abs() < 1e-6, "{inside}");
}
