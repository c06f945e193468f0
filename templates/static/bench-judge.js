// Judges what is typed at the bench. It compares with the bands that the publish gives, and works nothing out.
// A reading is wrong only where it contradicts the nets, or lies outside what a maker states and the meter's own error.
"use strict";
{
// Where a script of the page fails, the list is whole.
addEventListener("error", e => { if (/** @type {Element} */ (e.target).tagName !== "IMG") { document.body.classList.add("paged"); } }, true);
/** @type {AtBench["byId"]} */
const byId = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
/** @type {BenchData} */
const data = JSON.parse(byId("bench-data").text), W = data.words;
/** @type {AtBench["make"]} */
function make(tag, text, name) {
  const node = document.createElement(tag);
  if (text) { node.textContent = text; }
  if (name) { node.className = name; }
  return node;
}
/** @type {AtBench["button"]} */
function button(text, act) {
  const node = make("button", text);
  node.type = "button";
  node.onclick = act;
  return node;
}
// A short text of ours; another person's file holds nothing longer.
/** @type {AtBench["short"]} */
const short = text => typeof text === "string" && text.length <= 400;
/** @type {AtBench["plain"]} */
const plain = given => Object.prototype.toString.call(given) === "[object Object]";
const day = () => new Date().toLocaleDateString("sv");
/** @type {[Word, RegExp][]} */
const SAID = [
  ["rises", /^(rises|rising|(a )?short beep.*|beeps? (then|and) (rises|ends|stops).*)$/i],
  ["beep", /^((it )?beeps?[,;/ ]*)+$/i],
];
/** @type {Record<string, string>} */
const UNITS = { "\u03a9": "Ω", "\u2126": "Ω", ohm: "Ω", ohms: "Ω", r: "Ω", R: "Ω", V: "V", v: "V", A: "A", a: "A" };
/** @type {Record<string, [string, number]>} */
const WHOLE_UNITS = { mm: ["mm", 1], cm: ["mm", 10], g: ["g", 1], kg: ["g", 1000] };
/** @type {Record<string, number>} */
const PREFIX = { k: 1e3, K: 1e3, M: 1e6, m: 1e-3 };
// What a meter shows for an open pair; several may stand in one field.
const OPEN = /(?<![^\s,;/])(no beep|o\.?l\.?|0l|open|none|silent|silence|over ?load|over ?range|infinite|∞)(?![^\s,;/])/gi;
const ONE = /^(Infinity|[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*([^\d\s.,;/]*)$/;

// What a unit stands for: its name and how many of them one is; null for one that is not known.
/** @type {(text: string, usual: string) => [string, number] | null} */
function unitOf(text, usual) {
  if (!text) { return [usual, 1]; }
  if (WHOLE_UNITS[text]) { return WHOLE_UNITS[text]; }
  const first = text[0], rest = text.slice(1);
  if (UNITS[text]) { return [UNITS[text], 1]; }
  if (!(first in PREFIX)) { return null; }
  if (!rest) { return usual in WHOLE_UNITS ? null : [usual, PREFIX[first]]; }
  const unit = UNITS[rest];
  return unit ? [unit, PREFIX[first]] : null;
}

// Values, or a word that meters and ears give; null where it is neither.
/** @type {(text: string, usual: string) => Reading | null} */
function reading(text, usual) {
  const said = String(text).trim().replace(/\s+/g, " ").replace(/[−–]/g, "-").replace(OPEN, "Infinity");
  const word = SAID.find(w => w[1].test(said));
  if (word) { return { word: word[0], values: [], unit: usual }; }
  const pieces = said.split(/\s*[;/]\s*|,\s+|\s+(?=[+\-.\dI])/).filter(Boolean);
  /** @type {number[]} */
  const values = [], bare = [];
  let unit = usual;
  for (const piece of pieces) {
    const found = ONE.exec(piece), of = found && unitOf(found[2], usual);
    if (!of || (unit && of[0] !== unit && values.length)) { return null; }
    unit = of[0];
    if (!found[2]) { bare.push(values.length); }
    values.push(Number(found[1].replace(",", ".")) * of[1]);
  }
  // '470 480 490 k': the unit that the last one has holds for those before it.
  const last = ONE.exec(pieces.at(-1) || "");
  if (last && last[2] && bare.length === values.length - 1) {
    const [, per] = /** @type {[string, number]} */ (unitOf(last[2], usual));
    bare.forEach(i => values[i] *= per);
  }
  return values.length ? { word: Math.min(...values) < Infinity ? "" : "none", values, unit } : null;
}

/** @type {(verdict: Verdict, words?: string) => Judged} */
function says(verdict, words = "") { return { verdict, words }; }

const RIGHT = says("right");
/** @param {string} words */
const wrong = words => says("wrong", words);
/** @param {string} words */
const doubtful = words => says("doubtful", words);
/** @type {Rule} */
function apart(band, got) {
  if (got.word === "none" || (got.word === "rises" && band.kind === "charges")) { return RIGHT; }
  if (got.word === "rises") { return doubtful(W.charges); }
  if (got.word === "beep") { return wrong(band.kind === "charges" ? W.short : W.apart); }
  const least = Math.min(...got.values);
  if (least < 0) { return doubtful(W.negative); }
  if (least < band.low) { return wrong(W.lowJoined); }
  return least < band.high ? doubtful(W.someBeep) : RIGHT;
}

/** @type {Rule} */
function joined(band, got) {
  if (got.word === "beep") { return RIGHT; }
  if (got.word) { return wrong(W.joined); }
  const most = Math.max(...got.values);
  if (most < 0) { return doubtful(W.negative); }
  if (most <= band.low) { return RIGHT; }
  return most < band.high ? doubtful(W.high) : wrong(W.joined);
}

/** @type {Rule} */
function alike(band, got) {
  if (band.kind === "alike") {
    const first = apart(band, got);
    if (first.verdict !== "right") { return first; }
  } else if (got.values.includes(Infinity)) { return wrong(W.joined); }
  if (got.values.length < (band.count || 2)) { return doubtful(W.all); }
  const least = Math.min(...got.values), most = Math.max(...got.values);
  if (least < 0) { return doubtful(W.negative); }
  if (band.wrong && most > band.high) { return wrong(W.higher); }
  if (band.wrong && least < band.low) { return wrong(W.lower); }
  return most <= Math.max(least * band.ratio, least + (band.digit || 0) + 1e-9) ? RIGHT : doubtful(W.differ);
}

// Low by nature, by how much nobody says: kept, and compared with the others by whoever reads.
/** @type {Rule} */
function low(band, got) { return got.values.some(v => v < 0) ? doubtful(W.negative) : says("", W.low); }

/** @type {Rule} */
function within(band, got) {
  if (got.word || got.values.length !== 1) { return doubtful(W.one); }
  const value = got.values[0], outside = band.wrong ? wrong : doubtful;
  if (band.low !== undefined && value < band.low - 1e-9) { return outside(W.lower); }
  return band.high !== undefined && value > band.high + 1e-9 ? outside(W.higher) : RIGHT;
}

/** @type {Record<string, Rule>} */
const KINDS = { open: apart, charges: apart, joined, low, alike, near: alike, band: within };

// Right, doubtful or wrong, and why; '' where nothing is typed, or nothing is expected that could be compared.
/** @type {AtBench["judge"]} */
function judge(band, text) {
  if (!String(text).trim()) { return says(""); }
  const rule = KINDS[band.kind];
  if (!rule) { return says("", W.kept); }
  const usual = band.unit || (band.kind === "band" ? "" : "Ω"), got = reading(text, usual);
  if (!got) { return doubtful(W.alien); }
  if (!got.word && got.unit !== usual) { return doubtful("expected in " + usual); }
  return rule(/** @type {BoundedBand} */ (band), got);
}

window.bench = /** @type {AtBench} */ ({ byId, data, W, make, button, short, plain, day, judge });
}
