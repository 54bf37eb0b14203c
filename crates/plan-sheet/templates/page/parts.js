// Which part of the page is seen: the run, the times or the whole plan. The address says so, and Back leads back.
import { byId } from "./view.js";

const PAGE_PARTS = ["run", "times", "plan"];

/** Shows the part that the address names; a place within a part shows that part. */
export function showPart(onTimes) {
  const place = location.hash === "" ? null : byId(location.hash.slice(1));
  const part = PAGE_PARTS.find((id) => place !== null && byId(id).contains(place)) ?? "run";
  document.documentElement.setAttribute("data-part", part);
  if (part === "times") onTimes();
  // A part that was hidden could not be scrolled to.
  if (place !== null && part === "plan" && place.id !== "plan") place.scrollIntoView();
  else scrollTo(0, 0);
}

/** The lanes are drawn when they are asked for. */
function openStrips(button) {
  const hidden = button.closest(".strips").querySelector("noscript");
  if (hidden === null) return;
  const strips = document.createElement("div");
  strips.innerHTML = hidden.textContent;
  hidden.replaceWith(strips);
  button.parentElement.remove();
}

/** What there is to tap in the whole plan. */
export function wirePlan(sessions, { onBlock, onCone }) {
  for (const button of document.querySelectorAll(".open-strips")) button.addEventListener("click", () => openStrips(button));
  addEventListener("beforeprint", () => document.querySelectorAll(".open-strips").forEach(openStrips));
  for (const button of document.querySelectorAll(".run-block")) {
    const { session, block } = button.dataset;
    button.addEventListener("click", () => onBlock(sessions[session - 1], `b${block}`));
  }
  for (const session of sessions) {
    for (const box of byId(session.id).querySelectorAll(".set")) {
      box.checked = session.kept.cones[box.dataset.cone] === true;
      box.addEventListener("change", () => onCone(session, box.dataset.cone, box.checked));
    }
  }
}
