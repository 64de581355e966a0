//! Projects for the tests and their documents. Not here: what is tested.

use hodful_documents::{
    Block, Document, Facts, Foot, Picture, dimension_sheet, order_list, summary,
};
use hodful_takeoff::{Assessed, Project};

/// A demo project.
pub(crate) fn demo(name: &str) -> Project {
    let demo = hodful_project_file::demo_projects()
        .find(|demo| demo.name == name)
        .unwrap();
    hodful_project_file::read(demo.bytes).unwrap()
}

/// The documents of a project: summary, order list, dimension sheet.
pub(crate) fn documents(project: &Project) -> Vec<Document> {
    let rules = hodful_project_file::rules();
    let cautions = hodful_project_file::cautions();
    let assessed = Assessed::new(project, &rules);
    let rule = rules.get(&project.measurement_rule);
    let foot = Foot::new(
        "demo.hodful.json",
        "2026-03-02",
        "Hodful",
        rule,
        project.units,
    );
    let facts = Facts::new(project, &assessed, &cautions, foot);
    vec![
        summary(&facts),
        order_list(&facts, Vec::new()),
        dimension_sheet(&facts),
    ]
}

/// The pictures of a document.
pub(crate) fn pictures(document: &Document) -> impl Iterator<Item = &Picture> {
    document.blocks.iter().filter_map(|block| match block {
        Block::Picture(picture) => Some(picture),
        _ => None,
    })
}
