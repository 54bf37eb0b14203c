// When runs go: by the timetable of the plan, or a rest after each finish.
import { clockOf, hasTime, isFilled } from "./model.js";

/** From the tap that starts a countdown to the first go. */
export const LEAD_MS = 10_000;

/** Whether rests count from each finish; else goes keep to the timetable. */
export function restsFromFinish(session) {
  return (session.kept.choices.rest ?? (session.is_alone ? "finish" : "timetable")) === "finish";
}

/** The moment from which a block's goes count, while it is counted down. */
export function zeroOf(block) {
  const zero = block.session.kept.zeros[block.id];
  return Number.isFinite(zero) ? zero : null;
}

/** Since when a flying run is in its run-in. */
export function waitingSince(run) {
  const since = run.session.kept.waiting[run.id];
  return Number.isFinite(since) ? since : null;
}

/** Whether a run waits for the finish of one before it in its wave, from which the rest counts. */
export function isHeld(run) {
  if (!restsFromFinish(run.session)) return false;
  for (let { before } = run; before !== null; { before } = before) {
    if (clockOf(before) !== null || waitingSince(before) !== null) return before.restMs !== null;
  }
  return false;
}

function plannedGo(run) {
  const { kept } = run.session;
  if (kept.gone[run.id] === true) return null;
  if (Number.isFinite(kept.goes[run.id])) return kept.goes[run.id];
  const zero = zeroOf(run.block);
  return zero === null || run.goMs === null ? null : zero + run.goMs;
}

/** When a run goes, if it is still to come. */
export const goAt = (run) => (isHeld(run) ? null : plannedGo(run));

/** The runs that are run at the same time as a block, in the order of their goes, of the groups that are timed here. */
export function stageRuns(block) {
  const { group } = block.session.kept.choices;
  if (block.stageFor === undefined || block.stageFor.group !== group) block.stageFor = { group, runs: findStageRuns(block) };
  return block.stageFor.runs;
}

/** Whether a block is timed on this device: of several coaches each may time one group. */
export function isTimedHere({ session, group }) {
  const { group: chosen } = session.kept.choices;
  return !session.blocks.some((any) => any.group === chosen) || group === chosen || group === null;
}

function findStageRuns(block) {
  const { blocks } = block.session;
  const atOnce = blocks.filter((other) => other.stage === block.stage && (other === block || isTimedHere(other)));
  const runs = atOnce.reduce((all, one) => all.concat(one.runs), []);
  if (atOnce.length < 2) return runs;
  // Sorting in old browsers may change the order of equals.
  const places = runs.map((run, place) => ({ run, place }));
  places.sort((a, b) => (a.run.goMs ?? 0) - (b.run.goMs ?? 0) || a.place - b.place);
  return places.map(({ run }) => run);
}

const isRun = (run) => clockOf(run) !== null || waitingSince(run) !== null || hasTime(run) || isFilled(run);

/** The run that comes next: the one that was chosen; else the one after the last that was run; else one left out. */
export function nextRun(runs) {
  const chosen = runs.find((run) => run.session.kept.choices.run === run.id && clockOf(run) === null);
  if (chosen !== undefined) return chosen;
  const { skipped } = runs.length > 0 ? runs[0].session.kept.choices : {};
  const isDone = (run) => isRun(run) || (Array.isArray(skipped) && skipped.includes(run.id));
  const after = runs.reduce((next, run, index) => (isDone(run) ? index + 1 : next), 0);
  return runs[after] ?? runs.find((run) => !isDone(run)) ?? null;
}

/** Counts down to the next of some runs; those after it follow by the timetable. */
export function startCountdown(runs, at) {
  const first = nextRun(runs);
  if (first === null) return null;
  const { kept } = first.session;
  const turn = runs.indexOf(first);
  runs.forEach((run, index) => {
    delete kept.goes[run.id];
    // A run that has its time does not go again by itself.
    if (index < turn || (run !== first && isRun(run))) kept.gone[run.id] = true;
    else if (clockOf(run) === null) delete kept.gone[run.id];
  });
  stopCountdown(runs);
  delete kept.choices.byHand;
  if (first.goMs === null) kept.goes[first.id] = at + LEAD_MS;
  else for (const run of runs) kept.zeros[run.block.id] = at + LEAD_MS - first.goMs;
  return first;
}

export function stopCountdown(runs) {
  for (const { id, block, session } of runs) {
    delete session.kept.goes[id];
    delete session.kept.zeros[block.id];
  }
}

export const isCounting = (runs) => runs.some((run) => goAt(run) !== null);

/** Moves all goes that are still to come. */
export function moveGoes(runs, byMs) {
  const blocks = runs.map(({ block }) => block).filter((block, index, all) => all.indexOf(block) === index);
  for (const block of blocks) if (zeroOf(block) !== null) block.session.kept.zeros[block.id] += byMs;
  for (const { id, session } of runs) if (Number.isFinite(session.kept.goes[id])) session.kept.goes[id] += byMs;
}

/** A countdown ends with the last go of its block. */
export function endCountdown(block) {
  if (zeroOf(block) === null || block.runs.some((run) => plannedGo(run) !== null)) return false;
  delete block.session.kept.zeros[block.id];
  return true;
}

/**
 * Lets the rest count from a finish, where it does: what follows moves. Goes of several waves are never earlier than
 * planned, as others wait for them. Returns what puts them back.
 */
export function restAfter(run, at) {
  const { next, session } = run;
  const { kept } = session;
  const isOver = next === null || kept.gone[next.id] === true || isRun(next);
  if (isOver || run.restMs === null || !restsFromFinish(session) || kept.choices.byHand === true) return () => {};
  const due = at + run.restMs;
  const planned = plannedGo(next);
  if (planned === null) {
    kept.goes[next.id] = due;
    return () => delete kept.goes[next.id];
  }
  const runs = stageRuns(run.block);
  const isOneWave = runs.every((other) => other.wave === run.wave && other.block === run.block);
  const byMs = due - planned;
  if (!isOneWave && byMs <= 0) return () => {};
  moveGoes(runs, byMs);
  return () => moveGoes(runs, -byMs);
}
