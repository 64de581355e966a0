//! Who sells and when what is ordered. Not here: materials and their packages.

use super::{position, values::Values};
use crate::checked::Phases;
use crate::problem::Place;
use crate::project::{Material, Project};
use ecow::eco_format;
use hodful_purchase::{Phase, Supplier};
use hodful_quantities::Typed;
use hodful_quantities::units::Volume;

/// Every supplier, in the order of the project; nothing where something is refused.
pub(super) fn suppliers(project: &Project, values: &mut Values) -> Vec<Option<Supplier>> {
    let each = project.suppliers.iter().map(|(name, supplier)| {
        let place = Place::project().thing("supplier", name.clone());
        values.name(&place, "name", name);
        let before = values.count_of_problems();
        let checked = Supplier {
            charge: supplier
                .delivery
                .as_ref()
                .map(Typed::value)
                .unwrap_or_default(),
            least_order: supplier.least_order.as_ref().map(Typed::value),
            truck_mass: supplier
                .truck_mass
                .as_ref()
                .map(|typed| values.above_nothing(&place, "truck_mass", typed)),
            truck_volume: supplier
                .truck_volume
                .as_ref()
                .map(|typed| values.above_nothing(&place, "truck_volume", typed)),
        };
        (values.count_of_problems() == before).then_some(checked)
    });
    each.collect()
}

/// Who sells each package of a material, and the room it takes.
pub(super) fn packages(
    project: &Project,
    material: &Material,
    place: &Place,
    values: &mut Values,
) -> (Vec<Option<usize>>, Vec<Option<Volume>>) {
    let each = material.packages.iter().map(|package| {
        let place = place.thing("package", package.name.clone());
        let supplier = package.supplier.as_ref().and_then(|name| {
            let place = place.field("supplier");
            position(values, &place, "supplier", name, &project.suppliers)
        });
        let room = package
            .room
            .as_ref()
            .map(|typed| values.above_nothing(&place, "room", typed));
        (supplier, room)
    });
    each.unzip()
}

/// The phases of the order; `None` where something of them is refused.
pub(super) fn phases(project: &Project, values: &mut Values) -> Option<Phases> {
    let phases = project
        .buying
        .as_ref()
        .map(|buying| buying.phases.as_slice());
    let phases = phases.unwrap_or_default();
    let before = values.count_of_problems();
    let whole = Place::project().field("buying");
    let mut first_day = None;
    let mut last_day = None;
    let mut days = Vec::new();
    for (at, phase) in phases.iter().enumerate() {
        let place = whole.thing("phase", phase.name.clone());
        values.name(&place, "name", &phase.name);
        if phases.iter().take(at).any(|other| other.name == phase.name) {
            values.refuse(
                place.clone(),
                "stands twice; give each phase a name of its own",
            );
        }
        for coat in &phase.coats {
            let coats = project.build_ups.values().flatten().map(|coat| &coat.coat);
            let place = place.field("coats");
            if !coats.clone().any(|name| name == coat) {
                values.missing(&place, "coat", coat, coats);
            }
            let other = phases
                .iter()
                .take(at)
                .find(|other| other.coats.contains(coat));
            if let Some(other) = other {
                let message = eco_format!("'{coat}' comes with phase {} already", other.name);
                values.refuse(place, message);
            }
        }
        let day = phase.date.as_ref().map(Typed::value);
        if let (Some(day), Some(typed)) = (day, &phase.date) {
            if last_day.is_some_and(|last| day < last) {
                values.refuse(
                    place.field("date"),
                    eco_format!("'{}' is before the phase before it", typed.text()),
                );
            }
            last_day = Some(day);
        }
        first_day = first_day.or(day);
        let since =
            |day: hodful_quantities::read::Day| first_day.map(|first| i64::from(day.since(first)));
        days.push(Phase {
            day: day.and_then(since),
        });
    }
    if days.is_empty() {
        days.push(Phase::default());
    }
    let of_coat = |name| phases.iter().position(|phase| phase.coats.contains(name));
    let of_coats = project.build_ups.values().map(|coats| {
        let each = coats.iter().map(|coat| of_coat(&coat.coat).unwrap_or(0));
        each.collect()
    });
    Some(Phases {
        days,
        of_coats: of_coats.collect(),
    })
    .filter(|_| values.count_of_problems() == before)
}
