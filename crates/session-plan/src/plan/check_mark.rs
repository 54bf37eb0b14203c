//! Where the incoming runner must be for the outgoing one to go.

use serde::Serialize;

use crate::people::getting_up_to_speed::GettingUpToSpeed;

/// How far past the standing place the baton changes hands at the latest, in metres: in the middle of the former zone of
/// 20 m, two thirds into that of 30 m. Common practice, no source.
const LATEST_EXCHANGE_M: f64 = 20.0;

/// The free distance: how far the runners are apart when the baton goes from one stretched arm to the other, in
/// metres. Common practice, no source.
const ARMS_M: f64 = 1.5;

/// A foot's length in a running shoe, in metres: what a check mark is counted in, heel to toe.
pub const FOOT_M: f64 = 0.30;

/// A check mark: the outgoing runner goes when the incoming one comes by it.
///
/// Own derivation, from plain kinematics. The outgoing runner gets up to speed as V·(1 − e^(−t/τ)), τ = 1.1 s (from
/// memory, no source), and so comes V·(t − τ·(1 − e^(−t/τ))) far. The incoming runner comes at an even speed v, and is
/// the length of two arms behind when the baton changes hands. The way between them shrinks as long as the outgoing
/// runner is slower; so they meet when both are equally fast, t = −τ·ln(1 − v/V), or 20 m on where the outgoing runner
/// is still slower there. Then the mark lies
///
/// > v·t − `exchange_m` + `arms_m`
///
/// back from where the outgoing runner stands. That is as far back as the incoming one can still make up.
///
/// It assumes that the outgoing runner goes at the very moment and at full effort, that the incoming one loses no speed
/// in the zone, and that both run as their bests say. It is a start, to be tuned on the track.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CheckMark {
    /// How far back from the standing place it lies, in metres.
    pub back_m: f64,
    /// The same in foot lengths of `foot_m`, to the nearest whole one.
    pub feet: u32,
    /// A foot's length, in metres.
    pub foot_m: f64,
    /// The incoming runner's speed near the end of the leg, in metres a second.
    pub incoming_m_per_s: f64,
    /// The speed that the outgoing runner gets up to, in metres a second.
    pub outgoing_m_per_s: f64,
    /// How far past the standing place the outgoing runner is when the baton changes hands, in metres.
    pub exchange_m: f64,
    /// How far the runners are apart at that moment, in metres.
    pub arms_m: f64,
    /// Whether a speed is a club athlete's, as nothing is known of the runner.
    #[serde(rename = "about")]
    pub is_about: bool,
}

impl CheckMark {
    /// The check mark of two speeds in metres a second: of the incoming runner near the end of the leg, and what the
    /// outgoing one gets up to. It lies no more than `most_m` back.
    ///
    /// ```
    /// // Both run at 8.13 m/s after 2.31 s: the outgoing runner has come 12.6 m far, the incoming one 18.8 m.
    /// let mark = session_plan::CheckMark::from_speeds(8.13, 9.26, 40.0);
    /// assert!((mark.exchange_m - 12.5).abs() < 0.1);
    /// assert!((mark.back_m - 7.8).abs() < 0.1);
    /// assert_eq!(mark.feet, 26);
    /// ```
    pub fn from_speeds(incoming_m_per_s: f64, outgoing_m_per_s: f64, most_m: f64) -> Self {
        let outgoing = GettingUpToSpeed { top_m_per_s: outgoing_m_per_s };
        let latest_s = outgoing.time_s(LATEST_EXCHANGE_M);
        let exchange_s =
            outgoing.reaches_s(incoming_m_per_s).map_or(latest_s, |as_fast_s| as_fast_s.min(latest_s));
        let exchange_m = outgoing.distance_m(exchange_s);
        let back_m = (incoming_m_per_s * exchange_s - exchange_m + ARMS_M).min(most_m);
        Self {
            back_m,
            feet: (back_m / FOOT_M).round() as u32,
            foot_m: FOOT_M,
            incoming_m_per_s,
            outgoing_m_per_s,
            exchange_m,
            arms_m: ARMS_M,
            is_about: false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Runs an exchange by small steps, until the incoming runner has come up to two arms or falls back again: how far
    /// past the standing place the outgoing runner is then, and what is left between them.
    fn run(mark: &CheckMark, back_m: f64) -> (f64, f64) {
        let (mut incoming_m, mut outgoing_m, mut m_per_s) = (-back_m, 0.0, 0.0);
        let step_s = 1e-5;
        while outgoing_m - incoming_m > mark.arms_m && m_per_s < mark.incoming_m_per_s {
            m_per_s += (mark.outgoing_m_per_s - m_per_s) / 1.1 * step_s;
            outgoing_m += m_per_s * step_s;
            incoming_m += mark.incoming_m_per_s * step_s;
        }
        (outgoing_m, outgoing_m - incoming_m)
    }

    const SPEEDS: [(f64, f64); 6] =
        [(8.13, 9.26), (9.3, 10.6), (6.5, 7.2), (9.0, 8.0), (6.2, 6.3), (7.0, 10.0)];

    #[test]
    fn runners_who_go_by_the_mark_meet_where_they_mean_to() {
        for (incoming, outgoing) in SPEEDS {
            let mark = CheckMark::from_speeds(incoming, outgoing, 40.0);
            let (exchanged_m, apart_m) = run(&mark, mark.back_m);
            // Near the end they come closer very slowly.
            assert!((exchanged_m - mark.exchange_m).abs() < 0.1, "{mark:?}: {exchanged_m}");
            assert!((apart_m - mark.arms_m).abs() < 1e-3, "{mark:?}: {apart_m}");
        }
    }

    #[test]
    fn the_incoming_runner_cannot_make_up_more_by_then() {
        for (incoming, outgoing) in SPEEDS {
            let mark = CheckMark::from_speeds(incoming, outgoing, 40.0);
            // Half a metre further back they meet later, or never.
            let (exchanged_m, apart_m) = run(&mark, mark.back_m + 0.5);
            assert!(exchanged_m > 20.0 || apart_m > mark.arms_m + 0.4, "{mark:?}: {exchanged_m} {apart_m}");
        }
    }

    #[test]
    fn a_faster_incoming_runner_has_the_mark_further_back() {
        let back_m = |incoming, outgoing| CheckMark::from_speeds(incoming, outgoing, 40.0).back_m;
        assert!(back_m(9.0, 9.0) > back_m(8.0, 9.0) && back_m(8.0, 8.0) > back_m(8.0, 9.0));
        assert_eq!(back_m(11.0, 3.0), 40.0);
        assert!(back_m(1.0, 11.0) >= ARMS_M);
    }
}
