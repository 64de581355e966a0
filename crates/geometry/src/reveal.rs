//! The plastered lining of an opening on one side of its frame: which parts, how splayed, how rounded, how lathed.
//!
//! The trigonometry of a reveal is done once, here. What a reveal comes to on an opening is measured elsewhere.

use core::f64::consts::FRAC_PI_2;

use crate::fault::{Fault, Faults, number_fault};
use crate::tolerance::MAX_SPLAY;

/// One part of a reveal.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Part {
    /// Both upright sides.
    #[default]
    Jambs,
    /// The underside at the top; of an arched opening its arch.
    Head,
    /// The bottom.
    Sill,
    /// All the way round a round or many-sided opening.
    Ring,
}

/// Which parts of a reveal are plastered.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "four parts, each plastered or not"
)]
pub struct Parts {
    /// Both jambs.
    pub jambs: bool,
    /// The head, or the arch.
    pub head: bool,
    /// The sill.
    pub sill: bool,
    /// All the way round: the only part of a round or many-sided opening; on others it stands for jambs, head and sill.
    pub ring: bool,
}

/// How far each part turns out of square with the wall, in radians; zero is square.
///
/// On an opening with jambs, head and sill, `ring` stands for each of them whose own splay is zero.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Splay {
    /// Of both jambs.
    pub jambs: f64,
    /// Of the head.
    pub head: f64,
    /// Of the sill.
    pub sill: f64,
    /// Of the ring.
    pub ring: f64,
}

/// A reveal as typed. Lengths in millimetres, angles in radians.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RevealSpec {
    /// Which parts are plastered. The others still open the hole by their splay.
    pub plastered: Parts,
    /// Splay of each part.
    pub splay: Splay,
    /// Radius of the background's edge between face and reveal; zero is a sharp arris.
    pub radius: f64,
    /// Width of metal lath along that edge.
    pub lath: f64,
}

/// A checked reveal, its trigonometry done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reveal {
    spec: RevealSpec,
    jambs: Bevel,
    head: Bevel,
    sill: Bevel,
    ring: Bevel,
    /// Surface lost per millimetre of offset and of depth by the fold between one jamb and the head, in mm/mm.
    head_fold: f64,
    /// The same between one jamb and the sill.
    sill_fold: f64,
}

/// One part of a reveal and its edge with the face.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Bevel {
    pub(crate) plastered: bool,
    pub(crate) splay: f64,
    pub(crate) tan: f64,
    pub(crate) secant: f64,
    /// Turn of the surface from face to reveal, in radians.
    pub(crate) turn: f64,
    /// Width each side loses to a rounded edge, in millimetres.
    pub(crate) strip: f64,
    /// Width of the rounded edge, in millimetres.
    pub(crate) arc: f64,
    /// Surface gained per millimetre of offset and of edge.
    pub(crate) growth: f64,
}

impl Bevel {
    const SQUARE: Self = Self {
        plastered: false,
        splay: 0.0,
        tan: 0.0,
        secant: 1.0,
        turn: FRAC_PI_2,
        strip: 0.0,
        arc: 0.0,
        growth: 0.0,
    };

    fn new(plastered: bool, splay: f64, radius: f64) -> Self {
        let turn = FRAC_PI_2 - splay;
        Self {
            plastered,
            splay,
            tan: libm::tan(splay),
            secant: 1.0 / libm::cos(splay),
            ..Self::SQUARE
        }
        .with_edge(turn, libm::tan(turn / 2.0), radius)
    }

    /// The same part with another edge.
    pub(crate) fn with_edge(self, turn: f64, half_tan: f64, radius: f64) -> Self {
        let rounded = radius > 0.0;
        Self {
            turn,
            strip: radius * half_tan,
            arc: radius * turn,
            growth: if rounded { turn } else { 2.0 * half_tan },
            ..self
        }
    }

    fn sine(&self) -> f64 {
        self.tan / self.secant
    }
}

impl Reveal {
    /// What stands in for a reveal where there is none: nothing plastered, nothing splayed.
    pub(crate) const BARE: Self = Self {
        spec: RevealSpec {
            plastered: Parts {
                jambs: false,
                head: false,
                sill: false,
                ring: false,
            },
            splay: Splay {
                jambs: 0.0,
                head: 0.0,
                sill: 0.0,
                ring: 0.0,
            },
            radius: 0.0,
            lath: 0.0,
        },
        jambs: Bevel::SQUARE,
        head: Bevel::SQUARE,
        sill: Bevel::SQUARE,
        ring: Bevel::SQUARE,
        head_fold: 0.0,
        sill_fold: 0.0,
    };

    /// Checks a reveal.
    ///
    /// # Errors
    /// Every fault: a splay that is not finite, negative, or at or over 80° (`"splay.jambs"` and so on); a radius or a width of
    /// lath that is not finite, negative or over 10 km. Whether the parts suit an opening is for [`crate::Opening::accepts`].
    pub fn new(spec: RevealSpec) -> Result<Self, Vec<Fault>> {
        let mut faults = Faults::default();
        let RevealSpec {
            plastered,
            splay,
            radius,
            lath,
        } = spec;
        for (field, angle) in [
            ("splay.jambs", splay.jambs),
            ("splay.head", splay.head),
            ("splay.sill", splay.sill),
            ("splay.ring", splay.ring),
        ] {
            if let Some(why) = number_fault(angle) {
                faults.add(field, why);
            } else if angle >= MAX_SPLAY {
                faults.add(field, "is at or over 80°");
            }
        }
        faults.length("radius", radius);
        faults.length("lath", lath);
        if !faults.is_empty() {
            return Err(faults.into_vec());
        }
        let part = |on: bool, own: f64| {
            let splay = if own > 0.0 { own } else { splay.ring };
            Bevel::new(on || plastered.ring, splay, radius)
        };
        let jambs = part(plastered.jambs, splay.jambs);
        let head = part(plastered.head, splay.head);
        let sill = part(plastered.sill, splay.sill);
        Ok(Self {
            spec,
            jambs,
            head,
            sill,
            ring: Bevel::new(plastered.ring, splay.ring, radius),
            head_fold: fold(&jambs, &head),
            sill_fold: fold(&jambs, &sill),
        })
    }

    /// The reveal as it was typed.
    pub fn spec(&self) -> &RevealSpec {
        &self.spec
    }

    /// Whether it names jambs, head or sill, which a round or many-sided opening does not have.
    pub(crate) fn names_sides(&self) -> bool {
        let RevealSpec {
            plastered, splay, ..
        } = self.spec;
        plastered.jambs
            || plastered.head
            || plastered.sill
            || splay.jambs > 0.0
            || splay.head > 0.0
            || splay.sill > 0.0
    }

    pub(crate) fn jambs(&self) -> &Bevel {
        &self.jambs
    }

    pub(crate) fn head(&self) -> &Bevel {
        &self.head
    }

    pub(crate) fn sill(&self) -> &Bevel {
        &self.sill
    }

    pub(crate) fn ring(&self) -> &Bevel {
        &self.ring
    }

    pub(crate) fn radius(&self) -> f64 {
        self.spec.radius
    }

    pub(crate) fn lath(&self) -> f64 {
        self.spec.lath
    }

    pub(crate) fn head_fold(&self) -> f64 {
        self.head_fold
    }

    pub(crate) fn sill_fold(&self) -> f64 {
        self.sill_fold
    }
}

/// The internal angle where a jamb meets the head or the sill, both plastered: −2·tan(ψ/2) per millimetre of the fold, and the
/// fold is √(1 + tan²α + tan²β) long per millimetre of depth. The normals of the two planes give cos ψ = sin α · sin β.
fn fold(jamb: &Bevel, other: &Bevel) -> f64 {
    if !(jamb.plastered && other.plastered) {
        return 0.0;
    }
    let run = (1.0 + jamb.tan * jamb.tan + other.tan * other.tan).sqrt();
    -2.0 * crate::arch::half_turn_tan(jamb.sine() * other.sine()) * run
}
