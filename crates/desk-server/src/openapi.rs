//! The description of the interface (OpenAPI 3.1), made from the types that are read and written.

use plan_desk::{OPERATIONS, Operation, Refusal};
use schemars::SchemaGenerator;
use schemars::generate::SchemaSettings;
use serde_json::{Map, Value, json};

use crate::session_folder::{NAME_PATTERN, SessionList};
use crate::session_resource::KINDS;

/// Where schemas stand in the description.
const SCHEMAS: &str = "/components/schemas";

/// Where those of answers stand until all are known: a type that is read and written has two.
const ANSWERS: &str = "/answers";

/// What can go wrong wherever something is asked.
const EVERYWHERE: [(&str, &str); 5] = [
    ("400", "The request is not valid"),
    ("405", "The method is not one of those that `Allow` lists"),
    ("421", "The server does not answer to the name in `Host`"),
    ("500", "A bug in the server, which goes on"),
    ("503", "Too much is going on, or the answer takes too long; `Retry-After` says when to ask again"),
];

/// What can go wrong besides where a body is sent.
const WITH_BODY: [(&str, &str); 4] = [
    ("403", "The request comes from a page of another site, or what it asks for is not allowed"),
    ("408", "The body came too slowly"),
    ("413", "The body is larger than 64 KiB"),
    ("415", "The body is of another kind"),
];

/// The description of all that is served below `/api`.
pub(crate) fn description(has_sessions: bool) -> Value {
    let mut requests = generator(SchemaSettings::draft2020_12(), SCHEMAS);
    let mut answers = generator(SchemaSettings::draft2020_12().for_serialize(), ANSWERS);
    let refusal = answers.subschema_for::<Refusal>();
    let mut paths = Map::new();
    for operation in OPERATIONS {
        let path = format!("/api/{}", operation.name);
        paths.insert(path, json!({ "post": asked(operation, &mut requests, &mut answers) }));
    }
    if has_sessions {
        paths.insert("/api/sessions".to_owned(), json!({ "get": list(&mut answers) }));
        let name = json!({
            "name": "name", "in": "path", "required": true,
            "description": "The name of a file in the folder: no path, not hidden",
            "schema": { "type": "string", "pattern": NAME_PATTERN, "maxLength": 255 },
            "example": "tuesday.yaml",
        });
        paths.insert(
            "/api/sessions/{name}".to_owned(),
            json!({ "parameters": [name], "get": opened(), "put": saved() }),
        );
    }
    let mut schemas = requests.take_definitions(true);
    let answered = answers.take_definitions(true);
    let twice: Vec<String> = answered.keys().filter(|name| schemas.contains_key(*name)).cloned().collect();
    let name = |name: &str| match twice.iter().any(|known| known == name) {
        true => format!("Answered{name}"),
        false => name.to_owned(),
    };
    schemas.extend(answered.into_iter().map(|(own, schema)| (name(&own), schema)));
    let mut description = json!({
        "openapi": "3.1.0",
        "info": {
            "title": "Toeline",
            "description": "Where each repetition of a workout starts and finishes on a real track.",
            "version": env!("CARGO_PKG_VERSION"),
        },
        "paths": paths,
        "components": {
            "schemas": schemas,
            "responses": {
                "Refusal": {
                    "description": "Refused",
                    "content": { "application/problem+json": { "schema": refusal } },
                },
            },
        },
    });
    move_references(&mut description, &name);
    description
}

/// Makes the references to schemas of answers lead to where those stand in the end.
fn move_references(value: &mut Value, name: &impl Fn(&str) -> String) {
    match value {
        Value::Object(map) => {
            if let Some(Value::String(reference)) = map.get_mut("$ref")
                && let Some(own) = reference.strip_prefix(&format!("#{ANSWERS}/"))
            {
                *reference = format!("#{SCHEMAS}/{}", name(own));
            }
            map.values_mut().for_each(|value| move_references(value, name));
        }
        Value::Array(list) => list.iter_mut().for_each(|value| move_references(value, name)),
        _ => {}
    }
}

fn generator(mut settings: SchemaSettings, path: &'static str) -> SchemaGenerator {
    settings.definitions_path = path.into();
    settings.meta_schema = None;
    settings.into_generator()
}

fn asked(operation: &Operation, requests: &mut SchemaGenerator, answers: &mut SchemaGenerator) -> Value {
    let request = operation.request_schema(requests);
    let answer = operation.answer_schema(answers);
    let content = operation.media_types().into_iter().map(|kind| {
        let is_text = kind.starts_with("application/json") || operation.content_type.is_some();
        (kind.to_owned(), if is_text { json!({ "schema": answer }) } else { json!({}) })
    });
    let mut responses = refusals(&[&EVERYWHERE, &WITH_BODY]);
    responses.insert("422".to_owned(), refused("What is asked for cannot be done"));
    responses.insert(
        "200".to_owned(),
        json!({ "description": operation.what, "content": content.collect::<Map<_, _>>() }),
    );
    json!({
        "operationId": operation.name,
        "summary": operation.what,
        "requestBody": { "required": true, "content": { "application/json": { "schema": request } } },
        "responses": responses,
    })
}

fn list(answers: &mut SchemaGenerator) -> Value {
    let mut responses = refusals(&[&EVERYWHERE]);
    responses.insert("403".to_owned(), refused("The folder cannot be read"));
    responses.insert("404".to_owned(), refused("The folder is gone"));
    responses.insert(
        "200".to_owned(),
        json!({
            "description": "The sessions in the folder, by name",
            "content": { "application/json": { "schema": answers.subschema_for::<SessionList>() } },
        }),
    );
    json!({ "operationId": "listSessions", "summary": "The sessions in the folder", "responses": responses })
}

fn opened() -> Value {
    let mut responses = refusals(&[&EVERYWHERE]);
    responses.insert("403".to_owned(), refused("It is no text file of at most 64 KiB, or cannot be read"));
    responses.insert("404".to_owned(), refused("There is no such session"));
    responses.insert(
        "304".to_owned(),
        json!({ "description": "It is the version that is known", "headers": version() }),
    );
    responses.insert(
        "200".to_owned(),
        json!({ "description": "The text of the session", "headers": version(), "content": texts() }),
    );
    json!({
        "operationId": "openSession",
        "summary": "The text of a session",
        "parameters": [condition("If-None-Match", "The version that is known")],
        "responses": responses,
    })
}

fn saved() -> Value {
    let mut responses = refusals(&[&EVERYWHERE, &WITH_BODY]);
    responses.insert(
        "201".to_owned(),
        json!({ "description": "It is saved as a new session", "headers": version() }),
    );
    responses.insert("204".to_owned(), json!({ "description": "It is saved", "headers": version() }));
    responses.insert("404".to_owned(), refused("The folder is gone"));
    responses.insert(
        "412".to_owned(),
        refused("The session has changed since it was opened, or is there already"),
    );
    responses.insert("428".to_owned(), refused("The request does not say what it replaces"));
    responses.insert("507".to_owned(), refused("The disk is full"));
    json!({
        "operationId": "saveSession",
        "summary": "Saves a session that is new, or still the version that is known",
        "parameters": [
            condition("If-Match", "The version that is replaced: its `ETag`"),
            condition("If-None-Match", "`*` for a new session"),
        ],
        "requestBody": { "required": true, "content": texts() },
        "responses": responses,
    })
}

/// The responses that refuse.
fn refusals(lists: &[&[(&str, &str)]]) -> Map<String, Value> {
    let all = lists.iter().flat_map(|list| list.iter());
    all.map(|(status, words)| ((*status).to_owned(), refused(words))).collect()
}

fn refused(words: &str) -> Value {
    json!({ "$ref": "#/components/responses/Refusal", "description": words })
}

fn condition(name: &str, words: &str) -> Value {
    json!({ "name": name, "in": "header", "description": words, "schema": { "type": "string" } })
}

fn version() -> Value {
    json!({ "ETag": { "description": "The version", "schema": { "type": "string" } } })
}

/// The text of a session: a session file has whatever keys its own schema has.
fn texts() -> Value {
    let content = KINDS.map(|kind| {
        let schema = if kind == "text/plain" { json!({ "type": "string" }) } else { json!({}) };
        (kind.to_owned(), json!({ "schema": schema }))
    });
    Map::from_iter(content).into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_reference_leads_to_something() {
        fn references<'a>(value: &'a Value, found: &mut Vec<&'a str>) {
            match value {
                Value::Object(map) => {
                    found.extend(map.get("$ref").and_then(Value::as_str));
                    map.values().for_each(|value| references(value, found));
                }
                Value::Array(list) => list.iter().for_each(|value| references(value, found)),
                _ => {}
            }
        }
        let description = description(true);
        let mut found = Vec::new();
        references(&description, &mut found);
        assert!(found.len() > 20);
        for reference in found {
            let pointer = reference.strip_prefix('#').expect("it is of this description");
            assert!(description.pointer(pointer).is_some(), "{reference}");
        }
    }
}
