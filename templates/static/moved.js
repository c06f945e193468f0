// An old address with a fragment leads to the page that holds it now. Without it the plain list of links at the end of the page does.
(function () {
  "use strict";
  /** @type {NodeListOf<HTMLElement>} */
  var list = document.querySelectorAll(".moved li");
  function begins(name) {
    return function (start) { return start && name.indexOf(start) === 0; };
  }
  function go() {
    var name = location.hash.slice(1), here;
    try { name = decodeURIComponent(name); } catch (e) { /* as it stands */ }
    if (!name) { return; }
    here = document.getElementById(name);
    if (here && !here.closest(".moved")) { return; }
    list.forEach(function (line) {
      var link = line.querySelector("a");
      var within = (line.dataset.starts || "").split(" ").some(begins(name));
      if (line.id === name) { location.replace(link.href); }
      if (!here && within) { location.replace(link.href.split("#")[0] + location.hash); }
    });
  }
  window.addEventListener("hashchange", go);
  go();
})();
