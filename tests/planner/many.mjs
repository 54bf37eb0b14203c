// Evenings that look random, planned, drawn, saved and run on the published page at the size of a phone:
// node many.mjs FOLDER [COUNT]. It says what a page must not show, and ends with 1 where there is any.
import { PHONE, andPlan, open, start } from "./browsers.mjs";
import { evening, numbers } from "./evenings.mjs";
import { serveFolder } from "./folder.mjs";

const [folder, count = "1000"] = process.argv.slice(2);
const RUN_EVERY = 20;
const site = await serveFolder(folder);
const browser = await start("chrome");
const pick = numbers(20_261_127);
const found = [];
let planned = 0;
let ran = 0;

/** What is wrong with a page, whatever it shows. */
const poor = (page) =>
  page.evaluate(() => {
    const wrong = [];
    const { scrollWidth, clientWidth } = document.documentElement;
    if (scrollWidth > clientWidth) wrong.push(`${scrollWidth - clientWidth} px wider than the screen`);
    const word = document.body.innerText.match(/\b(undefined|NaN|null|Infinity|object Object)\b/);
    if (word !== null) wrong.push(`says ${word[0]}`);
    return wrong;
  });

/** Draws the first run of each block and makes every file. */
const used = (page) =>
  page.evaluate(async () => {
    const [{ ask }, { current }] = await Promise.all([import("./desk.js"), import("./evening.js")]);
    const wrong = [];
    if (!document.getElementById("old").hidden) return { wrong, isPlanned: false };
    for (const section of document.querySelectorAll("#places .block")) {
      section.querySelector(".show-run")?.click();
      const details = section.querySelector(".choices");
      if (details !== null) details.open = true;
    }
    const now_s = 1_800_000_000;
    for (const ending of ["html", "svg", "csv", "ics", "yaml", "json"]) {
      const { status, body } = await ask("file", { evening: current(), ending, now_s });
      const text = await body.text();
      // A calendar needs a day, and a map a place to draw.
      const mayRefuse = status === 422 && (ending === "ics" || ending === "svg" || ending === "yaml");
      if (status !== 200 && !mayRefuse) wrong.push(`${ending}: ${status} ${text.slice(0, 300)}`);
      if (ending === "yaml" && status === 200) {
        const again = await ask("plan", { ...current(), squad: "", choices: [], text, late: undefined, ground: undefined });
        if (again.status !== 200) wrong.push(`yaml: ${again.status}`);
      }
    }
    return { wrong, isPlanned: true };
  });

/** Runs the first run on the page of a run. */
async function run(page) {
  const phone = await page.browserContext().newPage();
  const faults = [];
  phone.on("pageerror", (error) => faults.push(error.message));
  await phone.setViewport(PHONE);
  await page.evaluate(async () => {
    const { current } = await import("./evening.js");
    localStorage.setItem("toeline.run", JSON.stringify(current()));
  });
  await phone.goto(new URL("run.html", site.url));
  await phone.waitForFunction(() => document.body.innerText.length > 50);
  const wrong = [...(await poor(phone)), ...faults];
  await phone.close();
  return wrong;
}

const page = await open(browser, site.url, PHONE);
for (let number = 0; number < Number(count); number += 1) {
  const asked = evening(pick);
  const say = (wrong) => wrong.forEach((one) => found.push(`${number}: ${one}\n${JSON.stringify(asked)}`));
  await andPlan(page, () =>
    page.evaluate(async (asked) => {
      const { change, wholeEvening } = await import("./evening.js");
      change(wholeEvening(asked));
    }, asked),
  );
  const { wrong, isPlanned } = await used(page);
  say(wrong);
  say(await poor(page));
  if (isPlanned) {
    planned += 1;
    if (planned % RUN_EVERY === 0) {
      say(await run(page));
      ran += 1;
    }
  }
  say(page.faults.splice(0));
}
console.log(`${count} evenings: ${planned} planned, drawn and saved, ${ran} run, ${found.length} faults`);
for (const one of found.slice(0, 20)) console.log(one);
await browser.close();
site.stop();
process.exit(found.length === 0 ? 0 : 1);
