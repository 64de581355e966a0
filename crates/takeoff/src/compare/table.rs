//! Figures side by side. Not here: what makes the difference (see `causes`).

use super::{Line, One};
use crate::evaluate::{Evaluation, MaterialFigures};
use crate::packages::covering;
use crate::project::{Material, MaterialKind, Name, Project};
use ecow::{EcoString, eco_format};

/// Projects or options side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// What they are called, in order.
    pub names: Vec<Name>,
    /// Which of them the others are held against.
    pub base: usize,
    /// The figures.
    pub rows: Vec<Row>,
}

/// One figure of each.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Which figure.
    pub line: Line,
    /// Of each, in base units; `None` where it cannot be told.
    pub values: Vec<Option<f64>>,
    /// Packages in words, of each, where the line is of packages.
    pub words: Vec<Option<EcoString>>,
    /// How many of which kind of package, of each, where the line is of packages.
    pub(crate) bought: Vec<Bought>,
}

/// How many of each kind of package that is bought, a kind told by its name and what it holds.
pub(super) type Bought = Vec<(EcoString, u64)>;

/// Whether the difference of two counts says anything: of one kind of package, or of the very same packages.
pub(super) fn are_alike(a: &Bought, b: &Bought) -> bool {
    let mut kinds = a.iter().chain(b).map(|(kind, _)| kind);
    let first = kinds.next();
    a == b || kinds.all(|kind| Some(kind) == first)
}

impl Row {
    /// Whether one can be taken from the base: packages of unlike kinds cannot.
    pub fn is_alike(&self, base: usize, at: usize) -> bool {
        let both = self.bought.get(at).zip(self.bought.get(base));
        both.is_none_or(|(of, base)| are_alike(of, base))
    }

    /// How much more one has than the base; `None` where either cannot be told, and of packages of unlike kinds.
    pub fn difference(&self, base: usize, at: usize) -> Option<f64> {
        if !self.is_alike(base, at) {
            return None;
        }
        let value = |at: usize| self.values.get(at).copied().flatten();
        Some(value(at)? - value(base)?)
    }

    /// The same per value of the base; `None` where that is nothing.
    pub fn share(&self, base: usize, at: usize) -> Option<f64> {
        let of = self.values.get(base).copied().flatten()?;
        (of != 0.0).then_some(self.difference(base, at)? / of)
    }

    /// Whether any differs from the base, be it by less than is shown, or cannot be told where another can.
    pub fn differs(&self, base: usize) -> bool {
        let first = self.values.get(base).copied().flatten();
        let same = |value: &Option<f64>| match (value, first) {
            (Some(a), Some(b)) => a.to_bits() == b.to_bits(),
            (None, None) => true,
            _ => false,
        };
        let is_alike = (0..self.values.len()).all(|at| self.is_alike(base, at));
        !(is_alike && self.values.iter().all(same))
    }
}

/// Figures side by side; `base` is the position of the one that the others are held against.
pub fn table(base: usize, all: &[(Name, One<'_>)]) -> Table {
    let mut lines: Vec<Line> = Vec::new();
    for (_, one) in all {
        let mut after = None;
        for line in self::lines(one) {
            let at = lines.iter().position(|other| *other == line);
            // A line that only another has stands where it stands there.
            after = Some(at.unwrap_or_else(|| {
                let at = after.map_or(0, |after: usize| after + 1);
                lines.insert(at, line);
                at
            }));
        }
    }
    let rows = lines.into_iter().map(|line| Row {
        values: all.iter().map(|(_, one)| value(&line, one)).collect(),
        words: all.iter().map(|(_, one)| packages(&line, one)).collect(),
        bought: all.iter().map(|(_, one)| bought(&line, one)).collect(),
        line,
    });
    Table {
        names: all.iter().map(|(name, _)| name.clone()).collect(),
        base,
        rows: rows.collect(),
    }
}

/// The lines that a project has: surfaces, coats on some face, materials that some coat takes, batches,
/// cost.
pub fn lines(of: &One<'_>) -> Vec<Line> {
    let mut lines = vec![Line::Surface, Line::Payment];
    let grounds = of.evaluation.grounds.iter().zip(&of.project.build_ups);
    for (_, (build_up, coats)) in grounds.filter(|(g, _)| g.surface.area.value > 0.0) {
        lines.extend(coats.iter().map(|coat| Line::Mixed {
            build_up: build_up.clone(),
            coat: coat.coat.clone(),
        }));
    }
    lines.extend([Line::AllPlaced, Line::AllMixed]);
    let materials = of.evaluation.materials.iter().zip(&of.project.materials);
    for (figures, (name, material)) in materials.filter(|(m, _)| m.waits || !m.uses.is_empty()) {
        // Water is neither bought nor heaped.
        let is_water = material.kind == MaterialKind::Water;
        let first = chief(name, material, figures);
        let is_mass = matches!(first, Line::Mass(_));
        lines.push(first);
        if !is_mass && has_mass(figures) {
            lines.push(Line::Mass(name.clone()));
        }
        if !is_water && !material.packages.is_empty() {
            lines.push(Line::Packages(name.clone()));
        }
    }
    lines.extend([Line::Batches, Line::Cost]);
    if of.supply.is_some() {
        lines.extend([Line::Trips, Line::Bought]);
    }
    lines
}

/// Whether there is a mass of it, or may be once everything is known.
fn has_mass(of: &MaterialFigures) -> bool {
    of.waits || of.uses.is_empty() || of.delivered.mass.is_some()
}

/// The chief line of a material: minerals loose, all else by mass, but loose where it is given by parts and has no
/// density, and so is known by volume alone.
fn chief(name: &Name, material: &Material, figures: &MaterialFigures) -> Line {
    if material.kind.is_mineral() || !has_mass(figures) {
        Line::Loose(name.clone())
    } else {
        Line::Mass(name.clone())
    }
}

/// The line in which a material is told where one is enough: loose or by mass. `None` where there is no such material.
pub fn line_of_material(project: &Project, evaluation: &Evaluation, name: &str) -> Option<Line> {
    let (at, name, material) = project.materials.get_full(name)?;
    Some(chief(name, material, evaluation.materials.get(at)?))
}

/// The value of a line: nothing where the thing is not there at all or no coat takes it.
pub(super) fn value(line: &Line, of: &One<'_>) -> Option<f64> {
    let used = |project: &Project, name: &Name| {
        let at = project.materials.get_index_of(name)?;
        let figures = of.evaluation.materials.get(at)?;
        (figures.waits || !figures.uses.is_empty()).then_some(())
    };
    let is_there = match line {
        Line::Placed { build_up, coat } | Line::Mixed { build_up, coat } => {
            let coats = of.project.build_ups.get(build_up);
            coats.is_some_and(|coats| coats.iter().any(|one| one.coat == *coat))
        }
        Line::Loose(name) | Line::Mass(name) | Line::Packages(name) => {
            used(of.project, name).is_some()
        }
        _ => true,
    };
    if is_there { line.value(of) } else { Some(0.0) }
}

fn packages(line: &Line, of: &One<'_>) -> Option<EcoString> {
    let Line::Packages(name) = line else {
        return None;
    };
    let at = of.project.materials.get_index_of(name)?;
    let cover = of.evaluation.materials.get(at)?.cover.as_ref()?;
    Some(covering(of.project, name, cover))
}

/// The packages of a line; none where it is not of packages.
pub(super) fn bought(line: &Line, of: &One<'_>) -> Bought {
    let Line::Packages(name) = line else {
        return Bought::new();
    };
    let material = of.project.materials.get_full(name);
    let found = material.and_then(|(at, _, material)| {
        let cover = of.evaluation.materials.get(at)?.cover.as_ref()?;
        Some((material, cover))
    });
    let counts = found.into_iter().flat_map(|(material, cover)| {
        cover.counts.iter().filter_map(|(at, count)| {
            let package = material.packages.get(*at)?;
            let kind = eco_format!("{} {}", package.name, package.holds.text());
            Some((kind, *count))
        })
    });
    let mut all: Bought = counts.filter(|(_, count)| *count > 0).collect();
    all.sort_unstable();
    all
}
