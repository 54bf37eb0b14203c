//! The clocks of the world's time zones, from a table that is made when the program is built.

/// In minutes from 1970 on: when the table begins.
const BEGIN: i64 = 15_778_080;

// `ZONES` has the name of each zone and the number of its clocks. `CLOCKS` has how many minutes they are ahead of UTC in
// 2000, and for each change of theirs the minutes since the one before and how many they are ahead from then on.
include!(concat!(env!("OUT_DIR"), "/clocks.rs"));

/// The clocks of a time zone, as they are from 2000 to 2100; before and after, none is changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Clocks {
    zone: usize,
}

impl Clocks {
    /// Those of every zone of the IANA database, by name.
    pub(super) fn all() -> impl Iterator<Item = Self> {
        (0..ZONES.len()).map(|zone| Self { zone })
    }

    /// The name of the zone.
    pub(super) fn name(self) -> &'static str {
        ZONES[self.zone].0
    }

    /// The seconds that they are ahead of UTC when they show a time, as seconds from 1970 on; where they show it twice, the
    /// first time, and nothing where they skip it.
    pub(super) fn ahead_s(self, shown_s: i64) -> Option<i64> {
        let (mut ahead, changes) = CLOCKS[ZONES[self.zone].1];
        let (mut from, mut changed) = (i64::MIN, BEGIN);
        for &(later, next) in changes {
            changed += i64::from(later);
            let at_s = shown_s - i64::from(ahead) * 60;
            if at_s < changed * 60 {
                return (from <= at_s).then_some(i64::from(ahead) * 60);
            }
            (from, ahead) = (changed * 60, next);
        }
        (from <= shown_s - i64::from(ahead) * 60).then_some(i64::from(ahead) * 60)
    }
}

#[cfg(test)]
mod tests {
    use chrono::{DateTime, NaiveDateTime, Offset, TimeDelta, TimeZone};
    use chrono_tz::Tz;

    use super::*;

    /// As the whole database has it.
    fn known(zone: Tz, shown: NaiveDateTime) -> Option<i64> {
        zone.from_local_datetime(&shown).earliest().map(|at| at.offset().fix().local_minus_utc().into())
    }

    #[test]
    fn every_zone_has_its_clocks_at_each_change_and_all_the_year() {
        let mut changes_seen = 0;
        for clocks in Clocks::all() {
            let zone: Tz = clocks.name().parse().expect("it is a zone of the database");
            let mut times: Vec<i64> = (0..500).map(|weeks| BEGIN * 60 + weeks * 11 * 7 * 86_400).collect();
            let mut changed = BEGIN;
            for (later, ahead) in CLOCKS[ZONES[clocks.zone].1].1 {
                changed += i64::from(*later);
                changes_seen += 1;
                let shown = (changed + i64::from(*ahead)) * 60;
                times.extend(
                    [-86_400, -7_200, -3_601, -3_600, -1_800, -1, 0, 1, 3_599, 3_600, 7_200]
                        .map(|by| shown + by),
                );
            }
            for shown_s in times.into_iter().filter(|shown_s| *shown_s > BEGIN * 60 + 86_400) {
                let shown = DateTime::UNIX_EPOCH.naive_utc() + TimeDelta::seconds(shown_s);
                assert_eq!(clocks.ahead_s(shown_s), known(zone, shown), "{zone} {shown}");
            }
        }
        assert!(changes_seen > 10_000, "{changes_seen}");
    }
}
