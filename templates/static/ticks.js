// Ticks and written values of a sheet stay on this device, by site and build, and there by the id of the step or part: a new
// revision keeps what is still in it. A step and a line to order have lasting ids; any other line, a check of a gate say, must also still say the same.
// Without storage they just do not last.
(function () {
  "use strict";
  var body = document.body;
  var place = location.pathname.replace(/[^/]*\/[^/]*$/, "");
  var key = "benchleaf:" + place + ":" + body.dataset.build;
  var state = {};
  function store() { try { localStorage.setItem(key, JSON.stringify(state)); } catch (e) { /* private mode: not kept */ } }
  try { state = JSON.parse(localStorage.getItem(key)); } catch (e) { /* not ours, or no storage */ }
  if (Object.prototype.toString.call(state) !== "[object Object]") { state = {}; }
  // A number for the words that a tick or a reading is about: other words, other number.
  function about(node) {
    var step = node.closest(".steps > li, .buy tr"), line = step && node.dataset.write ? node.closest("label") : step ? null : node.closest("tr, li, label");
    var text = line ? line.textContent.replace(/\s+/g, " ").trim() : "", sum = 1;
    for (var i = 0; i < text.length; i += 1) { sum = (sum * 31 + text.charCodeAt(i)) | 0; }
    return sum;
  }
  /** @type {NodeListOf<HTMLInputElement>} */
  var boxes = document.querySelectorAll("main input[type=checkbox]");
  boxes.forEach(function (box) {
    // A box without a name of its own goes by the step or row that it stands in.
    var name = "t:" + (box.dataset.tick || box.closest("[id]").id), words = about(box);
    box.checked = state[name] === words;
    box.addEventListener("change", function () { if (box.checked) { state[name] = words; } else { delete state[name]; } store(); next(); });
  });
  /** @type {NodeListOf<HTMLInputElement>} */
  var fields = document.querySelectorAll("[data-write]");
  fields.forEach(function (field) {
    field.autocomplete = "off";
    var name = "w:" + field.dataset.write, words = about(field), kept = state[name];
    if (Array.isArray(kept) && kept[0] === words && typeof kept[1] === "string") { field.value = kept[1]; }
    field.addEventListener("input", function () { if (field.value) { state[name] = [words, field.value]; } else { delete state[name]; } store(); });
  });
  var lists = document.querySelectorAll("ol.steps"), list = lists[lists.length - 1];
  var bar = document.createElement("p"), way = document.createElement("a");
  // Where one's own work stands: a line at the foot of the screen, once there is a tick; it lies over the page and moves nothing.
  function next() {
    if (!list) { return; }
    // From the first step on: steps and the gates between them.
    var own = Array.prototype.filter.call(boxes, function (b) { return lists[0].compareDocumentPosition(b) & Node.DOCUMENT_POSITION_FOLLOWING; });
    var done = own.filter(function (b) { return b.checked; }).length;
    var open = own.filter(function (b) { return !b.checked; })[0];
    bar.hidden = !done;
    way.hidden = !open;
    if (open) { way.href = "#" + open.closest("li[id], tr[id], section[id]").id; }
    bar.firstChild.textContent = done + " of " + own.length + " boxes of the work ticked. ";
  }
  bar.className = "next";
  bar.hidden = true;
  bar.appendChild(document.createTextNode(""));
  way.textContent = "To the next one";
  bar.appendChild(way);
  if (!list) { return; }
  document.querySelector("main").appendChild(bar);
  next();
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
    next();
    fields.forEach(function (field) { field.value = ""; });
  });
  line.appendChild(button);
  list.parentNode.insertBefore(line, list.nextSibling); // after it: nothing that is seen moves
})();
