//! What keys lead to on the pages of soils, of the order and of the card. Not here: how they look.

use crate::driver::{Driver, demo, start};
use hodful_quantities::Typed;
use hodful_takeoff::form::{Kind, Subject};
use hodful_takeoff::project::{Blend, BuyingAim, MaterialKind, Package};
use hodful_tui::Effect;
use hodful_tui::state::{Focus, Screen};

const YARD: &str = "marlpit-barn";

/// The position of a field of what is chosen.
fn field(driver: &Driver, key: &str) -> usize {
    let rows = driver.state.rows();
    let at = rows.iter().position(|row| row.key == key);
    at.unwrap_or_else(|| panic!("there is no field {key}"))
}

/// Goes to a field by its key, from the list.
fn go_to(driver: &mut Driver, key: &str) {
    if driver.state.focus() != Focus::Fields {
        driver.key("tab");
    }
    let at = field(driver, key);
    while driver.state.field() > at {
        driver.key("up");
    }
    while driver.state.field() < at {
        driver.key("down");
    }
}

/// Chooses a row of the list by what stands in it.
fn choose(driver: &mut Driver, subject: Subject) {
    driver.key("home");
    for _ in 0..100 {
        if driver.state.subject() == Some(subject) {
            return;
        }
        driver.key("down");
    }
    panic!("{subject:?} is not in the list");
}

/// Layers of 50, 30 and 20 mm in 200 mm of water. As they stand a fifth is clay; by the dry mass that a
/// settled volume holds (Lara and Pemberton, 1963: 1554, 1121 and 416 kg/m³) 8320 of 119 650; the middle
/// of the two is 13.5 %, and in the same way 57.5 % is sand: a sandy loam (USDA Handbook 18, ch. 3).
#[test]
fn a_soil_is_typed_from_an_empty_project_by_its_jar() {
    let mut driver = Driver::unnamed();
    driver.play("esc 6");
    assert_eq!(driver.state.screen(), Screen::Soils);
    let soils = driver.project().materials.values();
    let at = soils.into_iter().position(|m| m.kind == MaterialKind::Soil);
    choose(
        &mut driver,
        Subject::Material(at.expect("a new project has a soil")),
    );
    assert!(driver.screen(120, 40).contains("not tested"));
    let begin = driver.project().clone();
    driver.key("a");
    assert_eq!(driver.state.field(), field(&driver, "soil.jar.sand"));
    driver.play("\"50 mm\" enter \"30 mm\" enter \"20 mm\" enter \"200 mm\" enter");
    let tests = driver.state.soil_tests(at.unwrap());
    let (_, figures) = tests.first().expect("it is tested");
    let figures = figures.as_ref().expect("it can be read");
    let clay = figures.shares.clay().best().unwrap();
    let sand = figures.shares.sand().best().unwrap();
    assert!(
        (clay - f64::midpoint(0.2, 8320.0 / 119_650.0)).abs() < 1e-9,
        "{clay}"
    );
    assert!(
        (sand - f64::midpoint(0.5, 77_700.0 / 119_650.0)).abs() < 1e-9,
        "{sand}"
    );
    for (columns, rows) in [(120, 40), (80, 24)] {
        let screen = driver.screen(columns, rows);
        assert!(screen.contains("sandy loam"), "{screen}");
        assert!(screen.contains("13 %"), "{screen}");
    }
    // A first test was made; another one is typed in the fields.
    driver.play("esc a");
    assert!(
        driver.notice().contains("tested already"),
        "{}",
        driver.notice()
    );
    while driver.state.doc().next_undo().is_some() {
        driver.key("u");
    }
    assert!(driver.project() == &begin);
}

#[test]
fn a_blend_becomes_a_mix_by_one_key_and_undo_takes_it_back() {
    let mut driver = Driver::demo(YARD);
    let begin = driver.project().clone();
    driver.key("6");
    choose(&mut driver, Subject::Blend(0));
    driver.key("i");
    assert_eq!(driver.project().mixes.len(), begin.mixes.len() + 1);
    let (name, mix) = driver.project().mixes.last().unwrap();
    assert_eq!(name, "base from the pit");
    let parts: f64 = mix.parts.values().map(|part| part.value().get()).sum();
    assert!(parts > 0.0);
    assert!(
        driver.notice().contains(
            "blend base from the pit is now mix base from the pit, with water, air, fibre and binder as in mix base: try a batch"
        ),
        "{}",
        driver.notice()
    );
    assert_eq!(
        driver.state.subject(),
        Some(Subject::Mix(begin.mixes.len()))
    );
    // It can stand in a coat as it is.
    let refused = |driver: &Driver| driver.state.doc().bench().problems().count();
    assert_eq!(refused(&driver), 0);
    driver.key("u");
    assert!(driver.project() == &begin);
}

#[test]
fn lime_and_cement_are_left_out_of_a_new_blend() {
    for kind in [MaterialKind::Lime, MaterialKind::Cement] {
        let mut project = demo(YARD);
        let (name, material) = project.materials.get_index_mut(3).unwrap();
        assert_eq!(name, "milled clay");
        material.kind = kind;
        let mut driver = Driver::new(start(project));
        let before = driver.project().blends.len();
        driver.play("6 b");
        assert_eq!(driver.project().blends.len(), before + 1);
        let Some(Subject::Blend(at)) = driver.state.subject() else {
            panic!("no blend is chosen: {}", driver.notice());
        };
        let (_, blend) = driver.project().blends.get_index(at).unwrap();
        let materials = blend.materials.keys();
        assert!(
            materials.eq(["sharp sand", "pit soil", "stony premix"]),
            "{:?}",
            blend.materials
        );
    }
}

/// Of 100 parts of the pit soil 90 pass 4 mm, its screen, and 24 are clay: past the screen 24 / 90 is clay.
#[test]
fn what_is_past_the_screen_is_said_where_it_is_not_what_was_tested() {
    let mut driver = Driver::demo(YARD);
    driver.key("6");
    choose(&mut driver, Subject::Material(1));
    let screen = driver.screen(200, 60);
    assert!(screen.contains("past the screen"), "{screen}");
    assert!(screen.contains("clay 26.7 %"), "{screen}");
    // Milled clay is not screened.
    choose(&mut driver, Subject::Material(3));
    let screen = driver.screen(200, 60);
    assert!(!screen.contains("past the screen"), "{screen}");
}

#[test]
fn soils_and_the_card_warn_of_dust() {
    for page in ["6", "8"] {
        let mut driver = Driver::demo(YARD);
        let screen = driver.key(page).screen(200, 60);
        assert!(screen.contains("Dust: damp it before"), "{screen}");
    }
}

/// One cart of sand for 900, five bags of clay for 100 each, seven bales for 6 and a sack for 31 are fetched
/// oneself in no trip: 1473. Delivered they cost less, by whoever it is.
#[test]
fn fewest_trips_may_cost_more_than_each_by_itself_and_that_is_said() {
    let mut project = demo(YARD);
    for (at, name, holds, price) in [(0, "cart", "4 m3", "900"), (3, "own bag", "25 kg", "100")] {
        project.materials[at].packages.push(Package {
            price: Some(Typed::read(price).unwrap()),
            ..Package::of(name.into(), Typed::read(holds).unwrap())
        });
    }
    let buying = project.buying.as_mut().unwrap();
    buying.aim = Some(BuyingAim::FewestDeliveries);
    let mut driver = Driver::new(start(project));
    let screen = driver.key("7").screen(200, 60);
    for words in [
        "1 × cart (4 m3) of sharp sand",
        "all of it, 0 trips",
        "473.00 in 0 trips; each material by itself",
        " more.",
        "Fewer trips cannot be had",
    ] {
        assert!(screen.contains(words), "{words}\n{screen}");
    }
}

#[test]
fn a_blend_that_cannot_be_had_is_no_mix_and_says_why() {
    let mut project = demo(YARD);
    let blend: &mut Blend = &mut project.blends[0];
    let most = blend.clay.as_mut().unwrap();
    (most.least, most.most) = (Some(Typed::read("90 %").unwrap()), None);
    let begin = project.clone();
    let mut driver = Driver::new(start(project));
    driver.key("6");
    choose(&mut driver, Subject::Blend(0));
    let screen = driver.screen(120, 40);
    assert!(screen.contains("cannot be had"), "{screen}");
    driver.key("i");
    assert!(
        driver.notice().contains("cannot be had"),
        "{}",
        driver.notice()
    );
    assert!(driver.project() == &begin);
}

#[test]
fn the_order_is_planned_off_the_keys_and_says_when_it_is_of_before() {
    let mut driver = Driver::demo(YARD);
    driver.key("7");
    let asked = |driver: &Driver| {
        let asked = driver.effects.iter();
        asked
            .filter(|of| matches!(of, Effect::Supply { .. }))
            .count()
    };
    assert_eq!(asked(&driver), 1);
    // Keys go on meanwhile, and it is not asked for again.
    driver.play("down down up");
    assert_eq!(asked(&driver), 1);
    assert!(driver.state.supply().is_none());
    driver.answer();
    assert!(driver.state.is_planned());
    let screen = driver.screen(120, 40);
    for words in [
        "body coats, 2026-05-04",
        "Hollowell Aggregates",
        "all of it",
        "each material by itself",
    ] {
        assert!(screen.contains(words), "{words}\n{screen}");
    }
    // A thicker coat: what is shown is of before until the answer comes.
    driver.play("3 + 7");
    assert_eq!(asked(&driver), 2);
    assert!(!driver.state.is_planned());
    let waiting = driver.supply.take();
    let screen = driver.screen(120, 40);
    assert!(screen.contains("of before the last change"), "{screen}");
    driver.supply = waiting;
    driver.answer();
    assert!(driver.state.is_planned());
    // The figures are those of the plain plan, which knows nothing of the screen.
    let plain = hodful_takeoff::bench::Bench::new(
        std::sync::Arc::new(driver.project().clone()),
        std::sync::Arc::new(hodful_project_file::rules()),
    );
    let (_, shown) = driver.state.supply().unwrap();
    let (shown, plain) = (shown.as_ref().unwrap(), plain.supply().unwrap());
    assert_eq!(shown.plan.price, plain.plan.price);
    for (shown, plain) in shown.plan.deliveries.iter().zip(&plain.plan.deliveries) {
        assert_eq!(shown.lines, plain.lines);
        assert_eq!((shown.supplier, shown.trips), (plain.supplier, plain.trips));
    }
    assert_eq!(shown.plan.deliveries.len(), plain.plan.deliveries.len());
    assert_eq!(shown.simple.price, plain.simple.price);
}

#[test]
fn a_blend_is_looked_for_off_the_keys_and_says_when_it_is_of_before() {
    let mut driver = Driver::demo(YARD);
    driver.key("6");
    choose(&mut driver, Subject::Blend(0));
    let asked = |driver: &Driver| {
        let asked = driver.effects.iter();
        asked
            .filter(|of| matches!(of, Effect::Blend { .. }))
            .count()
    };
    let before = asked(&driver);
    assert!(before > 0 && driver.state.blend(0).is_none());
    driver.answer();
    assert!(driver.state.is_blended(0));
    go_to(&mut driver, "sand_to_rest");
    driver.text("at most 1").key("enter");
    assert_eq!(asked(&driver), before + 1);
    assert!(!driver.state.is_blended(0));
    let waiting = driver.blend.take();
    let screen = driver.screen(120, 40);
    assert!(screen.contains("of before the last change"), "{screen}");
    driver.blend = waiting;
    driver.answer();
    assert!(driver.state.is_blended(0));
    // What was asked is kept to.
    let (looked, _) = driver.state.blend(0).unwrap();
    let blend = looked.as_ref().unwrap().blend();
    let sand = blend.volume_parts[0];
    assert!(sand <= 0.5 + 1e-6, "{sand}");
}

#[test]
fn what_there_is_none_of_yet_is_added_and_comes_back_by_undo() {
    let mut driver = Driver::unnamed();
    driver.line("plan 20' x 16' high 9' thick 18\"").key("esc");
    let begin = driver.project().clone();
    driver.play("7 end a a");
    assert_eq!(driver.project().buying.as_ref().unwrap().phases.len(), 2);
    driver.play("7 home a a");
    assert_eq!(driver.project().suppliers.len(), 2);
    driver.play("6 b a");
    assert_eq!(driver.project().blends.len(), 2);
    let minerals = driver.project().materials.values();
    let minerals = minerals.filter(|m| m.kind.is_mineral()).count();
    let (_, blend) = driver.project().blends.first().unwrap();
    assert_eq!(blend.materials.len(), minerals);
    driver.play("8 l");
    let panels = |driver: &Driver| -> usize {
        let mixes = driver.project().mixes.values();
        mixes.map(|mix| mix.test_panels.len()).sum()
    };
    assert_eq!(panels(&driver), 1);
    driver.play("a");
    assert_eq!(panels(&driver), 2);
    // None of it is refused as it stands.
    let refused: Vec<String> = driver
        .state
        .doc()
        .bench()
        .problems()
        .map(ToString::to_string)
        .collect();
    assert_eq!(refused, Vec::<String>::new());
    for _ in 0..8 {
        driver.key("u");
    }
    assert!(driver.project() == &begin);
}

#[test]
fn wrong_input_in_any_field_of_the_yard_stays_there_and_changes_nothing() {
    let mut tried = 0;
    for (page, subjects) in [
        (
            "6",
            vec![
                Subject::Material(0),
                Subject::Material(1),
                Subject::Blend(0),
                Subject::Blend(1),
            ],
        ),
        (
            "7",
            vec![
                Subject::Supplier(0),
                Subject::Phase(1),
                Subject::Buying,
                Subject::Material(3),
            ],
        ),
        (
            "4",
            vec![
                Subject::Panel { mix: 0, panel: 0 },
                Subject::Package {
                    material: 0,
                    package: 0,
                },
                Subject::Mixer,
            ],
        ),
    ] {
        for subject in subjects {
            let mut driver = Driver::demo(YARD);
            driver.key(page);
            choose(&mut driver, subject);
            let begin = driver.project().clone();
            for row in driver.state.rows() {
                if matches!(row.kind, Kind::Text | Kind::Id) {
                    continue;
                }
                go_to(&mut driver, &row.key);
                // Nothing that any kind of field is written as.
                driver.text("0 #? 12 quux").key("enter");
                let typing = driver.state.typing();
                let fault = typing.map(|typing| typing.understood.is_err());
                assert_eq!(fault, Some(true), "{subject:?} {}", row.key);
                assert!(!driver.notice().is_empty(), "{subject:?} {}", row.key);
                driver.key("esc");
                assert!(driver.project() == &begin, "{subject:?} {}", row.key);
                tried += 1;
            }
        }
    }
    assert!(tried > 100, "{tried}");
}

#[test]
fn a_problem_of_a_soil_leads_to_its_field_on_the_page_of_soils() {
    let mut project = demo(YARD);
    let soil = project.materials[1].soil.as_mut().unwrap();
    // No water stands over the layers.
    soil.jar.as_mut().unwrap().water_depth = Some(Typed::read("10 mm").unwrap());
    soil.sieve.clear();
    let mut driver = Driver::new(start(project));
    driver.key("g");
    assert_eq!(driver.state.screen(), Screen::Soils, "{}", driver.notice());
    assert_eq!(driver.state.subject(), Some(Subject::Material(1)));
    assert_eq!(driver.state.focus(), Focus::Fields);
    let rows = driver.state.rows();
    assert!(rows[driver.state.field()].key.starts_with("soil.jar"));
    assert!(driver.screen(120, 40).contains("cannot be told"));
}

#[test]
fn why_of_the_order_is_its_figure_and_of_a_soil_there_is_none() {
    let mut driver = Driver::demo(YARD);
    driver.play("6 w");
    assert!(driver.state.popup().is_none());
    assert!(driver.notice().contains("no steps"), "{}", driver.notice());
    driver.play("7 w");
    let Some(hodful_tui::state::Popup::Why(_)) = driver.state.popup() else {
        panic!("no figure is open: {}", driver.notice());
    };
}

#[test]
fn a_change_on_a_page_is_shown_on_that_page() {
    let mut driver = Driver::demo(YARD);
    driver.key("6");
    choose(&mut driver, Subject::Material(1));
    let before = driver.screen(120, 40);
    go_to(&mut driver, "soil.jar.sand");
    // The triangle follows what is typed before it is taken; here the sieves stand before the jar.
    driver.text("60 mm").key("enter").key("esc");
    assert_eq!(driver.state.screen(), Screen::Soils);
    assert_ne!(driver.screen(120, 40), before);
    driver.key("u");
    assert_eq!(driver.state.screen(), Screen::Soils);
    assert_eq!(driver.state.subject(), Some(Subject::Material(1)));
}

#[test]
fn words_that_have_no_room_are_gone_through() {
    let mut driver = Driver::demo(YARD);
    driver.key("6");
    choose(&mut driver, Subject::Material(1));
    let first = driver.screen(80, 24);
    assert!(first.contains("more lines"), "{first}");
    driver.key(".");
    let second = driver.screen(80, 24);
    assert_ne!(first, second);
    for _ in 0..50 {
        driver.key(".");
    }
    let last = driver.screen(80, 24);
    assert!(
        !last.contains("more lines") && last.contains("back"),
        "{last}"
    );
    for _ in 0..50 {
        driver.key(",");
    }
    assert_eq!(driver.screen(80, 24), first);
}
