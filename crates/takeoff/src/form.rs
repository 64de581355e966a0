//! Every field of every thing of a project: listed, read and set by its key.
