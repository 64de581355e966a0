//! Why nothing can be planned, in words. Not here: where it is found.

/// Why nothing can be planned. The fields count from 0; the words count from 1.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PurchaseFault {
    /// A need that is no quantity.
    #[error(
        "material {}, phase {}: the need '{value}' cannot be bought; give 0 or more", material + 1, phase + 1
    )]
    Need {
        /// The material.
        material: usize,
        /// The phase.
        phase: usize,
        /// Cubic millimetres or kilograms.
        value: f64,
    },
    /// Volume and mass of a phase that do not belong together.
    #[error(
        "material {}, phase {}: its volume and its mass are of another density than in the other phases; \
         work both out from one density", material + 1, phase + 1
    )]
    TwoDensities {
        /// The material.
        material: usize,
        /// The phase.
        phase: usize,
    },
    /// Days of keeping that are none.
    #[error("material {}: it cannot keep for '{value}' days; give 0 or more", material + 1)]
    Keeps {
        /// The material.
        material: usize,
        /// Days.
        value: f64,
    },
    /// A need in a phase that is not listed.
    #[error("material {}: {given} needs are given for {phases} phases; list every phase", material + 1)]
    NoSuchPhase {
        /// The material.
        material: usize,
        /// Needs given.
        given: usize,
        /// Phases listed.
        phases: usize,
    },
    /// Phases that go back in time.
    #[error("phase {}: its day lies before that of an earlier phase; put the phases in order", phase + 1)]
    PhaseOrder {
        /// The later phase.
        phase: usize,
    },
    /// An offer for a material that is not listed.
    #[error("offer {}: there is no material {}; name one that is listed", offer + 1, material + 1)]
    NoSuchMaterial {
        /// The offer.
        offer: usize,
        /// The material it names.
        material: usize,
    },
    /// An offer of a supplier who is not listed.
    #[error("offer {}: there is no supplier {}; name one who is listed", offer + 1, supplier + 1)]
    NoSuchSupplier {
        /// The offer.
        offer: usize,
        /// The supplier it names.
        supplier: usize,
    },
    /// A package that holds nothing, or no quantity.
    #[error("offer {}: a package cannot hold '{value}'; give more than 0", offer + 1)]
    Holds {
        /// The offer.
        offer: usize,
        /// Cubic millimetres or kilograms.
        value: f64,
    },
    /// A package whose mass or room is no quantity.
    #[error("offer {}: a package cannot take '{value}' of the truck; give 0 or more", offer + 1)]
    Takes {
        /// The offer.
        offer: usize,
        /// Cubic millimetres or kilograms.
        value: f64,
    },
    /// A truck whose limit is no quantity.
    #[error("supplier {}: a truck cannot carry '{value}'; give 0 or more", supplier + 1)]
    Truck {
        /// The supplier.
        supplier: usize,
        /// Cubic millimetres or kilograms.
        value: f64,
    },
    /// A package that is too heavy or too large for the truck that is to bring it.
    #[error(
        "offer {}: one package takes {times:.2} times what the truck of supplier {} carries; correct the \
         package or the truck, or leave the offer out", offer + 1, supplier + 1
    )]
    TooLargeForTruck {
        /// The offer.
        offer: usize,
        /// Its supplier.
        supplier: usize,
        /// The package against the truck; above 1.
        times: f64,
    },
    /// A package so small against the need that its count is past counting.
    #[error(
        "material {}: more packages than can be counted (10^15); give the size of a package and the need again",
        material + 1
    )]
    TooMany {
        /// The material.
        material: usize,
    },
    /// A price with more than 28 digits.
    #[error("the price is past counting (28 digits); give the prices and the needs again")]
    PastCounting,
}
