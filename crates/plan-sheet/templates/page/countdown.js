// Counting a block down to its goes.

/** From the tap that starts a countdown to the first go. */
const LEAD_MS = 10_000;

/** The run with which a countdown begins: the one after the last that was run, else one that was left out. */
function nextRun(block) {
  const counted = block.runs.filter((run) => run.goMs !== null);
  const isRun = (run) => clockOf(run) !== null || hasTime(run);
  const next = counted.reduce((next, run, index) => (isRun(run) ? index + 1 : next), 0);
  return counted[next] ?? counted.find((run) => !isRun(run)) ?? null;
}

function toggleCountdown(block) {
  if (isWithin(BOUNCE_MS, block.tappedAt)) return;
  block.tappedAt = now();
  const { store } = block.session;
  takeUp(block.session);
  if (zeroOf(block) === null) startCountdown(block);
  else {
    delete store.zeros[block.id];
    sound.hushAll();
    say("Countdown stopped.");
  }
  store.save();
  refreshBlock(block);
  tick();
}

function startCountdown(block) {
  const { store } = block.session;
  const first = nextRun(block);
  if (first === null) return;
  for (const run of block.runs.filter(({ goMs }) => goMs !== null)) {
    // A run that has its time does not go again by itself.
    if (run.goMs < first.goMs || hasTime(run)) store.gone[run.id] = true;
    else if (clockOf(run) === null) delete store.gone[run.id];
  }
  store.zeros[block.id] = now() + LEAD_MS - first.goMs;
  sound.wake();
  showSetBack(false);
  say(`${first.title} goes in 10 seconds.`);
}

function delayCountdown(block) {
  const { store } = block.session;
  takeUp(block.session);
  if (zeroOf(block) === null) return;
  store.zeros[block.id] += 10_000;
  store.save();
  sound.hushAll();
  say("All goes of this block: 10 seconds later.");
  tick();
}
