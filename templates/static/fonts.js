// Waits with the first line until the page's fonts are unpacked, a few frames, so that it is laid out once and nothing moves.
(function () {
  "use strict";
  var root = document.documentElement, fonts = document.fonts;
  function go() { root.className = "fonts-had"; }
  if (!fonts || !fonts.load || !window.Promise) { return; }
  root.className = "fonts-awaited";
  Promise.all(["1em Leaf", "600 1em Leaf", "italic 1em Leaf", "1em 'Leaf Mono'"].map(function (face) {
    return fonts.load(face);
  }).concat(fonts.load("1em 'Leaf Greek'", "\u03a9"))).then(go, go);
  setTimeout(go, 3000); // whatever happens to them, the page is shown
})();
