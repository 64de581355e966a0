//! The surfaces of every face, and what they bring to the coats. Not here: volumes.

use super::coats::Ground;
use super::measured::Payment;
use crate::check::walls::geometry_side;
use crate::checked::{Checked, CheckedFace, CheckedWall, OneWall, Site};
use crate::project::Side;
use crate::rule::Rule;
use hodful_geometry::{Doubt, FaceMeasure, Notes, Refusal, measure_face};
use hodful_quantities::units::{Area, Length, Volume};
use hodful_quantities::{FirstCoat, Surface};
use std::iter::zip;

/// The figures of one face.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FaceFigures {
    /// True surfaces and lengths, mm² and mm.
    pub measure: Surfaces,
    /// Quantity measured for payment under the rule of the project, mm².
    pub measured: f64,
    /// What that rule measures by length besides, mm.
    pub measured_run: f64,
}

/// What is kept of the measure of a face: what its figures and its coats need, and no more, since a
/// large building has a great many. As in the measure itself, mm², mm and mm³.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Surfaces {
    /// Outline after insets.
    pub outline: f64,
    /// Holes in the face, splay included.
    pub openings: f64,
    /// What rounded edges take from the face.
    pub strips: f64,
    /// Outline less openings and strips.
    pub field: f64,
    /// Plastered reveals, less their strips.
    pub reveals: f64,
    /// Rounded edges.
    pub edges: f64,
    /// Edges along the sharp arris, mm.
    pub edge_length: f64,
    /// Strips of lath.
    pub lath: f64,
    /// Surface gained per offset, mm.
    pub growth: f64,
    /// Volume of coves, mm³.
    pub coves: f64,
}

impl Surfaces {
    fn of(measure: &FaceMeasure) -> Self {
        Self {
            outline: measure.outline,
            openings: measure.openings,
            strips: measure.strips,
            field: measure.field,
            reveals: measure.reveals,
            edges: measure.edges,
            edge_length: measure.edge_length,
            lath: measure.lath,
            growth: measure.growth,
            coves: measure.coves,
        }
    }

    /// The surface to be plastered.
    pub fn true_surface(&self) -> f64 {
        self.field + self.reveals + self.edges
    }
}

impl FaceFigures {
    fn add(&mut self, other: &Self, times: f64) {
        let (sum, one) = (&mut self.measure, &other.measure);
        sum.outline += one.outline * times;
        sum.openings += one.openings * times;
        sum.strips += one.strips * times;
        sum.field += one.field * times;
        sum.reveals += one.reveals * times;
        sum.edges += one.edges * times;
        sum.edge_length += one.edge_length * times;
        sum.lath += one.lath * times;
        sum.growth += one.growth * times;
        sum.coves += one.coves * times;
        self.measured += other.measured * times;
        self.measured_run += other.measured_run * times;
    }
}

/// Something the measuring found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Finding {
    /// Position of the wall.
    pub wall: u32,
    /// The face.
    pub side: Side,
    /// What it is.
    pub found: Found,
}

/// What the measuring can find.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Found {
    /// Doubtful and still computed.
    Doubt(Doubt),
    /// Refused.
    Refusal(Refusal),
}

/// What a run of walls comes to.
#[derive(Debug)]
pub(crate) struct Sums {
    pub(crate) totals: FaceFigures,
    pub(crate) grounds: Vec<Ground>,
    pub(crate) findings: Vec<Finding>,
}

impl Sums {
    pub(crate) fn new(site: &Site) -> Self {
        Self {
            totals: FaceFigures::default(),
            grounds: vec![Ground::default(); site.build_ups.len()],
            findings: Vec::new(),
        }
    }

    /// Adds what is summed up elsewhere.
    pub(crate) fn add(&mut self, other: &Self) {
        self.totals.add(&other.totals, 1.0);
        for (ground, other) in zip(&mut self.grounds, &other.grounds) {
            ground.add(other);
        }
        self.findings.extend_from_slice(&other.findings);
    }

    /// Adds a face of one wall entry, as often as there is such a wall.
    pub(crate) fn add_face(
        &mut self,
        site: &Site,
        count: u32,
        face: &CheckedFace,
        one: &FaceFigures,
    ) {
        let times = f64::from(count);
        self.totals.add(one, times);
        let ground = ground_of(site, face, &one.measure, times);
        if let Some(sum) = self.grounds.get_mut(usize::from(face.build_up)) {
            sum.add(&ground);
        }
    }
}

/// Measures a chunk of walls, the first of which stands at `start`.
pub(super) fn chunk(
    checked: &Checked,
    walls: &[CheckedWall],
    start: usize,
    figures: &mut [[Option<FaceFigures>; 2]],
) -> Sums {
    let mut sums = Sums::new(&checked.site);
    for (i, (entry, figures)) in zip(walls, figures).enumerate() {
        let number = u32::try_from(start + i).unwrap_or(u32::MAX);
        let wall = checked.walls.with(entry);
        measure_wall(
            &checked.site.rule,
            wall,
            number,
            &mut sums.findings,
            figures,
        );
        for (face, figures) in zip(&entry.faces, figures) {
            if let (Some(face), Some(figures)) = (face, figures) {
                sums.add_face(&checked.site, entry.count, face, figures);
            }
        }
    }
    sums
}

/// Measures both faces of one wall, outside then inside.
pub(crate) fn measure_wall(
    rule: &Rule,
    wall: OneWall<'_>,
    number: u32,
    findings: &mut Vec<Finding>,
    figures: &mut [Option<FaceFigures>; 2],
) {
    let faces = zip(&wall.entry.faces, figures);
    for (side, (face, figures)) in zip([Side::Outside, Side::Inside], faces) {
        *figures = face.as_ref().map(|face| {
            let mut notes = Findings {
                wall: number,
                side,
                into: findings,
            };
            measure(rule, wall, face, side, &mut notes)
        });
    }
}

/// What the measuring finds in the walls marked as sound, without any sum.
pub(crate) fn findings(checked: &Checked, sound: &[bool]) -> Vec<Finding> {
    let mut found = Vec::new();
    for (number, (entry, _)) in
        zip(0.., zip(&checked.walls.entries, sound)).filter(|(_, (_, sound))| **sound)
    {
        let wall = checked.walls.with(entry);
        let mut figures = [None, None];
        measure_wall(&checked.site.rule, wall, number, &mut found, &mut figures);
    }
    found
}

/// Measures one face of one wall; an explanation passes notes that keep every term.
pub(crate) fn measure(
    rule: &Rule,
    wall: OneWall<'_>,
    face: &CheckedFace,
    side: Side,
    notes: &mut impl Notes,
) -> FaceFigures {
    if rule.bands.is_none() {
        let measure = surfaces(wall, face, side, notes);
        return FaceFigures {
            measured: measure.true_surface(),
            measured_run: 0.0,
            measure: Surfaces::of(&measure),
        };
    }
    let mut payment = Payment::new(rule, wall, side, notes);
    let measure = surfaces(wall, face, side, &mut payment);
    let (measured, measured_run) = payment.finish(measure.outline);
    FaceFigures {
        measure: Surfaces::of(&measure),
        measured,
        measured_run,
    }
}

fn surfaces(
    wall: OneWall<'_>,
    face: &CheckedFace,
    side: Side,
    notes: &mut impl Notes,
) -> FaceMeasure {
    measure_face(
        &face.outline,
        geometry_side(side),
        wall.entry.thickness,
        wall.openings,
        wall.reveals,
        wall.ends_of(face),
        notes,
    )
}

/// What one face, `times` over, brings to the coats of its build-up. A depth that is refused makes
/// what it enters not a number, and so the first coat absent: see `coats`.
pub(crate) fn ground_of(site: &Site, face: &CheckedFace, measure: &Surfaces, times: f64) -> Ground {
    let area = |mm2: f64| Area {
        value: mm2 * times,
        ..Area::default()
    };
    let volume = |mm3: f64| Volume {
        value: mm3 * times,
        ..Volume::default()
    };
    let depth = |known: Option<Length>| {
        known.unwrap_or(Length {
            value: f64::NAN,
            ..Length::default()
        })
    };
    let at = usize::from(face.background);
    let dubbing = site.dubbing_out.get(at).copied().flatten();
    // Where the background is lath all over, its key is the dubbing out already.
    let all_lath = site.is_lath.get(at) == Some(&true);
    let strips = if all_lath { 0.0 } else { measure.lath };
    Ground {
        surface: Surface {
            area: area(measure.true_surface()),
            growth: Length {
                value: measure.growth * times,
                ..Length::default()
            },
        },
        first: FirstCoat {
            dubbing_out: area(measure.field) * depth(dubbing),
            lath_key: if strips > 0.0 {
                area(strips) * depth(site.lath_key)
            } else {
                Volume::default()
            },
            pockets: volume(face.pockets),
            coves: volume(measure.coves),
        },
    }
}

/// Keeps what is doubtful or refused, and nothing else.
struct Findings<'a> {
    wall: u32,
    side: Side,
    into: &'a mut Vec<Finding>,
}

impl Findings<'_> {
    fn push(&mut self, found: Found) {
        self.into.push(Finding {
            wall: self.wall,
            side: self.side,
            found,
        });
    }
}

impl Notes for Findings<'_> {
    fn doubt(&mut self, doubt: Doubt) {
        self.push(Found::Doubt(doubt));
    }

    fn refuse(&mut self, refusal: Refusal) {
        self.push(Found::Refusal(refusal));
    }
}
