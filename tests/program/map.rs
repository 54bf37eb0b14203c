//! `--out map.svg`: the map of a plan, as other programs read it.

use std::fs;

use crate::answer::{json, list, number};
use crate::drawn;
use crate::folder::Folder;
use crate::picture;
use crate::run::toeline;
use crate::wrenbeck::{WRENBECK, session};
use resvg::tiny_skia::{Color, Paint, Rect, Transform};
use roxmltree::{Document, Node};
use serde_json::Value;
use snapbox::str;

fn map_of(arguments: &[&str]) -> String {
    let folder = Folder::new();
    toeline(&[&["plan"], arguments, &["--out", &folder.at("map.svg")]].concat())
        .assert()
        .success()
        .stdout_eq(str![]);
    folder.read("map.svg")
}

fn value(node: Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).expect("it has it").parse().expect("it is a number")
}

fn of_class<'a>(document: &'a Document<'a>, class: &'a str) -> impl Iterator<Item = Node<'a, 'a>> {
    document.descendants().filter(move |node| node.attribute("class") == Some(class))
}

/// The centres of the cones on the map are the solver's coordinates, y upwards, to a millimetre; the XML is
/// read by roxmltree, which knows nothing of the project.
#[test]
fn cones_lie_where_the_solver_puts_them() {
    let sessions = WRENBECK.map(session);
    let mut all: Vec<Vec<&str>> = sessions.iter().map(|path| vec![path.as_str()]).collect();
    for track in
        ["standard", "standard-6", "double-bend-1", "double-bend-3", "indoor-200", "oval-300", "yards-440"]
    {
        all.push(vec!["3 x 150 in lanes 1-4", "--track", track]);
    }
    for arguments in all {
        let map = map_of(&arguments);
        let document = Document::parse(&map).expect("it is XML");
        let plan = json(&[&["plan"], arguments.as_slice()].concat());
        let setup = list(&plan["setup"]);
        let cones: Vec<Node<'_, '_>> = of_class(&document, "cone").collect();
        assert_eq!(cones.len(), setup.len(), "{arguments:?}");
        // Places on paint have no cone, and lie where a run has one all the same.
        let ends = list(&plan["blocks"]).iter().flat_map(|block| list(&block["reps"])).flat_map(|rep| {
            let run_in = Some(&rep["run_in"]).filter(|spot| !spot.is_null());
            let changes = list(&rep["pace_changes"]).iter().map(|change| &change["spot"]);
            [&rep["start"], &rep["finish"]].into_iter().chain(run_in).chain(changes).collect::<Vec<_>>()
        });
        let ends: Vec<&Value> = ends.collect();
        let painted: Vec<Node<'_, '_>> = of_class(&document, "painted").collect();
        assert!(setup.len() + painted.len() > 0);
        for sign in painted {
            let is_there = ends.iter().any(|spot| {
                let off = |axis: &str, data: &str| (number(&spot[axis]) - value(sign, data)).abs();
                off("x_m", "data-x-m") < 0.001 && off("y_m", "data-y-m") < 0.001
            });
            assert!(is_there, "{arguments:?}: {:?}", sign.range());
        }
        for cone in cones {
            let order = value(cone, "data-cone");
            let item = setup.iter().find(|item| item["order"] == order as u64).expect("it is in the plan");
            let at = |axis: &str| number(&item["spot"][axis]);
            // Nothing moves the map: its units are metres, and its origin the centre of the infield.
            assert!(!cone.ancestors().any(|node| node.has_attribute("transform")));
            let circles: Vec<Node<'_, '_>> =
                cone.children().filter(|node| node.has_tag_name("circle")).collect();
            assert!(!circles.is_empty());
            for circle in circles {
                let (dx, dy) = (value(circle, "cx") - at("x_m"), value(circle, "cy") + at("y_m"));
                assert!(dx.hypot(dy) < 0.001, "{arguments:?}: cone {order} is {:.4} m off", dx.hypot(dy));
            }
            assert!((value(cone, "data-x-m") - at("x_m")).abs() < 0.001);
            assert!((value(cone, "data-y-m") - at("y_m")).abs() < 0.001);
        }
    }
}

/// Length of a closed way of straight lines and arcs, if path data is one.
fn lap_m(d: &str) -> Option<f64> {
    let spaced = d.replace('M', " M ").replace('L', " L ").replace('A', " A ").replace('Z', " Z ");
    let mut words = spaced.split_whitespace();
    let (mut length_m, mut at) = (0.0, kurbo::Point::ZERO);
    while let Some(command) = words.next() {
        let mut next = || words.next()?.parse::<f64>().ok();
        match command {
            "M" => at = kurbo::Point::new(next()?, next()?),
            "L" => {
                let to = kurbo::Point::new(next()?, next()?);
                length_m += at.distance(to);
                at = to;
            }
            "A" => {
                let radii = kurbo::Vec2::new(next()?, next()?);
                let [x_rotation, large, sweep] = [next()?, next()?, next()?];
                let to = kurbo::Point::new(next()?, next()?);
                let arc = kurbo::SvgArc {
                    from: at,
                    to,
                    radii,
                    x_rotation,
                    large_arc: large != 0.0,
                    sweep: sweep != 0.0,
                };
                let arc = kurbo::Arc::from_svg_arc(&arc)?;
                length_m += arc.sweep_angle.abs() * arc.radii.x;
                at = to;
            }
            _ => return Some(length_m),
        }
    }
    None
}

/// The lane lines are to scale: two straights of 84.39 m and a circle of 36.50 m and so many lanes of 1.22 m
/// (World Athletics, Track and Field Facilities Manual, chapter 2, read), measured by kurbo.
#[test]
fn lane_lines_are_to_scale() {
    let map = map_of(&["6 x 200 in lane 2"]);
    let document = Document::parse(&map).expect("it is XML");
    let ground = of_class(&document, "ground").next().expect("the map has a ground");
    let lines = ground.children().filter(|node| node.has_tag_name("path"));
    let lengths: Vec<f64> = lines
        .filter(|line| line.attribute("fill") == Some("none"))
        .filter_map(|line| lap_m(line.attribute("d")?))
        .collect();
    for lane in 2..=8 {
        let radius_m = 36.50 + 1.22 * f64::from(lane - 1);
        let lap_m = 2.0 * 84.39 + std::f64::consts::TAU * radius_m;
        assert!(
            lengths.iter().any(|length| (length - lap_m).abs() < 0.005),
            "lane {lane}: {lap_m} in {lengths:?}"
        );
    }
}

/// Compass geometry: the bearing of the home straight, which is run to the right, counts clockwise from north.
#[test]
fn north_is_drawn_where_it_is_known_and_nowhere_else() {
    let map = map_of(&[&session("sunday-easy")]);
    let document = Document::parse(&map).expect("it is XML");
    let arrow = of_class(&document, "north").next().expect("the track file tells the bearing");
    let line = arrow.children().find(|node| node.has_tag_name("line")).expect("the arrow has a line");
    let (dx, dy) = (value(line, "x2") - value(line, "x1"), value(line, "y2") - value(line, "y1"));
    // On the page y grows downwards, so that this angle counts clockwise from the arrow to the right.
    let bearing_deg = (-dy).atan2(dx).to_degrees();
    assert!((bearing_deg - 65.0).abs() < 0.01, "{bearing_deg}");
    let map = map_of(&["200 in lane 2"]);
    assert_eq!(of_class(&Document::parse(&map).expect("it is XML"), "north").count(), 0);
}

#[test]
fn what_is_closed_and_what_is_in_use_is_drawn_and_said() {
    let map = map_of(&[&session("tuesday-sprints")]);
    let document = Document::parse(&map).expect("it is XML");
    let words: String = document.descendants().filter(Node::is_text).filter_map(|node| node.text()).collect();
    for said in [
        "Wrenbeck sprinters, Tuesday",
        "13 April 2027",
        "Track: Wrenbeck",
        "lane 1 closed",
        "javelin runway",
        "gate",
        "coach",
        "finish line",
        "60 m start line",
        "4th green tick",
        "Distances assume the measure line",
        "Block 4, sprinters: 250 m, lane 5",
    ] {
        assert!(words.contains(said), "{said}");
    }
    assert_eq!(
        of_class(&document, "hazards")
            .next()
            .expect("there are some")
            .children()
            .filter(Node::is_element)
            .count(),
        2
    );
}

#[test]
fn each_run_has_its_lane_unrolled_with_the_paint_in_order() {
    let map = map_of(&["2 x 1000 in lane 2"]);
    let document = Document::parse(&map).expect("it is XML");
    let strip = of_class(&document, "strip").next().expect("there is one");
    let texts: Vec<&str> =
        strip.descendants().filter(|node| node.has_tag_name("text")).filter_map(|node| node.text()).collect();
    assert_eq!(texts[0], "Block 1: 1000 m, lane 2");
    // Two laps of lane 2 are 814.08 m: 1.12 m × 2π more than 400 m each.
    let told = texts[1..3].join(" ");
    assert_eq!(told, "2 laps of 407.04 m back to the start, then 185.92 m as shown");
    let metres: Vec<f64> = texts
        .iter()
        .filter_map(|text| text.parse().ok())
        .filter(|m: &f64| m.fract() != 0.0 || *m == 0.0)
        .collect();
    assert!(metres.len() > 10, "{texts:?}");
    assert_eq!(metres[0], 0.0);
    assert!(metres.is_sorted(), "{metres:?}");
    assert!(metres.contains(&185.92), "{metres:?}");
}

#[test]
fn whatever_is_written_in_a_session_is_text_on_the_map() {
    let hostile = "<script>alert(1)</script> & \\\"#include\\u0007";
    let text = format!("title: \"{hostile}\"\nwind: \"{hostile}\"\nblocks: [4 x 200 in lane 2]\n");
    let folder = Folder::with("session.yaml", text);
    let map = map_of(&[&folder.at("session.yaml")]);
    let document = Document::parse(&map).expect("it is XML");
    assert!(!document.descendants().any(|node| node.has_tag_name("script") || node.has_tag_name("a")));
    let title = document.descendants().find(|node| node.has_tag_name("title")).and_then(|node| node.text());
    assert_eq!(title, Some("Map of <script>alert(1)</script> & \"#include\u{fffd}"));
    // Nothing is fetched from anywhere.
    let outside = document.descendants().flat_map(|node| node.attributes()).find(|attribute| {
        attribute.name().ends_with("href")
            || attribute.value().contains("http")
            || attribute.value().contains("url(h")
    });
    assert!(outside.is_none(), "{outside:?}");
}

#[test]
fn it_is_named_and_told_to_those_who_do_not_see_it() {
    let map = map_of(&["200 in lane 2"]);
    let document = Document::parse(&map).expect("it is XML");
    let root = document.root_element();
    assert_eq!(root.attribute("role"), Some("img"));
    let told = root.children().find(|node| node.has_tag_name("desc")).and_then(|node| node.text());
    assert_eq!(
        told,
        Some(
            "The track standard to scale. Block 1: 200 m in lane 2. Finish, lane 2: on the finish line. Start, lane 2: \
             on the 200 m start line."
        )
    );
}

#[test]
fn several_sessions_do_not_go_into_one_map() {
    let (one, other) = (session("sunday-easy"), session("saturday-alone"));
    toeline(&["plan", &one, &other, "--out", "map.svg"]).assert().code(2).stderr_eq(str![[r#"
error: a .svg file holds one session, not 2; write one at a time

"#]]);
    toeline(&["week", "sessions/wrenbeck", "--out", "map.svg"]).assert().code(2).stderr_eq(str![[r#"
error: a .svg file holds one session, not 8; write one at a time

"#]]);
}

#[test]
fn the_maps_of_wrenbeck_look_as_they_did() {
    for name in WRENBECK {
        let map = map_of(&[&session(name)]);
        picture::assert_like_kept(&format!("map-{name}"), &drawn::drawn(&map, 1000, 1000), drawn::DRAWN);
    }
}

#[test]
fn a_flag_that_moves_is_noticed() {
    let blank = drawn::drawn(&map_of(&["200 in lane 2"]), 1000, 1000);
    assert_eq!(picture::difference(&blank, &blank, drawn::DRAWN), Ok(()));
    let mut moved = blank.clone();
    let mut paint = Paint::default();
    paint.set_color(Color::from_rgba8(0, 0, 0, 255));
    let place = Rect::from_xywh(450.0, 300.0, 14.0, 14.0).expect("it has a size");
    moved.fill_rect(place, &paint, Transform::identity(), None);
    assert!(picture::difference(&blank, &moved, drawn::DRAWN).is_err());
}

/// Insets name paint as the list of cones does, and no name of a lane lies over paint.
#[test]
fn insets_name_what_to_look_for_and_keep_its_paint_free() {
    let folder = Folder::new();
    for name in ["track", "friday-starts"] {
        let text = fs::read_to_string(session(name)).expect("it is there");
        let cones = if name == "track" { "" } else { "\ncones: every spot\n" };
        folder.write(&format!("{name}.yaml"), text + cones);
    }
    let map = map_of(&[&folder.at("friday-starts.yaml")]);
    let document = Document::parse(&map).expect("it is XML");
    let words = |text: Node<'_, '_>| text.text().unwrap_or_default().trim().to_owned();
    let mut titles = Vec::new();
    for inset in of_class(&document, "inset") {
        let texts = || inset.children().filter(|node| node.has_tag_name("text"));
        let (lanes, title): (Vec<_>, Vec<_>) = texts().partition(|text| text.has_attribute("text-anchor"));
        titles.push(title.into_iter().map(words).collect::<Vec<_>>().join(" "));
        let paint = inset.descendants().filter(|node| node.attribute("class") == Some("paint"));
        let lines: Vec<_> = paint.flat_map(|paint| paint.children()).filter(Node::is_element).collect();
        for lane in lanes {
            let (x, y, size) = (value(lane, "x"), value(lane, "y"), value(lane, "font-size"));
            // The typeface's letters are about half as wide as high, and have tails below the line.
            let half = 0.25 * size * words(lane).chars().count() as f64;
            for line in &lines {
                let ends = ["x1", "y1", "x2", "y2"].map(|name| value(*line, name));
                let is_over = (0..=8).map(|step| f64::from(step) / 8.0).any(|part| {
                    let across = ends[0] + (ends[2] - ends[0]) * part - x;
                    let above = y - ends[1] - (ends[3] - ends[1]) * part;
                    across.abs() < half && (-0.3 * size..0.7 * size).contains(&above)
                });
                assert!(!is_over, "{} lies over paint", words(lane));
            }
        }
    }
    let expected = [
        "1–3: lanes 3–5 finish line",
        "4–6: lanes 3–5 entry of yellow zone 1, exit of yellow zone 1",
        "7–9: lanes 5–7 100 m start line",
        "10–12: lanes 5–7 70 m start line",
    ];
    assert_eq!(titles, expected);
}
