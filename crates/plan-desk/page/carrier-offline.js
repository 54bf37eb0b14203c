// The planner runs beside this page, in a worker; no request leaves the device.
export const isServed = false;

const worker = self.planner;
const failed = self.plannerFailed.then(() => {
  throw new Error("worker");
});
const waiting = new Map();
let last = 0;

worker.addEventListener("message", ({ data: { id, status, type, body } }) => {
  waiting.get(id)({ status, type, blob: new Blob([body], { type }) });
  waiting.delete(id);
});

/** Carries a request to the worker. */
export function carry(operation, body) {
  last += 1;
  const id = last;
  const replied = new Promise((resolve) => {
    waiting.set(id, resolve);
    worker.postMessage({ id, operation, body });
  });
  return Promise.race([replied, failed]);
}

// The page is kept once it has answered, so that nothing is fetched twice while somebody waits.
const keep = () => navigator.serviceWorker?.register(new URL("keeper.js", import.meta.url));
worker.addEventListener("message", keep, { once: true });
