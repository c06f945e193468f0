// Adds up what is not yet ordered, by the boxes ticked on this device. Amounts come as whole coins; without it the line says the sum of all.
(function () {
  "use strict";
  var left = document.getElementById("buy-left");
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
  document.querySelector("main").addEventListener("change", show);
  show();
})();
