// At the bench: one step a screen, ticks and readings kept on this device by step and joint.
// Readings are compared with bands that the publish gives (bench-judge.js). Without this script the list is whole.
(function () {
"use strict";
const { W, byId, data, make, button, plain, day } = bench, BOX = "input[type=checkbox]", FIELD = "[data-write]";
const screens = data.screens.filter(s => byId(s.id));
/** @param {BenchScreen} s */
const nodeOf = s => /** @type {HTMLElement} */ (byId(s.id));
if (!screens.length) { document.body.classList.add("paged"); return; }
const place = "benchleaf-bench:" + location.pathname.replace(/bench\/[^/]*$/, "");
// Bytes of a file.
const LARGEST = 2 * 1024 * 1024, OF_PHOTOS = 96 * 1024 * 1024;
const where = byId("at-where"), bar = byId("at-bar"), changed = byId("at-changed"), spoken = byId("at-told"), list = byId("at-list"), lister = byId("at-lister"), doner = byId("at-done");
const body = document.body, content = /** @type {HTMLElement} */ (document.querySelector(".body")), trouble = byId("at-trouble");
const kept = bench.kept(place), set = kept.set;
let now = screens[0], mode = "step";
/** @type {{ node: Node, stop: () => void } | null} */
let clock = null;

/** @param {HTMLInputElement} field */
const keyOf = field => /** @type {string} */ (field.dataset.write);
/** @type {(field: HTMLInputElement) => Band | undefined} */
const bandOf = field => data.fields[keyOf(field)];
// The field in the row of a box.
/** @type {(box: HTMLInputElement) => HTMLInputElement | null} */
function beside(box) { const row = box.closest("tr"); return row && row.querySelector(FIELD); }
// Names that outlast a revision: a field's own, the step of a box, or the words beside it.
/** @param {string} text */
function sum(text) {
  let found = 1;
  for (const letter of text.replace(/\s+/g, " ").trim()) { found = (found * 31 + /** @type {number} */ (letter.codePointAt(0))) | 0; }
  return found;
}
/** @param {HTMLInputElement} box */
function nameOf(box) {
  const row = box.closest("tr"), field = beside(box), near = row ? row.cells[0] : box.closest("li, label, p"), own = box.dataset.tick, band = field && bandOf(field);
  if (band) { return "passed|" + band.name; }
  return own && near ? own.replace(/\d+$/, "") + "|" + sum(/** @type {string} */ (near.textContent)) : /** @type {Element} */ (box.closest("[id]")).id;
}
// Done is what was done in these words, and whose DANGER readings are right: a file that says 'done' passes none.
/** @param {BenchScreen} s */
function isDone(s) { return kept.state.done[s.id] === s.wording && !fieldsOf(s).some(shutOut); }
/** @param {BenchScreen} s */
function isChanged(s) { const old = kept.state.done[s.id]; return Boolean(old) && old !== s.wording; }

/** @type {Tell} */
const tell = words => { spoken.textContent = words; };
bar.max = screens.length;
const lose = bench.trouble(), photos = bench.photos(place, tell);

/** @param {BenchScreen[]} some */
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
  let stage = "", items = make("ol");
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
/** @param {"step" | "list" | "page" | "trouble" | "field"} what */
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
  if (what === "list") { drawList(); /** @type {HTMLElement} */ (list.querySelector("[aria-current]") || lister).focus(); }
  drawHead();
}
function clear() { document.querySelectorAll("[data-now]").forEach(n => n.removeAttribute("data-now")); }
/** @param {BenchScreen} s */
function go(s) {
  clear();
  now = s;
  stopClock();
  const node = nodeOf(s);
  for (let n = /** @type {HTMLElement | null} */ (node); n && n !== content; n = n.parentElement) { if (n.matches("section, li")) { n.setAttribute("data-now", ""); } }
  node.tabIndex = -1;
  show("step");
  tell(early(s));
  node.focus({ preventScroll: true });
  setTimeout(() => where.scrollIntoView());
  try { history.replaceState(null, "", "#" + s.id); } catch { }
  kept.stay(s.id);
}
/** @param {number} by */
function move(by) {
  const next = screens[screens.indexOf(now) + by];
  if (next) { go(next); }
}

/** @type {Map<HTMLInputElement, { band: Band, out: HTMLElement, reason: HTMLElement, why: HTMLInputElement, verdict: Verdict }>} */
const judgedOf = new Map();
/** @param {Verdict} verdict */
const isOff = verdict => verdict === "doubtful" || verdict === "wrong";
/** @param {HTMLInputElement} field */
function judge(field) {
  const own = judgedOf.get(field);
  if (!own) { return ""; }
  const { band } = own, found = bench.judge(band, field.value), { verdict } = found;
  own.out.dataset.verdict = verdict;
  own.out.textContent = [verdict && W[verdict], found.words].filter(Boolean).join(": ") + (found.words && verdict ? "." : "");
  own.verdict = verdict;
  own.reason.hidden = band.danger || (band.hard && verdict === "wrong") || !isOff(verdict);
  return verdict;
}
/** @param {HTMLInputElement} field */
function setUpField(field) {
  const band = bandOf(field);
  field.autocomplete = "off";
  if (!band) { field.addEventListener("input", () => set("read", keyOf(field), field.value)); return; }
  const out = make("output", "", "judged"), reason = make("label", W.reason, "why-kept"), why = make("input");
  field.maxLength = why.maxLength = 400;
  reason.append(why);
  reason.hidden = true;
  /** @type {Element} */ (field.closest("label")).after(out, reason);
  judgedOf.set(field, { band, out, reason, why, verdict: "" });
  why.addEventListener("input", () => set("why", band.name, why.value));
  field.addEventListener("input", () => {
    set("read", band.name, field.value);
    const verdict = judge(field), row = field.closest("tr"), box = row && inputs(row, BOX)[0];
    if (box && verdict) { tick(box, verdict === "right"); }
    undo(field);
  });
}
/** @param {HTMLInputElement} box @param {boolean} on */
function tick(box, on) { box.checked = on; set("boxes", nameOf(box), on ? "1" : ""); }
// A reading or box that is taken back takes back its step.
/** @param {Node} node */
function undo(node) {
  const s = screens.find(o => nodeOf(o).contains(node));
  if (s && kept.state.done[s.id] && lacking(s)) { set("done", s.id, ""); drawHead(); }
}

// Whether only measuring right passes it: DANGER in any case, what is wrong where it could burn.
/** @param {HTMLInputElement} field */
function shutOut(field) {
  const own = judgedOf.get(field);
  return own && (own.band.danger ? own.verdict !== "right" : own.band.hard && own.verdict === "wrong");
}
/** @type {(node: Element, which: string) => HTMLInputElement[]} */
const inputs = (node, which) => Array.from(node.querySelectorAll(which));
/** @param {BenchScreen} s */
const fieldsOf = s => inputs(nodeOf(s), FIELD);

// What keeps a screen from being done: words and what to look at; null for nothing.
/** @type {(s: BenchScreen) => [string, HTMLElement] | null} */
function lacking(s) {
  const node = nodeOf(s);
  for (const field of fieldsOf(s)) {
    const own = judgedOf.get(field);
    if (!own) { continue; }
    if (shutOut(field)) { return [own.band.label + W.shut, field]; }
    if (isOff(own.verdict) && !own.why.value.trim()) { return [own.band.label + W.why, own.why]; }
  }
  const boxes = inputs(node, BOX), open = boxes.filter(b => !b.checked);
  if (boxes.length > 1 && open.length) { return [open.length + (open.length === 1 ? W.oneOpen : W.someOpen), open[0]]; }
  return early(s) ? [early(s), lister] : null;
}
// A gate waits for those before it, stage by stage.
/** @param {BenchScreen} s */
function early(s) {
  const open = s.gate && screens.slice(0, screens.indexOf(s)).find(o => o.gate && !isDone(o));
  return open ? W.early + open.stage + ", " + open.title + "." : "";
}
function done() {
  const lacks = lacking(now), boxes = inputs(nodeOf(now), BOX);
  if (lacks) { tell(lacks[0]); lacks[1].focus(); return; }
  if (boxes.length === 1) { tick(boxes[0], true); }
  set("done", now.id, now.wording);
  const next = screens[screens.indexOf(now) + 1], ended = now.stage;
  if (next) { go(next); } else { drawHead(); }
  if (!next || (next.stage !== ended && /^Gate/.test(ended))) { tell(ended + W.ended); }
}

function stopClock() { if (clock) { clock.stop(); clock = null; } }
/** @type {(id: string, range: [number, number]) => void} */
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
    clock = { node, stop: () => { clearInterval(beat); node.textContent = idle; } };
  });
  const near = box.querySelector("label") || box.querySelector("a");
  if (near) { near.after(node); } else if (box.matches("input")) { box.after(node); } else { box.append(node); }
}

/** @type {(name: string, kind: string, held: object) => void} */
function save(name, kind, held) {
  const whole = Object.assign({ kind: "benchleaf bench " + kind, version: 1, build: data.build, digest: data.digest, saved: day() }, held);
  const link = make("a"), address = URL.createObjectURL(new Blob([JSON.stringify(whole, null, 1)], { type: "application/json" }));
  link.href = address;
  link.download = data.build + "-bench" + name + ".json";
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 9000);
}
/** @param {File} file */
async function take(file) {
  /** @type {unknown} */
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
  const file = /** @type {FileList} */ (chooser.files)[0];
  if (file) { take(file).catch(() => W.unread).then(words => { tell(words); chooser.value = ""; }); }
};
/** @type {(id: keyof AtIds, act: () => void) => void} */
const press = (id, act) => { byId(id).onclick = act; };
press("at-back", () => move(-1));
press("at-lister", () => { if (mode === "step") { show("list"); } else { go(now); } });
press("at-done", done);
press("at-dark", () => dark.setAttribute("aria-pressed", String(document.documentElement.classList.toggle("dark"))));
press("at-export", () => save("", "notes", { state: kept.state }));
press("at-export-photos", () => save("-photos", "photographs", { photos: photos.all() }));
press("at-lost", () => { lose(); show("trouble"); byId("at-asked").focus(); where.scrollIntoView(); });
byId("at-lost").hidden = !data.trouble.symptoms.length;
const field = bench.field(place + ":run", (name, text) => set("flights", name, text), () => Object.values(kept.state.flights), tell);
byId("at-field").hidden = !field;
press("at-field", () => {
  clear();
  /** @type {HTMLElement} */ (byId("field")).setAttribute("data-now", "");
  show("field");
  where.scrollIntoView();
});

// The screen is kept awake while it is seen, where the browser may.
const lock = navigator.wakeLock, awake = byId("awake");
/** @type {WakeLockSentinel | null} */
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
  inputs(content, BOX).forEach(box => { box.checked = nameOf(box) in kept.state.boxes; });
  if (field) { field.list(); }
  inputs(content, FIELD).forEach(field => {
    const own = judgedOf.get(field);
    field.value = kept.state.read[own ? own.band.name : keyOf(field)] || "";
    if (own) { own.why.value = kept.state.why[own.band.name] || ""; judge(field); }
  });
}
/** @param {string} hash */
function from(hash) {
  const node = hash && byId(hash);
  return node ? screens.find(s => { const own = nodeOf(s); return own === node || own.contains(node) || node.contains(own); }) : null;
}

/** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".at-own")).forEach(n => { n.hidden = false; });
inputs(content, FIELD).forEach(setUpField);
screens.forEach(s => { Object.keys(s.dwell).forEach(id => setUpDwell(id, s.dwell[id])); });
content.addEventListener("change", event => {
  const box = /** @type {HTMLInputElement} */ (event.target);
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
  if (/** @type {Element} */ (event.target).matches("input, select, textarea") || event.altKey || event.ctrlKey || event.metaKey || doner.disabled) { return; }
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
/** @param {string} hash */
function wholeAt(hash) {
  const node = hash && byId(hash);
  if (node) { show("page"); node.scrollIntoView(); }
}
addEventListener("hashchange", () => {
  const s = from(location.hash.slice(1));
  if (s) { go(s); } else { wholeAt(location.hash.slice(1)); }
});
document.addEventListener("visibilitychange", again);
wake();
const hash = location.hash.slice(1), first = from(hash), last = screens.find(s => s.id === kept.state.now);
go(first || last || screens.find(s => !isDone(s)) || screens[0]);
if (!first) { wholeAt(hash); }
})();
