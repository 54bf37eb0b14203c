//! Staggers: how far ahead the outer lanes start, so that all run the same distance.

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;
use crate::geometry::spot::Spot;
use crate::geometry::station::Station;
use crate::track::layout::Layout;

impl Layout {
    /// The stagger of a lane for a race that is run in lanes all the way: how far its start lies
    /// past the line square across the track at lane 1's start, along the lane, in metres.
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// // World Athletics, Track and Field Facilities Manual: 3.519 m and 7.038 m.
    /// assert!((track.layout().stagger_in_lanes_m(LaneNumber::of::<2>(), 200.0) - 3.519).abs() < 0.001);
    /// assert!((track.layout().stagger_in_lanes_m(LaneNumber::of::<2>(), 400.0) - 7.038).abs() < 0.001);
    /// ```
    pub fn stagger_in_lanes_m(&self, lane: LaneNumber, race_m: f64) -> f64 {
        let inside = self.measure(LaneNumber::FIRST);
        let start = Spot::on_oval(LaneNumber::FIRST, inside.within_lap_m(race_m));
        let laps = ((race_m - start.to_finish_m) / inside.lap_m()).round();
        laps * self.measure(lane).lap_m() + self.abreast(start, lane).to_finish_m - race_m
    }

    /// The stagger of a lane for a race that is run in lanes for one or three bends and then
    /// breaks for lane 1, in metres.
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// // World Athletics, Track and Field Facilities Manual, rounded there from a construction of
    /// // its own: 26.933 m for the 800 m in lane 8.
    /// let stagger = track.layout().stagger_after_break_m(LaneNumber::of::<8>(), 800.0, 1);
    /// assert!(stagger.is_some_and(|stagger| (stagger - 26.933).abs() < 0.005));
    /// ```
    pub fn stagger_after_break_m(&self, lane: LaneNumber, race_m: f64, bends: u8) -> Option<f64> {
        let start = self.start_before_break(LaneNumber::FIRST, race_m, bends, LaneNumber::FIRST)?;
        let abreast = self.abreast(start, lane);
        let own = self.start_before_break(lane, race_m, bends, LaneNumber::FIRST)?;
        let line = self.measure(lane);
        let breaks_m = self.end_of_first_bend(lane).to_finish_m;
        // Both starts lie less than a lap before the break, or the three bends' extra lap more.
        let before_break = |spot: Spot| line.within_lap_m(spot.to_finish_m - breaks_m);
        Some(before_break(abreast) - before_break(own))
    }

    /// Where a lane starts a race that is run in lanes for `bends` bends and then breaks for
    /// `inside`, the innermost lane that is run.
    ///
    /// The run after the break is the shortest: straight to where that line touches the inner
    /// lane's measure line on the far bend, then along it ([`Layout::join`]). Nothing where the oval
    /// lacks one of the lanes, or `lane` lies inside `inside`.
    pub fn start_before_break(
        &self,
        lane: LaneNumber,
        race_m: f64,
        bends: u8,
        inside: LaneNumber,
    ) -> Option<Spot> {
        if !self.has_lane(Course::Oval, lane) || !self.has_lane(Course::Oval, inside) {
            return None;
        }
        let inside_lap_m = self.measure(inside).lap_m();
        let inside_breaks_m = self.end_of_first_bend(inside).to_finish_m;
        // Laps after the break, so many that less than one lies before it, and one more in lanes
        // where three bends are run in them.
        let laps = ((race_m - inside_breaks_m) / inside_lap_m).floor() - if bends == 3 { 1.0 } else { 0.0 };
        let breaks = self.end_of_first_bend(lane);
        let in_lane_m = race_m - self.join(breaks, inside)?.to_finish_m - laps * inside_lap_m;
        let to_finish_m = self.measure(lane).within_lap_m(breaks.to_finish_m + in_lane_m);
        Some(Spot::on_oval(lane, to_finish_m))
    }

    /// Where the first bend after the finish line ends in a lane: the break line.
    pub fn end_of_first_bend(&self, lane: LaneNumber) -> Spot {
        let line = self.measure(lane);
        let station = Station { piece: self.after_first_bend(), fraction: 0.0 };
        Spot::on_oval(lane, line.within_lap_m(line.lap_m() - line.from_finish_m(station)))
    }
}
