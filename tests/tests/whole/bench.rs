//! The work bench and the changes between projects, under random edits: what is kept from before comes
//! to the same as what is worked out anew. Not here: what the figures are.

use hodful_project_file as file;
use hodful_quantities::Measure;
use hodful_quantities::Typed;
use hodful_takeoff::bench::Bench;
use hodful_takeoff::change::Change;
use hodful_takeoff::doubts::all_problems;
use hodful_takeoff::project::{Background, Coat, Material, Wall};
use hodful_takeoff::{PathFault, Problem, Project, RuleBook, Severity, Side, check, evaluate};
use proptest::prelude::*;
use std::sync::{Arc, LazyLock};

static RULES: LazyLock<Arc<RuleBook>> = LazyLock::new(|| Arc::new(file::rules()));

fn typed<T: Measure>(text: &str) -> Typed<T> {
    Typed::read(text).unwrap()
}

/// Something done to a project: what, where, and with which of a few values.
#[derive(Debug, Clone)]
struct Edit {
    kind: u8,
    at: prop::sample::Index,
    other: prop::sample::Index,
    pick: usize,
}

const KINDS: u8 = 32;

fn edit() -> impl Strategy<Value = Edit> {
    (
        0..KINDS,
        any::<prop::sample::Index>(),
        any::<prop::sample::Index>(),
        any::<usize>(),
    )
        .prop_map(|(kind, at, other, pick)| Edit {
            kind,
            at,
            other,
            pick,
        })
}

impl Edit {
    fn of<T>(&self, list: &[T]) -> Option<usize> {
        (!list.is_empty()).then(|| self.at.index(list.len()))
    }

    fn text<'a>(&self, texts: &[&'a str]) -> &'a str {
        texts[self.pick % texts.len()]
    }

    fn wall<'a>(&self, project: &'a mut Project) -> Option<&'a mut Wall> {
        let at = self.of(&project.walls)?;
        Some(Arc::make_mut(&mut project.walls[at]))
    }

    fn coat<'a>(&self, project: &'a mut Project) -> Option<&'a mut Coat> {
        let count = project.build_ups.len();
        let (_, coats) = project
            .build_ups
            .get_index_mut(self.at.index(count.max(1)))?;
        let at = self.other.index(coats.len().max(1));
        coats.get_mut(at)
    }

    fn material<'a>(&self, project: &'a mut Project) -> Option<&'a mut Material> {
        let count = project.materials.len();
        let found = project.materials.get_index_mut(self.at.index(count.max(1)));
        found.map(|(_, material)| material)
    }

    fn background<'a>(&self, project: &'a mut Project) -> Option<&'a mut Background> {
        let count = project.backgrounds.len();
        let found = project
            .backgrounds
            .get_index_mut(self.at.index(count.max(1)));
        found.map(|(_, background)| background)
    }

    /// Does it; `None` when there is nothing to do it to.
    fn apply(&self, project: &mut Project) -> Option<()> {
        match self.kind {
            0..12 => self.to_walls(project),
            12..22 => self.to_names(project),
            _ => self.to_the_rest(project),
        }
    }

    fn to_walls(&self, project: &mut Project) -> Option<()> {
        let count = project.walls.len();
        match self.kind {
            0 => {
                let text = self.text(&["400 mm", "18 in", "0 mm", "90 mm", "500 mm"]);
                self.wall(project)?.thickness = typed(text);
            }
            1 => self.wall(project)?.count = [None, Some(3), Some(0)][self.pick % 3],
            2 => {
                let id = project.walls[self.other.index(count.max(1)).min(count.checked_sub(1)?)]
                    .id
                    .clone();
                self.wall(project)?.id = id;
            }
            3 => self.wall(project)?.id = format!("N{}", self.pick % 50).into(),
            4 => {
                let at = self.of(&project.walls)?;
                project.walls.remove(at);
            }
            5 => {
                let mut copy = (*project.walls[self.of(&project.walls)?]).clone();
                copy.id = format!("C{}", self.pick % 1000).into();
                project
                    .walls
                    .insert(self.other.index(count + 1), Arc::new(copy));
            }
            6 => project.walls.reverse(),
            7 => {
                let at = self.of(&project.walls)?;
                project.walls.swap(at, self.other.index(count));
            }
            8 => {
                let text = self.text(&["1 m", "90 m", "0 mm", "12 in"]);
                self.wall(project)?.openings.first_mut()?.from_left = typed(text);
            }
            9 => {
                let text = self.text(&["30 mm", "400 mm", "5 mm", "0 mm"]);
                let reveal = self.wall(project)?.openings.last_mut()?.inside.as_mut()?;
                Arc::make_mut(reveal).radius = Some(typed(text));
            }
            10 => {
                let text = self.text(&["80 mm", "300 mm", "2 m"]);
                let frame = self.wall(project)?.openings.last_mut()?.frame.as_mut()?;
                Arc::make_mut(frame).depth = typed(text);
            }
            _ => {
                let build_up = project.build_ups.keys().nth(self.pick % 3)?.clone();
                for wall in project.walls.iter_mut().step_by(2) {
                    if let Some(face) = &mut Arc::make_mut(wall).inside {
                        face.build_up = build_up.clone();
                    }
                }
            }
        }
        Some(())
    }

    fn to_names(&self, project: &mut Project) -> Option<()> {
        let (from, to) = (
            self.of(&vec![(); project.backgrounds.len()])?,
            self.other.index(project.backgrounds.len()),
        );
        match self.kind {
            12 => project.backgrounds.move_index(from, to),
            13 => {
                project.backgrounds.shift_remove_index(from);
            }
            14 => {
                let (old, background) = project.backgrounds.shift_remove_index(from)?;
                let new = format!("{old} renamed");
                project
                    .backgrounds
                    .shift_insert(from, new.as_str().into(), background);
                if self.pick.is_multiple_of(2) {
                    return Some(());
                }
                for wall in &mut project.walls {
                    let wall = Arc::make_mut(wall);
                    for face in [&mut wall.outside, &mut wall.inside].into_iter().flatten() {
                        if face.background == old {
                            face.background = new.as_str().into();
                        }
                    }
                }
            }
            15 | 16 => {
                let text = self.text(&["6 mm", "0 mm", "25 mm", "-3 mm"]);
                self.background(project)?.dubbing_out = Typed::read(text).ok();
            }
            17 => {
                let count = project.build_ups.len();
                let from = self.at.index(count.max(1)).min(count.checked_sub(1)?);
                project.build_ups.move_index(from, self.other.index(count));
            }
            18 => {
                if project.build_ups.contains_key("one more") {
                    return None;
                }
                let (_, coats) = project.build_ups.first()?;
                let coats = coats.clone();
                let at = self.other.index(project.build_ups.len() + 1);
                project.build_ups.shift_insert(at, "one more".into(), coats);
            }
            19 => {
                let count = project.build_ups.len();
                project
                    .build_ups
                    .shift_remove_index(self.at.index(count.max(1)));
            }
            20 => {
                project.measurement_rule = self
                    .text(&["net", "nothing", "din-18350", "half-openings", "is-1200-12"])
                    .into();
            }
            _ => project.note = Some(format!("note {}", self.pick % 4).into()),
        }
        Some(())
    }

    fn to_the_rest(&self, project: &mut Project) -> Option<()> {
        match self.kind {
            22 | 23 => {
                let text = self.text(&["5 mm", "12 mm", "0 mm", "1/2 in", "9 m", "25 mm"]);
                self.coat(project)?.thickness = typed(text);
            }
            24 => {
                let text = self.text(&["10 %", "0 %", "130 %"]);
                self.coat(project)?.loss = Some(typed(text));
            }
            25 => {
                let mixes: Vec<_> = project.mixes.keys().cloned().collect();
                self.coat(project)?.mix = match mixes.get(self.pick % (mixes.len() + 1)) {
                    Some(mix) => mix.clone(),
                    None => "nothing".into(),
                };
            }
            26 => {
                let text = self.text(&["4 %", "0 %", "30 %"]);
                self.material(project)?.moisture = Some(typed(text));
            }
            27 => {
                let text = self.text(&["0 kg/m3", "1400 kg/m3", "9000 kg/m3"]);
                self.material(project)?.loose_density = Some(typed(text));
            }
            28 => {
                let text = self.text(&["2 m3", "0 kg", "3 barrels"]);
                self.material(project)?.stock = Typed::read(text).ok();
            }
            29 => {
                let count = project.materials.len();
                project.materials.move_index(
                    self.at.index(count.max(1)).min(count.checked_sub(1)?),
                    self.other.index(count),
                );
            }
            30 => {
                let count = project.mixes.len();
                let (_, mix) = project.mixes.get_index_mut(self.at.index(count.max(1)))?;
                match self.pick % 3 {
                    0 => drop(mix.parts.shift_remove_index(0)),
                    1 => mix.parts.reverse(),
                    _ => drop(mix.parts.insert("nothing".into(), typed("2"))),
                }
            }
            _ => {
                let text = self.text(&["100 L", "0 L", "60 L"]);
                let mixer = project.mixer.as_mut()?;
                mixer.working_volume = typed(text);
            }
        }
        Some(())
    }
}

/// Everything there is to see of a project, order included; equality of maps passes over it.
fn seen(project: &Project) -> String {
    format!("{project:?}")
}

/// Every number by its shortest decimal that reads back as the same bits. Quantities with units are
/// not compared in themselves: that goes through a conversion, which may round.
fn told(figures: &impl std::fmt::Debug) -> String {
    format!("{figures:?}")
}

/// The bench shows what working everything out anew gives.
fn shows_the_same(bench: &Bench, project: &Arc<Project>) -> Result<(), TestCaseError> {
    prop_assert!(Arc::ptr_eq(bench.project(), project));
    let problems: Vec<Problem> = bench.problems().cloned().collect();
    let fresh = Bench::new(Arc::clone(project), Arc::clone(&RULES));
    prop_assert_eq!(&problems, &fresh.problems().cloned().collect::<Vec<_>>());
    prop_assert_eq!(bench.is_whole(), problems.is_empty());
    prop_assert!(
        told(bench.evaluation()) == told(fresh.evaluation()),
        "other figures than anew"
    );
    let sound: Vec<bool> = (0..=project.walls.len())
        .map(|at| bench.sound(at))
        .collect();
    let of_fresh: Vec<bool> = (0..=project.walls.len())
        .map(|at| fresh.sound(at))
        .collect();
    prop_assert_eq!(&sound, &of_fresh);
    prop_assert!(!sound[project.walls.len()]);
    let unsound = sound.iter().filter(|sound| !**sound).count() - 1;
    prop_assert_eq!(bench.left_out(), unsound);
    for (at, wall) in project.walls.iter().enumerate() {
        let faces = bench.faces(at);
        for (side, figures) in [Side::Outside, Side::Inside].into_iter().zip(faces) {
            prop_assert_eq!(figures.is_some(), sound[at] && wall.face(side).is_some());
        }
    }
    match check(project, &RULES) {
        Err(refused) => prop_assert_eq!(problems.get(..refused.len()), Some(refused.as_slice())),
        Ok(checked) => {
            let all = all_problems(project, &RULES);
            let refused = all.iter().filter(|p| p.severity == Severity::Refused);
            prop_assert_eq!(&problems, &refused.cloned().collect::<Vec<_>>());
            if bench.is_whole() {
                let evaluation = evaluate(&checked);
                prop_assert!(
                    told(bench.evaluation()) == told(&evaluation),
                    "other figures"
                );
                prop_assert_eq!(bench.cost(), Some(evaluation.cost));
            }
        }
    }
    Ok(())
}

/// The change between two projects makes each of the other.
fn makes_each(old: &Project, new: &Project) -> Result<(), TestCaseError> {
    let change = Change::between(old, new);
    let mut project = old.clone();
    change.apply(&mut project);
    prop_assert!(seen(&project) == seen(new));
    change.inverse().apply(&mut project);
    prop_assert!(seen(&project) == seen(old));
    prop_assert_eq!(change.is_nothing(), seen(old) == seen(new));
    prop_assert!(change.inverse().inverse() == change);
    Ok(())
}

fn demo(at: usize) -> Project {
    let demo = file::demo_projects().nth(at).unwrap();
    file::read(demo.bytes).unwrap()
}

/// Does some edits, one project after another on one bench, and looks at it after each.
fn run(mut project: Arc<Project>, edits: &[Edit]) -> Result<(), TestCaseError> {
    let first = Arc::clone(&project);
    let mut bench = Bench::new(Arc::clone(&project), Arc::clone(&RULES));
    shows_the_same(&bench, &project)?;
    for edit in edits {
        let mut edited = Project::clone(&project);
        if edit.apply(&mut edited).is_none() {
            continue;
        }
        makes_each(&project, &edited)?;
        makes_each(&first, &edited)?;
        project = Arc::new(edited);
        bench.set(Arc::clone(&project));
        shows_the_same(&bench, &project)?;
    }
    bench.set(Arc::clone(&first));
    shows_the_same(&bench, &first)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 192, ..ProptestConfig::default() })]

    #[test]
    fn a_bench_shows_what_working_out_anew_gives(
        at in 0..4_usize, edits in proptest::collection::vec(edit(), 1..14),
    ) {
        run(Arc::new(demo(at)), &edits)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, ..ProptestConfig::default() })]

    /// Walls enough for three chunks.
    #[test]
    fn a_bench_with_many_walls_does_so_too(edits in proptest::collection::vec(edit(), 1..6)) {
        run(Arc::new(many(2100)), &edits)?;
    }
}

/// A demo project with its walls over and over.
fn many(count: usize) -> Project {
    let mut project = demo(0);
    let walls = std::mem::take(&mut project.walls);
    let over = walls.iter().cycle().take(count).enumerate();
    project.walls = over
        .map(|(at, wall)| {
            let mut wall = (**wall).clone();
            wall.id = format!("{} {at}", wall.id).into();
            Arc::new(wall)
        })
        .collect();
    project
}

/// A project in which nothing is refused, with one thing done to it.
fn broken(at: usize, edit: impl FnOnce(&mut Project)) -> (Bench, Bench) {
    let whole = Bench::new(Arc::new(demo(at)), Arc::clone(&RULES));
    assert!(whole.is_whole());
    let mut project = Project::clone(whole.project());
    edit(&mut project);
    let bench = Bench::new(Arc::new(project), Arc::clone(&RULES));
    assert!(!bench.is_whole());
    (whole, bench)
}

#[test]
fn a_refused_wall_counts_for_nothing() {
    let (whole, bench) = broken(0, |project| {
        Arc::make_mut(&mut project.walls[0]).thickness = typed("0 mm");
    });
    assert_eq!((whole.left_out(), bench.left_out()), (0, 1));
    assert!(!bench.sound(0) && bench.sound(1));
    assert_eq!(bench.faces(0), [None, None]);
    assert_eq!(bench.faces(1), whole.faces(1));
    let mut without = Project::clone(whole.project());
    without.walls.remove(0);
    let without = Bench::new(Arc::new(without), Arc::clone(&RULES));
    assert_eq!(
        told(&bench.evaluation().totals),
        told(&without.evaluation().totals)
    );
    assert_eq!(
        told(&bench.evaluation().materials),
        told(&without.evaluation().materials)
    );
    let wall = &bench.project().walls[0];
    let side = if wall.outside.is_some() {
        "outside"
    } else {
        "inside"
    };
    let path = format!("walls.{}.{side}", hodful_takeoff::explain::quoted(&wall.id));
    assert!(matches!(bench.explain(&path), Err(PathFault::Waits { .. })));
    let totals = bench.explain("totals.true_surface").unwrap();
    assert!(totals.label.contains("1 wall left out"), "{}", totals.label);
    assert!(whole.explain(&path).is_ok());
}

#[test]
fn a_refused_mix_leaves_the_surfaces_and_takes_its_coats() {
    let (whole, bench) = broken(0, |project| {
        let (_, mix) = project.mixes.get_index_mut(0).unwrap();
        mix.parts.clear();
    });
    assert_eq!(
        told(&bench.evaluation().totals),
        told(&whole.evaluation().totals)
    );
    assert_eq!(
        told(&bench.evaluation().grounds),
        told(&whole.evaluation().grounds)
    );
    let (mix, _) = bench.project().mixes.get_index(0).unwrap();
    let (mut absent, mut there) = (0, 0);
    for (b, (_, coats)) in bench.project().build_ups.iter().enumerate() {
        for (c, coat) in coats.iter().enumerate() {
            if coat.mix == *mix {
                assert_eq!(bench.coat(b, c), None);
                absent += 1;
            } else {
                assert_eq!(told(&bench.coat(b, c)), told(&whole.coat(b, c)));
                there += 1;
            }
        }
    }
    assert!(absent > 0 && there > 0);
    let path = format!("mixes.{}.yield", hodful_takeoff::explain::quoted(mix));
    assert!(matches!(bench.explain(&path), Err(PathFault::Waits { .. })));
    assert!(whole.explain(&path).is_ok());
}

#[test]
fn a_refused_thickness_takes_the_coats_over_it_and_the_cost() {
    let (whole, bench) = broken(0, |project| {
        let (_, coats) = project.build_ups.get_index_mut(0).unwrap();
        assert!(coats.len() > 1);
        coats[0].thickness = typed("0 mm");
    });
    let (_, coats) = bench.project().build_ups.get_index(0).unwrap();
    for c in 0..coats.len() {
        assert_eq!(bench.coat(0, c), None);
        assert!(whole.coat(0, c).is_some());
    }
    assert!(whole.cost().is_some());
    assert_eq!(bench.cost(), None);
    assert!(bench.explain("order.cost").is_err());
    assert!(
        bench
            .evaluation()
            .materials
            .iter()
            .any(|m| m.waits && m.delivered.loose.is_none())
    );
}

#[test]
fn a_refused_package_leaves_the_need_and_takes_the_order() {
    let whole = Bench::new(Arc::new(demo(0)), Arc::clone(&RULES));
    let materials = &whole.evaluation().materials;
    let at = materials.iter().position(|m| m.cover.is_some()).unwrap();
    let (whole, bench) = broken(0, |project| {
        let (_, material) = project.materials.get_index_mut(at).unwrap();
        material.packages[0].holds = typed("0 kg");
    });
    let (was, is) = (
        &whole.evaluation().materials[at],
        &bench.evaluation().materials[at],
    );
    assert_eq!(
        told(&(is.dry, is.delivered)),
        told(&(was.dry, was.delivered))
    );
    assert!(
        is.waits && is.cover.is_none() && is.to_buy.loose.is_none() && is.to_buy.mass.is_none()
    );
    assert_eq!(bench.material(at), None);
    assert_eq!(bench.cost(), None);
}

#[test]
fn an_unknown_rule_takes_the_payment_alone() {
    let (whole, bench) = broken(0, |project| project.measurement_rule = "nothing".into());
    assert!(whole.rule().is_some() && bench.rule().is_none());
    assert!(bench.evaluation().totals.measured.is_nan());
    assert!(bench.evaluation().totals.measure == whole.evaluation().totals.measure);
    assert_eq!(
        told(&bench.evaluation().materials),
        told(&whole.evaluation().materials)
    );
    let measured = bench.explain("totals.measured");
    assert!(matches!(measured, Err(PathFault::Waits { .. })));
}

#[test]
fn coats_without_room_refuse_the_face_until_they_are_thinner() {
    let mut angled = crate::projects::wall("A", 3000, 2500, &[]);
    angled["ends"] = serde_json::json!([{ "face": "inside", "end": "left", "angle": "internal" }]);
    let project = Arc::new(crate::projects::with_walls(&[angled]));
    let mut bench = Bench::new(Arc::clone(&project), Arc::clone(&RULES));
    assert!(bench.is_whole());
    let mut thick = Project::clone(&project);
    for coat in thick.build_ups.values_mut().flatten() {
        coat.thickness = typed("90 m");
    }
    let thick = Arc::new(thick);
    bench.set(Arc::clone(&thick));
    let said: Vec<String> = bench.problems().map(ToString::to_string).collect();
    assert!(
        said.iter().any(|text| text.contains("thicker than")),
        "{said:?}"
    );
    assert!(!bench.sound(0) && bench.left_out() == 1);
    shows_the_same(&bench, &thick).unwrap();
    bench.set(Arc::clone(&project));
    assert!(bench.is_whole() && bench.sound(0));
    shows_the_same(&bench, &project).unwrap();
}

#[test]
fn more_reveals_than_there_may_be_are_told_as_the_check_tells_them() {
    const MOST: u32 = 65_535;
    let mut project = crate::projects::with_walls(&[crate::projects::wall(
        "A",
        9000,
        3000,
        &[crate::projects::window("W", 900, 900, 1000, 1200)],
    )]);
    let pattern = Arc::clone(&project.walls[0]);
    let wall = |number: u32| {
        let mut wall = (*pattern).clone();
        wall.id = format!("{number}").into();
        let reveal = Arc::make_mut(wall.openings[0].outside.as_mut().unwrap());
        reveal.lath = Some(typed(&format!("{} mm", 1.0 + f64::from(number) / 1000.0)));
        Arc::new(wall)
    };
    project.walls = (0..MOST - 2).map(wall).collect();
    let mut bench = Bench::new(Arc::new(project.clone()), Arc::clone(&RULES));
    assert!(bench.is_whole());
    // One after another in the same wall: only the last stays, and there is room for it.
    for number in MOST..MOST + 3 {
        project.walls[5] = wall(number);
        bench.set(Arc::new(project.clone()));
        assert!(bench.is_whole());
    }
    project.walls.extend((0..3).map(|i| wall(2 * MOST + i)));
    bench.set(Arc::new(project.clone()));
    let refused = check(&project, &RULES).unwrap_err();
    assert!(!refused.is_empty());
    assert_eq!(bench.problems().cloned().collect::<Vec<_>>(), refused);
    project.walls.drain(0..4);
    bench.set(Arc::new(project));
    assert!(bench.is_whole());
}

#[test]
fn a_change_holds_only_what_changed() {
    let old = many(100);
    let mut new = old.clone();
    for at in [3, 4, 90] {
        Arc::make_mut(&mut new.walls[at]).count = Some(7);
    }
    new.materials.get_index_mut(1).unwrap().1.moisture = Some(typed("9 %"));
    let change = Change::between(&old, &new);
    let lengths: Vec<_> = change
        .walls
        .iter()
        .map(|s| (s.at, s.removed.len(), s.added.len()))
        .collect();
    assert_eq!(lengths, [(3, 2, 2), (90, 1, 1)]);
    assert!(Arc::ptr_eq(&change.walls[0].added[0], &new.walls[3]));
    let rest = change.rest.as_ref().unwrap();
    assert_eq!(rest.materials.len(), 1);
    assert_eq!(rest.materials[0].at, 1);
    assert!(rest.mixes.is_empty() && rest.build_ups.is_empty() && rest.name.is_none());
    // Applied to a project that is too short, it does what it can.
    let mut short = demo(0);
    short.walls.clear();
    change.apply(&mut short);
    assert!(short.walls.len() <= 3);
}

#[test]
fn a_bench_without_walls_shows_what_is_left_when_all_are_taken_away() {
    for demo in file::demo_projects() {
        let mut project = file::read(demo.bytes).unwrap();
        let mut bench = Bench::new(Arc::new(project.clone()), Arc::clone(&RULES));
        project.walls.clear();
        let project = Arc::new(project);
        bench.set(Arc::clone(&project));
        let fresh = Bench::new(project, Arc::clone(&RULES));
        assert_eq!(told(bench.evaluation()), told(fresh.evaluation()));
    }
}
