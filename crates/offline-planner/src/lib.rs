//! The planner as WebAssembly: the one function of `plan-desk`, for a page that needs no server.

use wasm_bindgen::prelude::wasm_bindgen;

/// What the planner answers to a request, as a server would send it.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Reply(plan_desk::Reply);

#[wasm_bindgen]
impl Reply {
    /// The status code of HTTP.
    #[wasm_bindgen(getter)]
    pub fn status(&self) -> u16 {
        self.0.status
    }

    /// The media type of the body.
    #[wasm_bindgen(getter, js_name = contentType)]
    pub fn content_type(&self) -> String {
        self.0.content_type.to_owned()
    }

    /// The body; taken out of the reply, which must not be used after it.
    #[wasm_bindgen(js_name = intoBody)]
    pub fn into_body(self) -> Vec<u8> {
        self.0.body
    }
}

/// Answers a request: an operation of the planner, by name, with its body as JSON.
#[wasm_bindgen]
pub fn answer(operation: &str, body: &str) -> Reply {
    Reply(plan_desk::answer(operation, body))
}
