//! What is asked: needs, offers, suppliers, phases. Not here: the check of it, and what is answered.

use hodful_quantities::mix::Quantity;
use hodful_quantities::order::Holds;
use hodful_quantities::read::Money;
use hodful_quantities::units::{Mass, Volume};

/// What is to be bought of one material.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Need {
    /// As delivered, by phase, stock already taken off; phases past the end of the list need nothing.
    ///
    /// All phases are to be of one density. A side that a phase lacks is not compared with for the whole
    /// material.
    pub by_phase: Vec<Quantity>,
    /// How many days it keeps from its delivery; `None` when it keeps as long as it must.
    pub keeps: Option<f64>,
}

/// A package on offer.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// The material, by its place in the list of needs.
    pub material: usize,
    /// Who sells it, by the place in the list of suppliers; `None` for what one fetches oneself, without
    /// charge or limit.
    pub supplier: Option<usize>,
    /// What one holds.
    pub holds: Holds,
    /// Price of one.
    pub price: Option<Money>,
    /// Room one takes in the truck; when not given, what it holds, by the density of the need if must be.
    pub loose: Option<Volume>,
    /// Mass of one in the truck; when not given, what it holds, by the density of the need if must be.
    pub mass: Option<Mass>,
}

/// Who delivers, and on what terms.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Supplier {
    /// Charge for one trip of the truck.
    pub charge: Money,
    /// Least value of the goods of one phase; a delivery below it is not made.
    pub least_order: Option<Money>,
    /// Most the truck carries.
    pub truck_mass: Option<Mass>,
    /// Most the truck holds.
    pub truck_volume: Option<Volume>,
}

/// A time at which goods can arrive and from which they are used; phases follow one another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Phase {
    /// The day, counted from any one day; `None` when it is not known.
    pub day: Option<i64>,
}

/// What makes one list better than another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Aim {
    /// The least price of goods and charges.
    #[default]
    LeastCost,
    /// The fewest trips of trucks, and among those the least price. What one fetches oneself is no trip.
    FewestDeliveries,
}
