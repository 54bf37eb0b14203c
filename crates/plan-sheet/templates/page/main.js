// Every button is given its job, and the page begins.

const onClick = (element, act) => element?.addEventListener("click", act);

function wireRun(run) {
  onClick(run.start, () => startByHand(run));
  onClick(run.stopAll, () => stop(run, run.boxes));
  onClick(run.takeBack, () => takeBack(run));
  for (const box of run.boxes) {
    onClick(box.stop, () => stop(run, [box]));
    box.input.addEventListener("input", () => typed(run, box));
  }
}

function wireSession(session) {
  session.runs.forEach(wireRun);
  for (const block of session.blocks) {
    onClick(block.counter, () => toggleCountdown(block));
    onClick(block.later, () => delayCountdown(block));
  }
  onClick(session.element.querySelector(".save"), () => saveTimes(session));
  onClick(session.element.querySelector(".clear"), () => clearTimes(session));
  const map = session.element.querySelector(".map");
  const enlarge = map.querySelector(".enlarge");
  onClick(enlarge, () => enlarge.setAttribute("aria-pressed", String(map.classList.toggle("is-large"))));
}

function wireSoundSwitches() {
  const switches = document.querySelectorAll(".sound");
  const turn = (isOn) => {
    sound.isOn = isOn;
    for (const one of switches) one.checked = isOn;
    if (isOn) sound.wake();
    else sound.hushAll();
  };
  for (const one of switches) one.addEventListener("change", () => turn(one.checked));
}

function wirePager() {
  byId("pager").hidden = blocks.length < 2;
  onClick(byId("previous"), () => turnBlocks(-1));
  onClick(byId("next"), () => turnBlocks(1));
  byId("choose").addEventListener("change", (event) => {
    showBlock(blocks.findIndex((block) => block.element.id === event.target.value));
  });
  for (const link of document.querySelectorAll(".contents a")) {
    onClick(link, () => {
      const session = sessions.find(({ id }) => `#${id}` === link.hash);
      showBlock(opening(session.blocks));
    });
  }
}

function wireDevice() {
  document.addEventListener("pointerdown", () => sound.wake());
  document.addEventListener("keydown", () => sound.wake());
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") sessions.forEach(takeUp);
    tick();
  });
  addEventListener("storage", (event) => {
    sessions.filter(({ store }) => event.key === null || event.key === store.key).forEach(takeUp);
    tick();
  });
}

document.documentElement.classList.add("js");
sessions.forEach(wireSession);
sessions.forEach(refreshSession);
wireSoundSwitches();
wirePager();
wireDevice();
const shownLast = attempt(() => sessionStorage.getItem(SHOWN_LAST));
const last = blocks.findIndex((block) => block.element.id === shownLast);
showBlock(last === -1 ? opening(blocks) : last);
tick();
