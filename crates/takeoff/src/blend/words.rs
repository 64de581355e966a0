//! What the programme says, with the names of the project. Not here: what it found.

use crate::project::Name;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::significant;
use hodful_quantities::units::millimeter;
use hodful_soils::blend::{BlendFault, Limit, Requirement, Target};

/// Digits of the opening of a sieve.
const DIGITS: u32 = 3;

pub(super) fn requirement(materials: &[Name], target: &Target, of: Requirement) -> EcoString {
    match of {
        Requirement::Clay => "clay, by mass".into(),
        Requirement::Silt => "silt, by mass".into(),
        Requirement::SandToClay => "sand grains to clay grains".into(),
        Requirement::SandToRest => "sand to the rest, in buckets".into(),
        Requirement::Passing(sieve) => match target.sieves.get(sieve) {
            Some((size, _)) => eco_format!(
                "passing {} mm",
                significant(size.get::<millimeter>(), DIGITS)
            ),
            None => "passing a sieve".into(),
        },
        Requirement::Share(material) => eco_format!("share of {}", name(materials, material)),
    }
}

pub(super) fn limit(materials: &[Name], target: &Target, of: Limit) -> EcoString {
    match of {
        Limit::Least(of) => eco_format!("the least of {}", requirement(materials, target, of)),
        Limit::Most(of) => eco_format!("the most of {}", requirement(materials, target, of)),
        Limit::Supply(at) => eco_format!("what there is of {}", name(materials, at)),
    }
}

fn name(materials: &[Name], at: usize) -> &str {
    materials.get(at).map_or("a material", |name| name.as_str())
}

pub(super) fn fault(materials: &[Name], target: &Target, of: &BlendFault) -> EcoString {
    match of {
        BlendFault::Unknown {
            candidate,
            requirement: what,
        } => eco_format!(
            "{}: {} cannot be told; test its grains, leave it out, or do not ask for that",
            name(materials, *candidate),
            requirement(materials, target, *what)
        ),
        BlendFault::NoPrice { candidate } => eco_format!(
            "{}: it can be bought but has no price; give one, or choose by least bought in",
            name(materials, *candidate)
        ),
        BlendFault::Material {
            candidate,
            figure,
            value,
            allowed,
        } => eco_format!(
            "{}: {figure} is {value}; it must be {allowed}",
            name(materials, *candidate)
        ),
        BlendFault::Target {
            requirement: what,
            value,
            allowed,
        } => eco_format!(
            "{}: {value} is asked for; it must be {allowed}",
            requirement(materials, target, *what)
        ),
        other => eco_format!("{other}"),
    }
}
