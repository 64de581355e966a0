//! What is answered: deliveries with their loads, price, and what is to be said about them. Not here: how it
//! is found.

use core::fmt;
use hodful_quantities::mix::Quantity;
use hodful_quantities::read::Money;
use hodful_quantities::units::{Mass, Volume};

/// A list for the suppliers.
///
/// Two lists are equal when all their parts are; quantities are compared by the units library, which may
/// find one unequal to itself by a rounding. To tell whether a list is the same, compare its lines.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// By phase, then by supplier as listed, what is fetched oneself last.
    pub deliveries: Vec<Delivery>,
    /// What is left of each material at the end, bought less needed, gone off or not; a side that is not
    /// known, or a material that is not covered, has `None`.
    pub spare: Vec<Quantity>,
    /// Goods and charges; `None` when a package on the list has no price.
    pub price: Option<Money>,
    /// Charges, and goods as far as they have a price.
    pub known_price: Money,
    /// Trips of all trucks.
    pub deliveries_count: u64,
    /// Whether nothing better can be had by the aim, to the rounding of the search (a part in 10⁹), for
    /// the materials that are covered.
    pub proven: bool,
    /// Materials that no offer can be held against, by their place in the list of needs.
    pub uncovered: Vec<usize>,
    /// What is to be said with it.
    pub notes: Vec<Note>,
}

/// What one supplier brings in one phase, in one trip or several.
#[derive(Debug, Clone, PartialEq)]
pub struct Delivery {
    /// The phase by its place in the list.
    pub phase: usize,
    /// The supplier by its place in the list; `None` for what is fetched oneself.
    pub supplier: Option<usize>,
    /// What is bought, in the order of the offers.
    pub lines: Vec<Line>,
    /// Price of the goods; `None` when one has no price.
    pub goods: Option<Money>,
    /// Charge of all trips.
    pub charge: Money,
    /// Trips of the truck; none for what is fetched oneself.
    pub trips: u64,
    /// Mass of all of it; `None` when that of a package is not known.
    pub mass: Option<Mass>,
    /// Room of all of it; `None` when that of a package is not known.
    pub volume: Option<Volume>,
    /// What goes on which trip; empty for what is fetched oneself.
    pub loads: Vec<Load>,
}

/// So many of one package.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Line {
    /// The offer by its place in the list.
    pub offer: usize,
    /// How many.
    pub count: u64,
}

/// One load of the truck, or several alike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Load {
    /// How many trips are loaded like this.
    pub times: u64,
    /// What is on one of them, in the order of the offers.
    pub lines: Vec<Line>,
}

/// Something to know about a list. The numbers count from 0; the words count from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Note {
    /// A package of the material has no price: the first one listed is ordered, whatever it costs.
    NotPriced {
        /// The material.
        material: usize,
    },
    /// The least order of a supplier is left out: goods from there have no price, or cost nothing.
    LeastOrderNotJudged {
        /// The supplier.
        supplier: usize,
    },
    /// The truck has a limit that the package cannot be held against, and it counts as weightless or
    /// roomless.
    RoomNotKnown {
        /// The offer.
        offer: usize,
    },
    /// There is too much to choose from: the simple ways were compared and the best one taken.
    TooManyToSearch,
    /// The search was ended before everything was tried.
    SearchEnded,
    /// The packages do not go together on as few trips as their sums would allow; there may be a better
    /// choice of packages.
    LoadsDoNotFill,
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotPriced { material } => write!(
                f,
                "material {}: a package has no price, so the first one listed is ordered; give every \
                 package a price to compare them",
                material + 1
            ),
            Self::LeastOrderNotJudged { supplier } => write!(
                f,
                "supplier {}: the least order is left out, since goods from there have no price or \
                 cost nothing; ask whether so little is delivered",
                supplier + 1
            ),
            Self::RoomNotKnown { offer } => write!(
                f,
                "offer {}: its mass or its volume is not known, so it takes none of the truck's limit; \
                 give it, or expect more trips",
                offer + 1
            ),
            Self::TooManyToSearch => f.write_str(
                "there are too many packages or phases to try everything; the best of the simple ways \
                 is shown",
            ),
            Self::SearchEnded => f.write_str(
                "the search was ended before everything was tried; there may be a better list",
            ),
            Self::LoadsDoNotFill => f.write_str(
                "the packages do not share trucks as well as their sums would allow; there may be a \
                 better choice of packages",
            ),
        }
    }
}
