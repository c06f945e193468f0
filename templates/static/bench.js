// At the bench: one step a screen, ticks and readings kept on this device by step and joint.
// Readings are compared with bands that the publish gives (bench-judge.js). Without this script the list is whole.
(function () {
"use strict";
const byId = id => document.getElementById(id), BOX = "input[type=checkbox]";
const data = JSON.parse(byId("bench-data").textContent);
const screens = data.screens.filter(s => byId(s.id));
if (!screens.length) { return; }
const place = "benchleaf-bench:" + location.pathname.replace(/bench\/[^/]*$/, "");
const ALIEN = "This file is not a copy from this page; nothing was changed.", LONGEST = 400, LARGEST = 2 * 1024 * 1024, MOST = 20000; // letters of a reading, bytes of a file, entries of a group
const GROUPS = ["boxes", "read", "why", "done", "flights"];
const body = document.body, content = document.querySelector(".body");
let state = empty(), now = screens[0], clock = 0, mode = "step", unsaved = "";

function empty() {
  const made = {};
  GROUPS.forEach(g => { made[g] = Object.create(null); });
  made.now = "";
  return made;
}
function make(tag, text, name) {
  const node = document.createElement(tag);
  if (text) { node.textContent = text; }
  if (name) { node.className = name; }
  return node;
}
function button(text, act, name) {
  const node = make("button", text, name);
  node.type = "button";
  node.onclick = act;
  return node;
}

function plain(given) { return Object.prototype.toString.call(given) === "[object Object]"; }
// What a stranger's text holds of ours: short text under each name, nothing else. Null where it is not ours.
function readState(given) {
  if (!plain(given)) { return null; }
  const made = empty();
  for (const g of GROUPS) {
    const group = given[g] === undefined ? {} : given[g];
    if (!plain(group) || Object.keys(group).length > MOST) { return null; }
    for (const k of Object.keys(group)) {
      if (typeof group[k] !== "string" || k.length > LONGEST || group[k].length > LONGEST) { return null; }
      made[g][k] = group[k];
    }
  }
  if (typeof given.now === "string") { made.now = given.now.slice(0, LONGEST); }
  return made;
}
function load() {
  let text = null;
  try { text = localStorage.getItem(place); } catch (e) { unsaved = "This browser keeps nothing here: export a copy before you close the page."; return; }
  if (text === null) { return; }
  let found = null;
  try { found = readState(JSON.parse(text)); } catch (e) { /* not ours */ }
  if (found) { state = found; return; }
  try { localStorage.setItem(place + ":unread", text); } catch (e) { /* it stays where it is until the next tick */ }
  unsaved = "What was kept here cannot be read; it was set aside, and this starts anew.";
}
function keep() {
  try { localStorage.setItem(place, JSON.stringify(state)); } catch (e) { unsaved = "This browser has no room, or keeps nothing: export a copy before you close the page."; }
  said.textContent = unsaved;
}

function bandOf(field) { return data.fields[field.dataset.write]; }
// Names that outlast a revision: a field's own, the step of a box, or the words beside it.
function sum(text) {
  let found = 1;
  for (const letter of text.replace(/\s+/g, " ").trim()) { found = (found * 31 + letter.codePointAt(0)) | 0; }
  return found;
}
function nameOf(box) {
  const row = box.closest("tr"), field = row && row.querySelector("[data-write]");
  if (field && bandOf(field)) { return "passed|" + bandOf(field).name; }
  if (row && box.dataset.tick) { return box.dataset.tick.replace(/\d+$/, "") + "|" + sum(row.cells[0].textContent); }
  if (box.dataset.tick) { return box.dataset.tick.replace(/\d+$/, "") + "|" + sum(box.closest("li, label, p").textContent); }
  return box.closest("[id]").id;
}
function set(group, name, value) {
  if (value) { state[group][name] = value; } else { delete state[group][name]; }
}
function isDone(s) { return state.done[s.id] === s.wording; }
function isChanged(s) { return s.id in state.done && !isDone(s); }

function tell(words) { spoken.textContent = words; }
const head = make("div", "", "at-now"), where = make("p"), bar = make("progress"), said = make("p", "", "at-said"), changed = make("p", "", "at-changed");
const spoken = make("p", "", "at-said"), list = make("nav", "", "at-list"), foot = make("div", "", "at-bar"), tools = make("div", "", "at-tools");
bar.max = screens.length;
bar.setAttribute("aria-label", "steps done");
said.setAttribute("role", "status");
spoken.setAttribute("role", "alert");
list.setAttribute("aria-label", "All steps");
list.hidden = true;
const lister = button("List", () => { if (mode === "step") { show("list"); } else { go(now); } });
lister.setAttribute("aria-expanded", "false");
const doner = button("Done", done, "go");
foot.append(button("Back", () => { move(-1); }), lister, doner);
head.append(where, bar, said, changed);
const trouble = window.benchTrouble(data.trouble, make, button);
content.before(head, list, trouble.panel);
content.after(foot);
foot.prepend(spoken);
foot.after(tools);

function count(some) { return some.filter(isDone).length; }
function drawHead() {
  const own = screens.filter(s => s.stage === now.stage);
  where.textContent = now.stage + ": " + (own.indexOf(now) + 1) + " of " + own.length + ". Done: " + count(own) + " here, " + count(screens) + " of " + screens.length + " in all.";
  bar.value = count(screens);
  const again = screens.filter(isChanged);
  changed.hidden = !again.length;
  changed.textContent = isChanged(now) ? "This step has changed since you did it. Look at it again, then touch Done."
    : again.length + (again.length === 1 ? " done step has" : " done steps have") + " changed in this revision; the list marks " + (again.length === 1 ? "it." : "them.");
}
function drawList() {
  list.textContent = "";
  let stage = "", items = null;
  screens.forEach(s => {
    if (s.stage !== stage) {
      stage = s.stage;
      const own = screens.filter(o => o.stage === stage);
      items = make("ol");
      list.append(make("h2", stage + ": " + count(own) + " of " + own.length), items);
    }
    const mark = isDone(s) ? "✓ " : isChanged(s) ? "Changed: " : "";
    const one = button(mark + s.title, () => { go(s); }), line = make("li");
    if (s === now) { one.setAttribute("aria-current", "step"); }
    line.append(one);
    items.append(line);
  });
  list.append(button("Whole page", () => { show("page"); }));
}
function show(what) {
  mode = what;
  body.classList.toggle("stepwise", what !== "page");
  body.classList.toggle("listing", what === "list" || what === "trouble");
  list.hidden = what !== "list";
  trouble.panel.hidden = what !== "trouble";
  doner.disabled = what !== "step";
  lister.textContent = what === "step" ? "List" : "Step";
  lister.setAttribute("aria-expanded", String(what === "list"));
  tell("");
  if (what === "list") { drawList(); (list.querySelector("[aria-current]") || lister).focus(); }
  drawHead();
}
function clear() { document.querySelectorAll("[data-now]").forEach(n => { n.removeAttribute("data-now"); }); }
function go(s) {
  clear();
  now = s;
  stopClock();
  const node = byId(s.id);
  for (let n = node; n && n !== content; n = n.parentElement) { if (n.matches("section, li")) { n.setAttribute("data-now", ""); } }
  node.tabIndex = -1;
  show("step");
  tell(early(s));
  node.focus({ preventScroll: true });
  setTimeout(() => head.scrollIntoView());
  try { history.replaceState(null, "", "#" + s.id); } catch (e) { /* the address stays as it was */ }
  state.now = s.id;
  keep();
}
function move(by) {
  const next = screens[screens.indexOf(now) + by];
  if (next) { go(next); }
}

const judgedOf = new Map();
function judge(field) {
  const band = bandOf(field), own = judgedOf.get(field);
  const found = window.benchJudge.judge(band, field.value), verdict = found.verdict;
  const heads = { right: "Right", doubtful: "Doubtful", wrong: "Wrong" };
  own.out.dataset.verdict = verdict;
  own.out.textContent = [heads[verdict], found.words].filter(Boolean).join(": ") + (verdict && (found.words || verdict !== "right") ? "." : "");
  own.verdict = verdict;
  own.reason.hidden = band.danger || (band.hard && verdict === "wrong") || (verdict !== "doubtful" && verdict !== "wrong");
  return verdict;
}
function setUpField(field) {
  const band = bandOf(field);
  if (!band) { setUpPlain(field); return; }
  const out = make("output", "", "judged"), reason = make("label", "Why it may stand ", "why-kept"), why = make("input");
  field.autocomplete = "off";
  field.maxLength = why.maxLength = LONGEST;
  reason.append(why);
  reason.hidden = true;
  field.closest("label").after(out, reason);
  judgedOf.set(field, { out: out, reason: reason, why: why, verdict: "" });
  why.addEventListener("input", () => { set("why", band.name, why.value); keep(); });
  field.addEventListener("input", () => {
    set("read", band.name, field.value);
    const verdict = judge(field), row = field.closest("tr"), box = row && row.querySelector(BOX);
    if (box && verdict) { tick(box, verdict === "right"); }
    undo();
    keep();
  });
}
function setUpPlain(field) {
  field.autocomplete = "off";
  field.addEventListener("input", () => { set("read", field.dataset.write, field.value); keep(); });
}
function tick(box, on) { box.checked = on; set("boxes", nameOf(box), on ? "1" : ""); }
// A reading or box that is taken back takes back the step.
function undo() {
  if (isDone(now) && lacking(now)) { delete state.done[now.id]; drawHead(); }
}

// Whether only measuring right passes it: DANGER in any case, what is wrong where it could burn.
function shut(band, own) { return band.danger ? own.verdict !== "right" : Boolean(band.hard) && own.verdict === "wrong"; }

// What keeps a screen from being done: words and what to look at; null for nothing.
function lacking(s) {
  const node = byId(s.id);
  for (const field of node.querySelectorAll("[data-write]")) {
    const band = bandOf(field), own = judgedOf.get(field);
    if (band && shut(band, own)) { return [band.label + ": this one is passed only by measuring right. Find the cause with the power off.", field]; }
    if (own && (own.verdict === "wrong" || own.verdict === "doubtful") && !own.why.value.trim()) { return [band.label + ": measure again, or write why it may stand.", own.why]; }
  }
  const boxes = Array.from(node.querySelectorAll(BOX)), open = boxes.filter(b => !b.checked);
  if (boxes.length > 1 && open.length) { return [open.length + (open.length === 1 ? " box is" : " boxes are") + " open. Tick each as it is done.", open[0]]; }
  return early(s) ? [early(s), lister] : null;
}
// A gate waits for those before it, stage by stage.
function early(s) {
  const open = s.gate && screens.slice(0, screens.indexOf(s)).find(o => o.gate && !isDone(o));
  return open ? "Not yet: put no power on. First finish " + open.stage + ", " + open.title + "." : "";
}
function done() {
  const lacks = lacking(now), node = byId(now.id), boxes = node.querySelectorAll(BOX);
  if (lacks) { tell(lacks[0]); lacks[1].focus(); return; }
  if (boxes.length === 1) { tick(boxes[0], true); }
  state.done[now.id] = now.wording;
  const next = screens[screens.indexOf(now) + 1], ended = now.stage;
  if (next) { go(next); } else { keep(); drawHead(); }
  if (!next || (next.stage !== ended && /^Gate/.test(ended))) { tell(ended + " is done. Save a copy now: touch Export below."); }
}

function stopClock() { if (clock) { clock(); clock = 0; } }
function setUpDwell(id, range) {
  const box = byId(id);
  if (!box) { return; }
  const idle = "Stopwatch: iron on " + (range[0] ? range[0] + " to " : "at most ") + range[1] + " s";
  const node = button(idle, () => {
    if (clock && clock.node === node) { stopClock(); return; }
    stopClock();
    const start = performance.now(), beat = setInterval(() => {
      const t = (performance.now() - start) / 1000;
      node.textContent = t.toFixed(1) + " s" + (t > range[1] ? ": too long, iron off" : t >= range[0] && range[0] ? ": take it off" : "");
      if (t > 60) { stopClock(); }
    }, 100);
    clock = () => { clearInterval(beat); node.textContent = idle; };
    clock.node = node;
  });
  const beside = box.querySelector("label") || box.querySelector("a");
  if (beside) { beside.after(node); } else if (box.matches("input")) { box.after(node); } else { box.append(node); }
}

function out() {
  const whole = { kind: "benchleaf bench notes", version: 1, build: data.build, digest: data.digest, saved: new Date().toLocaleDateString("sv"), state: state };
  const link = make("a"), address = URL.createObjectURL(new Blob([JSON.stringify(whole, null, 1)], { type: "application/json" }));
  link.href = address;
  link.download = data.build + "-bench.json";
  link.click();
  setTimeout(() => { URL.revokeObjectURL(address); }, 1000);
}
function take(text) {
  let given = null;
  try { given = JSON.parse(text); } catch (e) { return ALIEN; }
  const found = plain(given) && given.kind === "benchleaf bench notes" && given.version === 1 ? readState(given.state) : null;
  if (!found) { return ALIEN; }
  if (given.build !== data.build) { return "This file is of another build; nothing was changed."; }
  let differ = 0, added = 0;
  GROUPS.forEach(g => {
    Object.keys(found[g]).forEach(k => {
      if (!(k in state[g])) { state[g][k] = found[g][k]; added += 1; } else if (state[g][k] !== found[g][k]) { differ += 1; }
    });
  });
  keep();
  fill();
  drawHead();
  return added + " entries taken in" + (differ ? "; " + differ + " differ and stay as they are here." : ".");
}
const chooser = make("input");
chooser.type = "file";
chooser.accept = "application/json,.json";
chooser.addEventListener("change", () => {
  const file = chooser.files[0];
  if (!file) { return; }
  if (file.size > LARGEST) { tell("This file is too large to be a copy from this page; nothing was changed."); return; }
  file.text().then(take, () => "This file cannot be read; nothing was changed.").then(words => { tell(words); chooser.value = ""; });
});
const importer = make("label", "Import ");
importer.append(chooser);
const dark = button("Dark", () => { dark.setAttribute("aria-pressed", String(document.documentElement.classList.toggle("dark"))); });
dark.setAttribute("aria-pressed", "false");
const lost = button("This does not work", () => { trouble.start(); show("trouble"); head.scrollIntoView(); trouble.panel.querySelector("button").focus(); });
tools.append(button("Export", out), importer, dark);
if (data.trouble.symptoms.length) { tools.prepend(lost); }
const field = window.benchField(data.alarms, make, button, (name, text) => { set("flights", name, text); keep(); }, () => Object.values(state.flights));
if (field) {
  tools.prepend(button("On the field", () => {
    clear();
    byId("field").setAttribute("data-now", "");
    show("field");
    head.scrollIntoView();
  }));
}

const awake = make("p", "", "quiet");
const away = make("p", "", "quiet"); away.id = "away"; tools.after(awake, away);
function wake() {
  if (document.visibilityState !== "visible") { return; }
  const words = "This browser cannot keep the screen awake here: set a longer time-out in the device's settings.";
  if (!navigator.wakeLock) { awake.textContent = words; return; }
  navigator.wakeLock.request("screen").then(() => { awake.textContent = ""; }, () => { awake.textContent = words; });
}

function fill() {
  content.querySelectorAll(BOX).forEach(box => { box.checked = nameOf(box) in state.boxes; });
  if (field) { field.list(); }
  content.querySelectorAll("[data-write]").forEach(field => {
    const band = bandOf(field), own = judgedOf.get(field);
    field.value = state.read[band ? band.name : field.dataset.write] || "";
    if (own) { own.why.value = state.why[band.name] || ""; judge(field); }
  });
}
function from(hash) {
  const node = hash && byId(hash);
  return node ? screens.find(s => { const own = byId(s.id); return own === node || own.contains(node) || node.contains(own); }) : null;
}

load();
content.querySelectorAll("[data-write]").forEach(setUpField);
screens.forEach(s => { Object.keys(s.dwell).forEach(id => { setUpDwell(id, s.dwell[id]); }); });
content.addEventListener("change", event => {
  const box = event.target;
  if (box.type !== "checkbox") { return; }
  const row = box.closest("tr"), field = row && row.querySelector("[data-write]"), own = field && judgedOf.get(field);
  if (box.checked && own && shut(bandOf(field), own)) {
    box.checked = false;
    tell("This one is passed only by measuring right: type what you read.");
  }
  tick(box, box.checked);
  undo();
  keep();
});
fill();
document.addEventListener("keydown", event => {
  if (event.key === "Enter" && event.ctrlKey) { if (!doner.disabled) { done(); } return; }
  if (event.target.matches("input, select, textarea") || event.altKey || event.ctrlKey || event.metaKey || doner.disabled) { return; }
  if (event.key === "ArrowLeft") { move(-1); }
  if (event.key === "ArrowRight") { move(1); }
});
window.addEventListener("storage", event => { if (event.key === place) { load(); fill(); drawHead(); } });
window.addEventListener("hashchange", () => {
  const s = from(location.hash.slice(1));
  if (s) { go(s); } else if (location.hash.length > 1) { show("page"); byId(location.hash.slice(1)).scrollIntoView(); }
});
document.addEventListener("visibilitychange", wake);
wake();
if (navigator.storage && navigator.storage.persist) { navigator.storage.persist().catch(() => { /* kept as long as the browser likes */ }); }
const hash = location.hash.slice(1), first = from(hash);
const kept = screens.find(s => s.id === state.now);
go(first || kept || screens.find(s => !isDone(s)) || screens[0]);
if (hash && !first && byId(hash)) { show("page"); byId(hash).scrollIntoView(); }
})();
