// The planner begins in its worker before the page is read; the carrier takes it over.
self.planner = new Worker("worker.js", { type: "module" });
