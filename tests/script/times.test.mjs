import assert from "node:assert/strict";
import { test } from "node:test";
import { againstTarget, clockWords, dayOf, leftWords, likelyMeant, runningWords, secondsOf, takenWords, timeOfDay } from "../../crates/plan-sheet/templates/page/times.js";

test("times are written in tenths", () => {
  assert.deepEqual([0, 342, 600, 724, 36_000].map(clockWords), ["0.0", "34.2", "1:00.0", "1:12.4", "60:00.0"]);
});

// World Athletics, Competition Rules 19.24: times taken by hand are read to the next longer tenth (from memory).
test("a time taken by hand is rounded up and a running one is not", () => {
  assert.equal(takenWords(34_201), "34.3");
  assert.equal(takenWords(34_200), "34.2");
  assert.equal(runningWords(34_299), "34.2");
});

test("what is left is told in full seconds", () => {
  assert.deepEqual([9_001, 59_999, 60_000, 83_400, -5].map(leftWords), ["10 s", "1:00", "1:00", "1:24", "0 s"]);
});

test("times are read with a colon, a point or a comma", () => {
  const read = ["34.2", "34,2", "1:12.4", "1.12.4", "1:02:03", " 9 "].map(secondsOf);
  assert.deepEqual(read, [34.2, 34.2, 72.4, 72.4, 3723, 9]);
});

test("words are not times", () => {
  for (const words of ["DNF", "DNS", "tight calf", "", " ", "1:", "34 s", "3:4:5:6"]) assert.equal(secondsOf(words), null, words);
});

test("a time is told against its target", () => {
  assert.equal(againstTarget(34.4, [34, 34]), "+0.4");
  assert.equal(againstTarget(33.5, [34, 34]), "−0.5");
  assert.equal(againstTarget(34.04, [34, 34]), "on target");
  assert.equal(againstTarget(35, [34, 36]), "on target");
  assert.equal(againstTarget(100, [34, 36]), "+1:04.0");
  assert.equal(againstTarget(null, [34, 36]), "");
  assert.equal(againstTarget(34, null), "");
});

test("1.12 is questioned where nobody runs so fast", () => {
  assert.equal(likelyMeant("1.12", 400), "1:12");
  assert.equal(likelyMeant("1,12", 400), "1:12");
  assert.equal(likelyMeant("12.50", 100), null);
  assert.equal(likelyMeant("1.72", 400), null);
  assert.equal(likelyMeant("1.12", 10), null);
  assert.equal(likelyMeant("1:12", 400), null);
  assert.equal(likelyMeant("DNF", 400), null);
});

test("a moment has the day and the time of the device", () => {
  const at = new Date(2027, 3, 3, 8, 5, 9).getTime();
  assert.deepEqual([dayOf(at), timeOfDay(at)], ["2027-04-03", "08:05:09"]);
});
