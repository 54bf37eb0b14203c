//! Sessions in a calendar.

use chrono::{DateTime, Days, NaiveDate, NaiveDateTime, Utc};
use icalendar::{CalendarDateTime, Component, DatePerhapsTime, EventLike, Property};
use session_plan::Plan;
use uuid::Uuid;

use crate::formats::planned::Planned;
use crate::formats::rendered::{RenderError, RenderSettings, Rendered, WRITE_A_DATE};
use crate::sheet::sheet::Sheet;
use crate::tables::plan_lines::{Marks, lines};

/// What identifiers of sessions are made with: any fixed value serves.
const NAMESPACE: Uuid = Uuid::from_u128(0x2f5d_6c51_8a3b_4f0e_9c47_1d0e_5b7a_3e86);

/// Sessions as an iCalendar file (RFC 5545): one event a session, the plan in its description.
///
/// An event lasts as long as the booking, else until the planned end; where no hours are known it
/// takes the whole day. On a track with a time zone its times are written as instants (UTC), which
/// every reader shows as its own local time, across a change of clocks too; without one they are
/// written as times on the wall, which mean the reader's own zone.
///
/// An event is known by its title, date and track: written again, it takes the place of the old one.
pub(crate) fn calendar(planned: Planned<'_>, settings: &RenderSettings) -> Result<Rendered, RenderError> {
    let mut calendar = icalendar::Calendar::empty();
    for (key, value) in [
        ("VERSION", "2.0"),
        ("PRODID", "-//Toeline//Toeline//EN"),
        ("CALSCALE", "GREGORIAN"),
        ("METHOD", "PUBLISH"),
    ] {
        calendar.append_property(Property::new(key, value));
    }
    let mut undated = Vec::new();
    let mut known: Vec<String> = Vec::new();
    let mut ordered: Vec<&Plan> = planned.plans.iter().collect();
    ordered.sort_by_key(|plan| (plan.date, plan.begins));
    for plan in ordered {
        let Some(date) = plan.date else {
            undated.push(format!("`{}`", plan.title));
            continue;
        };
        let name = [plan.title.as_str(), &date.to_string(), &plan.track.name].join("\n");
        let twins = known.iter().filter(|other| **other == name).count();
        calendar.push(event(plan, date, &uid(&name, twins), settings.now));
        known.push(name);
    }
    let undated = undated.join(", ");
    if calendar.components.is_empty() {
        return Err(RenderError::NoDate(undated));
    }
    let mut rendered = Rendered::from(in_short_lines(&calendar.to_string()));
    if !undated.is_empty() {
        rendered.notes.push(format!("left out of the calendar, having no date: {undated}; {WRITE_A_DATE}"));
    }
    Ok(rendered)
}

/// The longest line, in octets (RFC 5545, 3.1).
const LONGEST_LINE: usize = 75;

/// The text with no line longer than it may be. The library counts the space that begins the rest of a line only
/// where more follows.
fn in_short_lines(text: &str) -> String {
    let fitted = |line: &str| {
        // A reader may take a space that begins the rest for the mark of one.
        let is_cut = |at: &usize| line.is_char_boundary(*at) && !line[*at..].starts_with(' ');
        match (1..=LONGEST_LINE).rev().find(|at| line.len() > LONGEST_LINE && is_cut(at)) {
            Some(at) => format!("{}\r\n {}", &line[..at], &line[at..]),
            None => line.to_owned(),
        }
    };
    text.split("\r\n").map(fitted).collect::<Vec<_>>().join("\r\n")
}

/// The identifier of a session; sessions of one title, date and track differ by their order.
fn uid(name: &str, twins: usize) -> String {
    let name = if twins == 0 { name.to_owned() } else { format!("{name}\n{twins}") };
    Uuid::new_v5(&NAMESPACE, name.as_bytes()).to_string()
}

fn event(plan: &Plan, date: NaiveDate, uid: &str, written: DateTime<Utc>) -> icalendar::Event {
    let mut event = icalendar::Event::new();
    event
        .uid(uid)
        .timestamp(written)
        .summary(&plan.title)
        .location(&plan.track.name)
        .description(&lines(&Sheet::of(plan), Marks::Plain));
    match plan.begins {
        // The day after is the first that the event does not take.
        None => {
            event.starts(date).ends(date.checked_add_days(Days::new(1)).unwrap_or(date));
        }
        Some(begins) => {
            event.starts(time(plan, date.and_time(begins)));
            if let Some(ends) = plan.booked_until.or(plan.ends) {
                // An end that is earlier in the day lies beyond midnight.
                let day =
                    if ends < begins { date.checked_add_days(Days::new(1)).unwrap_or(date) } else { date };
                event.ends(time(plan, day.and_time(ends)));
            }
        }
    }
    event.done()
}

fn time(plan: &Plan, wall: NaiveDateTime) -> DatePerhapsTime {
    DatePerhapsTime::DateTime(match plan.track.timezone {
        Some(timezone) => CalendarDateTime::Utc(timezone.instant(wall)),
        None => CalendarDateTime::Floating(wall),
    })
}
