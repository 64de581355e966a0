//! Scenes to scale: a face, a section, a build-up, a plan. Not here: painting them.
