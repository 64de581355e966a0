//! A project as an estimator thinks of it: walls, faces, openings, build-ups, mixes, materials.
//!
//! Every dimension is a [`Typed`] value: the text as it was typed and what it was read as. Nothing
//! here is checked against anything else and nothing derived is kept; see [`crate::check()`] for the
//! checking and [`crate::evaluate()`] for the figures. Not here: files and their format.
//!
//! Left and right are as seen from outside, for both faces of a wall.
//!
//! Insets, frames, reveals and corners, which a building repeats, are held by reference, and equal ones
//! can be held once ([`share`]).

mod alternative;
mod blend;
mod done;
mod share;
mod size;
mod soil;
mod supply;
mod trial;
mod uncertain;
mod work;

pub use alternative::{Alteration, Alternative, Spot};
pub use blend::{Blend, BlendAim, CurveBand, NumberBetween, ShareBetween, SieveBand};
pub use done::{Delivered, Done};
pub use share::share;
pub use soil::{
    BulkingTest, HandTests, JarTest, ScreenTest, Shine, SievePoint, SizeSystem, Soil, SoilShares,
    Squeeze,
};
pub use supply::{Buying, BuyingAim, Phase, Supplier};
pub use trial::{Cracks, TestPanel, TrialBatch};
pub use uncertain::{Uncertain, UncertainInput};
pub use work::{Dried, HeaterFuel, Preparation, Preparing, Rate, Room, Weekday, Work};

use ecow::EcoString;
use hodful_quantities::read::{Amount, Money, Number};
use hodful_quantities::units::{Angle, Length, Mass, MassDensity, Ratio, Time, Volume};
use hodful_quantities::{Typed, print::UnitSystem};
use indexmap::IndexMap;
use std::sync::Arc;

/// A name or an identifier as typed.
pub type Name = EcoString;

/// Everything with a name, in the order it was entered.
pub type Named<T> = IndexMap<Name, T>;

/// A whole project.
#[derive(Debug, Clone, PartialEq)]
pub struct Project {
    /// What the project is called.
    pub name: Name,
    /// The units its figures are shown in.
    pub units: UnitSystem,
    /// Key of the measurement rule for payment; never used for materials.
    pub measurement_rule: Name,
    /// Backgrounds that are plastered, by name.
    pub backgrounds: Named<Background>,
    /// Materials, by name.
    pub materials: Named<Material>,
    /// Mixes, by name.
    pub mixes: Named<Mix>,
    /// Build-ups (coats in the order they go on), by name.
    pub build_ups: Named<Vec<Coat>>,
    /// The mixer, when there is one.
    pub mixer: Option<Mixer>,
    /// Blends that are looked for, by name.
    pub blends: Named<Blend>,
    /// Who sells, by name.
    pub suppliers: Named<Supplier>,
    /// How the order is placed; all at once at the least cost when not given.
    pub buying: Option<Buying>,
    /// Walls, in the order they were entered; held by reference, so that a copy of a project is cheap.
    pub walls: Vec<Arc<Wall>>,
    /// Ways in which the work could be done otherwise, by name.
    pub options: Named<Alternative>,
    /// How far inputs may be off.
    pub uncertain: Vec<Uncertain>,
    /// Coats that were put on, with what they took.
    pub done: Vec<Done>,
    /// Materials that came.
    pub delivered: Vec<Delivered>,
    /// Who works when, and in which weather.
    pub work: Option<Box<Work>>,
    /// Free text of the estimator.
    pub note: Option<Name>,
}

/// What a face is made of before plaster.
#[derive(Debug, Clone, PartialEq)]
pub struct Background {
    /// The kind of background.
    pub kind: BackgroundKind,
    /// Mean depth that fills the uneven background, outside the stated thickness of the coats.
    pub dubbing_out: Option<Typed<Length>>,
}

/// Declares an enum of words: the words as they stand in a project file, in one table.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal,)+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum $name { $($(#[$vdoc])* $variant,)+ }

        impl $name {
            /// Every variant, in the order of this table.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)+];

            /// The word for it, as a project file has it.
            pub fn word(self) -> &'static str {
                match self { $(Self::$variant => $word,)+ }
            }

            /// The variant for a word.
            pub fn from_word(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)+ _ => None }
            }
        }
    };
}

pub(crate) use words;

words! {
    /// Kinds of background.
    BackgroundKind {
        /// Walls of straw bales.
        StrawBale = "straw bale",
        /// Walls of sun-dried earth bricks.
        Adobe = "adobe",
        /// Walls of monolithic earth and straw.
        Cob = "cob",
        /// Straw-clay and other light earth infill.
        LightEarth = "light earth",
        /// Building board.
        Board = "board",
        /// Fired brick, block or stone.
        Masonry = "masonry",
        /// Expanded metal lath; its dubbing-out depth is the key that strips of lath take.
        MetalLath = "metal lath",
    }
}

words! {
    /// Kinds of material.
    MaterialKind {
        /// Sand.
        Sand = "sand",
        /// Clay: bagged, milled or dug.
        Clay = "clay",
        /// Soil as dug on site.
        Soil = "soil",
        /// Bagged or heaped ready-mixed plaster.
        Premix = "premix",
        /// Lime.
        Lime = "lime",
        /// Portland cement.
        Cement = "cement",
        /// Straw, hair and other fibre.
        Fibre = "fibre",
        /// Organic binder: wheat paste, casein and the like.
        Binder = "binder",
        /// Water.
        Water = "water",
    }
}

impl MaterialKind {
    /// Whether it is measured into a mix by loose volume as one of the parts.
    pub fn is_mineral(self) -> bool {
        !matches!(self, Self::Fibre | Self::Binder | Self::Water)
    }

    /// Clay in it when none is given: nothing in sand, lime and cement (common practice, no source);
    /// unknown in all else.
    pub fn clay_when_not_given(self) -> Option<Ratio> {
        matches!(self, Self::Sand | Self::Lime | Self::Cement).then(Ratio::default)
    }
}

/// A material: what it weighs, what is in it, and how it is sold.
#[derive(Debug, Clone, PartialEq)]
pub struct Material {
    /// The kind.
    pub kind: MaterialKind,
    /// Dry mass per loose volume.
    pub loose_density: Option<Typed<MassDensity>>,
    /// Dry mass per volume of the grains themselves.
    pub particle_density: Option<Typed<MassDensity>>,
    /// Water in it as delivered, mass per dry mass.
    pub moisture: Option<Typed<Ratio>>,
    /// How much more room it takes damp than dry, volume per dry volume.
    pub bulking: Option<Typed<Ratio>>,
    /// Clay in it, mass per dry mass.
    pub clay: Option<Typed<Ratio>>,
    /// Room between the grains, per loose volume.
    pub void_fraction: Option<Typed<Ratio>>,
    /// What the screen holds back, per raw quantity.
    pub reject: Option<Typed<Ratio>>,
    /// How it is sold.
    pub packages: Vec<Package>,
    /// What is already in the yard, as it lies there.
    pub stock: Option<Typed<Amount>>,
    /// What is known of its grains.
    pub soil: Option<Box<Soil>>,
    /// A jar test for bulking, which stands before `bulking`.
    pub bulking_test: Option<BulkingTest>,
    /// A trial of the screen, which stands before `reject`.
    pub screen_test: Option<ScreenTest>,
    /// How much more room it takes dug than in the ground, volume per volume in the ground.
    pub swell: Option<Typed<Ratio>>,
    /// How much less room it takes rammed than in the ground, volume per volume in the ground.
    pub shrink: Option<Typed<Ratio>>,
    /// What is lost of it while it lies, per delivered quantity.
    pub keeping_loss: Option<Typed<Ratio>>,
    /// How long it can lie.
    pub keeps: Option<Typed<Time>>,
    /// Shovels of it that fill the bucket, counted by the crew.
    pub shovels_per_bucket: Option<Typed<Number>>,
    /// What a handful of it weighs, weighed by the crew.
    pub handful: Option<Typed<Mass>>,
}

impl Material {
    /// A material of which nothing but the kind is known.
    pub fn of(kind: MaterialKind) -> Self {
        Self {
            kind,
            loose_density: None,
            particle_density: None,
            moisture: None,
            bulking: None,
            clay: None,
            void_fraction: None,
            reject: None,
            packages: Vec::new(),
            stock: None,
            soil: None,
            bulking_test: None,
            screen_test: None,
            swell: None,
            shrink: None,
            keeping_loss: None,
            keeps: None,
            shovels_per_bucket: None,
            handful: None,
        }
    }
}

/// One way a material is sold.
#[derive(Debug, Clone, PartialEq)]
pub struct Package {
    /// What it is called: bag, bale, tipped load.
    pub name: Name,
    /// A volume (loose, as delivered) or a mass (as delivered).
    pub holds: Typed<Amount>,
    /// Price of one.
    pub price: Option<Typed<Money>>,
    /// Name of who sells it; fetched by oneself when not given.
    pub supplier: Option<Name>,
    /// Room that one takes on the truck, where that is not what it holds loose: a bale.
    pub room: Option<Typed<Volume>>,
}

impl Package {
    /// A package with no price.
    pub fn of(name: Name, holds: Typed<Amount>) -> Self {
        Self {
            name,
            holds,
            price: None,
            supplier: None,
            room: None,
        }
    }
}

/// A mix.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Mix {
    /// Parts by dry loose volume of the mineral materials.
    pub parts: Named<Typed<Number>>,
    /// Fibre.
    pub fibre: Option<Dose>,
    /// Organic binder.
    pub binder: Option<Dose>,
    /// Water in the mixed plaster, mass per dry mass of the mineral materials.
    pub water: Option<Typed<Ratio>>,
    /// Air left in the mixed plaster, per mixed volume.
    pub air: Option<Typed<Ratio>>,
    /// A trial batch, which stands before any computed yield.
    pub trial_batch: Option<TrialBatch>,
    /// Test panels, the last one last; its shrinkage stands before that of the coats.
    pub test_panels: Vec<TestPanel>,
    /// The thickest coat that goes on in one pass.
    pub single_pass: Option<Typed<Length>>,
}

/// How much of a fibre or binder a mix takes: exactly one of `dose` and `parts` is given.
#[derive(Debug, Clone, PartialEq)]
pub struct Dose {
    /// The material.
    pub material: Name,
    /// Mass per volume.
    pub dose: Option<Typed<MassDensity>>,
    /// The volume that `dose` is per.
    pub per: Option<DosePer>,
    /// Loose parts, on the scale of the mineral parts.
    pub parts: Option<Typed<Number>>,
}

words! {
    /// The volume a dose is per.
    DosePer {
        /// Per volume of mixed plaster.
        Mixed = "mixed",
        /// Per loose dry volume of the mineral materials together.
        Loose = "loose",
    }
}

/// One coat of a build-up.
#[derive(Debug, Clone, PartialEq)]
pub struct Coat {
    /// What it is called: scratch, fill, finish.
    pub coat: Name,
    /// Finished, dry thickness.
    pub thickness: Typed<Length>,
    /// The mix it is made of.
    pub mix: Name,
    /// Loss of thickness on drying, per wet thickness.
    pub shrinkage: Option<Typed<Ratio>>,
    /// Plaster that never stays on the wall, per mixed volume.
    pub loss: Option<Typed<Ratio>>,
    /// What protects the coat from rain (lime wash, oil), when something does.
    pub weather_finish: Option<Name>,
}

impl Coat {
    /// Whether its weather finish is one of lime, by what such are called (common practice, no source).
    pub fn has_lime_wash(&self) -> bool {
        let finish = self.weather_finish.as_ref();
        finish.is_some_and(|finish| {
            let finish = finish.to_lowercase();
            let mut names = ["lime", "whitewash", "white wash"].into_iter();
            names.any(|name| finish.contains(name))
        })
    }
}

/// The mixer, and what its crew counts in.
#[derive(Debug, Clone, PartialEq)]
pub struct Mixer {
    /// Mixed plaster one batch makes.
    pub working_volume: Typed<Volume>,
    /// What a bucket holds, loose.
    pub bucket: Option<Typed<Volume>>,
    /// What a shovel carries, loose.
    pub shovel: Option<Typed<Volume>>,
    /// What the cup for binder holds, loose.
    pub cup: Option<Typed<Volume>>,
    /// Water that is held back until the mix has turned, per water to add.
    pub hold_back: Option<Typed<Ratio>>,
    /// Batches that the crew makes in a day.
    pub batches_per_day: Option<Typed<Number>>,
}

impl Mixer {
    /// A mixer of which nothing but the batch is known.
    pub fn of(working_volume: Typed<Volume>) -> Self {
        Self {
            working_volume,
            bucket: None,
            shovel: None,
            cup: None,
            hold_back: None,
            batches_per_day: None,
        }
    }
}

/// A wall.
#[derive(Debug, Clone, PartialEq)]
pub struct Wall {
    /// Short identifier, as on the drawing.
    pub id: Name,
    /// What it is called.
    pub name: Option<Name>,
    /// The sheet it was read from.
    pub sheet: Option<Name>,
    /// How many such walls there are.
    pub count: Option<u32>,
    /// Outline in the plane of the outside face.
    pub shape: WallShape,
    /// Thickness without plaster.
    pub thickness: Typed<Length>,
    /// Outside face, when it is plastered.
    pub outside: Option<Face>,
    /// Inside face, when it is plastered.
    pub inside: Option<Face>,
    /// Corners where the faces end at another wall.
    pub ends: Arc<[WallEnd]>,
    /// Openings.
    pub openings: Vec<Opening>,
    /// Hollows filled on their own.
    pub pockets: Vec<Pocket>,
}

impl Wall {
    /// The face on a side, when it is plastered.
    pub fn face(&self, side: Side) -> Option<&Face> {
        match side {
            Side::Outside => self.outside.as_ref(),
            Side::Inside => self.inside.as_ref(),
        }
    }
}

words! {
    /// The two faces of a wall.
    Side {
        /// Outside.
        Outside = "outside",
        /// Inside.
        Inside = "inside",
    }
}

/// The outline of a wall.
#[derive(Debug, Clone, PartialEq)]
pub enum WallShape {
    /// `rectangle`.
    Rectangle {
        /// Length.
        length: Typed<Length>,
        /// Height.
        height: Typed<Length>,
    },
    /// `gable`.
    Gable {
        /// Length.
        length: Typed<Length>,
        /// Height at the eaves.
        eaves: Typed<Length>,
        /// Height of the ridge.
        ridge: Typed<Length>,
        /// Where the ridge stands; the middle when not given.
        ridge_from_left: Option<Typed<Length>>,
    },
    /// `raked`: a sloping top.
    Raked {
        /// Length.
        length: Typed<Length>,
        /// Height at the left end.
        left: Typed<Length>,
        /// Height at the right end.
        right: Typed<Length>,
    },
    /// `polygon`: corners as pairs from the left and up.
    Polygon {
        /// Corners in order, each `[from the left, up]`.
        corners: Vec<[Typed<Length>; 2]>,
    },
    /// `curved`: curved on plan.
    Curved {
        /// Radius to the outside face.
        radius: Typed<Length>,
        /// Angle on plan; exactly one of this and `length` is given.
        sweep: Option<Typed<Angle>>,
        /// Developed length of the outside face.
        length: Option<Typed<Length>>,
        /// Height.
        height: Typed<Length>,
    },
}

/// One plastered face.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// Name of the background.
    pub background: Name,
    /// Name of the build-up.
    pub build_up: Name,
    /// Where plaster stops short of the outline.
    pub inset: Option<Arc<Inset>>,
    /// Whether rain reaches it; an outside face is taken as exposed when not given.
    pub rain: Option<Rain>,
    /// Where it looks to: `south`, `SW`, or degrees from north by east.
    pub facing: Option<Name>,
    /// Whether it stands in the shade all day.
    pub shaded: Option<bool>,
}

words! {
    /// Whether rain reaches a face.
    Rain {
        /// Rain reaches it.
        Exposed = "exposed",
        /// Roof, porch or cladding keeps rain off.
        Sheltered = "sheltered",
    }
}

/// Insets of a face.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default)]
pub struct Inset {
    /// From the left end.
    pub left: Option<Typed<Length>>,
    /// From the right end.
    pub right: Option<Typed<Length>>,
    /// Down from the top, following its slope.
    pub top: Option<Typed<Length>>,
    /// Up from the bottom.
    pub bottom: Option<Typed<Length>>,
    /// Height of a level ceiling above the bottom of the wall; under a gable it cuts the slope.
    pub ceiling: Option<Typed<Length>>,
}

/// The corner at one end of one face. A corner between two walls is entered once.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct WallEnd {
    /// The face.
    pub face: Side,
    /// The end.
    pub end: End,
    /// External (the surface turns away) or internal.
    pub angle: CornerAngle,
    /// Angle the surface turns through; 90 degrees when not given.
    pub turn: Option<Typed<Angle>>,
    /// Radius of the background at an external corner; sharp when not given.
    pub radius: Option<Typed<Length>>,
    /// Finished radius of a cove in an internal angle; square when not given.
    pub cove: Option<Typed<Length>>,
}

words! {
    /// Ends of a face.
    End {
        /// Left, seen from outside.
        Left = "left",
        /// Right, seen from outside.
        Right = "right",
    }
}

words! {
    /// Kinds of corner.
    CornerAngle {
        /// The surface turns away from the viewer.
        External = "external",
        /// The surface turns towards the viewer.
        Internal = "internal",
    }
}

/// An opening: window, door, niche.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// Short identifier, as on the drawing.
    pub id: Name,
    /// What it is, in the estimator's words.
    pub kind: Option<Name>,
    /// How many, side by side.
    pub count: Option<u32>,
    /// From one to the next, left edge to left edge.
    pub spacing: Option<Typed<Length>>,
    /// Size of the frame.
    pub shape: OpeningShape,
    /// Left edge of the frame from the left end of the wall.
    pub from_left: Typed<Length>,
    /// Underside of the frame above the bottom of the wall.
    pub sill: Typed<Length>,
    /// Where the frame stands in the wall.
    pub frame: Option<Arc<Frame>>,
    /// Reveals outside.
    pub outside: Option<Arc<Reveal>>,
    /// Reveals inside.
    pub inside: Option<Arc<Reveal>>,
}

impl Opening {
    /// The reveals on a side.
    pub fn reveal(&self, side: Side) -> Option<&Reveal> {
        match side {
            Side::Outside => self.outside.as_deref(),
            Side::Inside => self.inside.as_deref(),
        }
    }
}

/// The shape of an opening, by its frame.
#[derive(Debug, Clone, PartialEq)]
pub enum OpeningShape {
    /// `rectangle`.
    Rectangle {
        /// Width.
        width: Typed<Length>,
        /// Height.
        height: Typed<Length>,
    },
    /// `arched`: a rectangle with an arched head.
    Arched {
        /// Width, which is the span of the arch.
        width: Typed<Length>,
        /// Height of the springing above the sill.
        springing: Typed<Length>,
        /// Rise of the arch; half the width when not given for a semicircle.
        rise: Option<Typed<Length>>,
        /// Which arch; segmental when not given.
        head: Option<ArchKind>,
    },
    /// `circle`.
    Circle {
        /// Diameter.
        diameter: Typed<Length>,
    },
    /// `polygon`.
    Polygon {
        /// Corners in order, each `[from the left, up]`, from the lower left of their own box.
        corners: Vec<[Typed<Length>; 2]>,
    },
}

words! {
    /// Kinds of arched head.
    ArchKind {
        /// Part of a circle, by its rise.
        Segmental = "segmental",
        /// Half a circle.
        Semicircular = "semicircular",
        /// Half an ellipse, by its rise.
        Elliptical = "elliptical",
    }
}

/// Where a frame stands in the depth of the wall.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Frame {
    /// From the outside face to the frame.
    pub from_outside: Typed<Length>,
    /// Depth of the frame itself.
    pub depth: Typed<Length>,
}

/// The reveals of an opening on one side.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Reveal {
    /// Which parts are plastered.
    pub plastered: Vec<RevealPart>,
    /// Splay of each part, from square to the wall.
    pub splay: Option<Box<Splay>>,
    /// Radius of the background at the edge to the face; sharp when not given.
    pub radius: Option<Typed<Length>>,
    /// Width of the strip of lath along the plastered edges.
    pub lath: Option<Typed<Length>>,
}

words! {
    /// Parts of a reveal.
    RevealPart {
        /// The upright sides.
        Jambs = "jambs",
        /// The underside of the head.
        Head = "head",
        /// The sill.
        Sill = "sill",
        /// All the way round.
        Ring = "ring",
    }
}

/// Splay of the parts of a reveal.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default)]
pub struct Splay {
    /// Of both jambs.
    pub jambs: Option<Typed<Angle>>,
    /// Of the head.
    pub head: Option<Typed<Angle>>,
    /// Of the sill.
    pub sill: Option<Typed<Angle>>,
    /// Of the whole ring.
    pub ring: Option<Typed<Angle>>,
}

/// A hollow that is filled on its own before the first coat.
#[derive(Debug, Clone, PartialEq)]
pub struct Pocket {
    /// The face it is in.
    pub face: Side,
    /// Width.
    pub width: Typed<Length>,
    /// Height.
    pub height: Typed<Length>,
    /// Mean depth.
    pub depth: Typed<Length>,
    /// How many.
    pub count: Option<u32>,
}
