// What all parts of the page share: its elements, and what it says aloud.

export const byId = (id) => document.getElementById(id);
export const all = (selector, within = document) => [...within.querySelectorAll(selector)];

let timer = 0;

/** Says something that has been done, or for good that something cannot be; its words stand in the page. */
export function say(name, stays = false) {
  const said = byId("said");
  said.textContent = wordsOf(name);
  said.hidden = false;
  clearTimeout(timer);
  if (stays) return;
  timer = setTimeout(() => {
    said.hidden = true;
  }, 4000);
}

/** Words of the page by their name. */
export function wordsOf(name) {
  return byId("words").content.querySelector(`[data-say="${name}"]`).textContent;
}

/** Puts HTML of the planner in the place of an element's content; what stays the same keeps its focus and its state. */
export function show(element, html, keep = []) {
  Idiomorph.morph(element, html, {
    morphStyle: "innerHTML",
    ignoreActiveValue: true,
    callbacks: {
      beforeAttributeUpdated: (name) => !keep.includes(name),
      beforeNodeRemoved: (node) => !(node.classList?.contains("drawn") || node.parentElement?.classList.contains("offered")),
    },
  });
}

/** The rows of what is kept under names: each is opened by its button, or taken away. */
export function keptRows(kept, { onOpen, onDrop }) {
  const names = Object.keys(kept).sort((a, b) => a.localeCompare(b));
  return names.map((name) => {
    const row = byId("kept-row").content.firstElementChild.cloneNode(true);
    const [open, drop] = all("button", row);
    open.textContent = name;
    open.addEventListener("click", () => onOpen(name, kept[name]));
    drop.firstElementChild.textContent = ` ${name}`;
    drop.addEventListener("click", () => {
      const { [name]: dropped, ...others } = kept;
      onDrop(others);
      say("removed");
    });
    return row;
  });
}

/** What is kept under a key of this device; nothing where it cannot be read. */
export function keptAt(key) {
  try {
    return JSON.parse(localStorage.getItem(key)) ?? {};
  } catch {
    return {};
  }
}
