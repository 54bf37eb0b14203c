// What the first screen shows at a moment. It looks at everything and changes nothing.
import { undoable } from "./clocks.js";
import { clockOf, hasTime, isFilled, isOpen, wordsIn } from "./model.js";
import { goAt, isHeld, isTimedHere, nextRun, stageRuns, waitingSince } from "./timetable.js";
import { againstTarget, leftWords, runningWords, secondsOf } from "./times.js";

/** How long the button undoes what was done; then the menu does. */
const UNDO_SHOWN_MS = 8_000;
/** A go that is nearer takes the button from Undo. */
const NEAR_MS = 10_000;

/** In how few words a run can be told from others of its stage, beside one of them. */
export function shortName(run, beside = null) {
  const runs = stageRuns(run.block);
  const isOneBlock = run.block === beside?.block || runs.every((other) => other.block === run.block);
  const part = run.block.group ?? `block ${run.block.number}`;
  const own = run.block.runs.some((other) => other.wave !== run.wave) ? `wave ${run.wave}` : `rep ${run.rep}`;
  return isOneBlock ? own : `${part}, ${own}`;
}

const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

/** The block that is on: the first, from the one that was chosen, in which something is left to do. */
export function blockOn(session) {
  const { kept } = session;
  const blocks = session.blocks.filter((block) => isTimedHere(block) || block.id === kept.choices.block);
  const chosen = blocks.findIndex((block) => block.id === kept.choices.block);
  const opening = blocks.findIndex((block) => block.runs.length > 0);
  const from = Math.max(chosen === -1 ? opening : chosen, 0);
  const isLeft = (block) => {
    if (block.runs.length === 0) return kept.done[block.id] !== true;
    const runs = stageRuns(block);
    return nextRun(runs) !== null || runs.some((run) => clockOf(run) !== null || waitingSince(run) !== null);
  };
  return blocks.slice(from).find(isLeft) ?? blocks.find((block) => block.runs.length > 0 && isLeft(block)) ?? blocks[blocks.length - 1];
}

/** The runs of a session that go now, the one that should be in first before the others. */
export function runningNow(session) {
  const due = (run) => clockOf(run).start + aimMs(run);
  const { clocks } = session.kept;
  if (Object.keys(clocks).length === 0) return [];
  return session.runs.filter(({ id }) => clocks[id] !== undefined).filter((run) => clockOf(run) !== null).sort((a, b) => due(a) - due(b));
}

/** How long the first of a run should take. */
function aimMs(run) {
  const aims = run.boxes.filter(({ target }) => target !== null).map(({ target }) => target[0] * 1000);
  if (aims.length > 0) return Math.min(...aims);
  return run.doneMs === null || run.goMs === null ? 0 : run.doneMs - run.goMs;
}

/** The next go of a session, and its run. */
export function nextGo(session) {
  const { zeros, goes } = session.kept;
  if (Object.keys(zeros).length + Object.keys(goes).length === 0) return null;
  let [first, firstGo] = [null, Infinity];
  for (const run of session.runs) {
    const go = goAt(run);
    if (go !== null && go < firstGo) [first, firstGo] = [run, go];
  }
  return first;
}

/** A time with how far it is from its target. */
export function timeWords(run, box) {
  const words = wordsIn(run, box);
  const against = againstTarget(secondsOf(words), box.target);
  return against === "" ? words : `${words} (${against})`;
}

/** The times of a run that was run. */
const resultOf = (run) => {
  const timed = run.boxes.filter((box) => wordsIn(run, box) !== "");
  const words = timed.map((box) => (run.boxes.length === 1 ? timeWords(run, box) : `${box.who} ${timeWords(run, box)}`));
  return words.join(", ");
};

/** The run whose time was taken last. */
function lastTimed(session) {
  const { moments } = session.kept;
  const latest = (run) => Math.max(...run.boxes.map((box) => moments[box.id] ?? 0));
  const timed = session.runs.filter((run) => run.boxes.some((box) => Number.isFinite(moments[box.id])));
  return timed.reduce((last, run) => (last === null || latest(run) >= latest(last) ? run : last), null);
}

/** What the button says and means: kind, words, and smaller words beside them. */
function buttonOf(desk, at) {
  const { session } = desk;
  const running = runningNow(session);
  const undo = undoable(desk, at);
  const isFresh = undo !== null && at - undo.at < UNDO_SHOWN_MS;
  const coming = nextGo(session);
  const waiting = session.runs.find((run) => waitingSince(run) !== null) ?? null;
  if (running.length > 0) {
    const run = running.find(({ id }) => id === desk.focus) ?? running[0];
    const clock = runningWords(at - clockOf(run).start);
    if (run.boxes.length === 1) return { run, kind: "stop", words: "Stop", beside: clock };
    return { run, kind: "stop", words: clockOf(run).stopped.length > 0 ? "Stop the rest" : "Stop all", beside: clock };
  }
  if (waiting !== null) return { run: waiting, kind: "pass", words: "Start the clock", beside: "as they pass" };
  if (isFresh && !(coming !== null && goAt(coming) - at <= NEAR_MS)) {
    return { run: undo.run, kind: "undo", words: "Undo", beside: undo.words };
  }
  if (coming !== null) return { run: coming, kind: "count", words: `Go in ${leftWords(goAt(coming) - at)}`, beside: "tap: go now" };
  const block = blockOn(session);
  const next = block === undefined ? null : nextRun(stageRuns(block));
  if (next !== null) return { run: next, kind: "start", words: "Start: go in 10 s", beside: "" };
  if (block !== undefined && block.runs.length === 0 && session.kept.done[block.id] !== true) {
    return { run: null, block, kind: "done", words: "Done: next", beside: "" };
  }
  return { run: null, block, kind: "end", words: "All done", beside: "see the times" };
}

/** The names above the button: of several boxes, each with what it does. */
function namesOf(desk, run, at) {
  if (run === null || run.boxes.length < 2) return [];
  const clock = clockOf(run);
  const last = undoable(desk, at);
  // Who was stopped last is tapped again to undo it.
  const canUndo = (box) => clock !== null && last !== null && at - last.at < UNDO_SHOWN_MS && last.boxes.length === 1 && last.boxes[0] === box;
  return run.boxes.map((box) => {
    const words = timeWords(run, box);
    const lane = box.name === "" ? "" : `lane ${box.lane}`;
    const isRunning = clock !== null && isOpen(run, box);
    const said = isRunning || words === "" ? lane : words;
    return { box, who: capital(box.who), at: canUndo(box) ? `${said}: undo` : said, isOpen: isRunning, canUndo: canUndo(box) };
  });
}

/** The line above the button: what comes next, or what was last. */
function tickerOf(desk, button, at) {
  const { session } = desk;
  const coming = nextGo(session);
  const left = coming === null ? null : goAt(coming) - at;
  const isRunning = button.run !== null && clockOf(button.run) !== null;
  const goes = coming === null ? "" : `Go in ${leftWords(left)}: ${shortName(coming, button.run)}`;
  if (isRunning) {
    if (left !== null && left <= NEAR_MS) return goes;
    const elapsed = at - clockOf(button.run).start;
    const pass = button.run.passes.find(({ time_s }) => time_s * 1000 > elapsed);
    if (pass !== undefined) return `${pass.words} (in ${leftWords(pass.time_s * 1000 - elapsed)})`;
    if (goes !== "") return goes;
    const { next } = button.run;
    return next !== null && isHeld(next) ? `Rest ${leftWords(button.run.restMs)} from your stop` : "";
  }
  const last = lastTimed(session);
  if (last === null) return session.opening ?? "";
  return `${capital(shortName(last))}: ${resultOf(last)}`;
}

/** How many runs have their times or words: counted anew only when something was kept. */
function filledRuns(session) {
  const { raw } = session.kept;
  if (session.counted?.raw !== raw || raw === null) {
    session.counted = { raw, runs: session.runs.filter((run) => hasTime(run) || isFilled(run)).length };
  }
  return session.counted.runs;
}

/** Everything on the screen. */
export function screenOf(desk, at) {
  const { session } = desk;
  const button = buttonOf(desk, at);
  const { run } = button;
  const block = run?.block ?? button.block ?? null;
  const running = runningNow(session);
  return {
    run,
    block,
    kind: button.kind,
    words: button.words,
    beside: button.beside,
    head: block?.head ?? session.title,
    rep: run?.name ?? (button.kind === "end" ? "All done" : "No run here"),
    what: run?.scene.what ?? (block?.lasts ? `Lasts ${block.lasts}` : ""),
    ends: run?.scene.ends ?? [],
    picture: run?.scene.picture ?? null,
    warning: block?.warning ?? null,
    names: namesOf(desk, run, at),
    places: block?.names ?? 0,
    others: running.filter((other) => other !== run).map((other) => ({
      run: other,
      words: `${runningWords(at - clockOf(other).start)} ${shortName(other, run)}`,
    })),
    isHigh: session.is_high || block?.overlaps === true || running.length > 1,
    ticker: tickerOf(desk, button, at),
    times: `Times ${filledRuns(session)}/${session.runs.length} runs`,
    isActive: running.length > 0 || nextGo(session) !== null || session.runs.some((one) => waitingSince(one) !== null),
  };
}
