// How long a person waits for the published page: node speed.mjs FOLDER [SLOWED], on a machine that does nothing else.
// The processor is slowed for the page; browsers cannot slow the worker in which the planner runs.
import { readFile } from "node:fs/promises";
import { PHONE, start } from "./browsers.mjs";
import { serveFolder } from "./folder.mjs";

const [folder, slowed = "4"] = process.argv.slice(2);
const rate = Number(slowed);
const site = await serveFolder(folder);
const browser = await start("chrome");

const evening = JSON.parse(await readFile(new URL("evening-of-22.json", import.meta.url), "utf8"));

const median = (times) => times.sort((a, b) => a - b)[Math.floor(times.length / 2)];

/** Opens the page as a first visit does, on a slowed processor. */
async function opened() {
  const context = await browser.createBrowserContext();
  const page = await context.newPage();
  await page.setViewport(PHONE);
  await page.emulateCPUThrottling(rate);
  await page.evaluateOnNewDocument(() => {
    new MutationObserver(() => {
      window.answeredAt ??= document.documentElement?.dataset.planned === undefined ? undefined : performance.now();
    }).observe(document, { attributes: true, subtree: true, attributeFilter: ["data-planned"] });
  });
  await page.goto(site.url);
  await page.waitForFunction(() => window.answeredAt !== undefined, { timeout: 30_000 });
  return page;
}

const seen = [];
const answered = [];
for (let n = 0; n < 5; n += 1) {
  const page = await opened();
  answered.push(await page.evaluate(() => window.answeredAt));
  seen.push(await page.evaluate(() => performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? NaN));
  await page.browserContext().close();
}
console.log(`opened: a plan is read after ${Math.round(median(seen))} ms, the planner has answered after ${Math.round(median(answered))} ms`);

const page = await opened();
/** From a key press to the plan in the page, several times. */
async function typed(what, text, squad) {
  const times = await page.evaluate(
    async (text, squad) => {
      const done = () =>
        new Promise((resolve) => {
          const look = new MutationObserver(() => {
            if (document.documentElement.hasAttribute("data-busy")) return;
            look.disconnect();
            resolve(performance.now());
          });
          look.observe(document.documentElement, { attributes: true, attributeFilter: ["data-planned"] });
        });
      const write = (id, value) => {
        const box = document.getElementById(id);
        box.value = value;
        const end = done();
        const from = performance.now();
        box.dispatchEvent(new InputEvent("input", { bubbles: true }));
        return end.then((to) => to - from);
      };
      if (squad !== "") await write("squad", squad);
      const times = [];
      for (let n = 0; n < 12; n += 1) times.push(await write("text", n % 2 ? `${text}\nCool down 5 min` : text));
      return times;
    },
    text,
    squad,
  );
  console.log(`${what}: first ${Math.round(times[0])} ms, then ${Math.round(median(times.slice(1)))} ms`);
}
await typed("key press, 6 x 200 in lane 2", "6 x 200 in lane 2", "");
await typed("key press, an evening of 22 athletes", evening.text, evening.squad);
await browser.close();
site.stop();
