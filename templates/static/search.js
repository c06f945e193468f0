// Searches what builds publish to be found (find.js of each). Nothing is asked of anybody else. The page reads the same without it.
(function () {
  "use strict";
  var KINDS = ["page", "topic", "part", "figure", "step", "contact", "caution", "question", "change", "chapter"];
  var BEGINS = { step: "step-", contact: "pin-", caution: "caution-", question: "ask-", change: "change-" };
  var WEIGHT = { page: 5, topic: 5, part: 4, figure: 6, step: 3, contact: 2, caution: 3, question: 5, change: 1, chapter: 5 };
  var SHOWN = 30, AT_ONCE = 60, FEW = 3;
  // What people ask in several words, and what the sheets call it.
  var ASKED = [
    [/\bwhich way (round|up)\b.*|\bboard (orientation|direction)\b/, "how the board sits"], [/\bhow far\b.*$/, "range"],
    [/\b(bind|pair)(ing)?\b.*$/, "control link"], [/\bamps\b/, "current"], [/\bspares? parts?\b/, "spares"],
    [/\bcheaper\b.*$/, "cheaper"], [/\b(am i|is it|are we) (allowed|legal)\b.*$/, "law"],
    [/\bhow long\b(?=.*\b(fl(y|ies|ight)|lasts?|air)\b)|\bflight time\b|\bair ?time\b|\bendurance\b/, "timer"],
    [/\bcent(re|er) of (gravity|mass)\b|\bcg\b|\bbalance point\b/, "centre of mass"],
    [/\ball up weight\b|\bauw\b|\btake ?off weight\b/, "flying weight"],
    [/\bfail ?safe\b|\b(lost?|loses?|losing|loss of) (the |its )?(signal|radio|control)\b|\bsignal (is )?lost\b/, "lost link"],
    [/\b(which|what) way\b.*\b(spin|turn|rotat)\w*|\b(motor|prop|propeller)s? (direction|rotation)\b/, "clockwise propellers"],
    [/\bshort circuits?\b/, "check before power"], [/\bsmoke (stopper|test)\b/, "first power up"], [/\bcrash(es|ing)\b/, "after a crash"],
    [/\bmotors?\b.*\bwrong\b.*|\bwrong (way|direction)\b/, "to try before the first flight"], [/\bvideo transmitter power\b/, "vtx power"],
    [/\bhow long\b.*\b(build|make|take)\b.{0,}/, "order of work"], [/\bhow many flights\b/, "what the log says"], [/\bwhy\b.*\bbeep(s|ing)?\b/, "alarms"],
    [/\b(which|what) (side|end|pad|one) is\b/, ""], [/\bdownload\b.*\b(settings|files?|stls?|models?)\b/, "files that go with it"], [/\bc rating\b/, "full throttle against"],
    [/\b(no|without|black|frozen) (video|picture|image|screen)\b|\b(does|do|is|did|has) ?n ?o?t (work|working|worked|start|started|power|turn|respond)\w*\b.*|\bwhat (s|is) wrong\b.{0,}/, "this does not work"],
    [/\b(which|what) sizes? (of )?prop(eller)?s?\b|\bprop(eller)?s? sizes?\b/, "propeller"],
    [/\b(how|where) (do|to|can)( i)? start\b/, "before you start"]
  ];
  // The same thing under other names that people type.
  var ALSO = {};
  [["batter", "pack packs lipo lipos batt"], ["batteries", "battery charge charging"], ["battery", "batteries"], ["video", "vtx fpv"],
    ["video transmitter", "vtx"], ["receiver", "rx"], ["transmitter", "tx radio vtx"], ["control board", "fc"], ["speed controller", "esc escs"],
    ["budget", "price prices cost costs money expensive pay"], ["you pay", "pay cost"], ["law", "legal allowed rules registration register licence licences license licenses licensed permit"], ["the first 30 seconds", "wind windy gust gusts"], ["outdoors", "wind windy"], ["this does not work", "dead fault faulty troubleshoot troubleshooting"],
    ["to the limit", "legal limit registration register"], ["propeller", "prop props"], ["weight", "weigh weighs heavy light grams ounces"],
    ["timer", "time minutes"], ["bench sheet", "print printed printout pdf paper download"], ["contacts", "wiring pinout pads pins"],
    ["connector", "plug"], ["buy", "shop shops order shopping"], ["rain", "waterproof wet water weather"], ["coat", "waterproof water"],
    ["control link", "bind binding pairing pair range distance"], ["video link", "range"], ["on screen figures", "osd"],
    ["serial ports", "uart uarts"], ["software", "firmware flash"], ["buzzer", "beeper"], ["lamps", "led leds"], ["lights", "led leds"],
    ["hand meter", "multimeter"], ["plus", "positive polarity"], ["minus", "negative polarity"], ["compass", "north heading"], ["how the board sits", "orientation"], ["degrees", "angle tilt"], ["keeping it flying", "maintenance service"],
    ["spares and history", "repair repairs repaired broken broke breaks"], ["after a crash", "crashed repair broken broke"], ["alternatives", "cheaper swap replace replacement instead substitute"],
    ["what swaps can do", "cheaper better upgrade"], ["photograph", "photo photos picture pictures"], ["smoke", "fumes fume"], ["arming", "arm"],
    ["alarms", "alarm warning beeps"], ["wires to cut", "wires colour colours color gauge thickness awg"],
    ["soldering order", "temperature tip tips hot"], ["balance", "nose tail"], ["what the log says", "log history"], ["changes", "new news"],
    ["get ready", "tools"], ["thrust over weight", "twr ratio"], ["mount", "install attach"], ["put in place", "mount install attach"], ["satellite", "gps gnss"], ["at a glance", "summary overview"]
  ].forEach(function (pair) {
    pair[1].split(" ").forEach(function (word) { (ALSO[word] = ALSO[word] || []).push(pair[0]); });
  });
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
  // Contacts of a page share a line: what their anchors begin with, then each.
  function told(kind, name, text) {
    return kind === "contact" ? text.split(" ").map(function (end) { return [name + end, (name + end).replace(/-/g, " ")]; }) : [[name, text]];
  }
  window.benchleafFind = function (build, pages) {
    Object.keys(pages).forEach(function (page) {
      var own = pages[page].split("\n"), title = own[0].charAt(0) === "0" ? own[0].slice(2) : "";
      var place = (page.indexOf("../") === 0 ? page : "../" + build[0] + "/" + page) + "index.html";
      var above = "";
      own.forEach(function (line) {
        var kind = KINDS[line.charAt(0)], gap = line.indexOf(" "), name = line.slice(1, gap);
        above = name === "=" ? above : name;
        told(kind, above, line.slice(gap + 1)).forEach(function (one) {
          if (kind === "page" && one[1].indexOf(build[1] + ": ") === 0) { one[1] = one[1].slice(build[1].length + 2); }
          var anchor = one[0] ? (BEGINS[kind] || "") + one[0] : "", said = plain(one[1]);
          lines.push({ kind: kind, text: one[1], said: " " + said, words: said.split(" ").length, build: build[1], page: title,
            of: " " + plain(build[0] + " " + build[1]),
            href: kind === "part" ? page + one[0] + "/index.html" : place + (anchor ? "#" + encodeURIComponent(anchor) : "") });
        });
      });
    });
  };

  function hit(said, word) {
    var at = said.indexOf(" " + word);
    if (at < 0) { return 0; }
    var end = said.slice(at + 1 + word.length);
    return /^( |$)/.test(end) ? 3 : /^s( |$)/.test(end) ? 2.8 : 2;
  }
  function own_score(said, word) {
    var one = word.length > 3 ? word.replace(/s$/, "") : word;
    return (ALSO[word] || []).reduce(function (most, also) { return Math.max(most, hit(said, also) - 0.5); },
      Math.max(hit(said, word), hit(said, one) - 0.2, 0));
  }
  // A word that few lines have says more.
  function rarity(word) {
    var having = lines.filter(function (line) { return own_score(line.said, word) > 0; }).length;
    return having ? 1 + 1.3 * Math.log(lines.length / having) / Math.log(lines.length) : 1;
  }
  // Each word has to be in the line or in the name of its build; more of them in the line is better, and one that holds little else.
  function score(line, asked, rare, all) {
    var sum = 0, own = 0;
    for (var i = 0; i < asked.length; i += 1) {
      var most = own_score(line.said, asked[i]);
      if (most > 0) { own += 1; sum += 3 * rare[i] * most; } else if (hit(line.of, asked[i]) > (asked[i].length > 3 ? 0 : 2)) { sum += 1; } else if (all) { return 0; }
    }
    if (!own) { return sum && asked.length === 1 && line.kind === "page" ? 1 : 0; }
    return sum + WEIGHT[line.kind] + 4 * Math.min(1, own / line.words) - line.said.length / 40;
  }
  function best(text) {
    var asked = ASKED.reduce(function (all, pair) { return all.replace(pair[0], pair[1]); }, plain(text)).split(" ").filter(Boolean);
    var seen = Object.create(null);
    if (!asked.length) { return []; }
    var few = asked.filter(function (w) { return !/^(the|a|an|is|it|of|to|for|in|on|with|how|what|which|where|do|does|i|my|and|much|many|long|can|need|get|when|should|are|have|has|me|you|s|be|at|or|if|there|any|will|now|go|goes)$/.test(w); });
    var words = few.length ? few : asked, rare = words.map(rarity);
    var scored = [true, false].map(function (all) { // lines that have all the words; below a few of them, those with most
      return lines.map(function (line) { return [score(line, words, rare, all), line]; })
        .filter(function (pair) { return pair[0] > 0; }).sort(function (a, b) { return b[0] - a[0]; });
    });
    var told = new Set(scored[0].map(function (pair) { return pair[1].kind + pair[1].text; }));
    return (told.size < FEW ? scored[0].concat(scored[1]) : scored[0])
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
  /** @type {HTMLElement} */
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
        small.appendChild(document.createTextNode(", " + (line.kind === "page" ? first.build : first.page || first.build)));
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
