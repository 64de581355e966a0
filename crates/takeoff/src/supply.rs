//! What to buy from whom: the needs of the evaluation by phases, the packages of the project, and the
//! plan that covers them. Not here: the programme (see `hodful_purchase`).

pub mod said;

use crate::checked::Site;
use crate::evaluate::{Evaluation, quantity};
use crate::project::{BuyingAim, MaterialKind, Name, Package, Project};
use ecow::{EcoString, eco_format};
use hodful_purchase::{
    Aim, Delivery, Need, Note, Offer, Plan, PurchaseFault, Supplier, naive, plan,
};
use hodful_quantities::mix::Quantity;
use hodful_quantities::units::{Mass, Volume};
use std::iter::zip;

/// What to buy from whom, beside the simple way.
#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    /// What the numbers of the plan stand for.
    listed: Listed,
    /// The plan.
    pub plan: Plan,
    /// Each material by itself, phase by phase.
    pub simple: Plan,
    /// What is to be said beside the plan, with the names of the project.
    pub notes: Vec<EcoString>,
    /// What is left in the yard of each material when all is used.
    left: Vec<Quantity>,
    /// Materials that are needed and have no package, by position in the project.
    without_package: Vec<usize>,
}

/// What the numbers of a plan stand for.
#[derive(Debug, Clone, PartialEq, Default)]
struct Listed {
    /// The materials that are needed, by position in the project.
    materials: Vec<usize>,
    /// The packages: the material by its place in `materials`, and the package by position in it.
    offers: Vec<(usize, usize)>,
}

impl Listed {
    fn material<'p>(&self, project: &'p Project, at: usize) -> Option<&'p Name> {
        Some(project.materials.get_index(*self.materials.get(at)?)?.0)
    }

    fn package<'p>(&self, project: &'p Project, offer: usize) -> Option<(&'p Name, &'p Package)> {
        let (material, package) = self.offers.get(offer)?;
        let (name, of) = project
            .materials
            .get_index(*self.materials.get(*material)?)?;
        Some((name, of.packages.get(*package)?))
    }
}

impl Supply {
    /// The package of a line of the plan, and the material it is of.
    pub fn package<'p>(
        &self,
        project: &'p Project,
        offer: usize,
    ) -> Option<(&'p Name, &'p Package)> {
        self.listed.package(project, offer)
    }

    /// What is left of each material when all is used, in the order of the project.
    pub fn spare<'p>(&self, project: &'p Project) -> Vec<(&'p Name, Quantity)> {
        let spare = zip(&self.plan.spare, &self.left).enumerate();
        spare
            .filter_map(|(at, (spare, left))| {
                Some((self.listed.material(project, at)?, spare.plus(left)))
            })
            .collect()
    }

    /// Who brings a delivery; `None` for what one fetches oneself.
    pub fn supplier<'p>(&self, project: &'p Project, delivery: &Delivery) -> Option<&'p Name> {
        Some(project.suppliers.get_index(delivery.supplier?)?.0)
    }

    /// The names of the materials that no package covers, or that have none.
    pub fn uncovered<'p>(&self, project: &'p Project) -> Vec<&'p Name> {
        let uncovered = self.plan.uncovered.iter();
        let name = |at: &usize| self.listed.material(project, *at);
        let without = self.without_package.iter();
        let without = without.filter_map(|at| Some(project.materials.get_index(*at)?.0));
        uncovered.filter_map(name).chain(without).collect()
    }
}

/// The name of a phase by its position; empty when all is ordered at once.
pub fn phase_name(project: &Project, at: usize) -> &str {
    let phase = project
        .buying
        .as_ref()
        .and_then(|buying| buying.phases.get(at));
    phase.map_or("", |phase| phase.name.as_str())
}

/// Plans what to buy.
///
/// # Errors
/// In words: what keeps it from being planned.
pub(crate) fn find(
    project: &Project,
    site: &Site,
    evaluation: &Evaluation,
) -> Result<Supply, EcoString> {
    let phases = site.phases.as_ref();
    let phases = phases.ok_or("something is refused in when what is ordered")?;
    let suppliers: Vec<Supplier> = site
        .suppliers
        .iter()
        .map(|of| of.clone().ok_or("something is refused in a supplier"))
        .collect::<Result<_, _>>()?;
    let mut listed = Listed::default();
    let (mut needs, mut offers) = (Vec::new(), Vec::new());
    let (mut left, mut without_package) = (Vec::new(), Vec::new());
    for (at, (checked, figures)) in zip(&site.materials, &evaluation.materials).enumerate() {
        if figures.waits {
            return Err("something refused keeps a need from being told".into());
        }
        let packages = project.materials.get_index(at).map(|(_, of)| &of.packages);
        let packages = packages.filter(|all| !all.is_empty());
        if figures.uses.is_empty() || packages.is_none() {
            if !figures.uses.is_empty() && checked.kind != MaterialKind::Water {
                without_package.push(at);
            }
            continue;
        }
        let mut by_phase = vec![Quantity::default(); phases.days.len()];
        let mut in_yard = figures.stock;
        for (phase, need) in by_phase.iter_mut().enumerate() {
            let of_phase = figures.uses.iter().filter(|used| {
                let coats = phases.of_coats.get(used.build_up);
                coats
                    .and_then(|coats| coats.get(used.coat))
                    .copied()
                    .unwrap_or(0)
                    == phase
            });
            let dry = of_phase
                .map(|used| used.dry)
                .reduce(|sum, dry| sum.plus(&dry));
            let dry = dry.unwrap_or(Quantity {
                loose: figures.dry.loose.map(|_| Volume::default()),
                mass: figures.dry.mass.map(|_| Mass::default()),
            });
            let delivered = checked.delivery.as_delivered(&dry);
            *need = delivered.less(&in_yard);
            in_yard = in_yard.less(&delivered);
        }
        left.push(in_yard);
        let material = listed.materials.len();
        listed.materials.push(at);
        needs.push(Need {
            by_phase,
            keeps: checked.keeps,
        });
        let each = zip(&checked.offers, zip(&checked.sold_by, &checked.room)).enumerate();
        for (package, (offer, (supplier, room))) in each {
            let taken = quantity(checked, &offer.holds, 1.0);
            offers.push(Offer {
                material,
                supplier: *supplier,
                holds: offer.holds,
                price: offer.price,
                loose: room.or(taken.loose),
                mass: taken.mass,
            });
            listed.offers.push((material, package));
        }
    }
    let aim = match project.buying.as_ref().and_then(|buying| buying.aim) {
        Some(BuyingAim::FewestDeliveries) => Aim::FewestDeliveries,
        Some(BuyingAim::LeastCost) | None => Aim::LeastCost,
    };
    let mut notes = Vec::new();
    // A package that no truck of its supplier carries is no offer; the others may do.
    let mut planned = loop {
        match plan(&needs, &offers, &suppliers, &phases.days, aim) {
            Ok(planned) => break planned,
            Err(fault @ PurchaseFault::TooLargeForTruck { offer, .. }) if offer < offers.len() => {
                notes.push(fault_words(project, &listed, fault));
                offers.remove(offer);
                listed.offers.remove(offer);
            }
            Err(fault) => return Err(fault_words(project, &listed, fault)),
        }
    };
    let simple = naive(&needs, &offers, &suppliers, &phases.days)
        .map_err(|fault| fault_words(project, &listed, fault))?;
    let is_priced = |note: &Note| !matches!(note, Note::NotPriced { .. });
    planned.proven &= planned.notes.iter().all(is_priced);
    let said = planned.notes.iter();
    notes.extend(said.map(|note| note_words(project, &listed, *note)));
    Ok(Supply {
        notes,
        plan: planned,
        simple,
        listed,
        left,
        without_package,
    })
}

fn material_name<'p>(project: &'p Project, listed: &Listed, at: usize) -> &'p str {
    let found = listed.material(project, at);
    found.map_or("a material", |name| name.as_str())
}

fn package_name(project: &Project, listed: &Listed, offer: usize) -> EcoString {
    match listed.package(project, offer) {
        Some((name, package)) => eco_format!("{} of {name}", package.name),
        None => "a package".into(),
    }
}

fn supplier_name(project: &Project, at: usize) -> &str {
    let found = project.suppliers.get_index(at);
    found.map_or("a supplier", |(name, _)| name.as_str())
}

fn note_words(project: &Project, listed: &Listed, note: Note) -> EcoString {
    match note {
        Note::NotPriced { material } => eco_format!(
            "{}: a package has no price, so the first one listed is ordered; give every package a price to compare them",
            material_name(project, listed, material)
        ),
        Note::LeastOrderNotJudged { supplier } => eco_format!(
            "{}: the least order is left out, since goods from there have no price; ask whether so little is delivered",
            supplier_name(project, supplier)
        ),
        Note::RoomNotKnown { offer } => eco_format!(
            "{}: its weight or its room is not known, so it takes none of the truck; give room or loose_density, or expect more trips",
            package_name(project, listed, offer)
        ),
        other => eco_format!("{other}"),
    }
}

fn fault_words(project: &Project, listed: &Listed, fault: PurchaseFault) -> EcoString {
    match fault {
        PurchaseFault::TooLargeForTruck {
            offer,
            supplier,
            times,
        } => eco_format!(
            "{}: one takes {times:.2} times what the truck of {} carries; correct the package or the truck",
            package_name(project, listed, offer),
            supplier_name(project, supplier)
        ),
        PurchaseFault::TooMany { material } => eco_format!(
            "{}: more packages than can be counted; check what one holds, and the need",
            material_name(project, listed, material)
        ),
        other => eco_format!("{other}"),
    }
}
