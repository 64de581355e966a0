//! One face with everything on it, as typed, and its measure with every opening's own figures.
//!
//! Not here: where such faces come from, and how they are printed.

use hodful_geometry::{
    Doubt, EndSpec, FaceEnd, FaceMeasure, FaceOutline, Fault, Inset, Notes, Opening,
    OpeningMeasure, OpeningSpec, Outline, OutlineShape, Refusal, Reveal, RevealSpec, Side,
    measure_face,
};

/// A face as typed.
#[derive(Clone, Debug)]
pub(crate) struct Wall {
    pub(crate) shape: OutlineShape,
    pub(crate) thickness: f64,
    pub(crate) side: Side,
    pub(crate) inset: Inset,
    pub(crate) openings: Vec<OpeningSpec>,
    pub(crate) reveals: Vec<RevealSpec>,
    pub(crate) ends: Vec<EndSpec>,
}

/// What the crate makes of it.
#[derive(Debug)]
pub(crate) struct Measured {
    pub(crate) total: FaceMeasure,
    pub(crate) heard: Heard,
}

/// Everything said while a face is measured.
#[derive(Debug, Default)]
pub(crate) struct Heard {
    pub(crate) openings: Vec<(usize, OpeningMeasure)>,
    pub(crate) overlaps: usize,
    pub(crate) cuts: usize,
    pub(crate) refusals: usize,
}

impl Notes for Heard {
    fn doubt(&mut self, doubt: Doubt) {
        match doubt {
            Doubt::Overlap { .. } => self.overlaps += 1,
            _ => self.cuts += 1,
        }
    }

    fn refuse(&mut self, _refusal: Refusal) {
        self.refusals += 1;
    }

    fn opening(&mut self, index: usize, measure: &OpeningMeasure) {
        self.openings.push((index, *measure));
    }
}

impl Wall {
    pub(crate) fn outline(&self) -> Result<FaceOutline, Vec<Fault>> {
        Outline::new(self.shape.clone())?.face(self.side, self.thickness, &self.inset)
    }

    /// Measures it; every fault of every part is an error.
    pub(crate) fn measure(&self) -> Result<Measured, Vec<Fault>> {
        let face = self.outline()?;
        let reveals = self
            .reveals
            .iter()
            .map(|spec| Reveal::new(*spec))
            .collect::<Result<Vec<_>, _>>()?;
        let ends = self
            .ends
            .iter()
            .map(|spec| FaceEnd::new(*spec))
            .collect::<Result<Vec<_>, _>>()?;
        let mut openings = Vec::with_capacity(self.openings.len());
        for spec in &self.openings {
            let opening = Opening::new(spec.clone())?;
            let mut faults = opening.fits(self.thickness);
            let reveal = opening.reveal(self.side);
            if let Some(reveal) = reveal.and_then(|index| reveals.get(index.get())) {
                faults.extend(opening.accepts(reveal, self.side, self.thickness));
            }
            if !faults.is_empty() {
                return Err(faults);
            }
            openings.push(opening);
        }
        let mut heard = Heard::default();
        let total = measure_face(
            &face,
            self.side,
            self.thickness,
            &openings,
            &reveals,
            &ends,
            &mut heard,
        );
        Ok(Measured { total, heard })
    }
}
