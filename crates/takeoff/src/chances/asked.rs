//! An order that somebody has made or thinks of, held against the draws. Not here: the orders as they are worked out
//! (see `orders`), and sentences (see [`super::said`]).

use super::Chances;
use crate::check::done::came;
use crate::check::position;
use crate::check::values::Values;
use crate::compare::One;
use crate::problem::Place;
use crate::project::{Delivered, Name};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::mix::Quantity;
use hodful_quantities::read::Amount;

/// An order with how often it is short.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// The material.
    pub material: Name,
    /// What is ordered, as typed: `4 tipped load`; several amounts one after the other.
    pub words: EcoString,
    /// What is ordered.
    pub ordered: Quantity,
    /// That and what lay in the yard.
    pub there: Quantity,
    /// How often that is short, 0 to 1.
    pub short: f64,
}

impl Chances {
    /// Holds an order against the draws and keeps it in [`Chances::asked`]; a second one of the same material is added
    /// to the first. What lay in the yard at the start is there besides; what is recorded as delivered is taken as part
    /// of the order.
    ///
    /// # Errors
    /// In words: that there is no such material, that it is not ordered, or that the amount cannot be told.
    pub fn ask(
        &mut self,
        one: &One<'_>,
        material: &str,
        amount: &Typed<Amount>,
    ) -> Result<(), EcoString> {
        let mut values = Values::default();
        let Some(ordered) = ordered(one, material, amount, &mut values) else {
            let why = values.into_problems().into_iter().next();
            let why = why.map_or_else(|| "it cannot be told".into(), |problem| problem.message);
            return Err(eco_format!("the order of '{material}': {why}"));
        };
        let not_drawn = || {
            eco_format!(
                "nothing is drawn of '{material}': no coat takes it, or it is water, which nobody orders"
            )
        };
        let order = self.order(material).ok_or_else(not_drawn)?;
        let (name, stock) = (order.material.clone(), order.stock);
        let before = self.asked.iter().position(|of| of.material == material);
        let before = before.map(|at| self.asked.remove(at));
        let (words, ordered) = match before {
            Some(of) => (
                eco_format!("{} + {}", of.words, amount.text()),
                of.ordered.plus(&ordered),
            ),
            None => (amount.text().into(), ordered),
        };
        let there = stock.plus(&ordered);
        let short = self.short(material, &there).ok_or_else(not_drawn)?;
        self.asked.push(Asked {
            material: name,
            words,
            ordered,
            there,
            short,
        });
        Ok(())
    }

    /// How often what lay in the yard at the start and came since is short of the whole job, where something came.
    pub fn came_short(&self, material: &str) -> Option<(Quantity, f64)> {
        let order = self.order(material)?;
        let there = order.stock.plus(order.came.as_ref()?);
        Some((there, self.short(material, &there)?))
    }
}

/// An amount of a material; what keeps it from being told is among the problems.
fn ordered(
    one: &One<'_>,
    material: &str,
    amount: &Typed<Amount>,
    values: &mut Values,
) -> Option<Quantity> {
    let (place, name) = (Place::project(), Name::from(material));
    let at = position(values, &place, "material", &name, &one.project.materials)?;
    let delivered = Delivered {
        material: name,
        amount: amount.clone(),
        date: None,
        note: None,
    };
    came(
        one.project,
        one.site.materials.get(at)?,
        &delivered,
        &place,
        values,
    )
}
