//! What the README, the reference and the help show is what the program does.

use std::fs;
use std::path::Path;

use crate::answer::{printed, told};
use crate::folder::Folder;
use crate::run::toeline;
#[cfg(feature = "serve")]
use crate::served::Served;

const README: &str = include_str!("../../README.md");

/// A page of the reference.
fn reference(name: &str) -> String {
    let path = format!("{}/crates/toeline/reference/{name}.md", env!("CARGO_MANIFEST_DIR"));
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// The fenced blocks of a language in a text, in order.
fn blocks(text: &str, language: &str) -> Vec<String> {
    let fence = format!("```{language}\n");
    let block = |part: &str| part.split("```").next().expect("split gives one part at least").to_owned();
    text.split(&fence).skip(1).map(block).collect()
}

/// The arguments of a command line, as a shell would part them: double quotes hold words together, and what stands
/// behind ` #` is for people.
fn arguments(line: &str) -> Vec<String> {
    let line = line.split(" #").next().unwrap_or(line).trim_end();
    let parts = line.split('"').enumerate();
    let mut words = vec![String::new()];
    for (at, part) in parts {
        if at % 2 == 1 {
            words.last_mut().expect("there is a last word").push_str(part);
        } else {
            let mut pieces = part.split(' ');
            words.last_mut().expect("there is a last word").push_str(pieces.next().unwrap_or_default());
            words.extend(pieces.map(str::to_owned));
        }
    }
    words.retain(|word| !word.is_empty());
    words
}

/// A folder with the demonstration in it, as a clone has it.
fn clone() -> Folder {
    let folder = Folder::new();
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("sessions");
    for name in ["", "wrenbeck"] {
        fs::create_dir(folder.path().join("sessions").join(name)).expect("the folder is new");
        for entry in fs::read_dir(from.join(name)).expect("the demonstration is there") {
            let path = entry.expect("it can be read").path();
            if path.is_file() {
                let to =
                    folder.path().join("sessions").join(name).join(path.file_name().expect("it has one"));
                fs::copy(&path, to).expect("the folder can be written");
            }
        }
    }
    folder
}

/// Runs a command line as it stands, and gives what it printed. One that serves is ended once it says where; one that
/// this build cannot do says so.
fn run(folder: &Folder, line: &str) -> String {
    let arguments = arguments(line);
    let (program, arguments) = arguments.split_first().expect("a command line has a command");
    assert_eq!(program, "toeline", "{line}");
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    #[cfg(feature = "serve")]
    if arguments[0] == "serve" {
        // At a port that is free, whatever the line says.
        let others: Vec<&str> =
            arguments[1..].iter().copied().filter(|argument| !matches!(*argument, "--port" | "0")).collect();
        Served::with(&others).assert_serving();
        return String::new();
    }
    let run = folder.toeline(&arguments).assert();
    let is_built = match arguments[0] {
        "serve" => false,
        "publish" => !told(&run).contains("crates/offline-planner/build"),
        _ => !told(&run).contains("cannot print"),
    };
    assert!(run.get_output().status.success() == is_built, "{line}: {}", told(&run));
    printed(&run)
}

#[test]
fn the_first_command_prints_what_the_readme_says() {
    assert!(README.contains("cargo run -- plan \"6 x 200 in lane 2\" --closed 1"));
    let shown = toeline(&["plan", "6 x 200 in lane 2", "--closed", "1"]).assert().success();
    assert_eq!(printed(&shown), blocks(README, "text")[0]);
}

#[test]
fn each_line_of_each_tour_runs() {
    let tours = blocks(README, "console");
    assert_eq!(tours.len(), 3);
    let folder = clone();
    folder.write("notes.txt", &blocks(README, "notes")[0]);
    for line in tours.iter().flat_map(|tour| tour.lines()) {
        let command = line.strip_prefix("$ ").unwrap_or_else(|| panic!("not a command: {line}"));
        let printed = run(&folder, command);
        assert!(printed.is_empty() == command.contains(" --out "), "{command}: {printed}");
    }
    assert!(folder.read("week.ics").starts_with("BEGIN:VCALENDAR"));
}

#[test]
fn what_the_story_of_the_demonstration_shows_runs() {
    let folder = clone();
    let story = folder.read("sessions/README.md");
    let lines = blocks(&story, "console").concat();
    assert!(lines.lines().count() >= 6);
    for line in lines.lines() {
        run(&folder, line.strip_prefix("$ ").unwrap_or_else(|| panic!("not a command: {line}")));
    }
}

#[test]
fn every_command_has_two_examples_that_run() {
    let help = printed(&toeline(&["--help"]).assert().success());
    let commands = help.split("Commands:\n").nth(1).and_then(|rest| rest.split("\n\n").next());
    let commands: Vec<&str> = commands
        .expect("the help lists the commands")
        .lines()
        .filter_map(|line| line.strip_prefix("  ")?.split_whitespace().next())
        .filter(|name| *name != "help" && help.contains(&format!("\n  {name}")))
        .collect();
    assert!(commands.len() >= 14, "{commands:?}");
    let folder = clone();
    for name in commands {
        for flag in ["--help", "-h"] {
            let help = printed(&toeline(&[name, flag]).assert().success());
            let examples =
                help.split("Examples:\n").nth(1).unwrap_or_else(|| panic!("{name} {flag} has none"));
            let examples: Vec<&str> = examples.lines().map_while(|line| line.strip_prefix("  ")).collect();
            assert_eq!(examples.len(), 2, "{name} {flag}: {examples:?}");
            assert!(examples.iter().all(|line| line.starts_with(&format!("toeline {name}"))), "{examples:?}");
            if flag == "-h" {
                continue;
            }
            for line in examples {
                assert!(line.len() <= 78, "{line}");
                run(&folder, line);
            }
        }
    }
}

#[test]
fn without_a_command_it_greets_and_says_what_to_type() {
    let greeting = printed(&toeline(&[]).assert().success());
    assert_eq!(greeting.lines().count(), 6);
    let folder = Folder::new();
    for line in greeting.lines().filter_map(|line| line.strip_prefix("  ")) {
        // What it does stands behind it, some spaces away.
        run(&folder, line.split("   ").next().expect("split gives one part at least"));
    }
}

#[test]
fn no_link_is_broken() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut pages = vec!["README.md".to_owned(), "DEVELOPERS.md".to_owned(), "sessions/README.md".to_owned()];
    for entry in fs::read_dir(root.join("crates/toeline/reference")).expect("it is there") {
        let name = entry.expect("it can be read").file_name();
        pages.push(format!("crates/toeline/reference/{}", name.to_string_lossy()));
    }
    let mut links = 0;
    for page in pages {
        let path = root.join(&page);
        let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{page}: {error}"));
        let inline = text.split("](").skip(1).filter_map(|rest| rest.split(')').next());
        let pictures = text.split("src=\"").skip(1).filter_map(|rest| rest.split('"').next());
        for link in inline.chain(pictures).filter(|link| !link.contains("://")) {
            let file = link.split('#').next().unwrap_or(link);
            let to = path.parent().expect("it is in a folder").join(file);
            assert!(to.exists(), "{page} links to {link}");
            links += 1;
        }
    }
    assert!(links > 12, "only {links} links");
}

#[test]
fn the_error_shown_is_the_error_told() {
    toeline(&["plan", "200 in lane 1", "--closed", "1"])
        .assert()
        .code(2)
        .stderr_eq(blocks(&reference("workouts"), "text")[0].clone());
}

#[test]
fn the_notation_shown_is_that_of_the_screen() {
    let screen = printed(&toeline(&["notation"]).assert().success());
    let shown = &blocks(&reference("workouts"), "notation")[0];
    assert!(shown.lines().count() >= 6);
    for line in shown.lines() {
        assert!(screen.lines().any(|told| told == line), "{line}");
    }
}

#[test]
fn the_files_shown_can_be_used() {
    let folder = Folder::with("session.yaml", &blocks(&reference("session-file"), "yaml")[0]);
    folder.write("track.yaml", &blocks(&reference("track-file"), "yaml")[0]);
    folder.toeline(&["plan", "session.yaml"]).assert().success();
    folder.write("notes.txt", &blocks(&reference("workouts"), "notes")[0]);
    folder.toeline(&["plan", "notes.txt"]).assert().success();
    folder.toeline(&["session", "notes.txt", "--out", "tuesday.yaml"]).assert().success();
    folder.toeline(&["plan", "tuesday.yaml"]).assert().success();
    let between = ["--lane", "2", "--from", "gate line", "--to", "finish line"];
    folder.toeline(&[&["measure", "--track", "track.yaml"], &between[..]].concat()).assert().success();
}

#[test]
fn the_kinds_of_file_are_those_of_the_program() {
    let rows = plan_sheet::FORMATS.iter().map(|format| {
        let name = format.name.map_or_else(String::new, |name| format!("`{name}`"));
        format!("| `.{}` | {name} | {} | {} |\n", format.ending, format.what, format.answers())
    });
    let rows: String = rows.collect();
    let head = "| ending | `--format` | what it is | of |\n|---|---|---|---|\n";
    assert!(reference("commands").contains(&format!("{head}{rows}\n")), "{rows}");
}

#[test]
fn the_limits_are_those_of_the_program() {
    let page = reference("limits");
    for limit in session_plan::Limit::ALL {
        let row = format!("\n| {} | {} |\n", limit.most(), limit.words());
        assert!(page.contains(&row), "{row}");
    }
}

#[test]
fn every_page_of_the_reference_is_in_the_readme_and_in_the_manual() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("crates/toeline/reference");
    let help = printed(&toeline(&["manual", "--help"]).assert().success());
    for entry in fs::read_dir(folder).expect("it is there") {
        let file = entry.expect("it can be read").file_name();
        let name = file.to_str().and_then(|name| name.strip_suffix(".md")).expect("it is Markdown");
        assert!(README.contains(&format!("[{name}](crates/toeline/reference/{name}.md)")), "{name}");
        assert!(
            help.split(|letter: char| ",. \n".contains(letter)).any(|word| word == name),
            "{name}: {help}"
        );
        let page = printed(&toeline(&["manual", name]).assert().success());
        assert!(page.contains(&format!(".TH toeline-{name} 7")), "{page}");
    }
}
