//! Choosing: rows, pages, parts, and going to a thing by what it is. Not here: changing anything.

use crate::state::{Focus, Look, Part, Popup, Screen, State, WallRow};
use ecow::EcoString;
use hodful_takeoff::form::{self, Row, Subject};
use hodful_takeoff::project::Side;

/// How far a page goes.
const PAGE: usize = 10;

/// Ways of moving among rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Move {
    Up,
    Down,
    PageUp,
    PageDown,
    First,
    Last,
}

impl Move {
    /// The row it leads to among some.
    pub(super) fn from(self, row: usize, rows: usize) -> usize {
        let last = rows.saturating_sub(1);
        match self {
            Self::Up => row.saturating_sub(1),
            Self::Down => (row + 1).min(last),
            Self::PageUp => row.saturating_sub(PAGE),
            Self::PageDown => (row + PAGE).min(last),
            Self::First => 0,
            Self::Last => last,
        }
    }
}

/// Moves among the rows of the popup, or of the list.
pub(super) fn rows(state: &mut State, by: Move) {
    let commands = super::popups::found_commands(state).len();
    let help = crate::view::help_lines(state).len();
    let text = crate::view::text_lines(state).len();
    match state.popups.last_mut() {
        Some(Popup::Help { top, .. }) => *top = by.from(*top, help),
        Some(Popup::Commands { row, .. }) => *row = by.from(*row, commands),
        Some(Popup::Totals { row }) => *row = by.from(*row, crate::state::Total::ALL.len()),
        Some(Popup::Why(why)) => {
            let rows = why.rows().len();
            why.row = by.from(why.row, rows);
        }
        Some(Popup::Ask(question)) => question.row = by.from(question.row, question.answers.len()),
        Some(Popup::Text { top, .. }) => *top = by.from(*top, text),
        Some(Popup::Prompt(_)) => {}
        None => {
            let row = by.from(state.list_row(), state.list_len());
            choose_row(state, row);
        }
    }
}

/// Chooses a row of the list of the page.
pub(super) fn choose_row(state: &mut State, row: usize) {
    state.typing = None;
    match state.screen {
        Screen::Walls => match state.wall_row_at(row) {
            Some(WallRow::Wall(wall)) => {
                state.walls.wall = wall;
                state.walls.part = Part::Wall;
            }
            Some(WallRow::Opening(wall, opening)) => {
                state.walls.wall = wall;
                state.walls.part = Part::Opening(opening);
            }
            Some(WallRow::Pocket(wall, pocket)) => {
                state.walls.wall = wall;
                state.walls.part = Part::Pocket(pocket);
            }
            None => {}
        },
        Screen::Coats => state.coats_row = row,
        Screen::Stores => state.stores_row = row,
        Screen::Problems => state.problems_row = row,
        Screen::Soils => state.yard.soils_row = row,
        Screen::Order => state.yard.order_row = row,
        Screen::Card => state.yard.card_row = row,
        Screen::Options => state.yard.options_row = row,
        Screen::Chances => state.yard.chances_row = row,
        Screen::Days => state.yard.days.row = row,
        Screen::Plan => {
            if let Some(wall) = state.walls.shown.get(row) {
                state.walls.wall = *wall;
                state.walls.part = Part::Wall;
            }
        }
    }
    state.yard.said_top = 0;
    state.field = state.first_size();
}

/// Goes on or back in what is said beside the list, by half of what is seen.
pub(super) fn words(state: &mut State, down: bool) {
    let Some((lines, high)) = crate::view::said_size(state) else {
        let title = state
            .subject()
            .map(|subject| form::title(state.project(), subject));
        let lines = crate::view::said_plainly(state);
        state
            .popups
            .push(Popup::text(title.unwrap_or_default(), lines));
        return;
    };
    let last = lines.saturating_sub(high);
    let step = (high / 2).max(1);
    state.yard.said_top = if down {
        (state.yard.said_top + step).min(last)
    } else {
        state.yard.said_top.min(last).saturating_sub(step)
    };
}

/// Goes to another page.
pub(super) fn screen(state: &mut State, screen: Screen) {
    state.screen = screen;
    // The file of weather may be another one since.
    state.yard.days.again = screen == Screen::Days;
    state.typing = None;
    state.focus = Focus::List;
    state.yard.said_top = 0;
    state.field = state.first_size();
}

/// Goes to the other part of the page.
pub(super) fn next_part(state: &mut State) {
    state.typing = None;
    state.focus = match state.focus {
        Focus::List if state.subject().is_some() => Focus::Fields,
        Focus::List | Focus::Fields | Focus::Entry => Focus::List,
    };
}

/// Chooses a thing, wherever it stands.
pub(super) fn choose(state: &mut State, subject: Subject) {
    let at = |rows: Vec<Subject>, subject: Subject| rows.iter().position(|row| *row == subject);
    state.typing = None;
    let before = (state.subject(), state.field);
    // What stands in the list of the page is chosen there.
    let here = if before.0 == Some(subject) {
        Some(state.list_row()).filter(|_| !state.page_rows().is_empty())
    } else {
        at(state.page_rows(), subject)
    };
    match subject {
        _ if here.is_some() => set_page_row(state, here.unwrap_or(0)),
        Subject::Wall(wall) => choose_wall(state, wall, Part::Wall),
        Subject::Opening { wall, opening } => choose_wall(state, wall, Part::Opening(opening)),
        Subject::Pocket { wall, pocket } => choose_wall(state, wall, Part::Pocket(pocket)),
        Subject::BuildUp(_) | Subject::Coat { .. } => {
            state.screen = Screen::Coats;
            state.coats_row = at(state.coat_rows(), subject).unwrap_or(0);
        }
        Subject::Project
        | Subject::Mixer
        | Subject::Background(_)
        | Subject::Mix(_)
        | Subject::Material(_)
        | Subject::Package { .. }
        | Subject::Panel { .. } => {
            state.screen = Screen::Stores;
            state.stores_row = at(state.store_rows(), subject).unwrap_or(0);
        }
        Subject::Blend(_)
        | Subject::Supplier(_)
        | Subject::Buying
        | Subject::Phase(_)
        | Subject::Alternative(_)
        | Subject::Alteration { .. }
        | Subject::Uncertain(_)
        | Subject::Done(_)
        | Subject::Delivered(_)
        | Subject::Work
        | Subject::Preparation(_)
        | Subject::Room(_)
        | Subject::Dried(_) => {
            state.screen = match subject {
                Subject::Work | Subject::Preparation(_) | Subject::Room(_) | Subject::Dried(_) => {
                    Screen::Days
                }
                Subject::Blend(_) => Screen::Soils,
                Subject::Alternative(_) | Subject::Alteration { .. } => Screen::Options,
                Subject::Uncertain(_) | Subject::Done(_) | Subject::Delivered(_) => Screen::Chances,
                _ => Screen::Order,
            };
            let row = at(state.page_rows(), subject).unwrap_or(0);
            set_page_row(state, row);
        }
    }
    if before.0 != Some(subject) {
        state.yard.said_top = 0;
    }
    state.field = match before {
        (Some(own), field) if own == subject => field,
        _ => state.first_size(),
    };
}

fn set_page_row(state: &mut State, row: usize) {
    match state.screen {
        Screen::Soils => state.yard.soils_row = row,
        Screen::Order => state.yard.order_row = row,
        Screen::Options => state.yard.options_row = row,
        Screen::Chances => state.yard.chances_row = row,
        Screen::Days => state.yard.days.row = row,
        _ => state.yard.card_row = row,
    }
}

fn choose_wall(state: &mut State, wall: usize, part: Part) {
    state.screen = Screen::Walls;
    if state.walls.shown_at(wall).is_none() {
        state.walls.filter = EcoString::new();
        state.refresh();
    }
    state.walls.wall = wall;
    state.walls.part = part;
    state.refresh();
}

/// Goes to a field of a thing.
pub(super) fn go(state: &mut State, subject: Subject, key: Option<&str>) {
    state.popups.clear();
    if key.is_some_and(|key| key.starts_with("soil.")) {
        state.screen = Screen::Soils;
    }
    choose(state, subject);
    state.focus = Focus::List;
    let key = match (key, subject) {
        (Some(key), _) => key,
        // What is wrong with an opening as a whole is mostly where it stands.
        (None, Subject::Opening { .. }) => "from_left",
        (None, _) => return,
    };
    let side = if key.starts_with("inside") {
        Some(Side::Inside)
    } else if key.starts_with("outside") {
        Some(Side::Outside)
    } else {
        None
    };
    if let Some(side) = side {
        state.walls.look = Look::Face(side);
    }
    let rows = state.rows();
    let nearest = |row: &Row| {
        row.key == key
            || key.starts_with(&format!("{}.", row.key))
            || row.key.starts_with(&format!("{key}."))
    };
    let found = rows
        .iter()
        .position(|row| row.key == key)
        .or_else(|| rows.iter().position(nearest));
    if let Some(field) = found {
        state.focus = Focus::Fields;
        state.field = field;
    }
}

/// Goes to a problem of the list.
pub(super) fn go_to_problem(state: &mut State, row: usize) {
    state.problems_row = row;
    state.problem_seen = Some(row);
    let Some(problem) = state.doc.problems().get(row) else {
        return;
    };
    let words = ecow::eco_format!("{problem}");
    if let Some((subject, key)) = form::find(state.project(), &problem.place) {
        go(state, subject, key.as_deref());
        state.complain(words);
    }
}
