// What this device keeps of a session.
import { dayOf } from "./times.js";

export const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

/** What a browser may refuse; then nothing is kept. */
export function attempt(act) {
  try {
    return act();
  } catch {
    return null;
  }
}

/**
 * Times by box and the moments at which they were taken; clocks by run; the zero of each block that is counted down,
 * and the goes that no timetable has; the runs that have gone, and those that are in their run-in; the blocks without
 * runs that are done; the cones that are set out; what was chosen.
 */
const PARTS = ["times", "moments", "clocks", "zeros", "goes", "gone", "waiting", "done", "cones", "choices"];

/** The choices that outlive a session that is begun anew. */
const LASTING = ["rest", "group", "sound"];

/** No run takes so long: a clock that was left running is no time. */
const LONGEST_MS = 3 * 60 * 60 * 1000;

/** Another tab may show the same session, so what is kept is read again before every change. */
export class Kept {
  constructor({ key, old_key }, storage) {
    this.storage = storage;
    this.key = `toeline:${key}`;
    attempt(() => this.takeOver(`toeline:${old_key}`));
    this.read();
    // Only trying tells whether there is room.
    this.works = attempt(() => storage.setItem("toeline:room", "")) === undefined;
    attempt(() => storage.removeItem("toeline:room"));
  }
  /** Earlier pages made the key from the words of the plan: what they kept moves to this key, once. */
  takeOver(oldKey) {
    const old = this.storage.getItem(oldKey);
    if (old === null || this.storage.getItem(this.key) !== null) return;
    this.storage.setItem(this.key, old);
    this.storage.removeItem(oldKey);
  }
  /** Reads it again and says whether it has changed; where nothing can be kept, this tab alone knows. */
  renew() {
    const before = this.raw;
    if (this.works) this.read();
    return this.raw !== before;
  }
  read() {
    this.raw = attempt(() => this.storage.getItem(this.key));
    // What cannot be read is not ours, and is overwritten.
    const kept = attempt(() => JSON.parse(this.raw));
    for (const part of PARTS) this[part] = isObject(kept?.[part]) ? kept[part] : {};
    this.earlier = Array.isArray(kept?.earlier) ? kept.earlier.filter(isEarlier) : [];
  }
  save() {
    const kept = { earlier: this.earlier };
    for (const part of PARTS) kept[part] = this[part];
    this.raw = JSON.stringify(kept);
    this.works = attempt(() => this.storage.setItem(this.key, this.raw)) === undefined;
  }
  /** The day on which the last time was taken; nothing where no time tells. */
  lastDay() {
    const moments = Object.values(this.moments).filter(Number.isFinite);
    return moments.length === 0 ? null : dayOf(moments.reduce((a, b) => Math.max(a, b)));
  }
  /** Begins anew: the times move to the earlier ones. */
  beginAnew() {
    const { times, moments } = this;
    if (Object.keys(times).length > 0) this.earlier.push({ day: this.lastDay() ?? "", times, moments });
    const { choices } = this;
    for (const part of PARTS) this[part] = {};
    for (const name of LASTING) if (choices[name] !== undefined) this.choices[name] = choices[name];
    this.save();
  }
  /** Drops clocks and countdowns that are hours old, and names the runs whose clocks those were. */
  dropOld(at, lastGoMs) {
    const old = Object.keys(this.clocks).filter((id) => at - this.clocks[id]?.start > LONGEST_MS);
    for (const id of old) delete this.clocks[id];
    for (const [id, go] of Object.entries(this.goes)) if (at - go > LONGEST_MS) delete this.goes[id];
    for (const [id, since] of Object.entries(this.waiting)) if (at - since > LONGEST_MS) delete this.waiting[id];
    for (const [id, zero] of Object.entries(this.zeros)) {
      if (at - zero - (lastGoMs(id) ?? 0) > LONGEST_MS) delete this.zeros[id];
    }
    if (old.length > 0) this.save();
    return old;
  }
}

const isEarlier = (one) => isObject(one) && typeof one.day === "string" && isObject(one.times) && isObject(one.moments);
