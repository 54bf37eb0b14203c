//! Pictures compared with kept ones in `tests/reference/pictures`. `SNAPSHOTS=overwrite` renews them.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use resvg::tiny_skia::{Pixmap, PremultipliedColorU8, Transform};
use resvg::usvg::{Options, Tree};

/// How much a channel of a pixel may differ, of 255: edges of letters are rounded differently on other
/// machines.
const CHANNEL: u8 = 48;

/// The largest share of the pixels of what we draw ourselves that may differ by more: a flag that moved by its own
/// width is more.
#[allow(dead_code, reason = "the tests of the page look at pictures of a browser alone")]
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

/// Compares a picture with the kept one of that name, of whose pixels so large a share may differ.
///
/// # Panics
///
/// Where it differs: tells the share of pixels that do, and where the new picture was written.
pub(crate) fn assert_like_kept(name: &str, picture: &Pixmap, share: f64) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/pictures");
    let kept = folder.join(format!("{name}.png"));
    if std::env::var("SNAPSHOTS").is_ok_and(|value| value == "overwrite") {
        fs::write(&kept, picture.encode_png().expect("it can be encoded")).expect("it can be written");
        return;
    }
    let is = |result: Result<(), String>| {
        if let Err(difference) = result {
            let new = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}.png"));
            fs::write(&new, picture.encode_png().expect("it can be encoded")).expect("it can be written");
            panic!(
                "{name}: {difference}; the new picture is `{}`; if it is right, run again with SNAPSHOTS=overwrite",
                new.display()
            );
        }
    };
    is(Pixmap::load_png(&kept)
        .map_err(|error| format!("`{}` cannot be read: {error}", kept.display()))
        .and_then(|kept| difference(&kept, picture, share)));
}

/// What two pictures differ in, if it is more than other machines may differ.
pub(crate) fn difference(kept: &Pixmap, new: &Pixmap, most: f64) -> Result<(), String> {
    let size = |picture: &Pixmap| (picture.width(), picture.height());
    if size(kept) != size(new) {
        return Err(format!("it is {:?} pixels, and was {:?}", size(new), size(kept)));
    }
    let channels = |pixel: &PremultipliedColorU8| [pixel.red(), pixel.green(), pixel.blue(), pixel.alpha()];
    let differs = |(a, b): (&PremultipliedColorU8, &PremultipliedColorU8)| {
        channels(a).iter().zip(channels(b)).any(|(a, b)| a.abs_diff(b) > CHANNEL)
    };
    let count = kept.pixels().iter().zip(new.pixels()).filter(|pair| differs(*pair)).count();
    let share = count as f64 / kept.pixels().len() as f64;
    if share > most { Err(format!("{:.3}% of its pixels differ", share * 100.0)) } else { Ok(()) }
}
