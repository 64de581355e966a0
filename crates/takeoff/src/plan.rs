//! From the plan of a building to its walls, and from walls back to a plan that can be drawn.
//!
//! A plan is a rectangle, a round, an L or a ring of sides and turns, with height, thickness, and what
//! the faces are plastered with. [`walls`] gives a wall for each side: both faces, the inside as long as
//! the thickness leaves it, and each corner once. [`rings`] and [`of_walls`] go the other way.
//!
//! The rules, which hold for every plan:
//!
//! - **Going round.** The ring is walked with the building on the left: anticlockwise on a plan with
//!   north up, the first side along the south. A turn is taken after its side: to the left it is more
//!   than 0 and makes an ordinary corner, to the right less than 0 and makes a re-entrant one. So the
//!   right end of each wall, seen from outside, meets the left end of the next.
//! - **Sizes** are those of the outside faces, or all of the inside ones, as [`Measured`] says.
//! - **Corners.** Where the building turns left by φ, the inside face is shorter than the outside one by
//!   t·tan(φ/2) (plane geometry of two parallel lines), which becomes the inset at that end of the
//!   inside. Where it turns right, the inside face is the longer one. Insets are never negative, so the
//!   outline of such a wall reaches to the inside corner and the outside face has the inset: `length` is
//!   then the outside length and t·tan(φ/2) for every re-entrant end, and what is measured from the left
//!   end of the wall is measured from the inside corner where that end is re-entrant.
//! - **A corner is entered once**, at the right end of its wall: outside external with the radius,
//!   inside internal with the cove; at a re-entrant corner the other way round.
//! - **Texts.** A size that can be handed on is, to the letter. One that has to be worked out is written
//!   to a 64th or a thousandth of an inch, or to a hundredth of a millimetre.
//!
//! Not here: openings, gables, drawing, files.

mod build;
mod closing;
mod ids;
mod ring;
mod sides;
mod text;
mod tolerance;
mod turn;

#[cfg(test)]
mod tests;

pub use ring::{Ring, RingWall, of_walls, rings};
pub use turn::read_turn;

use crate::project::{Name, Wall};
use ecow::EcoString;
use hodful_quantities::Typed;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::units::{Angle, Length};

/// The plan of a building.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// The outline on plan.
    pub shape: PlanShape,
    /// Which faces the sizes of the outline are taken along.
    pub measured: Measured,
    /// Height of every wall.
    pub height: Typed<Length>,
    /// Thickness of every wall, without plaster.
    pub thickness: Typed<Length>,
    /// Where the plaster of the outside face begins above the bottom of the wall.
    pub base: Option<Typed<Length>>,
    /// Height of a level ceiling above the bottom of the wall, where the inside face ends.
    pub ceiling: Option<Typed<Length>>,
    /// Radius of the external corners of the outside face; sharp when not given.
    pub radius: Option<Typed<Length>>,
    /// The outside face, when it is plastered.
    pub outside: Option<FacePlan>,
    /// The inside face, when it is plastered.
    pub inside: Option<FacePlan>,
    /// The units that worked-out sizes and messages are written in.
    pub units: UnitSystem,
}

impl Plan {
    /// A plan with outside sizes and nothing but its shape, height and thickness. One of the faces has
    /// still to be given before [`walls`] takes it.
    pub fn new(
        shape: PlanShape,
        height: Typed<Length>,
        thickness: Typed<Length>,
        units: UnitSystem,
    ) -> Self {
        Self {
            shape,
            measured: Measured::Outside,
            height,
            thickness,
            base: None,
            ceiling: None,
            radius: None,
            outside: None,
            inside: None,
            units,
        }
    }
}

/// Which faces the sizes of an outline are taken along.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Measured {
    /// Along the outside faces.
    #[default]
    Outside,
    /// Along the inside faces.
    Inside,
}

/// The outline of a building on plan.
#[derive(Debug, Clone, PartialEq)]
pub enum PlanShape {
    /// Four walls at right angles.
    Rectangle {
        /// Length of the first and third side (south and north).
        length: Typed<Length>,
        /// Length of the second and fourth side (east and west).
        width: Typed<Length>,
    },
    /// One wall all the way round.
    Round {
        /// Diameter.
        diameter: Typed<Length>,
    },
    /// A rectangle with a smaller one cut out of the corner between the second and the third side (the
    /// north-east corner).
    Ell {
        /// Length of the whole rectangle.
        length: Typed<Length>,
        /// Width of the whole rectangle.
        width: Typed<Length>,
        /// What is cut out of the length.
        cut_length: Typed<Length>,
        /// What is cut out of the width.
        cut_width: Typed<Length>,
    },
    /// Any ring of sides, walked with the building on the left.
    Ring {
        /// The sides, in order.
        sides: Vec<PlanSide>,
    },
}

/// One side of a ring.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanSide {
    /// Its length.
    pub length: Typed<Length>,
    /// The turn after it: more than 0 to the left, less than 0 to the right, 0 straight on; at most 170
    /// degrees. When not given 90 degrees to the left, and after the last side what is left of a full
    /// turn. See [`read_turn`] for `left` and `right` in words.
    pub turn: Option<Typed<Angle>>,
}

/// What a face of every wall is to have.
#[derive(Debug, Clone, PartialEq)]
pub struct FacePlan {
    /// Name of the background.
    pub background: Name,
    /// Name of the build-up.
    pub build_up: Name,
    /// Where the plaster begins above the bottom of the wall; outside [`Plan::base`] when not given.
    pub base: Option<Typed<Length>>,
    /// How far it stops short of the top (inside: of the ceiling when there is one).
    pub top: Option<Typed<Length>>,
    /// Radius of the external corners of this face; outside [`Plan::radius`] when not given. The inside
    /// face has external corners where the building is re-entrant.
    pub radius: Option<Typed<Length>>,
    /// Finished radius of the coves in the internal angles of this face; square when not given. The
    /// outside face has internal angles where the building is re-entrant.
    pub cove: Option<Typed<Length>>,
}

impl FacePlan {
    /// A face plastered from bottom to top.
    pub fn new(background: impl Into<Name>, build_up: impl Into<Name>) -> Self {
        Self {
            background: background.into(),
            build_up: build_up.into(),
            base: None,
            top: None,
            radius: None,
            cove: None,
        }
    }
}

/// The walls of a plan, in the order of its sides, with ids that are not among `taken`.
///
/// A rectangle gets S, E, N and W (the first side is S), a round R, anything else A, B, C and so on;
/// when one of a set is taken, a number is added to all of it. The radius, base and ceiling of a face
/// that is not plastered are let go.
///
/// # Errors
/// Every fault in words, each with its place in the plan first: no face plastered; a size that is not
/// above nothing or over 10 km; what leaves nothing of a face; a turn over 170 degrees; turns that are
/// not once round; a ring that does not close, with by how much and which side would close it; one that
/// crosses itself; walls too thick for the plan; corners too round for their sides.
///
/// # Examples
/// ```
/// use hodful_quantities::{Typed, print::UnitSystem};
/// use hodful_takeoff::plan::{FacePlan, Plan, PlanShape, walls};
/// let size = |text: &str| Typed::read(text);
/// let shape = PlanShape::Rectangle { length: size("36'")?, width: size("24'")? };
/// let mut plan = Plan::new(shape, size("9'")?, size("18 in")?, UnitSystem::Us);
/// plan.inside = Some(FacePlan::new("bale", "inside bale"));
/// let walls = walls(&plan, &["N".into()]).unwrap();
/// let ids: Vec<&str> = walls.iter().map(|wall| wall.id.as_str()).collect();
/// assert_eq!(ids, ["S2", "E2", "N2", "W2"]);
/// let inset = walls[0].inside.as_ref().and_then(|face| face.inset.clone()).unwrap();
/// assert_eq!(inset.left.as_ref().map(Typed::text), Some("18 in"));
/// # Ok::<(), hodful_quantities::Misread>(())
/// ```
pub fn walls(plan: &Plan, taken: &[Name]) -> Result<Vec<Wall>, Vec<EcoString>> {
    let mut faults = Faults::default();
    let sizes = build::sizes(plan, &mut faults);
    let outline = sides::outline(plan, &mut faults);
    if let Some(sides::Outline::Ring(ring)) = &outline {
        closing::check(ring, sizes.thickness, plan, &mut faults);
    }
    if let Some(outline) = &outline {
        build::fits(plan, outline, &sizes, &mut faults);
    }
    let built = match (outline, sizes.thickness) {
        (Some(outline), Some(thickness)) if faults.0.is_empty() => {
            build::walls(plan, &outline, thickness, taken, &mut faults)
        }
        _ => Vec::new(),
    };
    if faults.0.is_empty() {
        Ok(built)
    } else {
        Err(faults.0)
    }
}

/// The corners of the outside outline on plan, in millimetres: the first at `[0, 0]`, the first side
/// along the first axis, the building to its left. A round is drawn with chords.
///
/// A ring that closes within what [`walls`] lets pass has a corner a side, and the little it does not
/// close by is spread over it. One that does not has its loose end as one corner more, so that the gap is
/// seen while the plan is being typed. Sizes that cannot be give no corners. With inside sizes and a
/// thickness that cannot be, the corners are those of the inside.
pub fn corners(plan: &Plan) -> Vec<[f64; 2]> {
    let mut ignored = Faults::default();
    let thickness = build::sizes(plan, &mut ignored).thickness;
    match sides::outline(plan, &mut Faults::default()) {
        None => Vec::new(),
        Some(sides::Outline::Round { diameter }) => {
            let more = match plan.measured {
                Measured::Outside => 0.0,
                Measured::Inside => thickness.unwrap_or_default(),
            };
            ring::circle(diameter / 2.0 + more)
        }
        Some(sides::Outline::Ring(ring)) => {
            let lengths = ring.outside_lengths(plan.measured, thickness.unwrap_or_default());
            closing::outline(&ring, &lengths)
        }
    }
}

/// Faults in words, each once.
#[derive(Debug, Default)]
struct Faults(Vec<EcoString>);

impl Faults {
    fn add(&mut self, fault: impl Into<EcoString>) {
        let fault = fault.into();
        if !self.0.contains(&fault) {
            self.0.push(fault);
        }
    }

    /// A length in millimetres that may be 0.
    fn length(&mut self, place: &str, typed: &Typed<Length>) -> Option<f64> {
        let mm = typed.value().value;
        let why = if !mm.is_finite() {
            "is not a length that can be built"
        } else if mm < 0.0 {
            "is negative"
        } else if mm > tolerance::LONGEST {
            "is over 10 km"
        } else {
            return Some(mm);
        };
        self.add(ecow::eco_format!("{place}: '{}' {why}", typed.text()));
        None
    }

    /// A length in millimetres that must be more than 0.
    fn size(&mut self, place: &str, typed: &Typed<Length>) -> Option<f64> {
        let mm = self.length(place, typed)?;
        if mm < tolerance::LEAST_SIZE {
            self.add(ecow::eco_format!(
                "{place}: '{}' must be at least a millimetre",
                typed.text()
            ));
            return None;
        }
        Some(mm)
    }
}
