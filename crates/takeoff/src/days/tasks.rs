//! Each coat of each face as a task, and the people, hours and rates it is planned with. Not here: drying.

use super::DayTask;
use crate::caution::HIGH;
use crate::check::work::dried::CheckedDried;
use crate::check::work::rooms::CheckedRoom;
use crate::check::work::{CheckedWork, facing};
use crate::checked::{CheckedMix, FindWall};
use crate::compare::One;
use crate::forecast::parts;
use crate::project::{BackgroundKind, MaterialKind, Name, Preparing, Rain, Side};
use ecow::{EcoString, eco_format};
use hodful_air::drying::mixing_water_kg_m2;
use hodful_air::frost::Binder;
use hodful_air::outside::Stand;
use hodful_quantities::units::{Mass, kilogram, liter};
use hodful_workplan::published::{BALE_CREW, RATES, WAITS};
use hodful_workplan::{After, Coat, Mixing, Role, Site, Task, Work};
use jiff::civil::Date;
use std::iter::zip;

/// Minutes of a batch when nothing is said: ours. A drum mixer is filled, turned for some ten minutes and emptied.
const BATCH_MINUTES: f64 = 20.0;

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
    /// Real time of drying over the predicted one; 1 when nothing is known.
    pub(super) record: f64,
    /// Whether it stands on a coat that is on the wall already.
    pub(super) on_recorded: bool,
}

impl Found {
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
            record: 1.0,
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
                        cautions: Vec::new(),
                    },
                    at: part.at,
                    stand: stand.flatten(),
                    face,
                    wait: wait(binder, c, thickness_mm),
                    wall: number,
                    room,
                    record: 1.0,
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
}

impl Assumed {
    fn tell(&self, notes: &mut Vec<EcoString>) {
        if self.facing {
            notes.push(
                "An outside face that does not say where it looks to is reckoned in the shade."
                    .into(),
            );
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

/// What holds a mix together: cement or lime where some of it is in the mix, else earth.
fn binder(one: &One<'_>, mix: &CheckedMix) -> Binder {
    let has = |kind: MaterialKind| {
        mix.minerals
            .iter()
            .filter_map(|at| one.site.materials.get(*at))
            .any(|material| material.kind == kind)
    };
    if has(MaterialKind::Lime) {
        // Which lime is not known; air lime is the one to be kept from frost the longest.
        Binder::AirLime
    } else if has(MaterialKind::Cement) {
        Binder::Cement
    } else {
        Binder::Earth
    }
}

/// Hours to wait after a coat, and whether it must be dry: `hodful_workplan::published::WAITS`.
fn wait(binder: Binder, coat: usize, thickness_mm: f64) -> (f64, bool) {
    let coats = match binder {
        Binder::Earth => "clay on clay",
        Binder::Cement if coat == 0 => "second coat of cement on the first",
        Binder::Cement => "finish coat on the second coat of cement",
        Binder::HydraulicLime | Binder::AirLime => "lime, lime and cement, gypsum",
    };
    let row = WAITS.iter().find(|row| row.coats == coats);
    row.map_or((0.0, true), |row| {
        let by_thickness = row.days_per_mm.unwrap_or(0.0) * thickness_mm * 24.0;
        (row.hours.unwrap_or(0.0).max(by_thickness), row.dry)
    })
}

/// What the plan is made from.
pub(super) fn site(
    one: &One<'_>,
    work: &CheckedWork,
    begins: Date,
    found: &[Found],
    notes: &mut Vec<EcoString>,
) -> Site {
    // One kind for each coat and mix, since a batch is of one mix.
    let mut kinds: Vec<(&Name, &Name)> = Vec::new();
    let mut tasks = Vec::new();
    for (number, of) in found.iter().enumerate() {
        let kind = (&of.task.coat, &of.task.mix);
        let coat = kinds.iter().position(|known| *known == kind);
        let coat = coat.unwrap_or_else(|| {
            kinds.push(kind);
            kinds.len() - 1
        });
        let under = number.checked_sub(1).filter(|under| {
            found
                .get(*under)
                .is_some_and(|under| under.face == of.face && under.at.0 == of.at.0)
        });
        let after = under.and_then(|task| {
            let (hours, dry) = found.get(task)?.wait;
            Some(After { task, hours, dry })
        });
        tasks.push(Task {
            name: of.task.said().into(),
            work: Work::Coat {
                coat,
                side: match of.task.side {
                    Side::Outside => hodful_workplan::Side::Outside,
                    Side::Inside => hodful_workplan::Side::Inside,
                },
                m2: of.task.m2,
                litres: of.task.litres,
            },
            after: after.into_iter().collect(),
            most_hands: None,
            not_before: None,
            in_one_go: false,
        });
    }
    prepare(work, found, &mut tasks);
    if work.usual_hours {
        notes.push(
            "Hours are ours, where the project says none: 8:00 to 16:30 with half an hour at noon."
                .into(),
        );
    }
    Site {
        begins,
        hours: work.hours.clone(),
        crew: work.crew.unwrap_or_else(|| {
            notes.push("The project says nothing of people; taken is the smallest crew that is told for plaster on bales: 1 mixing, 1 carrying, 4 placing, 2 finishing (trade page).".into());
            BALE_CREW
        }),
        mixing: mixing(one, work, notes),
        carried_per_hour: work.carried_per_hour,
        coats: coats(work, &kinds, notes),
        tasks,
    }
}

/// Puts what is prepared at the end of the tasks, and lets the first coat of every face wait for it.
fn prepare(work: &CheckedWork, found: &[Found], tasks: &mut Vec<Task>) {
    let coats = tasks.len();
    for of in &work.prepare {
        let (what, by) = match of.what {
            Preparing::Heaps => (hodful_workplan::Preparing::Heaps, Role::Mixing),
            Preparing::Soaking => (hodful_workplan::Preparing::Soaking, Role::Mixing),
            Preparing::Screening => (hodful_workplan::Preparing::Screening, Role::Mixing),
            Preparing::Tests => (hodful_workplan::Preparing::Tests, Role::Everything),
            Preparing::Masking => (hodful_workplan::Preparing::Masking, Role::Everything),
            Preparing::Background => (hodful_workplan::Preparing::Background, Role::Everything),
        };
        let after = After {
            task: tasks.len(),
            hours: of.then_wait,
            dry: false,
        };
        for (of, coat) in zip(found, &mut *tasks) {
            if !of.on_recorded && coat.after.iter().all(|before| before.task >= coats) {
                coat.after.push(after);
            }
        }
        tasks.push(Task {
            name: of.what.word().to_owned(),
            work: Work::Prepare {
                what,
                hours: of.hours,
                by,
            },
            after: Vec::new(),
            most_hands: None,
            not_before: None,
            in_one_go: false,
        });
    }
}

fn mixing(one: &One<'_>, work: &CheckedWork, notes: &mut Vec<EcoString>) -> Option<Mixing> {
    let Some(mixer) = &one.site.mixer else {
        notes.push("The project has no mixer: mix is taken as ready when it is wanted.".into());
        return None;
    };
    let minutes_per_batch = work.batch_minutes.unwrap_or_else(|| {
        notes.push(eco_format!(
            "A batch is reckoned with {BATCH_MINUTES} minutes, where the project says nothing (ours, no source)."
        ));
        BATCH_MINUTES
    });
    Some(Mixing {
        mixers: 1,
        hands_each: 1,
        litres_per_batch: mixer.working_volume.get::<liter>(),
        minutes_per_batch,
    })
}

fn coats(work: &CheckedWork, kinds: &[(&Name, &Name)], notes: &mut Vec<EcoString>) -> Vec<Coat> {
    // Of all that is published the one that comes nearest: thick and of one coat.
    let [.., proxy] = RATES;
    let mut without: Vec<&Name> = Vec::new();
    let coats = kinds.iter().map(|(name, mix)| {
        let rate = work.rates.get(*name).copied().unwrap_or_default();
        let twice = kinds.iter().filter(|(other, _)| other == name).count() > 1;
        if rate.placing.is_none() && !without.contains(name) {
            without.push(name);
        }
        Coat {
            name: if twice {
                format!("{name} ({mix})")
            } else {
                name.to_string()
            },
            placing: rate.placing.unwrap_or(proxy.m2_per_hour.0),
            finishing: rate.finishing,
            open_minutes: rate.open_minutes,
            source: match rate.placing {
                Some(_) => "the project".to_owned(),
                None => proxy.source.to_owned(),
            },
        }
    });
    let coats = coats.collect();
    if !without.is_empty() {
        notes.push(eco_format!(
            "No published rate for earth plaster on bales was found; {} is planned at {} m² an hour and person, as told of a {} ({}: {}). Measure a wall of your own.",
            without.iter().map(|name| name.as_str()).collect::<Vec<_>>().join(", "),
            proxy.m2_per_hour.0,
            proxy.work,
            proxy.source,
            proxy.note
        ));
    }
    coats
}
