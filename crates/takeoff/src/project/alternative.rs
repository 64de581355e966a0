//! How the work could be done otherwise, as typed: changes to the project, and no copy of it. Not here:
//! making them (see `crate::alternative`).

use super::{Coat, Name, Wall};
use std::sync::Arc;

/// An option: changes to the project as it stands, or to another option.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Alternative {
    /// The option that it starts from; the project itself when not given.
    pub of: Option<Name>,
    /// What is otherwise, in the order in which it is made.
    pub changes: Vec<Alteration>,
    /// Free text.
    pub note: Option<Name>,
}

/// One change.
#[derive(Debug, Clone, PartialEq)]
pub enum Alteration {
    /// A field is something else.
    Set {
        /// The things that have the field.
        at: Spot,
        /// The field, by the key that it has in the fields of a thing.
        field: Name,
        /// What it is; not given at all when absent.
        to: Option<Name>,
    },
    /// A measured field is more than it was, or less.
    Add {
        /// The things that have the field.
        at: Spot,
        /// The field, by the key that it has in the fields of a thing.
        field: Name,
        /// By how much; less with a minus before it.
        by: Name,
    },
    /// Something is left out.
    LeaveOut {
        /// What is left out.
        at: Spot,
    },
    /// There is one coat more.
    Coat {
        /// The build-up that it is in.
        build_up: Name,
        /// The coat under it; the background when not given.
        after: Option<Name>,
        /// The coat.
        coat: Coat,
    },
    /// There is one wall more, behind all others.
    Wall {
        /// The wall.
        wall: Arc<Wall>,
    },
    /// There is one more way to buy a material.
    Package {
        /// The material.
        material: Name,
        /// The package.
        package: super::Package,
    },
}

/// Which things of a project are meant: by their names, from the whole to the part. With none, the
/// project itself. A coat without a build-up is the coat of that name in every build-up that has one; an
/// opening without a wall likewise.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Spot {
    /// A background.
    pub background: Option<Name>,
    /// A build-up.
    pub build_up: Option<Name>,
    /// A coat.
    pub coat: Option<Name>,
    /// A mix.
    pub mix: Option<Name>,
    /// A material.
    pub material: Option<Name>,
    /// A package of the material.
    pub package: Option<Name>,
    /// A supplier.
    pub supplier: Option<Name>,
    /// A wall.
    pub wall: Option<Name>,
    /// An opening.
    pub opening: Option<Name>,
    /// The mixer.
    pub mixer: Option<bool>,
}
