//! `toeline week` leaves out what is no session, and names it.

use crate::folder::Folder;
use snapbox::str;

const SESSION: &str = "title: Tuesday\nblocks: [6 x 200 in lane 2]\n";

/// A week of one session, with all that may lie beside one.
fn folder() -> Folder {
    let folder = Folder::new();
    for name in ["week", "week/sub", "week/.cache"] {
        std::fs::create_dir(folder.at(name)).expect("the folder can be written");
    }
    folder.write("week/sub/tuesday.yaml", SESSION);
    folder.write("week/.cache/tuesday.yaml", SESSION);
    folder.write("week/binary.yaml", b"\x00\xff\xfe\x00");
    folder.write("week/large.yaml", "x".repeat(1024 * 1024 + 1));
    folder.write("week/other.yaml", "shopping: [bread, milk]\n");
    folder.write("week/deep.yaml", "[".repeat(100_000));
    folder.write("week/notes.txt", "no session by its name\n");
    folder
}

#[test]
fn a_folder_is_not_refused_for_what_is_no_session() {
    let folder = folder();
    let alone = folder.toeline(&["week", "week/sub", "--format", "csv"]).assert().success();
    let alone = String::from_utf8_lossy(&alone.get_output().stdout).into_owned();
    let left_out = str![[r#"
note: left out: `week/.cache` is a hidden folder
note: left out: `week/binary.yaml` is not UTF-8 text: line 1, column 2; save it as UTF-8
note: left out: `week/deep.yaml` is neither a session nor a track file
note: left out: `week/large.yaml` is too large: at most 1048576 bytes
note: left out: `week/other.yaml` is neither a session nor a track file

"#]];
    folder
        .toeline(&["week", "week", "--format", "csv"])
        .assert()
        .success()
        .stdout_eq(alone)
        .stderr_eq(left_out);
}

#[test]
fn files_that_are_named_with_sessions_are_left_out_too() {
    let folder = folder();
    let files = ["week/binary.yaml", "week/sub/tuesday.yaml", "week/large.yaml"];
    folder.toeline(&[&["week"], &files[..]].concat()).assert().success().stderr_eq(str![[r#"
note: left out: `week/binary.yaml` is not UTF-8 text: line 1, column 2; save it as UTF-8
note: left out: `week/large.yaml` is too large: at most 1048576 bytes

"#]]);
    folder.toeline(&["week", "week/binary.yaml"]).assert().code(2).stderr_eq(str![[r#"
error: `week/binary.yaml` is not UTF-8 text: line 1, column 2; save it as UTF-8

"#]]);
    folder.toeline(&["week", "week/sub/tuesday.yaml", "week/none.yaml"]).assert().code(1).stderr_eq(str![[
        r#"
error: cannot read `week/none.yaml`: No such file or directory (os error 2)

"#
    ]]);
}

#[test]
fn of_many_files_only_some_are_named() {
    let folder = Folder::with("tuesday.yaml", SESSION);
    for number in 0..100 {
        folder.write(&format!("other-{number}.yaml"), "shopping: [bread]\n");
    }
    let run = folder.toeline(&["week", "."]).assert().success();
    let told = crate::answer::told(&run);
    assert_eq!(told.lines().count(), 21);
    assert!(told.ends_with("note: left out 80 more files\n"), "{told}");
}

#[cfg(target_os = "linux")]
#[test]
fn names_pipes_and_links_that_cannot_be_read_are_left_out() {
    use std::os::unix::ffi::OsStrExt;
    use std::os::unix::fs::symlink;

    let folder = Folder::with("tuesday.yaml", SESSION);
    let name = std::ffi::OsStr::from_bytes(b"tues\xffday.yaml");
    std::fs::write(folder.path().join(name), SESSION).expect("the folder can be written");
    symlink("nowhere", folder.at("link.yaml")).expect("the folder can be written");
    folder.make_pipe("pipe.yaml");
    folder.toeline(&["week", "."]).assert().success().stderr_eq(str![[r#"
note: left out: cannot read `./link.yaml`: No such file or directory (os error 2)
note: left out: `./pipe.yaml` is a pipe or a device, not a file; write `-` to read standard input
note: left out: the name of `./tues�day.yaml` is not UTF-8; rename it

"#]]);
}

/// Root may read every folder, so that the system call is made to fail.
#[cfg(target_os = "linux")]
#[test]
fn a_folder_that_cannot_be_read_is_left_out() {
    let folder = folder();
    folder.write("week/monday.yaml", SESSION.replace("Tuesday", "Monday"));
    let Some(calls) = crate::strace::calls_from(&folder, &["week", "week"], "week/sub") else { return };
    let open = calls.iter().find(|call| call.name == "openat").expect("it opens the folder");
    let run = open.with("error=EACCES", &folder, &["week", "week"]);
    assert!(run.status.success());
    let told = String::from_utf8(run.stderr).expect("it is UTF-8");
    assert!(
        told.contains("note: left out: cannot read `week/sub`: Permission denied (os error 13)\n"),
        "{told}"
    );
}
