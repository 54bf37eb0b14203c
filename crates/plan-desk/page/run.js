// The phone page of the evening that is run: written in the place of this page, with its clocks and the times that it keeps.
import { ask } from "./desk.js";

const evening = JSON.parse(localStorage.getItem("toeline.run"));
const { isFine, body } = evening === null ? { isFine: false } : await ask("file", { evening, ending: "html" });
if (isFine) {
  const html = await body.text();
  document.open();
  document.write(html);
  document.close();
} else {
  location.replace("./");
}
