//! The reference: what a command's help has no room for, one page for each subject.

/// A page of the reference.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ReferencePage {
    /// What it is called, as `toeline manual` takes it.
    pub(crate) name: &'static str,
    /// Its text, in Markdown.
    pub(crate) markdown: &'static str,
}

macro_rules! pages {
    ($($name:literal)*) => {
        &[$(ReferencePage { name: $name, markdown: include_str!(concat!("reference/", $name, ".md")) }),*]
    };
}

/// Every page.
pub(crate) static REFERENCE: &[ReferencePage] = pages![
    "commands" "workouts" "session-file" "track-file" "places" "metres" "printed-sheet" "phone-page" "planner" "limits"
];
