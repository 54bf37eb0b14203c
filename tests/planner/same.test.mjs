// The program that serves the page and the planner in a browser give the same bytes. TOELINE_SERVED is the address of the
// one, TOELINE_FOLDER the folder that was published with the other.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";

const { TOELINE_SERVED: served, TOELINE_FOLDER: folder } = process.env;
const REQUESTS = 500;

/** Numbers that look random and are the same in each run (Park and Miller, 1988). */
function numbers(seed) {
  let state = seed;
  return (below) => {
    state = (state * 48271) % 2147483647;
    return state % below;
  };
}

const COUNTS = [1, 2, 3, 4, 6, 8, 10];
const RUNS = ["60", "80", "100", "120", "150", "200", "250", "300", "400", "600", "800", "1000", "flying 30", "1 lap", "2 oo", "110 hurdles"];
const WHERE = ["", " in lane 2", " in lanes 2-5", " in lane 9", " on the back straight", " from the 400 m start"];
const RESTS = ["", ", 90 s", ", 3 min rest", ", walk back", ", jog 200", " @ 34, 3 min", " @ 85%"];
const TRACKS = ["standard", "standard-6", "double-bend-1", "indoor-200", "oval-300", "yards-440", "moon"];
const NAMES = ["Ada", "Ben", "Cyd", "Dot", "Eli", "Fay", "Gus", "Élan", "<b>Kit</b>", "Max; 200"];

function request(pick) {
  const one = (list) => list[pick(list.length)];
  const line = () => `${one(COUNTS)} x ${one(RUNS)}${one(WHERE)}${one(RESTS)}`;
  const lines = (count) => Array.from({ length: count }, line);
  const hasGroups = pick(3) === 0;
  const text = hasGroups
    ? ["Tuesday 18:00-19:30", "warm-up 10 min", "Sprinters:", ...lines(2), "Milers:", ...lines(1 + pick(2))].join("\n")
    : lines(1 + pick(3)).join("\n");
  const people = NAMES.slice(0, pick(NAMES.length));
  const squad = hasGroups
    ? ["Sprinters:", ...people.slice(0, 3), "Milers:", ...people.slice(3)].join("\n")
    : people.map((name) => `${name}, 200 ${24 + pick(9)}.${pick(10)}`).join("\n");
  const evening = {
    text,
    squad: pick(2) === 0 ? squad : "",
    ground: { track: one(TRACKS), closed: pick(2) === 0 ? [1 + pick(8)] : [] },
    late: {
      start: pick(4) === 0 ? `18:${10 + pick(50)}` : null,
      without: pick(4) === 0 ? [one(NAMES)] : [],
      closed: pick(4) === 0 ? [1 + pick(9)] : [],
      wind: pick(5) === 0 ? "3 m/s against on the home straight" : null,
      skip: pick(5) === 0 ? [1 + pick(3)] : [],
    },
  };
  const { ground } = evening;
  switch (pick(8)) {
    case 0:
      return ["file", { evening, ending: one(["html", "svg", "csv", "ics", "md", "yaml", "json", "txt", "pdf", "docx"]) }];
    case 1:
      return ["places", { evening, block: 1 + pick(3) }];
    case 2:
      return ["link", { evening, page: "https://example.org/" }];
    case 3:
      return one([
        ["lanes", { ground }],
        ["marks", { ground, lane: 1 + pick(9) }],
        ["spots", { ground, text: line() }],
        ["measure", { ground, lane: 1 + pick(8), from: "400 m start", to: "finish line" }],
        ["plan", { text: 3 }],
      ]);
    default:
      return ["plan", evening];
  }
}

test("the served and the offline answers are the same bytes", { skip: !served || !folder }, async () => {
  const engine = await import(pathToFileURL(join(folder, "engine.js")));
  await engine.default({ module_or_path: await readFile(join(folder, "engine.wasm")) });
  const pick = numbers(20_270_413);
  const statuses = new Map();
  for (let number = 0; number < REQUESTS; number += 1) {
    const [operation, asked] = request(pick);
    const body = JSON.stringify(asked);
    // Only the program that has typesetting can print.
    if (asked.ending === "pdf") continue;
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
