//! The track at the times of a day.

use std::cell::RefCell;
use std::sync::Arc;

use chrono::TimeDelta;
use lane_distance::Track;

use crate::people::hours::Hours;
use crate::people::venue::Venue;

/// How much earlier or later than planned a run may go by, in seconds.
const LATE_S: f64 = 300.0;

/// The track of a venue at the times of a day: some hazards are in use, and some lanes closed, at some times and not at
/// others.
pub(crate) struct DayTrack<'a> {
    venue: &'a Venue,
    /// The booking; without it everything is taken to be in the way.
    hours: Option<Hours>,
    /// The tracks that were made, by what is in the way.
    made: RefCell<Vec<(Vec<bool>, Arc<Track>)>>,
}

impl<'a> DayTrack<'a> {
    pub(crate) fn new(venue: &'a Venue, hours: Option<Hours>) -> Self {
        Self { venue, hours, made: RefCell::default() }
    }

    /// Whether the time of the day makes a difference.
    pub(crate) fn has_hours(&self) -> bool {
        self.hours.is_some() && self.venue.has_hours()
    }

    /// What is in the way at some time of the booking.
    pub(crate) fn booked(&self) -> Vec<bool> {
        match &self.hours {
            Some(hours) => self.venue.in_the_way(hours),
            None => self.venue.all_in_the_way(),
        }
    }

    /// What is in the way at all times.
    pub(crate) fn always(&self) -> Vec<bool> {
        self.venue.always_in_the_way()
    }

    /// What is in the way at some time between two, or a little before or after: evenings run late. In seconds from
    /// the start of the session.
    pub(crate) fn during(&self, from_s: f64, to_s: f64) -> Vec<bool> {
        let (from_s, to_s) = (from_s - LATE_S, to_s + LATE_S);
        let Some(hours) = &self.hours else { return self.booked() };
        // Beyond the limits of a day there is nothing: its last minute stands for what is later.
        let at = |seconds: f64| {
            let milliseconds = (seconds.clamp(0.0, 86_400.0) * 1000.0) as i64;
            let (time, days) = hours.from.overflowing_add_signed(TimeDelta::milliseconds(milliseconds));
            if days == 0 {
                time
            } else {
                chrono::NaiveTime::MIN.overflowing_sub_signed(TimeDelta::seconds(1)).0
            }
        };
        self.venue.in_the_way(&Hours { from: at(from_s), to: at(to_s) })
    }

    /// The track with these in the way.
    pub(crate) fn with(&self, in_the_way: &[bool]) -> Arc<Track> {
        let mut made = self.made.borrow_mut();
        if let Some((_, track)) = made.iter().find(|(known, _)| known == in_the_way) {
            return Arc::clone(track);
        }
        let track = Arc::new(self.venue.track_with(in_the_way));
        made.push((in_the_way.to_vec(), Arc::clone(&track)));
        track
    }
}
