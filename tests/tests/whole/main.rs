//! Properties of whole projects: what may change without changing a figure, and that every printed
//! formula comes to its figure. Not here: published answers (see `it`).

mod calculator;
mod formulas;
mod orders;
mod projects;
mod properties;
mod refusals;
