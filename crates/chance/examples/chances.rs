//! Samples, learnt means, drawn figures of a wall and random words, one JSON object a line: for reference
//! libraries to work out anew. Read by `tests/crosscheck/chance.py`. Not here: any judgement of them.
//!
//! `cargo run --release -p hodful-chance --example chances`

use hodful_chance::{ChanceFault, Observation, Sample, Spread, Stream, draws, learn, normal};
use rand::Rng;
use serde_json::{Value, json};
use std::io::{self, Write};

type Outcome<T> = Result<T, Box<dyn std::error::Error>>;

const SHARES: [f64; 9] = [0.0, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95, 1.0];

/// Draws of each figure of a wall.
const DRAWS: usize = 200_000;

fn main() -> Outcome<()> {
    let mut out = io::BufWriter::new(io::stdout().lock());
    for seed in 0..20 {
        writeln!(out, "{}", sample(seed)?)?;
    }
    for seed in 0..20 {
        writeln!(out, "{}", learnt(seed)?)?;
    }
    for figure in FIGURES {
        writeln!(out, "{}", drawn(figure)?)?;
    }
    for seed in [0, 1, 1_234_567, u64::MAX] {
        for number in [0, 1, 99] {
            writeln!(out, "{}", words(seed, number)?)?;
        }
    }
    out.flush()?;
    Ok(())
}

/// A sample with what is read off it: of four kinds, some with many equal values, of 2 to 3000 values.
fn sample(seed: u32) -> Outcome<Value> {
    let counts = [2_usize, 3, 10, 101, 1000, 3000];
    let count = counts.into_iter().cycle().nth(seed as usize).unwrap_or(2);
    let triangle = Spread::triangular(8.0, 10.0, 15.0)?;
    let values = draws(
        count,
        u64::from(seed),
        || (),
        |(), stream, _| match seed % 4 {
            0 => 1000.0 + 0.5 * normal(stream),
            1 => triangle.draw(stream),
            2 => (triangle.draw(stream) * 0.7).ceil(),
            _ => normal(stream) / (2.0 + normal(stream).abs()),
        },
    );
    let sample = Sample::from(values.clone()).ok_or("a draw is no number")?;
    let middle = sample.at(0.37);
    Ok(json!({
        "kind": "sample",
        "seed": seed,
        "values": values,
        "mean": sample.mean(),
        "sd": sample.sd(),
        "standard_error": sample.standard_error(),
        "quantiles": SHARES.map(|share| [share, sample.at(share)]),
        "over": [middle, sample.chance_over(middle)],
        "least": SHARES.map(|chance| [chance, sample.least_for(chance)]),
        "bins": sample.bins(),
        "usual": sample.histogram(sample.bins()).counts,
        "seven": sample.histogram(7).counts,
    }))
}

/// What is learnt of a thickness or a share, from one to five made-up observations.
fn learnt(seed: u32) -> Outcome<Value> {
    let mut stream = Stream::new(u64::from(seed), 0);
    let scale = if seed.is_multiple_of(2) { 20.0 } else { 0.8 };
    let about = Spread::triangular(0.05 * scale, 0.1 * scale, 0.3 * scale)?;
    let (mean, sd) = (scale, about.draw(&mut stream));
    let seen: Vec<Observation> = (0..=seed % 5)
        .map(|_| Observation {
            value: scale * (1.0 + 0.2 * normal(&mut stream)),
            sd: about.draw(&mut stream),
        })
        .collect();
    let own = about.draw(&mut stream);
    let known = learn(mean, sd, &seen)?;
    Ok(json!({
        "kind": "learnt",
        "seed": seed,
        "prior": [mean, sd],
        "seen": seen.iter().map(|s| [s.value, s.sd]).collect::<Vec<_>>(),
        "own": own,
        "mean": known.mean,
        "sd": known.sd,
        "weight": known.weight,
        "next": known.predictive(own)?.sd(),
    }))
}

/// An input that may be off: `mean, sd` when it is normal, `lowest, likely, highest` when it is a triangle.
enum Input {
    Normal(f64, f64),
    Triangle(f64, f64, f64),
}

use Input::{Normal, Triangle};

/// A figure of a wall: its name, its inputs, and how it is worked out.
type Figure = (&'static str, &'static [Input], fn(&[f64]) -> f64);

/// Areas in m², thicknesses in mm, volumes in litres, the rest as shares and counts. All made up.
const FIGURES: &[Figure] = &[
    (
        "mixed",
        &[
            Normal(84.0, 1.2),
            Normal(12.0, 0.4),
            Triangle(0.02, 0.04, 0.07),
            Triangle(0.05, 0.08, 0.12),
        ],
        |x| at(x, 0) * at(x, 1) / (1.0 - at(x, 2)) / (1.0 - at(x, 3)),
    ),
    (
        "loose",
        &[
            Normal(1150.0, 30.0),
            Triangle(0.72, 0.78, 0.82),
            Normal(3.0, 0.05),
        ],
        |x| at(x, 0) / at(x, 1) * at(x, 2) / (at(x, 2) + 1.0),
    ),
    (
        "two coats of one gauge",
        &[Normal(12.0, 0.3), Normal(40.0, 0.5), Normal(65.0, 0.5)],
        |x| at(x, 0) * at(x, 1) + at(x, 0) * at(x, 2),
    ),
    (
        "net area",
        &[
            Normal(9.4, 0.03),
            Normal(2.75, 0.02),
            Normal(1.2, 0.02),
            Normal(1.4, 0.02),
        ],
        |x| at(x, 0) * at(x, 1) - 3.0 * at(x, 2) * at(x, 3),
    ),
    (
        "damp mass",
        &[
            Normal(1.4, 0.03),
            Normal(1350.0, 25.0),
            Triangle(0.03, 0.06, 0.1),
        ],
        |x| at(x, 0) * at(x, 1) * (1.0 + at(x, 2)),
    ),
    (
        "bulked and screened",
        &[
            Normal(2.2, 0.05),
            Triangle(0.15, 0.25, 0.3),
            Normal(0.1, 0.015),
        ],
        |x| at(x, 0) * (1.0 + at(x, 1)) / (1.0 - at(x, 2)),
    ),
    (
        "dubbed out",
        &[
            Normal(55.0, 0.6),
            Normal(10.0, 0.25),
            Triangle(2.0, 4.0, 7.0),
        ],
        |x| at(x, 0) * (at(x, 1) + at(x, 2)),
    ),
    (
        "batches",
        &[
            Normal(1240.0, 35.0),
            Normal(95.0, 1.5),
            Triangle(0.8, 0.9, 0.95),
        ],
        |x| at(x, 0) / (at(x, 1) * at(x, 2)),
    ),
    (
        "price",
        &[
            Normal(70.0, 0.8),
            Normal(15.0, 0.5),
            Normal(0.8, 0.02),
            Normal(0.12, 0.004),
        ],
        |x| at(x, 0) * at(x, 1) / at(x, 2) * at(x, 3) + 160.0,
    ),
    (
        "share of clay",
        &[Normal(300.0, 12.0), Normal(0.08, 0.01), Normal(820.0, 20.0)],
        |x| {
            let clay = at(x, 0) * (1.0 - at(x, 1));
            clay / (clay + at(x, 2))
        },
    ),
];

fn at(inputs: &[f64], input: usize) -> f64 {
    inputs.get(input).copied().unwrap_or(f64::NAN)
}

/// Mean and standard deviation of the draws of a figure, with its inputs.
fn drawn((name, inputs, figure): &Figure) -> Outcome<Value> {
    let spread = |input: &Input| match *input {
        Normal(mean, sd) => Spread::normal(mean, sd),
        Triangle(lowest, likely, highest) => Spread::triangular(lowest, likely, highest),
    };
    let spreads = inputs
        .iter()
        .map(spread)
        .collect::<Result<Vec<Spread>, ChanceFault>>()?;
    let values = draws(
        DRAWS,
        20_261_125,
        Vec::new,
        |scratch: &mut Vec<f64>, stream, _| {
            scratch.clear();
            scratch.extend(spreads.iter().map(|s| s.draw(stream)));
            figure(scratch)
        },
    );
    let sample = Sample::from(values).ok_or("a draw is no number")?;
    let inputs: Vec<Value> = inputs
        .iter()
        .map(|input| match *input {
            Normal(mean, sd) => json!([mean, sd]),
            Triangle(lowest, likely, highest) => json!([lowest, likely, highest]),
        })
        .collect();
    Ok(json!({
        "kind": "figure",
        "name": name,
        "inputs": inputs,
        "draws": DRAWS,
        "mean": sample.mean(),
        "sd": sample.sd(),
    }))
}

/// The first words of a stream, and triangles drawn from it.
fn words(seed: u64, number: u64) -> Outcome<Value> {
    let mut stream = Stream::new(seed, number);
    let words: Vec<u64> = (0..6).map(|_| stream.next_u64()).collect();
    let mut stream = Stream::new(seed, number);
    let triangle = Spread::triangular(8.0, 10.0, 15.0)?;
    let triangles: Vec<f64> = (0..6).map(|_| triangle.draw(&mut stream)).collect();
    Ok(json!({
        "kind": "words",
        "seed": seed,
        "number": number,
        "words": words,
        "triangles": triangles,
    }))
}
