//! What the pages of soils and of the order show and is worked out once for a state of the project: soils,
//! their triangle, a blend with its grading, the plan of what to buy. Drawing reads it. Not here: the
//! figures themselves (see `hodful_takeoff`), and the plan of the building (see `plan`).

use super::compared::{Compared, Kept};
use super::curve::Drawn;
use super::foreseen::{self, Foreseen};
use super::on_site;
use super::{Screen, State};
use crate::effect::Effect;
use ecow::EcoString;
use hodful_takeoff::Project;
use hodful_takeoff::bench::Bench;
use hodful_takeoff::blend::Blended;
use hodful_takeoff::drawing::{self, Drawing};
use hodful_takeoff::form::Subject;
use hodful_takeoff::project::{Material, MaterialKind, Name};
use hodful_takeoff::soil::{self, SoilFault, SoilFigures, Way};
use hodful_takeoff::supply::Supply;
use std::sync::Arc;

/// What one test of a soil says.
pub type Test = (Way, Result<SoilFigures, SoilFault>);

/// A blend that was looked for.
pub type Looked = Result<Blended, EcoString>;

/// A blend that was looked for, with the drawing of its grading.
pub type Blending = (Looked, Drawing);

/// Looks for a blend of a project by its position. It may take some milliseconds.
pub fn look_for_blend(bench: &Bench, at: usize) -> Blending {
    let project = bench.project();
    let Some((name, asked)) = project.blends.get_index(at) else {
        return (Err("it is not there any more".into()), Drawing::default());
    };
    let looked = bench.blend(name);
    let drawing = match &looked {
        Ok(found) => drawing::grading(project, asked, found),
        Err(_) => Drawing::default(),
    };
    (looked, drawing)
}

/// What to buy, or what keeps it from being planned.
pub type Planned = Result<Supply, EcoString>;

/// Where one stands on the pages of soils, of the order and of the card.
#[derive(Debug, Default)]
pub(crate) struct Yard {
    /// The chosen row of each.
    pub(crate) soils_row: usize,
    pub(crate) order_row: usize,
    pub(crate) card_row: usize,
    pub(crate) options_row: usize,
    /// The option that the others are held against; the project as it stands when there is none.
    pub(crate) base: Option<Name>,
    pub(crate) chances_row: usize,
    pub(crate) days: on_site::Page,
    /// The first line shown of what is said beside the list.
    pub(crate) said_top: usize,
    pub(crate) worked: Worked,
}

/// What is worked out, each with the project it is of.
#[derive(Debug, Default)]
pub(crate) struct Worked {
    soils: Option<(Arc<Project>, Vec<Vec<Test>>)>,
    triangle: Option<(Arc<Project>, Option<usize>, Drawing)>,
    blend: Option<(Arc<Project>, usize, Looked, Drawing)>,
    supply: Option<(Arc<Project>, Planned)>,
    compared: Kept,
    /// The request to compare that is not answered yet.
    comparing: Option<(u64, Arc<Project>, Option<Name>)>,
    curve: Option<Drawn>,
    foreseen: foreseen::Kept,
    /// The request to look ahead that is not answered yet.
    foreseeing: Option<(u64, Arc<Project>)>,
    /// The request for a blend that is not answered yet.
    blending: Option<(u64, Arc<Project>, usize)>,
    /// The request for a plan that is not answered yet.
    planning: Option<(u64, Arc<Project>)>,
}

/// Whether a material stands among the soils: its grains are known, or can be.
pub fn is_soil(material: &Material) -> bool {
    let lime = matches!(material.kind, MaterialKind::Lime | MaterialKind::Cement);
    material.soil.is_some() || material.kind.is_mineral() && !lime
}

/// Every test of a material, the surest first.
fn tests(material: &Material) -> Vec<Test> {
    let soil = material.soil.as_deref();
    let each = soil.into_iter().flat_map(|soil| {
        let by = move |way| (way, soil::by(material, soil, way));
        soil.ways().map(by)
    });
    each.collect()
}

impl State {
    /// The tests of a material by its position, the surest first; none before the page of soils was shown.
    pub fn soil_tests(&self, material: usize) -> &[Test] {
        let soils = self.yard.worked.soils.as_ref();
        let tests = soils.and_then(|(_, soils)| soils.get(material));
        tests.map_or(&[], Vec::as_slice)
    }

    /// The triangle of textures, when a soil is chosen on the page of soils.
    pub fn triangle(&self) -> Option<&Drawing> {
        self.yard
            .worked
            .triangle
            .as_ref()
            .map(|(.., drawing)| drawing)
    }

    /// A blend by its position and its grading, when it was looked for last on the page of soils; that of an
    /// earlier state of the project while it is being looked for anew.
    pub fn blend(&self, at: usize) -> Option<(&Looked, &Drawing)> {
        let blend = self
            .yard
            .worked
            .blend
            .as_ref()
            .filter(|(_, own, ..)| *own == at);
        blend.map(|(.., looked, drawing)| (looked, drawing))
    }

    /// Whether a blend is that of the project as it is now.
    pub fn is_blended(&self, at: usize) -> bool {
        let blend = self.yard.worked.blend.as_ref();
        blend.is_some_and(|(of, own, ..)| Arc::ptr_eq(of, self.project()) && *own == at)
    }

    /// The plan of what to buy with the project that it is of; that of an earlier state of the project
    /// while another is being worked out.
    pub fn supply(&self) -> Option<(&Project, &Planned)> {
        let supply = self.yard.worked.supply.as_ref();
        supply.map(|(project, supply)| (&**project, supply))
    }

    /// Whether the plan is that of the project as it is now.
    pub fn is_planned(&self) -> bool {
        let supply = self.yard.worked.supply.as_ref();
        supply.is_some_and(|(of, _)| Arc::ptr_eq(of, self.project()))
    }

    /// Works out what the page shows, where it is not that of the project as it is now. Gives what must be
    /// done outside for it.
    pub(crate) fn rework(&mut self) -> Option<Effect> {
        match self.screen {
            Screen::Soils => self.rework_soils(),
            Screen::Order => self.ask_for_plan(),
            Screen::Options => self.ask_to_compare(),
            Screen::Chances => self.ask_to_foresee(),
            Screen::Days => self.ask_for_days(),
            Screen::Coats => {
                self.rework_curve();
                None
            }
            _ => None,
        }
    }

    /// The curve over the thickness of the chosen coat, when one is asked for: worked out at every key, so
    /// that it moves while a key is held.
    fn rework_curve(&mut self) {
        let before = self.yard.worked.curve.take();
        if let Some(coat @ Subject::Coat { .. }) = self.subject() {
            self.yard.worked.curve = Drawn::new(self.doc.bench(), coat, self.curve, before);
        }
    }

    /// The curve over the thickness of the chosen coat, when it stands in the place of the layers.
    pub fn curve_drawing(&self) -> Option<&Drawing> {
        self.yard.worked.curve.as_ref().map(Drawn::drawing)
    }

    fn rework_soils(&mut self) -> Option<Effect> {
        let project = Arc::clone(self.preview());
        let same = |of: &Arc<Project>| Arc::ptr_eq(of, &project);
        let worked = &mut self.yard.worked;
        if !worked.soils.as_ref().is_some_and(|(of, _)| same(of)) {
            let soils = project.materials.values().map(tests).collect();
            worked.soils = Some((Arc::clone(&project), soils));
        }
        match self.subject() {
            Some(Subject::Blend(at)) => self.ask_for_blend(at),
            subject => {
                let chosen = match subject {
                    Some(Subject::Material(at)) => Some(at),
                    _ => None,
                };
                let triangle = self.yard.worked.triangle.as_ref();
                let known = triangle.is_some_and(|(of, at, _)| same(of) && *at == chosen);
                if !known {
                    let drawing = drawing::triangle(&project, chosen);
                    self.yard.worked.triangle = Some((project, chosen, drawing));
                }
                None
            }
        }
    }

    /// Asks for the chosen blend, unless it is there or was asked for. It is looked for in the project as it
    /// is: what is being typed has no figures yet.
    fn ask_for_blend(&mut self, at: usize) -> Option<Effect> {
        let project = Arc::clone(self.project());
        let asked = self.yard.worked.blending.as_ref();
        let asked = asked.is_some_and(|(_, of, own)| Arc::ptr_eq(of, &project) && *own == at);
        if self.is_blended(at) || asked {
            return None;
        }
        let id = self.request();
        self.yard.worked.blending = Some((id, Arc::clone(&project), at));
        Some(Effect::Blend {
            id,
            project,
            blend: at,
        })
    }

    /// A blend came back.
    pub(crate) fn blended(&mut self, id: u64, (looked, drawing): Blending) {
        if let Some((_, project, at)) = self
            .yard
            .worked
            .blending
            .take_if(|(asked, ..)| *asked == id)
        {
            self.yard.worked.blend = Some((project, at, looked, drawing));
        }
    }

    /// The options beside the project, with the project that they are of; those of an earlier state of it
    /// while they are being compared anew.
    pub fn compared(&self) -> Option<(&Project, &Compared)> {
        let kept = self.yard.worked.compared.as_ref();
        kept.map(|(project, compared)| (&**project, compared))
    }

    /// The option that the others are held against, while there is such a one.
    fn base(&self) -> Option<Name> {
        let options = &self.project().options;
        let chosen = self.yard.base.as_ref();
        chosen.filter(|name| options.contains_key(*name)).cloned()
    }

    /// Whether what was compared is the project as it is now, held against the base that is chosen now.
    pub fn is_compared(&self) -> bool {
        let kept = self.yard.worked.compared.as_ref();
        kept.is_some_and(|(of, compared)| {
            Arc::ptr_eq(of, self.project()) && compared.base == self.base()
        })
    }

    /// Asks for the options to be compared, unless they are or it was asked for.
    fn ask_to_compare(&mut self) -> Option<Effect> {
        if self.is_compared() {
            // What was asked for besides is of another base, or of another state of the project.
            self.yard.worked.comparing = None;
            return None;
        }
        let project = Arc::clone(self.project());
        let asked = self.yard.worked.comparing.as_ref();
        let base = self.base();
        let is_asked =
            asked.is_some_and(|(_, of, held)| Arc::ptr_eq(of, &project) && *held == base);
        if is_asked {
            return None;
        }
        let id = self.request();
        self.yard.worked.comparing = Some((id, Arc::clone(&project), base.clone()));
        Some(Effect::Compare { id, project, base })
    }

    /// The options came back compared.
    pub(crate) fn came_compared(&mut self, id: u64, compared: Compared) {
        let asked = self
            .yard
            .worked
            .comparing
            .take_if(|(asked, ..)| *asked == id);
        if let Some((_, project, _)) = asked {
            self.yard.worked.compared = Some((project, compared));
        }
    }

    /// What is foreseen, with the project that it is of; of an earlier state of it while it is being worked
    /// out anew.
    pub fn foreseen(&self) -> Option<(&Project, &Foreseen)> {
        let kept = self.yard.worked.foreseen.as_ref();
        kept.map(|(project, foreseen)| (&**project, foreseen))
    }

    /// Whether what is foreseen is of the project as it is now.
    pub fn is_foreseen(&self) -> bool {
        let kept = self.yard.worked.foreseen.as_ref();
        kept.is_some_and(|(of, _)| Arc::ptr_eq(of, self.project()))
    }

    /// Asks to look ahead, unless that was done or asked for.
    fn ask_to_foresee(&mut self) -> Option<Effect> {
        let project = Arc::clone(self.project());
        let asked = self.yard.worked.foreseeing.as_ref();
        if self.is_foreseen() || asked.is_some_and(|(_, of)| Arc::ptr_eq(of, &project)) {
            return None;
        }
        let id = self.request();
        self.yard.worked.foreseeing = Some((id, Arc::clone(&project)));
        Some(Effect::Foresee { id, project })
    }

    /// What is foreseen came back.
    pub(crate) fn came_foreseen(&mut self, id: u64, foreseen: Foreseen) {
        let asked = self
            .yard
            .worked
            .foreseeing
            .take_if(|(asked, _)| *asked == id);
        if let Some((_, project)) = asked {
            self.yard.worked.foreseen = Some((project, foreseen));
        }
    }

    /// Asks for a plan of what to buy, unless it is there or was asked for.
    fn ask_for_plan(&mut self) -> Option<Effect> {
        let project = Arc::clone(self.project());
        let asked = self.yard.worked.planning.as_ref();
        if self.is_planned() || asked.is_some_and(|(_, of)| Arc::ptr_eq(of, &project)) {
            return None;
        }
        let id = self.request();
        self.yard.worked.planning = Some((id, Arc::clone(&project)));
        Some(Effect::Supply { id, project })
    }

    /// A plan came back.
    pub(crate) fn planned(&mut self, id: u64, supply: Planned) {
        if let Some((_, project)) = self.yard.worked.planning.take_if(|(asked, _)| *asked == id) {
            self.yard.worked.supply = Some((project, supply));
        }
    }
}
