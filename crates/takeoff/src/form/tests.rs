//! Tests of single fields: what is made, taken away, converted and renamed. Not here: every field of
//! whole projects from files (see `tests/whole`).

#![allow(clippy::unwrap_used, reason = "a failure is the message")]

mod work;

use super::*;
use crate::project::{
    Background, BackgroundKind, Coat, CornerAngle, Face, Material, MaterialKind, Mix, Named,
    Opening, OpeningShape, Package, Wall, WallShape,
};
use crate::rule::{Rule, RuleBook};
use hodful_quantities::{Measure, Typed};
use std::sync::Arc;

fn typed<T: Measure>(text: &str) -> Typed<T> {
    Typed::read(text).unwrap()
}

fn opening(id: &str) -> Opening {
    Opening {
        id: id.into(),
        kind: None,
        count: None,
        spacing: None,
        shape: OpeningShape::Rectangle {
            width: typed("1 m"),
            height: typed("1.2 m"),
        },
        from_left: typed("1 m"),
        sill: typed("900 mm"),
        frame: None,
        outside: None,
        inside: None,
    }
}

fn wall(id: &str, openings: Vec<Opening>) -> Arc<Wall> {
    Arc::new(Wall {
        id: id.into(),
        name: None,
        sheet: None,
        count: None,
        shape: WallShape::Rectangle {
            length: typed("6 m"),
            height: typed("2.7 m"),
        },
        thickness: typed("450 mm"),
        outside: None,
        inside: Some(Face {
            background: "cob".into(),
            build_up: "two coats".into(),
            inset: None,
            rain: None,
            facing: None,
            shaded: None,
        }),
        ends: [].into(),
        openings,
        pockets: Vec::new(),
    })
}

fn material(kind: MaterialKind) -> Material {
    Material {
        loose_density: Some(typed("1400 kg/m3")),
        packages: vec![Package::of("bag".into(), typed("25 kg"))],
        stock: Some(typed("2 bags")),
        ..Material::of(kind)
    }
}

/// Two walls with an opening each, bare outside.
pub(crate) fn project() -> Project {
    let background = Background {
        kind: BackgroundKind::Cob,
        dubbing_out: None,
    };
    let coat = Coat {
        coat: "scratch".into(),
        thickness: typed("12 mm"),
        mix: "base".into(),
        shrinkage: None,
        loss: None,
        weather_finish: None,
    };
    let mix = Mix {
        parts: Named::from_iter([("sand".into(), typed("3")), ("clay".into(), typed("1"))]),
        water: Some(typed("20 %")),
        ..Mix::default()
    };
    Project {
        name: "Fields".into(),
        units: UnitSystem::Metric,
        measurement_rule: "net".into(),
        backgrounds: Named::from_iter([
            ("bale".into(), background.clone()),
            ("cob".into(), background),
        ]),
        materials: Named::from_iter([
            ("sand".into(), material(MaterialKind::Sand)),
            ("clay".into(), material(MaterialKind::Clay)),
            ("straw".into(), material(MaterialKind::Fibre)),
        ]),
        mixes: Named::from_iter([("base".into(), mix)]),
        build_ups: Named::from_iter([("two coats".into(), vec![coat])]),
        mixer: None,
        blends: Named::new(),
        suppliers: Named::new(),
        buying: None,
        options: Named::default(),
        uncertain: Vec::new(),
        done: Vec::new(),
        delivered: Vec::new(),
        work: None,
        walls: vec![
            wall("S", vec![opening("W1")]),
            wall("N", vec![opening("W1")]),
        ],
        note: None,
    }
}

const WALL: Subject = Subject::Wall(0);
const OPENING: Subject = Subject::Opening {
    wall: 0,
    opening: 0,
};

fn put(project: &mut Project, subject: Subject, key: &str, text: &str) {
    set(project, subject, key, text).unwrap_or_else(|wrong| panic!("{key} {text}: {wrong}"));
}

fn refused(project: &mut Project, subject: Subject, key: &str, text: &str, words: &str) {
    let before = project.clone();
    let wrong = set(project, subject, key, text).unwrap_err();
    assert!(wrong.contains(words), "{wrong}");
    assert_eq!(*project, before);
}

fn shown(project: &Project, subject: Subject, key: &str) -> Option<String> {
    let rows = rows(project, subject);
    let row = rows.into_iter().find(|row| row.key == key)?;
    row.text.map(|text| text.to_string())
}

fn sound(project: &Project) {
    let rules: RuleBook = [("net".into(), Rule::default())].into_iter().collect();
    if let Err(problems) = crate::check(project, &rules) {
        panic!("{problems:#?}");
    }
}

#[test]
fn a_shape_turned_into_any_other_is_sound_at_once() {
    let lengths = ["6 m", "300 mm", "20'"];
    for length in lengths {
        for from in tables::WALL_SHAPES {
            for to in tables::WALL_SHAPES {
                let mut project = project();
                project.walls.truncate(1);
                Arc::make_mut(&mut project.walls[0]).openings.clear();
                put(&mut project, WALL, "length", length);
                put(&mut project, WALL, "thickness", "100 mm");
                put(&mut project, WALL, "shape", from);
                sound(&project);
                put(&mut project, WALL, "shape", to);
                assert_eq!(shown(&project, WALL, "shape").as_deref(), Some(*to));
                sound(&project);
            }
        }
    }
    let sizes = [("1 m", "1.2 m"), ("3 m", "40 cm"), ("2'", "2'")];
    for (width, height) in sizes {
        for from in tables::OPENING_SHAPES {
            for to in tables::OPENING_SHAPES {
                let mut project = project();
                put(&mut project, OPENING, "width", width);
                put(&mut project, OPENING, "height", height);
                put(&mut project, OPENING, "frame.depth", "50 mm");
                put(
                    &mut project,
                    OPENING,
                    "inside.plastered",
                    "jambs, head, sill",
                );
                put(&mut project, OPENING, "inside.splay.jambs", "10 deg");
                put(&mut project, OPENING, "inside.splay.head", "10 deg");
                put(&mut project, OPENING, "shape", from);
                sound(&project);
                put(&mut project, OPENING, "shape", to);
                sound(&project);
            }
        }
    }
}

#[test]
fn a_shape_keeps_what_both_kinds_have_to_the_letter() {
    let mut project = project();
    put(&mut project, WALL, "length", "19' 8 1/2\"");
    put(&mut project, WALL, "shape", "gable");
    assert_eq!(
        shown(&project, WALL, "length").as_deref(),
        Some("19' 8 1/2\"")
    );
    assert_eq!(shown(&project, WALL, "eaves").as_deref(), Some("2.7 m"));
    // 2700 mm and half of 6007.1 mm.
    assert_eq!(
        shown(&project, WALL, "ridge").as_deref(),
        Some("5703.55 mm")
    );
    put(&mut project, WALL, "shape", "raked");
    assert_eq!(shown(&project, WALL, "left").as_deref(), Some("2.7 m"));
    assert_eq!(shown(&project, WALL, "right").as_deref(), Some("2.7 m"));
    put(&mut project, WALL, "shape", "polygon");
    assert_eq!(
        shown(&project, WALL, "corners").as_deref(),
        Some("0, 0; 19' 8 1/2\", 0; 19' 8 1/2\", 2.7 m; 0, 2.7 m")
    );
}

#[test]
fn a_face_takes_after_its_neighbour() {
    let mut project = project();
    put(&mut project, WALL, "outside", "plas");
    assert_eq!(
        shown(&project, WALL, "outside.background").as_deref(),
        Some("bale")
    );
    put(&mut project, WALL, "outside.background", "cob");
    put(&mut project, WALL, "outside.inset.bottom", "200");
    // A field of the face makes it as well.
    put(
        &mut project,
        Subject::Wall(1),
        "outside.corner.left",
        "external",
    );
    let other = Subject::Wall(1);
    assert_eq!(
        shown(&project, other, "outside.background").as_deref(),
        Some("cob")
    );
    assert_eq!(shown(&project, other, "outside.inset.bottom"), None);
    sound(&project);
    put(&mut project, WALL, "outside.inset.bottom", "");
    assert_eq!(project.walls[0].outside.as_ref().unwrap().inset, None);
    // Clearing what is not there makes nothing.
    let mut bare = self::project();
    put(&mut bare, WALL, "outside.inset.bottom", "");
    put(&mut bare, WALL, "outside.corner.left", "none");
    assert_eq!(bare, self::project());
    bare.walls.pop();
    bare.backgrounds.clear();
    refused(&mut bare, WALL, "outside", "plastered", "no background yet");
}

#[test]
fn a_face_made_bare_takes_its_corners_and_reveals_with_it() {
    let mut project = project();
    put(&mut project, WALL, "outside", "plastered");
    put(&mut project, WALL, "outside.corner.left.radius", "50");
    put(&mut project, OPENING, "outside.radius", "20");
    put(&mut project, OPENING, "inside.radius", "20");
    put(&mut project, OPENING, "frame.depth", "50");
    put(&mut project, OPENING, "frame.from_outside", "80");
    sound(&project);
    put(&mut project, WALL, "outside", "bare");
    sound(&project);
    assert!(project.walls[0].ends.is_empty());
    assert!(project.walls[0].openings[0].outside.is_none());
    assert!(project.walls[0].openings[0].inside.is_some());
}

#[test]
fn a_corner_has_a_radius_or_a_cove() {
    let mut project = project();
    let keys = |project: &Project| -> Vec<String> {
        let rows = rows(project, WALL);
        let of = rows
            .iter()
            .filter(|row| row.key.starts_with("inside.corner.right"));
        of.map(|row| row.key.trim_start_matches("inside.corner.right").to_owned())
            .collect()
    };
    assert_eq!(keys(&project), [""]);
    put(&mut project, WALL, "inside.corner.right", "internal");
    assert_eq!(keys(&project), ["", ".turn", ".cove"]);
    put(&mut project, WALL, "inside.corner.right.cove", "38");
    put(&mut project, WALL, "inside.corner.right.turn", "120");
    put(&mut project, WALL, "inside.corner.right", "external");
    assert_eq!(keys(&project), ["", ".turn", ".radius"]);
    let corner = project.walls[0].ends.first().unwrap();
    assert_eq!(corner.angle, CornerAngle::External);
    assert_eq!(corner.turn, Some(typed("120 deg")));
    assert_eq!(corner.cove, None);
    put(&mut project, WALL, "inside.corner.right", "none");
    assert!(project.walls[0].ends.is_empty());
}

#[test]
fn a_frame_takes_its_other_measure_from_the_last() {
    let mut project = project();
    put(&mut project, OPENING, "frame.depth", "100");
    assert_eq!(
        shown(&project, OPENING, "frame.from_outside").as_deref(),
        Some("0")
    );
    put(&mut project, OPENING, "frame.from_outside", "80");
    let other = Subject::Opening {
        wall: 1,
        opening: 0,
    };
    put(&mut project, other, "frame.from_outside", "60");
    assert_eq!(
        shown(&project, other, "frame.depth").as_deref(),
        Some("100 mm")
    );
    put(&mut project, other, "frame.from_outside", "");
    assert_eq!(
        shown(&project, other, "frame.from_outside").as_deref(),
        Some("0")
    );
    put(&mut project, other, "frame.depth", "");
    assert_eq!(shown(&project, other, "frame.depth").as_deref(), Some("0"));
    put(&mut project, other, "frame.depth", "");
    assert_eq!(project.walls[1].openings[0].frame, None);
}

#[test]
fn a_reveal_is_made_and_taken_away() {
    let mut project = project();
    put(&mut project, OPENING, "inside.radius", "30");
    assert_eq!(
        shown(&project, OPENING, "inside.plastered").as_deref(),
        Some("jambs, head")
    );
    put(&mut project, OPENING, "inside.plastered", "sill and j");
    assert_eq!(
        shown(&project, OPENING, "inside.plastered").as_deref(),
        Some("sill, jambs")
    );
    put(&mut project, OPENING, "inside.splay.jambs", "15");
    put(&mut project, OPENING, "inside.splay.jambs", "");
    let reveal = project.walls[0].openings[0].inside.clone().unwrap();
    assert_eq!(reveal.splay, None);
    put(&mut project, OPENING, "inside.plastered", "");
    assert_eq!(project.walls[0].openings[0].inside, None);
    put(&mut project, OPENING, "shape", "circle");
    refused(
        &mut project,
        OPENING,
        "inside.plastered",
        "jambs",
        "none of ring",
    );
}

#[test]
fn of_two_that_exclude_one_another_the_last_stands() {
    let mut project = project();
    put(&mut project, WALL, "shape", "curved");
    put(&mut project, WALL, "sweep", "90");
    assert_eq!(shown(&project, WALL, "length"), None);
    refused(&mut project, WALL, "sweep", "", "is needed");
    put(&mut project, WALL, "length", "6 m");
    assert_eq!(shown(&project, WALL, "sweep"), None);
    let mix = Subject::Mix(0);
    put(&mut project, mix, "fibre.dose", "50 kg/m3");
    put(&mut project, mix, "fibre.per", "loose");
    assert_eq!(
        shown(&project, mix, "fibre.material").as_deref(),
        Some("straw")
    );
    put(&mut project, mix, "fibre.parts", "2");
    assert_eq!(shown(&project, mix, "fibre.dose"), None);
    assert_eq!(shown(&project, mix, "fibre.per"), None);
    refused(&mut project, mix, "fibre.material", "", "is needed");
    put(&mut project, mix, "fibre.parts", "");
    put(&mut project, mix, "fibre.material", "");
    assert_eq!(project.mixes[0].fibre, None);
    refused(
        &mut project,
        mix,
        "binder.dose",
        "6 kg/m3",
        "no material of kind binder",
    );
}

#[test]
fn a_trial_batch_and_a_mixer_come_and_go() {
    let mut project = project();
    let mix = Subject::Mix(0);
    put(&mut project, mix, "trial_batch.mixed", "8 L");
    assert_eq!(
        shown(&project, mix, "trial_batch.loose").as_deref(),
        Some("0 L")
    );
    put(&mut project, mix, "trial_batch.loose", "10 L");
    sound(&project);
    put(&mut project, mix, "trial_batch.mixed", "");
    put(&mut project, mix, "trial_batch.loose", "");
    assert_eq!(project.mixes[0].trial_batch, None);
    refused(
        &mut project,
        Subject::Mixer,
        "bucket",
        "12 L",
        "batch makes first",
    );
    put(&mut project, Subject::Mixer, "working_volume", "100 L");
    put(&mut project, Subject::Mixer, "bucket", "12 L");
    refused(
        &mut project,
        Subject::Mixer,
        "working_volume",
        "",
        "is needed",
    );
    put(&mut project, Subject::Mixer, "bucket", "");
    put(&mut project, Subject::Mixer, "working_volume", "");
    assert_eq!(project.mixer, None);
}

#[test]
fn a_part_stands_in_the_order_of_the_materials() {
    let mut project = project();
    put(&mut project, Subject::Mix(0), "parts.sand", "");
    assert_eq!(shown(&project, Subject::Mix(0), "parts.sand"), None);
    put(&mut project, Subject::Mix(0), "parts.sand", "2 1/2");
    let parts: Vec<&str> = project.mixes[0].parts.keys().map(Name::as_str).collect();
    assert_eq!(parts, ["sand", "clay"]);
    refused(
        &mut project,
        Subject::Mix(0),
        "parts.straw",
        "2",
        "no field",
    );
}

#[test]
fn names_are_followed_and_not_given_twice() {
    let mut project = project();
    let shared = Arc::clone(&project.walls[0]);
    put(&mut project, Subject::Background(0), "name", " straw bale ");
    assert!(Arc::ptr_eq(&shared, &project.walls[0]), "no wall names it");
    put(&mut project, Subject::Background(1), "name", "adobe");
    put(&mut project, Subject::BuildUp(0), "name", "one coat");
    put(&mut project, Subject::Mix(0), "name", "first");
    put(&mut project, Subject::Material(0), "name", "pit sand");
    let face = project.walls[1].inside.as_ref().unwrap();
    assert_eq!((&*face.background, &*face.build_up), ("adobe", "one coat"));
    assert_eq!(project.build_ups[0][0].mix, "first");
    let parts: Vec<&str> = project.mixes[0].parts.keys().map(Name::as_str).collect();
    assert_eq!(parts, ["pit sand", "clay"]);
    sound(&project);
    let package = Subject::Package {
        material: 1,
        package: 0,
    };
    put(&mut project, package, "name", "sack");
    assert_eq!(
        shown(&project, Subject::Material(1), "stock").as_deref(),
        Some("2 sack")
    );
    sound(&project);
    refused(
        &mut project,
        package,
        "name",
        "cup",
        "clear the stock first",
    );
    refused(
        &mut project,
        Subject::Background(0),
        "name",
        "adobe",
        "is taken",
    );
    refused(
        &mut project,
        Subject::Material(0),
        "name",
        "clay",
        "is taken",
    );
    refused(&mut project, WALL, "id", "N", "is taken");
    refused(&mut project, WALL, "id", " ", "is needed");
    refused(&mut project, WALL, "id", "a\tb", "cannot be seen");
}

#[test]
fn what_a_coat_took_is_no_mass() {
    let took = |text| understand(&Kind::Mixed, text, UnitSystem::Us).map(|u| u.stored);
    for fine in ["8 batches", "35 buckets", "20 ft3"] {
        assert_eq!(took(fine).as_deref(), Ok(fine));
    }
    for (text, why) in [
        ("50 lb", "'50 lb' is a mass; write"),
        ("8", "'8' has neither"),
    ] {
        let said = took(text).unwrap_err();
        assert!(said.starts_with(why), "{said}");
        assert!(
            said.ends_with("; write 8 batches, 35 buckets or 20 ft3"),
            "{said}"
        );
    }
}

#[test]
fn an_option_does_not_start_from_itself() {
    let mut project = project();
    project.options.clear();
    for name in ["thin", "thick"] {
        project
            .options
            .insert(name.into(), crate::project::Alternative::default());
    }
    let all = rows(&project, Subject::Alternative(0));
    let of = all.iter().find(|row| row.key == "of").unwrap();
    assert_eq!(of.kind, Kind::OneOf(vec!["thick".into()]));
}

#[test]
fn words_are_completed_where_only_one_begins_so() {
    let kind = Kind::OneOf(["rectangle", "raked", "gable"].map(Into::into).to_vec());
    let shown = |text| understand(&kind, text, UnitSystem::Us).map(|u| u.shown);
    assert_eq!(shown("G").as_deref(), Ok("gable"));
    assert_eq!(shown("re").as_deref(), Ok("rectangle"));
    assert_eq!(shown("r").unwrap_err(), "'r' can be rectangle or raked");
    assert_eq!(
        shown("foo").unwrap_err(),
        "'foo' is none of rectangle, raked and gable"
    );
    let none = Kind::OneOf(Vec::new());
    assert!(understand(&none, "foo", UnitSystem::Us).is_err());
}

#[test]
fn things_are_called_and_numbered() {
    let mut project = project();
    assert_eq!(title(&project, WALL), "wall S");
    assert_eq!(title(&project, OPENING), "opening W1 of wall S");
    let coat = Subject::Coat {
        build_up: 0,
        coat: 0,
    };
    assert_eq!(title(&project, coat), "coat scratch of two coats");
    assert_eq!(title(&project, Subject::Wall(9)), "");
    assert_eq!(new_id(&project, "S"), "S2");
    assert_eq!(new_id(&project, "W1"), "W2");
    assert_eq!(new_id(&project, "two coats"), "two coats 2");
    assert_eq!(new_id(&project, "E"), "E");
    for (id, next) in [
        ("W09", "W10"),
        ("W009", "W010"),
        ("18446744073709551615", "18446744073709551615 2"),
        ("4294967295", "4294967296"),
    ] {
        put(&mut project, WALL, "id", id);
        assert_eq!(new_id(&project, id), next);
    }
}

#[test]
fn an_edit_leaves_a_copy_as_it_was() {
    let mut project = project();
    let before = project.clone();
    put(&mut project, WALL, "length", "7 m");
    put(&mut project, OPENING, "sill", "1 m");
    assert_eq!(before, self::project());
    assert!(Arc::ptr_eq(&before.walls[1], &project.walls[1]));
}
