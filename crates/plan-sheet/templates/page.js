"use strict";
// What the page does beyond being read. All words and places are in the page already: nothing here makes
// elements from names, and nothing is asked of anywhere.
(() => {
  /** From the tap that starts a block to its first go. */
  const LEAD_MS = 10_000;
  /** A go that was passed longer ago than this, while the page was away, starts no clock. */
  const LATE_MS = 600_000;
  /** A second tap of a wet thumb right after the start stops nothing. */
  const BOUNCE_MS = 500;
  /** How long a stop can be taken back, or the cancelling of a clock. */
  const UNDO_MS = 20_000;
  /** A button that comes to mean something else takes no tap for so long. */
  const CALM_MS = 1_000;
  /** By how much a clock is found to have been set back. */
  const SET_BACK_MS = 200;
  /** How long before a go its sounds are handed to the sound card. */
  const AHEAD_MS = 4_000;
  const SECONDS_HEARD = [3, 2, 1];

  const byId = (id) => document.getElementById(id);
  const text = (element) => (element ? element.textContent.replace(/\s+/g, " ").trim() : "");
  const lower = (name) => name.toLowerCase();
  const now = () => Date.now();

  /** Tenths of a second as `34.2` or `1:12.4`. */
  const clock = (tenths) => {
    const seconds = Math.floor(tenths / 10);
    const rest = `${seconds % 60}.${tenths % 10}`;
    return seconds < 60 ? rest : `${Math.floor(seconds / 60)}:${rest.padStart(4, "0")}`;
  };
  /** A time as it is while it runs. */
  const running = (ms) => clock(Math.max(0, Math.floor(ms / 100)));
  /** A time taken by hand: a tenth that was begun counts. */
  const taken = (ms) => clock(Math.max(0, Math.ceil(ms / 100)));
  /** How long it is still to go. */
  const still = (ms) => {
    const seconds = Math.max(0, Math.ceil(ms / 1000));
    return seconds < 60
      ? `${seconds} s`
      : `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  };

  // --- What is kept on this device ---------------------------------------------------------------------

  const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

  /**
   * What a session keeps: times by box, clocks by run, starts by block, and runs that have gone.
   *
   * Another tab may show the same session, so what is there is read again before anything is changed, and
   * whenever another tab has changed it.
   */
  class Kept {
    constructor(key) {
      this.key = `toeline:${key}`;
      this.isKept = true;
      this.read();
      try {
        // Room is only known by asking for it.
        localStorage.setItem("toeline:room", "");
        localStorage.removeItem("toeline:room");
      } catch {
        this.isKept = false;
      }
    }
    /** Reads what is there now, and tells whether it is new; where nothing is kept, this tab alone knows. */
    renew() {
      const before = this.raw;
      if (this.isKept) this.read();
      return this.raw !== before;
    }
    read() {
      let read = null;
      try {
        this.raw = localStorage.getItem(this.key);
        read = JSON.parse(this.raw);
      } catch {
        // What is there is not ours, and is written over.
      }
      const part = (name) => (isObject(read) && isObject(read[name]) ? read[name] : {});
      this.times = part("times");
      this.clocks = part("clocks");
      this.zeros = part("zeros");
      this.gone = part("gone");
    }
    save() {
      const { times, clocks, zeros, gone } = this;
      try {
        this.raw = JSON.stringify({ times, clocks, zeros, gone });
        localStorage.setItem(this.key, this.raw);
        this.isKept = true;
      } catch {
        this.isKept = false;
      }
    }
    clear() {
      [this.times, this.clocks, this.zeros, this.gone] = [{}, {}, {}, {}];
      this.save();
    }
  }

  // --- The page as a model -----------------------------------------------------------------------------

  /** The places that a run comes by, in the order of their times. */
  const promptsOf = (element) =>
    [...element.querySelectorAll("[data-at]")].map((item) => ({
      at: Number(item.dataset.at) * 1000,
      heard: item.dataset.heard !== undefined,
      words: text(item),
    }));

  /** Keys stay the same when the session stands on another page, where its number is another. */
  const keyOf = (id) => id.replace(/^s\d+-/, "");

  const sessions = [...document.querySelectorAll("section.session")].map((element) => {
    const session = { element, kept: new Kept(element.dataset.key) };
    session.blocks = [...element.querySelectorAll("section.block")].map((section) => {
      const block = { element: section, session, key: keyOf(section.id), number: section.dataset.number };
      block.counter = section.querySelector(".count-down");
      block.later = section.querySelector(".count-later");
      block.runs = [...section.querySelectorAll("tbody.run")].map((body) => ({
        element: body,
        block,
        session,
        key: keyOf(body.id),
        name: body.dataset.name,
        goMs: body.dataset.go === undefined ? null : Number(body.dataset.go) * 1000,
        prompts: promptsOf(body),
        past: [],
        boxes: [...body.querySelectorAll("input")].map((input) => ({
          input,
          key: keyOf(input.id),
          who: text(input.closest(".box").querySelector(".who")),
          name: input.dataset.name ?? "",
          lane: input.closest("tr").dataset.lane,
          stop: input.closest(".box").querySelector(".stop"),
        })),
        watch: body.querySelector(".watch"),
        start: body.querySelector(".start"),
        stopAll: body.querySelector(".stop-all"),
        takeBack: body.querySelector(".take-back"),
      }));
      return block;
    });
    return session;
  });
  const blocks = sessions.flatMap((session) => session.blocks);
  const runs = blocks.flatMap((block) => block.runs);
  const titleOf = (run) =>
    blocks.length > 1 ? `Block ${run.block.number}, ${lower(run.name)}` : run.name;

  const say = (words) => {
    byId("said").textContent = words;
  };

  // --- Sound ---------------------------------------------------------------------------------------------

  const sound = {
    isOn: true,
    context: null,
    /** Sounds that are still to come, by the go that they belong to. */
    ahead: new Map(),
    /** Browsers let sound play only after a tap. */
    wake() {
      if (!this.isOn) return;
      try {
        this.context ??= new AudioContext();
        // After a call a phone has it "interrupted", not "suspended".
        if (this.context.state !== "running") this.context.resume();
      } catch {
        this.context = null;
      }
    },
    /** While it does not run its time stands still, and what it was given would be heard late. */
    canSound() {
      return this.isOn && this.context !== null && this.context.state === "running";
    },
    /** A tone so many milliseconds from now. */
    tone(inMs, pitch, lengthMs) {
      if (!this.canSound()) return null;
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
    /** Three short tones and a long one for a go. */
    go(key, inMs) {
      if (this.ahead.has(key) || !this.canSound()) return;
      const short = SECONDS_HEARD.filter((before) => inMs >= before * 1000);
      const tones = short.map((before) => this.tone(inMs - before * 1000, 660, 150));
      this.ahead.set(key, [...tones, this.tone(inMs, 1320, 700)]);
    },
    split() {
      this.tone(0, 990, 120);
    },
    /** Takes back what has not been heard yet. */
    hush(key) {
      const keys = key === undefined ? [...this.ahead.keys()] : [key];
      for (const each of keys) {
        for (const tone of this.ahead.get(each) ?? []) tone?.stop();
        this.ahead.delete(each);
      }
    },
  };
  /** A go by the moment of it, so that one that moves is sounded anew. */
  const soundKey = (run, at) => `${run.session.kept.key} ${run.key} ${at}`;

  // --- The screen stays lit while something runs ------------------------------------------------------

  let lock = null;
  let isLocking = false;
  const keepLit = async (isActive) => {
    if (isLocking || !("wakeLock" in navigator)) return;
    isLocking = true;
    try {
      if (isActive && lock === null && document.visibilityState === "visible") {
        lock = await navigator.wakeLock.request("screen");
        lock.addEventListener("release", () => {
          lock = null;
        });
      } else if (!isActive && lock !== null) {
        await lock.release();
      }
    } catch {
      lock = null;
    }
    isLocking = false;
  };

  // --- Clocks ----------------------------------------------------------------------------------------------

  const clockOf = (run) => {
    const clock = run.session.kept.clocks[run.key];
    return isObject(clock) && Number.isFinite(clock.start) ? clock : null;
  };
  const zeroOf = (block) => {
    const zero = block.session.kept.zeros[block.key];
    return Number.isFinite(zero) ? zero : null;
  };
  const hasGone = (run) => run.session.kept.gone[run.key] === true;
  const goAt = (run) => {
    const zero = zeroOf(run.block);
    return zero === null || run.goMs === null || hasGone(run) ? null : zero + run.goMs;
  };
  const isOpen = (run, box) => !(clockOf(run)?.stopped ?? []).includes(box.key);

  const startClock = (run, at) => {
    run.session.kept.clocks[run.key] = { start: at, stopped: [] };
    run.session.kept.gone[run.key] = true;
    run.heardUntil = now() - at;
    run.past = [];
    run.skipped = null;
    run.session.kept.save();
    refresh(run);
  };

  /** Started by hand: the goes that follow keep their distance from it, and those before it are left out. */
  const startByHand = (run) => {
    // A second tap of a wet thumb right after the stop starts nothing.
    if (isJustNow(run.stoppedAt)) return;
    takeUp(run.session);
    if (clockOf(run) !== null) {
      say(`${titleOf(run)} is running already.`);
      return;
    }
    const { kept } = run.session;
    const [at, due] = [now(), goAt(run)];
    let skipped = null;
    if (due !== null) {
      sound.hush(soundKey(run, due));
      const earlier = run.block.runs.filter((other) => goAt(other) !== null && goAt(other) < due);
      const zero = kept.zeros[run.block.key];
      skipped = { zero, moved: zero + at - due, runs: earlier };
      for (const other of earlier) {
        sound.hush(soundKey(other, goAt(other)));
        kept.gone[other.key] = true;
        refresh(other);
      }
      kept.zeros[run.block.key] = skipped.moved;
    }
    sound.wake();
    startClock(run, at);
    run.skipped = skipped;
    byId("set-back").hidden = true;
    say(`${titleOf(run)} is running.`);
    wakeUp();
  };

  /** A start in the wrong row moves no go: those that are still to come come when they would have. */
  const putBack = (run) => {
    const { kept } = run.session;
    const { skipped } = run;
    if (skipped === null || kept.zeros[run.block.key] !== skipped.moved) return () => {};
    const key = run.block.key;
    kept.zeros[key] = skipped.zero;
    const ahead = [run, ...skipped.runs].filter((other) => skipped.zero + other.goMs > now());
    for (const other of ahead) delete kept.gone[other.key];
    sound.hush();
    return () => {
      kept.zeros[key] = skipped.moved;
      for (const other of ahead) kept.gone[other.key] = true;
      sound.hush();
    };
  };

  const isJustNow = (at) => Math.abs(now() - at) < BOUNCE_MS;

  const setTime = (run, box, words) => {
    box.input.value = words;
    const times = run.session.kept.times;
    if (words === "") delete times[box.key];
    else times[box.key] = words;
  };

  const stop = (run, boxes) => {
    takeUp(run.session);
    const clock = clockOf(run);
    if (clock === null) return;
    const { kept } = run.session;
    const elapsed = now() - clock.start;
    if (elapsed < 0) {
      delete kept.clocks[run.key];
      kept.save();
      tellSetBack();
      refresh(run);
      tick();
      return;
    }
    if (elapsed < BOUNCE_MS) return;
    const words = taken(elapsed);
    const open = boxes.filter((box) => isOpen(run, box));
    // Another tab may have stopped it meanwhile.
    if (open.length === 0) return;
    run.stoppedAt = now();
    const before = { clock: { ...clock }, values: open.map((box) => [box, box.input.value]) };
    remember(run, "Undo stop", () => {
      // A time that was written over the stop's stands.
      for (const [box, value] of before.values) if (box.input.value === words) setTime(run, box, value);
      kept.clocks[run.key] = before.clock;
      say(`${titleOf(run)} is running on.`);
    });
    // Of several, a time that was typed while they ran stands.
    const isTyped = (box) => boxes.length > 1 && box.typed >= clock.start && box.input.value !== "";
    for (const box of open) if (!isTyped(box)) setTime(run, box, words);
    clock.stopped = [...(clock.stopped ?? []), ...open.map((box) => box.key)];
    if (run.boxes.every((box) => clock.stopped.includes(box.key))) delete kept.clocks[run.key];
    kept.save();
    const who = open.map((box) => box.who || `lane ${box.lane}`).join(", ");
    say(`${titleOf(run)}, ${who}: ${words}`);
    refresh(run);
    refreshKept(run.session);
    tick();
  };

  const cancel = (run) => {
    const { kept } = run.session;
    const clock = clockOf(run);
    delete kept.clocks[run.key];
    const putForward = putBack(run);
    remember(run, "Undo cancel", () => {
      kept.clocks[run.key] = clock;
      putForward();
      say(`${titleOf(run)} is running on.`);
    });
    say(`The clock of ${lower(titleOf(run))} is cancelled.`);
  };

  /** For a while what was done can be undone, the last first. */
  const remember = (run, words, undo) => {
    run.past.push({ at: now(), words, undo });
    setTimeout(() => refresh(run), UNDO_MS + 50);
  };

  /** What the button beside the clock is for: it undoes, else it cancels a clock of which no time was taken. */
  const meaningOf = (run) => {
    run.past = run.past.filter(({ at }) => now() - at < UNDO_MS);
    if (run.past.length > 0) return run.past.at(-1).words;
    const clock = clockOf(run);
    return clock !== null && (clock.stopped ?? []).length === 0 ? "Cancel" : null;
  };

  const takeBack = (run) => {
    takeUp(run.session);
    // A thumb that came for what the button meant before gets nothing.
    if (meaningOf(run) !== run.meaning || Math.abs(now() - run.meantAt) < CALM_MS) {
      refresh(run);
      return;
    }
    const last = run.past.pop();
    if (last === undefined) cancel(run);
    else last.undo();
    run.meantAt = now();
    run.session.kept.save();
    refresh(run);
    refreshKept(run.session);
    tick();
  };

  /** Says where it is seen that no clock can be trusted now. */
  const tellSetBack = () => {
    byId("set-back").hidden = false;
  };

  // --- Countdowns ------------------------------------------------------------------------------------------

  const isTimed = (run) => run.boxes.some((box) => box.input.value !== "");

  /** The run with which a block begins or goes on: after the last that was timed, else one that was left out. */
  const nextRun = (block) => {
    const timed = block.runs.filter((run) => run.goMs !== null);
    const isDone = (run) => clockOf(run) !== null || isTimed(run);
    const last = timed.findLastIndex(isDone);
    return timed[last + 1] ?? timed.find((run) => !isDone(run)) ?? null;
  };

  const countDown = (block) => {
    // The second tap of two would stop what the first began.
    if (isJustNow(block.tappedAt)) return;
    block.tappedAt = now();
    const { kept } = block.session;
    takeUp(block.session);
    if (zeroOf(block) === null) {
      const first = nextRun(block);
      if (first === null) return;
      for (const run of block.runs) {
        if (run.goMs === null) continue;
        // What was timed does not go again by itself.
        if (run.goMs < first.goMs || isTimed(run)) kept.gone[run.key] = true;
        else if (clockOf(run) === null) delete kept.gone[run.key];
      }
      kept.zeros[block.key] = now() + LEAD_MS - first.goMs;
      sound.wake();
      byId("set-back").hidden = true;
      say(`${first.name} goes in 10 seconds.`);
    } else {
      delete kept.zeros[block.key];
      sound.hush();
      say("The countdown is stopped.");
    }
    kept.save();
    refreshBlock(block);
    wakeUp();
  };

  const later = (block) => {
    takeUp(block.session);
    if (zeroOf(block) === null) return;
    block.session.kept.zeros[block.key] += 10_000;
    block.session.kept.save();
    sound.hush();
    say("Every go of this block is 10 seconds later.");
    tick();
  };

  // --- What is shown -------------------------------------------------------------------------------------

  /** Shows or hides a button; where it had the keys, they go to the one that takes its place. */
  const show = (button, isShown, instead) => {
    const hadFocus = document.activeElement === button;
    button.hidden = !isShown;
    if (!isShown && hadFocus) instead?.focus();
  };

  const refresh = (run) => {
    const clock = clockOf(run);
    const isRunning = clock !== null;
    run.element.classList.toggle("is-running", isRunning);
    run.watch.hidden = !isRunning;
    run.start.textContent = isTimed(run) ? "Again" : "Start";
    run.start.setAttribute("aria-label", `${run.start.textContent}, ${lower(run.name)}`);
    if (isRunning) {
      show(run.stopAll, true);
      show(run.start, false, run.stopAll);
    } else {
      show(run.start, true);
      show(run.stopAll, false, run.start);
    }
    const meaning = meaningOf(run);
    if (meaning !== run.meaning) [run.meaning, run.meantAt] = [meaning, now()];
    run.takeBack.textContent = meaning ?? "";
    run.takeBack.setAttribute("aria-label", `${meaning ?? ""}, ${lower(run.name)}`);
    show(run.takeBack, meaning !== null, isRunning ? run.stopAll : run.start);
    for (const box of run.boxes) {
      if (box.stop) show(box.stop, isRunning && isOpen(run, box), run.takeBack);
    }
    refreshBlock(run.block);
  };

  const refreshBlock = (block) => {
    if (!block.counter) return;
    const next = nextRun(block);
    const isCounting = zeroOf(block) !== null;
    block.counter.hidden = next === null;
    block.later.hidden = !isCounting;
    block.counter.classList.toggle("is-counting", isCounting);
    if (next === null) return;
    const first = block.runs.find((run) => run.goMs !== null);
    block.counter.textContent = isCounting
      ? "Stop the countdown"
      : next === first
        ? `Start block ${block.number}: first go in 10 s`
        : `Go on with ${lower(next.name)}: go in 10 s`;
  };

  const refreshKept = (session) => {
    const boxes = session.blocks.flatMap((block) => block.runs).flatMap((run) => run.boxes);
    const count = boxes.filter((box) => box.input.value !== "").length;
    const kept = session.element.querySelector(".kept");
    const words = session.kept.isKept
      ? `${count} of ${boxes.length} times taken. They are kept on this device.`
      : `${count} of ${boxes.length} times taken. This browser keeps nothing: save them before you leave the page.`;
    if (kept.textContent !== words) kept.textContent = words;
    kept.classList.toggle("is-lost", !session.kept.isKept);
  };

  /** The clocks that run, as buttons that lead to them. */
  let shown = "";
  const showRunning = (active) => {
    const list = byId("running");
    const names = active.map(({ run }) => run.element.id).join(" ");
    if (names !== shown) {
      shown = names;
      list.replaceChildren(
        ...active.map(({ run }) => {
          const [item, button] = [document.createElement("li"), document.createElement("button")];
          const [name, time] = [document.createElement("span"), document.createElement("strong")];
          button.type = "button";
          name.textContent = `${titleOf(run)} `;
          time.className = "time";
          button.append(name, time);
          button.addEventListener("click", () => lead(run));
          item.append(button);
          return item;
        }),
      );
    }
    [...list.querySelectorAll(".time")].forEach((time, index) => {
      time.textContent = running(active[index].elapsed);
    });
  };

  /** Shows a run's block and the run in it. */
  const lead = (run) => {
    choose(blocks.indexOf(run.block));
    run.element.scrollIntoView({ block: "nearest" });
    run.boxes.length === 1 ? run.stopAll.focus() : run.boxes.find((box) => isOpen(run, box))?.stop?.focus();
  };

  // --- The beat --------------------------------------------------------------------------------------------

  let beat = null;
  const warned = new Set();

  /** A device that slept has its clock ahead of the page's; one whose clock was set back has it behind. */
  let ahead = now() - performance.now();
  const noticeSetBack = () => {
    const before = ahead;
    ahead = now() - performance.now();
    if (ahead < before - SET_BACK_MS && runs.some((run) => clockOf(run) !== null)) tellSetBack();
  };

  const tick = () => {
    noticeSetBack();
    const at = now();
    let next = null;
    for (const run of runs) {
      let due = goAt(run);
      if (due !== null && due <= at) {
        // A tab that slept does not know what happened meanwhile.
        takeUp(run.session);
        due = goAt(run);
      }
      if (due === null) continue;
      if (due <= at) {
        run.session.kept.gone[run.key] = true;
        if (at - due < LATE_MS && clockOf(run) === null) {
          startClock(run, due);
          say(`Go: ${lower(titleOf(run))}.`);
          if (run.block === blocks[current] && !(document.activeElement instanceof HTMLInputElement)) {
            run.element.scrollIntoView({ block: "nearest" });
          }
        }
        run.session.kept.save();
      } else if (next === null || due < next.due) next = { run, due };
    }
    for (const block of blocks) {
      if (zeroOf(block) !== null && !block.runs.some((run) => goAt(run) !== null)) {
        delete block.session.kept.zeros[block.key];
        block.session.kept.save();
        refreshBlock(block);
      }
    }
    const active = runs
      .filter((run) => clockOf(run) !== null)
      .map((run) => ({ run, elapsed: at - clockOf(run).start }))
      .sort((a, b) => a.elapsed - b.elapsed);
    for (const { run, elapsed } of active) {
      run.watch.textContent = running(elapsed);
      const passed = run.prompts.filter((prompt) => prompt.at > (run.heardUntil ?? elapsed) && prompt.at <= elapsed);
      run.heardUntil = elapsed;
      if (passed.some((prompt) => prompt.heard)) {
        sound.split();
        const whose = active.length > 1 ? `${titleOf(run)}: ` : "";
        say(whose + passed.filter((prompt) => prompt.heard).map((prompt) => prompt.words).join(", "));
      }
    }
    byId("now").hidden = next === null && active.length === 0;
    showNext(next, at);
    showRunning(active);
    showSplit(active);
    byId("wake-sound").hidden = !(sound.isOn && next !== null && !sound.canSound());
    const isActive = next !== null || active.length > 0;
    keepLit(isActive);
    if (isActive && beat === null) beat = setInterval(tick, 100);
    if (!isActive && beat !== null) {
      clearInterval(beat);
      beat = null;
    }
  };
  const wakeUp = tick;

  const showNext = (next, at) => {
    byId("next-go").hidden = next === null;
    if (next === null) return;
    const left = next.due - at;
    const key = soundKey(next.run, next.due);
    byId("next-go-name").textContent = `${titleOf(next.run)} goes in`;
    byId("next-go-time").textContent = still(left);
    if (left <= AHEAD_MS) sound.go(key, left);
    if (left <= 10_000 && !warned.has(key)) {
      warned.add(key);
      say(`${titleOf(next.run)} goes in ${Math.ceil(left / 1000)} seconds.`);
    }
  };

  /** The next place that any running clock comes by. */
  const showSplit = (active) => {
    const coming = active
      .flatMap(({ run, elapsed }) => run.prompts.map((prompt) => ({ run, prompt, left: prompt.at - elapsed })))
      .filter(({ left }) => left > 0)
      .sort((a, b) => a.left - b.left);
    // Its place stays when the last is passed, so that nothing moves under a thumb.
    byId("next-split").hidden = !active.some(({ run }) => run.prompts.length > 0);
    if (coming.length === 0) {
      byId("next-split-place").textContent = "The last split is passed.";
      byId("next-split-time").textContent = "";
      return;
    }
    // Of several, whose it is.
    const whose = active.length > 1 ? `${titleOf(coming[0].run)}: ` : "";
    byId("next-split-place").textContent = whose + coming[0].prompt.words;
    byId("next-split-time").textContent = `in ${still(coming[0].left)}`;
  };

  // --- One block at a time ---------------------------------------------------------------------------------

  let current = 0;
  const choose = (index) => {
    current = Math.min(Math.max(index, 0), blocks.length - 1);
    const block = blocks[current];
    for (const other of blocks) other.element.classList.toggle("is-shown", other === block);
    for (const session of sessions) session.element.classList.toggle("is-shown", session === block?.session);
    if (!block) return;
    byId("choose").value = block.element.id;
    byId("previous").disabled = current === 0;
    byId("next").disabled = current === blocks.length - 1;
    try {
      sessionStorage.setItem("toeline:block", block.element.id);
    } catch {
      // Then the first block with runs is shown again after a reload.
    }
  };
  /** The first block with runs is what a page is opened for; what comes before it needs no clock. */
  const opening = (among) => blocks.indexOf(among.find((block) => block.runs.length > 0) ?? among[0]);
  const turn = (by) => {
    choose(current + by);
    say(text(blocks[current].element.querySelector("h2, h3")));
  };

  // --- Times as CSV --------------------------------------------------------------------------------------

  /** No spreadsheet takes a cell for a formula, and every one finds the cell's end (RFC 4180). */
  const cell = (value) => {
    const safe = /^[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/.test(value) ? `'${value}` : value;
    return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
  };

  /** A time in seconds, where it is one: `34.2`, `1:12.4`, `1:02:03`; `1.12.4`, where a keypad has no colon. */
  const inSeconds = (time) => {
    const colons = time.replace(/^(\d+)[.,](\d\d[.,]\d+)$/, "$1:$2");
    const parts = /^(?:(?:(\d+):)?(\d+):)?(\d+(?:[.,]\d+)?)$/.exec(colons);
    if (parts === null) return "";
    const [hours, minutes, seconds] = parts.slice(1).map((part) => Number((part ?? "0").replace(",", ".")));
    return String(Math.round((hours * 3600 + minutes * 60 + seconds) * 1000) / 1000);
  };

  /** The names are those of the plan's own CSV where they hold the same. */
  const COLUMNS = [
    "session", "date", "track", "block", "text", "group", "set", "rep", "wave", "athletes", "lane", "metres", "run_in",
    "start_cone", "start", "finish_cone", "finish", "the_other_way", "go", "target", "time", "time_s", "note",
  ];

  const csv = (session) => {
    const { title, day, track, note } = session.element.dataset;
    const lines = [COLUMNS];
    for (const block of session.blocks) {
      const workout = text(block.element.querySelector(".text"));
      const group = text(block.element.querySelector(".group strong"));
      for (const run of block.runs) {
        const go = text(run.element.querySelector(".go")).replace(/^go /, "");
        for (const box of run.boxes) {
          const row = box.input.closest("tr");
          const { set, rep, wave, lane } = row.dataset;
          const of = (selector) => text(row.querySelector(selector));
          const cone = (selector) => of(selector).replace(/^cone /, "");
          const runIn = of(".run-in").replace(/^run-in /, "").replace(/, then$/, "");
          const otherWay = row.querySelector(".other-way") === null ? "" : "yes";
          const time = box.input.value.trim();
          lines.push([
            ...[title, day, track, block.number, workout, group, set, rep, wave, box.name, lane, of(".metres"), runIn],
            ...[cone(".from .cone"), of(".from .spot"), cone(".to .cone"), of(".to .spot"), otherWay, go, of(".aim")],
            ...[time, inSeconds(time), note],
          ]);
        }
      }
    }
    return lines.map((line) => line.map(cell).join(",") + "\r\n").join("");
  };

  const save = (session) => {
    // The mark at the start tells spreadsheets that the names are in UTF-8.
    const file = new Blob(["\ufeff", csv(session)], { type: "text/csv;charset=utf-8" });
    const link = document.createElement("a");
    link.href = URL.createObjectURL(file);
    link.download = `${session.element.dataset.file}.csv`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  };

  const clear = (session) => {
    if (!confirm(`Clear all times and clocks of “${session.element.dataset.title}”?`)) return;
    session.kept.clear();
    sound.hush();
    for (const block of session.blocks) {
      for (const run of block.runs) {
        for (const box of run.boxes) box.input.value = "";
        run.past = [];
        refresh(run);
      }
    }
    refreshKept(session);
    say("The times are cleared.");
    tick();
  };

  // --- What is kept, shown ---------------------------------------------------------------------------------

  const showKept = (session) => {
    for (const block of session.blocks) {
      for (const run of block.runs) {
        for (const box of run.boxes) {
          const kept = session.kept.times[box.key];
          // What is being typed here is kept already; to set it again would move the cursor.
          const words = typeof kept === "string" ? kept : "";
          if (box.input.value !== words) box.input.value = words;
        }
        refresh(run);
      }
      refreshBlock(block);
    }
    refreshKept(session);
  };

  /** Takes up what another tab with the same session has kept meanwhile. */
  const takeUp = (session) => {
    if (!session.kept.renew()) return;
    for (const run of session.blocks.flatMap((block) => block.runs)) run.past = [];
    showKept(session);
  };

  // --- Begin ---------------------------------------------------------------------------------------------

  document.documentElement.classList.add("js");
  for (const session of sessions) {
    for (const block of session.blocks) {
      block.counter?.addEventListener("click", () => countDown(block));
      block.later?.addEventListener("click", () => later(block));
      for (const run of block.runs) {
        run.start.addEventListener("click", () => startByHand(run));
        run.stopAll.addEventListener("click", () => stop(run, run.boxes));
        run.takeBack.addEventListener("click", () => takeBack(run));
        for (const box of run.boxes) {
          box.stop?.addEventListener("click", () => stop(run, [box]));
          box.input.addEventListener("input", () => {
            const { value } = box.input;
            takeUp(session);
            box.typed = now();
            // What was corrected by hand is past taking back.
            if (clockOf(run) === null) run.past = [];
            setTime(run, box, value);
            session.kept.save();
            refresh(run);
            refreshKept(session);
          });
        }
      }
    }
    showKept(session);
    session.element.querySelector(".save").addEventListener("click", () => save(session));
    session.element.querySelector(".clear").addEventListener("click", () => clear(session));
  }
  for (const button of document.querySelectorAll(".enlarge")) {
    button.addEventListener("click", () => {
      const isLarge = button.closest(".map").classList.toggle("is-large");
      button.setAttribute("aria-pressed", String(isLarge));
    });
  }
  byId("pager").hidden = blocks.length < 2;
  const switches = [...document.querySelectorAll(".sound")];
  for (const box of switches) {
    box.addEventListener("change", () => {
      sound.isOn = box.checked;
      for (const other of switches) other.checked = box.checked;
      if (sound.isOn) sound.wake();
      else sound.hush();
    });
  }
  byId("previous").addEventListener("click", () => turn(-1));
  byId("next").addEventListener("click", () => turn(1));
  byId("choose").addEventListener("change", (event) => {
    choose(blocks.findIndex((block) => block.element.id === event.target.value));
  });
  for (const link of document.querySelectorAll(".contents a")) {
    link.addEventListener("click", () => {
      choose(opening(blocks.filter((block) => `#${block.session.element.id}` === link.hash)));
    });
  }
  document.addEventListener("pointerdown", () => sound.wake());
  document.addEventListener("keydown", () => sound.wake());
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") sessions.forEach(takeUp);
    tick();
  });
  addEventListener("storage", (event) => {
    sessions.filter(({ kept }) => event.key === null || event.key === kept.key).forEach(takeUp);
    tick();
  });
  let last = null;
  try {
    last = sessionStorage.getItem("toeline:block");
  } catch {
    // Nothing is kept.
  }
  const before = blocks.findIndex((block) => block.element.id === last);
  choose(before === -1 ? opening(blocks) : before);
  tick();
})();
