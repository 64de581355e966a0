//! The project file, as tables: every object, its keys in the order they are written, and what they say.
//!
//! The words here go into the schema. Not here: rules and cautions (see `tables::data`).

mod data;
mod options;
mod soil;
mod supply;
mod work;

pub(crate) use data::{CautionFile, RuleFile};

use crate::group::Sides;
use crate::mark::{Always, Format, IsFormat, RuleKey, Title, Units, Version};
use crate::record::{record, tagged};
use ecow::EcoString;
use hodful_quantities::Typed;
use hodful_quantities::read::{Amount, Money, Number};
use hodful_quantities::units::{Angle, Length, Mass, MassDensity, Ratio, Time, Volume};
use hodful_takeoff::project::{
    Alternative, ArchKind, Background, BackgroundKind, Blend, BulkingTest, Buying, Coat,
    CornerAngle, Delivered, Done, Dose, DosePer, End, Face, Frame, Inset, Material, MaterialKind,
    Mix, Mixer, Named, Opening, OpeningShape, Package, Pocket, Project, Rain, Reveal, RevealPart,
    ScreenTest, Side, Soil, Splay, Supplier, TestPanel, TrialBatch, Uncertain, Wall, WallEnd,
    WallShape, Work,
};
use std::sync::Arc;

/// Marks a project file.
#[derive(Debug)]
pub(crate) struct ProjectFormat;

impl IsFormat for ProjectFormat {
    const NAME: &'static str = "hodful-project";
    const WHAT: &'static str = "a project";
}

record! {
    /// A building to be plastered. Every dimension is text with its unit, as it was typed.
    Project, "a project", open {
        /// Says that this is a project.
        format: Format<ProjectFormat>;
        /// The version of this format.
        version: Version;
        /// What the project is called.
        name: Title => name;
        /// The units that figures are shown in; dimensions may be typed in any.
        units: Units => units;
        /// Key of the measurement rule that payment follows; 'net' when absent. It never touches the materials.
        measurement_rule: RuleKey => measurement_rule;
        /// Grounds that are plastered, by name.
        backgrounds each "background": Named<Background> => backgrounds;
        /// Materials, by name.
        materials each "material": Named<Material> => materials;
        /// Mixes, by name.
        mixes each "mix": Named<Mix> => mixes;
        /// Build-ups by name, each a list of coats in the order they go on.
        build_ups each "build-up", "coat": Named<Vec<Coat>> => build_ups;
        /// The mixer, when there is one.
        mixer: Option<Mixer> => mixer;
        /// Blends that are looked for, by name.
        blends each "blend": Named<Blend> => blends;
        /// Who sells, by name.
        suppliers each "supplier": Named<Supplier> => suppliers;
        /// How the order is placed; all at once at the least cost when absent.
        buying: Option<Buying> => buying;
        /// Walls. Left and right are as seen from outside, for both faces.
        walls each "wall": Always<Vec<Arc<Wall>>> => walls;
        /// Ways in which the work could be done otherwise, by name.
        options each "option": Named<Alternative> => options;
        /// How far inputs may be off.
        uncertain each "uncertain input": Vec<Uncertain> => uncertain;
        /// Coats that were put on, with what they took.
        done each "record": Vec<Done> => done;
        /// Materials that came.
        delivered each "delivery": Vec<Delivered> => delivered;
        /// Who works when, and in which weather.
        work: Option<Box<Work>> => work;
        /// Free text.
        note: Option<EcoString> => note;
    }

    /// A ground that is plastered.
    Background, "a background" {
        /// What the ground is.
        kind: BackgroundKind => kind;
        /// Mean depth of plaster that fills the uneven ground, outside the thickness of the coats. For metal lath: the depth of the key.
        dubbing_out: Option<Typed<Length>> => dubbing_out;
    }

    /// A material: what it weighs, what is in it, and how it is sold.
    Material, "a material" {
        /// What the material is.
        kind: MaterialKind => kind;
        /// Dry mass per loose volume.
        loose_density: Option<Typed<MassDensity>> => loose_density;
        /// Dry mass per volume of the grains themselves.
        particle_density: Option<Typed<MassDensity>> => particle_density;
        /// Water in it as delivered, mass per dry mass.
        moisture: Option<Typed<Ratio>> => moisture;
        /// How much more room it takes damp than dry, volume per dry volume.
        bulking: Option<Typed<Ratio>> => bulking;
        /// Clay in it, mass per dry mass.
        clay: Option<Typed<Ratio>> => clay;
        /// Room between the grains, per loose volume.
        void_fraction: Option<Typed<Ratio>> => void_fraction;
        /// What the screen holds back, per raw quantity.
        reject: Option<Typed<Ratio>> => reject;
        /// How it is sold.
        packages each "package": Vec<Package> => packages;
        /// What lies in the yard already.
        stock: Option<Typed<Amount>> => stock;
        /// What is known of its grains.
        soil: Option<Box<Soil>> => soil;
        /// A jar test for bulking; it stands before 'bulking'.
        bulking_test: Option<BulkingTest> => bulking_test;
        /// A trial of the screen; it stands before 'reject'.
        screen_test: Option<ScreenTest> => screen_test;
        /// How much more room it takes dug than in the ground, volume per volume in the ground.
        swell: Option<Typed<Ratio>> => swell;
        /// How much less room it takes rammed than in the ground, volume per volume in the ground.
        shrink: Option<Typed<Ratio>> => shrink;
        /// What is lost of it while it lies, per delivered quantity.
        keeping_loss: Option<Typed<Ratio>> => keeping_loss;
        /// How long it can lie.
        keeps: Option<Typed<Time>> => keeps;
        /// Shovels of it that fill the bucket, counted by the crew.
        shovels_per_bucket: Option<Typed<Number>> => shovels_per_bucket;
        /// What a handful of it weighs, weighed by the crew.
        handful: Option<Typed<Mass>> => handful;
    }

    /// One way a material is sold.
    Package, "a package"; by name {
        /// What it is called: bag, bale, tipped load.
        name: EcoString => name;
        /// A loose volume or a mass, as delivered.
        holds: Typed<Amount> => holds;
        /// Price of one.
        price: Option<Typed<Money>> => price;
        /// Name of who sells it; fetched by oneself when absent.
        supplier: Option<EcoString> => supplier;
        /// Room that one takes on the truck, where that is not what it holds loose: a bale.
        room: Option<Typed<Volume>> => room;
    }

    /// A mix.
    Mix, "a mix" {
        /// Parts by dry loose volume of the mineral materials, by the name of the material.
        parts each "part": Named<Typed<Number>> => parts;
        /// Straw, hair or other fibre.
        fibre: Option<Dose> => fibre;
        /// Organic binder.
        binder: Option<Dose> => binder;
        /// Water in the mixed plaster, mass per dry mass of the mineral materials.
        water: Option<Typed<Ratio>> => water;
        /// Air left in the mixed plaster, per mixed volume.
        air: Option<Typed<Ratio>> => air;
        /// What a trial batch gave; it stands before any computed yield.
        trial_batch: Option<TrialBatch> => trial_batch;
        /// Test panels, the last one last; its shrinkage stands before that of the coats.
        test_panels each "test panel": Vec<TestPanel> => test_panels;
        /// The thickest coat that goes on in one pass.
        single_pass: Option<Typed<Length>> => single_pass;
    }

    /// How much of a fibre or binder a mix takes: give 'dose' or 'parts'.
    Dose, "a dose" {
        /// Name of the material.
        material: EcoString => material;
        /// Mass per volume.
        dose: Option<Typed<MassDensity>> => dose;
        /// The volume that the dose is per: mixed plaster, or loose dry mineral materials.
        per: Option<DosePer> => per;
        /// Loose parts, on the scale of the mineral parts.
        parts: Option<Typed<Number>> => parts;
    }

    /// One coat of a build-up.
    Coat, "a coat"; by coat {
        /// What it is called: scratch, fill, finish.
        coat: EcoString => coat;
        /// Finished, dry thickness.
        thickness: Typed<Length> => thickness;
        /// Name of the mix.
        mix: EcoString => mix;
        /// Loss of thickness on drying, per wet thickness.
        shrinkage: Option<Typed<Ratio>> => shrinkage;
        /// Plaster that never stays on the wall, per mixed volume.
        loss: Option<Typed<Ratio>> => loss;
        /// What protects the coat from rain, such as lime wash or oil.
        weather_finish: Option<EcoString> => weather_finish;
    }

    /// The mixer, and what its crew counts in.
    Mixer, "a mixer" {
        /// Mixed plaster that one batch makes.
        working_volume: Typed<Volume> => working_volume;
        /// What a bucket holds, loose.
        bucket: Option<Typed<Volume>> => bucket;
        /// What a shovel carries, loose.
        shovel: Option<Typed<Volume>> => shovel;
        /// What the cup for binder holds, loose.
        cup: Option<Typed<Volume>> => cup;
        /// Water that is held back until the mix has turned, per water to add.
        hold_back: Option<Typed<Ratio>> => hold_back;
        /// Batches that the crew makes in a day.
        batches_per_day: Option<Typed<Number>> => batches_per_day;
    }

    /// A wall.
    Wall, "a wall", open; by id {
        /// Short identifier, as on the drawing.
        id: EcoString => id;
        /// What it is called.
        name: Option<EcoString> => name;
        /// The sheet it was read from.
        sheet: Option<EcoString> => sheet;
        /// How many such walls there are; one when absent.
        count: Option<u32> => count;
        /// Outline in the plane of the outside face.
        shape: WallShape => shape;
        /// Thickness without plaster.
        thickness: Typed<Length> => thickness;
        /// The faces that are plastered.
        faces each "": Sides<Face> => outside, inside;
        /// Corners where the faces end at another wall, each entered once, at one of the two walls.
        ends each "corner": Arc<[WallEnd]> => ends;
        /// Openings.
        openings each "opening": Vec<Opening> => openings;
        /// Hollows that are filled on their own before the first coat.
        pockets each "pocket": Vec<Pocket> => pockets;
    }

    /// One plastered face.
    Face, "a face" {
        /// Name of the background.
        background: EcoString => background;
        /// Name of the build-up.
        build_up: EcoString => build_up;
        /// Where plaster stops short of the outline.
        inset: Option<Arc<Inset>> => inset;
        /// Whether rain reaches it; an outside face is taken as exposed when absent.
        rain: Option<Rain> => rain;
        /// Where it looks to: 'south', 'SW' or degrees from north by east.
        facing: Option<EcoString> => facing;
        /// Whether it stands in the shade all day; a face is taken as in the sun when absent.
        shaded: Option<bool> => shaded;
    }

    /// Where plaster stops short of the outline.
    Inset, "an inset" {
        /// From the left end.
        left: Option<Typed<Length>> => left;
        /// From the right end.
        right: Option<Typed<Length>> => right;
        /// Down from the top, following its slope.
        top: Option<Typed<Length>> => top;
        /// Up from the bottom.
        bottom: Option<Typed<Length>> => bottom;
        /// Height of a level ceiling above the bottom of the wall; under a gable it cuts the slope.
        ceiling: Option<Typed<Length>> => ceiling;
    }

    /// The corner at one end of one face.
    WallEnd, "an end" {
        /// The face.
        face: Side => face;
        /// The end, as seen from outside.
        end: End => end;
        /// External where the surface turns away, internal where it turns towards the viewer.
        angle: CornerAngle => angle;
        /// Angle that the surface turns through; 90 degrees when absent.
        turn: Option<Typed<Angle>> => turn;
        /// Radius of the background at an external corner; sharp when absent.
        radius: Option<Typed<Length>> => radius;
        /// Finished radius of a cove in an internal angle; square when absent.
        cove: Option<Typed<Length>> => cove;
    }

    /// An opening: window, door, niche.
    Opening, "an opening", open; by id {
        /// Short identifier, as on the drawing.
        id: EcoString => id;
        /// What it is, in the estimator's words.
        kind: Option<EcoString> => kind;
        /// How many, side by side; one when absent.
        count: Option<u32> => count;
        /// From one to the next, left edge to left edge.
        spacing: Option<Typed<Length>> => spacing;
        /// Size of the frame.
        shape: OpeningShape => shape;
        /// Left edge of the frame from the left end of the wall.
        from_left: Typed<Length> => from_left;
        /// Underside of the frame above the bottom of the wall.
        sill: Typed<Length> => sill;
        /// Where the frame stands in the depth of the wall.
        frame: Option<Arc<Frame>> => frame;
        /// The reveals.
        reveals each "": Sides<Arc<Reveal>> => outside, inside;
    }

    /// Where a frame stands in the depth of the wall.
    Frame, "a frame" {
        /// From the outside face to the frame.
        from_outside: Typed<Length> => from_outside;
        /// Depth of the frame itself.
        depth: Typed<Length> => depth;
    }

    /// The reveals of an opening on one side.
    Reveal, "a reveal" {
        /// The parts that are plastered; a round or many-sided opening has a ring alone.
        plastered: Vec<RevealPart> => plastered;
        /// Splay of each part, from square to the wall.
        splay: Option<Box<Splay>> => splay;
        /// Radius of the background at the edge to the face; sharp when absent.
        radius: Option<Typed<Length>> => radius;
        /// Width of the strip of lath along the plastered edges.
        lath: Option<Typed<Length>> => lath;
    }

    /// Splay of the parts of a reveal.
    Splay, "a splay" {
        /// Of both jambs.
        jambs: Option<Typed<Angle>> => jambs;
        /// Of the head.
        head: Option<Typed<Angle>> => head;
        /// Of the sill.
        sill: Option<Typed<Angle>> => sill;
        /// Of the whole ring.
        ring: Option<Typed<Angle>> => ring;
    }

    /// A hollow that is filled on its own before the first coat.
    Pocket, "a pocket" {
        /// The face it is in.
        face: Side => face;
        /// Width.
        width: Typed<Length> => width;
        /// Height.
        height: Typed<Length> => height;
        /// Mean depth.
        depth: Typed<Length> => depth;
        /// How many; one when absent.
        count: Option<u32> => count;
    }
}

tagged! {
    /// The outline of a wall.
    WallShape, "a shape of wall" {
        /// Length; of a curved wall, the developed length of its outside face.
        length: Typed<Length>;
        /// Height.
        height: Typed<Length>;
        /// Height at the eaves.
        eaves: Typed<Length>;
        /// Height of the ridge.
        ridge: Typed<Length>;
        /// Where the ridge stands, from the left; the middle when absent.
        ridge_from_left: Typed<Length>;
        /// Height at the left end.
        left: Typed<Length>;
        /// Height at the right end.
        right: Typed<Length>;
        /// Corners in order, each from the left and up.
        corners each "corner": Vec<[Typed<Length>; 2]>;
        /// Radius to the outside face.
        radius: Typed<Length>;
        /// Angle on plan; give this or 'length'.
        sweep: Typed<Angle>;
    } kinds {
        /// Straight, with a level top.
        Rectangle = "rectangle" { length, height }
        /// With a ridge.
        Gable = "gable" { length, eaves, ridge, ridge_from_left or none }
        /// With a sloping top.
        Raked = "raked" { length, left, right }
        /// Any outline that does not cross itself.
        Polygon = "polygon" { corners }
        /// Curved on plan.
        Curved = "curved" { radius, sweep or none, length or none, height }
    }

    /// The shape of an opening, by its frame.
    OpeningShape, "a shape of opening" {
        /// Width; of an arch, its span.
        width: Typed<Length>;
        /// Height.
        height: Typed<Length>;
        /// Height of the springing above the sill.
        springing: Typed<Length>;
        /// Rise of the arch; half the width when absent, for a semicircle.
        rise: Typed<Length>;
        /// Which arch; segmental when absent.
        head: ArchKind;
        /// Diameter.
        diameter: Typed<Length>;
        /// Corners in order, each from the left and up, from the lower left of their own box.
        corners each "corner": Vec<[Typed<Length>; 2]>;
    } kinds {
        /// A rectangle.
        Rectangle = "rectangle" { width, height }
        /// A rectangle with an arched head.
        Arched = "arched" { width, springing, rise or none, head or none }
        /// A circle.
        Circle = "circle" { diameter }
        /// Any outline that does not cross itself.
        Polygon = "polygon" { corners }
    }
}
