//! What each command does. Not here: its words and keys (see `command`).

use super::moves::{self, Move};
use super::{alter, entry_line, fields, make, on_site, outlook, popups, saving, try_edit, why};
use crate::command::{Id, command};
use crate::doc::Label;
use crate::effect::Effect;
use crate::state::{Focus, Part, Popup, Screen, State, Total};
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::form::Subject;

/// Does a command, or says why it cannot be done now.
#[allow(clippy::too_many_lines, reason = "one arm a command")]
pub(super) fn run(state: &mut State, id: Id) -> Vec<Effect> {
    state.last = Some(id);
    if let Err(why) = (command(id).enabled)(state) {
        state.complain(why);
        return Vec::new();
    }
    match id {
        Id::Help => popups::help(state),
        Id::Commands => popups::commands(state),
        Id::Cautions => popups::cautions(state),
        Id::Accept => return popups::accept(state),
        Id::Close => popups::close(state),
        Id::Unfold => why::unfold(state),
        Id::Fold => why::fold(state),
        Id::Why => why::of_chosen(state),
        Id::WhyAny => state.popups.push(Popup::Totals { row: 0 }),

        Id::Quit => return saving::quit(state),
        Id::Save => return saving::save(state, false),
        Id::SaveAs => saving::ask_for_file(state, false),
        Id::Suspend => return vec![Effect::Suspend],
        Id::Redraw => return vec![Effect::Redraw],
        Id::Mouse => {
            state.mouse = !state.mouse;
            state.drag = None;
            state.say(if state.mouse {
                "The mouse chooses, drags openings and turns lists now; hold Shift to select text"
            } else {
                "The mouse is left to the terminal"
            });
            return vec![Effect::Mouse(state.mouse)];
        }
        Id::CopyFigures => return vec![Effect::Copy(figures(state))],
        Id::SetMark => {
            state.set_mark();
            state.say("Changes are counted from here on");
        }
        Id::Units => {
            let (units, words) = match state.units() {
                UnitSystem::Us => (UnitSystem::Metric, "metric units"),
                UnitSystem::Metric => (UnitSystem::Us, "feet, yards and pounds"),
            };
            let label = label(state, ecow::eco_format!("figures in {words}"));
            let effects = try_edit(state, label, |project| {
                project.units = units;
                Ok(())
            });
            state.say(ecow::eco_format!(
                "The project is in {words} now: figures, and what a bare number means. What was typed stays"
            ));
            return effects;
        }
        Id::Undo => return undo(state),
        Id::Redo => return redo(state),

        Id::Walls => moves::screen(state, Screen::Walls),
        Id::Plan => moves::screen(state, Screen::Plan),
        Id::Coats => moves::screen(state, Screen::Coats),
        Id::Stores => moves::screen(state, Screen::Stores),
        Id::Problems => moves::screen(state, Screen::Problems),
        Id::Soils => moves::screen(state, Screen::Soils),
        Id::Order => moves::screen(state, Screen::Order),
        Id::Card => moves::screen(state, Screen::Card),
        Id::Options => moves::screen(state, Screen::Options),
        Id::Chances => moves::screen(state, Screen::Chances),
        Id::Days => moves::screen(state, Screen::Days),
        Id::NextProblem => next_problem(state),
        Id::NextPart | Id::PreviousPart => moves::next_part(state),
        Id::Enter => entry_line::open(state),

        Id::Up => moves::rows(state, Move::Up),
        Id::Down => moves::rows(state, Move::Down),
        Id::PageUp => moves::rows(state, Move::PageUp),
        Id::PageDown => moves::rows(state, Move::PageDown),
        Id::First => moves::rows(state, Move::First),
        Id::Last => moves::rows(state, Move::Last),

        Id::Open => match state.screen {
            Screen::Problems => moves::go_to_problem(state, state.problems_row),
            Screen::Plan => moves::screen(state, Screen::Walls),
            _ if state.subject().is_some() => state.focus = Focus::Fields,
            _ => {}
        },
        Id::Thicker => return alter::thickness(state, true),
        Id::Thinner => return alter::thickness(state, false),
        Id::Look => state.walls.look = state.walls.look.next(),
        Id::Tick => tick(state),
        Id::TickAll => tick_all(state),
        Id::Add => return alter::add(state),
        Id::MakeMix => return make::mix(state),
        Id::NewBlend => return make::blend(state),
        Id::Base => outlook::base(state),
        Id::TakeUp => return outlook::take_up(state),
        Id::Record if state.screen == Screen::Days => return on_site::dried(state),
        Id::Record => return outlook::record(state),
        Id::Prepare => return on_site::prepare(state),
        Id::Came => return outlook::delivery(state),
        Id::Curve => state.curve = state.curve.next(state.project()),
        Id::NewPanel => return make::panel(state),
        Id::WordsDown => moves::words(state, true),
        Id::WordsUp => moves::words(state, false),
        Id::Copy => return alter::copy(state),
        Id::Mirror => return alter::mirror(state),
        Id::Repeat => popups::repeat(state),
        Id::Remove => return alter::remove(state),
        Id::Earlier => return alter::shift(state, true),
        Id::Later => return alter::shift(state, false),
        Id::Filter => popups::filter(state),
        Id::Sort => {
            state.walls.sort = state.walls.sort.next();
            state.refresh();
            let words = state.walls.sort.words();
            state.say(ecow::eco_format!("Walls stand {words}"));
        }

        Id::Edit => return fields::begin(state, None),
        Id::FieldUp => state.field = Move::Up.from(state.field, state.rows().len()),
        Id::FieldDown => state.field = Move::Down.from(state.field, state.rows().len()),
        Id::FieldPageUp => state.field = Move::PageUp.from(state.field, state.rows().len()),
        Id::FieldPageDown => state.field = Move::PageDown.from(state.field, state.rows().len()),
        Id::FieldNext => return fields::next_choice(state),
        Id::FieldClear => return fields::clear(state),
        Id::FieldBack => state.focus = Focus::List,

        Id::Commit | Id::CommitNext | Id::CommitDown => return fields::commit(state, Move::Down),
        Id::CommitPrevious | Id::CommitUp => return fields::commit(state, Move::Up),
        Id::Restore => fields::restore(state),

        Id::EntryDone => return entry_line::done(state),
        Id::EntryComplete => return entry_line::complete(state),
        Id::EntryBefore => entry_line::again(state, true),
        Id::EntryAfter => entry_line::again(state, false),
        Id::EntryLeave => entry_line::leave(state),
    }
    Vec::new()
}

/// A label for a change of what is chosen.
pub(super) fn label(state: &State, words: impl Into<ecow::EcoString>) -> Label {
    Label {
        words: words.into(),
        before: state.subject(),
        after: state.subject(),
        merge: None,
    }
}

fn undo(state: &mut State) -> Vec<Effect> {
    state.typing = None;
    let Some((step, before)) = state.doc.undo() else {
        return Vec::new();
    };
    let effects = super::changed(state, before);
    if let Some(subject) = step.before {
        moves::choose(state, subject);
    }
    state.refresh();
    state.say(ecow::eco_format!("Undone: {}", step.label));
    effects
}

fn redo(state: &mut State) -> Vec<Effect> {
    state.typing = None;
    let Some((step, before)) = state.doc.redo() else {
        return Vec::new();
    };
    let effects = super::changed(state, before);
    if let Some(subject) = step.after {
        moves::choose(state, subject);
    }
    state.refresh();
    state.say(ecow::eco_format!("Done again: {}", step.label));
    effects
}

fn next_problem(state: &mut State) {
    let count = state.doc.problems().len();
    if count == 0 {
        state.say("Nothing is refused and nothing is doubtful");
        return;
    }
    // From the list it goes to the chosen one first, and on from there.
    let row = match state.problem_seen {
        _ if state.screen == Screen::Problems => state.problems_row,
        Some(seen) => (seen + 1) % count,
        None => 0,
    };
    moves::go_to_problem(state, row);
}

fn key_of(state: &State, subject: Subject) -> Option<(ecow::EcoString, Option<ecow::EcoString>)> {
    let project = state.project();
    match subject {
        Subject::Wall(wall) => Some((project.walls.get(wall)?.id.clone(), None)),
        Subject::Opening { wall, opening } => {
            let wall = project.walls.get(wall)?;
            Some((
                wall.id.clone(),
                Some(wall.openings.get(opening)?.id.clone()),
            ))
        }
        _ => None,
    }
}

fn tick(state: &mut State) {
    let Some(key) = state.subject().and_then(|subject| key_of(state, subject)) else {
        state.complain("Walls and openings can be ticked, pockets cannot");
        return;
    };
    if !state.walls.ticked.remove(&key) {
        state.walls.ticked.insert(key);
    }
    // On to the next of its kind.
    match state.walls.part {
        Part::Opening(at)
            if state
                .wall()
                .is_some_and(|wall| at + 1 < wall.openings.len()) =>
        {
            state.walls.part = Part::Opening(at + 1);
        }
        Part::Wall => {
            let next = state.walls.shown_at(state.walls.wall).map(|at| at + 1);
            if let Some(wall) = next.and_then(|at| state.walls.shown.get(at)) {
                state.walls.wall = *wall;
            }
        }
        Part::Opening(_) | Part::Pocket(_) => {}
    }
    state.field = state.first_size();
}

/// Ticks the walls of the list, or the openings of the wall when one of them is chosen; where anything is
/// ticked already, takes all ticks away.
fn tick_all(state: &mut State) {
    let of: Vec<Subject> = match state.subject() {
        Some(Subject::Opening { wall, .. }) => {
            let openings = state.wall().map_or(0, |wall| wall.openings.len());
            (0..openings)
                .map(|opening| Subject::Opening { wall, opening })
                .collect()
        }
        _ => state
            .walls
            .shown
            .iter()
            .map(|wall| Subject::Wall(*wall))
            .collect(),
    };
    let keys: Vec<_> = of
        .into_iter()
        .filter_map(|subject| key_of(state, subject))
        .collect();
    if state.walls.ticked.is_empty() {
        state.walls.ticked.extend(keys);
    } else {
        state.walls.ticked.clear();
    }
    let count = state.walls.ticked.len();
    state.say(ecow::eco_format!("{count} ticked"));
}

/// The totals as text for the clipboard.
fn figures(state: &State) -> String {
    let units = state.units();
    let mut out = format!("{}\n", state.project().name);
    for total in Total::ALL {
        let shown = total.shown(state.doc.headline(), units);
        out.extend([total.label(), "\t", &shown, "\n"]);
    }
    out
}
