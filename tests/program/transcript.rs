//! What is typed at a terminal and what the program prints, compared as one text.

use std::fs;

use snapbox::{Data, IntoData};

use crate::run::{comparison, toeline};

/// Each command of the transcript succeeds, and prints just what stands under it.
///
/// A transcript is a row of steps, each in a folder of its own. A line `# …` names a step; `$ toeline …` is a
/// command with what it prints under it; and under `$ cat …` stands a file, which is written before what follows.
pub(crate) fn answered(transcript: impl IntoData) {
    replay(transcript.into_data(), 0);
}

/// Each command of the transcript is refused as wrong input, for the reason under it, and writes no file.
pub(crate) fn refused(transcript: impl IntoData) {
    replay(transcript.into_data(), 2);
}

fn replay(transcript: Data, code: i32) {
    let text = format!("\n{}", transcript.render().expect("a transcript is text"));
    let steps: Vec<String> = text.split("\n# ").skip(1).map(|step| replay_step(step, code)).collect();
    comparison().eq(steps.join("\n"), transcript);
}

/// A step as it went.
fn replay_step(step: &str, code: i32) -> String {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let mut parts = step.trim_end().split("\n$ ");
    let mut shown = format!("# {}\n", parts.next().expect("a step has a name"));
    let mut files = 0;
    for part in parts {
        let (command, under) = part.split_once('\n').unwrap_or((part, ""));
        let printed = match command.strip_prefix("cat ") {
            Some(name) => {
                let text = format!("{under}\n");
                fs::write(folder.path().join(name), &text).expect("the folder can be written");
                files += 1;
                text
            }
            None => {
                let run = toeline(&words(command)[1..]).current_dir(folder.path()).assert().code(code);
                let output = run.get_output();
                let (printed, silent) = match code {
                    0 => (&output.stdout, &output.stderr),
                    _ => (&output.stderr, &output.stdout),
                };
                assert_eq!(String::from_utf8_lossy(silent), "", "{command}");
                String::from_utf8_lossy(printed).into_owned()
            }
        };
        shown += &format!("$ {command}\n{printed}");
    }
    let left = fs::read_dir(folder.path()).expect("the folder is still there").count();
    assert_eq!(left, files, "a file was written: {shown}");
    shown
}

/// The words of a command; those with spaces stand in single quotes.
fn words(command: &str) -> Vec<&str> {
    let parts = command.split('\'').zip([false, true].into_iter().cycle());
    parts
        .flat_map(|(part, is_quoted)| match is_quoted {
            true => vec![part],
            false => part.split_whitespace().collect(),
        })
        .collect()
}
