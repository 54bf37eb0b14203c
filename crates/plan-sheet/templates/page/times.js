// Times as they are written, and what is written as a time.

const now = () => Date.now();

/** Tenths of a second as `34.2` or `1:12.4`. */
function clockWords(tenths) {
  const whole = Math.max(0, tenths);
  const seconds = Math.floor(whole / 10);
  const rest = `${seconds % 60}.${whole % 10}`;
  return seconds < 60 ? rest : `${Math.floor(seconds / 60)}:${rest.padStart(4, "0")}`;
}

/** A running time, in full tenths. */
const runningWords = (ms) => clockWords(Math.floor(ms / 100));

/** A time taken by hand, rounded up to the tenth. */
const takenWords = (ms) => clockWords(Math.ceil(ms / 100));

/** How long is left. */
function leftWords(ms) {
  const seconds = Math.max(0, Math.ceil(ms / 1000));
  return seconds < 60 ? `${seconds} s` : `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

/**
 * The seconds of `34.2`, `1:12.4` or `1:02:03`, and of `1.12.4`, for a keypad may have no colon. Anything else is
 * not a time: `DNF`, a note, an empty box.
 */
function secondsOf(words) {
  const withColon = words.trim().replace(/^(\d+)[.,](\d\d[.,]\d+)$/, "$1:$2");
  const parts = /^(?:(?:(\d+):)?(\d+):)?(\d+(?:[.,]\d+)?)$/.exec(withColon);
  if (parts === null) return null;
  const [hours, minutes, seconds] = parts.slice(1).map((part) => Number((part ?? "0").replace(",", ".")));
  return Math.round((hours * 3600 + minutes * 60 + seconds) * 1000) / 1000;
}
