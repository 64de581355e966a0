//! Small sites whose plan can be found with pencil and paper. Not here: what holds one task up.

use crate::{after, at, face, near, of, planned, site};
use hodful_workplan::{
    Because, Crew, Link, Mix, Notice, PlanFault, Preparing, Role, Task, Unplanned, Why, Work,
    example, plan,
};
use jiff::civil::date;

/// The example, Monday to Thursday. Base coats 48 / 12 = 4 hours and 24 / 12 = 2. The finish coats, at 2 m² an hour
/// for each of four, take 6 and 3 hours. The north one may begin on Tuesday noon, but 6 hours are left on Wednesday
/// only; of that day 2 hours are left, so the east one goes on Thursday.
#[test]
fn the_example_by_hand() {
    let site = example();
    let plan = planned(&site);
    let times = |task| (of(&plan, task).begin, of(&plan, task).end);
    assert_eq!(times(0), (at("2030-05-06T08:00"), at("2030-05-06T12:00")));
    assert_eq!(times(1), (at("2030-05-06T13:00"), at("2030-05-06T15:00")));
    assert_eq!(times(2), (at("2030-05-08T08:00"), at("2030-05-08T15:00")));
    assert_eq!(times(3), (at("2030-05-09T08:00"), at("2030-05-09T11:00")));
    assert_eq!(plan.end(), Some(at("2030-05-09T11:00")));
    let link = |task, because| Link { task, because };
    assert_eq!(
        plan.chain,
        [
            link(0, Because::First),
            link(2, Because::Waits { task: 0 }),
            link(3, Because::DayEnd { task: 2 }),
        ]
    );
    // Alone the north wall would be done on Wednesday at 15:00 all the same, and the work of four people
    // is 24 + 36 hours of 4, from Monday on: 15 hours, until Tuesday 16:00.
    let bounds = plan.bounds.unwrap();
    assert_eq!(bounds.chain, at("2030-05-08T15:00"));
    assert_eq!(bounds.work, at("2030-05-07T16:00"));
    assert_eq!(bounds.end(), bounds.chain);
    // Monday: 6 hours for six people, 2 hours of nothing to do; 72 · 30 litres in batches of 120.
    let monday = &plan.days[0];
    assert_eq!(
        (monday.date, &monday.tasks[..]),
        (date(2030, 5, 6), &[0, 1][..])
    );
    near(monday.worked, 36.0);
    near(monday.idle, 12.0);
    let mix = Mix {
        coat: 0,
        litres: 2160.0,
        batches: 18,
    };
    assert_eq!(monday.mixes, [mix]);
    // 12 m² an hour, an hour to work it: 12 m², and the faces are larger.
    assert_eq!(of(&plan, 0).wet_edge, Some(12.0));
    assert!(
        plan.notices
            .contains(&Notice::LosesWetEdge { task: 0, m2: 12.0 })
    );
}

/// What the example's first base coat stands on dries until Tuesday at 09:10: it begins with the next quarter of an
/// hour, and the east one goes first.
#[test]
fn what_was_there_before_holds_its_task() {
    let mut site = example();
    site.tasks[0].not_before = Some(at("2030-05-07T09:10"));
    let plan = planned(&site);
    assert_eq!(of(&plan, 1).begin, at("2030-05-06T08:00"));
    assert_eq!(of(&plan, 0).begin, at("2030-05-07T09:15"));
    assert_eq!(of(&plan, 0).end, at("2030-05-07T14:15"));
    assert_eq!(plan.chain[0].because, Because::NotBefore);
    let mut early = plan.clone();
    let first = early.tasks[0].as_mut().unwrap();
    first.portions[0].begin = at("2030-05-07T09:00");
    let found = hodful_workplan::faults(&site, &early, &[], &mut |_, end| end);
    let told = |fault: &PlanFault| matches!(fault, PlanFault::BeforeItsTime { task: 0, .. });
    assert!(found.iter().any(told), "{found:?}");
}

/// Dry on Friday at 09:00: the finish coat begins then, if it fits; else on Monday.
#[test]
fn drying_is_asked_for() {
    let site = example();
    let mut asked = vec![];
    let plan = plan(&site, &mut |task, end| {
        asked.push((task, end));
        if task == 0 {
            at("2030-05-10T09:00")
        } else {
            end
        }
    })
    .unwrap();
    assert_eq!(of(&plan, 0).dry, at("2030-05-10T09:00"));
    assert_eq!(of(&plan, 2).begin, at("2030-05-10T09:00"));
    assert_eq!(of(&plan, 2).end, at("2030-05-10T16:00"));
    let last = plan.chain.last().unwrap();
    assert_eq!((last.task, last.because), (2, Because::Dries { task: 0 }));
    let all = asked.len();
    asked.sort_unstable();
    asked.dedup();
    assert_eq!(asked.len(), all, "each end is asked for once");
    assert!(asked.iter().all(|&(task, _)| task < 2), "{asked:?}");
}

/// Twelve days later, over a weekend and a day off.
#[test]
fn days_off_are_not_worked() {
    let mut site = site(vec![
        face("a", 96.0, 0.0),
        face("b", 96.0, 0.0),
        face("c", 12.0, 0.0),
    ]);
    site.begins = date(2030, 5, 9);
    site.hours.days_off = vec![date(2030, 5, 13)];
    let plan = planned(&site);
    // Thursday and Friday are full; Monday is off.
    assert_eq!(of(&plan, 0).end, at("2030-05-09T17:00"));
    assert_eq!(of(&plan, 1).end, at("2030-05-10T17:00"));
    assert_eq!(of(&plan, 2).begin, at("2030-05-14T08:00"));
    assert_eq!(of(&plan, 2).end, at("2030-05-14T09:00"));
}

/// Two people find room on each of two faces: both at once, and the mixer serves both. 12 m² at 3 m² an hour each.
#[test]
fn two_small_faces_at_once() {
    let small = |name| Task {
        most_hands: Some(2),
        ..face(name, 12.0, 360.0)
    };
    let site = site(vec![small("a"), small("b")]);
    let plan = planned(&site);
    assert_eq!(of(&plan, 0).end, at("2030-05-06T10:00"));
    assert_eq!(of(&plan, 1).end, at("2030-05-06T10:00"));
    let mixing: Vec<_> = plan
        .stints
        .iter()
        .filter(|s| s.role == Role::Mixing)
        .collect();
    assert_eq!(
        mixing.len(),
        1,
        "one person at the mixer for both: {mixing:?}"
    );
}

/// 120 m² at 12 m² an hour are 10 hours; a day has 8. In two parts of 5 hours; the mixer would not give more to more
/// hands. With twice the mixers five people would do: 120 / 3 / 8.
#[test]
fn too_large_for_a_day() {
    let mut site = site(vec![Task {
        not_before: None,
        in_one_go: false,
        ..face("long wall", 120.0, 3600.0)
    }]);
    let notice = |hands| Notice::Joint {
        task: 0,
        parts: 2,
        hands,
    };
    let plan = planned(&site);
    assert!(plan.notices.contains(&notice(None)), "{:?}", plan.notices);
    let parts: Vec<_> = of(&plan, 0)
        .portions
        .iter()
        .map(|p| (p.part, p.begin.date().day()))
        .collect();
    assert_eq!(parts, [(0, 6), (0, 6), (1, 7), (1, 7)]);
    assert_eq!(of(&plan, 0).end, at("2030-05-07T14:00"));

    site.mixing.as_mut().unwrap().mixers = 2;
    site.carried_per_hour = None;
    site.crew = Crew::Roles {
        mixing: 2,
        carrying: 1,
        placing: 4,
        finishing: 0,
    };
    assert!(planned(&site).notices.contains(&notice(Some(5))));

    site.tasks[0].in_one_go = true;
    let left = planned(&site).unplanned;
    assert!(
        matches!(left[..], [Unplanned { task: 0, why: Why::TooLarge { hours, .. } }] if (hours - 10.0).abs() < 1e-9),
        "{left:?}"
    );
}

/// Ten hours of soaking for one, from Monday 08:00 over a night, then a day and a night of swelling.
#[test]
fn preparing_comes_before() {
    let mut tasks = vec![
        Task {
            name: "soak the clay".into(),
            work: Work::Prepare {
                what: Preparing::Soaking,
                hours: 10.0,
                by: Role::Mixing,
            },
            after: vec![],
            most_hands: None,
            not_before: None,
            in_one_go: false,
        },
        face("a", 12.0, 360.0),
        face("b", 12.0, 360.0),
    ];
    tasks[1].after = vec![after(0, 24.0)];
    let plan = planned(&site(tasks));
    assert_eq!(of(&plan, 0).end, at("2030-05-07T10:00"), "{plan:#?}");
    assert_eq!(of(&plan, 1).begin, at("2030-05-08T10:00"));
    // The other face needs the mixer too, whose one person soaks.
    assert_eq!(of(&plan, 2).begin, at("2030-05-07T10:00"));
    near(of(&plan, 0).hours, 10.0);
}

/// What waits for a task without a place has none, and says for which.
#[test]
fn what_hangs_on_what_is_left_is_left() {
    let mut tasks = vec![face("a", 500.0, 0.0), face("b", 1.0, 0.0)];
    tasks[1].after = vec![after(0, 0.0)];
    let plan = planned(&site(tasks));
    assert_eq!(plan.unplanned[1].why, Why::After { task: 0 });
    assert_eq!((plan.end(), plan.bounds), (None, None));
    assert!(plan.chain.is_empty() && plan.days.is_empty());
}

/// The longest chain goes first where that ends sooner: a short face typed first would keep the hands from the one
/// that must wait two days for its finish coat.
#[test]
fn the_longest_chain_first() {
    let mut tasks = vec![
        face("short", 96.0, 0.0),
        face("base", 96.0, 0.0),
        face("finish", 96.0, 0.0),
    ];
    tasks[2].after = vec![after(1, 20.0)];
    let plan = planned(&site(tasks));
    // Base on Monday, the short one on Tuesday while it waits until 13:00, finish on Wednesday.
    assert_eq!(of(&plan, 1).begin, at("2030-05-06T08:00"));
    assert_eq!(of(&plan, 0).begin, at("2030-05-07T08:00"));
    assert_eq!(plan.end(), Some(at("2030-05-08T17:00")));
}

/// Three of four people are at the first face, of 2.25 m², for a quarter of an hour. The second takes three quarters
/// for the one who is left, as long as waiting for a second one would; waiting for three it ends a quarter earlier.
/// The third, on the next day, has the end, so that no other order is any better.
#[test]
fn begin_or_wait_for_more_hands() {
    let face = |name, most_hands| Task {
        most_hands: Some(most_hands),
        ..face(name, 2.25, 0.0)
    };
    let times = |most| {
        let next_day = Task {
            after: vec![after(0, 20.0)],
            ..face("c", 3)
        };
        let plan = planned(&site(vec![face("a", 3), face("b", most), next_day]));
        let b = of(&plan, 1);
        (b.begin, b.end, b.portions[0].hands)
    };
    let (begin, later) = (at("2030-05-06T08:00"), at("2030-05-06T08:15"));
    assert_eq!(times(2), (begin, at("2030-05-06T08:45"), 1));
    assert_eq!(times(3), (later, at("2030-05-06T08:30"), 3));
}

/// What is said to be dry before its end is dry at its end.
#[test]
fn dry_before_its_end() {
    let site = example();
    let plan = plan(&site, &mut |_, end| end.yesterday().unwrap()).unwrap();
    assert_eq!(of(&plan, 0).dry, of(&plan, 0).end);
    assert_eq!(plan.end(), planned(&site).end());
}
