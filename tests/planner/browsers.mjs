// The browsers and the sizes in which the page is used.
import { readFile } from "node:fs/promises";
import puppeteer from "puppeteer-core";

const axe = await readFile(new URL("../vendor/axe.min.js", import.meta.url), "utf8");

export const PHONE = { width: 390, height: 844, deviceScaleFactor: 2 };
export const LAPTOP = { width: 1280, height: 800 };

/** Starts a browser by its name: `chrome` by its own protocol, `firefox` by WebDriver BiDi. */
export function start(name) {
  const executablePath = name === "firefox" ? "/usr/bin/firefox-esr" : "/usr/bin/chromium";
  const args = name === "firefox" ? [] : ["--no-sandbox"];
  return puppeteer.launch({ browser: name, executablePath, args, headless: true });
}

/** Opens the planner as nobody has used it before, and waits until it has planned. */
export async function open(browser, url, size) {
  const context = await browser.createBrowserContext();
  const page = await context.newPage();
  page.faults = [];
  page.on("pageerror", (error) => page.faults.push(error.message));
  await page.setViewport(size);
  await page.goto(url);
  await planned(page, 0);
  return page;
}

/** How often the page has planned. */
export const count = (page) => page.evaluate(() => Number(document.documentElement.dataset.planned ?? 0));

/** Waits until the page has planned more often. */
export async function planned(page, before) {
  await page.waitForFunction(
    (before) => Number(document.documentElement.dataset.planned ?? 0) > before && !document.documentElement.hasAttribute("data-busy"),
    { timeout: 20_000 },
    before,
  );
}

/** Does something and waits for the plan that it asks for. */
export async function andPlan(page, act) {
  const before = await count(page);
  await act();
  await planned(page, before);
}

/** Writes a text into a box in the place of what stands there. */
export async function write(page, selector, text) {
  await andPlan(page, async () => {
    await page.focus(selector);
    await page.$eval(selector, (box) => box.select());
    await page.keyboard.press("Backspace");
    await page.type(selector, text);
  });
  await page.waitForFunction((selector, text) => document.querySelector(selector).value === text, {}, selector, text);
}

export const text = (page, selector) => page.$eval(selector, (element) => element.innerText);

/** What the checker of accessibility has to say of the page as it is now. */
export async function violations(page) {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    const { violations } = await window.axe.run(document, { runOnly: tags });
    return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(" | ")}`);
  });
}
