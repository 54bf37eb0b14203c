// What is asked of the planner, whoever carries it: the program that serves the page, or a worker beside it.
import { carry } from "./carrier.js";

/** The reply to a request: its status, and its body as JSON, or as a blob where it is a file. */
export async function ask(operation, request) {
  const reply = await carry(operation, JSON.stringify(request));
  const isJson = /^application\/(problem\+)?json$/.test(reply.type);
  const body = isJson && operation !== "file" ? JSON.parse(await reply.blob.text()) : reply.blob;
  return { status: reply.status, isFine: reply.status === 200, body };
}

/** Asks one thing after the other, and of those that wait only the last. */
export class Latest {
  #running = false;
  #waiting = null;

  async ask(operation, request, use) {
    this.#waiting = { operation, request, use };
    if (this.#running) return;
    this.#running = true;
    try {
      while (this.#waiting !== null) {
        const { operation, request, use } = this.#waiting;
        this.#waiting = null;
        const reply = await ask(operation, request);
        if (this.#waiting === null || this.#waiting.operation !== operation) use(reply);
      }
    } finally {
      this.#running = false;
    }
  }
}
