// The planner runs beside this page, in a worker; no request leaves the device.
export const isServed = false;

const worker = self.planner;
const waiting = new Map();
let last = 0;

worker.addEventListener("message", ({ data: { id, status, type, body } }) => {
  waiting.get(id).resolve({ status, type, blob: new Blob([body], { type }) });
  waiting.delete(id);
});
worker.addEventListener("error", () => {
  for (const { reject } of waiting.values()) reject(new Error("worker"));
  waiting.clear();
});

/** Carries a request to the worker. */
export function carry(operation, body) {
  last += 1;
  const id = last;
  return new Promise((resolve, reject) => {
    waiting.set(id, { resolve, reject });
    worker.postMessage({ id, operation, body });
  });
}

// The page is kept once it has answered, so that nothing is fetched twice while somebody waits.
const keep = () => navigator.serviceWorker?.register(new URL("keeper.js", import.meta.url));
worker.addEventListener("message", keep, { once: true });
