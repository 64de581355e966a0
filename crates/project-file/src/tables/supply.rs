//! The project file: who sells and when what is ordered, as tables. Not here: materials and their packages.

use crate::record::record;
use ecow::EcoString;
use hodful_quantities::Typed;
use hodful_quantities::read::{Day, Money};
use hodful_quantities::units::{Mass, Volume};
use hodful_takeoff::project::{Buying, BuyingAim, Phase, Supplier};

record! {
    /// Somebody who delivers.
    Supplier, "a supplier" {
        /// Price of one trip, whatever it carries.
        delivery: Option<Typed<Money>> => delivery;
        /// The least worth of goods that is brought out at a time.
        least_order: Option<Typed<Money>> => least_order;
        /// What the truck may carry.
        truck_mass: Option<Typed<Mass>> => truck_mass;
        /// What the bed of the truck holds.
        truck_volume: Option<Typed<Volume>> => truck_volume;
        /// Free text.
        note: Option<EcoString> => note;
    }

    /// How the order is placed.
    Buying, "a way to buy" {
        /// What is wanted most; the least cost when absent.
        aim: Option<BuyingAim> => aim;
        /// One order for each of these, in the order of the work; all at once when there is none.
        phases each "phase": Vec<Phase> => phases;
    }

    /// Coats whose materials come together.
    Phase, "a phase"; by name {
        /// What it is called.
        name: EcoString => name;
        /// Names of the coats; one that no phase names comes with the first.
        coats: Vec<EcoString> => coats;
        /// The day on which it is delivered.
        date: Option<Typed<Day>> => date;
    }
}
