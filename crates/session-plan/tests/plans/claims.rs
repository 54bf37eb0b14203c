//! What a plan says of its own end.

use crate::planned;

#[test]
fn runs_on_the_straight_fit_between_the_laps_of_a_longer_run_in_their_lane() {
    // The 1000 m takes 3:30 and comes by three times; four times 60 m fit between.
    let plan = planned(
        "standard",
        "
title: one lane
groups:
  - name: sprinters
    athletes: [{ name: Ada, target: 8 }]
    blocks: [4 x 60 in lane 3 rest 30s]
  - name: milers
    athletes: [{ name: Ben, target: 3:30 }]
    blocks: [1 x 1000 in lane 3]
",
    );
    assert_eq!(plan.lasts_s, Some(210.0));
}
