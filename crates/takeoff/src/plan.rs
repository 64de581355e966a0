//! From the plan of a building to its walls.
