//! The fields of every record: key, words, what may be typed, what holds when it is not given.
//!
//! Defaults are those of the checking and the evaluation, put in words. Not here: fields that are more
//! than a value of a record (a face that is plastered or bare, the shape itself, names), see `rows`.

use super::Kind;
use super::held::{Field, Held, one_word, some_words, yes_or_no};
use crate::project::{
    Alternative, ArchKind, Background, BackgroundKind, Blend, BlendAim, BulkingTest, Buying,
    BuyingAim, Coat, Cracks, CurveBand, Delivered, Done, Dose, DosePer, Dried, Face, Frame,
    HandTests, HeaterFuel, Inset, JarTest, Material, MaterialKind, Mix, Mixer, Opening,
    OpeningShape, Package, Phase, Pocket, Preparation, Preparing, Project, Rain, Rate, Reveal,
    Room, ScreenTest, Shine, Side, SizeSystem, Soil, SoilShares, Splay, Squeeze, Supplier,
    TestPanel, TrialBatch, Uncertain, UncertainInput, Wall, WallEnd, WallShape, Weekday, Work,
};
use ecow::EcoString;
use hodful_quantities::print::UnitSystem;

/// Makes a table of the fields of a record.
macro_rules! fields {
    ($($name:ident: $record:ty { $($field:ident, $label:literal, $doc:literal, $kind:expr $(, $default:literal)?;)+ })+) => {$(
        pub(crate) const $name: &[Field<$record>] = &[$(
            Field {
                key: stringify!($field),
                label: $label,
                doc: $doc,
                kind: $kind,
                default: concat!($($default)?),
                text: |of| Held::text(&of.$field),
                put: |of, text| Held::put(&mut of.$field, text),
                is_optional: |of| Held::is_optional(&of.$field),
            },
        )+];
    )+};
}

/// Makes the tables of the fields of each kind of a shape, and the choice among them.
macro_rules! shapes {
    ($shape:ident, $kinds:ident, $of:ident: $($variant:ident = $word:literal {
        $($field:ident, $label:literal, $doc:literal, $kind:expr $(, $default:literal)?;)+
    })+) => {
        /// The kinds, as words.
        pub(super) const $kinds: &[&str] = &[$($word,)+];

        /// The word of a shape's kind, and its fields.
        pub(crate) fn $of(shape: &$shape) -> (&'static str, &'static [Field<$shape>]) {
            match shape {
                $($shape::$variant { .. } => ($word, const { &[$(
                    Field {
                        key: stringify!($field),
                        label: $label,
                        doc: $doc,
                        kind: $kind,
                        default: concat!($($default)?),
                        text: |of| match of {
                            $shape::$variant { $field, .. } => Held::text($field),
                            #[allow(unreachable_patterns, reason = "a shape may have one kind only")]
                            _ => None,
                        },
                        put: |of, text| match of {
                            $shape::$variant { $field, .. } => Held::put($field, text),
                            #[allow(unreachable_patterns, reason = "a shape may have one kind only")]
                            _ => Err(super::held::no_field(stringify!($field))),
                        },
                        is_optional: |of| match of {
                            $shape::$variant { $field, .. } => Held::is_optional($field),
                            #[allow(unreachable_patterns, reason = "a shape may have one kind only")]
                            _ => true,
                        },
                    },
                )+] }),)+
            }
        }
    };
}

const LENGTH: fn(&Project) -> Kind = |_| Kind::Length;
const AREA: fn(&Project) -> Kind = |_| Kind::Area;
const THICKNESS: fn(&Project) -> Kind = |_| Kind::Thickness;
const ANGLE: fn(&Project) -> Kind = |_| Kind::Angle;
const SHARE: fn(&Project) -> Kind = |_| Kind::Share;
const DENSITY: fn(&Project) -> Kind = |_| Kind::Density;
const DOSE_OF: fn(&Project) -> Kind = |_| Kind::Dose;
const VOLUME: fn(&Project) -> Kind = |_| Kind::Volume;
const AMOUNT: fn(&Project) -> Kind = |_| Kind::Amount;
const LEVEL: fn(&Project) -> Kind = |_| Kind::Level;
const MASS: fn(&Project) -> Kind = |_| Kind::Mass;
const TIME: fn(&Project) -> Kind = |_| Kind::Time;
const TEMPERATURE: fn(&Project) -> Kind = |_| Kind::Temperature;
const DAY: fn(&Project) -> Kind = |_| Kind::Day;
const DAYS: fn(&Project) -> Kind = |_| Kind::Days;
const FACING: fn(&Project) -> Kind = |_| Kind::Facing;
const SHARES: fn(&Project) -> Kind = |_| Kind::ShareRange;
const NUMBERS: fn(&Project) -> Kind = |_| Kind::NumberRange;
const MONEY: fn(&Project) -> Kind = |_| Kind::Money;
const NUMBER: fn(&Project) -> Kind = |_| Kind::Number;
const COUNT: fn(&Project) -> Kind = |_| Kind::Count;
const TEXT: fn(&Project) -> Kind = |_| Kind::Text;
const ID: fn(&Project) -> Kind = |_| Kind::Id;
const CORNERS: fn(&Project) -> Kind = |_| Kind::Corners;

fn names<'a>(names: impl Iterator<Item = &'a EcoString>) -> Kind {
    Kind::OneOf(names.cloned().collect())
}

fn backgrounds(project: &Project) -> Kind {
    names(project.backgrounds.keys())
}

fn build_ups(project: &Project) -> Kind {
    names(project.build_ups.keys())
}

fn mixes(project: &Project) -> Kind {
    names(project.mixes.keys())
}

fn suppliers(project: &Project) -> Kind {
    names(project.suppliers.keys())
}

fn options(project: &Project) -> Kind {
    names(project.options.keys())
}

fn materials(project: &Project) -> Kind {
    names(project.materials.keys())
}

fn wall_ids(project: &Project) -> Kind {
    Kind::SomeOf(project.walls.iter().map(|wall| wall.id.clone()).collect())
}

fn wall_id(project: &Project) -> Kind {
    Kind::OneOf(project.walls.iter().map(|wall| wall.id.clone()).collect())
}

fn coat_names(project: &Project) -> Kind {
    match coats(project) {
        Kind::SomeOf(names) => Kind::OneOf(names),
        other => other,
    }
}

/// Whatever an uncertain input may be of.
fn uncertain_of(project: &Project) -> Kind {
    let Kind::OneOf(mut all) = coat_names(project) else {
        return Kind::Text;
    };
    let others = project.backgrounds.keys().chain(project.mixes.keys());
    for name in others.chain(project.materials.keys()) {
        if !all.contains(name) {
            all.push(name.clone());
        }
    }
    Kind::OneOf(all)
}

/// Names of coats, each once.
fn coats(project: &Project) -> Kind {
    let mut names: Vec<EcoString> = Vec::new();
    for coat in project.build_ups.values().flatten() {
        if !names.contains(&coat.coat) {
            names.push(coat.coat.clone());
        }
    }
    Kind::SomeOf(names)
}

/// Materials that are fibre or binder.
fn additives(project: &Project) -> Kind {
    let fits = |kind| matches!(kind, MaterialKind::Fibre | MaterialKind::Binder);
    let of = project.materials.iter().filter(|(_, m)| fits(m.kind));
    names(of.map(|(name, _)| name))
}

fields! {
    PROJECT: Project {
        name, "name", "name", ID;
        units, "units", "units that figures are shown in", one_word::<UnitSystem>;
        measurement_rule, "rule of payment", "rule that payment is measured by", TEXT;
        note, "note", "note", TEXT;
    }
    MIXER: Mixer {
        working_volume, "batch", "plaster that one batch makes", VOLUME;
        bucket, "bucket", "a bucket holds", VOLUME;
        shovel, "shovel", "a shovel carries", VOLUME;
        cup, "cup", "the cup for binder holds", VOLUME, "a kitchen cup";
        hold_back, "hold back", "water held back until the mix has turned", SHARE, "a fifth";
        batches_per_day, "batches a day", "batches that the crew makes in a day", NUMBER;
    }
    BACKGROUND: Background {
        kind, "kind", "kind", one_word::<BackgroundKind>;
        dubbing_out, "dubbing out", "mean depth of dubbing out", THICKNESS, "none";
    }
    COAT: Coat {
        coat, "name", "name", ID;
        thickness, "thickness", "thickness, finished and dry", THICKNESS;
        mix, "mix", "mix", mixes;
        shrinkage, "shrinkage", "shrinkage of the thickness", SHARE, "2 %";
        loss, "loss", "loss, of the mixed plaster", SHARE, "none";
        weather_finish, "weather finish", "weather finish", TEXT, "none";
    }
    MIX: Mix {
        water, "water", "water, of the dry mass", SHARE;
        air, "air", "air left in it", SHARE, "none";
        single_pass, "single pass", "thickest coat in one pass", THICKNESS;
    }
    DOSE: Dose {
        material, "material", "material", additives;
        dose, "dose", "dose", DOSE_OF;
        per, "per", "dose is per volume", one_word::<DosePer>, "mixed";
        parts, "parts", "parts instead of a dose", NUMBER;
    }
    TRIAL: TrialBatch {
        loose, "went in", "loose material that went in", AMOUNT;
        mixed, "came out", "plaster that came out", VOLUME;
        water, "water", "water that went in", AMOUNT;
        date, "day", "day of the trial", DAY;
        note, "note", "what was seen", TEXT;
    }
    PANEL: TestPanel {
        date, "day", "day on which it was made", DAY;
        wet_length, "wet length", "length between marks when wet", LENGTH;
        dry_length, "dry length", "length between marks when dry", LENGTH;
        wet_thickness, "wet thickness", "thickness when wet", THICKNESS;
        dry_thickness, "dry thickness", "thickness when dry", THICKNESS;
        cracks, "cracks", "cracks when dry", one_word::<Cracks>;
        note, "note", "what else was seen", TEXT;
    }
    MATERIAL: Material {
        kind, "kind", "kind", one_word::<MaterialKind>;
        loose_density, "loose density", "loose density, dry", DENSITY;
        particle_density, "grain density", "density of the grains", DENSITY, "2650 kg/m3";
        moisture, "moisture", "moisture as delivered, of the dry mass", SHARE, "none";
        bulking, "bulking", "bulking when damp", SHARE, "none";
        clay, "clay", "clay in it, of the dry mass", SHARE;
        void_fraction, "voids", "room between the grains", SHARE;
        reject, "screen reject", "left on the screen", SHARE, "none";
        stock, "in the yard", "in the yard already", AMOUNT, "none";
        keeping_loss, "lost lying", "lost while it lies, of what comes", SHARE, "none";
        keeps, "keeps", "how long it can lie", TIME, "for good";
        swell, "swell", "more room dug than in the ground", SHARE;
        shrink, "shrink", "less room rammed than in the ground", SHARE;
        shovels_per_bucket, "shovels a bucket", "shovels of it that fill the bucket", NUMBER;
        handful, "handful", "a handful weighs", MASS;
    }
    BULKING_TEST: BulkingTest {
        damp, "damp", "depth of the damp sand", LENGTH;
        flooded, "flooded", "depth when flooded and rodded", LENGTH;
    }
    SCREEN_TEST: ScreenTest {
        mesh, "mesh", "opening of the mesh", THICKNESS;
        raw, "thrown", "thrown at the screen", AMOUNT;
        held, "held back", "held back by the screen", AMOUNT;
    }
    SOIL: Soil {
        system, "sizes by", "system of particle sizes", one_word::<SizeSystem>, "USDA";
        sieve, "sieves", "sieves, and what passes each by mass", |_| Kind::Sieves;
        note, "dug, tested", "where it was dug, when it was tested", TEXT;
    }
    SOIL_SHARES: SoilShares {
        gravel, "gravel", "gravel, of the dry mass", SHARE, "none";
        sand, "sand", "sand, of the dry mass", SHARE;
        silt, "silt", "silt, of the dry mass", SHARE;
        clay, "clay", "clay, of the dry mass", SHARE;
    }
    JAR: JarTest {
        sand, "sand layer", "height of the lowest layer", LENGTH;
        silt, "silt layer", "height of the layer on it", LENGTH;
        clay, "clay layer", "height of the uppermost layer", LENGTH;
        water_depth, "water", "depth of water that the grains fell through", LENGTH;
        temperature, "temperature", "temperature of the water", TEMPERATURE, "20 °C";
        sand_marked, "sand marked", "top of the sand marked after", TIME, "the right time";
        silt_marked, "silt marked", "top of the silt marked after", TIME, "the right time";
    }
    HAND: HandTests {
        squeeze, "squeeze", "a moist ball squeezed", one_word::<Squeeze>;
        ribbon, "ribbon", "length at which a ribbon breaks", LENGTH;
        roll, "roll", "thinnest thread it rolls to", LENGTH;
        drop, "drop", "breadth of a ball dropped from two metres", LENGTH;
        shine, "shine", "face of a cut", one_word::<Shine>;
    }
    BLEND: Blend {
        clay, "clay", "clay in the dry blend, by mass", SHARES;
        silt, "silt", "silt in the dry blend, by mass", SHARES;
        sand_to_clay, "sand to clay", "sand grains to clay grains, by volume", NUMBERS;
        sand_to_rest, "sand to rest", "buckets of sand to buckets of all else", NUMBERS;
        sieves, "sieves", "sieves, and bounds of what passes each", |_| Kind::SieveRanges;
        single_pass, "single pass", "coat in one pass: grains up to a third of it", THICKNESS;
        aim, "choose by", "what is wanted most", one_word::<BlendAim>, "least cost";
        amount, "amount", "how much is wanted, dry and loose", VOLUME;
    }
    CURVE: CurveBand {
        largest, "largest grain", "largest grain of the curve", LENGTH;
        power, "power", "power of the curve", NUMBER, "0.5";
        within, "within", "how far off the curve, in points", SHARE, "10 %";
    }
    SUPPLIER: Supplier {
        delivery, "delivery", "price of one trip", MONEY, "none";
        least_order, "least order", "least worth of goods at a time", MONEY, "none";
        truck_mass, "truck carries", "mass that the truck may carry", MASS;
        truck_volume, "truck holds", "volume that the truck holds", VOLUME;
        note, "note", "note", TEXT;
    }
    BUYING: Buying {
        aim, "choose by", "what is wanted most", one_word::<BuyingAim>, "least cost";
    }
    PHASE: Phase {
        name, "name", "name", ID;
        coats, "coats", "coats whose materials come now", coats;
        date, "day", "day of the delivery", DAY;
    }
    ALTERNATIVE: Alternative {
        of, "starts from", "option that it starts from", options, "the project";
        note, "note", "note", TEXT;
    }
    UNCERTAIN: Uncertain {
        of, "input", "input that may be off", one_word::<UncertainInput>;
        name, "of", "coat, background, mix or material", uncertain_of, "all of them";
        lowest, "lowest", "the lowest that it may be", LEVEL;
        likely, "likely", "the likeliest", LEVEL, "as in the project";
        highest, "highest", "the highest that it may be", LEVEL;
        mean, "mean", "mean that was measured, instead of three points", LEVEL;
        spread, "spread", "how far from the mean at most, 2 times in 3; of shares in points", LEVEL;
        wall_to_wall, "wall to wall", "how far a wall from all of them at most, 2 times in 3", LEVEL, "none";
        source, "source", "where it was measured, or who says so", TEXT;
    }
    DONE: Done {
        coat, "coat", "coat that was put on", coat_names;
        build_up, "build-up", "build-up that it is in", build_ups, "every one";
        walls, "walls", "walls that it was put on", wall_ids, "all";
        face, "face", "face that it was put on", one_word::<Side>, "both";
        took, "took", "what it took, mixed: 14 batches, 35 buckets", |_| Kind::Mixed;
        date, "day", "day on which it was done", DAY;
        note, "note", "what was seen", TEXT;
    }
    DELIVERED: Delivered {
        material, "material", "material that came", materials;
        amount, "came", "how much came", AMOUNT;
        date, "day", "day on which it came", DAY;
        note, "note", "note", TEXT;
    }
    WORK: Work {
        begins, "begins", "first day that may be worked", DAY;
        from, "from", "begin of the day, on a quarter of an hour: 8:00", TEXT, "8:00";
        to, "to", "end of the day, on a quarter of an hour: 16:30", TEXT, "16:30";
        breaks, "breaks", "breaks, with commas between them: 12:00-12:30", TEXT;
        weekdays, "weekdays", "days of the week that are worked", some_words::<Weekday>, "Monday to Friday";
        days_off, "days off", "days that are not worked: 2026-05-01, 2026-05-14", DAYS, "none";
    }
    CREW: Work {
        people, "people", "people who do everything in turn; instead of the four below", COUNT;
        mixing, "mixing", "people at the mixer", COUNT;
        carrying, "carrying", "people who carry", COUNT;
        placing, "placing", "people who place", COUNT;
        finishing, "finishing", "people who finish", COUNT;
        batch_minutes, "a batch takes", "minutes from one batch to the next", NUMBER, "20 min";
        carried_per_hour, "one carries", "mixed plaster that one person carries to the wall in an hour", VOLUME, "holds nothing up";
    }
    PREPARATION: Preparation {
        what, "what", "what is prepared before the first coat", one_word::<Preparing>;
        hours, "person-hours", "person-hours that it takes", NUMBER;
        then_wait, "then wait", "hours that must pass before the first coat: clay that soaks", NUMBER, "none";
    }
    ROOM: Room {
        volume, "air", "volume of the air in it", VOLUME;
        walls, "walls", "walls whose inside faces it has", wall_ids, "all";
        temperature, "kept at", "how warm it is kept", TEMPERATURE, "as outside";
        air_changes, "air changes", "how often in an hour its air is changed: 0.5 shut, up to 4 tilted, 5 to 15 open", NUMBER, "0.5";
        fan, "fan", "whether a fan moves the air along the walls", yes_or_no, "no";
        heater, "heater burns", "what burns in a heater without a flue", one_word::<HeaterFuel>, "none";
        fuel_per_day, "fuel a day", "how much of that burns in a day", MASS;
        water_per_day, "water a day", "water that people, cooking and wet floors give to its air in a day", VOLUME, "none";
        stay_below, "stay below", "relative humidity to stay below", SHARE, "70 %";
        ceiling_u, "ceiling U", "U-value of its coldest part, W/(m²·K): a ceiling under a cold roof", NUMBER;
    }
    DRIED: Dried {
        wall, "wall", "wall", wall_id;
        face, "face", "face", one_word::<Side>;
        coat, "coat", "coat", coat_names;
        placed, "put on", "day on which it was put on", DAY;
        dry, "dry", "day on which it was found dry", DAY, "not yet";
    }
    SKY: Work {
        weather, "weather file", "file of weather, beside the file of the project", TEXT, "none";
        latitude, "latitude", "degrees north of the equator, south below 0", NUMBER, "of the weather";
        longitude, "longitude", "degrees east of Greenwich, west below 0", NUMBER, "of the weather";
    }
    RATE: Rate {
        placing, "places", "surface that one person places in an hour", AREA, "as published";
        finishing, "finishes", "surface that one person finishes in an hour, when others do it", AREA, "who places";
        open_minutes, "stays workable", "minutes that the coat stays workable on the wall", NUMBER, "by the weather";
    }
    PACKAGE: Package {
        name, "name", "name", ID;
        holds, "holds", "holds", AMOUNT;
        price, "price", "price of one", MONEY;
        supplier, "sold by", "who sells it", suppliers, "fetched";
        room, "room", "room that one takes on the truck", VOLUME, "what it holds";
    }
    WALL: Wall {
        id, "id", "id", ID;
        name, "name", "name", TEXT;
        sheet, "sheet", "sheet", TEXT;
        count, "how many", "how many", COUNT, "1";
    }
    BODY: Wall {
        thickness, "thickness", "thickness without plaster", THICKNESS;
    }
    FACE: Face {
        background, "background", "background", backgrounds;
        build_up, "build-up", "build-up", build_ups;
        rain, "rain", "rain", one_word::<Rain>;
    }
    SUN: Face {
        facing, "looks to", "where it looks to: south, SW, or degrees from north by east", FACING;
        shaded, "in the shade", "whether it stands in the shade all day", yes_or_no;
    }
    INSET: Inset {
        left, "left", "plaster stops from the left end", LENGTH, "none";
        right, "right", "plaster stops from the right end", LENGTH, "none";
        top, "top", "plaster stops down from the top", LENGTH, "none";
        bottom, "base", "plaster stops up from the bottom", LENGTH, "none";
        ceiling, "ceiling", "level ceiling above the bottom", LENGTH, "none";
    }
    CORNER: WallEnd {
        turn, "turn", "turns through", ANGLE, "90°";
        radius, "radius", "radius of the background", THICKNESS, "sharp";
        cove, "cove", "radius of the finished cove", THICKNESS, "square";
    }
    OPENING: Opening {
        id, "id", "id", ID;
        kind, "what it is", "what it is", TEXT;
        count, "how many", "how many side by side", COUNT, "1";
        spacing, "spacing", "from one left edge to the next", LENGTH;
    }
    PLACED: Opening {
        from_left, "from left", "left edge from the left end of the wall", LENGTH;
        sill, "sill", "sill above the bottom of the wall", LENGTH;
    }
    FRAME: Frame {
        from_outside, "from outside", "frame from the outside face", THICKNESS;
        depth, "depth", "depth of the frame", THICKNESS;
    }
    PLASTERED: Reveal {
        plastered, "plastered", "plastered parts", |_| Kind::SomeOf(Vec::new()), "none";
    }
    SPLAY: Splay {
        jambs, "splay jambs", "splay of the jambs", ANGLE, "square";
        head, "splay head", "splay of the head", ANGLE, "square";
        sill, "splay sill", "splay of the sill", ANGLE, "square";
        ring, "splay ring", "splay of the ring", ANGLE, "square";
    }
    REVEAL: Reveal {
        radius, "edge radius", "radius of the edge to the face", THICKNESS, "sharp";
        lath, "lath", "width of lath along the edges", THICKNESS, "none";
    }
    POCKET: Pocket {
        face, "face", "in the face", one_word::<Side>;
        width, "width", "width", LENGTH;
        height, "height", "height", LENGTH;
        depth, "depth", "mean depth", THICKNESS;
        count, "how many", "how many", COUNT, "1";
    }
}

shapes! { WallShape, WALL_SHAPES, wall_shape:
    Rectangle = "rectangle" {
        length, "length", "length", LENGTH;
        height, "height", "height", LENGTH;
    }
    Gable = "gable" {
        length, "length", "length", LENGTH;
        eaves, "eaves", "height at the eaves", LENGTH;
        ridge, "ridge", "height of the ridge", LENGTH;
        ridge_from_left, "ridge at", "ridge from the left end", LENGTH, "the middle";
    }
    Raked = "raked" {
        length, "length", "length", LENGTH;
        left, "left", "height at the left end", LENGTH;
        right, "right", "height at the right end", LENGTH;
    }
    Curved = "curved" {
        radius, "radius", "radius to the outside face", LENGTH;
        sweep, "sweep", "angle on plan", ANGLE;
        length, "length", "length along the outside face", LENGTH;
        height, "height", "height", LENGTH;
    }
    Polygon = "polygon" {
        corners, "corners", "corners, from the left and up", CORNERS;
    }
}

shapes! { OpeningShape, OPENING_SHAPES, opening_shape:
    Rectangle = "rectangle" {
        width, "width", "width", LENGTH;
        height, "height", "height", LENGTH;
    }
    Arched = "arched" {
        width, "width", "width", LENGTH;
        springing, "springing", "springing above the sill", LENGTH;
        rise, "rise", "rise of the arch", LENGTH, "half the width";
        head, "arch", "arch", one_word::<ArchKind>, "segmental";
    }
    Circle = "circle" {
        diameter, "diameter", "diameter", LENGTH;
    }
    Polygon = "polygon" {
        corners, "corners", "corners, from the left and up", CORNERS;
    }
}
