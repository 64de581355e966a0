//! Cautions for a crew, and whether a project calls for one. Not here: their texts (data with
//! sources).

use crate::assess::Assessed;
use crate::project::{BackgroundKind, Coat, MaterialKind, words};
use ecow::EcoString;

/// A caution, with where it comes from. Local codes and licensed practice stand above it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caution {
    /// Short key.
    pub key: EcoString,
    /// Title.
    pub title: EcoString,
    /// The heart of it in one line, with a short source.
    pub brief: EcoString,
    /// What to do, in the imperative.
    pub text: EcoString,
    /// The work it is for.
    pub applies: When,
    /// The code, handbook or report behind it.
    pub source: EcoString,
}

words! {
    /// The work a caution is for.
    When {
        /// Any work.
        Always = "always",
        /// A mix has lime or cement in it, or lime wash comes on a coat.
        Lime = "lime",
        /// There is straw: straw-bale walls, or straw as fibre.
        Straw = "straw",
        /// There is a mixer.
        Mixer = "mixer",
        /// An outside face is plastered.
        Outside = "outside",
        /// A face is over 10 ft (3 m) high.
        Height = "height",
        /// A coat dries in a room, which may have to be warmed for it.
        Heater = "heater",
    }
}

/// Height over which work is from a scaffold, mm: 10 ft, from which 29 CFR 1926.451 (g) asks for fall
/// protection.
pub(crate) const HIGH: f64 = 3048.0;

impl Assessed<'_> {
    /// Whether the project has work of this kind.
    pub fn calls_for(&self, when: When) -> bool {
        let used = |kinds: &[MaterialKind]| {
            std::iter::zip(self.project.materials.values(), &self.evaluation.materials).any(
                |(material, figures)| kinds.contains(&material.kind) && !figures.uses.is_empty(),
            )
        };
        match when {
            When::Always => true,
            When::Lime => {
                used(&[MaterialKind::Lime, MaterialKind::Cement])
                    || self.faces().any(|(wall, side, _, _)| {
                        let face = wall.face(side);
                        let coats =
                            face.and_then(|face| self.project.build_ups.get(&face.build_up));
                        coats.into_iter().flatten().any(Coat::has_lime_wash)
                    })
            }
            When::Straw => {
                used(&[MaterialKind::Fibre])
                    || self.faces().any(|(wall, side, _, _)| {
                        wall.face(side)
                            .and_then(|face| self.project.backgrounds.get(&face.background))
                            .is_some_and(|b| b.kind == BackgroundKind::StrawBale)
                    })
            }
            When::Mixer => self.project.mixer.is_some(),
            When::Outside => self.project.walls.iter().any(|wall| wall.outside.is_some()),
            When::Heater => {
                let mut work = self.project.work.iter();
                work.any(|work| !work.rooms.is_empty())
            }
            When::Height => self
                .checked
                .walls
                .entries
                .iter()
                .flat_map(|wall| wall.faces.iter().flatten())
                .any(|face| face.outline.bounds().top > HIGH),
        }
    }
}
