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
            let of = match subject {
                Some(Subject::BuildUp(build_up) | Subject::Coat { build_up, .. }) => build_up,
                _ => 0,
            };
            (drawing::build_up(project, of), subject)
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

/// Paints the drawing.
pub(super) fn paint(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) {
    let (drawing, chosen) = picture(state);
    if drawing.bounds.is_none() {
        let words = match state.screen() {
            Screen::Plan => {
                "The walls do not form a ring, so that there is no plan to draw. A plan is drawn when they stand in order round the building and close it: n, then for instance: plan 36' x 24' high 9' thick 18\""
            }
            Screen::Walls if state.project().walls.is_empty() => {
                "No wall yet. Type into the line below, for instance: plan 36' x 24' high 9' thick 18\""
            }
            _ => "",
        };
        for (y, line) in
            (area.y + 1..area.bottom()).zip(lines(words, usize::from(area.width.saturating_sub(4))))
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
    let title = title(state, chosen);
    let mut own = area;
    if !title.is_empty() && area.height > 4 {
        pen.put(
            buffer,
            area.x + 1,
            area.y,
            area.width.saturating_sub(1),
            &title,
            pen.theme.heading,
        );
        own = Rect::new(area.x, area.y + 1, area.width, area.height - 1);
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
        (Screen::Plan, Subject::Wall(_)) | (Screen::Coats, Subject::Coat { .. }) => true,
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
