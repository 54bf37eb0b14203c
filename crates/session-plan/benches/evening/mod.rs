//! An evening of three groups, for any number of athletes.

use std::fmt::Write as _;

use workout_notation::SourceText;

/// Groups with their lanes, their best over 1500 m in seconds, and their blocks.
const GROUPS: [(&str, &str, f64, [&str; 4]); 3] = [
    (
        "sprinters",
        "4, 5, 6",
        300.0,
        [
            "6 x 60 @ 9s rest 2min",
            "300 + 250 + 200 + 150 @ 85% rest 6min",
            "4 x 100 on the home straight, changing ends @ 90% rest 90s",
            "4 x flying 30 with 20 run-in @ 4.5s rest 3min",
        ],
    ),
    (
        "hurdlers",
        "7, 8",
        310.0,
        [
            "6 x 110h to hurdle 3 @ 7s rest 3min",
            "2 x (3 x 150) @ 22s rest 90s / 5min",
            "3 x 200 @ 32s rest 2min",
            "4 x 80 on the bend @ 12s rest 90s",
        ],
    ),
    (
        "milers",
        "2, 3",
        260.0,
        [
            "5 x 1000 @ 5000 pace rest 2min",
            "4 x 300 @ 1500 pace jog 100",
            "200-400-600-400-200 @ 1500 pace rest 2min",
            "6 x 200 @ 1500 pace off 90s",
        ],
    ),
];

/// The session file of an evening of so many athletes, in three groups with four blocks each.
pub(crate) fn evening(athletes: usize) -> SourceText {
    let mut text = "title: Evening\nsquad: { timers: one }\ngroups:\n".to_owned();
    for (group, (name, lanes, best_s, blocks)) in GROUPS.iter().enumerate() {
        let own = athletes / GROUPS.len() + usize::from(group < athletes % GROUPS.len());
        let athlete = |n: usize| {
            let best_s = best_s + 60.0 * n as f64 / own as f64;
            let bests = format!("{{ 200: {}, 1500: {best_s:.1} }}", best_s / 11.0);
            format!("{{ name: {name} {n}, bests: {bests} }}")
        };
        let athletes: Vec<String> = (0..own).map(athlete).collect();
        let _ =
            writeln!(text, "  - name: {name}\n    lanes: [{lanes}]\n    athletes: [{}]", athletes.join(", "));
        let _ = writeln!(text, "    blocks: [{}]", blocks.map(|block| format!("\"{block}\"")).join(", "));
    }
    text.push_str("blocks: []\n");
    SourceText::new("evening.yaml", &text)
}
