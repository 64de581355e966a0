//! The terminal front end.
