//! The entry line: a whole wall or opening in words of the trade. Not here: the screen.
