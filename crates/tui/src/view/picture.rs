//! The drawing in the middle: a face, a section, a build-up, the plan. Not here: painting lines.

use super::Pen;
use crate::State;
use crate::sketch::Sketch;
use crate::state::{Look, Screen};
use crate::text::lines;
use crate::theme::{marker, sketch_styles};
use ecow::eco_format;
use hodful_takeoff::Severity;
use hodful_takeoff::drawing::{self, Cut, Drawing};
use hodful_takeoff::form::Subject;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::widgets::Widget;

/// The drawing, and what is chosen in it.
pub(crate) fn picture(state: &State) -> (Drawing, Option<Subject>) {
    let project = state.preview();
    match state.screen() {
        Screen::Plan => (
            state.plan().cloned().unwrap_or_default(),
            Some(Subject::Wall(state.walls().wall)),
        ),
        Screen::Coats => {
            let subject = state.subject();
            if let Some(curve) = state.curve_drawing() {
                return (curve.clone(), None);
            }
            let of = match subject {
                Some(Subject::BuildUp(build_up) | Subject::Coat { build_up, .. }) => build_up,
                _ => 0,
            };
            let mut drawing = drawing::build_up(project, of);
            // In a low window the names would stand anyhow; the list has them.
            if state.size().1 < 16 {
                drawing.labels.clear();
            }
            (drawing, subject)
        }
        Screen::Soils => {
            let subject = state.subject();
            let drawing = match subject {
                Some(Subject::Blend(at)) => state.blend(at).map(|(_, drawing)| drawing),
                _ => state.triangle(),
            };
            (drawing.cloned().unwrap_or_default(), subject)
        }
        Screen::Order | Screen::Card | Screen::Options | Screen::Chances | Screen::Days => {
            (Drawing::default(), None)
        }
        Screen::Walls | Screen::Stores | Screen::Problems => {
            let subject = state.pictured();
            let (wall, opening) = match subject {
                Some(Subject::Wall(wall) | Subject::Pocket { wall, .. }) => (wall, None),
                Some(Subject::Opening { wall, opening }) => (wall, Some(opening)),
                _ => return (Drawing::default(), None),
            };
            let drawing = match state.walls().look {
                Look::Face(side) => drawing::face(project, wall, side),
                Look::Level => drawing::section(project, wall, opening, Cut::Level),
                Look::Upright => drawing::section(project, wall, opening, Cut::Upright),
            };
            (drawing, subject)
        }
    }
}

/// The part of the picture that the drawing has: under its title, where there is one.
pub(crate) fn area(state: &State, area: Rect) -> Rect {
    let has_title = match state.screen() {
        Screen::Walls => state.pictured().is_some(),
        Screen::Coats => state.curve_drawing().is_some(),
        _ => false,
    };
    if has_title && area.height > 4 {
        Rect::new(area.x, area.y + 1, area.width, area.height - 1)
    } else {
        area
    }
}

/// Paints the drawing.
pub(super) fn paint(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) {
    let (drawing, chosen) = picture(state);
    if drawing.bounds.is_none() {
        let key = state.keymap().first(crate::command::Id::Enter);
        let words = match state.screen() {
            Screen::Plan => eco_format!(
                "The walls do not form a ring, so that there is no plan to draw. A plan is drawn when they stand in the list in order round the building and close it. Press {key} and type for instance: plan 36' x 24' high 9' thick 18\""
            ),
            Screen::Walls if state.project().walls.is_empty() => {
                "No wall yet. Type into the line below, for instance: plan 36' x 24' high 9' thick 18\"".into()
            }
            _ => ecow::EcoString::new(),
        };
        for (y, line) in (area.y + 1..area.bottom())
            .zip(lines(&words, usize::from(area.width.saturating_sub(4))))
        {
            pen.put(
                buffer,
                area.x + 2,
                y,
                area.width.saturating_sub(2),
                &line,
                pen.theme.dim,
            );
        }
        if !words.is_empty() {
            return;
        }
    }
    let own = self::area(state, area);
    if own != area {
        let title = title(state, chosen);
        pen.put(
            buffer,
            area.x + 1,
            area.y,
            area.width.saturating_sub(1),
            &title,
            pen.theme.heading,
        );
    }
    let (refused, doubtful) = wrong(state);
    let sketch = Sketch {
        drawing: &drawing,
        chosen,
        refused: &refused,
        doubtful: &doubtful,
        styles: &sketch_styles(pen.looks),
        marker: marker(pen.looks),
    };
    sketch.render(own, buffer);
}

fn title(state: &State, chosen: Option<Subject>) -> ecow::EcoString {
    let project = state.preview();
    let evaluation = state.doc().bench().evaluation();
    if let (Screen::Coats, Some(line)) = (state.screen(), state.curve.line(project, evaluation)) {
        let key = state.keymap().first(crate::command::Id::Curve);
        return eco_format!("{} of the whole job ({key}: next)", line.label());
    }
    let Some(Subject::Wall(wall) | Subject::Opening { wall, .. } | Subject::Pocket { wall, .. }) =
        chosen.filter(|_| state.screen() == Screen::Walls)
    else {
        return ecow::EcoString::new();
    };
    let key = state.keymap().first(crate::command::Id::Look);
    let id = project
        .walls
        .get(wall)
        .map(|wall| wall.id.clone())
        .unwrap_or_default();
    let look = state.walls().look.words();
    eco_format!("wall {id}, {look} ({key}: other side)")
}

/// What is refused and what is doubtful, for the marks in the drawing.
fn wrong(state: &State) -> (Vec<Subject>, Vec<Subject>) {
    let (mut refused, mut doubtful) = (Vec::new(), Vec::new());
    // Only what the drawing can show: the chosen wall and what is in it, or all walls on the plan.
    let here = |subject: &Subject| match (state.screen(), subject) {
        (Screen::Plan, Subject::Wall(_))
        | (Screen::Coats, Subject::Coat { .. })
        | (Screen::Soils, Subject::Material(_)) => true,
        (
            Screen::Walls,
            Subject::Wall(wall) | Subject::Opening { wall, .. } | Subject::Pocket { wall, .. },
        ) => *wall == state.walls().wall,
        _ => false,
    };
    for (subject, problem) in state.located().subjects.iter().zip(state.doc().problems()) {
        if here(subject) {
            match problem.severity {
                Severity::Refused => refused.push(*subject),
                Severity::Doubtful => doubtful.push(*subject),
            }
        }
    }
    (refused, doubtful)
}
