//! The connections of those who ask.

use std::io;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use hyper_util::service::TowerToHyperService;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio_io_timeout::TimeoutStream;

use crate::stop::StopSignals;

/// How many may be connected at once; others wait to be accepted.
const MOST: usize = 512;

/// How long a connection may take to ask, or to take any of its answer.
const PATIENCE: Duration = Duration::from_secs(10);

/// The longest head of a request.
const HEAD_BYTES: usize = 16 * 1024;

/// How long what is being answered has when the server stops.
const LAST_ANSWERS: Duration = Duration::from_secs(5);

/// How long to wait where the system has no room for another connection.
const PAUSE: Duration = Duration::from_millis(50);

/// Serves all connections until a signal says stop.
pub(crate) async fn serve(listener: TcpListener, router: Router, stop: &mut StopSignals) {
    let room = Arc::new(Semaphore::new(MOST));
    let open = GracefulShutdown::new();
    let service = TowerToHyperService::new(router);
    loop {
        let accepted = tokio::select! {
            () = stop.next() => break,
            accepted = accept(&listener, &room) => accepted,
        };
        let Ok((stream, place)) = accepted else {
            tokio::time::sleep(PAUSE).await;
            continue;
        };
        // It only makes small answers quicker.
        let _ = stream.set_nodelay(true);
        let mut stream = TimeoutStream::new(stream);
        stream.set_write_timeout(Some(PATIENCE));
        let connection = http1::Builder::new()
            .timer(TokioTimer::new())
            .header_read_timeout(PATIENCE)
            .half_close(true)
            .max_buf_size(HEAD_BYTES)
            .serve_connection(TokioIo::new(Box::pin(stream)), service.clone());
        let connection = open.watch(connection);
        tokio::spawn(async move {
            // Whoever hangs up, or asks in another language, has been told what there is to tell.
            let _ = connection.await;
            drop(place);
        });
    }
    drop(listener);
    tokio::select! {
        () = open.shutdown() => {}
        () = tokio::time::sleep(LAST_ANSWERS) => {}
        () = stop.next() => {}
    }
}

async fn accept(
    listener: &TcpListener,
    room: &Arc<Semaphore>,
) -> io::Result<(TcpStream, OwnedSemaphorePermit)> {
    let place = Arc::clone(room).acquire_owned().await.map_err(io::Error::other)?;
    let (stream, _) = listener.accept().await?;
    Ok((stream, place))
}
