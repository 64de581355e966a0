//! Half ellipses: their length, and the band and the edge of a splayed elliptical head.
//!
//! Circles are in the module above.

use core::f64::consts::{FRAC_PI_2, PI};

use super::quadrature::{around, gauss};
use super::{Band, Spread};

/// Length of half an ellipse in millimetres, from end to end of the axis `2a`; `b` is the other semi-axis.
///
/// By the arithmetic-geometric mean. Source: NIST Digital Library of Mathematical Functions, 19.8.6 and 19.30.
#[expect(
    clippy::many_single_char_names,
    reason = "the letters are the formula's own"
)]
pub(crate) fn half_ellipse_arc(a: f64, b: f64) -> f64 {
    let (mut x, mut y) = (a.max(b), a.min(b));
    let mut sum = x * x - (x * x - y * y) / 2.0;
    let mut weight = 0.5;
    // The mean doubles its digits at each step; forty would do for any two numbers.
    for _ in 0..40 {
        let c = (x - y) / 2.0;
        let mean = f64::midpoint(x, y);
        y = (x * y).sqrt();
        x = mean;
        weight *= 2.0;
        sum -= weight * c * c;
        if c <= x * f64::EPSILON {
            break;
        }
    }
    PI * sum / x
}

/// The edge between a face and an elliptical head whose slope changes along it: means over its length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct MeanEdge {
    /// Mean turn in radians.
    pub(crate) turn: f64,
    /// Mean of the tangent of half the turn.
    pub(crate) half_tan: f64,
}

/// Intrados of an elliptical head whose semi-axes grow evenly over the depth.
///
/// Square: arc × depth. Splayed: the surface integral by Gauss quadrature over the depth and, along the arc, by the trapezoid
/// rule on the eccentric angle, whose step is halved until the area settles. Jamb and head meet without a fold.
#[expect(
    clippy::many_single_char_names,
    reason = "the letters are the formula's own"
)]
pub(crate) fn elliptical_band(a: f64, b: f64, spread: &Spread) -> Band {
    let Spread {
        depth,
        jamb_tan: p,
        head_tan: q,
        ..
    } = *spread;
    if p <= 0.0 && q <= 0.0 {
        return Band {
            area: half_ellipse_arc(a, b) * depth,
            turning: -PI * depth,
            ..Band::default()
        };
    }
    let [area, turning] = around(|cosine, sine| {
        let mut sums = [0.0; 2];
        for (at, weight) in gauss() {
            let t = depth * at;
            let (x, y) = (a + t * p, b + t * q);
            let slope = x * q * sine * sine + y * p * cosine * cosine;
            let w = (y * y * cosine * cosine + x * x * sine * sine + slope * slope).sqrt();
            let cross = sine * cosine;
            // First and second fundamental forms of the surface; the mean curvature is their quotient.
            let e = p * p * cosine * cosine + q * q * sine * sine + 1.0;
            let f = cross * (q * y - p * x);
            let twist = cross * (q * x - p * y);
            let [area, turning] = &mut sums;
            *area += weight * depth * w;
            *turning -= weight * depth * (x * y * e + 2.0 * twist * f) / (w * w);
        }
        sums
    });
    Band {
        area,
        turning,
        ..Band::default()
    }
}

/// The edge of a splayed elliptical head: the slope of the reveal changes from that of the jambs to that of the head.
#[expect(
    clippy::many_single_char_names,
    reason = "the letters are the formula's own"
)]
pub(crate) fn elliptical_edge(a: f64, b: f64, spread: &Spread) -> MeanEdge {
    let (p, q) = (spread.jamb_tan, spread.head_tan);
    let (x, y) = (a + spread.depth * p, b + spread.depth * q);
    let [length, turn, half_tan] = around(|cosine, sine| {
        let speed = (y * y * cosine * cosine + x * x * sine * sine).sqrt();
        let slope = (x * q * sine * sine + y * p * cosine * cosine) / speed;
        [
            speed,
            speed * (FRAC_PI_2 - libm::atan(slope)),
            // tan(45° − θ/2) for tan θ = slope.
            speed / ((1.0 + slope * slope).sqrt() + slope),
        ]
    });
    MeanEdge {
        turn: turn / length,
        half_tan: half_tan / length,
    }
}

#[cfg(test)]
#[expect(
    clippy::disallowed_methods,
    reason = "an oracle takes its trigonometry from elsewhere than the code it checks"
)]
mod tests {
    use super::super::{Segment, circular_band};
    use super::*;

    #[track_caller]
    fn check(value: f64, expected: f64, slack: f64) {
        assert!((value - expected).abs() <= slack, "{value}, not {expected}");
    }

    /// Abramowitz and Stegun, table 17.1: the complete integral of the second kind E(m) is 1.35064 38810 for m = ½ and
    /// 1.10477 47327 for m = 0.9. Half an ellipse of semi-axes 1 and √(1 − m) is 2E long.
    #[test]
    fn published_ellipse_arcs() {
        check(
            half_ellipse_arc(1.0, 0.5_f64.sqrt()),
            2.0 * 1.350_643_881_0,
            1e-9,
        );
        check(
            half_ellipse_arc(1.0, 0.1_f64.sqrt()),
            2.0 * 1.104_774_732_7,
            1e-9,
        );
        // The axes change places: half the ellipse either way.
        check(
            half_ellipse_arc(0.1_f64.sqrt(), 1.0),
            2.0 * 1.104_774_732_7,
            1e-9,
        );
        check(half_ellipse_arc(500.0, 500.0), PI * 500.0, 1e-10);
        // Flat as a board it runs out and back.
        check(half_ellipse_arc(1.0, 1e-9), 2.0, 1e-12);
    }

    /// A circle seen as an ellipse is a cone; the two ways to its band agree, and the edge turns evenly.
    #[test]
    fn a_round_ellipse_is_a_cone() {
        let spread = Spread {
            depth: 200.0,
            jamb_tan: 0.35_f64.tan(),
            jamb_secant: 1.0 / 0.35_f64.cos(),
            head_tan: 0.35_f64.tan(),
            head_secant: 1.0 / 0.35_f64.cos(),
        };
        let frame = Segment {
            half: 450.0,
            rise: 450.0,
        };
        let cone = circular_band(frame, &spread);
        let other = elliptical_band(450.0, 450.0, &spread);
        check(other.area / cone.area, 1.0, 1e-12);
        check(other.turning / cone.turning, 1.0, 1e-12);
        let edge = elliptical_edge(450.0, 450.0, &spread);
        check(edge.turn, FRAC_PI_2 - 0.35, 1e-12);
        check(edge.half_tan, ((FRAC_PI_2 - 0.35) / 2.0).tan(), 1e-12);
        // Where nothing moves out the means are those of a square edge.
        let square = elliptical_edge(
            450.0,
            200.0,
            &Spread {
                depth: 200.0,
                jamb_tan: 0.0,
                jamb_secant: 1.0,
                head_tan: 0.0,
                head_secant: 1.0,
            },
        );
        check(square.turn, FRAC_PI_2, 1e-12);
        check(square.half_tan, 1.0, 1e-12);
    }
}
