//! A section through a build-up: a part of the background, dubbing out, and each coat to scale.
//! Not here: the wall under it.

use super::number::{or_nothing, thickness};
use super::{DimensionLine, Drawing, Edge, Label, Point, Role, Stand};
use crate::form::Subject;
use crate::project::{Coat, Project, Side};
use ecow::{EcoString, eco_format};

/// A section through a build-up, lying on its back: the background at the bottom, the last coat on top.
///
/// The background is that of the first wall with a face of this build-up, and so is the dubbing out,
/// drawn as the fill of hollows with its mean depth. Coats are named and their finished, dry thickness
/// given; one without thickness is named and not drawn.
///
/// A build-up that is not there gives an empty drawing.
pub fn build_up(project: &Project, build_up: usize) -> Drawing {
    let Some((name, coats)) = project.build_ups.get_index(build_up) else {
        return Drawing::default();
    };
    let background = background(project, name);
    let dubbing = or_nothing(
        background
            .and_then(|name| project.backgrounds.get(name))
            .and_then(|background| background.dubbing_out.as_ref()),
    );
    let thick: Vec<f64> = coats
        .iter()
        .map(|coat| or_nothing(Some(&coat.thickness)))
        .collect();
    let total: f64 = thick.iter().sum();
    let all = total + 2.0 * dubbing;
    if all <= 0.0 {
        return Drawing::nothing("no coat has a thickness");
    }
    let mut drawing = Drawing::default();
    let below = 2.0 * dubbing + all * SHARE_OF_BACKGROUND;
    let wide = (total + below) * WIDE;
    let hollows = hollows(wide, dubbing);
    under(&mut drawing, &hollows, [wide, below], dubbing);
    let words = background.cloned().unwrap_or_else(|| "background".into());
    let number = background.and_then(|name| project.backgrounds.get_index_of(name));
    let of = number.map(Subject::Background);
    let print = |mm: f64| thickness(mm, project.units);
    label(
        &mut drawing,
        [wide, f64::midpoint(-below, -2.0 * dubbing)],
        words,
        40,
        of,
    );
    if dubbing > 0.0 {
        let words = eco_format!("dubbing out {}", print(dubbing));
        label(&mut drawing, [wide, -dubbing], words, 50, None);
    }
    let mut from = 0.0;
    for (i, (coat, thick)) in coats.iter().zip(&thick).enumerate() {
        let to = from + thick;
        let of = Subject::Coat { build_up, coat: i };
        let role = Role::Coat(u8::try_from(i).unwrap_or(u8::MAX));
        if to > from {
            let ring = vec![[0.0, from], [wide, from], [wide, to], [0.0, to]];
            drawing.fill(role, ring, Some(of));
            drawing.stroke(role, vec![[0.0, to], [wide, to]], false, Some(of));
        }
        let words = words_of(coat, *thick, &print);
        label(
            &mut drawing,
            [wide, f64::midpoint(from, to)],
            words,
            80,
            Some(of),
        );
        from = to;
    }
    drawing.dimensions.push(DimensionLine {
        name: "coats together",
        from: [0.0, 0.0],
        to: [0.0, total],
        edge: Edge::Left,
        row: 0,
        text: print(total),
        weight: 60,
        of: Some(Subject::BuildUp(build_up)),
        only_chosen: false,
    });
    drawing.bounds = Some([0.0, -below, wide, total]);
    drawing
}

/// How much of the background is drawn under its hollows, of all that lies on it.
const SHARE_OF_BACKGROUND: f64 = 0.3;

/// Width of the section, of its height.
const WIDE: f64 = 1.25;

/// How many hollows are drawn across: whole, so that their mean is the one given.
const HOLLOWS: f64 = 3.0;

fn words_of(coat: &Coat, mm: f64, print: &dyn Fn(f64) -> EcoString) -> EcoString {
    eco_format!("{} {}", coat.coat, print(mm))
}

/// The surface of an uneven background whose hollows are so deep in the mean.
fn hollows(wide: f64, mean: f64) -> Vec<Point> {
    const PIECES: u32 = 40;
    (0..=PIECES)
        .map(|i| {
            let share = f64::from(i) / f64::from(PIECES);
            let turn = core::f64::consts::TAU * HOLLOWS * share;
            [wide * share, -mean * (1.0 - libm::sin(turn))]
        })
        .collect()
}

/// The background and what fills its hollows.
fn under(drawing: &mut Drawing, hollows: &[Point], [wide, below]: [f64; 2], dubbing: f64) {
    let mut ring = vec![[wide, -below], [0.0, -below]];
    let broken = ring.clone();
    ring.extend(hollows);
    drawing.fill(Role::Background, ring, None);
    if dubbing > 0.0 {
        let mut ring = vec![[wide, 0.0], [0.0, 0.0]];
        ring.extend(hollows);
        drawing.fill(Role::DubbingOut, ring, None);
        let line = vec![[0.0, 0.0], [wide, 0.0]];
        drawing.stroke(Role::DubbingOut, line, false, None);
    }
    drawing.stroke(Role::Break, broken, false, None);
    drawing.stroke(Role::Background, hollows.to_vec(), false, None);
}

fn label(drawing: &mut Drawing, at: Point, text: EcoString, weight: u8, of: Option<Subject>) {
    drawing.labels.push(Label {
        at,
        text,
        stand: Stand::Beside,
        weight,
        of,
        names: true,
        only_marked: false,
    });
}

/// The background of the first face with this build-up.
fn background<'a>(project: &'a Project, build_up: &str) -> Option<&'a EcoString> {
    let sides = [Side::Outside, Side::Inside];
    project
        .walls
        .iter()
        .flat_map(|wall| sides.into_iter().filter_map(|side| wall.face(side)))
        .find(|face| face.build_up == build_up)
        .map(|face| &face.background)
}
