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
    let sheet = |model: &Model<'_>, name: &str| {
        let names = model.workbook.get_worksheet_names();
        u32::try_from(names.iter().position(|n| n == name).unwrap()).unwrap()
    };
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
