// What is seldom needed: a quiet list of it.
import { undoable } from "./clocks.js";
import { clockOf } from "./model.js";
import { blockOn, shortName } from "./screen.js";
import { goAt, isCounting, nextRun, restsFromFinish, stageRuns, waitingSince } from "./timetable.js";
import { byId, fill, made } from "./view.js";

function button(words, act) {
  const one = made("button", words, { type: "button" });
  one.addEventListener("click", () => {
    byId("menu").close();
    act();
  });
  return one;
}

function choice(words, id, options, value, act) {
  const label = made("label", "", { for: id });
  const select = made("select", "", { id });
  select.append(...options);
  select.value = value;
  // What it lists is of the choice before.
  select.addEventListener("change", () => {
    byId("menu").close();
    act(select.value);
  });
  label.append(made("span", words), select);
  return label;
}

const option = (words, value) => made("option", words, { value });

/** What can be done with the clocks just now. */
function acts(desk, screen, at, act) {
  const { session } = desk;
  const { run } = screen;
  const list = [];
  const last = undoable(desk, at);
  if (last !== null) list.push(button(`Undo ${last.words}`, act.undo));
  const block = run?.block ?? blockOn(session);
  const runs = block === undefined ? [] : stageRuns(block);
  const next = nextRun(runs.filter((other) => clockOf(other) === null));
  const isRunning = run !== null && clockOf(run) !== null;
  if (isRunning && run.boxes.length > 1) list.push(button("The rest did not finish (DNF)", () => act.endWith(run, "DNF")));
  if (isRunning && run.boxes.length === 1) list.push(button("Did not finish (DNF)", () => act.endWith(run, "DNF")));
  if (isRunning || (run !== null && waitingSince(run) !== null)) list.push(button("False start: cancel this clock", () => act.cancel(run)));
  if (next !== null && next !== run) list.push(button(`Start ${shortName(next)} now`, () => act.start(next)));
  if (next !== null && next === run && !isRunning) list.push(button("Start now, without a countdown", () => act.start(next)));
  if (isCounting(runs)) {
    list.push(button("10 s later", () => act.later(runs)), button("Stop the countdown", () => act.stopCountdown(runs)));
  }
  const skipped = runs.find((other) => goAt(other) !== null) ?? next;
  if (skipped !== null && clockOf(skipped) === null) list.push(button(`Leave out ${skipped.label}`, () => act.skip(skipped)));
  return list;
}

/** Which run or block is next, whose runs are timed here, from where rests count, sound. */
function choices(desk, screen, act) {
  const { session, sessions } = desk;
  const list = [];
  const block = screen.block ?? blockOn(session);
  const at = `${session.id} ${block?.id ?? ""}`;
  const blocks = sessions.map((one) => {
    const options = one.blocks.map((other) => option(other.heading, `${one.id} ${other.id}`));
    if (sessions.length === 1) return options;
    const group = made("optgroup", "", { label: one.title });
    group.append(...options);
    return [group];
  });
  list.push(choice("Block", "choose", blocks.reduce((all, some) => all.concat(some), []), at, (value) => {
    const [id, chosen] = value.split(" ");
    act.choose(sessions.find((one) => one.id === id), chosen);
  }));
  if (block !== undefined && block.runs.length > 1) {
    const next = nextRun(block.runs);
    const runs = block.runs.map((run) => option(run.name, run.id));
    list.push(choice("Next run", "choose-run", runs, next?.id ?? "", act.chooseRun));
  }
  const groups = session.blocks.map(({ group }) => group).filter((group, index, all) => group !== null && all.indexOf(group) === index);
  if (groups.length > 1) {
    const options = [option("everybody", ""), ...groups.map((group) => option(group, group))];
    list.push(choice("Timed here", "choose-group", options, session.kept.choices.group ?? "", act.chooseGroup));
  }
  if (session.runs.some(({ restMs }) => restMs !== null)) {
    const options = [option("from each finish", "finish"), option("by the timetable", "timetable")];
    list.push(choice("Rest", "choose-rest", options, restsFromFinish(session) ? "finish" : "timetable", act.chooseRest));
  }
  const options = [option("on", "on"), option("off", "off")];
  list.push(choice("Sound", "choose-sound", options, session.kept.choices.sound ?? "on", act.chooseSound));
  return list;
}

/** Opens it. */
export function openMenu(desk, screen, at, act) {
  const menu = byId("menu");
  const close = made("button", "Close", { type: "button", id: "menu-close" });
  close.addEventListener("click", () => menu.close());
  fill(menu, [made("h2", "More", { id: "menu-title" }), ...acts(desk, screen, at, act), ...choices(desk, screen, act), close]);
  menu.showModal();
}

/** Asks a question of two answers. */
export function ask(words, answers) {
  const menu = byId("menu");
  fill(menu, [made("h2", words, { id: "menu-title" }), ...answers.map(([answer, act]) => button(answer, act))]);
  menu.showModal();
}
