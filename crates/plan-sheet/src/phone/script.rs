//! What the page does beyond being read.

/// One script from the files of `templates/page`, each of which holds one thing; a name of one is known in all.
pub(super) const SCRIPT: &str = concat!(
    "\"use strict\";\n(() => {\n",
    include_str!("../../templates/page/times.js"),
    include_str!("../../templates/page/store.js"),
    include_str!("../../templates/page/sound.js"),
    include_str!("../../templates/page/model.js"),
    include_str!("../../templates/page/clocks.js"),
    include_str!("../../templates/page/countdown.js"),
    include_str!("../../templates/page/view.js"),
    include_str!("../../templates/page/beat.js"),
    include_str!("../../templates/page/csv.js"),
    include_str!("../../templates/page/main.js"),
    "})();\n",
);
