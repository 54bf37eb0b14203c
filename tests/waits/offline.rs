//! The answer of the page that needs no network: WebAssembly in node, beside the same planner in this process.

use std::fs;
use std::io::{BufRead as _, BufReader, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::time::Instant;

use anyhow::{Context as _, Result, ensure};
use base64::Engine as _;
use serde_json::{Value, json};

use crate::spell::Spell;
use crate::table::{left_out, note, row_of_overhead};
use crate::workout::WORKOUT;

/// An evening of 22 athletes in three groups, as the page asks for its plan.
const EVENING: &str = include_str!("../planner/evening-of-22.json");

const ROUNDS: usize = 25;

/// The planner as it is built for a browser.
pub(crate) fn built() -> Option<[PathBuf; 2]> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("crates/offline-planner/built");
    let files = ["planner.js", "planner.wasm"].map(|name| folder.join(name));
    files.iter().all(|file| file.is_file()).then_some(files)
}

pub(crate) fn rows() -> Result<()> {
    let Some([script, wasm]) = built() else {
        return left_out("its answers", "as crates/offline-planner/build was not run");
    };
    if Command::new("node").arg("--version").output().is_err() {
        return left_out("its answers", "as node is missing");
    }
    let mut node = Node::start(&script, &wasm)?;
    answers(&mut node, "6 x 200 in lane 2", &json!({ "text": WORKOUT }))?;
    answers(&mut node, "evening of 22 athletes", &serde_json::from_str(EVENING)?)?;
    node.stop()?;
    note("beside: the same function in this process. same: each byte of the answers")
}

fn answers(node: &mut Node, what: &str, request: &Value) -> Result<()> {
    let body = request.to_string();
    let (_, status, bytes) = node.answer(&body)?;
    let native = plan_desk::answer("plan", &body);
    ensure!(native.status == 200, "{what}: {}", String::from_utf8_lossy(&native.body));
    ensure!(
        (status, &bytes) == (200, &native.body),
        "{what}: the answers differ; is the planner for a browser older than its sources? \
         Run crates/offline-planner/build"
    );
    let (mut offline_s, mut native_s) = (Vec::new(), Vec::new());
    for _ in 0..ROUNDS {
        offline_s.push(node.answer(&body)?.0);
        let begun = Instant::now();
        std::hint::black_box(plan_desk::answer("plan", &body));
        native_s.push(begun.elapsed().as_secs_f64());
    }
    row_of_overhead(what, [Spell::of(offline_s), Spell::of(native_s)])
}

/// The planner in node.
struct Node {
    child: Child,
    requests: ChildStdin,
    replies: BufReader<ChildStdout>,
    /// Where its script lies under a name that node takes for a module.
    _folder: tempfile::TempDir,
}

impl Node {
    fn start(script: &Path, wasm: &Path) -> Result<Self> {
        let folder = tempfile::tempdir()?;
        let module = folder.path().join("planner.mjs");
        fs::copy(script, &module)?;
        let own = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/waits/offline.mjs");
        let mut child = Command::new("node")
            .args([&own, &module, wasm])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()?;
        let requests = child.stdin.take().context("its input is piped")?;
        let replies = BufReader::new(child.stdout.take().context("its output is piped")?);
        Ok(Self { child, requests, replies, _folder: folder })
    }

    /// How long the answer took, in seconds, its status and its bytes.
    fn answer(&mut self, body: &str) -> Result<(f64, u64, Vec<u8>)> {
        writeln!(self.requests, "{}", json!(["plan", body]))?;
        let mut line = String::new();
        self.replies.read_line(&mut line)?;
        let reply: Value = serde_json::from_str(&line).context("node gives no answer")?;
        let took_s = reply["took_s"].as_f64().context("node gives no time")?;
        let status = reply["status"].as_u64().context("node gives no status")?;
        let body = reply["body"].as_str().context("node gives no body")?;
        let body = base64::engine::general_purpose::STANDARD.decode(body)?;
        Ok((took_s, status, body))
    }

    /// Ends node, which ends with its input.
    fn stop(self) -> Result<()> {
        let Self { mut child, requests, replies, _folder } = self;
        drop(requests);
        drop(replies);
        ensure!(child.wait()?.success(), "node fails");
        Ok(())
    }
}
