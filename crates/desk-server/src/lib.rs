//! Serves the planner's page, its answers and a folder of sessions over HTTP, on one's own machine.
//!
//! What is asked and answered is `plan_desk`'s; here are only the rules of HTTP (RFC 9110) and of a browser's safety: who
//! may ask, how much, and for how long. Nothing is asked of any other machine.
//!
//! | resource | methods |
//! |---|---|
//! | `/`, and each of [`plan_desk::page_files`] | `GET` |
//! | `/api/openapi.json` | `GET`: the description of all that follows |
//! | `/api/plan`, and each of [`plan_desk::OPERATIONS`] | `POST` |
//! | `/api/sessions` | `GET`: the files of the folder, where there is one |
//! | `/api/sessions/{name}` | `GET`, and `PUT` with the version that it replaces |
//!
//! ```no_run
//! use desk_server::{Server, Settings};
//!
//! let settings = Settings { host: "127.0.0.1".to_owned(), port: 0, sessions: None };
//! let server = Server::start(&settings)?;
//! println!("http://{}/", server.address());
//! server.run()?;
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod body;
mod connections;
mod desk;
mod hosts;
mod openapi;
mod origin;
mod page;
mod refused;
mod router;
mod safety;
mod server;
mod session_folder;
mod session_resource;
mod stop;
mod version;
mod workers;

pub use server::{Server, ServerError, Settings};
