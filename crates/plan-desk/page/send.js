// What leaves the page: files, a link, a code; each made on this device or by the program that serves the page.
import { isServed } from "./carrier.js";
import { ask } from "./desk.js";
import { current } from "./evening.js";
import { all, byId, say } from "./page.js";

export function wireSend() {
  for (const element of all(".served")) if (!isServed && element.tagName === "BUTTON") element.hidden = true;
  byId("send").addEventListener("click", () => {
    const out = byId("out");
    out.hidden = !out.hidden;
    byId("send").setAttribute("aria-expanded", !out.hidden);
  });
  for (const button of all(".file")) button.addEventListener("click", () => save(button.dataset.ending));
  for (const button of all(".print")) button.addEventListener("click", () => print());
  byId("link").addEventListener("click", link);
  byId("copy").addEventListener("click", async () => {
    byId("address").select();
    try {
      await navigator.clipboard.writeText(byId("address").value);
    } catch {
      document.execCommand("copy");
    }
    say("copied");
  });
}

/** Saves the evening as a file. */
async function save(ending) {
  const now_s = Math.floor(Date.now() / 1000);
  const { isFine, body } = await ask("file", { evening: current(), ending, now_s });
  if (isFine) {
    offerFile(body, `toeline.${ending}`);
    byId("file-problem").textContent = "";
  } else {
    byId("file-problem").textContent = JSON.parse(await body.text()).detail;
  }
}

/** Hands a file to the browser. */
export function offerFile(blob, name) {
  const a = document.createElement("a");
  a.href = URL.createObjectURL(blob);
  a.download = name;
  a.click();
  setTimeout(() => URL.revokeObjectURL(a.href), 60_000);
}

async function link() {
  const page = location.href.replace(/#.*/, "");
  const { isFine, body } = await ask("link", { evening: current(), page });
  if (!isFine) {
    byId("file-problem").textContent = body.detail;
    return;
  }
  byId("address").value = body.address;
  byId("code").innerHTML = body.code ?? "";
  byId("linked").hidden = false;
}
