//! Pictures compared with kept ones in `tests/reference/pictures`. `SNAPSHOTS=overwrite` renews them.

use std::fs;
use std::path::Path;

use resvg::tiny_skia::{Pixmap, PremultipliedColorU8};

/// How much a channel of a pixel may differ, of 255: edges of letters are rounded differently on other
/// machines.
const CHANNEL: u8 = 48;

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
