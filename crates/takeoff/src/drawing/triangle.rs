//! The triangle of soil textures with the soils of a project on it: where each stands, the spread that
//! the chosen one may be in, and the mixes. Not here: shares of grains (see [`crate::soil`]) and the
//! rules of the classes (see `hodful_soils`).
//!
//! It is a scene like those of walls, and borrows their roles by how a line is to look: the sides are an
//! outline, borders of classes are fine dots, marks are as firm as frames.

use super::{Drawing, Label, Point, Role, Stand};
use crate::form::Subject;
use crate::project::{Material, MaterialKind, Mix, Project, SizeSystem, Soil};
use crate::soil::{self, SoilFigures, Way};
use ecow::EcoString;
use hodful_quantities::Typed;
use hodful_quantities::units::{kilogram_per_cubic_meter, ratio};
use hodful_soils::fractions::{FineEarth, Shares};
use hodful_soils::sizes::System;
use hodful_soils::texture::{Class, middle, outline, to_triangle};

/// Length of a side, mm: any number, as the triangle has no size of its own.
const SIDE: f64 = 1000.0;

/// Room left for the words at the corners, mm.
const MARGIN: f64 = 70.0;

/// Arms of a mark, mm: two dots of a screen on which the triangle is fifty letters wide.
const ARM: f64 = 20.0;

/// The triangle of textures, all clay at the top, all sand at the left foot, all silt at the right: the
/// published way round (*Soil Survey Manual*, USDA Handbook 18, ch. 3).
///
/// Every mineral material of which the grains are known stands on it with its name, the `chosen` one (by
/// its position) with the spread of what it may be; and every mix of which all minerals can be placed.
/// A material that is not there, or of which the grains are not known in USDA sizes, has no mark.
pub fn triangle(project: &Project, chosen: Option<usize>) -> Drawing {
    let mut drawing = Drawing::default();
    for class in Class::ALL {
        let ring: Vec<Point> = outline(class).iter().map(place).collect();
        drawing.stroke(Role::Rounded, ring, true, None);
        label(
            &mut drawing,
            place(&middle(class)),
            class.name().into(),
            30,
            None,
        );
        if let Some(label) = drawing.labels.last_mut() {
            label.stand = Stand::Here;
        }
    }
    let [sand, silt, clay] = [(1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)]
        .map(|(sand, silt, clay)| place(&FineEarth { sand, silt, clay }));
    drawing.stroke(Role::Outline, vec![sand, silt, clay], true, None);
    let below = |[u, v]: Point, by: f64| [u + by, v - MARGIN / 2.0];
    label(
        &mut drawing,
        below(sand, MARGIN),
        "all sand".into(),
        75,
        None,
    );
    label(
        &mut drawing,
        below(silt, -MARGIN),
        "all silt".into(),
        75,
        None,
    );
    label(
        &mut drawing,
        [clay[0], clay[1] + MARGIN / 2.0],
        "all clay".into(),
        75,
        None,
    );

    for (i, (name, mix)) in project.mixes.iter().enumerate() {
        if let Some(soil) = of_mix(project, mix) {
            let of = Some(Subject::Mix(i));
            let at = place(&soil);
            let square = [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]];
            let ring = square.map(|[u, v]| [at[0] + u * ARM / 2.0, at[1] + v * ARM / 2.0]);
            drawing.stroke(Role::Frame, ring.to_vec(), true, of);
            let words = ecow::eco_format!("mix {name}");
            label(&mut drawing, at, words, 50, of);
        }
    }
    for (i, (name, material)) in project.materials.iter().enumerate() {
        let of = Some(Subject::Material(i));
        let Some(figures) = in_usda_sizes(material).filter(|_| material.kind.is_mineral()) else {
            continue;
        };
        if chosen == Some(i) {
            spread(&mut drawing, &figures.shares, of);
        }
        let best = figures.shares.best().and_then(|best| best.of_fines());
        let Some(at) = best.map(|best| place(&best)) else {
            continue;
        };
        let arm = if chosen == Some(i) { 1.5 * ARM } else { ARM };
        let [u, v] = at;
        drawing.stroke(Role::Frame, vec![[u - arm, v], [u + arm, v]], false, of);
        drawing.stroke(Role::Frame, vec![[u, v - arm], [u, v + arm]], false, of);
        label(&mut drawing, at, name.clone(), 60, of);
    }
    if drawing.strokes.iter().any(|stroke| stroke.of.is_some()) {
        drawing.captions.push("cross: soil".into());
        let is_mix = |stroke: &super::Stroke| matches!(stroke.of, Some(Subject::Mix(_)));
        if drawing.strokes.iter().any(is_mix) {
            drawing.captions.push("square: mix".into());
        }
        if !drawing.fills.is_empty() {
            drawing.captions.push("hatched: it may be here".into());
        }
    }
    let high = clay[1];
    drawing.bounds = Some([0.0, -MARGIN, SIDE, high + MARGIN]);
    drawing
}

fn place(soil: &FineEarth) -> Point {
    to_triangle(soil.sand, soil.silt, soil.clay).map(|share| share * SIDE)
}

fn label(drawing: &mut Drawing, at: Point, text: EcoString, weight: u8, of: Option<Subject>) {
    drawing.labels.push(Label {
        at,
        text,
        stand: if of.is_some() { Stand::Next } else { Stand::At },
        weight,
        of,
        names: of.is_some(),
        only_marked: false,
    });
}

/// What a material is by its surest test, in the sizes that the triangle is for. `None` without a test,
/// and where shares were typed by other sizes.
fn in_usda_sizes(material: &Material) -> Option<SoilFigures> {
    let soil = material.soil.as_deref()?;
    let way = soil.ways().next()?;
    if soil.sizes() == System::Usda {
        return soil::by(material, soil, way).ok();
    }
    let usda = Soil {
        system: Some(SizeSystem::Usda),
        ..soil.clone()
    };
    let told_by_sizes = way != Way::Shares;
    told_by_sizes.then(|| soil::by(material, &usda, way).ok())?
}

/// The grains of a mix that are finer than gravel; `None` where those of one part are not known.
fn of_mix(project: &Project, mix: &Mix) -> Option<FineEarth> {
    let [mut sand, mut silt, mut clay] = [0.0; 3];
    for (name, parts) in &mix.parts {
        let material = project.materials.get(name)?;
        let density = material.loose_density.as_ref()?.value();
        let mass = parts.value().get() * density.get::<kilogram_per_cubic_meter>();
        let [own_sand, own_silt, own_clay] = grains(material)?;
        sand += mass * own_sand;
        silt += mass * own_silt;
        clay += mass * own_clay;
    }
    let sum = sand + silt + clay;
    (sum.is_finite() && sum > 0.0).then(|| FineEarth {
        sand: sand / sum,
        silt: silt / sum,
        clay: clay / sum,
    })
}

/// Sand, silt and clay of a material as it goes into a mix, of its dry mass. Sand that was not sieved is
/// sand but for its clay (common practice, no source).
fn grains(material: &Material) -> Option<[f64; 3]> {
    match in_usda_sizes(material) {
        Some(figures) => {
            let used = figures.used.fractions.or_else(|| figures.shares.best())?;
            Some([used.sand(), used.silt(), used.clay()])
        }
        None if material.kind == MaterialKind::Sand && material.soil.is_none() => {
            let clay = material.clay.as_ref().map(Typed::value);
            let clay = clay.map_or(0.0, |clay| clay.get::<ratio>()).clamp(0.0, 1.0);
            Some([1.0 - clay, 0.0, clay])
        }
        None => None,
    }
}

/// The part of the triangle that a soil within bounds may be in; nothing where it is known exactly.
fn spread(drawing: &mut Drawing, shares: &Shares, of: Option<Subject>) {
    let Some(fine) = shares.of_fines() else {
        return;
    };
    if fine.sand.is_exact() && fine.silt.is_exact() && fine.clay.is_exact() {
        return;
    }
    // By silt and clay; sand is what they leave.
    let mut ring = vec![[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]];
    for (known, [of_silt, of_clay, at]) in [
        (fine.silt, [1.0, 0.0, 0.0]),
        (fine.clay, [0.0, 1.0, 0.0]),
        (fine.sand, [-1.0, -1.0, 1.0]),
    ] {
        let share = |[silt, clay]: [f64; 2]| of_silt * silt + of_clay * clay + at;
        ring = cut(&ring, |place| share(place) - known.least());
        ring = cut(&ring, |place| known.most() - share(place));
    }
    let ring: Vec<Point> = ring
        .into_iter()
        .map(|[silt, clay]| {
            place(&FineEarth {
                sand: (1.0 - silt - clay).max(0.0),
                silt,
                clay,
            })
        })
        .collect();
    drawing.fill(Role::Coat(2), ring.clone(), of);
    drawing.stroke(Role::Pocket, ring, true, of);
}

/// The part of a convex ring where a linear measure is not below nothing (I. E. Sutherland and G. W.
/// Hodgman, "Reentrant polygon clipping", Communications of the ACM 17, 1974; from memory).
fn cut(ring: &[[f64; 2]], keeps: impl Fn([f64; 2]) -> f64) -> Vec<[f64; 2]> {
    let mut kept = Vec::with_capacity(ring.len() + 1);
    for (a, b) in super::line::sides(ring) {
        let (of_a, of_b) = (keeps(a), keeps(b));
        if of_a >= 0.0 {
            kept.push(a);
        }
        if (of_a > 0.0) != (of_b > 0.0) && (of_a - of_b).abs() > 0.0 {
            let t = (of_a / (of_a - of_b)).clamp(0.0, 1.0);
            kept.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::project::{Named, SoilShares};
    use hodful_quantities::print::UnitSystem;

    fn share(text: &str) -> Typed<hodful_quantities::units::Ratio> {
        Typed::read(text).unwrap()
    }

    fn soil(sand: &str, silt: &str, clay: &str) -> Material {
        let mut material = Material::of(MaterialKind::Soil);
        material.soil = Some(Box::new(Soil {
            shares: Some(SoilShares {
                gravel: None,
                sand: share(sand),
                silt: share(silt),
                clay: share(clay),
            }),
            ..Soil::default()
        }));
        material
    }

    fn with(name: &str, material: Material) -> Project {
        Project {
            name: "Shed".into(),
            units: UnitSystem::Metric,
            measurement_rule: "net".into(),
            backgrounds: Named::default(),
            materials: Named::from_iter([(name.into(), material)]),
            mixes: Named::default(),
            build_ups: Named::default(),
            mixer: None,
            blends: Named::default(),
            suppliers: Named::default(),
            buying: None,
            options: Named::default(),
            uncertain: Vec::new(),
            done: Vec::new(),
            delivered: Vec::new(),
            work: None,
            walls: Vec::new(),
            note: None,
        }
    }

    /// The middle of a mark.
    fn mark(drawing: &Drawing, of: Subject) -> Option<Point> {
        let stroke = drawing
            .strokes
            .iter()
            .find(|s| s.of == Some(of) && !s.closed)?;
        let [a, b] = [stroke.points[0], stroke.points[1]];
        Some([f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])])
    }

    /// By the definition of the triangle: height is clay, the way along the foot is silt and half of clay.
    #[test]
    fn a_soil_stands_where_its_shares_say() {
        let project = with("pit", soil("40 %", "40 %", "20 %"));
        let drawing = triangle(&project, Some(0));
        let [u, v] = mark(&drawing, Subject::Material(0)).unwrap();
        assert!((u - 500.0).abs() < 1e-9, "{u}");
        assert!((v - 200.0 * 0.75_f64.sqrt()).abs() < 1e-9, "{v}");
        assert!(drawing.labels.iter().any(|l| l.text == "pit" && l.names));
        // Known exactly: there is no spread.
        assert!(drawing.fills.is_empty());
        let [left, bottom, right, top] = drawing.bounds.unwrap();
        for point in drawing.strokes.iter().flat_map(|s| &s.points) {
            assert!(point[0] >= left && point[0] <= right && point[1] >= bottom && point[1] <= top);
        }
    }

    #[test]
    fn what_is_not_known_has_no_mark() {
        let project = with("pit", Material::of(MaterialKind::Soil));
        let drawing = triangle(&project, Some(0));
        assert_eq!(mark(&drawing, Subject::Material(0)), None);
        assert!(drawing.bounds.is_some());
        assert_eq!(triangle(&project, Some(7)), drawing);
        // Shares by other sizes have no place on the triangle.
        let mut by_iso = soil("40 %", "40 %", "20 %");
        if let Some(soil) = &mut by_iso.soil {
            soil.system = Some(SizeSystem::Iso);
        }
        let drawing = triangle(&with("pit", by_iso), Some(0));
        assert_eq!(mark(&drawing, Subject::Material(0)), None);
    }

    /// The corners of the cut-out part are worked out by hand: silt from 20 to 40 %, clay from 10 to
    /// 30 %, sand from 40 % on, by silt and clay.
    #[test]
    fn a_spread_is_cut_to_its_bounds() {
        let mut ring = vec![[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]];
        ring = cut(&ring, |[silt, _]| silt - 0.2);
        ring = cut(&ring, |[silt, _]| 0.4 - silt);
        ring = cut(&ring, |[_, clay]| clay - 0.1);
        ring = cut(&ring, |[_, clay]| 0.3 - clay);
        ring = cut(&ring, |[silt, clay]| 0.6 - silt - clay);
        let expected = [[0.2, 0.1], [0.4, 0.1], [0.4, 0.2], [0.3, 0.3], [0.2, 0.3]];
        assert_eq!(ring.len(), expected.len(), "{ring:?}");
        for [silt, clay] in expected {
            let found = ring
                .iter()
                .any(|[s, c]| (s - silt).abs() < 1e-12 && (c - clay).abs() < 1e-12);
            assert!(found, "{silt} {clay}: {ring:?}");
        }
        assert!(cut(&ring, |[silt, _]| silt - 0.9).is_empty());
        assert!(cut(&[], |_| 1.0).is_empty());
    }

    /// One part of a soil with 20 % clay and one of pure sand, of one density: half the clay.
    #[test]
    fn a_mix_stands_between_its_parts() {
        let density = || Some(Typed::read("1500 kg/m3").unwrap());
        let pit = Material {
            loose_density: density(),
            ..soil("40 %", "40 %", "20 %")
        };
        let mut project = with("pit", pit);
        let mut sand = Material::of(MaterialKind::Sand);
        sand.loose_density = density();
        project.materials.insert("sand".into(), sand);
        let mut mix = Mix::default();
        for name in ["pit", "sand"] {
            mix.parts.insert(name.into(), Typed::read("1").unwrap());
        }
        let found = of_mix(&project, &mix).unwrap();
        assert!((found.clay - 0.1).abs() < 1e-12 && (found.sand - 0.7).abs() < 1e-12);
        project.materials["pit"].soil = None;
        assert_eq!(of_mix(&project, &mix), None);
    }
}
