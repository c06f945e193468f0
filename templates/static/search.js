// Searches what builds publish to be found (find.js of each). Nothing is asked of anybody else. The page reads the same without it.
(function () {
  "use strict";
  var KINDS = ["page", "topic", "part", "figure", "step", "contact", "caution", "question", "change"];
  var BEGINS = { step: "step-", contact: "pin-", caution: "caution-", question: "ask-", change: "change-" };
  var WEIGHT = { page: 5, topic: 4, part: 6, figure: 6, step: 3, contact: 2, caution: 3, question: 5, change: 1 };
  var SHOWN = 30, AT_ONCE = 60;
  // The same thing under another name that people type.
  var ALSO = { pack: "batter", lipo: "batter", battery: "batteries", charge: "batteries", charging: "batteries", vtx: "video", rx: "receiver",
    fc: "control board", esc: "speed controller", price: "budget", cost: "budget", money: "budget", legal: "law", prop: "propeller",
    props: "propeller", screws: "screw", weigh: "weight", weighs: "weight", heavy: "weight", light: "weight", time: "timer", minutes: "timer",
    print: "bench sheet", failsafe: "lost link", fail: "lost", wiring: "contacts", pinout: "contacts", plug: "connector", shop: "buy" };
  var section = document.getElementById("find"), builds = section.querySelectorAll("tr[data-name]");
  var lines = [], waiting = 0, titles = 0;

  function make(tag, name, text) {
    var node = document.createElement(tag);
    if (name) { node.className = name; }
    if (text) { node.textContent = text; }
    return node;
  }
  // Small letters without marks; digits and letters apart from all else.
  function plain(text) {
    return text.normalize("NFKD").replace(/[\u0300-\u036f]/g, "").toLowerCase().replace(/[^\p{L}\p{N}.]+/gu, " ").trim();
  }
  window.benchleafFind = function (build, pages) {
    Object.keys(pages).forEach(function (page) {
      pages[page].split("\n").forEach(function (line) {
        var kind = KINDS[line.charAt(0)], gap = line.indexOf(" "), name = line.slice(1, gap);
        var text = line.slice(gap + 1) || name.replace(/-/g, " "), anchor = (BEGINS[kind] || "") + name;
        lines.push({ kind: kind, text: text, said: " " + plain(text), build: build[1], of: " " + plain(build[0] + " " + build[1]),
          href: (page.indexOf("../") === 0 ? page : "../" + build[0] + "/" + page) + (anchor ? "#" + encodeURIComponent(anchor) : "") });
      });
    });
  };

  function hit(said, word) {
    var at = said.indexOf(" " + word);
    if (at < 0) { return 0; }
    var end = said.charAt(at + 1 + word.length);
    return end === "" || end === " " ? 3 : 2;
  }
  // Each word has to be in the line or in the name of its build; more of them in the line is better, and a short line better than a long one.
  function own_score(said, word) {
    var one = word.length > 3 ? word.replace(/s$/, "") : word, also = ALSO[word] || ALSO[one];
    return Math.max(hit(said, word), hit(said, one) - 0.2, also ? hit(said, also) - 0.5 : 0);
  }
  function score(line, asked, all) {
    var sum = 0, own = 0;
    for (var i = 0; i < asked.length; i += 1) {
      var best = own_score(line.said, asked[i]);
      if (best > 0) { own += 1; sum += 4 * best; } else if (hit(line.of, asked[i])) { sum += 1; } else if (all) { return 0; }
    }
    return own ? sum + WEIGHT[line.kind] - line.said.length / 40 : sum && asked.length === 1 && line.kind === "page" ? 1 : 0;
  }
  function best(text) {
    var asked = plain(text).replace(/\bhow long\b/, "timer").split(" ").filter(Boolean), seen = Object.create(null);
    if (!asked.length) { return []; }
    var few = asked.filter(function (w) { return !/^(the|a|an|is|it|of|to|for|in|on|with|how|what|which|where|do|does|i|my|and|much|many|long|can)$/.test(w); });
    var words = few.length ? few : asked;
    var scored = [true, false].map(function (all) { // where no line has all the words, those with most
      return lines.map(function (line) { return [score(line, words, all), line]; }).filter(function (pair) { return pair[0] > 0; });
    });
    return (scored[0].length ? scored[0] : scored[1])
      .sort(function (a, b) { return b[0] - a[0]; })
      .reduce(function (found, pair) { // the same line of several builds is one, with a way to each
        var line = pair[1], key = line.kind + line.text;
        if (!seen[key]) { found.push(seen[key] = { kind: line.kind, text: line.text, ways: [] }); }
        if (!seen[key].ways.some(function (way) { return way.href === line.href; })) { seen[key].ways.push(line); }
        return found;
      }, []);
  }

  var label = make("label", "filter", "Find: "), field = make("input"), state = make("p", "quiet"), list = make("ul", "found");
  field.type = "search";
  field.autocomplete = "off";
  state.setAttribute("role", "status");
  label.appendChild(field);
  section.querySelector("p").replaceWith(label, state, list);
  var box = section.querySelector(".table");

  function link(text, line) {
    var way = make("a", "", text);
    way.href = line.href;
    return way;
  }
  function show() {
    var found = best(field.value), shown = found.slice(0, SHOWN);
    list.textContent = "";
    box.hidden = !!field.value.trim();
    shown.forEach(function (line) {
      var item = make("li"), first = line.ways[0], small = make("small", "", " " + line.kind);
      item.appendChild(link(line.text, first));
      if (line.kind !== "part") {
        small.appendChild(document.createTextNode(", " + first.build));
        line.ways.slice(1).forEach(function (way) { small.appendChild(document.createTextNode(", ")); small.appendChild(link(way.build, way)); });
      }
      item.appendChild(small);
      list.appendChild(item);
    });
    if (!field.value.trim()) { state.textContent = waiting ? "Reading what can be found." : ""; return; }
    var many = found.length === 1 ? "1 line" : found.length + " lines";
    state.textContent = (found.length ? many + " found" + (found.length > SHOWN ? ", the best " + SHOWN + " shown" : "") : "Nothing found")
      + (builds.length > titles ? " in the " + titles + " builds revised last of " + builds.length + "." : ".");
  }
  function arrows(event) {
    var ways = [].slice.call(list.querySelectorAll("a")), at = ways.indexOf(document.activeElement), next;
    if (event.key === "ArrowDown") { next = ways[at + 1]; } else if (event.key === "ArrowUp") { next = at > 0 ? ways[at - 1] : at === 0 ? field : null; }
    if (event.key === "Enter" && document.activeElement === field && ways[0]) { ways[0].click(); }
    if (next) { event.preventDefault(); next.focus(); }
  }
  function keep() {
    var hash = field.value.trim() ? "#" + encodeURIComponent(field.value.trim()) : location.pathname;
    try { history.replaceState(null, "", hash); } catch (e) { /* from a folder some browsers keep it as it is */ }
  }
  field.addEventListener("input", function () { show(); keep(); });
  section.addEventListener("keydown", arrows);

  function load(row) {
    var script = make("script");
    waiting += 1;
    titles += 1;
    script.async = false; // in their order: of lines that fit alike the newest build's comes first
    script.src = "../" + row.dataset.name + "/find.js";
    script.onload = script.onerror = function () { waiting -= 1; if (!waiting || field.value) { show(); } };
    document.head.appendChild(script);
  }
  [].slice.call(builds, 0, AT_ONCE).forEach(load);
  try { field.value = decodeURIComponent(location.hash.slice(1)); } catch (e) { /* as it stands */ }
  field.focus({ preventScroll: true });
  show();
})();
