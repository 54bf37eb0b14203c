// What changes at the trackside: buttons that plan the rest anew.
import { changeLate, current, emptyLate, toggled } from "./evening.js";
import { all, byId } from "./page.js";

/** The buttons show what has changed. */
export function showLate({ late }) {
  if (document.activeElement !== byId("start")) byId("start").value = late.start ?? "";
  for (const button of all(".shut")) {
    button.setAttribute("aria-pressed", late.closed.includes(Number(button.dataset.lane)));
  }
  if (late.wind === null) byId("wind-side").value = "";
}

export function wireLate() {
  byId("start-now").addEventListener("click", () => {
    const now = new Date();
    const two = (number) => String(number).padStart(2, "0");
    changeLate({ start: `${two(now.getHours())}:${two(now.getMinutes())}` });
  });
  byId("start").addEventListener("change", ({ target }) => changeLate({ start: target.value || null }, target));
  for (const button of all(".shut")) {
    button.addEventListener("click", () =>
      changeLate({ closed: toggled(current().late.closed, Number(button.dataset.lane)) }),
    );
  }
  const wind = () => {
    const side = byId("wind-side").value;
    changeLate({ wind: side === "" ? null : side.replace("{}", byId("wind-speed").value || "1") });
  };
  byId("wind-side").addEventListener("change", wind);
  byId("wind-speed").addEventListener("change", () => byId("wind-side").value !== "" && wind());
  byId("no-changes").addEventListener("click", () => changeLate(emptyLate()));
  byId("late").addEventListener("click", ({ target }) => tap(target.closest("button")));
  byId("late").addEventListener("change", ({ target }) => {
    const row = target.closest(".fewer-row");
    if (row !== null) fewer(row);
    if (!target.classList.contains("late-group")) return;
    const { group } = target.dataset;
    const others = current().late.groups.filter((one) => one.group !== group);
    changeLate({ groups: target.value === "" ? others : [...others, { group, begins: target.value }] });
  });
}

/** Somebody does fewer runs, once it is said who and how many. */
function fewer(row) {
  const name = row.querySelector(".fewer-name").value;
  const reps = row.querySelector(".fewer-reps").valueAsNumber;
  if (name === "" || !(reps >= 1)) return;
  changeLate({ reps: [...current().late.reps.filter((one) => one.name !== name), { name, reps: Math.floor(reps) }] });
  row.querySelector(".fewer-name").value = "";
  row.querySelector(".fewer-reps").value = "";
}

function tap(button) {
  if (button === null) return;
  const { late } = current();
  const { name, hazard, block, fewer: who } = button.dataset;
  if (who !== undefined) changeLate({ reps: late.reps.filter((one) => one.name !== who) });
  if (name !== undefined) changeLate({ without: toggled(late.without, name) });
  if (block !== undefined) changeLate({ skip: toggled(late.skip, Number(block)) });
  if (hazard !== undefined) {
    const others = late.hazards.filter((one) => one.hazard !== hazard);
    const was = others.length < late.hazards.length;
    changeLate({ hazards: was ? others : [...others, { hazard, since: "now" }] });
  }
}
