//! Projects or options side by side, with what cannot be compared and why. Not here: a document of it.

use hodful_takeoff::Problem;
use hodful_takeoff::compare::{Causes, Line, One, Pair, Row, Table, table};
use hodful_takeoff::project::{MaterialKind, Name};

/// Projects or options side by side.
#[derive(Debug, Clone)]
pub struct Beside<'a> {
    /// Those that have figures, with their names; the first is the one that the others are held against.
    pub all: Vec<(Name, One<'a>)>,
    /// Those that have none, with everything that keeps them from it.
    pub refused: Vec<(Name, Vec<Problem>)>,
    /// What is doubtful in one and not in the first, by name.
    pub doubts: Vec<(Name, Vec<Problem>)>,
    /// Why deliveries could not be planned, by name.
    pub not_planned: Vec<(Name, String)>,
}

impl<'a> Beside<'a> {
    /// Its figures, those of the first as the base.
    pub fn table(&self) -> Table {
        table(0, &self.all)
    }

    /// The base.
    pub fn base(&self) -> Option<&(Name, One<'a>)> {
        self.all.first()
    }

    /// The others that have figures.
    pub fn others(&self) -> &[(Name, One<'a>)] {
        self.all.get(1..).unwrap_or_default()
    }

    /// What makes the differences to the base of one, by its position in the table: of cost, batches, and
    /// each material that is bought, one line a material. Only lines that differ and can be told.
    pub fn causes(&self, table: &Table, at: usize) -> Vec<(Line, Causes)> {
        let (Some((_, base)), Some((_, one))) = (self.all.first(), self.all.get(at)) else {
            return Vec::new();
        };
        let lines = table.rows.iter().map(|row| &row.line);
        let lines = lines.filter(|line| match line {
            Line::Loose(_) => true,
            Line::Mass(name) => {
                let is_bought = [base, one].iter().any(|of| {
                    let material = of.project.materials.get(name);
                    material.is_some_and(|of| of.kind != MaterialKind::Water)
                });
                let is_heaped =
                    |row: &Row| matches!(&row.line, Line::Loose(other) if other == name);
                is_bought && !table.rows.iter().any(is_heaped)
            }
            _ => false,
        });
        let pair = Pair::new(base, one);
        [&Line::Cost, &Line::Batches]
            .into_iter()
            .chain(lines)
            .filter_map(|line| Some((line.clone(), pair.causes(line)?)))
            .filter(|(_, causes)| causes.difference() != 0.0)
            .collect()
    }
}

/// Whether a difference can be seen in the digits in which it is shown.
pub fn is_seen(shown: &str) -> bool {
    shown.contains(|c: char| ('1'..='9').contains(&c))
}
