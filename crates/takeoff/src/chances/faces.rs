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

use super::inputs::{Inputs, Walls};
use super::terms::{Added, Terms};
use crate::checked::Site;
use crate::compare::One;
use crate::evaluate::{Evaluation, Ground};
use crate::project::Side;
use hodful_chance::Stream;
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
    /// The background whose depth the key of strips of lath has.
    lath: Option<usize>,
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
        let lath = one.site.is_lath.iter().position(|is| *is);
        Self { all, lath }
    }

    /// Whether what the depth of a background enters is on some face: its own, or the key of strips of lath.
    pub(super) fn has_background(&self, at: usize) -> bool {
        let is_lath = self.lath == Some(at);
        let mut faces = self.all.iter();
        faces.any(|face| face.background == at || (is_lath && face.strips > 0.0))
    }
}

/// Faces of one build-up.
#[derive(Debug)]
struct Thickness {
    build_up: usize,
    /// Which of the inputs that differ from wall to wall it is.
    input: usize,
    /// Thickness of all its coats, to weigh the area by.
    whole: f64,
    /// What the growth has more in the mean, of the faces that stand more than once.
    more_growth: f64,
    terms: Terms,
}

/// Faces of one build-up and one background.
#[derive(Debug)]
struct Dubbing {
    build_up: usize,
    background: usize,
    /// Which of the inputs that differ from wall to wall it is; `None` where nothing differs.
    input: Option<usize>,
    field: f64,
    terms: Terms,
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

/// What the faces add: by build-up, then by build-up and background, then by draw.
#[derive(Debug, Default)]
pub(super) struct Drawn(Vec<Vec<Added>>);

impl Grounds {
    pub(super) fn new(one: &One<'_>, faces: &Faces, inputs: &Inputs) -> Self {
        let mut of = Self {
            base: one.evaluation.grounds.clone(),
            thickness: Vec::new(),
            dubbing: Vec::new(),
            depths: depths(one.site),
            mean_depths: inputs.mean_depth.clone(),
            strips: vec![0.0; one.evaluation.grounds.len()],
            lath: faces.lath,
        };
        let wholes = one.site.thicknesses();
        for face in &faces.all {
            if let Some(strips) = of.strips.get_mut(face.build_up) {
                *strips += face.strips * face.count;
            }
            let input = |of: &Walls, at: usize| of.input.get(at).copied().flatten();
            let sd = |of: &Walls, at: usize| of.sds.get(at).copied().unwrap_or_default();
            if let Some(input) = input(&inputs.thickness, face.build_up) {
                let whole = wholes.get(face.build_up).copied().flatten();
                let sd = sd(&inputs.thickness, face.build_up);
                of.add_thickness(face, input, sd, whole.unwrap_or_default());
            }
            // Behind those of thickness.
            let input = input(&inputs.dubbing_out, face.background);
            let input = input.map(|input| inputs.thickness.said.len() + input);
            of.add_dubbing(face, input, sd(&inputs.dubbing_out, face.background));
        }
        of
    }

    fn add_thickness(&mut self, face: &Face, input: usize, sd: f64, whole: f64) {
        let same = |of: &Thickness| of.build_up == face.build_up;
        let of = found_or(&mut self.thickness, same, || Thickness {
            build_up: face.build_up,
            input,
            whole,
            more_growth: 0.0,
            terms: Terms::default(),
        });
        of.terms.push(face.area, face.growth, face.count, sd);
        of.more_growth += face.growth * sd * sd * (face.count - 1.0);
    }

    fn add_dubbing(&mut self, face: &Face, input: Option<usize>, sd: f64) {
        let same = |of: &Dubbing| of.build_up == face.build_up && of.background == face.background;
        let of = found_or(&mut self.dubbing, same, || Dubbing {
            build_up: face.build_up,
            background: face.background,
            input,
            field: 0.0,
            terms: Terms::default(),
        });
        of.field += face.field * face.count;
        if sd > 0.0 {
            of.terms.push(face.field, 0.0, face.count, sd);
        }
    }

    /// Draws the faces so many times, into memory that is used again.
    pub(super) fn draw_faces(&self, stream: &mut Stream, times: usize, into: &mut Drawn) {
        let thickness = self.thickness.iter().map(|of| &of.terms);
        let all = thickness.chain(self.dubbing.iter().map(|of| &of.terms));
        into.0.resize_with(all.clone().count(), Vec::new);
        for (terms, sums) in zip(all, &mut into.0) {
            sums.clear();
            sums.resize(times, Added::default());
            terms.draw(stream, sums);
        }
    }

    /// Fills the grounds of the evaluation from one of the drawn times; the depths are those of the drawn site.
    ///
    /// Adds to each of the inputs from wall to wall what it did: over flat surfaces, and at the mean depths, mm³.
    /// Tells whether some factor had to be brought back to nothing.
    pub(super) fn fill(
        &self,
        drawn: &Drawn,
        at: usize,
        site: &Site,
        into: &mut Evaluation,
        inputs: &mut [f64],
    ) -> bool {
        let mut clamped = false;
        let mut sums = drawn
            .0
            .iter()
            .map(|sums| sums.get(at).copied().unwrap_or_default());
        into.grounds.clone_from(&self.base);
        for (of, added) in zip(&self.thickness, &mut sums) {
            if let Some(ground) = into.grounds.get_mut(of.build_up) {
                ground.surface.area.value += added.first;
                ground.surface.growth.value += of.more_growth + added.growth;
            }
            if let Some(input) = inputs.get_mut(of.input) {
                *input += added.first * of.whole;
            }
            clamped |= added.clamped;
        }
        for (of, added) in zip(&self.dubbing, &mut sums) {
            clamped |= added.clamped;
            let mean = self.mean_depths.get(of.background).copied();
            if let Some(input) = of.input.and_then(|at| inputs.get_mut(at)) {
                *input += added.first * mean.unwrap_or_default();
            }
            self.dub(of, added.first, site, into);
        }
        self.fill_lath(site, into);
        clamped
    }

    /// The same with no wall other than the others.
    pub(super) fn fill_alike(&self, site: &Site, into: &mut Evaluation) {
        into.grounds.clone_from(&self.base);
        for of in &self.dubbing {
            self.dub(of, 0.0, site, into);
        }
        self.fill_lath(site, into);
    }

    /// Dubs out a field that is so much larger by its factors, to the depth of the site.
    fn dub(&self, of: &Dubbing, more: f64, site: &Site, into: &mut Evaluation) {
        let Some((now, was)) = self.depth(site, of.background) else {
            return;
        };
        if let Some(ground) = into.grounds.get_mut(of.build_up) {
            // Nothing at all where nothing is drawn: the first sum is the second then.
            ground.first.dubbing_out.value += now * (of.field + more) - was * of.field;
        }
    }

    fn fill_lath(&self, site: &Site, into: &mut Evaluation) {
        if let Some((now, was)) = self.lath.and_then(|at| self.depth(site, at)) {
            for (ground, strips) in zip(&mut into.grounds, &self.strips) {
                ground.first.lath_key.value += (now - was) * strips;
            }
        }
    }

    /// Of what is dubbed out under a build-up, by how much it is off from wall to wall: the mean of its backgrounds
    /// as a share, each weighing as much as it takes.
    pub(super) fn dubbing_out_of(&self, build_up: usize, sds: &[f64]) -> f64 {
        let (mut off, mut whole) = (0.0, 0.0);
        for of in self.dubbing.iter().filter(|of| of.build_up == build_up) {
            let depth = self.mean_depths.get(of.background).copied();
            let volume = of.field * depth.unwrap_or_default();
            off += volume * sds.get(of.background).copied().unwrap_or_default();
            whole += volume;
        }
        if whole > 0.0 { off / whole } else { 0.0 }
    }

    /// The backgrounds under a build-up.
    pub(super) fn backgrounds_of(&self, build_up: usize) -> impl Iterator<Item = usize> {
        let own = self
            .dubbing
            .iter()
            .filter(move |of| of.build_up == build_up);
        own.map(|of| of.background)
    }

    /// The depth of a background as drawn and as it was.
    fn depth(&self, site: &Site, at: usize) -> Option<(f64, f64)> {
        let now = (*site.dubbing_out.get(at)?)?.value;
        Some((now, (*self.depths.get(at)?)?))
    }
}

/// The first of its kind, made when there is none.
fn found_or<T>(all: &mut Vec<T>, is: impl FnMut(&T) -> bool, new: impl FnOnce() -> T) -> &mut T {
    let at = all.iter().position(is).unwrap_or_else(|| {
        all.push(new());
        all.len() - 1
    });
    &mut all[at]
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
            grounds.add_thickness(&face, 0, 0.2, 1.0);
        }
        let (mut drawn, mut into) = (Drawn::default(), Evaluation::default());
        grounds.draw_faces(&mut Stream::new(3, 0), 20_000, &mut drawn);
        let site = crate::check::site(
            &crate::form::tests::project(),
            &RuleBook::default(),
            &mut Values::default(),
        );
        let values = (0..20_000).map(|at| {
            grounds.fill(&drawn, at, &site, &mut into, &mut []);
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
