//! The key under which earlier pages kept the times of a session.
//!
//! It was made from the words of the plan as they were then. They stay here as they were, so that the times are
//! found whatever is said of a place today.

use lane_distance::{Form, Mark, Placement};
use session_plan::Plan;

use super::key_digest::digest;

/// The key of version 1: title, date, track and the runs, with their places in words.
pub(super) fn old_key(plan: &Plan) -> String {
    digest(plan, "1", |rep| {
        let mut metres = format!("{:.3}", rep.distance_m);
        metres.truncate(metres.trim_end_matches('0').trim_end_matches('.').len());
        if rep.plus_minus_m >= 0.1 {
            metres += &format!(" ±{:.1}", rep.plus_minus_m);
        }
        vec![metres, place(plan, &rep.start), place(plan, &rep.finish)]
    })
}

/// A place as it was worded, with the tape in steps where the session gives a stride.
fn place(plan: &Plan, place: &Placement) -> String {
    let marks = plan.track.ground.marks();
    let mark = marks.iter().find(|mark| Some(&mark.name) == place.mark.as_ref());
    let is_on_paint = place.past_mark_m.abs() <= 0.05;
    let mut words = match mark {
        None => format!("{:.2} m before the finish line (no paint in this lane)", place.to_finish_line_m),
        Some(mark) if is_on_paint => return format!("on the {}", spoken(mark)),
        Some(mark) => {
            let side = if place.past_mark_m < 0.0 { "behind" } else { "past" };
            format!("{:.2} m {side} the {}", place.past_mark_m.abs(), spoken(mark))
        }
    };
    let (along, tape) = (format!("{:.2}", place.past_mark_m.abs()), format!("{:.2}", place.tape_m.abs()));
    if mark.is_some() && along != tape {
        words += &format!("; tape {tape} m on the inner line");
    }
    if !plan.walk.is_stride_assumed {
        let halves = (place.tape_m.abs() / plan.walk.stride_m * 2.0).round() as u64;
        let steps = match (halves / 2, halves % 2) {
            (0, 1) => "½".to_owned(),
            (whole, 0) => whole.to_string(),
            (whole, _) => format!("{whole}½"),
        };
        words += &format!("; {steps} steps");
    }
    words
}

fn spoken(mark: &Mark) -> String {
    match mark.form {
        Form::Edge => format!("{} ({})", called(mark), mark.colour),
        _ => called(mark),
    }
}

/// The races whose hurdle ticks came with the crate.
const HURDLE_TICKS: [&str; 7] = ["400 m", "300 m", "110 m", "100 m", "80 m", "75 m", "70 m"];

const NTH: [&str; 10] =
    ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"];

/// A mark as it was called; those of a track file are called as it says.
fn called(mark: &Mark) -> String {
    let hurdle = mark.name.split_once(" hurdle tick ").and_then(|(race, number)| {
        let number: usize = number.parse().ok()?;
        Some((race, NTH.get(number.checked_sub(1)?)?))
    });
    match (hurdle, &mark.called, mark.form) {
        _ if mark.name.contains(" 4x100 m takeover zone ") => mark.name.to_string(),
        (Some(("300 m", nth)), ..) => format!("{nth} hurdle of the 300 m (a green tick)"),
        (Some((race, nth)), ..) if HURDLE_TICKS.contains(&race) => {
            format!("{nth} {} tick ({})", mark.colour, mark.name)
        }
        (_, Some(called), _) => called.clone(),
        (_, None, Form::Line | Form::ShortLine) if !mark.name.ends_with("line") => {
            format!("{} line", mark.name)
        }
        _ => mark.name.to_string(),
    }
}
