// Times as they are written, and what is written as a time.

/** Tenths of a second as `34.2` or `1:12.4`. */
export function clockWords(tenths) {
  const whole = Math.max(0, tenths);
  const seconds = Math.floor(whole / 10);
  const rest = `${seconds % 60}.${whole % 10}`;
  return seconds < 60 ? rest : `${Math.floor(seconds / 60)}:${rest.padStart(4, "0")}`;
}

/** A running time, in full tenths. */
export const runningWords = (ms) => clockWords(Math.floor(ms / 100));

/** A time taken by hand, rounded up to the tenth. */
export const takenWords = (ms) => clockWords(Math.ceil(ms / 100));

/** How long is left. */
export function leftWords(ms) {
  const seconds = Math.max(0, Math.ceil(ms / 1000));
  return seconds < 60 ? `${seconds} s` : `${Math.floor(seconds / 60)}:${two(seconds % 60)}`;
}

const two = (number) => String(number).padStart(2, "0");

/**
 * The seconds of `34.2`, `1:12.4` or `1:02:03`, and of `1.12.4`, for a keypad may have no colon. Anything else is
 * not a time: `DNF`, a note, an empty box.
 */
export function secondsOf(words) {
  const withColon = words.trim().replace(/^(\d+)[.,](\d\d[.,]\d+)$/, "$1:$2");
  const parts = /^(?:(?:(\d+):)?(\d+):)?(\d+(?:[.,]\d+)?)$/.exec(withColon);
  if (parts === null) return null;
  const [hours, minutes, seconds] = parts.slice(1).map((part) => Number((part ?? "0").replace(",", ".")));
  return Math.round((hours * 3600 + minutes * 60 + seconds) * 1000) / 1000;
}

/** How far a time is from a target, from the faster to the slower: `+0.4`, `−1.2`, `on target`. */
export function againstTarget(seconds, target) {
  if (target === null || seconds === null) return "";
  const [from, to] = target;
  const over = seconds > to ? seconds - to : Math.min(seconds - from, 0);
  const tenths = Math.round(Math.abs(over) * 10);
  if (tenths === 0) return "on target";
  return `${over > 0 ? "+" : "−"}${clockWords(tenths)}`;
}

/** Nobody runs faster than this, in metres a second (100 m in 9.58 s has a fastest 10 m of 12.3 m/s; from memory). */
const FASTEST_M_PER_S = 12.5;

/** What was meant by `1.12` where nobody runs so far in 1.12 s: `1:12`. */
export function likelyMeant(words, metres) {
  const parts = /^(\d{1,2})[.,]([0-5]\d)$/.exec(words.trim());
  if (parts === null || metres === null) return null;
  const [, minutes, seconds] = parts;
  const isTooFast = secondsOf(words) < metres / FASTEST_M_PER_S;
  const meant = `${minutes}:${seconds}`;
  return isTooFast && secondsOf(meant) >= metres / FASTEST_M_PER_S ? meant : null;
}

/** The day of a moment where the device is, as `2027-04-13`. */
export function dayOf(ms) {
  const at = new Date(ms);
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

/** The time of day of a moment where the device is, as `18:05:09`. */
export function timeOfDay(ms) {
  const at = new Date(ms);
  return [at.getHours(), at.getMinutes(), at.getSeconds()].map(two).join(":");
}
