//! Prints the walls of plans as lines of JSON, for the cross-check with a reference library.
//!
//! A plan is a line of texts between tabs: the shape, `outside` or `inside` for what is measured, the
//! thickness, the radius of the corners, then the sizes of the shape as they are typed; of a ring a
//! length and a turn for each side. Lengths come out in millimetres and turns in radians. The comparing
//! is not here: see `tests/crosscheck` at the root of the repository.

use ecow::EcoString;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::units::{Angle, Length};
use hodful_quantities::{Misread, Typed};
use hodful_takeoff::plan::{self, FacePlan, Measured, Plan, PlanShape, PlanSide, Ring};
use hodful_takeoff::project::{Face, Side, Wall, WallEnd, WallShape};
use std::error::Error;
use std::io::{self, BufRead, BufWriter, Write};
use std::sync::Arc;

fn main() -> Result<(), Box<dyn Error>> {
    let mut out = BufWriter::new(io::stdout().lock());
    for line in io::stdin().lock().lines() {
        let line = line?;
        let texts: Vec<&str> = line.split('\t').collect();
        let plan = typed_plan(&texts)?;
        match plan::walls(&plan, &[]) {
            Ok(walls) => writeln!(out, "{}", made(&plan, walls))?,
            Err(faults) => writeln!(out, "{{\"faults\": {}}}", list(&faults, quoted))?,
        }
    }
    out.flush()?;
    Ok(())
}

fn typed_plan(texts: &[&str]) -> Result<Plan, Box<dyn Error>> {
    let [shape, measured, thickness, radius, sizes @ ..] = texts else {
        return Err(
            "a line takes a shape, what is measured, a thickness, a radius and sizes".into(),
        );
    };
    let shape = match (*shape, sizes) {
        ("rectangle", [length, width]) => PlanShape::Rectangle {
            length: read(length)?,
            width: read(width)?,
        },
        ("round", [diameter]) => PlanShape::Round {
            diameter: read(diameter)?,
        },
        ("ell", [length, width, cut_length, cut_width]) => PlanShape::Ell {
            length: read(length)?,
            width: read(width)?,
            cut_length: read(cut_length)?,
            cut_width: read(cut_width)?,
        },
        ("ring", sides) => PlanShape::Ring {
            sides: sides
                .chunks_exact(2)
                .map(|side| match side {
                    [length, turn] => Ok(PlanSide {
                        length: read(length)?,
                        turn: Some(plan::read_turn(turn).map_err(|why| why.to_string())?),
                    }),
                    _ => Err("a side takes a length and a turn".into()),
                })
                .collect::<Result<_, Box<dyn Error>>>()?,
        },
        _ => return Err(format!("no shape with these sizes: {texts:?}").into()),
    };
    let mut plan = Plan::new(shape, read("3 m")?, read(thickness)?, UnitSystem::Metric);
    plan.measured = match *measured {
        "inside" => Measured::Inside,
        _ => Measured::Outside,
    };
    plan.radius = Some(read(radius)?);
    plan.outside = Some(FacePlan::new("bale", "outside bale"));
    plan.inside = Some(FacePlan::new("bale", "inside bale"));
    Ok(plan)
}

fn read(text: &str) -> Result<Typed<Length>, Misread> {
    Typed::read(text)
}

fn made(plan: &Plan, walls: Vec<Wall>) -> String {
    let corners = points(&plan::corners(plan));
    let shown = list(&walls, wall);
    let walls: Vec<Arc<Wall>> = walls.into_iter().map(Arc::new).collect();
    let ring = plan::of_walls(&walls).map_or_else(|| "null".to_owned(), |ring| drawn(&ring));
    format!("{{\"corners\": {corners}, \"walls\": {shown}, \"ring\": {ring}}}")
}

fn wall(wall: &Wall) -> String {
    let shape = match &wall.shape {
        WallShape::Rectangle { length, .. } => format!("\"length\": {}", mm(length)),
        WallShape::Curved {
            radius,
            sweep: Some(sweep),
            ..
        } => format!(
            "\"radius\": {}, \"sweep\": {:?}",
            mm(radius),
            sweep.value().value
        ),
        other => format!("\"other\": {}", quoted(&format!("{other:?}").into())),
    };
    let face = |side| {
        let inset = wall.face(side).and_then(|face: &Face| face.inset.clone());
        let at = |typed: Option<&Typed<Length>>| typed.map_or_else(|| "0".to_owned(), mm);
        let left = at(inset.as_ref().and_then(|inset| inset.left.as_ref()));
        let right = at(inset.as_ref().and_then(|inset| inset.right.as_ref()));
        format!("[{left}, {right}]")
    };
    format!(
        "{{{shape}, \"thickness\": {}, \"outside\": {}, \"inside\": {}, \"ends\": {}}}",
        mm(&wall.thickness),
        face(Side::Outside),
        face(Side::Inside),
        list(&wall.ends, end),
    )
}

fn end(end: &WallEnd) -> String {
    let turn = end
        .turn
        .as_ref()
        .map_or(std::f64::consts::FRAC_PI_2, |turn: &Typed<Angle>| {
            turn.value().value
        });
    format!(
        "{{\"face\": \"{}\", \"end\": \"{}\", \"angle\": \"{}\", \"turn\": {turn:?}, \"radius\": {}}}",
        end.face.word(),
        end.end.word(),
        end.angle.word(),
        end.radius.as_ref().map_or_else(|| "null".to_owned(), mm),
    )
}

fn drawn(ring: &Ring) -> String {
    format!(
        "{{\"outside\": {}, \"inside\": {}, \"gap\": {:?}}}",
        points(&ring.outside),
        points(&ring.inside),
        ring.gap
    )
}

fn mm(typed: &Typed<Length>) -> String {
    format!("{:?}", typed.value().value)
}

fn points(points: &[[f64; 2]]) -> String {
    list(points, |[x, y]| format!("[{x:?}, {y:?}]"))
}

fn quoted(text: &EcoString) -> String {
    format!("{text:?}")
}

fn list<T>(items: &[T], shown: impl Fn(&T) -> String) -> String {
    let items: Vec<String> = items.iter().map(shown).collect();
    format!("[{}]", items.join(", "))
}
