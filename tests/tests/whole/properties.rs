//! What may change in a project without changing a figure, and what must hold of every project.

use crate::projects::{figures, mm, wall, window, with_walls};
use hodful_project_file as file;
use hodful_quantities::units::cubic_millimeter;
use hodful_takeoff::Assessed;
use hodful_takeoff::project::Project;
use proptest::prelude::*;
use serde_json::{Value, json};

/// Rounding of sums taken in another order, relative.
const ROUNDING: f64 = 1e-10;

/// Both projects have the same figures.
fn same(one: &Project, other: &Project) -> Result<(), TestCaseError> {
    let (one, other) = (figures(one), figures(other));
    let names = |figures: &[(String, f64)]| -> Vec<String> {
        figures.iter().map(|(name, _)| name.clone()).collect()
    };
    prop_assert_eq!(names(&one), names(&other));
    for ((name, a), (_, b)) in one.into_iter().zip(other) {
        let scale = a.abs().max(b.abs()).max(1.0);
        prop_assert!((a - b).abs() <= ROUNDING * scale, "{name}: {a} and {b}");
    }
    Ok(())
}

/// A window somewhere on a wall, perhaps over another or over an edge.
#[derive(Debug, Clone)]
struct Somewhere {
    from_left: u32,
    sill: u32,
    width: u32,
    height: u32,
}

fn somewhere(length: u32, height: u32) -> impl Strategy<Value = Somewhere> {
    (
        0..length - 700,
        0..height - 700,
        400..1600_u32,
        400..1500_u32,
    )
        .prop_map(|(from_left, sill, width, height)| Somewhere {
            from_left,
            sill,
            width,
            height,
        })
}

fn placed(windows: &[Somewhere], shift: u32) -> Vec<Value> {
    windows
        .iter()
        .enumerate()
        .map(|(i, w)| {
            window(
                &format!("W{i}"),
                w.from_left + shift,
                w.sill,
                w.width,
                w.height,
            )
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn the_order_of_walls_and_openings_changes_nothing(
        windows in proptest::collection::vec(somewhere(8000, 3000), 1..5),
        other in proptest::collection::vec(somewhere(6000, 2700), 0..3),
    ) {
        let first = wall("A", 8000, 3000, &placed(&windows, 0));
        let second = wall("B", 6000, 2700, &placed(&other, 0));
        let mut turned = windows.clone();
        turned.reverse();
        let reversed = wall("A", 8000, 3000, &placed(&turned, 0));
        same(
            &with_walls(&[first, second.clone()]),
            &with_walls(&[second, reversed]),
        )?;
    }

    #[test]
    fn a_mirrored_wall_has_the_same_figures(
        windows in proptest::collection::vec(somewhere(8000, 3000), 1..5),
    ) {
        // Keeps both windows and their mirror images from standing left of the wall.
        let inside: Vec<Somewhere> =
            windows.into_iter().filter(|w| w.from_left + w.width <= 8000).collect();
        let mirrored: Vec<Somewhere> = inside
            .iter()
            .map(|w| Somewhere { from_left: 8000 - w.from_left - w.width, ..w.clone() })
            .collect();
        same(
            &with_walls(&[wall("A", 8000, 3000, &placed(&inside, 0))]),
            &with_walls(&[wall("A", 8000, 3000, &placed(&mirrored, 0))]),
        )?;
    }

    #[test]
    fn openings_shifted_together_change_nothing(
        windows in proptest::collection::vec(somewhere(6000, 3000), 1..4), shift in 1..3000_u32,
    ) {
        let fits: Vec<Somewhere> = windows
            .into_iter()
            .map(|w| Somewhere { from_left: w.from_left.max(700), ..w })
            .filter(|w| w.from_left + w.width <= 6000)
            .collect();
        same(
            &with_walls(&[wall("A", 10_000, 3000, &placed(&fits, 0))]),
            &with_walls(&[wall("A", 10_000, 3000, &placed(&fits, shift))]),
        )?;
    }

    #[test]
    fn a_wall_split_in_two_adds_up(
        length in 4000..9000_u32, cut in 500..3500_u32, height in 2000..4000_u32,
    ) {
        same(
            &with_walls(&[wall("A", length, height, &[])]),
            &with_walls(&[wall("A", cut, height, &[]), wall("B", length - cut, height, &[])]),
        )?;
    }

    #[test]
    fn a_count_is_the_same_as_writing_it_out(
        count in 1..6_u32, width in 500..900_u32, spacing in 1000..1500_u32, walls in 1..4_u32,
    ) {
        let mut row = window("W", 900, 800, width, 1100);
        row["count"] = json!(count);
        row["spacing"] = json!(mm(spacing));
        let mut counted = wall("A", 12_000, 3000, &[row]);
        counted["count"] = json!(walls);
        let each: Vec<Value> = (0..count)
            .map(|i| window(&format!("W{i}"), 900 + i * spacing, 800, width, 1100))
            .collect();
        let written: Vec<Value> =
            (0..walls).map(|i| wall(&format!("A{i}"), 12_000, 3000, &each)).collect();
        same(&with_walls(&[counted]), &with_walls(&written))?;
    }

    #[test]
    fn nothing_is_negative_and_sand_and_binder_are_the_dry_volume(
        windows in proptest::collection::vec(somewhere(5000, 2600), 0..6),
    ) {
        let project = with_walls(&[wall("A", 5000, 2600, &placed(&windows, 0))]);
        let rules = file::rules();
        let Ok(of) = Assessed::new(&project, &rules) else { return Ok(()) };
        for (name, value) in figures(&project) {
            prop_assert!(value >= 0.0 || name == "growth", "{name}: {value}");
        }
        for (_, _, coat) in of.coats() {
            let parts: f64 = coat
                .recipe
                .minerals
                .iter()
                .filter_map(|q| q.loose)
                .map(|v| v.get::<cubic_millimeter>())
                .sum();
            let dry = coat.recipe.loose.get::<cubic_millimeter>();
            prop_assert!((parts - dry).abs() <= ROUNDING * dry);
        }
    }

    /// A gable cut level: the area under the ceiling is the gable's less the triangle above it, by
    /// similar triangles.
    #[test]
    fn a_level_ceiling_cuts_a_gable(
        length in 4000..9000_u32, eaves in 2000..3000_u32, rise in 500..3000_u32,
        cut in 0.05..0.95_f64,
    ) {
        let (l, e, r) = (f64::from(length), f64::from(eaves), f64::from(rise));
        let ceiling = (e + r * cut).round();
        let above = (e + r - ceiling) / r;
        let expected = l * e + l * r / 2.0 * (1.0 - above * above);
        let mut gable = wall("A", length, eaves, &[]);
        gable["shape"] = json!({ "kind": "gable", "length": mm(length), "eaves": mm(eaves),
            "ridge": mm(eaves + rise) });
        gable["faces"]["inside"]["inset"] = json!({ "ceiling": format!("{ceiling} mm") });
        gable["faces"].as_object_mut().unwrap().remove("outside");
        let project = with_walls(&[gable]);
        let (_, area) = figures(&project).remove(0);
        prop_assert!((area - expected).abs() <= ROUNDING * expected, "{area} and {expected}");
        let rules = file::rules();
        let of = Assessed::new(&project, &rules).unwrap();
        prop_assert!(of.explain("walls.A.inside").is_ok());
    }

    #[test]
    fn a_thicker_coat_takes_more_of_everything(more in 1..20_u32) {
        let thin = with_walls(&[wall("A", 6000, 2700, &[window("W", 2000, 900, 1000, 1200)])]);
        let mut bytes = String::from_utf8(file::write(&thin)).unwrap();
        bytes = bytes.replace("\"15 mm\"", &format!("\"{} mm\"", 15 + more));
        let thick = file::read(bytes.as_bytes()).unwrap();
        for ((name, a), (_, b)) in figures(&thin).into_iter().zip(figures(&thick)) {
            prop_assert!(b >= a, "{name}: {a} and {b}");
            if name.contains("fill") || name.contains("loose") || name.contains("mass") {
                prop_assert!(b > a, "{name}: {a} and {b}");
            }
        }
    }

    /// Any text of a demo project replaced by any other: read or refused, checked or refused,
    /// measured; never a panic.
    #[test]
    fn a_mutated_project_never_panics(
        demo in 0..4_usize, at in any::<prop::sample::Index>(), text in "[-0-9'\" a-z./%½]{0,12}",
    ) {
        let demo = file::demo_projects().nth(demo).unwrap();
        let source = std::str::from_utf8(demo.bytes).unwrap();
        let values: Vec<(usize, &str)> =
            source.match_indices(": \"").map(|(i, s)| (i + s.len(), s)).collect();
        let (start, _) = values[at.index(values.len())];
        let end = source[start..].find('"').map_or(source.len(), |e| start + e);
        let text = text.replace('"', "\\\"");
        let mutated = format!("{}{text}{}", &source[..start], &source[end..]);
        let (project, _) = file::read_what_can_be(mutated.as_bytes());
        if let Some(project) = project {
            let _ = Assessed::new(&project, &file::rules()).map(|of| of.doubts.len());
        }
    }
}
