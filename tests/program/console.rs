//! What is typed at a terminal and what the program prints, compared as one text.

use snapbox::{Data, IntoData};

use crate::answer::{printed, told};
use crate::folder::Folder;
use crate::run::comparison;

/// Each command of the console log succeeds, and prints just what stands under it.
///
/// A console log is a row of steps, each in a folder of its own. A line `# …` names a step; `$ toeline …` is a
/// command with what it prints under it; and under `$ cat …` stands a file, which is written before what follows.
pub(crate) fn answered(shown: impl IntoData) {
    replay(shown.into_data(), 0);
}

/// Each command of the console log is refused as wrong input, for the reason under it, and writes no file.
pub(crate) fn refused(shown: impl IntoData) {
    replay(shown.into_data(), 2);
}

fn replay(shown: Data, code: i32) {
    let text = format!("\n{}", shown.render().expect("a console log is text"));
    let steps: Vec<String> = text.split("\n# ").skip(1).map(|step| replay_step(step, code)).collect();
    comparison().eq(steps.join("\n"), shown);
}

/// A step as it went.
fn replay_step(step: &str, code: i32) -> String {
    let folder = Folder::new();
    let mut parts = step.trim_end().split("\n$ ");
    let mut shown = format!("# {}\n", parts.next().expect("a step has a name"));
    let mut files = 0;
    for part in parts {
        let (command, under) = part.split_once('\n').unwrap_or((part, ""));
        let under = match command.strip_prefix("cat ") {
            Some(name) => {
                let text = format!("{under}\n");
                folder.write(name, &text);
                files += 1;
                text
            }
            None => {
                let run = folder.toeline(&words(command)[1..]).assert().code(code);
                let (said, silent) =
                    if code == 0 { (printed(&run), told(&run)) } else { (told(&run), printed(&run)) };
                assert_eq!(silent, "", "{command}");
                said
            }
        };
        shown += &format!("$ {command}\n{under}");
    }
    assert_eq!(folder.count(), files, "a file was written: {shown}");
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
