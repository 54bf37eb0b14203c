//! Evenings: who runs when.

use anyhow::{Context as _, Result, ensure};
use wave_plan::{Ground, Itinerary, Party, Runner, Stretch, TimingRules, plan_evening};

use crate::demonstration::{Demonstration, planned};
use crate::evening::evening;
use crate::search::{first_end_s, wave_count};
use crate::stopwatch::{alone, beside};
use crate::table::{note, row, row_alone};
use crate::workout::standard;

pub(crate) fn rows() -> Result<()> {
    let (parties, rules) = (small(), TimingRules::default());
    let ours_s = plan_evening(&parties, &rules, &[])?.end_s;
    let theirs_s = first_end_s(&parties, &rules, f64::INFINITY).context("the search finds no evening")?;
    ensure!((ours_s - theirs_s).abs() < 1e-3, "the evening ends after {ours_s} s, searched {theirs_s} s");
    let ours = || plan_evening(&parties, &rules, &[]).map(|plan| plan.end_s);
    let searched = beside(7, ours, || first_end_s(&parties, &rules, f64::INFINITY));
    row(&format!("an evening: 2 groups in {} waves", wave_count(&parties)), searched)?;
    note("beside: every cut, every order and every side of each two of the 12 starts is looked at")?;
    note(&format!("same: both end after {ours_s:.1} s, and nothing ends sooner"))?;
    let club = Demonstration::read("saturday-club-evening")?;
    let plan = club.plan()?;
    let mut athletes: Vec<&String> =
        plan.blocks.iter().flat_map(|block| &block.reps).flat_map(|rep| &rep.athletes).collect();
    athletes.sort_unstable();
    athletes.dedup();
    row_alone(&format!("  {} athletes, the club's own evening", athletes.len()), alone(9, || club.plan()))?;
    let venue = standard()?;
    for athletes in [40, 500] {
        let source = evening(athletes);
        planned(&venue, &source)?;
        let spell = alone(if athletes > 100 { 5 } else { 9 }, || planned(&venue, &source));
        row_alone(&format!("  {athletes} athletes, 3 groups, 12 blocks"), spell)?;
    }
    note("these alone: from the text of the session file to its plan")
}

/// Two groups that share two lanes and one who times.
fn small() -> [Party; 2] {
    let ground = Ground::Laps { shortest_m: 400.0, longest_m: 400.0 };
    let party = |distance_m: f64, targets_s: [f64; 4], rest_s: f64| {
        let stretch = Stretch { distance_m, ground, ..Stretch::default() };
        let runner = |(n, target_s): (usize, f64)| Runner::new(n.to_string(), 3, target_s, rest_s);
        let runners = targets_s.into_iter().enumerate().map(runner).collect();
        Party { begins_s: 0.0, itineraries: vec![Itinerary::repetitions(3, stretch, vec![2, 3], runners)] }
    };
    [party(200.0, [30.0, 31.0, 34.0, 36.0], 60.0), party(300.0, [50.0, 52.0, 55.0, 57.0], 75.0)]
}
