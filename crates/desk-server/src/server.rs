//! The server: bound to an address, and run until it is asked to stop.

use std::io;
use std::net::{IpAddr, SocketAddr, TcpListener, ToSocketAddrs};
use std::path::PathBuf;
use std::time::Duration;

use axum::Router;
use thiserror::Error;
use tokio::runtime::{Builder, Runtime};

use crate::connections;
use crate::hosts::Hosts;
use crate::router::router;
use crate::session_folder::SessionFolder;
use crate::stop::StopSignals;
use crate::workers::MOST_AT_WORK;

/// What the stack of a thread that answers has room for, as that of a program's main thread.
const STACK_BYTES: usize = 8 * 1024 * 1024;

/// How long answers that nobody waits for may keep a server from ending.
const LAST_WORK: Duration = Duration::from_secs(1);

/// Where a server listens, and what it serves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settings {
    /// The address or the name to listen at, such as `127.0.0.1`.
    pub host: String,
    /// The port; 0 for any that is free.
    pub port: u16,
    /// The folder of session files that it opens and saves.
    pub sessions: Option<PathBuf>,
}

/// A server that has its address. Whoever asks before it runs is answered once it does.
#[derive(Debug)]
pub struct Server {
    runtime: Runtime,
    listener: TcpListener,
    address: SocketAddr,
    stop: StopSignals,
    router: Router,
}

/// Why a server cannot start.
#[derive(Debug, Error)]
pub enum ServerError {
    /// It cannot listen at its address.
    #[error("cannot listen at port {port} of `{host}`: {why}")]
    Address {
        /// The address or the name.
        host: String,
        /// The port.
        port: u16,
        /// Why not, and what to do instead.
        why: String,
    },
    /// It cannot open its folder of sessions.
    #[error("cannot open the folder `{}`: {error}", path.display())]
    Folder {
        /// The folder.
        path: PathBuf,
        /// Why not.
        error: io::Error,
    },
    /// The page cannot be made: a mistake of this program.
    #[error("a bug in this program: the page cannot be made: {0}")]
    Page(String),
    /// The system lacks something that it needs.
    #[error("cannot serve: {0}")]
    System(#[from] io::Error),
}

impl Server {
    /// Binds a server to its address. From now on the signals that ask a program to end are its own.
    ///
    /// # Errors
    ///
    /// If the address cannot be had, or the folder cannot be opened.
    pub fn start(settings: &Settings) -> Result<Self, ServerError> {
        let folder = settings.sessions.as_ref().map(|path| {
            SessionFolder::open(path).map_err(|error| ServerError::Folder { path: path.clone(), error })
        });
        let folder = folder.transpose()?;
        let host = settings.host.trim_start_matches('[').trim_end_matches(']');
        let bound = (host, settings.port).to_socket_addrs().and_then(|addresses| {
            let addresses: Vec<SocketAddr> = addresses.collect();
            TcpListener::bind(&addresses[..])
        });
        let listener = bound.map_err(|error| ServerError::Address {
            host: settings.host.clone(),
            port: settings.port,
            why: address_words(&error),
        })?;
        listener.set_nonblocking(true)?;
        let address = listener.local_addr()?;
        let runtime = Builder::new_multi_thread()
            .enable_all()
            .thread_stack_size(STACK_BYTES)
            .max_blocking_threads(MOST_AT_WORK)
            .build()?;
        let stop = {
            let _inside = runtime.enter();
            StopSignals::new()?
        };
        let router = router(Hosts::of(host, address.ip()), folder).map_err(ServerError::Page)?;
        Ok(Self { runtime, listener, address, stop, router })
    }

    /// Where it listens.
    pub const fn address(&self) -> SocketAddr {
        self.address
    }

    /// Whether only programs of this machine can reach it.
    pub const fn is_of_this_machine(&self) -> bool {
        match self.address.ip() {
            IpAddr::V4(address) => address.is_loopback(),
            IpAddr::V6(address) => address.is_loopback(),
        }
    }

    /// Serves until a signal asks it to stop; then what is being answered is answered, for a few seconds at most.
    ///
    /// # Errors
    ///
    /// If the system does not let it listen.
    pub fn run(self) -> io::Result<()> {
        let Self { runtime, listener, mut stop, router, .. } = self;
        let served = runtime.block_on(async {
            let listener = tokio::net::TcpListener::from_std(listener)?;
            connections::serve(listener, router, &mut stop).await;
            Ok(())
        });
        runtime.shutdown_timeout(LAST_WORK);
        served
    }
}

/// Why an address cannot be had, for someone who does not know the system's words.
fn address_words(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::AddrInUse => {
            "another program listens there; choose another port, or 0 for any that is free".to_owned()
        }
        io::ErrorKind::AddrNotAvailable => "this machine has no such address".to_owned(),
        io::ErrorKind::PermissionDenied => {
            "the system keeps that port for itself; choose one from 1024 up".to_owned()
        }
        _ => error.to_string(),
    }
}
