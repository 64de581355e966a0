//! What constructors refuse, and that they refuse all of it at once.

use core::f64::consts::PI;

use super::build::*;
use hodful_geometry::*;

fn fields(faults: &[Fault]) -> Vec<&'static str> {
    faults.iter().map(|f| f.field).collect()
}

#[test]
fn every_fault_of_a_shape_is_given() {
    let faults = Outline::new(OutlineShape::Gable {
        length: -1.0,
        eaves: f64::NAN,
        ridge: 0.0,
        ridge_from_left: f64::INFINITY,
    })
    .unwrap_err();
    let said: Vec<String> = faults.iter().map(Fault::to_string).collect();
    assert_eq!(
        said,
        [
            "length is negative",
            "eaves is not a number",
            "ridge is zero",
            "ridge_from_left is not finite"
        ]
    );
    let faults = Opening::new(OpeningSpec {
        count: 0,
        from_left: -5.0,
        ..spec(square(0.0, 2e7), 0.0, f64::NAN)
    })
    .unwrap_err();
    assert_eq!(
        fields(&faults),
        ["width", "height", "from_left", "sill", "count"]
    );
}

#[test]
fn ridges_ends_and_turns_have_bounds() {
    let gable = |ridge, ridge_from_left| {
        Outline::new(OutlineShape::Gable {
            length: 6000.0,
            eaves: 2000.0,
            ridge,
            ridge_from_left,
        })
    };
    assert_eq!(fields(&gable(1500.0, 3000.0).unwrap_err()), ["ridge"]);
    assert_eq!(
        fields(&gable(3000.0, 6001.0).unwrap_err()),
        ["ridge_from_left"]
    );
    // A ridge over an end of the wall is a slope from end to end.
    for at in [0.0, 6000.0] {
        let face = plain(&gable(3000.0, at).unwrap());
        assert!(close(face.area(), 6000.0 * 2500.0, 1e-12));
    }
    let curved = |extent| {
        Outline::new(OutlineShape::Curved {
            radius: 1000.0,
            extent,
            height: 2000.0,
        })
    };
    assert!(curved(Extent::Sweep(2.0 * PI)).is_ok());
    assert_eq!(fields(&curved(Extent::Sweep(6.3)).unwrap_err()), ["sweep"]);
    assert_eq!(fields(&curved(Extent::Sweep(0.0)).unwrap_err()), ["sweep"]);
    assert_eq!(
        fields(&curved(Extent::Length(6300.0)).unwrap_err()),
        ["length"]
    );
    let tower = curved(Extent::Sweep(PI)).unwrap();
    let thick = tower.face(Side::Inside, 1000.0, &Inset::default());
    assert_eq!(fields(&thick.unwrap_err()), ["thickness"]);
    for (turn, wrong) in [(0.0, true), (f64::NAN, true), (3.0, true), (2.9, false)] {
        let end = FaceEnd::new(EndSpec {
            end: End::Left,
            angle: Angle::External { radius: 10.0 },
            turn,
        });
        assert_eq!(end.is_err(), wrong, "{turn}");
    }
}

#[test]
fn polygons_are_checked() {
    let polygon = |corners: &[[f64; 2]]| {
        Outline::new(OutlineShape::Polygon {
            corners: corners.to_vec(),
        })
    };
    let square = [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]];
    assert!(polygon(&square).is_ok());
    // Clockwise, and closed by its first corner again: the same wall.
    let back = [[0.0, 0.0], [0.0, 4.0], [4.0, 4.0], [4.0, 0.0], [0.0, 0.0]];
    assert!(close(plain(&polygon(&back).unwrap()).area(), 16.0, 1e-12));
    for wrong in [
        &[[0.0, 0.0], [4.0, 4.0]][..],
        // Crosses itself.
        &[[0.0, 0.0], [4.0, 4.0], [4.0, 0.0], [0.0, 4.0]],
        // Runs back over a side.
        &[[0.0, 0.0], [4.0, 0.0], [2.0, 0.0], [2.0, 4.0]],
        // Touches itself at a corner.
        &[
            [0.0, 0.0],
            [2.0, 2.0],
            [4.0, 0.0],
            [4.0, 4.0],
            [2.0, 2.0],
            [0.0, 4.0],
        ],
        // Encloses nothing.
        &[[0.0, 0.0], [4.0, 0.0], [8.0, 0.0]],
        &[[0.0, 0.0], [f64::NAN, 0.0], [8.0, 3.0]],
        &[[0.0, 0.0], [-1.0, 0.0], [8.0, 3.0]],
        &[[0.0, 0.0], [1e300, 0.0], [8.0, 3.0]],
    ] {
        assert_eq!(
            fields(&polygon(wrong).unwrap_err()),
            ["corners"],
            "{wrong:?}"
        );
    }
    assert_eq!(
        polygon(&[[0.0, 0.0], [4.0, 4.0], [4.0, 0.0], [0.0, 4.0]]).unwrap_err()[0].to_string(),
        "corners make an outline that crosses itself: side 1 meets side 3"
    );
    let needle = OpeningShape::Polygon {
        corners: vec![[0.0, 0.0], [1000.0, 0.0], [1000.0, 10.0]],
    };
    assert_eq!(
        fields(&Opening::new(spec(needle, 0.0, 0.0)).unwrap_err()),
        ["corners"]
    );
}

#[test]
fn insets_that_leave_nothing_are_refused() {
    let wall = rectangle(6000.0, 2700.0);
    let face = |left, top| {
        wall.face(
            Side::Outside,
            THICKNESS,
            &Inset {
                left,
                right: 3000.0,
                top,
                bottom: 100.0,
            },
        )
    };
    assert!(face(2000.0, 0.0).is_ok());
    assert_eq!(fields(&face(3000.0, 0.0).unwrap_err()), ["inset"]);
    assert_eq!(fields(&face(0.0, 2600.0).unwrap_err()), ["inset"]);
    assert_eq!(
        fields(&face(-1.0, f64::NAN).unwrap_err()),
        ["inset.left", "inset.top"]
    );
    let polygon = Outline::new(OutlineShape::Polygon {
        corners: vec![[0.0, 0.0], [4000.0, 0.0], [2000.0, 3000.0]],
    })
    .unwrap();
    let gone = Inset {
        top: 3000.0,
        ..Inset::default()
    };
    assert_eq!(
        fields(&polygon.face(Side::Outside, THICKNESS, &gone).unwrap_err()),
        ["inset"]
    );
}

#[test]
fn splays_are_checked_alone_and_against_the_opening() {
    let reveal = |jambs: f64, head: f64| {
        Reveal::new(RevealSpec {
            splay: Splay {
                jambs,
                head,
                ..Splay::default()
            },
            ..RevealSpec::default()
        })
    };
    assert_eq!(
        fields(&reveal(80.0_f64.to_radians(), -0.1).unwrap_err()),
        ["splay.jambs", "splay.head"]
    );
    let arched = |springing, rise| {
        let shape = OpeningShape::Arched {
            width: 900.0,
            springing,
            head: ArchHead::Segmental { rise },
        };
        opening(shape, 1000.0, 0.0)
    };
    let said = |opening: &Opening, reveal: &Reveal| {
        let faults = opening.accepts(reveal, Side::Outside, THICKNESS);
        faults.iter().map(Fault::to_string).collect::<Vec<_>>()
    };
    // A half circle needs at least the splay of its jambs at the head.
    assert!(said(&arched(2000.0, 450.0), &reveal(0.2, 0.2).unwrap()).is_empty());
    assert_eq!(
        said(&arched(2000.0, 450.0), &reveal(0.2, 0.1).unwrap()),
        ["splay is wrong: the head needs at least the splay of the jambs"]
    );
    // A flat arch has room for wider jambs, until they reach under the sill.
    assert!(said(&arched(2000.0, 100.0), &reveal(0.2, 0.1).unwrap()).is_empty());
    assert_eq!(
        said(&arched(0.0, 100.0), &reveal(0.6, 0.0).unwrap()),
        ["splay of the jambs takes the springing of the arch under the sill"]
    );
    let round = opening(OpeningShape::Circle { diameter: 500.0 }, 0.0, 0.0);
    let faults = round.accepts(&upright(Splay::default(), 0.0), Side::Outside, THICKNESS);
    assert_eq!(fields(&faults), ["plastered"]);
    // A notch of 20 mm closes when both its sides move out by more than 10.
    let notched = OpeningShape::Polygon {
        corners: vec![
            [0.0, 0.0],
            [1000.0, 0.0],
            [1000.0, 1000.0],
            [510.0, 1000.0],
            [510.0, 500.0],
            [490.0, 500.0],
            [490.0, 1000.0],
            [0.0, 1000.0],
        ],
    };
    let notched = opening(notched, 0.0, 0.0);
    assert!(
        notched
            .accepts(&ring(0.05, 0.0), Side::Outside, THICKNESS)
            .is_empty()
    );
    let faults = notched.accepts(&ring(0.3, 0.0), Side::Outside, THICKNESS);
    assert_eq!(fields(&faults), ["splay"]);
    assert_eq!(fields(&notched.fits(150.0)), ["frame"]);
    assert!(notched.fits(200.0).is_empty());
    assert_eq!(fields(&notched.fits(f64::NAN)), ["frame"]);
}

/// Measuring with a thickness the face was not made for, or none at all, still gives numbers.
#[test]
fn a_wrong_thickness_gives_numbers() {
    let tower = Outline::new(OutlineShape::Curved {
        radius: 3000.0,
        extent: Extent::Sweep(2.0),
        height: 2500.0,
    })
    .unwrap();
    let face = tower.face(Side::Inside, 450.0, &Inset::default()).unwrap();
    let window = [opening(square(600.0, 600.0), 1000.0, 900.0)];
    for thickness in [f64::NAN, f64::INFINITY, -1e300, -2550.0, 0.0] {
        let reveals = [upright(Splay::default(), 0.0)];
        let m = measure_face(
            &face,
            Side::Inside,
            thickness,
            &window,
            &reveals,
            &[],
            &mut Silent,
        );
        assert!(
            figures(&m).iter().all(|(_, value)| value.is_finite()),
            "{thickness}"
        );
    }
}
