//! The names that a server answers to.

use std::net::IpAddr;
use std::sync::Arc;

use axum::extract::{Request, State};
use axum::http::StatusCode;
use axum::http::header::HOST;
use axum::http::uri::Authority;
use axum::middleware::Next;
use axum::response::Response;

use crate::refused::refused;

/// The names that a server answers to. A page of somebody else can make its own name mean this machine (DNS rebinding);
/// the browser then asks here under that name, and is refused.
#[derive(Clone, Debug)]
pub(crate) struct Hosts {
    names: Vec<String>,
    /// Whether it listens at every address of the machine; an address, unlike a name, cannot be made to mean another.
    is_any_address: bool,
}

impl Hosts {
    /// Those of a server that was told to listen at `given`, and does at `bound`.
    pub(crate) fn of(given: &str, bound: IpAddr) -> Self {
        let names = ["localhost".to_owned(), "127.0.0.1".to_owned(), "::1".to_owned()];
        let own = [given.to_owned(), bound.to_string()];
        Self { names: names.into_iter().chain(own).collect(), is_any_address: bound.is_unspecified() }
    }

    fn answer_to(&self, authority: &Authority) -> bool {
        let host = authority.host().trim_start_matches('[').trim_end_matches(']');
        !authority.as_str().contains('@')
            && (self.names.iter().any(|name| name.eq_ignore_ascii_case(host))
                || self.is_any_address && host.parse::<IpAddr>().is_ok())
    }

    /// Why a request is not for this server.
    fn fault(&self, request: &Request) -> Option<Response> {
        let mut hosts = request.headers().get_all(HOST).iter();
        let host = hosts.next().and_then(|host| host.to_str().ok()?.parse::<Authority>().ok());
        let (Some(host), None) = (host, hosts.next()) else {
            let detail = "a request needs one `Host`, such as `localhost`";
            return Some(refused(StatusCode::BAD_REQUEST, "Not a valid request", detail));
        };
        let named = [Some(&host), request.uri().authority()];
        let is_for_others = named.into_iter().flatten().any(|name| !self.answer_to(name));
        is_for_others.then(|| {
            let detail = "this server does not answer to that name; ask for `localhost`, or for the address that it printed";
            refused(StatusCode::MISDIRECTED_REQUEST, "Not for this server", detail)
        })
    }
}

/// Lets through what is asked of this server.
pub(crate) async fn check(State(hosts): State<Arc<Hosts>>, request: Request, next: Next) -> Response {
    match hosts.fault(&request) {
        Some(refusal) => refusal,
        None => next.run(request).await,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn answers(hosts: &Hosts, host: &str) -> bool {
        host.parse().is_ok_and(|authority| hosts.answer_to(&authority))
    }

    #[test]
    fn a_server_answers_to_its_own_names_only() {
        let hosts = Hosts::of("track.example", IpAddr::from([192, 0, 2, 7]));
        for own in ["localhost", "LOCALHOST:80", "127.0.0.1:8080", "[::1]:1", "track.example", "192.0.2.7:9"]
        {
            assert!(answers(&hosts, own), "{own}");
        }
        for other in ["example.org", "localhost.example.org", "a@localhost", "192.0.2.8", "[::2]"] {
            assert!(!answers(&hosts, other), "{other}");
        }
    }

    #[test]
    fn a_server_at_every_address_answers_to_each_and_to_no_other_name() {
        let hosts = Hosts::of("0.0.0.0", IpAddr::from([0, 0, 0, 0]));
        assert!(answers(&hosts, "192.0.2.8:8080") && answers(&hosts, "[2001:db8::1]"));
        assert!(!answers(&hosts, "example.org"));
    }
}
