// The program that serves the page and the planner in a browser give the same bytes. TOELINE_SERVED is the address of the
// one, TOELINE_FOLDER the folder that was published with the other.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import { evening, line, numbers, one } from "./evenings.mjs";

const { TOELINE_SERVED: served, TOELINE_FOLDER: folder } = process.env;
const REQUESTS = 500;

function request(pick) {
  const asked = evening(pick);
  const { ground } = asked;
  switch (pick(8)) {
    case 0:
      return ["file", { evening: asked, ending: one(pick, ["html", "svg", "csv", "ics", "md", "yaml", "json", "txt", "pdf", "docx"]) }];
    case 1:
      return ["places", { evening: asked, block: 1 + pick(3) }];
    case 2:
      return ["link", { evening: asked, page: "https://example.org/" }];
    case 3:
      return one(pick, [
        ["lanes", { ground }],
        ["marks", { ground, lane: 1 + pick(9) }],
        ["spots", { ground, text: line(pick) }],
        ["measure", { ground, lane: 1 + pick(8), from: "400 m start", to: "finish line" }],
        ["plan", { text: 3 }],
      ]);
    default:
      return ["plan", asked];
  }
}

test("the served and the offline answers are the same bytes", { skip: !served || !folder }, async () => {
  const engine = await import(pathToFileURL(join(folder, "engine.js")));
  await engine.default({ module_or_path: await readFile(join(folder, "engine.wasm")) });
  const pick = numbers(20_270_413);
  const statuses = new Map();
  for (let compared = 0; compared < REQUESTS; ) {
    const [operation, asked] = request(pick);
    const body = JSON.stringify(asked);
    // Only the program that has typesetting can print, and only on a terminal are tables wanted.
    if (["pdf", "txt"].includes(asked.ending)) continue;
    compared += 1;
    const reply = await fetch(new URL(`api/${operation}`, served), {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body,
    });
    const answer = engine.answer(operation, body);
    const { status, contentType } = answer;
    assert.equal(status, reply.status, body);
    assert.equal(contentType, reply.headers.get("Content-Type"), body);
    assert.deepEqual(Buffer.from(answer.intoBody()), Buffer.from(await reply.arrayBuffer()), body);
    statuses.set(status, 1 + (statuses.get(status) ?? 0));
  }
  console.log(Object.fromEntries(statuses));
  assert.ok(statuses.get(200) > REQUESTS / 2, "most of the requests can be answered");
});
