// The planner begins in its worker before the page is read; the carrier takes it over, and hears of a failure before that.
self.planner = new Worker("worker.js", { type: "module" });
self.plannerFailed = new Promise((resolve) => self.planner.addEventListener("error", resolve, { once: true }));
