//! Who sells, and when what is ordered, as typed. Not here: what is bought (see `crate::evaluate`).

use super::{Name, words};
use hodful_quantities::Typed;
use hodful_quantities::read::{Day, Money};
use hodful_quantities::units::{Mass, Volume};

/// Somebody who delivers.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Supplier {
    /// Price of one trip, whatever it carries.
    pub delivery: Option<Typed<Money>>,
    /// The least worth of goods that is brought out at a time.
    pub least_order: Option<Typed<Money>>,
    /// What the truck may carry.
    pub truck_mass: Option<Typed<Mass>>,
    /// What the bed of the truck holds.
    pub truck_volume: Option<Typed<Volume>>,
    /// Free text: who to ask for, what they want to know.
    pub note: Option<Name>,
}

/// How the order is placed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Buying {
    /// What is wanted most; the least cost when not given.
    pub aim: Option<BuyingAim>,
    /// One order for each of these, in the order of the work; all at once when there is none.
    pub phases: Vec<Phase>,
}

words! {
    /// What an order is chosen by.
    BuyingAim {
        /// The least money, deliveries included.
        LeastCost = "least cost",
        /// The fewest trips, and of those the least money.
        FewestDeliveries = "fewest deliveries",
    }
}

/// Coats whose materials come together.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Phase {
    /// What it is called.
    pub name: Name,
    /// Names of the coats, in whichever build-up they are; a coat that no phase names comes with the first.
    pub coats: Vec<Name>,
    /// The day on which it is delivered.
    pub date: Option<Typed<Day>>,
}
