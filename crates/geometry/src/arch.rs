//! Arcs and the pieces they cut off: circular segments, and the band a splayed arched head sweeps. Half ellipses are in
//! `arch/ellipse.rs`, the numerical integrals in `arch/quadrature.rs`.
//!
//! Pure formulas of one arch. Where it sits in a wall and what it does to the face is not known here.

mod curve;
mod ellipse;
mod quadrature;

use core::f64::consts::FRAC_PI_2;

pub(crate) use curve::Curve;
pub(crate) use ellipse::{elliptical_band, elliptical_edge, half_ellipse_arc};

use crate::tolerance::{SAME_RATIO, SMALL_ANGLE};
use quadrature::gauss_smooth;

/// A circular segment of at most a half circle.
///
/// Source: International Correspondence Schools, The Building Trades Pocketbook, mensuration (which gives approximations of
/// these; see the tests).
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Segment {
    /// Half the chord, in millimetres.
    pub(crate) half: f64,
    /// Rise of the arc over the chord, in millimetres.
    pub(crate) rise: f64,
}

impl Segment {
    /// r = (s² + 4h²)/(8h) for chord s and rise h.
    pub(crate) fn radius(self) -> f64 {
        let (a, h) = (self.half, self.rise);
        if a.to_bits() == h.to_bits() {
            return a;
        }
        a * (a / h) / 2.0 + h / 2.0
    }

    /// Half the angle at the centre, in radians: tan of its half is rise over half chord.
    pub(crate) fn half_angle(self) -> f64 {
        if self.half.to_bits() == self.rise.to_bits() {
            return FRAC_PI_2;
        }
        2.0 * libm::atan2(self.rise, self.half)
    }

    /// Length of the arc in millimetres.
    pub(crate) fn arc(self) -> f64 {
        2.0 * self.radius() * self.half_angle()
    }

    /// Area between arc and chord in mm², from its radius and half angle.
    pub(crate) fn area_with(self, radius: f64, half_angle: f64) -> f64 {
        if half_angle < SMALL_ANGLE {
            // ½(x − sin x) for x the whole angle, by its series.
            let x = 2.0 * half_angle;
            let y = x * x;
            let series = 1.0
                - y / 20.0
                    * (1.0
                        - y / 42.0
                            * (1.0
                                - y / 72.0
                                    * (1.0 - y / 110.0 * (1.0 - y / 156.0 * (1.0 - y / 210.0)))));
            return radius * radius * x * y / 12.0 * series;
        }
        radius * radius * half_angle - self.half * (radius - self.rise)
    }
}

/// How a splayed head spreads: tangents and secants of two splays over a depth.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Spread {
    /// Depth of the reveal in millimetres.
    pub(crate) depth: f64,
    pub(crate) jamb_tan: f64,
    pub(crate) jamb_secant: f64,
    pub(crate) head_tan: f64,
    pub(crate) head_secant: f64,
}

impl Spread {
    pub(crate) fn is_square(&self) -> bool {
        self.jamb_tan <= 0.0 && self.head_tan <= 0.0
    }
}

/// What a head's intrados comes to over the depth of a reveal.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Band {
    /// Area of the intrados in mm².
    pub(crate) area: f64,
    /// Surface gained per millimetre of offset by the turning of the intrados itself, in mm; never positive.
    pub(crate) turning: f64,
    /// The same for the fold between one jamb and the head, as if both were plastered.
    pub(crate) springing: f64,
    /// What one jamb has more than the trapezoid between its frame line and its face line, in mm².
    pub(crate) jamb_extra: f64,
}

/// The hole a segmental or semicircular head makes: its arc stays concentric, the jambs move out, and the springing moves to
/// where they meet. Gives the segment of the hole and how far its springing lies above that of the frame. `None` when a jamb
/// lies beyond the arc.
pub(crate) fn concentric(frame: Segment, out_jamb: f64, out_head: f64) -> Option<(Segment, f64)> {
    let (a, r) = (frame.half, frame.radius());
    let (half, radius) = (a + out_jamb, r + out_head);
    let above = (radius - half) * (radius + half);
    if above < -SAME_RATIO * radius * radius {
        return None;
    }
    let high = above.max(0.0).sqrt();
    let lift = lift(frame, out_jamb, out_head, high);
    // The crown moves by the head's own splay.
    let rise = if high <= 0.0 {
        half
    } else {
        half * (half / (radius + high))
    };
    Some((Segment { half, rise }, lift))
}

/// How far the springing moves up: √(R² − A²) − √(r² − a²), without the difference of nearly equal numbers.
fn lift(frame: Segment, out_jamb: f64, out_head: f64, high: f64) -> f64 {
    let (a, r) = (frame.half, frame.radius());
    let sum = high + (r - frame.rise).max(0.0);
    if sum <= 0.0 {
        return 0.0;
    }
    (out_head * (2.0 * r + out_head) - out_jamb * (2.0 * a + out_jamb)) / sum
}

/// Intrados of a segmental or semicircular head.
///
/// A square head is arc × depth and a true cone the mean of two arcs × slant. Any other spread is a cone cut by the planes of the
/// jambs: sixteen-point Gauss quadrature over the depth, right to about ten digits. Turning and springing follow from the
/// cone's curvature and the angle between jamb and cone.
///
/// The half angle of the arc over a depth t is α = asin(A/R), with half span A and radius R even in t, and its slope
/// α′ = (R·A′ − A·R′)/(R·√(R² − A²)), whose upper part is the same at every depth. So ∫2R·α and ∫2α are had by parts, from α at the
/// face alone and the integral of α′, which takes a root where α takes an arc tangent.
pub(crate) fn circular_band(frame: Segment, spread: &Spread) -> Band {
    let r = frame.radius();
    let Spread {
        depth,
        jamb_tan,
        jamb_secant,
        head_tan,
        head_secant,
    } = *spread;
    let steady = (jamb_tan * r - head_tan * frame.half).abs() <= SAME_RATIO * (jamb_tan * r);
    if spread.is_square() || (steady && frame.half.to_bits() == frame.rise.to_bits()) {
        let half_angle = frame.half_angle();
        let mean = r + depth * head_tan / 2.0;
        // Square: the fold at the springing turns by the complement of the half angle.
        let fold = (frame.half - frame.rise).max(0.0) / (frame.half + frame.rise);
        return Band {
            area: 2.0 * half_angle * mean * depth * head_secant,
            turning: -2.0 * half_angle * depth,
            springing: -2.0 * fold * depth,
            jamb_extra: 0.0,
        };
    }
    let half = frame.half;
    let slope = jamb_tan * r - head_tan * half;
    let jamb_sin = jamb_tan / jamb_secant;
    let head_sin = head_tan / head_secant;
    let facing = 1.0 / (head_secant * jamb_secant);
    // Every place by itself and the sums afterwards, so that places go through the processor side by side.
    let [swept, turned, lifted, springing] = gauss_smooth(|share, weight| {
        let (t, dt) = (depth * share, depth * weight);
        let (out_jamb, out_head) = (t * jamb_tan, t * head_tan);
        let (a, radius) = (half + out_jamb, r + out_head);
        let high = ((radius - a) * (radius + a)).max(0.0).sqrt();
        let per_high = if high > 0.0 { dt / high } else { 0.0 };
        let angle = slope / radius * per_high;
        let cosine = a / radius * facing + head_sin * jamb_sin;
        let rising = (radius * head_tan - a * jamb_tan) * per_high;
        let run = ((1.0 + jamb_tan * jamb_tan) * dt * dt + rising * rising).sqrt();
        [
            t * (2.0 * r + out_head) * angle,
            t * angle,
            lift(frame, out_jamb, out_head, high) * dt,
            half_turn_tan(cosine) * run,
        ]
    });
    let (out_jamb, out_head) = (depth * jamb_tan, depth * head_tan);
    let (a, radius) = (half + out_jamb, r + out_head);
    let high = ((radius - a) * (radius + a)).max(0.0).sqrt();
    let angle = libm::atan2(a, high);
    let end = lift(frame, out_jamb, out_head, high);
    Band {
        area: 2.0 * head_secant * (depth * (r + out_head / 2.0) * angle - swept / 2.0),
        turning: -2.0 * (depth * angle - turned),
        springing: -2.0 * springing,
        jamb_extra: (lifted - end * depth / 2.0) * jamb_secant,
    }
}

/// Tangent of half a turn from the turn's cosine.
pub(crate) fn half_turn_tan(cosine: f64) -> f64 {
    let cosine = cosine.clamp(-1.0, 1.0);
    ((1.0 - cosine) / (1.0 + cosine)).sqrt()
}

#[cfg(test)]
#[expect(
    clippy::disallowed_methods,
    reason = "an oracle takes its trigonometry from elsewhere than the code it checks"
)]
mod tests {
    use core::f64::consts::PI;

    use super::*;

    #[track_caller]
    fn check(value: f64, expected: f64, slack: f64) {
        assert!((value - expected).abs() <= slack, "{value}, not {expected}");
    }

    /// International Correspondence Schools, The Building Trades Pocketbook, mensuration: chord 48, rise 18. The book finds arc and
    /// area by approximation; the exact values are from r = (s² + 4h²)/8h, 2r·asin(s/2r) and r²(θ − sin θ)/2.
    #[test]
    fn published_segment() {
        let segment = Segment {
            half: 24.0,
            rise: 18.0,
        };
        check(segment.radius(), 25.0, 1e-12);
        check(segment.arc(), 64.3501, 5e-5);
        let area = segment.area_with(segment.radius(), segment.half_angle());
        check(area, 636.3764, 5e-5);
        // The book's arc, (8e − c)/3 with e the chord of half the arc, 30: 64.
        check((8.0 * 30.0 - 48.0) / 3.0, 64.0, 1e-12);
        check(64.0 / segment.arc() - 1.0, -0.005_44, 5e-5);
        // The book's area, ⅔·s·h + h³/2s: 636.75, +0.059 %.
        let book = 2.0 / 3.0 * 48.0 * 18.0 + 18.0_f64.powi(3) / 96.0;
        check(book, 636.75, 1e-9);
        check(book / area - 1.0, 0.000_59, 5e-6);
    }

    #[test]
    fn a_half_circle_is_one() {
        let segment = Segment {
            half: 450.0,
            rise: 450.0,
        };
        check(segment.arc(), PI * 450.0, 1e-12);
        let area = segment.area_with(segment.radius(), segment.half_angle());
        check(area, PI * 450.0 * 450.0 / 2.0, 1e-9);
    }

    /// Series and difference of sector and triangle meet; far below, ⅔·s·h is the first term of the area's own series.
    #[test]
    fn a_flat_segment_keeps_its_digits() {
        for rise in [0.05, 0.099, 0.1, 0.101] {
            let segment = Segment { half: 1.0, rise };
            let (r, t) = (segment.radius(), segment.half_angle());
            let plain = r * r * t - (r - rise);
            check(segment.area_with(r, t), plain, 1e-13);
        }
        let flat = Segment {
            half: 1.0e6,
            rise: 0.001,
        };
        let area = flat.area_with(flat.radius(), flat.half_angle());
        check(area, 4.0 / 3.0 * 1000.0, 1e-9);
    }

    type Place = [f64; 3];

    fn minus(a: Place, b: Place) -> Place {
        [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
    }

    fn cross(a: Place, b: Place) -> Place {
        [
            a[1] * b[2] - a[2] * b[1],
            a[2] * b[0] - a[0] * b[2],
            a[0] * b[1] - a[1] * b[0],
        ]
    }

    fn size(a: Place) -> f64 {
        (a[0] * a[0] + a[1] * a[1] + a[2] * a[2]).sqrt()
    }

    /// Area of a surface by triangles, and what it gains per unit of offset inwards (towards the axis), by moving every corner of
    /// the triangles along the normal that finite differences give. Knows nothing of curvature.
    #[expect(
        clippy::many_single_char_names,
        reason = "two parameters and four corners"
    )]
    fn by_triangles(surface: impl Fn(f64, f64) -> Place, n: u32) -> [f64; 2] {
        let nudge = 1e-5;
        let offset = |s: f64, t: f64, by: f64| {
            let along = minus(surface(s + nudge, t), surface(s - nudge, t));
            let out = minus(surface(s, t + nudge), surface(s, t - nudge));
            let normal = cross(along, out);
            let place = surface(s, t);
            let k = by / size(normal);
            [
                place[0] + k * normal[0],
                place[1] + k * normal[1],
                place[2] + k * normal[2],
            ]
        };
        let area = |by: f64| {
            let step = 1.0 / f64::from(n);
            let mut sum = 0.0;
            for i in 0..n {
                for j in 0..n {
                    let (s, t) = (f64::from(i) * step, f64::from(j) * step);
                    let [a, b, c, d] = [
                        offset(s, t, by),
                        offset(s + step, t, by),
                        offset(s + step, t + step, by),
                        offset(s, t + step, by),
                    ];
                    sum += size(cross(minus(b, a), minus(d, a))) / 2.0;
                    sum += size(cross(minus(b, c), minus(d, c))) / 2.0;
                }
            }
            sum
        };
        [area(0.0), (area(0.5) - area(-0.5)).abs()]
    }

    fn spread(depth: f64, jamb: f64, head: f64) -> Spread {
        Spread {
            depth,
            jamb_tan: jamb.tan(),
            jamb_secant: 1.0 / jamb.cos(),
            head_tan: head.tan(),
            head_secant: 1.0 / head.cos(),
        }
    }

    #[test]
    fn bands_agree_with_triangles() {
        for (a, b, jamb, head) in [
            (450.0, 300.0, 0.3, 0.3),
            (450.0, 300.0, 0.0, 0.4),
            (450.0, 300.0, 0.4, 0.0),
            (300.0, 450.0, 0.2, 0.5),
            (450.0, 450.0, 0.3, 0.3),
            (450.0, 90.0, 0.3, 0.1),
        ] {
            let spread = spread(200.0, jamb, head);
            let band = elliptical_band(a, b, &spread);
            let surface = |s: f64, t: f64| {
                let depth = 200.0 * t;
                [
                    (a + depth * spread.jamb_tan) * (PI * s).cos(),
                    (b + depth * spread.head_tan) * (PI * s).sin(),
                    depth,
                ]
            };
            let [area, lost] = by_triangles(surface, 400);
            check(band.area / area, 1.0, 2e-5);
            check(-band.turning / lost, 1.0, 2e-3);
        }
        for (rise, jamb, head) in [(150.0, 0.2, 0.3), (150.0, 0.3, 0.1), (300.0, 0.0, 0.4)] {
            let frame = Segment { half: 450.0, rise };
            let spread = spread(200.0, jamb, head);
            let band = circular_band(frame, &spread);
            let radius = frame.radius();
            let surface = |s: f64, t: f64| {
                let depth = 200.0 * t;
                let r = radius + depth * spread.head_tan;
                let half = ((450.0 + depth * spread.jamb_tan) / r).asin();
                let angle = (2.0 * s - 1.0) * half;
                [r * angle.sin(), r * angle.cos(), depth]
            };
            let [area, _] = by_triangles(surface, 400);
            check(band.area / area, 1.0, 2e-5);
        }
    }

    /// The springing of the hole lies where jamb and arc meet, and stays put when a half circle opens evenly.
    #[test]
    fn the_springing_of_a_hole() {
        let half_circle = Segment {
            half: 450.0,
            rise: 450.0,
        };
        let (hole, lift) = concentric(half_circle, 50.0, 50.0).unwrap();
        check(lift, 0.0, 1e-12);
        check(hole.half, 500.0, 1e-12);
        check(hole.rise, 500.0, 1e-12);
        assert!(concentric(half_circle, 50.0, 49.0).is_none());
        // Radius 25, centre 7 under the springing of a chord of 48. Opened by 0 and 15: radius 40, half chord 24, so the
        // jamb meets the arc 32 over the centre: 25 over the old springing, 8 under the crown.
        let frame = Segment {
            half: 24.0,
            rise: 18.0,
        };
        let (hole, lift) = concentric(frame, 0.0, 15.0).unwrap();
        check(lift, 25.0, 1e-12);
        check(hole.rise, 8.0, 1e-12);
        check(hole.radius(), 40.0, 1e-12);
    }
}
