//! What the page does beyond being read.

use std::sync::LazyLock;

/// Runs before anything is shown.
pub(super) const BEGIN: &str = include_str!("../../templates/page/begin.js");

/// The modules of `templates/page`, each after those that it needs. Each holds one thing, and those that know no
/// page are tested without a browser.
const MODULES: [&str; 14] = [
    include_str!("../../templates/page/times.js"),
    include_str!("../../templates/page/kept.js"),
    include_str!("../../templates/page/model.js"),
    include_str!("../../templates/page/timetable.js"),
    include_str!("../../templates/page/clocks.js"),
    include_str!("../../templates/page/screen.js"),
    include_str!("../../templates/page/csv.js"),
    include_str!("../../templates/page/sound.js"),
    include_str!("../../templates/page/lit.js"),
    include_str!("../../templates/page/view.js"),
    include_str!("../../templates/page/parts.js"),
    include_str!("../../templates/page/times_view.js"),
    include_str!("../../templates/page/menu.js"),
    include_str!("../../templates/page/main.js"),
];

/// The modules put together to one script: a page that is a file can load no others. A name of one is known in all.
pub(super) static SCRIPT: LazyLock<String> = LazyLock::new(|| {
    let mut script = "\"use strict\";\n(() => {\n".to_owned();
    for line in MODULES.iter().flat_map(|module| module.lines()) {
        if !line.starts_with("import ") {
            script += line.strip_prefix("export ").unwrap_or(line);
            script.push('\n');
        }
    }
    script + "})();\n"
});
