// The plan: its parts as the planner gives them, and a run drawn where it is asked for.
import { ask } from "./desk.js";
import { change, current } from "./evening.js";
import { all, byId, show } from "./page.js";

let parts = null;

/** Shows the parts of a plan; without them, that what is shown is of the text before. */
export function showPlan(newParts) {
  byId("old").hidden = newParts !== null;
  byId("run").setAttribute("aria-disabled", newParts === null);
  if (newParts === null) return;
  const before = parts;
  parts = newParts;
  for (const part of ["head", "map", "walk", "care"]) {
    if (parts[part] !== before?.[part]) show(byId(part), parts[part], ["open"]);
  }
  show(byId("late"), parts.late, ["open"]);
  const pressed = all(".show-run[aria-pressed=true]").map((button) => button.dataset);
  all(".drawn").forEach((drawn) => drawn.remove());
  show(byId("places"), parts.places, ["open"]);
  for (const { block, run } of pressed) {
    const button = byId("places").querySelector(`.show-run[data-block="${block}"][data-run="${run}"]`);
    if (button !== null) draw(button);
  }
  for (const details of all(".choices[open]")) offer(details);
}

/** What can be tapped in the plan. */
export function wirePlan() {
  byId("places").addEventListener("click", ({ target }) => {
    const button = target.closest("button");
    if (button?.classList.contains("show-run")) toggle(button);
    if (button?.classList.contains("offer")) choose(button);
  });
  byId("places").addEventListener("toggle", ({ target }) => target.open && offer(target), { capture: true });
}

function toggle(button) {
  const section = button.closest(".block");
  const wasPressed = button.getAttribute("aria-pressed") === "true";
  for (const other of all(".show-run", section)) other.setAttribute("aria-pressed", "false");
  section.querySelector(".drawn")?.remove();
  if (!wasPressed) draw(button);
}

/** Draws a run below the buttons of its block. */
function draw(button) {
  const { block, run } = button.dataset;
  const scene = parts?.scenes[parts.runs[block - 1]?.[run]];
  if (scene === undefined || scene.picture === null) return;
  button.setAttribute("aria-pressed", "true");
  const drawn = byId("run-picture").content.firstElementChild.cloneNode(true);
  const part = (name) => drawn.querySelector(`.${name}`);
  part("what").textContent = `${button.textContent}: ${scene.what}`;
  for (const [word, place] of scene.ends) {
    const row = document.createElement("div");
    const [dt, dd] = [document.createElement("dt"), document.createElement("dd")];
    [dt.textContent, dd.textContent] = [word, place];
    row.append(dt, dd);
    drawn.querySelector("dl").append(row);
  }
  drawn.querySelector("svg").setAttribute("viewBox", `0 0 360 ${parts.track.height}`);
  for (const surface of parts.track.surfaces) {
    const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
    path.setAttribute("d", surface);
    part("surfaces").append(path);
  }
  part("places").setAttribute("d", parts.track.places);
  const { picture } = scene;
  const names = { "run-ins": "run_ins", ways: "ways", finishes: "finishes", stands: "stands", arrow: "arrow" };
  for (const [name, key] of Object.entries(names)) part(name).setAttribute("d", picture[key]);
  const at = { "stand-word": picture.stand_at, "finish-word": picture.finish_at };
  for (const [name, [x, y]] of Object.entries(at)) {
    part(name).setAttribute("x", x);
    part(name).setAttribute("y", y);
  }
  button.closest(".runs").after(drawn);
}

/** Asks where else the runs of a block can start and finish. */
async function offer(details) {
  const block = Number(details.dataset.block);
  const { body, isFine } = await ask("places", { evening: current(), block });
  details.querySelector(".offered").innerHTML = isFine ? body.html : "";
}

function choose(button) {
  const block = Number(button.closest(".choices").dataset.block);
  const others = current().choices.filter((choice) => choice.block !== block);
  const { from, to } = button.dataset;
  const isFree = from === undefined && to === undefined;
  change({ choices: isFree ? others : [...others, { block, from: from ?? null, to: to ?? null }] });
}
