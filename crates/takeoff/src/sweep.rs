//! One input over a range. Not here: how it is drawn (see `crate::drawing`).
