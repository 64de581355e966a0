//! Prints the class of every soil on the half-percent grid of the texture triangle, for a comparison with other
//! programs: sand, silt and clay in percent and the name of the class, tabs between. Nothing is decided here.

use std::io::{self, Write};

use hodful_soils::texture::{Class, classify};

fn main() -> io::Result<()> {
    let mut out = io::BufWriter::new(io::stdout().lock());
    for sand in 0..=200_u8 {
        for silt in 0..=(200 - sand) {
            let percents = [sand, silt, 200 - sand - silt].map(|halves| f64::from(halves) / 2.0);
            let [sand, silt, clay] = percents;
            let class = classify(sand / 100.0, silt / 100.0, clay / 100.0);
            let name = class.map_or("none", Class::name);
            writeln!(out, "{sand}\t{silt}\t{clay}\t{name}")?;
        }
    }
    out.flush()
}
