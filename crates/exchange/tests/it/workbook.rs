//! The workbook opened and worked out anew by a spreadsheet engine (the ironcalc library): every formula
//! comes to the figure of the program, also after a number in it was changed. Not here: how it looks.

use crate::project::demo;
use hodful_documents::{Facts, Foot, dimension_sheet, order_list};
use hodful_quantities::Typed;
use hodful_takeoff::{Assessed, Project};
use ironcalc::base::Model;
use ironcalc::base::cell::CellValue;
use ironcalc::import::load_from_xlsx_bytes;

/// Far below the last digit that is shown of any figure, and far above the rounding of sums.
const SAME: f64 = 1e-9;

fn workbook(project: &Project) -> Vec<u8> {
    let rules = hodful_project_file::rules();
    let cautions = hodful_project_file::cautions();
    let assessed = Assessed::new(project, &rules);
    let rule = rules.get(&project.measurement_rule);
    let foot = Foot::new("a.json", "2026-03-02", "Hodful", rule, project.units);
    let facts = Facts::new(project, &assessed, &cautions, foot);
    let documents = [order_list(&facts, Vec::new()), dimension_sheet(&facts)];
    hodful_exchange::xlsx(&facts, &documents).unwrap()
}

/// The workbook in the engine, as it was written: nothing worked out yet.
fn opened(bytes: &[u8]) -> Model<'static> {
    let workbook = load_from_xlsx_bytes(bytes, "workbook", "en", "UTC").unwrap();
    Model::from_workbook(workbook, "en").unwrap()
}

/// A cell of a sheet, its formula, its number.
type Formula = (u32, i32, i32, String, f64);

/// Every cell with a formula.
fn formulas(model: &Model<'_>) -> Vec<Formula> {
    let cells = model.get_all_cells().into_iter();
    cells
        .filter_map(|cell| {
            let (sheet, row, column) = (cell.index, cell.row, cell.column);
            let formula = model.get_cell_formula(sheet, row, column).unwrap()?;
            let value = model.get_cell_value_by_index(sheet, row, column).unwrap();
            let CellValue::Number(value) = value else {
                panic!("{formula} at {sheet} {row} {column} is {value:?}");
            };
            Some((sheet, row, column, formula, value))
        })
        .collect()
}

fn same(a: &[Formula], b: &[Formula]) {
    assert_eq!(a.len(), b.len());
    for (a, b) in a.iter().zip(b) {
        assert_eq!(a.3, b.3);
        let off = (a.4 - b.4).abs() / a.4.abs().max(1.0);
        assert!(
            off <= SAME,
            "{} at {:?}: {} and {}",
            a.3,
            (a.0, a.1, a.2),
            a.4,
            b.4
        );
    }
}

/// The number of a sheet.
fn sheet(model: &Model<'_>, name: &str) -> u32 {
    let names = model.workbook.get_worksheet_names();
    u32::try_from(names.iter().position(|n| n == name).unwrap()).unwrap()
}

/// A demo with every thickness so many times as great, changed in its workbook and worked out anew.
fn times_as_thick(name: &str, times: f64) -> Model<'static> {
    let project = demo(name);
    let mut model = opened(&workbook(&project));
    let coats = sheet(&model, "Coats");
    let all = model.get_all_cells().into_iter();
    let thick = all.filter(|cell| cell.index == coats && cell.row > 1 && cell.column == 5);
    let thick: Vec<i32> = thick.map(|cell| cell.row).collect();
    let typed = project.build_ups.values().flatten().count();
    assert!(!thick.is_empty() && thick.len() <= typed, "{thick:?}");
    for row in thick {
        let CellValue::Number(was) = model.get_cell_value_by_index(coats, row, 5).unwrap() else {
            continue;
        };
        let now = (was * times).to_string();
        model.set_user_input(coats, row, 5, now).unwrap();
    }
    model.evaluate();
    model
}

/// The row of a material on the sheet of the order, and a number in it.
fn ordered(model: &Model<'_>, material: &str) -> impl Fn(i32) -> f64 {
    let order = sheet(model, "Order");
    let is_named = |row: &i32| {
        let name = model.get_cell_value_by_index(order, *row, 2).unwrap();
        name == CellValue::String(material.to_owned())
    };
    let row = (2..50).find(is_named).unwrap();
    move |column| match model.get_cell_value_by_index(order, row, column).unwrap() {
        CellValue::Number(number) => number,
        other => panic!("{material}, column {column} of the order: {other:?}"),
    }
}

const DEMOS: [&str; 5] = [
    "thistlebank-workshop",
    "ferry-loft",
    "saltcedar-room",
    "quillmere-school",
    "marlpit-barn",
];

#[test]
fn every_formula_comes_to_the_figure_of_the_program() {
    let mut seen = 0;
    for name in DEMOS {
        let mut model = opened(&workbook(&demo(name)));
        let written = formulas(&model);
        model.evaluate();
        same(&written, &formulas(&model));
        seen += written.len();
    }
    assert!(seen > 1000, "{seen}");
}

/// The formulas are not there for show: a thickness, a loss and a share of the screen changed in the
/// workbook bring it to where the program comes with the same values typed.
#[test]
fn a_number_changed_in_the_workbook_brings_the_figures_of_the_program() {
    let mut project = demo("marlpit-barn");
    let mut model = opened(&workbook(&project));
    let coats = sheet(&model, "Coats");
    // The first coat of the first build-up: its thickness, in the fifth column, and its loss.
    model.set_user_input(coats, 2, 5, "12.5".into()).unwrap();
    model.set_user_input(coats, 2, 14, "0.11".into()).unwrap();
    model.evaluate();
    let coat = &mut project.build_ups[0][0];
    coat.thickness = Typed::read("12.5 mm").unwrap();
    coat.loss = Some(Typed::read("11 %").unwrap());
    let expected = formulas(&opened(&workbook(&project)));
    let found = formulas(&model);
    let before = formulas(&opened(&workbook(&demo("marlpit-barn"))));
    let changed = found.iter().zip(&before);
    let changed = changed.filter(|(a, b)| (a.4 - b.4).abs() > SAME).count();
    assert!(changed > 20, "{changed}");
    // Which packages are chosen may be another choice then; every other figure must be the same.
    let order = sheet(&model, "Order");
    let kept = |of: &[Formula]| -> Vec<Formula> {
        let of = of.iter().filter(|f| f.0 != order || f.2 < 15);
        of.cloned().collect()
    };
    same(&kept(&expected), &kept(&found));
}

#[test]
fn a_much_thinner_coat_leaves_no_count_and_no_price_below_nothing() {
    for name in DEMOS {
        let model = times_as_thick(name, 0.05);
        let order = sheet(&model, "Order");
        let (counts, prices): (Vec<_>, Vec<_>) = formulas(&model)
            .into_iter()
            .filter(|f| f.0 == order && [18, 20].contains(&f.2))
            .partition(|f| f.2 == 18);
        assert!(!counts.is_empty() && !prices.is_empty(), "{name}");
        for (_, row, column, formula, value) in counts.iter().chain(&prices) {
            assert!(
                *value >= 0.0,
                "{name}, {row} {column}: {formula} is {value}"
            );
        }
    }
}

/// The yard of this demo has all the soil that it needs. Three times as thick it does not, and then the
/// trailer loads are the least whole number that holds what is to buy: the meaning of rounding up.
#[test]
fn a_thicker_coat_orders_what_the_yard_covered_before() {
    let count = |times: f64| {
        let model = times_as_thick("marlpit-barn", times);
        let at = ordered(&model, "pit soil");
        // To buy by volume, what one load holds, how many, each, price.
        [at(13), at(16), at(18), at(19), at(20)]
    };
    let now = count(1.0).into_iter().zip([0.0, 1.5, 0.0, 25.0, 0.0]);
    for (found, by_hand) in now {
        assert!((found - by_hand).abs() <= SAME, "{found} for {by_hand}");
    }
    let [to_buy, holds, loads, each, price] = count(3.0);
    assert!(to_buy > 0.0 && loads >= 1.0, "{to_buy} in {loads}");
    assert!(loads * holds >= to_buy, "{loads} for {to_buy}");
    assert!((loads - 1.0) * holds < to_buy, "{loads} for {to_buy}");
    assert!((price - loads * each).abs() <= SAME, "{price}");
}

#[test]
fn no_text_becomes_a_formula() {
    let mut project = demo("saltcedar-room");
    for (text, at) in [("=1+1", 0), ("+cmd|' /C calc'!A0", 1), ("@SUM(A1)", 2)] {
        if let Some(wall) = project.walls.get_mut(at) {
            let wall = std::sync::Arc::make_mut(wall);
            wall.id = text.into();
            wall.sheet = Some(text.into());
        }
    }
    let before = formulas(&opened(&workbook(&demo("saltcedar-room")))).len();
    assert_eq!(formulas(&opened(&workbook(&project))).len(), before);
}

#[test]
fn a_project_in_which_something_is_refused_has_no_figures() {
    let mut project = demo("saltcedar-room");
    project.build_ups[0][0].thickness = Typed::read("0 in").unwrap();
    let model = opened(&workbook(&project));
    assert_eq!(formulas(&model), []);
    let names = model.workbook.get_worksheet_names();
    assert!(names.contains(&"About".to_owned()), "{names:?}");
}

#[test]
fn the_same_figures_make_the_same_bytes() {
    let project = demo("ferry-loft");
    assert_eq!(workbook(&project), workbook(&project));
}
