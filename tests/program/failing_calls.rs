//! Every system call of a write made to fail, and every one met by a signal that ends the program.
#![cfg(target_os = "linux")]

use std::os::unix::process::ExitStatusExt;

use crate::folder::Folder;
use crate::strace::{Call, calls_from};

const PLAN: [&str; 4] = ["plan", "200 in lane 2", "--out", "plan.txt"];

/// What a plan that is written holds.
fn new_plan() -> String {
    let folder = Folder::new();
    folder.toeline(&PLAN).assert().success();
    folder.read("plan.txt")
}

/// A folder with an old plan in it, or without.
fn folder(old: Option<&str>) -> Folder {
    let folder = Folder::new();
    if let Some(old) = old {
        folder.write("plan.txt", old);
    }
    folder
}

/// What the file holds, after a check that nothing lies beside it.
fn only_file(folder: &Folder, call: &Call, what: &str) -> Option<String> {
    let found = folder.path().join("plan.txt").exists().then(|| folder.read("plan.txt"));
    assert_eq!(folder.count(), usize::from(found.is_some()), "{what} at `{}` left a file behind", call.text);
    found
}

fn written(call: &Call) -> bool {
    matches!(call.name.as_str(), "write" | "fchmod" | "fsync" | "rename") || call.text.contains("O_CREAT")
}

#[test]
fn whichever_system_call_of_a_write_fails_the_file_is_the_old_or_the_new_one_and_nothing_else_is_left() {
    let new = new_plan();
    for old in [None, Some("the old plan")] {
        let Some(calls) = calls_from(&folder(old), &PLAN, "plan.txt") else { return };
        assert!(calls.iter().filter(|call| written(call)).count() >= 5, "not every call was found");
        let named = calls.iter().rposition(|call| call.name.starts_with("rename")).expect("it is renamed");
        for (place, call) in calls.iter().enumerate() {
            for what in ["error=EIO", "error=ENOSPC", "error=EACCES"] {
                let folder = folder(old);
                let run = call.with(what, &folder, &PLAN);
                let told = String::from_utf8(run.stderr).expect("it is UTF-8");
                let found = only_file(&folder, call, what);
                match run.status.code() {
                    Some(0) => assert_eq!(found.as_ref(), Some(&new), "{what} at `{}`", call.text),
                    Some(1) => {
                        let is_told = told.starts_with("error: cannot write `plan.txt`: ");
                        assert!(is_told && told.lines().count() == 1, "{what} at `{}`: {told}", call.text);
                        assert_eq!(found.as_deref(), old, "{what} at `{}`", call.text);
                    }
                    _ => panic!("{what} at `{}`: {:?} {told}", call.text, run.status),
                }
                // What the file needs to be whole cannot fail unnoticed; behind it, only the folder is synced.
                assert!(
                    !written(call) || place > named || run.status.code() == Some(1),
                    "{what} at `{}` is lost",
                    call.text
                );
            }
        }
    }
}

#[test]
fn a_full_disk_is_said_in_plain_words() {
    let Some(calls) = calls_from(&folder(None), &PLAN, "plan.txt") else { return };
    let write = calls.iter().find(|call| call.name == "write").expect("it writes");
    let told = write.with("error=ENOSPC", &folder(None), &PLAN).stderr;
    let sentence = "the disk is full; free some space, or name a folder on another disk";
    assert_eq!(String::from_utf8_lossy(&told), format!("error: cannot write `plan.txt`: {sentence}\n"));
}

#[test]
fn a_signal_at_any_system_call_of_a_write_leaves_the_old_or_the_new_file_and_nothing_else() {
    let new = new_plan();
    let Some(calls) = calls_from(&folder(Some("the old plan")), &PLAN, "plan.txt") else { return };
    let mut ended = 0;
    for call in &calls {
        for (signal, number) in [("SIGTERM", 15), ("SIGINT", 2)] {
            let what = format!("signal={signal}");
            let folder = folder(Some("the old plan"));
            let run = call.with(&what, &folder, &PLAN);
            let found = only_file(&folder, call, &what).expect("it is there");
            assert!(found == new || found == "the old plan", "{what} at `{}`: {found}", call.text);
            match run.status.signal() {
                Some(by) => assert_eq!(by, number, "{what} at `{}`", call.text),
                // It was done before the signal came through.
                None => assert!(run.status.success() && found == new, "{what} at `{}`: {run:?}", call.text),
            }
            ended += usize::from(run.status.signal().is_some());
        }
    }
    assert!(ended > 0, "no signal ended the program");
}

/// Until it has its name, a file is its owner's alone.
#[test]
fn an_unfinished_file_can_be_read_by_its_owner_only() {
    let Some(calls) = calls_from(&folder(None), &PLAN, "plan.txt") else { return };
    let made: Vec<&Call> = calls.iter().filter(|call| call.text.contains("O_CREAT")).collect();
    assert!(matches!(made[..], [one] if one.text.contains("O_EXCL") && one.text.contains(", 0600)")));
}
