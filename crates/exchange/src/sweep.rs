//! One field over a range. Not here: computing it.

use crate::line::{LineRow, key, line, si};
use hodful_takeoff::sweep::{Count, Limit, Scale, Step, Sweep};
use serde::Serialize;
use std::collections::BTreeMap;

/// What a field does to some figures, in the International System.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SweepReport {
    /// `hodful-sweep`.
    pub format: &'static str,
    /// Version of this format.
    pub version: u32,
    /// What the project is called.
    pub project: String,
    /// The field in words.
    pub field: String,
    /// What it is of.
    pub of: String,
    /// The unit of its values; empty for shares, numbers and money.
    pub unit: String,
    /// Where the project stands; nothing when that is not given or not the same in all.
    pub present: Option<f64>,
    /// The values, rising.
    pub values: Vec<f64>,
    /// The figures.
    pub curves: Vec<CurveRow>,
    /// Where other packages or another number of batches are needed.
    pub steps: Vec<StepRow>,
    /// What has too many steps to be told one by one.
    pub too_many_steps: Vec<LineRow>,
    /// Limits within the range, then those that no value of it keeps.
    pub limits: Vec<LimitRow>,
}

/// One figure over the range.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CurveRow {
    /// Which figure.
    #[serde(flatten)]
    pub line: LineRow,
    /// `present`: as the project stands, with the unit in the key.
    #[serde(flatten)]
    pub present: BTreeMap<String, Option<f64>>,
    /// `figures`: by value of the field; nothing where the value is refused.
    #[serde(flatten)]
    pub figures: BTreeMap<String, Vec<Option<f64>>>,
}

/// A place where other packages are needed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StepRow {
    /// Of what.
    #[serde(flatten)]
    pub line: LineRow,
    /// The value of the field that still does with `before`.
    pub at: f64,
    /// What does until there.
    pub before: CountRow,
    /// What is needed from there on.
    pub after: CountRow,
}

/// How many of what.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CountRow {
    /// In all.
    pub count: u64,
    /// By package.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub packages: BTreeMap<String, u64>,
}

/// A limit of the field.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct LimitRow {
    pub at: f64,
    pub name: String,
    pub words: String,
    pub source: Option<&'static str>,
    pub at_most: bool,
}

/// A sweep as a report, with the name of its project.
pub fn sweep(project: &str, of: &Sweep) -> SweepReport {
    let x = |value: f64| out_of_base(&of.scale, value);
    let curves = of.curves.iter().map(|curve| {
        let value = |value: &Option<f64>| value.map(|value| si(&curve.line, value));
        CurveRow {
            line: line(&curve.line),
            present: BTreeMap::from([(key("present", &curve.line), value(&curve.now))]),
            figures: BTreeMap::from([(
                key("figures", &curve.line),
                curve.values.iter().map(value).collect(),
            )]),
        }
    });
    SweepReport {
        format: "hodful-sweep",
        version: 1,
        project: project.to_owned(),
        field: of.label.to_string(),
        of: of.of.to_string(),
        unit: unit(&of.scale),
        present: of.present.map(x),
        values: of.xs.iter().copied().map(x).collect(),
        curves: curves.collect(),
        steps: of.steps.iter().map(|step| step_row(step, &x)).collect(),
        too_many_steps: of.dense.iter().map(line).collect(),
        limits: [&of.limits, &of.broken]
            .into_iter()
            .flatten()
            .map(|limit| limit_row(limit, &x))
            .collect(),
    }
}

impl SweepReport {
    /// The rows of the CSV, the head first: a row a value of the field, a column a figure.
    pub fn lines(&self) -> Vec<Vec<String>> {
        let plain = crate::write::plain_text;
        let field = self.field.replace(' ', "_");
        let with_unit = match self.unit.as_str() {
            "" => field,
            unit => format!("{field}_{unit}"),
        };
        let heads = self.curves.iter().map(|curve| {
            let figures = curve.figures.keys().next();
            let unit = figures.and_then(|key| key.strip_prefix("figures"));
            let of = curve.line.material.as_deref();
            let of = of.map_or_else(String::new, |of| format!("{of} "));
            plain(&format!(
                "{of}{}{}",
                curve.line.figure,
                unit.unwrap_or_default()
            ))
        });
        let head = std::iter::once(plain(&with_unit)).chain(heads).collect();
        let rows = self.values.iter().enumerate().map(|(at, x)| {
            let of = self.curves.iter().map(|curve| {
                let values = curve.figures.values().next();
                let value = values.and_then(|values| values.get(at).copied().flatten());
                value.map_or_else(String::new, |value| value.to_string())
            });
            std::iter::once(x.to_string()).chain(of).collect()
        });
        std::iter::once(head).chain(rows).collect()
    }
}

fn step_row(of: &Step, x: &impl Fn(f64) -> f64) -> StepRow {
    let count = |count: &Count| CountRow {
        count: count.total,
        packages: count
            .packages
            .iter()
            .map(|(name, count)| (name.to_string(), *count))
            .collect(),
    };
    StepRow {
        line: line(&of.of),
        at: x(of.at),
        before: count(&of.before),
        after: count(&of.after),
    }
}

fn limit_row(of: &Limit, x: &impl Fn(f64) -> f64) -> LimitRow {
    LimitRow {
        at: x(of.at),
        name: of.name.to_string(),
        words: of.words.to_string(),
        source: of.source,
        at_most: of.at_most,
    }
}

/// The unit in which the values of a field leave.
fn unit(of: &Scale) -> String {
    match of {
        Scale::Length | Scale::Thickness => "m",
        Scale::Angle => "rad",
        Scale::Density | Scale::Dose => "kg_per_m3",
        Scale::Volume => "m3",
        Scale::Mass => "kg",
        Scale::Time => "s",
        Scale::Temperature => "C",
        Scale::Packages(name) => name,
        Scale::Share | Scale::Money | Scale::Number | Scale::Count => "",
    }
    .to_owned()
}

/// A value of a field out of base units.
fn out_of_base(of: &Scale, value: f64) -> f64 {
    match of {
        Scale::Length | Scale::Thickness => value / 1e3,
        Scale::Density | Scale::Dose => value * 1e9,
        Scale::Volume => value / 1e9,
        _ => value,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use hodful_takeoff::compare::Line;
    use hodful_takeoff::sweep::Curve;
    use std::iter::zip;

    #[test]
    fn values_leave_in_metres_and_cubic_metres() {
        let of = Sweep {
            label: "thickness".into(),
            of: "coat fill".into(),
            scale: Scale::Thickness,
            xs: vec![0.0, 25.0],
            present: Some(25.0),
            curves: vec![Curve {
                line: Line::Loose("=sand".into()),
                values: vec![None, Some(2e9)],
                now: Some(2e9),
            }],
            steps: Vec::new(),
            dense: Vec::new(),
            limits: Vec::new(),
            broken: Vec::new(),
        };
        let report = sweep("shed", &of);
        assert_eq!(report.present, Some(0.025));
        let curve = report.curves.first().unwrap();
        assert_eq!(
            curve.figures.get("figures_m3"),
            Some(&vec![None, Some(2.0)])
        );
        let lines = report.lines();
        let expected = [
            ["thickness_m", "'=sand loose_m3"],
            ["0", ""],
            ["0.025", "2"],
        ];
        assert_eq!(lines, expected.map(|row| row.map(str::to_owned).to_vec()));
        let read = zip(&report.values, [0.0, 0.025]);
        assert!(read.into_iter().all(|(a, b)| (a - b).abs() < 1e-15));
    }
}
