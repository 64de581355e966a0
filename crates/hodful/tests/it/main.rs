//! The binary, run as a person would run it: each test in a folder of its own. Not here: figures.

mod commands;
mod formats;
mod readme;
mod run;
mod tables;
