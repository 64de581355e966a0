//! Reads the weather that a project names, beside its file. Not here: what stands in such a file (see
//! `hodful_weather`).

use hodful_tui::WeatherRead;
use hodful_weather as weather;
use std::path::Path;
use std::{fs, io};

/// The weather of a file by its name, beside the file of a project.
///
/// # Errors
/// In words: that it is not there, what the disk said, or what is wrong in it with line and column.
pub(super) fn beside(project: &Path, name: &str) -> Result<WeatherRead, String> {
    let path = project.parent().unwrap_or(Path::new("")).join(name);
    let bytes = bytes_of(&path).map_err(|cause| match cause.kind() {
        io::ErrorKind::NotFound => {
            format!("There is no '{name}' beside the project, which names it for its weather.")
        }
        _ => format!("'{name}', the weather of the project, cannot be read: {cause}."),
    })?;
    let reading = weather::read(&bytes, &format!("'{name}'"));
    let reading = reading.map_err(|faults| faults.to_string())?;
    let notes = reading.notes.iter();
    Ok(WeatherRead {
        notes: notes.map(|note| format!("{name}: {note}")).collect(),
        weather: reading.weather,
    })
}

/// The bytes of what is a file; a pipe would be waited for.
fn bytes_of(path: &Path) -> io::Result<Vec<u8>> {
    if fs::metadata(path)?.is_file() {
        fs::read(path)
    } else {
        Err(io::Error::other("it is no file"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use tempfile::TempDir;

    const DAYS: &str = "2026-04-12 low 2C high 14C humidity 70 wind 3 m/s\n\
                        2026-04-13 low 1C high 12C wind 3 m/s\n";

    #[test]
    fn weather_lies_beside_the_project() {
        let dir = TempDir::new().unwrap();
        let project = dir.path().join("barn.hodful.json");
        fs::write(dir.path().join("days.txt"), DAYS).unwrap();
        let read = beside(&project, "days.txt").unwrap();
        // Two days of 24 hours.
        assert_eq!(read.weather.hours().len(), 48);
        // A file may be named without its folder.
        assert!(beside(Path::new("barn.hodful.json"), "days.txt").is_err());
    }

    #[test]
    fn what_keeps_it_from_being_read_is_told() {
        let dir = TempDir::new().unwrap();
        let project = dir.path().join("barn.hodful.json");
        let told = |name: &str| beside(&project, name).unwrap_err();
        let words = told("none.epw");
        assert!(
            words.starts_with("There is no 'none.epw' beside the project"),
            "{words}"
        );
        fs::create_dir(dir.path().join("folder")).unwrap();
        let words = told("folder");
        assert!(words.ends_with("cannot be read: it is no file."), "{words}");
        fs::write(
            dir.path().join("days.txt"),
            DAYS.replacen("high 12", "high cold", 1),
        )
        .unwrap();
        let words = told("days.txt");
        assert!(
            words.starts_with("'days.txt' cannot be read\nline 2, column "),
            "{words}"
        );
    }
}
