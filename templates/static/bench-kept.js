// Ticks, readings and reasons are kept on this device by names that outlast a revision. A file of them is taken in whole or not at all.
"use strict";
{
const { W, byId, short, plain } = bench;
// Groups, and how many entries one may have.
/** @type {Group[]} */
const GROUPS = ["boxes", "read", "why", "done", "flights"], MOST = 20000;

function empty() {
  const made = /** @type {KeptState} */ ({ now: "" });
  GROUPS.forEach(g => { made[g] = Object.create(null); });
  return made;
}
// What a stranger's text holds of ours: short text under each name, nothing else. Null where it is not ours.
/** @param {unknown} given */
function readState(given) {
  if (!plain(given)) { return null; }
  const made = empty();
  for (const g of GROUPS) {
    const group = given[g] === undefined ? {} : given[g];
    if (!plain(group) || Object.keys(group).length > MOST) { return null; }
    for (const k of Object.keys(group)) {
      if (!short(k) || !short(group[k])) { return null; }
      made[g][k] = group[k];
    }
  }
  if (short(given.now)) { made.now = given.now; }
  return made;
}

bench.kept = place => {
  let state = empty(), last = /** @type {string | null} */ (null), aside = "", asked = false;
  // Reads what is kept, if it is not what was read or written here last: another tab may have written. True if it has.
  function load() {
    let text = null;
    try { text = localStorage.getItem(place); } catch { aside = W.nothing; return false; }
    if (text === null || text === last) { return false; }
    let found = null;
    try { found = readState(JSON.parse(text)); } catch { }
    last = text;
    if (found) { state = found; return true; }
    // Where it cannot be set aside it stays where it is until the next tick.
    try { localStorage.setItem(place + ":unread", text); } catch { }
    aside = W.aside;
    return false;
  }
  function keep() {
    let full = "";
    const text = JSON.stringify(state);
    try { localStorage.setItem(place, text); last = text; } catch { full = W.full; }
    byId("at-said").textContent = full || aside;
  }
  // Asked once there is something to lose; a browser may ask the person.
  function ask() {
    if (asked) { return; }
    asked = true;
    const store = navigator.storage;
    const asking = store && store.persist ? store.persist() : Promise.reject();
    asking.catch(() => false).then(yes => { byId("lasting").textContent = yes ? "" : W.lasting; });
  }
  /** @type {Kept["set"]} */
  function set(group, name, value) {
    load();
    if (value) { state[group][name] = value; ask(); } else { delete state[group][name]; }
    keep();
  }
  /** @type {Kept["stay"]} */
  function stay(id) { load(); state.now = id; keep(); }
  // What is here stays; null for what is not ours.
  /** @type {Kept["take"]} */
  function take(given) {
    const found = readState(given);
    if (!found) { return null; }
    let differ = 0, added = 0;
    load();
    GROUPS.forEach(g => {
      Object.keys(found[g]).forEach(k => {
        if (!(k in state[g])) { state[g][k] = found[g][k]; added += 1; } else if (state[g][k] !== found[g][k]) { differ += 1; }
      });
    });
    keep();
    return W.taken + added + (differ ? W.differs + differ : "") + ".";
  }
  load();
  return { get state() { return state; }, load, set, stay, take };
};
}
