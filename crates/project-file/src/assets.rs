//! What is compiled in: measurement rules, cautions, demo projects, and what a new project starts from.
//! A further file in one of the folders is all it takes; the build script lists them.
//!
//! Not here: what the files say.

use crate::header::read_as;
use crate::tables::{CautionFile, RuleFile};
use ecow::EcoString;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Caution;
use hodful_takeoff::problem::Problem;
use hodful_takeoff::project::{Named, Project};
use hodful_takeoff::rule::{Rule, RuleBook};

include!(concat!(env!("OUT_DIR"), "/assets.rs"));

/// The measurement rule of projects that name none; it stands first.
const NET: &str = "net";

/// A demo project: an invented building that opens as it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DemoProject {
    /// The name it is asked for by: that of its file without the endings.
    pub name: &'static str,
    /// The project file.
    pub bytes: &'static [u8],
}

impl DemoProject {
    /// What the project is called; its [`name`](Self::name) when it cannot be read.
    pub fn title(&self) -> EcoString {
        let (project, _) = crate::read_what_can_be(self.bytes);
        project.map_or_else(|| self.name.into(), |project| project.name)
    }
}

/// Every measurement rule, by key: the net rule, then the others by the names of their files.
pub fn rules() -> RuleBook {
    let mut rules: RuleBook = rule_files()
        .map(|file| (file.key.clone(), file.rule()))
        .collect();
    if let Some(net) = rules.get_index_of(NET) {
        rules.move_index(net, 0);
    }
    rules
}

/// How a rule was read and what it leaves out, a sentence or two each; nothing for an unknown key.
pub fn rule_notes(key: &str) -> Vec<EcoString> {
    rule_files()
        .find(|file| file.key == key)
        .map(|file| file.notes)
        .unwrap_or_default()
}

/// Reads a measurement rule from a file of its own: its key and the rule.
///
/// # Errors
/// Everything that is wrong with the file, each with its place.
pub fn read_rule(bytes: &[u8]) -> Result<(EcoString, Rule), Vec<Problem>> {
    match read_as::<RuleFile>(bytes) {
        (Some(file), problems) if problems.is_empty() => Ok((file.key.clone(), file.rule())),
        (_, problems) => Err(problems),
    }
}

/// Every caution. Local codes and licensed practice stand above them.
pub fn cautions() -> Vec<Caution> {
    let (file, _) = read_as::<CautionFile>(CAUTIONS);
    file.map(|file| file.cautions).unwrap_or_default()
}

/// The demo projects, by name.
pub fn demo_projects() -> impl Iterator<Item = DemoProject> {
    DEMO_PROJECTS
        .iter()
        .map(|(name, bytes)| DemoProject { name, bytes })
}

/// The weather that a demo project names, by the name of its file, which is to lie beside the project.
///
/// ```
/// let weather = hodful_project_file::demo_weather("hollowmere.epw");
/// assert!(weather.is_some_and(|bytes| bytes.starts_with(b"LOCATION,")));
/// ```
pub fn demo_weather(file: &str) -> Option<&'static [u8]> {
    let name = file.strip_suffix(".epw")?;
    let mut all = DEMO_WEATHER.iter();
    all.find(|(known, _)| *known == name)
        .map(|(_, bytes)| *bytes)
}

/// What a new project starts from: backgrounds, materials, mixes, build-ups and a mixer, and no wall.
///
/// Its values are common practice without a source, as its note says: a trial batch and the supplier's
/// figures take their place.
///
/// ```
/// let project = hodful_project_file::starting_project();
/// assert_eq!(project.name, "New project");
/// assert!(project.walls.is_empty());
/// assert!(project.build_ups.contains_key("outside"));
/// ```
pub fn starting_project() -> Project {
    // A test holds that the file is read without a problem.
    let (project, _) = crate::read_what_can_be(START);
    project.unwrap_or_else(empty_project)
}

/// A project with nothing in it: no name, metric units, the net rule. What is shown of a file in which
/// nothing could be read.
pub fn empty_project() -> Project {
    Project {
        name: EcoString::new(),
        units: UnitSystem::Metric,
        measurement_rule: NET.into(),
        backgrounds: Named::default(),
        materials: Named::default(),
        mixes: Named::default(),
        build_ups: Named::default(),
        mixer: None,
        blends: Named::default(),
        suppliers: Named::default(),
        buying: None,
        options: Named::default(),
        uncertain: Vec::new(),
        done: Vec::new(),
        delivered: Vec::new(),
        work: None,
        walls: Vec::new(),
        note: None,
    }
}

/// The files of the rules. A test holds that each is read without a problem.
fn rule_files() -> impl Iterator<Item = RuleFile> {
    RULES
        .iter()
        .filter_map(|(_, bytes)| read_as::<RuleFile>(bytes).0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use hodful_quantities::Typed;
    use hodful_takeoff::Assessed;
    use hodful_takeoff::project::{Face, Wall, WallShape};
    use std::sync::Arc;

    #[test]
    fn every_rule_is_whole_and_named_as_its_file() {
        assert!(!RULES.is_empty());
        for (name, bytes) in RULES {
            let (key, rule) = read_rule(bytes).unwrap_or_else(|wrong| panic!("{name}: {wrong:?}"));
            assert_eq!(key, *name);
            assert!(!rule.source.is_empty(), "{name}");
            assert!(!rule_notes(&key).is_empty(), "{name}");
            let bands = rule.bands.unwrap_or_default();
            let limits: Vec<_> = bands.iter().filter_map(|band| band.up_to).collect();
            assert!(limits.is_sorted(), "{name}: bands stand in rising order");
            assert!(
                bands.last().is_none_or(|band| band.up_to.is_none()),
                "{name}: last band is open"
            );
        }
        assert_eq!(rules().len(), RULES.len(), "no key twice");
        assert_eq!(rules().keys().next().map(EcoString::as_str), Some(NET));
        assert!(rules().get(NET).is_some_and(|net| net.bands.is_none()));
    }

    #[test]
    fn every_caution_is_whole_and_has_its_source() {
        let (file, problems) = read_as::<CautionFile>(CAUTIONS);
        assert_eq!(problems, []);
        let cautions = file.unwrap().cautions;
        assert!(!cautions.is_empty());
        assert!(
            cautions
                .iter()
                .all(|caution| !caution.text.is_empty() && !caution.source.is_empty())
        );
    }

    #[test]
    fn every_demo_project_opens() {
        assert!(demo_projects().count() > 0);
        for demo in demo_projects() {
            let project = crate::read(demo.bytes);
            let project = project.unwrap_or_else(|wrong| panic!("{}: {wrong:?}", demo.name));
            assert_eq!(demo.title(), project.name);
            assert!(!project.walls.is_empty(), "{}", demo.name);
            let named = project.work.and_then(|work| work.weather);
            assert!(
                named.is_none_or(|file| demo_weather(&file).is_some()),
                "{}: its weather is compiled in",
                demo.name
            );
        }
    }

    #[test]
    fn a_new_project_is_as_it_would_be_saved_and_wants_nothing_but_walls() {
        let (read, problems) = crate::read_what_can_be(START);
        assert_eq!(problems, []);
        let project = starting_project();
        assert_eq!(read.as_ref(), Some(&project));
        assert_eq!(crate::write(&project), START);
        let rules = rules();
        let assessed = Assessed::new(&project, &rules).unwrap();
        let told: Vec<_> = assessed.doubts.iter().map(ToString::to_string).collect();
        assert_eq!(told, ["walls: there is no wall yet"]);
        assert!(project.materials.values().all(|m| m.stock.is_none()));
        let mut packages = project.materials.values().flat_map(|m| &m.packages);
        assert!(packages.all(|package| package.price.is_none()));
    }

    /// On every background, in the rain and in a room, there is nothing doubtful about the build-ups.
    #[test]
    fn the_first_walls_of_a_new_project_raise_no_doubt() {
        let mut project = starting_project();
        let backgrounds: Vec<_> = project.backgrounds.keys().cloned().collect();
        assert!(backgrounds.len() >= 4);
        for background in backgrounds {
            let face = |build_up: &str| Face {
                background: background.clone(),
                build_up: build_up.into(),
                inset: None,
                rain: None,
                facing: None,
                shaded: None,
            };
            project.walls.push(Arc::new(Wall {
                id: background.clone(),
                name: None,
                sheet: None,
                count: None,
                shape: WallShape::Rectangle {
                    length: Typed::read("24'").unwrap(),
                    height: Typed::read("9'").unwrap(),
                },
                thickness: Typed::read("18 in").unwrap(),
                outside: Some(face("outside")),
                inside: Some(face("inside")),
                ends: Arc::default(),
                openings: Vec::new(),
                pockets: Vec::new(),
            }));
        }
        let rules = rules();
        let assessed = Assessed::new(&project, &rules).unwrap();
        assert_eq!(assessed.doubts, []);
    }
}
