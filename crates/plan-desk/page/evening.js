// The evening that the page is about: what the planner is asked, kept while it is written.

const DRAFT = "toeline.draft";
const listeners = [];

/** An evening of which nothing is written. */
export function emptyEvening() {
  return {
    text: "",
    squad: "",
    ground: { track: null, track_file: null, closed: [] },
    choices: [],
    late: emptyLate(),
  };
}

/** No late changes. */
export function emptyLate() {
  return { start: null, groups: [], without: [], reps: [], closed: [], hazards: [], wind: null, skip: [] };
}

/** An evening as it was kept, with every part that this page knows. */
export function wholeEvening(kept) {
  const empty = emptyEvening();
  return {
    ...empty,
    ...kept,
    ground: { ...empty.ground, ...kept?.ground },
    late: { ...empty.late, ...kept?.late },
  };
}

let evening = emptyEvening();

export const current = () => evening;

/** Calls back when the evening changes. */
export function onChange(listener) {
  listeners.push(listener);
}

/** Changes the evening; `source` is the element that shows the change already. */
export function change(changed, source = null) {
  evening = { ...evening, ...changed };
  keepDraft();
  for (const listener of listeners) listener(evening, source);
}

/** Changes what is late. */
export function changeLate(changed, source = null) {
  change({ late: { ...evening.late, ...changed } }, source);
}

/** A value is put into a list, or taken out of it. */
export function toggled(list, value) {
  return list.includes(value) ? list.filter((one) => one !== value) : [...list, value];
}

function keepDraft() {
  try {
    localStorage.setItem(DRAFT, JSON.stringify(evening));
  } catch {
    // A full or forbidden storage keeps no draft; the page goes on.
  }
}

/** The draft of the last visit, if there is one. */
export function draft() {
  try {
    return JSON.parse(localStorage.getItem(DRAFT));
  } catch {
    return null;
  }
}
