//! Saving, interrupted and not.

use super::*;
use std::collections::BTreeMap;

/// What lies in a folder, by name.
fn folder(path: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = fs::read_dir(path).unwrap().map(Result::unwrap);
    entries
        .map(|entry| {
            let name = entry.file_name().into_string().unwrap();
            (name, fs::read(entry.path()).unwrap_or_default())
        })
        .collect()
}

fn only(name: &str, bytes: &[u8]) -> BTreeMap<String, Vec<u8>> {
    BTreeMap::from([(name.to_owned(), bytes.to_owned())])
}

#[test]
fn a_new_file_and_a_replaced_one() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("barn.hodful.json");
    save_bytes(&path, b"one").unwrap();
    assert_eq!(folder(dir.path()), only("barn.hodful.json", b"one"));
    save_bytes(&path, b"two").unwrap();
    assert_eq!(folder(dir.path()), only("barn.hodful.json", b"two"));
}

#[test]
fn a_project_comes_back_from_the_disk() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("barn.hodful.json");
    let project = crate::read(include_bytes!("../../tests/files/larkfield.hodful.json")).unwrap();
    save(&path, &project).unwrap();
    assert_eq!(load(&path).unwrap(), project);
}

#[test]
fn a_write_that_fails_leaves_the_old_file_and_no_litter() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("barn.hodful.json");
    fs::write(&path, b"old").unwrap();
    for written in [0, 1, 1000] {
        let failed = replace(&path, |file| {
            file.write_all(&vec![b'x'; written])?;
            Err(io::ErrorKind::StorageFull.into())
        });
        let told = failed.unwrap_err().to_string();
        assert_eq!(
            told,
            format!(
                "cannot save {}: the disk is full; make room; what was there before is unchanged",
                path.display()
            )
        );
        assert_eq!(folder(dir.path()), only("barn.hodful.json", b"old"));
    }
}

#[test]
fn while_it_is_written_the_old_file_is_whole() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("barn.hodful.json");
    fs::write(&path, b"old").unwrap();
    replace(&path, |file| {
        file.write_all(b"half")?;
        file.flush()?;
        assert_eq!(fs::read(&path)?, b"old");
        file.write_all(b" and half")
    })
    .unwrap();
    assert_eq!(fs::read(&path).unwrap(), b"half and half");
}

#[test]
fn a_folder_a_missing_folder_and_a_file_as_folder_are_refused_in_words() {
    let dir = tempfile::tempdir().unwrap();
    let told = |path: &Path| {
        let told = save_bytes(path, b"new").unwrap_err().to_string();
        told.replace(&dir.path().display().to_string(), "HERE")
    };
    fs::create_dir(dir.path().join("folder")).unwrap();
    fs::write(dir.path().join("file"), b"old").unwrap();
    let unchanged = "what was there before is unchanged";
    assert_eq!(
        told(&dir.path().join("folder")),
        format!("cannot save HERE/folder: it is a folder; give the name of a file; {unchanged}")
    );
    assert_eq!(
        told(&dir.path().join("none/barn")),
        format!("cannot save HERE/none/barn: there is no such file or folder; {unchanged}")
    );
    assert_eq!(
        told(&dir.path().join("file/barn")),
        format!("cannot save HERE/file/barn: what should be its folder is a file; {unchanged}")
    );
    assert_eq!(fs::read(dir.path().join("file")).unwrap(), b"old");
    assert_eq!(folder(dir.path()).len(), 2);
}

#[test]
fn a_file_that_is_not_there_cannot_be_opened() {
    let dir = tempfile::tempdir().unwrap();
    let told = load(&dir.path().join("none")).unwrap_err().to_string();
    assert!(
        told.ends_with("none: there is no such file or folder"),
        "{told}"
    );
}

#[test]
fn a_file_with_problems_tells_the_first_and_how_many() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("barn.hodful.json");
    fs::write(
        &path,
        br#"{"format":"hodful-project","version":1,"name":7,"units":"feet","wals":[]}"#,
    )
    .unwrap();
    let told = load(&path).unwrap_err().to_string();
    assert!(told.ends_with(
        "is not a whole project: name: is a number; write it as text in double quotes; and 2 more"
    ), "{told}");
}

#[cfg(unix)]
mod unix {
    use super::*;
    use std::os::unix::fs::{PermissionsExt, symlink};

    fn mode(path: &Path) -> u32 {
        fs::metadata(path).unwrap().permissions().mode() & 0o777
    }

    #[test]
    fn permissions_are_kept_and_a_new_file_has_the_usual_ones() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("barn");
        let usual = dir.path().join("usual");
        File::create(&usual).unwrap();
        save_bytes(&path, b"one").unwrap();
        assert_eq!(mode(&path), mode(&usual));
        for kept in [0o600, 0o640, 0o664] {
            fs::set_permissions(&path, Permissions::from_mode(kept)).unwrap();
            save_bytes(&path, b"two").unwrap();
            assert_eq!(mode(&path), kept);
        }
    }

    #[test]
    fn a_write_protected_file_is_refused() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("barn");
        fs::write(&path, b"old").unwrap();
        fs::set_permissions(&path, Permissions::from_mode(0o444)).unwrap();
        let told = save_bytes(&path, b"new").unwrap_err().to_string();
        assert!(told.contains("the file is write-protected"), "{told}");
        assert_eq!(folder(dir.path()), only("barn", b"old"));
    }

    #[test]
    fn a_folder_that_may_not_be_written_to_keeps_the_old_file() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("barn");
        fs::write(&path, b"old").unwrap();
        fs::set_permissions(dir.path(), Permissions::from_mode(0o555)).unwrap();
        // The administrator may write everywhere: then the save must go through, else it must not.
        let may = File::create(dir.path().join("probe")).is_ok();
        let saved = save_bytes(&path, b"new");
        fs::set_permissions(dir.path(), Permissions::from_mode(0o755)).unwrap();
        if may {
            saved.unwrap();
            assert_eq!(fs::read(&path).unwrap(), b"new");
        } else {
            let told = saved.unwrap_err().to_string();
            assert!(told.contains("it may not be read or written"), "{told}");
            assert_eq!(folder(dir.path()), only("barn", b"old"));
        }
    }

    #[test]
    fn a_link_stays_a_link() {
        let dir = tempfile::tempdir().unwrap();
        fs::create_dir(dir.path().join("far")).unwrap();
        let target = dir.path().join("far/barn");
        let near = dir.path().join("near");
        let nearer = dir.path().join("nearer");
        symlink("far/barn", &near).unwrap();
        symlink(&near, &nearer).unwrap();
        // First where the link leads to nothing yet, then over what is there.
        for bytes in [b"one", b"two"] {
            save_bytes(&nearer, bytes).unwrap();
            assert!(fs::symlink_metadata(&near).unwrap().is_symlink());
            assert!(fs::symlink_metadata(&nearer).unwrap().is_symlink());
            assert!(fs::symlink_metadata(&target).unwrap().is_file());
            assert_eq!(folder(&dir.path().join("far")), only("barn", bytes));
        }
    }

    #[test]
    fn links_in_a_circle_are_refused() {
        let dir = tempfile::tempdir().unwrap();
        symlink("b", dir.path().join("a")).unwrap();
        symlink("a", dir.path().join("b")).unwrap();
        let told = save_bytes(&dir.path().join("a"), b"new")
            .unwrap_err()
            .to_string();
        assert!(told.contains("its links lead in a circle"), "{told}");
    }

    #[test]
    fn a_device_is_refused() {
        let told = save_bytes(Path::new("/dev/null"), b"new")
            .unwrap_err()
            .to_string();
        assert!(told.contains("it is a device or a pipe"), "{told}");
    }
}
