//! What the page does beyond being read.

use std::sync::LazyLock;

/// Runs before anything is shown.
pub(super) const BEGIN: &str = include_str!(concat!(env!("OUT_DIR"), "/page/begin.js"));

/// The modules of `templates/page`, each after those that it needs. Each holds one thing, and those that know no
/// page are tested without a browser.
const MODULES: [&str; 14] = [
    include_str!(concat!(env!("OUT_DIR"), "/page/times.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/kept.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/model.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/timetable.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/clocks.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/screen.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/csv.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/sound.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/lit.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/view.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/parts.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/times_view.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/menu.js")),
    include_str!(concat!(env!("OUT_DIR"), "/page/main.js")),
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
