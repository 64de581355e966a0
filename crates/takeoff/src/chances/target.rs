//! One number of a project that may be off: where it stands, what it is, how it is changed. Not here: how far
//! it may be off (see `inputs`).

use crate::checked::{CheckedMaterial, CheckedMix, Site};
use crate::project::{Name, Project, UncertainInput};
use crate::sources::{LEAST_YIELD, MOST_OF_A_SHARE};
use hodful_quantities::Fraction;
use hodful_quantities::units::{Length, Ratio, ratio};

/// One number of a site.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Target {
    /// What it is.
    pub(crate) of: UncertainInput,
    /// Positions of the build-up and the coat, or the position of the background, mix or material and 0.
    pub(crate) at: (usize, usize),
}

impl Target {
    /// Every number of a kind that a project has, in its order, with the name it is addressed by.
    pub(crate) fn all(project: &Project, of: UncertainInput) -> Vec<(&Name, Self)> {
        let one = |(at, name)| (name, Self { of, at: (at, 0) });
        match of {
            UncertainInput::Thickness | UncertainInput::Shrinkage | UncertainInput::Loss => {
                let mut all = Vec::new();
                for (b, coats) in project.build_ups.values().enumerate() {
                    for (c, coat) in coats.iter().enumerate() {
                        all.push((&coat.coat, Self { of, at: (b, c) }));
                    }
                }
                all
            }
            UncertainInput::DubbingOut => project.backgrounds.keys().enumerate().map(one).collect(),
            UncertainInput::Yield => project.mixes.keys().enumerate().map(one).collect(),
            UncertainInput::Moisture | UncertainInput::Bulking | UncertainInput::Reject => {
                project.materials.keys().enumerate().map(one).collect()
            }
        }
    }

    /// What the site has: millimetres of a thickness or a depth, a share of all else. `None` while something
    /// refused keeps it from being told.
    pub(crate) fn value(&self, site: &Site) -> Option<f64> {
        let (at, part) = self.at;
        let layer = || site.build_ups.get(at)?.get(part);
        let material = || site.materials.get(at).filter(|m| m.is_known);
        match self.of {
            UncertainInput::Thickness => Some(layer()?.thickness?.value),
            UncertainInput::Shrinkage => Some(layer()?.coat.as_ref()?.shrinkage.get()),
            UncertainInput::Loss => Some(layer()?.coat.as_ref()?.loss.get()),
            UncertainInput::DubbingOut => Some((*site.dubbing_out.get(at)?)?.value),
            UncertainInput::Yield => Some(site.mix(at)?.yielded.value.get::<ratio>()),
            UncertainInput::Moisture => Some(material()?.delivery.moisture.get::<ratio>()),
            UncertainInput::Bulking => Some(material()?.delivery.bulking.get::<ratio>()),
            UncertainInput::Reject => Some(material()?.delivery.reject.get()),
        }
    }

    /// Between which values it can be at all, `has` being what the site has, which always can.
    pub(crate) fn bounds(&self, has: f64) -> (f64, f64) {
        match self.of {
            UncertainInput::Shrinkage | UncertainInput::Loss | UncertainInput::Reject => {
                (0.0, MOST_OF_A_SHARE.value.max(has))
            }
            UncertainInput::Yield => (LEAST_YIELD.value.min(has), f64::MAX),
            _ => (0.0, f64::MAX),
        }
    }

    /// Gives the site another value, which must lie within the bounds; what cannot be told stays so.
    pub(crate) fn set(&self, site: &mut Site, value: f64) {
        let (at, part) = self.at;
        let length = Length {
            value,
            ..Length::default()
        };
        let share = Ratio {
            value,
            ..Ratio::default()
        };
        let layer = |site: &'_ mut Site, change: &dyn Fn(&mut crate::checked::Layer)| {
            let layers = site.build_ups.get_mut(at);
            if let Some(layer) = layers.and_then(|layers| layers.get_mut(part)) {
                change(layer);
            }
        };
        let material = |site: &'_ mut Site, change: &dyn Fn(&mut CheckedMaterial)| {
            if let Some(material) = site.materials.get_mut(at) {
                change(material);
            }
        };
        match self.of {
            UncertainInput::Thickness => layer(site, &|layer| {
                if let Some(thickness) = &mut layer.thickness {
                    *thickness = length;
                }
                if let Some(coat) = &mut layer.coat {
                    coat.thickness = length;
                }
            }),
            UncertainInput::Shrinkage => layer(site, &|layer| {
                if let (Some(coat), Ok(share)) = (&mut layer.coat, Fraction::new(share)) {
                    coat.shrinkage = share;
                }
            }),
            UncertainInput::Loss => layer(site, &|layer| {
                if let (Some(coat), Ok(share)) = (&mut layer.coat, Fraction::new(share)) {
                    coat.loss = share;
                }
            }),
            UncertainInput::DubbingOut => {
                if let Some(depth) = site.dubbing_out.get_mut(at).and_then(Option::as_mut) {
                    *depth = length;
                }
            }
            UncertainInput::Yield => {
                let mix = site.mixes.get_mut(at).and_then(|mix| mix.made.as_mut());
                if let Some(CheckedMix { yielded, .. }) = mix {
                    yielded.value = share;
                }
            }
            UncertainInput::Moisture => material(site, &|of| of.delivery.moisture = share),
            UncertainInput::Bulking => material(site, &|of| of.delivery.bulking = share),
            UncertainInput::Reject => material(site, &|of| {
                if let Ok(share) = Fraction::new(share) {
                    of.delivery.reject = share;
                }
            }),
        }
    }
}
