// The times of the session that is on: boxes to correct, words for those without a time, the file.
import { isTimed, wordsIn } from "./model.js";
import { againstTarget, likelyMeant, secondsOf } from "./times.js";
import { byId, fill, made, setText } from "./view.js";

/** What stands in a box in place of a time. */
const WORDS = ["DNF", "DNS"];

const inputOf = (session, box) => byId(`${session.id}-${box.id}`);

/** What is shown beside a box: how far the time is from its target, or what was likely meant. */
function refreshBox(run, box) {
  const input = inputOf(run.session, box);
  if (input === null) return;
  const words = wordsIn(run, box);
  // Setting what is there already would move the cursor of one who types.
  if (input.value !== words) input.value = words;
  const row = input.parentElement;
  setText(row.querySelector(".against"), againstTarget(secondsOf(words), box.target));
  const meant = likelyMeant(words, run.metres);
  const question = row.querySelector(".meant");
  question.hidden = meant === null;
  setText(question, meant === null ? "" : `${meant}?`);
}

function boxRow(run, box, onTyped) {
  const id = `${run.session.id}-${box.id}`;
  const row = made("div", "", { class: "box" });
  const label = made("label", "", { for: id });
  const who = made("span", run.boxes.length === 1 && box.name === "" ? "Time" : box.who, { class: "who" });
  label.append(who, made("span", `, ${run.label}`, { class: "unseen" }));
  const input = made("input", "", { id, type: "text", inputmode: "decimal", autocomplete: "off", maxlength: 24, spellcheck: "false" });
  input.addEventListener("input", () => {
    onTyped(run, box, input.value);
    refreshBox(run, box);
  });
  const meant = made("button", "", { type: "button", class: "meant" });
  meant.addEventListener("click", () => {
    onTyped(run, box, likelyMeant(wordsIn(run, box), run.metres) ?? wordsIn(run, box));
    refreshBox(run, box);
    input.focus();
  });
  const more = made("select", "", { class: "word", "aria-label": `No time, ${box.who}, ${run.label}` });
  more.append(...["…", ...WORDS, "note"].map((word) => made("option", word)));
  more.addEventListener("change", () => {
    const word = more.value;
    more.selectedIndex = 0;
    if (WORDS.includes(word)) {
      onTyped(run, box, word);
      refreshBox(run, box);
    } else {
      // A keypad has no letters.
      input.setAttribute("inputmode", "text");
      input.focus();
    }
  });
  row.append(label, made("span", "", { class: "against" }), meant, input, more);
  return row;
}

/** The boxes of a block, made when it is opened. */
function openBlock(details, block, onTyped) {
  if (details.querySelector(".runs") !== null) return;
  const list = made("ul", "", { class: "runs" });
  for (const run of block.runs) {
    const item = made("li", "", { id: `${run.session.id}-${run.id}` });
    item.append(made("h2", run.name), ...run.boxes.map((box) => boxRow(run, box, onTyped)));
    list.append(item);
  }
  details.append(list);
  for (const run of block.runs) for (const box of run.boxes) refreshBox(run, box);
}

/** The tables of a session, with the block that is on open. */
export function openTimes(session, blockOn, handlers) {
  const tables = byId("tables");
  if (tables.dataset.session !== session.id) {
    tables.dataset.session = session.id;
    const blocks = session.blocks.filter((block) => block.runs.length > 0);
    const made_of = blocks.map((block) => {
      const details = made("details", "", { "data-block": block.id });
      details.append(made("summary", block.heading));
      details.addEventListener("toggle", () => {
        if (details.open) openBlock(details, block, handlers.onTyped);
      });
      return details;
    });
    fill(tables, made_of);
  }
  for (const details of tables.children) {
    const block = session.blocks.find(({ id }) => id === details.dataset.block);
    if (block === blockOn || session.blocks.length === 1) {
      details.open = true;
      openBlock(details, block, handlers.onTyped);
    }
  }
  refreshTimes(session, handlers);
}

/** Opens all that was timed, for paper. */
export function openAll(session, handlers) {
  openTimes(session, null, handlers);
  for (const details of byId("tables").children) {
    const block = session.blocks.find(({ id }) => id === details.dataset.block);
    if (!block.runs.some((run) => run.boxes.some((box) => wordsIn(run, box) !== ""))) continue;
    details.open = true;
    openBlock(details, block, handlers.onTyped);
  }
  refreshTimes(session, handlers);
  document.documentElement.classList.toggle("has-times", Object.keys(session.kept.times).length > 0);
}

/** Shows what is kept now. */
export function refreshTimes(session, { onSaveEarlier }) {
  // Before all of the page is there, and before the times are opened, there is nothing to show.
  if (byId("tables")?.dataset.session !== session.id) return;
  for (const run of session.runs) for (const box of run.boxes) refreshBox(run, box);
  const { kept } = session;
  const timed = session.runs.reduce((sum, run) => sum + run.boxes.filter((box) => isTimed(run, box)).length, 0);
  const where = kept.works ? "Kept on this device." : "This browser keeps nothing: save the times before you leave the page.";
  setText(byId("kept"), `${timed} of ${session.boxes.length} times taken. ${where}`);
  byId("kept").classList.toggle("is-lost", !kept.works);
  const earlier = kept.earlier.map((one, index) => {
    const button = made("button", `Save those of ${one.day || "before"}`, { type: "button" });
    button.addEventListener("click", () => onSaveEarlier(index));
    return button;
  });
  fill(byId("earlier"), earlier);
}
