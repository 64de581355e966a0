//! Packages put on trucks: first fit, the largest first. Not here: which packages.

use crate::case::room_for;

/// So many packages of one kind that are to go on trucks.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Piece {
    /// What it is, for the caller.
    pub(crate) row: usize,
    /// Part of the truck's mass and volume that one takes.
    pub(crate) takes: [f64; 2],
    pub(crate) count: u64,
}

/// Trucks loaded alike.
#[derive(Debug, Clone)]
pub(crate) struct Trucks {
    pub(crate) times: u64,
    /// Kinds and how many of each on one truck.
    pub(crate) on: Vec<(usize, u64)>,
    taken: [f64; 2],
}

/// Most kinds for which every order is tried.
const ALL_ORDERS: usize = 4;

/// Loads the packages on few trucks.
///
/// First fit by several orders (largest first by either limit, by the tighter one, by both; every order when
/// there are at most four kinds), with and without loads that are known to go together; the fewest trucks
/// stand. That can be more than the fewest there are. Every package alone must fit.
pub(crate) fn pack(pieces: &[Piece], known: &[(u64, Vec<(usize, u64)>)]) -> Vec<Trucks> {
    let pieces: Vec<Piece> = pieces.iter().copied().filter(|p| p.count > 0).collect();
    let mut orders: Vec<Vec<Piece>> = Vec::new();
    let keys: [fn(&Piece) -> f64; 4] = [
        |p| p.takes[0].max(p.takes[1]),
        |p| p.takes[0] + p.takes[1],
        |p| p.takes[0],
        |p| p.takes[1],
    ];
    for key in keys {
        let mut order = pieces.clone();
        order.sort_by(|a, b| key(b).total_cmp(&key(a)));
        orders.push(order);
    }
    if pieces.len() <= ALL_ORDERS {
        every_order(&mut Vec::new(), &pieces, &mut orders);
    }
    let mut best: Option<Vec<Trucks>> = None;
    for order in &orders {
        for known in [&[], known] {
            let trucks = first_fit(order, known);
            if best
                .as_ref()
                .is_none_or(|best| count(&trucks) < count(best))
            {
                best = Some(trucks);
            }
        }
    }
    best.unwrap_or_default()
}

/// How many trucks.
pub(crate) fn count(trucks: &[Trucks]) -> u64 {
    trucks.iter().map(|t| t.times).sum()
}

fn every_order(first: &mut Vec<Piece>, rest: &[Piece], orders: &mut Vec<Vec<Piece>>) {
    if rest.is_empty() {
        orders.push(first.clone());
    }
    for (at, piece) in rest.iter().enumerate() {
        let mut others = rest.to_vec();
        others.remove(at);
        first.push(*piece);
        every_order(first, &others, orders);
        first.pop();
    }
}

fn first_fit(order: &[Piece], known: &[(u64, Vec<(usize, u64)>)]) -> Vec<Trucks> {
    let mut left = order.to_vec();
    let mut trucks: Vec<Trucks> = Vec::new();
    for (times, load) in known {
        for _ in 0..*times {
            let mut truck = Trucks::empty(1);
            for (row, count) in load {
                if let Some(piece) = left.iter_mut().find(|p| p.row == *row) {
                    let here = room_for(piece.takes, truck.taken)
                        .unwrap_or(u64::MAX)
                        .min(*count)
                        .min(piece.count);
                    truck.add(piece, here);
                    piece.count -= here;
                }
            }
            if truck.on.is_empty() {
                break;
            }
            match trucks.last_mut().filter(|last| last.on == truck.on) {
                Some(last) => last.times += 1,
                None => trucks.push(truck),
            }
        }
    }
    for piece in &left {
        let mut rest = piece.count;
        let mut at = 0;
        while rest > 0
            && let Some(group) = trucks.get_mut(at)
        {
            at += 1;
            let each = room_for(piece.takes, group.taken).unwrap_or(rest).min(rest);
            if each == 0 {
                continue;
            }
            let full = (rest / each).min(group.times);
            rest -= full * each;
            let untouched = group.times - full;
            group.times = full;
            let mut before = group.clone();
            group.add(piece, each);
            if untouched > 0 {
                before.times = untouched;
                trucks.insert(at, before);
            }
        }
        if rest > 0 {
            let each = room_for(piece.takes, [0.0; 2])
                .unwrap_or(rest)
                .clamp(1, rest);
            for (times, on) in [(rest / each, each), (1, rest % each)] {
                if times > 0 && on > 0 {
                    let mut truck = Trucks::empty(times);
                    truck.add(piece, on);
                    trucks.push(truck);
                }
            }
        }
    }
    trucks
}

impl Trucks {
    fn empty(times: u64) -> Self {
        Self {
            times,
            on: Vec::new(),
            taken: [0.0; 2],
        }
    }

    fn add(&mut self, piece: &Piece, count: u64) {
        if count == 0 {
            return;
        }
        match self.on.iter_mut().find(|(row, _)| *row == piece.row) {
            Some((_, there)) => *there += count,
            None => self.on.push((piece.row, count)),
        }
        for (taken, takes) in self.taken.iter_mut().zip(piece.takes) {
            #[allow(clippy::cast_precision_loss, reason = "counts are at most 10^15")]
            {
                *taken += takes * count as f64;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(pieces: &[(f64, f64, u64)], expected: u64) {
        let pieces: Vec<Piece> = pieces
            .iter()
            .enumerate()
            .map(|(row, (mass, volume, count))| Piece {
                row,
                takes: [*mass, *volume],
                count: *count,
            })
            .collect();
        let trucks = pack(&pieces, &[]);
        assert_eq!(count(&trucks), expected, "{pieces:?}");
        for piece in &pieces {
            let on: u64 = trucks
                .iter()
                .flat_map(|t| t.on.iter().map(move |(row, n)| (row, n * t.times)))
                .filter(|(row, _)| **row == piece.row)
                .map(|(_, n)| n)
                .sum();
            assert_eq!(on, piece.count);
        }
        for truck in &trucks {
            for side in 0..2 {
                let taken: f64 = truck
                    .on
                    .iter()
                    .map(|(row, n)| {
                        pieces[*row].takes[side] * f64::from(u32::try_from(*n).unwrap())
                    })
                    .sum();
                assert!(taken <= 1.0 + 1e-8, "{taken}");
            }
        }
    }

    #[test]
    fn trucks_worked_out_by_hand() {
        check(&[], 0);
        // Without limits all goes at once.
        check(&[(0.0, 0.0, 1000)], 1);
        // 40 bags of 25 kg on a truck for 1 t.
        check(&[(0.025, 0.0, 40)], 1);
        check(&[(0.025, 0.0, 41)], 2);
        // Loads of 5 on trucks of 6 are not split.
        check(&[(0.0, 5.0 / 6.0, 3)], 3);
        // What is left beside them takes small things.
        check(&[(0.0, 5.0 / 6.0, 3), (0.0, 1.0 / 6.0, 3)], 3);
        check(&[(0.0, 5.0 / 6.0, 3), (0.0, 1.0 / 6.0, 4)], 4);
        // 0.6 + 0.4 twice and 0.5 + 0.5 once.
        check(&[(0.6, 0.0, 2), (0.5, 0.0, 2), (0.4, 0.0, 2)], 3);
        // Heavy things and bulky things go together.
        check(&[(0.9, 0.1, 5), (0.1, 0.9, 5)], 5);
        // Many are grouped, not listed.
        check(&[(0.5, 0.0, 1_000_000)], 500_000);
    }

    #[test]
    fn loads_known_to_go_together_are_kept() {
        // By size: 0.45 + 0.45, 0.35 + 0.35, then 0.2 with each, 0.2 alone with what is left.
        let piece = |row, mass, count| Piece {
            row,
            takes: [mass, 0.0],
            count,
        };
        let pieces = [
            piece(0, 0.50, 1),
            piece(1, 0.34, 1),
            piece(2, 0.30, 1),
            piece(3, 0.26, 1),
            piece(4, 0.24, 1),
            piece(5, 0.20, 1),
            piece(6, 0.16, 1),
        ];
        // 0.50 + 0.34 + 0.16 and 0.30 + 0.26 + 0.24 + 0.20 are two full trucks.
        let known = [
            (1, vec![(0, 1), (1, 1), (6, 1)]),
            (1, vec![(2, 1), (3, 1), (4, 1), (5, 1)]),
        ];
        assert_eq!(count(&pack(&pieces, &known)), 2);
    }
}
