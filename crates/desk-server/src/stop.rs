//! The signals that ask a program to end.

use std::io;

/// The signals that ask a program to end.
#[cfg(unix)]
#[derive(Debug)]
pub(crate) struct StopSignals {
    interrupt: tokio::signal::unix::Signal,
    terminate: tokio::signal::unix::Signal,
}

#[cfg(unix)]
impl StopSignals {
    /// From now on they end nothing by themselves.
    pub(crate) fn new() -> io::Result<Self> {
        use tokio::signal::unix::{SignalKind, signal};

        Ok(Self { interrupt: signal(SignalKind::interrupt())?, terminate: signal(SignalKind::terminate())? })
    }

    /// Waits for the next of them.
    pub(crate) async fn next(&mut self) {
        tokio::select! {
            _ = self.interrupt.recv() => {}
            _ = self.terminate.recv() => {}
        }
    }
}

/// Ctrl-C.
#[cfg(not(unix))]
#[derive(Debug)]
pub(crate) struct StopSignals;

#[cfg(not(unix))]
impl StopSignals {
    pub(crate) fn new() -> io::Result<Self> {
        Ok(Self)
    }

    pub(crate) async fn next(&mut self) {
        if tokio::signal::ctrl_c().await.is_err() {
            // It cannot be heard: whoever runs the program ends it in another way.
            std::future::pending().await
        }
    }
}
