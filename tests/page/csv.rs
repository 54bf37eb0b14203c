//! Times are saved as CSV.

use std::fs;
use std::time::{Duration, Instant};

use crate::browser::{PHONE, Set, Shown, show};
use crate::made::{GROUND, made, made_of};
use crate::stub::STUBS;

/// The times of the session that is on, as the page saves them.
fn saved(page: &Shown) -> Vec<Vec<String>> {
    page.part("times");
    saved_by(page, |page| page.tap("#save"))
}

/// The file that a page saves when something is tapped, read by a reader that is not the page's own (RFC 4180).
pub(crate) fn saved_by(page: &Shown, tap: impl Fn(&Shown)) -> Vec<Vec<String>> {
    let folder = &page.made.folder();
    page.save_downloads_in(folder);
    tap(page);
    let begun = Instant::now();
    let bytes = loop {
        let files = fs::read_dir(folder).expect("the folder can be read").flatten().map(|file| file.path());
        let saved = files.filter(|path| path.extension().is_some_and(|ending| ending == "csv"));
        // The browser keeps the name with an empty file, which it takes away before it puts the whole one there.
        if let Some(bytes) = saved.flat_map(fs::read).find(|bytes| !bytes.is_empty()) {
            break bytes;
        }
        assert!(begun.elapsed() < Duration::from_secs(90), "nothing was saved");
        std::thread::sleep(Duration::from_millis(20));
    };
    let text = bytes.strip_prefix(b"\xef\xbb\xbf").expect("spreadsheets are told that it is UTF-8");
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(false).from_reader(text);
    reader.records().map(|row| row.expect("it is a row").iter().map(str::to_owned).collect()).collect()
}

#[test]
fn every_run_is_a_row_with_its_places_and_its_time() {
    let made = made(&crate::made::SPRINTERS);
    let page = show!(made, PHONE, STUBS);
    page.set_clock(83_000);
    page.type_into("s1-b2-r1-l2-1", "1:08.1");
    // Where a keypad has no colon.
    page.type_into("s1-b2-r1-l1-1", "1.08.2");
    let rows = saved(&page);
    assert_eq!(rows.len(), 1 + 12 + 12 + 6);
    let head = "session,date,track,block,text,group,set,rep,wave,athletes,lane,metres,run_in,start_cone,start,\
                finish_cone,finish,the_other_way,go,target,time,time_s,note,timed_on,timed_at";
    assert_eq!(rows[0].join(","), head);
    let expected = [
        "Wrenbeck sprinters, Tuesday",
        "2027-04-13",
        "Wrenbeck",
        "2",
        "4 x 60 in lanes 5-7 @ 8.2 rest 3min",
        "sprinters",
        "1",
        "1",
        "1",
        "Bela",
        "6",
        "60",
        "",
        "",
        "on the 60 m start line",
        "",
        "on the finish line",
        "",
        "18:20:00",
        "8.2 s",
        "1:08.1",
        "68.1",
        "distances assume the measure line; closed lanes stay closed; look both ways before stepping on; \
         keep clear of throws and jumps; venue rules come first",
        "2027-01-15",
        "08:01:23",
    ];
    assert_eq!(rows[2], expected);
    assert_eq!(rows[1][20..22], ["1.08.2", "68.2"]);
    assert!(rows[3..].iter().all(|row| [20, 21, 23, 24].iter().all(|&cell| row[cell].is_empty())));
}

#[test]
fn no_cell_is_a_formula() {
    let session = r#"
title: "=1+1, or so"
track: track.yaml
groups:
  - name: "@SUM(A1)"
    athletes: ['=HYPERLINK("http://127.0.0.1/")', "+44", "-1", "Anne-Marie \"Ann\", the first"]
blocks: [1 x 100 in lanes 2-5 @ 14]
"#;
    let made = made_of(GROUND, session);
    let page = show!(made, PHONE, Set::default());
    page.type_into("s1-b1-r1-l1-1", "=2+2");
    let rows = saved(&page);
    for cell in rows.iter().flatten() {
        // What spreadsheets take for a formula: OWASP, CSV injection.
        assert!(!cell.starts_with(['=', '+', '-', '@', '\t', '\r']), "{cell}");
    }
    let mut athletes: Vec<&str> = rows[1..].iter().map(|row| row[9].as_str()).collect();
    athletes.sort_unstable();
    let names = ["'+44", "'-1", r#"'=HYPERLINK("http://127.0.0.1/")"#, r#"Anne-Marie "Ann", the first"#];
    assert_eq!(athletes, names);
    assert_eq!(rows.iter().filter(|row| row[20] == "'=2+2" && row[21].is_empty()).count(), 1);
}

#[test]
fn athletes_are_named_as_in_the_csv_of_the_plan() {
    let session = "title: Tuesday\ntrack: standard\ngroups: [{ name: all, athletes: [7, Ada] }]\nblocks: [2 x 100 in lanes 2-3]\n";
    let page = show!(made_of("", session), PHONE, Set::default());
    assert_eq!(page.words("#names .who"), "No. 7");
    let mut athletes: Vec<String> = saved(&page)[1..].iter().map(|row| row[9].clone()).collect();
    athletes.sort();
    assert_eq!(athletes, ["7", "7", "Ada", "Ada"]);
}
