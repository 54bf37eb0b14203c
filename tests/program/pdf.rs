//! Printed sheets, read back with poppler's tools (Debian's package poppler-utils), which share no code
//! with what writes them.

use std::fs;
use std::path::{Path, PathBuf};

use crate::answer::{json, list};
use crate::drawn::DRAWN;
use crate::folder::Folder;
use crate::picture::assert_like_kept;
use crate::poppler::{Page, Word, needs_poppler, pages, poppler};
use crate::run::toeline;
use crate::said::said;
use crate::wrenbeck::{WRENBECK, session};
use resvg::tiny_skia::Pixmap;
use roxmltree::{Document, Node};
use serde_json::Value;
use snapbox::str;

/// Runs the program with `--out` for a new file, and gives that file in its folder.
pub(crate) fn print(arguments: &[&str], name: &str) -> (Folder, PathBuf) {
    let folder = Folder::new();
    let out = folder.at(name);
    toeline(&[arguments, &["--out", &out]].concat()).assert().success().stdout_eq(str![]).stderr_eq(str![]);
    (folder, out.into())
}

/// The text in the order in which it was written, so that a cell of a table stays together; without
/// the line ends, which are a matter of width.
pub(crate) fn text(path: &Path) -> String {
    squeezed(&poppler("pdftotext", &["-raw"], path, &["-"]))
}

/// Without white space, and without the marks that let a long word break.
fn squeezed(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace() && *letter != '\u{200b}').collect()
}

/// All the words stand in a text that is squeezed.
fn assert_printed(text: &str, words: impl IntoIterator<Item = impl AsRef<str>>, of: &str) {
    for words in words {
        let words = words.as_ref();
        assert!(text.contains(&squeezed(words)), "{of}: `{words}` is missing");
    }
}

/// Everything that can be printed.
const ALL: [&str; 2] = ["--with", "cards,lanes,care"];

#[test]
fn letters_that_a_page_may_not_have_are_left_out_of_it() {
    let session = "title: Tuesday\nwind: \"+\u{feff}3\"\nblocks: [6 x 200]\n";
    let folder = Folder::with("s.yaml", session);
    folder.toeline(&["plan", "s.yaml", "--out", "s.pdf"]).assert().success();
    assert!(fs::read(folder.at("s.pdf")).is_ok_and(|file| file.starts_with(b"%PDF")));
}

#[test]
fn everything_that_a_plan_says_is_printed_in_words() {
    needs_poppler!();
    for name in WRENBECK {
        let file = session(name);
        let (_folder, path) = print(&[&["plan", &file][..], &ALL].concat(), "plan.pdf");
        // What is passed is said once, for all blocks that do.
        let said = said(&json(&["plan", &file])).into_iter();
        assert_printed(&text(&path), said.map(|words| words.replace("Passes ", "")), name);
    }
}

/// How many pages each session of the demonstration takes.
const PAGES: [(&str, usize); 8] = [
    ("monday-two-groups", 2),
    ("tuesday-sprints", 2),
    ("wednesday-hurdles-and-relay", 1),
    ("thursday-middle-distance", 2),
    ("friday-starts", 2),
    ("saturday-alone", 1),
    ("saturday-club-evening", 4),
    ("sunday-easy", 1),
];

/// One page is enough to stand on the track with: the map, the blocks with their times, lanes and places, the walk, and
/// what to heed. The times of a squad are taken on the next ones.
#[test]
fn the_first_page_has_what_a_session_is_run_by() {
    needs_poppler!();
    for (name, count) in PAGES {
        let file = session(name);
        let (_folder, path) = print(&["plan", &file], "plan.pdf");
        let pages = pages(&path);
        check_pages(name, &pages);
        assert_eq!(pages.len(), count, "{name}");
        let first = squeezed(&poppler("pdftotext", &["-raw", "-l", "1"], &path, &["-"]));
        let plan = json(&["plan", &file]);
        let words = |value: &Value| value.as_str().expect("it is text").to_owned();
        let mut printed = vec![words(&plan["title"]), "Distances assume the measure line.".to_owned()];
        printed.extend(list(&plan["notes"]).iter().map(words));
        let cones = list(&plan["setup"]);
        let is_one_lane =
            cones.len() > 1 && cones.iter().all(|cone| cone["spot"]["lane"] == cones[0]["spot"]["lane"]);
        for cone in cones {
            let place = words(&cone["spot"]["words"]);
            printed.push(place.clone());
            if is_one_lane {
                printed.push(format!("{}{place}", cone["order"]));
            }
        }
        for (number, block) in (1..).zip(list(&plan["blocks"])) {
            printed.push(format!("{number}{}", words(&block["reading"])));
            for rep in list(&block["reps"]) {
                printed.extend(list(&rep["athletes"]).iter().map(words));
                printed.extend(rep["go"].as_str().map(|go| go[go.len() - 5..].to_owned()));
                for end in ["start", "finish"] {
                    printed.push(words(&rep[end]["words"]));
                }
            }
        }
        assert_printed(&first, printed, name);
        if count > 1 {
            let boxes = squeezed(&poppler("pdftotext", &["-raw", "-f", "2", "-l", "2"], &path, &["-"]));
            assert!(boxes.contains("rep1"), "{name}: boxes for the times on page 2: {boxes}");
        }
    }
}

#[test]
fn what_is_asked_for_is_added() {
    needs_poppler!();
    let file = session("tuesday-sprints");
    let (_folder, path) = print(&["plan", &file], "plan.pdf");
    let plain = text(&path);
    for (part, words) in [
        ("cards", vec!["repgolanetargetresttime", "118:20:0058.2s3:00"]),
        ("lanes", vec!["From start to finish, lane by lane", "finish: on the finish line", "170 m left out"]),
        (
            "care",
            vec![
                "On this track",
                "Run through the finish; step off to the right.",
                "Venue rules and staff come first.",
            ],
        ),
    ] {
        let (_folder, path) = print(&["plan", &file, "--with", part], "plan.pdf");
        let text = text(&path);
        check_pages(part, &pages(&path));
        assert_printed(&text, &words, part);
        assert!(words.iter().any(|words| !plain.contains(&squeezed(words))), "{part} is not printed unasked");
    }
    for (out, given) in [(&["--out", "plan.html"][..], "`plan.html`"), (&[], "standard output")] {
        toeline(&[&["plan", &file, "--with", "cards"], out].concat()).assert().code(2).stderr_eq(format!(
            "error: `--with` adds pages to a .pdf or .png sheet, not to {given}; write for example `--out plan.pdf`\n"
        ));
    }
}

#[test]
fn a_week_has_its_table_first_and_a_page_for_each_session() {
    needs_poppler!();
    let (_folder, path) = print(&["week", "sessions/wrenbeck"], "week.pdf");
    assert_eq!(pages(&path).len(), 1 + WRENBECK.len());
    let page = |number: usize| {
        let number = number.to_string();
        squeezed(&poppler("pdftotext", &["-raw", "-f", &number, "-l", &number], &path, &["-"]))
    };
    let week = json(&["week", "sessions/wrenbeck"]);
    let first = page(1);
    assert_printed(&first, ["The week at a glance, Monday 12 April to Sunday 18 April 2027"], "the title");
    for entry in list(&week["entries"]) {
        let short =
            list(&entry["runs"]).iter().map(|runs| runs["short"].as_str().expect("it is text").to_owned());
        let metres = entry["load"]["metres"].as_f64().expect("it is a number");
        assert_printed(&first, short.chain([format!("{metres:.0}")]), "the table");
        for band in list(&entry["load"]["bands"]) {
            let metres = band["metres"].as_f64().expect("it is a number");
            assert_printed(&first, (metres > 0.0).then(|| format!("{metres:.0}")), "the metres by pace");
        }
    }
    let titles: Vec<String> =
        WRENBECK.iter().map(|name| json(&["plan", &session(name)])["title"].to_string()).collect();
    for number in 2..=1 + WRENBECK.len() {
        let own = page(number);
        let named = titles.iter().filter(|title| own.starts_with(&squeezed(title.trim_matches('"'))));
        assert_eq!(named.count(), 1, "a session has page {number}");
    }
}

/// Forty athletes and twelve blocks of ten distances, so that most of the track is crowded, with names and notes that are longer than any column.
fn large_session() -> String {
    let names = (1..=40).map(|number| match number {
        7 => "Quillingworthshirebottomleyhampstonefieldingworthyness".to_owned(),
        8 => "Anastasia-Wilhelmina von Hohenbrunn-Lichtenau zu Unterweiler".to_owned(),
        9 => "W".repeat(40),
        number => format!("Athlete {number}"),
    });
    let athletes: Vec<String> = names.map(|name| format!("{{ name: {name}, target: 40 }}")).collect();
    let mut text = format!(
        "title: A large evening of the whole club with everybody who can come and a title that takes two lines\n\
         date: 2027-04-20\nhours: 14:00-23:00\nbetween_blocks: 5min\ncones: every spot\n\
         wind: gusty, first from behind on the home straight, later across the bends and against on the back\n\
         notes:\n  - {}\n  - {}\n\
         squad: {{ mode: one to a lane }}\n\
         groups:\n  - name: everybody who came on the day, with those who were late and those who were early\n    \
         athletes: [{}]\nblocks:\n",
        "word ".repeat(60).trim(),
        "unbroken".repeat(30),
        athletes.join(", ")
    );
    for block in [
        "warm-up 20 min with everything that belongs to it, in small groups, on the grass behind the stand",
        "2 x 60 in lanes 1-8 @ 10 rest 2min",
        "1 x 80 in lanes 1-8 @ 12 rest 2min",
        "1 x 100 in lanes 1-8 @ 15 rest 2min",
        "1 x 120 in lanes 1-8 @ 18 rest 2min",
        "2 x 150 in lanes 1-8 @ 25 rest 2min",
        "1 x 180 in lanes 2-8 @ 30 rest 2min",
        "1 x 200 in lanes 1-8 @ 33 rest 2min",
        "1 x 250 in lanes 1-8 @ 45 rest 2min",
        "1 x 300 in lanes 2-8 @ 60 rest 2min",
        "1 x 400 in lanes 1-8 @ 90 rest 2min",
        "cool-down 15 min",
    ] {
        text += &format!("  - {block}\n");
    }
    text
}

/// The texts of each group of a class on a map, which roxmltree reads.
fn groups(map: &Path, class: &str) -> Vec<Vec<String>> {
    let map = fs::read_to_string(map).expect("it was written");
    let document = Document::parse(&map).expect("it is XML");
    let of_class = document.descendants().filter(|node| node.attribute("class") == Some(class));
    let texts = |group: Node<'_, '_>| {
        let texts = group.descendants().filter(|node| node.has_tag_name("text"));
        texts.filter_map(|text| Some(text.text()?.to_owned())).collect()
    };
    of_class.map(texts).collect()
}

/// The first text of each group of a class on a map.
fn headings(map: &Path, class: &str) -> Vec<String> {
    groups(map, class).into_iter().map(|texts| texts[0].clone()).collect()
}

#[test]
fn every_lane_is_printed_at_both_ends() {
    needs_poppler!();
    let sessions = WRENBECK.map(session);
    let others = ["3 x 400 in lanes 1-4".to_owned(), "2 x 2000 in lane 2".to_owned()];
    for what in sessions.iter().chain(&others) {
        let (_folder, map) = print(&["plan", what], "map.svg");
        let strips = groups(&map, "strip");
        assert!(!strips.is_empty(), "{what} has runs");
        // The words of an end take several lines, of which the first is enough here.
        let ends = strips
            .iter()
            .flatten()
            .filter(|words| words.starts_with("start: ") || words.starts_with("finish: "));
        for paper in ["a4", "letter"] {
            let (_folder, path) = print(&["plan", what, "--paper", paper, "--with", "lanes"], "plan.pdf");
            check_pages(what, &pages(&path));
            assert_printed(&text(&path), ends.clone(), &format!("{what}, {paper}"));
        }
    }
}

#[test]
fn the_middle_of_a_long_lane_is_left_out() {
    needs_poppler!();
    let (_folder, path) = print(&["plan", "3 x 400 in lane 2", "--with", "lanes"], "plan.pdf");
    let parts = ["Block 1: 400 m, lane 2 (1 of 2)", "320 m left out", "(2 of 2)"];
    assert_printed(&text(&path), parts, "a long lane");
}

/// A millimetre in points.
const MM: f64 = 72.0 / 25.4;

/// The height of a word's box in Open Sans of size 1: from 0.765 above the base line to 0.240 below it
/// (the typeface's own table `OS/2`).
const LINE: f64 = 1.005;

fn is_over(a: &Word, b: &Word) -> bool {
    const TOUCH: f64 = 0.2;
    let overlap = |a: [f64; 2], b: [f64; 2]| a[0] + TOUCH < b[1] && b[0] + TOUCH < a[1];
    overlap(a.x, b.x) && overlap(a.y, b.y)
}

fn check_pages(name: &str, pages: &[Page]) {
    for (number, page) in (1..).zip(pages) {
        for (index, word) in page.words.iter().enumerate() {
            let size = (word.y[1] - word.y[0]) / LINE;
            assert!(size > 7.95, "{name}, page {number}: `{}` is set in {size:.2} pt", word.text);
            let margin = 7.0 * MM;
            let is_inside = word.x[0] >= margin
                && word.x[1] <= page.width - margin
                && word.y[0] >= margin
                && word.y[1] <= page.height - margin;
            assert!(is_inside, "{name}, page {number}: {word:?} leaves the page");
            let over = page.words[index + 1..].iter().find(|other| is_over(word, other));
            assert!(over.is_none(), "{name}, page {number}: {word:?} lies over {over:?}");
        }
    }
}

#[test]
fn forty_athletes_and_twelve_blocks_print_with_nothing_clipped_or_overlapping() {
    needs_poppler!();
    let folder = Folder::with("large.yaml", large_session());
    let file = &folder.at("large.yaml");
    let plan = json(&["plan", file]);
    let (_folder, map) = print(&["plan", file], "map.svg");
    let insets = headings(&map, "inset");
    assert!(insets.len() > 6, "{insets:?}");
    for paper in ["a4", "letter"] {
        let (_folder, path) = print(&[&["plan", file, "--paper", paper][..], &ALL].concat(), "plan.pdf");
        let pages = pages(&path);
        check_pages(paper, &pages);
        let text = text(&path);
        assert_printed(&text, &insets, &format!("{paper}: what is magnified"));
        assert_printed(&text, said(&plan).iter().map(|words| words.replace("Passes ", "")), paper);
    }
}

#[test]
fn the_demonstration_prints_on_both_papers_with_nothing_clipped_or_overlapping() {
    needs_poppler!();
    for (paper, size) in [("a4", [595.28, 841.89]), ("letter", [612.0, 792.0])] {
        let (_folder, path) = print(&["week", "sessions/wrenbeck", "--paper", paper], "week.pdf");
        let text = text(&path);
        let at = |day: &str| text.find(&squeezed(day)).unwrap_or_else(|| panic!("no {day}"));
        assert!(at("Monday 12 April 2027") < at("Tuesday 13 April 2027"), "the days are in order");
        assert!(at("Tuesday 13 April 2027") < at("Friday 16 April 2027"), "the days are in order");
        let pages = pages(&path);
        check_pages(paper, &pages);
        for page in &pages {
            // ISO 216 and ANSI/ASME Y14.1, in points.
            assert!((page.width - size[0]).abs() < 0.1 && (page.height - size[1]).abs() < 0.1, "{page:?}");
        }
    }
}

/// So many pages of a session have a kept picture at most; more would be much to keep.
const KEPT: usize = 4;

#[test]
fn pages_look_like_the_kept_pictures() {
    needs_poppler!();
    for name in WRENBECK {
        let (folder, path) = print(&["plan", &session(name)], "plan.pdf");
        let count = pages(&path).len().min(KEPT);
        let root = folder.at("page");
        for number in 1..=count {
            let (page, root) = (number.to_string(), format!("{root}-{number}"));
            let only = ["-r", "60", "-gray", "-png", "-singlefile", "-f", &page, "-l", &page];
            poppler("pdftoppm", &only, &path, &[&root]);
            let picture = Pixmap::load_png(format!("{root}.png")).expect("it is a picture");
            assert_like_kept(&format!("sheet-{name}-{number}"), &picture, DRAWN);
        }
        let next = format!("tests/reference/pictures/sheet-{name}-{}.png", count + 1);
        assert!(!Path::new(env!("CARGO_MANIFEST_DIR")).join(&next).exists(), "{next} was a page once");
    }
}

#[test]
fn pages_are_numbered_with_the_title_of_the_session() {
    needs_poppler!();
    let (_folder, path) = print(&["plan", &session("tuesday-sprints")], "plan.pdf");
    let count = pages(&path).len();
    let first = squeezed(&poppler("pdftotext", &["-raw", "-l", "1"], &path, &["-"]));
    assert!(first.ends_with(&squeezed(&format!("Wrenbeck sprinters, Tuesday page 1 of {count}"))), "{first}");
}

#[test]
fn a_lone_workout_takes_one_page() {
    needs_poppler!();
    for workout in [
        "6 x 200 in lane 2",
        "4 x 150 in lanes 2-5",
        "5 x 1000 @ 3:30 rest 2min",
        "110h",
        "12 x 400 @ 80 rest 60s",
    ] {
        for paper in ["a4", "letter"] {
            let (_folder, path) = print(&["plan", workout, "--paper", paper], "plan.pdf");
            let pages = pages(&path);
            check_pages(workout, &pages);
            assert_eq!(pages.len(), 1, "{workout}, {paper}");
        }
    }
}

#[test]
fn the_file_is_tagged_and_says_what_it_is() {
    needs_poppler!();
    let (_folder, path) = print(&["plan", &session("tuesday-sprints")], "plan.pdf");
    let info = poppler("pdfinfo", &["-isodates"], &path, &[]);
    let value = |key: &str| {
        let line = info.lines().find_map(|line| line.strip_prefix(key)?.strip_prefix(':'));
        line.map(str::trim).unwrap_or_else(|| panic!("no {key} in {info}"))
    };
    assert_eq!(value("Title"), "Wrenbeck sprinters, Tuesday");
    assert_eq!(value("Tagged"), "yes");
    // The day of the plan, not of the clock.
    assert!(value("CreationDate").starts_with("2027-04-13"), "{info}");
    assert_eq!(value("Page size"), "595.276 x 841.89 pts (A4)");
    let metadata = poppler("pdfinfo", &["-meta"], &path, &[]);
    assert!(metadata.contains("<pdfuaid:part>1</pdfuaid:part>"), "PDF/UA-1 (ISO 14289-1): {metadata}");
    assert!(metadata.contains("<rdf:li>en-GB</rdf:li>"), "the language: {metadata}");
    let structure = poppler("pdfinfo", &["-struct"], &path, &[]);
    for element in ["Document", "H1", "H2", "Table", "TH", "TD", "L", "LI", "Figure"] {
        let is_there = structure.lines().any(|line| {
            line.split_whitespace().next().is_some_and(|word| word.trim_end_matches(':') == element)
        });
        assert!(is_there, "no {element} in {structure}");
    }
    let fonts = poppler("pdffonts", &[], &path, &[]);
    for line in fonts.lines().skip(2) {
        assert!(line.contains("OpenSans") || line.contains("DejaVuSans"), "{line}");
        assert!(line.contains(" yes yes yes "), "embedded, a subset, and with its letters known: {line}");
    }
}

#[test]
fn the_same_plan_gives_the_same_bytes() {
    let file = session("thursday-middle-distance");
    let [(_one, first), (_other, second)] = [0, 1].map(|_| print(&["plan", &file], "plan.pdf"));
    assert!(fs::read(first).expect("it was written") == fs::read(second).expect("it was written"));
}

#[test]
fn what_looks_like_markup_is_printed_as_text() {
    needs_poppler!();
    let names = [
        "<script>alert(1)</script>",
        "#include \"x.typ\"",
        "*bold* _slant_",
        "$x^2$",
        "back\\slash",
        "@reference",
        "= heading",
        "`code` // comment",
        "#panic()",
    ];
    let session = serde_json::json!({
        "title": "#set page(width: 1mm) <title>",
        "notes": ["#read(\"/etc/hosts\") *note*"],
        "wind": "$ wind $",
        "groups": [{ "name": "~group~ #1", "athletes": names }],
        "blocks": ["2 x 200 @ 40 rest 3min"],
    });
    let folder = Folder::with("names.yaml", session.to_string());
    let (_folder, path) = print(&["plan", &folder.at("names.yaml")], "plan.pdf");
    let text = text(&path);
    assert_printed(&text, names, "names");
    assert_printed(
        &text,
        ["#set page(width: 1mm) <title>", "#read(\"/etc/hosts\") *note*", "$ wind $", "~group~ #1"],
        "other words",
    );
}

#[test]
fn letters_that_no_typeface_has_are_named() {
    needs_poppler!();
    let session = "{ title: Names, groups: [{ name: all, athletes: [Łucja, Θάλεια, 山田] }], \
                   blocks: [2 x 200 @ 40 rest 3min] }";
    let folder = Folder::with("names.yaml", session);
    folder.toeline(&["plan", "names.yaml", "--out", "plan.pdf"]).assert().success().stderr_eq(str![[r#"
note: the sheet's typefaces lack these letters; they print as boxes: 山田

"#]]);
    let text = text(&folder.path().join("plan.pdf"));
    assert!(text.contains("Łucja") && text.contains("Θάλεια"), "{text}");
    // The sheet says so, too, once.
    let said = "Lettersshownasboxesaremissingfromthissheet";
    assert_eq!(text.matches(said).count(), 1, "{text}");
}

#[test]
fn a_title_of_many_lines_takes_one_at_the_foot() {
    needs_poppler!();
    let title = "An evening with everybody who can come ".repeat(5);
    let session = format!(
        "{{ title: {title}, groups: [{{ name: {title}, athletes: [Ada, Ben] }}], blocks: [2 x 200 @ 40 rest 3min] }}"
    );
    let folder = Folder::with("long.yaml", session);
    let (_folder, path) = print(&["plan", &folder.at("long.yaml")], "plan.pdf");
    let pages = pages(&path);
    check_pages("a long title", &pages);
    for page in &pages[..2] {
        let foot = page.words.iter().filter(|word| word.y[0] > page.height - 17.0 * MM);
        let mut lines: Vec<i64> = foot.map(|word| word.y[0].round() as i64).collect();
        lines.dedup();
        assert_eq!(lines.len(), 1, "the foot of a page has one line");
    }
    let text = text(&path);
    assert!(text.contains(&squeezed(&title)), "the first page has all of it");
    assert!(text.contains("…page1of"), "the foot says that there is more: {text}");
}

#[test]
fn pictures_are_the_pages_at_144_dots_an_inch() {
    let lone = ["plan", "6 x 200 in lane 2", "--paper", "letter", "--with", "lanes,care"];
    let (folder, path) = print(&lone, "plan.png");
    for path in [path, folder.path().join("plan-2.png"), folder.path().join("plan-3.png")] {
        let bytes = fs::read(&path).expect("it was written");
        assert!(bytes.starts_with(b"\x89PNG\r\n\x1a\n"), "the signature of ISO/IEC 15948");
        let number = |at: usize| u32::from_be_bytes([0, 1, 2, 3].map(|index| bytes[at + index]));
        assert_eq!((number(16), number(20)), (1224, 1584), "8.5 by 11 inches");
    }
    assert!(!folder.path().join("plan-4.png").exists());
}

#[test]
fn a_page_of_an_earlier_longer_plan_is_named() {
    let (folder, path) = print(&["plan", "6 x 200 in lane 2"], "plan.png");
    let second = folder.path().join("plan-2.png");
    fs::write(&second, "ours").expect("the folder can be written");
    toeline(&["plan", "6 x 200 in lane 2", "--out", "plan.png"])
        .current_dir(path.parent().expect("it is in a folder"))
        .assert()
        .success()
        .stderr_eq(str![[r#"
note: `plan-2.png` belongs to another plan and was left alone: this plan has 1 page

"#]]);
    assert_eq!(fs::read_to_string(second).expect("it is still there"), "ours");
}

#[test]
fn an_answer_without_a_plan_has_no_sheet() {
    for ending in ["pdf", "png"] {
        let name = format!("lanes.{ending}");
        toeline(&["lanes", "--out", &name]).assert().code(2).stderr_eq(format!(
            "error: a .{ending} file needs a plan, and this answer has none; end the name in .txt, .json or .csv\n"
        ));
    }
}

/// The address that a code on a page leads to, as an independent reader of codes finds it.
fn scanned(path: &Path, page: &str) -> Vec<String> {
    let folder = Folder::new();
    let root = folder.at("page");
    poppler(
        "pdftoppm",
        &["-r", "150", "-gray", "-png", "-singlefile", "-f", page, "-l", page],
        path,
        &[&root],
    );
    let picture = Pixmap::load_png(format!("{root}.png")).expect("it is a picture");
    let grey = |x: usize, y: usize| picture.pixel(x as u32, y as u32).expect("it is within").red();
    let (width, height) = (picture.width() as usize, picture.height() as usize);
    let mut page = rqrr::PreparedImage::prepare_from_greyscale(width, height, grey);
    page.detect_grids().iter().map(|code| code.decode().expect("it can be read").1).collect()
}

#[test]
fn the_first_page_has_a_code_of_where_the_page_is_published() {
    needs_poppler!();
    let long = format!("https://example.org/{}", "a".repeat(180));
    for address in ["https://example.org/tuesday.html", &long] {
        let text = format!("{{ title: Tuesday, page: '{address}', blocks: [6 x 200 in lane 2] }}");
        let folder = Folder::with("tuesday.yaml", text);
        let file = folder.at("tuesday.yaml");
        let other = "http://example.org/b?c=d&e=%20#f";
        for (arguments, address) in
            [(vec!["plan", &file], address), (vec!["plan", &file, "--page-address", other], other)]
        {
            let (_folder, path) = print(&arguments, "plan.pdf");
            let own = pages(&path);
            check_pages(address, &own);
            assert_eq!(own.len(), 1);
            assert_eq!(scanned(&path, "1"), [address]);
            assert_printed(
                &squeezed(&poppler("pdftotext", &["-raw"], &path, &["-"])),
                [address],
                "beside the code",
            );
            let structure = poppler("pdfinfo", &["-struct-text"], &path, &[]);
            assert!(structure.matches("Figure").count() == 2, "the map and the code: {structure}");
        }
        assert_eq!(json(&["plan", &file])["page"], address);
    }
    let (_folder, path) = print(&["plan", "6 x 200 in lane 2"], "plan.pdf");
    assert_eq!(scanned(&path, "1"), [""; 0], "without an address there is no code");
}
