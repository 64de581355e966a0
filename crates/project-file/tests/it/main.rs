//! The project file from outside: what is read, what is refused and in which words, what is written.
//!
//! Not here: saving to disk and the parts of the reader, which are tested beside the code.

#![allow(clippy::unwrap_used, clippy::panic, reason = "test helpers")]

mod any;
mod any_options;
mod any_soil;
mod broken;
mod journal;
mod rules;
mod schema;
mod syntax;
mod whole;

/// The example project of the format: every part of it occurs.
const LARKFIELD: &str = include_str!("../files/larkfield.hodful.json");

/// Every problem of a file, as it is told.
fn told(file: &str) -> Vec<String> {
    match hodful_project_file::read(file.as_bytes()) {
        Ok(_) => Vec::new(),
        Err(problems) => problems.iter().map(ToString::to_string).collect(),
    }
}

/// A small whole project with one piece of text replaced.
#[track_caller]
fn small_with(old: &str, new: &str) -> String {
    assert_eq!(
        SMALL.matches(old).count(),
        1,
        "'{old}' must stand in the project once"
    );
    SMALL.replace(old, new)
}

const SMALL: &str = r#"{
  "format": "hodful-project", "version": 1, "name": "Shed", "units": "us",
  "backgrounds": { "bale": { "kind": "straw bale", "dubbing_out": "3/8 in" } },
  "materials": {
    "sand": { "kind": "sand", "bulking": "25 %", "packages": [ { "name": "bag", "holds": "50 lb", "price": "4.50" } ], "stock": "1 yd3" },
    "straw": { "kind": "fibre" }
  },
  "mixes": {
    "base": {
      "parts": { "sand": 7 }, "fibre": { "material": "straw", "dose": "50 kg/m3", "per": "mixed" },
      "trial_batch": { "loose": "10 gal", "mixed": "8 gal" }
    }
  },
  "build_ups": { "all": [ { "coat": "scratch", "thickness": "1/2 in", "mix": "base", "loss": "10 %" } ] },
  "mixer": { "working_volume": "3 ft3" },
  "walls": [
    {
      "id": "S", "count": 2, "shape": { "kind": "rectangle", "length": "36'", "height": "9'" }, "thickness": "18 in",
      "faces": { "outside": { "background": "bale", "build_up": "all", "inset": { "bottom": "8 in" }, "rain": "exposed" } },
      "ends": [ { "face": "outside", "end": "right", "angle": "external", "turn": "90 deg" } ],
      "openings": [
        {
          "id": "W1", "shape": { "kind": "arched", "width": "3'", "springing": "4'", "head": "semicircular" },
          "from_left": "5'", "sill": "2' 8\"", "frame": { "from_outside": "3 in", "depth": "4 in" },
          "reveals": { "inside": { "plastered": ["jambs"], "splay": { "jambs": "20 deg" }, "radius": "1 in" } }
        }
      ],
      "pockets": [ { "face": "inside", "width": "18 in", "height": "14 in", "depth": "3 in" } ]
    },
    { "id": "P", "shape": { "kind": "polygon", "corners": [["0", "0"], ["3 m", "0"], ["0", "2.5 m"]] }, "thickness": "1 ft" }
  ]
}"#;
