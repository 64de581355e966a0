//! Random sites, always the same for a seed. Nothing else here.

use hodful_workplan::{After, Coat, Crew, Hours, Mixing, Preparing, Role, Side, Site, Task, Work};
use jiff::SignedDuration;
use jiff::civil::{DateTime, Time, Weekday, date, time};

/// `SplitMix64` (Steele, Lea, Flood, Fast splittable pseudorandom number generators, 2014, from memory).
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn word(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From `low` to `high`, both included.
    pub(crate) fn whole(&mut self, low: usize, high: usize) -> usize {
        let width = u64::try_from(high - low + 1).unwrap();
        low + usize::try_from(self.word() % width).unwrap()
    }

    fn real(&mut self, low: f64, high: f64) -> f64 {
        let share = f64::from(u32::try_from(self.word() >> 32).unwrap()) / f64::from(u32::MAX);
        low + share * (high - low)
    }

    fn chance(&mut self, one_in: usize) -> bool {
        self.whole(1, one_in) == 1
    }
}

/// A wait that depends on the task and never overtakes: what ends later is dry later.
pub(crate) fn drying(task: usize, end: DateTime) -> DateTime {
    let hours = i64::try_from(task * 37 % 61).unwrap();
    end.checked_add(SignedDuration::from_mins(hours * 60 + 7))
        .unwrap()
}

fn clock(quarter: usize) -> Time {
    let part = |n: usize| i8::try_from(n).unwrap();
    time(part(quarter / 4), part(quarter % 4 * 15), 0, 0)
}

fn hours(dice: &mut Dice) -> Hours {
    let from = dice.whole(24, 40);
    let to = dice.whole(from + 8, from + 50);
    let breaks = (0..dice.whole(0, 2))
        .map(|_| {
            let begin = dice.whole(from + 1, to - 4);
            (clock(begin), clock(begin + dice.whole(1, 3)))
        })
        .collect();
    let all = Weekday::Monday.cycle_forward().take(7);
    let mut weekdays: Vec<_> = all.filter(|_| !dice.chance(3)).collect();
    if weekdays.is_empty() {
        weekdays.push(Weekday::Saturday);
    }
    let days_off = (0..dice.whole(0, 3))
        .map(|_| date(2030, 5, i8::try_from(dice.whole(1, 31)).unwrap()))
        .collect();
    Hours {
        from: clock(from),
        to: clock(to.min(95)),
        breaks,
        weekdays,
        days_off,
    }
}

fn coat(dice: &mut Dice, number: usize) -> Coat {
    Coat {
        name: format!("coat {number}"),
        placing: dice.real(1.0, 6.0),
        finishing: dice.chance(3).then(|| dice.real(1.0, 9.0)),
        open_minutes: dice.chance(2).then(|| dice.real(10.0, 90.0)),
        source: "invented".into(),
    }
}

fn crew(dice: &mut Dice) -> Crew {
    if dice.chance(3) {
        return Crew::Everyone(dice.whole(1, 6));
    }
    let least = usize::from(!dice.chance(20));
    Crew::Roles {
        mixing: dice.whole(least, 3),
        carrying: dice.whole(1, 2),
        placing: dice.whole(1, 6),
        finishing: dice.whole(least, 3),
    }
}

pub(crate) fn site(seed: u64) -> Site {
    let dice = &mut Dice::new(seed);
    let coats: Vec<_> = (0..dice.whole(1, 3))
        .map(|number| coat(dice, number))
        .collect();
    let mut tasks: Vec<Task> = Vec::new();
    for number in 0..dice.whole(0, 2) {
        tasks.push(Task {
            name: format!("prepare {number}"),
            work: Work::Prepare {
                what: Preparing::Screening,
                hours: dice.real(0.2, 20.0),
                by: [Role::Mixing, Role::Carrying, Role::Placing, Role::Finishing]
                    [dice.whole(0, 3)],
            },
            after: vec![],
            most_hands: dice.chance(2).then(|| dice.whole(1, 3)),
            not_before: None,
            in_one_go: false,
        });
    }
    let prepared = tasks.len();
    for face in 0..dice.whole(1, 8) {
        let m2 = dice.real(0.5, 40.0);
        for number in 0..dice.whole(1, coats.len()) {
            let mut after = vec![];
            for task in 0..prepared {
                if dice.chance(2) {
                    after.push(After {
                        task,
                        hours: dice.real(0.0, 40.0),
                        dry: false,
                    });
                }
            }
            if number > 0 {
                after.push(After {
                    task: tasks.len() - 1,
                    hours: dice.real(0.0, 72.0),
                    dry: dice.chance(2),
                });
            }
            tasks.push(Task {
                name: format!("face {face}, coat {number}"),
                work: Work::Coat {
                    coat: number,
                    side: if dice.chance(2) {
                        Side::Inside
                    } else {
                        Side::Outside
                    },
                    m2,
                    litres: if dice.chance(8) {
                        0.0
                    } else {
                        m2 * dice.real(3.0, 40.0)
                    },
                },
                after,
                most_hands: dice.chance(2).then(|| dice.whole(1, 4)),
                not_before: dice.chance(6).then(|| {
                    let day = i8::try_from(dice.whole(1, 28)).unwrap();
                    date(2030, 6, day).at(9, 20, 0, 0)
                }),
                in_one_go: dice.chance(6),
            });
        }
    }
    Site {
        begins: date(2030, 5, i8::try_from(dice.whole(1, 28)).unwrap()),
        hours: hours(dice),
        crew: crew(dice),
        mixing: (!dice.chance(5)).then(|| Mixing {
            mixers: dice.whole(1, 2),
            hands_each: dice.whole(1, 2),
            litres_per_batch: dice.real(40.0, 200.0),
            minutes_per_batch: dice.real(8.0, 30.0),
        }),
        carried_per_hour: dice.chance(2).then(|| dice.real(100.0, 800.0)),
        coats,
        tasks,
    }
}
