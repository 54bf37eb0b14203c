//! The served program, asked over plain connections, where every byte can be chosen.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::process::{Child, ChildStdout, Command, ExitStatus, Stdio};
use std::time::Duration;

#[cfg(unix)]
use rustix::process::{Pid, Signal, kill_process};
use serde_json::Value;

use crate::run::program;

/// How long an answer may take before a test fails.
const PATIENCE: Duration = Duration::from_secs(60);

/// `toeline serve` at a free port; it ends with the test.
pub(crate) struct Served {
    child: Child,
    output: BufReader<ChildStdout>,
    address: SocketAddr,
}

impl Served {
    pub(crate) fn with(arguments: &[&str]) -> Self {
        let mut child = Command::new(program())
            .args(["serve", "--port", "0"])
            .args(arguments)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program can be run");
        let mut output = BufReader::new(child.stdout.take().expect("it is piped"));
        let mut line = String::new();
        output.read_line(&mut line).expect("it prints its address");
        let address = line.split_once("http://").and_then(|(_, rest)| rest.split('/').next());
        let address = address.and_then(|address| address.parse().ok()).unwrap_or_else(|| panic!("{line:?}"));
        Self { child, output, address }
    }

    pub(crate) fn new() -> Self {
        Self::with(&[])
    }

    pub(crate) const fn address(&self) -> SocketAddr {
        self.address
    }

    pub(crate) fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(self.address).expect("it listens");
        stream.set_read_timeout(Some(PATIENCE)).expect("it is not zero");
        stream.set_write_timeout(Some(PATIENCE)).expect("it is not zero");
        stream
    }

    /// The answer to some bytes; nothing where it is none.
    pub(crate) fn raw(&self, request: &[u8]) -> Option<Answer> {
        let mut stream = self.connect();
        // A refusal may come, and the connection end, before everything is sent.
        let _ = stream.write_all(request);
        let mut answer = Vec::new();
        let _ = stream.read_to_end(&mut answer);
        Answer::read(&answer)
    }

    /// The answer to a request with some headers and a body.
    pub(crate) fn ask(&self, method: &str, path: &str, headers: &[(&str, &str)], body: &str) -> Answer {
        let mut request = format!("{method} {path} HTTP/1.1\r\nConnection: close\r\n");
        if !headers.iter().any(|(name, _)| *name == "Host") {
            request.push_str(&format!("Host: {}\r\n", self.address));
        }
        for (name, value) in headers {
            request.push_str(&format!("{name}: {value}\r\n"));
        }
        if !body.is_empty() {
            request.push_str(&format!("Content-Length: {}\r\n", body.len()));
        }
        request.push_str(&format!("\r\n{body}"));
        self.raw(request.as_bytes()).unwrap_or_else(|| panic!("{method} {path} has no answer"))
    }

    pub(crate) fn get(&self, path: &str) -> Answer {
        self.ask("GET", path, &[], "")
    }

    pub(crate) fn post(&self, operation: &str, body: &str) -> Answer {
        self.ask("POST", &format!("/api/{operation}"), &[("Content-Type", "application/json")], body)
    }

    /// Whether it still plans.
    pub(crate) fn assert_serving(&self) {
        let plan = self.post("plan", r#"{ "text": "6 x 200 in lane 2" }"#);
        assert_eq!(plan.status, 200, "{}", plan.text());
        assert_eq!(plan.json()["plan"]["blocks"][0]["reps"][0]["start"]["mark"], "200 m start");
    }

    /// Sends a signal; how it ends, and what it has printed besides its address.
    #[cfg(unix)]
    pub(crate) fn end_by(mut self, signal: Signal) -> (ExitStatus, String) {
        kill_process(Pid::from_child(&self.child), signal).expect("it runs");
        let status = self.child.wait().expect("it ends");
        let mut rest = String::new();
        self.output.read_to_string(&mut rest).expect("it is UTF-8");
        (status, rest)
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        // It may have ended.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// What a request is answered with.
#[derive(Debug)]
pub(crate) struct Answer {
    pub(crate) status: u16,
    pub(crate) headers: Vec<(String, String)>,
    pub(crate) body: Vec<u8>,
}

impl Answer {
    fn read(bytes: &[u8]) -> Option<Self> {
        let end = bytes.windows(4).position(|window| window == b"\r\n\r\n")?;
        let head = String::from_utf8(bytes[..end].to_vec()).expect("heads are ASCII");
        let mut lines = head.lines();
        let status = lines.next()?.strip_prefix("HTTP/1.1 ")?.get(..3)?.parse().ok()?;
        let headers = lines.map(|line| line.split_once(": ").expect("a name and a value"));
        let headers = headers.map(|(name, value)| (name.to_ascii_lowercase(), value.to_owned())).collect();
        Some(Self { status, headers, body: bytes[end + 4..].to_vec() })
    }

    pub(crate) fn header(&self, name: &str) -> &str {
        let mut found = self.headers.iter().filter(|(known, _)| known == name);
        let value = found.next().map_or("", |(_, value)| value);
        assert!(found.next().is_none(), "{name} stands twice");
        value
    }

    pub(crate) fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }

    pub(crate) fn json(&self) -> Value {
        serde_json::from_slice(&self.body).unwrap_or_else(|error| panic!("{error}: {}", self.text()))
    }

    /// The status of a refusal, after a check that it is one of problem details.
    pub(crate) fn refusal(&self) -> u16 {
        assert_eq!(self.header("content-type"), "application/problem+json", "{self:?}");
        let problem = self.json();
        assert_eq!(problem["status"], self.status, "{problem}");
        for key in ["title", "detail"] {
            assert!(problem[key].as_str().is_some_and(|words| !words.is_empty()), "{problem}");
        }
        self.status
    }
}
