//! What is refused of the work on site: one change a case, and the words it must give, with the place. Not here:
//! walls, coats and mixes (see `refusals`).

use crate::refusals::refused;
use serde_json::{Value, json};

/// This under `work` is told so.
fn work(of: Value, words: &str) {
    refused(move |project| project["work"] = of, words);
}

/// This room, the only one, is told so.
fn room(of: &Value, words: &str) {
    work(json!({ "rooms": { "hall": of } }), words);
}

#[test]
fn hours_and_people() {
    work(
        json!({ "from": "8:10" }),
        "work, from: '8:10' is no time on a quarter of an hour",
    );
    work(
        json!({ "from": "17:00", "to": "8:00" }),
        "work, to: the day begins at 17:00 and ends at 8:00",
    );
    work(
        json!({ "breaks": ["noon"] }),
        "work, breaks: 'noon' is no break",
    );
    work(
        json!({ "people": 3, "placing": 2 }),
        "work, people: stands beside mixing, carrying, placing or finishing",
    );
    work(json!({ "people": 0 }), "work, people: nobody is there");
    work(
        json!({ "batch_minutes": "0" }),
        "work, batch_minutes: '0' must be more than 0",
    );
    work(
        json!({ "latitude": "95", "longitude": "3" }),
        "work, latitude: '95' is not on the globe",
    );
    work(json!({ "latitude": "45" }), "work, longitude: is missing");
    work(
        json!({ "carried_per_hour": "0 L" }),
        "work, carried_per_hour: '0 L' must be more than 0",
    );
}

#[test]
fn rates_and_preparing() {
    work(
        json!({ "rates": { "skim": { "placing": "3 m2" } } }),
        "work, rate skim: there is no coat 'skim'",
    );
    work(
        json!({ "rates": { "fill": { "placing": "0 m2" } } }),
        "work, rate fill, placing: '0 m2' must be more than 0",
    );
    work(
        json!({ "rates": { "fill": { "open_minutes": "-5" } } }),
        "work, rate fill, open_minutes: '-5' is negative",
    );
    work(
        json!({ "prepare": [{ "what": "heaps", "hours": "0" }] }),
        "work, preparation 1, hours: '0' must be more than 0",
    );
    work(
        json!({ "prepare": [{ "what": "soaking", "hours": "2", "then_wait": "-1" }] }),
        "work, preparation 1, then_wait: '-1' is negative",
    );
}

#[test]
fn rooms() {
    room(
        &json!({ "volume": "0 m3" }),
        "work, room hall, volume: '0 m3' must be more than 0",
    );
    room(
        &json!({ "volume": "50 m3", "walls": ["X"] }),
        "work, room hall, walls: there is no wall 'X'",
    );
    room(
        &json!({ "volume": "50 m3", "walls": ["S", "S"] }),
        "work, room hall, walls: names S twice",
    );
    room(
        &json!({ "volume": "50 m3", "temperature": "70 °C" }),
        "work, room hall, temperature: '70 °C' is no warmth of a room",
    );
    room(
        &json!({ "volume": "50 m3", "air_changes": "-1" }),
        "work, room hall, air_changes: '-1' is negative",
    );
    room(
        &json!({ "volume": "50 m3", "stay_below": "100 %" }),
        "work, room hall, stay_below: '100 %' is no humidity to stay below",
    );
    room(
        &json!({ "volume": "50 m3", "heater": "propane" }),
        "work, room hall, fuel_per_day: is missing",
    );
    room(
        &json!({ "volume": "50 m3", "heater": "propane", "fuel_per_day": "3 kg", "air_changes": 0 }),
        "work, room hall, air_changes: is nothing, and a heater without a flue burns in it: without fresh air that kills",
    );
    room(
        &json!({ "volume": "50 m3", "fuel_per_day": "3 kg" }),
        "work, room hall, heater: is missing",
    );
    room(
        &json!({ "volume": "50 m3", "ceiling_u": "0" }),
        "work, room hall, ceiling_u: '0' must be more than 0",
    );
    room(
        &json!({ "volume": "50 m3", "ceiling_u": "11" }),
        "work, room hall, ceiling_u: '11' is no U-value",
    );
    let two = |walls: Value| {
        json!({ "rooms": {
            "hall": { "volume": "50 m3", "walls": ["S"] },
            "loft": { "volume": "20 m3", "walls": walls }
        } })
    };
    work(
        two(json!(["S"])),
        "work, room loft, walls: S is already in hall",
    );
    work(
        two(json!([])),
        "work, room loft, walls: are not named, and there is another room",
    );
    refused(
        |project| {
            project["walls"][0]["faces"]
                .as_object_mut()
                .unwrap()
                .remove("inside");
            let hall = json!({ "volume": "50 m3", "walls": ["S"] });
            project["work"] = json!({ "rooms": { "hall": hall } });
        },
        "work, room hall, walls: S has no inside face",
    );
}

#[test]
fn records_of_drying() {
    let with = |key: &str, value: Value| {
        let mut of = json!({
            "wall": "S", "face": "inside", "coat": "fill",
            "placed": "2030-05-06", "dry": "2030-05-12"
        });
        of[key] = value;
        json!({ "dried": [of] })
    };
    work(
        with("wall", json!("X")),
        "work, drying 1, wall: there is no wall 'X'",
    );
    work(
        with("coat", json!("skim")),
        "work, drying 1, coat: there is no coat 'skim'",
    );
    work(
        with("dry", json!("2030-05-01")),
        "work, drying 1, dry: '2030-05-01' is before it was put on, '2030-05-06'",
    );
    let one = with("dry", json!("2030-05-12"))["dried"][0].clone();
    work(
        json!({ "dried": [one, one] }),
        "work, drying 2, coat: fill on S inside is already in drying 1",
    );
}
