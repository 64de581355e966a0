//! Commands that make what the pages of soils, order and card are about: a first test, a blend, a mix of a
//! blend, a test panel, a supplier, a phase. Not here: copying, moving and removing them (see `alter`).

use super::alter::{GONE, free_name, make_new};
use crate::effect::Effect;
use crate::state::{Focus, State};
use ecow::eco_format;
use hodful_takeoff::form::{self, Subject};
use hodful_takeoff::project::{
    Blend, Buying, MaterialKind, Name, Phase, ShareBetween, Supplier, TestPanel,
};

/// Goes to the fields of a jar test, for a soil that was not tested.
pub(super) fn test(state: &mut State, material: usize) -> Vec<Effect> {
    let of = state.project().materials.get_index(material);
    let is_tested = of.is_some_and(|(_, of)| {
        let soil = of.soil.as_ref();
        soil.is_some_and(|soil| soil.ways().next().is_some())
    });
    if is_tested {
        state.complain("It was tested already; the fields beside it take more tests of it");
        return Vec::new();
    }
    let rows = state.rows();
    let Some(field) = rows.iter().position(|row| row.key == "soil.jar.sand") else {
        return Vec::new();
    };
    state.focus = Focus::Fields;
    state.field = field;
    state.say("Type the heights of the three layers in the jar, the lowest first, and how deep the water was");
    Vec::new()
}

/// Adds a blend that may be made of every mineral of the project but lime and cement: those are put in on
/// purpose, not to make up grains.
pub(super) fn blend(state: &mut State) -> Vec<Effect> {
    let after = match state.subject() {
        Some(Subject::Blend(at)) => Some(at),
        _ => None,
    };
    make_new(state, "a blend added".into(), |project| {
        let minerals = project
            .materials
            .iter()
            .filter(|(_, m)| m.kind.is_mineral())
            .filter(|(_, m)| !matches!(m.kind, MaterialKind::Lime | MaterialKind::Cement));
        let minerals: Vec<Name> = minerals.map(|(name, _)| name.clone()).collect();
        if minerals.is_empty() {
            return Err("there is no sand, soil or clay yet to make a blend of".into());
        }
        let name = form::new_id(project, "blend");
        let any = |name| (name, ShareBetween::default());
        let blend = Blend {
            materials: minerals.into_iter().map(any).collect(),
            ..Blend::default()
        };
        let at = after.map_or(project.blends.len(), |after| after + 1);
        let at = at.min(project.blends.len());
        project.blends.shift_insert(at, name, blend);
        Ok(Subject::Blend(at))
    })
}

/// Makes the chosen blend a mix of the project, and goes to it.
pub(super) fn mix(state: &mut State) -> Vec<Effect> {
    let Some(Subject::Blend(at)) = state.subject() else {
        return Vec::new();
    };
    let Some((blend, _)) = state.project().blends.get_index(at) else {
        return Vec::new();
    };
    let blend = blend.clone();
    match state.doc.bench().blend_as_mix(&blend) {
        Err(words) => {
            state.complain(eco_format!("{blend}: {words}"));
            Vec::new()
        }
        Ok((name, mix, like)) => {
            let words = eco_format!("mix {name} made of blend {blend}");
            let rest = like.map_or_else(
                || "; give it water, air, fibre and binder, and try a batch".into(),
                |like| {
                    eco_format!(", with water, air, fibre and binder as in mix {like}: try a batch")
                },
            );
            let now = eco_format!("blend {blend} is now mix {name}{rest}");
            let effects = make_new(state, words, |project| {
                let at = project.mixes.len();
                project.mixes.insert(name, mix);
                Ok(Subject::Mix(at))
            });
            if !effects.is_empty() {
                let undo = state.keymap.first(crate::command::Id::Undo);
                state.say(eco_format!("{now}. {undo} takes it back"));
            }
            effects
        }
    }
}

/// Adds a test panel to the chosen mix, after the chosen panel or as the last.
pub(super) fn panel(state: &mut State) -> Vec<Effect> {
    let (mix, after) = match state.subject() {
        Some(Subject::Panel { mix, panel }) => (mix, Some(panel)),
        Some(Subject::Mix(mix)) => (mix, None),
        _ => return Vec::new(),
    };
    make_new(state, "a test panel added".into(), |project| {
        let (_, of) = project.mixes.get_index_mut(mix).ok_or(GONE)?;
        let panels = &mut of.test_panels;
        let panel = after
            .map_or(panels.len(), |after| after + 1)
            .min(panels.len());
        panels.insert(panel, TestPanel::default());
        Ok(Subject::Panel { mix, panel })
    })
}

/// Adds a supplier after the chosen one or as the last.
pub(super) fn supplier(state: &mut State) -> Vec<Effect> {
    let after = match state.subject() {
        Some(Subject::Supplier(at)) => Some(at),
        _ => None,
    };
    make_new(state, "a supplier added".into(), |project| {
        let name = form::new_id(project, "supplier");
        let suppliers = &mut project.suppliers;
        let at = after
            .map_or(suppliers.len(), |after| after + 1)
            .min(suppliers.len());
        suppliers.shift_insert(at, name, Supplier::default());
        Ok(Subject::Supplier(at))
    })
}

/// Adds a phase of the order after the chosen one or as the last.
pub(super) fn phase(state: &mut State) -> Vec<Effect> {
    let after = match state.subject() {
        Some(Subject::Phase(at)) => Some(at),
        _ => None,
    };
    make_new(state, "a phase added".into(), |project| {
        let Buying { phases, .. } = project.buying.get_or_insert_default();
        let taken = |name: &str| phases.iter().any(|phase| phase.name == name);
        let name = if taken("phase 1") {
            free_name("phase 1", taken)
        } else {
            "phase 1".into()
        };
        let at = after
            .map_or(phases.len(), |after| after + 1)
            .min(phases.len());
        phases.insert(
            at,
            Phase {
                name,
                ..Phase::default()
            },
        );
        Ok(Subject::Phase(at))
    })
}
