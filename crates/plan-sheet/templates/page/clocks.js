// Starting and stopping clocks, and undoing it. Each act changes what is kept, and says in words what it did.
import { clockOf, setTime, wordsIn } from "./model.js";
import { goAt, isCounting, moveGoes, restAfter, stageRuns, stopCountdown, waitingSince, zeroOf } from "./timetable.js";
import { takenWords } from "./times.js";

/** A wet thumb taps twice: the second tap within this time does nothing. */
export const BOUNCE_MS = 500;
/** How long what was done can be undone. */
export const UNDO_MS = 60_000;
/** A go that was due longer ago than this, while the page was away, starts no clock. */
export const LATE_MS = 600_000;

/** Remembers how something is undone. */
function remember(desk, run, words, at, act, boxes = []) {
  desk.undo.push({ run, words, at, act, boxes });
}

/** What can be undone now, the last thing last. */
export function undoable(desk, at) {
  desk.undo = desk.undo.filter((one) => Math.abs(at - one.at) < UNDO_MS && one.run.session === desk.session);
  return desk.undo[desk.undo.length - 1] ?? null;
}

/** Undoes the last thing. */
export function undo(desk, at) {
  const last = undoable(desk, at);
  if (last === null) return null;
  desk.undo.pop();
  last.act();
  desk.focus = last.run.id;
  last.run.session.kept.save();
  return `Undone: ${last.words}.`;
}

/** Starts a clock that is right from `from` on, which may be some time ago. */
export function startClock(run, from) {
  const { kept } = run.session;
  kept.clocks[run.id] = { start: from, stopped: [] };
  kept.gone[run.id] = true;
  delete kept.waiting[run.id];
  if (kept.choices.run === run.id) delete kept.choices.run;
  run.heardUntil = null;
}

/** Lets a run go that is due: its clock starts, or with a run-in it is waited for. */
export function letGo(run, due, at) {
  const { kept } = run.session;
  kept.gone[run.id] = true;
  const isLate = at - due >= LATE_MS || clockOf(run) !== null;
  if (!isLate && run.runInMs === null) startClock(run, due);
  if (!isLate && run.runInMs !== null) kept.waiting[run.id] = due;
  kept.save();
  if (isLate) return null;
  return run.runInMs === null ? `Go: ${run.title}.` : `Go: ${run.title}. Tap as they pass the start.`;
}

/** Starts a run by hand. The goes after it keep their distance from it; those before it are left out. */
export function startByHand(desk, run, at) {
  const { kept } = run.session;
  // Another tab may have started it.
  if (clockOf(run) !== null) return `${run.title} is running already.`;
  const planned = goAt(run);
  const runs = stageRuns(run.block);
  const before = { waiting: waitingSince(run), gone: runs.filter(({ id }) => kept.gone[id] === true).map(({ id }) => id) };
  let movedMs = 0;
  if (planned !== null) {
    const skipped = runs.filter((other) => goAt(other) !== null && goAt(other) < planned);
    for (const other of skipped) kept.gone[other.id] = true;
    movedMs = at - planned - (run.runInMs ?? 0);
    moveGoes(runs, movedMs);
  }
  startClock(run, at);
  remember(desk, run, "the start", at, () => {
    delete kept.clocks[run.id];
    moveGoes(runs, -movedMs);
    for (const { id } of runs) if (kept.gone[id] === true && clockless(runs, id) && !before.gone.includes(id)) delete kept.gone[id];
    if (before.waiting !== null) kept.waiting[run.id] = before.waiting;
  });
  desk.focus = run.id;
  kept.save();
  return `${run.title} is running.`;
}

/** Whether no clock runs for it. */
const clockless = (runs, id) => runs.every((run) => run.id !== id || clockOf(run) === null);

/** Stops the clock for some boxes, and for the whole run with the last of them. */
export function stop(desk, run, boxes, at) {
  const clock = clockOf(run);
  if (clock === null) return null;
  const { kept } = run.session;
  const elapsed = at - clock.start;
  const open = boxes.filter((box) => !clock.stopped.includes(box.id));
  if (elapsed < BOUNCE_MS || open.length === 0) return null;
  const words = takenWords(elapsed);
  // Of several, what was typed while they ran stands.
  const isTyped = (box) => run.boxes.length > 1 && kept.moments[box.id] >= clock.start && wordsIn(run, box) !== "";
  const before = open.map((box) => [box, wordsIn(run, box), kept.moments[box.id]]);
  for (const box of open) if (!isTyped(box)) setTime(run, box, words, at);
  const putBack = closeBoxes(run, clock, open, at);
  const who = run.boxes.length === 1 ? "" : `, ${open.map((box) => box.who).join(", ")}`;
  remember(desk, run, `${open.length === 1 && run.boxes.length > 1 ? `${open[0].who} ` : ""}${words}`, at, () => {
    // A time typed over the one that was taken stands.
    for (const [box, value, moment] of before) if (wordsIn(run, box) === words) setTime(run, box, value, moment);
    kept.clocks[run.id] = clock;
    putBack();
  }, open);
  kept.save();
  return `${run.title}${who}: ${words}`;
}

/** Ends the clock for some boxes; the rest counts from the last of them. Returns what takes the rest back. */
function closeBoxes(run, clock, closed, at) {
  const { kept } = run.session;
  const stopped = [...clock.stopped, ...closed.map((box) => box.id)];
  if (!run.boxes.every((box) => stopped.includes(box.id))) {
    kept.clocks[run.id] = { start: clock.start, stopped };
    return () => {};
  }
  delete kept.clocks[run.id];
  return restAfter(run, at);
}

/** Writes a word for all who are not in, and ends the run. */
export function endWith(desk, run, word, at) {
  const clock = clockOf(run);
  if (clock === null) return null;
  const { kept } = run.session;
  const open = run.boxes.filter((box) => !clock.stopped.includes(box.id));
  const before = open.map((box) => [box, wordsIn(run, box), kept.moments[box.id]]);
  for (const box of open) setTime(run, box, word, at);
  const putBack = closeBoxes(run, clock, open, at);
  remember(desk, run, word, at, () => {
    for (const [box, value, moment] of before) setTime(run, box, value, moment);
    kept.clocks[run.id] = clock;
    putBack();
  });
  kept.save();
  return `${run.title}: ${open.map((box) => box.who).join(", ")} ${word}.`;
}

/** Takes a false start back: the run is the next again. Where nothing else runs or comes, the countdown ends too. */
export function cancel(desk, run, at) {
  const { kept } = run.session;
  const runs = stageRuns(run.block);
  const clock = clockOf(run);
  const waiting = waitingSince(run);
  const zeros = { ...kept.zeros };
  const goes = { ...kept.goes };
  delete kept.clocks[run.id];
  delete kept.waiting[run.id];
  delete kept.gone[run.id];
  if (runs.some((other) => clockOf(other) !== null)) kept.gone[run.id] = true;
  else stopCountdown(runs);
  kept.choices.run = run.id;
  remember(desk, run, "the cancelled clock", at, () => {
    if (clock !== null) kept.clocks[run.id] = clock;
    if (waiting !== null) kept.waiting[run.id] = waiting;
    kept.gone[run.id] = true;
    delete kept.choices.run;
    if (!isCounting(runs)) {
      Object.assign(kept.zeros, zeros);
      Object.assign(kept.goes, goes);
    }
  });
  kept.save();
  return `${run.title}: clock cancelled.`;
}

/** Leaves a run out. */
export function skip(desk, run, at) {
  const { kept } = run.session;
  const skipped = Array.isArray(kept.choices.skipped) ? kept.choices.skipped : [];
  kept.choices.skipped = [...skipped, run.id];
  const wasGone = kept.gone[run.id] === true;
  const zero = zeroOf(run.block);
  kept.gone[run.id] = true;
  if (kept.choices.run === run.id) delete kept.choices.run;
  remember(desk, run, `${run.label} is left out`, at, () => {
    kept.choices.skipped = kept.choices.skipped.filter((id) => id !== run.id);
    if (!wasGone && zero !== null) delete kept.gone[run.id];
  });
  kept.save();
  return `${run.title} is left out.`;
}

/** Writes what was typed into a box. */
export function typed(run, box, words, at) {
  setTime(run, box, words, at);
  run.session.kept.save();
}
