//! Requests such as nobody means well with, to the planner as the program serves it.

use std::io::{Read, Write};
use std::thread;
use std::time::Duration;

use crate::serve::{SESSION, of_folder};
use crate::served::Served;

/// Numbers that look random and are the same in every run (xorshift).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % sides as u64).expect("it is less than a number of sides")
    }

    fn pick<'a>(&mut self, from: &[&'a str]) -> &'a str {
        from[self.roll(from.len())]
    }

    fn bytes(&mut self, most: usize) -> Vec<u8> {
        let length = self.roll(most);
        (0..length).map(|_| u8::try_from(self.roll(256)).expect("it is less than 256")).collect()
    }

    /// A request such as nobody means well with.
    fn request(&mut self) -> Vec<u8> {
        if self.roll(8) == 0 {
            return self.bytes(2_000);
        }
        let method = self
            .pick(&["GET", "POST", "PUT", "HEAD", "OPTIONS", "DELETE", "TRACE", "CONNECT", "BREW", "\0", ""]);
        let path = self.pick(&[
            "/",
            "*",
            "",
            "//",
            "/api/plan",
            "/api/file",
            "/api/spots",
            "/api/marks",
            "/api/lanes",
            "/api/measure",
            "/api/openapi.json",
            "/api/sessions",
            "/api/sessions/a.yaml",
            "/api/sessions/%00",
            "/api/sessions/..%2F",
            "/api/sessions/%",
            "/%ff",
            "/?a=b#c",
            "http://[::1",
            "http://localhost/",
            "/index.html/../..",
            "/\u{1}",
        ]);
        let version = self.pick(&["HTTP/1.1", "HTTP/1.1", "HTTP/1.1", "HTTP/1.0", "HTTP/2.0", "HTTP/9", ""]);
        let mut request = format!("{method} {path} {version}\r\n").into_bytes();
        if self.roll(4) > 0 {
            request.extend_from_slice(b"Host: localhost\r\n");
        }
        for _ in 0..self.roll(6) {
            let header = self.pick(&[
                "Connection: close",
                "Content-Type: application/json",
                "Content-Type: application/yaml",
                "Content-Length: 5",
                "Content-Length: -1",
                "Content-Length: 99999999999999999999",
                "If-Match: \"x\"",
                "Content-Length: 70000",
                "Transfer-Encoding: chunked",
                "Transfer-Encoding: gzip",
                "If-Match: *",
                "If-None-Match: *",
                "If-None-Match: ,,,\"",
                "Expect: 100-continue",
                "Expect: tea",
                "Origin: null",
                "Upgrade: h2c",
                "Range: bytes=0-",
                "Accept-Encoding: gzip;q=9, br, *;q=0",
                "Host: example.org",
                "Sec-Fetch-Site: cross-site",
                "Cookie: a",
                ": nothing",
                "No colon",
                "A\u{0}: b",
                "X: \u{7f}",
            ]);
            request.extend_from_slice(header.as_bytes());
            request.extend_from_slice(b"\r\n");
        }
        if self.roll(50) == 0 {
            request.extend(std::iter::repeat_n(*b"X: y\r\n", 20_000).flatten());
        }
        request.extend_from_slice(b"\r\n");
        match self.roll(5) {
            0 => request.extend(self.bytes(3_000)),
            1 => request.extend_from_slice(
                self.pick(&["[", "{}", "null", "\"\"", "{\"text\":1}", "{\"lane\":-1}"]).as_bytes(),
            ),
            2 => request.extend_from_slice(b"{\"text\":\"6 x 200 in lane 2 // \\u0000 \\ud800\"}"),
            3 => request.extend(std::iter::repeat_n(b'[', 60_000)),
            _ => {}
        }
        if self.roll(6) == 0 {
            request.truncate(self.roll(request.len() + 1));
        }
        request
    }
}

#[test]
fn two_thousand_hostile_requests_leave_it_serving() {
    let (folder, served) = of_folder();
    // These never end what they began, and stay connected to the end.
    let mut slow = Vec::new();
    for begun in [
        "",
        "G",
        "GET / HTTP/1.1\r\nHost: local",
        "POST /api/plan HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 9\r\n\r\n{",
    ] {
        for _ in 0..25 {
            let mut stream = served.connect();
            stream.write_all(begun.as_bytes()).expect("it is read");
            slow.push(stream);
        }
    }
    let statuses: Vec<Option<u16>> = thread::scope(|scope| {
        let asking: Vec<_> = (0..8_u64)
            .map(|seed| {
                let served = &served;
                scope.spawn(move || {
                    let mut dice = Dice(0x9E37_79B9_7F4A_7C15 ^ (seed + 1));
                    (0..250).map(|_| hostile(served, &mut dice)).collect::<Vec<_>>()
                })
            })
            .collect();
        asking.into_iter().flat_map(|asking| asking.join().expect("it does not panic")).collect()
    });
    assert_eq!(statuses.len(), 2_000);
    let answered: Vec<u16> = statuses.into_iter().flatten().collect();
    assert!(answered.len() > 1_000, "only {} were answered", answered.len());
    for status in answered {
        assert!(matches!(status, 100 | 200..=499 | 503), "{status}");
    }
    served.assert_serving();
    let mut trickle = slow.pop().expect("there are some");
    trickle.write_all(b" ").expect("it still waits for the rest, or has ended");
    assert_eq!(served.get("/api/sessions").json()["sessions"][0]["name"], "tuesday.yaml");
    assert_eq!(folder.read("tuesday.yaml"), SESSION);
}

/// Sends a request as it is, tells that no more comes, and reads the status.
fn hostile(served: &Served, dice: &mut Dice) -> Option<u16> {
    let request = dice.request();
    let mut stream = served.connect();
    let _ = stream.write_all(&request);
    match dice.roll(4) {
        // It hangs up without a look at the answer.
        0 => return None,
        _ => {
            let _ = stream.shutdown(std::net::Shutdown::Write);
        }
    }
    let mut answer = [0; 12];
    stream.set_read_timeout(Some(Duration::from_secs(30))).expect("it is not zero");
    stream.read_exact(&mut answer).ok()?;
    std::str::from_utf8(&answer[9..]).ok()?.parse().ok()
}
