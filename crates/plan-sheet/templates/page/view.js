// What is shown of the runs, the blocks and the times.

function setText(element, words) {
  if (element.textContent !== words) element.textContent = words;
}

/** Says it to those who do not see it. */
const say = (words) => setText(byId("said"), words);

/** Says that no clock can be trusted now. */
function showSetBack(isSetBack) {
  byId("set-back").hidden = !isSetBack;
}

/** Shows or hides a button; one that had the focus hands it to the button that takes its place. */
function showButton(button, isShown, instead) {
  const hadFocus = document.activeElement === button;
  button.hidden = !isShown;
  if (!isShown && hadFocus) instead.focus();
}

function nameButton(button, words, run) {
  setText(button, words);
  button.setAttribute("aria-label", `${words}, ${run.label}`);
}

function refreshRun(run) {
  const isRunning = clockOf(run) !== null;
  run.element.classList.toggle("is-running", isRunning);
  run.watch.hidden = !isRunning;
  nameButton(run.start, hasTime(run) ? "Again" : "Start", run);
  // The one that appears comes first, so that it can take the focus.
  const [appears, goes] = isRunning ? [run.stopAll, run.start] : [run.start, run.stopAll];
  showButton(appears, true);
  showButton(goes, false, appears);
  const meaning = meaningOf(run);
  if (meaning !== run.meaning) [run.meaning, run.meansSince] = [meaning, now()];
  nameButton(run.takeBack, meaning ?? "", run);
  showButton(run.takeBack, meaning !== null, appears);
  for (const box of run.boxes) {
    if (box.stop !== null) showButton(box.stop, isOpen(run, box), run.takeBack);
  }
  refreshBlock(run.block);
}

function refreshBlock(block) {
  if (block.counter === null) return;
  const next = nextRun(block);
  const isCounting = zeroOf(block) !== null;
  block.counter.hidden = next === null;
  block.later.hidden = !isCounting;
  block.counter.classList.toggle("is-counting", isCounting);
  if (next === null) return;
  const isFirst = next === block.runs.find((run) => run.goMs !== null);
  const start = isFirst ? `Start block ${block.number}: first go in 10 s` : `Continue with ${next.label}: go in 10 s`;
  setText(block.counter, isCounting ? "Stop the countdown" : start);
}

function refreshKept(session) {
  const { boxes, store } = session;
  const kept = session.element.querySelector(".kept");
  const where = store.works
    ? "Kept on this device."
    : "This browser keeps nothing: save the times before you leave the page.";
  setText(kept, `${boxes.filter(isTimed).length} of ${boxes.length} times taken. ${where}`);
  kept.classList.toggle("is-lost", !store.works);
}

/** Shows everything that a session has kept. */
function refreshSession(session) {
  for (const box of session.boxes) {
    const kept = session.store.times[box.id];
    const words = typeof kept === "string" ? kept : "";
    // Setting what is there already would move the cursor of one who types.
    if (box.input.value !== words) box.input.value = words;
  }
  session.runs.forEach(refreshRun);
  refreshKept(session);
}

/** Takes up what another tab with the same session has kept meanwhile. */
function takeUp(session) {
  if (!session.store.renew()) return;
  for (const run of session.runs) run.undo = [];
  refreshSession(session);
}

/** Where this tab keeps which block it shows, over a reload. */
const SHOWN_LAST = "toeline:block";

/** Shows one block and its session, and hides the others. */
function showBlock(index) {
  state.shown = Math.min(Math.max(index, 0), blocks.length - 1);
  const block = blocks[state.shown];
  for (const other of [...blocks, ...sessions]) {
    other.element.classList.toggle("is-shown", other === block || other === block?.session);
  }
  if (block === undefined) return;
  byId("choose").value = block.element.id;
  byId("previous").disabled = state.shown === 0;
  byId("next").disabled = state.shown === blocks.length - 1;
  attempt(() => sessionStorage.setItem(SHOWN_LAST, block.element.id));
}

/** A page is opened at the first of these blocks that has runs: a warm-up needs no clock. */
const opening = (among) => blocks.indexOf(among.find((block) => block.runs.length > 0) ?? among[0]);

function turnBlocks(by) {
  showBlock(state.shown + by);
  say(blocks[state.shown].heading);
}

/** Shows a run in its block, with the focus where it is stopped. */
function showRun(run) {
  showBlock(blocks.indexOf(run.block));
  run.element.scrollIntoView({ block: "nearest" });
  const button = run.boxes.length === 1 ? run.stopAll : run.boxes.find((box) => isOpen(run, box))?.stop;
  button?.focus();
}
