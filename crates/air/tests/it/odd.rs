//! What is refused, and in which words. Not here: what is let in.

use hodful_air::drying::{Coat, Record, band};
use hodful_air::moist::{STANDARD_PA, standard_pressure_pa};
use hodful_air::outside::Stand;
use hodful_air::room::{Room, air_needed_m3, changes_per_h};
use hodful_air::sun::{Facing, Place};
use hodful_air::{Air, AirFault};

fn words<T: std::fmt::Debug>(outcome: Result<T, AirFault>) -> String {
    outcome.unwrap_err().to_string()
}

#[test]
fn words_say_what_where_and_what_to_do() {
    for (found, expected) in [
        (
            words(Air::new(68.0 * 1.8 + 32.0, 0.5, STANDARD_PA)),
            "air of 154.4 °C is not between -60 and 80 °C; check the temperature and its unit",
        ),
        (
            words(Air::new(20.0, 50.0, STANDARD_PA)),
            "a relative humidity of 50 is not between 0 and 1 (0 and 100 %); check it",
        ),
        (
            words(Air::new(20.0, 0.5, 1013.0)),
            "a pressure of 1013 Pa is not between 30000 and 120000 Pa; sea level has about 101325 Pa",
        ),
        (
            words(standard_pressure_pa(30_000.0)),
            "an altitude of 30000 m is not between -1000 and 9000 m; check it and its unit",
        ),
        (
            words(Room::new(0.0, 1.0)),
            "volume of the room (m³) cannot be 0; give more than 0",
        ),
        (
            words(Room::new(50.0, -1.0)),
            "changes of air (1/h) cannot be -1; give 0 or more",
        ),
        (
            words(Coat::new(5.0, 1.5, 0.1)),
            "the water at which drying slows down cannot be 1.5; give a share from 0 to 1",
        ),
        (
            words(Coat::new(0.2, 0.3, 0.25)),
            "a coat with 0.2 kg/m² of water to give off is not dry only at 0.25 kg/m²; \
             give a figure between 0 and 0.2",
        ),
        (
            words(Facing::new(400.0)),
            "a direction of 400° is not between -360 and 360; check it",
        ),
        (
            words(Place::new(95.0, 0.0, 0.0)),
            "a latitude of 95° is not between -90 and 90; check it",
        ),
    ] {
        assert_eq!(found, expected);
    }
    let damp = Air::new(20.0, 1.0, STANDARD_PA).unwrap();
    assert!(words(air_needed_m3(1.0, 20.0, 0.5, &damp)).starts_with("outside air with 0.0172"));
}

#[test]
fn what_is_no_number_is_refused() {
    let nan = f64::NAN;
    assert!(Air::new(nan, 0.5, STANDARD_PA).is_err());
    assert!(Air::new(20.0, nan, STANDARD_PA).is_err());
    assert!(Air::new(20.0, 0.5, nan).is_err());
    assert!(Air::with_vapour(20.0, nan, STANDARD_PA).is_err());
    assert!(Coat::new(nan, 0.3, 0.1).is_err());
    assert!(Coat::new(5.0, 0.3, 0.0).is_err());
    assert!(Room::new(f64::INFINITY, 1.0).is_err());
    assert!(Place::new(0.0, 0.0, nan).is_err());
    assert!(Stand::new(0.0, true).unwrap().with(0.5, nan).is_err());
    assert!(changes_per_h(1.0, 1.0, 0.0).is_err());
    let coat = Coat::new(5.0, 0.3, 0.1).unwrap();
    let seen = |model: f64, rule: f64| Record { model, rule };
    assert!(band(&coat, 0.0, &Record::NONE, 0.0, []).is_err());
    for record in [
        seen(nan, 1.0),
        seen(0.0, 1.0),
        seen(1.0, nan),
        seen(1.0, -1.0),
    ] {
        assert!(band(&coat, 1.0, &record, 0.0, []).is_err());
    }
    assert!(band(&coat, 1.0, &Record::NONE, -1.0, []).is_err());
    // Water that all but boils in thin air.
    assert!(matches!(
        Air::new(80.0, 1.0, 40_000.0),
        Err(AirFault::Vapour { .. })
    ));
    assert!(Air::new(80.0, 0.5, 40_000.0).is_ok());
}
