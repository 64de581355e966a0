//! The figures that are always on the screen: what each is called, how it is printed, and its path among
//! the explanations. Not here: where they stand.

use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem, fixed};
use hodful_quantities::read::Money;
use hodful_quantities::units::{
    Area, Mass, Volume, cubic_meter, cubic_yard, kilogram, pound, square_foot, square_meter,
};
use hodful_takeoff::Headline;

/// One of the totals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Total {
    /// True surface.
    Surface,
    /// Plaster on the walls.
    Placed,
    /// Mineral materials, loose, as delivered.
    Loose,
    /// Fibre.
    Fibre,
    /// Binder.
    Binder,
    /// Loads of the mixer.
    Batches,
    /// Price.
    Cost,
}

impl Total {
    /// Every total, in the order in which they stand.
    pub const ALL: [Self; 7] = [
        Self::Surface,
        Self::Placed,
        Self::Loose,
        Self::Fibre,
        Self::Binder,
        Self::Batches,
        Self::Cost,
    ];

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Surface => "surface",
            Self::Placed => "placed",
            Self::Loose => "sand+soil",
            Self::Fibre => "fibre",
            Self::Binder => "binder",
            Self::Batches => "batches",
            Self::Cost => "cost",
        }
    }

    /// What it is, for the list of totals.
    pub fn doc(self) -> &'static str {
        match self {
            Self::Surface => "true surface of all faces, reveals and rounded edges",
            Self::Placed => "plaster on the walls, all coats",
            Self::Loose => {
                "sand, soil and clay together as delivered: loose, damp, before the screen"
            }
            Self::Fibre => "straw and other fibre as delivered",
            Self::Binder => "paste and other binder as delivered",
            Self::Batches => "loads of the mixer",
            Self::Cost => "price of all packages that have one; +? when some have none",
        }
    }

    /// The path of its explanation.
    pub fn path(self) -> &'static str {
        match self {
            Self::Surface => "totals.true_surface",
            Self::Placed => "totals.placed",
            Self::Loose => "totals.loose",
            Self::Fibre => "totals.fibre",
            Self::Binder => "totals.binder",
            Self::Batches => "totals.batches",
            Self::Cost => "order.cost",
        }
    }

    /// The figure as printed; a dash where it cannot be told.
    pub fn shown(self, of: &Headline, units: UnitSystem) -> EcoString {
        let text = match self {
            Self::Surface => Some(print::area(of.surface, units)),
            Self::Placed => of.placed.map(|v| print::bulk_volume(v, units)),
            Self::Loose => of.loose.map(|v| print::bulk_volume(v, units)),
            Self::Fibre => of.fibre.map(|m| print::mass(m, units)),
            Self::Binder => of.binder.map(|m| print::mass(m, units)),
            Self::Batches => of.batches.map(|n| print::count(n, units)),
            Self::Cost => of.cost.map(|c| print::money(c, units)),
        };
        let more = if self == Self::Cost && of.unpriced > 0 {
            " +?"
        } else {
            ""
        };
        text.map_or_else(|| "–".into(), |figure| eco_format!("{figure}{more}"))
    }

    /// The change from an earlier figure as printed: `+0.42 yd³`; empty when it is nothing as printed.
    pub fn change(self, now: &Headline, then: &Headline, units: UnitSystem) -> EcoString {
        let us = units == UnitSystem::Us;
        let area = |a: Area| {
            if us {
                a.get::<square_foot>()
            } else {
                a.get::<square_meter>()
            }
        };
        let volume = |v: Volume| {
            if us {
                v.get::<cubic_yard>()
            } else {
                v.get::<cubic_meter>()
            }
        };
        let mass = |m: Mass| {
            if us {
                m.get::<pound>()
            } else {
                m.get::<kilogram>()
            }
        };
        // As the two figures are printed, so that a figure that changes has a change.
        let signed = |both: Option<(f64, f64)>, places: i32| {
            let Some((now, then)) = both else {
                return EcoString::new();
            };
            let scale = 10_f64.powi(places);
            let difference = ((now * scale).round() - (then * scale).round()) / scale;
            let places = places.unsigned_abs();
            let text = fixed(difference.abs(), places, units.grouping());
            if text.chars().all(|c| matches!(c, '0' | '.')) {
                return EcoString::new();
            }
            eco_format!("{}{text}", if difference > 0.0 { '+' } else { '−' })
        };
        let volumes = |now: Option<Volume>, then: Option<Volume>| {
            signed(
                now.zip(then).map(|(now, then)| (volume(now), volume(then))),
                2,
            )
        };
        let masses = |now: Option<Mass>, then: Option<Mass>| {
            signed(now.zip(then).map(|(now, then)| (mass(now), mass(then))), 1)
        };
        match self {
            Self::Surface => {
                let both = (area(now.surface), area(then.surface));
                signed(Some(both), if us { 1 } else { 2 })
            }
            Self::Placed => volumes(now.placed, then.placed),
            Self::Loose => volumes(now.loose, then.loose),
            Self::Fibre => masses(now.fibre, then.fibre),
            Self::Binder => masses(now.binder, then.binder),
            Self::Batches => {
                #[allow(clippy::cast_precision_loss, reason = "nobody mixes 2^53 batches")]
                let count = |n: u64| n as f64;
                let both = now.batches.zip(then.batches);
                signed(both.map(|(now, then)| (count(now), count(then))), 0)
            }
            Self::Cost => Self::money_change(now.cost, then.cost, units),
        }
    }

    fn money_change(now: Option<Money>, then: Option<Money>, units: UnitSystem) -> EcoString {
        let Some((now, then)) = now.zip(then) else {
            return EcoString::new();
        };
        let difference = now.amount() - then.amount();
        if difference.is_zero() {
            return EcoString::new();
        }
        let sign = if difference.is_sign_positive() {
            '+'
        } else {
            '−'
        };
        Money::new(difference.abs()).map_or_else(EcoString::new, |m| {
            eco_format!("{sign}{}", print::money(m, units))
        })
    }
}
