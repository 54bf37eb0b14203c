//! JSON that is set out in lines.

use serde::Serialize;
use serde_json::{Deserializer, Serializer};

/// A value as JSON that is set out in lines, with a line end.
///
/// Every type has one writer of JSON, that of one line, and what it wrote is set out.
///
/// # Errors
///
/// [`serde_json::Error`] where a value has no JSON; no answer of this project has such values.
pub(crate) fn in_lines(value: &impl Serialize) -> Result<String, serde_json::Error> {
    let json = serde_json::to_string(value)?;
    let mut lines = Vec::new();
    serde_transcode::transcode(&mut Deserializer::from_str(&json), &mut Serializer::pretty(&mut lines))?;
    lines.push(b'\n');
    String::from_utf8(lines).map_err(serde::de::Error::custom)
}

#[cfg(test)]
mod tests {
    use lane_distance::Track;
    use session_plan::{Session, Venue};
    use workout_notation::Workout;

    use super::*;
    use crate::answers::view::View;

    #[test]
    fn a_plan_is_set_out_as_its_type_would_write_it_in_lines() {
        let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
        let blocks = Workout::parse_blocks("3 x (200 fast, 100 jog), then 4 x 150 in lane 2")
            .expect("it is well formed");
        let session = Session::of_blocks("Tuesday \"é\"\u{7}", blocks);
        let plan = session_plan::plan(&venue, &session).expect("it can be laid out");
        let written = serde_json::to_string_pretty(&plan.data()).expect("it has JSON");
        assert_eq!(in_lines(&plan.data()).expect("it has JSON"), written + "\n");
        let odd = serde_json::json!({ "nothing": null, "none": [], "no keys": {}, "far": 1e300, "near": -0.1, "whole": 2.0 });
        assert_eq!(
            in_lines(&odd).expect("it has JSON"),
            serde_json::to_string_pretty(&odd).expect("so has this") + "\n"
        );
    }
}
