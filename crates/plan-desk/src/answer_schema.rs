//! The schemas of answers that the command line gives too: the keys that other programs may rely on. Answers have others
//! besides.

use schemars::{Schema, SchemaGenerator, json_schema};

/// A place in a lane, and the paint that says it.
fn spot() -> Schema {
    json_schema!({
        "type": "object",
        "required": [
            "course", "lane", "x_m", "y_m", "from_finish_line_m", "to_finish_line_m", "mark", "colour", "past_mark_m",
            "tape_m", "words"
        ],
        "properties": {
            "course": { "enum": ["oval", "home straight", "back straight"] },
            "lane": { "type": "integer", "minimum": 1 },
            "x_m": { "type": "number", "description": "From the centre of the infield, as the home straight is run" },
            "y_m": { "type": "number", "description": "From the home straight to the back straight" },
            "from_finish_line_m": {
                "type": "number",
                "description": "Along the lane's measure line from the finish line, in the direction of running"
            },
            "to_finish_line_m": { "type": "number", "description": "On to the finish line" },
            "mark": { "type": ["string", "null"], "description": "The paint that says the place" },
            "colour": { "type": ["string", "null"] },
            "past_mark_m": { "type": ["number", "null"], "description": "Negative: behind the mark" },
            "tape_m": { "type": ["number", "null"], "description": "The same laid along the lane's inner line" },
            "words": { "type": "string", "description": "The place in words" }
        }
    })
}

/// An object with what every answer ends with, and some keys of its own, all of which are there.
fn answer(own: &[(&str, Schema)]) -> Schema {
    let mut schema = json_schema!({
        "type": "object",
        "properties": {
            "cautions": { "type": "array", "items": { "type": "string" } },
            "findings": {
                "type": "array",
                "items": {
                    "type": "object",
                    "required": ["kind", "words"],
                    "properties": { "kind": { "type": "string" }, "words": { "type": "string" } }
                }
            }
        }
    });
    let own = own.iter().map(|(name, of)| ((*name).to_owned(), of.clone().to_value()));
    if let Some(properties) = schema.get_mut("properties").and_then(|properties| properties.as_object_mut()) {
        properties.extend(own);
        let required = properties.keys().cloned().collect::<Vec<_>>();
        schema.insert("required".to_owned(), required.into());
    }
    schema
}

fn list(of: Schema) -> Schema {
    json_schema!({ "type": "array", "items": of })
}

fn metres() -> Schema {
    json_schema!({ "type": "number" })
}

/// Where one repetition can start and finish.
pub(crate) fn spots(_: &mut SchemaGenerator) -> Schema {
    let choice = json_schema!({
        "type": "object",
        "required": ["start", "finish", "distance_m", "ends_on_paint"],
        "properties": {
            "start": spot(),
            "finish": spot(),
            "distance_m": metres(),
            "ends_on_paint": { "type": "integer", "minimum": 0, "maximum": 2 }
        }
    });
    answer(&[("choices", list(choice))])
}

/// How far it is from one place to another.
pub(crate) fn measure(_: &mut SchemaGenerator) -> Schema {
    let lane = json_schema!({ "type": "integer", "minimum": 1 });
    answer(&[("lane", lane), ("from", spot()), ("to", spot()), ("distance_m", metres())])
}

/// The lap and the stagger of each lane.
pub(crate) fn lanes(_: &mut SchemaGenerator) -> Schema {
    let stagger = json_schema!({ "type": ["number", "null"], "description": "Metres past that of lane 1" });
    let lane = json_schema!({
        "type": "object",
        "required": ["lane", "lap_m", "stagger_200_m", "stagger_400_m", "stagger_800_m", "stagger_4x400_m"],
        "properties": {
            "lane": { "type": "integer", "minimum": 1 },
            "lap_m": metres(),
            "stagger_200_m": stagger,
            "stagger_400_m": stagger,
            "stagger_800_m": stagger,
            "stagger_4x400_m": stagger
        }
    });
    answer(&[("lanes", list(lane))])
}

/// The paint in a lane.
pub(crate) fn marks(_: &mut SchemaGenerator) -> Schema {
    answer(&[("marks", list(spot()))])
}

/// The plan of an evening, as `toeline plan --format json` gives it.
pub(crate) fn plan(_: &mut SchemaGenerator) -> Schema {
    let rep = json_schema!({
        "type": "object",
        "required": [
            "rep", "group", "athletes", "wave", "lane", "course", "distance_m", "start", "finish", "target_s", "go_s",
            "done_s", "rest_s", "about"
        ],
        "properties": {
            "rep": { "type": "integer", "minimum": 1 },
            "group": { "type": ["string", "null"] },
            "athletes": { "type": "array", "items": { "type": "string" } },
            "wave": { "type": "integer", "minimum": 1 },
            "lane": { "type": "integer", "minimum": 1 },
            "course": { "type": "string" },
            "distance_m": metres(),
            "start": spot(),
            "finish": spot(),
            "target_s": { "type": ["number", "null"] },
            "go_s": { "type": ["number", "null"], "description": "From the start of the session" },
            "done_s": { "type": ["number", "null"] },
            "rest_s": { "type": ["number", "null"] },
            "about": { "type": "boolean", "description": "Whether its time was estimated" }
        }
    });
    let block = json_schema!({
        "type": "object",
        "required": ["text", "reading", "not_read", "reps"],
        "properties": {
            "text": { "type": "string" },
            "reading": { "type": ["string", "null"] },
            "not_read": { "type": "array", "items": { "type": "string" } },
            "reps": list(rep)
        }
    });
    let cone = json_schema!({
        "type": "object",
        "required": ["order", "what", "for", "spot"],
        "properties": {
            "order": { "type": "integer", "minimum": 1 },
            "what": { "type": "string" },
            "for": { "type": "string" },
            "spot": spot()
        }
    });
    let track = json_schema!({
        "type": "object",
        "required": ["name", "closed_lanes", "lanes"],
        "properties": {
            "name": { "type": "string" },
            "closed_lanes": { "type": "array", "items": { "type": "integer" } },
            "lanes": {
                "type": "array",
                "items": {
                    "type": "object",
                    "required": ["lane", "lap_m"],
                    "properties": { "lane": { "type": "integer" }, "lap_m": metres() }
                }
            }
        }
    });
    let text = json_schema!({ "type": "string" });
    let date = json_schema!({ "type": ["string", "null"], "format": "date" });
    answer(&[
        ("title", text.clone()),
        ("date", date),
        ("track", track),
        ("blocks", list(block)),
        ("setup", list(cone)),
        ("warnings", list(text)),
    ])
}
