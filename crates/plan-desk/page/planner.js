// The planner's page: what is written goes to the planner, and what it answers is shown.
import { Latest, ask } from "./desk.js";
import { change, current, draft, onChange, toggled, wholeEvening } from "./evening.js";
import { useTrackOfFolder, wireFolder } from "./folder.js";
import { showLate, wireLate } from "./late.js";
import { all, byId, say } from "./page.js";
import { showPlan, wirePlan } from "./plan.js";
import { showProblems, wireMirror } from "./problems.js";
import { wireSend } from "./send.js";
import { showShelf, wireShelf } from "./shelf.js";

const RUN = "toeline.run";
const latest = new Latest();

/** Asks for the plan of the evening. The page is busy until the plan of its last change is there. */
function plan(evening) {
  const { dataset } = document.documentElement;
  dataset.busy = "";
  latest
    .ask("plan", evening, ({ isFine, body }) => {
      delete dataset.busy;
      dataset.planned = String(Number(dataset.planned ?? 0) + 1);
      if (!isFine) {
        showProblems([{ field: "request", message: body.detail, help: null, place: null }], 0);
        showPlan(null);
        return;
      }
      showProblems(body.problems, body.more_problems);
      showPlan(body.parts);
      if (body.parts !== null) showLanes(body.parts.track.lanes);
      useTrackOfFolder(body.problems);
    })
    .catch(() => {
      delete dataset.busy;
      say("offline", true);
    });
}

/** The fields show the evening. */
function showEvening(evening, source) {
  for (const id of ["text", "squad"]) {
    if (byId(id) !== source && byId(id).value !== evening[id]) byId(id).value = evening[id];
  }
  const { ground } = evening;
  showTracks(ground);
  for (const button of all(".lane")) {
    button.setAttribute("aria-pressed", ground.closed.includes(Number(button.dataset.lane)));
  }
  if (evening.squad !== "") byId("squad-fold").open = true;
  showLate(evening);
}

/** A track file stands among the tracks by its name. */
function showTracks({ track, track_file }) {
  const select = byId("track");
  let own = select.querySelector("[data-own]");
  if (track_file === null) {
    own?.remove();
    select.value = track ?? "standard";
  } else {
    if (own === null) {
      own = document.createElement("option");
      own.dataset.own = "";
      select.append(own);
    }
    own.textContent = track_file.name;
    own.value = "own";
    select.value = "own";
  }
  const { lanes } = select.selectedOptions[0]?.dataset ?? {};
  if (lanes !== undefined) showLanes(Number(lanes));
}

/** Lanes that the track does not have are not offered. */
function showLanes(lanes) {
  for (const button of all(".lane, .shut")) button.hidden = Number(button.dataset.lane) > lanes;
}

function wireWriting() {
  byId("squad").addEventListener("input", ({ target }) => change({ squad: target.value }, target));
  byId("text").addEventListener("input", ({ target }) => {
    const { text, choices } = current();
    // Places stay with their blocks as long as no line comes or goes.
    const isSame = text.split("\n").length === target.value.split("\n").length;
    change({ text: target.value, choices: isSame ? choices : [] }, target);
  });
  for (const button of all(".example")) {
    button.addEventListener("click", () => {
      const { text, squad, closed } = button.dataset;
      const lanes = closed === "" ? [] : closed.split(",").map(Number);
      change(wholeEvening({ text, squad, ground: { ...current().ground, closed: lanes } }));
    });
  }
  byId("track").addEventListener("change", ({ target }) => {
    if (target.value !== "own") change({ ground: { ...current().ground, track: target.value, track_file: null } });
  });
  for (const button of all(".lane")) {
    button.addEventListener("click", () => {
      const { ground } = current();
      change({ ground: { ...ground, closed: toggled(ground.closed, Number(button.dataset.lane)) } });
    });
  }
}

/** What a view does when it is opened; what only it needs is fetched then. */
const opened = {
  lines: async () => (await import("./lines.js")).showLines(),
  ground: async () => (await import("./ground.js")).showGround(),
  shelf: showShelf,
};

function wireViews() {
  for (const button of all(".views button")) {
    button.addEventListener("click", () => {
      for (const other of all(".views button")) other.toggleAttribute("aria-current", false);
      button.setAttribute("aria-current", "page");
      for (const view of all(".view")) view.hidden = view.id !== button.dataset.view;
      opened[button.dataset.view]?.();
      scrollTo(0, 0);
    });
  }
}

/** The evening of a link, else the one that was being written, else the one that the page shows. */
async function begin() {
  const fragment = location.hash.startsWith("#e=") ? location.hash.slice(3) : null;
  if (fragment !== null) {
    const { isFine, body } = await ask("open_link", { fragment });
    if (isFine) {
      change(wholeEvening(body.evening));
      return;
    }
    showProblems([{ field: "request", message: body.detail, help: null, place: null }], 0);
  }
  const shown = { text: byId("text").value, ground: { closed: all(".lane[aria-pressed=true]").map((lane) => Number(lane.dataset.lane)) } };
  change(wholeEvening(draft() ?? shown));
}

onChange(showEvening);
onChange(plan);
wireWriting();
wireMirror();
wirePlan();
wireLate();
wireSend();
wireShelf();
wireViews();
byId("run").addEventListener("click", () => localStorage.setItem(RUN, JSON.stringify(current())));
addEventListener("hashchange", () => location.hash.startsWith("#e=") && begin());
begin();
wireFolder();
