//! What of a difference is packages and prices, and what is rounding up, from packages worked out by hand. Not here:
//! what leads up to the need.

use super::*;
use crate::project::Package;

/// Sand of [`plain`] that a coat of so many millimetres takes, m³.
fn need(mm: f64) -> f64 {
    WALL * mm / 0.96 / 0.8 / 0.8 * 0.75 * 1.25 / 1.0e9
}

/// [`plain`] with a coat of so many millimetres and sand in these packages; nothing else is sold.
fn sold(mm: &str, packages: &[(&str, &str, &str)]) -> Project {
    let mut base = with(&plain(), &[(SCRATCH, "thickness", mm)]);
    for material in base.materials.values_mut() {
        material.packages.clear();
        material.stock = None;
    }
    for (name, holds, price) in packages {
        let mut of = Package::of((*name).into(), Typed::read(*holds).unwrap());
        of.price = Some(Typed::read(*price).unwrap());
        base.materials[0].packages.push(of);
    }
    base
}

/// 4.45 m³ in two loads of 2 m³ and two bags of 0.25 m³. A bag that is 5 dearer makes 10 more: of that, what is needed
/// of the 4.5 m³ is the price, and the rest is rounding up.
#[test]
fn a_dearer_bag_is_a_price_and_not_rounding_up() {
    let packages = |bag| [("load", "2 m3", "120"), ("bag", "250 L", bag)];
    let base = sold("180 mm", &packages("20"));
    let other = sold("180 mm", &packages("25"));
    assert!(need(180.0) > 4.25 && need(180.0) < 4.5);
    let price = 10.0 * need(180.0) / 4.5;
    let terms = [(Cause::Prices, price), (Cause::RoundingUp, 10.0 - price)];
    check(&base, &other, &Line::Cost, &terms);
    // As many packages of each.
    check(&base, &other, &Line::Packages("sand".into()), &[]);
}

/// 1.98 m³ and twice that, in bags of 1 m³ both times, though a load of 5 m³ is listed first.
#[test]
fn packages_are_counted_in_those_that_are_bought() {
    let packages = [("load", "5 m3", "100"), ("bag", "1 m3", "10")];
    let (base, other) = (sold("80 mm", &packages), sold("160 mm", &packages));
    let more = need(80.0);
    assert!(more > 1.9 && more < 2.0);
    let terms = [(Cause::Thickness, more), (Cause::RoundingUp, 2.0 - more)];
    check(&base, &other, &Line::Packages("sand".into()), &terms);
    let money = terms.map(|(cause, of)| (cause, of * 10.0));
    check(&base, &other, &Line::Cost, &money);
}

/// From three bags to a load, which is cheaper for what it holds: the other packages are a cause, and the rounding up
/// is what either holds too much.
#[test]
fn other_packages_are_a_cause() {
    let packages = [("load", "5 m3", "100"), ("bag", "1 m3", "30")];
    let (base, other) = (sold("120 mm", &packages), sold("192 mm", &packages));
    let (first, second) = (need(120.0), need(192.0));
    assert!(first > 2.9 && first < 3.0 && second > 4.7 && second < 5.0);
    // Of a product each factor has its change times the mean of the other.
    let terms = [
        (
            Cause::Thickness,
            (second - first) * f64::midpoint(30.0, 20.0),
        ),
        (Cause::Prices, f64::midpoint(first, second) * (20.0 - 30.0)),
        (
            Cause::RoundingUp,
            (100.0 - second * 20.0) - (90.0 - first * 30.0),
        ),
    ];
    check(&base, &other, &Line::Cost, &terms);
    // Three bags and one load are not two less of anything.
    let rules = rules();
    let (a, b) = (
        Assessed::new(&base, &rules).unwrap(),
        Assessed::new(&other, &rules).unwrap(),
    );
    let (a, b) = (a.one(None), b.one(None));
    let sand = Line::Packages("sand".into());
    let both = table(0, &[("a".into(), a), ("b".into(), b)]);
    let row = both.rows.iter().find(|row| row.line == sand).unwrap();
    assert_eq!(row.values, [Some(3.0), Some(1.0)]);
    assert_eq!(row.words, [Some("3 × bag".into()), Some("1 × load".into())]);
    assert_eq!((row.difference(0, 1), row.share(0, 1)), (None, None));
    assert_eq!(row.difference(0, 0), Some(0.0));
    assert!(row.differs(0));
    assert_eq!(causes(&a, &b, &sand), None);
}

/// Of one kind alone a count has a difference, from none on; a bag that holds less is another kind.
#[test]
fn packages_of_one_kind_are_taken_from_each_other() {
    let kind = |name: &str, count| (name.into(), count);
    let none = Vec::new();
    for (a, b, alike) in [
        (vec![kind("load", 3)], vec![kind("load", 5)], true),
        (none.clone(), vec![kind("load", 5)], true),
        (none.clone(), none, true),
        (
            vec![kind("load", 3)],
            vec![kind("bag", 2), kind("load", 3)],
            false,
        ),
        (
            vec![kind("bag", 2), kind("load", 3)],
            vec![kind("bag", 2), kind("load", 3)],
            true,
        ),
        (
            vec![kind("bag", 2), kind("load", 3)],
            vec![kind("bag", 4), kind("load", 3)],
            false,
        ),
    ] {
        assert_eq!(table::are_alike(&a, &b), alike, "{a:?} {b:?}");
        assert_eq!(table::are_alike(&b, &a), alike, "{a:?} {b:?}");
    }
    let packages = |holds| [("bag", holds, "30")];
    let (base, other) = (
        sold("120 mm", &packages("1 m3")),
        sold("120 mm", &packages("500 L")),
    );
    let rules = rules();
    let (a, b) = (
        Assessed::new(&base, &rules).unwrap(),
        Assessed::new(&other, &rules).unwrap(),
    );
    assert_eq!(
        causes(&a.one(None), &b.one(None), &Line::Packages("sand".into())),
        None
    );
}

/// Straw that is given by parts and has no density is known loose alone, and has no line of mass.
#[test]
fn what_has_no_density_is_told_loose() {
    let mut base = plain();
    let straw = base.materials.get_mut("straw").unwrap();
    straw.loose_density = None;
    straw.packages.clear();
    straw.stock = None;
    let mix = Subject::Mix(0);
    put(&mut base, mix, "fibre.parts", "2");
    let rules = rules();
    let of = Assessed::new(&base, &rules).unwrap();
    let one = of.one(None);
    let told = lines(&one);
    assert!(told.contains(&loose("straw")), "{told:?}");
    assert!(!told.contains(&Line::Mass("straw".into())), "{told:?}");
    let table = table(0, &[("it".into(), one)]);
    let amounts = table.rows.iter();
    let amounts = amounts.filter(|row| matches!(row.line, Line::Loose(_) | Line::Mass(_)));
    assert!(amounts.clone().count() >= 3);
    assert!(amounts.into_iter().all(|row| row.values[0].is_some()));
    // Two parts to three of sand, which swells by a quarter.
    let (sand, straw) = (value_of(&one, "sand"), value_of(&one, "straw"));
    assert!((straw - sand / 1.25 / 3.0 * 2.0).abs() < 1e-9 * sand);
}

fn value_of(one: &One<'_>, name: &str) -> f64 {
    table::value(&loose(name), one).unwrap()
}
