//! What an order is made of: what no wall uses is not in it, wet additives bring their water, a yield
//! does not jump. Not here: published answers.

use crate::projects::{wall, window, with_walls};
use hodful_project_file as file;
use hodful_quantities::units::kilogram;
use hodful_takeoff::Assessed;
use serde_json::{Value, json};

fn project() -> Value {
    let project = with_walls(&[wall(
        "S",
        6000,
        2700,
        &[window("W1", 1000, 900, 1000, 1200)],
    )]);
    serde_json::from_slice(&file::write(&project)).unwrap()
}

fn assess<T>(project: &Value, look: impl FnOnce(&Assessed<'_>) -> T) -> T {
    let project = file::read(&serde_json::to_vec(project).unwrap()).unwrap();
    look(&Assessed::new(&project, &file::rules()).unwrap_or_else(|wrong| panic!("{wrong:?}")))
}

#[test]
fn a_build_up_that_no_wall_has_is_not_ordered() {
    let mut with = project();
    with["materials"]["lime"] = json!({ "kind": "lime", "loose_density": "500 kg/m3" });
    with["mixes"]["lime"] = json!({ "parts": { "sand": 3, "lime": 1 },
        "trial_batch": { "loose": "10 L", "mixed": "8 L" } });
    with["build_ups"]["elsewhere"] =
        json!([{ "coat": "only", "thickness": "5 mm", "mix": "lime", "loss": "0 %" }]);
    assess(&with, |of| {
        let lime = of.project.materials.get_index_of("lime").unwrap();
        assert!(of.evaluation.materials[lime].uses.is_empty());
        assert!(!of.calls_for(hodful_takeoff::When::Lime));
    });
}

#[test]
fn the_yield_does_not_jump_where_paste_fills_the_voids() {
    let yields: Vec<f64> = (50..300)
        .map(|tenths| {
            let mut project = project();
            project["mixes"]["base"]["parts"] = json!({ "sand": 3, "clay": 1 });
            project["mixes"]["base"]["water"] = json!(format!("{}.{} %", tenths / 10, tenths % 10));
            assess(&project, |of| {
                of.explain("mixes.base.yield").unwrap().figure.value
            })
        })
        .collect();
    for pair in yields.windows(2) {
        assert!(pair[1] >= pair[0] && pair[1] - pair[0] < 0.01, "{pair:?}");
    }
}

#[test]
fn water_in_a_wet_binder_is_taken_off() {
    let to_add = |moisture: &str| {
        let mut project = project();
        project["materials"]["paste"] = json!({ "kind": "binder", "moisture": moisture,
            "packages": [ { "name": "pail", "holds": "10 kg" } ] });
        project["mixes"]["base"]["binder"] = json!({ "material": "paste", "dose": "20 kg/m3" });
        assess(&project, |of| {
            let at = of.project.materials.get_index_of("water").unwrap();
            let mixed: f64 = of.coats().map(|(_, _, c)| c.volume.mixed.value / 1e9).sum();
            let water = of.evaluation.materials[at]
                .dry
                .mass
                .unwrap()
                .get::<kilogram>();
            (water, mixed)
        })
    };
    let (dry, mixed) = to_add("0 %");
    let (wet, _) = to_add("400 %");
    // 20 kg of dry binder to the cubic metre, four times its mass of water in it.
    assert!(
        (dry - wet - 80.0 * mixed).abs() < 1e-6,
        "{dry} {wet} {mixed}"
    );
}

#[test]
fn one_plastered_face_with_equal_reveals_is_not_deducted_by_is_1200() {
    // From memory of the Central Public Works Department's specifications: with one face plastered, all
    // of it when its reveal is the narrower, none when it is equal or wider. A wall of 6 in with the
    // frame of 1 in set back 2 1/2 in has equal reveals that differ in the last bit.
    let mut project = project();
    project["measurement_rule"] = json!("is-1200-12");
    let wall = &mut project["walls"][0];
    wall["thickness"] = json!("6 in");
    wall["faces"].as_object_mut().unwrap().remove("outside");
    wall["openings"] = json!([{ "id": "W", "shape": { "kind": "rectangle", "width": "1 m",
        "height": "1 m" }, "from_left": "1 m", "sill": "1 m",
        "frame": { "from_outside": "2 1/2 in", "depth": "1 in" } }]);
    let share = |project: &Value| {
        assess(project, |of| {
            let totals = &of.evaluation.totals;
            (totals.measure.outline - totals.measured) / 1e6
        })
    };
    assert!(share(&project).abs() < 1e-9);
    project["walls"][0]["faces"]["outside"] =
        json!({ "background": "bale", "build_up": "all", "rain": "sheltered" });
    // Both faces plastered: half from each.
    assert!((share(&project) - 1.0).abs() < 1e-9);
}

#[test]
fn clay_of_the_mix_is_by_mass() {
    // Sand 7 × 1450, clay 3 × 1100 of which 60 %: 1980 / 13450.
    let clay = assess(&project(), |of| {
        of.explain("mixes.base.clay").unwrap().figure.value
    });
    assert!((clay - 1980.0 / 13450.0).abs() < 1e-12);
}
