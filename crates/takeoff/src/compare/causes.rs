//! What makes the difference of a figure between two projects: terms that add up to it.
//!
//! Between surfaces and the order every figure is a chain of products, sums and, at the end, a rounding
//! up. The inputs are taken in groups, each from one project or the other, and every group is told by its
//! Shapley value: what it changes on the average over all orders in which the groups can be exchanged. So
//! the terms add up, and no order is preferred. The rounding up stands beside them as a term of its own, and so does
//! what the yard covers of a need that is another.
//! Source of the value: L. S. Shapley, A value for n-person games, 1953 (from memory).
//!
//! Not here: the chain itself (see `chain`).

use super::chain::{Chain, GROUPS, Group, PARTS, Part};
use super::{Line, One, table};

/// What makes a difference.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Cause {
    /// Walls, openings, and which build-up is on which face.
    Surface,
    /// Rounded edges, corners, coves: what a coat takes there beside its flat surface.
    Edges,
    /// Dubbing out, with lath and pockets.
    DubbingOut,
    /// Coats added or left out.
    Coats,
    /// Thickness of coats.
    Thickness,
    /// Shrinkage.
    Shrinkage,
    /// Loss.
    Loss,
    /// Which mix, its parts, doses and water.
    Mix,
    /// Yield of the mix.
    Yield,
    /// Moisture and bulking of what is delivered.
    Damp,
    /// What the screen holds back and what is lost lying.
    Screen,
    /// What lies in the yard.
    Stock,
    /// What of a need that is another lies in the yard, and so need not be bought.
    Covered,
    /// Packages and prices: what a unit comes to in the packages that are chosen.
    Prices,
    /// What a load of the mixer holds.
    Mixer,
    /// Whole packages and whole loads.
    RoundingUp,
}

/// One term of a difference.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Term {
    /// What makes it.
    pub cause: Cause,
    /// How much more the other has because of it, in base units.
    pub amount: f64,
}

/// A difference with what makes it.
#[derive(Debug, Clone, PartialEq)]
pub struct Causes {
    /// The value of the one.
    pub from: f64,
    /// The value of the other.
    pub to: f64,
    /// Terms that add up to the difference, in the order of the chain; none that is nothing.
    pub terms: Vec<Term>,
}

/// Two projects, aligned once for all that makes their differences.
#[derive(Debug)]
pub struct Pair<'o> {
    a: &'o One<'o>,
    b: &'o One<'o>,
    chain: Chain,
}

/// As [`Pair::causes`], of one line alone.
pub fn causes(a: &One<'_>, b: &One<'_>, line: &Line) -> Option<Causes> {
    Pair::new(a, b).causes(line)
}

impl<'o> Pair<'o> {
    /// Aligns two.
    pub fn new(a: &'o One<'o>, b: &'o One<'o>) -> Self {
        Self {
            a,
            b,
            chain: Chain::between(a, b),
        }
    }

    /// What makes the difference of a line between them; `None` where it cannot be told on a side, or
    /// where there is no chain to it: trips and what suppliers charge; and where a material has no density on
    /// one side and is priced by mass on the other; and of packages of unlike kinds, whose counts have no difference.
    pub fn causes(&self, line: &Line) -> Option<Causes> {
        if matches!(line, Line::Trips | Line::Bought) {
            return None;
        }
        if !table::are_alike(&table::bought(line, self.a), &table::bought(line, self.b)) {
            return None;
        }
        let (from, to) = (table::value(line, self.a)?, table::value(line, self.b)?);
        if matches!(line, Line::Surface | Line::Payment) {
            let term = Term {
                cause: Cause::Surface,
                amount: to - from,
            };
            let terms = Some(term).filter(|term| term.amount != 0.0);
            return Some(Causes {
                from,
                to,
                terms: terms.into_iter().collect(),
            });
        }
        along(&self.chain, line, from, to)
    }
}

/// What makes a difference that a chain leads to.
fn along(chain: &Chain, line: &Line, from: f64, to: f64) -> Option<Causes> {
    let active = chain.active(line);
    // The value of the chain for every choice of sides, by bits of the active groups.
    let count = 1_usize << active.len();
    let values: Vec<[f64; PARTS]> = (0..count)
        .map(|choice| chain.value(line, &sides(&active, choice)))
        .collect::<Option<_>>()?;
    let first = values.first()?;
    let last = values.last()?;
    let mut terms: Vec<Term> = Vec::new();
    let mut add =
        |cause: Cause, amount: f64| match terms.iter_mut().find(|term| term.cause == cause) {
            Some(term) => term.amount += amount,
            None => terms.push(Term { cause, amount }),
        };
    for (bit, group) in active.iter().enumerate() {
        let shares = shapley(&values, active.len(), bit);
        for (part, share) in Part::ALL.into_iter().zip(shares) {
            add(cause(*group, part), share);
        }
    }
    let sum = |value: &[f64; PARTS]| value.iter().sum::<f64>();
    if matches!(line, Line::Packages(_) | Line::Batches | Line::Cost) {
        add(Cause::RoundingUp, (to - sum(last)) - (from - sum(first)));
    }
    terms.retain(|term| term.amount != 0.0);
    terms.sort_by_key(|term| term.cause);
    terms
        .iter()
        .all(|term| term.amount.is_finite())
        .then_some(Causes { from, to, terms })
}

/// The side of every group for a choice among the active ones.
fn sides(active: &[Group], choice: usize) -> [bool; GROUPS] {
    let mut sides = [false; GROUPS];
    for (bit, group) in active.iter().enumerate() {
        if let Some(side) = sides.get_mut(*group as usize) {
            *side = choice & (1 << bit) != 0;
        }
    }
    sides
}

/// The Shapley value of one of `players`, by part: over all sets without it, what it adds, weighted by in
/// how many of the orders just that set comes before it.
fn shapley(values: &[[f64; PARTS]], players: usize, bit: usize) -> [f64; PARTS] {
    let mut weights = Vec::with_capacity(players);
    // 1 / (n · C(n − 1, size)).
    let mut weight = 1.0 / count(players);
    for size in 0..players {
        weights.push(weight);
        let (done, left) = (size + 1, players.saturating_sub(size + 1));
        weight *= count(done) / count(left.max(1));
    }
    let mut shares = [0.0; PARTS];
    for (choice, without) in values.iter().enumerate() {
        if choice & (1 << bit) != 0 {
            continue;
        }
        let size = choice.count_ones() as usize;
        let (Some(with), Some(weight)) = (values.get(choice | (1 << bit)), weights.get(size))
        else {
            continue;
        };
        for (share, (with, without)) in shares.iter_mut().zip(with.iter().zip(without)) {
            *share += weight * (with - without);
        }
    }
    shares
}

/// A small count as a number.
fn count(of: usize) -> f64 {
    u32::try_from(of).map_or(f64::NAN, f64::from)
}

/// What a change of a group is called where it changes a part.
fn cause(group: Group, part: Part) -> Cause {
    match (group, part) {
        (Group::Stock, _) => Cause::Stock,
        (Group::Prices, _) => Cause::Prices,
        (_, Part::Stock) => Cause::Covered,
        (Group::Surface | Group::Thickness, Part::Edges) => Cause::Edges,
        (Group::Surface, _) => Cause::Surface,
        (Group::DubbingOut, _) => Cause::DubbingOut,
        (Group::Coats, _) => Cause::Coats,
        (Group::Thickness, _) => Cause::Thickness,
        (Group::Shrinkage, _) => Cause::Shrinkage,
        (Group::Loss, _) => Cause::Loss,
        (Group::Mix, _) => Cause::Mix,
        (Group::Yield, _) => Cause::Yield,
        (Group::Damp, _) => Cause::Damp,
        (Group::Screen, _) => Cause::Screen,
        (Group::Mixer, _) => Cause::Mixer,
    }
}

#[cfg(test)]
#[allow(clippy::cast_precision_loss, reason = "small counts")]
mod tests {
    use super::*;

    /// The average over all orders, worked out order by order.
    fn by_orders(values: &[[f64; PARTS]], players: usize) -> Vec<[f64; PARTS]> {
        fn go(
            values: &[[f64; PARTS]],
            left: &[usize],
            set: usize,
            sums: &mut [[f64; PARTS]],
            orders: &mut f64,
        ) {
            if left.is_empty() {
                *orders += 1.0;
            }
            for (at, player) in left.iter().enumerate() {
                let mut rest = left.to_vec();
                rest.remove(at);
                // Each of the orders that go on from here has this step once.
                let ways: usize = (1..=rest.len()).product();
                let with = set | (1 << player);
                for part in 0..PARTS {
                    let step = values[with][part] - values[set][part];
                    sums[*player][part] += step * ways as f64;
                }
                go(values, &rest, with, sums, orders);
            }
        }
        let mut sums = vec![[0.0; PARTS]; players];
        let mut orders = 0.0;
        let all: Vec<usize> = (0..players).collect();
        go(values, &all, 0, &mut sums, &mut orders);
        for sum in sums.iter_mut().flatten() {
            *sum /= orders;
        }
        sums
    }

    /// The glove game of three: two left gloves, one right one (a textbook example): 1/6, 1/6, 4/6.
    #[test]
    fn the_glove_game() {
        let worth = |set: usize| {
            let right = set & 4 != 0 && set & 3 != 0;
            [f64::from(u8::from(right)), 0.0, 0.0, 0.0]
        };
        let values: Vec<_> = (0..8).map(worth).collect();
        let of = |bit| shapley(&values, 3, bit)[0];
        assert!((of(0) - 1.0 / 6.0).abs() < 1e-15);
        assert!((of(1) - 1.0 / 6.0).abs() < 1e-15);
        assert!((of(2) - 4.0 / 6.0).abs() < 1e-15);
    }

    #[test]
    fn it_is_the_average_over_all_orders() {
        for players in 1..=5 {
            let values: Vec<[f64; PARTS]> = (0..1_usize << players)
                .map(|set| {
                    let x = set as f64;
                    [x * x, (x * 7.3) % 3.1, 1.0 / (1.0 + x), x % 5.0]
                })
                .collect();
            let orders = by_orders(&values, players);
            for (bit, expected) in orders.iter().enumerate() {
                let found = shapley(&values, players, bit);
                for (a, b) in found.iter().zip(expected) {
                    assert!((a - b).abs() < 1e-9 * (1.0 + b.abs()), "{players} {bit}");
                }
            }
        }
    }
}
