import assert from "node:assert/strict";
import { test } from "node:test";
import { csvCell, csvOf } from "../../crates/plan-sheet/templates/page/csv.js";
import { typed } from "../../crates/plan-sheet/templates/page/clocks.js";
import { NOW, alone, deskOf } from "./made.mjs";
import { dayOf, timeOfDay } from "../../crates/plan-sheet/templates/page/times.js";

test("no cell is a formula or breaks its row", () => {
  const cells = ["=1+1", " =1", "\u200b=1", "＝1", "-1", "\tx", "a,b", 'say "go"', "two\nlines", "34.2"].map(csvCell);
  assert.deepEqual(cells, ["'=1+1", "' =1", "'\u200b=1", "'＝1", "'-1", "'\tx", '"a,b"', '"say ""go"""', '"two\nlines"', "34.2"]);
});

test("a row says what was run, and when the time was taken", () => {
  const { session } = deskOf(alone());
  const [run] = session.runs;
  typed(run, run.boxes[0], "34.2", NOW);
  const [head, first, second] = csvOf(["session"], session, session.kept).split("\r\n");
  assert.equal(head, "\ufeffsession");
  assert.equal(first, `Evening,2027-04-13,standard,1,runs,,1,1,1,,2,200,,,there,,here,,,,34.2,34.2,note,${dayOf(NOW)},${timeOfDay(NOW)}`);
  assert.ok(second.endsWith(",,,note,,"));
});
