//! Standard scales, their words and the bar under a drawing. Not here: choosing one.

use super::{At, Dash, Hold, LETTERS, Mark};
use crate::letters::{CAPITAL, Letters, Weight};
use hodful_quantities::print::UnitSystem;

/// A scale of drawings.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Scale {
    /// Millimetres drawn in one of the page.
    pub(super) ratio: f64,
    /// As it is said: `Scale 1:50`.
    pub(super) words: String,
}

/// The standard scales, the largest first. Metric ones are those of ISO 5455:1979 (from memory), from
/// twice the size; those in feet and inches are the scales of an architect's rule (common practice, no
/// source), and tens of feet to the inch beyond.
pub(super) fn all(units: UnitSystem) -> Vec<Scale> {
    match units {
        UnitSystem::Metric => metric(),
        UnitSystem::Us => us(),
    }
}

fn metric() -> Vec<Scale> {
    let mut scales = vec![Scale {
        ratio: 0.5,
        words: "Scale 2:1".into(),
    }];
    let mut ten = 1_u32;
    for _ in 0..6 {
        for step in [1, 2, 5] {
            let ratio = step * ten;
            scales.push(Scale {
                ratio: f64::from(ratio),
                words: format!("Scale 1:{ratio}"),
            });
        }
        ten *= 10;
    }
    scales
}

fn us() -> Vec<Scale> {
    let rule = [
        (0.5, "Twice full size"),
        (1.0, "Full size"),
        (2.0, "6\" = 1'"),
        (4.0, "3\" = 1'"),
        (8.0, "1 1/2\" = 1'"),
        (12.0, "1\" = 1'"),
        (16.0, "3/4\" = 1'"),
        (24.0, "1/2\" = 1'"),
        (32.0, "3/8\" = 1'"),
        (48.0, "1/4\" = 1'"),
        (64.0, "3/16\" = 1'"),
        (96.0, "1/8\" = 1'"),
        (128.0, "3/32\" = 1'"),
        (192.0, "1/16\" = 1'"),
    ];
    let mut scales: Vec<Scale> = rule
        .into_iter()
        .map(|(ratio, words)| Scale {
            ratio,
            words: if ratio > 1.0 {
                format!("Scale {words} (1:{ratio})")
            } else {
                words.to_owned()
            },
        })
        .collect();
    let mut ten = 10_u32;
    for _ in 0..5 {
        for step in [2, 5, 10] {
            let feet = step * ten;
            let ratio = feet * 12;
            scales.push(Scale {
                ratio: f64::from(ratio),
                words: format!("Scale 1\" = {feet}' (1:{ratio})"),
            });
        }
        ten *= 10;
    }
    scales
}

/// Height of the bar, mm.
const HIGH: f64 = 1.2;

/// Least and most length of one part of the bar, mm.
const PART: [f64; 2] = [8.0, 24.0];

/// The length of one part of the bar, mm of the thing, and its words.
fn part(scale: &Scale, units: UnitSystem) -> (f64, [String; 3]) {
    let fits = |mm: f64| mm / scale.ratio >= PART[0] && mm / scale.ratio <= PART[1];
    let steps: Vec<(f64, [String; 3])> = match units {
        UnitSystem::Metric => decades(1.0)
            .map(|mm| {
                let (per, unit) = if 2.0 * mm < 1000.0 {
                    (1.0, "mm")
                } else {
                    (1000.0, "m")
                };
                let of = |parts: f64| format!("{}", mm * parts / per);
                (mm, ["0".into(), of(1.0), format!("{} {unit}", of(2.0))])
            })
            .collect(),
        UnitSystem::Us => {
            let inches = [0.25, 0.5, 1.0, 3.0, 6.0].into_iter().map(|inch| {
                let of = |parts: f64| format!("{}", inch * parts);
                let words = ["0".into(), of(1.0), format!("{} in", of(2.0))];
                (inch * 25.4, words)
            });
            let feet = decades(1.0).map(|feet| {
                let of = |parts: f64| format!("{}", feet * parts);
                let words = ["0".into(), of(1.0), format!("{} ft", of(2.0))];
                (feet * 304.8, words)
            });
            inches.chain(feet).collect()
        }
    };
    let found = steps.iter().find(|(mm, _)| fits(*mm));
    found
        .or(steps.last())
        .cloned()
        .unwrap_or((scale.ratio, Default::default()))
}

/// 1, 2, 5, 10, 20 … of something.
fn decades(first: f64) -> impl Iterator<Item = f64> {
    (0..8).flat_map(move |power| {
        let ten: f64 = (0..power).map(|_| 10.0).product();
        [1.0, 2.0, 5.0].map(|step| first * step * ten)
    })
}

/// Width of the bar with its words, mm.
pub(super) fn bar_width(scale: &Scale, units: UnitSystem, letters: &Letters) -> f64 {
    let (mm, words) = part(scale, units);
    let last = words.last().map_or("", String::as_str);
    let last = letters.width(last, Weight::Regular) * LETTERS;
    let said = letters.width(&scale.words, Weight::Regular) * LETTERS;
    2.0 + 2.0 * mm / scale.ratio + last + 5.0 + said
}

/// The bar, under a place; gives the height it takes, mm.
pub(super) fn bar(
    scale: &Scale,
    units: UnitSystem,
    [left, top]: At,
    letters: &Letters,
    marks: &mut Vec<Mark>,
) -> f64 {
    let (mm, words) = part(scale, units);
    let long = mm / scale.ratio;
    let (left, top) = (left + 1.0, top + 3.0);
    let base = top + LETTERS * CAPITAL;
    let bar = base + 1.0;
    let block =
        |from: f64, to: f64| vec![[from, bar], [to, bar], [to, bar + HIGH], [from, bar + HIGH]];
    let (middle, right) = (left + long, left + 2.0 * long);
    marks.push(Mark::Area {
        ring: block(left, middle),
        grey: 0.0,
    });
    marks.push(Mark::Line {
        points: block(left, right),
        closed: true,
        width: 0.18,
        dash: Dash::Whole,
    });
    for (at, text) in [left, middle, right].into_iter().zip(words) {
        // The last carries the unit: its number stands over its end as the others do.
        let number = text.split(' ').next().unwrap_or_default();
        let half = letters.width(number, Weight::Regular) * LETTERS / 2.0;
        marks.push(Mark::Words {
            at: [(at - half).max(left - 1.0), base],
            text,
            size: LETTERS,
            hold: Hold::Left,
            upright: false,
        });
    }
    let last = letters.width("0 mm", Weight::Regular) * LETTERS;
    marks.push(Mark::Words {
        at: [right + last + 3.0, bar + HIGH],
        text: scale.words.clone(),
        size: LETTERS,
        hold: Hold::Left,
        upright: false,
    });
    bar + HIGH + 0.5 - (top - 3.0)
}
