// Shows weights, lengths and temperatures in the reader's units, chosen once and kept on this device. Pages are written in metric and
// stay so without it; boxes to write in, sentences, drawings and files stay metric with it. Factors: NIST SP 811 (2008), appendix B.
(function () {
  "use strict";
  var KEY = "benchleaf:units", root = document.documentElement, main = document.querySelector("main");
  // Of each unit: the choice that changes it, what it becomes, how many it holds, how many decimals more, what is added.
  var UNITS = { g: ["oz", "oz", 28.349523125, 1, 0], mm: ["in", "in", 25.4, 2, 0], m: ["in", "ft", 0.3048, 0, 0], "\u00b0C": ["degF", "\u00b0F", 5 / 9, 0, 32] };
  var GROUPS = [["Weight", "oz", "grams", "ounces"], ["Length", "in", "millimetres and metres", "inches and feet"], ["Temperature", "degF", "\u00b0C", "\u00b0F"]];
  // Columns and facts whose text is a measure; in all other text only the length of a wire and the temperature of an iron.
  var MEASURED = ["Length", "Length / bare", "Bare ends", "bare", "Air", "80 of 100 copies", "Weight, measured", "Weight, maker", "Weight, estimate"];
  var KEPT = ["Screws by place"]; // tables whose lengths are compared with each other
  var MEASURE = /([+\u2212]?\d+(?:\.\d+)?)(?:( \/ | to )([+\u2212]?\d+(?:\.\d+)?))?([ \u00a0])(g|mm|\u00b0C)(?![\w\/\u00b2\u00b3])/g;
  var PLACED = /((?:AWG,?|trim(?:med)? to|(?:fine|medium|broad)(?: tip,)?(?: up to)?)[ \u00a0])([+\u2212]?\d+(?:\.\d+)?)([ \u00a0])(mm|\u00b0C)(?![\w\/\u00b2\u00b3])/g;
  var chosen = [], changed = [], watcher = null;

  function read() {
    var kept = null;
    try { kept = localStorage.getItem(KEY); } catch (e) { /* no storage: it holds for this page */ }
    var said = kept === null ? root.dataset.units || "" : kept;
    chosen = GROUPS.map(function (group) { return group[1]; }).filter(function (one) { return said.split(" ").indexOf(one) >= 0; });
  }
  function keep() {
    try { localStorage.setItem(KEY, chosen.join(" ")); } catch (e) { /* no storage: it holds for this page */ }
  }
  function other(unit) {
    var found = Object.prototype.hasOwnProperty.call(UNITS, unit) ? UNITS[unit] : null;
    return found && chosen.indexOf(found[0]) >= 0 ? found : null;
  }
  function decimals(text) { return (text.split(".")[1] || "").length; }
  // Half away from zero, as pages are rounded; no number with so few decimals lies half way in the other unit.
  function converted(text, to, down) {
    var places = decimals(text) + to[3], value = Number(text.replace("\u2212", "-")) / to[2] + to[4], step = Math.pow(10, places);
    var made = (down ? Math.floor(value * step + 1e-9) / step : Math.sign(value) * Math.round(Math.abs(value) * step) / step).toFixed(places);
    if (made.charAt(0) === "-") { made = (/[1-9]/.test(made) ? "\u2212" : "") + made.slice(1); }
    return (text.charAt(0) === "+" ? "+" : "") + made;
  }
  function spread(text, to, least) {
    var wide = Number(text) / to[2], needed = wide ? -Math.floor(Math.log(wide) / Math.LN10) : 0;
    return wide.toFixed(Math.max(least, decimals(text) + to[3], Math.min(needed, 4)));
  }
  function put(node, text) {
    if (text !== node.nodeValue) { changed.push([node, node.nodeValue]); node.nodeValue = text; }
  }

  function kept(table) { return Boolean(table && table.caption) && KEPT.indexOf(table.caption.textContent) >= 0; }

  // A figure: its number, and behind it in an element of its own the unit and the spread.
  function figure(behind, unit) {
    var said = /^\u00a0?(g|mm|m|\u00b0C)?(?:\u00a0\u00b1\u00a0([\d.]+))?$/.exec(behind.textContent), before = behind.previousSibling;
    var to = said && other(said[1] || unit), number = before && /^([^]*?)([+\u2212]?\d+(?:\.\d+)?)$/.exec(before.nodeValue || "");
    if (!to || !number || behind.textContent.charAt(0) !== "\u00a0" || kept(behind.closest("table"))) { return; }
    if (behind.parentNode.hash && behind.parentNode.hash.indexOf("#site/limits/") === 0) { // a limit stays in the unit of the law
      put(behind.firstChild, behind.textContent + " (" + converted(number[2], to, true) + "\u00a0" + to[1] + ")");
      return;
    }
    put(before, number[1] + converted(number[2], to));
    var wide = said[2] ? "\u00a0\u00b1\u00a0" + spread(said[2], to, decimals(number[2]) + to[3]) : "";
    put(behind.firstChild, (said[1] ? "\u00a0" + to[1] : "") + wide);
  }
  function texts(node, use) {
    var walk = document.createTreeWalker(node, NodeFilter.SHOW_TEXT), each;
    while ((each = walk.nextNode())) { use(each); }
  }
  function measure(text) {
    put(text, text.nodeValue.replace(MEASURE, function (all, first, between, second, blank, unit) {
      var to = other(unit);
      return to ? converted(first, to) + (second ? between + converted(second, to) : "") + blank + to[1] : all;
    }));
  }
  function placed(text) {
    var parent = text.parentNode; // a drawing, code, and what a table keeps stay
    if (parent.namespaceURI !== root.namespaceURI || parent.nodeName === "CODE" || kept(parent.closest("table"))) { return; }
    put(text, text.nodeValue.replace(PLACED, function (all, before, number, blank, unit) {
      var to = other(unit);
      return to ? before + converted(number, to) + blank + to[1] : all;
    }));
  }
  // A column of figures whose heading has the unit.
  function column(rows, head, index) {
    var mark = head.querySelector("i"), unit = mark && mark.textContent, to = unit && other(unit);
    if (!to) { return; }
    rows.forEach(function (row) {
      var cell = row.cells.length > 1 && row.cells[index];
      if (!cell) { return; }
      texts(cell, function (text) {
        var wide = /^\u00b1[ \u00a0]([\d.]+)$/.exec(text.nodeValue), behind = text.nextSibling;
        if (wide) { put(text, "\u00b1\u00a0" + spread(wide[1], to, 0)); }
        else if (behind && behind.nodeName === "I") { figure(behind, unit); }
        else if (/^[+\u2212]?\d+(\.\d+)?$/.test(text.nodeValue) && text.parentNode.nodeName !== "I") { put(text, converted(text.nodeValue, to)); }
      });
      if (cell.dataset.l) { changed.push([cell, cell.dataset.l]); cell.dataset.l = cell.dataset.l.replace(/, (\S+)$/, ", " + to[1]); }
    });
    put(mark.firstChild, to[1]);
  }
  function table(node) {
    if (kept(node)) { return; }
    var rows = [].slice.call(node.tBodies[0] ? node.tBodies[0].rows : []);
    [].forEach.call(node.tHead ? node.tHead.rows[0].cells : [], function (head, index) {
      column(rows, head, index);
      if (MEASURED.indexOf(head.textContent) < 0) { return; }
      rows.forEach(function (row) { if (row.cells.length > 1 && row.cells[index]) { texts(row.cells[index], measure); } });
    });
  }
  function show() {
    if (watcher) { watcher.disconnect(); }
    changed.splice(0).reverse().forEach(function (one) {
      if (one[0].dataset) { one[0].dataset.l = one[1]; } else { one[0].nodeValue = one[1]; }
    });
    convert();
  }
  function convert() {
    if (!chosen.length) { return; }
    main.querySelectorAll("table").forEach(table);
    main.querySelectorAll("i").forEach(function (behind) { figure(behind, ""); });
    main.querySelectorAll("dt").forEach(function (name) {
      if (MEASURED.indexOf(name.textContent) >= 0 && name.nextElementSibling) { texts(name.nextElementSibling, measure); }
    });
    main.querySelectorAll(".facts > b").forEach(function (name) {
      if (MEASURED.indexOf(name.textContent) >= 0 && name.nextSibling && name.nextSibling.nodeType === 3) { measure(name.nextSibling); }
    });
    texts(main, placed);
    watcher = watcher || new MutationObserver(function () { watcher.disconnect(); convert(); });
    watcher.observe(main, { childList: true, subtree: true }); // what other scripts lay out
  }

  function make(tag, text, parent) {
    var node = document.createElement(tag);
    node.textContent = text;
    if (parent) { parent.appendChild(node); }
    return node;
  }
  function choice(group, word, on, parent) {
    var label = make("label", "", parent), box = make("input", "", label);
    box.type = "radio";
    box.name = group[0];
    box.checked = on === (chosen.indexOf(group[1]) >= 0);
    label.appendChild(document.createTextNode(" " + word));
    box.addEventListener("change", function () {
      chosen = chosen.filter(function (one) { return one !== group[1]; }).concat(on ? [group[1]] : []);
      keep();
      show();
    });
  }
  /** @type {HTMLAnchorElement} */
  var link = document.querySelector(".top a[href$='units/index.html']");
  function ask(event) {
    var box = make("dialog", ""), close;
    if (!box.showModal || event.ctrlKey || event.metaKey || event.shiftKey) { return; } // the page says what converts
    event.preventDefault();
    make("h2", "Units", box).id = "units-title";
    box.setAttribute("aria-labelledby", "units-title");
    GROUPS.forEach(function (group) {
      var set = make("fieldset", "", box);
      make("legend", group[0], set);
      choice(group, group[2], false, set);
      choice(group, group[3], true, set);
    });
    make("p", "Limits of the law keep their unit, with yours beside it. Boxes to write in, sentences, drawings, files and the page at the bench stay metric. ", box);
    var more = make("a", "What converts", box.lastChild);
    more.href = link.href;
    close = make("button", "Done", box);
    close.type = "button";
    close.addEventListener("click", function () { box.close(); });
    box.addEventListener("close", function () { box.remove(); link.focus(); });
    document.body.appendChild(box);
    box.showModal();
  }
  if (link) { link.setAttribute("aria-haspopup", "dialog"); link.addEventListener("click", ask); }
  // Chosen on another page that is open, or before this one is shown again.
  function again() { read(); show(); }
  window.addEventListener("storage", function (event) { if (event.key === KEY) { again(); } });
  window.addEventListener("pageshow", function (event) { if (event.persisted) { again(); } });
  again();
})();
