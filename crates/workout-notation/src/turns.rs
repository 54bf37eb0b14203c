//! How far each turn of a run is that is fast and easy in turn.

use std::fmt;
use std::ops::RangeInclusive;

/// The most turns that are told apart.
const MOST_TURNS: usize = 8;

/// How far a turn can be, in metres.
pub(crate) const TURN_M: RangeInclusive<f64> = 10.0..=5000.0;

/// How far each turn of a run is that is fast and easy in turn; behind the last one they begin again.
///
/// ```
/// use workout_notation::Turns;
///
/// let turns = Turns::new(&[60.0, 40.0]).expect("they are few");
/// assert_eq!(turns.metres(), [60.0, 40.0]);
/// assert_eq!(turns.changes_m(250.0).collect::<Vec<_>>(), [60.0, 100.0, 160.0, 200.0]);
/// assert_eq!(turns.to_string(), "60-40");
/// assert_eq!(Turns::new(&[]), None);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turns {
    metres: [f64; MOST_TURNS],
    count: u8,
}

impl Turns {
    /// Turns of so many metres each; nothing where there are none, or more than eight, or one is shorter than 10 m or
    /// longer than 5000 m.
    pub fn new(metres: &[f64]) -> Option<Self> {
        if !(1..=MOST_TURNS).contains(&metres.len()) || metres.iter().any(|metres| !TURN_M.contains(metres)) {
            return None;
        }
        let mut all = [0.0; MOST_TURNS];
        all[..metres.len()].copy_from_slice(metres);
        Some(Self { metres: all, count: metres.len() as u8 })
    }

    /// The metres of each turn.
    pub fn metres(&self) -> &[f64] {
        &self.metres[..usize::from(self.count)]
    }

    /// How far from the start of a run each change is, in metres; the run is `distance_m` long, and nobody changes at
    /// its end.
    pub fn changes_m(self, distance_m: f64) -> impl Iterator<Item = f64> {
        let (metres, count) = (self.metres, usize::from(self.count));
        let mut at_m = 0.0;
        (0..).map_while(move |turn: usize| {
            at_m += metres[turn % count];
            // Closer to the finish than this nobody changes.
            (at_m < distance_m - 0.05).then_some(at_m)
        })
    }
}

impl fmt::Display for Turns {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.metres() {
            [alike] => write!(f, "{alike}s"),
            several => {
                let several: Vec<String> = several.iter().map(f64::to_string).collect();
                f.write_str(&several.join("-"))
            }
        }
    }
}
