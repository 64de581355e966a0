//! Parts for people: shares of loose volume as small numbers of buckets. Not here: finding a blend.

use core::fmt;

use super::figures::Blend;
use super::model::Model;
use super::tolerance::ROUNDED_SHIFT;

/// Finest step: a twelfth of the largest part (common practice, no source).
const FINEST: u32 = 12;

/// How many materials are tried both rounded down and up; the others are rounded to the nearest.
const TRIED_BOTH_WAYS: usize = 8;

/// Parts by loose volume that can be counted out, and what they come to.
#[derive(Debug, Clone, PartialEq)]
pub struct Rounded {
    /// Steps of each material, in the order of the candidates.
    pub steps: Vec<u32>,
    /// How many steps make one part.
    pub steps_per_part: u32,
    /// The blend that these parts make; it keeps the target, or misses no limit by more than the blend that
    /// was rounded.
    pub blend: Box<Blend>,
}

impl fmt::Display for Rounded {
    /// As `2 : 1 : ½`, every candidate in its place.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let one = self.steps_per_part.max(1);
        for (i, steps) in self.steps.iter().enumerate() {
            if i > 0 {
                f.write_str(" : ")?;
            }
            let (whole, over) = (steps / one, steps % one);
            let over = match (over * 4).checked_div(one) {
                _ if over == 0 => "",
                Some(1) => "¼",
                Some(2) => "½",
                _ => "¾",
            };
            if whole > 0 || over.is_empty() {
                write!(f, "{whole}{over}")?;
            } else {
                f.write_str(over)?;
            }
        }
        Ok(())
    }
}

impl Model {
    /// The coarsest steps that keep every limit (or miss none by more than the blend does) and shift no more
    /// than a twentieth of the blend; of equally coarse ones the nearest.
    pub(super) fn rounded(&self, blend: &Blend) -> Option<Rounded> {
        let volume_parts = &blend.volume_parts;
        let largest = volume_parts.iter().copied().fold(0.0, f64::max);
        if largest <= 0.0 {
            return None;
        }
        for finest in 1..=FINEST {
            let exact = |v: &f64| v / largest * f64::from(finest);
            let exact: Vec<f64> = volume_parts.iter().map(exact).collect();
            for steps in choices(&exact) {
                let parts: Vec<f64> = steps.iter().map(|s| f64::from(*s)).collect();
                if let Some(shares) = self.mass_shares(&parts)
                    && self.keeps(&shares, &blend.mass_shares)
                {
                    let blend = Box::new(self.blend_as_is(&shares));
                    let (steps, steps_per_part) = spelled(&steps);
                    return Some(Rounded {
                        steps,
                        steps_per_part,
                        blend,
                    });
                }
            }
        }
        None
    }
}

/// Whole steps for exact ones, each rounded down or up, nearest first; a material that is used keeps a step.
fn choices(exact: &[f64]) -> Vec<Vec<u32>> {
    let mut choices = vec![Vec::with_capacity(exact.len())];
    let mut both_ways = 0;
    for value in exact {
        let (down, up) = (value.floor(), value.ceil());
        let mut ways = vec![if value - down <= up - value { down } else { up }];
        // What stands on a step but for rounding of sums has no other way.
        if (value - value.round()).abs() > f64::from(FINEST) * 4.0 * f64::EPSILON
            && both_ways < TRIED_BOTH_WAYS
        {
            both_ways += 1;
            ways = vec![down, up];
        }
        if *value > 0.0 {
            for way in &mut ways {
                *way = way.max(1.0);
            }
            ways.dedup();
        }
        choices = choices
            .into_iter()
            .flat_map(|so_far: Vec<f64>| {
                ways.iter().map(move |way| {
                    let mut longer = so_far.clone();
                    longer.push(*way);
                    longer
                })
            })
            .collect();
    }
    let whole: f64 = exact.iter().sum();
    let mut ranked: Vec<(f64, Vec<f64>)> = choices
        .into_iter()
        .map(|steps| {
            let sum: f64 = steps.iter().sum();
            let shift = steps
                .iter()
                .zip(exact)
                .map(|(s, e)| (s / sum - e / whole).abs());
            (shift.sum::<f64>() / 2.0, steps)
        })
        .filter(|(shift, _)| *shift <= ROUNDED_SHIFT)
        .collect();
    ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "whole numbers from 0 to FINEST"
    )]
    let counted = |steps: Vec<f64>| steps.into_iter().map(|s| s as u32).collect();
    ranked
        .into_iter()
        .map(|(_, steps)| counted(steps))
        .collect()
}

/// The steps without what divides them all, and how many to call one part so that the numbers are small and few of
/// them broken: halves and quarters only, and those below one count as worse (common practice, no source).
fn spelled(steps: &[u32]) -> (Vec<u32>, u32) {
    let common = steps.iter().copied().fold(0, gcd).max(1);
    let steps: Vec<u32> = steps.iter().map(|s| s / common).collect();
    let badness = |one: u32| {
        let each = steps.iter().map(|s| {
            let broken = match (s % one) * 4 % (one * 4) {
                0 => 0,
                over if over == one * 2 => 4,
                over if over == one || over == one * 3 => 8,
                _ => return None,
            };
            let below_one = if broken > 0 && *s < one { 4 } else { 0 };
            // In quarters of a part.
            Some(s * 4 / one + broken + below_one)
        });
        each.sum::<Option<u32>>()
    };
    let ones = steps.iter().copied().filter(|s| *s > 0);
    let best = ones
        .chain([1])
        .filter_map(|one| Some((badness(one)?, one)))
        .min()
        .map_or(1, |(_, one)| one);
    (steps, best)
}

fn gcd(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { gcd(b, a % b) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(steps: &[u32], words: &str) {
        let (steps, steps_per_part) = spelled(steps);
        let blend = Box::new(Blend {
            mass_shares: vec![],
            volume_parts: vec![],
            bought: vec![],
            rounded: None,
            figures: vec![],
            cost: None,
            binding: vec![],
            missing: vec![],
        });
        let rounded = Rounded {
            steps,
            steps_per_part,
            blend,
        };
        assert_eq!(rounded.to_string(), words);
    }

    #[test]
    fn parts_are_spelled_in_small_numbers() {
        check(&[4, 2, 1], "2 : 1 : ½");
        check(&[2, 3], "1 : 1½");
        check(&[2, 5], "1 : 2½");
        check(&[4, 7], "1 : 1¾");
        check(&[3, 6], "1 : 2");
        check(&[2, 1], "2 : 1");
        check(&[3, 5], "3 : 5");
        check(&[1, 12], "1 : 12");
        check(&[0, 6, 4], "0 : 1½ : 1");
        check(&[4, 0, 9], "1 : 0 : 2¼");
    }

    #[test]
    fn a_used_material_keeps_a_step_and_large_shifts_are_not_offered() {
        // 1 : 40 by one step each way would shift half of the blend.
        assert!(choices(&[0.025, 1.0]).is_empty());
        assert_eq!(choices(&[0.4, 12.0]).first(), Some(&vec![1, 12]));
        assert_eq!(choices(&[1.2, 3.0]), vec![vec![1, 3]]);
        assert_eq!(choices(&[8.4, 12.0]), vec![vec![8, 12], vec![9, 12]]);
    }
}
