// What all parts of the page share: its elements, and what it says aloud.

export const byId = (id) => document.getElementById(id);
export const all = (selector, within = document) => [...within.querySelectorAll(selector)];

let timer = 0;

/** Says something that has been done; its words stand in the page. */
export function say(name) {
  const said = byId("said");
  said.textContent = wordsOf(name);
  said.hidden = false;
  clearTimeout(timer);
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
