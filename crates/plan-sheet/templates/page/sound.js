// What a coach hears.

const SECONDS_HEARD = [3, 2, 1];

export const sound = {
  isOn: true,
  context: null,
  /** Sounds handed to the sound card and not yet heard, by the moment of their go. */
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
  /** Three short tones and a long one, for a go at a moment. */
  go(due, at) {
    const inMs = due - at;
    if (this.ahead.has(due) || !this.canPlay()) return;
    const short = SECONDS_HEARD.filter((before) => inMs >= before * 1000);
    const tones = short.map((before) => this.tone(inMs - before * 1000, 660, 150));
    this.ahead.set(due, [...tones, this.tone(inMs, 1320, 700)]);
  },
  split() {
    if (this.canPlay()) this.tone(0, 990, 120);
  },
  /** Takes back the tones of goes that are not to come any more. */
  keepOnly(dues, at) {
    for (const [due, tones] of [...this.ahead]) {
      if (due > at && !dues.includes(due)) {
        for (const tone of tones) tone.stop();
        this.ahead.delete(due);
      }
      if (due <= at) this.ahead.delete(due);
    }
  },
};
