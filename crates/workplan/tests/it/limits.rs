//! What holds one task up, each by a sum that can be done in the head. Not here: whole sites.

use crate::{at, face, near, of, planned, site};
use hodful_workplan::{Coat, Crew, Limit, Mixing, Task, Unplanned, Why, example, share_out};

const CREW: [usize; 4] = [1, 1, 4, 2];

fn crew([mixing, carrying, placing, finishing]: [usize; 4]) -> Crew {
    Crew::Roles {
        mixing,
        carrying,
        placing,
        finishing,
    }
}

/// One face of 24 m² with 30 litres on each; how long it takes, and what holds it up.
fn held(change: impl FnOnce(&mut hodful_workplan::Site)) -> (f64, Limit, usize) {
    let mut site = site(vec![face("a", 24.0, 720.0)]);
    site.crew = crew(CREW);
    change(&mut site);
    let plan = planned(&site);
    let task = of(&plan, 0);
    let hours: f64 = task
        .portions
        .iter()
        .map(|p| p.end.duration_since(p.begin).as_secs_f64() / 3600.0)
        .sum();
    (hours, task.limit, task.portions[0].hands)
}

#[test]
fn each_limit() {
    // Four people at 3 m² an hour: 2 hours. The mixer just keeps up.
    assert_eq!(held(|_| ()), (2.0, Limit::Placing, 4));
    // Batches of 60 litres: 180 litres an hour for 720. Two people place as much.
    let half = |site: &mut hodful_workplan::Site| {
        site.mixing.as_mut().unwrap().litres_per_batch = 60.0;
    };
    assert_eq!(held(half), (4.0, Limit::Mixers, 2));
    // Two mixers, two people at each, but one person: nothing runs; with three one runs.
    let short = |people| {
        move |site: &mut hodful_workplan::Site| {
            site.mixing = Some(Mixing {
                mixers: 2,
                hands_each: 2,
                litres_per_batch: 60.0,
                minutes_per_batch: 20.0,
            });
            site.crew = crew([people, 1, 4, 0]);
        }
    };
    assert_eq!(held(short(3)), (4.0, Limit::MixingHands, 2));
    // 90 litres an hour carried: 8 hours.
    assert_eq!(
        held(|site| site.carried_per_hour = Some(90.0)),
        (8.0, Limit::Carrying, 1)
    );
    // Two people float 2 m² an hour each: 6 hours, for which two placing (at 4 m²) are enough.
    assert_eq!(
        held(|site| site.coats[0].finishing = Some(2.0)),
        (6.0, Limit::Finishing, 2)
    );
    // Room for one: 8 hours.
    assert_eq!(
        held(|site| site.tasks[0].most_hands = Some(1)),
        (8.0, Limit::Room, 1)
    );
    // Mix that comes ready.
    assert_eq!(held(|site| site.mixing = None), (2.0, Limit::Placing, 4));
}

/// Nobody at the mixer, or nobody who finishes: no place, and what is missing is said.
#[test]
fn nobody_there() {
    let mut site = site(vec![face("a", 24.0, 720.0)]);
    for (people, finishing, limit) in [
        ([0, 1, 4, 0], None, Limit::MixingHands),
        ([1, 0, 4, 0], None, Limit::Carrying),
        ([1, 1, 0, 0], None, Limit::Placing),
        ([1, 1, 4, 0], Some(5.0), Limit::Finishing),
    ] {
        site.crew = crew(people);
        site.coats[0].finishing = finishing;
        let why = Why::Nobody { limit };
        assert_eq!(planned(&site).unplanned, [Unplanned { task: 0, why }]);
    }
}

/// Alone: 10 m² at 2.5 m² an hour are 4 hours, 200 litres at 100 an hour 2, carried at 200 an hour 1. Two people:
/// half of that, as long as the mixer gives 200 litres in 3.5 hours.
#[test]
fn all_do_everything() {
    let mut site = site(vec![face("a", 10.0, 200.0)]);
    site.coats[0].placing = 2.5;
    site.carried_per_hour = Some(200.0);
    site.mixing = Some(Mixing {
        mixers: 1,
        hands_each: 1,
        litres_per_batch: 50.0,
        minutes_per_batch: 30.0,
    });
    for (people, end, limit) in [
        (1, "2030-05-06T16:00", Limit::Hands),
        (2, "2030-05-06T11:30", Limit::Hands),
        (7, "2030-05-06T10:00", Limit::Mixers),
    ] {
        site.crew = Crew::Everyone(people);
        let plan = planned(&site);
        assert_eq!(
            (of(&plan, 0).end, of(&plan, 0).limit),
            (at(end), limit),
            "{people}"
        );
    }
    assert_eq!(
        of(&planned(&site), 0).portions[0].hands,
        4,
        "7 person-hours in 2 hours: 3.5 people, four"
    );
}

/// The best way to share out, by trying all ways with rates reckoned a second time.
#[test]
fn sharing_out_is_the_best() {
    let coat = Coat {
        finishing: Some(4.0),
        ..example().coats[0].clone()
    };
    let mixing = example().mixing;
    for people in 4..=14_u8 {
        let found = share_out(people.into(), &coat, 25.0, mixing, Some(300.0)).unwrap();
        let mut best = 0.0_f64;
        for m in 0..=people {
            for c in 0..=people - m {
                for f in 0..=people - m - c {
                    let p = people - m - c - f;
                    let mixed = f64::from(m.min(1)) * 360.0 / 25.0;
                    let carried = f64::from(c) * 300.0 / 25.0;
                    let rate = mixed
                        .min(carried)
                        .min(f64::from(p) * 3.0)
                        .min(f64::from(f) * 4.0);
                    best = best.max(rate);
                }
            }
        }
        near(found.m2_per_hour, best);
        assert_eq!(found.crew.people(), usize::from(people));
    }
    assert_eq!(share_out(3, &coat, 25.0, mixing, Some(300.0)), None);
    assert_eq!(share_out(65, &coat, 25.0, mixing, None), None);
    assert_eq!(share_out(8, &coat, f64::NAN, mixing, None), None);
}

/// Mix held up by a face that is already under way: what is left of the mixer goes to the second.
#[test]
fn the_mixer_is_shared() {
    let small = |name, m2: f64, litres| Task {
        most_hands: Some(2),
        ..face(name, m2, litres)
    };
    // The first takes 240 of 360 litres an hour for 4 hours, so 480 litres take 4 hours beside it.
    let site = site(vec![small("a", 24.0, 960.0), small("b", 6.0, 480.0)]);
    let plan = planned(&site);
    assert_eq!(of(&plan, 0).end, at("2030-05-06T12:00"));
    assert_eq!(of(&plan, 1).begin, at("2030-05-06T08:00"));
    assert_eq!(
        (of(&plan, 1).end, of(&plan, 1).limit),
        (at("2030-05-06T12:00"), Limit::Mixers)
    );
}

/// Hands that are elsewhere are short, not the room.
#[test]
fn hands_elsewhere() {
    let first = Task {
        most_hands: Some(3),
        ..face("a", 36.0, 0.0)
    };
    let plan = planned(&site(vec![first, face("b", 12.0, 0.0)]));
    let limits = [0, 1].map(|task| of(&plan, task).limit);
    assert_eq!(limits, [Limit::Room, Limit::Placing]);
    assert_eq!(of(&plan, 1).end, at("2030-05-06T12:00"));
}
