//! What to buy from whom, and the cards beside the mixer: shapes, wrong input, and figures worked out by hand.

use crate::golden::{changed, yard};
use crate::run::Site;
use serde_json::{Value, json};

fn report(site: &Site, arguments: &[&str]) -> Value {
    let said = site.run(&[arguments, &["--format", "json"]].concat());
    assert_eq!(said.code, Some(0), "{}", said.words);
    serde_json::from_str(&said.figures).unwrap()
}

fn number(of: &Value) -> f64 {
    of.as_f64().unwrap_or_else(|| panic!("{of} is no number"))
}

#[test]
fn deliveries_add_up_and_are_never_dearer_than_the_simple_way() {
    let site = yard();
    for more in [&[][..], &["--fewest"]] {
        let order = report(&site, &[&["order", "yard.hodful.json"], more].concat());
        let deliveries = order["deliveries"].as_array().unwrap();
        assert!(!deliveries.is_empty());
        let mut total = 0.0;
        let mut trips = 0;
        for delivery in deliveries {
            let packages = delivery["packages"].as_array().unwrap();
            let goods: f64 = packages.iter().map(|of| number(&of["price"])).sum();
            assert!((goods - number(&delivery["goods"])).abs() < 1e-9);
            // As typed: 45 a trip from one, 30 from the other, nothing for what one fetches.
            let each = match delivery["supplier"].as_str() {
                Some("Osier Bridge") => 45.0,
                Some("Tallow Wharf") => 30.0,
                None => 0.0,
                Some(other) => panic!("{other}"),
            };
            let made = delivery["trips"].as_u64().unwrap();
            #[allow(clippy::cast_precision_loss, reason = "a few trips")]
            let charge = each * made as f64;
            assert!((number(&delivery["charge"]) - charge).abs() < 1e-9);
            let loaded: u64 = delivery["loads"]
                .as_array()
                .unwrap()
                .iter()
                .map(|load| load["times"].as_u64().unwrap())
                .sum();
            assert_eq!(loaded, made);
            total += goods + charge;
            trips += made;
        }
        assert!((total - number(&order["delivered_price"])).abs() < 1e-9);
        assert_eq!(order["trips"], trips);
        let saved = number(&order["simple_price"]) - total;
        assert!((saved - number(&order["saved"])).abs() < 1e-9);
        if more.is_empty() {
            assert!(saved >= -1e-9, "the plan is dearer by {saved}");
            assert_eq!(order["aim"], "least cost");
        } else {
            assert_eq!(order["aim"], "fewest deliveries");
        }
        assert_eq!(order["proven"], true);
    }
    let trips = |more: &[&str]| {
        let order = report(&site, &[&["order", "yard.hodful.json"], more].concat());
        order["trips"].as_u64().unwrap()
    };
    assert!(trips(&["--fewest"]) <= trips(&[]));
}

#[test]
fn what_is_bought_covers_what_is_needed() {
    let order = report(&yard(), &["order", "yard.hodful.json"]);
    for material in order["materials"].as_array().unwrap() {
        let name = material["material"].as_str().unwrap();
        if name == "water" {
            continue;
        }
        let bought = order["deliveries"].as_array().unwrap().iter();
        let bought = bought.flat_map(|d| d["packages"].as_array().unwrap());
        let bought: f64 = bought
            .filter(|of| of["material"] == name)
            .map(|of| {
                let holds = of["holds"].as_str().unwrap();
                let (size, unit) = holds.split_once(' ').unwrap();
                let each: f64 = size.parse().unwrap();
                let per = number(&material["mass_kg"]) / number(&material["loose_m3"]);
                let kg = if unit == "m3" { each * per } else { each };
                kg * number(&of["count"])
            })
            .sum();
        let need = number(&material["mass_kg"]);
        assert!(bought >= need * (1.0 - 1e-9), "{name}: {bought} of {need}");
        let spare = order["delivery_spare"].as_array().unwrap().iter();
        let spare = spare.clone().find(|row| row["material"] == name).unwrap();
        assert!(
            (number(&spare["spare_kg"]) - (bought - need)).abs() < 1e-6,
            "{name}"
        );
    }
}

/// A field of a line of CSV by the key in its head; no text of these projects has a comma in it.
fn field<'l>(head: &str, line: &'l str, key: &str) -> &'l str {
    let at = head.split(',').position(|of| of == key);
    line.split(',')
        .nth(at.unwrap_or_else(|| panic!("{key} in {head}")))
        .unwrap()
}

#[test]
fn the_list_that_leaves_as_csv_is_the_planned_one() {
    let site = yard();
    for more in [&[][..], &["--fewest"]] {
        let arguments = [&["order", "yard.hodful.json"], more].concat();
        let order = report(&site, &arguments);
        let said = site.run(&[&arguments[..], &["--format", "csv"]].concat());
        let mut lines = said.figures.lines();
        let head = lines.next().unwrap();
        let lines: Vec<&str> = lines.collect();
        // One line for each package of each delivery, and one for the water.
        let mut at = 0;
        for delivery in order["deliveries"].as_array().unwrap() {
            for (turn, bought) in delivery["packages"].as_array().unwrap().iter().enumerate() {
                let of = |key| field(head, lines[at], key);
                for key in ["material", "package", "holds"] {
                    assert_eq!(of(key), bought[key].as_str().unwrap());
                }
                assert_eq!(of("count"), bought["count"].to_string());
                assert_eq!(of("phase"), delivery["phase"].as_str().unwrap());
                assert_eq!(of("date"), delivery["date"].as_str().unwrap_or_default());
                let supplier = delivery["supplier"].as_str();
                assert_eq!(of("supplier"), supplier.unwrap_or_default());
                let trips = if turn == 0 && supplier.is_some() {
                    delivery["trips"].to_string()
                } else {
                    String::new()
                };
                assert_eq!(of("trips"), trips);
                at += 1;
            }
        }
        assert_eq!(lines.len(), at + 1, "{}", said.figures);
        assert_eq!(field(head, lines[at], "material"), "water");
        // Every column can be summed.
        let sum = |key| -> f64 {
            let cells = lines.iter().map(|line| field(head, line, key));
            cells.filter_map(|cell| cell.parse::<f64>().ok()).sum()
        };
        let delivered = number(&order["delivered_price"]);
        assert!((sum("price") + sum("charge") - delivered).abs() < 1e-9);
        let needed = order["materials"].as_array().unwrap().iter();
        let needed: f64 = needed.filter_map(|of| of["mass_kg"].as_f64()).sum();
        assert!((sum("mass_kg") - needed).abs() < 1e-6);
        let spare = order["delivery_spare"].as_array().unwrap().iter();
        let spare: f64 = spare.filter_map(|of| of["spare_kg"].as_f64()).sum();
        assert!((sum("spare_kg") - spare).abs() < 1e-6);
    }
    let alone = Site::with_demo("ferry-loft");
    let said = alone.run(&["order", "demo.hodful.json", "--format", "csv"]);
    assert!(!said.figures.contains("supplier"), "{}", said.figures);
}

#[test]
fn a_material_without_a_package_is_named() {
    let site = changed(|p| {
        p["materials"]["cut straw"]
            .as_object_mut()
            .unwrap()
            .remove("packages");
    });
    let said = site.run(&["order", "yard.hodful.json"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(
        said.figures.contains("No package: cut straw."),
        "{}",
        said.figures
    );
    let csv = site.run(&["order", "yard.hodful.json", "--format", "csv"]);
    assert!(csv.figures.contains("\r\ncut straw,"), "{}", csv.figures);
    let said = yard().run(&["order", "yard.hodful.json"]);
    assert!(!said.figures.contains("No package"), "{}", said.figures);
}

#[test]
fn soil_stands_in_the_ground_and_rammed_too() {
    let order = report(&yard(), &["order", "yard.hodful.json"]);
    let materials = order["materials"].as_array().unwrap();
    let clay = materials
        .iter()
        .find(|m| m["material"] == "pond clay")
        .unwrap();
    // Dug volume = volume in the ground · 1.4, rammed = volume in the ground · 0.9, as typed.
    let loose = number(&clay["loose_m3"]);
    assert!((number(&clay["in_ground_m3"]) - loose / 1.4).abs() < 1e-12);
    assert!((number(&clay["rammed_m3"]) - loose / 1.4 * 0.9).abs() < 1e-12);
    let sand = materials
        .iter()
        .find(|m| m["material"] == "sharp sand")
        .unwrap();
    assert!(sand["in_ground_m3"].is_null());
}

#[test]
fn a_project_that_says_nothing_of_buying_is_told_nothing_of_it() {
    let site = Site::with_demo("ferry-loft");
    let order = report(&site, &["order", "demo.hodful.json"]);
    assert!(order.get("deliveries").is_none());
    let said = site.run(&["order", "demo.hodful.json"]);
    assert!(!said.figures.contains("FROM WHOM"));
    let said = site.run(&["order", "demo.hodful.json", "--fewest"]);
    assert_eq!(said.code, Some(2));
    assert!(
        said.words.contains("nobody delivers in this project"),
        "{}",
        said.words
    );
    assert!(said.figures.is_empty());
}

#[test]
fn a_list_that_cannot_be_planned_is_told_and_the_rest_is_printed() {
    // So small a package that no number of them can be counted.
    let site = changed(|p| {
        p["materials"]["cut straw"]["packages"][0]["holds"] = json!("0.00000000000001 kg");
    });
    let said = site.run(&["order", "yard.hodful.json"]);
    assert_eq!(said.code, Some(0));
    let words = "It cannot be planned: cut straw: more packages than can be counted";
    assert!(said.figures.contains(words), "{}", said.figures);
    assert!(said.figures.contains("ONE BATCH"));
    let order = report(&site, &["order", "yard.hodful.json"]);
    assert!(order["not_planned"].is_string());
    // The lines are those of each material by itself then, and that is said.
    let csv = site.run(&["order", "yard.hodful.json", "--format", "csv"]);
    assert_eq!(csv.code, Some(0));
    let words = "the lines are those of each material by itself";
    assert!(csv.words.contains(words), "{}", csv.words);
    let mut lines = csv.figures.lines();
    let head = lines.next().unwrap();
    let sand = lines.find(|line| line.starts_with("sharp sand,")).unwrap();
    let materials = order["materials"].as_array().unwrap();
    let by_itself = materials.iter().find(|of| of["material"] == "sharp sand");
    let count = &by_itself.unwrap()["order"][0]["count"];
    assert_eq!(field(head, sand, "count"), count.to_string());
    assert_eq!(field(head, sand, "supplier"), "");
}

#[test]
fn what_no_truck_carries_is_told_and_the_others_are_planned() {
    let site = changed(|p| p["suppliers"]["Osier Bridge"]["truck_volume"] = json!("0.5 m3"));
    let order = report(&site, &["order", "yard.hodful.json"]);
    assert!(order["not_planned"].is_null());
    assert_eq!(order["uncovered"], json!(["pond clay"]));
    let bought = order["deliveries"].as_array().unwrap().iter();
    let bought = bought.flat_map(|of| of["packages"].as_array().unwrap());
    let names: Vec<&str> = bought.map(|of| of["package"].as_str().unwrap()).collect();
    assert!(
        !names.is_empty() && !names.contains(&"tipped load"),
        "{names:?}"
    );
    let csv = site.run(&["order", "yard.hodful.json", "--format", "csv"]);
    let mut lines = csv.figures.lines();
    let head = lines.next().unwrap();
    // What nobody brings stays on the list with its need, and no package.
    let clay = lines.find(|line| line.starts_with("pond clay,")).unwrap();
    assert!(!field(head, clay, "mass_kg").is_empty());
    assert_eq!(field(head, clay, "package"), "");
}

#[test]
fn the_card_counts_as_the_crew_does() {
    let site = yard();
    let report = report(&site, &["card", "yard.hodful.json"]);
    assert_eq!(report["format"], "hodful-card");
    let cards = report["cards"].as_array().unwrap();
    assert_eq!(cards.len(), 2);
    for card in cards {
        for load in card["loads"].as_array().unwrap() {
            let litres = load["loose_m3"].as_f64().map(|m3| m3 * 1000.0);
            let nearest = |of: f64, step: f64| (of / step + 0.5).floor() * step;
            // A bucket of 12, a shovel of 3 and a cup of 0.25 L; a handful of straw of 30 g.
            if let (Some(litres), Some(buckets)) = (litres, load["buckets"].as_f64()) {
                assert!(
                    (buckets - nearest(litres / 12.0, 0.25)).abs() < 1e-9,
                    "{load}"
                );
                let shovels = number(&load["shovels"]);
                assert!(
                    (shovels - nearest(litres / 3.0, 1.0)).abs() < 1e-9,
                    "{load}"
                );
            }
            if load["kind"] == "fibre" {
                let handfuls = nearest(number(&load["mass_kg"]) / 0.030, 1.0);
                assert!((number(&load["handfuls"]) - handfuls).abs() < 1e-9);
            }
            if load["kind"] == "binder" {
                let cups = nearest(litres.unwrap() / 0.25, 0.25);
                assert!((number(&load["cups"]) - cups).abs() < 1e-9);
            }
        }
        let kinds: Vec<&str> = card["loads"]
            .as_array()
            .unwrap()
            .iter()
            .map(|load| load["kind"].as_str().unwrap())
            .collect();
        assert_eq!(kinds[0], "sand", "sand goes in first: {kinds:?}");
        // A quarter is held back, as typed.
        let water = &card["water"];
        let held = number(&water["held_back_m3"]) / number(&water["to_add_m3"]);
        assert!((held - 0.25).abs() < 1e-9);
        for coat in card["coats"].as_array().unwrap() {
            let days = (number(&coat["batches"]) / 8.0).ceil();
            assert!(
                (number(&coat["days"]) - days).abs() < 1e-9,
                "eight batches a day"
            );
            let (last, full) = (&coat["last_loads"][0], &card["loads"][0]);
            if let Some(mass) = last["mass_kg"].as_f64() {
                let share = mass / number(&full["mass_kg"]);
                assert!((share - number(&coat["last_share"])).abs() < 1e-9);
            }
        }
    }
}

#[test]
fn the_batch_in_the_order_is_the_one_on_the_card() {
    let site = yard();
    let (order, card) = (
        report(&site, &["order", "yard.hodful.json"]),
        report(&site, &["card", "yard.hodful.json"]),
    );
    for (batch, card) in order["batches"]
        .as_array()
        .unwrap()
        .iter()
        .zip(card["cards"].as_array().unwrap())
    {
        assert_eq!(batch["mix"], card["mix"]);
        let loads = card["loads"].as_array().unwrap();
        let portions = batch["materials"].as_array().unwrap();
        assert_eq!(portions.len(), loads.len() + 1, "and water");
        for (portion, load) in portions.iter().zip(loads) {
            for key in [
                "material", "loose_m3", "mass_kg", "buckets", "shovels", "handfuls", "cups",
            ] {
                assert_eq!(portion[key], load[key], "{key}");
            }
        }
        assert_eq!(portions.last().unwrap()["material"], "water");
    }
}

#[test]
fn a_card_wants_a_mixer_and_a_mix_that_is_used() {
    let site = yard();
    let said = site.run(&["card", "yard.hodful.json", "bottom"]);
    assert_eq!(said.code, Some(2));
    assert!(
        said.words
            .contains("there is no mix 'bottom'; there is body, top"),
        "{}",
        said.words
    );
    let said = changed(|p| {
        p.as_object_mut().unwrap().remove("mixer");
    })
    .run(&["card", "yard.hodful.json"]);
    assert_eq!(said.code, Some(2));
    assert!(
        said.words.contains("there is no mixer in the project"),
        "{}",
        said.words
    );
    let unused = changed(|p| p["mixes"]["spare"] = p["mixes"]["top"].clone());
    let said = unused.run(&["card", "yard.hodful.json", "spare"]);
    assert_eq!(said.code, Some(2));
    assert!(
        said.words
            .contains("no coat on a wall is made of mix 'spare'"),
        "{}",
        said.words
    );
    let one = site.run(&["card", "yard.hodful.json", "top"]);
    assert!(one.figures.contains("MIX top") && !one.figures.contains("MIX body"));
}

#[test]
fn a_card_leaves_as_csv() {
    let said = yard().run(&["card", "yard.hodful.json", "top", "--format", "csv"]);
    assert_eq!(said.code, Some(0));
    let head = "mix,material,kind,loose_m3,mass_kg,buckets,shovels,handfuls,cups\r\n";
    assert!(said.figures.starts_with(head), "{}", said.figures);
    assert_eq!(
        said.figures.lines().count(),
        1 + 3 + 1,
        "sand, clay, paste, water"
    );
}
