//! Cases in plain text on standard input, each answered by one line: for another solver to work out. Read by
//! `tests/crosscheck/purchase.py`. Not here: any judgement of the answers.
//!
//! `cargo run --release -p hodful-purchase --example purchases`
//!
//! Words are parted by blanks, `-` is a value that is not given, volumes are litres and masses kilograms:
//!
//! ```text
//! case NAME least|fewest
//! phase DAY
//! need KEEPS LOOSE:MASS ...        one for each phase
//! supplier CHARGE LEAST MASS VOLUME
//! offer MATERIAL SUPPLIER v|m HOLDS PRICE LOOSE MASS
//! end
//! ```
//!
//! The answer is `NAME PRICE TRIPS proven|open SIMPLE_PRICE SIMPLE_TRIPS OFFER:PHASE:COUNT ...`, or
//! `NAME fault WORDS`.

use hodful_purchase::{Aim, Need, Offer, Phase, Plan, Supplier, naive, plan};
use hodful_quantities::Measure;
use hodful_quantities::mix::Quantity;
use hodful_quantities::order::Holds;
use hodful_quantities::read::Money;
use hodful_quantities::units::{Mass, Volume, kilogram, liter};
use std::io::{self, BufRead, Write};

type Outcome<T> = Result<T, Box<dyn std::error::Error>>;

#[derive(Default)]
struct Case {
    name: String,
    aim: Aim,
    phases: Vec<Phase>,
    needs: Vec<Need>,
    suppliers: Vec<Supplier>,
    offers: Vec<Offer>,
}

fn main() -> Outcome<()> {
    let mut out = io::BufWriter::new(io::stdout().lock());
    let mut case = Case::default();
    for line in io::stdin().lock().lines() {
        let line = line?;
        let words: Vec<&str> = line.split_whitespace().collect();
        match words[..] {
            ["end"] => writeln!(out, "{}", answer(&core::mem::take(&mut case)))?,
            [] => {}
            _ => case.read(&words).map_err(|e| format!("'{line}': {e}"))?,
        }
    }
    out.flush()?;
    Ok(())
}

impl Case {
    fn read(&mut self, words: &[&str]) -> Outcome<()> {
        match *words {
            ["case", name, aim] => {
                self.name = name.into();
                self.aim = match aim {
                    "least" => Aim::LeastCost,
                    "fewest" => Aim::FewestDeliveries,
                    _ => return Err("the aim is least or fewest".into()),
                };
            }
            ["phase", day] => self.phases.push(Phase {
                day: given(day).map(str::parse).transpose()?,
            }),
            ["need", keeps, ref by_phase @ ..] => self.needs.push(Need {
                keeps: given(keeps).map(str::parse).transpose()?,
                by_phase: by_phase
                    .iter()
                    .map(|word| {
                        let (loose, mass) = word.split_once(':').ok_or("LOOSE:MASS")?;
                        Ok(Quantity {
                            loose: volume(loose)?,
                            mass: self::mass(mass)?,
                        })
                    })
                    .collect::<Outcome<_>>()?,
            }),
            ["supplier", charge, least, mass, volume] => self.suppliers.push(Supplier {
                charge: Money::read(charge)?,
                least_order: given(least).map(Money::read).transpose()?,
                truck_mass: self::mass(mass)?,
                truck_volume: self::volume(volume)?,
            }),
            ["offer", material, supplier, side, holds, price, loose, mass] => {
                self.offers.push(Offer {
                    material: material.parse()?,
                    supplier: given(supplier).map(str::parse).transpose()?,
                    holds: match side {
                        "v" => Holds::Volume(Volume::new::<liter>(holds.parse()?)),
                        _ => Holds::Mass(Mass::new::<kilogram>(holds.parse()?)),
                    },
                    price: given(price).map(Money::read).transpose()?,
                    loose: volume(loose)?,
                    mass: self::mass(mass)?,
                });
            }
            _ => return Err("no such line".into()),
        }
        Ok(())
    }
}

fn given(word: &str) -> Option<&str> {
    (word != "-").then_some(word)
}

fn volume(word: &str) -> Outcome<Option<Volume>> {
    let value = given(word).map(str::parse).transpose()?;
    Ok(value.map(Volume::new::<liter>))
}

fn mass(word: &str) -> Outcome<Option<Mass>> {
    let value = given(word).map(str::parse).transpose()?;
    Ok(value.map(Mass::new::<kilogram>))
}

fn answer(case: &Case) -> String {
    let Case {
        name,
        aim,
        phases,
        needs,
        suppliers,
        offers,
    } = case;
    let simple = naive(needs, offers, suppliers, phases);
    match plan(needs, offers, suppliers, phases, *aim).and_then(|plan| Ok((plan, simple?))) {
        Err(fault) => format!("{name} fault {fault}"),
        Ok((plan, simple)) => {
            let proven = if plan.proven { "proven" } else { "open" };
            let lines = plan.deliveries.iter().flat_map(|delivery| {
                let phase = delivery.phase;
                let lines = delivery.lines.iter();
                lines.map(move |line| format!(" {}:{phase}:{}", line.offer, line.count))
            });
            format!(
                "{name} {} {} {proven} {} {}{}",
                price(&plan),
                plan.deliveries_count,
                price(&simple),
                simple.deliveries_count,
                lines.collect::<String>()
            )
        }
    }
}

fn price(plan: &Plan) -> String {
    plan.price
        .map_or_else(|| "-".into(), |price| price.amount().to_string())
}
