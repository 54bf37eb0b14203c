//! What the program answers, as tests read it.

use serde_json::Value;
use snapbox::cmd::OutputAssert;

use crate::run::toeline;

/// The answer to some arguments as JSON.
pub(crate) fn json(arguments: &[&str]) -> Value {
    parsed(&toeline(&[arguments, &["--format", "json"]].concat()).assert())
}

/// What a run that succeeded printed, as one JSON value.
pub(crate) fn parsed(run: &OutputAssert) -> Value {
    let output = run.get_output();
    assert!(output.status.success(), "{}", told(run));
    serde_json::from_slice(&output.stdout).expect("it is one JSON value")
}

/// What a run printed on standard output.
pub(crate) fn printed(run: &OutputAssert) -> String {
    String::from_utf8(run.get_output().stdout.clone()).expect("it is UTF-8")
}

/// What a run said on standard error.
pub(crate) fn told(run: &OutputAssert) -> String {
    String::from_utf8(run.get_output().stderr.clone()).expect("it is UTF-8")
}

pub(crate) fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is not a number"))
}

pub(crate) fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap_or_else(|| panic!("{value} is not a list"))
}

/// The texts of a list.
pub(crate) fn texts(value: &Value) -> Vec<&str> {
    list(value).iter().map(|text| text.as_str().unwrap_or_else(|| panic!("{text} is not text"))).collect()
}
