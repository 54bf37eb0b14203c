//! Stand-ins for the clock, the sound card and the screen of the device, so that no test waits for them or depends
//! on the speed of the machine.

use crate::browser::Set;

/// The clock stands still until it is set, over reloads too; tones are written down instead of heard. The page is
/// first shown at 8:00 UTC on 15 January 2027.
pub(crate) const CLOCK: &str = r#"
    (() => {
      const start = 1800000000000;
      Date.now = () => start + Number(sessionStorage.getItem("test clock") ?? 0);
      // The device's own count does not know that its clock was set back.
      performance.now = () => Date.now() - start + Number(sessionStorage.getItem("set back") ?? 0);
      // A beat comes when the clock is set, so that no test waits for one.
      const beats = new Map();
      const [set, clear] = [window.setInterval, window.clearInterval];
      window.setInterval = (act, ms) => {
        const beat = set(() => {}, 3600000);
        beats.set(beat, act);
        return beat;
      };
      window.clearInterval = (beat) => {
        beats.delete(beat);
        clear(beat);
      };
      window.setClock = (ms) => {
        sessionStorage.setItem("test clock", ms);
        for (const act of [...beats.values()]) act();
      };
      window.tones = [];
      window.AudioContext = class {
        get state() { return window.card ?? "running"; }
        destination = {};
        get currentTime() { return (Date.now() - start) / 1000; }
        resume() {}
        createOscillator() {
          const entry = { hushed: false };
          return {
            frequency: { set value(pitch) { entry.pitch = pitch; } },
            connect: (next) => next,
            start(at) { entry.at = Math.round(at * 1000); tones.push(entry); },
            stop(at) { if (at === undefined) entry.hushed = true; },
          };
        }
        createGain() {
          const gain = { setValueAtTime() {}, linearRampToValueAtTime() {} };
          return { gain, connect: (next) => next };
        }
      };
      window.lit = false;
      // How often the page asked for a lit screen, and whether it is refused one.
      window.asked = 0;
      window.refuses = false;
      const wakeLock = {
        async request() {
          window.asked += 1;
          if (window.refuses) throw new DOMException("refused", "NotAllowedError");
          window.lit = true;
          const lock = new EventTarget();
          lock.release = async () => { window.lit = false; lock.dispatchEvent(new Event("release")); };
          return lock;
        },
      };
      Object.defineProperty(navigator, "wakeLock", { value: wakeLock, configurable: true });
    })();
"#;

pub(crate) const STUBS: Set = Set { scripts: &[CLOCK], without_scripts: false, dark: false };

/// STUBS on a device that asks for dark pages.
pub(crate) const STUBS_IN_THE_DARK: Set = Set { dark: true, ..STUBS };
