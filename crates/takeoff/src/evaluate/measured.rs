//! The quantity measured for payment on one face, opening by opening, under a rule with bands. It
//! never touches the materials. Not here: the rules (data) and the surfaces.

use crate::check::walls::geometry_side;
use crate::checked::OneWall;
use crate::project::Side;
use crate::rule::{Band, Deduct, Rule};
use crate::tolerance::SAME_LENGTH;
use hodful_geometry::{Doubt, EndMeasure, Notes, OpeningMeasure, Refusal, reveal_width};
use hodful_quantities::units::Area;

/// What one opening does to the measured quantity of one face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Counted {
    /// Size of the frame, which decides the band, mm².
    pub size: f64,
    /// Frame on this face, mm².
    pub on_face: f64,
    /// Share of it that is taken out.
    pub share: f64,
    /// Plastered reveals that are added, mm².
    pub reveals: f64,
    /// Plastered reveals that are measured by length instead, mm.
    pub run: f64,
    /// How many such openings.
    pub copies: u32,
}

impl Counted {
    /// What the openings add to the face, below nothing when they take away, mm².
    pub fn change(&self) -> f64 {
        f64::from(self.copies) * (self.reveals - self.share * self.on_face)
    }
}

/// Listens to the measuring of a face and counts its openings under the rule; everything heard is
/// passed on.
pub(crate) struct Payment<'a, N> {
    rule: &'a Rule,
    wall: OneWall<'a>,
    side: Side,
    inner: &'a mut N,
    change: f64,
    run: f64,
}

impl<'a, N: Notes> Payment<'a, N> {
    pub(super) fn new(rule: &'a Rule, wall: OneWall<'a>, side: Side, inner: &'a mut N) -> Self {
        Self {
            rule,
            wall,
            side,
            inner,
            change: 0.0,
            run: 0.0,
        }
    }

    /// Measured area (mm²) and length (mm) of the face with this outline (mm²). Overlapping
    /// openings, each deducted on its own, could come below nothing: nothing is the least.
    pub(super) fn finish(self, outline: f64) -> (f64, f64) {
        ((outline + self.change).max(0.0), self.run)
    }
}

impl<N: Notes> Notes for Payment<'_, N> {
    fn doubt(&mut self, doubt: Doubt) {
        self.inner.doubt(doubt);
    }

    fn refuse(&mut self, refusal: Refusal) {
        self.inner.refuse(refusal);
    }

    fn end(&mut self, index: usize, measure: &EndMeasure) {
        self.inner.end(index, measure);
    }

    fn opening(&mut self, index: usize, measure: &OpeningMeasure) {
        if let Some(counted) = count(self.rule, self.wall, self.side, index, measure) {
            self.change += counted.change();
            self.run += f64::from(counted.copies) * counted.run;
        }
        self.inner.opening(index, measure);
    }
}

/// Counts one opening under the rule of the project; `None` under a rule without bands.
pub(crate) fn count(
    rule: &Rule,
    wall: OneWall<'_>,
    side: Side,
    index: usize,
    measure: &OpeningMeasure,
) -> Option<Counted> {
    let opening = wall.openings.get(index)?;
    let size = opening.frame_area();
    let band = rule.band(Area {
        value: size,
        ..Area::default()
    })?;
    let width = |side: Side| {
        let side = geometry_side(side);
        let reveal = opening
            .reveal(side)
            .and_then(|at| wall.reveals.get(at.get()));
        reveal_width(opening, reveal, side, wall.entry.thickness)
    };
    let other = match side {
        Side::Outside => Side::Inside,
        Side::Inside => Side::Outside,
    };
    let plastered = measure.parts().any(|part| part.reveal_area > 0.0);
    let deduct = deduct(band, plastered);
    let share = match deduct {
        Deduct::Share(share) => share,
        Deduct::NarrowerReveal => {
            let wider = width(side) - width(other);
            if wider.abs() <= SAME_LENGTH {
                if wall.entry.face(other).is_some() {
                    0.5
                } else {
                    0.0
                }
            } else if wider < 0.0 {
                1.0
            } else {
                0.0
            }
        }
    };
    let area: f64 = measure.parts().map(|part| part.reveal_area).sum();
    let run: f64 = measure.parts().map(|part| part.frame_line).sum();
    let by_length = by_length(rule, width(side));
    let added = band.add_reveals;
    Some(Counted {
        size,
        on_face: measure.frame_area,
        share,
        reveals: if added && !by_length { area } else { 0.0 },
        run: if added && by_length { run } else { 0.0 },
        copies: measure.copies,
    })
}

fn deduct(band: &Band, plastered: bool) -> Deduct {
    match band.deduct_without_reveal {
        Some(without) if !plastered => without,
        _ => band.deduct,
    }
}

fn by_length(rule: &Rule, width: f64) -> bool {
    rule.reveals_by_length_up_to
        .is_some_and(|limit| width <= limit.value + SAME_LENGTH)
}
