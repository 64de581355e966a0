//! Projects for the tests and their documents. Not here: what is tested.

use hodful_documents::{
    Block, Document, Facts, Foot, Picture, dimension_sheet, order_list, summary, work_plan,
};
use hodful_takeoff::{Assessed, Project};
use hodful_weather as weather;

/// A demo project.
pub(crate) fn demo(name: &str) -> Project {
    let demo = hodful_project_file::demo_projects()
        .find(|demo| demo.name == name)
        .unwrap();
    hodful_project_file::read(demo.bytes).unwrap()
}

/// The documents of a project: summary, order list, dimension sheet, and the work plan in its weather where the project
/// says when the work begins.
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
    let mut documents = vec![
        summary(&facts),
        order_list(&facts, Vec::new()),
        dimension_sheet(&facts),
    ];
    let work = project.work.as_deref();
    if let (Some(work), Ok(assessed)) = (work, &assessed)
        && work.begins.is_some()
    {
        let bytes = work
            .weather
            .as_ref()
            .and_then(|file| hodful_project_file::demo_weather(file));
        let read = bytes.map(|bytes| weather::read(bytes, "weather").unwrap());
        let days = assessed.days(read.as_ref().map(|read| &read.weather), None);
        documents.push(work_plan(&facts, &days));
    }
    documents
}

/// The pictures of a document.
pub(crate) fn pictures(document: &Document) -> impl Iterator<Item = &Picture> {
    document.blocks.iter().filter_map(|block| match block {
        Block::Picture(picture) => Some(picture),
        _ => None,
    })
}
