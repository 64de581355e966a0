//! Solves cases of blending from standard input and prints what came of them, for tests/crosscheck/blend.py.
//! Not here: making the cases, and judging the answers.
//!
//! A case is a line of numbers between blanks, `-` where there is none:
//!
//! - aim (0 least cost, 1 least bought, 2 widest margin), amount in kg, materials n, sieves k;
//! - for each material: loose density and density of the grains in kg/m³, clay, silt, sand, gravel, 1 if it is
//!   sand, price per kg, kg in the yard, 1 if it can be bought, then what passes each of the sieves;
//! - least and most of clay, silt, sand to clay, sand to the rest; for each sieve its opening in mm, least
//!   and most; for each material least and most of its share.
//!
//! The answer is a line, its fields behind their names: `found` with cost, bought, margin, rounded and shares;
//! `impossible` with conflict, reach, all, within and shares (of the nearest); or `fault` and its words.

#![allow(clippy::print_stdout, reason = "this program prints")]

use std::io::{BufRead as _, stdin};

use hodful_quantities::units::{
    Mass, MassDensity, kilogram, kilogram_per_cubic_meter, length_of_mm,
};
use hodful_soils::blend::{
    Aim, Blend, BlendFault, Candidate, Grains, Limit, Outcome, Range, Requirement, Target, solve,
};

fn main() -> Result<(), String> {
    for line in stdin().lock().lines() {
        let line = line.map_err(|e| e.to_string())?;
        let mut numbers = Numbers(line.split_whitespace());
        let case = Case::read(&mut numbers).map_err(|why| format!("{why}: {line}"))?;
        println!(
            "{}",
            case.answer()
                .unwrap_or_else(|fault| format!("fault {fault}"))
        );
    }
    Ok(())
}

struct Numbers<'a>(core::str::SplitWhitespace<'a>);

impl Numbers<'_> {
    fn word(&mut self) -> Result<&str, String> {
        self.0.next().ok_or_else(|| "it ends early".to_owned())
    }

    /// The next number; `None` for `-`.
    fn maybe(&mut self) -> Result<Option<f64>, String> {
        match self.word()? {
            "-" => Ok(None),
            number => Ok(Some(number.parse().map_err(|e| format!("{number}: {e}"))?)),
        }
    }

    fn number(&mut self) -> Result<f64, String> {
        self.maybe()?
            .ok_or_else(|| "a number is missing".to_owned())
    }

    fn count(&mut self) -> Result<usize, String> {
        let word = self.word()?;
        word.parse().map_err(|e| format!("{word}: {e}"))
    }

    fn range(&mut self) -> Result<Option<Range>, String> {
        let (least, most) = (self.maybe()?, self.maybe()?);
        if least.is_none() && most.is_none() {
            return Ok(None);
        }
        let range = Range::new(least, most).map_err(|e| e.to_string())?;
        Ok(Some(range))
    }
}

struct Case {
    candidates: Vec<Candidate>,
    target: Target,
    aim: Aim,
    amount: Option<Mass>,
}

impl Case {
    fn read(numbers: &mut Numbers<'_>) -> Result<Self, String> {
        let aim = match numbers.count()? {
            0 => Aim::LeastCost,
            1 => Aim::LeastBought,
            _ => Aim::WidestMargin,
        };
        let amount = numbers.maybe()?.map(Mass::new::<kilogram>);
        let (count, sieves) = (numbers.count()?, numbers.count()?);
        let mut passing = Vec::new();
        let mut candidates = Vec::new();
        for _ in 0..count {
            candidates.push(Candidate {
                loose_density: MassDensity::new::<kilogram_per_cubic_meter>(numbers.number()?),
                grain_density: MassDensity::new::<kilogram_per_cubic_meter>(numbers.number()?),
                grains: Some(Grains {
                    clay: numbers.number()?,
                    silt: numbers.number()?,
                    sand: numbers.number()?,
                    gravel: numbers.number()?,
                }),
                is_sand: numbers.count()? == 1,
                price: numbers.maybe()?,
                in_yard: Mass::new::<kilogram>(numbers.number()?),
                can_buy: numbers.count()? == 1,
                passing: Vec::new(),
            });
            let shares: Result<Vec<f64>, String> = (0..sieves).map(|_| numbers.number()).collect();
            passing.push(shares?);
        }
        let mut target = Target {
            clay: numbers.range()?,
            silt: numbers.range()?,
            sand_to_clay: numbers.range()?,
            sand_to_rest: numbers.range()?,
            ..Target::default()
        };
        for sieve in 0..sieves {
            let opening = length_of_mm(numbers.number()?);
            target
                .sieves
                .push((opening, numbers.range()?.unwrap_or_default()));
            for (candidate, shares) in candidates.iter_mut().zip(&passing) {
                let share = shares.get(sieve).copied();
                candidate
                    .passing
                    .extend(share.map(|share| (opening, share)));
            }
        }
        for _ in 0..count {
            target.shares.push(numbers.range()?);
        }
        Ok(Self {
            candidates,
            target,
            aim,
            amount,
        })
    }

    fn answer(&self) -> Result<String, BlendFault> {
        let number = |n: Option<f64>| n.map_or("-".to_owned(), |n| n.to_string());
        let kilograms = |m: Option<Mass>| number(m.map(|m| m.get::<kilogram>()));
        let shares = |blend: &Blend| {
            let shares = blend.mass_shares.iter().map(f64::to_string);
            shares.collect::<Vec<_>>().join(" ")
        };
        Ok(
            match solve(&self.candidates, &self.target, self.aim, self.amount)? {
                Outcome::Found(blend) => format!(
                    "found cost {} bought {} margin {} rounded {} shares {}",
                    number(blend.cost),
                    blend.bought_share(),
                    number(blend.margin()),
                    blend.rounded.as_ref().map_or("-".to_owned(), |rounded| {
                        let steps = rounded.steps.iter().map(u32::to_string);
                        steps.collect::<Vec<_>>().join(":")
                    }),
                    shares(&blend),
                ),
                Outcome::Impossible(why) => {
                    let conflict = why.conflict.iter().map(|limit| limit_name(*limit));
                    let reach = why.reach.iter().map(|reach| {
                        let (least, most) = (number(reach.least), number(reach.most));
                        format!("{}={least}={most}", name(reach.requirement))
                    });
                    format!(
                        "impossible conflict {} reach {} all {} within {} shares {}",
                        list(&conflict.collect::<Vec<_>>()),
                        list(&reach.collect::<Vec<_>>()),
                        kilograms(why.all_there_is),
                        kilograms(why.within_supplies),
                        shares(&why.nearest),
                    )
                }
            },
        )
    }
}

/// Names in a row without blanks.
fn list(names: &[String]) -> String {
    if names.is_empty() {
        "-".to_owned()
    } else {
        names.join(",")
    }
}

fn name(requirement: Requirement) -> String {
    match requirement {
        Requirement::Clay => "clay".to_owned(),
        Requirement::Silt => "silt".to_owned(),
        Requirement::SandToClay => "sand/clay".to_owned(),
        Requirement::SandToRest => "sand/rest".to_owned(),
        Requirement::Passing(sieve) => format!("sieve:{sieve}"),
        Requirement::Share(candidate) => format!("share:{candidate}"),
    }
}

fn limit_name(limit: Limit) -> String {
    match limit {
        Limit::Least(requirement) => format!("least:{}", name(requirement)),
        Limit::Most(requirement) => format!("most:{}", name(requirement)),
        Limit::Supply(candidate) => format!("supply:{candidate}"),
    }
}
