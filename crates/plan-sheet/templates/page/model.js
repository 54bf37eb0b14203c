// The sessions of the page, from its data block, each part with its elements.

const byId = (id) => document.getElementById(id);

/** What the page does just now; nothing of it outlives a reload. */
const state = {
  /** Which block is shown. */
  shown: 0,
  /** The timer of the beat, while anything runs. */
  beat: null,
  /** By how much the device's clock is ahead of the time since the page was opened. */
  ahead: now() - performance.now(),
  /** The goes that were announced. */
  announced: new Set(),
  /** The runs in the list of running clocks. */
  listed: "",
};

function boxModel(box, lane, session) {
  const input = byId(`${session.id}-${box.id}`);
  return { ...box, lane, input, stop: input.parentElement.querySelector(".stop"), typedAt: null };
}

function runModel(run, block, session) {
  const element = byId(`${session.id}-${run.id}`);
  return {
    ...run,
    block,
    session,
    element,
    goMs: run.go_s === null ? null : run.go_s * 1000,
    // A flying run is timed from its start, some time after its go.
    runInMs: run.run_in_s === null ? null : run.run_in_s * 1000,
    boxes: run.lanes.flatMap((lane) => lane.boxes.map((box) => boxModel(box, lane, session))),
    watch: element.querySelector(".watch"),
    start: element.querySelector(".start"),
    stopAll: element.querySelector(".stop-all"),
    takeBack: element.querySelector(".take-back"),
    stoppedAt: null,
    // What can be undone, the last thing last, and what a start by hand did to the goes.
    undo: [],
    moved: null,
    // What the button beside the clock means, and since when.
    meaning: null,
    meansSince: null,
    // How far its passes have been announced, in milliseconds.
    heardUntil: null,
  };
}

function blockModel(block, session) {
  const element = byId(`${session.id}-${block.id}`);
  const [counter, later] = [element.querySelector(".count-down"), element.querySelector(".count-later")];
  const model = { ...block, session, element, counter, later, tappedAt: null };
  model.runs = block.runs.map((run) => runModel(run, model, session));
  return model;
}

function sessionModel(session) {
  const model = { ...session, element: byId(session.id), store: new Store(session) };
  model.blocks = session.blocks.map((block) => blockModel(block, model));
  model.runs = model.blocks.flatMap((block) => block.runs);
  model.boxes = model.runs.flatMap((run) => run.boxes);
  return model;
}

const data = JSON.parse(byId("data").textContent);
const sessions = data.sessions.map(sessionModel);
const blocks = sessions.flatMap((session) => session.blocks);
const runs = blocks.flatMap((block) => block.runs);

/** A run's clock: when it started, and the boxes that have stopped. */
function clockOf(run) {
  const clock = run.session.store.clocks[run.id];
  if (!isObject(clock) || !Number.isFinite(clock.start)) return null;
  return { start: clock.start, stopped: Array.isArray(clock.stopped) ? clock.stopped : [] };
}

/** The moment from which a block's goes count, while it is counted down. */
function zeroOf(block) {
  const zero = block.session.store.zeros[block.id];
  return Number.isFinite(zero) ? zero : null;
}

/** When a run goes, if it is still to come. */
function goAt(run) {
  const zero = zeroOf(run.block);
  const hasGone = run.session.store.gone[run.id] === true;
  return zero === null || run.goMs === null || hasGone ? null : zero + run.goMs;
}

const isOpen = (run, box) => clockOf(run)?.stopped.includes(box.id) === false;

/** Whether a time was taken; `DNF` is not a time. */
const isTimed = (box) => secondsOf(box.input.value) !== null;
const hasTime = (run) => run.boxes.some(isTimed);

function setTime(run, box, words) {
  const { times } = run.session.store;
  box.input.value = words;
  if (words === "") delete times[box.id];
  else times[box.id] = words;
}
