//! Who may read and write a new file.

use std::fs::{File, Metadata};
use std::io;

/// Gives a file the owner, the group and the mode of the file that it replaces.
pub(crate) fn keep(file: &File, old: &Metadata) -> io::Result<()> {
    keep_owner(file, old)?;
    file.set_permissions(old.permissions())
}

#[cfg(unix)]
fn keep_owner(file: &File, old: &Metadata) -> io::Result<()> {
    use std::io::ErrorKind;
    use std::os::unix::fs::{MetadataExt, fchown};

    let new = file.metadata()?;
    let user = (new.uid() != old.uid()).then(|| old.uid());
    let group = (new.gid() != old.gid()).then(|| old.gid());
    if user.is_none() && group.is_none() {
        return Ok(());
    }
    fchown(file, user, group).map_err(|error| match error.kind() {
        ErrorKind::PermissionDenied => {
            io::Error::other("it belongs to somebody else, and would be yours; name another file")
        }
        _ => error,
    })
}

#[cfg(not(unix))]
fn keep_owner(_: &File, _: &Metadata) -> io::Result<()> {
    Ok(())
}

/// Opens a file to everybody whom the system lets in, as any new file.
#[cfg(unix)]
pub(crate) fn set_default(file: &File) -> io::Result<()> {
    use std::fs::Permissions;
    use std::os::unix::fs::PermissionsExt;
    use std::sync::OnceLock;

    use rustix::fs::{Mode, RawMode};
    use rustix::process::umask;

    // It can be read only by setting it, which is done once. What other threads make meanwhile is unfinished, and has
    // its mode from this crate.
    static KEPT_BACK: OnceLock<RawMode> = OnceLock::new();
    let kept_back = KEPT_BACK.get_or_init(|| {
        let kept_back = umask(Mode::empty());
        umask(kept_back);
        kept_back.bits()
    });
    file.set_permissions(Permissions::from_mode(0o666 & !*kept_back))
}

#[cfg(not(unix))]
pub(crate) fn set_default(_: &File) -> io::Result<()> {
    Ok(())
}
