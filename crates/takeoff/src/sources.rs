//! The limits and usual values that doubts and defaults rest on, each with its source. Not here: the
//! constants of mixes, which stand with their formulas in the quantities.

use hodful_quantities::units::{Length, Ratio, millimeter, percent};

/// A number with where it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sourced<T> {
    /// The number, in the unit the constant names.
    pub value: T,
    /// Where it comes from.
    pub source: &'static str,
}

/// Loss of thickness on drying when a coat gives none, %.
pub const USUAL_SHRINKAGE: Sourced<f64> = Sourced {
    value: 2.0,
    source: "default: the limit for earth plaster mortars, DIN 18947, as a data sheet quotes it (at most 2 %)",
};

/// Least total clay plaster on straw bale, mm.
pub const LEAST_ON_BALE: Sourced<f64> = Sourced {
    value: 25.0,
    source: "IRC appendix on strawbale construction, section AS104.4.3 (from memory): at least 1 in (25 mm)",
};

/// Greatest total plaster on straw bale, mm (two inches are 50.8).
pub const MOST_ON_BALE: Sourced<f64> = Sourced {
    value: 50.8,
    source: "IRC appendix on strawbale construction, section AS104.4.1 (as a code contributor restates it): at most 2 in unless engineered",
};

/// Rain on clay plaster.
pub const WEATHER_FINISH: &str = "IBC section 2109, clay plaster: exposed to the weather it takes an approved erosion-resistant finish";

/// Cement on clay plaster.
pub const CEMENT_OVER_CLAY: &str = "IBC section 2109, clay plaster: Portland cement plaster is not permitted as a finish over clay plaster";

/// Least clay in a plaster mix, % by dry mass.
pub const LEAN_MIX: Sourced<f64> = Sourced {
    value: 5.0,
    source: "published mixes hold from 5 % clay (bauratgeber24.de, low-crack plaster); 10 to 15 % is usual (Practical Action, Mud plasters and renders)",
};

/// Greatest clay in a plaster mix, % by dry mass.
pub const RICH_MIX: Sourced<f64> = Sourced {
    value: 30.0,
    source: "published mixes hold up to 30 % clay (Earthbag Building); 10 to 15 % is usual (Practical Action, Mud plasters and renders)",
};

/// Behind the published yields.
pub const YIELD_SPREAD: &str = "published for lime and cement mortar only: 0.75 (dry = 1.33 × wet) to 0.87 (Gillette and Hill, Concrete Construction Methods and Costs, 1908)";

/// Behind the yield by absolute volumes.
pub const ABSOLUTE_VOLUMES: &str = "absolute volumes; the rule that sand swells 1.1 times and paste fills 0.9 of its voids is from Gillette and Hill, Concrete Construction Methods and Costs, 1908, for cement paste";

/// Behind the layer volume.
pub const STEINER: &str = "Steiner's formula for parallel surfaces";

/// Behind damp sand.
pub const BULKING: &str = "Central Public Works Department (India), Specifications, app. D: damp volume = dry volume × (1 + bulking)";

/// Behind soil in the ground, dug and rammed.
pub const SWELL: &str = "earthwork: dug volume = volume in the ground × (1 + swell); published swells: sand and gravel 12 %, earth and loam 25 %, clay 40 % (a table after Merritt, Standard Handbook for Civil Engineers)";

/// What is usual for a value that a slip of the pen makes absurd.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Usual {
    /// Greatest usual value, in the unit `unit` names.
    pub most: f64,
    /// The unit of `most`, as printed.
    pub unit: &'static str,
    /// Where the spread comes from.
    pub source: &'static str,
}

/// Greatest usual dubbing out, mm.
pub const USUAL_DUBBING_OUT: Usual = Usual {
    most: 50.0,
    unit: "mm",
    source: "IRC 2018 appendix S, AS106.7: straw-bale walls bulge at most 2 in (51 mm) in 8 ft",
};

/// Greatest usual thickness of a wall without plaster, mm.
pub const USUAL_WALL: Usual = Usual {
    most: 1500.0,
    unit: "mm",
    source: "common practice, no source; from memory: three-string bales laid flat make 580 mm, old cob up to 900 mm",
};

/// Greatest usual height of a wall, mm.
pub const USUAL_HEIGHT: Usual = Usual {
    most: 12_000.0,
    unit: "mm",
    source: "common practice, no source; earth and bale walls seldom have more than three storeys",
};

/// Greatest usual splay of a reveal, degrees.
pub const USUAL_SPLAY: Usual = Usual {
    most: 60.0,
    unit: "degrees",
    source: "common practice, no source; from memory: reveals are seldom splayed beyond 45 degrees",
};

/// The least usual width or height of an opening, mm: common practice, no source.
pub const LEAST_OPENING: f64 = 50.0;

/// Greatest usual loss, %.
pub const USUAL_LOSS: Usual = Usual {
    most: 30.0,
    unit: "%",
    source: "common practice, no source; rate analyses of plasterers' work allow 10 to 20 %",
};

/// Greatest usual shrinkage, %.
pub const GREATEST_SHRINKAGE: Usual = Usual {
    most: 5.0,
    unit: "%",
    source: "IRC 2021 appendix AU, AU103.4.1: cob shrinks at most 1 in 24 (4.2 %)",
};

/// Greatest usual water, % of dry mass.
pub const USUAL_WATER: Usual = Usual {
    most: 50.0,
    unit: "%",
    source: "published mixes take 12.6 % (Taylor, Vardy and MacDougall, 2006) to 48 % (a bagged finish with kaolin)",
};

/// Greatest usual fibre, kg per m³ mixed.
pub const USUAL_FIBRE: Usual = Usual {
    most: 105.0,
    unit: "kg/m3",
    source: "Practical Action, Mud plasters and renders: 35 to 70 kg of straw per m³; half as much again is let pass",
};

/// Greatest usual bulking of damp sand, %.
pub const USUAL_BULKING: Usual = Usual {
    most: 45.0,
    unit: "%",
    source: "L. C. Sabin, Cement and Concrete, art. 262: 38.9 % at most, in fine screenings",
};

/// How far shares of a report or a sieve list may be apart and still be the same, points.
pub const SHARES_PRINTED: Sourced<f64> = Sourced {
    value: 1.0,
    source: "common practice, no source: shares of a soil are printed to the whole percent, so one point is let pass",
};

/// How far shares may be outside the bounds of a jar, points: its bounds are wide enough by themselves.
pub const JAR_BOUNDS: Sourced<f64> = Sourced {
    value: 0.0,
    source: "bounds of a jar: layers as heights and as dry mass (settled weights of Lara and Pemberton, 1963, from memory), each mark a millimetre off",
};

/// Behind the hours of the marks of a jar.
pub const SETTLING: &str =
    "Stokes' law for grains of 2650 kg/m³; viscosity of water from IAPWS SR6-08(2011)";

/// How far the water of a trial batch may be off that of its mix, points of the dry mass.
pub const TRIAL_WATER: Sourced<f64> = Sourced {
    value: 3.0,
    source: "common practice, no source: three points of water are a change of consistency that is felt on the trowel",
};

/// Behind a panel that cracked open.
pub const OPEN_CRACKS: &str =
    "common practice, no source: a coat cracks on the wall at least as much as its test panel";

/// Greatest shrinkage of a test bar, % of its length.
pub const GREATEST_SHRINKAGE_OF_BAR: Sourced<f64> = Sourced {
    value: 2.0,
    source: "DIN 18947, as a data sheet quotes it: earth plaster mortar shrinks at most 2 %",
};

/// Shrinkage of a test bar that is asked for where nothing else is, % of its length: a quarter of an inch in
/// two feet is 1.04.
pub const SHRINKAGE_OF_BAR: Sourced<f64> = Sourced {
    value: 1.05,
    source: "Practical Action, Mud plasters and renders: at most 1/4 in in 2 ft",
};

/// Least published swell of soil that is dug, %.
pub const LEAST_SWELL: Sourced<f64> = Sourced {
    value: 12.0,
    source: "sand and gravel swell by 12 % (handbook table of swell, as in Merritt, Standard Handbook for Civil Engineers)",
};

/// Greatest published swell of soil that is dug, %.
pub const GREATEST_SWELL: Sourced<f64> = Sourced {
    value: 50.0,
    source: "hardpan swells by 50 % (handbook table of swell, as in Merritt, Standard Handbook for Civil Engineers)",
};

/// Behind how far an input is off where the project does not say.
pub const OURS: &str = "a default of ours; no published spread known to us";

/// How far an input is taken to be off where the project does not say, as shares of what the project has, which is
/// the likeliest. Ours, no source: see [`OURS`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UsuallyOff {
    /// The lowest.
    pub lowest: f64,
    /// The highest.
    pub highest: f64,
    /// Both in words.
    pub shown: &'static str,
}

/// Thickness of a coat: a crew puts on more rather than less.
pub const THICKNESS_OFF: UsuallyOff = UsuallyOff {
    lowest: 0.9,
    highest: 1.25,
    shown: "90 % to 125 % of what is written",
};

/// Dubbing out: nobody sees the hollows of a wall before it is covered.
pub const DUBBING_OUT_OFF: UsuallyOff = UsuallyOff {
    lowest: 0.5,
    highest: 1.8,
    shown: "50 % to 180 % of what is written",
};

/// Loss.
pub const LOSS_OFF: UsuallyOff = UsuallyOff {
    lowest: 0.5,
    highest: 2.0,
    shown: "half to twice what is written",
};

/// Shrinkage.
pub const SHRINKAGE_OFF: UsuallyOff = UsuallyOff {
    lowest: 0.5,
    highest: 1.5,
    shown: "50 % to 150 % of what is reckoned with",
};

/// Moisture and bulking.
pub const DAMP_OFF: UsuallyOff = UsuallyOff {
    lowest: 0.5,
    highest: 1.5,
    shown: "50 % to 150 % of what is written",
};

/// What the screen holds back.
pub const REJECT_OFF: UsuallyOff = UsuallyOff {
    lowest: 0.7,
    highest: 1.4,
    shown: "70 % to 140 % of what is written",
};

/// The yield of a trial batch.
pub const MEASURED_YIELD_OFF: UsuallyOff = UsuallyOff {
    lowest: 0.95,
    highest: 1.05,
    shown: "5 % less to 5 % more than the trial batch",
};

/// How far the thickness of a wall is off from that of all, as a standard deviation and a share of it.
pub const THICKNESS_WALL_TO_WALL: Sourced<f64> = Sourced {
    value: 0.1,
    source: OURS,
};

/// The same of dubbing out.
pub const DUBBING_OUT_WALL_TO_WALL: Sourced<f64> = Sourced {
    value: 0.3,
    source: OURS,
};

/// Greatest share that a drawn loss, shrinkage or reject is let have.
pub const MOST_OF_A_SHARE: Sourced<f64> = Sourced {
    value: 0.95,
    source: "ours, no source: plaster of which one part in twenty arrives nobody reckons any more",
};

/// Least yield that is drawn.
pub const LEAST_YIELD: Sourced<f64> = Sourced {
    value: 0.05,
    source: "ours, no source: no mix makes less than a twentieth of its loose volume",
};

/// So many standard deviations from its mean a value is on one side 1 time in 100: past that, what is typed of a
/// spread should still be something that can be.
pub const ONE_IN_100: Sourced<f64> = Sourced {
    value: 2.326,
    source: "1 time in 100: ours, no source; so many standard deviations by any table of the normal distribution, from memory",
};

/// Most memory that draws take, bytes.
pub const MOST_MEMORY: Sourced<usize> = Sourced {
    value: 1 << 30,
    source: "ours, no source: a quarter of what the smallest of today's computers has",
};

/// A constant in millimetres as a length.
pub fn length(of: Sourced<f64>) -> Length {
    Length::new::<millimeter>(of.value)
}

/// A constant in percent as a ratio.
pub fn share(of: Sourced<f64>) -> Ratio {
    Ratio::new::<percent>(of.value)
}
