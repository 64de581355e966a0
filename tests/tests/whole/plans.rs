//! Buildings from their plans: the walls pass the checks, and their figures are those of plane geometry.
//! Not here: random outlines against a reference library (see `tests/crosscheck`).

use crate::projects::with_walls;
use hodful_project_file as file;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::{Measure, Typed};
use hodful_takeoff::Assessed;
use hodful_takeoff::plan::{self, FacePlan, Measured, Plan, PlanShape, PlanSide};
use hodful_takeoff::project::{Project, Wall};
use proptest::prelude::*;
use std::f64::consts::PI;
use std::sync::Arc;

/// What writing a length to a hundredth of a millimetre may move a face with two insets by, mm.
const WRITTEN: f64 = 0.015;

fn typed<T: Measure>(text: impl Into<String>) -> Typed<T> {
    Typed::read(text.into()).unwrap()
}

fn mm<T: Measure>(mm: u32) -> Typed<T> {
    typed(format!("{mm} mm"))
}

fn a_plan(shape: PlanShape, height: u32, thickness: u32) -> Plan {
    let mut plan = Plan::new(shape, mm(height), mm(thickness), UnitSystem::Metric);
    plan.outside = Some(FacePlan::new("bale", "all"));
    plan.inside = Some(FacePlan::new("bale", "all"));
    plan
}

fn built(walls: Vec<Wall>) -> Project {
    let mut project = with_walls(&[]);
    project.walls = walls.into_iter().map(Arc::new).collect();
    project
}

/// The outlines of all faces of a side together, edges and strips, mm².
fn figures(project: &Project, side: usize) -> [f64; 3] {
    let of = Assessed::new(project, &file::rules()).unwrap_or_else(|wrong| panic!("{wrong:?}"));
    let mut sums = [0.0; 3];
    for face in of
        .evaluation
        .faces
        .iter()
        .filter_map(|faces| faces[side].as_ref())
    {
        let m = &face.measure;
        for (sum, more) in sums.iter_mut().zip([m.outline, m.edges, m.strips]) {
            *sum += more;
        }
    }
    sums
}

fn near(ours: f64, theirs: f64, slack: f64) -> Result<(), TestCaseError> {
    prop_assert!(
        (ours - theirs).abs() <= slack + 1e-10 * theirs.abs(),
        "{ours} and {theirs}"
    );
    Ok(())
}

fn reads_back(project: &Project) -> Result<(), TestCaseError> {
    let back = file::read(&file::write(project)).unwrap_or_else(|wrong| panic!("{wrong:?}"));
    prop_assert_eq!(&back.walls, &project.walls);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    /// Outside 2(L + W) long, inside 8 thicknesses less; four rounded corners are one full turn and take
    /// two radii each.
    #[test]
    fn a_rectangle_and_an_l_have_the_faces_of_their_perimeter(
        length in 4000..15_000_u32, width in 4000..9000_u32, cut in 1200..2400_u32,
        ell in any::<bool>(), thickness in 80..500_u32, height in 2000..4000_u32,
        base in 0..400_u32, ceiling in 1500..5000_u32, radius in 0..150_u32,
    ) {
        let shape = if ell {
            PlanShape::Ell {
                length: mm(length), width: mm(width), cut_length: mm(cut), cut_width: mm(cut + 100),
            }
        } else {
            PlanShape::Rectangle { length: mm(length), width: mm(width) }
        };
        let mut plan = a_plan(shape, height, thickness);
        plan.base = Some(mm(base));
        plan.ceiling = Some(mm(ceiling));
        plan.radius = Some(mm(radius));
        let project = built(plan::walls(&plan, &[]).unwrap());
        let [t, r] = [thickness, radius].map(f64::from);
        let perimeter = 2.0 * f64::from(length + width);
        let outside = f64::from(height - base);
        let [outline, edges, strips] = figures(&project, 0);
        near(outline, perimeter * outside, 0.0)?;
        // An L has five external corners.
        let corners = if ell { 5.0 } else { 4.0 };
        near(edges, corners * PI / 2.0 * r * outside, 0.0)?;
        near(strips, corners * 2.0 * r * outside, 0.0)?;
        let [outline, ..] = figures(&project, 1);
        near(outline, (perimeter - 8.0 * t) * f64::from(height.min(ceiling)), 0.0)?;
        reads_back(&project)?;

        // The same building by its inside sizes.
        let inner = |size: u32| mm(size - 2 * thickness);
        plan.shape = match plan.shape {
            PlanShape::Rectangle { .. } => PlanShape::Rectangle {
                length: inner(length), width: inner(width),
            },
            _ => PlanShape::Ell {
                length: inner(length), width: inner(width), cut_length: mm(cut),
                cut_width: mm(cut + 100),
            },
        };
        plan.measured = Measured::Inside;
        let again = built(plan::walls(&plan, &[]).unwrap());
        for side in [0, 1] {
            near(figures(&project, side)[0], figures(&again, side)[0], 0.0)?;
        }
    }

    /// Each inside face of a regular polygon is 2·t·tan(π/n) shorter than its outside one.
    #[test]
    fn a_regular_building_has_the_faces_of_a_regular_polygon(
        count in 3..20_u32, side in 3000..6000_u32, thickness in 80..400_u32, height in 2000..4000_u32,
    ) {
        let n = f64::from(count);
        let sides = (0..count).map(|_| PlanSide {
            length: mm(side),
            turn: Some(typed(format!("360 deg / {count}"))),
        });
        let plan = a_plan(PlanShape::Ring { sides: sides.collect() }, height, thickness);
        let project = built(plan::walls(&plan, &[]).unwrap());
        let inside = f64::from(side) - 2.0 * f64::from(thickness) * libm::tan(PI / n);
        let height = f64::from(height);
        near(figures(&project, 0)[0], n * f64::from(side) * height, 0.0)?;
        near(figures(&project, 1)[0], n * inside * height, n * WRITTEN * height)?;
        reads_back(&project)?;
        let ring = plan::of_walls(&project.walls).unwrap();
        prop_assert!(ring.gap < 1.0);
        prop_assert_eq!(ring.outside.len(), count as usize);
    }

    #[test]
    fn a_round_building_has_the_faces_of_its_circles(
        diameter in 2000..12_000_u32, thickness in 80..900_u32, height in 2000..4000_u32,
    ) {
        let plan = a_plan(PlanShape::Round { diameter: mm(diameter) }, height, thickness);
        let project = built(plan::walls(&plan, &[]).unwrap());
        let [d, t, h] = [diameter, thickness, height].map(f64::from);
        near(figures(&project, 0)[0], PI * d * h, 0.0)?;
        near(figures(&project, 1)[0], PI * (d - 2.0 * t) * h, 0.0)?;
        reads_back(&project)?;
    }

    /// Any sizes and turns: walls that pass the checks, or faults in words; never a panic.
    #[test]
    fn any_ring_is_built_or_refused(
        sides in proptest::collection::vec((
            prop_oneof![
                Just("0".to_owned()), Just("-2 m".into()), Just("99999999 m".into()),
                Just("0.000001 mm".into()),
                (1..12_u32).prop_map(|m| format!("{m} m")),
                (1..40_u32).prop_map(|ft| format!("{ft}' 7 1/8\"")),
            ],
            proptest::option::of(prop_oneof![
                Just("left"), Just("right"), Just("0"), Just("170"), Just("171"), Just("-179.9 deg"),
                Just("360"), Just("45"), Just("right 60"), Just("left 1e-9"), Just("1e300"),
            ]),
        ), 0..9),
        thickness in prop_oneof![Just("0"), Just("-1 m"), Just("300 mm"), Just("18 in"), Just("9000 m")],
        radius in prop_oneof![Just("0"), Just("-1 m"), Just("100 mm"), Just("9000 m")],
        inside in any::<bool>(), us in any::<bool>(),
    ) {
        let read = |text: &String| Typed::read(text.as_str()).ok();
        let sides: Option<Vec<PlanSide>> = sides
            .iter()
            .map(|(length, turn)| Some(PlanSide {
                length: read(length)?,
                turn: turn.and_then(|turn| plan::read_turn(turn).ok()),
            }))
            .collect();
        let Some(sides) = sides else { return Ok(()) };
        let mut plan = a_plan(PlanShape::Ring { sides }, 3000, 300);
        plan.thickness = typed(thickness);
        plan.radius = Some(typed(radius));
        plan.units = if us { UnitSystem::Us } else { UnitSystem::Metric };
        plan.measured = if inside { Measured::Inside } else { Measured::Outside };
        let drawn = plan::corners(&plan);
        prop_assert!(drawn.iter().flatten().all(|place| place.is_finite()));
        match plan::walls(&plan, &[]) {
            Ok(walls) => {
                let project = built(walls);
                figures(&project, 0);
                let ring = plan::of_walls(&project.walls);
                prop_assert_eq!(ring.map(|ring| ring.walls.len()), Some(drawn.len()));
            }
            Err(faults) => prop_assert!(!faults.is_empty()),
        }
    }
}

/// The demo projects hold the rings that their walls are named after.
#[test]
fn buildings_of_the_demo_projects_are_found() {
    let found: Vec<(String, Vec<String>)> = file::demo_projects()
        .map(|demo| {
            let project = file::read(demo.bytes).unwrap();
            let rings = plan::rings(&project.walls);
            let ids = rings.iter().map(|ring| {
                let ids: Vec<&str> = ring.walls.iter().map(|wall| wall.id.as_str()).collect();
                ids.join(" ")
            });
            (demo.name.to_owned(), ids.collect())
        })
        .collect();
    let school =
        ["A", "B", "C", "D", "E"].map(|house| format!("{house}1 {house}2 {house}3 {house}4"));
    let expected = [
        ("ferry-loft", vec![]),
        ("quillmere-school", school.to_vec()),
        ("saltcedar-room", vec!["S E N W".to_owned()]),
        (
            "thistlebank-workshop",
            vec!["S E N W".to_owned(), "T".to_owned()],
        ),
    ];
    for (name, rings) in expected {
        let of = found
            .iter()
            .find(|(demo, _)| demo == name)
            .map(|(_, rings)| rings);
        assert_eq!(of, Some(&rings), "{name}");
    }
}
