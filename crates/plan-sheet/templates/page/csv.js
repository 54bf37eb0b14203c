// The times of a session as a CSV file.
import { dayOf, secondsOf, timeOfDay } from "./times.js";

/** A cell that no spreadsheet takes for a formula and that ends where it should (RFC 4180). */
export function csvCell(value) {
  const words = String(value);
  const safe = /^[\s\u200b-\u200d\u2060\ufeff]*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r]/.test(words) ? `'${words}` : words;
  return /[",\r\n]/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
}

/** The cells of a box, in the order of the columns. */
function csvRow(run, box, { times, moments }) {
  const { block, session } = run;
  const time = typeof times[box.id] === "string" ? times[box.id].trim() : "";
  const of_run = [run.set, run.rep, run.wave, box.name];
  const at = moments[box.id];
  const taken = Number.isFinite(at) ? [dayOf(at), timeOfDay(at)] : ["", ""];
  return [...session.cells, ...block.cells, ...of_run, ...box.cells, time, secondsOf(time) ?? "", session.note, ...taken];
}

/** The times of a session, or those that it had earlier, as a table; the mark at the start says that it is UTF-8. */
export function csvOf(columns, session, kept) {
  const rows = session.runs.reduce((all, run) => all.concat(run.boxes.map((box) => csvRow(run, box, kept))), []);
  return `\ufeff${[columns, ...rows].map((row) => `${row.map(csvCell).join(",")}\r\n`).join("")}`;
}
