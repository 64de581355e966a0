//! Reads a file of weather and writes its hours for the cross-check, one JSON object a line: `weather FILE`. The
//! first line is about the whole. Not here: reading it (see the crate).

use hodful_weather::read;
use serde_json::json;
use std::error::Error;

fn main() -> Result<(), Box<dyn Error>> {
    let file = std::env::args().nth(1).ok_or("usage: weather FILE")?;
    let found = read(&std::fs::read(&file)?, &file)?;
    let weather = found.weather;
    let notes: Vec<String> = found.notes.iter().map(ToString::to_string).collect();
    let place = weather.place().map(|place| {
        json!([
            place.name,
            place.latitude,
            place.longitude,
            place.zone,
            place.altitude
        ])
    });
    print(&json!({"typical": weather.is_typical(), "place": place, "notes": notes}));
    for hour in weather.hours() {
        print(&json!({
            "begins": hour.begins.to_string(),
            "dry_bulb": hour.dry_bulb,
            "humidity": hour.humidity,
            "pressure": hour.pressure,
            "wind": hour.wind,
            "sun": hour.sun,
            "beam": hour.beam,
            "diffuse": hour.diffuse,
            "cloud": hour.cloud,
            "rain": hour.rain,
        }));
    }
    Ok(())
}

#[allow(clippy::print_stdout, reason = "what the example is for")]
fn print(value: &serde_json::Value) {
    println!("{value}");
}
