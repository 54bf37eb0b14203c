//! `toeline measure`, refused: names that no mark or several marks have, places off the track, and
//! values out of range.

use crate::run::toeline;
use snapbox::{IntoData, str};

/// The measurement is refused with this.
fn refused(arguments: &[&str], stderr: impl IntoData) {
    toeline(&[&["measure"], arguments].concat()).assert().code(2).stdout_eq(str![]).stderr_eq(stderr);
}

#[test]
fn a_name_that_could_be_several_marks() {
    refused(
        &["--lane", "2", "--from", "4x100 m takeover zone exit", "--to", "finish"],
        str![[r#"
error: `4x100 m takeover zone exit` could be `first 4x100 m takeover zone exit`, `second 4x100 m takeover zone exit` or `third 4x100 m takeover zone exit`

"#]],
    );
}

#[test]
fn of_many_marks_the_first_are_named_and_the_others_counted() {
    refused(
        &["--lane", "2", "--from", "hurdle tick", "--to", "finish"],
        str![[r#"
error: `hurdle tick` could be `400 m hurdle tick 1`, `400 m hurdle tick 2`, `400 m hurdle tick 3`, `400 m hurdle tick 4`, `400 m hurdle tick 5`, `400 m hurdle tick 6` or one of 24 more

"#]],
    );
}

#[test]
fn a_name_that_no_mark_has() {
    refused(
        &["--lane", "2", "--from", "pole vault", "--to", "finish"],
        str![[r#"
error: no mark is called `pole vault`

"#]],
    );
    refused(
        &["--lane", "2", "--from", "400 m strat", "--to", "finish"],
        str![[r#"
error: no mark is called `400 m strat`; near it: `400 m start`, `4x400 m start` or `200 m start`

"#]],
    );
}

#[test]
fn a_lane_that_is_not_there() {
    refused(
        &["--lane", "9", "--from", "finish", "--to", "finish"],
        str![[r#"
error: there is no lane 9 on the oval; open there: lanes 1 to 8

"#]],
    );
    refused(
        &["--lane", "2", "--to-lane", "0", "--from", "finish", "--to", "finish"],
        str![[r#"
error: there is no lane 0 on the oval; open there: lanes 1 to 8

"#]],
    );
}

#[test]
fn a_mark_that_is_not_in_the_lane() {
    let on = ["--track", "standard-6", "--lane", "8", "--from", "200 m start", "--to", "finish"];
    refused(
        &on,
        str![[r#"
error: the 200 m start is not painted in lane 8; it is in lanes 1 to 6

"#]],
    );
}

#[test]
fn metres_that_are_none() {
    refused(
        &["--lane", "2", "--from", "finish - some", "--to", "finish"],
        str![[r#"
error: `- some` is not a number of metres; write for example `400 m start + 5`

"#]],
    );
    refused(
        &["--lane", "2", "--from", "finish + 1e9", "--to", "finish"],
        str![[r#"
error: `+ 1e9` is not a number of metres; write for example `400 m start + 5`

"#]],
    );
}

#[test]
fn a_place_off_its_straight() {
    refused(
        &["--lane", "2", "--from", "110 m hurdles start - 20", "--to", "finish"],
        str![[r#"
error: `110 m hurdles start - 20` lies off the home straight, which is 113.00 m long with its chute

"#]],
    );
}

#[test]
fn no_way_leads_back_into_the_chute() {
    refused(
        &["--lane", "2", "--from", "finish", "--to", "110 m hurdles start"],
        str![[r#"
error: no route leads from the oval to the home straight in the direction of running

"#]],
    );
}

#[test]
fn values_out_of_range() {
    let with = |more: [&str; 2]| {
        let way = ["--lane", "2", "--from", "400 m start", "--to", "finish"];
        let output = toeline(&[&["measure"], way.as_slice(), &more].concat()).assert().code(2);
        let stderr = String::from_utf8_lossy(&output.get_output().stderr).into_owned();
        stderr.lines().next().unwrap_or_default().to_owned()
    };
    let said = [
        with(["--laps", "101"]),
        with(["--laps", "-1"]),
        with(["--time", "soon"]),
        with(["--time", "0"]),
        with(["--running-line", "3.1"]),
        with(["--running-line", "wide"]),
        with(["--intended", "200"]),
        with(["--to-lane", "300"]),
    ];
    assert_eq!(
        said,
        [
            "error: invalid value '101' for '--laps <LAPS>': 101 is not in 0..=100",
            "error: unexpected argument '-1' found",
            "error: invalid value 'soon' for '--time <TIME>': expected a time, found `soon`; write for example `48`, `48s` or `1:12`",
            "error: invalid value '0' for '--time <TIME>': `0` is out of range for a time; write more than 0 s and at most 6 hours",
            "error: invalid value '3.1' for '--running-line <METRES>': write metres from 0 to 3, such as 0.5",
            "error: invalid value 'wide' for '--running-line <METRES>': write metres from 0 to 3, such as 0.5",
            "error: the following required arguments were not provided:",
            "error: invalid value '300' for '--to-lane <LANE>': 300 is not in 0..=255",
        ]
    );
}
