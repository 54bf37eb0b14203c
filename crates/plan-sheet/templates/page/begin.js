// Before anything is shown: with scripts the page shows one part at a time. Should the script not come to its end, all
// is shown as without.
document.documentElement.classList.add("js");
addEventListener("DOMContentLoaded", () => {
  const root = document.documentElement;
  if (!root.classList.contains("ready")) root.classList.remove("js");
});
