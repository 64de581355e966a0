//! `hodful new`: a project to start from, with the weather that it names. Not here: what the demo projects say.

use super::{End, export::free, say, shown};
use anyhow::{Context, Result, bail};
use hodful_project_file as file;
use std::io::Write;
use std::path::Path;

/// The demo project that shows most of what a project can have.
const FIRST_DEMO: &str = "thistlebank-workshop";

/// Writes a demo project, and its weather beside it.
pub(super) fn new(path: Option<&Path>, from: Option<&str>, force: bool) -> Result<End> {
    let demos: Vec<_> = file::demo_projects().collect();
    let Some(path) = path else {
        bail!("give the file to write")
    };
    let name = from.unwrap_or(FIRST_DEMO);
    let demo = demos.iter().find(|demo| demo.name == name);
    let Some(demo) = demo else {
        let names: Vec<&str> = demos.iter().map(|demo| demo.name).collect();
        bail!(
            "there is no demo project '{}'; there is {}",
            name,
            names.join(", ")
        );
    };
    let mut created = std::fs::OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(path)
        .with_context(|| {
            let why = if path.exists() {
                "is there already and is left alone"
            } else {
                "cannot be written"
            };
            format!("'{}' {why}", shown(path))
        })?;
    created.write_all(demo.bytes)?;
    created.sync_all()?;
    weather(demo.bytes, path, force)?;
    say(&format!(
        "wrote '{}' from the demo {}; next: hodful order {}",
        shown(path),
        demo.name,
        shown(path)
    ));
    Ok(End::Done)
}

/// Writes the weather that a demo names beside its project. Another file of that name is left alone, and that is
/// told; the same weather may lie there.
fn weather(demo: &[u8], project: &Path, force: bool) -> Result<()> {
    let work = file::read_what_can_be(demo).0.and_then(|of| of.work);
    let named = work.as_ref().and_then(|work| work.weather.as_ref());
    let Some((name, bytes)) = named.and_then(|name| Some((name, file::demo_weather(name)?))) else {
        return Ok(());
    };
    let path = project.with_file_name(name.as_str());
    if std::fs::read(&path).is_ok_and(|there| there == bytes) {
        return Ok(());
    }
    match free(&path, force) {
        Ok(()) => {
            file::save_bytes(&path, bytes)?;
            say(&format!("wrote '{}', its weather", shown(&path)));
        }
        Err(why) => say(&format!("hodful: {why}")),
    }
    Ok(())
}
