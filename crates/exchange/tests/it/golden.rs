//! Documents and pictures of demo projects as they were when somebody last looked at them. `UPDATE=1`
//! writes the files anew; read the difference before keeping it.

use crate::project::{demo, documents, pictures};
use hodful_exchange as exchange;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Demo projects, one in each system of units.
const DEMOS: [&str; 2] = ["thistlebank-workshop", "ferry-loft"];

/// Names of the documents, in their order.
const NAMES: [&str; 4] = ["summary", "order", "dimensions", "plan"];

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/paper")
}

fn held_against(file: &str, made: &str) {
    let path = folder().join(file);
    if std::env::var_os("UPDATE").is_some() {
        std::fs::create_dir_all(folder()).unwrap();
        std::fs::write(&path, made).unwrap();
        return;
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept == made,
        "{file} is not what is written now; look at it and run with UPDATE=1"
    );
}

/// Every file that is kept, with what is written now.
fn all() -> Vec<(String, String)> {
    let mut files = Vec::new();
    for name in DEMOS {
        let documents = documents(&demo(name));
        for (document, of) in documents.iter().zip(NAMES) {
            files.push((format!("{name}-{of}.md"), exchange::markdown(document)));
            for (number, picture) in pictures(document).enumerate().take(3) {
                let made = exchange::svg(picture, document.units).unwrap();
                files.push((format!("{name}-{of}-{}.svg", number + 1), made));
            }
        }
        // The dimension sheet is too long to be read once more.
        let short = [0, 1, 3]
            .into_iter()
            .filter_map(|at| documents.get(at).cloned());
        let page = exchange::html(&short.collect::<Vec<_>>()).unwrap();
        files.push((format!("{name}.html"), page));
    }
    files
}

#[test]
fn documents_and_pictures_of_demo_projects() {
    for (file, made) in all() {
        held_against(&file, &made);
    }
}

#[test]
fn no_file_is_left_over() {
    let made: BTreeSet<String> = all().into_iter().map(|(file, _)| file).collect();
    for file in std::fs::read_dir(folder()).unwrap() {
        let name = file.unwrap().file_name().into_string().unwrap();
        assert!(made.contains(&name), "nothing writes {name} any more");
    }
}
