//! Walls: outlines, faces, openings, reveals, corners, pockets, turned into checked geometry. Equal
//! reveals are kept once. Not here: refusals that only the measuring finds.

use super::position;
use super::values::Values;
use crate::checked::{CheckedFace, CheckedWall, Walls};
use crate::fields;
use crate::problem::{Place, Problem};
use crate::project::{
    ArchKind, CornerAngle, End, Inset, Opening, OpeningShape, Project, Reveal, RevealPart, Side,
    Wall, WallEnd, WallShape,
};
use ecow::eco_format;
use hodful_geometry as geometry;
use hodful_quantities::Typed;
use hodful_quantities::units::{Angle, Length};
use std::collections::HashMap;

/// What the walls come to.
#[derive(Debug)]
pub(super) struct Found {
    pub(super) walls: Walls,
    /// Walls in which nothing is refused, by position.
    pub(super) sound: Vec<bool>,
}

/// Different reveals, each once.
#[derive(Debug, Default)]
pub(crate) struct Reveals {
    list: Vec<geometry::Reveal>,
    known: HashMap<RevealKey, geometry::RevealIndex>,
    /// Whether one more was asked for than there may be.
    overflowed: bool,
}

impl Reveals {
    /// All of them, by their index.
    pub(crate) fn list(&self) -> &[geometry::Reveal] {
        &self.list
    }

    /// Whether one more was asked for than there may be; the walls that did so tell of it.
    pub(crate) fn overflowed(&self) -> bool {
        self.overflowed
    }
}

/// A reveal by the bits of its numbers, to find an equal one.
type RevealKey = ([u64; 6], u8);

/// Every wall, in the order of the project.
pub(super) fn check(project: &Project, values: &mut Values) -> Found {
    let mut walls = Walls::default();
    walls.entries.reserve_exact(project.walls.len());
    walls
        .openings
        .reserve_exact(project.walls.iter().map(|w| w.openings.len()).sum());
    let mut sound = Vec::with_capacity(project.walls.len());
    let mut reveals = Reveals::default();
    let mut ids = HashMap::with_capacity(project.walls.len());
    for (i, wall) in project.walls.iter().enumerate() {
        if let Some(before) = ids.insert(wall.id.as_str(), i) {
            values.push(twice(wall, before));
        }
        let before = values.count_of_problems();
        add(&mut walls, &mut reveals, project, wall, values);
        sound.push(values.count_of_problems() == before);
    }
    walls.reveals = reveals.list;
    Found { walls, sound }
}

/// The id of a wall stands at an earlier position already.
pub(crate) fn twice(wall: &Wall, before: usize) -> Problem {
    Problem::refused(
        wall_place(wall),
        eco_format!("the id stands twice, first as wall number {}", before + 1),
    )
}

/// Adds one wall to those that are checked.
pub(crate) fn add(
    walls: &mut Walls,
    reveals: &mut Reveals,
    project: &Project,
    wall: &Wall,
    values: &mut Values,
) {
    Adding { walls, reveals }.add(project, wall, values);
}

/// The place of a wall.
pub(crate) fn wall_place(wall: &Wall) -> Place {
    Place::project().thing("wall", wall.id.clone())
}

/// Where what is checked of a wall goes.
struct Adding<'a> {
    walls: &'a mut Walls,
    reveals: &'a mut Reveals,
}

impl Adding<'_> {
    fn add(&mut self, project: &Project, wall: &Wall, values: &mut Values) {
        let place = wall_place(wall);
        let count = values.count(&place, wall.count);
        let thickness = values
            .sound(&place, "thickness", &wall.thickness)
            .map(|t| t.value);
        let outline = Self::outline(wall, &place, values);
        values.name(&place, "id", &wall.id);
        if wall.outside.is_none() && wall.inside.is_none() {
            values.refuse(
                place.field("faces"),
                "no face is plastered; give outside, inside or both",
            );
        }
        let start = self.walls.openings.len();
        // A thickness that cannot be would be told again at every opening.
        let openings = if thickness.is_some() {
            wall.openings.as_slice()
        } else {
            &[]
        };
        for (i, opening) in openings.iter().enumerate() {
            let place = place.thing("opening", opening.id.clone());
            if wall
                .openings
                .iter()
                .take(i)
                .any(|other| other.id == opening.id)
            {
                values.refuse(place.clone(), "the id stands twice in the wall");
            }
            values.name(&place, "id", &opening.id);
            self.opening(wall, opening, thickness.unwrap_or_default(), &place, values);
        }
        let openings = range(start, self.walls.openings.len());
        let faces = [Side::Outside, Side::Inside].map(|side| {
            self.face(
                project,
                wall,
                side,
                outline.as_ref(),
                thickness,
                &place,
                values,
            )
        });
        self.walls.entries.push(CheckedWall {
            count,
            openings,
            thickness: thickness.unwrap_or_default(),
            faces,
        });
    }

    fn outline(wall: &Wall, place: &Place, values: &mut Values) -> Option<geometry::Outline> {
        let mm = |typed: &Typed<Length>| typed.value().value;
        let shape = match &wall.shape {
            WallShape::Rectangle { length, height } => geometry::OutlineShape::Rectangle {
                length: mm(length),
                height: mm(height),
            },
            WallShape::Gable {
                length,
                eaves,
                ridge,
                ridge_from_left,
            } => geometry::OutlineShape::Gable {
                length: mm(length),
                eaves: mm(eaves),
                ridge: mm(ridge),
                ridge_from_left: ridge_from_left.as_ref().map_or(mm(length) / 2.0, mm),
            },
            WallShape::Raked {
                length,
                left,
                right,
            } => geometry::OutlineShape::Raked {
                length: mm(length),
                left: mm(left),
                right: mm(right),
            },
            WallShape::Polygon { corners } => geometry::OutlineShape::Polygon {
                corners: points(corners),
            },
            WallShape::Curved {
                radius,
                sweep,
                length,
                height,
            } => {
                let extent = match (sweep, length) {
                    (Some(sweep), None) => geometry::Extent::Sweep(sweep.value().value),
                    (None, Some(length)) => geometry::Extent::Length(mm(length)),
                    _ => {
                        values.refuse(
                            place.field("shape"),
                            "a curved wall takes either a sweep or a length, one of the two",
                        );
                        return None;
                    }
                };
                geometry::OutlineShape::Curved {
                    radius: mm(radius),
                    extent,
                    height: mm(height),
                }
            }
        };
        geometry::Outline::new(shape)
            .map_err(|faults| {
                values.faults(place, faults, |field| {
                    fields::wall_shape(&wall.shape, field)
                });
            })
            .ok()
    }

    #[allow(
        clippy::too_many_arguments,
        reason = "one wall's context, used here alone"
    )]
    fn face(
        &mut self,
        project: &Project,
        wall: &Wall,
        side: Side,
        outline: Option<&geometry::Outline>,
        thickness: Option<f64>,
        place: &Place,
        values: &mut Values,
    ) -> Option<CheckedFace> {
        let place = place.field(side.word());
        let corners = wall.ends.iter().filter(|end| end.face == side);
        let pockets = wall.pockets.iter().filter(|pocket| pocket.face == side);
        let Some(face) = wall.face(side) else {
            for end in corners {
                let end = place.field(end.end.word());
                values.refuse(end, "has a corner, but this face is not plastered");
            }
            if pockets.count() > 0 {
                values.refuse(place, "has a pocket, but this face is not plastered");
            }
            return None;
        };
        let background = position(
            values,
            &place.field("background"),
            "background",
            &face.background,
            &project.backgrounds,
        );
        let build_up = position(
            values,
            &place.field("build_up"),
            "build-up",
            &face.build_up,
            &project.build_ups,
        );
        if let Some(facing) = &face.facing
            && super::work::facing(facing).is_none()
        {
            let message = eco_format!("'{facing}' {}", super::work::NO_FACING);
            values.refuse(place.field("facing"), message);
        }
        let start = self.walls.ends.len();
        for (i, end) in corners.clone().enumerate() {
            if corners.clone().take(i).any(|other| other.end == end.end) {
                let place = place.thing("corner", end.end.word());
                values.refuse(place, "stands twice; a corner is entered once");
            }
            self.corner(end, &place, values);
        }
        let ends = range(start, self.walls.ends.len());
        let pockets = pockets
            .map(|pocket| {
                let place = place.field("pocket");
                let mut side =
                    |field, typed: &Typed<Length>| values.above_nothing(&place, field, typed).value;
                side("width", &pocket.width)
                    * side("height", &pocket.height)
                    * side("depth", &pocket.depth)
                    * f64::from(values.count(&place, pocket.count))
            })
            .sum();
        let inset = face.inset.as_deref();
        let ceiling = inset.and_then(|inset| inset.ceiling.as_ref());
        let (outline, thickness) = (outline?, thickness?);
        let under = match ceiling {
            Some(ceiling) => outline.under(ceiling.value().value),
            None => Ok(outline.clone()),
        };
        let side = geometry_side(side);
        let outline = under
            .and_then(|outline| outline.face(side, thickness, &geometry_inset(inset)))
            .map_err(|faults| {
                values.faults(&place, faults, |field| {
                    inset
                        .and_then(|inset| fields::inset(inset, field))
                        .or_else(|| {
                            (field == "thickness").then(|| wall.thickness.text().to_owned())
                        })
                });
            })
            .ok()?;
        Some(CheckedFace {
            outline,
            ends,
            build_up: u16::try_from(build_up?).ok()?,
            background: u16::try_from(background?).ok()?,
            pockets,
        })
    }

    fn corner(&mut self, end: &WallEnd, place: &Place, values: &mut Values) {
        let place = place.thing("corner", end.end.word());
        let mm = |typed: &Option<Typed<Length>>| typed.as_ref().map_or(0.0, |t| t.value().value);
        let angle = match end.angle {
            CornerAngle::External => {
                if end.cove.is_some() {
                    values.refuse(
                        place.field("cove"),
                        "goes with an internal angle; an external corner takes a radius",
                    );
                }
                geometry::Angle::External {
                    radius: mm(&end.radius),
                }
            }
            CornerAngle::Internal => {
                if end.radius.is_some() {
                    values.refuse(
                        place.field("radius"),
                        "goes with an external corner; an internal angle takes a cove",
                    );
                }
                geometry::Angle::Internal {
                    cove: mm(&end.cove),
                }
            }
        };
        let spec = geometry::EndSpec {
            end: match end.end {
                End::Left => geometry::End::Left,
                End::Right => geometry::End::Right,
            },
            angle,
            turn: end
                .turn
                .as_ref()
                .map_or(std::f64::consts::FRAC_PI_2, |turn| turn.value().value),
        };
        match geometry::FaceEnd::new(spec) {
            Ok(end) => self.walls.ends.push(end),
            Err(mut faults) => {
                for fault in &mut faults {
                    if fault.field == "radius" && end.cove.is_some() {
                        fault.field = "cove";
                    }
                }
                values.faults(&place, faults, |field| fields::corner(end, field));
            }
        }
    }

    fn opening(
        &mut self,
        wall: &Wall,
        opening: &Opening,
        thickness: f64,
        place: &Place,
        values: &mut Values,
    ) {
        let count = values.count(place, opening.count);
        let frame = opening.frame.as_ref();
        if frame.is_none() && (opening.outside.is_some() || opening.inside.is_some()) {
            values.refuse(
                place.field("frame"),
                "reveals need to know where the frame stands; give from_outside and depth",
            );
            return;
        }
        let depth_of = |typed: Option<&Typed<Length>>| typed.map_or(0.0, |t| t.value().value);
        let reveals = [Side::Outside, Side::Inside].map(|side| {
            let reveal = opening.reveal(side)?;
            if wall.face(side).is_none() {
                values.refuse(
                    place.field(side.word()),
                    "has reveals, but this face of the wall is not plastered",
                );
            }
            self.reveal(reveal, &place.field(side.word()), values)
        });
        if let OpeningShape::Arched {
            width,
            rise: Some(rise),
            head: Some(ArchKind::Semicircular),
            ..
        } = &opening.shape
            && rise.value() != width.value() / 2.0
        {
            values.refuse(
                place.field("rise"),
                eco_format!(
                    "'{}' is not half of the width '{}'; leave it out of a semicircle, or write head \"segmental\"",
                    rise.text(),
                    width.text()
                ),
            );
        }
        let spec = geometry::OpeningSpec {
            shape: opening_shape(&opening.shape),
            from_left: opening.from_left.value().value,
            sill: opening.sill.value().value,
            from_outside: depth_of(frame.map(|f| &f.from_outside)),
            frame_depth: depth_of(frame.map(|f| &f.depth)),
            count,
            spacing: opening.spacing.as_ref().map(|t| t.value().value),
            reveals,
        };
        let text = |field: &str| fields::opening(opening, field);
        match geometry::Opening::new(spec) {
            Ok(checked) => {
                let fits = checked.fits(thickness);
                let suits = fits.is_empty();
                values.faults(place, fits, text);
                for (side, index) in [Side::Outside, Side::Inside].into_iter().zip(reveals) {
                    let Some(reveal) = index.and_then(|i| self.reveals.list.get(i.get())) else {
                        continue;
                    };
                    if !suits {
                        continue;
                    }
                    let faults = checked.accepts(reveal, geometry_side(side), thickness);
                    values.faults(&place.field(side.word()), faults, |field| {
                        opening
                            .reveal(side)
                            .and_then(|reveal| fields::reveal(reveal, field))
                    });
                }
                self.walls.openings.push(checked);
            }
            Err(faults) => values.faults(place, faults, text),
        }
    }

    /// The position of a reveal among those known, entered when it is new.
    fn reveal(
        &mut self,
        reveal: &Reveal,
        place: &Place,
        values: &mut Values,
    ) -> Option<geometry::RevealIndex> {
        let angle = |typed: Option<&Typed<Angle>>| typed.map_or(0.0, |t| t.value().value);
        let length = |typed: Option<&Typed<Length>>| typed.map_or(0.0, |t| t.value().value);
        let splay = reveal.splay.as_deref();
        let plastered = |part| reveal.plastered.contains(&part);
        let spec = geometry::RevealSpec {
            plastered: geometry::Parts {
                jambs: plastered(RevealPart::Jambs),
                head: plastered(RevealPart::Head),
                sill: plastered(RevealPart::Sill),
                ring: plastered(RevealPart::Ring),
            },
            splay: geometry::Splay {
                jambs: angle(splay.and_then(|s| s.jambs.as_ref())),
                head: angle(splay.and_then(|s| s.head.as_ref())),
                sill: angle(splay.and_then(|s| s.sill.as_ref())),
                ring: angle(splay.and_then(|s| s.ring.as_ref())),
            },
            radius: length(reveal.radius.as_ref()),
            lath: length(reveal.lath.as_ref()),
        };
        let key = reveal_key(&spec);
        if let Some(known) = self.reveals.known.get(&key) {
            return Some(*known);
        }
        let checked = geometry::Reveal::new(spec)
            .map_err(|faults| values.faults(place, faults, |field| fields::reveal(reveal, field)))
            .ok()?;
        let Some(index) = geometry::RevealIndex::new(self.reveals.list.len()) else {
            self.reveals.overflowed = true;
            values.refuse(
                place.clone(),
                "one project holds at most 65,535 different reveals",
            );
            return None;
        };
        self.reveals.list.push(checked);
        self.reveals.known.insert(key, index);
        Some(index)
    }
}

fn reveal_key(spec: &geometry::RevealSpec) -> RevealKey {
    let geometry::Parts {
        jambs,
        head,
        sill,
        ring,
    } = spec.plastered;
    let flags = [jambs, head, sill, ring]
        .into_iter()
        .fold(0, |flags, flag| flags << 1 | u8::from(flag));
    let geometry::Splay {
        jambs,
        head,
        sill,
        ring,
    } = spec.splay;
    (
        [jambs, head, sill, ring, spec.radius, spec.lath].map(f64::to_bits),
        flags,
    )
}

fn opening_shape(shape: &OpeningShape) -> geometry::OpeningShape {
    let mm = |typed: &Typed<Length>| typed.value().value;
    match shape {
        OpeningShape::Rectangle { width, height } => geometry::OpeningShape::Rectangle {
            width: mm(width),
            height: mm(height),
        },
        OpeningShape::Arched {
            width,
            springing,
            rise,
            head,
        } => {
            let rise = rise.as_ref().map_or(mm(width) / 2.0, mm);
            geometry::OpeningShape::Arched {
                width: mm(width),
                springing: mm(springing),
                head: match head.unwrap_or(ArchKind::Segmental) {
                    ArchKind::Segmental => geometry::ArchHead::Segmental { rise },
                    ArchKind::Semicircular => geometry::ArchHead::Semicircular,
                    ArchKind::Elliptical => geometry::ArchHead::Elliptical { rise },
                },
            }
        }
        OpeningShape::Circle { diameter } => geometry::OpeningShape::Circle {
            diameter: mm(diameter),
        },
        OpeningShape::Polygon { corners } => geometry::OpeningShape::Polygon {
            corners: points(corners),
        },
    }
}

fn points(corners: &[[Typed<Length>; 2]]) -> Vec<[f64; 2]> {
    corners
        .iter()
        .map(|[u, v]| [u.value().value, v.value().value])
        .collect()
}

fn geometry_inset(inset: Option<&Inset>) -> geometry::Inset {
    let mm = |typed: Option<&Typed<Length>>| typed.map_or(0.0, |t| t.value().value);
    geometry::Inset {
        left: mm(inset.and_then(|i| i.left.as_ref())),
        right: mm(inset.and_then(|i| i.right.as_ref())),
        top: mm(inset.and_then(|i| i.top.as_ref())),
        bottom: mm(inset.and_then(|i| i.bottom.as_ref())),
    }
}

/// The side of the wall as the geometry names it.
pub(crate) fn geometry_side(side: Side) -> geometry::Side {
    match side {
        Side::Outside => geometry::Side::Outside,
        Side::Inside => geometry::Side::Inside,
    }
}

/// A range of positions; past four thousand million it is empty, which no memory reaches.
fn range(start: usize, end: usize) -> std::ops::Range<u32> {
    match (u32::try_from(start), u32::try_from(end)) {
        (Ok(start), Ok(end)) => start..end,
        _ => 0..0,
    }
}
