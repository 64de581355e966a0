use super::*;
use crate::form::tests as forms;
use crate::project::*;
use crate::rule::{Rule, RuleBook};
use hodful_quantities::Typed;
use std::sync::Arc;
use std::time::Instant;

fn cpu() -> f64 {
    let s = std::fs::read_to_string("/proc/self/stat").unwrap();
    let f: Vec<&str> = s.rsplit(')').next().unwrap().split_whitespace().collect();
    (f[11].parse::<f64>().unwrap() + f[12].parse::<f64>().unwrap()) / 100.0
}

#[test]
fn timing() {
    let mut p = forms::project();
    let base = p.walls[0].clone();
    p.walls = (0..1000)
        .map(|i| {
            let mut w = Wall::clone(&base);
            w.id = format!("W{i}").into();
            w.outside = w.inside.clone();
            w.shape = WallShape::Rectangle {
                length: Typed::read(format!("{} mm", 5000 + i)).unwrap(),
                height: Typed::read("2.7 m").unwrap(),
            };
            let mut o = w.openings[0].clone();
            o.id = "W2".into();
            o.from_left = Typed::read("3 m").unwrap();
            w.openings.push(o);
            Arc::new(w)
        })
        .collect();
    let c = p.build_ups[0][0].clone();
    p.build_ups[0].push(Coat {
        coat: "fill".into(),
        ..c
    });
    p.mixer = Some(Mixer::of(Typed::read("100 L").unwrap()));
    for (name, holds) in [("sand", "5 m3"), ("clay", "1000 kg"), ("straw", "500 kg")] {
        let m = &mut p.materials[name];
        m.stock = None;
        m.packages = vec![Package {
            price: Some(Typed::read("40").unwrap()),
            ..Package::of("bag".into(), Typed::read(holds).unwrap())
        }];
    }
    form::set(&mut p, Subject::Mix(0), "fibre.dose", "30 kg/m3").unwrap();
    for (n, d) in [(0, "1500 kg/m3"), (1, "1100 kg/m3")] {
        form::set(&mut p, Subject::Material(n), "loose_density", d).unwrap();
    }
    let rules: RuleBook = [("net".into(), Rule::default())].into_iter().collect();
    let t = Instant::now();
    let bench = Bench::new(Arc::new(p), Arc::new(rules));
    println!(
        "bench new {:?}; problems {}",
        t.elapsed(),
        bench.problems().count()
    );
    let lines = vec![
        Line::AllPlaced,
        Line::AllMixed,
        Line::Loose("sand".into()),
        Line::Packages("sand".into()),
        Line::Batches,
        Line::Cost,
    ];
    let volumes = vec![Line::Surface, Line::Payment];
    for (subject, key, lines) in [
        (
            Subject::Coat {
                build_up: 0,
                coat: 1,
            },
            "thickness",
            &lines,
        ),
        (
            Subject::Coat {
                build_up: 0,
                coat: 1,
            },
            "thickness",
            &volumes,
        ),
        (Subject::Mix(0), "parts.sand", &lines),
        (Subject::Material(0), "moisture", &lines),
        (
            Subject::Package {
                material: 0,
                package: 0,
            },
            "price",
            &lines,
        ),
        (Subject::Wall(3), "length", &lines),
        (Subject::Wall(3), "length", &volumes),
        (Subject::Background(1), "dubbing_out", &lines),
        (Subject::Background(1), "dubbing_out", &volumes),
    ] {
        let mut ask = Ask::usual(bench.project(), subject, key).unwrap();
        if let Subject::Wall(_) = subject {
            ask.from = 4900.0;
        }
        ask.points = 200;
        if lines.len() == 6 && matches!(subject, Subject::Coat { .. } | Subject::Mix(_)) {
            let mut bare = Project::clone(bench.project());
            bare.walls.clear();
            let n = 20000;
            let c = cpu();
            for i in 0..n {
                form::set(
                    &mut bare,
                    subject,
                    key,
                    &format!("{} mm", 5.0 + f64::from(i) * 0.254)
                        .replace(" mm", if key == "thickness" { " mm" } else { "" }),
                )
                .unwrap();
            }
            println!("  set {:.2} us", (cpu() - c) * 1e6 / f64::from(n));
            let c = cpu();
            for _ in 0..n {
                let mut values = crate::check::values::Values::default();
                let site = crate::check::site(&bare, bench.rules(), &mut values);
                std::hint::black_box(&site);
            }
            println!("  site {:.2} us", (cpu() - c) * 1e6 / f64::from(n));
            let mut values = crate::check::values::Values::default();
            let site = crate::check::site(&bare, bench.rules(), &mut values);
            let of = bench.evaluation();
            let mut ev = crate::Evaluation {
                totals: of.totals,
                grounds: of.grounds.clone(),
                ..crate::Evaluation::default()
            };
            let c = cpu();
            for _ in 0..n {
                ev.order(&site);
            }
            println!("  order {:.2} us", (cpu() - c) * 1e6 / f64::from(n));
            let way = Way::new(&bench, &ask, lines);
            let c = cpu();
            for _ in 0..n {
                std::hint::black_box(way.now());
            }
            println!("  read {:.2} us", (cpu() - c) * 1e6 / f64::from(n));
            let mut w = way.worker();
            let c = cpu();
            for i in 0..n {
                std::hint::black_box(
                    w.read(
                        &Scale::of(&form::Kind::Thickness, None)
                            .unwrap()
                            .point(5.0 + f64::from(i) * 0.00254)
                            .text
                            .unwrap(),
                    ),
                );
            }
            println!("  all {:.2} us", (cpu() - c) * 1e6 / f64::from(n));
            let c = cpu();
            for _ in 0..200 {
                std::hint::black_box(Way::new(&bench, &ask, lines));
            }
            println!("  way {:.2} us", (cpu() - c) * 1e6 / 200.0);
        }
        let mut best = f64::MAX;
        let mut n = (0, 0, 0);
        let mut all = 0.0;
        let c = cpu();
        for _ in 0..20 {
            let t = Instant::now();
            let s = sweep(&bench, &ask, lines).unwrap();
            let e = t.elapsed().as_secs_f64() * 1e3;
            best = best.min(e);
            all += e;
            n = (s.steps.len(), s.dense.len(), s.limits.len());
        }
        println!(
            "{key} {} lines: best {best:.2} ms mean {:.2}; cpu {:.2}; steps {n:?}",
            lines.len(),
            all / 20.0,
            (cpu() - c) * 1e3 / 20.0
        );
    }
}
