//! Stand-ins for the clock, the sound card and the screen of the device, so that no test waits for them or depends
//! on the speed of the machine.

use crate::browser::{Set, Shown};

/// The clock stands still until it is set, over reloads too; tones are written down instead of heard.
pub(crate) const STUBS: Set = Set {
    script: Some(
        r#"
        (() => {
          const start = 1800000000000;
          Date.now = () => start + Number(sessionStorage.getItem("test clock") ?? 0);
          // The device's own count does not know that its clock was set back.
          performance.now = () => Date.now() - start + Number(sessionStorage.getItem("set back") ?? 0);
          // A beat comes when the clock is set, so that no test waits for one.
          const beats = new Map();
          const [set, clear] = [window.setInterval, window.clearInterval];
          window.setInterval = (act, ms) => {
            const beat = set(act, ms);
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
          const wakeLock = {
            async request() {
              window.lit = true;
              const lock = new EventTarget();
              lock.release = async () => { window.lit = false; lock.dispatchEvent(new Event("release")); };
              return lock;
            },
          };
          Object.defineProperty(navigator, "wakeLock", { value: wakeLock, configurable: true });
        })();
        "#,
    ),
    without_scripts: false,
    dark: false,
};

impl Shown {
    /// Sets the clock, in milliseconds from when the page was first shown, and lets the page notice it.
    pub(crate) fn set_clock(&self, ms: u32) {
        self.value(&format!("setClock({ms})"));
    }

    /// Taps an element when the clock shows so many milliseconds.
    pub(crate) fn tap_at(&self, ms: u32, selector: &str) {
        self.set_clock(ms);
        self.tap(selector);
    }

    /// Writes a time into a box, in place of what is there.
    pub(crate) fn type_into(&self, id: &str, words: &str) {
        self.tap(&format!("#{id}"));
        self.value(&format!("document.getElementById('{id}').select()"));
        self.type_in(words);
    }

    /// What is in the boxes of a run or a block, in their order.
    pub(crate) fn times(&self, id: &str) -> Vec<String> {
        let boxes = self.value(&format!(
            "[...document.querySelectorAll('#{id} input[type=text]')].map((one) => one.value)"
        ));
        serde_json::from_value(boxes).expect("boxes hold text")
    }

    /// What is in a box.
    pub(crate) fn in_box(&self, id: &str) -> String {
        self.text(&format!("document.getElementById('{id}').value"))
    }
}
