//! The people, hours, mixing and rates that the tasks are planned with. Not here: the tasks themselves (see `tasks`).

use super::tasks::Found;
use crate::check::work::CheckedWork;
use crate::checked::CheckedMixer;
use crate::compare::One;
use crate::project::{Name, Preparing, Side};
use ecow::{EcoString, eco_format};
use hodful_quantities::units::liter;
use hodful_workplan::published::{BALE_CREW, HAND_MIXING, RATES};
use hodful_workplan::{After, Coat, Crew, Mixing, Role, Site, Task, Work};
use jiff::civil::Date;
use std::iter::zip;

/// Minutes of a batch when nothing is said: ours. A drum mixer is filled, turned for some ten minutes and emptied.
const BATCH_MINUTES: f64 = 20.0;

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
        let under = number
            .checked_sub(1)
            .filter(|under| found.get(*under).is_some_and(|under| under.is_beside(of)));
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
    // With nothing to put on there is nothing to prepare.
    if !found.is_empty() {
        prepare(work, found, &mut tasks);
    }
    if work.usual_hours {
        notes.push(
            "Hours are ours, where the project says none: 8:00 to 16:30 with half an hour at noon."
                .into(),
        );
    }
    let crew = work.crew.unwrap_or_else(|| {
        notes.push("The project says nothing of people; taken is the smallest crew that is told for plaster on bales: 1 mixing, 1 carrying, 4 placing, 2 finishing (trade page).".into());
        BALE_CREW
    });
    let mixing = match &one.site.mixer {
        Some(mixer) => Some(by_mixer(mixer, work, notes)),
        None => by_hand(crew, notes),
    };
    Site {
        begins,
        hours: work.hours.clone(),
        crew,
        mixing,
        carried_per_hour: work.carried_per_hour,
        coats: coats(work, &kinds, found, notes),
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

fn by_mixer(mixer: &CheckedMixer, work: &CheckedWork, notes: &mut Vec<EcoString>) -> Mixing {
    let minutes_per_batch = work.batch_minutes.unwrap_or_else(|| {
        notes.push(eco_format!(
            "A batch is reckoned with {BATCH_MINUTES} minutes, where the project says nothing (ours, no source)."
        ));
        BATCH_MINUTES
    });
    Mixing {
        mixers: 1,
        hands_each: 1,
        litres_per_batch: mixer.working_volume.get::<liter>(),
        minutes_per_batch,
    }
}

/// Mixing by hand, where there is no mixer: everyone at a board of their own, so that hands alone hold it up.
fn by_hand(crew: Crew, notes: &mut Vec<EcoString>) -> Option<Mixing> {
    if let Crew::Roles { mixing: 0, .. } = crew {
        notes.push(
            "The project has no mixer, and nobody mixes: mix is taken as ready when it is wanted."
                .into(),
        );
        return None;
    }
    notes.push(eco_format!(
        "The project has no mixer: mixing by hand is reckoned with {HAND_MIXING:.1} person-hours a cubic metre (a sheet of labour constants of mortar after IS 7272), {BOARD_L} litres at a time."
    ));
    Some(Mixing {
        mixers: crew.people().saturating_add(1),
        hands_each: 1,
        litres_per_batch: BOARD_L,
        minutes_per_batch: HAND_MIXING * 60.0 * BOARD_L / 1000.0,
    })
}

/// Litres that are mixed by hand at a time: ours, no source. It changes nothing of how much is mixed in an hour.
const BOARD_L: f64 = 50.0;

/// Thickness of the coat of which the rate is told that stands in, mm: the last row of
/// `hodful_workplan::published::RATES`.
const RATE_MM: f64 = 15.0;

/// The mean thickness of the coats of a kind by their surface, mm.
fn mean_mm(kind: (&Name, &Name), found: &[Found]) -> f64 {
    let own = found
        .iter()
        .map(|of| &of.task)
        .filter(|task| (&task.coat, &task.mix) == kind);
    let (volume, area) = own.fold((0.0, 0.0), |(volume, area), task| {
        (volume + task.m2 * task.thickness_mm, area + task.m2)
    });
    if area > 0.0 { volume / area } else { RATE_MM }
}

fn coats(
    work: &CheckedWork,
    kinds: &[(&Name, &Name)],
    found: &[Found],
    notes: &mut Vec<EcoString>,
) -> Vec<Coat> {
    // Of all that is published the one that comes nearest: thick and of one coat.
    let [.., proxy] = RATES;
    let told = proxy.m2_per_hour.0;
    let mut without: Vec<&Name> = Vec::new();
    let mut thick: Vec<EcoString> = Vec::new();
    let coats = kinds.iter().map(|(name, mix)| {
        let rate = work.rates.get(*name).copied().unwrap_or_default();
        let twice = kinds.iter().filter(|(other, _)| other == name).count() > 1;
        let name_of_kind = if twice {
            format!("{name} ({mix})")
        } else {
            name.to_string()
        };
        // A thinner coat takes no fewer strokes; a thicker one is more to lift and to place.
        let thickness = mean_mm((name, mix), found).max(RATE_MM);
        let stand_in = told * RATE_MM / thickness;
        if rate.placing.is_none() {
            if !without.contains(name) {
                without.push(name);
            }
            if thickness > RATE_MM {
                thick.push(eco_format!(
                    "{name_of_kind} at {stand_in:.2} with its {thickness:.0} mm"
                ));
            }
        }
        Coat {
            name: name_of_kind,
            placing: rate.placing.unwrap_or(stand_in),
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
        let names: Vec<&str> = without.iter().map(|name| name.as_str()).collect();
        let thick = Some(thick.join(", ")).filter(|thick| !thick.is_empty());
        let thick = thick.map_or_else(EcoString::new, |thick| {
            eco_format!(" Thicker coats are planned slower by as much (ours): {thick}.")
        });
        notes.push(eco_format!(
            "No published rate for earth plaster on bales was found; {} is planned at {told} m² an hour and person, as told of a {} ({}: {}).{thick} Measure a wall of your own.",
            names.join(", "),
            proxy.work,
            proxy.source,
            proxy.note
        ));
    }
    coats
}
