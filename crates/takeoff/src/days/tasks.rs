//! Each coat of each face as a task, with its water and its waits. Not here: drying, and people and rates (see `site`).

use super::DayTask;
use crate::caution::HIGH;
use crate::check::work::dried::CheckedDried;
use crate::check::work::facing;
use crate::check::work::rooms::CheckedRoom;
use crate::checked::{CheckedMix, FindWall};
use crate::compare::One;
use crate::forecast::parts;
use crate::project::{BackgroundKind, MaterialKind, Name, Rain, Side};
use ecow::{EcoString, eco_format};
use hodful_air::drying::{Record, mixing_water_kg_m2};
use hodful_air::frost::Binder;
use hodful_air::outside::Stand;
use hodful_quantities::units::{Mass, kilogram, liter};
use hodful_workplan::published::WAITS;

/// Litres of mixing water for each m² and mm when the mix does not say: `mixing_water_kg_m2` has the source.
const WATER_L_M2_MM: f64 = 0.5;

/// Dry mass of plaster for each litre on the wall when the mix does not say, kg. Ours: earth plaster of sand is 1.6
/// to 1.9 (common practice, no source).
const DRY_KG_L: f64 = 1.7;

/// A task with what its drying goes by.
#[derive(Debug, Clone)]
pub(super) struct Found {
    pub(super) task: DayTask,
    /// Positions of build-up and coat.
    at: (usize, usize),
    /// How an outside face stands; nothing inside.
    pub(super) stand: Option<Stand>,
    /// Which of all faces it is on.
    face: usize,
    /// Hours that what comes after must wait, and whether it must be dry besides.
    pub(super) wait: (f64, bool),
    /// Position of the wall.
    pub(super) wall: usize,
    /// Position of the room an inside face is in.
    pub(super) room: Option<usize>,
    /// Whether lime wash comes on it.
    pub(super) has_lime_wash: bool,
    /// Real time of drying over the told one.
    pub(super) record: Record,
    /// Whether it stands on a coat that is on the wall already.
    pub(super) on_recorded: bool,
}

impl Found {
    /// Whether it is of the same face and build-up.
    pub(super) fn is_beside(&self, other: &Self) -> bool {
        self.face == other.face && self.at.0 == other.at.0
    }

    /// Whether it lies under another coat of the same face.
    pub(super) fn is_under(&self, other: &Self) -> bool {
        self.face == other.face && self.at.0 == other.at.0 && self.at.1 < other.at.1
    }

    /// A task of a face of its own.
    #[cfg(test)]
    pub(super) fn of_one_face(task: DayTask, stand: Option<Stand>) -> Self {
        Self {
            task,
            at: (0, 0),
            stand,
            face: 0,
            wait: (0.0, true),
            wall: 0,
            room: None,
            has_lime_wash: false,
            record: Record::NONE,
            on_recorded: false,
        }
    }
}

impl CheckedDried<'_> {
    /// Whether it is about that coat.
    pub(super) fn is_of(&self, of: &Found) -> bool {
        self.walls.contains(&of.wall) && self.side == of.task.side && *self.coat == of.task.coat
    }
}

/// Every coat that can be told, wall by wall, outside before inside, from the wall outwards.
pub(super) fn all(
    one: &One<'_>,
    walls: &dyn FindWall,
    rooms: &[CheckedRoom],
    notes: &mut Vec<EcoString>,
) -> Vec<Found> {
    let mut found = Vec::new();
    let mut assumed = Assumed::default();
    let mut face = 0;
    for (number, wall) in one.project.walls.iter().enumerate() {
        for side in [Side::Outside, Side::Inside] {
            let Some(typed) = wall.face(side) else {
                continue;
            };
            let top = walls
                .find(number)
                .and_then(|wall| Some(wall.entry.face(side)?.outline.bounds().top));
            face += 1;
            let room = rooms
                .iter()
                .position(|room| side == Side::Inside && room.walls.contains(&number));
            let background = one.project.backgrounds.get(&typed.background);
            let on_straw = background.is_some_and(|of| of.kind == BackgroundKind::StrawBale);
            let stand = (side == Side::Outside).then(|| {
                let azimuth = typed.facing.as_deref().and_then(facing);
                assumed.facing |= azimuth.is_none() && typed.shaded != Some(true);
                let shaded = azimuth.is_none() || typed.shaded == Some(true);
                let stand = Stand::new(azimuth.unwrap_or_default(), shaded).ok()?;
                let covered = typed.rain == Some(Rain::Sheltered);
                Some(if covered { stand.covered() } else { stand })
            });
            for part in parts(one, walls, number, side) {
                let (Some(mixed), Some([placed, wet])) = (part.mixed, part.on_wall) else {
                    continue;
                };
                if !(mixed > 0.0 && part.area > 0.0) {
                    continue;
                }
                let (b, c) = part.at;
                let Some((build_up, coats)) = one.project.build_ups.get_index(b) else {
                    continue;
                };
                let coat = one.site.build_ups.get(b).and_then(|layers| layers.get(c));
                let mix = coat.and_then(|layer| one.site.mix(layer.mix?));
                let (Some(mix), Some(name)) = (mix, coats.get(c)) else {
                    continue;
                };
                let thickness_mm = placed / part.area;
                let content = content(mix, wet, part.area, thickness_mm, &mut assumed);
                let binder = binder(one, mix);
                if let Some(finish) = name.weather_finish.as_ref()
                    && !assumed.finishes.contains(finish)
                {
                    assumed.finishes.push(finish.clone());
                }
                found.push(Found {
                    task: DayTask {
                        wall: wall.id.clone(),
                        side,
                        build_up: build_up.clone(),
                        coat: part.coat.clone(),
                        mix: name.mix.clone(),
                        m2: part.area / 1e6,
                        litres: mixed / 1e6,
                        thickness_mm,
                        water_kg_m2: content[0],
                        dry_kg_m2: content[1],
                        binder,
                        is_high: top.is_some_and(|top| top > HIGH),
                        on_straw: on_straw && c == 0,
                        room: room
                            .and_then(|at| rooms.get(at))
                            .map(|room| room.name.clone()),
                        open: None,
                        drying: None,
                        nights: Vec::new(),
                        hasty: Vec::new(),
                        rain: Vec::new(),
                        cautions: Vec::new(),
                    },
                    at: part.at,
                    stand: stand.flatten(),
                    face,
                    wait: wait(
                        binder,
                        holds(one, mix, &[MaterialKind::Clay, MaterialKind::Soil]),
                        [c, coats.len()],
                        thickness_mm,
                    ),
                    wall: number,
                    room,
                    has_lime_wash: name.has_lime_wash(),
                    record: Record::NONE,
                    on_recorded: false,
                });
            }
        }
    }
    assumed.tell(notes);
    found
}

/// What was taken for what mixes and faces do not say.
#[derive(Debug, Default)]
struct Assumed {
    facing: bool,
    water: bool,
    mass: bool,
    /// Weather finishes, which are not planned.
    finishes: Vec<Name>,
}

impl Assumed {
    fn tell(&self, notes: &mut Vec<EcoString>) {
        if self.facing {
            notes.push(
                "An outside face that does not say where it looks to is reckoned in the shade."
                    .into(),
            );
        }
        if !self.finishes.is_empty() {
            notes.push(eco_format!(
                "Weather finishes are no tasks here ({}): they come when the last coat is dry; give them days of your own.",
                self.finishes.join(", ")
            ));
        }
        if self.water {
            notes.push(eco_format!(
                "A mix that does not say its water is reckoned with {WATER_L_M2_MM} litres for each m² and mm (trade data sheets of dry bagged mixes: 0.4 to 0.67)."
            ));
        }
        if self.mass {
            notes.push(eco_format!(
                "A mix whose materials have no density is reckoned at {DRY_KG_L} kg a litre dry (common practice, no source)."
            ));
        }
    }
}

/// Water and dry mass of a coat, kg/m², by what of it is wet on the wall (mm³).
fn content(
    mix: &CheckedMix,
    wet: f64,
    area: f64,
    thickness_mm: f64,
    assumed: &mut Assumed,
) -> [f64; 2] {
    let m2 = area / 1e6;
    let volume = hodful_quantities::units::Volume::new::<liter>(wet / 1e6);
    let recipe = mix.mix.recipe(volume, mix.yielded.value);
    let water = recipe.water.map(|water| water.target.get::<kilogram>());
    let water = water.map_or_else(
        || {
            assumed.water = true;
            mixing_water_kg_m2(thickness_mm, WATER_L_M2_MM).unwrap_or_default()
        },
        |water| water / m2,
    );
    let dry: Option<Mass> = recipe.minerals.iter().map(|mineral| mineral.mass).sum();
    let dry = dry.map_or_else(
        || {
            assumed.mass = true;
            thickness_mm * DRY_KG_L
        },
        |dry| dry.get::<kilogram>() / m2,
    );
    [water, dry]
}

/// Whether one of these is in a mix.
fn holds(one: &One<'_>, mix: &CheckedMix, kinds: &[MaterialKind]) -> bool {
    mix.minerals
        .iter()
        .filter_map(|at| one.site.materials.get(*at))
        .any(|material| kinds.contains(&material.kind))
}

/// What holds a mix together: cement or lime where some of it is in the mix, else earth.
fn binder(one: &One<'_>, mix: &CheckedMix) -> Binder {
    if holds(one, mix, &[MaterialKind::Lime]) {
        // Which lime is not known; air lime is the one to be kept from frost the longest.
        Binder::AirLime
    } else if holds(one, mix, &[MaterialKind::Cement]) {
        Binder::Cement
    } else {
        Binder::Earth
    }
}

/// Hours to wait after a coat of a face, by its number from 0 and how many there are, and whether it must be dry:
/// `hodful_workplan::published::WAITS`. A mix with earth in it shrinks as it dries, so that it must be dry whatever else
/// is in it (ours; the table has no such mixes).
fn wait(
    binder: Binder,
    has_earth: bool,
    [coat, coats]: [usize; 2],
    thickness_mm: f64,
) -> (f64, bool) {
    let is_next_last = coat + 2 >= coats;
    let of = match binder {
        Binder::Earth => "clay on clay",
        Binder::Cement if coat == 0 && !is_next_last => "second coat of cement on the first",
        Binder::Cement => "finish coat on the second coat of cement",
        Binder::HydraulicLime | Binder::AirLime => "lime, lime and cement, gypsum",
    };
    let row = WAITS.iter().find(|row| row.coats == of);
    row.map_or((0.0, true), |row| {
        let by_thickness = row.days_per_mm.unwrap_or(0.0) * thickness_mm * 24.0;
        let hours = row.hours.unwrap_or(0.0).max(by_thickness);
        (hours, row.dry || has_earth)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// International Building Code, table 2512.6: 48 h between the first and the second coat of three, 7 days before
    /// the finish, also where that is the second of two.
    #[test]
    fn cement_waits_a_week_before_its_last_coat() {
        for (coat, coats, hours) in [(0, 3, 48.0), (1, 3, 168.0), (0, 2, 168.0), (1, 4, 168.0)] {
            let (found, dry) = wait(Binder::Cement, false, [coat, coats], 15.0);
            assert!((found - hours).abs() < 1e-9 && !dry, "{coat} of {coats}");
        }
    }

    /// A little cement or lime in an earth mix sets nothing: it must be dry all the same.
    #[test]
    fn earth_must_be_dry_whatever_else_is_in_it() {
        for (binder, hours) in [(Binder::Cement, 48.0), (Binder::AirLime, 15.0 * 24.0)] {
            let (found, dry) = wait(binder, true, [0, 3], 15.0);
            assert!((found - hours).abs() < 1e-9 && dry);
            assert!(!wait(binder, false, [0, 3], 15.0).1);
        }
        assert_eq!(wait(Binder::Earth, true, [0, 3], 15.0), (0.0, true));
    }
}
