// The folder of session files, where the program serves one.
import { ask } from "./desk.js";
import { change, current } from "./evening.js";
import { byId, say } from "./page.js";
import { openText } from "./shelf.js";

/** The version of each file that was opened here. */
const versions = new Map();

/** Shows the folder, where there is one. */
export async function wireFolder() {
  if (byId("folder") === null) return;
  byId("folder-save").addEventListener("click", save);
  await list();
}

async function list() {
  const reply = await fetch("api/sessions");
  if (!reply.ok) return;
  const { sessions } = await reply.json();
  byId("folder-files").replaceChildren(
    ...sessions.map(({ name }) => {
      const li = document.createElement("li");
      const open = document.createElement("button");
      open.type = "button";
      open.className = "open-kept";
      open.textContent = name;
      open.addEventListener("click", () => openFile(name));
      li.append(open);
      return li;
    }),
  );
}

/** The track file that a session needs is taken from the folder, where it is there. */
export async function useTrackOfFolder(problems) {
  const name = problems.find(({ needs_track }) => needs_track !== null && needs_track !== undefined)?.needs_track;
  if (name === undefined || byId("folder") === null) return;
  const reply = await fetch(address(name));
  if (reply.ok) change({ ground: { ...current().ground, track: null, track_file: { name, text: await reply.text() } } });
}

const address = (name) => `api/sessions/${encodeURIComponent(name)}`;

async function openFile(name) {
  const reply = await fetch(address(name));
  if (!reply.ok) return;
  versions.set(name, reply.headers.get("ETag"));
  byId("folder-name").value = name;
  openText(name, await reply.text());
}

async function save() {
  const name = byId("folder-name").value.trim();
  const file = await ask("file", { evening: current(), ending: "yaml", now_s: 0 });
  if (!file.isFine) {
    byId("folder-problem").textContent = JSON.parse(await file.body.text()).detail;
    return;
  }
  const known = versions.get(name);
  const headers = { "Content-Type": "application/yaml" };
  if (known === undefined) headers["If-None-Match"] = "*";
  else headers["If-Match"] = known;
  const reply = await fetch(address(name), { method: "PUT", headers, body: await file.body.text() });
  if (reply.ok) {
    versions.set(name, reply.headers.get("ETag"));
    byId("folder-problem").textContent = "";
    say("saved");
    await list();
  } else if (reply.status === 412) {
    // Whoever saves again has read that the file is newer.
    const now = await fetch(address(name), { method: "HEAD" });
    versions.set(name, now.headers.get("ETag"));
    say("newer");
  } else {
    byId("folder-problem").textContent = (await reply.json()).detail;
  }
}
