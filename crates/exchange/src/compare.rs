//! Options and projects side by side. Not here: computing them.

use crate::line::{LineRow, key, line, si, unit};
use crate::problems::{ProblemRow, row};
use crate::write::plain_text;
use hodful_documents::Beside;
use hodful_takeoff::Problem;
use hodful_takeoff::compare::{Causes, Line, Table, WallChange, walls};
use hodful_takeoff::project::Name;
use serde::Serialize;
use std::collections::BTreeMap;
use std::iter::zip;

/// Projects or options side by side, in the International System.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CompareReport {
    /// `hodful-comparison`.
    pub format: &'static str,
    /// Version of this format.
    pub version: u32,
    /// What the project is called; the first of two.
    pub project: String,
    /// Which the others are held against.
    pub base: Option<String>,
    /// All that have figures, the base first.
    pub compared: Vec<String>,
    /// The figures.
    pub figures: Vec<FigureRow>,
    /// What makes the differences.
    pub causes: Vec<CausesRow>,
    /// What became of the walls.
    pub walls: Vec<WallRow>,
    /// Those that have no figures.
    pub refused: Vec<ProblemsOf>,
    /// What is doubtful in one and not in the base.
    pub warnings: Vec<ProblemsOf>,
}

/// One figure of each.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FigureRow {
    /// Which figure.
    #[serde(flatten)]
    pub line: LineRow,
    /// Of each, in the order of `compared`.
    pub of: Vec<ValueRow>,
}

/// One figure of one: `value`, `difference` to the base and `share` of the base, with the unit in the key.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ValueRow {
    /// Whose.
    pub name: String,
    /// Value and difference; nothing where it cannot be told.
    #[serde(flatten)]
    pub values: BTreeMap<String, Option<f64>>,
    /// The difference per value of the base; nothing where that is nothing.
    pub share: Option<f64>,
    /// Packages in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub packages: Option<String>,
}

/// What makes one difference.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CausesRow {
    /// Of which option or project.
    pub name: String,
    /// Which figure.
    #[serde(flatten)]
    pub line: LineRow,
    /// `from`, `to` and `difference`, with the unit in the key.
    #[serde(flatten)]
    pub values: BTreeMap<String, f64>,
    /// Terms that add up to the difference.
    pub terms: Vec<TermRow>,
}

/// One term of a difference.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TermRow {
    /// What makes it, in words.
    pub cause: &'static str,
    /// How much, with the unit in the key.
    #[serde(flatten)]
    pub amount: BTreeMap<String, f64>,
}

/// What became of a wall.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct WallRow {
    pub name: String,
    pub wall: String,
    /// `added`, `taken out` or `changed`.
    pub change: &'static str,
    pub surface_before_m2: Option<f64>,
    pub surface_m2: Option<f64>,
    pub fields: Vec<FieldRow>,
}

/// A field of a wall that is otherwise.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct FieldRow {
    pub part: String,
    pub field: String,
    pub from: Option<String>,
    pub to: Option<String>,
}

/// What is refused or doubtful in one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct ProblemsOf {
    pub name: String,
    pub problems: Vec<ProblemRow>,
}

/// One line of the CSV: one figure of one.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct CompareLine {
    pub figure: &'static str,
    pub build_up: String,
    pub coat: String,
    pub material: String,
    pub name: String,
    pub unit: &'static str,
    pub value: Option<f64>,
    pub difference: Option<f64>,
    pub share: Option<f64>,
    pub packages: String,
}

/// The lines of the CSV of what is compared.
pub fn compare_lines(of: &Beside<'_>) -> Vec<CompareLine> {
    let table = of.table();
    let mut lines = Vec::new();
    for row in &table.rows {
        let names = line(&row.line);
        let text = |of: &Option<String>| of.as_deref().map_or_else(String::new, plain_text);
        for (at, name) in table.names.iter().enumerate() {
            let si = |value: f64| si(&row.line, value);
            let words = row.words.get(at).cloned().flatten();
            lines.push(CompareLine {
                figure: names.figure,
                build_up: text(&names.build_up),
                coat: text(&names.coat),
                material: text(&names.material),
                name: plain_text(name),
                unit: unit(&row.line),
                value: row.values.get(at).copied().flatten().map(si),
                difference: row.difference(table.base, at).map(si),
                share: row.share(table.base, at),
                packages: words.map_or_else(String::new, |words| plain_text(&words)),
            });
        }
    }
    lines
}

/// What is compared, as a report.
pub fn compare(of: &Beside<'_>) -> CompareReport {
    let table = of.table();
    let base = of.base();
    let mut causes = Vec::new();
    let mut changes = Vec::new();
    for (at, (name, one)) in of.all.iter().enumerate().skip(1) {
        let each = of.causes(&table, at).into_iter();
        causes.extend(each.map(|(line, of)| causes_row(name, &line, &of)));
        if let Some((_, base)) = base {
            changes.extend(walls(base, one).into_iter().map(|of| wall(name, of)));
        }
    }
    let problems = |(name, problems): &(Name, Vec<Problem>)| ProblemsOf {
        name: name.to_string(),
        problems: problems.iter().map(row).collect(),
    };
    CompareReport {
        format: "hodful-comparison",
        version: 1,
        project: base.map_or_else(String::new, |(_, one)| one.project.name.to_string()),
        base: base.map(|(name, _)| name.to_string()),
        compared: of.all.iter().map(|(name, _)| name.to_string()).collect(),
        figures: figures(&table),
        causes,
        walls: changes,
        refused: of.refused.iter().map(problems).collect(),
        warnings: of.doubts.iter().map(problems).collect(),
    }
}

fn figures(table: &Table) -> Vec<FigureRow> {
    let rows = table.rows.iter().map(|row| {
        let si = |value: f64| si(&row.line, value);
        let each = zip(&table.names, &row.values).enumerate();
        let each = each.map(|(at, (name, value))| ValueRow {
            name: name.to_string(),
            values: BTreeMap::from([
                (key("value", &row.line), value.map(si)),
                (
                    key("difference", &row.line),
                    row.difference(table.base, at).map(si),
                ),
            ]),
            share: row.share(table.base, at),
            packages: row.words.get(at).cloned().flatten().map(String::from),
        });
        FigureRow {
            line: line(&row.line),
            of: each.collect(),
        }
    });
    rows.collect()
}

fn causes_row(name: &str, of: &Line, causes: &Causes) -> CausesRow {
    let terms = causes.terms.iter().map(|term| TermRow {
        cause: term.cause.words(),
        amount: BTreeMap::from([(key("amount", of), si(of, term.amount))]),
    });
    CausesRow {
        name: name.to_owned(),
        line: line(of),
        values: BTreeMap::from([
            (key("from", of), si(of, causes.from)),
            (key("to", of), si(of, causes.to)),
            (key("difference", of), si(of, causes.difference())),
        ]),
        terms: terms.collect(),
    }
}

fn wall(name: &str, of: WallChange) -> WallRow {
    let m2 = |mm2: Option<f64>| mm2.map(|mm2| si(&Line::Surface, mm2));
    let (wall, change, [before, now], fields) = match of {
        WallChange::Added { id, surface } => (id, "added", [None, surface], Vec::new()),
        WallChange::TakenOut { id, surface } => (id, "taken out", [surface, None], Vec::new()),
        WallChange::Changed {
            id,
            surfaces,
            fields,
        } => (id, "changed", surfaces, fields),
    };
    let fields = fields.into_iter().map(|field| FieldRow {
        part: field.part.into(),
        field: field.label.into(),
        from: field.from.map(Into::into),
        to: field.to.map(Into::into),
    });
    WallRow {
        name: name.to_owned(),
        wall: wall.into(),
        change,
        surface_before_m2: m2(before),
        surface_m2: m2(now),
        fields: fields.collect(),
    }
}
