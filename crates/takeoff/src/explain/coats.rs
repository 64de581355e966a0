//! Trees of a coat and of a batch of it. Not here: surfaces and yields.

use super::path::{PathFault, quoted};
use super::{Source, faces, mixes, typed, waits};
use crate::check;
use crate::checked::{CheckedCoat, CheckedMix};
use crate::evaluate::CoatFigures;
use crate::figure::{Dimension, Formula, Node};
use crate::problem::Place;
use crate::project::{Coat, DosePer, MaterialKind};
use crate::sources;
use ecow::{EcoString, eco_format};
use hodful_quantities::mix::Quantity;
use hodful_quantities::units::{Volume, ratio};

/// One coat, with all that is known of it.
#[derive(Clone)]
pub(super) struct Found<'a> {
    pub(super) build_up: usize,
    pub(super) position: usize,
    pub(super) names: [&'a str; 2],
    pub(super) coats: &'a [Coat],
    pub(super) coat: &'a Coat,
    pub(super) checked: &'a CheckedCoat,
    pub(super) mix: &'a CheckedMix,
    pub(super) figures: &'a CoatFigures,
    pub(super) place: Place,
}

impl Found<'_> {
    fn path(&self, figure: &str) -> EcoString {
        let [build_up, coat] = self.names;
        eco_format!("coats.{}.{}.{figure}", quoted(build_up), quoted(coat))
    }

    fn called(&self) -> EcoString {
        let [build_up, coat] = self.names;
        eco_format!("{build_up}, {coat} coat")
    }
}

/// A coat by position.
pub(super) fn at(source: Source<'_>, build_up: usize, position: usize) -> Option<Found<'_>> {
    let (name, coats) = source.project.build_ups.get_index(build_up)?;
    let coat = coats.get(position)?;
    let layer = source.site.build_ups.get(build_up)?.get(position)?;
    let checked = layer.coat.as_ref()?;
    Some(Found {
        build_up,
        position,
        names: [name, &coat.coat],
        coats,
        coat,
        checked,
        mix: source.site.mix(checked.mix)?,
        figures: source
            .evaluation
            .coats
            .get(build_up)?
            .get(position)?
            .as_ref()?,
        place: Place::project()
            .thing("build-up", name.clone())
            .thing("coat", coat.coat.clone()),
    })
}

/// A coat by name.
fn find<'a>(source: Source<'a>, build_up: &str, coat: &str) -> Result<Found<'a>, PathFault> {
    let all = &source.project.build_ups;
    let unknown = |kind, name: &str, there: Vec<EcoString>| PathFault::Unknown {
        kind,
        name: name.into(),
        there,
    };
    let (b, _, coats) = all
        .get_full(build_up)
        .ok_or_else(|| unknown("build-up", build_up, all.keys().cloned().collect()))?;
    let c = coats
        .iter()
        .position(|c| c.coat == coat)
        .ok_or_else(|| unknown("coat", coat, coats.iter().map(|c| c.coat.clone()).collect()))?;
    at(source, b, c).ok_or_else(|| waits(eco_format!("{build_up}, {coat} coat")))
}

/// A figure of a coat; its mixed volume when none is named.
pub(super) fn explain(
    source: Source<'_>,
    build_up: &str,
    coat: &str,
    rest: &[&str],
) -> Result<Node, PathFault> {
    let found = find(source, build_up, coat)?;
    match rest {
        [] | ["mixed"] => Ok(mixed(source, &found)),
        ["wet"] => Ok(wet(source, &found)),
        ["placed"] => Ok(placed(source, &found)),
        ["area"] => Ok(faces::ground(source, found.build_up, faces::Sum::Area)),
        ["growth"] => Ok(faces::ground(source, found.build_up, faces::Sum::Growth)),
        ["batches"] => batches(source, &found),
        [_, other, ..] | [other] => Err(PathFault::Unknown {
            kind: "figure of a coat",
            name: (*other).into(),
            there: ["mixed", "wet", "placed", "area", "growth", "batches"]
                .map(Into::into)
                .to_vec(),
        }),
    }
}

/// The mixed volume.
pub(super) fn mixed(source: Source<'_>, of: &Found<'_>) -> Node {
    let loss = share_lost(
        of,
        "loss",
        of.coat.loss.as_ref(),
        of.checked.loss.get(),
        None,
    );
    Node::new(
        eco_format!("{}, mixed", of.called()),
        Dimension::Volume,
        of.figures.volume.mixed.value,
        Formula::Of("#0 ÷ (1 − #1)"),
        vec![wet(source, of), loss],
    )
    .with_path(of.path("mixed"))
}

fn wet(source: Source<'_>, of: &Found<'_>) -> Node {
    let shrinkage = measured_shrinkage(source, of).unwrap_or_else(|| {
        share_lost(
            of,
            "shrinkage",
            of.coat.shrinkage.as_ref(),
            of.checked.shrinkage.get(),
            Some(sources::USUAL_SHRINKAGE.source),
        )
    });
    Node::new(
        "wet on the wall",
        Dimension::Volume,
        of.figures.volume.wet.value,
        Formula::Of("#0 ÷ (1 − #1)"),
        vec![placed(source, of), shrinkage],
    )
    .with_path(of.path("wet"))
}

/// The shrinkage of the last panel of the mix that was measured.
fn measured_shrinkage(source: Source<'_>, of: &Found<'_>) -> Option<Node> {
    let mix = source.project.mixes.get(&of.coat.mix)?;
    let (at, panel, lost) = check::measured_shrinkage(mix)?;
    let place = Place::project().thing("mix", of.coat.mix.clone());
    let place = place.thing("test panel", eco_format!("number {}", at + 1));
    let (wet, dry) = (panel.wet_thickness.as_ref()?, panel.dry_thickness.as_ref()?);
    let length = Dimension::Length;
    let terms = vec![
        typed(
            "dry",
            length,
            dry.value().value,
            dry,
            &place.field("dry_thickness"),
        ),
        typed(
            "wet",
            length,
            wet.value().value,
            wet,
            &place.field("wet_thickness"),
        ),
    ];
    let day = panel
        .date
        .as_ref()
        .map(|day| eco_format!(" of {}", day.text()));
    let what = eco_format!("shrinkage of the test panel{}", day.unwrap_or_default());
    let label = super::materials::measured(&what, of.coat.shrinkage.as_ref());
    Some(Node::new(
        label,
        Dimension::Number,
        lost.get(),
        Formula::Of("1 − #0 ÷ #1"),
        terms,
    ))
}

fn share_lost(
    of: &Found<'_>,
    field: &'static str,
    value: Option<&hodful_quantities::Typed<hodful_quantities::units::Ratio>>,
    used: f64,
    default: Option<&'static str>,
) -> Node {
    match value {
        Some(value) => typed(
            field,
            Dimension::Number,
            used,
            value,
            &of.place.field(field),
        ),
        None => Node::given(field, Dimension::Number, used)
            .with_source(default.unwrap_or("none is given")),
    }
}

fn placed(source: Source<'_>, of: &Found<'_>) -> Node {
    let figures = of.figures;
    let thickness = typed(
        "thickness",
        Dimension::Length,
        figures.thickness.value,
        &of.coat.thickness,
        &of.place.field("thickness"),
    );
    let below = of
        .coats
        .iter()
        .take(of.position)
        .map(|c| {
            let place = Place::project()
                .thing("build-up", of.names[0])
                .thing("coat", c.coat.clone())
                .field("thickness");
            typed(
                &c.coat,
                Dimension::Length,
                c.thickness.value().value,
                &c.thickness,
                &place,
            )
        })
        .collect();
    let from = Node::sum(
        "starts above the background",
        Dimension::Length,
        figures.from.value,
        below,
    );
    let layer = Node::new(
        "layer",
        Dimension::Volume,
        figures.layer.value,
        Formula::Of("#0 × (#1 + #2 × (2 × #3 + #0) ÷ 2)"),
        vec![
            thickness,
            faces::ground(source, of.build_up, faces::Sum::Area),
            faces::ground(source, of.build_up, faces::Sum::Growth),
            from,
        ],
    )
    .with_source(sources::STEINER);
    let mut terms = vec![layer];
    if of.position == 0 {
        for (sum, value) in [
            (faces::Sum::DubbingOut, figures.first.dubbing_out),
            (faces::Sum::LathKey, figures.first.lath_key),
            (faces::Sum::Pockets, figures.first.pockets),
            (faces::Sum::Coves, figures.first.coves),
        ] {
            if value != Volume::default() {
                terms.push(faces::ground(source, of.build_up, sum));
            }
        }
    }
    Node::sum(
        "placed, dry on the wall",
        Dimension::Volume,
        figures.volume.placed.value,
        terms,
    )
    .with_path(of.path("placed"))
}

fn batches(source: Source<'_>, of: &Found<'_>) -> Result<Node, PathFault> {
    let no_mixer = PathFault::NotKnown {
        what: of.path("batches"),
        why: "the project has no mixer",
    };
    let (Some(batches), Some(mixer)) = (&of.figures.batches, &source.project.mixer) else {
        return Err(no_mixer);
    };
    let working = typed(
        "working volume of the mixer",
        Dimension::Volume,
        mixer.working_volume.value().value,
        &mixer.working_volume,
        &Place::project().field("mixer").field("working_volume"),
    );
    Ok(Node::new(
        eco_format!("{}, batches", of.called()),
        Dimension::Number,
        batches.exact,
        Formula::Of("#0 ÷ #1"),
        vec![mixed(source, of), working],
    )
    .with_path(of.path("batches")))
}

/// What a coat, or a batch of it, takes of a material, dry and screened.
pub(super) struct Taken<'a> {
    pub(super) source: Source<'a>,
    pub(super) coat: &'a Found<'a>,
    pub(super) material: usize,
    /// As the recipe has it.
    pub(super) quantity: Quantity,
    /// The mixed volume that the recipe is for.
    pub(super) volume: Node,
}

impl Taken<'_> {
    /// The tree, by mass or loose; `None` when the material has no such figure.
    pub(super) fn dry(self, by_mass: bool) -> Option<Node> {
        let (name, material) = self.source.project.materials.get_index(self.material)?;
        let label = eco_format!("{}, {name}", self.coat.called());
        let place = Place::project().thing("material", name.clone());
        let density = match material.kind {
            MaterialKind::Water => Node::given(
                "density of water",
                Dimension::Density,
                crate::evaluate::water_density().value,
            ),
            _ => mixes::loose_density(material, &place),
        };
        let quantity = self.quantity;
        let one = if self.coat.mix.minerals.contains(&self.material) {
            self.mineral(&label)?
        } else if self.coat.mix.additives.contains(&self.material) {
            self.additive(&label)?
        } else {
            self.water(&label)?
        };
        Some(match (by_mass, one.figure.dimension) {
            (true, Dimension::Volume) => Node::new(
                label,
                Dimension::Mass,
                quantity.mass?.value,
                Formula::Of("#0 × #1"),
                vec![one, density],
            ),
            (false, Dimension::Mass) => Node::new(
                label,
                Dimension::Volume,
                quantity.loose?.value,
                Formula::Of("#0 ÷ #1"),
                vec![one, density],
            ),
            _ => one,
        })
    }

    /// By loose volume.
    fn mineral(self, label: &EcoString) -> Option<Node> {
        let mix = &self.coat.coat.mix;
        let share = mixes::share(self.source, mix, self.material)?;
        let yielded = mixes::yielded(self.source, mix).ok()?;
        Some(Node::new(
            label.clone(),
            Dimension::Volume,
            self.quantity.loose?.value,
            Formula::Of("#0 ÷ #1 × #2"),
            vec![self.volume, yielded, share],
        ))
    }

    /// By mass when it is dosed, by loose volume when it has parts.
    fn additive(self, label: &EcoString) -> Option<Node> {
        let mix_name = &self.coat.coat.mix;
        let (mix, checked, place) = mixes::find(self.source, mix_name).ok()?;
        let (name, _) = self.source.project.materials.get_index(self.material)?;
        let (field, dose) = [("fibre", &mix.fibre), ("binder", &mix.binder)]
            .into_iter()
            .filter_map(|(field, dose)| Some((field, dose.as_ref()?)))
            .find(|(_, dose)| dose.material == *name)?;
        let place = place.field(field);
        let yielded = mixes::yielded(self.source, mix_name).ok()?;
        if let Some(text) = &dose.dose {
            let value = text.value().value;
            let own = typed(
                "dose",
                Dimension::Density,
                value,
                text,
                &place.field("dose"),
            );
            let (formula, terms) = if dose.per == Some(DosePer::Loose) {
                (Formula::Of("#0 ÷ #1 × #2"), vec![self.volume, yielded, own])
            } else {
                (Formula::Of("#0 × #1"), vec![self.volume, own])
            };
            let value = self.quantity.mass?.value;
            return Some(Node::new(
                label.clone(),
                Dimension::Mass,
                value,
                formula,
                terms,
            ));
        }
        let text = dose.parts.as_ref()?;
        let own = typed(
            "parts",
            Dimension::Number,
            text.value().get(),
            text,
            &place.field("parts"),
        );
        let sum = checked.mix.sum_of_parts();
        let sum = Node::given("sum of the mineral parts", Dimension::Number, sum);
        Some(Node::new(
            label.clone(),
            Dimension::Volume,
            self.quantity.loose?.value,
            Formula::Of("#0 ÷ #1 × #2 ÷ #3"),
            vec![self.volume, yielded, own, sum],
        ))
    }

    /// By mass.
    fn water(self, label: &EcoString) -> Option<Node> {
        let per = mixes::water_to_add(self.source, &self.coat.coat.mix).ok()?;
        Some(Node::new(
            label.clone(),
            Dimension::Mass,
            self.quantity.mass?.value,
            Formula::Of("#0 × #1"),
            vec![self.volume, per],
        ))
    }
}

/// What one full batch takes of a material, as it is measured into the mixer: damp, past the screen.
pub(super) fn batch(
    source: Source<'_>,
    build_up: &str,
    coat: &str,
    material: &str,
    rest: &[&str],
) -> Result<Node, PathFault> {
    let found = find(source, build_up, coat)?;
    let (index, name) = super::materials::find(source, material)?;
    let place = Place::project().thing("material", name);
    let path = eco_format!("batch of {}: {}", found.called(), material);
    let unknown = |why| PathFault::NotKnown {
        what: path.clone(),
        why,
    };
    let by_mass = match rest {
        [] | ["loose"] => false,
        ["mass"] => true,
        [_, other, ..] | [other] => {
            return Err(PathFault::Unknown {
                kind: "figure of a batch",
                name: (*other).into(),
                there: ["loose", "mass"].map(Into::into).to_vec(),
            });
        }
    };
    let (Some(recipe), Some(mixer)) = (&found.figures.batch, &source.project.mixer) else {
        return Err(unknown("the project has no mixer"));
    };
    let quantity = found
        .mix
        .takes(recipe, source.site.water())
        .into_iter()
        .find(|(material, _)| *material == index)
        .map(|(_, quantity)| quantity)
        .ok_or_else(|| unknown("the mix does not take this material"))?;
    let working = typed(
        "working volume of the mixer",
        Dimension::Volume,
        mixer.working_volume.value().value,
        &mixer.working_volume,
        &Place::project().field("mixer").field("working_volume"),
    );
    let taken = Taken {
        source,
        coat: &found,
        material: index,
        quantity,
        volume: working,
    };
    let dry = taken
        .dry(by_mass)
        .ok_or_else(|| unknown("give its loose_density"))?;
    let material = source
        .site
        .materials
        .get(index)
        .ok_or_else(|| unknown("it is not there"))?;
    let typed_material = source.project.materials.get_index(index).map(|(_, m)| m);
    let (field, value, share) = if by_mass {
        (
            "moisture",
            typed_material.and_then(|m| m.moisture.as_ref()),
            material.delivery.moisture,
        )
    } else {
        (
            "bulking",
            typed_material.and_then(|m| m.bulking.as_ref()),
            material.delivery.bulking,
        )
    };
    let share = share.get::<ratio>();
    let term = match value {
        Some(text) => typed(field, Dimension::Number, share, text, &place.field(field)),
        None => Node::given(field, Dimension::Number, share).with_source("none is given"),
    };
    let damp = material.delivery.at_the_mixer(&quantity);
    let value = if by_mass {
        damp.mass.map(|m| m.value)
    } else {
        damp.loose.map(|v| v.value)
    };
    Ok(Node::new(
        eco_format!(
            "one batch of {}: {}",
            found.called(),
            source
                .project
                .materials
                .get_index(index)
                .map_or("", |(n, _)| n)
        ),
        if by_mass {
            Dimension::Mass
        } else {
            Dimension::Volume
        },
        value.ok_or_else(|| unknown("give its loose_density"))?,
        Formula::Of("#0 × (1 + #1)"),
        vec![dry, term],
    ))
}
