//! What was counted in a thing that is left out, batches of the mixer or packages of a material, as the volume or the
//! mass that it was. Not here: what goes with such a thing.

use crate::check::done::is_of;
use crate::project::{Name, Project};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::read::Amount;
use hodful_quantities::units::{kilogram, liter};

/// Tells records in batches and buckets as volumes.
pub(super) fn of_the_mixer(project: &mut Project) {
    let Some(mixer) = &project.mixer else {
        return;
    };
    let ones = [
        ("batch", Some(&mixer.working_volume)),
        ("bucket", mixer.bucket.as_ref()),
    ];
    for record in &mut project.done {
        let Some(word) = package(&record.took) else {
            continue;
        };
        let word = word.to_lowercase();
        let one = ones.iter().find(|(name, _)| is_of(&word, name));
        if let Some(volume) = one.and_then(|(_, one)| *one) {
            measure(&mut record.took, &Amount::Volume(volume.value()));
        }
    }
}

/// Tells deliveries and the stock in a package of a material as volumes or masses.
pub(super) fn in_the_package(project: &mut Project, material: usize, at: usize) {
    let Some((name, of)) = project.materials.get_index_mut(material) else {
        return;
    };
    let names: Vec<Name> = of.packages.iter().map(|p| p.name.clone()).collect();
    let Some(holds) = of.packages.get(at).map(|package| package.holds.value()) else {
        return;
    };
    let delivered = project.delivered.iter_mut();
    let delivered = delivered.filter(|delivered| delivered.material == *name);
    let all = delivered.map(|delivered| &mut delivered.amount);
    for amount in all.chain(&mut of.stock) {
        let word = package(amount);
        // The first that the word names, as the checking has it.
        let named = word.and_then(|word| names.iter().position(|name| is_of(&word, name)));
        if named == Some(at) {
            measure(amount, &holds);
        }
    }
}

/// The package that an amount is counted in.
fn package(amount: &Typed<Amount>) -> Option<EcoString> {
    match amount.value() {
        Amount::Packages { name, .. } => Some(name),
        Amount::Volume(_) | Amount::Mass(_) => None,
    }
}

/// So many times what one holds: `4 batch` of 90 L becomes `4 * 90.000000 L`. The count stays, since a count is read to
/// the whole, and what one holds has so many places that none of it is lost. What cannot be told so stays as it is.
fn measure(amount: &mut Typed<Amount>, one: &Amount) {
    let Amount::Packages { count, .. } = amount.value() else {
        return;
    };
    let text = match one {
        Amount::Volume(volume) => eco_format!("{count} * {:.6} L", volume.get::<liter>()),
        Amount::Mass(mass) => eco_format!("{count} * {:.6} kg", mass.get::<kilogram>()),
        Amount::Packages { .. } => return,
    };
    if let Ok(read) = Typed::read(text) {
        *amount = read;
    }
}
