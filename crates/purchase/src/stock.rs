//! What lies on site from phase to phase: whether it lasts, and the latest buying that lasts. Not here: prices.

use crate::case::Wanted;
use crate::tolerance::{CHECK_SLACK, COUNT_SLACK};
use hodful_quantities::order::round_up;

/// Goods on site by the phase they came in, in shares of the whole need.
struct Site<'a> {
    wanted: &'a Wanted,
    left: Vec<f64>,
}

impl<'a> Site<'a> {
    fn new(wanted: &'a Wanted) -> Self {
        Self {
            wanted,
            left: vec![0.0; wanted.by_phase.len()],
        }
    }

    /// Uses up what can serve a phase, what goes off first before the rest; gives what is lacking.
    ///
    /// This order is the best one: of two lots on site, the one with the earlier day can serve only
    /// phases that the other one can serve too, and a lot without a day can serve all.
    fn use_up(&mut self, phase: usize, need: f64) -> f64 {
        let mut lots: Vec<usize> = (0..=phase)
            .filter(|lot| self.wanted.serves(*lot, phase))
            .collect();
        lots.sort_by_key(|lot| {
            let day = self.wanted.days.get(*lot).copied().flatten();
            (day.is_none(), day, *lot)
        });
        let mut lacking = need;
        for lot in lots {
            if let Some(left) = self.left.get_mut(lot) {
                let used = left.min(lacking);
                *left -= used;
                lacking -= used;
            }
        }
        lacking
    }

    fn put(&mut self, phase: usize, amount: f64) {
        if let Some(left) = self.left.get_mut(phase) {
            *left += amount;
        }
    }
}

/// Whether every phase has what it needs, with what is bought by phase, in shares of the whole need.
pub(crate) fn lasts(wanted: &Wanted, bought: &[f64], largest: f64) -> bool {
    let mut site = Site::new(wanted);
    // Each of the earlier phases may have used its own slack.
    let slack = 2.0 * COUNT_SLACK + CHECK_SLACK * largest;
    wanted.by_phase.iter().enumerate().all(|(phase, need)| {
        site.put(phase, bought.get(phase).copied().unwrap_or(0.0));
        site.use_up(phase, *need) <= slack
    })
}

/// How many of one package to buy in each phase when everything is bought as late as can be: the fewest in
/// all, since what is bought later keeps longer. `None` past counting.
pub(crate) fn just_in_time(wanted: &Wanted, share: f64) -> Option<Vec<u64>> {
    let mut site = Site::new(wanted);
    let mut counts = Vec::new();
    for (phase, need) in wanted.by_phase.iter().enumerate() {
        let lacking = site.use_up(phase, *need);
        // The slack of the whole need, as in the rows of the programme.
        let lacking_packages = (lacking - COUNT_SLACK * need) / share;
        let count = round_up(lacking_packages)?;
        #[allow(clippy::cast_precision_loss, reason = "round_up counts to 10^15")]
        site.put(phase, count as f64 * share);
        site.use_up(phase, lacking);
        counts.push(count);
    }
    Some(counts)
}
