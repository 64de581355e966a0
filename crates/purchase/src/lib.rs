//! What to buy, from whom, in which packages and loads, so that a need is covered at the least price or
//! in the fewest deliveries.
//!
//! [`plan`] finds the best list by an integer programme and says whether it is proven to be the best;
//! [`naive`] is the simple list beside it, each material by itself.
//!
//! Two suppliers, worked out by hand. Wanted are 3 m³ of sand and 2 m³ of clay soil. The quarry sells sand in
//! loads of 3 m³ at 60 and clay soil in loads of 2 m³ at 70, and takes 80 for a trip of a truck of 4 m³; the
//! yard sells both in big bags of 1 m³, sand at 34 and clay soil at 52, and delivers without a charge.
//!
//! Each by itself without the charge, the loads are cheaper: 60 against 3 · 34 = 102, and 70 against
//! 2 · 52 = 104. But 3 m³ and 2 m³ do not go on one truck of 4, so the simple list costs
//! 60 + 70 + 2 · 80 = 290. Bags of both from the yard cost 102 + 104 = 206. A load of sand with bags of clay
//! soil would be 60 + 80 + 104 = 244, a load of clay soil with bags of sand 70 + 80 + 102 = 252. So bags of
//! both are the cheapest, with nothing to spare.
//!
//! ```
//! use hodful_purchase::{Aim, Need, Offer, Phase, Supplier, naive, plan};
//! use hodful_quantities::Measure;
//! use hodful_quantities::units::{Volume, cubic_meter};
//! use hodful_quantities::{mix::Quantity, order::Holds, read::Money};
//!
//! let cubic_metres = Volume::new::<cubic_meter>;
//! let need = |loose| Need {
//!     by_phase: vec![Quantity::of_volume(cubic_metres(loose), None)],
//!     keeps: None,
//! };
//! let (sand, clay, quarry, yard) = (0, 1, 0, 1);
//! let offer = |material, supplier, holds, price| {
//!     Ok::<_, hodful_quantities::Misread>(Offer {
//!         material,
//!         supplier: Some(supplier),
//!         holds: Holds::Volume(cubic_metres(holds)),
//!         price: Some(Money::read(price)?),
//!         loose: None,
//!         mass: None,
//!     })
//! };
//! let needs = [need(3.0), need(2.0)];
//! let offers = [
//!     offer(sand, quarry, 3.0, "60")?,
//!     offer(sand, yard, 1.0, "34")?,
//!     offer(clay, quarry, 2.0, "70")?,
//!     offer(clay, yard, 1.0, "52")?,
//! ];
//! let suppliers = [
//!     Supplier {
//!         charge: Money::read("80")?,
//!         truck_volume: Some(cubic_metres(4.0)),
//!         ..Supplier::default()
//!     },
//!     Supplier::default(),
//! ];
//! let phases = [Phase::default()];
//!
//! let simple = naive(&needs, &offers, &suppliers, &phases)?;
//! assert_eq!(simple.price, Some(Money::read("290")?));
//! assert_eq!(simple.deliveries_count, 2);
//!
//! let best = plan(&needs, &offers, &suppliers, &phases, Aim::LeastCost)?;
//! assert_eq!(best.price, Some(Money::read("206")?));
//! assert!(best.proven);
//! let bags: Vec<_> = best.deliveries[0].lines.iter().map(|l| (l.offer, l.count)).collect();
//! assert_eq!(bags, [(1, 3), (3, 2)]);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Not here: where the need comes from, and any input or output.

mod asked;
mod case;
mod fault;
mod money;
mod naive;
mod pack;
mod planned;
mod programme;
mod search;
mod settle;
mod stock;
mod tolerance;

pub use asked::{Aim, Need, Offer, Phase, Supplier};
pub use fault::PurchaseFault;
pub use planned::{Delivery, Line, Load, Note, Plan};
pub use search::{naive, plan};
