//! Projects of many walls: rectangles and gables of straw bale, three openings each, both faces plastered.
//!
//! Most openings lie inside their wall and apart; of a hundred walls three have windows that overlap and two a window that
//! the outline cuts, unless nothing but plain rectangles is asked for. Dimensions differ from wall to wall and are typed in
//! five ways; reveals come from a dozen, as they do in a house. The mixes and materials are in a file of their own.
//!
//! The same recipe gives the same project on every system: the generator is PCG XSL 128/64 (M. E. O'Neill, PCG: A Family of
//! Simple Fast Space-Efficient Statistically Good Algorithms for Random Number Generation, 2014) from a fixed seed. Not here:
//! any file on disk.

use crate::spelling::{Spelling, typed};
use ecow::eco_format;
use hodful_quantities::Typed;
use hodful_takeoff::project::{
    ArchKind, CornerAngle, End, Face, Frame, Inset, Opening, OpeningShape, Pocket, Project, Reveal, RevealPart, Side,
    Splay, Wall, WallEnd, WallShape,
};
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;

/// Backgrounds, materials, mixes and build-ups of every project here: our own inventions.
const BASE: &[u8] = include_bytes!("../data/terrace.hodful.json");

/// Where the generator begins; another number gives other projects, whose times cannot be compared.
const SEED: u64 = 0x0061_6465_6f62_6521;

/// What kind of walls.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Walls {
    /// Rectangles and gables, square and arched doors, a few openings that overlap or are cut.
    Mixed,
    /// Rectangles alone, walls and openings, all openings whole and apart.
    Rectangles,
}

/// A project of `count` walls. Nothing is allocated but the project itself.
///
/// # Examples
/// ```
/// use hodful_benches::terrace::{Walls, project};
/// let project = project(Walls::Mixed, 10);
/// let rules = hodful_project_file::rules();
/// let checked = hodful_takeoff::check(&project, &rules).expect("nothing is refused");
/// assert_eq!(checked.walls(), 10);
/// ```
pub fn project(walls: Walls, count: usize) -> Project {
    let mut project = base();
    let mut chance = Pcg64Mcg::seed_from_u64(SEED);
    project.walls.reserve_exact(count);
    project.walls.extend((1..=count).map(|number| wall(walls, number, &mut chance)));
    project
}

/// The same as a project file.
pub fn file(walls: Walls, count: usize) -> Vec<u8> {
    hodful_project_file::write(&project(walls, count))
}

fn base() -> Project {
    hodful_project_file::read(BASE).expect("the file of mixes and materials is whole")
}

/// What goes wrong on a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Slip {
    None,
    /// The second window begins in the middle of the first.
    Overlap,
    /// The first window is taller than the wall.
    Cut,
}

/// Lengths of one wall, in whole millimetres.
struct Drawing {
    spelling: Spelling,
    /// A third of the length: each opening has one.
    bay: u32,
    height: u32,
    gable: Option<u32>,
    slip: Slip,
}

/// What is left beside an opening at an end of the wall: the inset of the inside face, the splay, and some wall.
const END_MARGIN: u32 = 660;
/// What is left beside an opening at the end of its bay.
const MARGIN: u32 = 250;
/// What is left above an opening: the inset of the inside face, the splay, and some wall.
const HEADROOM: u32 = 350;

fn wall(walls: Walls, number: usize, chance: &mut Pcg64Mcg) -> Wall {
    let mixed = walls == Walls::Mixed;
    let spelling = pick(&Spelling::ALL, chance);
    let bay = chance.random_range(2100..=4200);
    let height = chance.random_range(2450..=3350);
    let gable = (mixed && chance.random_ratio(15, 100))
        .then(|| height + chance.random_range(900..=2400));
    let slip = match chance.random_range(0..100_u32) {
        0..3 if mixed => Slip::Overlap,
        3..5 if mixed => Slip::Cut,
        _ => Slip::None,
    };
    let thickness = pick(&[400, 457, 457, 500], chance);
    let drawing = Drawing { spelling, bay, height, gable, slip };
    let (length, high) = (spelling.length(3 * bay), spelling.length(height));
    let shape = match gable {
        None => WallShape::Rectangle { length, height: high },
        Some(ridge) => WallShape::Gable {
            length,
            eaves: high,
            ridge: spelling.length(ridge),
            ridge_from_left: None,
        },
    };
    let pockets = if chance.random_ratio(1, 10) { vec![pocket()] } else { Vec::new() };
    Wall {
        id: eco_format!("W{number}"),
        name: Some(pick(&["South wall", "East wall", "North wall", "West wall"], chance).into()),
        sheet: Some(eco_format!("A-{}", 201 + number % 12)),
        count: None,
        shape,
        thickness: spelling.length(thickness),
        outside: Some(face("outside bale", [None, None, None, Some("8 in")])),
        inside: Some(face("inside bale", [Some("18 in"), Some("18 in"), Some("6 in"), None])),
        ends: ends(chance),
        openings: openings(mixed, &drawing, chance),
        pockets,
    }
}

/// Insets from the left, the right, the top and the bottom.
fn face(build_up: &str, inset: [Option<&str>; 4]) -> Face {
    let [left, right, top, bottom] = inset.map(|text| text.map(typed));
    Face {
        background: "trimmed bale".into(),
        build_up: build_up.into(),
        inset: Some(Box::new(Inset { left, right, top, bottom })),
        rain: None,
    }
}

fn ends(chance: &mut Pcg64Mcg) -> Vec<WallEnd> {
    let end = |face, angle, radius: Option<&str>, cove: Option<&str>| WallEnd {
        face,
        end: End::Right,
        angle,
        turn: Some(Typed::read("90 deg").expect("it is an angle")),
        radius: radius.map(typed),
        cove: cove.map(typed),
    };
    let cove = pick(&[None, Some("1 1/2 in")], chance);
    vec![
        end(Side::Outside, CornerAngle::External, Some("4 in"), None),
        end(Side::Inside, CornerAngle::Internal, None, cove),
    ]
}

fn pocket() -> Pocket {
    Pocket {
        face: Side::Outside,
        width: typed("18 in"),
        height: typed("14 in"),
        depth: typed("3 in"),
        count: Some(2),
    }
}

/// Two windows and a door, each in a bay of its own.
fn openings(mixed: bool, drawing: &Drawing, chance: &mut Pcg64Mcg) -> Vec<Opening> {
    let door_bay = chance.random_range(0..3);
    let [first, second] = match door_bay {
        0 => [1, 2],
        1 => [0, 2],
        _ => [0, 1],
    };
    let mut one = window(first, drawing, chance);
    let mut two = window(second, drawing, chance);
    match drawing.slip {
        Slip::None => {}
        Slip::Overlap => {
            two.from_left = one.from_left + one.width / 2;
            two.sill = one.sill + 100;
        }
        Slip::Cut => one.height = drawing.gable.unwrap_or(drawing.height) - one.sill + 100,
    }
    let spelling = drawing.spelling;
    let w1 = one.opening("W1", "window", spelling, reveals(&INSIDE, chance));
    let w2 = two.opening("W2", "window", spelling, reveals(&INSIDE, chance));
    vec![w1, w2, door(mixed, door_bay, drawing, chance)]
}

/// Place and size of a frame in whole millimetres.
#[derive(Debug, Clone, Copy)]
struct Sketch {
    from_left: u32,
    sill: u32,
    width: u32,
    height: u32,
}

impl Sketch {
    fn opening(self, id: &str, kind: &str, spelling: Spelling, reveals: [Reveal; 2]) -> Opening {
        let shape = OpeningShape::Rectangle {
            width: spelling.length(self.width),
            height: spelling.length(self.height),
        };
        self.shaped(id, kind, shape, spelling, reveals)
    }

    fn shaped(
        self,
        id: &str,
        kind: &str,
        shape: OpeningShape,
        spelling: Spelling,
        [outside, inside]: [Reveal; 2],
    ) -> Opening {
        Opening {
            id: id.into(),
            kind: Some(kind.into()),
            count: None,
            spacing: None,
            shape,
            from_left: spelling.length(self.from_left),
            sill: if self.sill == 0 { typed("0") } else { spelling.length(self.sill) },
            frame: Some(Frame { from_outside: typed("3 in"), depth: typed("4 1/2 in") }),
            outside: Some(Box::new(outside)),
            inside: Some(Box::new(inside)),
        }
    }
}

/// Where a frame of this width stands in its bay.
fn placed(bay: u32, width: u32, drawing: &Drawing, chance: &mut Pcg64Mcg) -> u32 {
    let left = if bay == 0 { END_MARGIN } else { MARGIN };
    let right = if bay == 2 { END_MARGIN } else { MARGIN };
    bay * drawing.bay + chance.random_range(left..=drawing.bay - right - width)
}

fn window(bay: u32, drawing: &Drawing, chance: &mut Pcg64Mcg) -> Sketch {
    let width = chance.random_range(600..=1100);
    let sill = chance.random_range(600..=1000);
    let height = chance.random_range(600..=drawing.height - sill - HEADROOM);
    Sketch { from_left: placed(bay, width, drawing, chance), sill, width, height }
}

fn door(mixed: bool, bay: u32, drawing: &Drawing, chance: &mut Pcg64Mcg) -> Opening {
    let width = chance.random_range(800..=1000);
    let height = chance.random_range(2000..=drawing.height - HEADROOM);
    let from_left = placed(bay, width, drawing, chance);
    let sketch = Sketch { from_left, sill: 0, width, height };
    let spelling = drawing.spelling;
    if !mixed || chance.random() {
        return sketch.opening("D1", "door", spelling, reveals(&INSIDE_DOOR, chance));
    }
    let (rise, head) = match chance.random_range(0..3_u32) {
        0 => (None, Some(ArchKind::Semicircular)),
        _ => (Some(width * chance.random_range(15..=45) / 100), None),
    };
    let shape = OpeningShape::Arched {
        width: spelling.length(width),
        springing: spelling.length(height - rise.unwrap_or(width / 2)),
        rise: rise.map(|rise| spelling.length(rise)),
        head,
    };
    sketch.shaped("D1", "door", shape, spelling, reveals(&INSIDE_DOOR, chance))
}

/// A reveal as a drawing says it.
#[derive(Debug)]
struct Lining {
    plastered: &'static [RevealPart],
    /// Of the jambs, the head and the sill, in degrees.
    splay: [Option<u8>; 3],
    radius: Option<&'static str>,
    lath: Option<&'static str>,
}

const ROUND: &[RevealPart] = &[RevealPart::Jambs, RevealPart::Head, RevealPart::Sill];
const OVER: &[RevealPart] = &[RevealPart::Jambs, RevealPart::Head];
const SQUARE: [Option<u8>; 3] = [None; 3];

const fn lining(
    plastered: &'static [RevealPart],
    splay: [Option<u8>; 3],
    radius: Option<&'static str>,
    lath: Option<&'static str>,
) -> Lining {
    Lining { plastered, splay, radius, lath }
}

const OUTSIDE: [Lining; 4] = [
    lining(OVER, SQUARE, Some("1 in"), Some("6 in")),
    lining(ROUND, SQUARE, Some("1 in"), None),
    lining(OVER, SQUARE, None, None),
    lining(ROUND, SQUARE, Some("1/2 in"), Some("6 in")),
];

const INSIDE: [Lining; 5] = [
    lining(ROUND, [Some(20), None, Some(10)], Some("3 in"), Some("6 in")),
    lining(OVER, [Some(15), Some(15), None], Some("2 in"), None),
    lining(ROUND, SQUARE, Some("3 in"), Some("6 in")),
    lining(ROUND, [Some(18), Some(10), Some(15)], Some("2 1/2 in"), None),
    lining(OVER, SQUARE, None, Some("6 in")),
];

/// Doors have no sill; an arch is splayed no less than its jambs.
const INSIDE_DOOR: [Lining; 3] = [
    lining(OVER, SQUARE, Some("3 in"), Some("6 in")),
    lining(OVER, [Some(15), Some(15), None], Some("2 in"), None),
    lining(OVER, [Some(10), Some(20), None], None, Some("6 in")),
];

/// The reveals of one opening, outside and inside.
fn reveals(inside: &[Lining], chance: &mut Pcg64Mcg) -> [Reveal; 2] {
    [&OUTSIDE[..], inside].map(|linings| {
        let lining = &linings[chance.random_range(0..linings.len())];
        let angle = |degrees: Option<u8>| {
            degrees.map(|d| Typed::read(eco_format!("{d} deg")).expect("it is an angle"))
        };
        let [jambs, head, sill] = lining.splay.map(angle);
        let splay = lining.splay.iter().any(Option::is_some);
        Reveal {
            plastered: lining.plastered.to_vec(),
            splay: splay.then(|| Box::new(Splay { jambs, head, sill, ring: None })),
            radius: lining.radius.map(typed),
            lath: lining.lath.map(typed),
        }
    })
}

/// One of a few, each as likely.
fn pick<T: Copy>(among: &[T], chance: &mut Pcg64Mcg) -> T {
    among[chance.random_range(0..among.len())]
}

#[cfg(test)]
mod tests {
    use super::*;
    use hodful_takeoff::evaluate::Found;

    /// As many slips as were asked for, and nothing else that is doubtful or refused.
    #[test]
    fn slips_are_a_few_percent() {
        let found = |walls| {
            let project = project(walls, 2000);
            let checked = hodful_takeoff::check(&project, &hodful_project_file::rules()).expect("nothing is refused");
            hodful_takeoff::evaluate(&checked).findings
        };
        assert_eq!(found(Walls::Rectangles).len(), 0);
        let found = found(Walls::Mixed);
        assert!(found.iter().all(|finding| matches!(finding.found, Found::Doubt(_))));
        // Three and two of a hundred walls, both faces of each.
        assert!((150..250).contains(&found.len()), "{} doubts", found.len());
    }

    #[test]
    fn the_same_recipe_gives_the_same_project() {
        assert_eq!(file(Walls::Mixed, 50), file(Walls::Mixed, 50));
        assert_eq!(project(Walls::Mixed, 50).walls[..20], project(Walls::Mixed, 20).walls[..]);
    }

    #[test]
    fn texts_survive_the_file() {
        let file = file(Walls::Mixed, 100);
        let read = hodful_project_file::read(&file).expect("it is whole");
        assert_eq!(read, project(Walls::Mixed, 100));
    }
}
