//! The figures on the screen are those of the order. The other side is the plain evaluation, which
//! knows nothing of the screen.

use crate::driver::{Driver, demo};
use hodful_takeoff::{Assessed, Headline};
use hodful_tui::state::Total;

#[test]
fn totals_are_those_of_the_evaluation() {
    for name in hodful_project_file::demo_projects().map(|demo| demo.name) {
        let mut driver = Driver::demo(name);
        driver.play("3 + + down -");
        let project = driver.project().clone();
        let rules = hodful_project_file::rules();
        let assessed = Assessed::new(&project, &rules).unwrap();
        let expected = Headline::of(&project, &assessed.evaluation);
        // As text to the last bit: quantities of the units library are converted before they are compared.
        assert_eq!(
            format!("{:?}", driver.state.doc().headline()),
            format!("{expected:?}"),
            "{name}"
        );
        let screen = driver.screen(120, 40);
        for total in Total::ALL {
            let shown = total.shown(&expected, driver.units());
            assert!(
                screen.contains(shown.as_str()),
                "{name}: {} {shown}\n{screen}",
                total.label()
            );
        }
    }
}

#[test]
fn changes_are_counted_from_the_mark() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.play("3 m");
    let then = *driver.state.doc().headline();
    driver.key("+");
    let now = *driver.state.doc().headline();
    let change = Total::Placed.change(&now, &then, driver.units());
    assert!(change.starts_with('+'), "{change}");
    assert!(driver.screen(120, 40).contains(change.as_str()));
    driver.key("-");
    assert_eq!(
        Total::Placed.change(driver.state.doc().headline(), &then, driver.units()),
        ""
    );
}

#[test]
fn every_total_can_be_explained_and_comes_to_what_is_shown() {
    for name in hodful_project_file::demo_projects().map(|demo| demo.name) {
        let driver = Driver::demo(name);
        let head = driver.state.doc().headline();
        let project = demo(name);
        for total in Total::ALL {
            let value = match total {
                Total::Surface => Some(head.surface.value),
                Total::Placed => head.placed.map(|v| v.value),
                Total::Loose => head.loose.map(|v| v.value),
                Total::Fibre => head.fibre.map(|m| m.value),
                Total::Binder => head.binder.map(|m| m.value),
                Total::Batches => head.batches.map(|n| n as f64),
                Total::Cost => head
                    .cost
                    .and_then(|money| money.amount().to_string().parse().ok()),
            };
            let Some(value) = value.filter(|value| *value > 0.0) else {
                continue;
            };
            let node = driver.state.doc().bench().explain(total.path());
            let node =
                node.unwrap_or_else(|fault| panic!("{}: {}: {fault}", project.name, total.label()));
            let off = (node.figure.value / value - 1.0).abs();
            assert!(
                off < 1e-12,
                "{}: {}: {} is not {value}",
                project.name,
                total.label(),
                node.figure.value
            );
        }
    }
}
