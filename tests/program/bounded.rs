//! Work is bounded: a file that is too much is refused by a sentence that names the limit, in little memory.

use crate::answer::told;
use crate::folder::Folder;
use crate::run::program;

/// What a run may take up, in kB of address space: the program itself, and 200 MB.
const MOST_KB: u32 = 260_000;

/// How long a run may keep a core busy, in seconds: several times what a release needs, as other builds are slower.
const MOST_S: u32 = 5;

/// What is said of a file that is refused, by a program that can have no more memory and time than this.
fn refused(name: &str, text: &str) -> String {
    let folder = Folder::with(name, text);
    let script = format!(r#"ulimit -v {MOST_KB}; ulimit -t {MOST_S}; exec "$0" check "$1""#);
    let shell = snapbox::cmd::Command::new("sh").args(["-c", &script]).arg(program()).arg(name);
    let told = told(&shell.current_dir(folder.path()).env("NO_COLOR", "1").assert().code(2));
    assert!(told.len() < 30_000, "{} bytes of errors", told.len());
    assert!(told.matches("\nerror: ").count() < 50, "{told}");
    told
}

const TRACK: &str = "name: T
path: [{ radius: 36.50, turn: 180 }, { straight: 84.39 }, { radius: 36.50, turn: 180 }, { straight: 84.39 }]
lanes: 8
lane_width: 1.22
";

#[test]
fn a_session_that_is_too_much_names_its_limit() {
    let list = |count: usize, item: &str| format!("[{}]", vec![item; count].join(", "));
    let names = |from: usize, to: usize| {
        format!("[{}]", (from..to).map(|n| format!("a{n}")).collect::<Vec<_>>().join(", "))
    };
    let group = |number: usize| format!("  - {{ name: g{number}, athletes: [a{number}], blocks: [200] }}\n");
    let items = "too many items of a list, or keys of a group: at most 1000";
    for (what, text, limit) in [
        (
            "aliases of a long text",
            format!("blocks: [&a \"{}\", {}]\n", "6 x 200 ".repeat(1_200), list(900, "*a")),
            "too many bytes added by aliases (`*name`): at most 1048576",
        ),
        (
            "a text of 500 kB with 100,000 aliases",
            format!("blocks: [&a \"{}\", {}]\n", "6 x 200 ".repeat(62_500), list(100_000, "*a")),
            "too many bytes of one text in a file: at most 10000",
        ),
        (
            "values within values",
            format!("blocks: {}1{}\n", "[".repeat(25), "]".repeat(25)),
            "too many levels of lists and groups of keys: at most 24",
        ),
        (
            "brackets",
            format!("blocks: {}\n", "[".repeat(400_000)),
            "too many levels of lists and groups of keys: at most 24",
        ),
        ("notes on one line", format!("notes: {}\nblocks: [200]\n", list(100_000, "n")), items),
        ("5,000 bad blocks", format!("blocks:\n{}", "  - 6 x 200 in lain 2\n".repeat(5_000)), items),
        ("60,000 drills", format!("blocks:\n{}", "  - drills\n".repeat(60_000)), items),
        ("a key 10,000 times", format!("blocks: [200]\n{}", "date: 2027-04-13\n".repeat(10_000)), items),
        (
            "20,000 athletes",
            format!("groups: [{{ name: g, athletes: {} }}]\nblocks: [200]\n", names(0, 20_000)),
            items,
        ),
        (
            "501 athletes",
            format!(
                "groups: [{{ name: g, athletes: {} }}, {{ name: h, athletes: {} }}]\nblocks: [200]\n",
                names(0, 400),
                names(400, 501)
            ),
            "too many athletes of a session: at most 500",
        ),
        (
            "41 groups",
            format!("groups:\n{}", (0..41).map(group).collect::<String>()),
            "too many groups of a session: at most 40",
        ),
        (
            "201 blocks",
            format!("blocks:\n{}", "  - drills\n".repeat(201)),
            "too many lines of blocks in a session file: at most 200",
        ),
        (
            "501 blocks on four lines",
            format!("blocks:\n{}", format!("  - {}drills\n", "drills; ".repeat(125)).repeat(4)),
            "too many blocks of a session: at most 500",
        ),
        (
            "501 repetitions",
            "blocks: [250 x 200, 251 x 200]\n".to_owned(),
            "the session has more than 500 repetitions",
        ),
        (
            "more runs than anybody watches",
            format!("groups: [{{ name: g, athletes: {} }}]\nblocks: [25 x 200 rest 2min]\n", names(0, 500)),
            "the athletes of the session have more than 12000 runs in all",
        ),
        (
            "a name of 201 letters",
            format!("groups: [{{ name: g, athletes: [{}] }}]\nblocks: [200]\n", "é".repeat(201)),
            "too many characters of a title or a name: at most 200",
        ),
    ] {
        let told = refused("evening.yaml", &format!("title: T\n{text}"));
        assert!(told.contains(&format!("error: {limit}\n")), "{what}: {told}");
    }
}

#[test]
fn a_track_that_is_too_much_names_its_limit() {
    let worn = |count: usize| (0..count).map(|n| format!("    - {{ mark: mark{n} }}\n")).collect::<String>();
    let chain = |count: usize| {
        let mark = |n: usize| {
            format!("    - {{ name: m{}, colour: red, form: tick, for: x, from: m{n}, past: 1 }}\n", n + 1)
        };
        (0..count).map(mark).collect::<String>()
    };
    let row = format!(
        "    - {{ name: \"m {{n}}\", colour: red, form: tick, for: x, to_finish: [{}] }}\n",
        vec!["50"; 600].join(", ")
    );
    for (text, limit) in [
        (
            format!("marks:\n  worn:\n{}", worn(10_000)),
            "too many items of a list, or keys of a group: at most 1000",
        ),
        (format!("marks:\n  worn:\n{}", worn(501)), "too many worn marks of a track: at most 500"),
        (
            format!("marks:\n  own:\n{}", chain(1_000)),
            "too many own marks of a track, each of a row counted: at most 500",
        ),
        (
            format!("marks:\n  own:\n{row}{row}"),
            "too many own marks of a track, each of a row counted: at most 500",
        ),
        (
            format!("hazards:\n{}", "  - { kind: gate, from: 30, to: 26, side: outside }\n".repeat(51)),
            "too many hazards of a track: at most 50",
        ),
    ] {
        let told = refused("track.yaml", &format!("{TRACK}{text}"));
        assert!(told.contains(&format!("error: {limit}\n")), "{told}");
    }
}

#[test]
fn of_many_problems_fifty_are_shown_and_the_others_counted() {
    let shown = |told: &str| told.matches("error: ").count();
    let bad = format!("title: T\nblocks:\n{}", "  - 6 x 200 in lain 2\n".repeat(70));
    let told = refused("evening.yaml", &bad);
    assert_eq!(shown(&told), 50);
    assert!(told.ends_with("note: and 20 more problems in this file\n"), "{told}");
    let told = refused("notes.txt", &"6 x 200 in lain 2\n".repeat(51));
    assert_eq!(shown(&told), 50);
    assert!(told.ends_with("note: and 1 more problem in this file\n"), "{told}");
}

#[test]
fn a_message_cuts_the_long_names_that_it_quotes() {
    let names = vec![format!("[{}, a0]", "z".repeat(150)); 200].join(", ");
    let athletes = (0..300).map(|n| format!("a{n}")).collect::<Vec<_>>().join(", ");
    let text = format!(
        "title: T\ngroups: [{{ name: g, athletes: [{athletes}], relay: [{names}] }}]\nblocks: [200]\n"
    );
    let folder = Folder::with("evening.yaml", text);
    let told = told(&folder.toeline(&["check", "evening.yaml"]).assert().code(2));
    assert!(told.lines().all(|line| line.chars().count() <= 1_100), "{told}");
    assert!(told.contains(" […] "));
}

/// What can be planned may still be more than anybody prints.
#[test]
fn a_plan_that_nobody_would_print_is_refused_on_paper_only() {
    let athletes = (0..300).map(|n| format!("a{n}")).collect::<Vec<_>>().join(", ");
    let text =
        format!("title: T\ngroups: [{{ name: g, athletes: [{athletes}] }}]\nblocks: [21 x 60 rest 2min]\n");
    let folder = Folder::with("evening.yaml", text);
    folder.toeline(&["plan", "evening.yaml", "--out", "plan.csv"]).assert().success();
    for (ending, most) in [("html", 6_000), ("pdf", 2_000), ("png", 800)] {
        let out = format!("plan.{ending}");
        let prints = cfg!(feature = "pdf") && std::env::var_os("TOELINE_PROGRAM").is_none();
        if ending == "html" || prints {
            let told = told(&folder.toeline(&["plan", "evening.yaml", "--out", &out]).assert().code(2));
            let sentence =
                format!("lines is too long: at most {most}; write fewer groups, blocks or sessions");
            assert!(told.contains(&sentence), "{told}");
        }
        assert!(!folder.path().join(out).exists());
    }
}

/// As many repetitions as a session can have: a sheet that once took 28 s and 1.3 GB. The address space holds more than
/// what is used, as each thread sets some aside.
#[cfg(all(unix, feature = "pdf"))]
#[test]
fn as_many_repetitions_as_there_may_be_are_printed_in_little_time_and_memory() {
    if std::env::var_os("TOELINE_PROGRAM").is_some() {
        return;
    }
    let folder = Folder::new();
    let script = r#"ulimit -v 1000000; ulimit -t 20; exec "$0" plan "500 x 200 walk 100" --out "$1""#;
    for out in ["plan.pdf", "plan.png"] {
        let shell = snapbox::cmd::Command::new("sh").args(["-c", script]).arg(program()).arg(out);
        shell.current_dir(folder.path()).assert().success();
        assert!(folder.path().join(out).exists());
    }
}

/// The cards of a squad took three times as long, and twice the memory. They are lines on paper as well.
#[cfg(all(unix, feature = "pdf"))]
#[test]
fn the_cards_of_a_large_squad_are_printed_or_refused() {
    if std::env::var_os("TOELINE_PROGRAM").is_some() {
        return;
    }
    let athletes = (0..40).map(|n| format!("a{n}")).collect::<Vec<_>>().join(", ");
    let squad = |reps: u32| {
        format!(
            "title: T\ngroups: [{{ name: g, athletes: [{athletes}] }}]\nblocks: [{reps} x 60 @ 9s rest 2min, 200]\n"
        )
    };
    let folder = Folder::with("evening.yaml", squad(18));
    let script =
        r#"ulimit -v 1000000; ulimit -t 20; exec "$0" plan evening.yaml --with cards --out plan.pdf"#;
    let shell = snapbox::cmd::Command::new("sh").args(["-c", script]).arg(program());
    shell.current_dir(folder.path()).assert().success();

    let folder = Folder::with("evening.yaml", squad(38));
    folder.toeline(&["plan", "evening.yaml", "--out", "plan.pdf"]).assert().success();
    let print = folder.toeline(&["plan", "evening.yaml", "--with", "cards", "--out", "cards.pdf"]);
    let told = told(&print.assert().code(2));
    let sentence = "at most 2000; write fewer groups, blocks or sessions at a time, or no cards";
    assert!(told.contains(sentence), "{told}");
    assert!(!folder.path().join("cards.pdf").exists());
}

#[test]
fn a_text_of_many_short_lines_or_sentences_is_read_in_little_time() {
    let head = "Tues 6pm\nSprints (Ada, Bo):\n4 x 60\n";
    for part in [
        "7pm DISTANCE\n\n",
        "Juniors, start 18:30\n",
        "Ada\n",
        "1:1, 3x100 tonight\n",
        "Ada out. ",
        "x. ",
        "no Ada, Bo, ",
        "PBs: Ada 400 56, ",
        "Thu 6.15pm; ",
    ] {
        let text = format!("{head}{}", part.repeat(60_000 / part.len()));
        let folder = Folder::with("t.txt", text);
        let script = format!(r#"ulimit -v {MOST_KB}; ulimit -t {MOST_S}; exec "$0" plan t.txt"#);
        let shell = snapbox::cmd::Command::new("sh").args(["-c", &script]).arg(program());
        let run = shell.current_dir(folder.path()).env("NO_COLOR", "1").assert();
        // A plan, or a sentence.
        assert!(
            matches!(run.get_output().status.code(), Some(0 | 2)),
            "{part}: {:?}",
            run.get_output().status
        );
    }
}
