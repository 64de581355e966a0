//! Packages in words, the same on the screen, on paper and on the command line. Not here: which cover a need (see
//! `hodful_quantities::order`).

use crate::project::Project;
use ecow::{EcoString, eco_format};
use hodful_quantities::order::Cover;

/// So many of each package.
///
/// ```
/// use hodful_takeoff::packages::words;
/// assert_eq!(words([("tipped load", 4), ("ton", 0), ("bag", 2)]), "4 × tipped load + 2 × bag");
/// assert_eq!(words([("bag", 0)]), "nothing");
/// ```
pub fn words<'n>(counts: impl IntoIterator<Item = (&'n str, u64)>) -> EcoString {
    let counts = counts.into_iter().filter(|(_, count)| *count > 0);
    let each = counts.map(|(name, count)| eco_format!("{count} × {name}"));
    let each: Vec<EcoString> = each.collect();
    if each.is_empty() {
        "nothing".into()
    } else {
        each.join(" + ").into()
    }
}

/// The packages of a material that cover a need; one that the material no longer has is called a package.
pub fn covering(project: &Project, material: &str, cover: &Cover) -> EcoString {
    let offered = project.materials.get(material);
    words(cover.counts.iter().map(|(at, count)| {
        let package = offered.and_then(|of| of.packages.get(*at));
        (package.map_or("package", |of| of.name.as_str()), *count)
    }))
}
