import assert from "node:assert/strict";
import { test } from "node:test";
import { Kept } from "../../crates/plan-sheet/templates/page/kept.js";
import { dayOf } from "../../crates/plan-sheet/templates/page/times.js";
import { NOW, Storage } from "./made.mjs";

const KEYS = { key: "new", old_key: "old" };
const HOUR = 3_600_000;

test("what is kept outlives the page", () => {
  const storage = new Storage();
  const kept = new Kept(KEYS, storage);
  kept.times["b1-r1-l1-1"] = "34.2";
  kept.save();
  assert.equal(new Kept(KEYS, storage).times["b1-r1-l1-1"], "34.2");
});

test("what an earlier page kept is taken over once", () => {
  const storage = new Storage({ "toeline:old": '{"times":{"a":"8.4"},"clocks":{},"zeros":{},"gone":{}}' });
  assert.equal(new Kept(KEYS, storage).times.a, "8.4");
  assert.equal(storage.getItem("toeline:old"), null);
  storage.setItem("toeline:old", '{"times":{"a":"9.9"}}');
  assert.equal(new Kept(KEYS, storage).times.a, "8.4");
});

test("what is kept by something else is overwritten and breaks nothing", () => {
  for (const raw of ["", "null", "7", "[]", "{", '{"times":[1],"earlier":"x"}', '{"clocks":{"r":5},"moments":{"r":"x"}}']) {
    const kept = new Kept(KEYS, new Storage({ "toeline:new": raw }));
    assert.equal(kept.lastDay(), null, raw);
    assert.deepEqual(kept.dropOld(NOW, () => null), [], raw);
    kept.save();
  }
});

test("a browser that keeps nothing is noticed, and the tab goes on", () => {
  const full = new Storage();
  full.setItem = () => {
    throw new Error("full");
  };
  const kept = new Kept(KEYS, full);
  assert.equal(kept.works, false);
  kept.times.a = "1.0";
  kept.save();
  assert.equal(kept.renew(), false);
  assert.equal(kept.times.a, "1.0");
});

test("another tab's times are taken up", () => {
  const storage = new Storage();
  const [one, other] = [new Kept(KEYS, storage), new Kept(KEYS, storage)];
  other.times.a = "34.2";
  other.save();
  assert.equal(one.renew(), true);
  assert.equal(one.times.a, "34.2");
  assert.equal(one.renew(), false);
});

test("a clock older than three hours is dropped and named, with its countdown", () => {
  const kept = new Kept(KEYS, new Storage());
  kept.clocks = { old: { start: NOW - 3 * HOUR - 1, stopped: [] }, young: { start: NOW - 3 * HOUR + 1, stopped: [] } };
  kept.zeros = { b1: NOW - 5 * HOUR, b2: NOW - 5 * HOUR };
  kept.goes = { r1: NOW - 4 * HOUR, r2: NOW };
  kept.waiting = { r3: NOW - 4 * HOUR };
  assert.deepEqual(kept.dropOld(NOW, (id) => (id === "b1" ? HOUR : 3 * HOUR)), ["old"]);
  assert.deepEqual([Object.keys(kept.clocks), Object.keys(kept.zeros), Object.keys(kept.goes), kept.waiting], [["young"], ["b2"], ["r2"], {}]);
});

test("a new session puts the times away with their day", () => {
  const kept = new Kept(KEYS, new Storage());
  kept.times = { a: "34.2" };
  kept.moments = { a: NOW };
  kept.gone = { r1: true };
  kept.choices = { rest: "finish", run: "r1" };
  kept.beginAnew();
  assert.deepEqual([kept.times, kept.gone, kept.choices], [{}, {}, { rest: "finish" }]);
  assert.deepEqual(kept.earlier, [{ day: dayOf(NOW), times: { a: "34.2" }, moments: { a: NOW } }]);
  kept.beginAnew();
  assert.equal(kept.earlier.length, 1);
});
