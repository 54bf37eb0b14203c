//! Where whoever times a run stands.

/// How fast somebody who times walks from one finish to another, in metres a second; common practice, no source.
const WALK_M_PER_S: f64 = 1.4;

/// Where whoever times a run stands, on a way round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Watch {
    /// How far along the way round it is, in metres from where the way begins.
    pub at_m: f64,
    /// How long the whole way round is, in metres.
    pub round_m: f64,
}

impl Watch {
    /// How long it takes to walk to another place, the shorter way round, in seconds.
    ///
    /// ```
    /// use wave_plan::Watch;
    ///
    /// let [line, back] = [0.0, 380.0].map(|at_m| Watch { at_m, round_m: 450.0 });
    /// assert!((line.walk_s(&back) - 50.0).abs() < 1e-9);
    /// ```
    pub fn walk_s(&self, to: &Self) -> f64 {
        let on_m = (to.at_m - self.at_m).abs();
        on_m.min((self.round_m - on_m).abs()) / WALK_M_PER_S
    }
}
