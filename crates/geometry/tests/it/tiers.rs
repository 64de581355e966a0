//! The three ways to an area held against one another, and the measure against all of them.

use super::build::*;
use hodful_geometry::*;
use proptest::prelude::*;

fn by(tier: Tier, face: &FaceOutline, openings: &[Opening], reveals: &[Reveal]) -> Option<f64> {
    net_area_with(tier, face, Side::Outside, THICKNESS, openings, reveals)
}

fn boxes() -> impl Strategy<Value = Vec<Opening>> {
    let one = (
        0.0..9000.0_f64,
        0.0..3500.0_f64,
        50.0..3000.0_f64,
        50.0..3000.0_f64,
    );
    prop::collection::vec(one, 1..7).prop_map(|list| {
        list.into_iter()
            .map(|(u, v, w, h)| opening(square(w, h), u, v))
            .collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn closed_forms_agree_with_polygons(
        shape in outline_shape(),
        openings in in_cells(),
        reveals in two_reveals(),
    ) {
        let face = plain(&Outline::new(shape).unwrap());
        let polygons = by(Tier::Polygons, &face, &openings, &reveals).unwrap();
        if let Some(closed) = by(Tier::Closed, &face, &openings, &reveals) {
            prop_assert!((closed - polygons).abs() <= 1e-7 * face.area(), "{closed} {polygons}");
        }
    }

    #[test]
    fn whole_openings_have_a_closed_form(openings in in_cells(), reveals in two_reveals()) {
        let face = plain(&rectangle(5000.0, 2500.0));
        let closed = by(Tier::Closed, &face, &openings, &reveals).unwrap();
        let polygons = by(Tier::Polygons, &face, &openings, &reveals).unwrap();
        prop_assert!((closed - polygons).abs() <= 5e-8 * face.area(), "{closed} {polygons}");
        let m = measure(&face, &openings, &reveals);
        prop_assert!(close(m.outline - m.openings, closed, 1e-12));
    }

    #[test]
    fn slabs_agree_with_polygons(shape in outline_shape(), openings in boxes(), jambs in 0.0..0.5_f64) {
        let face = plain(&Outline::new(shape).unwrap());
        let reveals = [upright(Splay { jambs, ..Splay::default() }, 0.0)];
        let polygons = by(Tier::Polygons, &face, &openings, &reveals).unwrap();
        let m = measure(&face, &openings, &reveals);
        prop_assert!((m.outline - m.openings - polygons).abs() <= 1e-7 * face.area());
        if let Some(slabs) = by(Tier::Slabs, &face, &openings, &reveals) {
            prop_assert!((slabs - polygons).abs() <= 1e-7 * face.area(), "{slabs} {polygons}");
            prop_assert!(close(m.outline - m.openings, slabs, 1e-9));
            if let Some(closed) = by(Tier::Closed, &face, &openings, &reveals) {
                prop_assert!(close(closed, slabs, 1e-12), "{closed} {slabs}");
            }
        }
    }

    #[test]
    fn cut_arcs_agree_with_polygons(
        shape in outline_shape(),
        openings in prop::collection::vec(scattered(), 1..4),
        reveals in two_reveals(),
    ) {
        let face = plain(&Outline::new(shape).unwrap());
        let polygons = by(Tier::Polygons, &face, &openings, &reveals).unwrap();
        let m = measure(&face, &openings, &reveals);
        prop_assert!(
            (m.outline - m.openings - polygons).abs() <= 1e-6 * face.area(),
            "{} {polygons}", m.outline - m.openings
        );
    }
}

/// Two openings of 1.2 by 1.2 m that overlap by half on a wall of 6 by 2.7 m leave 14.04 m²: 16.2 − 2·1.44 + 0.72.
#[test]
fn an_overlap_counts_once_whatever_the_way() {
    let face = plain(&rectangle(6000.0, 2700.0));
    let openings = [
        opening(square(1200.0, 1200.0), 1000.0, 900.0),
        opening(square(1200.0, 1200.0), 1600.0, 900.0),
    ];
    let bare = [Reveal::new(RevealSpec::default()).unwrap()];
    assert_eq!(by(Tier::Closed, &face, &openings, &bare), None);
    let slabs = by(Tier::Slabs, &face, &openings, &bare).unwrap();
    assert!(close(slabs, 14.04e6, 1e-12));
    let polygons = by(Tier::Polygons, &face, &openings, &bare).unwrap();
    assert!(close(polygons, 14.04e6, 1e-8));
    let m = measure(&face, &openings, &bare);
    assert!(close(m.field, 14.04e6, 1e-12));
    assert!(close(m.overlap, 0.72e6, 1e-12));
}

/// A circle of 1 m radius whose centre is on the top of the wall is cut in half: π/2 m².
#[test]
fn half_a_circle_is_right_to_a_millionth() {
    let face = plain(&rectangle(6000.0, 2700.0));
    let round = OpeningShape::Circle { diameter: 2000.0 };
    let m = measure(
        &face,
        &[Opening::new(OpeningSpec {
            reveals: [None, None],
            ..spec(round, 2000.0, 1700.0)
        })
        .unwrap()],
        &[],
    );
    let half = core::f64::consts::FRAC_PI_2 * 1e6;
    assert!((m.openings - half).abs() <= 1e-6 * face.area());
    assert!(close(m.openings, half, 1e-6), "{} {half}", m.openings);
}
