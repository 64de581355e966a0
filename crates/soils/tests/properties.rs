//! What holds for every soil, and that no number whatever makes anything panic. Not here: published figures.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    reason = "the helpers of a test are part of the test"
)]

use hodful_quantities::units::{
    Celsius, Length, MassDensity, Time, density_of_kg_per_mm3, length_of_mm as mm, time_of_seconds,
};
use hodful_soils::bulking::{of_jar, of_voids};
use hodful_soils::field::Reading;
use hodful_soils::fractions::{FineEarth, Fractions, Known, Part, Shares};
use hodful_soils::grading::{Grading, talbot};
use hodful_soils::heap::{HeapFactors, State, cone, ridge};
use hodful_soils::jar::{JarTest, SETTLED_MASS, marks};
use hodful_soils::settling::Settling;
use hodful_soils::sizes::System;
use hodful_soils::texture::{
    Class, class_of, classes_between, classes_within, classify, outline, to_triangle,
};
use proptest::prelude::*;
use proptest::sample::select;

/// Any number: odd ones, and likely ones.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        any::<f64>(),
        select(vec![
            f64::NAN,
            f64::INFINITY,
            f64::NEG_INFINITY,
            f64::MIN_POSITIVE,
            5e-324,
            f64::MAX,
            0.0,
            -0.0,
            1.0
        ]),
        0.0..1.0,
        0.0..1000.0,
    ]
}

fn system() -> impl Strategy<Value = System> {
    select(System::ALL.to_vec())
}

/// Four shares that sum to 1, from cuts of the whole.
fn soil() -> impl Strategy<Value = Fractions> {
    (system(), [0.0..1.0, 0.0..1.0, 0.0..1.0]).prop_map(|(system, mut cuts)| {
        cuts.sort_by(f64::total_cmp);
        let [a, b, c] = cuts;
        Fractions::new(system, a, b - a, c - b, 1.0 - c).unwrap()
    })
}

/// A curve of rising openings and shares, starting at 0 and ending at 1 or not.
fn curve() -> impl Strategy<Value = Grading> {
    (
        prop::collection::vec((1e-4..100.0, 0.0..1.0), 1..8),
        any::<[bool; 2]>(),
    )
        .prop_filter_map("openings too close", |(points, [from_zero, to_one])| {
            let (mut openings, mut shares): (Vec<f64>, Vec<f64>) = points.into_iter().unzip();
            openings.sort_by(f64::total_cmp);
            shares.sort_by(f64::total_cmp);
            if from_zero {
                *shares.first_mut()? = 0.0;
            }
            if to_one {
                *shares.last_mut()? = 1.0;
            }
            Grading::new(openings.into_iter().map(mm).zip(shares)).ok()
        })
}

fn sum(soil: &Fractions) -> f64 {
    Part::ALL.iter().map(|part| soil.share(*part)).sum()
}

/// Bounds about a soil, of which it is one.
fn about(soil: &Fractions, slack: [f64; 4]) -> Shares {
    let [gravel, sand, silt, clay] = [0, 1, 2, 3].map(|i| {
        let share = soil.share(Part::ALL[i]);
        Known::new(
            Some(share),
            (share - slack[i]).max(0.0),
            (share + slack[i]).min(1.0),
        )
        .unwrap()
    });
    Shares::new(soil.system(), gravel, sand, silt, clay).unwrap()
}

fn within(known: Known, share: f64) -> bool {
    share >= known.least() - 1e-9 && share <= known.most() + 1e-9
}

/// Another soil within the same bounds: from a soil towards one in which a share of one part is moved to another.
fn moved(soil: &Fractions, from: usize, to: usize, by: f64) -> Fractions {
    let mut shares = Part::ALL.map(|part| soil.share(part));
    let by = by.min(shares[from]).min(1.0 - shares[to]);
    shares[from] -= by;
    shares[to] += by;
    let [gravel, sand, silt, clay] = shares;
    Fractions::new(soil.system(), gravel, sand, silt, clay).unwrap()
}

/// Share of grains of diameter `x` that lies on the bottom when `cut` has just fallen through all of the water:
/// all of the coarser, and of the finer those that started low enough.
fn down(x: f64, cut: f64) -> f64 {
    (x / cut).powi(2).min(1.0)
}

/// Share of a part spread evenly over the logarithm of diameter that is down, by the midpoint rule.
fn part_down(from: f64, to: f64, cut: f64) -> f64 {
    let steps = 2000;
    let ratio = libm::log(to / from);
    (0..steps)
        .map(|i| from * libm::exp(ratio * (f64::from(i) + 0.5) / f64::from(steps)))
        .map(|x| down(x, cut))
        .sum::<f64>()
        / f64::from(steps)
}

/// A soil near a corner of some class, where classes crowd.
fn near_a_corner() -> impl Strategy<Value = [FineEarth; 2]> {
    let off = || [-0.03..0.03, -0.03..0.03_f64];
    (select(Class::ALL.to_vec()), 0..7_usize, off(), off()).prop_map(
        |(class, corner, one, other)| {
            let corners = outline(class);
            let FineEarth { silt, clay, .. } = corners[corner % corners.len()];
            [one, other].map(|[silt_off, clay_off]| {
                let silt = f64::clamp(silt + silt_off, 0.0, 1.0);
                let clay = f64::clamp(clay + clay_off, 0.0, 1.0 - silt);
                FineEarth {
                    sand: (1.0 - silt - clay).max(0.0),
                    silt,
                    clay,
                }
            })
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn shares_sum_to_the_whole(soil in soil()) {
        prop_assert!((sum(&soil) - 1.0).abs() < 1e-9);
        if let Some(FineEarth { sand, silt, clay }) = soil.of_fines() {
            prop_assert!((sand + silt + clay - 1.0).abs() < 1e-9);
            // Gravel takes from all alike.
            prop_assert!((clay * (1.0 - soil.gravel()) - soil.clay()).abs() < 1e-9);
        }
    }

    #[test]
    fn rounded_shares_are_made_up_in_proportion(soil in soil(), factor in 0.991..1.009) {
        let [gravel, sand, silt, clay] = Part::ALL.map(|part| soil.share(part) * factor);
        if let Ok(again) = Fractions::new(soil.system(), gravel, sand, silt, clay) {
            prop_assert!((sum(&again) - 1.0).abs() < 1e-9);
            prop_assert!((again.clay() - soil.clay()).abs() < 1e-8);
        } else {
            // Only a share that passed the whole.
            prop_assert!(factor > 1.0 && [gravel, sand, silt, clay].iter().any(|share| *share > 1.0));
        }
    }

    #[test]
    fn bounds_hold_every_soil_within(
        soil in soil(),
        slack in [0.0..0.3, 0.0..0.3, 0.0..0.3, 0.0..0.3],
        from in 0..4_usize, to in 0..4_usize, by in 0.0..0.3,
    ) {
        let shares = about(&soil, slack);
        let by: f64 = f64::min(by, slack[from]).min(slack[to]);
        let other = moved(&soil, from, to, by);
        let (Some(fine), Some(bounds)) = (other.of_fines(), shares.of_fines()) else {
            return Ok(());
        };
        prop_assert!(within(bounds.sand, fine.sand), "{:?} {:?}", bounds.sand, fine.sand);
        prop_assert!(within(bounds.silt, fine.silt));
        prop_assert!(within(bounds.clay, fine.clay));
        if soil.system() == System::Usda {
            let class = class_of(&other).unwrap();
            let classes = classes_within(&shares).unwrap();
            prop_assert!(classes.contains(&class), "{class} not in {classes:?}");
        } else {
            prop_assert!(classes_within(&shares).is_err());
        }
    }

    #[test]
    fn an_exact_soil_has_its_one_class(soil in soil()) {
        let soil = Fractions::new(System::Usda, soil.gravel(), soil.sand(), soil.silt(), soil.clay()).unwrap();
        prop_assert_eq!(classes_within(&soil.into()), class_of(&soil).map(|class| vec![class]));
    }

    /// Walked along in two thousand steps: no class on the way is left out.
    #[test]
    fn a_line_of_soils_meets_the_classes_on_its_way(
        ends in prop_oneof![
            [soil(), soil()].prop_map(|ends| ends.map(|soil| soil.of_fines().unwrap())),
            near_a_corner(),
        ],
    ) {
        let [a, b] = ends;
        let mut met: Vec<Class> = (0..=2000)
            .filter_map(|step| {
                let t = f64::from(step) / 2000.0;
                let on = |a: f64, b: f64| a + (b - a) * t;
                classify(on(a.sand, b.sand), on(a.silt, b.silt), on(a.clay, b.clay))
            })
            .collect();
        met.sort();
        met.dedup();
        let named = classes_between(&ends);
        prop_assert!(met.iter().all(|class| named.contains(class)), "{met:?} {named:?}");
    }

    #[test]
    fn every_soil_has_a_class(soil in soil()) {
        let FineEarth { sand, silt, clay } = soil.of_fines().unwrap();
        let class = classify(sand, silt, clay);
        prop_assert!(class.is_some());
        let [x, y] = to_triangle(sand, silt, clay);
        // Back from the place in the triangle, by its geometry.
        let height = 3.0_f64.sqrt() / 2.0;
        prop_assert!((y / height - clay).abs() < 1e-9);
        prop_assert!((x - y / height / 2.0 - silt).abs() < 1e-9);
    }

    #[test]
    fn time_and_diameter_undo_each_other(
        celsius in 0.0..40.0, depth in 1.0..1000.0, diameter in 1e-4..0.06, grains in 2000.0..3500.0,
    ) {
        let settling = Settling::new(Celsius(celsius), density_of_kg_per_mm3(grains * 1e-9)).unwrap();
        if let Ok(time) = settling.time(mm(depth), mm(diameter)) {
            let back = settling.diameter(mm(depth), time).unwrap();
            prop_assert!((back.value / diameter - 1.0).abs() < 1e-12);
        } else {
            // Hot water and heavy grains: only too fast, and never as slow as silt.
            prop_assert!(diameter > 0.05);
        }
    }

    #[test]
    fn curves_do_not_fall_and_their_shares_are_the_whole(
        curve in curve(), system in system(), a in 1e-5..200.0, b in 1e-5..200.0,
    ) {
        if let (Some(a_passing), Some(b_passing)) = (curve.passing(mm(a)), curve.passing(mm(b))) {
            prop_assert!((a <= b) == (a_passing <= b_passing) || (a_passing - b_passing).abs() < 1e-12);
        }
        let found = curve.fractions(system);
        let shares = found.shares();
        if let Some(whole) = found.whole() {
            prop_assert!((sum(&whole) - 1.0).abs() < 1e-9);
            prop_assert!(found.missing.is_empty());
        } else {
            prop_assert!(!found.missing.is_empty());
        }
        let least: f64 = Part::ALL.iter().map(|part| shares.share(*part).least()).sum();
        let most: f64 = Part::ALL.iter().map(|part| shares.share(*part).most()).sum();
        prop_assert!(least <= 1.0 + 1e-9 && most >= 1.0 - 1e-9);
        for (part, told) in [(Part::Gravel, found.gravel), (Part::Sand, found.sand), (Part::Silt, found.silt), (Part::Clay, found.clay)] {
            if let Some(told) = told {
                let known = shares.share(part);
                prop_assert!((known.least() - told).abs() < 1e-9 && (known.most() - told).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn a_share_read_off_is_the_share_at_its_diameter(curve in curve(), share in 0.0..1.0) {
        if let Some(at) = curve.diameter_at(share) {
            let back = curve.passing(at).unwrap();
            // A curve may jump within a hair's breadth of opening.
            let near = curve.passing(at * (1.0 - 1e-7)).unwrap_or(0.0);
            prop_assert!((back - share).abs() < 1e-6 || (near <= share && share <= back + 1e-6), "{back} {share}");
        }
    }

    /// A soil of known make is let settle grain by grain, marked at the right hours, and its layers given the
    /// heights that their dry mass takes, either all alike or at the settled masses. What went in lies within
    /// what comes out.
    #[test]
    fn a_jar_that_is_let_settle_is_read_within_its_bounds(
        soil in soil(), alike in any::<bool>(), depth in 150.0..400.0, celsius in 5.0..35.0,
    ) {
        let soil = Fractions::new(System::Usda, 0.0, soil.sand() + soil.gravel(), soil.silt(), soil.clay()).unwrap();
        let (silt_at_sand, clay_at_sand) = (part_down(0.002, 0.05, 0.05), part_down(0.0002, 0.002, 0.05));
        let clay_at_silt = part_down(0.0002, 0.002, 0.002);
        let first = soil.sand() + soil.silt() * silt_at_sand + soil.clay() * clay_at_sand;
        let second = soil.sand() + soil.silt() + soil.clay() * clay_at_silt;
        let masses = [first, second - first, 1.0 - second];
        let per = if alike { [1.0; 3] } else { SETTLED_MASS.map(|mass| mass / SETTLED_MASS[0]) };
        let [sand, silt, clay] = [0, 1, 2].map(|i| mm(masses[i].max(0.0) / per[i] * 30.0));
        let jar = JarTest {
            system: System::Usda, sand, silt, clay, read_at: None, water: mm(depth), temperature: Celsius(celsius),
        };
        let reading = jar.read().unwrap();
        for part in Part::ALL {
            let known = reading.fractions.share(part);
            prop_assert!(within(known, soil.share(part)), "{part}: {known:?} {}", soil.share(part));
        }
        let best = reading.fractions.best().unwrap();
        prop_assert!((sum(&best) - 1.0).abs() < 1e-9);
        // A jar marked at the hours that are asked for says the same as one without hours.
        let at = marks(jar.water, jar.temperature, jar.system).unwrap();
        let marked = JarTest { read_at: Some((at.sand, at.silt)), ..jar }.read().unwrap();
        for part in Part::ALL {
            let (a, b) = (marked.fractions.share(part), reading.fractions.share(part));
            prop_assert!((a.best().unwrap() - b.best().unwrap()).abs() < 1e-9);
            prop_assert!((a.least() - b.least()).abs() < 1e-9 && (a.most() - b.most()).abs() < 1e-9);
        }
        let curve = reading.grading().unwrap().fractions(System::Usda).whole().unwrap();
        prop_assert!((curve.clay() - best.clay()).abs() < 1e-9);
    }

    #[test]
    fn heaps_come_back(swell in 0.0..2.0, shrink in 0.0..0.9, volume in 1.0..1e12) {
        let factors = HeapFactors::new(swell, shrink).unwrap();
        let volume = hodful_quantities::units::volume_of_mm3(volume);
        for from in [State::Bank, State::Loose, State::Compacted] {
            for to in [State::Bank, State::Loose, State::Compacted] {
                let back = factors.convert(factors.convert(volume, from, to), to, from);
                prop_assert!((back.value / volume.value - 1.0).abs() < 1e-12);
            }
        }
        let loose = factors.convert(volume, State::Bank, State::Loose);
        prop_assert!((loose.value * factors.load_factor() / volume.value - 1.0).abs() < 1e-12);
    }

    /// A ridge as long as wide is a cone, and each length more adds its cross-section, a triangle.
    #[test]
    fn a_ridge_is_a_cone_pulled_long(width in 100.0..1e4, height in 100.0..1e4, more in 1.0..1e4) {
        let round = cone(mm(width), mm(height)).unwrap();
        let short = ridge(mm(width), mm(width), mm(height)).unwrap();
        prop_assert_eq!(short.value.to_bits(), round.value.to_bits());
        let long = ridge(mm(width + more), mm(width), mm(height)).unwrap();
        let triangle: f64 = width * height / 2.0 * more;
        let longer = long.value - round.value;
        prop_assert!(f64::abs(longer / triangle - 1.0) < 1e-6);
    }

    #[test]
    fn no_number_panics(n in prop::collection::vec(any_number(), 12), system in system()) {
        let at = |i: usize| n[i % n.len()];
        let length = |i: usize| -> Length { mm(at(i)) };
        if let Ok(soil) = Fractions::new(system, at(0), at(1), at(2), at(3)) {
            prop_assert!((sum(&soil) - 1.0).abs() < 1e-9);
            let _ = (soil.of_fines(), class_of(&soil), classes_within(&soil.into()));
        }
        let known = |i: usize| Known::new(Some(at(i)), at(i + 1), at(i + 2)).or_else(|_| Known::exactly(at(i)));
        if let (Ok(a), Ok(b), Ok(c), Ok(d)) = (known(0), known(3), known(6), known(9))
            && let Ok(shares) = Shares::new(system, a, b, c, d)
        {
            let _ = (shares.of_fines(), shares.best(), classes_within(&shares));
        }
        let _ = (classify(at(0), at(1), at(2)), to_triangle(at(0), at(1), at(2)));
        let corners: Vec<FineEarth> = (0..4)
            .map(|i| FineEarth { sand: at(i), silt: at(i + 1), clay: 1.0 - at(i) - at(i + 1) })
            .collect();
        let _ = classes_between(&corners);
        let points: Vec<(Length, f64)> = (0..6).map(|i| (length(i), at(i + 6))).collect();
        for points in [points.get(..1), points.get(..2), points.get(..)].into_iter().flatten() {
            if let Ok(curve) = Grading::new(points.iter().copied()) {
                let found = curve.fractions(system);
                let _ = (found.whole(), found.shares(), curve.uniformity(), curve.curvature());
                let _ = (curve.passing(length(3)), curve.diameter_at(at(4)));
                let _: Vec<String> = found.missing.iter().map(ToString::to_string).collect();
            }
        }
        let _ = talbot(length(0), length(1), at(2));
        let grains: MassDensity = density_of_kg_per_mm3(at(1) * 1e-5);
        if let Ok(settling) = Settling::new(Celsius(at(0)), grains) {
            let time: Time = time_of_seconds(at(2));
            let told = (settling.velocity(length(3)), settling.time(length(4), length(3)), settling.diameter(length(4), time));
            prop_assert!(told.0.is_err() || told.0.is_ok_and(|speed| speed > 0.0));
            prop_assert!(told.1.is_err() || told.1.is_ok_and(|time| time.value.is_finite()));
            prop_assert!(told.2.is_err() || told.2.is_ok_and(|d| d.value.is_finite() && d.value > 0.0));
        }
        let jar = JarTest {
            system, sand: length(0), silt: length(1), clay: length(2),
            read_at: Some((time_of_seconds(at(3)), time_of_seconds(at(4)))), water: length(5), temperature: Celsius(at(6)),
        };
        for jar in [jar, JarTest { read_at: None, ..jar }, JarTest { temperature: Celsius(20.0), water: mm(1e4), ..jar }] {
            match jar.read() {
                Ok(reading) => {
                    let words: Vec<String> = reading.notes.iter().map(ToString::to_string).collect();
                    prop_assert!(!words.is_empty() && reading.grading().is_ok());
                }
                Err(fault) => prop_assert!(!fault.to_string().is_empty()),
            }
        }
        for reading in [
            Reading::PressedRibbon(length(0)), Reading::SlidRibbon(length(1)), Reading::Thread(length(2)), Reading::Drop(length(3)),
        ] {
            if let Ok(suggests) = reading.suggests() {
                prop_assert!(suggests.clay.is_none_or(|(least, most)| least < most && most <= 1.0));
            }
        }
        let _ = (of_jar(length(0), length(1)), of_voids(at(2), at(3)));
        if let Ok(factors) = HeapFactors::new(at(0), at(1)) {
            prop_assert!(factors.load_factor() > 0.0 && factors.load_factor() <= 1.0);
        }
        let _ = (cone(length(0), length(1)), ridge(length(2), length(3), length(4)));
    }
}

/// Not of a random soil: the whole list, so that a class that nothing reaches would show.
#[test]
fn every_class_is_some_soil() {
    let mut met: Vec<Class> = Vec::new();
    for silt in 0..=100_u8 {
        for clay in 0..=(100 - silt) {
            let [sand, silt, clay] =
                [100 - silt - clay, silt, clay].map(|share| f64::from(share) / 100.0);
            met.extend(classify(sand, silt, clay));
        }
    }
    assert_eq!(met.len(), 5151);
    met.sort();
    met.dedup();
    assert_eq!(met, Class::ALL);
}
