import assert from "node:assert/strict";
import { test } from "node:test";
import { startByHand, stop, typed } from "../../crates/plan-sheet/templates/page/clocks.js";
import { goAt, stageRuns, startCountdown } from "../../crates/plan-sheet/templates/page/timetable.js";
import { screenOf } from "../../crates/plan-sheet/templates/page/screen.js";
import { NOW, alone, beat, deskOf, sessionsOf, untimed, waves } from "./made.mjs";

const start = (desk, at) => startCountdown(stageRuns(screenOf(desk, at).run.block), at);

test("the button starts, counts, stops, undoes and starts again", () => {
  const desk = deskOf(alone());
  const kinds = [];
  const look = (at) => kinds.push(screenOf(desk, at).kind);
  look(NOW);
  start(desk, NOW);
  look(NOW + 1_000);
  beat(desk, NOW + 10_000);
  look(NOW + 10_000);
  const [first] = desk.session.runs;
  stop(desk, first, first.boxes, NOW + 44_200);
  look(NOW + 44_300);
  look(NOW + 53_000);
  assert.deepEqual(kinds, ["start", "count", "stop", "undo", "count"]);
  const screen = screenOf(desk, NOW + 53_000);
  assert.equal(screen.words, "Go in 1:22");
  assert.equal(screen.rep, "Rep 2 of 3");
  assert.equal(screen.ticker, "Rep 1: 34.2 (+0.2)");
  assert.equal(screen.times, "Times 1/3 runs");
});

test("undo gives way to a go that is near", () => {
  const desk = deskOf(waves());
  start(desk, NOW);
  beat(desk, NOW + 10_000);
  const [one] = desk.session.runs;
  stop(desk, one, one.boxes, NOW + 15_000);
  assert.equal(screenOf(desk, NOW + 16_000).kind, "count", "wave 2 goes in four seconds");
});

test("of two waves the one that should be in first has the names, the other a button of its own", () => {
  const desk = deskOf(waves());
  start(desk, NOW);
  beat(desk, NOW + 20_000);
  let screen = screenOf(desk, NOW + 30_000);
  assert.equal(screen.run.wave, 1);
  assert.deepEqual(screen.names.map(({ who, at, isOpen }) => [who, at, isOpen]), [["Ada", "lane 2", true], ["Bela", "lane 2", true]]);
  assert.deepEqual(screen.others.map(({ words }) => words), ["10.0 wave 2"]);
  stop(desk, screen.run, [screen.run.boxes[0]], NOW + 44_500);
  screen = screenOf(desk, NOW + 44_600);
  assert.deepEqual([screen.kind, screen.words], ["stop", "Stop the rest"]);
  assert.deepEqual([screen.names[0].at, screen.names[0].canUndo], ["34.5 (+0.5): undo", true]);
  assert.deepEqual([screen.names[1].isOpen, screen.names[1].canUndo], [true, false]);
  desk.focus = screen.others[0].run.id;
  assert.equal(screenOf(desk, NOW + 46_000).run.wave, 2);
});

test("while one runs the next go is told, and what it rests from", () => {
  const desk = deskOf(waves());
  start(desk, NOW);
  beat(desk, NOW + 10_000);
  assert.equal(screenOf(desk, NOW + 13_000).ticker, "Go in 7 s: wave 2");
  const lone = deskOf(alone());
  start(lone, NOW);
  beat(lone, NOW + 10_000);
  assert.equal(screenOf(lone, NOW + 11_000).ticker, "Rest 1:30 from your stop");
});

test("the page opens at the first block with runs, and ends after the last", () => {
  const desk = deskOf(untimed());
  assert.equal(screenOf(desk, NOW).run.block.number, 2);
  desk.session.kept.choices.block = "b1";
  assert.deepEqual([screenOf(desk, NOW).kind, screenOf(desk, NOW).what], ["done", "Lasts 15:00"]);
  desk.session.kept.done.b1 = true;
  assert.equal(screenOf(desk, NOW).kind, "start");
  for (const run of desk.session.runs) typed(run, run.boxes[0], "34.0", NOW);
  assert.equal(screenOf(desk, NOW).kind, "end");
});

/** The pages that the program made, one path a line. */
const pages = (process.env.TOELINE_PAGES ?? "").split("\n").filter((path) => path !== "");

/** Goes through a session as one with a single thumb does, and gives the moment at which all are in. */
function runThrough(desk) {
  let at = NOW;
  for (let step = 0; step < 20_000; step += 1) {
    beat(desk, at);
    const screen = screenOf(desk, at);
    assert.ok(screen.words !== "" && screen.rep !== "", "there is always something to read");
    if (screen.run !== null) {
      assert.ok(screen.ends.length >= 2 && screen.picture !== null, `${screen.rep}: where to stand and where to finish`);
      assert.ok(screen.run.boxes.length < 2 || screen.names.length === screen.run.boxes.length);
      assert.ok(screen.names.length <= screen.places, "each name has its place");
    }
    if (screen.kind === "end") return at;
    if (screen.kind === "start") start(desk, at);
    if (screen.kind === "pass") startByHand(desk, screen.run, at + 5_000);
    if (screen.kind === "done") desk.session.kept.done[screen.block.id] = true;
    if (screen.kind === "stop") {
      const { run } = screen;
      const clock = desk.session.kept.clocks[run.id];
      const aims = run.boxes.map(({ target }) => (target === null ? 20_000 : target[1] * 1000));
      const inAt = clock.start + Math.max(...aims) + 300;
      const next = Math.min(...desk.session.runs.map((one) => goAt(one) ?? Infinity));
      // Others go while these run.
      if (next < inAt && next > at) at = next;
      else {
        at = Math.max(at, inAt);
        stop(desk, run, run.boxes, at);
      }
      continue;
    }
    const go = Math.min(...desk.session.runs.map((one) => goAt(one) ?? Infinity));
    at = Number.isFinite(go) ? Math.max(at + 100, go) : at + 9_000;
  }
  throw new Error("it never ends");
}

test("every session is timed to its end", { skip: pages.length === 0 ? "no page was given" : false }, () => {
  for (const path of pages) {
    for (const data of sessionsOf(path)) {
      for (const rest of ["finish", "timetable"]) {
        const desk = deskOf(data);
        desk.session.kept.choices.rest = rest;
        runThrough(desk);
        for (const run of desk.session.runs) {
          for (const box of run.boxes) {
            assert.notEqual(desk.session.kept.times[box.id], undefined, `${path}, ${data.title}, ${rest}: ${run.title}, ${box.who}`);
          }
        }
      }
    }
  }
});
