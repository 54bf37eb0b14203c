//! Printed sheets, read back with poppler's tools (Debian's package poppler-utils), which share no code
//! with what writes them.

use std::fs;
use std::path::{Path, PathBuf};

use crate::answer::{json, list};
use crate::folder::Folder;
use crate::picture::assert_like_kept;
use crate::poppler::{Page, Word, needs_poppler, pages, poppler};
use crate::run::toeline;
use crate::said::said;
use crate::wrenbeck::{WRENBECK, session};
use resvg::tiny_skia::Pixmap;
use roxmltree::{Document, Node};
use snapbox::str;

/// Runs the program with `--out` for a new file, and gives that file in its folder.
fn print(arguments: &[&str], name: &str) -> (Folder, PathBuf) {
    let folder = Folder::new();
    let out = folder.at(name);
    toeline(&[arguments, &["--out", &out]].concat()).assert().success().stdout_eq(str![]).stderr_eq(str![]);
    (folder, out.into())
}

/// The text in the order in which it was written, so that a cell of a table stays together; without
/// the line ends, which are a matter of width.
fn text(path: &Path) -> String {
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

#[test]
fn every_place_of_the_demonstration_is_printed_in_words() {
    needs_poppler!();
    for name in WRENBECK {
        let file = session(name);
        let (_folder, path) = print(&["plan", &file], "plan.pdf");
        let text = text(&path);
        let plan = json(&["plan", &file]);
        assert_printed(&text, said(&plan), name);
        for cone in list(&plan["setup"]) {
            let words = cone["spot"]["words"].as_str().expect("it is text");
            let lane = &cone["spot"]["lane"];
            let row = squeezed(&format!("{}{lane}{words}", cone["order"]));
            assert!(text.contains(&row), "{name}: the walk lacks `{row}`");
        }
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

/// All that the map says of a lane is on paper, where one that is longer than a page is cut.
#[test]
fn every_lane_is_printed_from_start_to_finish() {
    needs_poppler!();
    let sessions = WRENBECK.map(session);
    let others = ["3 x 400 in lanes 1-4".to_owned(), "2 x 2000 in lane 2".to_owned()];
    for what in sessions.iter().chain(&others) {
        let (_folder, map) = print(&["plan", what], "map.svg");
        let strips = groups(&map, "strip");
        assert!(!strips.is_empty(), "{what} has runs");
        for paper in ["a4", "letter"] {
            let (_folder, path) = print(&["plan", what, "--paper", paper], "plan.pdf");
            check_pages(what, &pages(&path));
            let text = text(&path);
            assert_printed(&text, strips.iter().flatten(), &format!("{what}, {paper}"));
        }
    }
}

#[test]
fn a_lane_that_is_longer_than_a_page_is_cut_in_two() {
    needs_poppler!();
    let (_folder, path) = print(&["plan", "3 x 400 in lane 2", "--paper", "letter"], "plan.pdf");
    let text = text(&path);
    let parts = ["Block 1: 400 m, lane 2 (1 of 2)", "goes on in part 2", "(2 of 2)", "comes from part 1"];
    assert_printed(&text, parts, "a long lane");
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
    let strips = groups(&map, "strip");
    assert!(strips.len() > 60, "there are {} lanes", strips.len());
    for paper in ["a4", "letter"] {
        let (_folder, path) = print(&["plan", file, "--paper", paper], "plan.pdf");
        let pages = pages(&path);
        check_pages(paper, &pages);
        let text = text(&path);
        assert_printed(&text, &insets, &format!("{paper}: what is magnified"));
        assert_printed(&text, strips.iter().flatten(), &format!("{paper}: what is said of a lane"));
        assert_printed(&text, said(&plan), paper);
        // Each athlete's cards are numbered, and none is missing.
        assert!(
            (2..9).any(|count| text.contains(&format!("1of{count}"))),
            "so much does not fit on one card"
        );
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
            assert_like_kept(&format!("sheet-{name}-{number}"), &picture);
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
fn a_lone_workout_takes_two_pages_and_one_for_the_lane_unrolled() {
    needs_poppler!();
    let (_folder, path) = print(&["plan", "6 x 200 in lane 2"], "plan.pdf");
    assert_eq!(pages(&path).len(), 3);
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
        "{{ title: {title}, groups: [{{ name: {title}, athletes: [Ada] }}], blocks: [2 x 200 @ 40 rest 3min] }}"
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
    let (folder, path) = print(&["plan", "6 x 200 in lane 2", "--paper", "letter"], "plan.png");
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
    let fourth = folder.path().join("plan-4.png");
    fs::write(&fourth, "ours").expect("the folder can be written");
    toeline(&["plan", "6 x 200 in lane 2", "--out", "plan.png"])
        .current_dir(path.parent().expect("it is in a folder"))
        .assert()
        .success()
        .stderr_eq(str![[r#"
note: `plan-4.png` belongs to another plan and was left alone: this plan has 3 pages

"#]]);
    assert_eq!(fs::read_to_string(fourth).expect("it is still there"), "ours");
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
