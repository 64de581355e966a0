//! The list at the left: walls with their openings, build-ups with their coats, the stores, or what is
//! wrong. Only the rows that are seen are made.

mod days;
mod yard;

use super::{Pen, over};
use crate::State;
use crate::command::Id;
use crate::state::{Focus, Screen, WallRow};
use crate::text::lines;
use ecow::{EcoString, eco_format};
use hodful_quantities::print;
use hodful_quantities::units::Area;
use hodful_takeoff::Severity;
use hodful_takeoff::form::Subject;
use hodful_takeoff::project::{OpeningShape, Wall};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Modifier;

/// The first row shown, so that the chosen one is in sight: as far down as its place among all.
pub(crate) fn top(chosen: usize, rows: usize, high: usize) -> usize {
    if rows <= high || high == 0 {
        return 0;
    }
    // The chosen row stands at a third, unless an end of the list is near.
    chosen.saturating_sub(high / 3).min(rows - high)
}

/// The part of the list under its heading, where the rows stand.
pub(crate) fn rows_area(area: Rect) -> Rect {
    let high = area.height.saturating_sub(1);
    Rect::new(area.x, area.y.saturating_add(1), area.width, high).intersection(area)
}

/// Columns of a name that stay, whatever stands at the right of it.
const LEAST_NAME: usize = 6;

/// One row as it is shown.
struct Row {
    indent: u16,
    ticked: bool,
    left: EcoString,
    right: EcoString,
    worst: Option<Severity>,
    heading: bool,
}

/// Paints the list.
pub(super) fn paint(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) {
    match state.screen() {
        Screen::Problems => return problems(state, pen, area, buffer),
        Screen::Days => return days::paint(state, pen, area, buffer),
        _ => {}
    }
    let heading = heading(state);
    pen.put(
        buffer,
        area.x,
        area.y,
        area.width,
        &heading,
        pen.theme.heading.add_modifier(Modifier::UNDERLINED),
    );
    let rows = rows_area(area);
    let (len, chosen) = (state.list_len(), state.list_row());
    let coats = state.coat_rows();
    let stores = state.store_rows();
    let own = state.page_rows();
    if len == 0 {
        let words = nothing(state);
        for (y, line) in (rows.y..rows.bottom()).zip(lines(&words, usize::from(rows.width))) {
            pen.put(buffer, rows.x, y, rows.width, &line, pen.theme.dim);
        }
        return;
    }
    let first = top(chosen, len, usize::from(rows.height));
    for (y, at) in (rows.y..rows.bottom()).zip(first..len) {
        let row = match state.screen() {
            Screen::Walls => state.wall_row_at(at).and_then(|row| wall_row(state, row)),
            Screen::Coats => coats.get(at).and_then(|subject| coat_row(state, *subject)),
            Screen::Stores => stores
                .get(at)
                .and_then(|subject| store_row(state, *subject)),
            Screen::Soils | Screen::Order | Screen::Card | Screen::Options | Screen::Chances => {
                own.get(at).and_then(|subject| yard::row(state, *subject))
            }
            Screen::Plan | Screen::Problems | Screen::Days => None,
        };
        if let Some(row) = row {
            paint_row(
                state,
                pen,
                Rect::new(rows.x, y, rows.width, 1),
                &row,
                at == chosen,
                buffer,
            );
        }
    }
}

fn paint_row(state: &State, pen: &Pen, area: Rect, row: &Row, chosen: bool, buffer: &mut Buffer) {
    let theme = &pen.theme;
    let (sign, style) = pen.mark(row.worst);
    let y = area.y;
    let own = if row.heading {
        theme.heading
    } else {
        theme.text
    };
    pen.put(
        buffer,
        area.x,
        y,
        1,
        if chosen { ">" } else { " " },
        theme.heading,
    );
    pen.put(
        buffer,
        area.x + 1,
        y,
        1,
        if row.ticked {
            pen.sign("✓", "x")
        } else {
            " "
        },
        if row.ticked { theme.change } else { theme.text },
    );
    let x = area.x + 2 + row.indent;
    let own_wide = crate::text::width(&row.left)
        + crate::text::width(&row.right)
        + usize::from(row.indent)
        + 6;
    // The name comes before what stands at the right of it, but for figures.
    let figure = state.screen() == Screen::Walls;
    let name = usize::from(row.indent) + 6 + crate::text::width(&row.left).min(LEAST_NAME);
    let no_room = name + crate::text::width(&row.right) > usize::from(area.width);
    let right_text = if no_room || !figure && own_wide > usize::from(area.width) {
        ""
    } else {
        row.right.as_str()
    };
    let right = pen.put_right(
        buffer,
        Rect::new(area.x, y, area.width.saturating_sub(2), 1),
        y,
        right_text,
        theme.dim,
    );
    let room = area.right().saturating_sub(x + right + 3);
    pen.put(buffer, x, y, room, &row.left, own);
    pen.put(buffer, area.right().saturating_sub(1), y, 1, sign, style);
    if chosen {
        let style = if state.focus() == Focus::List {
            theme.selected
        } else {
            theme.chosen
        };
        over(buffer, area, style);
    }
}

/// Why there is nothing in the list.
fn nothing(state: &State) -> EcoString {
    let key = |id| state.keymap().first(id);
    match state.screen() {
        Screen::Walls if !state.walls().filter.is_empty() => eco_format!(
            "No wall has '{}' in it. {} changes the letters.",
            state.walls().filter,
            key(Id::Filter)
        ),
        Screen::Walls => eco_format!(
            "Nothing yet. Press {} and type a plan, a wall or a gable.",
            key(Id::Enter)
        ),
        _ => "Nothing yet.".into(),
    }
}

fn heading(state: &State) -> EcoString {
    match state.screen() {
        Screen::Walls => {
            let walls = state.walls();
            let all = state.project().walls.len();
            let mut words = if walls.filter.is_empty() {
                eco_format!("{all} {}", if all == 1 { "wall" } else { "walls" })
            } else {
                eco_format!("{} of {all} with '{}'", walls.shown.len(), walls.filter)
            };
            if !walls.ticked.is_empty() {
                words.push_str(&eco_format!(", {} ticked", walls.ticked.len()));
            }
            words
        }
        Screen::Coats => "Build-ups".into(),
        Screen::Stores => "Stores".into(),
        Screen::Plan => "Plan".into(),
        Screen::Problems => "Problems".into(),
        Screen::Soils => "Soils and blends".into(),
        Screen::Order => "To buy, from whom, when".into(),
        Screen::Card => "Mixes".into(),
        Screen::Options => "Options".into(),
        Screen::Chances => "Unsure, done, delivered".into(),
        Screen::Days => "Days".into(),
    }
}

fn wall_row(state: &State, row: WallRow) -> Option<Row> {
    let project = state.project();
    let ticked = |id: &Wall, opening: Option<&EcoString>| {
        let ticked = &state.walls().ticked;
        !ticked.is_empty() && ticked.contains(&(id.id.clone(), opening.cloned()))
    };
    Some(match row {
        WallRow::Wall(at) => {
            let wall = project.walls.get(at)?;
            let mut left = wall.id.clone();
            if let Some(name) = &wall.name {
                left.push(' ');
                left.push_str(name);
            }
            if let Some(count) = wall.count.filter(|count| *count != 1) {
                left.push_str(&eco_format!(" ×{count}"));
            }
            let surface = state.wall_surface(at);
            let right = if surface > 0.0 {
                let area = Area {
                    value: surface,
                    ..Area::default()
                };
                eco_format!("{}", print::area(area, state.units()))
            } else {
                EcoString::new()
            };
            Row {
                indent: 0,
                ticked: ticked(wall, None),
                left,
                right,
                worst: state.located().worst(Subject::Wall(at)),
                heading: false,
            }
        }
        WallRow::Opening(at, opening) => {
            let wall = project.walls.get(at)?;
            let of = wall.openings.get(opening)?;
            let mut left = of.id.clone();
            if let Some(kind) = &of.kind {
                left.push(' ');
                left.push_str(kind);
            }
            if let Some(count) = of.count.filter(|count| *count != 1) {
                left.push_str(&eco_format!(" ×{count}"));
            }
            let right = match &of.shape {
                OpeningShape::Rectangle { width, height } => {
                    eco_format!("{} x {}", width.text(), height.text())
                }
                OpeningShape::Arched { width, .. } => eco_format!("{} arch", width.text()),
                OpeningShape::Circle { diameter } => eco_format!("{} round", diameter.text()),
                OpeningShape::Polygon { .. } => EcoString::new(),
            };
            Row {
                indent: 2,
                ticked: ticked(wall, Some(&of.id)),
                left,
                right,
                worst: state
                    .located()
                    .worst(Subject::Opening { wall: at, opening }),
                heading: false,
            }
        }
        WallRow::Pocket(at, pocket) => {
            let of = project.walls.get(at)?.pockets.get(pocket)?;
            Row {
                indent: 2,
                ticked: false,
                left: eco_format!("pocket {}", of.face.word()),
                right: eco_format!("{} x {}", of.width.text(), of.height.text()),
                worst: state.located().worst(Subject::Pocket { wall: at, pocket }),
                heading: false,
            }
        }
    })
}

fn coat_row(state: &State, subject: Subject) -> Option<Row> {
    let project = state.project();
    let worst = state.located().worst(subject);
    match subject {
        Subject::BuildUp(at) => {
            let (name, coats) = project.build_ups.get_index(at)?;
            Some(Row {
                indent: 0,
                ticked: false,
                left: name.clone(),
                right: eco_format!("{} coats", coats.len()),
                worst,
                heading: true,
            })
        }
        Subject::Coat { build_up, coat } => {
            let (_, coats) = project.build_ups.get_index(build_up)?;
            let of = coats.get(coat)?;
            Some(Row {
                indent: 2,
                ticked: false,
                left: of.coat.clone(),
                right: eco_format!("{}", print::thickness(of.thickness.value(), project.units)),
                worst,
                heading: false,
            })
        }
        _ => None,
    }
}

fn store_row(state: &State, subject: Subject) -> Option<Row> {
    let project = state.project();
    let worst = state.located().worst(subject);
    let row = |indent: u16, left: EcoString, right: EcoString| {
        Some(Row {
            indent,
            ticked: false,
            left,
            right,
            worst,
            heading: indent == 0,
        })
    };
    match subject {
        Subject::Project => row(0, "project".into(), EcoString::new()),
        Subject::Background(at) => {
            let (name, _) = project.backgrounds.get_index(at)?;
            row(1, name.clone(), "background".into())
        }
        Subject::Mix(at) => {
            let (name, _) = project.mixes.get_index(at)?;
            row(1, name.clone(), "mix".into())
        }
        Subject::Material(at) => {
            let (name, of) = project.materials.get_index(at)?;
            row(1, name.clone(), of.kind.word().into())
        }
        Subject::Panel { mix, panel } => {
            let (_, of) = project.mixes.get_index(mix)?;
            let of = of.test_panels.get(panel)?;
            let day = of.date.as_ref().map_or("", |day| day.text());
            row(3, eco_format!("test panel {}", panel + 1), day.into())
        }
        Subject::Package { material, package } => {
            let (_, of) = project.materials.get_index(material)?;
            let package = of.packages.get(package)?;
            row(3, package.name.clone(), package.holds.text().into())
        }
        Subject::Mixer => {
            let holds = project
                .mixer
                .as_ref()
                .map_or("none", |mixer| mixer.working_volume.text());
            row(0, "mixer".into(), holds.into())
        }
        _ => None,
    }
}

/// What is refused and doubtful, each over as many rows as it takes, the chosen one in sight.
fn problems(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) {
    let (refused, doubtful) = super::counts(state);
    let words = if refused + doubtful == 0 {
        eco_format!("Nothing is refused and nothing is doubtful.")
    } else {
        eco_format!("{refused} refused (!), {doubtful} doubtful (?). Enter goes there.")
    };
    pen.put(
        buffer,
        area.x,
        area.y,
        area.width,
        &words,
        pen.theme.heading,
    );
    let wide = usize::from(area.width.saturating_sub(4));
    let chosen = state.problem_row();
    let high = usize::from(area.height.saturating_sub(1));
    let all = state.doc().problems();
    let of = |at: usize| -> Vec<EcoString> {
        let Some(problem) = all.get(at) else {
            return Vec::new();
        };
        let mut of = lines(&eco_format!("{problem}"), wide);
        if let Some(source) = problem.source.filter(|_| at == chosen) {
            of.extend(lines(&eco_format!("[{source}]"), wide));
        }
        of
    };
    // Begin as far above the chosen one as a third of the rows reaches.
    let mut first = chosen;
    let mut taken = 0;
    while first > 0 && taken + of(first - 1).len() <= high / 3 {
        first -= 1;
        taken += of(first).len();
    }
    let mut y = area.y + 1;
    for at in first..all.len() {
        if y >= area.bottom() {
            return;
        }
        let (sign, style) = pen.mark(all.get(at).map(|problem| problem.severity));
        let begin = y;
        for line in of(at) {
            if y >= area.bottom() {
                break;
            }
            let wide = area.width.saturating_sub(4);
            pen.put(buffer, area.x + 4, y, wide, &line, pen.theme.text);
            y += 1;
        }
        let cursor = if at == chosen { ">" } else { " " };
        pen.put(buffer, area.x, begin, 1, cursor, pen.theme.heading);
        pen.put(buffer, area.x + 2, begin, 1, sign, style);
        if at == chosen {
            over(
                buffer,
                Rect::new(area.x, begin, area.width, y - begin),
                pen.theme.selected,
            );
        }
    }
}
