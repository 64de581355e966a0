//! Any project, for properties. Not here: the properties.

use super::any_soil::{blend, buying, panel, soil, supplier};
use hodful_quantities::print::UnitSystem;
use hodful_quantities::units::{Angle, Length, Ratio};
use hodful_quantities::{Measure, Typed};
use hodful_takeoff::project::{
    ArchKind, Background, BackgroundKind, BulkingTest, Coat, CornerAngle, Dose, DosePer, End, Face,
    Frame, Inset, Material, MaterialKind, Mix, Mixer, Name, Named, Opening, OpeningShape, Package,
    Pocket, Project, Rain, Reveal, RevealPart, ScreenTest, Side, Splay, TrialBatch, Wall, WallEnd,
    WallShape,
};
use proptest::collection::{hash_map, vec};
use proptest::option::of;
use proptest::prelude::*;
use proptest::sample::select;
use std::sync::Arc;

pub(super) fn typed<T: Measure + 'static>(
    texts: &'static [&'static str],
) -> impl Strategy<Value = Typed<T>> + Clone {
    select(texts).prop_map(|text| Typed::read(text).unwrap())
}

/// Any text: blanks, escapes, other scripts, texts that look like JSON.
pub(super) fn name() -> impl Strategy<Value = Name> + Clone {
    prop_oneof![
        "[a-z]{1,20}".prop_map(Name::from),
        any::<String>().prop_map(Name::from),
        select(&["\"", "\\", "}", "\u{0}", "null", "7", "é", "𝄞", " "][..]).prop_map(Name::from),
    ]
}

pub(super) fn named<T: std::fmt::Debug>(
    of: impl Strategy<Value = T>,
) -> impl Strategy<Value = Named<T>> {
    hash_map(name(), of, 0..3).prop_map(|map| map.into_iter().collect())
}

prop_compose! {
    fn material()(
        kind in select(MaterialKind::ALL),
        densities in [of(typed(&["1442 kg/m3", "90 lb/ft3"])), of(typed(&["2650 kg/m3", "2.65 kg/L"]))],
        shares in [share(), share(), share(), share(), share()],
        packages in vec(package(), 0..3),
        stock in of(typed(&["2 bale", "0 yd3", "40 lb"])),
        soil in of(soil().prop_map(Box::new)),
        tests in (
            of([length(), length()].prop_map(|[damp, flooded]| BulkingTest { damp, flooded })),
            of((of(length()), [typed(&["20 L", "40 kg"]), typed(&["3 L"])]).prop_map(|(mesh, [raw, held])| ScreenTest { mesh, raw, held })),
        ),
        heap in [share(), share(), share()],
        counted in (of(typed(&["6 weeks"])), of(typed(&["6", "5.5"])), of(typed(&["40 g"]))),
    ) -> Material {
        let [loose_density, particle_density] = densities;
        let [moisture, bulking, clay, void_fraction, reject] = shares;
        let (bulking_test, screen_test) = tests;
        let [swell, shrink, keeping_loss] = heap;
        let (keeps, shovels_per_bucket, handful) = counted;
        Material {
            kind, loose_density, particle_density, moisture, bulking, clay, void_fraction, reject, packages, stock,
            soil, bulking_test, screen_test, swell, shrink, keeping_loss, keeps, shovels_per_bucket, handful,
        }
    }
}

pub(super) fn share() -> impl Strategy<Value = Option<Typed<Ratio>>> + Clone {
    of(typed(&["4 %", "0.25", "1/4", "0 %"]))
}

pub(super) fn length() -> impl Strategy<Value = Typed<Length>> + Clone {
    typed(&[
        "12' 6 1/2\"",
        " 3.81 m",
        "5½ in",
        "0",
        "2*4' + 6\"",
        "685 mm",
        "12′ 6″",
    ])
}

fn angle() -> impl Strategy<Value = Typed<Angle>> + Clone {
    typed(&["20 deg", "20°", "0.35 rad", "0"])
}

prop_compose! {
    fn package()(
        name in name(),
        holds in typed(&["5 yd3", "50 lb"]),
        price in of(typed(&["240", "14.50"])),
        supplier in of(name()),
        room in of(typed(&["5.25 ft3"])),
    ) -> Package {
        Package { name, holds, price, supplier, room }
    }
}

prop_compose! {
    fn dose()(
        material in name(),
        dose in of(typed(&["50 kg/m3", "3 lb/yd3"])),
        per in of(select(DosePer::ALL)),
        parts in of(typed(&["1", "0.50", "1 1/2"])),
    ) -> Dose {
        Dose { material, dose, per, parts }
    }
}

prop_compose! {
    fn mix()(
        parts in named(typed(&["7", "2.50", "1 1/2", "0.5"])),
        doses in [of(dose()), of(dose())],
        shares in [share(), share()],
        trial_batch in of((
            typed(&["10 gal", "40 lb"]), typed(&["8.4 gal"]), of(typed(&["2 gal"])), of(typed(&["2026-05-04"])), of(name()),
        ).prop_map(|(loose, mixed, water, date, note)| TrialBatch { loose, mixed, water, date, note })),
        test_panels in vec(panel(), 0..3),
        single_pass in of(length()),
    ) -> Mix {
        let [fibre, binder] = doses;
        let [water, air] = shares;
        Mix { parts, fibre, binder, water, air, trial_batch, test_panels, single_pass }
    }
}

prop_compose! {
    fn coat()(
        names in [name(), name()],
        thickness in length(),
        shares in [share(), share()],
        weather_finish in of(name()),
    ) -> Coat {
        let [coat, mix] = names;
        let [shrinkage, loss] = shares;
        Coat { coat, thickness, mix, shrinkage, loss, weather_finish }
    }
}

fn corners() -> impl Strategy<Value = Vec<[Typed<Length>; 2]>> {
    vec([length(), length()], 0..4)
}

fn wall_shape() -> impl Strategy<Value = WallShape> {
    prop_oneof![
        [length(), length()].prop_map(|[length, height]| WallShape::Rectangle { length, height }),
        ([length(), length(), length()], of(length())).prop_map(
            |([length, eaves, ridge], ridge_from_left)| WallShape::Gable {
                length,
                eaves,
                ridge,
                ridge_from_left
            }
        ),
        [length(), length(), length()].prop_map(|[length, left, right]| WallShape::Raked {
            length,
            left,
            right
        }),
        corners().prop_map(|corners| WallShape::Polygon { corners }),
        (length(), of(angle()), of(length()), length()).prop_map(
            |(radius, sweep, length, height)| WallShape::Curved {
                radius,
                sweep,
                length,
                height
            }
        ),
    ]
}

fn opening_shape() -> impl Strategy<Value = OpeningShape> {
    prop_oneof![
        [length(), length()].prop_map(|[width, height]| OpeningShape::Rectangle { width, height }),
        (length(), length(), of(length()), of(select(ArchKind::ALL))).prop_map(
            |(width, springing, rise, head)| OpeningShape::Arched {
                width,
                springing,
                rise,
                head
            }
        ),
        length().prop_map(|diameter| OpeningShape::Circle { diameter }),
        corners().prop_map(|corners| OpeningShape::Polygon { corners }),
    ]
}

prop_compose! {
    fn inset()([left, right, top, bottom, ceiling] in [of(length()), of(length()), of(length()), of(length()), of(length())]) -> Inset {
        Inset { left, right, top, bottom, ceiling }
    }
}

prop_compose! {
    fn face()(names in [name(), name()], inset in of(inset()), rain in of(select(Rain::ALL)), facing in of(name()), shaded in of(any::<bool>())) -> Face {
        let [background, build_up] = names;
        Face { background, build_up, inset: inset.map(Arc::new), rain, facing, shaded }
    }
}

prop_compose! {
    fn wall_end()(
        face in select(Side::ALL), end in select(End::ALL), angle in select(CornerAngle::ALL),
        turn in of(angle()), lengths in [of(length()), of(length())],
    ) -> WallEnd {
        let [radius, cove] = lengths;
        WallEnd { face, end, angle, turn, radius, cove }
    }
}

prop_compose! {
    fn reveal()(
        plastered in vec(select(RevealPart::ALL), 0..4),
        splay in of([of(angle()), of(angle()), of(angle()), of(angle())]),
        lengths in [of(length()), of(length())],
    ) -> Reveal {
        let splay = splay.map(|[jambs, head, sill, ring]| Box::new(Splay { jambs, head, sill, ring }));
        let [radius, lath] = lengths;
        Reveal { plastered, splay, radius, lath }
    }
}

prop_compose! {
    fn opening()(
        id in name(), kind in of(name()), count in of(any::<u32>()), spacing in of(length()),
        shape in opening_shape(), place in [length(), length()],
        frame in of([length(), length()]), reveals in [of(reveal()), of(reveal())],
    ) -> Opening {
        let [from_left, sill] = place;
        let frame = frame.map(|[from_outside, depth]| Arc::new(Frame { from_outside, depth }));
        let [outside, inside] = reveals.map(|reveal| reveal.map(Arc::new));
        Opening { id, kind, count, spacing, shape, from_left, sill, frame, outside, inside }
    }
}

prop_compose! {
    fn pocket()(face in select(Side::ALL), size in [length(), length(), length()], count in of(any::<u32>())) -> Pocket {
        let [width, height, depth] = size;
        Pocket { face, width, height, depth, count }
    }
}

prop_compose! {
    fn wall()(
        id in name(), names in [of(name()), of(name())], count in of(any::<u32>()), shape in wall_shape(),
        thickness in length(), faces in [of(face()), of(face())], ends in vec(wall_end(), 0..3),
        openings in vec(opening(), 0..3), pockets in vec(pocket(), 0..2),
    ) -> Wall {
        let [name, sheet] = names;
        let [outside, inside] = faces;
        Wall { id, name, sheet, count, shape, thickness, outside, inside, ends: ends.into(), openings, pockets }
    }
}

prop_compose! {
    /// Any project: texts of every kind, everything that may be absent sometimes absent.
    pub(crate) fn project()(
        outlook in super::any_options::outlook(coat(), wall(), package()),
        names in [name(), name()],
        units in select(&[UnitSystem::Us, UnitSystem::Metric][..]),
        backgrounds in named((select(BackgroundKind::ALL), of(length())).prop_map(|(kind, dubbing_out)| Background { kind, dubbing_out })),
        materials in named(material()),
        mixes in named(mix()),
        build_ups in named(vec(coat(), 0..4)),
        mixer in of((typed(&["3.5 ft3"]), of(typed(&["5 gal"])), of(typed(&["5 L"]))).prop_map(
            |(working_volume, bucket, shovel)| Mixer { bucket, shovel, ..Mixer::of(working_volume) }
        )),
        crew in (of(typed(&["1 cup"])), share(), of(typed(&["12"]))),
        blends in named(blend()),
        suppliers in named(supplier()),
        buying in of(buying()),
        walls in vec(wall(), 0..4),
        note in of(name()),
    ) -> Project {
        let [name, measurement_rule] = names;
        let (options, uncertain, done, delivered, work) = outlook;
        let (cup, hold_back, batches_per_day) = crew;
        let mixer = mixer.map(|mixer| Mixer { cup, hold_back, batches_per_day, ..mixer });
        Project { name, units, measurement_rule, backgrounds, materials, mixes, build_ups, mixer, blends, suppliers, buying, options, uncertain, done, delivered, work, walls: walls.into_iter().map(Arc::new).collect(), note }
    }
}
