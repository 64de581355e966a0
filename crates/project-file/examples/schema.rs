//! Prints the JSON Schema of the project file.
//!
//! Not here: the schema itself. A test holds the printed one against `assets/schema`.

use std::io::{self, Write};

fn main() -> io::Result<()> {
    io::stdout().write_all(hodful_project_file::schema().as_bytes())
}
