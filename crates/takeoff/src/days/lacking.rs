//! What weather does not say, and what is taken instead. Not here: what else the project does not say.

use hodful_air::{Hour, Weather};

/// Something that weather does not say, in some hours at least.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lacking {
    /// Where it is: nobody knows where the sun stands.
    Place,
    /// The sun.
    Sun,
    /// The wind.
    Wind,
    /// The rain.
    Rain,
    /// The clouds.
    Cloud,
    /// How damp the air is.
    Dryness,
}

impl Lacking {
    /// What is taken instead, in a sentence.
    pub fn said(self) -> &'static str {
        match self {
            Self::Place => {
                "Neither the project nor the weather says where it is: sunny faces are told as in the shade. Give latitude and longitude."
            }
            Self::Sun => {
                "The weather has no sun, or not in all hours: sunny faces are told as in the shade then, and may dry too fast where nothing is said of it."
            }
            Self::Wind => {
                "The weather has no wind, or not in all hours: air is taken as still then. A wind dries faster, and too fast where nothing is said of it."
            }
            Self::Rain => {
                "The weather has no rain, or not in all hours: nothing is said of rain on wet coats then, and none holds their drying up."
            }
            Self::Cloud => {
                "The weather has no clouds, or not in all hours: nights are taken as clear then."
            }
            Self::Dryness => {
                "The dryness of the air is not known, as the weather has no humidity: it is taken as damp. In dry air a wet coat freezes above 0 °C, so nights of up to some 4 °C are to be watched, and hours may dry it too fast where nothing is said of it."
            }
        }
    }

    /// Whether it matters for rooms too.
    pub(super) fn is_of_rooms(self) -> bool {
        self == Self::Dryness
    }
}

/// What these hours lack.
pub(super) fn all(weather: &Weather, hours: &[Hour], has_place: bool) -> Vec<Lacking> {
    // As `hodful_air::sun::Light::known` takes it.
    let no_sun =
        |hour: &Hour| hour.sun.is_none() && (hour.beam.is_none() || hour.diffuse.is_none());
    let lacks = [
        (Lacking::Place, !has_place),
        // Without a place sun would not help.
        (Lacking::Sun, has_place && hours.iter().any(no_sun)),
        (Lacking::Wind, hours.iter().any(|hour| hour.wind.is_none())),
        (Lacking::Rain, hours.iter().any(|hour| hour.rain.is_none())),
        (
            Lacking::Cloud,
            hours.iter().any(|hour| hour.cloud.is_none()),
        ),
        (Lacking::Dryness, !weather.is_dryness_known()),
    ];
    let lacks = lacks.into_iter().filter(|(_, lacks)| *lacks);
    lacks.map(|(what, _)| what).collect()
}
