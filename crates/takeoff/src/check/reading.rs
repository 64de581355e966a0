//! How finely a number was read, by how it was typed. Not here: what is read.

use hodful_quantities::Measure;
use hodful_quantities::read::Amount;

/// Half the width of what was read, in units of its last place: a number that is read or counted to a last place is
/// off by half of that at most, and by anything less as likely.
const HALF_A_UNIT: f64 = 0.5;

/// Of a count of whole things, as a share of it: `u = a/√3` of a value that lies anywhere within `±a` (JCGM
/// 100:2008, 4.3.7), with half of one thing for `a`.
pub(crate) fn of_count(count: f64) -> f64 {
    HALF_A_UNIT / count / 3.0_f64.sqrt()
}

/// Of a volume as it was typed, as a share of it: the last place of each number in it was read, so that `660 L` is
/// off by half a litre at most and `0.66 m3` by five (JCGM 100:2008, 4.3.7 and F.2.2.1, the resolution of what is
/// read). Of several numbers the variances add up (5.1.2). 0 where no place can be told.
pub(crate) fn of_volume(text: &str, volume: f64) -> f64 {
    let read = |text: &str| match Amount::read(text).ok()? {
        Amount::Volume(volume) => Some(volume.value),
        _ => None,
    };
    let units = numbers(text).filter_map(|(from, to)| {
        let (before, number) = (text.get(..from)?, text.get(from..to)?);
        let next = format!("{before}{}{}", one_less(number)?, text.get(to..)?);
        Some(volume - read(&next)?)
    });
    let widths = units.map(|unit| HALF_A_UNIT * unit / volume);
    let squares = widths.fold(0.0, |sum, half| sum + half * half / 3.0);
    if squares.is_finite() {
        squares.sqrt()
    } else {
        0.0
    }
}

/// From where to where the numbers of a text are that were read: not powers of units, lower halves of fractions, and
/// whole ones before a fraction.
fn numbers(text: &str) -> impl Iterator<Item = (usize, usize)> {
    let is_number =
        |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '\u{a0}' | '\u{2009}' | '\u{202f}');
    let mut all: Vec<(usize, usize)> = Vec::new();
    for (at, c) in text.char_indices().filter(|(_, c)| is_number(*c)) {
        match all.last_mut() {
            Some((_, to)) if *to == at => *to = at + c.len_utf8(),
            _ => all.push((at, at + c.len_utf8())),
        }
    }
    let is_read = |(at, (from, to)): &(usize, (usize, usize))| {
        let before = text.get(..*from).unwrap_or_default();
        let is_power = before.ends_with(|c: char| c.is_alphabetic() || c == '^');
        let is_lower = before.trim_end().ends_with(['/', '\u{2044}']);
        let next = all.get(at + 1).and_then(|(next, _)| text.get(*to..*next));
        let is_whole = next.is_some_and(|between| between.trim().is_empty());
        !(is_power || is_lower || is_whole)
    };
    let kept: Vec<_> = all.iter().copied().enumerate().filter(is_read).collect();
    kept.into_iter().map(|(_, span)| span)
}

/// A number with one less in its last place; `None` of nothing.
fn one_less(number: &str) -> Option<String> {
    let mut digits: Vec<char> = number.chars().collect();
    for digit in digits.iter_mut().rev() {
        match digit.to_digit(10) {
            Some(0) => *digit = '9',
            Some(value) => {
                *digit = char::from_digit(value - 1, 10)?;
                return Some(digits.into_iter().collect());
            }
            None => {}
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Half of the last place over √3, as a share, each worked by hand; 1 yd³ is 27 ft³.
    #[test]
    fn the_last_place_was_read() {
        let third = 3.0_f64.sqrt();
        for (text, litres, half) in [
            ("660 L", 660.0, 0.5),
            ("0.66 m3", 660.0, 5.0),
            ("660.0 L", 660.0, 0.05),
            ("9 L", 9.0, 0.5),
            ("99.9 L", 99.9, 0.05),
            ("100 L", 100.0, 0.5),
            ("1\u{202f}038 L", 1038.0, 0.5),
            // As volumes are printed.
            ("1\u{a0}038 L", 1038.0, 0.5),
            ("2 1/2 m3", 2500.0, 250.0),
            // Six of 20 L, off by half of one and by half a litre each.
            ("6 * 20 L", 120.0, libm::hypot(10.0, 3.0)),
            // Two that are added, each off by half a litre.
            ("100 L + 50 L", 150.0, 0.5 * 2.0_f64.sqrt()),
        ] {
            let found = of_volume(text, litres * 1.0e6);
            let expected = half / litres / third;
            let off = (found / expected - 1.0).abs();
            assert!(off < 1e-9, "{text}: {found} is not {expected}");
        }
        assert!((of_count(4.0) - 0.125 / third).abs() < 1e-15);
        assert!(of_volume("much", 1.0) == 0.0);
    }
}
