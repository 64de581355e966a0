//! Drawing the state. Not here: changing it.

use crate::State;
use ratatui::Frame;

/// Draws everything.
pub fn draw(state: &State, frame: &mut Frame<'_>) {
    frame.render_widget(state.project().name.as_str(), frame.area());
}
