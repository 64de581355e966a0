//! Two days with helpers, by hand. Not here: plans without an end.

use crate::{after, at, face};
use hodful_workplan::{Before, Preparing, Role, Task, Unplanned, Why, Work, example, weekend};
use jiff::civil::{Weekday, date};

fn prepare(name: &str, what: Preparing, hours: f64, before: Vec<hodful_workplan::After>) -> Task {
    Task {
        name: name.into(),
        work: Work::Prepare {
            what,
            hours,
            by: Role::Mixing,
        },
        after: before,
        most_hands: None,
        not_before: None,
        in_one_go: false,
    }
}

/// Saturday and Sunday, 8 hours each, 12 m² an hour. Clay screened in 3 hours, soaked in 2, and left for 72 hours;
/// the frames masked in 4. The scratch coat of 60 m² takes 5 hours, the next one waits 24 hours: Sunday 14:00, with
/// 3 hours left for 36 m², but it needs 5. A garden wall of 24 m² fits beside.
#[test]
fn a_weekend_by_hand() {
    let mut site = example();
    site.begins = date(2030, 5, 4);
    site.hours.weekdays = vec![Weekday::Saturday, Weekday::Sunday];
    site.tasks = vec![
        prepare("screen", Preparing::Screening, 3.0, vec![]),
        prepare("soak", Preparing::Soaking, 2.0, vec![after(0, 0.0)]),
        prepare("mask", Preparing::Masking, 4.0, vec![]),
        Task {
            after: vec![after(1, 72.0), after(2, 0.0)],
            ..face("house, scratch coat", 60.0, 0.0)
        },
        Task {
            after: vec![after(3, 24.0)],
            ..face("house, second coat", 60.0, 0.0)
        },
        face("garden wall", 24.0, 0.0),
        prepare(
            "take the masking off",
            Preparing::Masking,
            1.0,
            vec![after(4, 0.0)],
        ),
    ];
    let found = weekend(&site, 2, &mut |_, end| end).unwrap();
    // Saturday 08:00 less 72 hours is Wednesday 08:00; soaking takes one person 2 hours before that.
    let before = |task, by, hours| Before {
        task,
        by: at(by),
        hours,
    };
    assert_eq!(
        found.before,
        [
            before(0, "2030-05-01T06:00", 3.0),
            before(1, "2030-05-01T08:00", 2.0),
            before(2, "2030-05-04T08:00", 4.0),
        ]
    );
    assert_eq!((found.m2, &found.left[..]), (84.0, &[4, 6][..]));
    assert_eq!(
        found.plan.unplanned,
        [
            Unplanned {
                task: 4,
                why: Why::NoDaysLeft
            },
            Unplanned {
                task: 6,
                why: Why::After { task: 4 }
            },
        ]
    );
    let end = |task: usize| found.plan.tasks[task].as_ref().unwrap().end;
    assert_eq!(
        (end(3), end(5)),
        (at("2030-05-04T14:00"), at("2030-05-04T16:00"))
    );
    // A third day, a week later, has room for the rest.
    let three = weekend(&site, 3, &mut |_, end| end).unwrap();
    assert_eq!(three.left, []);
    assert_eq!(three.plan.end(), Some(at("2030-05-11T15:00")));
}

/// One day has 96 m² of work. As typed the two small faces go first, and the large one, of 94 m², is left; with the
/// longest first two small ones are. The least surface is left that way, though more tasks are.
#[test]
fn the_least_surface_is_left() {
    let mut site = example();
    site.tasks = vec![
        face("a", 4.0, 0.0),
        face("b", 4.0, 0.0),
        face("large", 94.0, 0.0),
    ];
    let found = weekend(&site, 1, &mut |_, end| end).unwrap();
    assert_eq!((found.m2, &found.left[..]), (94.0, &[0, 1][..]));
}
