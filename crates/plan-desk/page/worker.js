// The planner itself, compiled to WebAssembly.
import start, { answer } from "./engine.js";

const ready = start({ module_or_path: new URL("engine.wasm", import.meta.url) });
// The page hears of an error, and not of a promise that nobody keeps.
ready.catch((reason) =>
  setTimeout(() => {
    throw reason;
  }),
);

addEventListener("message", async ({ data: { id, operation, body } }) => {
  await ready;
  const reply = answer(operation, body);
  const { status, contentType } = reply;
  const bytes = reply.intoBody();
  postMessage({ id, status, type: contentType, body: bytes }, [bytes.buffer]);
});
