//! Rows of the lists of soils, of the order and of the card. Not here: painting them.

use super::Row;
use crate::State;
use crate::state::Screen;
use ecow::{EcoString, eco_format};
use hodful_quantities::mix::Quantity;
use hodful_quantities::print::{self, UnitSystem};
use hodful_takeoff::alternative::as_it_stands;
use hodful_takeoff::form::Subject;
use hodful_takeoff::project::BuyingAim;

/// A row of the soils, of the order or of the card.
pub(super) fn row(state: &State, subject: Subject) -> Option<Row> {
    let project = state.project();
    let row = |left: EcoString, right: EcoString| {
        Some(Row {
            indent: 0,
            ticked: false,
            left,
            right,
            worst: state.located().worst(subject),
            heading: false,
        })
    };
    match subject {
        Subject::Material(at) if state.screen() == Screen::Soils => {
            let (name, _) = project.materials.get_index(at)?;
            let class = match state.soil_tests(at).first() {
                None => "not tested",
                Some((_, Err(_))) => "cannot be told",
                Some((_, Ok(figures))) => figures.class.map_or("tested", |class| class.name()),
            };
            row(name.clone(), class.into())
        }
        Subject::Material(at) => {
            let (name, _) = project.materials.get_index(at)?;
            let figures = state.doc().bench().material(at);
            let to_buy = figures.map(|of| &of.to_buy);
            row(
                name.clone(),
                to_buy.map_or_else(EcoString::new, |of| to_be_bought(of, state.units())),
            )
        }
        Subject::Blend(at) => row(project.blends.get_index(at)?.0.clone(), "blend".into()),
        Subject::Supplier(at) => row(
            project.suppliers.get_index(at)?.0.clone(),
            "supplier".into(),
        ),
        Subject::Phase(at) => {
            let of = project.buying.as_ref()?.phases.get(at)?;
            let day = of.date.as_ref().map_or("phase", |day| day.text());
            row(of.name.clone(), day.into())
        }
        Subject::Buying => {
            let aim = project.buying.as_ref().and_then(|buying| buying.aim);
            // In few words: the whole one would leave no room for the name of the row.
            let words = match aim.unwrap_or(BuyingAim::LeastCost) {
                BuyingAim::LeastCost => "least cost",
                BuyingAim::FewestDeliveries => "fewest trips",
            };
            row("how to buy".into(), words.into())
        }
        Subject::Project => row(as_it_stands(project), EcoString::new()),
        Subject::Alternative(at) => {
            let (name, of) = project.options.get_index(at)?;
            let from = of
                .of
                .as_ref()
                .map_or(EcoString::new(), |of| eco_format!("on {of}"));
            row(name.clone(), from)
        }
        Subject::Alteration {
            alternative,
            change,
        } => {
            let (_, of) = project.options.get_index(alternative)?;
            let said = hodful_takeoff::alternative::said(of.changes.get(change)?);
            Some(Row {
                indent: 2,
                ticked: false,
                left: said,
                right: EcoString::new(),
                worst: state.located().worst(subject),
                heading: false,
            })
        }
        Subject::Uncertain(_) => row(
            hodful_takeoff::form::title(project, subject),
            "unsure".into(),
        ),
        Subject::Done(at) => {
            let of = project.done.get(at)?;
            let walls = if of.walls.is_empty() {
                "all walls".into()
            } else {
                of.walls.join(", ")
            };
            row(eco_format!("{}, {walls}", of.coat), of.took.text().into())
        }
        Subject::Delivered(at) => {
            let of = project.delivered.get(at)?;
            row(of.material.clone(), of.amount.text().into())
        }
        Subject::Mix(at) => {
            let (name, _) = project.mixes.get_index(at)?;
            row(name.clone(), EcoString::new())
        }
        _ => None,
    }
}

/// What is to be bought, in short: by volume, or by mass where that says more.
fn to_be_bought(of: &Quantity, units: UnitSystem) -> EcoString {
    let nothing = |digits: &str| digits.chars().all(|c| matches!(c, '0' | '.'));
    let loose = of.loose.map(|v| print::bulk_volume(v, units));
    let mass = of.mass.map(|m| print::mass(m, units));
    let shown = loose
        .into_iter()
        .chain(mass)
        .find(|of| !nothing(&of.digits));
    shown.map_or_else(|| "none".into(), |figure| eco_format!("{figure}"))
}
