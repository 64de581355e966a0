//! Every formula of every explanation, worked on the calculator from the terms printed below it,
//! comes to the figure printed before it; and the tree's top is the evaluation's own figure.

use crate::calculator::work;
use hodful_project_file as file;
use hodful_takeoff::explain::quoted;
use hodful_takeoff::{Assessed, Formula, Node};

/// Rounding of a few thousand `f64` operations, relative; and of differences that come to nothing,
/// relative to the greatest term.
const ROUNDING: f64 = 1e-9;

/// Works a tree from the top down.
fn works(node: &Node, path: &str) {
    let terms: Vec<f64> = node.terms.iter().map(|t| t.figure.value).collect();
    let value = node.figure.value;
    let worked = match node.formula {
        Formula::Given => {
            assert!(
                terms.is_empty(),
                "{path}: {} is given but has terms",
                node.label
            );
            return;
        }
        Formula::From => {
            assert!(
                !terms.is_empty() || value == 0.0,
                "{path}: {} comes from nothing",
                node.label
            );
            None
        }
        Formula::Sum if terms.is_empty() => {
            assert!(
                value.abs() < ROUNDING,
                "{path}: {} = {value} from nothing",
                node.label
            );
            None
        }
        Formula::Sum => Some(terms.iter().sum::<f64>()),
        Formula::Of(formula) => {
            let worked = work(formula, &terms);
            assert!(
                worked.is_some(),
                "{path}: {}: '{formula}' cannot be worked",
                node.label
            );
            worked
        }
    };
    if let Some(worked) = worked {
        let greatest = terms.iter().fold(value.abs(), |most, t| most.max(t.abs()));
        assert!(
            (worked - value).abs() <= ROUNDING * greatest,
            "{path}: {} is {value}, but its formula {:?} comes to {worked}",
            node.label,
            node.formula
        );
    }
    for term in &node.terms {
        works(term, path);
    }
}

/// Explains a path and works the tree; the top must be `figure` when one is given.
fn check(of: &Assessed<'_>, path: &str, figure: Option<f64>) {
    match of.explain(path) {
        Ok(node) => {
            works(&node, path);
            if let Some(figure) = figure {
                assert_eq!(node.figure.value.to_bits(), figure.to_bits(), "{path}");
            }
        }
        Err(fault) => panic!("{path}: {fault}"),
    }
}

fn every_figure(bytes: &[u8]) {
    let project = file::read(bytes).unwrap();
    let rules = file::rules();
    let of = Assessed::new(&project, &rules).unwrap();
    for path in of.paths() {
        check(&of, &path, None);
    }
    for (wall, side, _, figures) in of.faces() {
        let face = format!("walls.{}.{}", quoted(&wall.id), side.word());
        let m = &figures.measure;
        check(&of, &face, Some(m.true_surface()));
        for (name, value) in [
            ("outline", m.outline),
            ("openings", m.openings),
            ("field", m.field),
            ("reveals", m.reveals),
            ("edges", m.edges),
            ("edge_length", m.edge_length),
            ("lath", m.lath),
            ("growth", m.growth),
            ("measured", figures.measured),
            ("measured_run", figures.measured_run),
        ] {
            check(&of, &format!("{face}.{name}"), Some(value));
        }
    }
    let totals = &of.evaluation.totals;
    check(
        &of,
        "totals.true_surface",
        Some(totals.measure.true_surface()),
    );
    check(&of, "totals.measured", Some(totals.measured));
    for (build_up, coat, figures) in of.coats() {
        let coat = format!("coats.{}.{}", quoted(build_up), quoted(&coat.coat));
        let volume = &figures.volume;
        check(&of, &coat, Some(volume.mixed.value));
        check(&of, &format!("{coat}.placed"), Some(volume.placed.value));
        check(&of, &format!("{coat}.wet"), Some(volume.wet.value));
        check(
            &of,
            &format!("{coat}.area"),
            Some(figures.surface.area.value),
        );
        if let Some(batches) = figures.batches {
            check(&of, &format!("{coat}.batches"), Some(batches.exact));
        }
    }
    for (name, mix) in &project.mixes {
        check(&of, &format!("mixes.{}.yield", quoted(name)), None);
        if mix.water.is_some() {
            check(&of, &format!("mixes.{}.water_to_add", quoted(name)), None);
        }
    }
    for (name, figures) in project.materials.keys().zip(&of.evaluation.materials) {
        let order = format!("order.{}", quoted(name));
        let delivered = &figures.delivered;
        for (figure, value) in [
            ("loose", delivered.loose.map(|v| v.value)),
            ("mass", delivered.mass.map(|m| m.value)),
            ("to_buy", figures.to_buy.loose.map(|v| v.value)),
            ("dry_loose", figures.dry.loose.map(|v| v.value)),
            ("dry_mass", figures.dry.mass.map(|m| m.value)),
        ] {
            if let Some(value) = value.filter(|_| !figures.uses.is_empty()) {
                check(&of, &format!("{order}.{figure}"), Some(value));
            }
        }
        if figures
            .cover
            .as_ref()
            .is_some_and(|c| c.price.is_some() && !c.counts.is_empty())
        {
            check(&of, &format!("{order}.cost"), None);
        }
    }
    check(&of, "order.cost", None);
}

#[test]
fn every_formula_of_the_demo_projects_comes_to_its_figure() {
    let mut seen = 0;
    for demo in file::demo_projects() {
        every_figure(demo.bytes);
        seen += 1;
    }
    assert!(seen >= 4);
}

#[test]
fn every_formula_under_every_rule_comes_to_its_figure() {
    for key in file::rules().keys() {
        let mut project = file::read(
            file::demo_projects()
                .find(|d| d.name == "thistlebank-workshop")
                .unwrap()
                .bytes,
        )
        .unwrap();
        project.measurement_rule = key.clone();
        every_figure(&file::write(&project));
    }
}
