//! Plans on paper, and as pictures of it.

use std::path::Path;

use anyhow::Result;
use session_plan::Plan;

use crate::flags::PrintFlags;

#[cfg(feature = "pdf")]
pub(crate) use printed::{write_pdf, write_pictures};
#[cfg(not(feature = "pdf"))]
pub(crate) use refused as write_pdf;
#[cfg(not(feature = "pdf"))]
pub(crate) use refused as write_pictures;

/// Says that this build cannot print.
#[cfg(not(feature = "pdf"))]
pub(crate) fn refused(_: &[Plan], _: PrintFlags, path: &Path) -> Result<()> {
    let error = format!(
        "this build of toeline has no PDF support, which `{}` needs; build it with the feature `pdf`",
        path.display()
    );
    anyhow::bail!(crate::failure::InputError::new(anyhow::anyhow!(error)))
}

#[cfg(feature = "pdf")]
mod printed {
    use plan_sheet::{Paper, Printout};

    use super::{Path, Plan, PrintFlags, Result};
    use crate::failure;
    use crate::flags;
    use crate::whole_file::replace;

    pub(crate) fn write_pdf(plans: &[Plan], print: PrintFlags, path: &Path) -> Result<()> {
        replace(path, &printout(plans, print)?.pdf()?)
    }

    /// Page 1 takes the name, the others the name with their number.
    pub(crate) fn write_pictures(plans: &[Plan], print: PrintFlags, path: &Path) -> Result<()> {
        let stem = path.file_stem().unwrap_or_default().to_string_lossy();
        let ending = path.extension().unwrap_or_default().to_string_lossy();
        let page = |number: usize| match number {
            1 => path.to_owned(),
            _ => path.with_file_name(format!("{stem}-{number}.{ending}")),
        };
        let pictures = printout(plans, print)?.pictures()?;
        for (number, picture) in (1..).zip(&pictures) {
            replace(&page(number), picture)?;
        }
        // We delete no file of the user; but a page of an earlier plan must not be taken for one of this.
        let next = page(pictures.len() + 1);
        if next.exists() {
            failure::note(&format!(
                "this plan has {} pages; `{}` is of another one, and was left as it is",
                pictures.len(),
                next.display()
            ));
        }
        Ok(())
    }

    fn printout(plans: &[Plan], print: PrintFlags) -> Result<Printout> {
        let paper = match print.paper {
            flags::Paper::A4 => Paper::A4,
            flags::Paper::Letter => Paper::Letter,
        };
        let printout = Printout::of(plans, paper)?;
        if !printout.unprintable.is_empty() {
            let letters: String = printout.unprintable.iter().collect();
            failure::note(&format!(
                "the sheet's typefaces lack these letters, which print as boxes: {letters}"
            ));
        }
        Ok(printout)
    }
}
