//! What differs between two projects: the walls taken out and put in, and the rest.
