//! The files of the page.

use std::borrow::Cow;
use std::sync::Arc;

use askama::Template;
use lane_distance::{Course, MOST_LANES, Track};
use plan_sheet::{PagePolicy, PlanParts};
use sha2::{Digest, Sha256};

use crate::controls::controls;
use crate::evening::Evening;
use crate::example::{EXAMPLES, Example};

/// A file of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PageFile {
    /// Its path below the page's address; empty for the page itself.
    pub path: &'static str,
    /// Its media type.
    pub content_type: &'static str,
    /// What it holds.
    pub bytes: Cow<'static, [u8]>,
    /// The content security policy that it needs.
    pub policy: String,
}

/// The planner compiled for a browser.
#[derive(Clone, Copy, Debug)]
pub struct Engine<'a> {
    /// The module that starts it.
    pub script: &'a str,
    /// The WebAssembly.
    pub wasm: &'a [u8],
}

/// Who carries requests to the planner.
#[derive(Clone, Copy, Debug)]
pub enum Carrier<'a> {
    /// The program that serves the page.
    Program {
        /// Whether it has a folder of sessions to open and save.
        has_folder: bool,
    },
    /// A worker beside the page.
    Worker(Engine<'a>),
}

const HTML: &str = "text/html; charset=utf-8";
const SCRIPT: &str = "text/javascript; charset=utf-8";
const STYLE: &str = "text/css; charset=utf-8";
const SVG: &str = "image/svg+xml";
const PNG: &str = "image/png";
const WASM: &str = "application/wasm";
const MANIFEST: &str = "application/manifest+json";

/// The files that both carriers have.
static COMMON: &[(&str, &str, &[u8])] = &[
    ("planner.css", STYLE, include_bytes!("../page/planner.css")),
    ("idiomorph.min.js", SCRIPT, include_bytes!("../page/idiomorph.min.js")),
    ("planner.js", SCRIPT, include_bytes!("../page/planner.js")),
    ("desk.js", SCRIPT, include_bytes!("../page/desk.js")),
    ("evening.js", SCRIPT, include_bytes!("../page/evening.js")),
    ("folder.js", SCRIPT, include_bytes!("../page/folder.js")),
    ("ground.js", SCRIPT, include_bytes!("../page/ground.js")),
    ("late.js", SCRIPT, include_bytes!("../page/late.js")),
    ("lines.js", SCRIPT, include_bytes!("../page/lines.js")),
    ("page.js", SCRIPT, include_bytes!("../page/page.js")),
    ("plan.js", SCRIPT, include_bytes!("../page/plan.js")),
    ("problems.js", SCRIPT, include_bytes!("../page/problems.js")),
    ("run.js", SCRIPT, include_bytes!("../page/run.js")),
    ("send.js", SCRIPT, include_bytes!("../page/send.js")),
    ("shelf.js", SCRIPT, include_bytes!("../page/shelf.js")),
    ("icon.svg", SVG, include_bytes!("../page/icon.svg")),
    ("icon-180.png", PNG, include_bytes!("../page/icon-180.png")),
    ("icon-512.png", PNG, include_bytes!("../page/icon-512.png")),
    ("toeline.webmanifest", MANIFEST, include_bytes!("../page/toeline.webmanifest")),
];

/// The files of the page, which need nothing from anywhere else.
///
/// ```
/// let files = plan_desk::page_files(plan_desk::Carrier::Program { has_folder: false })?;
/// assert!(files.iter().any(|file| file.path.is_empty() && file.content_type.starts_with("text/html")));
/// # Ok::<(), String>(())
/// ```
///
/// # Errors
///
/// What is wrong with a template: a mistake of this program.
pub fn page_files(carrier: Carrier<'_>) -> Result<Vec<PageFile>, String> {
    let file = |path, content_type, bytes: Cow<'static, [u8]>| PageFile {
        path,
        content_type,
        bytes,
        policy: policy(&PagePolicy::default()),
    };
    let phone = plan_sheet::page_policy();
    let shell = Shell { policy: policy(&phone), has_worker: has_worker(carrier) }
        .render()
        .map_err(|error| error.to_string())?;
    let mut files = vec![
        file("", HTML, planner(EXAMPLES, carrier)?.into_bytes().into()),
        PageFile { policy: policy(&phone), ..file("run.html", HTML, shell.into_bytes().into()) },
    ];
    files.extend(COMMON.iter().map(|(path, content_type, bytes)| file(path, content_type, (*bytes).into())));
    match carrier {
        Carrier::Program { .. } => {
            files.push(file("carrier.js", SCRIPT, include_bytes!("../page/carrier-served.js").into()));
        }
        Carrier::Worker(engine) => {
            files.push(file("carrier.js", SCRIPT, include_bytes!("../page/carrier-offline.js").into()));
            files.push(file("begin.js", SCRIPT, include_bytes!("../page/begin.js").into()));
            files.push(file("worker.js", SCRIPT, include_bytes!("../page/worker.js").into()));
            files.push(file("engine.js", SCRIPT, engine.script.as_bytes().to_vec().into()));
            files.push(file("engine.wasm", WASM, engine.wasm.to_vec().into()));
            let keeper = keeper(&files);
            files.push(file("keeper.js", SCRIPT, keeper.into_bytes().into()));
        }
    }
    Ok(files)
}

fn has_worker(carrier: Carrier<'_>) -> bool {
    matches!(carrier, Carrier::Worker(_))
}

/// What a browser may load and run for the page: only its own files, and what a phone page holds.
fn policy(phone: &PagePolicy) -> String {
    let PagePolicy { style, scripts } = phone;
    format!(
        "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'{scripts}; style-src 'self'{style}; \
         img-src 'self' blob: data:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; \
         form-action 'none'"
    )
}

/// The script that keeps the files, with their names and a version made of what they hold.
fn keeper(files: &[PageFile]) -> String {
    let mut digest = Sha256::new();
    for file in files {
        digest.update(file.path);
        digest.update([0]);
        digest.update(&file.bytes);
    }
    let version: String = digest.finalize().iter().take(8).map(|byte| format!("{byte:02x}")).collect();
    let names: Vec<String> = files.iter().map(|file| format!("\"./{}\"", file.path)).collect();
    include_str!("../page/keeper.js")
        .replace("@VERSION@", &format!("toeline-{version}"))
        .replace("\"@FILES@\"", &format!("[{}]", names.join(", ")))
}

#[derive(Template)]
#[template(path = "run.html")]
struct Shell {
    policy: String,
    has_worker: bool,
}

#[derive(Template)]
#[template(path = "planner.html")]
struct Planner {
    policy: String,
    example: &'static Example,
    closed: Vec<u8>,
    examples: &'static [Example],
    tracks: Vec<TrackChoice>,
    lanes: Vec<u8>,
    colours: Vec<Arc<str>>,
    parts: PlanParts,
    late: String,
    has_folder: bool,
    has_worker: bool,
}

/// A built-in track to choose.
struct TrackChoice {
    name: &'static str,
    words: String,
    lanes: u8,
}

/// The page itself, with the plan of the first example.
fn planner(examples: &'static [Example], carrier: Carrier<'_>) -> Result<String, String> {
    let example = &examples[0];
    let request = example.request();
    let evening = Evening::of(&request).map_err(|problems| format!("{problems:?}"))?;
    let choice = |name| {
        let track = Track::built_in(name)?;
        let lanes = track.layout().lanes_of(Course::Oval);
        Some(TrackChoice { name, words: format!("{name}, {lanes} lanes"), lanes })
    };
    let mut colours: Vec<Arc<str>> = Vec::new();
    for mark in evening.venue.track().marks() {
        if !colours.contains(&mark.colour) {
            colours.push(mark.colour.clone());
        }
    }
    let page = Planner {
        policy: policy(&PagePolicy::default()),
        example,
        closed: example.lanes(),
        examples,
        tracks: Track::built_in_names().filter_map(choice).collect(),
        lanes: (1..=MOST_LANES).collect(),
        colours,
        parts: PlanParts::of(&evening.plan).map_err(|error| error.to_string())?,
        late: controls(&evening, &request)?,
        has_folder: matches!(carrier, Carrier::Program { has_folder: true }),
        has_worker: has_worker(carrier),
    };
    page.render().map_err(|error| error.to_string())
}
