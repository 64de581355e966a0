//! Everything the front end knows. Changed in [`crate::update`] only.

use crate::start::Start;
use hodful_takeoff::Project;
use std::sync::Arc;

/// Everything the front end knows.
#[derive(Debug)]
pub struct State {
    project: Arc<Project>,
}

impl State {
    /// The state to start with, and what must be done outside first.
    pub fn new(start: Start) -> (Self, Vec<crate::Effect>) {
        (Self { project: Arc::new(start.project) }, Vec::new())
    }

    /// The project as it is now.
    pub fn project(&self) -> &Arc<Project> {
        &self.project
    }
}
