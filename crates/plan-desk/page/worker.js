// The planner itself, compiled to WebAssembly.
import start, { answer } from "./engine.js";

const ready = start();

addEventListener("message", async ({ data: { id, operation, body } }) => {
  await ready;
  const reply = answer(operation, body);
  const bytes = reply.body;
  postMessage({ id, status: reply.status, type: reply.content_type, body: bytes }, [bytes.buffer]);
  reply.free();
});
