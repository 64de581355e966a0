//! Who is busy when, and how much of the mix is taken: a row of steps in which work is put where it ends first.
//! Not here: which work comes first.

use crate::axis::Axis;
use crate::piece::{Need, Piece};
use crate::plan::Limit;
use crate::site::{Crew, Role};
use crate::supply::Supply;
use core::ops::Range;

/// The row of steps.
#[derive(Debug)]
pub(crate) struct Grid<'a> {
    axis: &'a Axis,
    supply: &'a Supply,
    crew: Crew,
    steps: Vec<Step>,
}

/// A step: the people who are at a place, one bit each, and the millilitres that are taken.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Step {
    pub(crate) busy: u64,
    pub(crate) flow: u64,
}

/// A piece with its time and its people.
#[derive(Debug, Clone)]
pub(crate) struct Placed {
    pub(crate) steps: Range<usize>,
    /// One bit each.
    pub(crate) hands: u64,
    /// One bit each.
    pub(crate) finishing: u64,
    /// Millilitres a step.
    pub(crate) flow: u64,
    pub(crate) limit: Limit,
}

/// What is left over a run of steps.
#[derive(Debug, Clone, Copy)]
struct Left {
    busy: u64,
    /// People of the pool who are not needed at the mixer or for carrying, at the worst step.
    spare: usize,
    flow: (u64, Limit),
}

/// Those who have a role, one bit each.
pub(crate) fn bits(crew: Crew, role: Role) -> u64 {
    let (first, people) = crew.who(role);
    let up_to = |end: usize| match u32::try_from(end) {
        Ok(end) if end < 64 => (1_u64 << end) - 1,
        _ => u64::MAX,
    };
    up_to(first.saturating_add(people)) & !up_to(first)
}

fn people(bits: u64) -> usize {
    crate::tolerance::number(u64::from(bits.count_ones()))
}

/// The lowest numbers of them.
pub(crate) fn lowest(mut from: u64, how_many: usize) -> u64 {
    let mut found = 0;
    for _ in 0..how_many {
        let lowest = from & from.wrapping_neg();
        found |= lowest;
        from &= !lowest;
    }
    found
}

fn highest(from: u64, how_many: usize) -> u64 {
    lowest(from.reverse_bits(), how_many).reverse_bits()
}

impl<'a> Grid<'a> {
    pub(crate) fn new(axis: &'a Axis, supply: &'a Supply, crew: Crew) -> Self {
        Self {
            axis,
            supply,
            crew,
            steps: Vec::new(),
        }
    }

    pub(crate) fn step(&self, step: usize) -> Step {
        self.steps.get(step).copied().unwrap_or_default()
    }

    /// How many steps were ever written to.
    pub(crate) fn len(&self) -> usize {
        self.steps.len()
    }

    /// Where the piece ends first, beginning at `from` or later: with the fewest people that reach that end, and
    /// among equal ends at the earliest begin.
    pub(crate) fn seek(&self, piece: &Piece, from: usize) -> Option<Placed> {
        let shortest = piece.shortest?;
        let mut best: Option<Placed> = None;
        let mut begin = from;
        while begin < self.axis.len() {
            if best
                .as_ref()
                .is_some_and(|best| begin + shortest >= best.steps.end)
            {
                break;
            }
            let day = if piece.pauses {
                begin..self.axis.len()
            } else {
                self.axis.rest_of_day(begin)
            };
            if begin + shortest > day.end {
                begin = day.end;
                continue;
            }
            if let Some(found) = self.soonest(piece, day)
                && best
                    .as_ref()
                    .is_none_or(|best| found.steps.end < best.steps.end)
            {
                best = Some(found);
            }
            begin += 1;
        }
        best
    }

    /// The fewest steps from the begin of this range in which the piece can be done.
    fn soonest(&self, piece: &Piece, day: Range<usize>) -> Option<Placed> {
        let pool = bits(self.crew, piece.pool);
        let others = bits(self.crew, Role::Finishing);
        let begin = day.start;
        let mut left = Left {
            busy: 0,
            spare: usize::MAX,
            flow: (u64::MAX, Limit::Hands),
        };
        for (step, need) in day.zip(&piece.needs) {
            left = self.less(left, step, piece.pool);
            let free = people(pool & !left.busy).min(left.spare);
            if free == 0 {
                return None;
            }
            let free = free.min(piece.most);
            let finishing = people(others & !left.busy);
            if need.hands > free || need.finishing > finishing || need.flow > left.flow.0 {
                continue;
            }
            let (_, limit) = piece.load.held(free, finishing, left.flow);
            let limit = piece.named(limit, self.crew, free);
            return Some(self.taken(piece, need, begin..step + 1, left, limit));
        }
        None
    }

    /// What is left when this step belongs to it too.
    fn less(&self, left: Left, step: usize, pool: Role) -> Left {
        let Step { busy, flow } = self.step(step);
        let free = |role| people(bits(self.crew, role) & !busy);
        let (most, limit) = self.supply.most(free(Role::Mixing), free(Role::Carrying));
        let flow_left = most.saturating_sub(flow);
        let spare = free(pool).saturating_sub(self.supply.needed(pool, flow));
        Left {
            busy: left.busy | busy,
            spare: left.spare.min(spare),
            flow: if flow_left < left.flow.0 {
                (flow_left, limit)
            } else {
                left.flow
            },
        }
    }

    fn taken(
        &self,
        piece: &Piece,
        need: &Need,
        steps: Range<usize>,
        left: Left,
        limit: Limit,
    ) -> Placed {
        let free = bits(self.crew, piece.pool) & !left.busy;
        // From the far end where the near one stands at the mixer, so that whoever mixes goes on mixing.
        let hands = match piece.pool {
            Role::Mixing | Role::Carrying => highest(free, need.hands),
            _ => lowest(free, need.hands),
        };
        let others = bits(self.crew, Role::Finishing) & !left.busy & !hands;
        Placed {
            steps,
            hands,
            finishing: lowest(others, need.finishing),
            flow: need.flow,
            limit,
        }
    }

    /// Writes it down.
    pub(crate) fn put(&mut self, placed: &Placed) {
        if self.steps.len() < placed.steps.end {
            self.steps.resize(placed.steps.end, Step::default());
        }
        for step in self.steps.get_mut(placed.steps.clone()).unwrap_or_default() {
            step.busy |= placed.hands | placed.finishing;
            step.flow = step.flow.saturating_add(placed.flow);
        }
    }

    /// Takes back what was put.
    pub(crate) fn take_back(&mut self, placed: &Placed) {
        for step in self.steps.get_mut(placed.steps.clone()).unwrap_or_default() {
            step.busy &= !(placed.hands | placed.finishing);
            step.flow = step.flow.saturating_sub(placed.flow);
        }
    }
}
