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
        for (number, picture) in (1..).zip(printout(plans, print)?.pictures()?) {
            if number == 1 {
                replace(path, &picture)?;
            } else {
                replace(&path.with_file_name(format!("{stem}-{number}.{ending}")), &picture)?;
            }
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
