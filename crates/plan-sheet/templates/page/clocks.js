// Starting and stopping clocks, and undoing it.

/** A wet thumb taps twice: the second tap within this time does nothing. */
const BOUNCE_MS = 500;
/** How long a stop or a cancelled clock can be undone. */
const UNDO_MS = 20_000;
/** A button that has just changed its meaning takes no tap for so long. */
const CALM_MS = 1_000;

const isWithin = (ms, since) => since !== null && Math.abs(now() - since) < ms;

/** Saves what was changed for a run, and shows it. */
function changed(run) {
  run.session.store.save();
  refreshRun(run);
  refreshKept(run.session);
  tick();
}

/** Starts a clock that is right from `at` on, which may be some time ago. */
function startClock(run, at) {
  const { store } = run.session;
  store.clocks[run.id] = { start: at, stopped: [] };
  store.gone[run.id] = true;
  run.heardUntil = now() - at;
  run.undo = [];
  run.moved = null;
  store.save();
  refreshRun(run);
}

function startByHand(run) {
  if (isWithin(BOUNCE_MS, run.stoppedAt)) return;
  takeUp(run.session);
  if (clockOf(run) !== null) {
    say(`${run.title} is running already.`);
    return;
  }
  const at = now();
  const moved = moveGoes(run, at);
  sound.wake();
  startClock(run, at);
  run.moved = moved;
  showSetBack(false);
  say(`${run.title} is running.`);
  tick();
}

/** The goes after a run that is started by hand keep their distance from it; those before it are left out. */
function moveGoes(run, at) {
  const go = goAt(run);
  if (go === null) return null;
  const due = go + (run.runInMs ?? 0);
  const { store } = run.session;
  const isEarlier = (other) => goAt(other) !== null && goAt(other) < go;
  const skipped = run.block.runs.filter(isEarlier);
  for (const other of [run, ...skipped]) sound.hush(goKey(other, goAt(other)));
  for (const other of skipped) {
    store.gone[other.id] = true;
    refreshRun(other);
  }
  const from = zeroOf(run.block);
  store.zeros[run.block.id] = from + at - due;
  return { from, to: from + at - due, skipped };
}

/** Puts the goes back to where they were before a run was started by hand, and returns what moves them again. */
function putGoesBack(run) {
  const { store } = run.session;
  const { moved } = run;
  // After a reload, or when the countdown was moved or stopped since, there is nothing to put back.
  if (moved === null || zeroOf(run.block) !== moved.to) return () => {};
  store.zeros[run.block.id] = moved.from;
  const ahead = [run, ...moved.skipped].filter((other) => moved.from + other.goMs > now());
  for (const other of ahead) delete store.gone[other.id];
  sound.hushAll();
  return () => {
    store.zeros[run.block.id] = moved.to;
    for (const other of ahead) store.gone[other.id] = true;
    sound.hushAll();
  };
}

/** Stops the clock for these boxes, and for the whole run with the last of them. */
function stop(run, boxes) {
  takeUp(run.session);
  const clock = clockOf(run);
  if (clock === null) return;
  const { store } = run.session;
  const elapsed = now() - clock.start;
  if (elapsed < 0) {
    delete store.clocks[run.id];
    showSetBack(true);
    changed(run);
    return;
  }
  const open = boxes.filter((box) => !clock.stopped.includes(box.id));
  // Another tab may have stopped it meanwhile.
  if (elapsed < BOUNCE_MS || open.length === 0) return;
  run.stoppedAt = now();
  const words = takenWords(elapsed);
  const before = open.map((box) => [box, box.input.value]);
  remember(run, "Undo stop", () => {
    // A time typed over the one that was taken stands.
    for (const [box, value] of before) if (box.input.value === words) setTime(run, box, value);
    store.clocks[run.id] = clock;
    say(`${run.title} is running again.`);
  });
  // Of several, what was typed while they ran stands.
  const isTyped = (box) => boxes.length > 1 && box.typedAt >= clock.start && box.input.value !== "";
  for (const box of open) if (!isTyped(box)) setTime(run, box, words);
  const stopped = [...clock.stopped, ...open.map((box) => box.id)];
  if (run.boxes.every((box) => stopped.includes(box.id))) delete store.clocks[run.id];
  else store.clocks[run.id] = { start: clock.start, stopped };
  say(`${run.title}, ${open.map((box) => box.who).join(", ")}: ${words}`);
  changed(run);
}

function cancel(run) {
  const { store } = run.session;
  const clock = clockOf(run);
  delete store.clocks[run.id];
  const moveAgain = putGoesBack(run);
  remember(run, "Undo cancel", () => {
    store.clocks[run.id] = clock;
    moveAgain();
    say(`${run.title} is running again.`);
  });
  say(`${run.title}: clock cancelled.`);
}

function remember(run, words, undo) {
  run.undo.push({ at: now(), words, undo });
  setTimeout(() => refreshRun(run), UNDO_MS + 50);
}

/** What the button beside the clock does: it undoes, or cancels a clock that nobody has stopped. */
function meaningOf(run) {
  run.undo = run.undo.filter(({ at }) => isWithin(UNDO_MS, at));
  if (run.undo.length > 0) return run.undo[run.undo.length - 1].words;
  return clockOf(run)?.stopped.length === 0 ? "Cancel" : null;
}

function takeBack(run) {
  takeUp(run.session);
  // A thumb that came for what the button meant before does nothing.
  if (meaningOf(run) !== run.meaning || isWithin(CALM_MS, run.meansSince)) {
    refreshRun(run);
    return;
  }
  const last = run.undo.pop();
  if (last === undefined) cancel(run);
  else last.undo();
  run.meansSince = now();
  changed(run);
}

function typed(run, box) {
  const words = box.input.value;
  takeUp(run.session);
  box.typedAt = now();
  // A time corrected by hand is not undone.
  if (clockOf(run) === null) run.undo = [];
  setTime(run, box, words);
  run.session.store.save();
  refreshRun(run);
  refreshKept(run.session);
}
