//! What a project has already: walls by name, the last opening of a kind, ids that are free, faces to
//! be like. Not here: making anything new of it.

use super::Context;
use super::line::{Form, Noun};
use ecow::{EcoString, eco_format};
use hodful_takeoff::Project;
use hodful_takeoff::project::{Face, Name, Opening, OpeningShape, Rain, Side, Wall};

/// The wall of an id; with `any_case` also when only capitals differ.
pub(super) fn wall(context: Context<'_>, typed: &str, any_case: bool) -> Option<usize> {
    let walls = &context.project.walls;
    if typed.is_empty() {
        return None;
    }
    let chosen = context
        .wall
        .filter(|at| walls.get(*at).is_some_and(|w| w.id == typed));
    chosen
        .or_else(|| walls.iter().position(|wall| wall.id == typed))
        .or_else(|| {
            let same = |wall: &Wall| wall.id.eq_ignore_ascii_case(typed);
            walls.iter().position(|wall| any_case && same(wall))
        })
}

/// A name as its letters and the number behind them: `W` and 12 of `W12`. Nothing but digits is a number
/// behind no letters; a number with a nought before it, or too large, is none.
fn numbered(id: &str) -> (&str, Option<u32>) {
    let letters = id.trim_end_matches(|c: char| c.is_ascii_digit());
    let digits = id.get(letters.len()..).unwrap_or("");
    let number = if digits.starts_with('0') {
        None
    } else {
        digits.parse().ok()
    };
    (letters, number)
}

/// The number behind a name: 12 of `W12`, 1 of `W`; `None` when it is not the name and a number.
fn number_behind(id: &str, name: &str) -> Option<u32> {
    let (letters, number) = numbered(id.strip_prefix(name)?);
    match (letters, number) {
        ("", Some(number)) => Some(number),
        ("", None) if id.len() == name.len() => Some(1),
        _ => None,
    }
}

/// A name for one more wall: the first letter that is free, else A2, A3 and so on. The letters of the
/// quarters are left to buildings.
pub(super) fn wall_id(project: &Project) -> Name {
    const LETTERS: [&str; 22] = [
        "A", "B", "C", "D", "F", "G", "H", "I", "J", "K", "L", "M", "O", "P", "Q", "R", "T", "U",
        "V", "X", "Y", "Z",
    ];
    let mut taken = [false; LETTERS.len()];
    let mut highest = 1;
    for wall in &project.walls {
        if let Some(at) = LETTERS.iter().position(|letter| *letter == wall.id) {
            if let Some(taken) = taken.get_mut(at) {
                *taken = true;
            }
        } else if let Some(number) = number_behind(&wall.id, "A") {
            highest = highest.max(number);
        }
    }
    let mut free = LETTERS.iter().zip(taken).filter(|(_, taken)| !taken);
    free.next().map_or_else(
        || eco_format!("A{}", highest.saturating_add(1)),
        |(letter, _)| (*letter).into(),
    )
}

/// Gives walls of one building names that are free: their own, or all with one number behind.
pub(super) fn free_ids(walls: &mut [Wall], project: &Project) {
    let mut highest = 0;
    for wall in &project.walls {
        for new in walls.iter() {
            highest = highest.max(number_behind(&wall.id, &new.id).unwrap_or(0));
        }
    }
    if highest > 0 {
        for wall in walls {
            wall.id = eco_format!("{}{}", wall.id, highest.saturating_add(1));
        }
    }
}

/// The openings a new one is like.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Like<'a> {
    /// The last of the same noun and form.
    pub(super) same: Option<&'a Opening>,
    /// The last of the same noun.
    pub(super) noun: Option<&'a Opening>,
    /// The last of any kind.
    pub(super) any: Option<&'a Opening>,
    /// The highest number behind the letter of the noun.
    highest: u32,
}

/// What an opening is called, by its kind in the project.
pub(super) fn noun(opening: &Opening) -> Noun {
    match opening.kind.as_deref() {
        Some("window") => Noun::Window,
        Some("door") => Noun::Door,
        Some(kind) if kind.contains("window") => Noun::Window,
        Some(kind) if kind.contains("door") => Noun::Door,
        _ => Noun::Opening,
    }
}

fn form(opening: &Opening) -> Option<Form> {
    match opening.shape {
        OpeningShape::Rectangle { .. } => Some(Form::Square),
        OpeningShape::Arched { .. } => Some(Form::Arched),
        OpeningShape::Circle { .. } => Some(Form::Round),
        OpeningShape::Polygon { .. } => None,
    }
}

/// The letter before the number of an opening.
fn letter(noun: Noun) -> &'static str {
    match noun {
        Noun::Window => "W",
        Noun::Door => "D",
        Noun::Opening => "O",
    }
}

impl<'a> Like<'a> {
    /// Looks through a project. The last is the one with the highest number behind its letters, as
    /// openings are numbered in the order they are entered; the chosen one comes before it.
    pub(super) fn find(context: &Context<'a>, of: Noun, shape: Form) -> Self {
        let project = context.project;
        let mut like = Self::default();
        let mut numbers: [Option<u32>; 3] = [None; 3];
        // From the back, so that the first met are nearly always the highest and the rest is passed by.
        // Walls and openings lie all over the memory: three passes that do little fetch them side by
        // side, where one that does all would wait for each.
        let walls: Vec<&[Opening]> = project.walls.iter().rev().map(|w| &*w.openings).collect();
        let openings = walls.into_iter().flat_map(|openings| openings.iter().rev());
        let named: Vec<(&str, &Opening)> = openings.map(|o| (o.id.as_str(), o)).collect();
        for (id, opening) in named {
            let (letters, number) = numbered(id);
            if letters == letter(of) {
                like.highest = like.highest.max(number.unwrap_or(1));
            }
            let number = number.unwrap_or(0);
            let [any, noun_of, same] = &mut numbers;
            let is_higher = |known: &Option<u32>| known.is_none_or(|known| number > known);
            if is_higher(any) {
                *any = Some(number);
                like.any = Some(opening);
            }
            if !(is_higher(noun_of) || is_higher(same)) || noun(opening) != of {
                continue;
            }
            if is_higher(noun_of) {
                *noun_of = Some(number);
                like.noun = Some(opening);
            }
            if is_higher(same) && form(opening) == Some(shape) {
                *same = Some(number);
                like.same = Some(opening);
            }
        }
        let chosen = context.wall.and_then(|at| project.walls.get(at));
        let chosen = chosen.and_then(|wall| wall.openings.get(context.opening?));
        if let Some(chosen) = chosen {
            like.any = Some(chosen);
            if noun(chosen) == of {
                like.noun = Some(chosen);
                if form(chosen) == Some(shape) {
                    like.same = Some(chosen);
                }
            }
        }
        like
    }

    /// The next free name of a noun: `W3`.
    pub(super) fn id(&self, of: Noun) -> Name {
        eco_format!("{}{}", letter(of), self.highest.saturating_add(1))
    }
}

/// The face that new walls have on a side, without insets: as the last wall that has one there; else
/// the first background, and the first build-up outside, the second or the first inside.
///
/// # Errors
/// In words, what the project lacks.
pub(super) fn face(project: &Project, side: Side) -> Result<Face, EcoString> {
    if let Some(face) = project.walls.iter().rev().find_map(|wall| wall.face(side)) {
        return Ok(Face {
            inset: None,
            ..face.clone()
        });
    }
    let background = project.backgrounds.keys().next().cloned();
    let mut build_ups = project.build_ups.keys();
    let first = build_ups.next();
    let build_up = match side {
        Side::Outside => first,
        Side::Inside => build_ups.next().or(first),
    };
    let rain: Option<Rain> = None;
    match (background, build_up) {
        (Some(background), Some(build_up)) => Ok(Face {
            background,
            build_up: build_up.clone(),
            inset: None,
            rain,
            facing: None,
            shaded: None,
        }),
        (None, _) => Err("the project has no background to plaster on; add one first".into()),
        (_, None) => Err("the project has no build-up of coats; add one first".into()),
    }
}
