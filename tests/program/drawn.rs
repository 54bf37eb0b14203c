//! Pictures that we draw ourselves.

use std::fs;
use std::sync::Arc;

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};

/// The largest share of the pixels of what we draw ourselves that may differ by more: a flag that moved by its own
/// width is more.
pub(crate) const DRAWN: f64 = 0.0001;

/// The upper part of an SVG as pixels, drawn with the typefaces of the repository and no others.
pub(crate) fn drawn(svg: &str, width: u32, height: u32) -> Pixmap {
    let mut options = Options { font_family: "Open Sans".to_owned(), ..Options::default() };
    let database = Arc::make_mut(&mut options.fontdb);
    for name in ["OpenSans-Regular", "OpenSans-Bold", "DejaVuSans"] {
        let path = format!("{}/crates/plan-sheet/fonts/{name}.ttf", env!("CARGO_MANIFEST_DIR"));
        database.load_font_data(fs::read(path).expect("the typeface is there"));
    }
    let tree = Tree::from_str(svg, &options).expect("it is SVG");
    let scale = width as f32 / tree.size().width();
    let high = (tree.size().height() * scale).ceil() as u32;
    let mut pixels = Pixmap::new(width, height.min(high)).expect("it has a size");
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
    pixels
}
