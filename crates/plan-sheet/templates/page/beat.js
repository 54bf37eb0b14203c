// Ten times a second while anything runs: what is due goes, and the console tells what runs and what comes.

/** A go that was due longer ago than this, while the page was away, starts no clock. */
const LATE_MS = 600_000;
/** A clock set back by less than this is not told from one that is corrected all the time. */
const SET_BACK_MS = 200;
/** How long before a go its tones are handed to the sound card. */
const AHEAD_MS = 4_000;

function tick() {
  noticeSetBack();
  const at = now();
  for (const run of runs) goWhenDue(run, at);
  blocks.forEach(endCountdown);
  const coming = runs
    .filter((run) => goAt(run) !== null)
    .reduce((first, run) => (first === null || goAt(run) < goAt(first) ? run : first), null);
  const running = runs
    .filter((run) => clockOf(run) !== null)
    .map((run) => ({ run, elapsed: at - clockOf(run).start }))
    .sort((a, b) => a.elapsed - b.elapsed);
  for (const { run, elapsed } of running) {
    setText(run.watch, runningWords(elapsed));
    announcePasses(run, elapsed, running.length > 1);
  }
  const isActive = coming !== null || running.length > 0;
  byId("now").hidden = !isActive;
  showNextGo(coming, at);
  listRunning(running);
  showNextPass(running);
  byId("wake-sound").hidden = !(sound.isOn && coming !== null && !sound.canPlay());
  keepLit(isActive);
  beatWhile(isActive);
}

function beatWhile(isActive) {
  if (isActive && state.beat === null) state.beat = setInterval(tick, 100);
  if (!isActive && state.beat !== null) {
    clearInterval(state.beat);
    state.beat = null;
  }
}

/** A device that slept has its clock ahead of the page's own time; one whose clock was set back has it behind. */
function noticeSetBack() {
  const before = state.ahead;
  state.ahead = now() - performance.now();
  const isSetBack = state.ahead < before - SET_BACK_MS;
  if (isSetBack && runs.some((run) => clockOf(run) !== null)) showSetBack(true);
}

function goWhenDue(run, at) {
  const isDue = () => goAt(run) !== null && goAt(run) <= at;
  if (!isDue()) return;
  // A tab that slept does not know what another did meanwhile.
  takeUp(run.session);
  if (!isDue()) return;
  const due = goAt(run);
  run.session.store.gone[run.id] = true;
  run.session.store.save();
  if (at - due >= LATE_MS || clockOf(run) !== null) return;
  if (run.runInMs === null) {
    startClock(run, due);
    say(`Go: ${run.title}.`);
  } else {
    refreshRun(run);
    say(`Go: ${run.title}. Tap Start as they pass the start.`);
  }
  // Nothing moves away from one who types.
  const isTyping = document.activeElement instanceof HTMLInputElement;
  if (run.block === blocks[state.shown] && !isTyping) run.element.scrollIntoView({ block: "nearest" });
}

/** A countdown ends with the last go of its block. */
function endCountdown(block) {
  if (zeroOf(block) === null || block.runs.some((run) => goAt(run) !== null)) return;
  delete block.session.store.zeros[block.id];
  block.session.store.save();
  refreshBlock(block);
}

/** Of several runs, which one it is about. */
const whose = (run, isOneOfSeveral) => (isOneOfSeveral ? `${run.title}: ` : "");

function announcePasses(run, elapsed, isOneOfSeveral) {
  const since = run.heardUntil ?? elapsed;
  run.heardUntil = elapsed;
  const passed = run.passes.filter((pass) => {
    const at = pass.time_s * 1000;
    return pass.is_heard && at > since && at <= elapsed;
  });
  if (passed.length === 0) return;
  sound.split();
  say(whose(run, isOneOfSeveral) + passed.map((pass) => pass.words).join(", "));
}

function showNextGo(run, at) {
  byId("next-go").hidden = run === null;
  if (run === null) return;
  const left = goAt(run) - at;
  const key = goKey(run, goAt(run));
  setText(byId("next-go-name"), `${run.title} goes in`);
  setText(byId("next-go-time"), leftWords(left));
  if (left <= AHEAD_MS) sound.go(key, left);
  if (left <= LEAD_MS && !state.announced.has(key)) {
    state.announced.add(key);
    say(`${run.title} goes in ${Math.ceil(left / 1000)} seconds.`);
  }
}

/** The next place that any running clock comes by. */
function showNextPass(running) {
  const coming = running
    .flatMap(({ run, elapsed }) => run.passes.map((pass) => ({ run, pass, left: pass.time_s * 1000 - elapsed })))
    .filter(({ left }) => left > 0)
    .sort((a, b) => a.left - b.left);
  // Its line stays when the last is passed, so that nothing moves under a thumb.
  byId("next-split").hidden = !running.some(({ run }) => run.passes.length > 0);
  const [next] = coming;
  const words = next ? whose(next.run, running.length > 1) + next.pass.words : "Last split passed.";
  setText(byId("next-split-place"), words);
  setText(byId("next-split-time"), next ? `in ${leftWords(next.left)}` : "");
}

/** The running clocks, as buttons that lead to them. */
function listRunning(running) {
  const list = byId("running");
  const listed = running.map(({ run }) => run.element.id).join(" ");
  if (listed !== state.listed) {
    state.listed = listed;
    list.textContent = "";
    list.append(...running.map(({ run }) => runningItem(run)));
  }
  list.querySelectorAll(".time").forEach((time, index) => setText(time, runningWords(running[index].elapsed)));
}

function runningItem(run) {
  const [item, button] = [document.createElement("li"), document.createElement("button")];
  const time = document.createElement("strong");
  time.className = "time";
  button.type = "button";
  button.append(`${run.title} `, time);
  button.addEventListener("click", () => showRun(run));
  item.append(button);
  return item;
}
