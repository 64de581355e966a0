//! Plans of random sites, one JSON object a line: networks without a shortage of hands, and small sites with one.
//! For reference libraries to work out anew; read by `tests/crosscheck/workplan.py`. Not here: any judgement of them.
//!
//! `cargo run --release -p hodful-workplan --example plans`

use hodful_workplan::{
    After, Bounds, Crew, Hours, Mixing, Plan, Preparing, Role, Side, Site, Task, Work, example,
    plan,
};
use jiff::civil::{DateTime, Weekday, date, time};
use serde_json::{Value, json};
use std::io::{self, Write};

type Outcome<T> = Result<T, Box<dyn std::error::Error>>;

fn main() -> Outcome<()> {
    let mut out = io::BufWriter::new(io::stdout().lock());
    for seed in 0..200 {
        writeln!(out, "{}", network(seed)?)?;
    }
    for seed in 0..60 {
        writeln!(out, "{}", small(seed)?)?;
    }
    out.flush()?;
    Ok(())
}

/// `SplitMix64` (Steele, Lea, Flood, Fast splittable pseudorandom number generators, 2014, from memory).
struct Dice(u64);

impl Dice {
    /// From `low` to `high`, both included.
    fn whole(&mut self, low: u32, high: u32) -> u32 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        let width = u64::from(high - low + 1);
        low + u32::try_from((z ^ (z >> 31)) % width).unwrap_or(0)
    }

    fn size(&mut self, low: u32, high: u32) -> usize {
        usize::try_from(self.whole(low, high)).unwrap_or(0)
    }

    fn chance(&mut self, one_in: u32) -> bool {
        self.whole(1, one_in) == 1
    }
}

fn told(site: &Site, plan: &Plan) -> Value {
    let bounds = plan.bounds.map(
        |Bounds { chain, work, .. }| json!({"chain": chain.to_string(), "work": work.to_string()}),
    );
    let text = |time: DateTime| time.to_string();
    let tasks: Vec<_> = site
        .tasks
        .iter()
        .zip(&plan.tasks)
        .map(|(task, planned)| {
            let after: Vec<_> = task
                .after
                .iter()
                .map(|a| json!([a.task, a.hours]))
                .collect();
            let mut told = json!({
                "after": after,
                "most": task.most_hands,
                "begin": planned.as_ref().map(|p| text(p.begin)),
                "end": planned.as_ref().map(|p| text(p.end)),
            });
            match &task.work {
                Work::Coat { m2, litres, .. } => {
                    told["m2"] = json!(m2);
                    told["litres"] = json!(litres);
                }
                Work::Prepare { hours, .. } => told["hours"] = json!(hours),
            }
            told
        })
        .collect();
    let breaks: Vec<_> = site
        .hours
        .breaks
        .iter()
        .map(|(a, b)| json!([a.to_string(), b.to_string()]))
        .collect();
    let weekdays: Vec<_> = site
        .hours
        .weekdays
        .iter()
        .map(|day| day.to_monday_zero_offset())
        .collect();
    json!({
        "begins": site.begins.to_string(),
        "from": site.hours.from.to_string(),
        "to": site.hours.to.to_string(),
        "breaks": breaks,
        "weekdays": weekdays,
        "days_off": site.hours.days_off.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "tasks": tasks,
        "end": plan.end().map(text),
        "bounds": bounds,
        "chain": plan.chain.iter().map(|link| link.task).collect::<Vec<_>>(),
    })
}

/// Up to thirty jobs of one person each, with enough people for all, in random working hours.
fn network(seed: u64) -> Outcome<Value> {
    let dice = &mut Dice(seed);
    // Half of them in one long day, with waits of nothing: the bare longest path.
    let bare = seed.is_multiple_of(2);
    let mut site = Site {
        begins: date(2030, 5, i8::try_from(dice.whole(1, 28))?),
        crew: Crew::Everyone(32),
        ..example()
    };
    site.hours = if bare {
        Hours {
            from: time(0, 0, 0, 0),
            to: time(23, 45, 0, 0),
            breaks: vec![],
            weekdays: Weekday::Monday.cycle_forward().take(7).collect(),
            days_off: vec![],
        }
    } else {
        let noon = i8::try_from(dice.whole(11, 13))?;
        let mut weekdays: Vec<_> = Weekday::Monday.cycle_forward().take(7).collect();
        weekdays.retain(|_| !dice.chance(3));
        weekdays.push(Weekday::Tuesday);
        Hours {
            from: time(i8::try_from(dice.whole(6, 9))?, 15, 0, 0),
            to: time(i8::try_from(dice.whole(15, 18))?, 45, 0, 0),
            breaks: vec![(time(noon, 0, 0, 0), time(noon, 30, 0, 0))],
            weekdays,
            days_off: vec![date(2030, 5, i8::try_from(dice.whole(1, 31))?)],
        }
    };
    site.tasks.clear();
    for number in 0..dice.size(5, 30) {
        let mut after = vec![];
        // At most eleven jobs of six steps in a row fit in the one long day.
        let first = if bare { number / 3 * 3 } else { number };
        for before in 0..first {
            if dice.chance(4) {
                let hours = if bare {
                    0.0
                } else {
                    f64::from(dice.whole(0, 160)) / 4.0
                };
                after.push(After {
                    task: before,
                    hours,
                    dry: false,
                });
            }
        }
        site.tasks.push(Task {
            name: format!("job {number}"),
            work: Work::Prepare {
                what: Preparing::Background,
                hours: f64::from(dice.whole(1, if bare { 6 } else { 20 })) / 4.0,
                by: Role::Everything,
            },
            after,
            most_hands: Some(1),
            not_before: None,
            in_one_go: true,
        });
    }
    let plan = plan(&site, &mut |_, end| end)?;
    let mut told = told(&site, &plan);
    told["kind"] = json!("network");
    told["seed"] = json!(seed);
    told["bare"] = json!(bare);
    Ok(told)
}

/// A few faces with one to three coats, a small crew, and a mixer that is often short.
fn small(seed: u64) -> Outcome<Value> {
    let dice = &mut Dice(1_000_000 + seed);
    let mut site = example();
    site.hours.from = time(8, 0, 0, 0);
    site.hours.to = time(14, 0, 0, 0);
    site.hours.breaks.clear();
    site.hours.weekdays = Weekday::Monday.cycle_forward().take(7).collect();
    site.crew = Crew::Roles {
        mixing: 1,
        carrying: 1,
        placing: dice.size(2, 5),
        finishing: 0,
    };
    site.carried_per_hour = None;
    site.mixing = Some(Mixing {
        mixers: 1,
        hands_each: 1,
        litres_per_batch: 60.0,
        minutes_per_batch: f64::from(dice.whole(2, 6)) * 5.0,
    });
    site.coats.truncate(1);
    site.coats[0].placing = f64::from(dice.whole(4, 8)) / 2.0;
    site.tasks.clear();
    for face in 0..dice.whole(2, 3) {
        let m2 = f64::from(dice.whole(3, 11));
        let coats = dice.whole(1, 2);
        for coat in 0..coats {
            let after = (coat > 0)
                .then(|| After {
                    task: site.tasks.len() - 1,
                    hours: f64::from(dice.whole(0, 100)) / 4.0,
                    dry: false,
                })
                .into_iter()
                .collect();
            site.tasks.push(Task {
                name: format!("face {face}, coat {coat}"),
                work: Work::Coat {
                    coat: 0,
                    side: Side::Inside,
                    m2,
                    litres: m2 * f64::from(dice.whole(2, 35)),
                },
                after,
                most_hands: dice.chance(2).then(|| dice.size(2, 3)),
                not_before: None,
                in_one_go: true,
            });
        }
    }
    let plan = plan(&site, &mut |_, end| end)?;
    let mut told = told(&site, &plan);
    told["kind"] = json!("small");
    told["seed"] = json!(seed);
    told["people"] = json!(site.crew.people() - 2);
    told["placing"] = json!(site.coats[0].placing);
    told["litres_per_hour"] = json!(site.mixing.map(|mixing| mixing.litres_per_hour()));
    told["unplanned"] = json!(plan.unplanned.len());
    Ok(told)
}
