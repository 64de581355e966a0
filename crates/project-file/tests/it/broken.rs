//! Files that are whole JSON and say something wrong: every problem, with its place, in words.
//!
//! Each row replaces one piece of the small project and has everything that is told.

use crate::{small_with, told};

#[track_caller]
fn check(old: &str, new: &str, expected: &[&str]) {
    assert_eq!(told(&small_with(old, new)), expected, "{old} -> {new}");
}

#[test]
fn the_small_project_is_whole() {
    assert_eq!(told(crate::SMALL), [""; 0]);
}

#[test]
fn misread_values() {
    let rows = [
        (
            r#""sill": "2' 8\"""#,
            r#""sill": "27oo""#,
            "wall S, opening W1, sill: '27oo' ",
        ),
        (
            r#""bulking": "25 %""#,
            r#""bulking": "25 kg""#,
            "material sand, bulking: '25 kg' ",
        ),
        (
            r#""price": "4.50""#,
            r#""price": "cheap""#,
            "material sand, package bag, price: 'cheap' ",
        ),
        (
            r#""sand": 7"#,
            r#""sand": "seven""#,
            "mix base, part sand: 'seven' ",
        ),
        (
            r#""loss": "10 %""#,
            r#""loss": """#,
            "build-up all, coat scratch, loss: '' ",
        ),
        (
            r#""bottom": "8 in""#,
            r#""bottom": "8 im""#,
            "wall S, outside, inset, bottom: '8 im' ",
        ),
        (
            r#""jambs": "20 deg""#,
            r#""jambs": "20 kg""#,
            "wall S, opening W1, inside, splay, jambs: '20 kg' ",
        ),
        (
            r#""turn": "90 deg""#,
            r#""turn": "9O""#,
            "wall S, corner number 1, turn: '9O' ",
        ),
        (
            r#""2.5 m""#,
            r#""2.5 x""#,
            "wall P, shape, corner number 3, up: '2.5 x' ",
        ),
        (
            r#""depth": "3 in""#,
            r#""depth": "3""#,
            "wall S, pocket number 1, depth: '3' ",
        ),
        (
            r#""working_volume": "3 ft3""#,
            r#""working_volume": "3 ft2""#,
            "mixer, working_volume: '3 ft2' ",
        ),
    ];
    for (old, new, expected) in rows {
        // What is said behind the value is the reader's of that value, and is tested there.
        let told = told(&small_with(old, new));
        assert!(
            matches!(&told[..], [one] if one.starts_with(expected)),
            "{told:?} for {expected}"
        );
    }
}

#[test]
fn values_of_the_wrong_kind() {
    let rows = [
        (
            r#""thickness": "18 in""#,
            r#""thickness": 18"#,
            r#"wall S, thickness: is a number; write it as text with its unit, like "27 in""#,
        ),
        (
            r#""thickness": "18 in""#,
            r#""thickness": -18.5"#,
            r#"wall S, thickness: is a number; write it as text with its unit, like "27 in""#,
        ),
        (
            r#""thickness": "18 in""#,
            r#""thickness": null"#,
            r#"wall S, thickness: is null; write it as text with its unit, like "27 in""#,
        ),
        (
            r#""thickness": "18 in""#,
            r#""thickness": { "outside": ["18 in"] }"#,
            r#"wall S, thickness: is a group in braces; write it as text with its unit, like "27 in""#,
        ),
        (
            r#""price": "4.50""#,
            r#""price": 4.50"#,
            r#"material sand, package bag, price: is a number; write it as text, like "240""#,
        ),
        (
            r#""bulking": "25 %""#,
            r#""bulking": 0.25"#,
            r#"material sand, bulking: is a number; write it as text with its unit, like "22 %""#,
        ),
        (
            r#""sand": 7"#,
            r#""sand": [7]"#,
            "mix base, part sand: is a list; write a number: 7, 2.5 or 1 1/2",
        ),
        (
            r#""sand": 7"#,
            r#""sand": true"#,
            "mix base, part sand: is true or false; write a number: 7, 2.5 or 1 1/2",
        ),
        (
            r#""name": "Shed""#,
            r#""name": 12"#,
            "name: is a number; write it as text in double quotes",
        ),
        (
            r#""count": 2"#,
            r#""count": "2""#,
            "wall S, count: is text; write a whole number without quotes, like 3",
        ),
        (
            r#""count": 2"#,
            r#""count": 2.5"#,
            "wall S, count: 2.5 is not a whole number; write a whole number without quotes, like 3",
        ),
        (
            r#""count": 2"#,
            r#""count": -1"#,
            "wall S, count: -1 is not a whole number; write a whole number without quotes, like 3",
        ),
        (
            r#""count": 2"#,
            r#""count": 4294967296"#,
            "wall S, count: 4294967296 is too many; 4294967295 at most",
        ),
    ];
    for (old, new, expected) in rows {
        check(old, new, &[expected]);
    }
}

#[test]
fn groups_and_lists_of_the_wrong_kind() {
    let rows = [
        (
            r#"{ "from_outside": "3 in", "depth": "4 in" }"#,
            r#""3 in""#,
            "wall S, opening W1, frame: is text; write a frame in braces, with from_outside and depth",
        ),
        (
            r#"{ "kind": "rectangle", "length": "36'", "height": "9'" }"#,
            r#""rectangle""#,
            "wall S, shape: is text; write a shape of wall in braces, beginning with its kind: 'rectangle', 'gable', 'raked', 'polygon' or 'curved'",
        ),
        (
            r#"["jambs"]"#,
            r#""jambs""#,
            "wall S, opening W1, inside, plastered: is text; write a list in square brackets",
        ),
        (
            r#"{ "sand": 7 }"#,
            "7",
            "mix base, parts: is a number; write them in braces, each with its name in front",
        ),
        (
            r#"["3 m", "0"]"#,
            r#"["3 m"]"#,
            r#"wall P, shape, corner number 2: has 1 value; write two lengths in square brackets, from the left and up, like ["2 m", "0"]"#,
        ),
        (
            r#"["3 m", "0"]"#,
            r#"["3 m", "0", 5]"#,
            r#"wall P, shape, corner number 2: has 3 values; write two lengths in square brackets, from the left and up, like ["2 m", "0"]"#,
        ),
        (
            r#"["3 m", "0"]"#,
            r#""3 m""#,
            r#"wall P, shape, corner number 2: is text; write two lengths in square brackets, from the left and up, like ["2 m", "0"]"#,
        ),
    ];
    for (old, new, expected) in rows {
        check(old, new, &[expected]);
    }
}

#[test]
fn missing_keys() {
    let rows = [
        (
            r#""sill": "2' 8\"", "#,
            r#"wall S, opening W1, sill: is missing; write it as text with its unit, like "27 in""#,
        ),
        (
            r#""id": "S", "#,
            "wall number 1, id: is missing; write it as text in double quotes",
        ),
        (
            r#""kind": "rectangle", "#,
            "wall S, shape, kind: is missing; write 'rectangle', 'gable', 'raked', 'polygon' or 'curved'",
        ),
        (
            r#", "height": "9'""#,
            r#"wall S, shape, height: is missing; write it as text with its unit, like "27 in""#,
        ),
        (
            r#""build_up": "all", "#,
            "wall S, outside, build_up: is missing; write it as text in double quotes",
        ),
        (
            r#""units": "us","#,
            "units: is missing; write 'us' or 'metric'",
        ),
        (
            r#""name": "Shed", "#,
            "name: is missing; write it as text in double quotes",
        ),
        (
            r#""version": 1, "#,
            "version: is missing; write 1, without quotes",
        ),
        (
            r#""format": "hodful-project", "#,
            r#"format: is missing; write "hodful-project""#,
        ),
        (
            r#""material": "straw", "#,
            "mix base, fibre, material: is missing; write it as text in double quotes",
        ),
    ];
    for (old, expected) in rows {
        // A comma may be left hanging in front of the closing brace.
        let new = if old == r#""units": "us","# {
            r#""note": "","#
        } else {
            ""
        };
        check(old, new, &[expected]);
    }
}

#[test]
fn unknown_keys() {
    let rows = [
        (
            r#""height": "9'""#,
            r#""height": "9'", "hieght": "9'""#,
            "wall S, shape: unknown key 'hieght'; did you mean 'height'?",
        ),
        (
            r#""mixer": {"#,
            r#""mixr": { "a": [1] }, "mixer": {"#,
            "project: unknown key 'mixr'; did you mean 'mixer'?",
        ),
        (
            r#""rain": "exposed""#,
            r#""Inset ": {}"#,
            "wall S, outside: unknown key 'Inset '; did you mean 'inset'?",
        ),
        (
            r#""from_outside": "3 in""#,
            r#""from_outside": "3 in", "colour": "blue""#,
            "wall S, opening W1, frame: unknown key 'colour'; a frame has from_outside and depth",
        ),
        (
            r#""faces": {"#,
            r#""faces": { "outsid": 1, "#,
            "wall S, faces: unknown key 'outsid'; did you mean 'outside'?",
        ),
        (
            r#""height": "9'""#,
            r#""height": "9'", "ridge": "12'""#,
            "wall S, shape, ridge: does not go with kind 'rectangle', which has length and height",
        ),
    ];
    for (old, new, expected) in rows {
        check(old, new, &[expected]);
    }
}

#[test]
fn keys_and_names_that_stand_twice() {
    let rows = [
        (
            r#""thickness": "18 in""#,
            r#""thickness": "18 in", "thickness": 7"#,
            "wall S, thickness: stands here twice; keep one",
        ),
        (
            r#""straw": { "kind""#,
            r#""sand": {}, "straw": { "kind""#,
            "material sand: stands here twice; keep one or rename the other",
        ),
        (
            r#""faces": {"#,
            r#""faces": { "outside": 7, "#,
            "wall S, outside: stands here twice; keep one",
        ),
        (
            r#""kind": "rectangle""#,
            r#""kind": "rectangle", "kind": "gable""#,
            "wall S, shape, kind: stands here twice; keep one",
        ),
    ];
    for (old, new, expected) in rows {
        let told = told(&small_with(old, new));
        assert_eq!(told.last().map(String::as_str), Some(expected), "{told:?}");
    }
}

#[test]
fn unknown_words() {
    let rows = [
        (
            r#""straw bale""#,
            r#""straw bales""#,
            "background bale, kind: 'straw bales' is not a kind of background; did you mean 'straw bale'?",
        ),
        (
            r#""kind": "fibre""#,
            r#""kind": "rope""#,
            "material straw, kind: 'rope' is not a kind of material; write 'sand', 'clay', 'soil', 'premix', 'lime', 'cement', 'fibre', 'binder' or 'water'",
        ),
        (
            r#""kind": "rectangle""#,
            r#""kind": "rectangel""#,
            "wall S, shape, kind: 'rectangel' is not a shape of wall; did you mean 'rectangle'?",
        ),
        (
            r#"["jambs"]"#,
            r#"["jambs", "head", "jamb"]"#,
            "wall S, opening W1, inside, plastered: 'jamb' is not a part of a reveal; did you mean 'jambs'?",
        ),
        (
            r#""units": "us""#,
            r#""units": "feet""#,
            "units: 'feet' is not a system of units; write 'us' or 'metric'",
        ),
        (
            r#""rain": "exposed""#,
            r#""rain": "wet""#,
            "wall S, outside, rain: 'wet' is not an exposure to rain; write 'exposed' or 'sheltered'",
        ),
    ];
    for (old, new, expected) in rows {
        check(old, new, &[expected]);
    }
}

#[test]
fn other_formats_and_versions() {
    let rows = [
        (
            r#""version": 1"#,
            r#""version": 2"#,
            "version: 2 is of a later Hodful; this one reads version 1",
        ),
        (
            r#""version": 1"#,
            r#""version": 0"#,
            "version: 0 is no version of a project; this Hodful reads version 1",
        ),
        (
            r#""version": 1"#,
            r#""version": "1""#,
            "version: is text; write 1, without quotes",
        ),
        (
            r#""version": 1"#,
            r#""version": 1.5"#,
            "version: is a number; write 1, without quotes",
        ),
        (
            r#""format": "hodful-project""#,
            r#""format": "hodful-rule""#,
            r#"format: 'hodful-rule' is not a project; write "hodful-project""#,
        ),
        (
            r#""format": "hodful-project""#,
            r#""format": 7"#,
            r#"format: is a number; write "hodful-project""#,
        ),
    ];
    for (old, new, expected) in rows {
        check(old, new, &[expected]);
    }
    // What is in a file of a later version cannot be judged: nothing else is said of it.
    let later = small_with(r#""version": 1"#, r#""version": 9"#).replace("walls", "roofs");
    assert_eq!(
        told(&later),
        ["version: 9 is of a later Hodful; this one reads version 1"]
    );
    // The head is found wherever it stands.
    let last = r#"{ "name": {}, "walls": [[]], "version": 3, "format": "hodful-project" }"#;
    assert_eq!(
        told(last),
        ["version: 3 is of a later Hodful; this one reads version 1"]
    );
}

#[test]
fn everything_is_told_at_once_in_the_order_of_the_file() {
    let file = r#"{
        "format": "hodful-project", "version": 1, "nmae": "Shed", "units": "metric",
        "walls": [
            { "shape": { "kind": "rectangle", "length": 4, "height": "two" }, "thickness": "0.45 m",
              "openings": [ { "sill": 3, "shape": { "kind": "circle", "width": "1 m" }, "id": "R1" } ], "id": "N" },
            7,
            { "id": "  ", "thickness": false, "shape": { "kind": "square" } }
        ]
    }"#;
    let told = told(file);
    let starts = [
        "project: unknown key 'nmae'; did you mean 'name'?",
        "wall N, shape, length: is a number; ",
        "wall N, shape, height: 'two' ",
        "wall N, opening R1, sill: is a number; ",
        "wall N, opening R1, shape, width: does not go with kind 'circle', which has diameter",
        "wall N, opening R1, shape, diameter: is missing; ",
        "wall N, opening R1, from_left: is missing; ",
        "wall number 2: is a number; write a wall in braces, with id, ",
        "wall number 3, thickness: is true or false; ",
        "wall number 3, shape, kind: 'square' is not a shape of wall; ",
        "name: is missing; ",
    ];
    assert_eq!(told.len(), starts.len(), "{told:#?}");
    for (told, start) in told.iter().zip(starts) {
        assert!(told.starts_with(start), "{told}\nbut wanted\n{start}");
    }
}

#[test]
fn a_flood_of_problems_is_counted() {
    let walls = vec!["0"; 10_007].join(",");
    let file = format!(
        r#"{{"format":"hodful-project","version":1,"name":"","units":"us","walls":[{walls}]}}"#
    );
    let told = told(&file);
    assert_eq!(told.len(), 10_001);
    assert_eq!(
        told.last().unwrap(),
        "project: and 7 more problems, not listed"
    );
}

#[test]
fn what_is_not_an_object_is_no_project() {
    for (file, found) in [
        ("[]", "a list"),
        ("7", "a number"),
        ("\"wall\"", "text"),
        ("null", "null"),
    ] {
        let told = told(file);
        let expected =
            format!("project: is {found}; write a project in braces, with format, version, ");
        assert!(
            matches!(&told[..], [one] if one.starts_with(&expected)),
            "{told:?}"
        );
    }
}

#[test]
fn as_much_is_read_as_can_be() {
    let rows = [
        // What is refused, and what is left of walls, openings, corners and the splay.
        (r#""jambs": "20 deg""#, r#""jambs": 20"#, (2, 1, 3, true)),
        (
            r#""splay": {"#,
            r#""splay": 7, "spaly": {"#,
            (2, 1, 3, false),
        ),
        (
            r#""from_left": "5'""#,
            r#""from_left": "5!""#,
            (2, 0, 3, false),
        ),
        (r#""2.5 m""#, "null", (2, 1, 2, true)),
        (r#""id": "P""#, r#""id": []"#, (1, 1, 0, true)),
        (r#""name": "Shed""#, r#""nmae": 1"#, (2, 1, 3, true)),
        (r#""version": 1, "#, "", (2, 1, 3, true)),
    ];
    for (old, new, expected) in rows {
        let file = small_with(old, new);
        let (project, problems) = hodful_project_file::read_what_can_be(file.as_bytes());
        assert!(!problems.is_empty(), "{new}");
        let project = project.unwrap();
        let openings = || project.walls.iter().flat_map(|wall| &wall.openings);
        let corners = project.walls.iter().find_map(|wall| match &wall.shape {
            hodful_takeoff::project::WallShape::Polygon { corners } => Some(corners.len()),
            _ => None,
        });
        let splay =
            openings().any(|opening| opening.inside.as_ref().is_some_and(|r| r.splay.is_some()));
        let left = (
            project.walls.len(),
            openings().count(),
            corners.unwrap_or_default(),
            splay,
        );
        assert_eq!(left, expected, "{new}");
    }
}
