// The sessions of the page: their blocks, runs and boxes, from its data.
import { Kept, isObject } from "./kept.js";
import { secondsOf } from "./times.js";

const inMs = (seconds) => (seconds === null ? null : seconds * 1000);

function boxesOf(run, lanes, session) {
  const boxes = lanes.map(([lane, place, target, people], index) =>
    people.map(([person, from, to], number) => {
      const [who, name] = session.people[person];
      const cells = [lane, ...session.places[place], run.go ?? "", target];
      const aim = to === null ? null : [from, to];
      return { id: `${run.id}-l${index + 1}-${number + 1}`, who, name, lane, target: aim, cells };
    }),
  );
  return boxes.reduce((all, of_lane) => all.concat(of_lane), []);
}

function runModel(run, number, block, session, isOneOfSeveral) {
  const id = `${block.id}-r${number}`;
  const label = run.name.charAt(0).toLowerCase() + run.name.slice(1);
  const model = {
    ...run,
    id,
    block,
    session,
    label,
    title: isOneOfSeveral ? `Block ${block.number}, ${label}` : run.name,
    scene: session.scenes[run.scene],
    passes: session.passes[run.passes],
    goMs: inMs(run.go_s),
    doneMs: inMs(run.done_s),
    // A flying run is timed from its start, some time after its go.
    runInMs: inMs(run.run_in_s),
    restMs: inMs(run.rest_s),
    // How far its passes have been announced, in milliseconds.
    heardUntil: null,
  };
  model.boxes = boxesOf(model, run.lanes, session);
  return model;
}

function blockModel(block, session) {
  const model = { ...block, session };
  model.runs = block.runs.map((run, index) => runModel(run, index + 1, model, session, session.blocks.length > 1));
  for (const run of model.runs) {
    const wave = model.runs.filter((other) => other.wave === run.wave);
    const at = wave.indexOf(run);
    // Those of its wave before and after it.
    run.before = wave[at - 1] ?? null;
    run.next = wave[at + 1] ?? null;
  }
  return model;
}

/** A session with what the device keeps of it. */
export function sessionModel(session, storage) {
  const model = { ...session, kept: new Kept(session, storage) };
  const blocks = session.blocks.map((block) => blockModel(block, model));
  model.blocks = blocks;
  model.runs = blocks.reduce((all, block) => all.concat(block.runs), []);
  model.boxes = model.runs.reduce((all, run) => all.concat(run.boxes), []);
  return model;
}

/** A run's clock: when it started, and the boxes that have stopped. */
export function clockOf(run) {
  const clock = run.session.kept.clocks[run.id];
  if (!isObject(clock) || !Number.isFinite(clock.start)) return null;
  return { start: clock.start, stopped: Array.isArray(clock.stopped) ? clock.stopped : [] };
}

export const isOpen = (run, box) => clockOf(run)?.stopped.includes(box.id) === false;

/** What is in a box. */
export function wordsIn(run, box) {
  const words = run.session.kept.times[box.id];
  return typeof words === "string" ? words : "";
}

/** Whether a time was taken; `DNF` is not a time. */
export const isTimed = (run, box) => secondsOf(wordsIn(run, box)) !== null;
export const hasTime = (run) => run.boxes.some((box) => isTimed(run, box));

/** Whether a word or a time is in every box, so that nobody is waited for. */
export const isFilled = (run) => run.boxes.every((box) => wordsIn(run, box).trim() !== "");

export function setTime(run, box, words, at) {
  const { times, moments } = run.session.kept;
  if (words === "") {
    delete times[box.id];
    delete moments[box.id];
  } else {
    times[box.id] = words;
    moments[box.id] = at;
  }
}
