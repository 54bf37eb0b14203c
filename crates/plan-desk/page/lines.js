// What a line is for, and how far it was from one place to another: by a tap on the track, or by lane and colour.
import { ask } from "./desk.js";
import { current } from "./evening.js";
import { byId } from "./page.js";

let first = null;
let shownGround = "";

/** Draws the track of the evening. */
export async function showLines() {
  const { ground } = current();
  if (JSON.stringify(ground) === shownGround) return;
  shownGround = JSON.stringify(ground);
  const { isFine, body } = await ask("ground_map", { ground });
  byId("line-map").innerHTML = isFine ? body.map : "";
  await askLine();
  await askFar();
}

/** Where a tap lies on the ground, in metres. */
function onGround(svg, { clientX, clientY }) {
  const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(svg.getScreenCTM().inverse());
  return { x_m: x, y_m: -y };
}

async function show(element, operation, request) {
  const { isFine, body } = await ask(operation, request);
  element.textContent = "";
  if (isFine) element.innerHTML = body.html;
  else element.textContent = body.detail;
  return isFine ? body : null;
}

async function askLine(at = null) {
  const lane = Number(byId("line-lane").value);
  const colour = byId("line-colour").value || null;
  if (at === null && colour === null) {
    byId("line-answer").replaceChildren();
    return null;
  }
  const answer = await show(byId("line-answer"), "line", { ground: current().ground, lane, colour, at });
  if (answer !== null && at !== null) byId("line-lane").value = String(answer.lane);
  return answer;
}

async function askFar(taps = null) {
  const time = byId("far-time").value.trim() || null;
  const lane = Number(byId("line-lane").value);
  const places = taps ?? { from: byId("far-from").value, to: byId("far-to").value };
  const answer = await show(byId("far-answer"), "far", { ground: current().ground, lane, ...places, time });
  if (answer !== null && taps !== null) [byId("far-from").value, byId("far-to").value] = [answer.from, answer.to];
}

function wire() {
  byId("larger").addEventListener("click", () => {
    const isLarge = byId("line-map").classList.toggle("is-large");
    byId("larger").setAttribute("aria-pressed", isLarge);
  });
  byId("line-map").addEventListener("click", async (event) => {
    const svg = byId("line-map").querySelector("svg");
    if (svg === null) return;
    const at = onGround(svg, event);
    const answer = await askLine(at);
    if (answer === null) return;
    if (first !== null && first.lane === answer.lane) {
      await askFar({ from: first.place, to: answer.place });
      first = null;
    } else {
      first = answer;
    }
  });
  for (const id of ["line-lane", "line-colour"]) byId(id).addEventListener("change", () => askLine());
  byId("line-lane").addEventListener("change", () => askFar());
  for (const id of ["far-from", "far-to", "far-time"]) byId(id).addEventListener("change", () => askFar());
}

wire();
