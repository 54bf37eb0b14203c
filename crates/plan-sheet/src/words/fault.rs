//! What faults of every kind share: what is wrong, and what to write instead.

/// What is wrong, and what to write instead if that is known.
pub(crate) type FaultWords = (String, Option<String>);

/// A fault that says enough.
pub(crate) fn plain(message: impl Into<String>) -> FaultWords {
    (message.into(), None)
}

/// A fault with what to write instead.
pub(crate) fn helped(message: impl Into<String>, help: impl Into<String>) -> FaultWords {
    (message.into(), Some(help.into()))
}

/// Names as they are written, such as `` `on` or `across` ``.
pub(crate) fn quoted<T: AsRef<str>>(names: impl IntoIterator<Item = T>, between: &str) -> String {
    let quoted: Vec<String> = names.into_iter().map(|name| format!("`{}`", name.as_ref())).collect();
    quoted.join(between)
}

/// The name that was probably meant.
pub(crate) fn did_you_mean(near: &str) -> String {
    format!("did you mean `{near}`?")
}
