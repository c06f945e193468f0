// On the field: a timer by the alarms, and flights for the log.
"use strict";
{
const { W, byId, make, button, day } = bench, alarms = bench.data.alarms;
// Alarms are that many seconds apart.
const FIELDS = [["landed", "landed_at", "V"], ["used", "used", "mAh"], ["air", "air", "degC"]], AGAIN = 10;
/** @param {number} s */
function time(s) { return Math.floor(s / 60) + " min " + Math.floor(s % 60) + " s"; }

bench.field = (place, keep, kept, tell) => {
  const third = byId("field-3"), fifth = byId("field-5"), packs = Object.keys(alarms);
  if (!third || !fifth || !packs.length) { return null; }
  const words = make("p"), starts = make("div", "", "at-tools"), lines = make("ul");
  /** @type {Run | null} */
  let run = null;
  /** @type {{ pack: string, seconds: number } | null} */
  let last = null;
  /** @type {AudioContext | undefined} */
  let sounds;
  words.setAttribute("role", "status");
  third.append(words, starts);
  // Of two clocks the one that says more: neither may sleep or be set back.
  /** @param {Run} run */
  function flown(run) { return Math.max(Date.now() - run.day, performance.now() - run.now) / 1000; }
  function sound() {
    // Where it stays silent, the words tell it.
    try {
      const tone = /** @type {AudioContext} */ (sounds).createOscillator();
      tone.connect(tone.context.destination);
      tone.start();
      tone.stop(tone.context.currentTime + 0.7);
    } catch { }
    if (navigator.vibrate) { navigator.vibrate(700); }
  }
  function look() {
    if (!run) { return; }
    const t = flown(run), end = alarms[run.pack].seconds, over = end !== undefined && t >= end;
    stop.textContent = "Landed: " + run.pack + ", " + time(t);
    const say = over ? "Land now." : end === undefined ? W.unknown : "";
    if (words.textContent !== say) { words.textContent = say; }
    if (over && t >= run.next) { run.next = t + AGAIN; sound(); }
  }
  const stop = button("", () => {
    if (!run) { return; }
    last = { pack: run.pack, seconds: Math.round(flown(run)) };
    clearInterval(run.beat);
    run = null;
    note();
    draw();
    words.textContent = "In the air: " + last.pack + ", " + time(last.seconds) + ". Note it below.";
  });
  // A flight goes on where the page is closed by the phone and opened again.
  function note() {
    try { localStorage.setItem(place, JSON.stringify(run)); } catch { }
  }
  /** @type {(pack: string, day?: number) => void} */
  function start(pack, day) {
    try { sounds = sounds || new AudioContext(); } catch { }
    run = { pack, day: day || Date.now(), now: performance.now(), next: 0, beat: setInterval(look, 250) };
    note();
    starts.textContent = "";
    starts.append(stop);
    look();
  }
  function draw() {
    starts.textContent = "";
    packs.forEach(pack => {
      const a = alarms[pack], at = [a.seconds && time(a.seconds), a.volts && a.volts.toFixed(1) + " V"].filter(Boolean).join(", ");
      starts.append(button("Start: " + pack + (at ? ", land at " + at : ""), () => start(pack)));
    });
  }
  function list() {
    lines.textContent = "";
    kept().forEach(text => { lines.append(make("li", "{" + text + "}")); });
  }
  fifth.append(button("Keep this flight", () => {
    if (!last) { tell(W.fly); return; }
    const said = ["date: " + day(), "pack: " + last.pack, "airborne: " + last.seconds + " s"];
    FIELDS.forEach(f => {
      /** @type {HTMLInputElement | null} */
      const field = fifth.querySelector('[data-write="field-' + f[0] + '"]'), number = field && /^-?\d{1,5}([.,]\d{1,2})?$/.exec(field.value.trim());
      if (number) { said.push(f[1] + ": " + number[0].replace(",", ".") + " " + f[2]); }
    });
    keep(new Date().toISOString() + " " + last.pack, said.join(", "));
    last = null;
    tell(W.flight);
    list();
  }), lines);
  document.addEventListener("visibilitychange", look);
  draw();
  try {
    const old = JSON.parse(/** @type {string} */ (localStorage.getItem(place))), t = Date.now() - old.day;
    if (packs.includes(old.pack) && t > 0 && t < 36e5) { start(old.pack, old.day); }
  } catch { }
  list();
  return { list };
};
}
