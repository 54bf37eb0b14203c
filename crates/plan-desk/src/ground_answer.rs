//! Somebody's own track: its form, its file, and what is wrong with it.

use lane_distance::spec::TrackSpec;
use lane_distance::{Key, Track};
use plan_sheet::{GroundMapSize, file_fault_words, ground_map};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use session_plan::{FileFaults, Limit, Venue, YamlKeys, YamlText, YamlValue};
use workout_notation::{SourceText, visible_line};

use crate::form_page::form_page;
use crate::ground::TrackFile;
use crate::ground_form::{GroundEdit, GroundForm};
use crate::problem::{Field, Problem, Problems, Refusal};
use crate::reply::Reply;

/// What a track is called that was made of a built-in one.
const NAME: &str = "Our track";

/// The form of somebody's own track.
#[derive(Clone, Debug, Default, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub(crate) struct GroundFormRequest {
    /// The file of the track; its keys that the form does not edit are kept.
    track_file: Option<TrackFile>,
    /// The built-in track that a new one is made of; `standard` unless given.
    base: Option<String>,
    /// What the form holds; what the file says unless given.
    form: Option<GroundForm>,
    /// A change of a list in the form.
    edit: Option<GroundEdit>,
}

/// The form of somebody's own track.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(crate) struct GroundFormAnswer {
    /// What the form holds.
    form: GroundForm,
    /// The form as HTML: its fields are called by the keys that lead to their values.
    html: String,
    /// The track file.
    yaml: String,
    /// What the file may be called.
    file_name: String,
    /// What is wrong.
    problems: Vec<FormProblem>,
    /// The track, as SVG; nothing where something is wrong.
    map: Option<String>,
}

/// Something that is wrong with a track.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub(crate) struct FormProblem {
    /// The keys that lead to the field of the form, or to a part of it, joined by full stops; empty for the whole.
    pub(crate) field: String,
    /// What is wrong.
    pub(crate) message: String,
    /// What to write instead, where that is known.
    pub(crate) help: Option<String>,
}

pub(crate) fn ground_form(request: &GroundFormRequest) -> Reply {
    let (form, file) = match read(request) {
        Ok(read) => read,
        Err(problems) => return problems.into(),
    };
    let mistake = |error: &dyn std::fmt::Display| Reply::refusal(&Refusal::mistake(error));
    let yaml = plan_sheet::yaml(&file);
    let venue = Venue::read(&SourceText::new("track.yaml", &yaml));
    let problems = venue.as_ref().err().map_or_else(Vec::new, |faults| problems(&form, faults));
    let html = match form_page(&form, &problems) {
        Ok(html) => html,
        Err(error) => return mistake(&error),
    };
    let map = venue.ok().map(|venue| ground_map(venue.track(), GroundMapSize::Page));
    Reply::json(&GroundFormAnswer { html, file_name: file_name(&form.name), form, yaml, problems, map })
}

/// The form and the file that is made of it.
fn read(request: &GroundFormRequest) -> Result<(GroundForm, YamlKeys), Problems> {
    let mut file = match &request.track_file {
        Some(file) => keys(file)?,
        None => built_in(request.base.as_deref().unwrap_or("standard"))?,
    };
    let mut form = match &request.form {
        Some(form) => form.clone(),
        None => GroundForm::of_yaml(&YamlValue::Mapping(file.clone())),
    };
    if let Some(edit) = &request.edit {
        form.edit(edit);
    }
    form.settle();
    form.write(&mut file);
    Ok((form, file))
}

/// The keys of a track file.
fn keys(file: &TrackFile) -> Result<YamlKeys, Problems> {
    if file.text.len() > Limit::FileBytes.most() {
        let message = format!("the track file is too large: at most {} bytes", Limit::FileBytes.most());
        return Err(Problem::new(Field::Track, message).into());
    }
    let yaml = YamlText::read(SourceText::new(&file.name, &file.text));
    match yaml.value() {
        Some(YamlValue::Mapping(keys)) => Ok(keys),
        // The reader of track files says where.
        _ => Err(match Venue::from_yaml(yaml) {
            Err(faults) => Problems::of_file(Field::Track, &faults),
            Ok(_) => Problem::new(Field::Track, "the track file is not one that a form can show").into(),
        }),
    }
}

/// The keys of a built-in track, as those of a new one.
fn built_in(name: &str) -> Result<YamlKeys, Problems> {
    let text = TrackSpec::built_in_text(name);
    let yaml = text.and_then(|text| YamlText::read(SourceText::new(name, text)).value());
    let Some(YamlValue::Mapping(mut keys)) = yaml else {
        let names: Vec<&str> = Track::built_in_names().collect();
        let message = format!("there is no built-in track `{}`", visible_line(name));
        let help = Some(format!("choose one of {}", names.join(", ")));
        return Err(Problem { help, ..Problem::new(Field::Track, message) }.into());
    };
    keys.set("name", Some(YamlValue::Text(NAME.to_owned())));
    keys.set("source", None);
    Ok(keys)
}

/// The faults of a file, each at the field of the form that it is about.
fn problems(form: &GroundForm, faults: &FileFaults) -> Vec<FormProblem> {
    // A form holds texts alone, which all have JSON.
    let fields = serde_json::to_value(form).unwrap_or_default();
    let mut problems: Vec<FormProblem> = Vec::new();
    for fault in &faults.faults {
        let (message, help) = file_fault_words(fault);
        let problem = FormProblem { field: field(&fields, &fault.at), message, help };
        if !problems.contains(&problem) {
            problems.push(problem);
        }
    }
    problems
}

/// The field of the form to which some keys of the file lead, or the nearest part of the form that holds it.
fn field(fields: &serde_json::Value, keys: &[Key]) -> String {
    let names: Vec<String> = keys
        .iter()
        .map(|key| match key {
            Key::Name(name) => name.clone(),
            Key::Index(index) => index.to_string(),
        })
        .collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    let names = match names.as_slice() {
        // The form of an oval has a value for each pair of pieces.
        ["path", rest @ ..] if fields["shape"] == "oval" => match rest {
            [_, "straight", ..] | ["1" | "3"] => vec!["straight"],
            _ => vec!["radius"],
        },
        ["closed_lanes", rest @ ..] if !matches!(rest, ["reason"]) => vec!["closed_lanes", "lanes"],
        names => names.to_vec(),
    };
    let mut held = fields;
    let mut path: Vec<&str> = Vec::new();
    for name in names {
        let next = match held {
            serde_json::Value::Array(items) => name.parse::<usize>().ok().and_then(|place| items.get(place)),
            held => held.get(name),
        };
        match next {
            // Each set of marks is a box to tick in one field.
            Some(next) if path != ["marks", "sets"] => {
                held = next;
                path.push(name);
            }
            _ => break,
        }
    }
    path.join(".")
}

/// What the file of a track may be called.
fn file_name(name: &str) -> String {
    let letters = name.to_lowercase();
    let words = letters.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty());
    let name: String = words.collect::<Vec<_>>().join("-").chars().take(60).collect();
    if name.is_empty() { "track.yaml".to_owned() } else { format!("{name}.yaml") }
}
