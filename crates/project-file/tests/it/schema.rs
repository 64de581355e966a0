//! The committed schema is the one the tables give.

use std::fs;
use std::path::Path;

#[test]
fn the_committed_schema_is_that_of_the_tables() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../assets/schema/hodful-project.schema.json");
    let schema = hodful_project_file::schema();
    if std::env::var_os("UPDATE").is_some() {
        fs::write(&path, &schema).unwrap();
    }
    let committed = fs::read_to_string(&path).unwrap_or_default();
    assert!(
        committed == schema,
        "{} is not that of the tables; rewrite it with UPDATE=1 cargo test -p hodful-project-file schema",
        path.display()
    );
}
