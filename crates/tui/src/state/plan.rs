//! The plan of the building, kept as long as the walls are the same: finding the rings of a great many
//! walls takes longer than drawing. Not here: finding them (see `hodful_takeoff::plan`).

use super::{Screen, State};
use hodful_takeoff::drawing::{self, Drawing, PlanOutline, PlanWall};
use hodful_takeoff::plan;
use hodful_takeoff::project::Project;
use std::sync::Arc;

impl State {
    /// The plan, when it is the page that is shown.
    pub fn plan(&self) -> Option<&Drawing> {
        self.plan.as_ref().map(|(_, drawing)| drawing)
    }

    /// Draws the plan anew when it is shown and its walls are others.
    pub(crate) fn replan(&mut self) {
        if self.screen != Screen::Plan {
            return;
        }
        let project = Arc::clone(self.preview());
        if !self
            .plan
            .as_ref()
            .is_some_and(|(of, _)| Arc::ptr_eq(of, &project))
        {
            let drawing = plan_of(&project);
            self.plan = Some((project, drawing));
        }
    }
}

/// The plan of a building from its walls: of the largest, when they make several.
fn plan_of(project: &Project) -> Drawing {
    let rings = plan::rings(&project.walls);
    let Some(ring) = rings.into_iter().max_by_key(|ring| ring.walls.len()) else {
        return Drawing::default();
    };
    let walls = ring
        .walls
        .into_iter()
        .map(|wall| PlanWall {
            wall: wall.wall,
            id: wall.id,
            middle: wall.middle,
            stretch: wall.outside,
        })
        .collect();
    let outline = PlanOutline {
        outer: ring.outside,
        inner: ring.inside,
        walls,
    };
    let mut drawing = drawing::plan(&outline, project.units);
    for of in &outline.walls {
        if let Some(wall) = project.walls.get(of.wall) {
            drawing::plan_openings(&mut drawing, wall, of.wall, &of.stretch);
        }
    }
    drawing
}
