// Waits with the first line until the page's fonts are unpacked, a few frames, so that it is laid out once and nothing moves;
// and until figures are in the reader's units (units.js), if other ones were chosen.
(function () {
  "use strict";
  var root = document.documentElement, fonts = document.fonts;
  function go() { root.className = "fonts-had"; }
  if (!fonts || !fonts.load || !window.Promise) { return; }
  root.className = "fonts-awaited";
  var units = root.dataset.units, kept = null;
  try { kept = localStorage.getItem("benchleaf:units"); } catch (e) { /* no storage */ }
  if (kept !== null) { units = kept; }
  /** @type {any[]} */
  var awaited = ["1em Leaf", "600 1em Leaf", "italic 1em Leaf", "1em 'Leaf Mono'"].map(function (face) { return fonts.load(face); });
  awaited.push(fonts.load("1em 'Leaf Greek'", "\u03a9"), units && new Promise(function (read) {
    document.addEventListener("DOMContentLoaded", read);
  }));
  Promise.all(awaited).then(go, go);
  setTimeout(go, 3000); // whatever happens to them, the page is shown
})();
