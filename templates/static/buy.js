// Adds up what is not yet ordered, by the boxes ticked on this device. Amounts come as whole coins; without it the line says the sum of all.
(function () {
  "use strict";
  var left = /** @type {HTMLTableRowElement} */ (document.getElementById("buy-left"));
  if (!left) { return; }
  var cell = left.cells[left.cells.length - 1], at_first = cell.innerHTML, digits = Number(left.dataset.digits);
  var tables = Array.prototype.map.call(document.querySelectorAll(".buy table"), function (table) {
    return { rows: table.querySelectorAll("tr[data-paid]"), sent: table.querySelector("tr[data-postage]") };
  }).filter(function (one) { return one.rows.length; });
  function ordered(row) { return row.querySelector("[data-tick^=ordered-]").checked; }
  function coins(one) {
    var open = Array.prototype.filter.call(one.rows, function (row) { return !ordered(row); });
    var sum = open.reduce(function (all, row) { return all + Number(row.dataset.paid); }, 0);
    // A parcel is paid once: with the first thing that is ordered there.
    return open.length === one.rows.length && one.sent ? sum + Number(one.sent.dataset.postage) : sum;
  }
  function show() {
    var any = tables.some(function (one) { return Array.prototype.some.call(one.rows, ordered); });
    var sum = tables.reduce(function (all, one) { return all + coins(one); }, 0);
    if (any) { cell.textContent = (sum / Math.pow(10, digits)).toFixed(digits); } else { cell.innerHTML = at_first; }
  }
  // What bags of other builds leave over, once their parts have come: it is kept on this device, by site.
  var place = location.pathname.split("/").slice(0, -3).join("/"), key = "benchleaf-left:" + place, own = document.body.dataset.build;
  /** @type {NodeListOf<HTMLTableRowElement>} */
  var bags = document.querySelectorAll(".buy tr[data-over]");
  function kept() {
    var found = null;
    try { found = JSON.parse(localStorage.getItem(key)); } catch (error) { /* not ours, or no storage */ }
    return Object.prototype.toString.call(found) === "[object Object]" ? found : {};
  }
  function keep() {
    var all = kept(), mine = {};
    bags.forEach(function (row) {
      /** @type {HTMLInputElement} */
      var come = row.querySelector("[data-tick^=arrived-]"), over = Number(row.dataset.over);
      if (come && come.checked && over > 0) { mine[row.dataset.shelf] = (mine[row.dataset.shelf] || 0) + over; }
    });
    all[own] = mine;
    try { localStorage.setItem(key, JSON.stringify(all)); } catch (error) { /* private mode: not kept */ }
  }
  function lent(shelf, all) {
    return Object.keys(all).filter(function (build) {
      return build !== own && all[build] && Object.prototype.hasOwnProperty.call(all[build], shelf) && all[build][shelf] > 0;
    }).map(function (build) { return Number(all[build][shelf]) + " left over from " + build; });
  }
  var others = kept();
  bags.forEach(function (row) {
    var said = lent(row.dataset.shelf, others), note = document.createElement("small");
    if (!said.length) { return; }
    note.className = "lent";
    note.textContent = said.join(", ") + ", by boxes ticked on this device";
    row.cells[2].appendChild(note);
  });
  document.querySelector("main").addEventListener("change", function () { show(); keep(); });
  show();
})();
