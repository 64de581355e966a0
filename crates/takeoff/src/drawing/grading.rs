//! The grading of a blend against the curve it is to keep near to: sieve sizes on a scale of logarithms to
//! the right, percent passing up. Not here: finding a blend (see [`crate::blend`]).
//!
//! It is a scene like those of walls, and borrows their roles by how a line is to look: the blend is as
//! firm as an outline, the curve is dashed like the edge of plaster, what is asked at a sieve stands like a
//! frame, and sieves are fine dots.

use super::{Drawing, Point, Role, Stand};
use crate::blend::{Blended, SIEVES, USUAL_POWER, curve};
use crate::project::{Blend, CurveBand, Project};
use crate::soil;
use crate::tolerance::NONE_OF_IT;
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::print::significant;
use hodful_quantities::units::{Length, length_of_mm, millimeter};
use hodful_soils::grading::{Grading, talbot};
use std::iter::zip;

/// Width and height of the field between the axes, mm: any numbers, as it has no size of its own.
const FIELD: [f64; 2] = [2000.0, 1000.0];

/// Room for the words left of the axes, under them and above, mm.
const MARGIN: [f64; 3] = [220.0, 170.0, 60.0];

/// Pieces of a curve.
const PIECES: u32 = 48;

/// Digits of the opening of a sieve.
const DIGITS: u32 = 3;

/// The grading of what was found for a blend of a project, or of the nearest that can be had, with the
/// curve it keeps near to. Where the blend asks for no curve, that of Fuller and Thompson (1907) from its
/// own largest grain is drawn beside it.
///
/// Between two sieves the grading is a straight line on the scale of logarithms; where a material in it has
/// none it breaks off. A drawing of nothing, with the reason, when no grading is known.
pub fn grading(project: &Project, asked: &Blend, found: &Blended) -> Drawing {
    let blend = found.blend();
    let blend = match &blend.rounded {
        Some(rounded) => &*rounded.blend,
        None => blend,
    };
    let mut parts: Vec<(f64, Grading)> = Vec::new();
    for (name, share) in zip(&found.materials, &blend.mass_shares) {
        if *share <= NONE_OF_IT {
            continue;
        }
        let material = project.materials.get(name);
        let figures = material.and_then(soil::figures).and_then(Result::ok);
        let Some(grading) = figures.and_then(|figures| figures.used.grading) else {
            return Drawing::nothing(eco_format!("sieve {name} to see the grading of the blend"));
        };
        parts.push((*share, grading));
    }
    let largest = parts
        .iter()
        .filter_map(|(_, grading)| grading.diameter_at(1.0))
        .fold(
            Length::default(),
            |most, size| if size > most { size } else { most },
        );
    let largest_mm = largest.get::<millimeter>();
    if !(largest_mm > 0.0 && largest_mm.is_finite()) {
        return Drawing::nothing("no sieve passes all of it, so that there is no curve to draw");
    }
    let wanted = asked.curve.as_ref().map_or(largest_mm, |curve| {
        curve.largest.value().get::<millimeter>().max(largest_mm)
    });
    let axis = Axis::up_to(wanted);
    let mut drawing = Drawing::default();
    axis.draw(&mut drawing);

    for (size, range) in &found.target.sieves {
        let (from, to) = (range.least().unwrap_or(0.0), range.most().unwrap_or(1.0));
        let [u, _] = axis.place(size.get::<millimeter>(), 0.0);
        let up = |share: f64| share * FIELD[1];
        if (0.0..=FIELD[0]).contains(&u) && to > from {
            drawing.stroke(Role::Frame, vec![[u, up(from)], [u, up(to)]], false, None);
        }
    }
    let (ideal, words) = ideal(asked.curve.as_ref(), largest);
    let line: Vec<Point> = axis
        .sizes()
        .filter_map(|mm| Some(axis.place(mm, ideal(mm)?)))
        .collect();
    drawing.stroke(Role::Plaster, line, false, None);
    for line in grading_lines(&axis, &parts) {
        drawing.stroke(Role::Outline, line, false, None);
    }
    drawing
        .captions
        .push(eco_format!("firm: blend, dashed: {words}"));
    drawing.captions.push("% passing, mm".into());
    let [left, below, above] = MARGIN;
    drawing.bounds = Some([-left, -below, FIELD[0] + below, FIELD[1] + above]);
    drawing
}

/// What passes each size by the curve, and the curve in words.
fn ideal(asked: Option<&CurveBand>, largest: Length) -> (impl Fn(f64) -> Option<f64>, EcoString) {
    let power = asked.and_then(|curve| curve.power.as_ref());
    let power = power.map_or(USUAL_POWER, |power| power.value().get());
    let largest = asked.map_or(largest, |curve| Typed::value(&curve.largest));
    let mm = significant(largest.get::<millimeter>(), DIGITS);
    let words = if asked.is_some_and(|asked| !curve(asked).is_empty()) {
        eco_format!("as asked, to {mm} mm")
    } else {
        eco_format!("Fuller to {mm} mm")
    };
    (
        move |mm: f64| talbot(length_of_mm(mm), largest, power),
        words,
    )
}

/// The grading of the parts together, as far as all of them are known.
fn grading_lines(axis: &Axis, parts: &[(f64, Grading)]) -> Vec<Vec<Point>> {
    let together = |mm: f64| {
        let each = parts
            .iter()
            .map(|(share, of)| Some(share * of.passing(length_of_mm(mm))?));
        each.sum::<Option<f64>>()
    };
    let mut lines = vec![Vec::new()];
    for mm in axis.sizes() {
        match (together(mm), lines.last_mut()) {
            (Some(share), Some(line)) => line.push(axis.place(mm, share.clamp(0.0, 1.0))),
            (None, Some(line)) if !line.is_empty() => lines.push(Vec::new()),
            _ => {}
        }
    }
    lines
}

/// The scale of sieve sizes.
struct Axis {
    /// The sieves marked on it, mm.
    sieves: Vec<f64>,
    /// Logarithms of the first and the last size.
    ends: [f64; 2],
}

impl Axis {
    /// From the finest sieve to the first that passes a size.
    fn up_to(mm: f64) -> Self {
        let last = SIEVES.iter().position(|sieve| *sieve >= mm);
        let sieves: Vec<f64> = match last {
            Some(last) => SIEVES.iter().copied().take(last.max(2) + 1).collect(),
            None => SIEVES.iter().copied().chain([mm]).collect(),
        };
        let log = |mm: Option<&f64>| libm::log(mm.copied().unwrap_or(1.0));
        Self {
            ends: [log(sieves.first()), log(sieves.last())],
            sieves,
        }
    }

    fn place(&self, mm: f64, share: f64) -> Point {
        let [first, last] = self.ends;
        [
            FIELD[0] * (libm::log(mm) - first) / (last - first),
            FIELD[1] * share,
        ]
    }

    /// Sizes along it, mm, close enough for a line.
    fn sizes(&self) -> impl Iterator<Item = f64> + use<> {
        let [first, last] = self.ends;
        (0..=PIECES)
            .map(move |i| libm::exp(first + (last - first) * f64::from(i) / f64::from(PIECES)))
    }

    fn draw(&self, drawing: &mut Drawing) {
        let [wide, high] = FIELD;
        let corners = vec![[0.0, 0.0], [wide, 0.0], [wide, high], [0.0, high]];
        drawing.stroke(Role::Hole, corners, true, None);
        for (i, sieve) in self.sieves.iter().enumerate() {
            let [u, _] = self.place(*sieve, 0.0);
            drawing.stroke(Role::Lath, vec![[u, 0.0], [u, high]], false, None);
            // Every other sieve may go where there is no room for all.
            let weight = if i % 2 == 0 { 60 } else { 40 };
            let words = significant(*sieve, DIGITS);
            drawing.label([u, -MARGIN[1] / 2.0], words, weight, Stand::At);
        }
        for (percent, weight) in [(0, 50), (50, 50), (100, 60)] {
            let v = high * f64::from(percent) / 100.0;
            if percent == 50 {
                drawing.stroke(Role::Lath, vec![[0.0, v], [wide, v]], false, None);
            }
            let words = eco_format!("{percent}");
            drawing.label([-MARGIN[0] / 2.0, v], words, weight, Stand::At);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(value: f64) -> Length {
        length_of_mm(value)
    }

    #[test]
    fn sieves_double_from_one_to_the_next_and_so_stand_evenly() {
        let axis = Axis::up_to(4.0);
        assert_eq!(axis.sieves.last(), Some(&4.0));
        let [first, _] = axis.place(0.125, 0.0);
        let [second, _] = axis.place(0.25, 0.0);
        let [third, up] = axis.place(0.5, 0.25);
        assert!((third - second - (second - first)).abs() < 1e-9);
        assert!((up - 250.0).abs() < 1e-9);
        // Past the last sieve the axis goes as far as it must.
        assert_eq!(Axis::up_to(31.5).sieves.last(), Some(&31.5));
        assert!(Axis::up_to(0.01).sieves.len() > 1);
    }

    /// Half of what passes all at 1 mm, half of what passes all at 4 mm and a half of that at 1 mm: three
    /// quarters pass 1 mm.
    #[test]
    fn parts_pass_together_by_their_shares() {
        let fine = Grading::new([(mm(0.063), 0.0), (mm(1.0), 1.0)]).unwrap();
        let coarse = Grading::new([(mm(0.25), 0.0), (mm(1.0), 0.5), (mm(4.0), 1.0)]).unwrap();
        let axis = Axis::up_to(4.0);
        let lines = grading_lines(&axis, &[(0.5, fine), (0.5, coarse)]);
        let [at, _] = axis.place(1.0, 0.0);
        let line = lines.first().unwrap();
        let near = line
            .iter()
            .min_by(|a, b| (a[0] - at).abs().total_cmp(&(b[0] - at).abs()));
        let [u, v] = *near.unwrap();
        // A piece of the axis is a 48th of six octaves wide: an eighth of an octave.
        assert!((u - at).abs() < FIELD[0] / f64::from(PIECES));
        assert!((v - 750.0).abs() < 80.0, "{v}");
        assert!(line.windows(2).all(|pair| pair[0][1] <= pair[1][1]));
    }

    /// Fuller and Thompson: a quarter of the largest size passes a half.
    #[test]
    fn the_ideal_curve_is_fullers() {
        let (passing, words) = ideal(None, mm(4.0));
        assert!((passing(1.0).unwrap() - 0.5).abs() < 1e-12);
        assert_eq!(passing(8.0), Some(1.0));
        assert_eq!(words, "Fuller to 4 mm");
    }
}
