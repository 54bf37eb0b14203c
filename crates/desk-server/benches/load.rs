//! What the server bears beside a bare handler that returns a body of the same size, in one run over loopback.
//!
//! `cargo bench -p desk-server --bench load`. It fails where a kept plan or a file has less than 0.4 of the bare rate, the
//! slowest hundredth takes 50 ms or more, or memory goes on growing.
#![allow(clippy::print_stdout, reason = "its figures are for whoever runs it")]

use std::error::Error;
use std::net::SocketAddr;
use std::time::{Duration, Instant};

use axum::Router;
use axum::routing::{get, post};
use desk_server::{Server, Settings};
use hyper::body::Bytes;
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::TcpStream;
use tokio::runtime::Runtime;

const CONNECTIONS: usize = 64;
const PLAN: &str = r#"{"text":"6 x 200 in lane 2"}"#;

/// What came of some requests.
struct Figures {
    /// Answers a second.
    rate: f64,
    /// What 99 of 100 answers took at most.
    p99: Duration,
}

fn main() -> Result<(), Box<dyn Error>> {
    if std::env::args().any(|argument| argument == "--test") {
        return Ok(());
    }
    let settings = Settings { host: "127.0.0.1".to_owned(), port: 0, sessions: None };
    let server = Server::start(&settings)?;
    let address = server.address();
    std::thread::spawn(move || server.run());
    let runtime = Runtime::new()?;
    let plan = post_of("plan", PLAN);
    let page = "GET / HTTP/1.1\r\nHost: localhost\r\n\r\n".to_owned();
    for (name, request) in [("a plan", &plan), ("the page", &page)] {
        let body = Bytes::from(runtime.block_on(body_of(address, request))?);
        let bare = runtime.block_on(bare(body.clone()))?;
        // Each in turn, so that what else the machine does falls on both.
        let mut ratios = Vec::new();
        let same = {
            let request = request.clone();
            move |_| request.clone()
        };
        for _ in 0..3 {
            let of_bare = runtime.block_on(figures(bare, same.clone(), 20_000))?;
            let served = runtime.block_on(figures(address, same.clone(), 20_000))?;
            let ratio = served.rate / of_bare.rate;
            println!(
                "{name}, {} bytes: {:.0}/s, p99 {:.1?}; bare {:.0}/s, p99 {:.1?}; ratio {ratio:.2}",
                body.len(),
                served.rate,
                served.p99,
                of_bare.rate,
                of_bare.p99
            );
            assert!(served.p99 < Duration::from_millis(50), "the slowest hundredth is too slow");
            ratios.push(ratio);
        }
        ratios.sort_by(f64::total_cmp);
        assert!(ratios[1] >= 0.4, "less than 0.4 of the bare rate");
    }
    let anew = |number: usize| post_of("plan", &format!("{PLAN}{}", " ".repeat(number)));
    let planned = runtime.block_on(figures(address, anew, 2_000))?;
    println!("a plan made anew each time: {:.0}/s, p99 {:.1?}", planned.rate, planned.p99);
    let mixed = move |number: usize| match number % 10 {
        0 => post_of("lanes", &format!("{{}}{}", " ".repeat(number / 10 % 30_000))),
        _ => plan.clone(),
    };
    runtime.block_on(figures(address, mixed.clone(), 20_000))?;
    let before = resident_kib();
    runtime.block_on(figures(address, mixed, 100_000))?;
    let after = resident_kib();
    println!("memory: {before:?} KiB, and {after:?} KiB after 100,000 requests more");
    if let (Some(before), Some(after)) = (before, after) {
        assert!(after < before + 40 * 1024, "memory grows past the answers that are kept");
    }
    Ok(())
}

fn post_of(operation: &str, body: &str) -> String {
    format!(
        "POST /api/{operation} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: {}\r\n\r\n{body}",
        body.len()
    )
}

/// A handler that returns some bytes, with nothing about it.
async fn bare(body: Bytes) -> std::io::Result<SocketAddr> {
    let (of_get, of_post) = (body.clone(), body);
    let router = Router::new()
        .route("/", get(move || async move { of_get }))
        .route("/api/plan", post(move |_: Bytes| async move { of_post }));
    let listener = tokio::net::TcpListener::bind("127.0.0.1:0").await?;
    let address = listener.local_addr()?;
    tokio::spawn(async move { axum::serve(listener, router).await });
    Ok(address)
}

async fn body_of(address: SocketAddr, request: &str) -> std::io::Result<Vec<u8>> {
    let mut stream = TcpStream::connect(address).await?;
    let mut buffer = Vec::new();
    let start = exchange(&mut stream, request, &mut buffer).await?;
    Ok(buffer.split_off(start))
}

async fn figures(
    address: SocketAddr,
    request: impl Fn(usize) -> String + Clone + Send + 'static,
    total: usize,
) -> std::io::Result<Figures> {
    let began = Instant::now();
    let mut all = Vec::with_capacity(total);
    let mut running = Vec::new();
    for place in 0..CONNECTIONS {
        let request = request.clone();
        running.push(tokio::spawn(async move {
            let mut stream = TcpStream::connect(address).await?;
            stream.set_nodelay(true)?;
            let mut took = Vec::new();
            let mut buffer = Vec::new();
            for number in (place..total).step_by(CONNECTIONS) {
                let asked = Instant::now();
                exchange(&mut stream, &request(number), &mut buffer).await?;
                took.push(asked.elapsed());
            }
            Ok::<_, std::io::Error>(took)
        }));
    }
    for took in running {
        all.extend(took.await.map_err(std::io::Error::other)??);
    }
    let rate = total as f64 / began.elapsed().as_secs_f64();
    all.sort_unstable();
    Ok(Figures { rate, p99: all[total * 99 / 100] })
}

/// Sends a request and reads its answer; where the body begins in it.
async fn exchange(stream: &mut TcpStream, request: &str, buffer: &mut Vec<u8>) -> std::io::Result<usize> {
    stream.write_all(request.as_bytes()).await?;
    buffer.clear();
    loop {
        if stream.read_buf(buffer).await? == 0 {
            return Err(std::io::ErrorKind::UnexpectedEof.into());
        }
        if let Some(end) = buffer.windows(4).position(|window| window == b"\r\n\r\n") {
            let head = String::from_utf8_lossy(&buffer[..end]).to_ascii_lowercase();
            assert!(head.starts_with("http/1.1 200"), "{head}");
            let length = head.lines().find_map(|line| line.strip_prefix("content-length: "));
            let length: usize = length.and_then(|length| length.parse().ok()).unwrap_or_default();
            buffer.reserve(length);
            while buffer.len() < end + 4 + length {
                if stream.read_buf(buffer).await? == 0 {
                    return Err(std::io::ErrorKind::UnexpectedEof.into());
                }
            }
            return Ok(end + 4);
        }
    }
}

/// The memory that this process holds, where the system says.
fn resident_kib() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    status.lines().find_map(|line| line.strip_prefix("VmRSS:")?.trim().strip_suffix(" kB")?.parse().ok())
}
