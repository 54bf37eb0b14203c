// What a coach hears, and the screen that stays lit.

const SECONDS_HEARD = [3, 2, 1];

const sound = {
  isOn: true,
  context: null,
  /** Sounds handed to the sound card and not yet heard, by the go that they belong to. */
  ahead: new Map(),
  /** Browsers allow sound only after a tap. */
  wake() {
    if (!this.isOn) return;
    try {
      if (this.context === null) this.context = new AudioContext();
      // After a call a phone has it "interrupted", not "suspended".
      if (this.context.state !== "running") this.context.resume();
    } catch {
      this.context = null;
    }
  },
  /** A sound card that is not running stands still, and would play late what it is given now. */
  canPlay() {
    return this.isOn && this.context !== null && this.context.state === "running";
  },
  tone(inMs, pitch, lengthMs) {
    const at = this.context.currentTime + Math.max(0, inMs) / 1000;
    const end = at + lengthMs / 1000;
    const [tone, volume] = [this.context.createOscillator(), this.context.createGain()];
    tone.type = "square";
    tone.frequency.value = pitch;
    volume.gain.setValueAtTime(0.35, at);
    volume.gain.setValueAtTime(0.35, end - 0.02);
    volume.gain.linearRampToValueAtTime(0, end);
    tone.connect(volume).connect(this.context.destination);
    tone.start(at);
    tone.stop(end);
    return tone;
  },
  /** Three short tones and a long one. */
  go(key, inMs) {
    if (this.ahead.has(key) || !this.canPlay()) return;
    const short = SECONDS_HEARD.filter((before) => inMs >= before * 1000);
    const tones = short.map((before) => this.tone(inMs - before * 1000, 660, 150));
    this.ahead.set(key, [...tones, this.tone(inMs, 1320, 700)]);
  },
  split() {
    if (this.canPlay()) this.tone(0, 990, 120);
  },
  /** Takes back the tones of one go. */
  hush(key) {
    for (const tone of this.ahead.get(key) ?? []) tone.stop();
    this.ahead.delete(key);
  },
  hushAll() {
    for (const key of [...this.ahead.keys()]) this.hush(key);
  },
};

/** A go is known by its moment too, so that one that moves sounds anew. */
const goKey = (run, at) => `${run.session.store.key} ${run.id} ${at}`;

const screenLock = { lock: null, isBusy: false };

/** Keeps the screen lit while something runs. */
async function keepLit(isActive) {
  if (screenLock.isBusy || !("wakeLock" in navigator)) return;
  screenLock.isBusy = true;
  try {
    if (isActive && screenLock.lock === null && document.visibilityState === "visible") {
      screenLock.lock = await navigator.wakeLock.request("screen");
      screenLock.lock.addEventListener("release", () => {
        screenLock.lock = null;
      });
    } else if (!isActive && screenLock.lock !== null) {
      await screenLock.lock.release();
    }
  } catch {
    screenLock.lock = null;
  }
  screenLock.isBusy = false;
}
