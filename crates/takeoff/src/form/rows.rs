//! The rows of a thing, put together from the tables of its parts. Not here: the tables, and setting.

use super::held::{Field, Held, words};
use super::{Kind, Row, Subject, tables};
use crate::project::{
    Alteration, Alternative, Blend, CornerAngle, Dose, End, Face, Material, MaterialKind, Mix,
    Opening, OpeningShape, Project, Reveal, RevealPart, Side, Splay, Wall, WallEnd, WallShape,
    Work,
};
use crate::{check, sources};
use ecow::{EcoString, eco_format};

/// The word for a face that is plastered.
pub(super) const PLASTERED: &str = "plastered";
/// The word for a face that is not.
pub(super) const BARE: &str = "bare";
/// The word for no corner.
pub(super) const NO_CORNER: &str = "none";

/// The visible rows of a thing.
pub(super) fn all(project: &Project, subject: Subject) -> Vec<Row> {
    let mut sheet = Sheet::new(project, None);
    sheet.subject(subject);
    sheet.rows
}

/// One row of a thing, also one that is shown only when more is given; `None` when there is none.
pub(super) fn one(project: &Project, subject: Subject, key: &str) -> Option<Row> {
    let mut sheet = Sheet::new(project, Some(key));
    sheet.subject(subject);
    sheet.rows.pop()
}

/// Rows being put together.
struct Sheet<'a> {
    project: &'a Project,
    /// The only key that is wanted; then what is mostly hidden is told as well.
    only: Option<&'a str>,
    rows: Vec<Row>,
}

impl<'a> Sheet<'a> {
    fn new(project: &'a Project, only: Option<&'a str>) -> Self {
        Self {
            project,
            only,
            rows: Vec::new(),
        }
    }

    /// Whether a part that is not there is told all the same.
    fn hidden(&self) -> bool {
        self.only.is_some()
    }

    fn wants(&self, prefix: &str, key: &str) -> bool {
        self.only
            .is_none_or(|only| only.strip_prefix(prefix) == Some(key))
    }

    /// The fields of a record, which may not be there.
    fn fields<T>(
        &mut self,
        prefix: &str,
        group: &'static str,
        fields: &[Field<T>],
        of: Option<&T>,
    ) {
        for field in fields {
            if self.wants(prefix, field.key) {
                self.rows.push(Row {
                    key: eco_format!("{prefix}{}", field.key),
                    group,
                    label: field.label.into(),
                    doc: field.doc,
                    kind: (field.kind)(self.project),
                    text: of.and_then(field.text),
                    optional: of.is_none_or(field.is_optional),
                    default: default(field.default),
                });
            }
        }
    }

    /// A choice of words that is no field of a record.
    fn choice(
        &mut self,
        key: &str,
        group: &'static str,
        label: &'static str,
        words: &[&str],
        chosen: &str,
    ) {
        if self.wants("", key) {
            self.rows.push(Row {
                key: key.into(),
                group,
                label: label.into(),
                doc: label,
                kind: Kind::OneOf(words.iter().map(|w| (*w).into()).collect()),
                text: Some(chosen.into()),
                optional: false,
                default: None,
            });
        }
    }

    /// The name of a thing that is kept by name.
    fn name(&mut self, name: &EcoString) {
        if self.wants("", "name") {
            self.rows.push(Row {
                key: "name".into(),
                group: "",
                label: "name".into(),
                doc: "name",
                kind: Kind::Id,
                text: Some(name.clone()),
                optional: false,
                default: None,
            });
        }
    }

    /// Changes a row that is there.
    fn change(&mut self, key: &str, change: impl FnOnce(&mut Row)) {
        if let Some(row) = self.rows.iter_mut().find(|row| row.key == key) {
            change(row);
        }
    }

    fn subject(&mut self, subject: Subject) -> Option<()> {
        let project = self.project;
        match subject {
            Subject::Project => self.fields("", "", tables::PROJECT, Some(project)),
            Subject::Mixer => {
                let mixer = project.mixer.as_ref();
                self.fields("", "", tables::MIXER, mixer);
                let alone = mixer.is_none_or(|m| m.bucket.is_none() && m.shovel.is_none());
                self.change("working_volume", |row| row.optional = alone);
            }
            Subject::Background(i) => {
                let (name, background) = project.backgrounds.get_index(i)?;
                self.name(name);
                self.fields("", "", tables::BACKGROUND, Some(background));
            }
            Subject::BuildUp(i) => self.name(project.build_ups.get_index(i)?.0),
            Subject::Coat { build_up, coat } => {
                let (_, coats) = project.build_ups.get_index(build_up)?;
                self.fields("", "", tables::COAT, Some(coats.get(coat)?));
                let mix = coats.get(coat).and_then(|c| project.mixes.get(&c.mix));
                let measured = mix.and_then(check::measured_shrinkage);
                self.change("shrinkage", |row| {
                    row.default = Some(measured.map_or_else(
                        || eco_format!("{} %", sources::USUAL_SHRINKAGE.value),
                        |(_, _, lost)| eco_format!("{}, by the panel", percent(lost.get())),
                    ));
                });
                let name = &coats.get(coat)?.coat;
                let rates = project.work.as_deref().map(|work| &work.rates);
                let rate = rates.and_then(|rates| rates.get(name));
                self.fields(super::RATE, "one person in an hour", tables::RATE, rate);
            }
            Subject::Mix(i) => {
                let (name, mix) = project.mixes.get_index(i)?;
                self.name(name);
                self.mix(mix);
            }
            Subject::Material(i) => {
                let (name, material) = project.materials.get_index(i)?;
                self.name(name);
                self.material(material);
            }
            Subject::Package { material, package } => {
                let (_, material) = project.materials.get_index(material)?;
                let package = material.packages.get(package)?;
                self.fields("", "", tables::PACKAGE, Some(package));
            }
            Subject::Panel { mix, panel } => {
                let (_, mix) = project.mixes.get_index(mix)?;
                self.fields("", "", tables::PANEL, Some(mix.test_panels.get(panel)?));
            }
            Subject::Blend(i) => {
                let (name, blend) = project.blends.get_index(i)?;
                self.name(name);
                self.blend(blend);
            }
            Subject::Supplier(i) => {
                let (name, supplier) = project.suppliers.get_index(i)?;
                self.name(name);
                self.fields("", "", tables::SUPPLIER, Some(supplier));
            }
            Subject::Buying => self.fields("", "", tables::BUYING, project.buying.as_ref()),
            Subject::Phase(i) => {
                let phase = project.buying.as_ref()?.phases.get(i)?;
                self.fields("", "", tables::PHASE, Some(phase));
            }
            Subject::Alternative(i) => {
                let (name, of) = project.options.get_index(i)?;
                self.alternative(name, of);
            }
            Subject::Alteration {
                alternative,
                change,
            } => {
                let (_, of) = project.options.get_index(alternative)?;
                self.alteration(of.changes.get(change)?);
            }
            Subject::Work => self.work(),
            Subject::Preparation(_) | Subject::Room(_) | Subject::Dried(_) => {
                self.of_work(project.work.as_deref()?, subject)?;
            }
            Subject::Uncertain(i) => {
                self.fields("", "", tables::UNCERTAIN, Some(project.uncertain.get(i)?));
            }
            Subject::Done(i) => self.fields("", "", tables::DONE, Some(project.done.get(i)?)),
            Subject::Delivered(i) => {
                self.fields("", "", tables::DELIVERED, Some(project.delivered.get(i)?));
            }
            Subject::Wall(i) => self.wall(project.walls.get(i)?),
            Subject::Opening { wall, opening } => {
                self.opening(project.walls.get(wall)?.openings.get(opening)?);
            }
            Subject::Pocket { wall, pocket } => {
                let pocket = project.walls.get(wall)?.pockets.get(pocket)?;
                self.fields("", "", tables::POCKET, Some(pocket));
            }
        }
        Some(())
    }

    fn alternative(&mut self, name: &EcoString, of: &Alternative) {
        self.name(name);
        self.fields("", "", tables::ALTERNATIVE, Some(of));
        for row in &mut self.rows {
            // No option starts from itself.
            if let Kind::OneOf(names) = &mut row.kind {
                names.retain(|other| other != name);
            }
        }
    }

    /// What of the work is a thing of its own.
    fn of_work(&mut self, work: &Work, subject: Subject) -> Option<()> {
        match subject {
            Subject::Preparation(i) => {
                self.fields("", "", tables::PREPARATION, Some(work.prepare.get(i)?));
            }
            Subject::Room(i) => {
                let (name, room) = work.rooms.get_index(i)?;
                self.name(name);
                self.fields("", "", tables::ROOM, Some(room));
            }
            Subject::Dried(i) => self.fields("", "", tables::DRIED, Some(work.dried.get(i)?)),
            _ => return None,
        }
        Some(())
    }

    /// What a change makes of the field that it is about; a coat or a package that is added has its own
    /// fields.
    fn alteration(&mut self, change: &Alteration) {
        let project = self.project;
        let (key, text, optional) = match change {
            Alteration::Set { to, .. } => ("to", to.clone(), true),
            Alteration::Add { by, .. } => ("by", Some(by.clone()), false),
            Alteration::Coat { coat, .. } => {
                return self.fields("", "", tables::COAT, Some(coat));
            }
            Alteration::Package { package, .. } => {
                return self.fields("", "", tables::PACKAGE, Some(package));
            }
            Alteration::LeaveOut { .. } | Alteration::Wall { .. } => return,
        };
        if !self.wants("", key) {
            return;
        }
        let (Alteration::Set { at, field, .. } | Alteration::Add { at, field, .. }) = change else {
            return;
        };
        let things = crate::alternative::things(project, at).unwrap_or_default();
        let row = things.first().and_then(|thing| one(project, *thing, field));
        self.rows.push(Row {
            key: key.into(),
            group: "",
            label: row
                .as_ref()
                .map_or_else(|| field.clone(), |row| row.label.clone()),
            doc: if key == "to" {
                "what it is instead"
            } else {
                "by how much it is more"
            },
            kind: row.map_or(Kind::Text, |row| row.kind),
            text,
            optional,
            default: None,
        });
    }

    /// The work on site; rates of coats stand at the coats, but for those of coats that are not there.
    fn work(&mut self) {
        let work = self.project.work.as_deref();
        self.fields("", "days and hours", tables::WORK, work);
        self.fields("", "who is there", tables::CREW, work);
        self.fields("", "weather", tables::SKY, work);
        // Given hours come without our break.
        if work.is_none_or(|work| work.from.is_none() && work.to.is_none()) {
            self.change("breaks", |row| row.default = default("12:00-12:30"));
        } else {
            self.change("breaks", |row| row.default = default("none"));
        }
        for (name, rate) in work.iter().flat_map(|work| &work.rates) {
            let coats = self.project.build_ups.values().flatten();
            if !coats.into_iter().any(|coat| coat.coat == *name) {
                let prefix = eco_format!("{}{name}.", super::RATES);
                let group = "rates of coats that are not there";
                self.fields(&prefix, group, tables::RATE, Some(rate));
            }
        }
    }

    fn material(&mut self, material: &Material) {
        self.fields("", "", tables::MATERIAL, Some(material));
        let none = material.kind.clay_when_not_given().is_some();
        let tested = crate::soil::figures(material).and_then(Result::ok);
        let tested = tested.and_then(|of| Some((of.used.fractions?.clay(), of.way.words())));
        self.change("clay", |row| {
            row.default = match tested {
                Some((clay, way)) => Some(eco_format!("{}, {way}", percent(clay))),
                None => none.then(|| "none".into()),
            };
        });
        let by_jar = material.bulking_test.as_ref();
        if let Some(bulking) = by_jar.and_then(|_| crate::soil::bulking(material)) {
            let by_jar = eco_format!("{}, by the jar", percent(bulking.value));
            self.change("bulking", |row| row.default = Some(by_jar));
        }
        if let Some(held) = material.screen_test.as_ref().and_then(check::held_back) {
            let by_trial = eco_format!("{}, by the trial", percent(held.get()));
            self.change("reject", |row| row.default = Some(by_trial));
        }
        let bulking = material.bulking_test.as_ref();
        if material.kind == MaterialKind::Sand || bulking.is_some() || self.hidden() {
            let group = "jar test for bulking";
            self.part("bulking_test.", group, tables::BULKING_TEST, bulking);
        }
        let screen = material.screen_test.as_ref();
        if material.kind.is_mineral() || screen.is_some() || self.hidden() {
            self.part(
                "screen_test.",
                "trial of the screen",
                tables::SCREEN_TEST,
                screen,
            );
        }
        let soil = material.soil.as_deref();
        if material.kind.is_mineral() || soil.is_some() || self.hidden() {
            self.fields("soil.", "its grains", tables::SOIL, soil);
            let shares = soil.and_then(|soil| soil.shares.as_ref());
            self.part(
                "soil.shares.",
                "shares by mass",
                tables::SOIL_SHARES,
                shares,
            );
            let jar = soil.and_then(|soil| soil.jar.as_ref());
            self.part("soil.jar.", "jar test", tables::JAR, jar);
            let hand = soil.and_then(|soil| soil.hand.as_ref());
            self.part("soil.hand.", "by hand", tables::HAND, hand);
        }
    }

    /// The fields of a part that is there as soon as one of them is given.
    fn part<T>(&mut self, prefix: &str, group: &'static str, fields: &[Field<T>], of: Option<&T>) {
        self.fields(prefix, group, fields, of);
        for row in self
            .rows
            .iter_mut()
            .filter(|row| row.key.starts_with(prefix))
        {
            row.optional = true;
        }
    }

    fn blend(&mut self, blend: &Blend) {
        let minerals = self.project.materials.iter();
        let minerals = minerals.filter(|(_, m)| m.kind.is_mineral());
        let others = minerals.map(|(name, _)| name);
        let others = others.filter(|name| !blend.materials.contains_key(*name));
        for name in blend.materials.keys().chain(others) {
            if self.wants("materials.", name) {
                let bounds = blend.materials.get(name).cloned();
                self.rows.push(Row {
                    key: eco_format!("materials.{name}"),
                    group: "made of, share by loose volume",
                    label: name.clone(),
                    doc: "any, or bounds of its share by loose volume; empty: none of it",
                    kind: Kind::ShareRange,
                    text: Held::text(&bounds),
                    optional: true,
                    default: default("none"),
                });
            }
        }
        self.fields("", "what it must come to", tables::BLEND, Some(blend));
        self.part(
            "curve.",
            "near a grading curve",
            tables::CURVE,
            blend.curve.as_ref(),
        );
    }

    fn mix(&mut self, mix: &Mix) {
        // Every mineral material is on offer as a part.
        let minerals = self.project.materials.iter();
        let minerals = minerals.filter(|(_, m)| m.kind.is_mineral());
        let others = minerals.map(|(name, _)| name);
        let others = others.filter(|name| !mix.parts.contains_key(*name));
        for name in mix.parts.keys().chain(others) {
            if self.wants("parts.", name) {
                self.rows.push(Row {
                    key: eco_format!("parts.{name}"),
                    group: "parts by dry loose volume",
                    label: name.clone(),
                    doc: "parts by dry loose volume; empty: none of it",
                    kind: Kind::Number,
                    text: mix.parts.get(name).map(|parts| parts.text().into()),
                    optional: true,
                    default: default("none"),
                });
            }
        }
        self.dose("fibre", "fibre", MaterialKind::Fibre, mix.fibre.as_ref());
        self.dose(
            "binder",
            "organic binder",
            MaterialKind::Binder,
            mix.binder.as_ref(),
        );
        self.fields("", "water, air and thickness", tables::MIX, Some(mix));
        let trial = mix.trial_batch.as_ref();
        self.fields("trial_batch.", "trial batch", tables::TRIAL, trial);
        for key in ["trial_batch.loose", "trial_batch.mixed"] {
            self.change(key, |row| row.optional = true);
        }
    }

    fn dose(&mut self, key: &str, group: &'static str, kind: MaterialKind, dose: Option<&Dose>) {
        self.fields(&eco_format!("{key}."), group, tables::DOSE, dose);
        let materials = self.project.materials.iter();
        let of_kind = materials.filter(|(_, m)| m.kind == kind);
        let names = of_kind.map(|(name, _)| name.clone()).collect();
        let alone = dose.is_none_or(|d| d.dose.is_none() && d.per.is_none() && d.parts.is_none());
        self.change(&eco_format!("{key}.material"), |row| {
            row.kind = Kind::OneOf(names);
            row.optional = alone;
        });
        if !self.hidden() && dose.is_none_or(|d| d.dose.is_none() && d.per.is_none()) {
            self.rows.retain(|row| row.key != eco_format!("{key}.per"));
        }
    }

    fn wall(&mut self, wall: &Wall) {
        self.fields("", "", tables::WALL, Some(wall));
        let (kind, fields) = tables::wall_shape(&wall.shape);
        self.choice("shape", "shape", "shape", tables::WALL_SHAPES, kind);
        self.fields("", "shape", fields, Some(&wall.shape));
        if let WallShape::Curved { sweep, length, .. } = &wall.shape {
            // One of the two stands: it can be exchanged for the other, but not left out.
            let (sweep, length) = (sweep.is_some(), length.is_some());
            self.change("sweep", |row| row.optional = !sweep || length);
            self.change("length", |row| row.optional = !length || sweep);
        }
        self.fields("", "", tables::BODY, Some(wall));
        for side in [Side::Outside, Side::Inside] {
            self.face(wall, side);
        }
    }

    fn face(&mut self, wall: &Wall, side: Side) {
        let (group, stops, left, right) = match side {
            Side::Outside => (
                "outside face",
                "where plaster stops, outside",
                "left end, outside",
                "right end, outside",
            ),
            Side::Inside => (
                "inside face",
                "where plaster stops, inside",
                "left end, inside",
                "right end, inside",
            ),
        };
        let word = side.word();
        let face = wall.face(side);
        let chosen = if face.is_some() { PLASTERED } else { BARE };
        self.choice(word, group, "face", &[PLASTERED, BARE], chosen);
        if face.is_some() || self.hidden() {
            self.fields(&eco_format!("{word}."), group, tables::FACE, face);
            self.change(&eco_format!("{word}.rain"), |row| {
                row.default = default(match side {
                    Side::Outside => "exposed",
                    Side::Inside => "sheltered",
                });
            });
            let given = face.is_some_and(|of| of.facing.is_some() || of.shaded.is_some());
            if side == Side::Outside || given || self.hidden() {
                self.fields(&eco_format!("{word}."), group, tables::SUN, face);
                let nowhere = face.is_none_or(|of| of.facing.is_none());
                self.change(&eco_format!("{word}.shaded"), |row| {
                    row.default = default(if nowhere { "yes" } else { "no" });
                });
            }
            let inset = face.and_then(|face: &Face| face.inset.as_deref());
            self.fields(&eco_format!("{word}.inset."), stops, tables::INSET, inset);
        }
        for (end, group) in [(End::Left, left), (End::Right, right)] {
            let corner = corner(wall, side, end);
            if face.is_some() || corner.is_some() || self.hidden() {
                self.corner(&eco_format!("{word}.corner.{}", end.word()), group, corner);
            }
        }
    }

    fn corner(&mut self, key: &str, group: &'static str, corner: Option<&WallEnd>) {
        let kinds = CornerAngle::ALL.iter().map(|angle| angle.word());
        let kinds: Vec<&str> = std::iter::once(NO_CORNER).chain(kinds).collect();
        let chosen = corner.map_or(NO_CORNER, |corner| corner.angle.word());
        self.choice(key, group, "corner", &kinds, chosen);
        let prefix = eco_format!("{key}.");
        for field in tables::CORNER {
            // A radius belongs to an external corner, a cove to an internal one.
            let own = corner.is_some_and(|corner| match field.key {
                "radius" => corner.angle == CornerAngle::External || corner.radius.is_some(),
                "cove" => corner.angle == CornerAngle::Internal || corner.cove.is_some(),
                _ => true,
            });
            if own || self.hidden() {
                self.fields(&prefix, group, std::slice::from_ref(field), corner);
            }
        }
    }

    fn opening(&mut self, opening: &Opening) {
        self.fields("", "", tables::OPENING, Some(opening));
        let (kind, fields) = tables::opening_shape(&opening.shape);
        self.choice("shape", "shape", "shape", tables::OPENING_SHAPES, kind);
        self.fields("", "shape", fields, Some(&opening.shape));
        self.fields("", "place in the wall", tables::PLACED, Some(opening));
        let frame = opening.frame.as_deref();
        self.fields(
            "frame.",
            "frame in the depth of the wall",
            tables::FRAME,
            frame,
        );
        for key in ["frame.from_outside", "frame.depth"] {
            self.change(key, |row| row.optional = true);
        }
        for (side, group) in [
            (Side::Outside, "reveals outside"),
            (Side::Inside, "reveals inside"),
        ] {
            let reveal = opening.reveal(side);
            self.reveal(side.word(), group, reveal, is_ringed(&opening.shape));
        }
    }

    fn reveal(&mut self, word: &str, group: &'static str, reveal: Option<&Reveal>, ringed: bool) {
        let prefix = eco_format!("{word}.");
        self.fields(&prefix, group, tables::PLASTERED, reveal);
        let key = eco_format!("{word}.plastered");
        self.change(&key, |row| row.kind = Kind::SomeOf(parts(ringed)));
        if reveal.is_none() && !self.hidden() {
            return;
        }
        let splay = reveal.and_then(|reveal| reveal.splay.as_deref());
        let prefix_of_splay = eco_format!("{word}.splay.");
        for field in tables::SPLAY {
            let given = splay.is_some_and(|splay: &Splay| (field.text)(splay).is_some());
            if given || self.hidden() || (field.key == RevealPart::Ring.word()) == ringed {
                self.fields(&prefix_of_splay, group, std::slice::from_ref(field), splay);
            }
        }
        self.fields(&prefix, group, tables::REVEAL, reveal);
    }
}

/// The corner at an end of a face, the first when it stands twice.
pub(super) fn corner(wall: &Wall, side: Side, end: End) -> Option<&WallEnd> {
    let is = |corner: &&WallEnd| corner.face == side && corner.end == end;
    wall.ends.iter().find(is)
}

/// Whether an opening has a ring of reveal instead of jambs, head and sill.
pub(super) fn is_ringed(shape: &OpeningShape) -> bool {
    matches!(
        shape,
        OpeningShape::Circle { .. } | OpeningShape::Polygon { .. }
    )
}

/// The parts a reveal can have.
fn parts(ringed: bool) -> Vec<EcoString> {
    if ringed {
        vec![RevealPart::Ring.word().into()]
    } else {
        words::<RevealPart>()
    }
}

/// A share in percent, to a tenth.
fn percent(share: f64) -> EcoString {
    let digits = hodful_quantities::print::significant((share * 1000.0).round() / 10.0, 4);
    eco_format!("{digits} %")
}

fn default(words: &str) -> Option<EcoString> {
    (!words.is_empty()).then(|| words.into())
}
