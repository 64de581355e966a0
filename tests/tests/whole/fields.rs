//! Every field of every thing of the demo projects: texts that stay, that come back after they were
//! something else, and places of problems and explanations that lead to a field. Not here: what single
//! fields do (tested beside them).

use hodful_project_file as file;
use hodful_quantities::Measure;
use hodful_quantities::print::UnitSystem::{Metric, Us};
use hodful_quantities::read::Number;
use hodful_quantities::units::Length;
use hodful_takeoff::form::{self, Kind, Row, Subject};
use hodful_takeoff::problem::Step;
use hodful_takeoff::project::{Project, Side};
use hodful_takeoff::{Assessed, Node, Place};
use proptest::prelude::*;
use std::sync::LazyLock;

static DEMOS: LazyLock<Vec<(String, Project)>> = LazyLock::new(|| {
    let demos = file::demo_projects();
    demos
        .map(|demo| (demo.name.to_string(), file::read(demo.bytes).unwrap()))
        .collect()
});

/// Every thing of a project.
pub(crate) fn subjects(project: &Project) -> Vec<Subject> {
    let mut all = vec![Subject::Project, Subject::Mixer, Subject::Work];
    all.extend((0..project.backgrounds.len()).map(Subject::Background));
    for (mix, of) in project.mixes.values().enumerate() {
        all.push(Subject::Mix(mix));
        all.extend((0..of.test_panels.len()).map(|panel| Subject::Panel { mix, panel }));
    }
    all.extend((0..project.blends.len()).map(Subject::Blend));
    all.extend((0..project.suppliers.len()).map(Subject::Supplier));
    all.push(Subject::Buying);
    let phases = project.buying.iter().flat_map(|buying| &buying.phases);
    all.extend((0..phases.count()).map(Subject::Phase));
    for (build_up, coats) in project.build_ups.values().enumerate() {
        all.push(Subject::BuildUp(build_up));
        all.extend((0..coats.len()).map(|coat| Subject::Coat { build_up, coat }));
    }
    for (material, of) in project.materials.values().enumerate() {
        all.push(Subject::Material(material));
        let packages = 0..of.packages.len();
        all.extend(packages.map(|package| Subject::Package { material, package }));
    }
    for (wall, of) in project.walls.iter().enumerate() {
        all.push(Subject::Wall(wall));
        all.extend((0..of.openings.len()).map(|opening| Subject::Opening { wall, opening }));
        all.extend((0..of.pockets.len()).map(|pocket| Subject::Pocket { wall, pocket }));
    }
    all
}

/// Every row of every thing.
fn each_row(mut of: impl FnMut(&str, &Project, Subject, &Row)) {
    for (name, project) in &*DEMOS {
        for subject in subjects(project) {
            let rows = form::rows(project, subject);
            assert!(!rows.is_empty(), "{name}: {subject:?}");
            assert!(!form::title(project, subject).is_empty());
            for row in rows {
                of(name, project, subject, &row);
            }
        }
    }
}

#[test]
fn keys_are_told_once_and_have_words() {
    for (name, project) in &*DEMOS {
        for subject in subjects(project) {
            let rows = form::rows(project, subject);
            for (i, row) in rows.iter().enumerate() {
                let twice = rows.iter().take(i).any(|other| other.key == row.key);
                assert!(!twice, "{name}: {subject:?} {}", row.key);
                assert!(!row.label.is_empty() && !row.label.contains('_'), "{row:?}");
                assert!(row.optional || row.text.is_some(), "{name}: {row:?}");
            }
        }
    }
}

#[test]
fn what_stands_there_is_understood_and_changes_nothing() {
    let mut seen = 0;
    each_row(|name, project, subject, row| {
        let Some(text) = &row.text else { return };
        let understood = form::understand(&row.kind, text, project.units);
        let understood = understood.unwrap_or_else(|wrong| panic!("{name}: {row:?}: {wrong}"));
        assert_eq!(&understood.stored, text, "{name}: {row:?}");
        let mut same = project.clone();
        form::set(&mut same, subject, &row.key, text).unwrap();
        assert_eq!(&same, project, "{name}: {row:?}");
        seen += 1;
    });
    assert!(seen > 500, "{seen}");
}

/// Clearing these takes more away than the field itself.
fn takes_more(row: &Row) -> bool {
    row.key.ends_with(".plastered")
}

#[test]
fn what_was_cleared_comes_back() {
    let mut seen = 0;
    each_row(|name, project, subject, row| {
        let Some(text) = row.text.as_ref().filter(|_| row.optional) else {
            return;
        };
        let mut other = project.clone();
        form::set(&mut other, subject, &row.key, " ").unwrap_or_else(|e| panic!("{row:?}: {e}"));
        // A measure of a frame that is cleared while the other stands is nothing.
        if !(row.key.starts_with("frame.") && text == "0") {
            assert_ne!(&other, project, "{name}: {subject:?} {row:?}");
        }
        form::set(&mut other, subject, &row.key, text).unwrap_or_else(|e| panic!("{row:?}: {e}"));
        if !takes_more(row) {
            assert_eq!(&other, project, "{name}: {subject:?} {row:?}");
            assert_eq!(file::write(&other), file::write(project), "{name}: {row:?}");
        }
        seen += 1;
    });
    assert!(seen > 300, "{seen}");
}

/// Another text for a field; `None` where a choice takes more with it, or has no other.
fn another(row: &Row) -> Option<String> {
    Some(match &row.kind {
        Kind::Length | Kind::Thickness => "3 ft".to_owned(),
        Kind::Area => "77 m2".to_owned(),
        Kind::Angle => "11 deg".to_owned(),
        Kind::Share => "11 %".to_owned(),
        Kind::Density | Kind::Dose => "77 kg/m3".to_owned(),
        Kind::Volume | Kind::Amount | Kind::Mixed => "77 L".to_owned(),
        Kind::Level => "77 %".to_owned(),
        Kind::Mass => "77 kg".to_owned(),
        Kind::Time => "77 h".to_owned(),
        Kind::Temperature => "7 C".to_owned(),
        Kind::Day => "2031-07-07".to_owned(),
        Kind::Days => "2031-07-07, 2031-07-08".to_owned(),
        Kind::ShareRange => "7 % to 77 %".to_owned(),
        Kind::NumberRange => "7 to 77".to_owned(),
        Kind::Sieves => "7 mm 77 %".to_owned(),
        Kind::SieveRanges => "7 mm 70 % to 77 %".to_owned(),
        Kind::Money => "77.10".to_owned(),
        Kind::Number | Kind::Count | Kind::Facing => "77".to_owned(),
        Kind::Text | Kind::Id => "an other".to_owned(),
        Kind::SomeOf(parts) => {
            let other = parts
                .iter()
                .rev()
                .find(|part| Some(*part) != row.text.as_ref());
            other?.to_string()
        }
        Kind::Corners => "0, 0; 1 m, 0; 0, 1 m".to_owned(),
        Kind::OneOf(words) => {
            let more =
                ["shape", "outside", "inside"].contains(&&*row.key) || row.key.contains("corner.");
            let other = words.iter().find(|word| Some(*word) != row.text.as_ref());
            other.filter(|_| !more)?.to_string()
        }
    })
}

#[test]
fn what_was_something_else_comes_back() {
    let mut seen = 0;
    each_row(|name, project, subject, row| {
        let (Some(text), Some(another)) = (&row.text, another(row)) else {
            return;
        };
        let mut other = project.clone();
        form::set(&mut other, subject, &row.key, &another)
            .unwrap_or_else(|wrong| panic!("{name}: {subject:?} {row:?}: {wrong}"));
        assert_ne!(&other, project, "{name}: {subject:?} {row:?} {another}");
        form::set(&mut other, subject, &row.key, text)
            .unwrap_or_else(|wrong| panic!("{name}: {subject:?} {row:?}: {wrong}"));
        assert_eq!(file::write(&other), file::write(project), "{name}: {row:?}");
        seen += 1;
    });
    assert!(seen > 500, "{seen}");
}

#[test]
fn every_choice_can_be_made_and_is_then_there() {
    each_row(|name, project, subject, row| {
        let Kind::OneOf(words) = &row.kind else {
            return;
        };
        for word in words {
            let mut other = project.clone();
            form::set(&mut other, subject, &row.key, word)
                .unwrap_or_else(|wrong| panic!("{name}: {subject:?} {row:?}: {wrong}"));
            let rows = form::rows(&other, subject);
            let now = rows.iter().find(|other| other.key == row.key).unwrap();
            assert_eq!(now.text.as_ref(), Some(word), "{name}: {subject:?}");
        }
    });
}

#[test]
fn a_renamed_thing_is_followed_by_all_that_name_it() {
    let rules = file::rules();
    for (name, project) in &*DEMOS {
        let cost = |project: &Project| {
            let of = Assessed::new(project, &rules).unwrap_or_else(|e| panic!("{name}: {e:#?}"));
            format!("{:?} {:?}", of.evaluation.totals, of.evaluation.materials)
        };
        let mut renamed = project.clone();
        for subject in subjects(project) {
            for key in ["name", "id", "coat"] {
                let is = |row: &Row| row.key == key && row.kind == Kind::Id;
                if form::rows(&renamed, subject).iter().any(is) {
                    let new =
                        form::new_id(&renamed, &format!("new {}", form::title(&renamed, subject)));
                    form::set(&mut renamed, subject, key, &new)
                        .unwrap_or_else(|wrong| panic!("{name}: {subject:?}: {wrong}"));
                }
            }
        }
        assert_eq!(cost(&renamed), cost(project), "{name}");
    }
}

/// The place leads to a thing, and to one of its rows where the place is a field.
fn leads(project: &Project, place: &Place, name: &str) -> (Subject, Option<String>) {
    let found = form::find(project, place);
    let (subject, key) = found.unwrap_or_else(|| panic!("{name}: {place} leads nowhere"));
    let rows = form::rows(project, subject);
    if let Some(key) = &key {
        let is_there = rows.iter().any(|row| row.key == *key);
        assert!(is_there, "{name}: {place} leads to {key} of {subject:?}");
    }
    (subject, key.map(|key| key.to_string()))
}

#[test]
fn every_leaf_of_every_explanation_leads_to_the_text_typed_there() {
    fn leaves(project: &Project, node: &Node, name: &str, seen: &mut usize) {
        if let Some(place) = &node.place {
            let (subject, key) = leads(project, place, name);
            if let Some(typed) = &node.typed {
                let key = key.unwrap_or_else(|| panic!("{name}: {place} leads to no field"));
                let rows = form::rows(project, subject);
                let row = rows.iter().find(|row| row.key == key).unwrap();
                let text = row.text.as_deref().unwrap_or_default();
                let pocket = matches!(subject, Subject::Pocket { .. });
                // A place tells the face of a pocket, not which pocket on it.
                let is = if pocket || row.kind == Kind::Corners {
                    pocket || text.contains(typed.as_str())
                } else {
                    text == typed
                };
                assert!(is, "{name}: {place} has '{typed}', {key} '{text}'");
                *seen += 1;
            }
        }
        for term in &node.terms {
            leaves(project, term, name, seen);
        }
    }
    let rules = file::rules();
    let mut seen = 0;
    for (name, project) in &*DEMOS {
        let of = Assessed::new(project, &rules).unwrap();
        let mut paths = of.paths();
        for wall in &project.walls {
            for side in [Side::Outside, Side::Inside] {
                let face = format!(
                    "walls.{}.{}",
                    hodful_takeoff::explain::quoted(&wall.id),
                    side.word()
                );
                for figure in ["outline", "openings", "reveals", "edges", "lath", "growth"] {
                    paths.push(format!("{face}.{figure}").into());
                }
            }
        }
        for path in paths {
            if let Ok(node) = of.explain(&path) {
                leaves(project, &node, name, &mut seen);
            }
        }
        for doubt in &of.doubts {
            leads(project, &doubt.place, name);
        }
    }
    assert!(seen > 1000, "{seen}");
}

/// The place of a problem leads to a thing, and to a field where it is one.
pub(crate) fn lead(project: &Project, place: &Place) {
    const LISTS: &[&str] = &["packages", "walls", "materials", "backgrounds", "build_ups"];
    let (subject, key) = leads(project, place, "refusals");
    // What the reading dropped is not there to be led to.
    let there = project
        .walls
        .iter()
        .map(|wall| wall.openings.len())
        .sum::<usize>();
    let dropped = match place.steps() {
        [] | [Step::Field(_), ..] => false,
        [_, Step::Thing("opening", _), ..] => there == 0,
        _ => subject == Subject::Project,
    };
    if let Some(Step::Field(field)) = place.steps().last() {
        let is_list = LISTS.contains(&field.as_str());
        assert!(
            key.is_some() || dropped || is_list,
            "{place} leads to no field of {subject:?}"
        );
    }
    if dropped {
        assert_eq!(key, None, "{place} leads astray");
    }
}

#[test]
fn places_lead_to_their_fields() {
    let (_, project) = DEMOS
        .iter()
        .find(|(name, _)| name == "thistlebank-workshop")
        .unwrap();
    let wall = Place::project().thing("wall", "S");
    let opening = wall.thing("opening", "W1");
    let outside = wall.field("outside");
    for (place, key) in [
        (wall.field("height"), Some("height")),
        (wall.field("shape"), Some("shape")),
        (wall.field("shape").field("height"), Some("height")),
        (wall.field("faces"), Some("outside")),
        (outside.clone(), Some("outside")),
        (outside.field("build_up"), Some("outside.build_up")),
        (outside.field("inset"), Some("outside.inset.left")),
        (outside.field("inset.top"), Some("outside.inset.top")),
        (outside.field("thickness"), Some("thickness")),
        (outside.field("right"), Some("outside.corner.right")),
        (
            outside.thing("corner", "right").field("radius"),
            Some("outside.corner.right.radius"),
        ),
        (outside.field("pocket").field("width"), Some("width")),
        (opening.clone(), None),
        (opening.field("frame"), Some("frame.depth")),
        (opening.field("outside"), Some("outside.plastered")),
        (
            opening.field("inside").field("splay.jambs"),
            Some("inside.splay.jambs"),
        ),
        (
            opening.field("inside").field("splay"),
            Some("inside.splay.jambs"),
        ),
        (
            Place::project().thing("mix", "base").field("parts"),
            Some("parts.yard sand"),
        ),
        (
            Place::project()
                .thing("mix", "base")
                .field("parts")
                .thing("material", "pit clay"),
            Some("parts.pit clay"),
        ),
        (
            Place::project().thing("mix", "finish").field("trial_batch"),
            Some("trial_batch.loose"),
        ),
        (
            Place::project().thing("mix", "base").field("fibre"),
            Some("fibre.material"),
        ),
        (
            Place::project().field("mixer").field("bucket"),
            Some("bucket"),
        ),
        (
            Place::project().field("measurement_rule"),
            Some("measurement_rule"),
        ),
        (Place::project().field("walls"), None),
        (
            Place::project()
                .thing("material", "pit clay")
                .field("packages"),
            None,
        ),
        (
            Place::project().thing("wall", "nowhere").field("height"),
            None,
        ),
        (wall.thing("opening", "W99").field("height"), None),
    ] {
        let (_, found) = leads(project, &place, "thistlebank-workshop");
        assert_eq!(found.as_deref(), key, "{place}");
    }
}

/// What people, and cats on keyboards, type.
fn texts() -> impl Strategy<Value = String> {
    prop_oneof![
        any::<String>(),
        "[0-9a-z'\" ,;./*+()%-]{0,16}",
        "[0-9]{1,4}( [0-9]/[0-9]{1,2})?(\"|'| mm| m| deg| %| kg/m3| L)?",
        "(jambs|head|sill|ring|gable|round|plastered|bare|none|external|us)",
    ]
}

proptest! {
    #[test]
    fn no_text_breaks_a_field(
        demo in 0_usize..4,
        pick in any::<prop::sample::Index>(),
        row in any::<prop::sample::Index>(),
        text in texts(),
        again in texts(),
    ) {
        let (_, project) = &DEMOS[demo % DEMOS.len()];
        let subjects = subjects(project);
        let subject = subjects[pick.index(subjects.len())];
        let rows = form::rows(project, subject);
        let row = &rows[row.index(rows.len())];
        let mut other = project.clone();
        for text in [text, again] {
            let before = other.clone();
            let kind = row.kind.clone();
            if let Err(wrong) = form::set(&mut other, subject, &row.key, &text) {
                prop_assert!(!wrong.is_empty());
                prop_assert_eq!(&other, &before);
                continue;
            }
            // What a field holds, the file holds.
            let back = file::read(&file::write(&other));
            prop_assert!(back.is_ok_and(|back| back == other), "{} {:?}", row.key, text);
            if let Ok(understood) = form::understand(&kind, &text, project.units) {
                let again = form::understand(&kind, &understood.stored, project.units);
                prop_assert_eq!(again.map(|a| a.stored), Ok(understood.stored));
            }
        }
    }

    #[test]
    fn a_bare_number_is_so_many_of_its_unit(
        text in "[0-9]{1,3}( [1-7]/8|[.,][0-9]|½)?|\\(?[1-9]{1,3} ?[-+*/] ?[1-9]{1,2}( ?[-+*/] ?[1-9])?\\)?",
    ) {
        let units = Metric;
        let (number, length) = (Number::read(&text), Length::read(&text));
        let understood = form::understand(&Kind::Length, &text, units);
        match (number, length) {
            // Feet and inches without marks, and 0, are lengths as they stand.
            (_, Ok(_)) => prop_assert_eq!(understood.unwrap().stored, text),
            (Err(_), Err(wrong)) => prop_assert_eq!(understood.unwrap_err(), wrong.to_string()),
            (Ok(number), Err(_)) => {
                let stored = understood.unwrap().stored;
                let read = Length::read(&stored).unwrap().value;
                let wanted = number.get();
                prop_assert!((read - wanted).abs() <= 1e-12 * wanted.abs(), "{stored} {wanted}");
            }
        }
    }

    #[test]
    fn any_key_of_any_thing_is_answered(
        pick in any::<prop::sample::Index>(),
        key in "(outside|inside|frame|parts|fibre|corner|shape|[a-z_.]{0,12})(\\.[a-z_.]{0,9})?",
        text in texts(),
        far in any::<usize>(),
    ) {
        let (_, project) = &DEMOS[0];
        let subjects = subjects(project);
        let mut other = project.clone();
        let _ = form::set(&mut other, subjects[pick.index(subjects.len())], &key, &text);
        for subject in [
            Subject::Wall(far),
            Subject::Opening { wall: 0, opening: far },
            Subject::Coat { build_up: far, coat: 0 },
            Subject::Package { material: 0, package: far },
        ] {
            let there = !form::rows(project, subject).is_empty();
            prop_assert!(there || form::set(&mut other, subject, &key, &text).is_err());
        }
        let place = Place::project().thing("wall", "S").field(key.as_str()).field(text.as_str());
        prop_assert!(form::find(project, &place).is_some());
    }
}

#[test]
fn bare_numbers_take_the_units_of_the_project() {
    let stored =
        |kind: &Kind, text: &str, units| form::understand(kind, text, units).map(|u| u.stored);
    for (kind, units, text, expected) in [
        (Kind::Length, Metric, "381", "381 mm"),
        (Kind::Length, Us, "27", "27\""),
        (Kind::Length, Us, "6 1/2", "6 1/2\""),
        (Kind::Length, Metric, "3.81 m", "3.81 m"),
        (Kind::Length, Metric, "2*400 + 30", "(2*400 + 30) * 1 mm"),
        (Kind::Length, Us, "12-6.5", "12-6.5"),
        (Kind::Length, Metric, "0", "0"),
        (Kind::Share, Us, "22", "22 %"),
        (Kind::Share, Us, "0.22", "0.22"),
        (Kind::Angle, Us, "20", "20 deg"),
        (
            Kind::Corners,
            Metric,
            "0,0; 4000,0; 4000, 2,5 m",
            "0, 0; 4000 mm, 0; 4000 mm, 2,5 m",
        ),
    ] {
        assert_eq!(
            stored(&kind, text, units).as_deref(),
            Ok(expected),
            "{text}"
        );
    }
    for kind in [Kind::Density, Kind::Volume, Kind::Amount] {
        assert!(stored(&kind, "20", Metric).is_err(), "{kind:?}");
    }
}
