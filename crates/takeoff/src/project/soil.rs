//! What is known of a soil, as typed: from a sieve, a jar, a report, or the hand. Not here: what follows
//! from it (see `crate::soil`).

use super::{Name, words};
use hodful_quantities::Typed;
use hodful_quantities::read::Amount;
use hodful_quantities::units::{Celsius, Length, Ratio, Time};

words! {
    /// Systems of particle sizes.
    SizeSystem {
        /// Sand from 0.05 mm.
        Usda = "USDA",
        /// Sand from 0.063 mm.
        Iso = "ISO",
        /// Sand from 0.075 mm.
        Astm = "ASTM",
    }
}

/// What is known of the grains of a material. Where several are given, the sieve stands before the
/// shares and the shares before the jar, because each is surer than the next.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Soil {
    /// The system that sizes are named by; USDA when not given.
    pub system: Option<SizeSystem>,
    /// Shares by mass, from a report or as known.
    pub shares: Option<SoilShares>,
    /// A sieve list, with the fine end from a hydrometer when there is one.
    pub sieve: Vec<SievePoint>,
    /// A jar test.
    pub jar: Option<JarTest>,
    /// What the hand says.
    pub hand: Option<HandTests>,
    /// Where it was dug, by whom and when it was tested, in the estimator's words.
    pub note: Option<Name>,
}

/// Shares of a soil by dry mass; together the whole.
#[derive(Debug, Clone, PartialEq)]
pub struct SoilShares {
    /// Gravel; none when not given.
    pub gravel: Option<Typed<Ratio>>,
    /// Sand.
    pub sand: Typed<Ratio>,
    /// Silt.
    pub silt: Typed<Ratio>,
    /// Clay.
    pub clay: Typed<Ratio>,
}

/// One line of a sieve list.
#[derive(Debug, Clone, PartialEq)]
pub struct SievePoint {
    /// Opening of the sieve, or the diameter that a hydrometer reading stands for.
    pub size: Typed<Length>,
    /// What passes, by dry mass.
    pub passing: Typed<Ratio>,
}

/// A jar test: soil shaken up in water, and the height of each layer that settled.
#[derive(Debug, Clone, PartialEq)]
pub struct JarTest {
    /// Height of the lowest layer.
    pub sand: Typed<Length>,
    /// Height of the layer on it.
    pub silt: Typed<Length>,
    /// Height of the uppermost layer.
    pub clay: Typed<Length>,
    /// Depth of water that the grains fell through.
    pub water_depth: Option<Typed<Length>>,
    /// Temperature of the water.
    pub temperature: Option<Typed<Celsius>>,
    /// When the top of the sand was marked, after the jar was set down.
    pub sand_marked: Option<Typed<Time>>,
    /// When the top of the silt was marked.
    pub silt_marked: Option<Typed<Time>>,
}

/// Readings of the hand.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HandTests {
    /// A moist ball squeezed.
    pub squeeze: Option<Squeeze>,
    /// Length at which a ribbon pressed out over the finger breaks.
    pub ribbon: Option<Typed<Length>>,
    /// Thinnest thread that it can be rolled to.
    pub roll: Option<Typed<Length>>,
    /// Breadth of a ball dropped from two metres.
    pub drop: Option<Typed<Length>>,
    /// A moist ball cut with a knife.
    pub shine: Option<Shine>,
}

words! {
    /// What a moist ball does in the fist.
    Squeeze {
        /// No ball can be made.
        FallsApart = "falls apart",
        /// It crumbles.
        Crumbles = "crumbles",
        /// It can only be crushed with much force.
        Hard = "hard to crush",
    }
}

words! {
    /// The face of a cut.
    Shine {
        /// It does not shine.
        Dull = "dull",
        /// It shines.
        Shiny = "shiny",
    }
}

/// A jar test for bulking: damp sand, then the same under water.
#[derive(Debug, Clone, PartialEq)]
pub struct BulkingTest {
    /// Depth of the damp sand, loose in the jar.
    pub damp: Typed<Length>,
    /// Depth of the same sand when flooded and rodded.
    pub flooded: Typed<Length>,
}

/// A trial of the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct ScreenTest {
    /// Opening of the mesh.
    pub mesh: Option<Typed<Length>>,
    /// What was thrown at it: a volume or a mass.
    pub raw: Typed<Amount>,
    /// What it held back, in the same measure.
    pub held: Typed<Amount>,
}
