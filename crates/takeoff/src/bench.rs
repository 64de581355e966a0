//! The work bench a project lies on while it is edited: figures kept, and only what changed done again.
