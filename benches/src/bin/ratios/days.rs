//! A year of weather at forty outside faces that each look another way, held to its limit: when a coat is dry, which
//! nights may freeze it, and when it dries too fast. Not here: whether they are right, and the plan of a crew.

use crate::Outcome;
use crate::limits::{Bound, Limits, best, say};
use hodful_air::drying::{Coat, Record, band};
use hodful_air::film::{Haste, haste};
use hodful_air::frost::{Binder, care, kept, nights};
use hodful_air::outside::{OutsideFace, Sky};
use hodful_benches::season::{hours, place, stands};
use std::hint::black_box;

const FACES: u32 = 40;

/// In milliseconds: a key is answered in less.
const YEAR: f64 = 50.0;

/// A coat of an inch, mm, with its water and its dry mass, kg/m²: ours.
const COAT: [f64; 3] = [25.0, 12.5, 42.5];

pub(crate) fn measure(limits: &mut Limits) -> Outcome {
    say("\nweather");
    let [thickness_mm, water, dry] = COAT;
    let coat = Coat::of_mix(water, dry)?;
    let (place, hours, stands) = (place()?, hours(), stands(FACES));
    let care = care(Binder::Earth);
    let time = best(|| {
        let skies = hours.iter().map(|hour| Sky::of(&place, hour));
        let skies = skies.collect::<Result<Vec<_>, _>>()?;
        for stand in &stands {
            let faces: Vec<OutsideFace> = skies.iter().map(|sky| sky.face(stand)).collect();
            let rates = faces.iter().map(|face| face.wet.kg_m2_h);
            let found = band(&coat, thickness_mm, &Record::NONE, 0.0, rates)?;
            black_box(nights(kept(&hours, &care, found.slow.hours), &care)?);
            black_box(
                faces
                    .iter()
                    .filter(|face| haste(face.quick_kg_m2_h) != Haste::Calm)
                    .count(),
            );
        }
        Ok(())
    })?;
    let what = format!(
        "ms for {} hours of weather at {FACES} outside faces: dry when, frost, haste",
        hours.len()
    );
    limits.hold(what, time, Bound::AtMost(YEAR));
    Ok(())
}
