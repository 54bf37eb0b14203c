// What is kept on this device, and the files that come in and go out.
import { change, current, wholeEvening } from "./evening.js";
import { byId, keptAt, keptRows, say } from "./page.js";
import { offerFile } from "./send.js";

const SHELF = "toeline.kept";

const kept = () => keptAt(SHELF);

function keepAll(evenings) {
  localStorage.setItem(SHELF, JSON.stringify(evenings));
  showShelf();
}

/** Shows what is kept. */
export function showShelf() {
  const onOpen = (name, evening) => {
    openEvening(evening);
    byId("keep-name").value = name;
  };
  const rows = keptRows(kept(), { onOpen, onDrop: keepAll });
  byId("none-kept").hidden = rows.length > 0;
  byId("kept").replaceChildren(...rows);
}

/** Goes on with an evening. */
function openEvening(evening) {
  change(wholeEvening(evening));
  document.querySelector('.views [data-view="evening"]').click();
  say("opened");
}

export function wireShelf() {
  byId("keep").addEventListener("click", () => {
    const name = byId("keep-name").value.trim() || document.querySelector("#head .title").textContent;
    keepAll({ ...kept(), [name]: current() });
    say("kept");
  });
  byId("export").addEventListener("click", () =>
    offerFile(new Blob([JSON.stringify({ toeline: 1, kept: kept() }, null, 2)], { type: "application/json" }), "toeline-kept.json"),
  );
  byId("import").addEventListener("change", async ({ target }) => {
    const [file] = target.files;
    if (file === undefined) return;
    try {
      const { kept: brought } = JSON.parse(await file.text());
      const evenings = Object.entries(brought).map(([name, evening]) => [name, wholeEvening(evening)]);
      keepAll({ ...kept(), ...Object.fromEntries(evenings) });
      say("brought");
    } catch {
      say("not-brought");
    }
    target.value = "";
  });
  byId("open").addEventListener("change", async ({ target }) => {
    const [file] = target.files;
    if (file === undefined) return;
    openText(file.name, await file.text());
    target.value = "";
  });
}

/** Opens the text of a session file, of a message, or of a track. */
export function openText(name, text) {
  const isTrack = /\.ya?ml$/i.test(name) && /^(path|home_straight|lane_width|inner_edge):/m.test(text);
  if (isTrack) {
    change({ ground: { ...current().ground, track_file: { name, text } } });
    document.querySelector('.views [data-view="evening"]').click();
    say("opened");
    return;
  }
  openEvening({ text, ground: current().ground });
}
