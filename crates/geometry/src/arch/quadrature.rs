//! Numerical integrals: Gauss over a unit length, and the trapezoid rule around an arc.
//!
//! What is integrated is not known here.

use core::f64::consts::{FRAC_PI_2, PI};

use crate::tolerance::SETTLED;

/// Integral over half a turn of a function of cosine and sine that is even about both ends of each quarter.
pub(super) fn around<const N: usize>(f: impl Fn(f64, f64) -> [f64; N]) -> [f64; N] {
    const MOST: u32 = 4096;
    let at = |i: u32, n: u32| {
        let angle = FRAC_PI_2 * f64::from(i) / f64::from(n);
        f(libm::cos(angle), libm::sin(angle))
    };
    let add = |sum: &mut [f64; N], more: [f64; N], weight: f64| {
        for (s, m) in sum.iter_mut().zip(more) {
            *s += weight * m;
        }
    };
    let mut n = 16;
    let mut sum = [0.0; N];
    add(&mut sum, at(0, 1), 0.5);
    add(&mut sum, at(1, 1), 0.5);
    for i in 1..n {
        add(&mut sum, at(i, n), 1.0);
    }
    loop {
        let before = sum.map(|s| s * PI / f64::from(n));
        for i in 0..n {
            add(&mut sum, at(2 * i + 1, 2 * n), 1.0);
        }
        n *= 2;
        let now = sum.map(|s| s * PI / f64::from(n));
        let settled = before
            .iter()
            .zip(now)
            .all(|(old, new)| (old - new).abs() <= SETTLED * new.abs());
        if settled || n >= MOST {
            return now;
        }
    }
}

/// Half of the places in −1..1, and their weights, of sixteen-point Gauss quadrature.
///
/// Source: Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4, n = 16.
const HALF: [(f64, f64); 8] = [
    (0.095_012_509_837_637_44, 0.189_450_610_455_068_5),
    (0.281_603_550_779_258_9, 0.182_603_415_044_923_6),
    (0.458_016_777_657_227_4, 0.169_156_519_395_002_54),
    (0.617_876_244_402_643_7, 0.149_595_988_816_576_73),
    (0.755_404_408_355_003, 0.124_628_971_255_533_87),
    (0.865_631_202_387_831_7, 0.095_158_511_682_492_78),
    (0.944_575_023_073_232_6, 0.062_253_523_938_647_89),
    (0.989_400_934_991_649_9, 0.027_152_459_411_754_095),
];

/// Places in 0..1 and weights of sixteen-point Gauss quadrature.
pub(super) fn gauss() -> impl Iterator<Item = (f64, f64)> {
    HALF.into_iter()
        .flat_map(|(x, w)| [((1.0 - x) / 2.0, w / 2.0), (f64::midpoint(1.0, x), w / 2.0)])
}

/// Integrals over a unit length of functions that may begin and end like a square root: sixteen-point Gauss quadrature in s,
/// with t = s²(3 − 2s) for the place, which is slow at both ends. `f` gets the place and its weight.
pub(super) fn gauss_smooth<const N: usize>(f: impl Fn(f64, f64) -> [f64; N]) -> [f64; N] {
    const PLACES: [(f64, f64); 16] = smooth();
    let terms = PLACES.map(|(t, dt)| f(t, dt));
    terms.iter().fold([0.0; N], |mut sums, terms| {
        for (sum, term) in sums.iter_mut().zip(terms) {
            *sum += term;
        }
        sums
    })
}

const fn smooth() -> [(f64, f64); 16] {
    let mut places = [(0.0, 0.0); 16];
    let mut i = 0;
    while i < 16 {
        let (x, w) = HALF[i / 2];
        let s = if i % 2 == 0 {
            (1.0 - x) / 2.0
        } else {
            f64::midpoint(1.0, x)
        };
        places[i] = (s * s * (3.0 - 2.0 * s), 3.0 * w * s * (1.0 - s));
        i += 1;
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Sixteen points are exact to the 31st power: one wrong digit in the table would show.
    #[test]
    fn gauss_is_exact_for_powers() {
        for power in 0..32 {
            let sum: f64 = gauss().map(|(x, w)| w * x.powi(power)).sum();
            let exact = 1.0 / f64::from(power + 1);
            assert!((sum - exact).abs() <= 2e-15, "{power}: {sum}");
        }
    }
}
