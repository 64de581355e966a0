//! Any soil, panel, blend, supplier and way to buy, for properties. Not here: the project they are in.

use super::any::{length, name, named, share, typed};
use hodful_takeoff::project::{
    Blend, BlendAim, Buying, BuyingAim, Cracks, CurveBand, HandTests, JarTest, NumberBetween,
    Phase, ShareBetween, Shine, SieveBand, SievePoint, SizeSystem, Soil, SoilShares, Squeeze,
    Supplier, TestPanel,
};
use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;
use proptest::sample::select;

prop_compose! {
    fn shares()(gravel in share(), rest in vec(typed(&["30 %", "0.4", "1/4"]), 3)) -> SoilShares {
        let mut rest = rest.into_iter();
        let mut next = || rest.next().unwrap();
        SoilShares { gravel, sand: next(), silt: next(), clay: next() }
    }
}

prop_compose! {
    fn jar()(
        layers in [length(), length(), length()],
        water_depth in of(length()),
        temperature in of(typed(&["20 C", "68 °F"])),
        marked in [of(typed(&["45 s", "1 min"])), of(typed(&["7 h 44 min"]))],
    ) -> JarTest {
        let [sand, silt, clay] = layers;
        let [sand_marked, silt_marked] = marked;
        JarTest { sand, silt, clay, water_depth, temperature, sand_marked, silt_marked }
    }
}

prop_compose! {
    fn hand()(
        squeeze in of(select(Squeeze::ALL)),
        lengths in [of(length()), of(length()), of(length())],
        shine in of(select(Shine::ALL)),
    ) -> HandTests {
        let [ribbon, roll, drop] = lengths;
        HandTests { squeeze, ribbon, roll, drop, shine }
    }
}

prop_compose! {
    pub(super) fn soil()(
        system in of(select(SizeSystem::ALL)),
        shares in of(shares()),
        sieve in vec((length(), typed(&["98 %", "0.4"])).prop_map(|(size, passing)| SievePoint { size, passing }), 0..4),
        jar in of(jar()),
        hand in of(hand()),
        note in of(name()),
    ) -> Soil {
        Soil { system, shares, sieve, jar, hand, note }
    }
}

prop_compose! {
    pub(super) fn panel()(
        date in of(typed(&["2026-05-04"])),
        lengths in [of(length()), of(length()), of(length()), of(length())],
        cracks in of(select(Cracks::ALL)),
        note in of(name()),
    ) -> TestPanel {
        let [wet_length, dry_length, wet_thickness, dry_thickness] = lengths;
        TestPanel { date, wet_length, dry_length, wet_thickness, dry_thickness, cracks, note }
    }
}

fn between() -> impl Strategy<Value = ShareBetween> + Clone {
    [share(), share()].prop_map(|[least, most]| ShareBetween { least, most })
}

fn numbers() -> impl Strategy<Value = NumberBetween> + Clone {
    let number = || of(typed(&["2", "2.50", "1 1/2"]));
    [number(), number()].prop_map(|[least, most]| NumberBetween { least, most })
}

prop_compose! {
    pub(super) fn blend()(
        materials in named(between()),
        bounds in [of(between()), of(between())],
        ratios in [of(numbers()), of(numbers())],
        sieves in vec((length(), between()).prop_map(|(size, of)| SieveBand { size, least: of.least, most: of.most }), 0..3),
        curve in of((length(), of(typed(&["0.5"])), share()).prop_map(|(largest, power, within)| CurveBand { largest, power, within })),
        single_pass in of(length()),
        aim in of(select(BlendAim::ALL)),
        amount in of(typed(&["2 yd3"])),
    ) -> Blend {
        let [clay, silt] = bounds;
        let [sand_to_clay, sand_to_rest] = ratios;
        Blend { materials, clay, silt, sand_to_clay, sand_to_rest, sieves, curve, single_pass, aim, amount }
    }
}

prop_compose! {
    pub(super) fn supplier()(
        money in [of(typed(&["85", "12.50"])), of(typed(&["200"]))],
        truck_mass in of(typed(&["8 t", "10 short ton"])),
        truck_volume in of(typed(&["6 yd3"])),
        note in of(name()),
    ) -> Supplier {
        let [delivery, least_order] = money;
        Supplier { delivery, least_order, truck_mass, truck_volume, note }
    }
}

prop_compose! {
    pub(super) fn buying()(
        aim in of(select(BuyingAim::ALL)),
        phases in vec(
            (name(), vec(name(), 0..3), of(typed(&["2026-05-04"])))
                .prop_map(|(name, coats, date)| Phase { name, coats, date }),
            0..3,
        ),
    ) -> Buying {
        Buying { aim, phases }
    }
}
