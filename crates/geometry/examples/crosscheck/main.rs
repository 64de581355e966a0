//! Prints faces and what this crate makes of them, as lines of JSON, for the cross-checks with reference libraries.
//!
//! `crosscheck faces COUNT SEED` prints random faces, `crosscheck layers` the named solids whose plaster layers are held
//! against meshes. Every line holds what goes in (millimetres, radians) beside the figures that come out. The comparing is not
//! here: see `tests/crosscheck` at the root of the repository.

mod draw;
mod lines;
mod solids;
mod wall;

use rand::SeedableRng;
use rand_pcg::Pcg64;
use std::error::Error;
use std::io::{self, BufWriter, Write};

const USAGE: &str = "crosscheck faces COUNT SEED, or crosscheck layers";

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let mut out = BufWriter::new(io::stdout().lock());
    match words.as_slice() {
        ["faces", count, seed] => {
            let count: u32 = count.parse()?;
            let mut random = Pcg64::seed_from_u64(seed.parse()?);
            for number in 0..count {
                let wall = draw::face(number, &mut random);
                writeln!(out, "{}", lines::face(&wall)?)?;
            }
        }
        ["layers"] => {
            for solid in solids::all() {
                writeln!(out, "{}", lines::solid(&solid)?)?;
            }
        }
        _ => return Err(USAGE.into()),
    }
    out.flush()?;
    Ok(())
}
