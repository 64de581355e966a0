//! The texture triangle as a shape: corners of the classes, who is next to whom, where a soil stands, and which
//! classes a patch of soils reaches. Not here: the rules of the classes, and any drawing.

use super::{Class, classify};
use crate::fractions::FineEarth;
use crate::tolerance::TOUCH;

/// Corners of a class in the triangle, going round anticlockwise as drawn, each as shares that sum to 1.
///
/// Source: worked out by hand as the meeting points of the lines in the definitions of the *Soil Survey Manual*,
/// ch. 3; that they fill the triangle and agree with the rules is tested.
pub fn outline(class: Class) -> Vec<FineEarth> {
    corners(class).iter().copied().map(of_percents).collect()
}

/// A soil well inside a class, clear of its outline: where its name may stand on a drawing.
pub fn middle(class: Class) -> FineEarth {
    of_percents(match class {
        Class::Sand => [92, 5, 3],
        Class::LoamySand => [82, 12, 6],
        Class::SandyLoam => [64, 26, 10],
        Class::Loam => [41, 40, 19],
        Class::SiltLoam => [22, 63, 15],
        Class::Silt => [7, 87, 6],
        Class::SandyClayLoam => [60, 13, 27],
        Class::ClayLoam => [33, 34, 33],
        Class::SiltyClayLoam => [10, 57, 33],
        Class::SandyClay => [52, 7, 41],
        Class::SiltyClay => [7, 47, 46],
        Class::Clay => [20, 20, 60],
    })
}

/// Sand, silt, clay in whole percents.
type Percents = [u8; 3];

fn corners(class: Class) -> &'static [Percents] {
    match class {
        Class::Sand => &[[100, 0, 0], [85, 15, 0], [90, 0, 10]],
        Class::LoamySand => &[[85, 15, 0], [70, 30, 0], [85, 0, 15], [90, 0, 10]],
        Class::SandyLoam => &[
            [70, 30, 0],
            [50, 50, 0],
            [43, 50, 7],
            [52, 41, 7],
            [52, 28, 20],
            [80, 0, 20],
            [85, 0, 15],
        ],
        Class::Loam => &[
            [52, 41, 7],
            [43, 50, 7],
            [23, 50, 27],
            [45, 28, 27],
            [52, 28, 20],
        ],
        Class::SiltLoam => &[
            [50, 50, 0],
            [20, 80, 0],
            [8, 80, 12],
            [0, 88, 12],
            [0, 73, 27],
            [23, 50, 27],
        ],
        Class::Silt => &[[20, 80, 0], [0, 100, 0], [0, 88, 12], [8, 80, 12]],
        Class::SandyClayLoam => &[
            [80, 0, 20],
            [52, 28, 20],
            [45, 28, 27],
            [45, 20, 35],
            [65, 0, 35],
        ],
        Class::ClayLoam => &[[45, 28, 27], [20, 53, 27], [20, 40, 40], [45, 15, 40]],
        Class::SiltyClayLoam => &[[20, 53, 27], [0, 73, 27], [0, 60, 40], [20, 40, 40]],
        Class::SandyClay => &[[65, 0, 35], [45, 20, 35], [45, 0, 55]],
        Class::SiltyClay => &[[20, 40, 40], [0, 60, 40], [0, 40, 60]],
        Class::Clay => &[
            [45, 15, 40],
            [20, 40, 40],
            [0, 40, 60],
            [0, 0, 100],
            [45, 0, 55],
        ],
    }
}

fn of_percents([sand, silt, clay]: Percents) -> FineEarth {
    FineEarth {
        sand: f64::from(sand) / 100.0,
        silt: f64::from(silt) / 100.0,
        clay: f64::from(clay) / 100.0,
    }
}

/// The classes that share an edge with a class, not a mere corner, in the order of [`Class::ALL`].
///
/// ```
/// use hodful_soils::texture::{Class, neighbours};
/// assert_eq!(neighbours(Class::Silt), [Class::SiltLoam]);
/// ```
pub fn neighbours(class: Class) -> Vec<Class> {
    let ours = edges(class);
    Class::ALL
        .into_iter()
        .filter(|other| *other != class)
        .filter(|other| {
            edges(*other)
                .iter()
                .any(|theirs| ours.iter().any(|edge| overlap(*edge, *theirs)))
        })
        .collect()
}

/// A place by silt and clay in whole percents; two shares say the third.
type Place = [i32; 2];

fn edges(class: Class) -> Vec<[Place; 2]> {
    let places: Vec<Place> = corners(class)
        .iter()
        .map(|[_, silt, clay]| [i32::from(*silt), i32::from(*clay)])
        .collect();
    let next = places.iter().cycle().skip(1);
    places.iter().zip(next).map(|(a, b)| [*a, *b]).collect()
}

/// Whether two edges lie on one line and have more than a point in common. Whole numbers up to 100: exact.
fn overlap([a, b]: [Place; 2], [c, d]: [Place; 2]) -> bool {
    let minus = |p: Place, q: Place| {
        let ([px, py], [qx, qy]) = (p, q);
        [px - qx, py - qy]
    };
    let cross = |[ux, uy]: Place, [vx, vy]: Place| ux * vy - uy * vx;
    let dot = |[ux, uy]: Place, [vx, vy]: Place| ux * vx + uy * vy;
    let along = minus(b, a);
    if cross(along, minus(c, a)) != 0 || cross(along, minus(d, a)) != 0 {
        return false;
    }
    let (c, d) = (dot(along, minus(c, a)), dot(along, minus(d, a)));
    c.max(d).min(dot(along, along)) > c.min(d).max(0)
}

/// Where a soil stands in a triangle of side 1: `[x, y]`, x to the right and y upwards.
///
/// The published way round of the USDA triangle: all clay at the top `[0.5, 0.866]`, all sand at the left foot
/// `[0, 0]`, all silt at the right foot `[1, 0]`. The three shares are taken as they are; they should sum to 1.
///
/// ```
/// use hodful_soils::texture::to_triangle;
/// assert_eq!(to_triangle(0.0, 1.0, 0.0), [1.0, 0.0]);
/// assert_eq!(to_triangle(0.5, 0.5, 0.0), [0.5, 0.0]);
/// ```
pub fn to_triangle(sand: f64, silt: f64, clay: f64) -> [f64; 2] {
    let sum = sand + silt + clay;
    let height = 3.0_f64.sqrt() / 2.0;
    // Where they do not quite sum to 1, the place is that of their proportions.
    let (silt, clay) = if sum > 0.0 {
        (silt / sum, clay / sum)
    } else {
        (silt, clay)
    };
    [silt + clay / 2.0, clay * height]
}

/// Every class that the soils between some corners reach, in the order of [`Class::ALL`]: the convex hull of the
/// corners is searched, its edges and corners with it. Corners that are no soil (see [`classify`]) are passed over.
///
/// A class inside of which the hull lies, or that the hull cuts, is met by an edge of the hull between two lines
/// of the triangle; a class that lies all inside the hull has its middle there.
pub fn classes_between(corners: &[FineEarth]) -> Vec<Class> {
    let soils: Vec<[f64; 2]> = corners
        .iter()
        .filter(|soil| classify(soil.sand, soil.silt, soil.clay).is_some())
        .map(|soil| [soil.silt, soil.clay])
        .collect();
    let hull = convex_hull(soils);
    let mut met: Vec<Class> = hull.iter().filter_map(|place| class_at(*place)).collect();
    for (a, b) in sides(&hull) {
        let mut stops: Vec<f64> = LINES
            .iter()
            .filter_map(|[of_silt, of_clay, at]| {
                let side = |[silt, clay]: [f64; 2]| of_silt * silt + of_clay * clay - at;
                let t = side(a) / (side(a) - side(b));
                (t > 0.0 && t < 1.0).then_some(t)
            })
            .chain([0.0, 1.0])
            .collect();
        stops.sort_by(f64::total_cmp);
        for (from, to) in stops.iter().zip(stops.iter().skip(1)) {
            if to - from > TOUCH {
                met.extend(class_at(on_way(a, b, (from + to) / 2.0)));
            }
        }
    }
    Class::ALL
        .into_iter()
        .filter(|class| {
            let middle = middle(*class);
            met.contains(class) || is_inside(&hull, [middle.silt, middle.clay])
        })
        .collect()
}

/// Lines between classes: `[a, b, c]` for `a·silt + b·clay = c`, as shares. Lines at a share of sand are those at
/// the share of silt and clay together that is left.
const LINES: [[f64; 3]; 15] = [
    [1.0, 1.5, 0.15],
    [1.0, 2.0, 0.30],
    [0.0, 1.0, 0.07],
    [0.0, 1.0, 0.12],
    [0.0, 1.0, 0.20],
    [0.0, 1.0, 0.27],
    [0.0, 1.0, 0.35],
    [0.0, 1.0, 0.40],
    [1.0, 0.0, 0.28],
    [1.0, 0.0, 0.40],
    [1.0, 0.0, 0.50],
    [1.0, 0.0, 0.80],
    [1.0, 1.0, 0.80],
    [1.0, 1.0, 0.55],
    [1.0, 1.0, 0.48],
];

fn class_at([silt, clay]: [f64; 2]) -> Option<Class> {
    classify((1.0 - silt - clay).max(0.0), silt, clay)
}

fn on_way([ax, ay]: [f64; 2], [bx, by]: [f64; 2], t: f64) -> [f64; 2] {
    [ax + (bx - ax) * t, ay + (by - ay) * t]
}

fn sides(hull: &[[f64; 2]]) -> impl Iterator<Item = ([f64; 2], [f64; 2])> {
    let next = hull.iter().cycle().skip(1);
    hull.iter().zip(next).map(|(a, b)| (*a, *b))
}

/// Twice the area of a triangle; above nothing when it goes anticlockwise.
fn turn([ax, ay]: [f64; 2], [bx, by]: [f64; 2], [cx, cy]: [f64; 2]) -> f64 {
    (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
}

/// Corners of the hull, anticlockwise; two for a line, one for a point (Andrew, *Another efficient algorithm for
/// convex hulls in two dimensions*, 1979).
fn convex_hull(mut places: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    let order = |[ax, ay]: &[f64; 2], [bx, by]: &[f64; 2]| ax.total_cmp(bx).then(ay.total_cmp(by));
    places.sort_by(order);
    places.dedup();
    let half = |places: &mut dyn Iterator<Item = &[f64; 2]>| {
        let mut chain: Vec<[f64; 2]> = Vec::new();
        for place in places {
            while let [.., a, b] = chain.as_slice()
                && turn(*a, *b, *place) <= 0.0
            {
                chain.pop();
            }
            chain.push(*place);
        }
        chain
    };
    let mut hull = half(&mut places.iter());
    let back = half(&mut places.iter().rev());
    // Both halves hold both ends.
    let between = back.len().saturating_sub(2);
    hull.extend(back.iter().skip(1).take(between));
    hull
}

fn is_inside(hull: &[[f64; 2]], place: [f64; 2]) -> bool {
    hull.len() > 2 && sides(hull).all(|(a, b)| turn(a, b, place) >= 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Twice the area within some corners, where the whole triangle is 1 (shoelace).
    fn area(corners: &[FineEarth]) -> f64 {
        let places: Vec<[f64; 2]> = corners.iter().map(|c| [c.silt, c.clay]).collect();
        sides(&places).map(|(a, b)| turn([0.0, 0.0], a, b)).sum()
    }

    /// Even-odd count of the edges to the right.
    fn holds_place(corners: &[FineEarth], [x, y]: [f64; 2]) -> bool {
        let places: Vec<[f64; 2]> = corners.iter().map(|c| [c.silt, c.clay]).collect();
        sides(&places)
            .filter(|([ax, ay], [bx, by])| {
                (*ay > y) != (*by > y) && x < ax + (bx - ax) * (y - ay) / (by - ay)
            })
            .count()
            % 2
            == 1
    }

    #[test]
    fn outlines_fill_the_triangle() {
        let areas = Class::ALL.map(|class| area(&outline(class)));
        assert!(areas.iter().all(|area| *area > 0.0), "{areas:?}");
        assert!((areas.iter().sum::<f64>() - 1.0).abs() < 1e-12);
    }

    /// Points off every line: a grid of 0.2 %, set off by 0.07 % and 0.03 %.
    #[test]
    fn outlines_agree_with_the_rules() {
        let mut points = 0;
        for i in 0..500 {
            for j in 0..(499 - i) {
                let place = [f64::from(i) / 500.0 + 7e-4, f64::from(j) / 500.0 + 3e-4];
                let found: Vec<Class> = Class::ALL
                    .into_iter()
                    .filter(|class| holds_place(&outline(*class), place))
                    .collect();
                assert_eq!(
                    Some(found),
                    class_at(place).map(|class| vec![class]),
                    "{place:?}"
                );
                points += 1;
            }
        }
        assert_eq!(points, 124_750);
    }

    #[test]
    fn names_stand_inside() {
        for class in Class::ALL {
            let FineEarth { sand, silt, clay } = middle(class);
            assert_eq!(classify(sand, silt, clay), Some(class));
        }
    }

    /// Read off the printed triangle of the Soil Survey Manual (from memory).
    #[test]
    fn neighbours_are_those_of_the_printed_triangle() {
        use Class::{
            Clay, ClayLoam, Loam, LoamySand, Sand, SandyClay, SandyClayLoam, SandyLoam, Silt,
            SiltLoam, SiltyClay, SiltyClayLoam,
        };
        let expected: [(Class, &[Class]); 12] = [
            (Sand, &[LoamySand]),
            (LoamySand, &[Sand, SandyLoam]),
            (SandyLoam, &[LoamySand, Loam, SiltLoam, SandyClayLoam]),
            (Loam, &[SandyLoam, SiltLoam, SandyClayLoam, ClayLoam]),
            (SiltLoam, &[SandyLoam, Loam, Silt, ClayLoam, SiltyClayLoam]),
            (Silt, &[SiltLoam]),
            (SandyClayLoam, &[SandyLoam, Loam, ClayLoam, SandyClay]),
            (
                ClayLoam,
                &[
                    Loam,
                    SiltLoam,
                    SandyClayLoam,
                    SiltyClayLoam,
                    SandyClay,
                    Clay,
                ],
            ),
            (SiltyClayLoam, &[SiltLoam, ClayLoam, SiltyClay]),
            (SandyClay, &[SandyClayLoam, ClayLoam, Clay]),
            (SiltyClay, &[SiltyClayLoam, Clay]),
            (Clay, &[ClayLoam, SandyClay, SiltyClay]),
        ];
        for (class, next) in expected {
            assert_eq!(neighbours(class), next, "{class}");
        }
    }

    #[test]
    fn a_patch_over_everything_meets_every_class() {
        let corner = |sand, silt, clay| FineEarth { sand, silt, clay };
        let all = [
            corner(1.0, 0.0, 0.0),
            corner(0.0, 1.0, 0.0),
            corner(0.0, 0.0, 1.0),
        ];
        assert_eq!(classes_between(&all), Class::ALL);
        assert_eq!(classes_between(&[corner(0.52, 0.28, 0.20)]), [Class::Loam]);
        assert_eq!(classes_between(&[corner(f64::NAN, 0.0, 1.0)]), []);
        // Past the corner of loam at 52 % sand and 7 % clay: sand is 52 % at 0.35 of the way, clay 7 % half way.
        assert_eq!(
            classes_between(&[corner(0.527, 0.393, 0.08), corner(0.507, 0.433, 0.06)]),
            [Class::SandyLoam, Class::Loam]
        );
        // Straight up from silt on the floor: by the rules silt, silt loam, silty clay loam, silty clay, clay.
        assert_eq!(
            classes_between(&[corner(0.0, 1.0, 0.0), corner(0.0, 0.0, 1.0)]),
            [
                Class::SiltLoam,
                Class::Silt,
                Class::SiltyClayLoam,
                Class::SiltyClay,
                Class::Clay
            ]
        );
    }
}
