//! `--out`: the ending picks the view, and a file is whole or not there.

use std::fs;

use crate::answer::{printed, told};
use crate::folder::Folder;
use crate::run::{program, toeline};
use snapbox::str;

#[test]
fn a_json_file_holds_what_standard_output_would() {
    let folder = Folder::new();
    folder.toeline(&["plan", "6 x 200", "--out", "plan.json"]).assert().success().stdout_eq(str![]);
    let shown = toeline(&["plan", "6 x 200", "--format", "json"]).assert().success();
    assert_eq!(folder.read("plan.json"), printed(&shown));
}

#[test]
fn a_text_file_has_no_terminal_codes_even_with_colour_always() {
    let folder = Folder::new();
    folder.toeline(&["plan", "6 x 200", "--color", "always", "--out", "plan.txt"]).assert().success();
    assert!(!folder.read("plan.txt").contains('\u{1b}'));
}

#[test]
fn an_old_file_stays_whole_where_the_new_one_is_refused() {
    let folder = Folder::with("plan.txt", "the old plan");
    folder.toeline(&["plan", "6 x", "--out", "plan.txt"]).assert().code(2);
    assert_eq!(folder.read("plan.txt"), "the old plan");
}

#[test]
fn what_cannot_be_written_is_an_error_that_says_what_to_do() {
    let folder = Folder::new();
    fs::create_dir(folder.at("folder.txt")).expect("the folder can be written");
    folder.write("file", "");
    for (name, reason) in [
        ("no-such-folder/plan.txt", "its folder does not exist; create it, or name another"),
        ("folder.txt", "it is a folder; name a file in it"),
        ("file/plan.txt", "a part of its path is a file, not a folder"),
    ] {
        let told = format!("error: cannot write `{name}`: {reason}\n");
        folder.toeline(&["plan", "200", "--out", name]).assert().code(1).stderr_eq(told);
    }
}

/// The kernel's `/sys` takes no new file from anybody, not even from root, whom the modes of other
/// folders do not hold back.
#[cfg(target_os = "linux")]
#[test]
fn a_folder_that_takes_no_files_is_an_error_of_writing() {
    let told = told(&toeline(&["plan", "200", "--out", "/sys/plan.txt"]).assert().code(1));
    let reasons = ["you may not write there; name another folder", "the disk is read-only"];
    assert!(told.starts_with("error: cannot write `/sys/plan.txt`: "), "{told}");
    assert!(reasons.iter().any(|reason| told.contains(reason)), "{told}");
}

#[cfg(target_os = "linux")]
#[test]
fn a_pipe_or_a_device_is_neither_replaced_nor_waited_for() {
    let folder = Folder::new();
    std::os::unix::fs::symlink("/dev/full", folder.at("device.txt")).expect("the folder can be written");
    folder.make_pipe("pipe.txt");
    for name in ["device.txt", "pipe.txt"] {
        let told = format!(
            "error: `{name}` is a pipe or a device, not a file; leave out `--out` and redirect standard output\n"
        );
        folder.toeline(&["plan", "200", "--out", name]).assert().code(2).stderr_eq(told);
    }
    let device = fs::read_link(folder.at("device.txt")).expect("it is a link still");
    assert_eq!(device, std::path::Path::new("/dev/full"));
}

/// A limit on the size of files stops the writing half-way, as a disk that fills up does.
#[cfg(unix)]
#[test]
fn an_old_file_stays_whole_where_the_new_one_finds_no_room() {
    let folder = Folder::with("plan.json", "the old plan");
    // One block of 512 or 1024 bytes is less than the plan needs; the signal that tells of it is
    // ignored, so that the write fails instead.
    let script = r#"trap '' XFSZ; ulimit -f 1; exec "$0" plan "20 x 200 in lanes 2-6" --out "$1""#;
    let shown = snapbox::cmd::Command::new("sh").args(["-c", script]).arg(program()).arg("plan.json");
    let told = told(&shown.current_dir(folder.path()).assert().code(1));
    assert!(told.ends_with("the file would be larger than the system allows\n"), "{told}");
    assert_eq!(folder.read("plan.json"), "the old plan");
    assert_eq!(folder.count(), 1, "nothing lies beside it");
}

#[cfg(unix)]
#[test]
fn a_new_file_is_open_to_others_and_an_old_one_keeps_its_mode_and_its_link() {
    use std::os::unix::fs::PermissionsExt;

    let folder = Folder::new();
    let mode = |name: &str| {
        let found = fs::metadata(folder.path().join(name)).expect("it was written");
        found.permissions().mode() & 0o777
    };
    // What any new file gets is a matter of the umask.
    folder.write("any", "");
    folder.toeline(&["plan", "200", "--out", "new.txt"]).assert().success();
    assert_eq!(mode("new.txt"), mode("any"));

    folder.write("old.txt", "the old plan");
    fs::set_permissions(folder.at("old.txt"), fs::Permissions::from_mode(0o640)).expect("it is ours");
    std::os::unix::fs::symlink("old.txt", folder.at("link.txt")).expect("the folder can be written");
    folder.toeline(&["plan", "200", "--out", "link.txt"]).assert().success();
    assert_eq!(
        fs::read_link(folder.at("link.txt")).expect("it is a link still"),
        std::path::Path::new("old.txt")
    );
    assert_eq!(mode("old.txt"), 0o640);
    assert_eq!(folder.read("old.txt"), folder.read("new.txt"));
}

/// However a kill falls, the file is the old one or the new one, whole.
#[test]
fn a_kill_while_it_writes_leaves_a_whole_file() {
    use std::process::{Command, Stdio};
    use std::time::{Duration, Instant};

    let folder = Folder::new();
    let path = folder.path().join("plan.json");
    let start = || {
        Command::new(program())
            .args(["plan", "200 x 100 in lanes 1-8", "--out"])
            .arg(&path)
            .stderr(Stdio::null())
            .spawn()
            .expect("the program can be started")
    };
    // The first run of a new program reads it from the disk, which is no part of what it takes.
    assert!(start().wait().expect("it ends").success());
    let begun = Instant::now();
    assert!(start().wait().expect("it ends").success());
    let whole = begun.elapsed();
    let new = fs::read(&path).expect("it was written");
    let old = b"the old plan".to_vec();
    let (mut kept, mut replaced) = (0, 0);
    // The kills fall all over the run; how long it takes decides where, not whether they must pass.
    let mut part = 0.0;
    while part < 1.6 {
        fs::write(&path, &old).expect("the folder can be written");
        let mut running = start();
        std::thread::sleep(Duration::from_secs_f64(whole.as_secs_f64() * part));
        // It may be done already.
        let _ = running.kill();
        running.wait().expect("it ends");
        let found = fs::read(&path).expect("it is there");
        match (found == old, found == new) {
            (true, _) => kept += 1,
            (_, true) => replaced += 1,
            _ => panic!("{} bytes of {} after a kill at {part:.2} of the run", found.len(), new.len()),
        }
        part += 0.04;
    }
    assert!(kept > 0, "no kill came before the file was replaced ({replaced} after)");
}

#[test]
fn a_file_that_is_not_there_is_an_error_of_reading() {
    toeline(&["plan", "no-such-file.yaml"]).assert().code(1).stderr_eq(str![[r#"
error: cannot read `no-such-file.yaml`: No such file or directory (os error 2)

"#]]);
}

/// `TOELINE_PROGRAM` names a build without `pdf`: see `.ci/run`.
#[test]
fn a_build_without_pdf_support_says_so_and_any_other_prints() {
    let prints = cfg!(feature = "pdf") && std::env::var_os("TOELINE_PROGRAM").is_none();
    let folder = Folder::new();
    for name in ["plan.pdf", "plan.png"] {
        let run = folder.toeline(&["plan", "200", "--out", name]).assert();
        if prints {
            run.success();
        } else {
            run.code(2).stderr_eq(str![[r#"
error: this build of toeline cannot print; build it with the feature `pdf`

"#]]);
        }
    }
}
