//! How a runner gets up to speed from a standing start.

/// How long a sprinter needs to get up to speed, in seconds: the time constant τ of [`GettingUpToSpeed`].
///
/// From memory, no source: measured sprints are described by 0.9 to 1.3 s.
const TAU_S: f64 = 1.1;

/// A runner who gets up to a speed V from a standing start, as V·(1 − e^(−t/τ)).
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct GettingUpToSpeed {
    /// V, in metres a second.
    pub(crate) top_m_per_s: f64,
}

impl GettingUpToSpeed {
    /// Who needs so long for a distance, in seconds and metres.
    pub(crate) fn from_time(time_s: f64, metres: f64) -> Self {
        Self { top_m_per_s: metres / share_s(time_s) }
    }

    /// How far the runner comes in a time, in metres: V·(t − τ·(1 − e^(−t/τ))), what the speed adds up to.
    pub(crate) fn distance_m(self, time_s: f64) -> f64 {
        self.top_m_per_s * share_s(time_s)
    }

    /// How long the runner needs for a distance, in seconds.
    pub(crate) fn time_s(self, metres: f64) -> f64 {
        if metres <= 0.0 {
            return 0.0;
        }
        // The way is convex in time: from a time that is too long Newton's method comes down to the right one.
        let mut time_s = metres / self.top_m_per_s + TAU_S;
        for _ in 0..60 {
            let m_per_s = self.top_m_per_s * (1.0 - libm::exp(-time_s / TAU_S));
            let step_s = (self.distance_m(time_s) - metres) / m_per_s;
            time_s -= step_s;
            if step_s.abs() < 1e-12 {
                break;
            }
        }
        time_s
    }

    /// How long the runner needs to reach a speed, in seconds; nothing for one that is never reached.
    pub(crate) fn reaches_s(self, m_per_s: f64) -> Option<f64> {
        (m_per_s < self.top_m_per_s).then(|| -TAU_S * libm::log(1.0 - m_per_s / self.top_m_per_s))
    }
}

/// The way in a time as a share of the speed, in seconds: t − τ·(1 − e^(−t/τ)).
fn share_s(time_s: f64) -> f64 {
    time_s - TAU_S * (1.0 - libm::exp(-time_s / TAU_S))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_is_run_again_by_small_steps() {
        for time_s in [9.6, 11.9, 13.5, 16.0] {
            let runner = GettingUpToSpeed::from_time(time_s, 100.0);
            // dv/dt = (V − v)/τ, in steps of 10 µs.
            let (mut at_m, mut m_per_s, mut now_s) = (0.0, 0.0, 0.0);
            let step_s = 1e-5;
            let mut reached_s = None;
            while at_m < 100.0 {
                m_per_s += (runner.top_m_per_s - m_per_s) / 1.1 * step_s;
                at_m += m_per_s * step_s;
                now_s += step_s;
                if m_per_s > 6.0 && reached_s.is_none() {
                    reached_s = Some(now_s);
                }
            }
            assert!((now_s - time_s).abs() < 1e-3, "{now_s}, not {time_s}");
            assert!((runner.time_s(100.0) - time_s).abs() < 1e-9);
            assert!((runner.reaches_s(6.0).unwrap_or(0.0) - reached_s.unwrap_or(1.0)).abs() < 1e-3);
            assert_eq!(runner.reaches_s(runner.top_m_per_s), None);
        }
    }

    #[test]
    fn nothing_takes_no_time() {
        assert_eq!(GettingUpToSpeed { top_m_per_s: 8.0 }.time_s(0.0), 0.0);
    }
}
