// Sessions for tests: small ones written here, and those of pages that the program made.
import { readFileSync } from "node:fs";
import { endCountdown, goAt } from "../../crates/plan-sheet/templates/page/timetable.js";
import { letGo } from "../../crates/plan-sheet/templates/page/clocks.js";
import { sessionModel } from "../../crates/plan-sheet/templates/page/model.js";

/** What a browser keeps. */
export class Storage {
  constructor(items = {}) {
    this.items = new Map(Object.entries(items));
  }
  getItem(key) {
    return this.items.get(key) ?? null;
  }
  setItem(key, value) {
    this.items.set(key, String(value));
  }
  removeItem(key) {
    this.items.delete(key);
  }
}

/** A moment, in milliseconds. */
export const NOW = Date.UTC(2027, 3, 13, 17, 0, 0);

const run = (rep, { wave = 1, go = null, done = null, rest = null, names = [""], target = null, runIn = null, of = 3, waves = 1 } = {}) => ({
  name: `Rep ${rep} of ${of}${waves > 1 ? `, wave ${wave}` : ""}`,
  set: 1,
  rep,
  wave,
  metres: 200,
  go: null,
  go_s: go,
  done_s: done,
  run_in_s: runIn,
  rest_s: rest,
  scene: 0,
  passes: 0,
  lanes: [[2, 0, "", names.map((_, index) => [index, target, target])]],
});

const block = (number, runs, more = {}) => ({
  id: `b${number}`,
  number,
  heading: `Block ${number}: runs`,
  head: "runs",
  reading: "runs",
  group: null,
  lasts: null,
  stage: number - 1,
  names: 0,
  overlaps: false,
  warning: null,
  cells: [String(number), "runs", ""],
  runs,
  ...more,
});

const session = (blocks, people, more = {}) => ({
  id: "s1",
  key: "key",
  old_key: "old",
  title: "Evening",
  day: "2027-04-13",
  beside: "",
  file: "times",
  note: "note",
  is_alone: people.length === 1,
  cells: ["Evening", "2027-04-13", "standard"],
  track: { height: "190", surfaces: [], places: "" },
  blocks,
  scenes: [{ what: "200 m", ends: [["Stand", "there"], ["Finish", "here"]], picture: null }],
  places: [["200", "", "", "there", "", "here", ""]],
  people: people.map((name) => [name === "" ? "lane 2" : name, name]),
  passes: [[]],
  ...more,
});

/** Three runs of 200 m in 34 s with 90 s rest, for one who runs alone. */
export const alone = (more = {}) =>
  session([block(1, [0, 1, 2].map((at) => run(at + 1, { go: at * 124, done: at * 124 + 34, rest: at < 2 ? 90 : null, target: 34, ...more })))], [""]);

/** Two runs of two waves of two, the second wave 10 s after the first. */
export const waves = () => {
  const names = ["Ada", "Bela"];
  const of = (rep, wave, go) => run(rep, { wave, go, done: go + 34, rest: rep < 2 ? 86 : null, names, target: 34, of: 2, waves: 2 });
  return session([block(1, [of(1, 1, 0), of(1, 2, 10), of(2, 1, 120), of(2, 2, 130)], { names: 2, overlaps: true })], names);
};

/** A warm-up, then three runs without a timetable. */
export const untimed = () =>
  session([block(1, [], { lasts: "15:00" }), block(2, [1, 2, 3].map((rep) => run(rep, { rest: rep < 3 ? 90 : null })))], [""]);

/** The sessions of a page that the program made. */
export function sessionsOf(path) {
  const page = readFileSync(path, "utf8");
  const data = page.split('id="data">')[1].split("</script>")[0];
  return JSON.parse(data).sessions;
}

/** A desk with one session at work. */
export function deskOf(data, storage = new Storage()) {
  const model = sessionModel(data, storage);
  return { sessions: [model], session: model, focus: null, undo: [] };
}

/** Lets go what is due, as the page does ten times a second. */
export function beat(desk, at) {
  for (const one of desk.session.runs) {
    const go = goAt(one);
    if (go !== null && go <= at) letGo(one, go, at);
  }
  desk.session.blocks.forEach(endCountdown);
}
