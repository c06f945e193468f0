// Ticks and written values of a sheet stay on this device, by site, build and revision. Without storage they just do not last.
(function () {
  "use strict";
  var body = document.body;
  var place = location.pathname.replace(/[^/]*\/[^/]*$/, "");
  var key = "benchleaf:" + place + ":" + body.dataset.build + ":" + body.dataset.revised;
  var state = {};
  function store() { try { localStorage.setItem(key, JSON.stringify(state)); } catch (e) { /* private mode: not kept */ } }
  try { state = JSON.parse(localStorage.getItem(key)); } catch (e) { /* not ours, or no storage */ }
  if (Object.prototype.toString.call(state) !== "[object Object]") { state = {}; }
  var boxes = document.querySelectorAll("main input[type=checkbox]");
  boxes.forEach(function (box) {
    // A box without a name of its own goes by the step or row that it stands in.
    var name = "t:" + (box.dataset.tick || box.closest("[id]").id);
    box.checked = state[name] === 1;
    box.addEventListener("change", function () { if (box.checked) { state[name] = 1; } else { delete state[name]; } store(); });
  });
  document.querySelectorAll("[data-write]").forEach(function (field) {
    field.autocomplete = "off";
    var name = "w:" + field.dataset.write;
    if (typeof state[name] === "string") { field.value = state[name]; }
    field.addEventListener("input", function () { if (field.value) { state[name] = field.value; } else { delete state[name]; } store(); });
  });
  var list = document.querySelector("ol.steps");
  if (!list) { return; }
  var line = document.createElement("p");
  var button = document.createElement("button");
  button.type = "button";
  button.className = "reset";
  button.textContent = "Clear all ticks and readings on this device";
  button.addEventListener("click", function () {
    if (!window.confirm("Clear every tick and reading of this sheet on this device?")) { return; }
    state = {};
    try { localStorage.removeItem(key); } catch (e) { /* nothing was kept */ }
    boxes.forEach(function (box) { box.checked = false; });
    document.querySelectorAll("[data-write]").forEach(function (field) { field.value = ""; });
  });
  line.appendChild(button);
  list.parentNode.insertBefore(line, list.nextSibling); // after it: nothing that is seen moves
})();
