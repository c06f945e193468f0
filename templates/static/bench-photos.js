// Photographs of steps: made smaller, without what a camera writes into them, and kept on this device.
"use strict";
{
const { W, byId, make, button, short, plain, day } = bench;
// Pixels, pictures, letters of one in a file.
const SIDE = 1600, SMALL = 240, MOST = 60, DEEP = 12e6;

// The picture drawn anew within a square of that side: pixels alone, upright.
/** @type {(file: Blob, side: number) => Promise<HTMLCanvasElement>} */
async function drawn(file, side) {
  const image = await createImageBitmap(file, { imageOrientation: "from-image" }), by = Math.min(1, side / Math.max(image.width, image.height)), canvas = make("canvas");
  canvas.width = Math.max(1, image.width * by);
  canvas.height = Math.max(1, image.height * by);
  /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d")).drawImage(image, 0, 0, canvas.width, canvas.height);
  image.close();
  return canvas;
}
// As letters of base64, by which it is kept and goes into a file.
/** @param {Blob} file */
async function smaller(file) {
  const data = (await drawn(file, SIDE)).toDataURL("image/jpeg", 0.85).split(",")[1];
  if (!data) { throw W.noPicture; }
  return data;
}
/** @param {string} data */
const blobOf = data => new Blob([Uint8Array.from(atob(data), c => c.charCodeAt(0))]);
// What an answer of the store is, once its work is done.
/** @template T @param {IDBTransaction} work @param {IDBRequest<T>} asked @returns {Promise<T>} */
function finished(work, asked) {
  return new Promise((done, fail) => { work.oncomplete = () => done(asked.result); work.onabort = work.onerror = fail; });
}

bench.photos = (place, tell) => {
  const panel = byId("at-photos"), list = byId("at-pictures"), camera = byId("at-camera"), exporter = byId("at-export-photos");
  let all = /** @type {Photo[]} */ ([]), step = "", turn = 0;
  /** @type {Promise<IDBDatabase>} */
  const store = new Promise((done, fail) => {
    const asked = indexedDB.open("benchleaf-bench", 1);
    asked.onupgradeneeded = () => { asked.result.createObjectStore("photos", { keyPath: ["place", "id"] }); };
    asked.onsuccess = () => done(asked.result);
    asked.onerror = asked.onblocked = fail;
  });
  /** @template T @param {IDBTransactionMode} how @param {(store: IDBObjectStore) => IDBRequest<T>} act */
  async function work(how, act) {
    const all = (await store).transaction("photos", how);
    return finished(all, act(all.objectStore("photos")));
  }
  /** @param {Photo} one */
  async function keep(one) { await work("readwrite", s => s.put(one)).catch(() => tell(W.room)); }
  async function load() {
    /** @type {Photo[]} */
    const kept = await work("readonly", s => s.getAll(IDBKeyRange.bound([place], [place, []]))).catch(() => []);
    all = kept.concat(all.filter(a => !kept.some(k => k.id === a.id)));
    await draw();
  }
  /** @type {(one: Photo, canvas: HTMLCanvasElement, number: number) => HTMLElement} */
  function row(one, canvas, number) {
    const line = make("li"), label = make("label", W.shows), words = make("input");
    canvas.setAttribute("role", "img");
    canvas.setAttribute("aria-label", W.photo + number);
    words.maxLength = 200;
    words.value = one.words;
    words.oninput = () => { one.words = words.value; keep(one); };
    label.append(words);
    const out = button(W.out, () => {
      if (out.textContent === W.out) { out.textContent = W.sure; return; }
      all = all.filter(a => a !== one);
      work("readwrite", s => s.delete([place, one.id])).catch(() => {});
      draw();
    });
    line.append(canvas, label, out);
    return line;
  }
  async function draw() {
    const mine = ++turn, rows = /** @type {HTMLElement[]} */ ([]);
    exporter.hidden = !all.length;
    exporter.textContent = W.photos + all.length;
    for (const one of all.filter(a => a.step === step)) { rows.push(row(one, await drawn(blobOf(one.data), SMALL).catch(() => make("canvas")), rows.length + 1)); }
    if (mine === turn) { list.replaceChildren(...rows); }
  }
  /** @param {Blob} file @param {Omit<Photo, "place" | "data">} about */
  async function add(file, about) {
    if (all.length >= MOST) { throw W.many; }
    const one = Object.assign({ place, data: await smaller(file) }, about);
    all.push(one);
    await keep(one);
  }
  camera.onchange = async () => {
    const file = /** @type {FileList} */ (camera.files)[0], about = { id: Date.now().toString(36) + Math.random().toString(36).slice(2), step, day: day(), words: "" };
    if (!file) { return; }
    tell("");
    try { await add(file, about); } catch (e) { tell(e === W.many ? e : W.noPicture); }
    camera.value = "";
    await draw();
  };
  // What goes into a file of them.
  /** @param {Photo} one */
  const plainly = ({ id, step, day, words, data }) => ({ id, step, day, words, data });
  // Null for what is not ours; what is here stays.
  /** @type {Photos["take"]} */
  async function take(given) {
    /** @type {(p: unknown) => p is Photo} */
    const sound = p => plain(p) && [p.id, p.step, p.day, p.words].every(short) && typeof p.data === "string" && p.data.length < DEEP;
    if (!Array.isArray(given) || given.length > MOST || !given.every(sound)) { return null; }
    let added = 0, lost = 0;
    for (const p of given.filter(g => !all.some(a => a.id === g.id))) {
      try {
        await add(blobOf(p.data), { id: p.id, step: p.step, day: p.day, words: p.words });
        added += 1;
      } catch { lost += 1; }
    }
    await draw();
    return W.photosTaken + added + (lost ? W.photosLost + lost : "");
  }
  load();
  return { load, take, all: () => all.map(plainly), at: name => { step = name; panel.hidden = !name; draw(); } };
};
}
