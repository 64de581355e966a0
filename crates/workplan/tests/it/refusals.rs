//! Each reason why a site is refused, with its words. Not here: sites that are taken.

use crate::after;
use hodful_workplan::{Crew, Side, Site, Work, example, refusals};
use jiff::civil::time;

type Case = (fn(&mut Site), &'static str);

#[test]
fn each_refusal() {
    let cases: [Case; 16] = [
        (
            |s| s.hours.from = time(8, 10, 0, 0),
            "08:10:00 is not on a quarter of an hour; the plan goes in quarters, give 08:00 or the next",
        ),
        (
            |s| s.hours.breaks = vec![(time(7, 0, 0, 0), time(18, 0, 0, 0))],
            "from 08:00:00 to 17:00:00 less the breaks no quarter of an hour is left to work in; give a longer day or fewer breaks",
        ),
        (
            |s| s.hours.weekdays.clear(),
            "no day of the week is worked; give one at least",
        ),
        (
            |s| s.crew = Crew::Everyone(0),
            "nobody is in the crew; give one person at least",
        ),
        (
            |s| s.crew = Crew::Everyone(65),
            "a crew of 65 is more than the 64 that can be planned for; plan it as two crews",
        ),
        (
            |s| s.mixing.as_mut().unwrap().mixers = 0,
            "the number of mixers of 'mixing' is 0; give 1 or more",
        ),
        (
            |s| s.mixing.as_mut().unwrap().hands_each = 0,
            "the people at a mixer of 'mixing' is 0; give 1 or more",
        ),
        (
            |s| s.mixing.as_mut().unwrap().minutes_per_batch = 0.0,
            "the minutes of a batch of 'mixing' is 0; give a number above 0 and up to 10000000",
        ),
        (
            |s| s.coats[0].placing = f64::NAN,
            "the rate of placing of 'base' is NaN; give a number above 0 and up to 10000000",
        ),
        (
            |s| s.coats[1].finishing = Some(-1.0),
            "the rate of finishing of 'finish' is -1; give a number above 0 and up to 10000000",
        ),
        (
            |s| {
                s.tasks[0].work = Work::Coat {
                    coat: 2,
                    side: Side::Inside,
                    m2: 1.0,
                    litres: 0.0,
                }
            },
            "'north wall, base coat' has coat number 2, but there are only 2",
        ),
        (
            |s| {
                s.tasks[0].work = Work::Coat {
                    coat: 0,
                    side: Side::Inside,
                    m2: 1.0,
                    litres: -2.0,
                }
            },
            "the mixed volume of 'north wall, base coat' is -2; give 0 or more, up to 10000000",
        ),
        (
            |s| s.tasks[0].most_hands = Some(0),
            "the most people of 'north wall, base coat' is 0; give 1 or more",
        ),
        (
            |s| s.tasks[0].after = vec![after(9, 0.0)],
            "'north wall, base coat' comes after task number 9, but there are only 4",
        ),
        (
            |s| s.tasks[0].after = vec![after(1, -1.0)],
            "the wait before of 'north wall, base coat' is -1; give 0 or more, up to 10000000",
        ),
        (
            |s| s.tasks[0].after = vec![after(2, 0.0)],
            "'north wall, base coat', 'north wall, finish coat' wait for each other, so that none can begin; take one of their 'after' away",
        ),
    ];
    for (change, words) in cases {
        let mut site = example();
        change(&mut site);
        let told: Vec<_> = refusals(&site).iter().map(ToString::to_string).collect();
        assert_eq!(told, [words]);
    }
}

/// All at once, not the first alone.
#[test]
fn all_of_them() {
    let mut site = example();
    site.hours.weekdays.clear();
    site.crew = Crew::Everyone(0);
    site.coats[0].placing = 0.0;
    assert_eq!(refusals(&site).len(), 3);
}
