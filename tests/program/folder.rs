//! A temporary folder for the files of one test.

use std::fs;
use std::path::Path;

use serde_json::Value;
use snapbox::cmd::Command;
use tempfile::TempDir;

use crate::answer::parsed;
use crate::run::toeline;

pub(crate) struct Folder(TempDir);

impl Folder {
    pub(crate) fn new() -> Self {
        Self(tempfile::tempdir().expect("a temporary folder can be made"))
    }

    /// A folder with one file.
    pub(crate) fn with(name: &str, text: impl AsRef<[u8]>) -> Self {
        let folder = Self::new();
        folder.write(name, text);
        folder
    }

    pub(crate) fn path(&self) -> &Path {
        self.0.path()
    }

    pub(crate) fn write(&self, name: &str, text: impl AsRef<[u8]>) {
        fs::write(self.path().join(name), text).expect("the folder can be written");
    }

    /// The whole path of a file.
    pub(crate) fn at(&self, name: &str) -> String {
        self.path().join(name).to_str().expect("the path is UTF-8").to_owned()
    }

    pub(crate) fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path().join(name)).expect("the file is there")
    }

    /// Makes a pipe that nobody ever writes to: whoever opened it would wait for ever.
    #[cfg(target_os = "linux")]
    pub(crate) fn make_pipe(&self, name: &str) {
        use rustix::fs::{CWD, FileType, Mode, mknodat};

        mknodat(CWD, self.at(name), FileType::Fifo, Mode::RUSR | Mode::WUSR, 0)
            .expect("the folder can be written");
    }

    /// How many files there are.
    pub(crate) fn count(&self) -> usize {
        fs::read_dir(self.path()).expect("the folder is still there").count()
    }

    /// The program, started in the folder.
    pub(crate) fn toeline(&self, arguments: &[&str]) -> Command {
        toeline(arguments).current_dir(self.path())
    }

    /// The answer to some arguments as JSON.
    pub(crate) fn json(&self, arguments: &[&str]) -> Value {
        parsed(&self.toeline(&[arguments, &["--format", "json"]].concat()).assert())
    }
}
