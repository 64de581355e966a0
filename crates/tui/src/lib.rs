//! The terminal front end: measuring walls on the screen.
//!
//! ```text
//! terminal ─► key ─► keymap ─► Message ─► update(&mut State, Message) ─► Vec<Effect>
//!    ▲                                          │                             │
//!    │                                          ▼                             ▼
//!    └───────────────────────────── draw(&State, frame)        shell: threads, disk, terminal
//! ```
//!
//! [`update()`] is the one place that changes the state, and touches nothing outside: no clock, file,
//! random number or terminal. [`draw`] only reads. What must be done outside comes back as
//! [`Effect`]s, which the [`shell`] does on threads of their own; their results come in as messages.
//!
//! Not here: files. The shell is given a [`Keeper`] that saves and keeps the recovery journal.

pub mod command;
pub mod doc;
pub mod effect;
pub mod entry;
pub mod keymap;
pub mod message;
pub mod shell;
pub mod sketch;
pub mod start;
pub mod state;
pub mod text;
pub mod theme;
mod tolerance;
pub mod update;
pub mod view;

pub use effect::{Effect, Keeper, SaveFault, WeatherRead, WeatherReader};
pub use message::Message;
pub use start::{Opened, Recovered, Start};
pub use state::State;
pub use update::update;
pub use view::draw;
