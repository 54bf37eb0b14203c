//! The planner as the program serves it.

use std::io::{Read, Write};
use std::net::TcpListener;
use std::thread;

use plan_desk::{Carrier, PageFile, page_files};
#[cfg(unix)]
use rustix::process::Signal;
use serde_json::Value;

use crate::folder::Folder;
use crate::run::toeline;
use crate::served::Served;

const JSON: (&str, &str) = ("Content-Type", "application/json");
const YAML: (&str, &str) = ("Content-Type", "application/yaml");
const PLAN: &str = r#"{ "text": "6 x 200 in lane 2" }"#;
pub(crate) const SESSION: &str = "title: Tuesday\nblocks: [6 x 200 in lane 2]\n";

/// A folder with a session in it, and a server of it.
pub(crate) fn of_folder() -> (Folder, Served) {
    let folder = Folder::with("tuesday.yaml", SESSION);
    let served = Served::with(&["--sessions", folder.path().to_str().expect("it is UTF-8")]);
    (folder, served)
}

/// The files of the page.
fn page() -> Vec<PageFile> {
    page_files(Carrier::Program { has_folder: false }).expect("it can be made")
}

#[test]
fn it_prints_one_line_with_its_address_and_is_reached_by_this_machine_only() {
    let served = Served::new();
    assert!(served.address().ip().is_loopback() && served.address().port() > 0);
    served.assert_serving();
    #[cfg(unix)]
    assert_eq!(served.end_by(Signal::INT).1, "");
}

#[cfg(unix)]
#[test]
fn ctrl_c_and_the_signal_to_terminate_end_it_with_status_0() {
    for signal in [Signal::INT, Signal::TERM] {
        let served = Served::new();
        served.assert_serving();
        // Neither one who is connected and says nothing, nor one in the midst of a request, keeps it.
        let _idle = served.connect();
        let mut half = served.connect();
        half.write_all(b"POST /api/plan HTTP/1.1\r\nHost: localhost\r\nContent-").expect("it is read");
        let (status, _) = served.end_by(signal);
        assert_eq!(status.code(), Some(0), "{signal:?}: {status:?}");
    }
}

#[test]
fn a_port_that_is_in_use_and_a_folder_that_is_not_there_are_said() {
    let taken = TcpListener::bind("127.0.0.1:0").expect("a port is free");
    let port = taken.local_addr().expect("it is bound").port().to_string();
    let asserted = toeline(&["serve", "--port", &port]).assert().code(1);
    let told = String::from_utf8_lossy(&asserted.get_output().stderr).into_owned();
    let expected = format!(
        "error: cannot listen at port {port} of `127.0.0.1`: another program listens there; choose another port, or 0 for \
         any that is free\n"
    );
    assert_eq!(told, expected);
    toeline(&["serve", "--port", "0", "--sessions", "no/such/folder"])
        .assert()
        .code(1)
        .stderr_eq("error: cannot open the folder `no/such/folder`: [..]\n");
    toeline(&["serve", "--port", "70000"]).assert().code(2);
}

#[test]
fn every_operation_answers_with_the_bytes_of_the_desk() {
    let served = Served::new();
    for operation in plan_desk::OPERATIONS {
        for body in
            [PLAN, "{}", "[", r#"{ "lane": 2 }"#, r#"{ "text": "150 in lane 2" }"#, r#"{ "text": "6 x" }"#]
        {
            let expected = operation.answer(body);
            // The second is an answer that was kept.
            for _ in 0..2 {
                let answer = served.post(operation.name, body);
                assert_eq!(answer.status, expected.status, "{} {body}", operation.name);
                assert_eq!(answer.header("content-type"), expected.content_type, "{} {body}", operation.name);
                assert!(answer.body == expected.body, "{} {body}: {}", operation.name, answer.text());
                assert_eq!(answer.header("cache-control"), "no-store");
            }
        }
    }
}

#[cfg(feature = "pdf")]
#[test]
fn a_sheet_is_a_pdf() {
    let served = Served::new();
    let sheet = served.post("file", r#"{ "evening": { "text": "6 x 200 in lane 2" }, "ending": "pdf" }"#);
    assert_eq!((sheet.status, sheet.header("content-type")), (200, "application/pdf"));
    assert!(sheet.body.starts_with(b"%PDF"));
}

#[test]
fn every_file_of_the_page_is_served_with_a_version() {
    let served = Served::new();
    for file in page() {
        let path = format!("/{}", file.path);
        let answer = served.get(&path);
        assert_eq!((answer.status, answer.header("content-type")), (200, file.content_type), "{path}");
        assert!(answer.body == *file.bytes, "{path}");
        assert_eq!(answer.header("cache-control"), "no-cache", "{path}");
        let policy = answer.header("content-security-policy");
        assert_eq!(policy, format!("{}; frame-ancestors 'none'", file.policy), "{path}");
        assert!(!policy.contains("unsafe-inline") && !policy.contains("http"), "{path}");
        let version = answer.header("etag");
        let again = served.ask("GET", &path, &[("If-None-Match", version)], "");
        assert_eq!((again.status, again.header("etag"), again.body.len()), (304, version, 0), "{path}");
        let other = served.ask("GET", &path, &[("If-None-Match", "\"other\"")], "");
        assert_eq!(other.status, 200, "{path}");
    }
}

#[test]
fn every_answer_tells_the_browser_what_not_to_do() {
    let (_folder, served) = of_folder();
    let answers = [
        served.get("/"),
        served.get("/nothing"),
        served.get("/api/openapi.json"),
        served.get("/api/sessions"),
        served.get("/api/sessions/tuesday.yaml"),
        served.get("/api/sessions/none.yaml"),
        served.post("plan", PLAN),
        served.post("plan", "["),
        served.ask("POST", "/api/plan", &[], PLAN),
        served.ask("DELETE", "/", &[], ""),
        served.ask("OPTIONS", "/", &[], ""),
        served.ask("GET", "/", &[("Host", "example.org")], ""),
        served.ask("POST", "/api/plan", &[JSON, ("Origin", "http://example.org")], PLAN),
    ];
    for answer in answers {
        for (name, value) in [
            (
                "content-security-policy",
                "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; \
                 connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; \
                 frame-ancestors 'none'",
            ),
            ("x-content-type-options", "nosniff"),
            ("referrer-policy", "no-referrer"),
            ("x-frame-options", "DENY"),
            ("cross-origin-opener-policy", "same-origin"),
            ("cross-origin-resource-policy", "same-origin"),
        ] {
            assert_eq!(answer.header(name), value, "{answer:?}");
        }
        let kept = answer.header("cache-control");
        let is_kept = !answer.header("etag").is_empty();
        assert_eq!(kept, if is_kept { "no-cache" } else { "no-store" }, "{answer:?}");
        assert_eq!(answer.header("access-control-allow-origin"), "", "{answer:?}");
    }
}

#[test]
fn a_head_has_no_body_and_other_methods_are_refused_with_those_that_there_are() {
    let (_folder, served) = of_folder();
    for (path, allowed, refused) in [
        ("/", "GET, HEAD, OPTIONS", "POST"),
        ("/api/openapi.json", "GET, HEAD, OPTIONS", "PUT"),
        ("/api/plan", "POST, OPTIONS", "GET"),
        ("/api/sessions", "GET, HEAD, OPTIONS", "POST"),
        ("/api/sessions/tuesday.yaml", "GET, HEAD, PUT, OPTIONS", "DELETE"),
        ("/api/sessions/tuesday.yaml", "GET, HEAD, PUT, OPTIONS", "PATCH"),
    ] {
        let answer = served.ask(refused, path, &[], "");
        assert_eq!((answer.refusal(), answer.header("allow")), (405, allowed), "{path}");
        let options = served.ask("OPTIONS", path, &[], "");
        assert_eq!((options.status, options.header("allow")), (204, allowed), "{path}");
        if allowed.contains("HEAD") {
            let (head, get) = (served.ask("HEAD", path, &[], ""), served.get(path));
            assert_eq!((head.status, head.body.len()), (200, 0), "{path}");
            for name in ["content-length", "content-type", "etag"] {
                assert_eq!(head.header(name), get.header(name), "{path} {name}");
            }
        }
    }
    assert_eq!(served.ask("OPTIONS", "*", &[], "").status, 204);
    for path in ["/api", "/api/", "/api/tea", "/api/plan/", "//", "/index.htm", "/page/index.html"] {
        assert_eq!(served.get(path).refusal(), 404, "{path}");
    }
    assert_eq!(served.post("tea", "{}").refusal(), 404);
}

#[test]
fn only_its_own_names_are_answered_to() {
    let served = Served::new();
    let port = served.address().port();
    let own = ["localhost", "LocalHost", "127.0.0.1", "[::1]"].map(str::to_owned);
    for host in own.iter().cloned().chain(own.iter().map(|host| format!("{host}:{port}"))) {
        assert_eq!(served.ask("GET", "/", &[("Host", &host)], "").status, 200, "{host}");
    }
    for host in ["example.org", "localhost.example.org", "127.0.0.1.example.org", "192.0.2.1", "me@localhost"]
    {
        assert_eq!(served.ask("GET", "/", &[("Host", host)], "").refusal(), 421, "{host}");
        assert_eq!(served.ask("POST", "/api/plan", &[("Host", host), JSON], PLAN).refusal(), 421, "{host}");
        let absolute = format!("http://{host}/");
        assert_eq!(served.get(&absolute).refusal(), 421, "{host}");
    }
    for request in [
        "GET / HTTP/1.1\r\nConnection: close\r\n\r\n",
        "GET / HTTP/1.1\r\nConnection: close\r\nHost: localhost\r\nHost: localhost\r\n\r\n",
        "GET / HTTP/1.1\r\nConnection: close\r\nHost: a b\r\n\r\n",
        "GET / HTTP/1.1\r\nConnection: close\r\nHost:\r\n\r\n",
    ] {
        assert_eq!(served.raw(request.as_bytes()).expect("it is answered").status, 400, "{request}");
    }
    let named = Served::with(&["--host", "localhost"]);
    named.assert_serving();
}

#[test]
fn only_its_own_page_may_post_and_save() {
    let (folder, served) = of_folder();
    let own = format!("http://{}", served.address());
    for headers in [
        &[JSON][..],
        &[JSON, ("Origin", &own)],
        &[JSON, ("Origin", &own), ("Sec-Fetch-Site", "same-origin")],
        &[("Content-Type", "application/json; charset=utf-8")],
        &[("Content-Type", "Application/JSON")],
    ] {
        assert_eq!(served.ask("POST", "/api/plan", headers, PLAN).status, 200, "{headers:?}");
    }
    let https = own.replace("http", "https");
    for header in [
        ("Origin", "http://example.org"),
        ("Origin", "null"),
        ("Origin", "http://localhost"),
        ("Origin", &https),
        ("Sec-Fetch-Site", "cross-site"),
        ("Sec-Fetch-Site", "same-site"),
    ] {
        assert_eq!(served.ask("POST", "/api/plan", &[JSON, header], PLAN).refusal(), 403, "{header:?}");
        let save = [YAML, ("If-None-Match", "*"), header];
        assert_eq!(served.ask("PUT", "/api/sessions/new.yaml", &save, SESSION).refusal(), 403, "{header:?}");
    }
    assert_eq!(folder.count(), 1);
    for headers in [
        &[][..],
        &[("Content-Type", "text/plain")],
        &[("Content-Type", "application/x-www-form-urlencoded")],
        &[("Content-Type", "multipart/form-data; boundary=x")],
        &[("Content-Type", "application/json; charset=latin1")],
        &[("Content-Type", "json")],
    ] {
        assert_eq!(served.ask("POST", "/api/plan", headers, PLAN).refusal(), 415, "{headers:?}");
    }
}

#[test]
fn bodies_are_bounded_and_text() {
    let served = Served::new();
    let padded = |bytes: usize| format!("{PLAN}{}", " ".repeat(bytes - PLAN.len()));
    assert_eq!(served.post("plan", &padded(64 * 1024)).status, 200);
    assert_eq!(served.post("plan", &padded(64 * 1024 + 1)).refusal(), 413);
    let head = "POST /api/plan HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\nContent-Type: application/json\r\n";
    // Told before a byte of it is sent, and found out where nothing is told.
    let announced = format!("{head}Content-Length: 10000000000\r\n\r\n");
    assert_eq!(served.raw(announced.as_bytes()).expect("it is answered").refusal(), 413);
    let mut chunked = format!("{head}Transfer-Encoding: chunked\r\n\r\n").into_bytes();
    for _ in 0..17 {
        chunked.extend_from_slice(b"1000\r\n");
        chunked.extend_from_slice(&[b' '; 0x1000]);
        chunked.extend_from_slice(b"\r\n");
    }
    assert_eq!(served.raw(&chunked).expect("it is answered").refusal(), 413);
    let mut not_text = format!("{head}Content-Length: 2\r\n\r\n").into_bytes();
    not_text.extend_from_slice(b"\xff\xfe");
    assert_eq!(served.raw(&not_text).expect("it is answered").refusal(), 400);
}

#[test]
fn what_is_large_is_compressed_for_those_who_read_it() {
    let (_folder, served) = of_folder();
    let gzip = ("Accept-Encoding", "gzip");
    let plan = served.ask("POST", "/api/plan", &[JSON, gzip], PLAN);
    assert_eq!((plan.status, plan.header("content-encoding")), (200, "gzip"));
    assert!(plan.header("vary").contains("accept-encoding"));
    assert!(plan.body.len() * 2 < served.post("plan", PLAN).body.len());
    let page = served.ask("GET", "/", &[gzip], "");
    assert_eq!((page.status, page.header("content-encoding")), (200, "gzip"));
    assert_eq!(page.header("etag"), served.get("/").header("etag"));
    // Whose version stands for its very bytes.
    let session = served.ask("GET", "/api/sessions/tuesday.yaml", &[gzip], "");
    assert_eq!((session.status, session.header("content-encoding")), (200, ""));
}

#[test]
fn the_description_is_of_everything_that_is_served() {
    let (_folder, served) = of_folder();
    let description = served.get("/api/openapi.json");
    assert_eq!((description.status, description.header("content-type")), (200, "application/json"));
    let description = description.json();
    assert_eq!(description["openapi"], "3.1.0");
    for operation in plan_desk::OPERATIONS {
        let described = &description["paths"][format!("/api/{}", operation.name)]["post"];
        assert_eq!(described["summary"], operation.what, "{}", operation.name);
        for status in ["200", "400", "403", "405", "408", "413", "415", "421", "422", "500", "503"] {
            assert!(described["responses"][status].is_object(), "{} {status}", operation.name);
        }
    }
    assert!(description["paths"]["/api/sessions/{name}"]["put"].is_object());
    let without = Served::new();
    assert_eq!(without.get("/api/sessions").refusal(), 404);
    assert!(without.get("/api/openapi.json").json()["paths"]["/api/sessions"].is_null());
}

/// What is answered is what the description says.
#[test]
fn answers_are_those_that_the_description_has() {
    let (_folder, served) = of_folder();
    let description = served.get("/api/openapi.json").json();
    let is_valid = |pointer: &str, instance: &Value| {
        let schema = description.pointer(pointer).expect("it is described").clone();
        let mut whole = serde_json::json!({ "allOf": [schema] });
        whole["components"] = description["components"].clone();
        let validator = jsonschema::validator_for(&whole).expect("it is a schema");
        let errors: Vec<String> = validator.iter_errors(instance).map(|error| error.to_string()).collect();
        assert!(errors.is_empty(), "{pointer}: {errors:?}");
    };
    for (operation, body) in [
        ("plan", PLAN),
        ("plan", r#"{ "text": "6 x" }"#),
        ("lanes", "{}"),
        ("marks", r#"{ "lane": 2 }"#),
        ("spots", r#"{ "text": "150 in lane 2" }"#),
        ("measure", r#"{ "lane": 2, "from": "400 m start", "to": "200 m start" }"#),
    ] {
        let path = format!("/paths/~1api~1{operation}/post");
        let request = serde_json::from_str(body).expect("it is JSON");
        is_valid(&format!("{path}/requestBody/content/application~1json/schema"), &request);
        let answer = served.post(operation, body);
        assert_eq!(answer.status, 200, "{operation} {body}");
        is_valid(&format!("{path}/responses/200/content/application~1json/schema"), &answer.json());
    }
    let refusal = "/components/responses/Refusal/content/application~1problem+json/schema";
    is_valid(refusal, &served.post("plan", "[").json());
    is_valid(refusal, &served.post("spots", r#"{ "text": "6 x" }"#).json());
    let list = "/paths/~1api~1sessions/get/responses/200/content/application~1json/schema";
    is_valid(list, &served.get("/api/sessions").json());
}

#[test]
fn sessions_are_listed_opened_and_saved() {
    let (folder, served) = of_folder();
    folder.write("notes.txt", "6 x 200");
    folder.write("old.yml", "blocks: [200]\n");
    folder.write("plan.pdf", "%PDF");
    folder.write(".hidden.yaml", "blocks: [200]\n");
    std::fs::create_dir(folder.at("folder.yaml")).expect("it can be made");
    let list = served.get("/api/sessions").json();
    let names: Vec<&str> = list["sessions"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|entry| entry["name"].as_str())
        .collect();
    assert_eq!(names, ["notes.txt", "old.yml", "tuesday.yaml"]);
    assert_eq!(list["sessions"][0]["bytes"], 7);

    let opened = served.get("/api/sessions/tuesday.yaml");
    assert_eq!((opened.status, opened.header("content-type")), (200, "application/yaml"));
    assert_eq!(opened.text(), SESSION);
    let version = opened.header("etag").to_owned();
    assert!(version.starts_with('"'), "{version} is not strong");
    let again = served.ask("GET", "/api/sessions/tuesday.yaml", &[("If-None-Match", &version)], "");
    assert_eq!((again.status, again.header("etag")), (304, &*version));
    assert_eq!(served.get("/api/sessions/notes.txt").header("content-type"), "text/plain; charset=utf-8");

    let changed = "title: Wednesday\nblocks: [300]\n";
    let saved = served.ask("PUT", "/api/sessions/tuesday.yaml", &[YAML, ("If-Match", &version)], changed);
    assert_eq!(saved.status, 204, "{}", saved.text());
    assert_eq!(folder.read("tuesday.yaml"), changed);
    assert_eq!(saved.header("etag"), served.get("/api/sessions/tuesday.yaml").header("etag"));
    let new = [("Content-Type", "text/plain"), ("If-None-Match", "*")];
    let made = served.ask("PUT", "/api/sessions/week%203.txt", &new, "6 x 300");
    assert_eq!((made.status, made.header("location")), (201, "/api/sessions/week%203.txt"));
    assert_eq!(folder.read("week 3.txt"), "6 x 300");
    // Nothing unfinished is left beside them.
    assert_eq!(folder.count(), 7);
}

#[test]
fn a_newer_file_is_never_overwritten() {
    let (folder, served) = of_folder();
    let version = served.get("/api/sessions/tuesday.yaml").header("etag").to_owned();
    let save = |headers: &[(&str, &str)], name: &str| {
        let headers = [&[YAML], headers].concat();
        served.ask("PUT", &format!("/api/sessions/{name}"), &headers, "blocks: [300]\n")
    };
    for headers in [&[][..], &[("If-Match", "*")], &[("If-None-Match", &version)]] {
        assert_eq!(save(headers, "tuesday.yaml").refusal(), 428, "{headers:?}");
    }
    assert_eq!(save(&[("If-Match", "no validator")], "tuesday.yaml").refusal(), 412);
    let there = save(&[("If-None-Match", "*")], "tuesday.yaml");
    assert_eq!((there.refusal(), there.header("etag")), (412, &*version));
    assert_eq!(save(&[("If-Match", &version)], "gone.yaml").refusal(), 412);
    let weak = format!("W/{version}");
    assert_eq!(save(&[("If-Match", &weak)], "tuesday.yaml").refusal(), 412);
    assert_eq!(folder.read("tuesday.yaml"), SESSION);

    folder.write("tuesday.yaml", "title: An editor was here\nblocks: [200]\n");
    let newer = save(&[("If-Match", &version)], "tuesday.yaml");
    assert_eq!(newer.refusal(), 412);
    assert!(folder.read("tuesday.yaml").contains("An editor was here"));
    assert_eq!(save(&[("If-Match", newer.header("etag"))], "tuesday.yaml").status, 204);
    assert_eq!(folder.count(), 1);
}

/// Of those who save at once over the same version, one does.
#[test]
fn of_many_who_save_at_once_one_does() {
    let (folder, served) = of_folder();
    let version = served.get("/api/sessions/tuesday.yaml").header("etag").to_owned();
    for (name, header) in [("tuesday.yaml", ("If-Match", &*version)), ("new.yaml", ("If-None-Match", "*"))] {
        let statuses: Vec<u16> = thread::scope(|scope| {
            let save = |number: usize| {
                let (served, path) = (&served, format!("/api/sessions/{name}"));
                scope.spawn(move || {
                    served.ask("PUT", &path, &[YAML, header], &format!("blocks: [{number}]\n")).status
                })
            };
            let saving: Vec<_> = (200..216).map(save).collect();
            saving.into_iter().map(|saving| saving.join().expect("it does not panic")).collect()
        });
        assert_eq!(statuses.iter().filter(|status| matches!(status, 201 | 204)).count(), 1, "{statuses:?}");
        assert_eq!(statuses.iter().filter(|status| **status == 412).count(), 15, "{statuses:?}");
        assert!(folder.read(name).starts_with("blocks: [2"));
    }
    assert_eq!(folder.count(), 2);
}

#[cfg(unix)]
#[test]
fn a_save_keeps_the_mode_of_a_file_and_a_read_only_one() {
    use std::fs::{Permissions, metadata, set_permissions};
    use std::os::unix::fs::PermissionsExt;

    let (folder, served) = of_folder();
    let path = folder.at("tuesday.yaml");
    set_permissions(&path, Permissions::from_mode(0o640)).expect("it is ours");
    let version = served.get("/api/sessions/tuesday.yaml").header("etag").to_owned();
    let saved =
        served.ask("PUT", "/api/sessions/tuesday.yaml", &[YAML, ("If-Match", &version)], "blocks: [200]\n");
    assert_eq!(saved.status, 204);
    assert_eq!(metadata(&path).expect("it is there").permissions().mode() & 0o777, 0o640);
}

#[test]
fn nothing_outside_the_folder_is_reached_by_a_name() {
    let outside = Folder::with("secret.yaml", "title: Secret\nblocks: [200]\n");
    let inside = outside.at("sessions");
    std::fs::create_dir_all(format!("{inside}/below")).expect("it can be made");
    std::fs::write(format!("{inside}/below/x.yaml"), "title: Secret\n").expect("it can be written");
    std::fs::write(format!("{inside}/.hidden.yaml"), "title: Secret\n").expect("it can be written");
    std::fs::write(format!("{inside}/script.sh"), "# Secret\n").expect("it can be written");
    let served = Served::with(&["--sessions", &inside]);
    let absolute = outside.at("secret.yaml").replace('/', "%2F");
    for name in [
        "../secret.yaml",
        "..%2Fsecret.yaml",
        "..%2fsecret.yaml",
        "%2e%2e/secret.yaml",
        "%2e%2e%2fsecret.yaml",
        "..%5Csecret.yaml",
        "..%252Fsecret.yaml",
        ".%2F..%2Fsecret.yaml",
        "below/x.yaml",
        "below%2Fx.yaml",
        "below%2F..%2F..%2Fsecret.yaml",
        "secret.yaml%00.yaml",
        "..%2Fsecret.yaml%00.yaml",
        "%c0%ae%c0%ae%c0%afsecret.yaml",
        ".hidden.yaml",
        "%2Ehidden.yaml",
        "script.sh",
        ".",
        "..",
        "%2e%2e",
        "",
        "%ff.yaml",
        &absolute,
        &format!("/{absolute}"),
        &"a".repeat(300),
        &format!("{}.yaml", "a".repeat(300)),
    ] {
        let path = format!("/api/sessions/{name}");
        let read = served.get(&path);
        assert!(matches!(read.refusal(), 400 | 404), "{path}: {read:?}");
        assert!(!read.text().contains("Secret"), "{path}");
        let written = served.ask("PUT", &path, &[YAML, ("If-None-Match", "*")], SESSION);
        assert!(matches!(written.refusal(), 400 | 404), "{path}: {written:?}");
    }
    assert_eq!(outside.count(), 2);
    assert_eq!(outside.read("secret.yaml"), "title: Secret\nblocks: [200]\n");
}

#[cfg(target_os = "linux")]
#[test]
fn no_link_is_followed_or_listed_and_no_pipe_waited_for() {
    use std::os::unix::fs::symlink;

    let outside = Folder::with("secret.yaml", "title: Secret\nblocks: [200]\n");
    let (folder, served) = of_folder();
    symlink(outside.at("secret.yaml"), folder.at("link.yaml")).expect("it can be made");
    symlink(outside.at("new.yaml"), folder.at("dangling.yaml")).expect("it can be made");
    symlink(outside.path(), folder.at("folder.yaml")).expect("it can be made");
    symlink("/dev/zero", folder.at("zero.txt")).expect("it can be made");
    folder.make_pipe("pipe.txt");
    let list = served.get("/api/sessions").json();
    assert_eq!(list["sessions"].as_array().map(Vec::len), Some(1), "{list}");
    for name in
        ["link.yaml", "dangling.yaml", "folder.yaml", "zero.txt", "pipe.txt", "folder.yaml/secret.yaml"]
    {
        let path = format!("/api/sessions/{name}");
        let read = served.get(&path);
        assert!(matches!(read.refusal(), 403 | 404), "{name}: {read:?}");
        assert!(!read.text().contains("Secret"), "{name}");
        for header in [("If-None-Match", "*"), ("If-Match", "\"x\"")] {
            let written = served.ask("PUT", &path, &[YAML, header], SESSION);
            assert!(matches!(written.refusal(), 403 | 404 | 412), "{name}: {written:?}");
        }
    }
    assert_eq!(outside.count(), 1);
    assert!(outside.read("secret.yaml").contains("Secret"));
    assert_eq!(folder.count(), 6);
}

#[test]
fn what_is_no_text_or_too_large_is_not_opened() {
    let (folder, served) = of_folder();
    folder.write("picture.txt", b"\x89PNG\xff");
    folder.write("large.txt", " ".repeat(64 * 1024 + 1));
    assert_eq!(served.get("/api/sessions/picture.txt").refusal(), 403);
    assert_eq!(served.get("/api/sessions/large.txt").refusal(), 403);
    let headers = [YAML, ("If-None-Match", "*")];
    let large = " ".repeat(64 * 1024 + 1);
    assert_eq!(served.ask("PUT", "/api/sessions/new.yaml", &headers, &large).refusal(), 413);
    let json = [JSON, ("If-None-Match", "*")];
    assert_eq!(served.ask("PUT", "/api/sessions/new.yaml", &json, SESSION).refusal(), 415);
    assert_eq!(folder.count(), 3);
}

/// One that is slow is told so, and waits no longer than it should.
#[test]
fn a_body_that_does_not_come_ends_after_its_time() {
    let served = Served::new();
    let mut stream = served.connect();
    let head = "POST /api/plan HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 9\r\n\r\n{";
    stream.write_all(head.as_bytes()).expect("it is read");
    let mut half = served.connect();
    half.write_all(b"GET / HTTP/1.1\r\nHost: ").expect("it is read");
    let mut answer = [0; 12];
    stream.read_exact(&mut answer).expect("it is answered");
    assert_eq!(&answer, b"HTTP/1.1 408");
    let mut rest = Vec::new();
    half.read_to_end(&mut rest).expect("it is ended");
    let told = String::from_utf8_lossy(&rest);
    assert!(rest.is_empty() || told.starts_with("HTTP/1.1 4"), "{told}");
    served.assert_serving();
}

/// No file of the page loads or links anything of another machine.
#[test]
fn no_file_of_the_page_names_another_machine() {
    for file in page() {
        let text = String::from_utf8_lossy(&file.bytes);
        for place in ["src=\"http", "href=\"http", "url(http", "@import", "fetch(\"http", "from \"http"] {
            assert!(!text.contains(place), "{}: {place}", file.path);
        }
    }
}
