//! `toeline measure`: how far it is, how fast that was, and what another running line costs.
//!
//! Dimensions: World Athletics, Track and Field Facilities Manual, chapter 2, 400 m standard track (read).
//! A lap is 400.001 m in lane 1 and 407.038 m in lane 2.

use crate::run::toeline;
use snapbox::{IntoData, str};

/// The measurement prints this.
fn measured(arguments: &[&str], stdout: impl IntoData) {
    toeline(&[&["measure"], arguments].concat()).assert().success().stderr_eq(str![]).stdout_eq(stdout);
}

#[test]
fn from_mark_to_mark() {
    measured(
        &["--lane", "4", "--from", "400 m hurdle tick 1", "--to", "400 m hurdle tick 10"],
        str![[r#"
315.00 m in lane 4
from on the 1st green tick
to   on the 10th green tick

[CAUTIONS]

"#]],
    );
}

#[test]
fn some_metres_behind_a_mark_and_past_one() {
    measured(
        &["--lane", "3", "--from", "400 m start - 5", "--to", "200m start + 2.5 m"],
        str![[r#"
207.50 m in lane 3
from 4.97 m back along the inner line from the 400 m start line
to   2.49 m past the 200 m start line along the inner line

[CAUTIONS]

"#]],
    );
}

#[test]
fn past_the_finish_line_it_goes_on_round() {
    measured(
        &["--lane", "1", "--from", "finish line + 10", "--to", "finish line"],
        str![[r#"
390.00 m in lane 1
from 9.92 m past the finish line along the inner line
to   on the finish line

[CAUTIONS]

"#]],
    );
}

#[test]
fn whole_laps_besides() {
    // 200 m and two laps of lane 2.
    measured(
        &["--lane", "2", "--from", "400 m start", "--to", "200 m start", "--laps", "2"],
        str![[r#"
1014.08 m in lane 2
from on the 400 m start line
to   on the 200 m start line

[CAUTIONS]

"#]],
    );
}

#[test]
fn from_a_mark_to_itself_it_is_a_lap_or_as_many_as_are_asked_for() {
    let round = ["--lane", "2", "--from", "finish line", "--to", "finish line"];
    measured(
        &round,
        str![[r#"
407.04 m in lane 2
from on the finish line
to   on the finish line

[CAUTIONS]

"#]],
    );
    measured(
        &[round.as_slice(), &["--laps", "3"]].concat(),
        str![[r#"
1221.12 m in lane 2
from on the finish line
to   on the finish line

[CAUTIONS]

"#]],
    );
}

#[test]
fn from_the_chute_and_on_round_the_bend() {
    // 110 m to the finish line, and 200.001 m to where 200 m of the lap are left.
    measured(
        &["--lane", "1", "--from", "110 m hurdles start", "--to", "200 m start"],
        str![[r#"
310.00 m in lane 1
from on the 110 m hurdles start line
to   on the 200 m start line

[CAUTIONS]

"#]],
    );
}

#[test]
fn clockwise() {
    measured(
        &["--lane", "2", "--from", "200 m start", "--to", "400 m start", "--the-other-way"],
        str![[r#"
200.00 m in lane 2, clockwise
from on the 200 m start line
to   on the 400 m start line

[CAUTIONS]

"#]],
    );
}

/// 3.56 m sideways in 84.39 m, from the measure line of lane 4 to that of lane 1, cost 0.075 m.
#[test]
fn from_lane_to_lane() {
    measured(
        &["--lane", "4", "--to-lane", "1", "--from", "break line", "--to", "200 m start"],
        str![[r#"
84.47 m from lane 4 to lane 1
from on the break line
to   on the 200 m start line

[CAUTIONS]

"#]],
    );
    measured(
        &["--lane", "1", "--to-lane", "4", "--from", "200 m start", "--to", "finish"],
        str![[r#"
200.07 m from lane 1 to lane 4
from on the 200 m start line
to   on the finish line

[CAUTIONS]

"#]],
    );
}

/// Who starts 5 m short wins the time of 5 m: 31.4 s · 5 / 195 = 0.81 s.
#[test]
fn a_short_way_wins_seconds() {
    measured(
        &["--lane", "2", "--from", "finish - 195", "--to", "finish", "--time", "31.4", "--intended", "200"],
        str![[r#"
195.00 m in lane 2
from 194.42 m back along the inner line from the finish line
to   on the finish line
31.4 s is 2:41 a kilometre, or 32.21 s for 200 m: the line won 0.81 s

[CAUTIONS]

"#]],
    );
}

/// Who starts at lane 1's 200 m line in lane 2 runs 203.52 m, and loses 32 s · 3.52 / 203.52 = 0.55 s.
#[test]
fn a_long_way_loses_seconds() {
    measured(
        &[
            "--lane",
            "2",
            "--from",
            "200 m start - 3.52",
            "--to",
            "finish",
            "--time",
            "32",
            "--intended",
            "200",
        ],
        str![[r#"
203.52 m in lane 2
from 3.50 m back along the inner line from the 200 m start line
to   on the finish line
32 s is 2:37.2 a kilometre, or 31.45 s for 200 m: the line lost 0.55 s

[CAUTIONS]

"#]],
    );
}

#[test]
fn a_time_alone_gives_the_pace() {
    // 1:12 for 400 m is 3:00 for 1000 m.
    measured(
        &["--lane", "2", "--from", "400 m start", "--to", "finish", "--time", "1:12"],
        str![[r#"
400.00 m in lane 2
from on the 400 m start line
to   on the finish line
1:12 is 3:00 a kilometre

[CAUTIONS]

"#]],
    );
}

/// Half a metre from the kerb instead of 0.30 m: 0.2 m · 2π = 1.26 m a lap, 0.63 m in half a lap.
#[test]
fn another_running_line_costs_metres() {
    let run = |from, line| ["--lane", "1", "--from", from, "--to", "finish", "--running-line", line];
    measured(
        &run("400 m start", "0.5"),
        str![[r#"
400.00 m in lane 1
from on the 400 m start line
to   on the finish line
Keeping 0.5 m outside the inner line makes a lap +1.26 m, this way +1.26 m

[CAUTIONS]

"#]],
    );
    measured(
        &run("200 m start", "0.5"),
        str![[r#"
200.00 m in lane 1
from on the 200 m start line
to   on the finish line
Keeping 0.5 m outside the inner line makes a lap +1.26 m, this way +0.63 m

[CAUTIONS]

"#]],
    );
    // On the straight alone it costs nothing.
    measured(
        &run("80 m start", "0.5"),
        str![[r#"
80.00 m in lane 1
from on the 80 m start line
to   on the finish line
Keeping 0.5 m outside the inner line makes a lap +1.26 m, this way +0.00 m

[CAUTIONS]

"#]],
    );
    // Nearer to the kerb it wins some.
    measured(
        &run("400 m start", "0.2"),
        str![[r#"
400.00 m in lane 1
from on the 400 m start line
to   on the finish line
Keeping 0.2 m outside the inner line makes a lap -0.63 m, this way -0.63 m

[CAUTIONS]

"#]],
    );
}

/// A chute does not turn, and the bend behind the finish line does: half a lap of it, as above.
#[test]
fn out_of_the_chute_the_running_line_costs_what_the_bend_does() {
    let way = ["--lane", "1", "--from", "110 m hurdles start", "--to", "200 m start"];
    measured(
        &[way.as_slice(), &["--running-line", "0.5"]].concat(),
        str![[r#"
310.00 m in lane 1
from on the 110 m hurdles start line
to   on the 200 m start line
Keeping 0.5 m outside the inner line makes a lap +1.26 m, this way +0.63 m

[CAUTIONS]

"#]],
    );
}

/// From one place of the home straight nearly round to another: it is a lap's worth of bends.
#[test]
fn a_way_between_two_places_of_one_straight_turns_all_the_way_round() {
    let way = ["--lane", "1", "--from", "50 m start", "--to", "80 m start"];
    measured(
        &[way.as_slice(), &["--running-line", "0.5"]].concat(),
        str![[r#"
370.00 m in lane 1
from on the 50 m start line
to   on the 80 m start line
Keeping 0.5 m outside the inner line makes a lap +1.26 m, this way +1.26 m

[CAUTIONS]

"#]],
    );
}

#[test]
fn of_a_change_of_lane_only_the_lap_has_a_running_line() {
    let change = ["--lane", "4", "--to-lane", "1", "--from", "break line", "--to", "200 m start"];
    measured(
        &[change.as_slice(), &["--running-line", "0.5"]].concat(),
        str![[r#"
84.47 m from lane 4 to lane 1
from on the break line
to   on the 200 m start line
Keeping 0.5 m outside the inner line makes a lap +1.26 m

[CAUTIONS]

"#]],
    );
}
