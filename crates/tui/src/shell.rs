//! The thin shell round the front end: reads the terminal, does effects on threads, draws.
