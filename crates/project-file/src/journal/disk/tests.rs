//! Journals on disk: begun, found again, and never another program's.

use super::*;
use crate::journal::Fingerprint;
use crate::starting_project;
use tempfile::TempDir;

fn named(name: &str) -> Project {
    Project {
        name: name.into(),
        ..starting_project()
    }
}

fn begun(folder: &Path, path: Option<&Path>, project: &Project) -> Journal {
    Journal::begin(folder, path, &Origin::new(path, None), project).unwrap()
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn a_killed_program_leaves_its_last_state() {
    let dir = TempDir::new().unwrap();
    // A folder that is not there yet.
    let folder = dir.path().join("state/recovery");
    let path = Path::new("/site/barn.hodful.json");
    assert!(find(&folder, Some(path), None).is_none());
    let origin = Origin::new(Some(path), Some(Fingerprint::of(b"old")));
    let mut journal = Journal::begin(&folder, Some(path), &origin, &named("one")).unwrap();
    journal.record(&named("one"), &named("two")).unwrap();
    journal.record(&named("two"), &named("three")).unwrap();
    journal.record(&named("three"), &named("three")).unwrap();
    drop(journal);
    let found = find(&folder, Some(path), Some(&named("one"))).unwrap();
    assert_eq!(found.kept.project, named("three"));
    assert_eq!(found.kept.changes, 2);
    assert_eq!(found.kept.origin, origin);
    assert!(!found.kept.torn);
    assert!(found.changed <= SystemTime::now());
    found.remove();
    assert!(find(&folder, Some(path), None).is_none());
    assert_eq!(names(&folder), [""; 0]);
}

#[test]
fn the_journal_of_a_running_program_is_left_to_it() {
    let dir = TempDir::new().unwrap();
    let running = begun(dir.path(), None, &named("running"));
    assert!(find(dir.path(), None, None).is_none());
    assert_eq!(names(dir.path()).len(), 1, "and it is still there");
    // A second program has one of its own; found while it is held, it is nobody else's.
    drop(begun(dir.path(), None, &named("killed")));
    let found = find(dir.path(), None, None).unwrap();
    assert_eq!(found.kept.project.name, "killed");
    assert!(find(dir.path(), None, None).is_none());
    drop(found);
    assert!(find(dir.path(), None, None).is_some());
    drop(running);
}

#[test]
fn a_journal_is_found_for_its_own_file_alone_and_the_latest_first() {
    let dir = TempDir::new().unwrap();
    let (barn, byre) = (Path::new("/site/barn"), Path::new("/other/barn"));
    let age = |journal: &Journal, seconds: u64| {
        let then = SystemTime::now() - Duration::from_secs(seconds);
        journal.file.set_modified(then).unwrap();
    };
    for (path, name, seconds) in [
        (Some(barn), "older", 50),
        (Some(barn), "latest", 10),
        (Some(barn), "oldest", 90),
        (Some(byre), "byre", 1),
        (None, "unnamed", 1),
    ] {
        age(&begun(dir.path(), path, &named(name)), seconds);
    }
    let mut order = Vec::new();
    while let Some(found) = find(dir.path(), Some(barn), None) {
        order.push(found.kept.project.name.to_string());
        found.remove();
    }
    assert_eq!(order, ["latest", "older", "oldest"]);
    let found = |path| find(dir.path(), path, None).unwrap().kept.project.name;
    assert_eq!(found(Some(byre)), "byre");
    assert_eq!(found(None), "unnamed");
}

#[test]
fn what_is_saved_already_and_what_is_empty_is_thrown_away_and_what_is_odd_left_alone() {
    let dir = TempDir::new().unwrap();
    drop(begun(dir.path(), None, &named("saved")));
    fs::write(dir.path().join("unnamed~7.journal"), b"").unwrap();
    fs::write(
        dir.path().join("unnamed~8.journal"),
        b"of a later version\n",
    )
    .unwrap();
    fs::write(dir.path().join("unnamed~9.txt"), b"").unwrap();
    fs::create_dir(dir.path().join("unnamed~10.journal")).unwrap();
    assert!(find(dir.path(), None, Some(&named("saved"))).is_none());
    assert_eq!(
        names(dir.path()),
        ["unnamed~10.journal", "unnamed~8.journal", "unnamed~9.txt"]
    );
}

#[test]
fn a_half_begun_journal_goes_when_it_is_old() {
    let dir = TempDir::new().unwrap();
    let part = |name: &str, age: Duration| {
        let file = File::create(dir.path().join(name)).unwrap();
        file.set_modified(SystemTime::now() - age).unwrap();
    };
    part(".begun-a.part", STALE * 2);
    part(".begun-b.part", Duration::ZERO);
    assert!(find(dir.path(), None, None).is_none());
    assert_eq!(names(dir.path()), [".begun-b.part"]);
}

#[test]
fn a_journal_says_when_another_must_be_begun() {
    let dir = TempDir::new().unwrap();
    let mut journal = begun(dir.path(), None, &named("one"));
    assert!(journal.is_sound());
    journal.make_sure().unwrap();
    fs::remove_dir_all(dir.path()).unwrap();
    assert!(!journal.is_sound());
    // It can be begun again where it was, and the old one does not take the new one with it.
    let old = std::mem::replace(&mut journal, begun(dir.path(), None, &named("one")));
    old.remove();
    assert!(journal.is_sound());
    assert_eq!(names(dir.path()).len(), 1);
    journal.remove();
    assert_eq!(names(dir.path()), [""; 0]);
}

#[test]
fn a_write_that_fails_keeps_what_was_there() {
    let dir = TempDir::new().unwrap();
    let mut journal = begun(dir.path(), None, &named("one"));
    // A handle that may not write stands in for a full disk.
    let writing = std::mem::replace(&mut journal.file, File::open(&journal.path).unwrap());
    let told = journal.record(&named("one"), &named("two")).unwrap_err();
    assert!(
        told.to_string()
            .starts_with("the recovery journal cannot be written in "),
        "{told}"
    );
    assert!(!journal.is_sound(), "the cut back failed too");
    journal.file = writing;
    journal.whole = true;
    // The sum has not moved on: the same change can be tried again.
    journal.record(&named("one"), &named("two")).unwrap();
    drop(journal);
    let kept = find(dir.path(), None, None).unwrap().kept;
    assert_eq!((kept.project, kept.torn), (named("two"), false));
}

#[test]
fn many_changes_make_a_journal_long() {
    let dir = TempDir::new().unwrap();
    let (mut before, mut after) = (named("one"), named("one"));
    before.note = Some("n".repeat(1 << 20).into());
    after.note = Some("m".repeat(1 << 20).into());
    let mut journal = begun(dir.path(), None, &before);
    let mut changes = 0;
    while !journal.is_long() {
        journal.record(&before, &after).unwrap();
        std::mem::swap(&mut before, &mut after);
        changes += 1;
    }
    // The first line of 1 MiB, then one each: more than 16 MiB.
    assert_eq!(changes, 15);
}

#[test]
fn a_folder_that_cannot_be_made_is_told() {
    let dir = TempDir::new().unwrap();
    let file = dir.path().join("file");
    fs::write(&file, b"").unwrap();
    let failed = Journal::begin(&file.join("x"), None, &Origin::default(), &named("one"));
    let told = failed.unwrap_err().to_string();
    assert!(
        told.ends_with("what should be its folder is a file"),
        "{told}"
    );
}

#[test]
fn the_names_of_journals_tell_people_whose_they_are() {
    let name = |path: &str| stem(Some(Path::new(path)));
    assert!(name("/a/barn.hodful.json").starts_with("barn.hodful.json~"));
    assert!(name("/a/b/Über uns: 100%/Hof \u{1b}[1m.json").starts_with("Hof___1m.json~"));
    assert_ne!(name("/a/barn"), name("/b/barn"));
    assert!(name(&format!("/{}", "é".repeat(200))).len() < 200);
    assert_ne!(stem(None), name("/unnamed"));
    assert!(!name("/unnamed").starts_with(&stem(None)) || name("/unnamed").len() > 16);
}

#[cfg(unix)]
#[test]
fn folder_and_file_are_for_their_owner_alone() {
    use std::os::unix::fs::PermissionsExt;
    let dir = TempDir::new().unwrap();
    let folder = dir.path().join("hodful/recovery");
    let journal = begun(&folder, None, &named("one"));
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(&folder), 0o700);
    assert_eq!(mode(folder.parent().unwrap()), 0o700);
    assert_eq!(mode(&journal.path), 0o600);
}
