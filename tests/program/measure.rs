//! `toeline measure`: how far it is, how fast that was, and what another running line costs.
//!
//! Dimensions: World Athletics, Track and Field Facilities Manual, chapter 2, 400 m standard track (read).
//! A lap is 400.001 m in lane 1 and 407.038 m in lane 2.

use crate::console::answered;
use snapbox::str;

#[test]
fn how_far_it_is() {
    answered(str![[r#"
# 200 m lie between the 400 m start and the 200 m start
$ toeline measure --lane 2 --from '400 m start' --to '200 m start'
200.00 m in lane 2
from on the 400 m start line
to   on the 200 m start line

[CARE]

# from mark to mark
$ toeline measure --lane 4 --from '400 m hurdle tick 1' --to '400 m hurdle tick 10'
315.00 m in lane 4
from on the 1st green tick
to   on the 10th green tick

[CARE]

# some metres behind a mark and past one
$ toeline measure --lane 4 --from '200m start - 2.5' --to finish
202.50 m in lane 4
from 2.49 m back along the inner line from the 200 m start line
to   on the finish line

[CARE]
$ toeline measure --lane 3 --from '400 m start - 5' --to '200m start + 2.5 m'
207.50 m in lane 3
from 4.97 m back along the inner line from the 400 m start line
to   2.49 m past the 200 m start line along the inner line

[CARE]

# past the finish line it goes on round
$ toeline measure --lane 1 --from 'finish line + 10' --to 'finish line'
390.00 m in lane 1
from 9.92 m past the finish line along the inner line
to   on the finish line

[CARE]

# 200 m and two laps of lane 2
$ toeline measure --lane 2 --from '400 m start' --to '200 m start' --laps 2
1014.08 m in lane 2
from on the 400 m start line
to   on the 200 m start line

[CARE]

# from a mark to itself it is a lap, or as many as are asked for
$ toeline measure --lane 2 --from 'finish line' --to 'finish line'
407.04 m in lane 2
from on the finish line
to   on the finish line

[CARE]
$ toeline measure --lane 2 --from 'finish line' --to 'finish line' --laps 3
1221.12 m in lane 2
from on the finish line
to   on the finish line

[CARE]

# from the chute and on round the bend: 110 m to the finish line, and 200.001 m to where 200 m of the lap are left
$ toeline measure --lane 1 --from '110 m hurdles start' --to '200 m start'
310.00 m in lane 1
from on the 110 m hurdles start line
to   on the 200 m start line

[CARE]

# clockwise
$ toeline measure --lane 2 --from '200 m start' --to '400 m start' --the-other-way
200.00 m in lane 2, clockwise
from on the 200 m start line
to   on the 400 m start line

[CARE]

# from lane to lane: 3.56 m sideways in 84.39 m, from the measure line of lane 4 to that of lane 1, cost 0.075 m
$ toeline measure --lane 4 --to-lane 1 --from 'break line' --to '200 m start'
84.47 m from lane 4 to lane 1
from on the break line
to   on the 200 m start line

[CARE]
$ toeline measure --lane 1 --to-lane 4 --from '200 m start' --to finish
200.07 m from lane 1 to lane 4
from on the 200 m start line
to   on the finish line

[CARE]

"#]]);
}

#[test]
fn how_fast_that_was() {
    answered(str![[r#"
# who starts 5 m short wins the time of 5 m: 31.4 s · 5 / 195 = 0.81 s
$ toeline measure --lane 2 --from 'finish - 195' --to finish --time 31.4 --intended 200
195.00 m in lane 2
from 194.42 m back along the inner line from the finish line
to   on the finish line
31.4 s is 2:41 a kilometre, or 32.21 s for 200 m: the run was 5.00 m too short,
which saved 0.81 s

[CARE]

# who starts at lane 1's 200 m line in lane 2 runs 203.52 m, and loses 32 s · 3.52 / 203.52 = 0.55 s
$ toeline measure --lane 2 --from '200 m start - 3.52' --to finish --time 32 --intended 200
203.52 m in lane 2
from 3.50 m back along the inner line from the 200 m start line
to   on the finish line
32 s is 2:37.2 a kilometre, or 31.45 s for 200 m: the run was 3.52 m too long,
which cost 0.55 s

[CARE]

# a time alone gives the pace: 1:12 for 400 m is 3:00 for 1000 m
$ toeline measure --lane 2 --from '400 m start' --to finish --time 1:12
400.00 m in lane 2
from on the 400 m start line
to   on the finish line
1:12 is 3:00 a kilometre

[CARE]

"#]]);
}

/// Half a metre from the kerb instead of 0.30 m: 0.2 m · 2π = 1.26 m a lap, 0.63 m in half a lap.
#[test]
fn what_another_running_line_costs() {
    answered(str![[r#"
# a lap, and half of one
$ toeline measure --lane 1 --from '400 m start' --to finish --running-line 0.5
400.00 m in lane 1
from on the 400 m start line
to   on the finish line
Keeping 0.5 m outside the inner line makes a lap +1.26 m, this way +1.26 m

[CARE]
$ toeline measure --lane 1 --from '200 m start' --to finish --running-line 0.5
200.00 m in lane 1
from on the 200 m start line
to   on the finish line
Keeping 0.5 m outside the inner line makes a lap +1.26 m, this way +0.63 m

[CARE]

# on the straight alone it costs nothing
$ toeline measure --lane 1 --from '80 m start' --to finish --running-line 0.5
80.00 m in lane 1
from on the 80 m start line
to   on the finish line
Keeping 0.5 m outside the inner line makes a lap +1.26 m, this way +0.00 m

[CARE]

# nearer to the kerb it wins some
$ toeline measure --lane 1 --from '400 m start' --to finish --running-line 0.2
400.00 m in lane 1
from on the 400 m start line
to   on the finish line
Keeping 0.2 m outside the inner line makes a lap -0.63 m, this way -0.63 m

[CARE]

# a chute does not turn, and the bend behind the finish line does: half a lap of it
$ toeline measure --lane 1 --from '110 m hurdles start' --to '200 m start' --running-line 0.5
310.00 m in lane 1
from on the 110 m hurdles start line
to   on the 200 m start line
Keeping 0.5 m outside the inner line makes a lap +1.26 m, this way +0.63 m

[CARE]

# from one place of the home straight nearly round to another it is a lap's worth of bends
$ toeline measure --lane 1 --from '50 m start' --to '80 m start' --running-line 0.5
370.00 m in lane 1
from on the 50 m start line
to   on the 80 m start line
Keeping 0.5 m outside the inner line makes a lap +1.26 m, this way +1.26 m

[CARE]

# of a change of lane only the lap has a running line
$ toeline measure --lane 4 --to-lane 1 --from 'break line' --to '200 m start' --running-line 0.5
84.47 m from lane 4 to lane 1
from on the break line
to   on the 200 m start line
Keeping 0.5 m outside the inner line makes a lap +1.26 m

[CARE]

"#]]);
}
