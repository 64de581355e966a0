//! Writes the documents of a project into a folder, for looking at and for the cross-check: `paper
//! PROJECT FOLDER`. Not here: making them.

use hodful_documents::{
    Block, Document, Facts, Foot, batch_cards, deliveries, dimension_sheet, order_list, summary,
    work_plan,
};
use hodful_exchange as exchange;
use hodful_takeoff::Assessed;
use std::error::Error;
use std::path::Path;

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args().skip(1);
    let (Some(file), Some(folder)) = (arguments.next(), arguments.next()) else {
        return Err("usage: paper PROJECT FOLDER".into());
    };
    let (file, folder) = (Path::new(&file), Path::new(&folder));
    let project = hodful_project_file::load(file)?;
    let rules = hodful_project_file::rules();
    let cautions = hodful_project_file::cautions();
    let assessed = Assessed::new(&project, &rules);
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    let foot = Foot::new(
        name.as_ref(),
        "2026-03-02",
        "Hodful 0.1.0",
        rules.get(&project.measurement_rule),
        project.units,
    );
    let facts = Facts::new(&project, &assessed, &cautions, foot);
    let mut documents = vec![
        ("summary".to_owned(), summary(&facts)),
        ("order".to_owned(), order_list(&facts, deliveries(&facts))),
        ("dimensions".to_owned(), dimension_sheet(&facts)),
    ];
    for (at, card) in (1..).zip(batch_cards(&facts)) {
        let name = match at {
            1 => "card".to_owned(),
            other => format!("card-{other}"),
        };
        documents.push((name, card));
    }
    // The weather that a project names lies beside it.
    let named = project.work.as_ref().and_then(|work| work.weather.as_ref());
    let weather = match named {
        Some(name) => {
            let bytes = std::fs::read(file.with_file_name(name.as_str()))?;
            Some(hodful_weather::read(&bytes, name)?.weather)
        }
        None => None,
    };
    if let Ok(assessed) = &assessed {
        let begins = Some(jiff::civil::date(2026, 4, 13));
        let days = assessed.days(weather.as_ref(), begins);
        documents.push(("plan".to_owned(), work_plan(&facts, &days)));
    }
    std::fs::create_dir_all(folder)?;
    for (name, document) in &documents {
        write(folder, name, document)?;
    }
    let all: Vec<Document> = documents
        .into_iter()
        .map(|(_, document)| document)
        .collect();
    std::fs::write(folder.join("all.pdf"), exchange::pdf(&all)?)?;
    std::fs::write(folder.join("all.html"), exchange::html(&all)?)?;
    Ok(())
}

fn write(folder: &Path, name: &str, document: &Document) -> Result<(), Box<dyn Error>> {
    std::fs::write(
        folder.join(format!("{name}.md")),
        exchange::markdown(document),
    )?;
    std::fs::write(
        folder.join(format!("{name}.html")),
        exchange::html(std::slice::from_ref(document))?,
    )?;
    std::fs::write(
        folder.join(format!("{name}.pdf")),
        exchange::pdf(std::slice::from_ref(document))?,
    )?;
    let pictures = document.blocks.iter().filter_map(|block| match block {
        Block::Picture(picture) => Some(picture),
        _ => None,
    });
    for (number, picture) in pictures.enumerate() {
        std::fs::write(
            folder.join(format!("{name}-{:02}.svg", number + 1)),
            exchange::svg(picture, document.units)?,
        )?;
    }
    Ok(())
}
