//! `--out x.ics`: sessions in a calendar, read back with a reader that is not the writer's.

use crate::console::refused;
use crate::folder::Folder;
use chrono_tz::Europe::London;
use chrono_tz::Tz;
use ical::parser::ical::component::IcalEvent;
use ical::property::Property;
use snapbox::str;

const TRACK: &str = "name: Wrenbeck
path: [{ radius: 36.50, turn: 180 }, { straight: 84.39 }, { radius: 36.50, turn: 180 }, { straight: 84.39 }]
lanes: 6
lane_width: 1.22
";

/// A session file on a track beside it.
fn session(folder: &Folder, name: &str, title: &str, rest: &str) {
    let text =
        format!("title: {title}\ntrack: track.yaml\nblocks: [6 x 200 in lane 2 @ 32 rest 3min]\n{rest}");
    folder.write(name, text);
}

/// A folder with the track, with more lines in its file.
fn ground(rest: &str) -> Folder {
    Folder::with("track.yaml", format!("{TRACK}{rest}"))
}

/// The events of the calendar that a command writes.
fn events(folder: &Folder, arguments: &[&str]) -> Vec<IcalEvent> {
    let arguments = [arguments, &["--out", "out.ics"]].concat();
    folder.toeline(&arguments).assert().success().stdout_eq(str![]);
    let text = folder.read("out.ics");
    assert!(
        text.as_bytes().windows(2).filter(|pair| pair[1] == b'\n').all(|pair| pair[0] == b'\r'),
        "lines end in CRLF"
    );
    assert!(text.split('\n').all(|line| line.len() <= 76), "75 octets and the CR: RFC 5545, 3.1");
    // Long lines are put together again as RFC 5545, 3.1 says: the reader would take a space that begins the
    // rest of a line, too.
    let text = text.replace("\r\n ", "");
    let mut calendars = ical::IcalParser::new(text.as_bytes());
    let calendar = calendars.next().expect("there is a calendar").expect("it can be read");
    assert!(calendars.next().is_none(), "one file is one calendar");
    calendar.events
}

fn property<'a>(event: &'a IcalEvent, name: &str) -> &'a Property {
    let found: Vec<&Property> = event.properties.iter().filter(|property| property.name == name).collect();
    assert_eq!(found.len(), 1, "{name} is there once");
    found[0]
}

fn value<'a>(event: &'a IcalEvent, name: &str) -> &'a str {
    property(event, name).value.as_deref().expect("it has a value")
}

/// A time of an event as a clock in London shows it.
fn in_london(event: &IcalEvent, name: &str) -> String {
    let at = chrono::NaiveDateTime::parse_from_str(value(event, name), "%Y%m%dT%H%M%SZ");
    let at = at.expect("it is an instant").and_utc().with_timezone::<Tz>(&London);
    at.format("%a %Y-%m-%d %H:%M").to_string()
}

#[test]
fn a_booking_keeps_its_hours_across_the_change_of_clocks() {
    let folder = ground("timezone: Europe/London\n");
    let dates = ["2027-03-27", "2027-03-28", "2027-03-29", "2027-10-30", "2027-10-31", "2027-11-01"];
    for date in dates {
        let rest = format!("date: {date}\nhours: 10:00-11:30\n");
        session(&folder, &format!("{date}.yaml"), "Bend runs", &rest);
    }
    let events = events(&folder, &["week", "."]);
    assert_eq!(events.len(), dates.len());
    for (event, date) in events.iter().zip(dates) {
        assert!(in_london(event, "DTSTART").ends_with(&format!("{date} 10:00")), "{date}");
        assert!(in_london(event, "DTEND").ends_with(&format!("{date} 11:30")), "{date}");
    }
    // The instants themselves differ by the hour that summer time takes.
    let utc: Vec<&str> =
        events.iter().map(|event| value(event, "DTSTART").split('T').nth(1).unwrap_or("")).collect();
    assert_eq!(utc, ["100000Z", "090000Z", "090000Z", "090000Z", "100000Z", "100000Z"]);
}

#[test]
fn without_a_time_zone_times_are_those_on_the_wall() {
    let folder = ground("");
    session(&folder, "a.yaml", "A", "date: 2027-03-28\nhours: 18:00-19:30\n");
    let events = events(&folder, &["plan", "a.yaml"]);
    assert_eq!(value(&events[0], "DTSTART"), "20270328T180000");
    assert_eq!(value(&events[0], "DTEND"), "20270328T193000");
    assert!(property(&events[0], "DTSTART").params.is_none(), "floating times have no zone");
}

#[test]
fn a_session_without_hours_takes_the_whole_day() {
    let folder = ground("timezone: Europe/London\n");
    session(&folder, "a.yaml", "A", "date: 2027-04-30\n");
    let events = events(&folder, &["plan", "a.yaml"]);
    let day = Some(vec![("VALUE".to_owned(), vec!["DATE".to_owned()])]);
    for (name, date) in [("DTSTART", "20270430"), ("DTEND", "20270501")] {
        assert_eq!((value(&events[0], name), &property(&events[0], name).params), (date, &day));
    }
}

#[test]
fn summary_place_and_plan_come_through_the_escapes() {
    let folder = ground("");
    let title = r#""Bends; hills, and back\\forth: 200 m ½ ×""#;
    session(&folder, "a.yaml", title, "date: 2027-04-13\nhours: 18:00-19:30\n");
    let events = events(&folder, &["plan", "a.yaml"]);
    let event = &events[0];
    // The reader leaves escapes to its user: RFC 5545, 3.3.11.
    assert_eq!(value(event, "SUMMARY"), r"Bends\; hills\, and back\\forth: 200 m ½ ×");
    assert_eq!(value(event, "LOCATION"), "Wrenbeck");
    let told = value(event, "DESCRIPTION").replace("\\n", "\n").replace("\\,", ",").replace("\\;", ";");
    let row = "- runs 1 to 6, 200 m in lane 2: start on the 200 m start line, finish on the finish line, in 32 s, then rest 3:00\n";
    assert!(told.contains(row), "{told}");
    assert!(!told.contains('\u{1b}'), "{told}");
}

#[test]
fn a_calendar_written_again_has_the_same_events() {
    let folder = ground("");
    session(&folder, "a.yaml", "A", "date: 2027-04-13\nhours: 18:00-19:30\n");
    session(&folder, "b.yaml", "B", "date: 2027-04-13\nhours: 18:00-19:30\n");
    // The same title on the same day, as a morning session would have.
    session(&folder, "c.yaml", "A", "date: 2027-04-13\nhours: 07:00-08:00\n");
    let uids = |events: Vec<IcalEvent>| -> Vec<String> {
        events.iter().map(|event| value(event, "UID").to_owned()).collect()
    };
    let first = uids(events(&folder, &["week", "."]));
    session(&folder, "b.yaml", "B", "date: 2027-04-13\nhours: 19:00-20:30\n");
    assert_eq!(uids(events(&folder, &["week", "."])), first, "other hours are the same event");
    session(&folder, "b.yaml", "B", "date: 2027-04-14\nhours: 19:00-20:30\n");
    let moved = uids(events(&folder, &["week", "."]));
    assert_eq!(moved.iter().filter(|uid| first.contains(uid)).count(), 2, "another day is another event");
    let mut distinct = first.clone();
    distinct.sort();
    distinct.dedup();
    assert_eq!(distinct.len(), 3);
}

#[test]
fn a_session_without_a_date_is_named_as_left_out() {
    let folder = ground("");
    session(&folder, "a.yaml", "A", "date: 2027-04-13\n");
    session(&folder, "b.yaml", "B", "");
    folder.toeline(&["week", ".", "--out", "out.ics"]).assert().success().stdout_eq(str![]).stderr_eq(str![
        [r#"
note: left out of the calendar, having no date: `B`; write for example `date: 2027-04-13` in its session file

"#]
    ]);
    folder.toeline(&["plan", "b.yaml", "--out", "b.ics"]).assert().code(2).stderr_eq(str![[r#"
error: a calendar needs dates, and `B` has none; write for example `date: 2027-04-13` in its session file

"#]]);
    assert!(!folder.path().join("b.ics").exists());
}

#[test]
fn calendars_and_time_zones_that_are_refused() {
    refused(str![[r#"
# only sessions go into a calendar
$ toeline lanes --out lanes.ics
error: a .ics file needs a plan, and this answer has none; end the name in .txt, .json or .csv
$ toeline plan 200 --format json --out plan.ics
error: `--format` and the ending of `plan.ics` disagree; leave out `--format`

# an unknown time zone, with the nearest
$ cat track.yaml
name: Wrenbeck
path: [{ radius: 36.50, turn: 180 }, { straight: 84.39 }, { radius: 36.50, turn: 180 }, { straight: 84.39 }]
lanes: 6
lane_width: 1.22
timezone: Europe/Londn
$ toeline check track.yaml
error: there is no time zone `Europe/Londn`
 --> track.yaml:5:11
  |
5 | timezone: Europe/Londn
  |           ^^^^^^^^^^^^
  |
help: did you mean `Europe/London`?

# an unknown time zone that is near none
$ cat track.yaml
name: Wrenbeck
path: [{ radius: 36.50, turn: 180 }, { straight: 84.39 }, { radius: 36.50, turn: 180 }, { straight: 84.39 }]
lanes: 6
lane_width: 1.22
timezone: 1
$ toeline check track.yaml
error: there is no time zone `1`
 --> track.yaml:5:11
  |
5 | timezone: 1
  |           ^
  |
help: write a name from the IANA database, for example `Europe/London`

"#]]);
}

#[test]
fn the_week_of_the_demonstration_is_a_calendar_of_eight() {
    let folder = Folder::new();
    let sessions = format!("{}/sessions/wrenbeck", env!("CARGO_MANIFEST_DIR"));
    let events = events(&folder, &["week", &sessions]);
    let days: Vec<&str> = events.iter().map(|event| &value(event, "DTSTART")[..8]).collect();
    assert_eq!(
        days,
        ["20270412", "20270413", "20270414", "20270415", "20270416", "20270417", "20270417", "20270418"]
    );
    assert_eq!(in_london(&events[1], "DTSTART"), "Tue 2027-04-13 18:00");
    let description = value(&events[1], "DESCRIPTION");
    assert!(description.contains("- Go: 18:20:00"), "{description}");
}
