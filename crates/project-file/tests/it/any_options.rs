//! Any option, uncertain input and record, for properties. Not here: the project they are in.

use super::any::{name, named, typed};
use hodful_takeoff::project::{
    Alteration, Alternative, Coat, Delivered, Done, Dried, HeaterFuel, Named, Package, Preparation,
    Preparing, Rate, Room, Side, Spot, Uncertain, UncertainInput, Wall, Weekday, Work,
};
use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;
use proptest::sample::select;
use std::sync::Arc;

type Outlook = (
    Named<Alternative>,
    Vec<Uncertain>,
    Vec<Done>,
    Vec<Delivered>,
    Option<Box<Work>>,
);

prop_compose! {
    fn spot()(
        names in vec(of(name()), 9),
        mixer in of(any::<bool>()),
    ) -> Spot {
        let mut names = names.into_iter();
        let mut next = || names.next().unwrap();
        Spot {
            background: next(), build_up: next(), coat: next(), mix: next(), material: next(), package: next(),
            supplier: next(), wall: next(), opening: next(), mixer,
        }
    }
}

fn change(
    coat: impl Strategy<Value = Coat> + 'static,
    wall: impl Strategy<Value = Wall> + 'static,
    package: impl Strategy<Value = Package> + 'static,
) -> impl Strategy<Value = Alteration> {
    prop_oneof![
        (spot(), name(), of(name())).prop_map(|(at, field, to)| Alteration::Set { at, field, to }),
        (spot(), name(), name()).prop_map(|(at, field, by)| Alteration::Add { at, field, by }),
        spot().prop_map(|at| Alteration::LeaveOut { at }),
        (name(), of(name()), coat).prop_map(|(build_up, after, coat)| Alteration::Coat {
            build_up,
            after,
            coat
        }),
        wall.prop_map(|wall| Alteration::Wall {
            wall: Arc::new(wall)
        }),
        (name(), package).prop_map(|(material, package)| Alteration::Package { material, package }),
    ]
}

prop_compose! {
    fn uncertain()(
        input in select(UncertainInput::ALL),
        name_of in of(name()),
        levels in vec(of(typed(&["90 %", "7/8 in", "0.8", "22 mm"])), 6),
        source in of(name()),
    ) -> Uncertain {
        let mut levels = levels.into_iter();
        let mut next = || levels.next().unwrap();
        Uncertain {
            of: input, name: name_of, lowest: next(), likely: next(), highest: next(), mean: next(), spread: next(),
            wall_to_wall: next(), source,
        }
    }
}

prop_compose! {
    fn done()(
        coat in name(),
        build_up in of(name()),
        walls in vec(name(), 0..3),
        face in of(select(Side::ALL)),
        took in typed(&["14 batches", "35 buckets", "0.8 m3"]),
        date in of(typed(&["2026-05-04"])),
        note in of(name()),
    ) -> Done {
        Done { coat, build_up, walls, face, took, date, note }
    }
}

prop_compose! {
    fn delivered()(
        material in name(),
        amount in typed(&["2 tipped load", "1.5 m3"]),
        date in of(typed(&["2026-05-04"])),
        note in of(name()),
    ) -> Delivered {
        Delivered { material, amount, date, note }
    }
}

prop_compose! {
    fn rate()(
        placing in of(typed(&["2.5 m2"])),
        finishing in of(typed(&["40 ft2"])),
        open_minutes in of(typed(&["40"])),
    ) -> Rate {
        Rate { placing, finishing, open_minutes }
    }
}

prop_compose! {
    fn preparation()(
        what in select(Preparing::ALL),
        hours in typed(&["12", "0.5"]),
        then_wait in of(typed(&["24"])),
    ) -> Preparation {
        Preparation { what, hours, then_wait }
    }
}

prop_compose! {
    fn room()(
        volume in typed(&["60 m3", "1200 ft3"]),
        walls in vec(name(), 0..3),
        temperature in of(typed(&["18 °C", "60 F"])),
        numbers in vec(of(typed(&["0.5", "3"])), 2),
        fan in of(any::<bool>()),
        heater in of(select(HeaterFuel::ALL)),
        fuel_per_day in of(typed(&["4 kg"])),
        water_per_day in of(typed(&["12 L"])),
        stay_below in of(typed(&["70 %"])),
    ) -> Room {
        let mut numbers = numbers.into_iter();
        let mut number = || numbers.next().unwrap();
        Room {
            volume, walls, temperature, air_changes: number(), fan, heater, fuel_per_day,
            water_per_day, stay_below, ceiling_u: number(),
        }
    }
}

prop_compose! {
    fn dried()(
        wall in name(),
        face in select(Side::ALL),
        coat in name(),
        placed in typed(&["2026-04-13"]),
        dry in of(typed(&["2026-04-20"])),
    ) -> Dried {
        Dried { wall, face, coat, placed, dry }
    }
}

prop_compose! {
    fn work()(
        begins in of(typed(&["2026-04-13"])),
        hours in (of(name()), of(name()), vec(name(), 0..3)),
        weekdays in vec(select(Weekday::ALL), 0..3),
        days_off in vec(typed(&["2026-05-01"]), 0..3),
        people in vec(of(any::<u32>()), 5),
        numbers in vec(of(typed(&["12", "51.2", "-0.5"])), 3),
        rates in named(rate()),
        carried_per_hour in of(typed(&["600 L"])),
        prepare in vec(preparation(), 0..3),
        rooms in named(room()),
        dried in vec(dried(), 0..3),
        weather in of(name()),
    ) -> Work {
        let (from, to, breaks) = hours;
        let mut people = people.into_iter();
        let mut next = || people.next().unwrap();
        let mut numbers = numbers.into_iter();
        let mut number = || numbers.next().unwrap();
        Work {
            begins, from, to, breaks, weekdays, days_off,
            people: next(), mixing: next(), carrying: next(), placing: next(), finishing: next(),
            batch_minutes: number(), rates, carried_per_hour, prepare, rooms, dried,
            latitude: number(), longitude: number(), weather,
        }
    }
}

/// Options, uncertain inputs, records and the work.
pub(super) fn outlook(
    coat: impl Strategy<Value = Coat> + 'static,
    wall: impl Strategy<Value = Wall> + 'static,
    package: impl Strategy<Value = Package> + 'static,
) -> impl Strategy<Value = Outlook> {
    let option = (
        of(name()),
        vec(change(coat, wall, package), 0..4),
        of(name()),
    )
        .prop_map(|(of, changes, note)| Alternative { of, changes, note });
    (
        named(option),
        vec(uncertain(), 0..3),
        vec(done(), 0..3),
        vec(delivered(), 0..3),
        of(work().prop_map(Box::new)),
    )
}
