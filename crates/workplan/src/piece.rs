//! Tasks as they are planned: what each takes in hours and mix, how many people for how many quarters of an hour,
//! and what is too large for one day. Not here: when.

use crate::axis::Axis;
use crate::plan::Limit;
use crate::site::{Crew, Role, Site, Task, Work};
use crate::supply::Supply;
use crate::tolerance::{MOST_STEPS, STEPS_PER_HOUR, count, number, real, up};

/// A task, or a part of one that takes more than a day.
#[derive(Debug, Clone)]
pub(crate) struct Piece {
    pub(crate) task: usize,
    pub(crate) part: usize,
    pub(crate) parts: usize,
    /// Which coat, if it is one.
    pub(crate) coat: Option<usize>,
    pub(crate) pool: Role,
    pub(crate) load: Load,
    /// Most people of the pool that can be at it.
    pub(crate) most: usize,
    /// Whether it may be left at the end of a day and gone on with: preparing may, a coat leaves a joint.
    pub(crate) pauses: bool,
    /// What it takes when done in 1, 2, 3 … steps.
    pub(crate) needs: Vec<Need>,
    /// The fewest steps, with all people and all mix. None: it does not fit in a day.
    pub(crate) shortest: Option<usize>,
}

/// What is to be done, whoever does it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Load {
    /// Person-hours of the pool.
    pub(crate) hours: f64,
    /// Person-hours of finishing by others.
    pub(crate) finishing: f64,
    /// Millilitres of mix.
    pub(crate) ml: u64,
}

/// What must be there all the while.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Need {
    pub(crate) hands: usize,
    pub(crate) finishing: usize,
    /// Millilitres a step.
    pub(crate) flow: u64,
}

impl Load {
    /// Of a checked task.
    pub(crate) fn of(task: &Task, site: &Site) -> Self {
        let (coat, m2, litres) = match task.work {
            Work::Prepare { hours, .. } => {
                return Self {
                    hours,
                    finishing: 0.0,
                    ml: 0,
                };
            }
            Work::Coat {
                coat, m2, litres, ..
            } => (site.coats.get(coat), m2, litres),
        };
        let placing = coat.map_or(0.0, |coat| m2 / coat.placing);
        let finishing = coat
            .and_then(|coat| coat.finishing)
            .map_or(0.0, |rate| m2 / rate);
        let ml = up(litres * 1000.0).max(u64::from(litres > 0.0));
        match site.crew {
            Crew::Roles { .. } => Self {
                hours: placing,
                finishing,
                ml,
            },
            Crew::Everyone(_) => {
                let mixing = site.mixing.map_or(0.0, |mixing| {
                    litres * real(count(mixing.hands_each)) / mixing.litres_per_hour()
                });
                let carrying = site.carried_per_hour.map_or(0.0, |rate| litres / rate);
                Self {
                    hours: placing + finishing + mixing + carrying,
                    finishing: 0.0,
                    ml,
                }
            }
        }
    }

    fn part_of(self, parts: usize) -> Self {
        let parts = parts.max(1);
        Self {
            hours: self.hours / real(count(parts)),
            finishing: self.finishing / real(count(parts)),
            ml: self.ml.div_ceil(count(parts)),
        }
    }

    /// What it takes when done in so many steps, at least one.
    fn need(self, steps: usize) -> Need {
        let steps = count(steps.max(1));
        let people = |hours: f64| match number(up(hours * STEPS_PER_HOUR / real(steps))) {
            // However little it is, someone does it.
            0 if hours > 0.0 => 1,
            people => people,
        };
        Need {
            hands: people(self.hours),
            finishing: people(self.finishing),
            flow: self.ml.div_ceil(steps),
        }
    }

    /// Steps that it takes with so much, as real numbers, each with what holds it up; the longest first among equals
    /// in the order placing, finishing, mix.
    pub(crate) fn held(self, hands: usize, finishing: usize, flow: (u64, Limit)) -> (f64, Limit) {
        let steps = |hours: f64, people: usize| {
            if hours > 0.0 {
                hours * STEPS_PER_HOUR / real(count(people))
            } else {
                0.0
            }
        };
        let mix = if self.ml > 0 {
            real(self.ml) / real(flow.0)
        } else {
            0.0
        };
        let mut held = (steps(self.hours, hands), Limit::Hands);
        for other in [
            (steps(self.finishing, finishing), Limit::Finishing),
            (mix, flow.1),
        ] {
            if other.0 > held.0 {
                held = other;
            }
        }
        held
    }
}

/// Who does the work of a task at its place.
pub(crate) fn pool(task: &Task, site: &Site) -> Role {
    match (site.crew, &task.work) {
        (Crew::Everyone(_), _) => Role::Everything,
        (Crew::Roles { .. }, Work::Coat { .. }) => Role::Placing,
        (Crew::Roles { .. }, Work::Prepare { by, .. }) => match by {
            Role::Everything => Role::Placing,
            by => *by,
        },
    }
}

/// The tasks of a checked site as pieces, those of one task in a row.
pub(crate) fn pieces(site: &Site, axis: &Axis, supply: &Supply) -> Vec<Piece> {
    let mut found = Vec::new();
    for (at, task) in site.tasks.iter().enumerate() {
        let alone = piece(at, task, 1, site, axis, supply);
        if alone.shortest.is_some() || task.in_one_go {
            found.push(alone);
            continue;
        }
        let whole = number_of_days(&alone, site, axis, supply);
        let cut = whole.and_then(|least| {
            // One part more than the bare hours ask for may be needed, as people come in whole numbers.
            (least..=least.saturating_mul(2).saturating_add(2))
                .map(|parts| piece(at, task, parts, site, axis, supply))
                .find(|part| part.shortest.is_some())
        });
        let Some(first) = cut else {
            found.push(alone);
            continue;
        };
        found.extend((0..first.parts).map(|part| Piece {
            part,
            ..first.clone()
        }));
    }
    found
}

/// Most of everything for this piece: people, people finishing, mix.
fn most(piece: &Piece, site: &Site, supply: &Supply) -> (usize, usize, (u64, Limit)) {
    let people = |role| site.crew.who(role).1;
    (
        piece.most,
        people(Role::Finishing),
        supply.most(people(Role::Mixing), people(Role::Carrying)),
    )
}

/// The fewest days it can take. None: no number of days is enough, or it is beyond all days.
fn number_of_days(piece: &Piece, site: &Site, axis: &Axis, supply: &Supply) -> Option<usize> {
    let (hands, finishing, flow) = most(piece, site, supply);
    let (steps, _) = piece.load.held(hands, finishing, flow);
    let days = steps / real(count(axis.a_day()));
    (days.is_finite() && days <= real(count(crate::tolerance::MOST_DAYS)))
        .then(|| number(up(days)).max(2))
}

/// What keeps a piece from being done in a day, and the hours that it takes with all people.
pub(crate) fn too_large(piece: &Piece, site: &Site, supply: &Supply) -> (f64, Limit) {
    let (hands, finishing, flow) = most(piece, site, supply);
    let (steps, limit) = piece.load.held(hands, finishing, flow);
    (steps / STEPS_PER_HOUR, piece.named(limit, site.crew, hands))
}

/// Steps that it takes one person.
fn number_of_steps(hours: f64) -> usize {
    number(up(hours * STEPS_PER_HOUR))
}

fn piece(at: usize, task: &Task, parts: usize, site: &Site, axis: &Axis, supply: &Supply) -> Piece {
    let load = Load::of(task, site).part_of(parts);
    let pool = pool(task, site);
    let people = site.crew.who(pool).1;
    let most_hands = people.min(task.most_hands.unwrap_or(usize::MAX));
    let pauses = !task.in_one_go && matches!(task.work, Work::Prepare { .. });
    let slowest = number_of_steps(load.hours).clamp(axis.a_day(), MOST_STEPS.max(axis.a_day()));
    let most_steps = if pauses { slowest } else { axis.a_day() };
    let needs: Vec<_> = (1..=most_steps).map(|steps| load.need(steps)).collect();
    let mut piece = Piece {
        task: at,
        part: 0,
        parts,
        coat: match task.work {
            Work::Coat { coat, .. } => Some(coat),
            Work::Prepare { .. } => None,
        },
        pool,
        load,
        most: most_hands,
        pauses,
        needs,
        shortest: None,
    };
    let (hands, finishing, (flow, _)) = most(&piece, site, supply);
    let fits =
        |need: &Need| need.hands <= hands && need.finishing <= finishing && need.flow <= flow;
    piece.shortest = piece.needs.iter().position(fits).map(|at| at + 1);
    piece
}

impl Piece {
    /// What holds it up, in the words of its pool: hands that place, hands of all kinds, or the room for them.
    pub(crate) fn named(&self, limit: Limit, crew: Crew, hands: usize) -> Limit {
        match limit {
            Limit::Hands if hands == self.most && hands < crew.who(self.pool).1 => Limit::Room,
            Limit::Hands if self.pool == Role::Placing && self.coat.is_some() => Limit::Placing,
            other => other,
        }
    }
}
