//! Reads a plan off the row of steps: portions, stints, days. Not here: where anything is put.

use crate::axis::hours_between;
use crate::grid::{Placed, lowest};
use crate::piece::Piece;
use crate::plan::{Day, Mix, Notice, Portion, Stint, TaskPlan};
use crate::schedule::{Ground, Outcome};
use crate::site::{Crew, Role, Task};
use crate::tolerance::{STEPS_PER_HOUR, count, real, up};
use crate::wet_edge;
use jiff::civil::Date;

type Pair<'a> = (&'a Piece, &'a Placed);

fn pairs<'a>(ground: &'a Ground<'_>, outcome: &'a Outcome) -> impl Iterator<Item = Pair<'a>> {
    let placed = outcome.placed.iter();
    let pairs = ground.pieces.iter().zip(placed);
    pairs.filter_map(|(piece, placed)| placed.as_ref().map(|placed| (piece, placed)))
}

/// The tasks that were placed, in their order.
pub(crate) fn tasks(ground: &Ground<'_>, outcome: &Outcome) -> Vec<Option<TaskPlan>> {
    let mut own: Vec<Vec<Pair<'_>>> = vec![Vec::new(); ground.site.tasks.len()];
    for (piece, placed) in pairs(ground, outcome) {
        if let Some(own) = own.get_mut(piece.task) {
            own.push((piece, placed));
        }
    }
    let each = ground.site.tasks.iter().zip(own).enumerate();
    each.map(|(number, (task, own))| one(number, task, &own, ground, outcome))
        .collect()
}

fn one(
    number: usize,
    task: &Task,
    own: &[Pair<'_>],
    ground: &Ground<'_>,
    outcome: &Outcome,
) -> Option<TaskPlan> {
    let done = outcome.done.get(number).copied().flatten()?;
    let portions: Vec<_> = own
        .iter()
        .flat_map(|pair| portions(task, *pair, ground))
        .collect();
    let begin = portions.first()?.begin;
    let (piece, placed) = own.first()?;
    let working: f64 = portions.iter().map(|p| hours_between(p.begin, p.end)).sum();
    let coat = piece.coat.and_then(|coat| ground.site.coats.get(coat));
    let batch = ground.site.mixing.map(|mixing| mixing.litres_per_batch);
    Some(TaskPlan {
        begin,
        end: done.end,
        dry: done.dry,
        hours: portions
            .iter()
            .map(|p| real(count(p.hands + p.finishing)) * hours_between(p.begin, p.end))
            .sum(),
        batches: batch.map_or(0, |batch| up(task.litres() / batch)),
        limit: placed.limit,
        wet_edge: coat
            .and_then(|coat| coat.open_minutes)
            .map(|minutes| wet_edge(task.m2() / working, minutes)),
        portions,
    })
}

fn people(bits: u64) -> usize {
    crate::tolerance::number(u64::from(bits.count_ones()))
}

/// A piece from break to break, its surface and mix shared out by time.
fn portions(task: &Task, (piece, placed): Pair<'_>, ground: &Ground<'_>) -> Vec<Portion> {
    let all = real(count(placed.steps.len())) * real(count(piece.parts));
    let runs = ground.axis.runs(placed.steps.clone());
    runs.into_iter()
        .map(|(steps, begin, end)| {
            let share = real(count(steps.len())) / all;
            Portion {
                begin,
                end,
                part: piece.part,
                m2: task.m2() * share,
                litres: task.litres() * share,
                hands: people(placed.hands),
                finishing: people(placed.finishing),
            }
        })
        .collect()
}

/// Who is where: at the tasks, at the mixer, carrying.
pub(crate) fn stints(ground: &Ground<'_>, outcome: &Outcome) -> Vec<Stint> {
    let mut found = Vec::new();
    for (piece, placed) in pairs(ground, outcome) {
        for (bits, role) in [
            (placed.hands, piece.pool),
            (placed.finishing, Role::Finishing),
        ] {
            for (_, begin, end) in ground.axis.runs(placed.steps.clone()) {
                let stint = |person| Stint {
                    person,
                    begin,
                    end,
                    task: Some(piece.task),
                    role,
                };
                found.extend(persons(bits).map(stint));
            }
        }
    }
    // Where all do everything, those at the face mix and carry as they go.
    if matches!(ground.site.crew, Crew::Roles { .. }) {
        for role in [Role::Mixing, Role::Carrying] {
            at_the_mixer(role, ground, outcome, &mut found);
        }
    }
    found.sort_unstable();
    found
}

fn persons(bits: u64) -> impl Iterator<Item = usize> {
    (0..crate::tolerance::MOST_PEOPLE).filter(move |&person| bits >> person & 1 == 1)
}

/// The people of a role who serve all that is placed, step by step; one who goes on is one stint.
fn at_the_mixer(role: Role, ground: &Ground<'_>, outcome: &Outcome, found: &mut Vec<Stint>) {
    let all = crate::grid::bits(ground.site.crew, role);
    let mut open: Vec<Option<Stint>> = vec![None; crate::tolerance::MOST_PEOPLE];
    for (number, step) in outcome.crew.iter().enumerate() {
        let free = all & !step.busy;
        let uncounted = role == Role::Carrying && !ground.supply.counts_carriers();
        let at_it = if uncounted && step.flow > 0 {
            free
        } else {
            lowest(
                free,
                ground.supply.needed(role, step.flow).min(people(free)),
            )
        };
        let Some((begin, end)) = ground.axis.times(number) else {
            break;
        };
        for (person, open) in open.iter_mut().enumerate() {
            let there = at_it >> person & 1 == 1;
            match open {
                Some(stint) if there && stint.end == begin => stint.end = end,
                _ => {
                    found.extend(open.take());
                    *open = there.then_some(Stint {
                        person,
                        begin,
                        end,
                        task: None,
                        role,
                    });
                }
            }
        }
    }
    found.extend(open.into_iter().flatten());
}

/// The days on which something is done.
pub(crate) fn days(ground: &Ground<'_>, tasks: &[Option<TaskPlan>], stints: &[Stint]) -> Vec<Day> {
    let mut portions: Vec<(usize, &Portion)> = tasks
        .iter()
        .enumerate()
        .flat_map(|(number, task)| {
            let portions = task.iter().flat_map(|task| &task.portions);
            portions.map(move |portion| (number, portion))
        })
        .collect();
    portions.sort_by_key(|(number, portion)| (portion.begin, *number));
    let mut worked: Vec<(Date, f64)> = stints
        .iter()
        .map(|stint| (stint.begin.date(), hours_between(stint.begin, stint.end)))
        .collect();
    worked.sort_by_key(|&(date, _)| date);
    let there =
        real(count(ground.axis.a_day())) / STEPS_PER_HOUR * real(count(ground.site.crew.people()));
    portions
        .chunk_by(|(_, a), (_, b)| a.begin.date() == b.begin.date())
        .filter_map(|of_day| {
            let date = of_day.first()?.1.begin.date();
            let from = worked.partition_point(|&(day, _)| day < date);
            let worked: f64 = worked
                .iter()
                .skip(from)
                .take_while(|&&(day, _)| day == date)
                .map(|&(_, hours)| hours)
                .sum();
            Some(Day {
                date,
                tasks: of_day.iter().fold(Vec::new(), |mut tasks, &(task, _)| {
                    if !tasks.contains(&task) {
                        tasks.push(task);
                    }
                    tasks
                }),
                mixes: mixes(ground, of_day),
                worked,
                idle: (there - worked).max(0.0),
            })
        })
        .collect()
}

fn mixes(ground: &Ground<'_>, of_day: &[(usize, &Portion)]) -> Vec<Mix> {
    let site = ground.site;
    let mut litres = vec![0.0; site.coats.len()];
    for (task, portion) in of_day {
        let coat = site.tasks.get(*task).and_then(Task::coat);
        if let Some(litres) = coat.and_then(|coat| litres.get_mut(coat)) {
            *litres += portion.litres;
        }
    }
    let needed = litres
        .into_iter()
        .enumerate()
        .filter(|&(_, litres)| litres > 0.0);
    needed
        .map(|(coat, litres)| Mix {
            coat,
            litres,
            batches: site
                .mixing
                .map_or(0, |mixing| up(litres / mixing.litres_per_batch)),
        })
        .collect()
}

/// What should be known of tasks that are planned.
pub(crate) fn notices(ground: &Ground<'_>, tasks: &[Option<TaskPlan>]) -> Vec<Notice> {
    let mut found = Vec::new();
    for piece in ground.pieces.iter().filter(|piece| piece.part == 0) {
        let Some(plan) = tasks.get(piece.task).and_then(Option::as_ref) else {
            continue;
        };
        let task = piece.task;
        if piece.parts > 1 {
            found.push(Notice::Joint {
                task,
                parts: piece.parts,
                hands: ground.hands_for_a_day(task),
            });
        }
        let m2 = ground.site.tasks.get(task).map_or(0.0, Task::m2);
        if let Some(edge) = plan.wet_edge.filter(|&edge| edge < m2) {
            found.push(Notice::LosesWetEdge { task, m2: edge });
        }
    }
    found
}
