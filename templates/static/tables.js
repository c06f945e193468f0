// Sorts tables by their data-sort values and filters their rows by words. Pages read the same without it.
(function () {
  "use strict";
  function value(row, index) {
    var cell = row.cells[index];
    if (!cell) { return ""; }
    var raw = cell.dataset.sort === undefined ? cell.textContent.trim() : cell.dataset.sort;
    return raw === "" || isNaN(raw) ? raw.toLowerCase() : Number(raw);
  }
  function sort(table, index, head) {
    var up = head.getAttribute("aria-sort") !== "ascending";
    var body = table.tBodies[0];
    var rows = Array.prototype.slice.call(body.rows);
    rows.sort(function (a, b) {
      var x = value(a, index), y = value(b, index);
      if (typeof x !== typeof y) { return typeof x === "number" ? -1 : 1; }
      return (x < y ? -1 : x > y ? 1 : 0) * (up ? 1 : -1);
    });
    rows.forEach(function (row) { body.appendChild(row); });
    head.parentNode.querySelectorAll("th").forEach(function (th) { th.removeAttribute("aria-sort"); });
    head.setAttribute("aria-sort", up ? "ascending" : "descending");
  }
  document.querySelectorAll(".sortable").forEach(function (box) {
    var table = box.querySelector("table");
    Array.prototype.forEach.call(table.tHead.rows[0].cells, function (head, index) {
      if (!head.firstChild) { return; } // a column of pictures: there is nothing to sort by
      var button = document.createElement("button");
      button.type = "button";
      while (head.firstChild) { button.appendChild(head.firstChild); }
      head.appendChild(button);
      button.addEventListener("click", function () { sort(table, index, head); });
    });
    var label = document.createElement("label");
    var input = document.createElement("input");
    label.className = "filter of-rows";
    label.textContent = "Filter: ";
    input.type = "search";
    label.appendChild(input);
    box.parentNode.insertBefore(label, box);
    var state = document.createElement("p");
    state.className = "quiet";
    state.setAttribute("role", "status");
    box.parentNode.insertBefore(state, box);
    // Of one kind, a figure from and to: a number of the row's own beside two that are typed.
    var range = document.createElement("p"), ends = ["from ", "to "].map(function (word) {
      var of = document.createElement("label"), end = document.createElement("input");
      of.textContent = word;
      end.type = "number";
      end.step = "any";
      end.addEventListener("input", filter);
      of.appendChild(end);
      return of;
    });
    range.className = "filter range";
    range.hidden = true;
    function offer() {
      var unit = "";
      Array.prototype.forEach.call(table.tBodies[0].rows, function (row) {
        if (select.value && row.dataset.kind === select.value && row.dataset.unit) { unit = unit || row.dataset.unit; }
      });
      range.textContent = unit ? unit + ": " : "";
      range.hidden = !unit;
      ends.forEach(function (of) { of.querySelector("input").value = ""; range.appendChild(of); });
      filter();
    }
    function outside(row) {
      var low = ends[0].querySelector("input").value, high = ends[1].querySelector("input").value, size = row.dataset.size;
      if (!low && !high) { return false; }
      return !size || row.dataset.unit + ": " !== range.firstChild.textContent || Boolean(low && Number(size) < Number(low)) || Boolean(high && Number(size) > Number(high));
    }
    var kinds = {}, select = document.createElement("select");
    Array.prototype.forEach.call(table.tBodies[0].rows, function (row) { if (row.dataset.kind) { kinds[row.dataset.kind] = true; } });
    if (Object.keys(kinds).length > 1) {
      var of = document.createElement("label");
      of.className = "filter";
      of.textContent = "Kind: ";
      [""].concat(Object.keys(kinds).sort()).forEach(function (kind) {
        var option = document.createElement("option");
        option.value = kind;
        option.textContent = kind || "all";
        select.appendChild(option);
      });
      of.appendChild(select);
      box.parentNode.insertBefore(of, label);
      box.parentNode.insertBefore(range, label);
      select.addEventListener("change", offer);
    }
    function has(text, word) {
      var at = text.indexOf(word);
      while (at > 0 && /^\d/.test(word) && /[\d.]/.test(text[at - 1])) { at = text.indexOf(word, at + 1); }
      return at >= 0;
    }
    function filter() {
      // '4 cells' is 4S; what begins with a digit is not found within a longer number.
      var words = input.value.toLowerCase().replace(/(\d)[\s-]*cells?(?![a-z])/g, "$1s").split(/\s+/), left = 0, kind = select.value;
      Array.prototype.forEach.call(table.tBodies[0].rows, function (row) {
        var text = row.textContent.toLowerCase();
        row.hidden = !words.every(function (word) { return has(text, word); }) || Boolean(kind && row.dataset.kind !== kind) || outside(row);
        if (!row.hidden) { left += 1; }
      });
      state.textContent = !input.value && !kind ? "" : left ? left + " of " + table.tBodies[0].rows.length + " rows" : "No row has these words.";
    }
    input.addEventListener("input", filter);
  });
})();
