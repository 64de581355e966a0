//! Rooms against worked examples. Not here: the balance integrated numerically, which the cross-check does.

use crate::{air, near};
use hodful_air::drying::Coat;
use hodful_air::room::{
    CEILING_M2K_W, FUELS, OPENINGS, Room, RoomHour, Spell, WetWalls, air_needed_m3, carried_kg_m3,
    changes_per_h, cold_face, dry_room, heat_kwh, steady_kg_m3,
};
use hodful_air::wall::{STILL_ROOM_W_M2K, wet_face};

/// Room °C, outside °C and %, then g for each m³ let in at 80, 70 and 60 % in the room. Worked with `PsychroLib` 2.5.0.
const CARRIED: [[f64; 6]; 9] = [
    [20.0, 0.0, 80.0, 9.95, 8.22, 6.49],
    [20.0, 5.0, 80.0, 8.39, 6.66, 4.93],
    [20.0, 10.0, 80.0, 6.31, 4.58, 2.85],
    [15.0, 5.0, 80.0, 4.82, 3.54, 2.26],
    [15.0, 10.0, 80.0, 2.74, 1.46, 0.18],
    [10.0, 5.0, 80.0, 2.08, 1.14, 0.20],
    [10.0, 10.0, 80.0, 0.00, -0.94, -1.88],
    [25.0, 20.0, 60.0, 8.05, 5.75, 3.45],
    [25.0, 25.0, 70.0, 2.30, 0.00, -2.30],
];

#[test]
fn what_outside_air_carries_off() {
    for [room, t, humidity, at_80, at_70, at_60] in CARRIED {
        let outside = air(t, humidity / 100.0);
        for (limit, grams) in [(0.8, at_80), (0.7, at_70), (0.6, at_60)] {
            let found = 1000.0 * carried_kg_m3(room, limit, &outside).unwrap();
            near(
                &format!("{room} °C at {limit}, outside {t} °C {humidity} %"),
                found,
                grams,
                0.006,
            );
            let air = air_needed_m3(1.0, room, limit, &outside);
            assert_eq!(air.is_ok(), found > 0.0, "{air:?}");
        }
    }
}

/// Source: a German public page on damp in houses: inside 20 °C and 60 %, outside 70 %: 3.8 g/m³ at 10 °C, 7.0 at 0 °C;
/// 30 m³ an hour carry off 110 to 210 g.
#[test]
fn the_worked_example_of_a_public_page() {
    for (t, grams, an_hour) in [(10.0, 3.8, 110.0), (0.0, 7.0, 210.0)] {
        let carried = carried_kg_m3(20.0, 0.6, &air(t, 0.7)).unwrap();
        near("g/m³", 1000.0 * carried, grams, 0.05);
        near("g/h", 30.0 * 1000.0 * carried, an_hour, 5.0);
    }
}

/// Forty square metres of 10 mm with half a litre each millimetre, into 50 m³ at 20 °C and 70 %, outside 5 °C and 80 %.
/// Worked by hand from 17.287 and 6.797 g/m³ of full air (`PsychroLib` 2.5.0).
#[test]
fn two_hundred_litres_in_a_small_room() {
    let water = 40.0 * 10.0 * 0.5;
    let outside = air(5.0, 0.8);
    let needed = air_needed_m3(water, 20.0, 0.7, &outside).unwrap();
    let by_hand = 200.0 / (0.7 * 0.017_287 - 0.8 * 0.006_797);
    near("m³", needed, by_hand, 10.0);
    near("m³, rounded", needed, 30_000.0, 30.0);
    for (days, changes) in [(3.0, 8.3), (7.0, 3.6), (14.0, 1.8)] {
        near(
            "changes",
            changes_per_h(needed, 50.0, 24.0 * days).unwrap(),
            changes,
            0.05,
        );
    }
    near("heat", heat_kwh(water), 136.0, 0.001);
}

/// The same water given off evenly over a week: hours until the air is full, or where it settles. Worked by hand.
#[test]
fn a_week_of_even_drying() {
    let given_kg_h = 200.0 / 168.0;
    near("kg/h", given_kg_h, 1.19, 0.001);
    let (outside, inside) = (air(5.0, 0.8).vapour_kg_m3(), air(20.0, 1.0).vapour_kg_m3());
    let spell = Spell {
        outside_kg_m3: outside,
        given_kg_h,
        walls: WetWalls::NONE,
    };
    for (changes, hours) in [(0.5, 0.57), (1.0, 0.69)] {
        let room = Room::new(50.0, changes).unwrap();
        let found = room.hours_until(outside, &spell, inside).unwrap();
        near("hours to full air", found, hours, 0.006);
        near("and back", room.after(outside, &spell, found), inside, 1e-9);
    }
    for (changes, grams, percent) in [(2.0, 17.3, 100.0), (4.0, 11.4, 66.0), (8.0, 8.4, 49.0)] {
        let settled = steady_kg_m3(outside, given_kg_h, changes, 50.0).unwrap();
        near("settled", 1000.0 * settled, grams, 0.06);
        near("percent", 100.0 * settled / inside, percent, 0.6);
        let room = Room::new(50.0, changes).unwrap();
        near(
            "the same",
            room.settled_kg_m3(&spell).unwrap(),
            settled,
            1e-12,
        );
        near(
            "after long",
            room.after(outside, &spell, 1000.0),
            settled,
            1e-12,
        );
    }
    // Twice a change more than enough of what comes: never full.
    let airy = Room::new(50.0, 4.0).unwrap();
    assert_eq!(airy.hours_until(outside, &spell, inside), None);
}

/// Room 20 °C, outside 5 °C: U-value, face °C, room humidity in % at which it drips and at which mould can grow. Worked
/// with `PsychroLib` 2.5.0.
#[test]
fn cold_ceilings() {
    for (u, celsius, drips, mould) in [
        (0.3, 19.55, 97.0, 78.0),
        (1.0, 18.5, 91.0, 73.0),
        (2.0, 17.0, 83.0, 66.0),
        (3.0, 15.5, 75.0, 60.0),
    ] {
        let face = cold_face(20.0, 5.0, u, CEILING_M2K_W).unwrap();
        near("face", face.celsius, celsius, 0.001);
        near("drips", 100.0 * face.drips_at, drips, 0.6);
        near("mould", 100.0 * face.mould_at, mould, 0.6);
        let below = air(20.0, face.drips_at - 0.01);
        assert!(!face.drips(&below) && face.may_mould(&below));
        assert!(face.drips(&air(20.0, (face.drips_at + 0.01).min(1.0))));
        // It drips when the dew point of the room is that of the face.
        near(
            "dew point",
            air(20.0, face.drips_at).dew_point().unwrap(),
            celsius,
            1e-4,
        );
    }
    assert!(cold_face(20.0, 5.0, 20.0, 0.1).is_err());
}

/// kg of water for each kg of fuel, by the equations of burning (worked from atomic masses).
#[test]
fn heaters_wet_the_room() {
    for (fuel, water) in FUELS.iter().zip([1.63, 2.25, 1.37]) {
        near(fuel.name, fuel.water_kg_kg(), water, 0.008);
    }
}

#[test]
fn openings_go_from_closest_to_widest() {
    for pair in OPENINGS.windows(2) {
        assert!(
            pair[0].changes_per_h.1 <= pair[1].changes_per_h.1,
            "{pair:?}"
        );
    }
    assert!(
        OPENINGS
            .iter()
            .all(|o| o.changes_per_h.0 <= o.changes_per_h.1 && !o.source.is_empty())
    );
}

/// In still air `β` is 7.5 m/h (`3600·2.5 / (1.2·1006)` is 7.46) between the vapour at the face and in the room.
#[test]
fn walls_give_off_what_a_wet_face_does() {
    let state = air(20.0, 0.5);
    let walls = WetWalls::in_air(40.0, &state, STILL_ROOM_W_M2K);
    let rate = wet_face(&state, STILL_ROOM_W_M2K, 0.0);
    let given = walls.beta_m_h * (walls.full_kg_m3 - state.vapour_kg_m3());
    near("kg/(m²·h)", given, rate.kg_m2_h, 1e-12);
    // The same written with the cold face: full air at the wet bulb.
    let cold = air(rate.celsius, 1.0).vapour_kg_m3();
    let beta = rate.kg_m2_h / (cold - state.vapour_kg_m3() * 293.15 / (rate.celsius + 273.15));
    near("β", beta, 7.5, 0.15);
    // Full air takes nothing.
    near(
        "full",
        WetWalls::in_air(40.0, &air(20.0, 1.0), 2.5).beta_m_h,
        0.0,
        0.0,
    );
}

/// Without air the room fills up and stops, whatever the walls hold; the more air, the drier.
#[test]
fn a_shut_room_stops_drying() {
    let outside = air(5.0, 0.8);
    let walls = WetWalls::in_air(40.0, &air(20.0, 0.5), 2.5);
    let spell = Spell {
        outside_kg_m3: outside.vapour_kg_m3(),
        given_kg_h: 0.0,
        walls,
    };
    let settled = |n: f64| Room::new(50.0, n).unwrap().settled_kg_m3(&spell).unwrap();
    near("shut", settled(0.0), air(20.0, 1.0).vapour_kg_m3(), 1e-12);
    assert!(settled(0.5) > settled(2.0) && settled(2.0) > settled(10.0));
    near("gale", settled(1e6), outside.vapour_kg_m3(), 1e-5);
}

/// What the walls gave is what is in the air and what left with it.
#[test]
fn water_is_neither_made_nor_lost() {
    let room = Room::new(50.0, 1.5).unwrap();
    let walls = WetWalls {
        area_m2: 40.0,
        beta_m_h: 3.0,
        full_kg_m3: 0.017_3,
    };
    let spell = Spell {
        outside_kg_m3: 0.005_4,
        given_kg_h: 0.0,
        walls,
    };
    let start = 0.006;
    // Steps so small that the way there does not matter.
    let steps = 100_000;
    let dt = 2.0 / f64::from(steps);
    let (mut vapour, mut left_with_air) = (start, 0.0);
    for _ in 0..steps {
        let next = room.after(vapour, &spell, dt);
        left_with_air += 1.5 * 50.0 * (f64::midpoint(vapour, next) - 0.005_4) * dt;
        vapour = next;
    }
    let (after, given) = room.with_walls(start, &spell, 2.0, 1e9);
    near("vapour", after, vapour, 1e-12);
    near("given", given, 50.0 * (after - start) + left_with_air, 1e-8);
    // With half of that water it runs out on the way, and the air is drier in the end.
    let (drier, half) = room.with_walls(start, &spell, 2.0, given / 2.0);
    near("half", half, given / 2.0, 1e-12);
    assert!(drier < after && drier > 0.005_4);
}

/// A coat in a room that is aired dries later than in a gale, and all its water goes.
#[test]
fn a_coat_in_a_room() {
    let coat = Coat::new(5.0, 0.3, 0.25).unwrap();
    let outside = air(5.0, 0.8);
    let days = |changes: f64| {
        let hour = RoomHour {
            outside,
            celsius: 20.0,
            room: Room::new(50.0, changes).unwrap(),
            given_kg_h: 0.0,
        };
        dry_room(
            &coat,
            40.0,
            2.5,
            &outside.at(20.0).unwrap(),
            std::iter::repeat_n(hour, 24 * 400),
        )
        .unwrap()
    };
    let (still, aired, gale) = (days(0.2), days(4.0), days(10_000.0));
    // With endless air the room is as dry as outside air that is warmed.
    let rate = wet_face(&outside.at(20.0).unwrap(), 2.5, 0.0).kg_m2_h;
    let expected = coat.needed_kg_m2() / rate;
    near("gale", gale.dry_after_h.unwrap(), expected, 0.01 * expected);
    assert!(aired.dry_after_h > gale.dry_after_h && still.dry_after_h > aired.dry_after_h);
    // 190 kg must leave: at the most what full air carries off. With 0.2 changes that is 118 g an hour.
    let least = 40.0 * 4.75 / (10.0 * (0.017_287 - 0.8 * 0.006_797));
    assert!(
        still.dry_after_h.is_none_or(|h| h > 0.95 * least),
        "{:?} {least}",
        still.dry_after_h
    );
    near("water", gale.given_kg, 40.0 * 4.75, 0.5);
    assert!(still.humidity.iter().all(|h| (0.0..=1.0).contains(h)));
}

/// Two litres an hour into a shut room: what the air cannot hold drips.
#[test]
fn what_the_air_cannot_hold_drips() {
    let coat = Coat::new(5.0, 0.3, 0.25).unwrap();
    let hour = RoomHour {
        outside: air(5.0, 0.8),
        celsius: 20.0,
        room: Room::new(50.0, 0.0).unwrap(),
        given_kg_h: 2.0,
    };
    let begin = air(20.0, 0.4);
    let dried = dry_room(&coat, 0.0, 2.5, &begin, std::iter::repeat_n(hour, 24)).unwrap();
    // 48 kg, less the 60 % that the air still took: 17.287 g/m³ when full (`PsychroLib` 2.5.0).
    near(
        "dripped",
        dried.dripped_kg,
        48.0 - 50.0 * 0.6 * 0.017_287,
        1e-4,
    );
    near("humidity", dried.humidity[23], 1.0, 1e-12);
    assert_eq!(dried.dry_after_h, None);
}

/// In a shut room all that the walls give is in the air, also when next to nothing moves.
#[test]
fn a_shut_room_keeps_all_water() {
    for volume in [50.0, 5e4, 5e5, 5e6] {
        let room = Room::new(volume, 0.0).unwrap();
        let walls = WetWalls {
            area_m2: 10.0,
            beta_m_h: 2.0,
            full_kg_m3: 0.017,
        };
        let spell = Spell {
            outside_kg_m3: 0.0,
            given_kg_h: 0.0,
            walls,
        };
        let (after, given) = room.with_walls(0.0, &spell, 1.0, 1e9);
        near("share", volume * after / given, 1.0, 1e-13);
    }
}
