//! Lists the data files that are compiled in. What they say is read when the program runs.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let missing = |_| io::Error::other("cargo gives every build script its folders");
    let root = PathBuf::from(env::var("CARGO_MANIFEST_DIR").map_err(missing)?).join("../..");
    let out = PathBuf::from(env::var("OUT_DIR").map_err(missing)?).join("assets.rs");

    let mut code = String::new();
    list(&mut code, "RULES", &root.join("assets/rules"), ".json")?;
    list(
        &mut code,
        "DEMO_PROJECTS",
        &root.join("demo-projects"),
        ".hodful.json",
    )?;
    list(
        &mut code,
        "DEMO_WEATHER",
        &root.join("demo-projects"),
        ".epw",
    )?;
    one(&mut code, "CAUTIONS", &root.join("assets/cautions.json"))?;
    one(&mut code, "START", &root.join("assets/start.hodful.json"))?;
    fs::write(out, code)
}

/// A constant with the bytes of a file.
fn one(code: &mut String, constant: &str, path: &Path) -> io::Result<()> {
    println!("cargo::rerun-if-changed={}", path.display());
    let _ = writeln!(
        code,
        "const {constant}: &[u8] = include_bytes!({:?});",
        text(path)?
    );
    Ok(())
}

/// A constant with every file of a folder: its name without the ending, and its bytes.
fn list(code: &mut String, constant: &str, folder: &Path, ending: &str) -> io::Result<()> {
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut files: Vec<_> = fs::read_dir(folder)?.collect::<io::Result<_>>()?;
    // The order of a folder differs between systems.
    files.sort_by_key(fs::DirEntry::file_name);
    let _ = writeln!(code, "const {constant}: &[(&str, &[u8])] = &[");
    for file in files {
        let path = file.path();
        let name = PathBuf::from(file.file_name());
        if let Some(name) = text(&name)?.strip_suffix(ending) {
            println!("cargo::rerun-if-changed={}", path.display());
            let _ = writeln!(code, "    ({name:?}, include_bytes!({:?})),", text(&path)?);
        }
    }
    let _ = writeln!(code, "];");
    Ok(())
}

fn text(path: &Path) -> io::Result<&str> {
    path.to_str()
        .ok_or_else(|| io::Error::other("the name of a file or folder is not UTF-8"))
}
