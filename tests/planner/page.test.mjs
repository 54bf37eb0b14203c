// The planner's page, used as people use it, whoever carries its requests. TOELINE_SERVED is the address of the program
// that serves it, TOELINE_FOLDER the folder that was published, TOELINE_BROWSERS the browsers.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { LAPTOP, PHONE, andPlan, open, planned, start, text, violations, write } from "./browsers.mjs";
import { serveFolder } from "./folder.mjs";

const published = process.env.TOELINE_FOLDER ? await serveFolder(process.env.TOELINE_FOLDER) : null;
const carriers = { served: process.env.TOELINE_SERVED, published: published?.url };
after(() => published?.stop());
const browsers = (process.env.TOELINE_BROWSERS ?? "chrome,firefox").split(",");

const EVENING = "Tuesday 18:00-19:30\nSprinters:\n4 x 60, walk back\n\nMilers:\n3 x 400, 2 min rest";
const SQUAD = "Sprinters:\nKit, 60 7.9\nLou, 60 8.1\n\nMilers:\nMax, 800 2:10\nAda, 800 2:21";

for (const [carrier, url] of Object.entries(carriers).filter(([, url]) => url)) {
  for (const name of browsers) {
    for (const [size, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
      describe(`${carrier}, ${name}, ${size}`, () => {
        let browser;
        before(async () => {
          browser = await start(name);
        });
        after(() => browser.close());

        const using = (what, act) =>
          test(what, async () => {
            const page = await open(browser, url, viewport);
            try {
              await act(page);
              assert.deepEqual(page.faults, []);
            } finally {
              await page.browserContext().close();
            }
          });

        using("a first visit shows a plan", async (page) => {
          assert.match(await text(page, "#places"), /on the 200 m start line/);
          assert.match(await text(page, ".brand"), /where each run starts and finishes/);
        });

        using("an evening is typed, lane 1 is closed, lane 2's places are read", async (page) => {
          await andPlan(page, () => page.click('.lane[data-lane="1"]'));
          await write(page, "#text", "6 x 200, 3 min rest");
          assert.match(await text(page, "#places"), /200 m, lane 1/);
          await andPlan(page, () => page.click('.lane[data-lane="1"]'));
          assert.match(await text(page, "#places"), /200 m, lane 2/);
          assert.match(await text(page, "#places"), /on the 200 m start line/);
        });

        using("an error stands under its word", async (page) => {
          await write(page, "#text", "warm-up 10 min\n6 x 20000 in lane 2");
          await page.waitForSelector("#text-problems li");
          const found = await page.evaluate(() => {
            const mark = document.querySelector("#mirror mark");
            const [word, box] = [mark.getBoundingClientRect(), document.getElementById("text").getBoundingClientRect()];
            return { word: mark.textContent, top: word.top - box.top, left: word.left - box.left, width: word.width };
          });
          assert.equal(found.word, "20000");
          assert.ok(found.top > 25 && found.left > 20 && found.width > 20, JSON.stringify(found));
          assert.match(await text(page, "#text-problems"), /Line 2[^]*20000[^]*out of range/);
          await page.click("#text-problems button");
          const selected = await page.$eval("#text", (box) => box.value.slice(box.selectionStart, box.selectionEnd));
          assert.equal(selected, "20000");
          await write(page, "#text", "6 x 200 in lane 2");
          assert.equal(await page.$("#text-problems li"), null);
        });

        using("groups, an athlete missing and a lane shut late", async (page) => {
          await write(page, "#text", EVENING);
          await page.evaluate(() => {
            document.getElementById("squad-fold").open = true;
          });
          await write(page, "#squad", SQUAD);
          assert.match(await text(page, "#places"), /Kit: lane/);
          await page.click("#late-fold > summary");
          await andPlan(page, () => page.click('#late .absent[data-name="Kit"]'));
          assert.match(await text(page, "#head"), /without Kit/);
          assert.doesNotMatch(await text(page, "#places"), /Kit: lane/);
          await andPlan(page, () => page.click('.shut[data-lane="4"]'));
          assert.match(await text(page, "#head"), /lane 4/);
          const { name, most } = await page.$eval("#late .fewer-row", (row) => ({
            name: [...row.querySelectorAll("option")].find((option) => !["", "Kit"].includes(option.value)).value,
            most: row.querySelector(".fewer-reps").max,
          }));
          await page.select("#late .fewer-name", name);
          await andPlan(page, () =>
            page.$eval("#late .fewer-reps", (box, most) => {
              box.value = most;
              box.dispatchEvent(new Event("change", { bubbles: true }));
            }, most),
          );
          assert.ok((await text(page, "#head")).includes(name), name);
          await andPlan(page, () => page.click(`#late .fewer[data-fewer="${name}"]`));
          assert.ok(!(await text(page, "#head")).includes(name), name);
          await andPlan(page, () => page.click("#no-changes"));
          assert.match(await text(page, "#places"), /Kit: lane/);
        });

        using("a repetition that is tapped is drawn, and another place is kept", async (page) => {
          await page.click(".show-run");
          assert.match(await text(page, ".drawn"), /on the 200 m start line[^]*STAND/);
          await page.click(".choices > summary");
          await page.waitForSelector(".offer[data-from]:not([data-from='200 m start'])");
          await andPlan(page, () => page.click(".offer[data-from]:not([data-from='200 m start'])"));
          assert.doesNotMatch(await text(page, "#places .end"), /on the 200 m start line/);
        });

        using("a link that is opened again gives the same plan", async (page) => {
          await write(page, "#text", EVENING);
          await page.click("#send");
          await page.click("#link");
          await page.waitForSelector("#linked:not([hidden])");
          const address = await page.$eval("#address", (box) => box.value);
          assert.ok(await page.$("#code svg"));
          const places = await text(page, "#places");
          const other = await open(browser, address, viewport);
          assert.equal(await text(other, "#places"), places);
          assert.equal(await other.$eval("#text", (box) => box.value), EVENING);
          await other.browserContext().close();
        });

        using("what is kept is there after a reload, and so is the draft", async (page) => {
          await write(page, "#text", "5 x 300 in lane 3");
          await page.click("#send");
          await page.type("#keep-name", "Fives");
          await page.click("#keep");
          await write(page, "#text", "4 x 100 in lane 4");
          await page.reload();
          await planned(page, 0);
          assert.match(await text(page, "#places"), /100 m, lane 4/);
          await page.click('.views [data-view="shelf"]');
          await andPlan(page, () => page.click("#kept .open-kept"));
          assert.match(await text(page, "#places"), /300 m, lane 3/);
        });

        using("the page runs on the phone, with its clock", async (page) => {
          await page.click("#run");
          await page.waitForSelector("#go");
          await page.click("#go");
          await page.waitForFunction(() => document.getElementById("ticker").textContent !== "", { timeout: 15_000 });
          assert.match(await text(page, "#head"), /200 m/);
        });

        // On a phone a lane is three pixels wide until the page is made larger.
        if (size === "laptop") {
          using("two marks are tapped, and how far it was is read", async (page) => {
            await page.click('.views [data-view="lines"]');
            await page.waitForSelector("#line-map svg");
            const marks = await page.evaluate(async () => {
              const { ask } = await import(new URL("desk.js", location.href.replace(/#.*/, "")));
              const { body } = await ask("marks", { lane: 4 });
              const svg = document.querySelector("#line-map svg");
              const on = (name) => {
                const { x_m, y_m } = body.marks.find(({ mark }) => mark === name);
                const { x, y } = new DOMPoint(x_m, -y_m).matrixTransform(svg.getScreenCTM());
                return { x: x + scrollX, y: y + scrollY };
              };
              return { start: on("200 m start"), finish: on("finish line") };
            });
            const tap = async ({ x, y }) => {
              const scroll = await page.evaluate((y) => {
                scrollTo(0, y - innerHeight / 2);
                return scrollY;
              }, y);
              await page.mouse.click(x, y - scroll);
            };
            await tap(marks.start);
            await page.waitForFunction(() => /200 m start/.test(document.getElementById("line-answer").textContent));
            assert.match(await text(page, "#line-answer"), /Lane 4[^]*200/);
            await tap(marks.finish);
            await page.waitForFunction(() => document.getElementById("far-from").value === "200 m start");
            assert.match(await text(page, "#far-answer"), /200\.00 m/);
            await page.type("#far-time", "31.4");
            await page.keyboard.press("Tab");
            await page.waitForFunction(() => /2:37/.test(document.getElementById("far-answer").textContent));
          });

          using("a track of one's own is drawn, and the evening is planned on it", async (page) => {
            await page.click('.views [data-view="ground"]');
            await page.waitForSelector("#ground-form");
            await page.waitForSelector("#ground-map svg");
            const lanes = 'input[name="lanes"]';
            await page.$eval(lanes, (box) => box.select());
            await page.type(lanes, "6");
            await andPlan(page, () => page.click("#ground-use"));
            await write(page, "#text", "4 x 200 in lane 7");
            assert.match(await text(page, "#text-problems"), /lane/);
            await write(page, "#text", "4 x 200 in lane 6");
            assert.match(await text(page, "#places"), /200 m, lane 6/);
          });
        }

        if (carrier === "served" && name === "chrome") {
          using("a PDF is a PDF", async (page) => {
            await page.click("#send");
            const client = await page.createCDPSession();
            await client.send("Browser.setDownloadBehavior", { behavior: "deny" });
            const reply = page.waitForResponse((reply) => reply.url().endsWith("/api/file"));
            await page.click('.file[data-ending="pdf"]');
            const found = await reply;
            assert.equal(found.headers()["content-type"], "application/pdf");
            const again = await page.evaluate(async () => {
              const request = { evening: { text: "6 x 200" }, ending: "pdf" };
              const headers = { "Content-Type": "application/json" };
              const reply = await fetch("api/file", { method: "POST", headers, body: JSON.stringify(request) });
              return (await reply.text()).slice(0, 4);
            });
            assert.equal(again, "%PDF");
          });
        }

        if (name === "chrome") {
          using("nothing is wrong for those who cannot see or use a mouse", async (page) => {
            const states = {
              first: () => {},
              problems: () => write(page, "#text", "6 x 20000"),
              evening: () => write(page, "#text", EVENING),
              open: async () => {
                await page.click("#send");
                await page.click("#link");
                await page.waitForSelector("#linked:not([hidden])");
                for (const fold of ["squad-fold", "late-fold"]) {
                  await page.$eval(`#${fold}`, (element) => {
                    element.open = true;
                  });
                }
                await page.click(".show-run");
              },
              lines: () => page.click('.views [data-view="lines"]'),
              ground: () => page.click('.views [data-view="ground"]'),
              shelf: () => page.click('.views [data-view="shelf"]'),
            };
            for (const dark of ["light", "dark"]) {
              await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: dark }]);
              for (const [state, make] of Object.entries(states)) {
                if (dark === "dark" && state === "open") continue;
                await make();
                await new Promise((resolve) => setTimeout(resolve, 300));
                assert.deepEqual(await violations(page), [], `${state}, ${dark}`);
              }
              await page.click('.views [data-view="evening"]');
            }
          });

          using("nothing is cut off, with letters twice as large and on the smallest phone", async (page) => {
            await write(page, "#text", EVENING);
            for (const [width, letters] of [[320, "100%"], [390, "200%"], [1280, "200%"]]) {
              await page.setViewport({ ...viewport, width });
              await page.evaluate((letters) => {
                document.documentElement.style.fontSize = letters;
              }, letters);
              for (const view of ["evening", "lines", "ground", "shelf"]) {
                await page.click(`.views [data-view="${view}"]`);
                const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
                assert.ok(wide <= 0, `${view} at ${width} px, ${letters}: ${wide} px too wide`);
              }
            }
          });

          using("nothing moves while the page opens", async (page) => {
            const shift = await page.evaluate(
              () =>
                new Promise((resolve) => {
                  let sum = 0;
                  new PerformanceObserver((list) => {
                    for (const entry of list.getEntries()) if (!entry.hadRecentInput) sum += entry.value;
                  }).observe({ type: "layout-shift", buffered: true });
                  setTimeout(() => resolve(sum), 500);
                }),
            );
            assert.ok(shift < 0.01, String(shift));
          });

          using("lanes that an own track lacks are not offered", async (page) => {
            const text = "name: Own\npath: [{ radius: 36.5, turn: 180 }, { straight: 84.39 }, { radius: 36.5, turn: 180 }, { straight: 84.39 }]\nlanes: 6\nlane_width: 1.22\n";
            await andPlan(page, () =>
              page.evaluate(async (text) => {
                const { change, current } = await import("./evening.js");
                change({ ground: { ...current().ground, track_file: { name: "own.yaml", text } } });
              }, text),
            );
            const offered = await page.$$eval(".lane:not([hidden])", (lanes) => lanes.map(({ dataset }) => dataset.lane));
            assert.deepEqual(offered, ["1", "2", "3", "4", "5", "6"]);
          });

          if (carrier === "served") {
            using("a session of the folder is opened on its track", async (page) => {
              await page.click('.views [data-view="shelf"]');
              await page.waitForSelector("#folder-files button");
              await andPlan(page, () =>
                page.$$eval("#folder-files button", (files) => files.find(({ textContent }) => textContent === "tuesday-sprints.yaml").click()),
              );
              await page.waitForFunction(() => document.querySelector("#head").innerText.includes("Wrenbeck sprinters"));
              assert.match(await text(page, "#head"), /lane 1 closed/);
            });
          }

          using("the keyboard does everything", async (page) => {
            await page.focus("#text");
            await page.keyboard.down("Control");
            await page.keyboard.press("a");
            await page.keyboard.up("Control");
            await andPlan(page, () => page.keyboard.type("4 x 150"));
            const focused = () => page.evaluate(() => document.activeElement.dataset.lane);
            for (let tabs = 0; tabs < 20 && (await focused()) !== "2"; tabs += 1) await page.keyboard.press("Tab");
            await andPlan(page, () => page.keyboard.press("Space"));
            assert.equal(await page.$eval('.lane[data-lane="2"]', (lane) => lane.getAttribute("aria-pressed")), "true");
            assert.equal(await focused(), "2", "the focus stays");
          });
        }

        if (carrier === "published" && name === "chrome") {
          using("without a network the page opens again, plans and times", async (page) => {
            await page.waitForFunction(() => navigator.serviceWorker.ready.then(() => true));
            await page.waitForFunction(async () => (await caches.keys()).length > 0);
            await page.reload();
            await planned(page, 0);
            await page.setOfflineMode(true);
            await page.goto(url);
            await planned(page, 0);
            await write(page, "#text", "3 x 400 in lane 2, 2 min rest");
            assert.match(await text(page, "#places"), /on the 400 m start line/);
            await page.click("#run");
            await page.waitForSelector("#go");
            await page.click("#go");
            await page.waitForFunction(() => document.getElementById("ticker").textContent !== "", { timeout: 15_000 });
            assert.match(await text(page, "#head"), /400 m/);
          });
        }
      });
    }
  }
}

if (published !== null) {
  for (const name of browsers) {
    describe(`a broken folder, ${name}`, () => {
      let browser;
      before(async () => {
        browser = await start(name);
      });
      after(() => browser.close());
      for (const missing of ["worker.js", "engine.js", "engine.wasm"]) {
        test(`without ${missing} the page says that it does not plan`, async () => {
          const folder = await serveFolder(process.env.TOELINE_FOLDER, missing);
          const page = await browser.newPage();
          try {
            await page.goto(folder.url);
            await page.waitForFunction(() => /does not answer/.test(document.body.innerText), { timeout: 20_000 });
            assert.equal(await page.evaluate(() => "busy" in document.documentElement.dataset), false);
          } finally {
            await page.close();
            folder.stop();
          }
        });
      }
    });
  }
}
