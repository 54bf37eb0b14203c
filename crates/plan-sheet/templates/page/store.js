// What this device keeps of a session.

const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

/** What a browser may refuse; then nothing is kept. */
function attempt(act) {
  try {
    return act();
  } catch {
    return null;
  }
}

/** Times by box, clocks by run, the zero of each block that is counted down, and the runs that have gone. */
const PARTS = ["times", "clocks", "zeros", "gone"];

/** Another tab may show the same session, so what is kept is read again before every change. */
class Store {
  constructor({ key, old_key }) {
    this.key = `toeline:${key}`;
    attempt(() => this.takeOver(`toeline:${old_key}`));
    this.read();
    // Only trying tells whether there is room.
    this.works = attempt(() => localStorage.setItem("toeline:room", "")) === undefined;
    attempt(() => localStorage.removeItem("toeline:room"));
  }
  /** Earlier pages made the key from the words of the plan: what they kept moves to this key, once. */
  takeOver(oldKey) {
    const old = localStorage.getItem(oldKey);
    if (old === null || localStorage.getItem(this.key) !== null) return;
    localStorage.setItem(this.key, old);
    localStorage.removeItem(oldKey);
  }
  /** Reads it again and says whether it has changed; where nothing can be kept, this tab alone knows. */
  renew() {
    const before = this.raw;
    if (this.works) this.read();
    return this.raw !== before;
  }
  read() {
    this.raw = attempt(() => localStorage.getItem(this.key));
    // What cannot be read is not ours, and is overwritten.
    const kept = attempt(() => JSON.parse(this.raw));
    for (const part of PARTS) this[part] = isObject(kept?.[part]) ? kept[part] : {};
  }
  save() {
    const { times, clocks, zeros, gone } = this;
    this.raw = JSON.stringify({ times, clocks, zeros, gone });
    this.works = attempt(() => localStorage.setItem(this.key, this.raw)) === undefined;
  }
  clear() {
    for (const part of PARTS) this[part] = {};
    this.save();
  }
}
