import assert from "node:assert/strict";
import { test } from "node:test";
import { cancel, endWith, skip, startByHand, stop, typed, undo } from "../../crates/plan-sheet/templates/page/clocks.js";
import { clockOf, wordsIn } from "../../crates/plan-sheet/templates/page/model.js";
import { goAt, isHeld, moveGoes, nextRun, stageRuns, startCountdown, stopCountdown } from "../../crates/plan-sheet/templates/page/timetable.js";
import { NOW, alone, beat, deskOf, untimed, waves } from "./made.mjs";

/** A desk that counts down, and its runs. */
function counting(data, more = {}) {
  const desk = deskOf(data);
  Object.assign(desk.session.kept.choices, more);
  const runs = stageRuns(desk.session.blocks[desk.session.blocks.length - 1]);
  startCountdown(runs, NOW);
  return [desk, runs];
}

const words = (run) => run.boxes.map((box) => wordsIn(run, box));
/** Seconds from the first go. */
const after = (ms) => (ms === null ? null : (ms - NOW) / 1000 - 10);

test("the first go is ten seconds after the tap and starts its clock", () => {
  const [desk, [first]] = counting(alone());
  assert.equal(after(goAt(first)), 0);
  beat(desk, NOW + 9_999);
  assert.equal(clockOf(first), null);
  beat(desk, NOW + 10_070);
  assert.equal(clockOf(first).start, NOW + 10_000);
});

test("the rest counts from the finish of one who runs alone", () => {
  for (const [taken, goes] of [[34, 124], [44.5, 134.5], [30, 120]]) {
    const [desk, [first, second, third]] = counting(alone());
    beat(desk, NOW + 10_000);
    assert.equal(isHeld(second), true);
    assert.deepEqual([goAt(second), goAt(third)], [null, null], "nobody goes while the one before runs");
    stop(desk, first, first.boxes, NOW + 10_000 + taken * 1000);
    assert.equal(after(goAt(second)), goes);
    assert.equal(after(goAt(third)), goes + 124, "what follows moves");
  }
});

test("by the timetable a slow run eats its rest", () => {
  const [desk, [first, second]] = counting(alone(), { rest: "timetable" });
  beat(desk, NOW + 10_000);
  assert.equal(after(goAt(second)), 124);
  stop(desk, first, first.boxes, NOW + 60_000);
  assert.equal(after(goAt(second)), 124);
});

test("without a timetable the rest brings the next go all the same", () => {
  const [desk, [first, second]] = counting(untimed());
  beat(desk, NOW + 10_000);
  stop(desk, first, first.boxes, NOW + 50_000);
  assert.equal(goAt(second), NOW + 140_000);
  const undone = undo(desk, NOW + 52_000);
  assert.match(undone, /40\.0/);
  assert.equal(goAt(second), null);
  assert.equal(clockOf(first).start, NOW + 10_000);
});

test("of several waves goes are later after a slow one, and never earlier", () => {
  const [desk, [one, two, again]] = counting(waves(), { rest: "finish" });
  beat(desk, NOW + 20_000);
  assert.deepEqual([one, two].map((run) => clockOf(run).start - NOW), [10_000, 20_000]);
  stop(desk, one, one.boxes, NOW + 40_000);
  assert.equal(after(goAt(again)), 120, "four seconds fast");
  stop(desk, two, two.boxes, NOW + 64_000);
  // 44 s in place of 34: its rest of 86 s ends at 140, ten seconds late, for all.
  const last = desk.session.runs[3];
  assert.equal(after(goAt(last)), 140);
  assert.equal(after(goAt(again)), 130);
});

test("a stop is undone, with the rest that counted from it", () => {
  const [desk, [first, second]] = counting(alone());
  beat(desk, NOW + 10_000);
  stop(desk, first, first.boxes, NOW + 50_000);
  assert.deepEqual(words(first), ["40.0"]);
  undo(desk, NOW + 51_000);
  assert.deepEqual(words(first), [""]);
  assert.equal(clockOf(first).start, NOW + 10_000);
  stop(desk, first, first.boxes, NOW + 55_000);
  assert.equal(after(goAt(second)), 135);
  assert.equal(undo(desk, NOW + 55_000 + 60_000), null, "after a minute it stands");
});

test("a time typed over the one that was taken outlives an undo", () => {
  const [desk, [first]] = counting(alone());
  beat(desk, NOW + 10_000);
  stop(desk, first, first.boxes, NOW + 44_000);
  typed(first, first.boxes[0], "33.9", NOW + 46_000);
  undo(desk, NOW + 47_000);
  assert.deepEqual(words(first), ["33.9"]);
});

test("a second tap at once stops nothing", () => {
  const [desk, [first]] = counting(alone());
  beat(desk, NOW + 10_000);
  assert.equal(stop(desk, first, first.boxes, NOW + 10_400), null);
  assert.notEqual(clockOf(first), null);
});

test("a start by hand moves what follows, and undone it moves back", () => {
  const [desk, [first, second]] = counting(alone(), { rest: "timetable" });
  startByHand(desk, first, NOW + 7_000);
  assert.equal(after(goAt(second)), 121);
  undo(desk, NOW + 8_000);
  assert.equal(after(goAt(first)), 0);
  assert.equal(after(goAt(second)), 124);
});

test("a start out of turn leaves out those before it", () => {
  const [desk, [first, second, third]] = counting(alone(), { rest: "timetable" });
  startByHand(desk, third, NOW + 3_000);
  assert.deepEqual([goAt(first), goAt(second)], [null, null]);
  undo(desk, NOW + 5_000);
  assert.deepEqual([after(goAt(first)), after(goAt(second))], [0, 124]);
});

test("a false start makes the run the next again", () => {
  const [desk, runs] = counting(alone());
  beat(desk, NOW + 10_500);
  cancel(desk, runs[0], NOW + 12_000);
  assert.equal(clockOf(runs[0]), null);
  assert.equal(goAt(runs[1]), null, "the countdown ends with it");
  assert.equal(nextRun(runs), runs[0]);
  undo(desk, NOW + 13_000);
  assert.equal(clockOf(runs[0]).start, NOW + 10_000);
});

test("a false start of one wave leaves the other alone", () => {
  const [desk, [one, two, again]] = counting(waves());
  beat(desk, NOW + 20_500);
  cancel(desk, one, NOW + 21_000);
  assert.notEqual(clockOf(two), null);
  assert.equal(after(goAt(again)), 120);
  assert.equal(nextRun(stageRuns(one.block)), one);
});

test("each of several has a time, and the run ends with the last", () => {
  const [desk, [one]] = counting(waves());
  beat(desk, NOW + 10_000);
  stop(desk, one, [one.boxes[1]], NOW + 43_000);
  assert.deepEqual(words(one), ["", "33.0"]);
  assert.notEqual(clockOf(one), null);
  endWith(desk, one, "DNF", NOW + 60_000);
  assert.deepEqual(words(one), ["DNF", "33.0"]);
  assert.equal(clockOf(one), null);
  undo(desk, NOW + 61_000);
  undo(desk, NOW + 61_500);
  assert.deepEqual(words(one), ["", ""]);
});

test("what was typed for one of several while they ran stands", () => {
  const [desk, [one]] = counting(waves());
  beat(desk, NOW + 10_000);
  typed(one, one.boxes[0], "fell", NOW + 20_000);
  stop(desk, one, one.boxes, NOW + 44_000);
  assert.deepEqual(words(one), ["fell", "34.0"]);
});

test("a countdown is delayed, stopped, and goes on with what is left", () => {
  const [desk, runs] = counting(alone());
  moveGoes(runs, 10_000);
  assert.equal(after(goAt(runs[0])), 10);
  stopCountdown(runs);
  assert.deepEqual(runs.map(goAt), [null, null, null]);
  typed(runs[0], runs[0].boxes[0], "34.0", NOW);
  assert.equal(startCountdown(runs, NOW), runs[1]);
  assert.deepEqual(runs.map((run) => after(goAt(run))), [null, 0, 124]);
});

test("a run that was left out does not go", () => {
  const [desk, runs] = counting(alone());
  skip(desk, runs[0], NOW + 1_000);
  assert.equal(goAt(runs[0]), null);
  assert.equal(nextRun(runs), runs[1]);
  undo(desk, NOW + 2_000);
  assert.equal(after(goAt(runs[0])), 0);
});

test("a flying run waits for the tap as it passes the start", () => {
  const [desk, [first]] = counting(alone({ runIn: 5 }));
  beat(desk, NOW + 10_000);
  assert.equal(clockOf(first), null);
  startByHand(desk, first, NOW + 15_500);
  assert.equal(clockOf(first).start, NOW + 15_500);
});

test("a go that was long ago starts no clock", () => {
  const [desk, [first]] = counting(alone());
  beat(desk, NOW + 10_000 + 600_000);
  assert.equal(clockOf(first), null);
});
