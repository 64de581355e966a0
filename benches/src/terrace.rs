//! Projects of many walls: rectangles and gables of straw bale, three openings each, both faces plastered.
//!
//! Most openings lie inside their wall and apart; of a hundred walls three have windows that overlap and two a window that
//! the outline cuts, unless nothing but plain rectangles is asked for. Dimensions differ from wall to wall and are typed in
//! five ways. Faces, corners, frames and a dozen reveals come from two pattern walls, as a house repeats its details; those
//! stand with the mixes and materials in a project file.
//!
//! The same recipe gives the same project on every system: the generator is PCG XSL 128/64 (M. E. O'Neill, PCG: A Family of
//! Simple Fast Space-Efficient Statistically Good Algorithms for Random Number Generation, 2014) from a fixed seed. Not here:
//! any file on disk.

use crate::spelling::{Spelling, zero};
use ecow::eco_format;
use hodful_takeoff::project::{ArchKind, Opening, OpeningShape, Project, Wall, WallShape};
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use std::sync::Arc;

/// Backgrounds, materials, mixes, build-ups and the pattern walls of every project here: our own inventions.
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

/// A project of `count` walls. Nothing is allocated but the project itself and the patterns.
///
/// # Examples
/// ```
/// use hodful_benches::terrace::{Walls, project};
/// let project = project(Walls::Mixed, 10);
/// let rules = hodful_project_file::rules();
/// let checked = hodful_takeoff::check(&project, &rules).expect("nothing is refused");
/// assert_eq!(hodful_takeoff::evaluate(&checked).faces.len(), 10);
/// ```
pub fn project(walls: Walls, count: usize) -> Project {
    let mut project = base();
    let patterns = Patterns::of(&std::mem::take(&mut project.walls));
    let mut chance = Pcg64Mcg::seed_from_u64(SEED);
    project.walls.reserve_exact(count);
    project
        .walls
        .extend((1..=count).map(|number| Arc::new(wall(walls, number, &patterns, &mut chance))));
    project
}

/// The same as a project file.
pub fn file(walls: Walls, count: usize) -> Vec<u8> {
    hodful_project_file::write(&project(walls, count))
}

fn base() -> Project {
    hodful_project_file::read(BASE).expect("the file of mixes and materials is whole")
}

/// What the walls repeat.
struct Patterns {
    walls: [Wall; 2],
    windows: Vec<Opening>,
    doors: Vec<Opening>,
}

impl Patterns {
    fn of(walls: &[Arc<Wall>]) -> Self {
        let [windows, doors] = walls else {
            unreachable!("there are two pattern walls, of windows and of doors");
        };
        Self {
            walls: [(**windows).clone(), (**doors).clone()],
            windows: windows.openings.clone(),
            doors: doors.openings.clone(),
        }
    }
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

fn wall(walls: Walls, number: usize, patterns: &Patterns, chance: &mut Pcg64Mcg) -> Wall {
    let mixed = walls == Walls::Mixed;
    let spelling = *pick(&Spelling::ALL, chance);
    let bay = chance.random_range(2100..=4200);
    let height = chance.random_range(2450..=3350);
    let gable =
        (mixed && chance.random_ratio(15, 100)).then(|| height + chance.random_range(900..=2400));
    let slip = match chance.random_range(0..100_u32) {
        0..3 if mixed => Slip::Overlap,
        3..5 if mixed => Slip::Cut,
        _ => Slip::None,
    };
    let drawing = Drawing {
        spelling,
        bay,
        height,
        gable,
        slip,
    };
    let (length, high) = (spelling.length(3 * bay), spelling.length(height));
    let shape = match gable {
        None => WallShape::Rectangle {
            length,
            height: high,
        },
        Some(ridge) => WallShape::Gable {
            length,
            eaves: high,
            ridge: spelling.length(ridge),
            ridge_from_left: None,
        },
    };
    let thickness = spelling.length(*pick(&[400, 457, 457, 500], chance));
    let pattern = pick(&patterns.walls, chance);
    let pockets = if chance.random_ratio(1, 10) {
        pattern.pockets.clone()
    } else {
        Vec::new()
    };
    Wall {
        id: eco_format!("W{number}"),
        name: Some(
            (*pick(
                &["South wall", "East wall", "North wall", "West wall"],
                chance,
            ))
            .into(),
        ),
        sheet: Some(eco_format!("A-{}", 201 + number % 12)),
        count: None,
        shape,
        thickness,
        outside: pattern.outside.clone(),
        inside: pattern.inside.clone(),
        ends: pattern.ends.clone(),
        openings: openings(mixed, &drawing, patterns, chance),
        pockets,
    }
}

/// Two windows and a door, each in a bay of its own.
fn openings(
    mixed: bool,
    drawing: &Drawing,
    patterns: &Patterns,
    chance: &mut Pcg64Mcg,
) -> Vec<Opening> {
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
    let three = door(door_bay, drawing, chance);
    let shape = door_shape(mixed, three, spelling, chance);
    vec![
        one.opening(
            "W1",
            one.rectangle(spelling),
            spelling,
            &patterns.windows,
            chance,
        ),
        two.opening(
            "W2",
            two.rectangle(spelling),
            spelling,
            &patterns.windows,
            chance,
        ),
        three.opening("D1", shape, spelling, &patterns.doors, chance),
    ]
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
    fn rectangle(self, spelling: Spelling) -> OpeningShape {
        OpeningShape::Rectangle {
            width: spelling.length(self.width),
            height: spelling.length(self.height),
        }
    }

    /// The opening, with its reveals outside and inside each from one of the patterns.
    fn opening(
        self,
        id: &str,
        shape: OpeningShape,
        spelling: Spelling,
        patterns: &[Opening],
        chance: &mut Pcg64Mcg,
    ) -> Opening {
        let (outside, inside) = (pick(patterns, chance), pick(patterns, chance));
        Opening {
            id: id.into(),
            kind: outside.kind.clone(),
            count: None,
            spacing: None,
            shape,
            from_left: spelling.length(self.from_left),
            sill: if self.sill == 0 {
                zero()
            } else {
                spelling.length(self.sill)
            },
            frame: outside.frame.clone(),
            outside: outside.outside.clone(),
            inside: inside.inside.clone(),
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
    Sketch {
        from_left: placed(bay, width, drawing, chance),
        sill,
        width,
        height,
    }
}

fn door(bay: u32, drawing: &Drawing, chance: &mut Pcg64Mcg) -> Sketch {
    let width = chance.random_range(800..=1000);
    let height = chance.random_range(2000..=drawing.height - HEADROOM);
    Sketch {
        from_left: placed(bay, width, drawing, chance),
        sill: 0,
        width,
        height,
    }
}

/// Half of the doors have an arch, one in three of those a half circle.
fn door_shape(
    mixed: bool,
    door: Sketch,
    spelling: Spelling,
    chance: &mut Pcg64Mcg,
) -> OpeningShape {
    if !mixed || chance.random() {
        return door.rectangle(spelling);
    }
    let (rise, head) = match chance.random_range(0..3_u32) {
        0 => (None, Some(ArchKind::Semicircular)),
        _ => (Some(door.width * chance.random_range(15..=45) / 100), None),
    };
    OpeningShape::Arched {
        width: spelling.length(door.width),
        springing: spelling.length(door.height - rise.unwrap_or(door.width / 2)),
        rise: rise.map(|rise| spelling.length(rise)),
        head,
    }
}

/// One of a few, each as likely.
fn pick<'a, T>(among: &'a [T], chance: &mut Pcg64Mcg) -> &'a T {
    &among[chance.random_range(0..among.len())]
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
            let checked = hodful_takeoff::check(&project, &hodful_project_file::rules())
                .expect("nothing is refused");
            hodful_takeoff::evaluate(&checked).findings
        };
        assert_eq!(found(Walls::Rectangles).len(), 0);
        let found = found(Walls::Mixed);
        assert!(
            found
                .iter()
                .all(|finding| matches!(finding.found, Found::Doubt(_)))
        );
        // Three and two of a hundred walls, both faces of each.
        assert!((150..250).contains(&found.len()), "{} doubts", found.len());
    }

    #[test]
    fn the_same_recipe_gives_the_same_project() {
        assert_eq!(file(Walls::Mixed, 50), file(Walls::Mixed, 50));
        assert_eq!(
            project(Walls::Mixed, 50).walls[..20],
            project(Walls::Mixed, 20).walls[..]
        );
    }

    #[test]
    fn texts_survive_the_file() {
        let file = file(Walls::Mixed, 100);
        let read = hodful_project_file::read(&file).expect("it is whole");
        assert_eq!(read, project(Walls::Mixed, 100));
    }
}
