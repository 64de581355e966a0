//! Keeping what was tried, taking up, and what was counted in a thing that is left out. Not here: single changes.

use super::*;
use crate::project::{Delivered, Opening, Rate};
use hodful_quantities::read::Amount;

fn rules() -> RuleBook {
    [("net".into(), Rule::default())].into_iter().collect()
}

fn keep(mark: &Project, now: &Project) -> Result<Project, EcoString> {
    kept(mark, now, &"tried".into(), &rules()).map(Option::unwrap)
}

fn is_fine(project: &Project) {
    if let Err(problems) = crate::check(project, &rules()) {
        panic!("{problems:#?}");
    }
    assert_eq!(misfits(project), []);
}

/// With a record and a spread of a coat that was given another name since the mark the old name would come back and
/// they would name nothing.
#[test]
fn nothing_is_kept_across_a_new_name() {
    let mark = recorded();
    is_fine(&mark);
    let mut now = mark.clone();
    form::set(&mut now, SCRATCH, "coat", "body").unwrap();
    is_fine(&now);
    let why = keep(&mark, &now).unwrap_err();
    assert!(
        why.contains("coat scratch of two coats gave way to body"),
        "{why}"
    );
    // So would a coat of a name that another build-up has, though nothing would be refused: the spread of the one would
    // be one of the other.
    let mut two = mark.clone();
    let finish = two.build_ups["two coats"].pop().unwrap();
    two.build_ups.insert("other".into(), vec![finish]);
    two.done.pop();
    two.uncertain.truncate(1);
    let mut now = two.clone();
    form::set(&mut now, SCRATCH, "coat", "finish").unwrap();
    assert_eq!(now.uncertain[0].name.as_deref(), Some("finish"));
    let why = keep(&two, &now).unwrap_err();
    assert!(why.contains("gave way to finish"), "{why}");
    // A wall likewise.
    let mut now = mark.clone();
    form::set(&mut now, Subject::Wall(1), "id", "north").unwrap();
    is_fine(&now);
    let why = keep(&mark, &now).unwrap_err();
    assert!(why.contains("wall N gave way to north"), "{why}");
    // A name that nothing names may change: the option has another coat in its place.
    let mut mark = mark;
    mark.done.clear();
    mark.uncertain.clear();
    mark.work = None;
    let mut now = mark.clone();
    form::set(&mut now, SCRATCH, "coat", "body").unwrap();
    let back = keep(&mark, &now).unwrap();
    is_fine(&back);
    assert_eq!(apply(&back, "tried").unwrap().build_ups, now.build_ups);
}

#[test]
fn what_would_be_refused_is_not_kept() {
    // A record of a coat that is new since the mark.
    let mut mark = recorded();
    mark.done.truncate(2);
    let finish = mark.build_ups["two coats"].pop().unwrap();
    mark.uncertain
        .retain(|of| of.name.as_deref() != Some("finish"));
    mark.work.as_mut().unwrap().rates.shift_remove("finish");
    is_fine(&mark);
    let mut now = mark.clone();
    now.build_ups["two coats"].push(finish);
    assert!(keep(&mark, &now).is_ok());
    now.done.push(record("finish", &["N"]));
    is_fine(&now);
    let why = keep(&mark, &now).unwrap_err();
    assert!(why.contains("refused") && why.contains("record 3"), "{why}");
    // An option that names the new coat.
    now.done.pop();
    let more = add(of_coat(None, "finish"), "thickness", "2 mm");
    now.options.insert("thicker".into(), option(vec![more]));
    let why = keep(&mark, &now).unwrap_err();
    assert!(
        why.contains("another option") && why.contains("thicker"),
        "{why}"
    );
    // What the mark was refused for already does not matter.
    let mut broken = mark.clone();
    broken.done[0].walls = vec!["X".into()];
    let mut now = broken.clone();
    form::set(&mut now, SCRATCH, "thickness", "20 mm").unwrap();
    assert!(keep(&broken, &now).is_ok());
}

/// What one person does of a coat in an hour goes with the coat on the screen, and comes back with it.
#[test]
fn a_coat_that_comes_back_has_its_rate() {
    let mut mark = recorded();
    mark.done.truncate(2);
    let rate = Rate {
        placing: Some(Typed::read("4 m2").unwrap()),
        ..Rate::default()
    };
    let rates = &mut mark.work.as_mut().unwrap().rates;
    *rates.get_mut("finish").unwrap() = rate.clone();
    let mut now = mark.clone();
    now.build_ups["two coats"].pop();
    now.uncertain
        .retain(|of| of.name.as_deref() != Some("finish"));
    let work = now.work.as_mut().unwrap();
    work.rates.shift_remove("finish");
    let back = keep(&mark, &now).unwrap();
    is_fine(&back);
    let rates = &back.work.as_ref().unwrap().rates;
    assert_eq!(rates["finish"], rate);
    assert_eq!(rates, &mark.work.unwrap().rates);
}

/// 12 mm, half an inch more by the one, two millimetres more by what starts from it: taken up, 26.7 mm, and none of it
/// a second time.
#[test]
fn what_an_option_starts_from_is_taken_up_with_it() {
    let mut base = project();
    let more = |by| vec![add(of_coat(None, "scratch"), "thickness", by)];
    let from = |of: &str, by| Alternative {
        of: Some(of.into()),
        ..option(more(by))
    };
    base.options.insert("a".into(), option(more("1/2 in")));
    base.options.insert("b".into(), from("a", "2 mm"));
    base.options.insert("c".into(), from("a", "5 mm"));
    base.options.insert("d".into(), from("c", "1 mm"));
    base.options.insert("e".into(), option(more("7 mm")));
    let TakenUp {
        project: made,
        with,
        onward,
    } = taken_up(&base, "b").unwrap();
    assert!((thickness(&made) - 26.7).abs() < 1e-12);
    assert_eq!((with, onward), (vec!["a".into()], vec!["c".into()]));
    assert_eq!(made.options.keys().collect::<Vec<_>>(), ["c", "d", "e"]);
    let mm = |name| thickness(&apply(&made, name).unwrap());
    assert!((mm("c") - 31.7).abs() < 1e-12);
    assert!((mm("d") - 32.7).abs() < 1e-12);
    assert!((mm("e") - 33.7).abs() < 1e-12);
    assert!(taken_up(&base, "f").is_err());
}

/// Batches of 90 L and buckets of 12 L as the volumes that they were, bags of 25 kg and loads of 2 m³ likewise.
#[test]
fn what_was_counted_stays_when_the_measure_is_left_out() {
    let mut base = recorded();
    form::set(&mut base, Subject::Mixer, "working_volume", "90 L").unwrap();
    form::set(&mut base, Subject::Mixer, "bucket", "12 L").unwrap();
    base.done[0].took = Typed::read("4 batches").unwrap();
    base.done[1].took = Typed::read("2.5 Bucket").unwrap();
    let mixer = Spot {
        mixer: Some(true),
        ..Spot::default()
    };
    let made = without(&base, vec![Alteration::LeaveOut { at: mixer }]);
    let litres = |at: usize| match made.done[at].took.value() {
        Amount::Volume(volume) => volume.value / 1.0e6,
        other => panic!("{other:?}"),
    };
    assert!((litres(0) - 360.0).abs() < 1e-9);
    assert!((litres(1) - 30.0).abs() < 1e-9);
    assert_eq!(made.done[2], base.done[2]);
    // Off by half a batch of four still, half a batch being 1/8 of it (JCGM 100:2008, 4.3.7).
    let read = crate::check::reading::of_volume(made.done[0].took.text(), 360.0e6);
    assert!((read - 0.125 / 3.0_f64.sqrt()).abs() < 1e-6);

    let mut base = project();
    let sand = &mut base.materials["sand"];
    let mut package = |name: &str, holds: &str| {
        sand.packages.retain(|package| package.name != name);
        let holds = Typed::read(holds).unwrap();
        sand.packages
            .push(crate::project::Package::of(name.into(), holds));
    };
    package("load", "2 m3");
    package("bag", "25 kg");
    sand.stock = Some(Typed::read("3 bags").unwrap());
    let delivery = |amount: &str| Delivered {
        amount: Typed::read(amount).unwrap(),
        material: "sand".into(),
        date: None,
        note: None,
    };
    base.delivered = ["1 load", "2 1/2 bag", "40 kg"].map(delivery).to_vec();
    let leave = |name: &str| Alteration::LeaveOut {
        at: Spot {
            material: Some("sand".into()),
            package: Some(name.into()),
            ..Spot::default()
        },
    };
    let made = without(&base, vec![leave("bag"), leave("load")]);
    let amounts = [&made.delivered[0].amount, &made.delivered[1].amount];
    let all = amounts.into_iter().chain(&made.materials["sand"].stock);
    let read: Vec<Amount> = all.map(Typed::value).collect();
    let near = |of: f64, expected: f64| (of - expected).abs() < 1e-9 * expected;
    assert!(
        matches!(read[0], Amount::Volume(of) if near(of.value, 2.0e9)),
        "{read:?}"
    );
    assert!(
        matches!(read[1], Amount::Mass(of) if near(of.value, 62.5)),
        "{read:?}"
    );
    assert!(
        matches!(read[2], Amount::Mass(of) if near(of.value, 75.0)),
        "{read:?}"
    );
    assert_eq!(made.delivered[2], base.delivered[2]);
}

#[test]
fn an_opening_that_is_gone_is_left_out_and_a_new_one_is_named() {
    let base = project();
    let mut fewer = base.clone();
    std::sync::Arc::make_mut(&mut fewer.walls[0])
        .openings
        .clear();
    let changes = between(&base, &fewer).unwrap();
    let at = Spot {
        wall: Some("S".into()),
        opening: Some("W1".into()),
        ..Spot::default()
    };
    assert_eq!(changes, [Alteration::LeaveOut { at }]);
    let mut with = base.clone();
    with.options.insert("no window".into(), option(changes));
    assert_eq!(apply(&with, "no window").unwrap().walls, fewer.walls);
    // Back again it is new.
    let why = between(&fewer, &base).unwrap_err();
    assert!(
        why.starts_with("opening W1 of wall S is new; an option changes"),
        "{why}"
    );
    // The rest by its name.
    let said = |change: &dyn Fn(&mut Project)| {
        let mut other = base.clone();
        change(&mut other);
        let why = between(&base, &other).unwrap_err();
        why.split_once(';').unwrap().0.to_owned()
    };
    let renamed = said(&|of| form::set(of, Subject::Mix(0), "name", "plain").unwrap());
    assert!(
        renamed.contains("mix plain is new, mix base is gone"),
        "{renamed}"
    );
    assert_eq!(
        said(&|of| of.walls.reverse()),
        "the walls stand in another order"
    );
    let order = said(&|of| {
        of.walls[0] = std::sync::Arc::new({
            let mut wall = (*of.walls[0]).clone();
            let second = Opening {
                id: "W2".into(),
                ..wall.openings[0].clone()
            };
            wall.openings.push(second);
            wall
        });
    });
    assert_eq!(order, "opening W2 of wall S is new");
}

/// A thousand walls changed one by one, as "changes of many" makes them.
#[test]
fn many_walls_are_kept_and_made() {
    let mut base = project();
    let first = base.walls[1].clone();
    base.walls = (0..1000)
        .map(|number| {
            let mut wall = (*first).clone();
            wall.id = ecow::eco_format!("W{number}");
            std::sync::Arc::new(wall)
        })
        .collect();
    let mut tried = base.clone();
    for at in (0..1000).rev() {
        form::set(&mut tried, Subject::Wall(at), "length", "7 m").unwrap();
    }
    tried.walls.remove(500);
    let changes = between(&base, &tried).unwrap();
    assert_eq!(changes.len(), 1000);
    let mut with = base.clone();
    with.options.insert("longer".into(), option(changes));
    assert_eq!(apply(&with, "longer").unwrap().walls, tried.walls);
}
