//! Writes a calendar of odd entries for the cross-check: with `calendar` alone the file itself, with `calendar
//! entries` what is in it, one JSON object a line. Not here: writing it (see the crate).

use hodful_exchange::icalendar::{Calendar, Entry, When, write};
use jiff::civil::{DateTime, date};
use serde_json::json;
use std::error::Error;

fn main() -> Result<(), Box<dyn Error>> {
    let entries = entries();
    if std::env::args().nth(1).as_deref() == Some("entries") {
        for entry in &entries {
            let when = match entry.when {
                When::Days { first, last } => {
                    json!({"first": first.to_string(), "last": last.to_string()})
                }
                When::Times { starts, ends } => {
                    json!({"starts": shown(starts), "ends": shown(ends)})
                }
            };
            print(&format!(
                "{}\n",
                json!({
                    "uid": entry.uid,
                    "when": when,
                    "summary": entry.summary,
                    "description": entry.description,
                    "categories": entry.categories,
                })
            ));
        }
        return Ok(());
    }
    print(&write(&Calendar {
        made_by: "-//Hodful//Hodful; cross-check//EN".into(),
        written: "2026-03-02T08:00:00Z".parse()?,
        entries,
    }));
    Ok(())
}

fn shown(time: DateTime) -> String {
    time.to_string()
}

fn entries() -> Vec<Entry> {
    let long = "Second coat on the wall by the stair, ".repeat(6);
    let umlauts = "äöüßÄÖÜ—“Wände” ".repeat(20);
    let texts = [
        "First coat",
        "Sand, clay; straw",
        "one\ntwo\n\nfour",
        "a \"quoted\" word: yes, and an 'other'",
        "back\\slash, \\n is no line end, \\, neither",
        "ends in a backslash \\",
        " begins and ends with a blank ",
        "=1+1",
        "🧱 übermäßig — lime 3 : 1",
        "",
        long.trim_end(),
        umlauts.trim_end(),
        &"x".repeat(200),
        &"ü".repeat(200),
        &",".repeat(200),
        "tab\there",
        "BEGIN:VEVENT\nEND:VCALENDAR",
    ];
    let mut entries = Vec::new();
    for (at, text) in texts.iter().enumerate() {
        let other = texts.iter().rev().nth(at).copied().unwrap_or_default();
        let day = date(2028, 2, 20)
            .saturating_add(jiff::Span::new().days(i64::try_from(at).unwrap_or(0)));
        let when = if at % 2 == 0 {
            let last = if at % 4 == 0 { day } else { date(2028, 3, 31) };
            When::Days { first: day, last }
        } else {
            When::Times {
                starts: day.at(7, 30, 0, 0),
                ends: day.at(16, 0, 30, 0),
            }
        };
        entries.push(Entry {
            uid: format!("entry-{at}"),
            when,
            summary: (*text).to_owned(),
            description: other.to_owned(),
            categories: [text, other]
                .iter()
                .filter(|word| !word.is_empty())
                .take(at % 3)
                .map(|word| (*word).to_owned())
                .collect(),
        });
    }
    entries
}

#[allow(clippy::print_stdout, reason = "what the example is for")]
fn print(text: &str) {
    print!("{text}");
}
