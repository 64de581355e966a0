//! A blend, an order from several suppliers and a document, each held to its limit. Not here: whether they are right.

use crate::Outcome;
use crate::limits::{Bound, Limits, best, say};
use hodful_documents::{Facts, Foot, dimension_sheet};
use hodful_project_file as file;
use hodful_takeoff::bench::Bench;
use hodful_takeoff::{Assessed, Project};
use std::sync::Arc;

/// In milliseconds: a blend of six materials, an order with twelve packages at four suppliers, a document of ten pages.
const BLEND: f64 = 5.0;
const ORDER: f64 = 100.0;
const PAGES: f64 = 300.0;

/// The least pages that the document must have.
const TEN: usize = 10;

pub(crate) fn measure(limits: &mut Limits) -> Outcome {
    say("\nblend, order, document");
    let project = many()?;
    let bench = Bench::new(Arc::new(project.clone()), Arc::new(file::rules()));
    let name = project.blends.keys().next().ok_or("there is no blend")?;
    let blend = best(|| match bench.blend(name) {
        Ok(_) => Ok(()),
        Err(words) => Err(words.to_string().into()),
    })?;
    limits.hold(
        "ms for a blend of six materials",
        blend,
        Bound::AtMost(BLEND),
    );
    let order = best(|| {
        let supply = bench.supply().map_err(|words| words.to_string())?;
        if supply.plan.proven {
            Ok(())
        } else {
            Err("the plan is not proven".into())
        }
    })?;
    let what = "ms for an order, twelve packages at four suppliers, two phases";
    limits.hold(what, order, Bound::AtMost(ORDER));

    let school = demo("quillmere-school")?;
    let rules = file::rules();
    let cautions = file::cautions();
    let assessed = Assessed::new(&school, &rules);
    let rule = rules.get(&school.measurement_rule);
    let foot = Foot::new("school.json", "2026-03-02", "Hodful", rule, school.units);
    let facts = Facts::new(&school, &assessed, &cautions, foot);
    let document = dimension_sheet(&facts);
    let pdf = hodful_exchange::pdf(std::slice::from_ref(&document))?;
    let pages = pages_of(&pdf);
    let time = best(|| {
        hodful_exchange::pdf(std::slice::from_ref(&document))?;
        Ok(())
    })?;
    if pages < TEN {
        return Err(format!("the document has only {pages} pages").into());
    }
    #[allow(clippy::cast_precision_loss, reason = "pages of a document")]
    let ten = time / pages as f64 * TEN as f64;
    say(&format!("  a document of {pages} pages: {time:.1} ms"));
    limits.hold("ms for ten pages of PDF", ten, Bound::AtMost(PAGES));
    Ok(())
}

/// The pages that the list of pages of a PDF counts (ISO 32000-1, 7.7.3.2: `/Count`).
fn pages_of(pdf: &[u8]) -> usize {
    let text = String::from_utf8_lossy(pdf);
    let counts = text.split("/Count").skip(1);
    let number = |rest: &str| -> Option<usize> {
        let digits = rest.trim_start();
        let end = digits
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(digits.len());
        digits.get(..end)?.parse().ok()
    };
    counts.filter_map(number).max().unwrap_or(0)
}

fn demo(name: &str) -> Outcome<Project> {
    let found = file::demo_projects().find(|demo| demo.name == name);
    let found = found.ok_or_else(|| format!("there is no demo {name}"))?;
    file::read(found.bytes).map_err(|problems| format!("{problems:?}").into())
}

/// The barn with six materials in its blend and twelve packages at four suppliers.
fn many() -> Outcome<Project> {
    let text = String::from_utf8(file::write(&demo("marlpit-barn")?))?;
    let mut whole: serde_json::Value = serde_json::from_str(&text)?;
    let materials = &mut whole["materials"];
    let (sand, soil) = (
        materials["sharp sand"].clone(),
        materials["pit soil"].clone(),
    );
    materials["fine sand"] = sand;
    materials["bank soil"] = soil;
    whole["blends"] = serde_json::json!({ "six": {
        "materials": {
            "sharp sand": {}, "fine sand": {}, "pit soil": {}, "bank soil": {}, "stony premix": {},
            "milled clay": {}
        },
        "clay": { "least": "9 %", "most": "12 %" },
        "silt": { "most": "30 %" },
        "sand_to_clay": { "least": "2", "most": "9" },
        "sand_to_rest": { "most": "2.5" },
        "aim": "widest margin"
    } });
    let suppliers = ["north", "east", "south", "west"];
    for (at, name) in suppliers.iter().enumerate() {
        whole["suppliers"][name] = serde_json::json!({
            "delivery": format!("{}", 40 + 11 * at),
            "least_order": format!("{}", 90 + 30 * at),
            "truck_mass": "8 t",
            "truck_volume": "6 m3"
        });
    }
    let mut packages = 0;
    for (material, holds) in [
        ("sharp sand", ["2 m3", "0.9 m3", "1 t"]),
        ("pit soil", ["3 m3", "0.7 m3", "1 t"]),
        ("milled clay", ["25 kg", "1 t", "40 kg"]),
        ("chopped straw", ["18 kg", "12 kg", "250 kg"]),
    ] {
        let offers: Vec<_> = holds
            .iter()
            .enumerate()
            .map(|(at, holds)| {
                packages += 1;
                serde_json::json!({
                    "name": format!("package {at}"), "holds": holds,
                    "price": format!("{}", 20 + 7 * packages), "supplier": suppliers[packages % 4]
                })
            })
            .collect();
        whole["materials"][material]["packages"] = offers.into();
        if let Some(of) = whole["materials"][material].as_object_mut() {
            of.remove("stock");
        }
    }
    file::read(whole.to_string().as_bytes()).map_err(|problems| format!("{problems:?}").into())
}
