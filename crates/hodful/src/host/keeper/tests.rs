//! Nothing is lost: a keeper that is dropped without a word stands in for a program that was killed.

use super::*;
use hodful_project_file::journal::find;
use hodful_project_file::{load, starting_project};
use tempfile::TempDir;

/// A folder with a project file and a folder for journals.
struct Site {
    dir: TempDir,
}

impl Site {
    fn new() -> Self {
        Self {
            dir: TempDir::new().unwrap(),
        }
    }

    fn recovery(&self) -> PathBuf {
        self.dir.path().join("recovery")
    }

    fn file(&self) -> PathBuf {
        self.dir.path().join("barn.hodful.json")
    }

    /// A keeper of the file as it is now.
    fn keeper(&self) -> DiskKeeper {
        let disk = fs::read(self.file()).ok();
        let known = Known {
            path: full(&self.file()),
            disk: disk.as_deref().map(Fingerprint::of),
        };
        DiskKeeper::new(Ok(self.recovery()), Some(known), None)
    }

    fn unnamed(&self) -> DiskKeeper {
        DiskKeeper::new(Ok(self.recovery()), None, None)
    }

    /// The work that the next start finds.
    fn found(&self, path: Option<&Path>) -> Option<Found> {
        find(&self.recovery(), path.map(full).as_deref(), None)
    }

    fn found_name(&self, path: Option<&Path>) -> Option<String> {
        self.found(path).map(|found| found.kept.project.name.into())
    }

    fn journals(&self) -> usize {
        fs::read_dir(self.recovery()).map_or(0, Iterator::count)
    }
}

fn named(name: &str) -> Project {
    Project {
        name: name.into(),
        ..starting_project()
    }
}

#[test]
fn what_is_recorded_is_found_after_a_kill() {
    let site = Site::new();
    let mut keeper = site.keeper();
    keeper.record(&named("0"), &named("1")).unwrap();
    keeper.record(&named("1"), &named("2")).unwrap();
    assert!(site.found(Some(&site.file())).is_none(), "it runs");
    drop(keeper);
    assert_eq!(site.found_name(Some(&site.file())).as_deref(), Some("2"));
    assert_eq!(site.found_name(None), None);
}

#[test]
fn a_save_empties_the_journal_and_the_next_change_begins_another() {
    let site = Site::new();
    let mut keeper = site.keeper();
    keeper.record(&named("0"), &named("1")).unwrap();
    keeper.save(&site.file(), &named("1"), false).unwrap();
    assert_eq!(load(&site.file()).unwrap(), named("1"));
    assert_eq!(site.journals(), 0);
    keeper.record(&named("1"), &named("2")).unwrap();
    drop(keeper);
    let found = site.found(Some(&site.file())).unwrap();
    assert_eq!(found.kept.project, named("2"));
    let on_disk = Fingerprint::of(&fs::read(site.file()).unwrap());
    assert_eq!(found.kept.origin.disk(), Some(on_disk));
}

#[test]
fn a_file_that_changed_meanwhile_is_noticed_before_it_is_saved_over() {
    let site = Site::new();
    save_bytes(&site.file(), &write(&named("mine"))).unwrap();
    let mut keeper = site.keeper();
    fs::write(site.file(), "of somebody else").unwrap();
    let refused = keeper.save(&site.file(), &named("new"), false);
    assert_eq!(refused, Err(SaveFault::ChangedOnDisk));
    assert_eq!(fs::read(site.file()).unwrap(), b"of somebody else");
    keeper.save(&site.file(), &named("new"), true).unwrap();
    assert_eq!(load(&site.file()).unwrap(), named("new"));
    // It knows its own save, also when the file was touched and when it vanished.
    keeper.save(&site.file(), &named("newer"), false).unwrap();
    let bytes = fs::read(site.file()).unwrap();
    fs::write(site.file(), bytes).unwrap();
    keeper.save(&site.file(), &named("newest"), false).unwrap();
    fs::remove_file(site.file()).unwrap();
    keeper.save(&site.file(), &named("last"), false).unwrap();
    assert_eq!(load(&site.file()).unwrap(), named("last"));
}

#[test]
fn a_file_that_appeared_is_noticed_under_the_old_name_and_under_another() {
    let site = Site::new();
    let mut keeper = site.keeper();
    fs::write(site.file(), "appeared").unwrap();
    let refused = keeper.save(&site.file(), &named("new"), false);
    assert_eq!(refused, Err(SaveFault::ChangedOnDisk));
    let other = site.dir.path().join("byre.hodful.json");
    keeper.save(&other, &named("new"), false).unwrap();
    let refused = site.unnamed().save(&other, &named("x"), false);
    assert_eq!(refused, Err(SaveFault::ChangedOnDisk));
}

#[test]
fn saved_under_another_name_the_journal_belongs_to_that() {
    let site = Site::new();
    let mut keeper = site.unnamed();
    keeper.record(&named("0"), &named("1")).unwrap();
    keeper.save(&site.file(), &named("1"), false).unwrap();
    keeper.record(&named("1"), &named("2")).unwrap();
    drop(keeper);
    assert_eq!(site.found_name(None), None);
    // However the path is written.
    let roundabout = site.dir.path().join("recovery/../barn.hodful.json");
    assert_eq!(site.found_name(Some(&roundabout)).as_deref(), Some("2"));
}

#[test]
fn a_save_that_fails_says_so_and_keeps_the_journal() {
    let site = Site::new();
    let mut keeper = site.keeper();
    keeper.record(&named("0"), &named("1")).unwrap();
    let nowhere = site.dir.path().join("nowhere/barn");
    let Err(SaveFault::Failed(words)) = keeper.save(&nowhere, &named("1"), false) else {
        panic!("saved to nowhere");
    };
    assert!(words.contains("there is no such file or folder"), "{words}");
    let Err(SaveFault::Failed(words)) = keeper.save(site.dir.path(), &named("1"), false) else {
        panic!("saved to a folder");
    };
    assert!(words.contains("it is a folder"), "{words}");
    drop(keeper);
    assert_eq!(site.found_name(Some(&site.file())).as_deref(), Some("1"));
}

#[test]
fn leaving_keeps_the_journal_or_removes_it() {
    let site = Site::new();
    for (keep, left) in [(true, Some("1")), (false, None)] {
        let mut keeper = site.keeper();
        keeper.record(&named("0"), &named("1")).unwrap();
        keeper.finish(keep);
        drop(keeper);
        let found = site.found(Some(&site.file()));
        assert_eq!(found.as_ref().map(|f| f.kept.project.name.as_str()), left);
        found.into_iter().for_each(Found::remove);
    }
    let mut keeper = site.keeper();
    keeper.finish(true);
    assert_eq!(site.journals(), 0, "nothing was done, nothing is kept");
}

/// Takes up the work of a killed program.
fn taken_up(site: &Site) -> DiskKeeper {
    let mut killed = site.keeper();
    killed.record(&named("0"), &named("found")).unwrap();
    drop(killed);
    let found = site.found(Some(&site.file()));
    assert!(found.is_some());
    DiskKeeper {
        found,
        ..site.keeper()
    }
}

#[test]
fn what_was_found_stays_until_it_is_taken_over_or_not_wanted() {
    let site = Site::new();
    // Nobody answered.
    let mut keeper = taken_up(&site);
    keeper.finish(false);
    drop(keeper);
    assert_eq!(
        site.found_name(Some(&site.file())).as_deref(),
        Some("found")
    );
    // Taken over: recorded anew, then forgotten.
    let mut keeper = taken_up(&site);
    site.found(Some(&site.file())).unwrap().remove();
    keeper
        .record(&named("0"), &named("found and more"))
        .unwrap();
    assert_eq!(site.journals(), 2);
    keeper.forget_found();
    assert_eq!(site.journals(), 1);
    drop(keeper);
    let found = site.found(Some(&site.file())).unwrap();
    assert_eq!(found.kept.project.name, "found and more");
    found.remove();
    // Not wanted.
    let mut keeper = taken_up(&site);
    keeper.forget_found();
    assert_eq!(site.journals(), 0);
}

#[test]
fn what_was_found_is_not_forgotten_before_the_journal_has_it() {
    let site = Site::new();
    let mut keeper = taken_up(&site);
    let blocked = site.dir.path().join("blocked");
    fs::write(&blocked, b"a file where the folder should be").unwrap();
    let good = std::mem::replace(&mut keeper.folder, Ok(blocked));
    keeper.record(&named("0"), &named("found")).unwrap_err();
    keeper.forget_found();
    assert_eq!(site.journals(), 1, "it is the only one that has the work");
    keeper.folder = good;
    keeper.record(&named("found"), &named("more")).unwrap();
    assert_eq!(site.journals(), 1, "now ours has it");
    drop(keeper);
    assert_eq!(site.found_name(Some(&site.file())).as_deref(), Some("more"));
}

#[test]
fn a_record_that_fails_is_told_once_and_made_up_for() {
    let site = Site::new();
    let blocked = site.dir.path().join("blocked");
    fs::write(&blocked, b"").unwrap();
    let mut keeper = DiskKeeper {
        folder: Ok(blocked.clone()),
        ..site.unnamed()
    };
    let told = keeper.record(&named("0"), &named("1")).unwrap_err();
    assert!(
        told.starts_with("the recovery journal cannot be written in"),
        "{told}"
    );
    keeper.record(&named("1"), &named("2")).unwrap();
    fs::remove_file(&blocked).unwrap();
    // Left now, it is tried a last time.
    keeper.finish(true);
    drop(keeper);
    let found = find(&blocked, None, None).unwrap();
    assert_eq!(found.kept.project, named("2"));
}

#[test]
fn without_a_folder_projects_are_saved_all_the_same() {
    let site = Site::new();
    let mut keeper = DiskKeeper::new(Err("there is no home".into()), None, None);
    let told = keeper.record(&named("0"), &named("1"));
    assert_eq!(told, Err("there is no home".into()));
    assert_eq!(keeper.record(&named("1"), &named("2")), Ok(()));
    keeper.save(&site.file(), &named("2"), false).unwrap();
    assert_eq!(load(&site.file()).unwrap(), named("2"));
    keeper.finish(true);
}

#[test]
fn a_journal_that_somebody_removed_is_begun_again() {
    let site = Site::new();
    let mut keeper = site.unnamed();
    keeper.record(&named("0"), &named("1")).unwrap();
    fs::remove_dir_all(site.recovery()).unwrap();
    keeper.record(&named("1"), &named("2")).unwrap();
    drop(keeper);
    assert_eq!(site.found_name(None).as_deref(), Some("2"));
}

#[cfg(unix)]
#[test]
fn a_link_to_a_file_that_is_not_there_yet_is_the_file() {
    let site = Site::new();
    let link = site.dir.path().join("link");
    std::os::unix::fs::symlink(site.file(), &link).unwrap();
    let known = Known {
        path: full(&link),
        disk: None,
    };
    let mut keeper = DiskKeeper::new(Ok(site.recovery()), Some(known), None);
    keeper.save(&link, &named("1"), false).unwrap();
    keeper.save(&link, &named("2"), false).unwrap();
    keeper.save(&site.file(), &named("3"), false).unwrap();
    assert_eq!(load(&site.file()).unwrap(), named("3"));
}
