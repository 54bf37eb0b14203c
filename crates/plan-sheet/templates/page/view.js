// The first screen as it is drawn: what is there stays in its place, and only its words change.

export const byId = (id) => document.getElementById(id);

export function setText(element, words) {
  if (element.textContent !== words) element.textContent = words;
}

function setAttribute(element, name, value) {
  if (element.getAttribute(name) !== String(value)) element.setAttribute(name, value);
}

/** Says it to those who do not see it. */
export const say = (words) => setText(byId("said"), words ?? "");

/** An element with its words. */
export function made(name, words, attributes = {}) {
  const element = document.createElement(name);
  element.textContent = words;
  for (const [attribute, value] of Object.entries(attributes)) element.setAttribute(attribute, value);
  return element;
}

export function fill(element, children) {
  element.textContent = "";
  element.append(...children);
}

const shown = { track: null, picture: undefined, ends: null, names: null, others: "" };

/** The track of a session under every run. */
function showTrack(session) {
  if (shown.track === session) return;
  const isFirst = shown.track === null && session.isOpening;
  shown.track = session;
  // The page comes with the first track drawn.
  if (isFirst) return;
  const { height, surfaces, places } = session.track;
  setAttribute(byId("picture"), "viewBox", `0 0 360 ${height}`);
  const paths = surfaces.map((d) => {
    const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
    path.setAttribute("d", d);
    return path;
  });
  fill(byId("surfaces"), paths);
  setAttribute(byId("places"), "d", places);
}

/** Where nothing is to be seen. */
const NOWHERE = { ways: "", run_ins: "", arrow: "", stands: "", finishes: "", stand_at: [0, -99], finish_at: [0, -99] };

function showPicture(picture) {
  if (shown.picture === picture) return;
  shown.picture = picture;
  const drawn = picture ?? NOWHERE;
  const paths = { ways: drawn.ways, "run-ins": drawn.run_ins, arrow: drawn.arrow, stands: drawn.stands, finishes: drawn.finishes };
  for (const [id, d] of Object.entries(paths)) setAttribute(byId(id), "d", d);
  for (const [id, [x, y]] of [["stand-word", drawn.stand_at], ["finish-word", drawn.finish_at]]) {
    setAttribute(byId(id), "x", x);
    setAttribute(byId(id), "y", y);
  }
}

function showEnds(ends) {
  const key = JSON.stringify(ends);
  if (shown.ends === key) return;
  shown.ends = key;
  const rows = ends.map(([word, place]) => {
    const row = document.createElement("div");
    row.append(made("dt", word), made("dd", place));
    return row;
  });
  fill(byId("ends"), rows);
}

/** The names above the button. Their buttons stay, and empty ones keep their place while the stage lasts. */
function showNames(screen, onName) {
  const list = byId("names");
  list.hidden = screen.places === 0;
  while (list.children.length < screen.places) {
    const slot = made("button", "", { type: "button", class: "name" });
    slot.append(made("span", "", { class: "unseen" }), made("span", "", { class: "who" }), made("span", "", { class: "at" }));
    list.append(slot);
  }
  setAttribute(list, "data-places", screen.places);
  list.classList.toggle("is-dense", screen.places > 9);
  [...list.children].forEach((slot, index) => {
    if (slot.onclick === null) slot.onclick = () => onName(index);
    slot.hidden = index >= screen.places;
    const name = screen.names[index];
    slot.classList.toggle("is-empty", name === undefined);
    slot.disabled = name?.isOpen !== true && name?.canUndo !== true;
    slot.classList.toggle("is-open", name?.isOpen === true);
    slot.classList.toggle("can-undo", name?.canUndo === true);
    const [does, who, at] = slot.children;
    setText(does, name?.isOpen === true ? "Stop " : "");
    setText(who, name?.who ?? "Nobody");
    setText(at, name?.at ?? "");
  });
}

/** The other runs whose clocks run, to be chosen. */
function showOthers(screen, onOther) {
  const list = byId("others");
  byId("line").classList.toggle("is-high", screen.isHigh);
  const key = screen.others.map(({ run }) => run.id).join(" ");
  if (shown.others !== key) {
    shown.others = key;
    const buttons = screen.others.map(({ run }) => {
      const button = made("button", "", { type: "button" });
      button.addEventListener("click", () => onOther(run));
      return button;
    });
    fill(list, buttons);
  }
  screen.others.forEach(({ words }, index) => setText(list.children[index], words));
}

/** Draws what the screen shows. */
export function draw(screen, session, { onName, onOther }) {
  setText(byId("head"), screen.head);
  setText(byId("beside"), session.beside);
  setText(byId("rep"), screen.rep);
  setText(byId("what"), screen.what);
  showTrack(session);
  showPicture(screen.picture);
  showEnds(screen.ends);
  byId("warning").hidden = screen.warning === null;
  setText(byId("warning"), screen.warning ?? "");
  setText(byId("ticker"), screen.ticker);
  showOthers(screen, onOther);
  showNames(screen, onName);
  setText(byId("go-words"), screen.words);
  setText(byId("go-beside"), screen.beside);
  setAttribute(byId("go"), "data-kind", screen.kind);
  setText(byId("to-times"), screen.times);
}
