//! Painting scenes to scale. Not here: what a scene is made of.
