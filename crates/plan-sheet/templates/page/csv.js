// The times of a session as a CSV file.

/** A cell that no spreadsheet takes for a formula and that ends where it should (RFC 4180). */
function csvCell(value) {
  const words = String(value);
  const safe = /^[\s\u200b-\u200d\u2060\ufeff]*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r]/.test(words) ? `'${words}` : words;
  return /[",\r\n]/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
}

/** The cells of a box, in the order of the columns. */
function csvRow(run, box) {
  const { block, session } = run;
  const time = box.input.value.trim();
  const of_run = [run.set, run.rep, run.wave, box.name];
  return [...session.cells, ...block.cells, ...of_run, ...box.lane.cells, time, secondsOf(time) ?? "", session.note];
}

function saveTimes(session) {
  const rows = session.runs.flatMap((run) => run.boxes.map((box) => csvRow(run, box)));
  const lines = [data.columns, ...rows].map((row) => `${row.map(csvCell).join(",")}\r\n`);
  // The mark at the start tells spreadsheets that it is UTF-8.
  const file = new Blob(["\ufeff", ...lines], { type: "text/csv;charset=utf-8" });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = `${session.file}.csv`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

function clearTimes(session) {
  if (!confirm(`Clear all times and clocks of “${session.title}”?`)) return;
  session.store.clear();
  sound.hushAll();
  for (const run of session.runs) run.undo = [];
  refreshSession(session);
  say("Times cleared.");
  tick();
}
