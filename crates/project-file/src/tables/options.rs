//! The project file: options, uncertain inputs, and records of the work, as tables. Not here: what they change.

use crate::record::{record, tagged};
use ecow::EcoString;
use hodful_quantities::Typed;
use hodful_quantities::read::{Amount, Day, Level};
use hodful_takeoff::project::{
    Alteration, Alternative, Coat, Delivered, Done, Package, Side, Spot, Uncertain, UncertainInput,
    Wall,
};
use std::sync::Arc;

record! {
    /// An option: changes to the project, or to another option.
    Alternative, "an option", open {
        /// Name of the option that it starts from; the project itself when absent.
        of: Option<EcoString> => of;
        /// What is otherwise, in the order in which it is made.
        changes each "change": Vec<Alteration> => changes;
        /// Free text.
        note: Option<EcoString> => note;
    }

    /// Which things are meant, by their names; with none the project itself. A coat without its build-up is the coat of that name in every build-up.
    Spot, "a place" {
        /// Name of a background.
        background: Option<EcoString> => background;
        /// Name of a build-up.
        build_up: Option<EcoString> => build_up;
        /// Name of a coat.
        coat: Option<EcoString> => coat;
        /// Name of a mix.
        mix: Option<EcoString> => mix;
        /// Name of a material.
        material: Option<EcoString> => material;
        /// Name of a package of the material.
        package: Option<EcoString> => package;
        /// Name of a supplier.
        supplier: Option<EcoString> => supplier;
        /// Id of a wall.
        wall: Option<EcoString> => wall;
        /// Id of an opening.
        opening: Option<EcoString> => opening;
        /// Whether the mixer is meant.
        mixer: Option<bool> => mixer;
    }

    /// How far an input may be off: 'lowest' and 'highest', or 'mean' and 'spread'. A share of a thickness or a depth is a share of what the project has.
    Uncertain, "an uncertain input" {
        /// The input.
        of: UncertainInput => of;
        /// Name of the coat, background, mix or material; all of them, off together, when absent.
        name: Option<EcoString> => name;
        /// The lowest that it may be.
        lowest: Option<Typed<Level>> => lowest;
        /// The likeliest; what the project has when absent.
        likely: Option<Typed<Level>> => likely;
        /// The highest that it may be.
        highest: Option<Typed<Level>> => highest;
        /// The mean that was measured.
        mean: Option<Typed<Level>> => mean;
        /// How far from that mean it is at most 2 times in 3: its standard deviation.
        spread: Option<Typed<Level>> => spread;
        /// How far a wall is from that at most 2 times in 3, as a standard deviation; of thickness and dubbing out only.
        wall_to_wall: Option<Typed<Level>> => wall_to_wall;
        /// Where it was measured, or who says so.
        source: Option<EcoString> => source;
    }

    /// A coat that was put on, with what it really took.
    Done, "a record" {
        /// Name of the coat.
        coat: EcoString => coat;
        /// Name of the build-up; every one that has such a coat when absent.
        build_up: Option<EcoString> => build_up;
        /// Ids of the walls; all when there is none.
        walls: Vec<EcoString> => walls;
        /// The face; both when absent.
        face: Option<Side> => face;
        /// What it took, mixed: batches, buckets or a volume.
        took: Typed<Amount> => took;
        /// The day.
        date: Option<Typed<Day>> => date;
        /// What was seen.
        note: Option<EcoString> => note;
    }

    /// Material that came.
    Delivered, "a delivery" {
        /// Name of the material.
        material: EcoString => material;
        /// How much came.
        amount: Typed<Amount> => amount;
        /// The day.
        date: Option<Typed<Day>> => date;
        /// Free text.
        note: Option<EcoString> => note;
    }
}

tagged! {
    /// One change of an option.
    Alteration, "a change" {
        /// The things that it is about.
        at: Spot;
        /// The field.
        field: EcoString;
        /// What the field is; not given at all when absent.
        to: EcoString;
        /// By how much the field is more, or less with a minus.
        by: EcoString;
        /// Name of the build-up.
        build_up: EcoString;
        /// Name of the coat under it; the background when absent.
        after: EcoString;
        /// The coat.
        coat: Coat;
        /// The wall.
        wall: Arc<Wall>;
        /// Name of the material.
        material: EcoString;
        /// The package.
        package: Package;
    } kinds {
        /// A field is something else.
        Set = "set" { at, field, to or none }
        /// A measured field is more or less.
        Add = "add" { at, field, by }
        /// Something is left out.
        LeaveOut = "leave out" { at }
        /// One coat more.
        Coat = "coat" { build_up, after or none, coat }
        /// One wall more, behind all others.
        Wall = "wall" { wall }
        /// One more way to buy a material.
        Package = "package" { material, package }
    }
}
