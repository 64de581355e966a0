//! Arbitrary numbers: nothing panics, and what passes the checks gives finite figures.

use super::build::{figures, square};
use hodful_geometry::*;
use proptest::prelude::*;

/// Any number at all, often one of the awkward ones, often one that could be a length.
fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => 0.0..20_000.0_f64,
        2 => prop::sample::select(vec![
            0.0, -0.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300, -1e300, 5e-324, 1e-308,
            f64::MAX, f64::MIN_POSITIVE, 1e-3, 1e-6, 1e7, 9.999_999e6, 1e16, 1.0, 1000.0, 0.5,
        ]),
        1 => any::<f64>(),
        1 => (-8.0..7.0_f64).prop_map(|p| 10.0_f64.powf(p)),
    ]
}

fn corners() -> impl Strategy<Value = Vec<[f64; 2]>> {
    prop_oneof![
        prop::collection::vec([number(), number()], 0..7),
        prop::collection::vec([0.0..5000.0_f64, 0.0..3000.0_f64], 3..6),
    ]
}

fn outline() -> impl Strategy<Value = OutlineShape> {
    prop_oneof![
        (number(), number())
            .prop_map(|(length, height)| OutlineShape::Rectangle { length, height }),
        (number(), number(), number(), number()).prop_map(
            |(length, eaves, ridge, ridge_from_left)| OutlineShape::Gable {
                length,
                eaves,
                ridge,
                ridge_from_left
            }
        ),
        (number(), number(), number()).prop_map(|(length, left, right)| OutlineShape::Raked {
            length,
            left,
            right
        }),
        corners().prop_map(|corners| OutlineShape::Polygon { corners }),
        (number(), number(), number(), prop::bool::ANY).prop_map(|(radius, e, height, sweep)| {
            let extent = if sweep {
                Extent::Sweep(e)
            } else {
                Extent::Length(e)
            };
            OutlineShape::Curved {
                radius,
                extent,
                height,
            }
        }),
    ]
}

fn shape() -> impl Strategy<Value = OpeningShape> {
    let head = prop_oneof![
        number().prop_map(|rise| ArchHead::Segmental { rise }),
        Just(ArchHead::Semicircular),
        number().prop_map(|rise| ArchHead::Elliptical { rise }),
    ];
    prop_oneof![
        (number(), number()).prop_map(|(w, h)| square(w, h)),
        (number(), number(), head).prop_map(|(width, springing, head)| OpeningShape::Arched {
            width,
            springing,
            head
        }),
        number().prop_map(|diameter| OpeningShape::Circle { diameter }),
        corners().prop_map(|corners| OpeningShape::Polygon { corners }),
    ]
}

fn opening() -> impl Strategy<Value = OpeningSpec> {
    (
        shape(),
        [number(), number()],
        [0.0..300.0_f64, 0.0..300.0_f64],
        prop_oneof![1..4_u32, any::<u32>()],
        prop::option::of(number()),
        0..4_usize,
        prop::bool::ANY,
    )
        .prop_map(
            |(shape, [u, v], [outside, depth], count, spacing, reveal, odd)| {
                OpeningSpec {
                    shape,
                    from_left: u,
                    sill: v,
                    from_outside: if odd { u } else { outside },
                    frame_depth: depth,
                    // A refused count must not be built; a great one would only take time here.
                    count: if count > 3 && count <= 10_000 {
                        3
                    } else {
                        count
                    },
                    spacing,
                    reveals: [RevealIndex::new(reveal); 2],
                }
            },
        )
}

fn angle() -> impl Strategy<Value = f64> {
    prop_oneof![3 => 0.0..1.4_f64, 1 => Just(0.0), 1 => number()]
}

fn reveal() -> impl Strategy<Value = RevealSpec> {
    (
        [prop::bool::ANY; 4],
        [angle(), angle(), angle(), angle()],
        prop_oneof![Just(0.0), number()],
        number(),
    )
        .prop_map(
            |([jambs, head, sill, ring], [a, b, c, d], radius, lath)| RevealSpec {
                plastered: Parts {
                    jambs,
                    head,
                    sill,
                    ring,
                },
                splay: Splay {
                    jambs: a,
                    head: b,
                    sill: c,
                    ring: d,
                },
                radius,
                lath,
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    #[test]
    fn no_number_panics_and_no_figure_is_odd(
        shape in outline(),
        openings in prop::collection::vec(opening(), 0..4),
        reveals in prop::collection::vec(reveal(), 0..4),
        thickness in prop_oneof![2 => 100.0..600.0_f64, 1 => number()],
        inset in prop_oneof![
            2 => Just([0.0; 4]),
            1 => [0.0..500.0_f64, 0.0..500.0_f64, 0.0..500.0_f64, 0.0..500.0_f64],
            1 => [number(), number(), number(), number()],
        ],
        inside in prop::bool::ANY,
        ends in prop::collection::vec((number(), angle(), prop::bool::ANY), 0..3),
    ) {
        let side = if inside { Side::Inside } else { Side::Outside };
        let openings: Vec<Opening> =
            openings.into_iter().filter_map(|s| Opening::new(s).ok()).collect();
        let reveals: Vec<Reveal> =
            reveals.into_iter().filter_map(|s| Reveal::new(s).ok()).collect();
        let ends: Vec<FaceEnd> = ends
            .into_iter()
            .filter_map(|(r, turn, external)| {
                let angle = if external {
                    Angle::External { radius: r }
                } else {
                    Angle::Internal { cove: r }
                };
                FaceEnd::new(EndSpec { end: End::Left, angle, turn }).ok()
            })
            .collect();
        for opening in &openings {
            for reveal in &reveals {
                let _ = opening.accepts(reveal, side, thickness);
            }
        }
        let [left, right, top, bottom] = inset;
        let inset = Inset { left, right, top, bottom };
        if let Ok(outline) = Outline::new(shape)
            && let Ok(face) = outline.face(side, thickness, &inset)
        {
            prop_assert!(face.area() > 0.0);
            let mut said = Remarks::default();
            let m = measure_face(&face, side, thickness, &openings, &reveals, &ends, &mut said);
            for (name, value) in figures(&m) {
                prop_assert!(value.is_finite() && (value >= 0.0 || name == "growth"), "{} {}", name, value);
            }
            prop_assert!(m.openings <= m.outline * (1.0 + 1e-6));
            for tier in [Tier::Closed, Tier::Slabs, Tier::Polygons] {
                let area = net_area_with(tier, &face, side, thickness, &openings, &reveals);
                prop_assert!(area.is_none_or(f64::is_finite));
            }
            // Nothing is cut or refused behind the back of whoever listens: accepted reveals are never refused.
            let accepted = openings.iter().all(|o| {
                o.fits(thickness).is_empty() && o.reveal(side).is_none_or(|i| {
                    reveals.get(i.get()).is_some_and(|r| o.accepts(r, side, thickness).is_empty())
                })
            });
            if accepted {
                let unsuited = said.refusals.iter().any(|r| matches!(
                    r,
                    Refusal::UnsuitedReveal { .. } | Refusal::FrameTooDeep { .. } | Refusal::NoSuchReveal { .. }
                ));
                prop_assert!(!unsuited, "{:?}", said);
            }
        }
    }
}
