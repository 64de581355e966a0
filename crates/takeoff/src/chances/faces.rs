//! The faces as far as they differ from wall to wall: what a draw does to the grounds. Not here: what follows
//! from the grounds (see `crate::evaluate`).
//!
//! A face has one factor `f = 1 + σ·z` on the thickness of all its coats. Its layers are `t·(A + K·(2a + t)/2)`;
//! with every `t` and `a` times `f` that is `t·(f·A + f²·K·(2a + t)/2)`: the ground of a draw has `Σ f·A` for area
//! and `Σ f²·K` for growth, and the evaluation that there is does the rest. Dubbing out has a factor of its own.
//!
//! `n` equal faces are drawn by one normal value: `Σ f = n + σ·√n·z` is exact, and of `Σ f²` the mean at that `z`,
//! `n + 2σ·√n·z + σ²·(z² + n − 1)`, is taken (the normal values about their mean are independent of it and their
//! squares have the mean `n − 1`; Cochran's theorem). One face is exact.

use super::inputs::Inputs;
use crate::checked::Site;
use crate::compare::One;
use crate::evaluate::{Evaluation, Ground};
use crate::project::Side;
use hodful_chance::{Stream, normal};
use std::iter::zip;

/// One face entry of a project.
#[derive(Debug, Clone, Copy)]
struct Face {
    build_up: usize,
    background: usize,
    count: f64,
    area: f64,
    growth: f64,
    field: f64,
    /// Strips of lath whose key is filled besides.
    strips: f64,
}

/// All faces that count.
#[derive(Debug)]
pub(super) struct Faces {
    all: Vec<Face>,
}

impl Faces {
    /// Of a project that is evaluated.
    pub(super) fn of(one: &One<'_>) -> Self {
        let mut all = Vec::new();
        for (wall, figures) in zip(&one.project.walls, &one.evaluation.faces) {
            for (side, figures) in zip([Side::Outside, Side::Inside], figures) {
                let (Some(face), Some(figures)) = (wall.face(side), figures) else {
                    continue;
                };
                let build_up = one.project.build_ups.get_index_of(&face.build_up);
                let background = one.project.backgrounds.get_index_of(&face.background);
                let (Some(build_up), Some(background)) = (build_up, background) else {
                    continue;
                };
                let is_lath = one.site.is_lath.get(background) == Some(&true);
                all.push(Face {
                    build_up,
                    background,
                    count: f64::from(wall.count.unwrap_or(1)),
                    area: figures.measure.true_surface(),
                    growth: figures.measure.growth,
                    field: figures.measure.field,
                    strips: if is_lath { 0.0 } else { figures.measure.lath },
                });
            }
        }
        Self { all }
    }

    /// Whether what the depth of a background enters is on some face: its own, or the key of strips of lath.
    pub(super) fn has_background(&self, at: usize) -> bool {
        self.all.iter().any(|face| face.background == at)
    }
}

/// A face in a sum: what one standard deviation of its factor adds.
#[derive(Debug, Clone, Copy)]
struct Term {
    first: f64,
    growth: f64,
    growth_squared: f64,
    /// Where the factor comes to nothing.
    least: f64,
}

/// Faces of one build-up.
#[derive(Debug)]
struct Thickness {
    build_up: usize,
    /// Thickness of all its coats, to weigh the area by.
    whole: f64,
    /// What the growth has more in the mean, of the faces that stand more than once.
    more_growth: f64,
    terms: Vec<Term>,
}

/// Faces of one build-up and one background.
#[derive(Debug)]
struct Dubbing {
    build_up: usize,
    background: usize,
    field: f64,
    terms: Vec<Term>,
}

/// The grounds of a project and what a draw does to them.
#[derive(Debug)]
pub(super) struct Grounds {
    base: Vec<Ground>,
    thickness: Vec<Thickness>,
    dubbing: Vec<Dubbing>,
    /// Depths as the project has them, mm; nothing that is refused.
    depths: Vec<Option<f64>>,
    mean_depths: Vec<f64>,
    /// Strips of lath by build-up, and the background whose depth their key has.
    strips: Vec<f64>,
    lath: Option<usize>,
}

/// What a draw did from wall to wall.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Effect {
    /// What all thicknesses together added over flat surfaces, mm³.
    pub(super) thickness: f64,
    /// What dubbing out added at its mean depth, mm³.
    pub(super) dubbing_out: f64,
    /// Some factor had to be brought back to nothing.
    pub(super) clamped: bool,
}

impl Grounds {
    pub(super) fn new(one: &One<'_>, faces: &Faces, inputs: &Inputs) -> Self {
        let mut of = Self {
            base: one.evaluation.grounds.clone(),
            thickness: Vec::new(),
            dubbing: Vec::new(),
            depths: depths(one.site),
            mean_depths: inputs.mean_depth.clone(),
            strips: vec![0.0; one.evaluation.grounds.len()],
            lath: one.site.is_lath.iter().position(|is| *is),
        };
        let wholes = one.site.thicknesses();
        for face in &faces.all {
            if let Some(strips) = of.strips.get_mut(face.build_up) {
                *strips += face.strips * face.count;
            }
            let sd = |of: &[f64], at: usize| of.get(at).copied().unwrap_or_default();
            let thickness = sd(&inputs.thickness, face.build_up);
            if thickness > 0.0 {
                let whole = wholes.get(face.build_up).copied().flatten();
                of.add_thickness(face, thickness, whole.unwrap_or_default());
            }
            of.add_dubbing(face, sd(&inputs.dubbing_out, face.background));
        }
        of
    }

    fn add_thickness(&mut self, face: &Face, sd: f64, whole: f64) {
        let root = face.count.sqrt();
        let term = Term {
            first: face.area * root * sd,
            growth: 2.0 * face.growth * root * sd,
            growth_squared: face.growth * sd * sd,
            least: -root / sd,
        };
        let more_growth = term.growth_squared * (face.count - 1.0);
        match self
            .thickness
            .iter_mut()
            .find(|of| of.build_up == face.build_up)
        {
            Some(of) => {
                of.terms.push(term);
                of.more_growth += more_growth;
            }
            None => self.thickness.push(Thickness {
                build_up: face.build_up,
                whole,
                more_growth,
                terms: vec![term],
            }),
        }
    }

    fn add_dubbing(&mut self, face: &Face, sd: f64) {
        let same =
            |of: &&mut Dubbing| of.build_up == face.build_up && of.background == face.background;
        let at = if let Some(of) = self.dubbing.iter_mut().find(same) {
            of
        } else {
            self.dubbing.push(Dubbing {
                build_up: face.build_up,
                background: face.background,
                field: 0.0,
                terms: Vec::new(),
            });
            let Some(last) = self.dubbing.last_mut() else {
                return;
            };
            last
        };
        at.field += face.field * face.count;
        if sd > 0.0 {
            let root = face.count.sqrt();
            at.terms.push(Term {
                first: face.field * root * sd,
                growth: 0.0,
                growth_squared: 0.0,
                least: -root / sd,
            });
        }
    }

    /// Draws the faces and fills the grounds of the evaluation; the depths are those of the drawn site.
    pub(super) fn draw(&self, stream: &mut Stream, site: &Site, into: &mut Evaluation) -> Effect {
        let mut effect = Effect::default();
        into.grounds.clone_from(&self.base);
        for of in &self.thickness {
            let (mut area, mut growth, mut clamped) = (0.0, of.more_growth, false);
            for term in &of.terms {
                let drawn = normal(stream);
                let z = drawn.max(term.least);
                clamped |= drawn < term.least;
                area += term.first * z;
                growth += z * (term.growth + term.growth_squared * z);
            }
            if let Some(ground) = into.grounds.get_mut(of.build_up) {
                ground.surface.area.value += area;
                ground.surface.growth.value += growth;
            }
            effect.thickness += area * of.whole;
            effect.clamped |= clamped;
        }
        for of in &self.dubbing {
            let (mut field, mut clamped) = (0.0, false);
            for term in &of.terms {
                let drawn = normal(stream);
                field += term.first * drawn.max(term.least);
                clamped |= drawn < term.least;
            }
            effect.clamped |= clamped;
            let mean = self.mean_depths.get(of.background).copied();
            effect.dubbing_out += field * mean.unwrap_or_default();
            let Some((now, was)) = self.depth(site, of.background) else {
                continue;
            };
            if let Some(ground) = into.grounds.get_mut(of.build_up) {
                // Nothing at all where nothing is drawn: the first sum is the second then.
                ground.first.dubbing_out.value += now * (of.field + field) - was * of.field;
            }
        }
        if let Some((now, was)) = self.lath.and_then(|at| self.depth(site, at)) {
            for (ground, strips) in zip(&mut into.grounds, &self.strips) {
                ground.first.lath_key.value += (now - was) * strips;
            }
        }
        effect
    }

    /// The depth of a background as drawn and as it was.
    fn depth(&self, site: &Site, at: usize) -> Option<(f64, f64)> {
        let now = (*site.dubbing_out.get(at)?)?.value;
        Some((now, (*self.depths.get(at)?)?))
    }
}

fn depths(site: &Site) -> Vec<Option<f64>> {
    let all = site.dubbing_out.iter();
    all.map(|depth| depth.map(|depth| depth.value)).collect()
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a failure is the message")]
mod tests {
    use super::*;
    use crate::check::values::Values;
    use crate::rule::RuleBook;
    use hodful_chance::Sample;

    fn growths(count: f64, times: usize) -> Sample {
        let face = Face {
            build_up: 0,
            background: 0,
            count,
            area: 1.0,
            growth: 2.0,
            field: 0.0,
            strips: 0.0,
        };
        let mut grounds = Grounds {
            base: vec![Ground::default()],
            thickness: Vec::new(),
            dubbing: Vec::new(),
            depths: Vec::new(),
            mean_depths: Vec::new(),
            strips: Vec::new(),
            lath: None,
        };
        for _ in 0..times {
            grounds.add_thickness(&face, 0.2, 1.0);
        }
        let mut stream = Stream::new(3, 0);
        let mut into = Evaluation::default();
        let site = crate::check::site(
            &crate::form::tests::project(),
            &RuleBook::default(),
            &mut Values::default(),
        );
        let values = (0..20_000).map(|_| {
            grounds.draw(&mut stream, &site, &mut into);
            into.grounds.first().unwrap().surface.growth.value
        });
        Sample::from(values.collect()).unwrap()
    }

    /// `Σ K·f²` has the mean `n·K·(1 + σ²)`, here less the base `n·K`.
    #[test]
    fn growth_goes_by_the_square() {
        for (count, times) in [(1.0, 1), (9.0, 1), (1.0, 9)] {
            let of = growths(count, times);
            let faces = count * f64::from(u32::try_from(times).unwrap());
            let off = (of.mean() - faces * 2.0 * 0.04).abs();
            assert!(off < 3.0 * of.standard_error(), "{count} × {times}: {off}");
        }
    }
}
