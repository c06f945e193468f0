// At the bench: one step a screen, ticks and readings kept on this device by step and joint.
// Readings are compared with bands that the publish gives (bench-judge.js). Without this script the list is whole.
(function () {
"use strict";
const { W, byId, data, make, button, plain, day } = window.bench, BOX = "input[type=checkbox]";
const screens = data.screens.filter(s => byId(s.id));
if (!screens.length) { document.body.classList.add("paged"); return; }
const place = "benchleaf-bench:" + location.pathname.replace(/bench\/[^/]*$/, "");
// Bytes of a file.
const LARGEST = 2 * 1024 * 1024, OF_PHOTOS = 96 * 1024 * 1024;
const [where, bar, changed, spoken, list, lister, doner] = ["at-where", "at-bar", "at-changed", "at-told", "at-list", "at-lister", "at-done"].map(byId);
const body = document.body, content = document.querySelector(".body"), trouble = byId("at-trouble");
const kept = window.bench.kept(place), set = kept.set;
let now = screens[0], clock = 0, mode = "step";

const bandOf = field => data.fields[field.dataset.write];
// The field in the row of a box.
function beside(box) { const row = box.closest("tr"); return row && row.querySelector("[data-write]"); }
// Names that outlast a revision: a field's own, the step of a box, or the words beside it.
function sum(text) {
  let found = 1;
  for (const letter of text.replace(/\s+/g, " ").trim()) { found = (found * 31 + letter.codePointAt(0)) | 0; }
  return found;
}
function nameOf(box) {
  const row = box.closest("tr"), field = beside(box), near = row ? row.cells[0] : box.closest("li, label, p"), own = box.dataset.tick;
  if (field && bandOf(field)) { return "passed|" + bandOf(field).name; }
  return own ? own.replace(/\d+$/, "") + "|" + sum(near.textContent) : box.closest("[id]").id;
}
// Done is what was done in these words, and whose DANGER readings are right: a file that says 'done' passes none.
function isDone(s) { return kept.state.done[s.id] === s.wording && !fieldsOf(s).some(shutOut); }
function isChanged(s) { const old = kept.state.done[s.id]; return Boolean(old) && old !== s.wording; }

const tell = words => { spoken.textContent = words; };
bar.max = screens.length;
const lose = window.bench.trouble(), photos = window.bench.photos(place, tell);

const count = some => some.filter(isDone).length;
function drawHead() {
  const own = screens.filter(s => s.stage === now.stage);
  where.textContent = now.stage + ": " + (own.indexOf(now) + 1) + " of " + own.length + ". Done: " + count(own) + " here, " + count(screens) + " of " + screens.length + " in all.";
  bar.value = count(screens);
  const again = screens.filter(isChanged);
  changed.hidden = !again.length;
  changed.textContent = isChanged(now) ? W.changed
    : again.length + (again.length === 1 ? W.oneChanged : W.someChanged);
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
    const one = button(mark + s.title, () => go(s)), line = make("li");
    if (s === now) { one.setAttribute("aria-current", "step"); }
    line.append(one);
    items.append(line);
  });
  list.append(button("Whole page", () => show("page")));
}
function show(what) {
  mode = what;
  body.classList.toggle("stepwise", what !== "page");
  body.classList.toggle("paged", what === "page");
  body.classList.toggle("listing", what === "list" || what === "trouble");
  list.hidden = what !== "list";
  trouble.hidden = what !== "trouble";
  photos.at(what === "step" ? now.step : "");
  doner.disabled = byId("at-back").disabled = what !== "step";
  lister.textContent = what === "step" ? "List" : "Step";
  lister.setAttribute("aria-expanded", String(what === "list"));
  tell("");
  if (what === "list") { drawList(); (list.querySelector("[aria-current]") || lister).focus(); }
  drawHead();
}
function clear() { document.querySelectorAll("[data-now]").forEach(n => n.removeAttribute("data-now")); }
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
  setTimeout(() => where.scrollIntoView());
  try { history.replaceState(null, "", "#" + s.id); } catch { }
  kept.stay(s.id);
}
function move(by) {
  const next = screens[screens.indexOf(now) + by];
  if (next) { go(next); }
}

const judgedOf = new Map();
function judge(field) {
  const band = bandOf(field), own = judgedOf.get(field);
  const found = window.bench.judge(band, field.value), verdict = found.verdict;
  own.out.dataset.verdict = verdict;
  own.out.textContent = [W[verdict], found.words].filter(Boolean).join(": ") + (found.words && verdict ? "." : "");
  own.verdict = verdict;
  own.reason.hidden = band.danger || (band.hard && verdict === "wrong") || (verdict !== "doubtful" && verdict !== "wrong");
  return verdict;
}
function setUpField(field) {
  const band = bandOf(field);
  field.autocomplete = "off";
  if (!band) { field.addEventListener("input", () => set("read", field.dataset.write, field.value)); return; }
  const out = make("output", "", "judged"), reason = make("label", W.reason, "why-kept"), why = make("input");
  field.maxLength = why.maxLength = 400;
  reason.append(why);
  reason.hidden = true;
  field.closest("label").after(out, reason);
  judgedOf.set(field, { out, reason, why, verdict: "" });
  why.addEventListener("input", () => set("why", band.name, why.value));
  field.addEventListener("input", () => {
    set("read", band.name, field.value);
    const verdict = judge(field), row = field.closest("tr"), box = row && row.querySelector(BOX);
    if (box && verdict) { tick(box, verdict === "right"); }
    undo(field);
  });
}
function tick(box, on) { box.checked = on; set("boxes", nameOf(box), on ? "1" : ""); }
// A reading or box that is taken back takes back its step.
function undo(node) {
  const s = screens.find(o => byId(o.id).contains(node));
  if (s && kept.state.done[s.id] && lacking(s)) { set("done", s.id, ""); drawHead(); }
}

// Whether only measuring right passes it: DANGER in any case, what is wrong where it could burn.
function shutOut(field) {
  const band = bandOf(field), verdict = band && judgedOf.get(field).verdict;
  return band && (band.danger ? verdict !== "right" : band.hard && verdict === "wrong");
}
const fieldsOf = s => Array.from(byId(s.id).querySelectorAll("[data-write]"));

// What keeps a screen from being done: words and what to look at; null for nothing.
function lacking(s) {
  const node = byId(s.id);
  for (const field of fieldsOf(s)) {
    const band = bandOf(field), own = judgedOf.get(field);
    if (shutOut(field)) { return [band.label + W.shut, field]; }
    if (own && (own.verdict === "wrong" || own.verdict === "doubtful") && !own.why.value.trim()) { return [band.label + W.why, own.why]; }
  }
  const boxes = Array.from(node.querySelectorAll(BOX)), open = boxes.filter(b => !b.checked);
  if (boxes.length > 1 && open.length) { return [open.length + (open.length === 1 ? W.oneOpen : W.someOpen), open[0]]; }
  return early(s) ? [early(s), lister] : null;
}
// A gate waits for those before it, stage by stage.
function early(s) {
  const open = s.gate && screens.slice(0, screens.indexOf(s)).find(o => o.gate && !isDone(o));
  return open ? W.early + open.stage + ", " + open.title + "." : "";
}
function done() {
  const lacks = lacking(now), node = byId(now.id), boxes = node.querySelectorAll(BOX);
  if (lacks) { tell(lacks[0]); lacks[1].focus(); return; }
  if (boxes.length === 1) { tick(boxes[0], true); }
  set("done", now.id, now.wording);
  const next = screens[screens.indexOf(now) + 1], ended = now.stage;
  if (next) { go(next); } else { drawHead(); }
  if (!next || (next.stage !== ended && /^Gate/.test(ended))) { tell(ended + W.ended); }
}

function stopClock() { if (clock) { clock(); clock = 0; } }
function setUpDwell(id, range) {
  const box = byId(id);
  if (!box) { return; }
  const idle = W.stopwatch + (range[0] ? range[0] + " to " : W.atMost) + range[1] + " s";
  const node = button(idle, () => {
    if (clock && clock.node === node) { stopClock(); return; }
    stopClock();
    const start = performance.now(), beat = setInterval(() => {
      const t = (performance.now() - start) / 1000;
      node.textContent = t.toFixed(1) + " s" + (t > range[1] ? W.tooLong : t >= range[0] && range[0] ? W.enough : "");
      if (t > 60) { stopClock(); }
    }, 100);
    clock = () => { clearInterval(beat); node.textContent = idle; };
    clock.node = node;
  });
  const near = box.querySelector("label") || box.querySelector("a");
  if (near) { near.after(node); } else if (box.matches("input")) { box.after(node); } else { box.append(node); }
}

function save(name, kind, held) {
  const whole = Object.assign({ kind: "benchleaf bench " + kind, version: 1, build: data.build, digest: data.digest, saved: day() }, held);
  const link = make("a"), address = URL.createObjectURL(new Blob([JSON.stringify(whole, null, 1)], { type: "application/json" }));
  link.href = address;
  link.download = data.build + "-bench" + name + ".json";
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 9000);
}
async function take(file) {
  let given = null;
  if (file.size > OF_PHOTOS) { return W.strange; }
  const text = await file.text();
  try { given = JSON.parse(text); } catch { return W.strange; }
  if (!plain(given) || given.version !== 1) { return W.strange; }
  const notes = given.kind === "benchleaf bench notes" && file.size <= LARGEST;
  if (!notes && given.kind !== "benchleaf bench photographs") { return W.strange; }
  if (given.build !== data.build) { return W.other; }
  const words = notes ? kept.take(given.state) : await photos.take(given.photos);
  fill();
  drawHead();
  return words || W.strange;
}
const chooser = byId("at-import"), dark = byId("at-dark");
chooser.onchange = () => {
  const file = chooser.files[0];
  if (file) { take(file).catch(() => W.unread).then(words => { tell(words); chooser.value = ""; }); }
};
const press = (id, act) => { byId(id).onclick = act; };
press("at-back", () => move(-1));
press("at-lister", () => { if (mode === "step") { show("list"); } else { go(now); } });
press("at-done", done);
press("at-dark", () => dark.setAttribute("aria-pressed", String(document.documentElement.classList.toggle("dark"))));
press("at-export", () => save("", "notes", { state: kept.state }));
press("at-export-photos", () => save("-photos", "photographs", { photos: photos.all() }));
press("at-lost", () => { lose(); show("trouble"); byId("at-asked").focus(); where.scrollIntoView(); });
byId("at-lost").hidden = !data.trouble.symptoms.length;
const field = window.bench.field(place + ":run", (name, text) => set("flights", name, text), () => Object.values(kept.state.flights), tell);
byId("at-field").hidden = !field;
press("at-field", () => {
  clear();
  byId("field").setAttribute("data-now", "");
  show("field");
  where.scrollIntoView();
});

// The screen is kept awake while it is seen, where the browser may.
const lock = navigator.wakeLock, awake = byId("awake");
let held = null;
function wake() {
  if (document.visibilityState !== "visible") {
    if (held) { held.release().catch(() => {}); }
    held = null;
    return;
  }
  const words = window.isSecureContext ? W.asleep : W.asleepHttp;
  if (!lock) { awake.textContent = words; return; }
  if (!held) { lock.request("screen").then(one => { held = one; awake.textContent = ""; }, () => { awake.textContent = words; }); }
}

function fill() {
  content.querySelectorAll(BOX).forEach(box => { box.checked = nameOf(box) in kept.state.boxes; });
  if (field) { field.list(); }
  content.querySelectorAll("[data-write]").forEach(field => {
    const band = bandOf(field), own = judgedOf.get(field);
    field.value = kept.state.read[band ? band.name : field.dataset.write] || "";
    if (own) { own.why.value = kept.state.why[band.name] || ""; judge(field); }
  });
}
function from(hash) {
  const node = hash && byId(hash);
  return node ? screens.find(s => { const own = byId(s.id); return own === node || own.contains(node) || node.contains(own); }) : null;
}

document.querySelectorAll(".at-own").forEach(n => { n.hidden = false; });
content.querySelectorAll("[data-write]").forEach(setUpField);
screens.forEach(s => { Object.keys(s.dwell).forEach(id => setUpDwell(id, s.dwell[id])); });
content.addEventListener("change", event => {
  const box = event.target;
  if (box.type !== "checkbox") { return; }
  const field = beside(box);
  if (box.checked && field && shutOut(field)) {
    box.checked = false;
    tell(W.measure);
  }
  tick(box, box.checked);
  undo(box);
});
fill();
document.addEventListener("keydown", event => {
  if (event.key === "Enter" && event.ctrlKey) { if (!doner.disabled) { done(); } return; }
  if (event.target.matches("input, select, textarea") || event.altKey || event.ctrlKey || event.metaKey || doner.disabled) { return; }
  if (event.key === "ArrowLeft") { move(-1); }
  if (event.key === "ArrowRight") { move(1); }
});
// Another tab may have written while this one slept.
function again() {
  if (kept.load()) { fill(); drawHead(); }
  if (document.visibilityState === "visible") { photos.load(); }
  wake();
}
addEventListener("storage", event => { if (event.key === place) { again(); } });
addEventListener("hashchange", () => {
  const s = from(location.hash.slice(1));
  if (s) { go(s); } else if (location.hash.length > 1) { show("page"); byId(location.hash.slice(1)).scrollIntoView(); }
});
document.addEventListener("visibilitychange", again);
wake();
const hash = location.hash.slice(1), first = from(hash), last = screens.find(s => s.id === kept.state.now);
go(first || last || screens.find(s => !isDone(s)) || screens[0]);
if (hash && !first && byId(hash)) { show("page"); byId(hash).scrollIntoView(); }
})();
