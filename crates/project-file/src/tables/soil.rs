//! The project file: soils, what was tried with them, and blends, as tables. Not here: other materials.

use crate::record::record;
use ecow::EcoString;
use hodful_quantities::Typed;
use hodful_quantities::read::{Amount, Day, Number};
use hodful_quantities::units::{Celsius, Length, Ratio, Time, Volume};
use hodful_takeoff::project::{
    Blend, BlendAim, BulkingTest, Cracks, CurveBand, HandTests, JarTest, Named, NumberBetween,
    ScreenTest, ShareBetween, Shine, SieveBand, SievePoint, SizeSystem, Soil, SoilShares, Squeeze,
    TestPanel, TrialBatch,
};

record! {
    /// What is known of the grains of a material. Of several, the sieve stands before the shares and the shares before the jar.
    Soil, "a soil" {
        /// The system that sizes are named by; USDA when absent.
        system: Option<SizeSystem> => system;
        /// Shares by dry mass, from a report or as known.
        shares: Option<SoilShares> => shares;
        /// A sieve list, with the fine end from a hydrometer when there is one.
        sieve each "size": Vec<SievePoint> => sieve;
        /// A jar test.
        jar: Option<JarTest> => jar;
        /// What the hand says.
        hand: Option<HandTests> => hand;
        /// Where it was dug, and when it was tested.
        note: Option<EcoString> => note;
    }

    /// Shares of a soil by dry mass, together the whole.
    SoilShares, "shares of a soil" {
        /// Gravel; none when absent.
        gravel: Option<Typed<Ratio>> => gravel;
        /// Sand.
        sand: Typed<Ratio> => sand;
        /// Silt.
        silt: Typed<Ratio> => silt;
        /// Clay.
        clay: Typed<Ratio> => clay;
    }

    /// One line of a sieve list.
    SievePoint, "a line of a sieve list" {
        /// Opening of the sieve, or the diameter that a hydrometer reading stands for.
        size: Typed<Length> => size;
        /// What passes, by dry mass.
        passing: Typed<Ratio> => passing;
    }

    /// A jar test: soil shaken up in water, and the height of each layer that settled.
    JarTest, "a jar test" {
        /// Height of the lowest layer.
        sand: Typed<Length> => sand;
        /// Height of the layer on it.
        silt: Typed<Length> => silt;
        /// Height of the uppermost layer.
        clay: Typed<Length> => clay;
        /// Depth of water that the grains fell through.
        water_depth: Option<Typed<Length>> => water_depth;
        /// Temperature of the water.
        temperature: Option<Typed<Celsius>> => temperature;
        /// When the top of the sand was marked, after the jar was set down.
        sand_marked: Option<Typed<Time>> => sand_marked;
        /// When the top of the silt was marked.
        silt_marked: Option<Typed<Time>> => silt_marked;
    }

    /// Readings of the hand.
    HandTests, "readings of the hand" {
        /// A moist ball squeezed.
        squeeze: Option<Squeeze> => squeeze;
        /// Length at which a ribbon pressed out over the finger breaks.
        ribbon: Option<Typed<Length>> => ribbon;
        /// Thinnest thread that it can be rolled to.
        roll: Option<Typed<Length>> => roll;
        /// Breadth of a ball dropped from two metres.
        drop: Option<Typed<Length>> => drop;
        /// The face of a moist ball cut with a knife.
        shine: Option<Shine> => shine;
    }

    /// A jar test for bulking: damp sand, then the same under water.
    BulkingTest, "a test of bulking" {
        /// Depth of the damp sand, loose in the jar.
        damp: Typed<Length> => damp;
        /// Depth of the same sand when flooded and rodded.
        flooded: Typed<Length> => flooded;
    }

    /// A trial of the screen.
    ScreenTest, "a trial of the screen" {
        /// Opening of the mesh.
        mesh: Option<Typed<Length>> => mesh;
        /// What was thrown at it: a volume or a mass.
        raw: Typed<Amount> => raw;
        /// What it held back, in the same measure.
        held: Typed<Amount> => held;
    }

    /// What went into a trial batch and what came out.
    TrialBatch, "a trial batch" {
        /// The mineral materials together: their loose dry volume, or their dry mass.
        loose: Typed<Amount> => loose;
        /// Volume of plaster it made.
        mixed: Typed<Volume> => mixed;
        /// Water that went in, by volume or mass.
        water: Option<Typed<Amount>> => water;
        /// The day.
        date: Option<Typed<Day>> => date;
        /// What was seen.
        note: Option<EcoString> => note;
    }

    /// A panel or a bar of a mix, wet and dry.
    TestPanel, "a test panel" {
        /// The day on which it was made.
        date: Option<Typed<Day>> => date;
        /// Length of a bar, or of the panel, between marks when wet.
        wet_length: Option<Typed<Length>> => wet_length;
        /// The same when dry.
        dry_length: Option<Typed<Length>> => dry_length;
        /// Thickness when wet.
        wet_thickness: Option<Typed<Length>> => wet_thickness;
        /// The same when dry.
        dry_thickness: Option<Typed<Length>> => dry_thickness;
        /// Cracks when dry.
        cracks: Option<Cracks> => cracks;
        /// What else was seen.
        note: Option<EcoString> => note;
    }

    /// A blend that is looked for: from what, towards what.
    Blend, "a blend" {
        /// The materials that may go in, by name, each with bounds of its share by loose volume.
        materials each "material": Named<ShareBetween> => materials;
        /// Clay in the dry blend, by mass.
        clay: Option<ShareBetween> => clay;
        /// Silt in the dry blend, by mass.
        silt: Option<ShareBetween> => silt;
        /// Sand grains to clay grains, by volume, whatever heap they come from.
        sand_to_clay: Option<NumberBetween> => sand_to_clay;
        /// Buckets of the sands to buckets of all else, dry and loose.
        sand_to_rest: Option<NumberBetween> => sand_to_rest;
        /// What passes a sieve, by mass.
        sieves each "sieve": Vec<SieveBand> => sieves;
        /// A curve that the grading keeps near to.
        curve: Option<CurveBand> => curve;
        /// The coat that goes on in one pass: grains are at most a third of it.
        single_pass: Option<Typed<Length>> => single_pass;
        /// What is wanted most; the least cost when absent.
        aim: Option<BlendAim> => aim;
        /// How much is wanted, dry and loose: what is in the yard goes so far.
        amount: Option<Typed<Volume>> => amount;
    }

    /// Bounds of a share.
    ShareBetween, "bounds of a share" {
        /// Not less.
        least: Option<Typed<Ratio>> => least;
        /// Not more.
        most: Option<Typed<Ratio>> => most;
    }

    /// Bounds of a number.
    NumberBetween, "bounds of a number" {
        /// Not less.
        least: Option<Typed<Number>> => least;
        /// Not more.
        most: Option<Typed<Number>> => most;
    }

    /// Bounds of what passes a sieve.
    SieveBand, "a sieve" {
        /// Opening of the sieve.
        size: Typed<Length> => size;
        /// Not less passes.
        least: Option<Typed<Ratio>> => least;
        /// Not more passes.
        most: Option<Typed<Ratio>> => most;
    }

    /// A grading curve by a power of the size, and how far off it a blend may be.
    CurveBand, "a grading curve" {
        /// The largest grain.
        largest: Typed<Length> => largest;
        /// The power; 0.5 when absent.
        power: Option<Typed<Number>> => power;
        /// How far off the curve, up and down, in points of the share passing.
        within: Option<Typed<Ratio>> => within;
    }
}
