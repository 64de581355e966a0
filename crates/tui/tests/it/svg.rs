//! Screens for the README, drawn from the real front end as SVG. `UPDATE=1` writes them anew. Lines of
//! braille are drawn as dots, so that a picture does not hang on the fonts of whoever looks at it.

use crate::driver::{Driver, demo, start};
use hodful_tui::text::width;
use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier};
use std::fmt::Write;
use std::path::Path;

const WIDE: f64 = 8.4;
const HIGH: f64 = 18.0;
const PAPER: &str = "#fbf7ef";
const INK: &str = "#2b2420";

/// Each picture: its file, its size, the demo, the keys that lead to it.
const PICTURES: [(&str, (u16, u16), &str, &str); 13] = [
    ("walls", (132, 32), "thistlebank-workshop", "down"),
    (
        "entry",
        (132, 32),
        "thistlebank-workshop",
        "n \"window 4' x 3' at 17' sill 2'8\"",
    ),
    ("section", (132, 32), "thistlebank-workshop", "down o o"),
    ("coats", (132, 32), "thistlebank-workshop", "3 m + + + +"),
    (
        "why",
        (132, 32),
        "thistlebank-workshop",
        "3 down w down right",
    ),
    ("soils", (132, 44), "marlpit-barn", "6 down"),
    ("blend", (132, 44), "marlpit-barn", "6 end up"),
    ("order", (132, 44), "marlpit-barn", "7"),
    ("card", (132, 44), "marlpit-barn", "8"),
    ("options", (132, 44), "thistlebank-workshop", "9 down"),
    (
        "curve",
        (132, 40),
        "thistlebank-workshop",
        "3 down k k + + + +",
    ),
    ("chances", (132, 44), "thistlebank-workshop", "0"),
    (
        "days",
        (132, 44),
        "thistlebank-workshop",
        "shift-d down down down down down down",
    ),
];

#[test]
fn pictures_for_the_readme() {
    for (name, (columns, rows), project, script) in PICTURES {
        let mut driver = Driver::new(start(demo(project)));
        driver.screen(columns, rows);
        driver.play(script);
        let made = svg(&driver.cells(columns, rows));
        let path = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../../assets/screens")
            .join(format!("{name}.svg"));
        if std::env::var_os("UPDATE").is_some() {
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(&path, &made).unwrap();
        }
        let kept = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(
            kept == made,
            "assets/screens/{name}.svg is stale; run with UPDATE=1"
        );
    }
}

fn colour(of: Color) -> Option<&'static str> {
    Some(match of {
        Color::Red => "#b3261e",
        Color::Green => "#3f6b2e",
        Color::Yellow => "#96650f",
        Color::Blue => "#2f5d8c",
        Color::Magenta => "#8a3a7d",
        Color::Cyan => "#1f6f78",
        _ => return None,
    })
}

/// Ink, ground, bold, dim, underlined.
fn look(cell: &Cell) -> (&'static str, &'static str, bool, bool, bool) {
    let of = |modifier| cell.modifier.contains(modifier);
    let (ink, ground) = (colour(cell.fg).unwrap_or(INK), PAPER);
    let (ink, ground) = if of(Modifier::REVERSED) {
        (ground, ink)
    } else {
        (ink, ground)
    };
    (
        ink,
        ground,
        of(Modifier::BOLD),
        of(Modifier::DIM),
        of(Modifier::UNDERLINED),
    )
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

/// The dots of a braille letter, each as its column and row.
fn dots(symbol: &str) -> Option<Vec<(f64, f64)>> {
    let letter = symbol
        .chars()
        .next()
        .filter(|c| ('\u{2800}'..='\u{28ff}').contains(c))?;
    let bits = u32::from(letter) - 0x2800;
    // Unicode numbers the dots down the left column, then the right, the lowest two last.
    let places = [
        (0, 0),
        (0, 1),
        (0, 2),
        (1, 0),
        (1, 1),
        (1, 2),
        (0, 3),
        (1, 3),
    ];
    let dot = |(bit, (x, y)): (usize, (u8, u8))| {
        (bits >> bit & 1 == 1).then(|| (f64::from(x), f64::from(y)))
    };
    Some(places.into_iter().enumerate().filter_map(dot).collect())
}

fn svg(buffer: &Buffer) -> String {
    let area = buffer.area;
    let (wide, high) = (
        f64::from(area.width) * WIDE + 20.0,
        f64::from(area.height) * HIGH + 20.0,
    );
    let mut out = String::new();
    writeln!(out, r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:.1} {high:.1}" font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" font-size="14">"#).unwrap();
    writeln!(out, r#"<rect width="{wide:.1}" height="{high:.1}" rx="8" fill="{PAPER}" stroke="{INK}" stroke-opacity=".3"/>"#).unwrap();
    for y in 0..area.height {
        let top = 10.0 + f64::from(y) * HIGH;
        let mut x = 0;
        while x < area.width {
            let cell = &buffer[(x, y)];
            let (ink, ground, bold, dim, underlined) = look(cell);
            let left = 10.0 + f64::from(x) * WIDE;
            if let Some(dots) = dots(cell.symbol()) {
                if ground != PAPER {
                    writeln!(out, r#"<rect x="{left:.1}" y="{top:.1}" width="{WIDE}" height="{HIGH}" fill="{ground}"/>"#).unwrap();
                }
                let mut path = String::new();
                for (column, row) in dots {
                    let (px, py) = (
                        left + column * WIDE / 2.0 + 1.1,
                        top + row * HIGH / 4.0 + 1.25,
                    );
                    write!(path, "M{px:.1} {py:.1}h2v2h-2z").unwrap();
                }
                if !path.is_empty() {
                    let opacity = if dim { r#" fill-opacity=".6""# } else { "" };
                    writeln!(out, r#"<path fill="{ink}"{opacity} d="{path}"/>"#).unwrap();
                }
                x += 1;
                continue;
            }
            let begin = x;
            let mut text = String::new();
            while x < area.width
                && look(&buffer[(x, y)]) == look(cell)
                && dots(buffer[(x, y)].symbol()).is_none()
            {
                let symbol = buffer[(x, y)].symbol();
                text.push_str(symbol);
                x += u16::try_from(width(symbol)).unwrap().max(1);
            }
            let columns = f64::from(x - begin) * WIDE;
            if ground != PAPER {
                writeln!(out, r#"<rect x="{left:.1}" y="{top:.1}" width="{columns:.1}" height="{HIGH}" fill="{ground}"/>"#).unwrap();
            }
            let trimmed = text.trim_end();
            if trimmed.is_empty() {
                continue;
            }
            let weight = if bold { r#" font-weight="bold""# } else { "" };
            let opacity = if dim { r#" fill-opacity=".65""# } else { "" };
            let line = if underlined {
                r#" text-decoration="underline""#
            } else {
                ""
            };
            // Every letter has its own place: then a picture does not hang on the widths of a font.
            let mut at = left;
            let mut places = Vec::new();
            for letter in trimmed.chars() {
                places.push(format!("{at:.1}"));
                at += WIDE * width(letter.encode_utf8(&mut [0; 4])) as f64;
            }
            let places = places.join(" ");
            let base = top + 13.5;
            writeln!(
                out,
                r#"<text x="{places}" y="{base:.1}" fill="{ink}"{weight}{opacity}{line} xml:space="preserve">{}</text>"#,
                escaped(trimmed)
            )
            .unwrap();
        }
    }
    out.push_str("</svg>\n");
    out
}
