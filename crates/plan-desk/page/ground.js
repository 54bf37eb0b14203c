// One's own track: its form is the planner's; here its values are collected and sent, and tracks are kept on the device.
import { Latest } from "./desk.js";
import { change, current } from "./evening.js";
import { all, byId, keptAt, keptRows, say, show } from "./page.js";
import { offerFile } from "./send.js";

const TRACKS = "toeline.tracks";
const latest = new Latest();

/** The file of the track that is shown; null for a new one. */
let file = null;

/** What waits for the form that was asked for. */
let waiting = [];

/** Waits until the form is the one of what is written. */
function settled() {
  if (byId("ground").getAttribute("aria-busy") !== "true") return Promise.resolve();
  return new Promise((resolve) => {
    waiting.push(resolve);
  });
}

function settle() {
  byId("ground").removeAttribute("aria-busy");
  const told = waiting;
  waiting = [];
  for (const resolve of told) resolve();
}

/** The map of the last form that had no problem. */
let map = "";

const kept = () => keptAt(TRACKS);

function keepAll(tracks) {
  localStorage.setItem(TRACKS, JSON.stringify(tracks));
  showKept();
}

/** The values of the form, each under the keys that its name is made of. */
function collected() {
  const form = {};
  for (const input of all("[name]", byId("ground-form"))) {
    const keys = input.name.split(".");
    const last = keys.pop();
    let held = form;
    keys.forEach((key, place) => {
      held = held[key] ??= /^\d+$/.test(keys[place + 1] ?? last) ? [] : {};
    });
    if (input.type === "checkbox") {
      held[last] ??= [];
      if (input.checked) held[last].push(input.value);
    } else {
      held[last] = input.value;
    }
  }
  return form;
}

/** Asks for the form: as it is written, with a list of it changed, or of another track. */
function askForm(request) {
  byId("ground").setAttribute("aria-busy", "true");
  latest
    .ask("ground_form", { track_file: file, ...request }, ({ isFine, body }) => {
      settle();
      if (isFine) {
        file = { name: body.file_name, text: body.yaml };
        map = body.map ?? map;
        showForm(body.html);
      } else if (byId("ground-form") === null) {
        file = null;
        askForm({});
      } else {
        byId("ground-problem").textContent = body.detail;
      }
    })
    .catch(() => {
      settle();
      say("offline");
    });
}

function showForm(html) {
  show(byId("ground"), html);
  for (const select of all("#ground-form select")) {
    if (select !== document.activeElement) select.value = select.querySelector("[selected]").value;
  }
  byId("ground-map").innerHTML = map;
  showKept();
}

/** Shows the track of the evening, if it is one's own, else one made of the built-in track that the evening is on. */
export function showGround() {
  if (byId("ground-form") !== null) return;
  const { track, track_file } = current().ground;
  file = track_file;
  askForm({ base: track });
}

/** Shows the tracks that are kept. */
function showKept() {
  const onOpen = (name, text) => openTrack({ name, text });
  byId("ground-kept").replaceChildren(...keptRows(kept(), { onOpen, onDrop: keepAll }));
}

/** Shows the form of another track. */
function openTrack(track_file) {
  file = track_file;
  askForm({});
  say("opened");
}

const actions = {
  "ground-use": () => {
    change({ ground: { ...current().ground, track_file: file } });
    document.querySelector('.views [data-view="evening"]').click();
  },
  "ground-keep": () => {
    keepAll({ ...kept(), [file.name]: file.text });
    say("kept");
  },
  "ground-save": () => offerFile(new Blob([file.text], { type: "application/yaml" }), file.name),
};

function wire() {
  const section = byId("ground");
  section.addEventListener("submit", (event) => event.preventDefault());
  section.addEventListener("input", ({ target }) => {
    if (target.closest("#ground-form") !== null) askForm({ form: collected() });
  });
  section.addEventListener("click", ({ target }) => {
    const button = target.closest("button");
    if (button === null) return;
    const { add, remove } = button.dataset;
    if (add !== undefined) askForm({ form: collected(), edit: { add } });
    else if (remove !== undefined) askForm({ form: collected(), edit: { remove } });
    else if (button.id in actions) settled().then(actions[button.id]);
  });
  section.addEventListener("change", async ({ target }) => {
    if (target.id === "ground-new" && target.value !== "") {
      file = null;
      askForm({ base: target.value });
    } else if (target.id === "ground-open" && target.files.length > 0) {
      const [opened] = target.files;
      openTrack({ name: opened.name, text: await opened.text() });
      target.value = "";
    }
  });
}

wire();
