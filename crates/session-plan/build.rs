//! The clocks of every time zone from 2000 on, as a table of a tenth of the size that the whole database has.

use std::error::Error;
use std::fmt::Write as _;
use std::path::Path;
use std::{env, fs};

use chrono::{DateTime, Offset, TimeZone, Utc};
use chrono_tz::{TZ_VARIANTS, Tz};

/// In minutes from 1970 on: the years 2000 and 2100, after which the database has no change of clocks.
const YEARS: (i64, i64) = (15_778_080, 68_374_080);

/// Clocks that are changed are changed back no sooner than in some weeks.
const STEP: i64 = 7 * 24 * 60;

/// The first offset from UTC, and for each change the minutes since the change before and the new offset.
type Clocks = (i16, Vec<(u32, i16)>);

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=build.rs");
    let mut all: Vec<Clocks> = Vec::new();
    let mut zones = String::new();
    for zone in TZ_VARIANTS {
        let clocks = clocks(zone)?;
        let number = all.iter().position(|known| *known == clocks).unwrap_or_else(|| {
            all.push(clocks);
            all.len() - 1
        });
        writeln!(zones, "({:?}, {number}),", zone.name())?;
    }
    let mut table = format!("static ZONES: &[(&str, usize)] = &[\n{zones}];\n");
    table += "static CLOCKS: &[(i16, &[(u32, i16)])] = &[\n";
    for (first, changes) in all {
        writeln!(table, "({first}, &{changes:?}),")?;
    }
    table += "];\n";
    fs::write(Path::new(&env::var("OUT_DIR")?).join("clocks.rs"), table)?;
    Ok(())
}

fn clocks(zone: Tz) -> Result<Clocks, Box<dyn Error>> {
    let (begin, end) = YEARS;
    let first = offset(zone, begin)?;
    let (mut changes, mut changed, mut now) = (Vec::new(), begin, first);
    for after in (begin..=end).step_by(STEP as usize).skip(1) {
        let next = offset(zone, after)?;
        if next != now {
            let (mut same, mut other) = (after - STEP, after);
            while other - same > 1 {
                let middle = same.midpoint(other);
                *(if offset(zone, middle)? == now { &mut same } else { &mut other }) = middle;
            }
            changes.push((u32::try_from(other - changed)?, next));
            (changed, now) = (other, next);
        }
    }
    Ok((first, changes))
}

/// Minutes that a zone is ahead of UTC at a minute.
fn offset(zone: Tz, minute: i64) -> Result<i16, Box<dyn Error>> {
    let at: DateTime<Utc> = DateTime::from_timestamp(minute * 60, 0).ok_or("it is no instant")?;
    let seconds = zone.offset_from_utc_datetime(&at.naive_utc()).fix().local_minus_utc();
    if seconds % 60 != 0 {
        return Err(format!("{zone} is not ahead of UTC by whole minutes").into());
    }
    Ok(i16::try_from(seconds / 60)?)
}
