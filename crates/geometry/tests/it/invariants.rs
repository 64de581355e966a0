//! What must not change a measure: mirroring, shifting, splitting a wall, writing copies out; and what no measure may do.

use super::build::*;
use hodful_geometry::*;
use proptest::prelude::*;

/// The mirror image of a wall's shape.
fn mirrored(shape: &OutlineShape) -> OutlineShape {
    match shape.clone() {
        OutlineShape::Gable {
            length,
            eaves,
            ridge,
            ridge_from_left,
        } => OutlineShape::Gable {
            length,
            eaves,
            ridge,
            ridge_from_left: length - ridge_from_left,
        },
        OutlineShape::Raked {
            length,
            left,
            right,
        } => OutlineShape::Raked {
            length,
            left: right,
            right: left,
        },
        OutlineShape::Polygon { corners } => {
            let far = corners.iter().map(|c| c[0]).fold(0.0, f64::max);
            OutlineShape::Polygon {
                corners: corners.iter().map(|c| [far - c[0], c[1]]).collect(),
            }
        }
        same => same,
    }
}

fn length_of(shape: &OutlineShape) -> f64 {
    let outline = Outline::new(shape.clone()).unwrap();
    plain(&outline).developed_length()
}

#[derive(Clone, Debug)]
struct Scatter {
    shape: OpeningShape,
    ringed: bool,
    u: f64,
    v: f64,
}

fn scatter() -> impl Strategy<Value = Vec<Scatter>> {
    let one = (
        opening_shape(2500.0, 2500.0),
        0.0..8000.0_f64,
        0.0..3000.0_f64,
    )
        .prop_map(|((shape, ringed), u, v)| Scatter {
            shape,
            ringed,
            u,
            v,
        });
    prop::collection::vec(one, 1..4)
}

fn built(list: &[Scatter], length: f64, mirror: bool) -> Vec<Opening> {
    list.iter()
        .map(|s| {
            let reveal = RevealIndex::new(usize::from(s.ringed));
            let reveals = [reveal, reveal];
            let straight = OpeningSpec {
                reveals,
                ..spec(s.shape.clone(), s.u, s.v)
            };
            let width = Opening::new(straight.clone()).unwrap().frame_size().0;
            // Both walls are filled from the same place, so that neither has an opening left of its end.
            let u = s.u.min((length - width).max(0.0));
            if !mirror {
                return Opening::new(OpeningSpec {
                    from_left: u,
                    ..straight
                })
                .unwrap();
            }
            let shape = match s.shape.clone() {
                OpeningShape::Polygon { corners } => OpeningShape::Polygon {
                    corners: corners.iter().map(|c| [width - c[0], c[1]]).collect(),
                },
                same => same,
            };
            Opening::new(OpeningSpec {
                shape,
                from_left: (length - u - width).max(0.0),
                ..straight
            })
            .unwrap()
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn a_mirrored_wall_measures_the_same(
        shape in outline_shape(),
        list in scatter(),
        reveals in two_reveals(),
        left in 0.0..600.0_f64,
        bottom in 0.0..300.0_f64,
        top in 0.0..50.0_f64,
    ) {
        let length = length_of(&shape);
        prop_assume!(length > 2600.0);
        let inset = Inset { left, right: 0.0, top, bottom };
        let turned = Inset { left: 0.0, right: left, top, bottom };
        let face = Outline::new(shape.clone()).unwrap().face(Side::Outside, THICKNESS, &inset);
        let other = Outline::new(mirrored(&shape)).unwrap().face(Side::Outside, THICKNESS, &turned);
        prop_assert_eq!(face.is_ok(), other.is_ok());
        if let (Ok(face), Ok(other)) = (face, other) {
            let a = measure(&face, &built(&list, length, false), &reveals);
            let b = measure(&other, &built(&list, length, true), &reveals);
            assert_alike(&a, &b, 2e-7);
            prop_assert!(close(face.end_height(End::Left), other.end_height(End::Right), 1e-7));
        }
    }

    #[test]
    fn shifting_along_a_level_wall_changes_nothing(
        specs in cells(),
        reveals in two_reveals(),
        shift in 0.0..4000.0_f64,
    ) {
        // In a wall made longer by the shift, with an inset of the shift, nothing else has moved.
        let built = |shift: f64| -> Vec<Opening> {
            specs
                .iter()
                .map(|s| Opening::new(OpeningSpec { from_left: s.from_left + shift, ..s.clone() }).unwrap())
                .collect()
        };
        let a = measure(&plain(&rectangle(5000.0, 2500.0)), &built(0.0), &reveals);
        let face = rectangle(5000.0 + shift, 2500.0)
            .face(Side::Outside, THICKNESS, &Inset { left: shift, ..Inset::default() })
            .unwrap();
        let b = measure(&face, &built(shift), &reveals);
        assert_alike(&a, &b, 1e-12);
    }

    #[test]
    fn two_parts_of_a_wall_add_up(
        shape in outline_shape(),
        list in scatter(),
        reveals in two_reveals(),
        at in 0.1..0.9_f64,
        offset in 0.0..30.0_f64,
        thick in 1.0..30.0_f64,
    ) {
        let length = length_of(&shape);
        prop_assume!(length > 2600.0);
        let openings = built(&list, length, false);
        let outline = Outline::new(shape).unwrap();
        let part = |left: f64, right: f64| {
            outline
                .face(Side::Outside, THICKNESS, &Inset { left, right, ..Inset::default() })
                .map(|face| measure(&face, &openings, &reveals))
        };
        let whole = part(0.0, 0.0).unwrap();
        if let (Ok(a), Ok(b)) = (part(0.0, length * (1.0 - at)), part(length * at, 0.0)) {
            let sum = sum(&a, &b);
            // Strips may exceed what is left of a face in one part and not in the whole: then they are refused.
            if a.field > 0.0 && b.field > 0.0 && whole.field > 0.0 {
                assert_alike(&whole, &sum, 3e-7);
                let volume = a.layer_volume(offset, thick) + b.layer_volume(offset, thick);
                let exact = whole.layer_volume(offset, thick);
                prop_assert!((volume - exact).abs() <= 1e-6 * whole.outline * thick);
            }
        }
    }

    #[test]
    fn copies_measure_like_openings_written_out(
        (shape, ringed) in opening_shape(2000.0, 2000.0),
        reveals in two_reveals(),
        outline in outline_shape(),
        count in 1..5_u32,
        spacing in 300.0..3000.0_f64,
        u in 0.0..3000.0_f64,
        v in 0.0..2000.0_f64,
    ) {
        let face = plain(&Outline::new(outline).unwrap());
        let reveal = RevealIndex::new(usize::from(ringed));
        let one = OpeningSpec { reveals: [reveal, reveal], ..spec(shape, u, v) };
        let together = [Opening::new(OpeningSpec { count, spacing: Some(spacing), ..one.clone() }).unwrap()];
        let apart: Vec<Opening> = (0..count)
            .map(|i| {
                Opening::new(OpeningSpec { from_left: u + f64::from(i) * spacing, ..one.clone() }).unwrap()
            })
            .collect();
        assert_alike(&measure(&face, &together, &reveals), &measure(&face, &apart, &reveals), 1e-12);
    }

    #[test]
    fn nothing_is_negative_and_nothing_counts_twice(
        shape in outline_shape(),
        openings in prop::collection::vec(scattered(), 0..6),
        reveals in two_reveals(),
        inset in (0.0..800.0_f64, 0.0..800.0_f64, 0.0..400.0_f64, 0.0..400.0_f64),
        inside in prop::bool::ANY,
    ) {
        let inset = Inset { left: inset.0, right: inset.1, top: inset.2, bottom: inset.3 };
        let side = if inside { Side::Inside } else { Side::Outside };
        let outline = Outline::new(shape).unwrap();
        if let Ok(face) = outline.face(side, THICKNESS, &inset) {
            let mut seen = Seen::default();
            let m = measure_face(&face, side, THICKNESS, &openings, &reveals, &[], &mut seen);
            for (name, value) in figures(&m) {
                prop_assert!(value.is_finite() && (value >= 0.0 || name == "growth"), "{} {}", name, value);
            }
            prop_assert!(m.openings <= m.outline * (1.0 + 1e-9));
            prop_assert!(m.openings <= seen.holes * (1.0 + 1e-9));
            prop_assert!(close(m.openings + m.overlap, seen.holes, 1e-9));
            prop_assert!(close(m.reveals, seen.reveals, 1e-12));
            prop_assert!(close(m.frame_openings, frames(&face, side, &openings), 1e-9));
            prop_assert!(m.frame_openings <= seen.holes * (1.0 + 1e-6) + 1.0);
        }
    }

    #[test]
    fn a_wall_with_straight_sides_measures_the_same_as_a_polygon(
        list in scatter(),
        reveals in two_reveals(),
        length in 4000.0..9000.0_f64,
        eaves in 500.0..3000.0_f64,
        more in 100.0..2500.0_f64,
        at in 0.1..0.9_f64,
        bottom in 0.0..300.0_f64,
        top in 0.0..300.0_f64,
    ) {
        let inset = Inset { bottom, top, ..Inset::default() };
        let gable = OutlineShape::Gable { length, eaves, ridge: eaves + more, ridge_from_left: at * length };
        let corners = vec![
            [0.0, 0.0], [length, 0.0], [length, eaves], [at * length, eaves + more], [0.0, eaves],
        ];
        let a = Outline::new(gable).unwrap().face(Side::Outside, THICKNESS, &inset);
        let b = Outline::new(OutlineShape::Polygon { corners }).unwrap().face(Side::Outside, THICKNESS, &inset);
        prop_assert_eq!(a.is_ok(), b.is_ok());
        if let (Ok(a), Ok(b)) = (a, b) {
            prop_assert!(close(a.area(), b.area(), 1e-7));
            for end in [End::Left, End::Right] {
                prop_assert!((a.end_height(end) - b.end_height(end)).abs() < 1e-3);
            }
            let openings = built(&list, length, false);
            assert_alike(&measure(&a, &openings, &reveals), &measure(&b, &openings, &reveals), 3e-7);
        }
    }
}

fn frames(face: &FaceOutline, side: Side, openings: &[Opening]) -> f64 {
    openings
        .iter()
        .map(|o| frame_area_on_face(face, side, THICKNESS, o, 0))
        .sum()
}

fn sum(a: &FaceMeasure, b: &FaceMeasure) -> FaceMeasure {
    FaceMeasure {
        outline: a.outline + b.outline,
        openings: a.openings + b.openings,
        overlap: a.overlap + b.overlap,
        frame_openings: a.frame_openings + b.frame_openings,
        strips: a.strips + b.strips,
        field: a.field + b.field,
        reveals: a.reveals + b.reveals,
        edges: a.edges + b.edges,
        edge_length: a.edge_length + b.edge_length,
        lath: a.lath + b.lath,
        growth: a.growth + b.growth,
        coves: a.coves + b.coves,
    }
}

/// Sums what each opening was reported to be.
#[derive(Default)]
struct Seen {
    holes: f64,
    reveals: f64,
}

impl Notes for Seen {
    fn doubt(&mut self, _doubt: Doubt) {}
    fn refuse(&mut self, _refusal: Refusal) {}
    fn opening(&mut self, _index: usize, m: &OpeningMeasure) {
        let n = f64::from(m.copies);
        self.holes += n * m.hole_area;
        self.reveals += n * m.parts().map(PartMeasure::net_reveal_area).sum::<f64>();
    }
}
