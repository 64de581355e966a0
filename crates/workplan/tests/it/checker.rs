//! That the checker of plans sees what is wrong: one thing is broken at a time. Not here: whole plans.

use crate::{at, planned};
use hodful_workplan::{Plan, PlanFault, Role, Site, example, faults};

fn broken(change: impl FnOnce(&mut Site, &mut Plan)) -> Vec<PlanFault> {
    let mut site = example();
    let mut plan = planned(&site);
    change(&mut site, &mut plan);
    faults(&site, &plan, &[], &mut |_, end| end)
}

fn seen(fault: fn(&PlanFault) -> bool, change: impl FnOnce(&mut Site, &mut Plan)) {
    let found = broken(change);
    assert!(found.iter().any(fault), "{found:?}");
}

#[test]
fn a_sound_plan_has_none() {
    assert_eq!(broken(|_, _| ()), []);
}

#[test]
fn waits_and_people() {
    use PlanFault as F;
    seen(
        |f| {
            matches!(
                f,
                F::OtherSite {
                    planned: 4,
                    tasks: 3
                }
            )
        },
        |site, _| {
            site.tasks.truncate(3);
        },
    );
    seen(
        |f| {
            matches!(
                f,
                F::TooEarly {
                    task: 2,
                    before: 0,
                    ..
                }
            )
        },
        |site, _| {
            site.tasks[2].after[0].hours = 48.0;
        },
    );
    seen(
        |f| {
            matches!(
                f,
                F::TooEarly {
                    task: 1,
                    before: 3,
                    ..
                }
            )
        },
        |site, _| {
            site.tasks[1].after = vec![crate::after(3, 0.0)];
        },
    );
    seen(
        |f| matches!(f, F::TwoPlaces { person: 2, .. }),
        |_, plan| {
            let mut stint = *plan.stints.iter().find(|s| s.person == 2).unwrap();
            stint.task = Some(1);
            plan.stints.push(stint);
        },
    );
    seen(
        |f| matches!(f, F::WrongRole { person: 5, .. }),
        |site, _| {
            site.crew = hodful_workplan::Crew::Roles {
                mixing: 1,
                carrying: 1,
                placing: 3,
                finishing: 0,
            };
        },
    );
}

#[test]
fn hours_and_mix() {
    use PlanFault as F;
    for change in [
        (|site: &mut Site| site.hours.to = at("2030-05-06T14:00").time()) as fn(&mut Site),
        |site| {
            site.hours
                .breaks
                .push((at("2030-05-06T09:00").time(), at("2030-05-06T09:15").time()));
        },
        |site| site.hours.days_off.push(at("2030-05-06T09:00").date()),
        |site| site.hours.weekdays.clear(),
        |site| site.begins = at("2030-05-07T09:00").date(),
    ] {
        seen(
            |f| matches!(f, F::OutsideHours { .. }),
            |site, _| change(site),
        );
    }
    seen(
        |f| matches!(f, F::TooMuchMix { .. }),
        |site, _| {
            site.mixing.as_mut().unwrap().minutes_per_batch = 21.0;
        },
    );
    seen(
        |f| matches!(f, F::TooMuchMix { .. }),
        |site, _| {
            site.carried_per_hour = Some(350.0);
        },
    );
    for role in [Role::Mixing, Role::Carrying] {
        let found = broken(|_, plan| plan.stints.retain(|stint| stint.role != role));
        assert!(
            found.iter().any(|f| matches!(f, F::TooMuchMix { .. })),
            "{found:?}"
        );
    }
}

#[test]
fn hands_and_amounts() {
    use PlanFault as F;
    seen(
        |f| matches!(f, F::WrongHands { task: 0, .. }),
        |site, _| {
            site.coats[0].placing = 2.9;
        },
    );
    seen(
        |f| matches!(f, F::WrongHands { task: 0, .. }),
        |site, _| {
            site.coats[0].finishing = Some(9.0);
        },
    );
    seen(
        |f| matches!(f, F::WrongHands { task: 0, .. }),
        |site, _| {
            site.tasks[0].most_hands = Some(3);
        },
    );
    seen(
        |f| matches!(f, F::WrongHands { task: 0, .. }),
        |_, plan| {
            plan.stints.retain(|stint| stint.person != 3);
        },
    );
    seen(
        |f| matches!(f, F::NotOnce { task: 0, .. }),
        |_, plan| {
            plan.tasks[0].as_mut().unwrap().portions[0].m2 -= 1.0;
        },
    );
    seen(
        |f| matches!(f, F::NotOnce { task: 2, .. }),
        |_, plan| {
            plan.tasks[2].as_mut().unwrap().portions.pop();
        },
    );
    seen(
        |f| matches!(f, F::OverNight { task: 2 }),
        |_, plan| {
            let portion = &mut plan.tasks[2].as_mut().unwrap().portions[1];
            (portion.begin, portion.end) = (at("2030-05-10T13:00"), at("2030-05-10T15:00"));
        },
    );
    seen(
        |f| matches!(f, F::Lost { task: 3 }),
        |_, plan| plan.tasks[3] = None,
    );
}
