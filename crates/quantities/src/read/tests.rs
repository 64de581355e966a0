//! Tests of the readers as a whole: spellings, refusals, published factors, properties.

mod factors;
mod kinds;
mod lengths;
mod properties;
