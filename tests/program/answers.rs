//! `toeline spots`, `lanes` and `marks`: what the track alone can answer.

use crate::console::answered;
use snapbox::str;

#[test]
fn spots_lanes_and_marks() {
    answered(str![[r##"
# spots are listed best first
$ toeline spots '150 in lane 2'
150 m in lane 2, best first
────────────────────────────────────────────────────────────────────────────────
     Stand                     Finish                    Course   Ends on paint
════════════════════════════════════════════════════════════════════════════════
 1   on the 400 m start line   on the 4th green tick     oval                 2
 2   on the exit of yellow     on the 10th green tick    oval                 2
     zone 2
 3   on the entry of yellow    on the 70 m start line    oval                 2
     zone 2
 4   4.97 m back along the     on the finish line        oval                 1
     inner line from the 7th
     green tick
 5   on the finish line        7.04 m back from the      oval                 1
                               4th green tick
 6   on the 60 m start line    2.95 m past the entry     oval                 1
                               of yellow zone 1 along
                               the inner line
 7   on the 70 m start line    7.00 m back along the     oval                 1
                               inner line from the
                               entry of yellow zone 1
────────────────────────────────────────────────────────────────────────────────

[CARE]

# spots are looked for at a place as well
$ toeline spots '110 in lane 5 on the bend'
110 m in lane 5, best first
────────────────────────────────────────────────────────────────────────────────
     Stand                     Finish                    Course   Ends on paint
════════════════════════════════════════════════════════════════════════════════
 1   on the 200 m start line   on the exit of yellow     oval                 2
                               zone 3
 2   on the later 4x400 m      11.21 m past the entry    oval                 1
     takeover zone exit line   of yellow zone 1 along
                               the inner line
────────────────────────────────────────────────────────────────────────────────

[CARE]

# lanes have their lap and their stagger
$ toeline lanes --closed 1
Lap and stagger of each lane in metres, standard
──────────────────────────────────────────────────────────────
 Lane       Lap    200 m    400 m    800 m   4x400 m
══════════════════════════════════════════════════════════════
    1   400.001    0.000    0.000    0.000     0.000   closed
    2   407.038    3.519    7.037    3.526    10.563
    3   414.704    7.351   14.703    7.383    22.086
    4   422.369   11.184   22.368   11.258    33.626
    5   430.035   15.017   30.033   15.151    45.184
    6   437.700   18.849   37.699   19.060    56.759
    7   445.366   22.682   45.364   22.986    68.351
    8   453.031   26.515   53.030   26.930    79.959
──────────────────────────────────────────────────────────────
A stagger is how far ahead of lane 1 a lane starts. The 800 m runs in lanes for
one bend, the 4x400 m for three; both then break for lane 1.

800 m with lane 2 as the innermost: the painted starts are wrong
─────────────────────────────────────────────────────────────────────────────
 Lane   Off by   Stand
═════════════════════════════════════════════════════════════════════════════
    2   +10.55   3.75 m past the later 4x400 m takeover zone exit line along
                 the inner line
    3   +10.53   3.20 m past the 400 m start line along the inner line
    4   +10.52   0.59 m back from the 400 m start line
    5   +10.50   4.36 m back along the inner line from the 400 m start line
    6   +10.48   8.11 m back along the inner line from the 400 m start line
    7   +10.47   11.85 m back along the inner line from the 400 m start line
    8   +10.45   15.58 m back along the inner line from the 400 m start line
─────────────────────────────────────────────────────────────────────────────
- "Off by" is how many metres behind (-) or past (+) the painted 800 m start to
  stand.

[CARE_LANE_ONE_CLOSED]

# marks are listed in walking order with their traps
$ toeline marks --lane 5 --track yards-440
The paint in lane 5, walking from the finish line
────────────────────────────────────────────────────────────────────────────────
 To finish   Mark                   Look for               Painted for
════════════════════════════════════════════════════════════════════════════════
      0.00   finish line            white line             the finish of every
                                                           race
    417.23   880 yd start in        white with green       880 yd, run in lanes
             lanes (!)              line                   to the break line
    402.34   440 yd start           white line             440 yd, run in lanes
    400.00   400 m start            white line             400 m, run in lanes
    316.76   break line (!)         green curved line      where the 880 yd
                                                           leaves its lanes
    201.17   220 yd start           white line             220 yd, run in lanes
    200.00   200 m start            white line             200 m, run in lanes
    100.00   100 m start            white line             100 m
     91.44   100 yd start           white line             100 yd
     80.00   80 m start             white line             club races and
                                                           age-group hurdles
                                                           over 80 m
     75.00   75 m start             white line             club races and
                                                           age-group hurdles
                                                           over 75 m
     70.00   70 m start             white line             club races and
                                                           age-group hurdles
                                                           over 70 m
     60.00   60 m start             black in white line    club races over 60 m
     50.00   50 m start             white line             club races over 50 m
    109.73   120 yd hurdles start   white short line       120 yd hurdles
             (!)                    (chute)
────────────────────────────────────────────────────────────────────────────────

Traps (!)
- 880 yd start in lanes: it stands near the 440 yd start, and is no round
  distance from the finish in its lane.
- break line: no start and no finish of any distance.
- 120 yd hurdles start: it stands 20 yd behind the 100 yd start.

[CARE]

"##]]);
}
