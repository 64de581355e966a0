//! What a sketch must be at every size: to scale, inside its area, its words whole and apart.

mod sweep;

use super::{Marker, Sketch, Styles, pick};
use hodful_takeoff::drawing::{self, Cut, Drawing, Label, Role, Stand, Stroke};
use hodful_takeoff::form::Subject;
use hodful_takeoff::{Project, Side};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Modifier;
use ratatui::widgets::Widget;

fn demos() -> Vec<Project> {
    hodful_project_file::demo_projects()
        .map(|demo| hodful_project_file::read_what_can_be(demo.bytes).0.unwrap())
        .collect()
}

fn demo(title: &str) -> Project {
    let mut demos = demos().into_iter();
    demos.find(|project| project.name == title).unwrap()
}

fn sketch(drawing: &Drawing, marker: Marker) -> Sketch<'_> {
    Sketch {
        drawing,
        chosen: None,
        refused: &[],
        doubtful: &[],
        styles: &Styles::PLAIN,
        marker,
    }
}

fn painted(sketch: &Sketch<'_>, wide: u16, high: u16) -> Buffer {
    let area = Rect::new(0, 0, wide, high);
    let mut buffer = Buffer::empty(area);
    sketch.render(area, &mut buffer);
    buffer
}

fn screen(buffer: &Buffer) -> Vec<String> {
    let area = buffer.area;
    let row = |y| (0..area.width).map(move |x| buffer[(x, y)].symbol());
    (0..area.height).map(|y| row(y).collect()).collect()
}

fn box_of(wide: f64, high: f64) -> Drawing {
    Drawing {
        strokes: vec![Stroke {
            role: Role::Outline,
            points: vec![[0.0, 0.0], [wide, 0.0], [wide, high], [0.0, high]],
            closed: true,
            of: None,
        }],
        bounds: Some([0.0, 0.0, wide, high]),
        ..Drawing::default()
    }
}

/// Dots on the screen, counted from the top left. Braille patterns number their dots 1 2 3 7 down the
/// left and 4 5 6 8 down the right, dot n being bit n - 1 after U+2800 (The Unicode Standard, block
/// "Braille Patterns").
fn dots(buffer: &Buffer, marker: Marker) -> Vec<[i32; 2]> {
    let mut dots = Vec::new();
    for (y, line) in screen(buffer).iter().enumerate() {
        for (x, sign) in line.chars().enumerate() {
            let (x, y) = (i32::try_from(x).unwrap(), i32::try_from(y).unwrap());
            match marker {
                Marker::Braille => {
                    let bits = u32::from(sign).saturating_sub(0x2800);
                    let places = [
                        [0, 0],
                        [0, 1],
                        [0, 2],
                        [1, 0],
                        [1, 1],
                        [1, 2],
                        [0, 3],
                        [1, 3],
                    ];
                    for (bit, [i, j]) in places.into_iter().enumerate() {
                        if bits >> bit & 1 == 1 {
                            dots.push([2 * x + i, 4 * y + j]);
                        }
                    }
                }
                Marker::HalfBlock => {
                    if "▀█".contains(sign) {
                        dots.push([x, 2 * y]);
                    }
                    if "▄█".contains(sign) {
                        dots.push([x, 2 * y + 1]);
                    }
                }
                Marker::Ascii => {
                    if sign != ' ' {
                        dots.push([x, y]);
                    }
                }
            }
        }
    }
    dots
}

fn extent(dots: &[[i32; 2]]) -> [i32; 2] {
    [0, 1].map(|axis| {
        let along = || dots.iter().map(|dot| dot[axis]);
        along().max().unwrap() - along().min().unwrap()
    })
}

/// Two to one in millimetres is two to one on the screen, within a dot; a dot of letters is twice as
/// high as it is wide.
#[test]
fn a_wall_keeps_its_proportions() {
    let drawing = box_of(4000.0, 2000.0);
    for marker in [Marker::Braille, Marker::HalfBlock, Marker::Ascii] {
        let high = if marker == Marker::Ascii { 2.0 } else { 1.0 };
        for (wide, tall) in [(60, 25), (10, 25), (60, 4), (33, 17), (120, 50), (7, 3)] {
            let buffer = painted(&sketch(&drawing, marker), wide, tall);
            let [w, h] = extent(&dots(&buffer, marker)).map(f64::from);
            assert!(
                (w / 2.0 - h * high).abs() <= high,
                "{marker:?} {wide}x{tall}: {w} {h}"
            );
        }
    }
}

/// It fills the area one way or the other.
#[test]
fn a_wall_is_as_large_as_may_be() {
    for (drawing, wide, tall, axis, dots_wanted) in [
        (box_of(8000.0, 1000.0), 40, 20, 0, 79),
        (box_of(1000.0, 8000.0), 40, 20, 1, 79),
    ] {
        let buffer = painted(&sketch(&drawing, Marker::Braille), wide, tall);
        let extent = extent(&dots(&buffer, Marker::Braille));
        assert_eq!(extent[axis], dots_wanted);
        let [w, h] = extent.map(f64::from);
        assert!((w.max(h) / w.min(h) - 8.0).abs() < 0.5, "{w} {h}");
    }
}

/// The column in which a text begins.
fn column(lines: &[String], text: &str) -> Option<usize> {
    lines
        .iter()
        .find_map(|line| Some(line.split_once(text)?.0.chars().count()))
}

/// The door of the workshop stands near the right end of the south wall, and seen from inside near the
/// left.
#[test]
fn the_inside_is_a_mirror_image() {
    let project = demo("Thistlebank workshop");
    let outside = drawing::face(&project, 0, Side::Outside);
    let inside = drawing::face(&project, 0, Side::Inside);
    let of = |drawing| screen(&painted(&sketch(drawing, Marker::Braille), 60, 20));
    let (out, inn) = (of(&outside), of(&inside));
    assert!(column(&out, "D1").unwrap() > 40, "{out:#?}");
    assert!(column(&inn, "D1").unwrap() < 20, "{inn:#?}");
    assert!(column(&inn, "seen from inside").is_some());
    assert!(column(&out, "seen from inside").is_none());
}

/// The figures of an opening come and go with its being chosen; its name is set off by more than colour.
#[test]
fn what_is_chosen_is_measured() {
    let project = demo("Thistlebank workshop");
    let drawing = drawing::face(&project, 0, Side::Outside);
    let plain = sketch(&drawing, Marker::Braille);
    let chosen = Sketch {
        chosen: Some(Subject::Opening {
            wall: 0,
            opening: 0,
        }),
        ..plain
    };
    let without = screen(&painted(&plain, 80, 25)).concat();
    assert!(without.contains("40'") && without.contains("9'") && !without.contains("2' 8\""));
    let buffer = painted(&chosen, 80, 25);
    let lines = screen(&buffer);
    let with = lines.concat();
    // As typed: 3' by 4', 4' from the left, sill at 2' 8".
    for figure in ["3'", "4'", "2' 8\"", "40'", "9'"] {
        assert!(with.contains(figure), "{figure}: {lines:#?}");
    }
    let y = lines.iter().position(|line| line.contains("W1")).unwrap();
    let x = column(&lines, "W1").unwrap();
    let cell = &buffer[(u16::try_from(x).unwrap(), u16::try_from(y).unwrap())];
    assert!(cell.modifier.contains(Modifier::REVERSED | Modifier::BOLD));
}

/// Every scene of a project: both faces of every wall, its sections, the build-ups.
fn scenes(project: &Project) -> Vec<(Drawing, Option<Subject>)> {
    let mut scenes = Vec::new();
    for (wall, there) in project.walls.iter().enumerate() {
        let opening = (!there.openings.is_empty()).then_some(0);
        let of = opening.map(|opening| Subject::Opening { wall, opening });
        for side in [Side::Outside, Side::Inside] {
            scenes.push((drawing::face(project, wall, side), of));
        }
        for cut in [Cut::Level, Cut::Upright] {
            scenes.push((drawing::section(project, wall, opening, cut), of));
        }
    }
    for build_up in 0..project.build_ups.len() {
        let of = Subject::Coat { build_up, coat: 0 };
        scenes.push((drawing::build_up(project, build_up), Some(of)));
    }
    let soils = project.materials.values().enumerate();
    for (soil, _) in soils.filter(|(_, material)| material.soil.is_some()) {
        let of = Subject::Material(soil);
        scenes.push((drawing::triangle(project, Some(soil)), Some(of)));
    }
    scenes
}

/// In the signs of every terminal there is nothing else.
#[test]
fn letters_are_letters() {
    for project in demos() {
        for (drawing, chosen) in scenes(&project) {
            let sketch = Sketch {
                chosen,
                ..sketch(&drawing, Marker::Ascii)
            };
            for (wide, high) in [(60, 25), (30, 12)] {
                let all = screen(&painted(&sketch, wide, high)).concat();
                assert!(all.is_ascii(), "{all}");
            }
        }
    }
}

/// Pointing at the name of an opening finds it; pointing at bare wall finds the wall.
#[test]
fn the_mouse_finds_what_it_points_at() {
    let area = Rect::new(4, 3, 110, 40);
    let mut found = 0;
    for project in demos() {
        for wall in 0..project.walls.len() {
            for side in [Side::Outside, Side::Inside] {
                let drawing = drawing::face(&project, wall, side);
                let sketch = sketch(&drawing, Marker::Braille);
                let (fit, ..) = sketch.composed(area).unwrap();
                for label in drawing.labels.iter().filter(|label| !label.only_marked) {
                    let [x, y] = fit.cell(label.at).map(|n| u16::try_from(n).unwrap());
                    let place = sketch.at(area, x, y).unwrap();
                    assert_eq!(pick(&drawing, place, 50.0), label.of, "{}", label.text);
                    found += 1;
                }
                let outline = drawing.strokes.iter().find(|s| s.role == Role::Outline);
                let corner = outline.unwrap().points[0];
                let beside = pick(&drawing, [corner[0] - 3.0, corner[1] - 3.0], 10.0);
                assert_eq!(beside, Some(Subject::Wall(wall)), "{wall} {side:?}");
                let far = [corner[0] - 1e6, corner[1]];
                assert_eq!(pick(&drawing, far, 10.0), None);
                assert_eq!(sketch.at(area, 3, 3), None);
            }
        }
    }
    assert!(found > 100, "{found}");
}

/// A cell's place is found in that cell again.
#[test]
fn cells_and_places_go_both_ways() {
    let drawing = box_of(5000.0, 2700.0);
    for marker in [Marker::Braille, Marker::HalfBlock, Marker::Ascii] {
        for (wide, high) in [(60, 25), (11, 30), (5, 2)] {
            let area = Rect::new(2, 1, wide, high);
            let sketch = sketch(&drawing, marker);
            let (fit, ..) = sketch.composed(area).unwrap();
            for y in area.y..area.bottom() {
                for x in area.x..area.right() {
                    let place = sketch.at(area, x, y).unwrap();
                    assert_eq!(fit.cell(place), [i32::from(x), i32::from(y)]);
                }
            }
        }
    }
}

/// Drawings that no project makes must not end the program either.
#[test]
fn odd_drawings_do_no_harm() {
    let odd = [
        0.0,
        -1.0,
        1e-300,
        1e300,
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
    ];
    for a in odd {
        for b in odd {
            let mut drawing = box_of(a, b);
            drawing.labels.push(Label {
                at: [b, a],
                text: "W1".into(),
                stand: Stand::In([a, b, b, a]),
                weight: 70,
                of: Some(Subject::Wall(0)),
                names: true,
                only_marked: false,
            });
            for edge in [drawing::Edge::Below, drawing::Edge::Right] {
                drawing.dimensions.push(drawing::DimensionLine {
                    name: "length",
                    from: [a, b],
                    to: [b, a],
                    edge,
                    row: 0,
                    text: "1 m".into(),
                    weight: 9,
                    of: None,
                    only_chosen: false,
                });
            }
            for bounds in [
                drawing.bounds,
                Some([a, a, b, b]),
                Some([0.0, 0.0, 9.0, 9.0]),
            ] {
                drawing.bounds = bounds;
                for (wide, high) in [(0, 0), (1, 1), (20, 8)] {
                    let sketch = Sketch {
                        refused: &[Subject::Wall(0)],
                        ..sketch(&drawing, Marker::Braille)
                    };
                    painted(&sketch, wide, high);
                }
                let _ = pick(&drawing, [a, b], b);
            }
        }
    }
}

/// A name that belongs to an area stands in it on one row with its place, or nowhere; that of a mark
/// stands beside it, over lines if it must.
#[test]
fn names_stand_where_they_belong() {
    let name = |stand, at| Label {
        at,
        text: "clay".into(),
        stand,
        weight: 30,
        of: None,
        names: false,
        only_marked: false,
    };
    // Two areas, left and right of an upright line.
    let drawing = |label| Drawing {
        strokes: vec![Stroke {
            role: Role::Outline,
            points: vec![[50.0, 0.0], [50.0, 100.0]],
            closed: false,
            of: None,
        }],
        labels: vec![label],
        ..box_of(200.0, 100.0)
    };
    let found = |label: Label| {
        let drawing = drawing(label);
        let lines = screen(&painted(&sketch(&drawing, Marker::Braille), 40, 10));
        let rows = lines.iter().enumerate();
        let mut found = rows.filter_map(|(row, line)| {
            let (before, _) = line.split_once("clay")?;
            Some((before.chars().count(), row))
        });
        found.next()
    };
    // The line stands in column 10 of 40, the middle row is 5.
    let (column, row) = found(name(Stand::Here, [60.0, 47.0])).unwrap();
    assert!(column > 10 && column < 14 && row == 5, "{column} {row}");
    let (column, _) = found(name(Stand::Here, [25.0, 47.0])).unwrap();
    assert!(column + 4 <= 10, "{column}");
    // On the line itself there is no room for it.
    assert_eq!(found(name(Stand::Here, [50.0, 47.0])), None);
    let (column, row) = found(name(Stand::Next, [100.0, 47.0])).unwrap();
    assert!((20..=23).contains(&column) && row == 5, "{column} {row}");
    // At the right end it stands left of its place.
    let (column, _) = found(name(Stand::Next, [190.0, 47.0])).unwrap();
    assert!(column + 4 < 38, "{column}");
}

/// A drawing of nothing says why.
#[test]
fn nothing_says_why() {
    let drawing = Drawing {
        captions: vec!["no coat has a thickness".into()],
        ..Drawing::default()
    };
    let sketch = sketch(&drawing, Marker::Braille);
    assert!(
        screen(&painted(&sketch, 30, 5))
            .concat()
            .contains("no coat has a thickness")
    );
    assert!(screen(&painted(&sketch, 10, 5)).concat().trim().is_empty());
    assert_eq!(sketch.at(Rect::new(0, 0, 30, 5), 3, 3), None);
}
