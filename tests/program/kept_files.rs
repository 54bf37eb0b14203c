//! `--out` loses no file: none that the command reads, and none that it did not write without being told to.

use crate::answer::told;
use crate::folder::Folder;
use crate::run::program;

const SESSION: &str = "title: Tuesday\nblocks: [6 x 200 in lane 2]\n";

#[test]
fn an_answer_replaces_no_file_that_the_command_reads() {
    let track = toeline_track();
    let folder = || {
        let folder = Folder::with("notes.txt", "6 x 200 in lane 2\n");
        folder.write("track.txt", &track);
        std::fs::create_dir(folder.at("week")).expect("the folder can be written");
        folder.write("week/a.yaml", SESSION);
        folder.write("week/shopping.yaml", "shopping: [bread]\n");
        folder.write("week/b.md", "4 x 150\n");
        folder.write("late.yaml", format!("{SESSION}track: track.yaml\n"));
        folder.write("track.yaml", &track);
        folder
    };
    for (arguments, out) in [
        (&["plan", "notes.txt"][..], "notes.txt"),
        (&["plan", "./notes.txt"], "week/../notes.txt"),
        (&["plan", "200", "notes.txt"], "notes.txt"),
        (&["plan", "200", "--track", "track.txt"], "track.txt"),
        (&["lanes", "--track", "track.txt"], "track.txt"),
        (&["week", "week", "week/b.md"], "week/b.md"),
        (&["session", "notes.txt"], "link.yaml"),
        (&["plan", "notes.txt"], "link.txt"),
        (&["plan", "late.yaml"], "late.txt"),
        (&["plan", "late.yaml"], "same-track.json"),
        (&["week", "week"], "session.txt"),
        (&["week", "week"], "shopping.txt"),
    ] {
        let folder = folder();
        for (link, file) in [
            ("link.txt", "notes.txt"),
            ("link.yaml", "notes.txt"),
            ("late.txt", "late.yaml"),
            ("shopping.txt", "week/shopping.yaml"),
        ] {
            symlink(&folder, file, link);
        }
        for (link, file) in [("same-track.json", "track.yaml"), ("session.txt", "week/a.yaml")] {
            std::fs::hard_link(folder.at(file), folder.at(link)).expect("the folder can be written");
        }
        let before = folder.read(out);
        // A week says first what it leaves out.
        let sentence = format!("...\nerror: `{out}` is a file that this command reads; write to another\n");
        folder.toeline(&[arguments, &["--out", out]].concat()).assert().code(2).stderr_eq(sentence);
        assert_eq!(folder.read(out), before, "{arguments:?} --out {out}");
    }
}

#[cfg(unix)]
#[test]
fn an_answer_does_not_replace_the_file_of_standard_input() {
    let folder = Folder::with("notes.txt", "6 x 200 in lane 2\n");
    let script = r#"exec "$0" plan - --out notes.txt < notes.txt"#;
    let shell = snapbox::cmd::Command::new("sh").args(["-c", script]).arg(program());
    let told = told(&shell.current_dir(folder.path()).assert().code(2));
    assert_eq!(told, "error: `notes.txt` is a file that this command reads; write to another\n");
    assert_eq!(folder.read("notes.txt"), "6 x 200 in lane 2\n");
}

#[cfg(unix)]
#[test]
fn the_file_that_is_replaced_keeps_its_owner_its_group_and_its_mode() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt, chown};

    let folder = Folder::with("plan.txt", "the old plan");
    // Only root may give files away; everybody else's keeps the owner it has.
    let _ = chown(folder.at("plan.txt"), Some(4321), Some(4322));
    let mode = std::fs::Permissions::from_mode(0o664);
    std::fs::set_permissions(folder.at("plan.txt"), mode).expect("it is ours");
    let whose = || {
        let found = std::fs::metadata(folder.at("plan.txt")).expect("it is there");
        (found.uid(), found.gid(), found.mode())
    };
    let before = whose();
    folder.toeline(&["plan", "200", "--out", "plan.txt"]).assert().success();
    assert_eq!(whose(), before);
    assert_ne!(folder.read("plan.txt"), "the old plan");
}

/// The device `/dev/full` answers every write as a full disk does.
#[cfg(target_os = "linux")]
#[test]
fn a_full_standard_error_changes_no_exit_status() {
    for (arguments, status) in [
        ("plan '6 x'", 2),
        ("plan no-such-file.yaml", 1),
        ("check no-such-file.yaml", 1),
        ("plan 200 --out no-such-folder/plan.txt", 1),
        ("plan 200 --no-such-flag", 2),
        ("week sessions/wrenbeck sessions/wrenbeck/track.yaml", 0),
    ] {
        let script = format!(r#"exec "$0" {arguments} 2>/dev/full"#);
        let shell = snapbox::cmd::Command::new("sh").args(["-c", &script]).arg(program());
        shell.current_dir(env!("CARGO_MANIFEST_DIR")).assert().code(status);
    }
}

#[cfg(unix)]
fn symlink(folder: &Folder, file: &str, link: &str) {
    std::os::unix::fs::symlink(file, folder.at(link)).expect("the folder can be written");
}

fn toeline_track() -> String {
    std::fs::read_to_string("sessions/wrenbeck/track.yaml").expect("the demonstration has it")
}

#[cfg(all(unix, feature = "pdf"))]
mod pictures {
    use super::*;
    use snapbox::str;

    const PICTURES: [&str; 6] = ["plan", "6 x 200 in lane 2", "--with", "lanes,care", "--out", "plan.png"];

    fn is_picture(folder: &Folder, name: &str) -> bool {
        let file = std::fs::read(folder.at(name)).expect("it is there");
        file.starts_with(b"\x89PNG") && plan_sheet::is_own_picture(&file)
    }

    #[test]
    fn pictures_replace_their_own_and_no_other() {
        let folder = Folder::new();
        folder.toeline(&PICTURES).assert().success();
        assert!(["plan.png", "plan-2.png", "plan-3.png"].iter().all(|name| is_picture(&folder, name)));
        folder.toeline(&PICTURES).assert().success();

        // The last page is in the way: not even the first is written.
        folder.write("plan-3.png", "a photograph");
        folder.write("plan.png", "the old plan");
        folder.toeline(&PICTURES).assert().code(2).stderr_eq(str![[r#"
error: `plan-3.png` was not written by toeline, and a further page would replace it; write to another name, or add `--overwrite`

"#]]);
        assert_eq!(folder.read("plan.png"), "the old plan");
        assert_eq!(folder.read("plan-3.png"), "a photograph");
        folder.toeline(&[&PICTURES[..], &["--overwrite"]].concat()).assert().success();
        assert!(["plan.png", "plan-2.png", "plan-3.png"].iter().all(|name| is_picture(&folder, name)));
        assert_eq!(folder.count(), 3);
    }

    #[test]
    fn further_pages_follow_no_link() {
        let folder = Folder::with("precious", "a will");
        symlink(&folder, "precious", "plan-2.png");
        symlink(&folder, "nowhere", "plan-3.png");
        folder.toeline(&PICTURES).assert().code(2).stderr_eq(str![[r#"
error: `plan-2.png` is a link, and a further page would replace it; write to another name, or add `--overwrite`

"#]]);
        assert!(!folder.path().join("plan.png").exists());
        folder.toeline(&[&PICTURES[..], &["--overwrite"]].concat()).assert().success();
        assert_eq!(folder.read("precious"), "a will");
        assert!(is_picture(&folder, "plan-2.png") && is_picture(&folder, "plan-3.png"));
        assert_eq!(folder.count(), 4);
    }

    /// All pages are written before the first has its name.
    #[cfg(target_os = "linux")]
    #[test]
    fn a_page_for_which_there_is_no_room_leaves_all_old_pages() {
        let folder = Folder::new();
        folder.toeline(&PICTURES).assert().success();
        folder.write("plan.png", "the old plan");
        let Some(calls) = crate::strace::calls_from(&folder, &PICTURES, ".toeline-") else { return };
        folder.write("plan.png", "the old plan");
        let last = calls.iter().rfind(|call| call.name == "fsync" && call.number == 3);
        let run = last.expect("it writes three").with("error=ENOSPC", &folder, &PICTURES);
        assert_eq!(run.status.code(), Some(1));
        assert_eq!(folder.read("plan.png"), "the old plan");
        assert_eq!(folder.count(), 3);
    }
}
