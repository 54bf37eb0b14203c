// What is wrong, under the words that it is about.
import { all, byId, wordsOf } from "./page.js";

/** Shows problems beside their fields, and underlines them in the text. */
export function showProblems(problems, more) {
  const lists = all(".problems");
  const fields = new Set(lists.map((list) => list.dataset.field));
  for (const list of lists) {
    const own = problems.filter(({ field }) => (fields.has(field) ? field : "request") === list.dataset.field);
    list.replaceChildren(...own.map(item));
    if (own.length > 0 && more > 0 && list.dataset.field === "text") list.append(note(`+ ${more} ${wordsOf("more")}`));
    const fold = list.closest("details");
    if (own.length > 0 && fold !== null) fold.open = true;
  }
  byId("text").setAttribute("aria-invalid", problems.some(({ field }) => field === "text"));
  underline(problems.filter(({ field, place }) => field === "text" && place !== null));
}

function item(problem) {
  const li = document.createElement("li");
  const { place } = problem;
  if (place !== null) {
    const go = document.createElement("button");
    go.type = "button";
    go.textContent = `${wordsOf("line")} ${place.line}`;
    go.addEventListener("click", () => select(problem.field, place));
    const words = document.createElement("span");
    words.className = "words";
    const mark = document.createElement("mark");
    mark.textContent = place.words === "" ? " " : place.words;
    words.append(place.before, mark, place.after);
    li.append(go, words);
  }
  const message = document.createElement("span");
  message.className = "message";
  message.textContent = problem.message;
  li.append(message);
  if (problem.help !== null) li.append(` – ${problem.help}`);
  return li;
}

function note(text) {
  const li = document.createElement("li");
  li.textContent = text;
  return li;
}

function select(field, { from, to }) {
  const box = byId(field);
  if (box === null) return;
  box.focus();
  box.setSelectionRange(from, Math.max(to, from + 1));
}

/** A copy of the text lies under it, with the words underlined. */
function underline(problems) {
  const mirror = byId("mirror");
  // Nothing to underline; to ask where the text is scrolled to would lay the page out anew.
  if (problems.length === 0) {
    mirror.replaceChildren();
    return;
  }
  const { value } = byId("text");
  const parts = [];
  let done = 0;
  for (const { place } of [...problems].sort((a, b) => a.place.from - b.place.from)) {
    if (place.from < done) continue;
    const mark = document.createElement("mark");
    mark.textContent = value.slice(place.from, place.to) || " ";
    parts.push(value.slice(done, place.from), mark);
    done = Math.max(place.to, place.from);
  }
  mirror.replaceChildren(...parts, value.slice(done));
  mirror.scrollTop = byId("text").scrollTop;
}

/** The copy keeps to the text while the planner thinks: underlines that may be wrong go. */
export function wireMirror() {
  const text = byId("text");
  text.addEventListener("input", () => underline([]));
  text.addEventListener("scroll", () => {
    byId("mirror").scrollTop = text.scrollTop;
  });
}
