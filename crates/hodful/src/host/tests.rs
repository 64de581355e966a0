//! How a project is come by. Not here: the screen, which wants a terminal.

use super::*;
use hodful_project_file::journal::{Journal, Origin};
use hodful_takeoff::Severity;
use tempfile::TempDir;

#[test]
fn without_a_file_a_new_project_is_begun() {
    let read = read(None).unwrap();
    assert_eq!(read.opened, Opened::Unnamed);
    assert_eq!(read.project, file::starting_project());
    assert_eq!(read.known, None);
}

#[test]
fn a_file_that_is_not_there_can_be_begun_and_its_folder_must_be_there() {
    let dir = TempDir::new().unwrap();
    let path = dir.path().join("barn.hodful.json");
    let read_it = read(Some(&path)).unwrap();
    assert_eq!(read_it.opened, Opened::Missing);
    assert_eq!(read_it.project, file::starting_project());
    assert_eq!(read_it.known.unwrap().disk, None);
    let told = read(Some(&dir.path().join("no/barn")))
        .unwrap_err()
        .to_string();
    assert!(told.ends_with("there is no such file or folder"), "{told}");
}

#[test]
fn the_ending_may_be_left_out_of_a_file_that_is_there() {
    let dir = TempDir::new().unwrap();
    let (short, long) = (dir.path().join("barn"), dir.path().join("barn.hodful.json"));
    assert_eq!(meant(&short), short);
    fs::write(&long, "{}").unwrap();
    assert_eq!(meant(&short), long);
    fs::write(&short, "{}").unwrap();
    assert_eq!(meant(&short), short);
}

#[test]
fn a_whole_file_is_read_and_known() {
    let dir = TempDir::new().unwrap();
    let path = dir.path().join("barn.hodful.json");
    let demo = file::demo_projects().next().unwrap();
    fs::write(&path, demo.bytes).unwrap();
    let read = read(Some(&path)).unwrap();
    assert_eq!(read.opened, Opened::Whole);
    assert_eq!(Ok(read.project), file::read(demo.bytes));
    let known = read.known.unwrap();
    assert_eq!(known.disk, Some(Fingerprint::of(demo.bytes)));
    assert_eq!(known.path, fs::canonicalize(path).unwrap());
}

#[test]
fn a_broken_file_is_read_as_far_as_it_can_be_with_all_that_is_wrong() {
    let dir = TempDir::new().unwrap();
    let path = dir.path().join("barn.hodful.json");
    let demo = file::demo_projects().next().unwrap();
    let text = std::str::from_utf8(demo.bytes).unwrap();
    // One fault for the reader, one for the check of what was read.
    let broken = text
        .replacen("\"thickness\": \"240 mm\"", "\"thickness\": \"240 mn\"", 1)
        .replacen("\"mix\": \"base\"", "\"mix\": \"bas\"", 1);
    assert_ne!(text, broken);
    fs::write(&path, broken).unwrap();
    let read = read(Some(&path)).unwrap();
    let Opened::Broken(problems) = read.opened else {
        panic!("{:?}", read.opened);
    };
    let told: Vec<String> = problems.iter().map(ToString::to_string).collect();
    assert!(told.iter().any(|t| t.contains("240 mn")), "{told:?}");
    assert!(
        told.iter().any(|t| t.contains("there is no mix 'bas'")),
        "{told:?}"
    );
    assert!(problems.iter().all(|p| p.severity == Severity::Refused));
    assert!(!read.project.materials.is_empty());
}

#[test]
fn where_nothing_can_be_read_there_is_an_empty_project_and_its_problem() {
    let dir = TempDir::new().unwrap();
    let path = dir.path().join("barn.hodful.json");
    for bytes in [&b"{ \"format\": "[..], b"", b"\xff\x00"] {
        fs::write(&path, bytes).unwrap();
        let read = read(Some(&path)).unwrap();
        assert!(
            matches!(&read.opened, Opened::Broken(problems) if !problems.is_empty()),
            "{:?}",
            read.opened
        );
        assert_eq!(read.project, file::empty_project());
    }
}

#[test]
fn what_is_no_file_is_told() {
    let dir = TempDir::new().unwrap();
    let told = read(Some(dir.path())).unwrap_err().to_string();
    assert!(
        told.ends_with("it is a folder; give the name of a file"),
        "{told}"
    );
    let told = read(Some(Path::new("-"))).unwrap_err().to_string();
    assert!(told.contains("name a file"), "{told}");
    #[cfg(unix)]
    {
        let told = read(Some(Path::new("/dev/null"))).unwrap_err().to_string();
        assert!(
            told.ends_with("it is a device or a pipe, not a file"),
            "{told}"
        );
    }
}

#[test]
fn work_that_was_saved_after_all_is_not_offered() {
    let dir = TempDir::new().unwrap();
    let (recovery, path) = (dir.path().join("recovery"), dir.path().join("barn"));
    let saved = file::starting_project();
    file::save(&path, &saved).unwrap();
    let read_it = read(Some(&path)).unwrap();
    let full = full(&path);
    let journal = |project: &Project| {
        let origin = Origin::new(Some(&full), read_it.known.as_ref().and_then(|k| k.disk));
        drop(Journal::begin(&recovery, Some(&full), &origin, project).unwrap());
    };
    journal(&saved);
    assert!(find_work(&recovery, &read_it).is_none());
    let mut more = saved.clone();
    more.note = None;
    journal(&more);
    let found = find_work(&recovery, &read_it).unwrap();
    assert_eq!(found.kept.project, more);
    assert_eq!(
        found.kept.origin.disk(),
        read_it.known.as_ref().and_then(|k| k.disk)
    );
    // It waits as long as the file is broken.
    drop(found);
    fs::write(&path, "{ half").unwrap();
    assert!(find_work(&recovery, &read(Some(&path)).unwrap()).is_none());
    assert!(find_work(&recovery, &read_it).is_some());
}
