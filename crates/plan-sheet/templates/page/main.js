// The page: what is tapped, what is due, what is shown.
import { BOUNCE_MS, cancel, endWith, letGo, skip, startByHand, stop, typed, undo } from "./clocks.js";
import { csvOf } from "./csv.js";
import { attempt } from "./kept.js";
import { lit } from "./lit.js";
import { ask, openMenu } from "./menu.js";
import { clockOf, sessionModel } from "./model.js";
import { showPart, wirePlan } from "./parts.js";
import { blockOn, runningNow, screenOf } from "./screen.js";
import { sound } from "./sound.js";
import { endCountdown, goAt, moveGoes, stageRuns, startCountdown, stopCountdown } from "./timetable.js";
import { openAll, openTimes, refreshTimes } from "./times_view.js";
import { dayOf } from "./times.js";
import { byId, draw, say, setText } from "./view.js";

/** How long before a go its tones are handed to the sound card. */
const AHEAD_MS = 4_000;
/** A go that is so near is said aloud. */
const SAID_MS = 10_000;
/** A button that has just changed its meaning takes no tap for so long. */
const CALM_MS = 1_000;
/** A clock set back by less than this is not told from one that is corrected all the time. */
const SET_BACK_MS = 200;

const now = () => Date.now();
const noStorage = { getItem: () => null, setItem: () => { throw new Error("nothing is kept"); }, removeItem: () => {} };
const data = JSON.parse(byId("data").textContent);
const storage = attempt(() => localStorage) ?? noStorage;
const sessions = data.sessions.map((session) => sessionModel(session, storage));
sessions[0].isOpening = true;

/** What the page does just now; only what the sessions keep outlives a reload. */
const desk = {
  sessions,
  session: sessions[0],
  /** The run that was chosen of several whose clocks run. */
  focus: null,
  undo: [],
};

/** What the button means and whose names are shown, since when; the timer of the beat; goes that were said. */
const state = { kind: null, kindSince: -CALM_MS, named: "", namedSince: 0, beat: null, ahead: now() - performance.now(), said: new Set(), tapped: new Map() };

/** What is to be told at the top, one after the other, and what was told. */
const notices = [];
const told = new Set();

function notice(words) {
  if (told.has(words)) return;
  told.add(words);
  notices.push(words);
  showNotice();
}

function showNotice() {
  byId("notice").hidden = notices.length === 0;
  setText(byId("notice-words"), notices[0] ?? "");
}

/** A page of the week opens on today, else on the first session after today, else on the first. */
function opening() {
  const today = dayOf(now());
  const running = sessions.find((session) => runningNow(session).length > 0);
  const later = sessions.filter(({ day }) => day !== null && day >= today).sort((a, b) => (a.day < b.day ? -1 : 1));
  return running ?? sessions.find(({ day }) => day === today) ?? later[0] ?? sessions[0];
}

/** Shows what there is to see, and says when it is to be looked at again. */
function show(at = now()) {
  const screen = screenOf(desk, at);
  const kind = `${screen.kind} ${screen.run?.id ?? ""}`;
  // What the page comes with takes a tap at once.
  if (state.kind === null) state.kind = kind;
  if (kind !== state.kind) [state.kind, state.kindSince] = [kind, at];
  const named = screen.names.length > 0 ? screen.run.id : "";
  if (named !== state.named) [state.named, state.namedSince] = [named, at];
  draw(screen, desk.session, { onName, onOther });
  lit.keep(screen.isActive).then(() => {
    if (lit.isRefused) tellLimits();
  });
  const needsTap = sound.isOn && screen.kind === "count" && !sound.canPlay();
  if (needsTap) setText(byId("ticker"), "Tap anywhere for sound.");
  beatWhile(screen.isActive || screen.kind === "undo");
  return screen;
}

function beatWhile(isActive) {
  if (isActive && state.beat === null) state.beat = setInterval(tick, 100);
  if (!isActive && state.beat !== null) {
    clearInterval(state.beat);
    state.beat = null;
  }
}

/** Ten times a second while anything runs: what is due goes, and is heard. */
function tick() {
  const at = now();
  noticeSetBack();
  for (const session of sessions) tickSession(session, at);
  const dues = sessions.reduce((all, { runs }) => all.concat(runs.map(goAt).filter((go) => go !== null && go - at <= AHEAD_MS)), []);
  sound.keepOnly(dues, at);
  for (const due of dues) sound.go(due, at);
  show(at);
}

function tickSession(session, at) {
  for (const run of session.runs) {
    const go = goAt(run);
    if (go === null) continue;
    if (go <= at) goWhenDue(run, at);
    else if (go - at <= SAID_MS) sayOnce(run, go, at);
  }
  const ended = session.blocks.filter(endCountdown);
  if (ended.length > 0) session.kept.save();
  for (const run of runningNow(session)) announcePasses(run, at - clockOf(run).start);
}

function goWhenDue(run, at) {
  // A tab that slept does not know what another did meanwhile.
  takeUp(run.session);
  const go = goAt(run);
  if (go === null || go > at) return;
  const words = letGo(run, go, at);
  if (words !== null) say(words);
}

function sayOnce(run, go, at) {
  const key = `${run.session.id} ${run.id} ${go}`;
  if (state.said.has(key)) return;
  state.said.add(key);
  say(`${run.title} goes in ${Math.ceil((go - at) / 1000)} seconds.`);
}

function announcePasses(run, elapsed) {
  const since = run.heardUntil ?? elapsed;
  run.heardUntil = elapsed;
  const passed = run.passes.filter(({ time_s, is_heard }) => is_heard && time_s * 1000 > since && time_s * 1000 <= elapsed);
  if (passed.length === 0) return;
  sound.split();
  say(passed.map(({ words }) => words).join(", "));
}

/** A device that slept has its clock ahead of the page's own time; one whose clock was set back has it behind. */
function noticeSetBack() {
  const before = state.ahead;
  state.ahead = now() - performance.now();
  if (state.ahead >= before - SET_BACK_MS) return;
  if (sessions.some((session) => runningNow(session).length > 0)) {
    notice("This device’s clock was set back. Times of runs in progress are wrong: write them by hand.");
  }
}

/** Takes up what another tab with the same session has kept meanwhile. */
function takeUp(session) {
  if (!session.kept.renew()) return;
  desk.undo = desk.undo.filter(({ run }) => run.session !== session);
  refreshTimes(session, handlers);
}

/** A second tap of a wet thumb does nothing. */
function isBounce(what, at) {
  const before = state.tapped.get(what);
  state.tapped.set(what, at);
  return before !== undefined && Math.abs(at - before) < BOUNCE_MS;
}

/** Does something with the clocks, and shows what came of it. */
function act(what) {
  sound.wake();
  lit.allow();
  takeUp(desk.session);
  say(what(now()));
  desk.session.kept.save();
  refreshTimes(desk.session, handlers);
  tick();
  tellLimits();
}

/** The one button. */
function onGo() {
  const at = now();
  const screen = show(at);
  // A thumb that came for what the button meant before does nothing; nor does its second tap.
  if (Math.abs(at - state.kindSince) < CALM_MS) return;
  act(() => onGoNow(screen, at));
}

function onGoNow({ kind, run, block }, at) {
  const { session } = desk;
  if (kind === "stop") return stopAt(run, run.boxes, at);
  if (kind === "undo") return undo(desk, at);
  if (kind === "count" || kind === "pass") return startByHand(desk, run, at);
  if (kind === "start") {
    const first = startCountdown(stageRuns(run.block), at);
    return first === null ? "" : `${first.title} goes in 10 seconds.`;
  }
  if (kind === "done") {
    session.kept.done[block.id] = true;
    return "";
  }
  location.hash = "#times";
  return "";
}

function stopAt(run, boxes, at) {
  const clock = clockOf(run);
  if (clock !== null && at < clock.start) {
    notice("This device’s clock was set back. Times of runs in progress are wrong: write them by hand.");
    return cancel(desk, run, at);
  }
  return stop(desk, run, boxes, at);
}

function onName(index) {
  const at = now();
  const screen = show(at);
  const name = screen.names[index];
  if (name === undefined || Math.abs(at - state.namedSince) < BOUNCE_MS || isBounce(name.box.id, at)) return;
  if (name.isOpen) act(() => stopAt(screen.run, [name.box], at));
  else if (name.canUndo) act(() => undo(desk, at));
}

function onOther(run) {
  desk.focus = run.id;
  show();
}

const menuActs = {
  undo: () => act((at) => undo(desk, at)),
  start: (run) => act((at) => startByHand(desk, run, at)),
  cancel: (run) => act((at) => cancel(desk, run, at)),
  endWith: (run, word) => act((at) => endWith(desk, run, word, at)),
  skip: (run) => act((at) => skip(desk, run, at)),
  later: (runs) => act(() => {
    moveGoes(runs, 10_000);
    return "All goes: 10 seconds later.";
  }),
  stopCountdown: (runs) => act(() => {
    stopCountdown(runs);
    desk.session.kept.choices.byHand = true;
    return "Countdown stopped.";
  }),
  choose,
  chooseRun: (id) => act(() => {
    desk.session.kept.choices.run = id;
    return "";
  }),
  chooseGroup: (group) => act(() => {
    desk.session.kept.choices.group = group;
    return "";
  }),
  chooseRest: (rest) => act(() => {
    desk.session.kept.choices.rest = rest;
    return "";
  }),
  chooseSound: (value) => act(() => {
    for (const session of sessions) session.kept.choices.sound = value;
    setSound();
    return "";
  }),
};

function setSound() {
  sound.isOn = desk.session.kept.choices.sound !== "off";
  if (!sound.isOn) sound.keepOnly([], now());
}

/** Goes on with a block, of whichever session. */
function choose(session, block) {
  desk.session = session;
  desk.focus = null;
  act(() => {
    const { kept } = session;
    kept.choices.block = block;
    delete kept.choices.run;
    delete kept.done[block];
    return session.blocks.find(({ id }) => id === block)?.heading ?? "";
  });
}

/** What the times of the session do when they are written. */
const handlers = {
  onTyped(run, box, words) {
    takeUp(run.session);
    typed(run, box, words, now());
    refreshTimes(run.session, handlers);
    tick();
  },
  onSaveEarlier: (index) => save(desk.session, desk.session.kept.earlier[index]),
};

function save(session, kept) {
  const file = new Blob([csvOf(data.columns, session, kept)], { type: "text/csv;charset=utf-8" });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = `${session.file}.csv`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

function beginAnew(session) {
  session.kept.beginAnew();
  desk.undo = [];
  desk.focus = null;
  sound.keepOnly([], now());
  refreshTimes(session, handlers);
  say("A new session.");
  tick();
}

/** What this browser will not do, said once it matters. */
function tellLimits() {
  if (!desk.session.kept.works) notice("This browser keeps no times: save them as CSV before you leave the page.");
  if (!lit.isPossible || lit.isRefused) notice("This browser lets the screen go dark: set the phone to stay on while you time.");
}

/** What an earlier day has left. */
function takeStock(session) {
  const at = now();
  const lastGoMs = (id) => {
    const goes = session.runs.filter(({ block, goMs }) => block.id === id && goMs !== null).map(({ goMs }) => goMs);
    return goes.length > 0 ? Math.max(...goes) : null;
  };
  for (const id of session.kept.dropOld(at, lastGoMs)) {
    const run = session.runs.find((one) => one.id === id);
    notice(`The clock of ${run?.title ?? "a run"} ran for more than three hours: it is dropped.`);
  }
}

function askAboutAnotherDay() {
  const { session } = desk;
  const day = session.kept.lastDay();
  if (day === null || day === dayOf(now())) return;
  ask(`The times kept here are of ${day}.`, [
    ["Go on with them", () => {}],
    ["A new session", () => beginAnew(session)],
  ]);
}

function wire() {
  byId("go").addEventListener("click", onGo);
  byId("notice-ok").addEventListener("click", () => {
    notices.shift();
    showNotice();
  });
  byId("menu-open").addEventListener("click", () => openMenu(desk, show(), now(), menuActs));
  addEventListener("hashchange", () => showPart(onTimes));
  addEventListener("beforeprint", () => openAll(desk.session, handlers));
  document.addEventListener("pointerdown", () => sound.wake());
  document.addEventListener("keydown", () => sound.wake());
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") {
      lit.allow();
      sessions.forEach(takeUp);
    }
    tick();
  });
  addEventListener("storage", (event) => {
    sessions.filter(({ kept }) => event.key === null || event.key === kept.key).forEach(takeUp);
    tick();
  });
}

const onTimes = () => openTimes(desk.session, blockOn(desk.session), handlers);

/** What comes after this script in the page. */
function wireRest() {
  wirePlan(sessions, {
    onBlock(session, block) {
      choose(session, block);
      location.hash = "#run";
    },
    onCone(session, cone, isSet) {
      takeUp(session);
      if (isSet) session.kept.cones[cone] = true;
      else delete session.kept.cones[cone];
      session.kept.save();
    },
  });
  byId("save").addEventListener("click", () => save(desk.session, desk.session.kept));
  byId("clear").addEventListener("click", () => {
    ask(`Put away the times of “${desk.session.title}”? They can still be saved.`, [
      ["Keep them", () => {}],
      ["A new session", () => beginAnew(desk.session)],
    ]);
  });
  showPart(onTimes);
  askAboutAnotherDay();
}

sessions.forEach(takeStock);
desk.session = opening();
setSound();
wire();
tick();
if (!desk.session.kept.works) tellLimits();
document.documentElement.classList.add("ready");
if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", wireRest);
else wireRest();
