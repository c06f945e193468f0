// Lays any two builds side by side from their sheet.js. It subtracts, and adds differences of errors in square; no more.
(function () {
  "use strict";
  var MINUS = "\u2212", sheets = Object.create(null), waiting = Object.create(null), sequence = 0;
  var HOW = { same: "as before", swapped: "swapped", added: "added", dropped: "dropped", recounted: "another number" };
  var LEFT_OUT = "leaves out what is not known", TOO_SMALL = "too close to call";
  var SURE = "yes, by over two standard deviations", UNSURE = "no, by under two standard deviations";
  var QUESTIONS = [
    ["Lighter in the air, each on its lightest battery", "all-up", "lightest", false],
    ["Flies longer, each on its longest battery", "endurance", "longest", true],
    ["Flies longer on the battery it was flown on", "endurance", "as flown", true]
  ];

  // Numbers as the pages show them: half away from zero on the shortest decimal that gives the value back.
  // A time to be kept is cut.
  function rounded(value, places, kept) {
    var parts = String(Math.abs(value)).split("e"), halves = parts[0].split(".");
    var scale = (halves[1] || "").length - Number(parts[1] || 0);
    var whole = BigInt(halves[0] + (halves[1] || "")), ten = BigInt(10), two = BigInt(2);
    if (scale <= places) { whole *= ten ** BigInt(places - scale); } else {
      var step = ten ** BigInt(scale - places);
      whole = kept ? whole / step : (whole * two + step) / (two * step);
    }
    var text = String(whole).padStart(places + 1, "0");
    if (places) { text = text.slice(0, -places) + "." + text.slice(-places); }
    return (value < 0 && /[1-9]/.test(text) ? MINUS : "") + text;
  }
  function decimalsFor(spread) {
    var digits = -Math.floor(Math.log10(spread));
    if (spread * Math.pow(10, digits) < 2) { digits += 1; }
    return Math.max(0, Math.min(4, digits));
  }
  function money(minor, of, sign) {
    var text = rounded(minor / Math.pow(10, of.digits), of.digits) + "\u00a0" + of.currency;
    return (sign ? minor > 0 ? "+" : "" : of.at_least ? "at least " : "") + text;
  }
  function change(a, b) {
    if (a.value === null || b.value === null) { return null; }
    var square = 0;
    Object.keys(Object.assign({}, a.errors, b.errors)).forEach(function (leaf) {
      var error = (b.errors[leaf] || 0) - (a.errors[leaf] || 0);
      square += error * error;
    });
    return { value: b.value - a.value, spread: Math.sqrt(square) };
  }

  function make(tag, name, text) {
    var node = document.createElement(tag);
    if (name) { node.className = name; }
    if (text) { node.textContent = text; }
    return node;
  }
  function number(prefix, value, unit, spread, link) {
    var node = make(link ? "a" : "span");
    if (link) { node.href = link; }
    if (prefix) { node.appendChild(make("em", "", prefix + "\u00a0")); }
    node.appendChild(document.createTextNode(value));
    var behind = (unit ? "\u00a0" + unit : "") + (spread ? "\u00a0\u00b1\u00a0" + spread : "");
    if (behind) { node.appendChild(make("i", "", behind)); }
    return node;
  }
  function shown(figure, build) {
    var anchor = figure.anchor.indexOf(build + "/") === 0 ? figure.anchor.slice(build.length) : figure.anchor;
    var link = "../../" + build + "/numbers/index.html#" + anchor;
    if (figure.value === null) { return number("", "unknown", "", "", link); }
    var text = rounded(figure.value * figure.factor, figure.decimals, figure.kept);
    return number(figure.reads, text, figure.shown, "", link);
  }
  function signed(found, how) {
    if (found === null) { return document.createTextNode("unknown"); }
    var wide = found.spread * how.factor, text = rounded(found.value * how.factor, how.decimals);
    var spread = wide ? rounded(wide, Math.max(how.decimals, decimalsFor(wide))) : "";
    return number("", (found.value > 0 ? "+" : "") + text, how.shown, spread, "");
  }

  function row(id, cells, heads) {
    var line = make("tr");
    line.id = id;
    cells.forEach(function (content, index) {
      var cell = make(index ? "td" : "th");
      if (index && content.node.textContent) { cell.dataset.l = heads[index]; } // what a card says before it
      cell.appendChild(content.node);
      if (content.note) { cell.appendChild(make("small", "", content.note)); }
      line.appendChild(cell);
    });
    return line;
  }
  function table(id, caption, heads, right, rows, only) {
    // Below so many rem rows are cards, in which columns of words take the whole width.
    var box = make("div", heads.length > 4 ? "table n54" : "table n36"), head = make("tr"), body = make("tbody");
    var inner = make("table", heads.map(function (h, i) { return ((only ? only.indexOf(i) >= 0 : i >= right) ? "r" : "w") + (i + 1); }).slice(1).join(" "));
    box.id = id;
    inner.appendChild(make("caption", "", caption));
    heads.forEach(function (words) {
      head.appendChild(make("th", "", words));
    });
    inner.createTHead().appendChild(head);
    rows.forEach(function (cells) {
      body.appendChild(row(cells.id, cells.map(function (cell) {
        return { node: cell.node || document.createTextNode(cell), note: cell.note };
      }), heads));
    });
    inner.appendChild(body);
    box.appendChild(inner);
    return box;
  }
  function section(id, heading, nodes) {
    var box = make("section");
    box.id = id;
    box.appendChild(make("h2", "", heading));
    nodes.forEach(function (node) { box.appendChild(node); });
    return box;
  }

  function byKey(sheet) {
    var found = Object.create(null);
    sheet.compare.figures.forEach(function (f) { found[f.key] = f; });
    return found;
  }
  // Purposes that the same two batteries serve, as the sheets order them.
  function paired(a, b) {
    var out = [], seen = Object.create(null);
    a.compare.uses.forEach(function (one, index) {
      var other = b.compare.uses[index], both = one.pack + "/" + other.pack;
      if (!one.pack || !other.pack) { return; }
      if (seen[both]) { seen[both].purposes.push(one.purpose); return; }
      seen[both] = { purposes: [one.purpose], key: slug(one.purpose), first: one, second: other };
      out.push(seen[both]);
    });
    return out;
  }
  function slug(words) { return words.replace(/ /g, "-"); }
  function isAlike(found, first) { return Math.abs(found.value) <= 1e-12 * Math.abs(first.value); }
  function isReal(found, first) { return !isAlike(found, first) && Math.abs(found.value) > 2 * found.spread; }
  function figureRow(id, label, f, other, a, b) {
    var found = change(f, other), notes = [];
    if (found && !isAlike(found, f) && !isReal(found, f)) { notes.push(TOO_SMALL); }
    if (found && (f.lacks || other.lacks)) { notes.push(LEFT_OUT); }
    /** @type {Row} */
    var cells = [label, { node: shown(f, a.build) }, { node: shown(other, b.build) }, { node: signed(found, f), note: notes.join("; ") }];
    cells.id = id;
    return cells;
  }
  function weights(a, b, uses) {
    var mine = byKey(a), theirs = byKey(b), rows = [figureRow("dry", mine.dry.label, mine.dry, theirs.dry, a, b)];
    uses.forEach(function (use) {
      var f = mine["all-up/" + use.first.pack], other = theirs["all-up/" + use.second.pack];
      var held = f.label === other.label ? f.label : f.label + "; " + other.label;
      var label = "Flying weight (all-up), " + use.purposes.join(" and ") + ": " + held;
      rows.push(figureRow("all-up-" + use.key, label, f, other, a, b));
    });
    return rows;
  }
  function flightTable(a, b, use, heads) {
    var mine = byKey(a), theirs = byKey(b), names = use.purposes.join(" and ");
    var words = use.first.shelf === use.second.shelf ? "the same" : "another";
    /** @type {Row} */
    var battery = ["Battery", use.first.label, use.second.label, words], rows = [battery];
    battery.id = "battery-" + use.key;
    a.compare.figures.forEach(function (f) {
      var of = f.key.split("/");
      if (f.group !== "flight" || of[1] !== use.first.pack) { return; }
      rows.push(figureRow(of[0] + "-" + use.key, f.label, mine[f.key], theirs[of[0] + "/" + use.second.pack], a, b));
    });
    var caption = names.charAt(0).toUpperCase() + names.slice(1) + ": " + a.build + " on " + use.first.pack + ", " + b.build + " on " + use.second.pack;
    return table("on-" + use.key, caption, heads, 1, rows);
  }
  // Which is lighter, cheaper, flies longer, by how much, and whether that is sure.
  function answer(id, words, f, other, more, a, b) {
    var found = change(f, other);
    /** @type {Row} */
    var cells = [words, "not known", "", ""];
    if (found && isAlike(found, f)) { cells = [words, "the same", "", ""]; }
    else if (found) {
      var left = f.lacks || other.lacks ? LEFT_OUT : "", real = isReal(found, f);
      var who = found.value > 0 === more ? b.build : a.build, by = signed({ value: Math.abs(found.value), spread: found.spread }, f);
      by.firstChild.textContent = by.firstChild.textContent.replace(/^\+/, "");
      var sure = real ? left ? "not known" : SURE : UNSURE;
      cells = [words, real ? who : TOO_SMALL, { node: by }, { node: document.createTextNode(sure), note: left }];
    }
    cells.id = id;
    return cells;
  }
  function cheaper(a, b) {
    var one = a.compare.money, two = b.compare.money, gap = two.minor - one.minor, who = gap < 0 ? b.build : a.build;
    var words = "Cheaper in parts, without batteries and tools";
    var open = one.at_least || two.at_least, size = money(Math.abs(gap), { digits: one.digits, currency: one.currency, at_least: open });
    var bounded = gap && (gap < 0 ? one.at_least && !two.at_least : two.at_least && !one.at_least);
    /** @type {Row} */
    var cells = [words, "not known", "", { node: document.createTextNode(""), note: LEFT_OUT }];
    if (!open) { cells = gap ? [words, who, size, "yes"] : [words, "the same", "", ""]; }
    else if (bounded) { cells = [words, who, size, { node: document.createTextNode("yes"), note: LEFT_OUT }]; }
    cells.id = "head-cost";
    return cells;
  }
  function headline(a, b, uses) {
    var mine = byKey(a), theirs = byKey(b);
    var rows = [answer("head-dry", "Lighter without a battery", mine.dry, theirs.dry, false, a, b), cheaper(a, b)];
    QUESTIONS.forEach(function (q) {
      var use = uses.find(function (u) { return u.purposes.indexOf(q[2]) >= 0; });
      if (!use) { return; }
      var f = mine[q[1] + "/" + use.first.pack], other = theirs[q[1] + "/" + use.second.pack];
      rows.push(answer("head-" + slug(q[2]), q[0], f, other, q[3], a, b));
    });
    return table("headline", "In short", ["Which is", "Answer", "By", "Is that sure?"], 2, rows, [2]);
  }

  // Places of both: by key, then what is left by kind, in the order in which the sheets list them.
  function matched(a, b) {
    var theirs = Object.create(null), left = Object.create(null), used = Object.create(null), mine = Object.create(null), pairs = [];
    a.forEach(function (p) { mine[p.key] = true; });
    b.forEach(function (p) {
      theirs[p.key] = p;
      if (mine[p.key]) { used[p.key] = true; } else if (p.kind) { (left[p.kind] = left[p.kind] || []).push(p); }
    });
    a.forEach(function (p) {
      var other = theirs[p.key] || (p.kind && left[p.kind] && left[p.kind].shift()) || null;
      if (other) { used[other.key] = true; }
      pairs.push([p, other]);
    });
    b.forEach(function (p) { if (!used[p.key]) { pairs.push([null, p]); } });
    return pairs;
  }
  function how(a, b) {
    if (!a || !b) { return a ? "dropped" : "added"; }
    return a.shelf !== b.shelf ? "swapped" : a.count === b.count ? "same" : "recounted";
  }
  function places(a, b) {
    var nothing = { value: 0, errors: {} }, grams = { factor: 1000, decimals: 1, shown: "g" }, out = { differ: [], same: [] };
    matched(a.compare.places, b.compare.places).forEach(function (pair) {
      var first = pair[0], second = pair[1], known = first || second, what = how(first, second);
      var key = first && second && first.key !== second.key ? first.key + ", " + second.key : known.key;
      var alike = first && second && first.shelf && first.shelf === second.shelf && first.count === second.count;
      var flies = (first && first.weight) || (second && second.weight);
      var grown = [(first && first.weight) || nothing, (second && second.weight) || nothing];
      if (alike && grown[0].value === null && grown[1].value === null) { grown = [nothing, nothing]; }
      var found = flies ? change(grown[0], grown[1]) : undefined;
      var differs = what !== "same" || found === null || (found !== undefined && Math.abs(found.value) > 5e-6);
      var costs = [first, second].map(function (p) { return p ? p.money : null; }), cost = "";
      if (alike && first.unpriced && second.unpriced) { cost = money(0, a.compare.money, true); }
      else if ((first && first.unpriced) || (second && second.unpriced)) { cost = "unknown"; }
      else if (costs[0] !== null || costs[1] !== null) { cost = money((costs[1] || 0) - (costs[0] || 0), a.compare.money, true); }
      var words = what === "same" && differs ? "different weight" : HOW[what];
      /** @type {Row} */
      var cells = [
        { node: document.createTextNode(key), note: words }, first ? first.name : "", second ? second.name : "",
        found === undefined ? "" : { node: signed(found, grams) }, cost
      ];
      cells.id = "part-" + key.replace(/, /g, "-").replace(/\//g, "-");
      out[differs ? "differ" : "same"].push(cells);
    });
    return out;
  }

  // What it takes: pieces by the shelf, joints by the wires that they heat, hours by usual times.
  function turning(a, b) {
    var one = a.compare.turning, two = b.compare.turning, have = Object.create(null), need = Object.create(null);
    one.pieces.forEach(function (p) { have[p.shelf] = p.count; });
    two.pieces.forEach(function (p) { need[p.shelf] = p.count; });
    var keep = 0, left = 0, bought = 0, minor = 0, open = false, digits = b.compare.money.digits;
    one.pieces.forEach(function (p) {
      var shared = Math.min(p.count, need[p.shelf] || 0);
      keep += shared;
      left += p.count - shared;
    });
    two.pieces.forEach(function (p) {
      var lacks = Math.max(0, p.count - (have[p.shelf] || 0));
      bought += lacks;
      if (lacks && p.bag === null) { open = true; }
      if (lacks && p.bag !== null) { minor += Math.round(p.bag * Math.pow(10, digits) * Math.ceil(lacks / p.sold_in)); }
    });
    var off = Object.create(null), on = Object.create(null), partsOff = 0, partsOn = 0, any = false;
    matched(a.compare.places, b.compare.places).forEach(function (pair) {
      var first = pair[0], second = pair[1], what = how(first, second), flies = (first && first.weight) || (second && second.weight);
      if (what === "same" || what === "recounted") { return; }
      any = true;
      if (first) { off[first.key] = true; partsOff += flies ? 1 : 0; }
      if (second) { on[second.key] = true; partsOn += flies ? 1 : 0; }
    });
    function joined(turn) {
      var found = Object.create(null);
      turn.joins.forEach(function (j) { found[j[0] + " " + j[1]] = j[2]; });
      return found;
    }
    var before = joined(one), after = joined(two);
    function touched(turn, keys) {
      return turn.wires.map(function (wire) {
        var ends = wire[0] + " " + wire[1], part = wire.slice(2).some(function (key) { return keys[key]; });
        return part || before[ends] !== after[ends];
      });
    }
    function heated(turn, wires) {
      return turn.joints.filter(function (joint) { return joint.some(function (i) { return wires[i]; }); }).length;
    }
    var loose = touched(one, off), made = touched(two, on), jointsOff = heated(one, loose), jointsOn = heated(two, made);
    any = any || loose.concat(made).some(Boolean);
    var again = any && two.again ? two.again : { gates: 0, powered: 0 }, times = two.times;
    var seconds = times.joint * (jointsOff + jointsOn) + times.step * (partsOff + partsOn) + times.gate * again.gates + times.powered * again.powered;
    function hours(share) { return rounded(seconds * share / 3600, 1); }
    var words = hours(1 - times.spread) + " to " + hours(1 + times.spread) + "\u00a0h";
    if (!two.again) { words = "not known: the order of work of " + b.build + " does not stand"; }
    var cost = money(minor, { digits: digits, currency: b.compare.money.currency, at_least: open });
    var rows = [
      ["cost", "Money for what has to be bought", cost], ["buy", "Pieces to buy", String(bought)],
      ["keep", "Pieces that carry over", String(keep)], ["left", "Pieces left over", String(left)],
      ["off", "Joints to unsolder", String(jointsOff)], ["on", "Joints to solder", String(jointsOn)],
      ["parts", "Parts to take off, and to put on", partsOff + ", " + partsOn],
      ["gates", "Gates to go through again", String(again.gates)], ["hours", "Hours of work", words]
    ].map(function (line) {
      /** @type {Row} */
      var cells = line.slice(1);
      cells.id = "turn-" + line[0];
      return cells;
    });
    return table("turn", "From " + a.build + " to " + b.build, ["What it takes", "Amount"], 1, rows);
  }

  function draw(area, a, b) {
    var heads = ["Figure", a.build, b.build, "Difference"], placeHeads = ["Place", a.build, b.build, "Grams", "Money"];
    var found = places(a, b), parts = [], uses = paired(a, b);
    var flight = uses.map(function (use) { return flightTable(a, b, use, heads); }), notes = a.compare.notes.concat(b.compare.notes);
    parts.push(found.differ.length ? table("parts-differ", "Parts that differ", placeHeads, 3, found.differ) : make("p", "", "No part differs."));
    if (found.same.length) {
      var fold = make("details", "alike");
      fold.appendChild(make("summary", "", found.same.length + " places that are the same"));
      fold.appendChild(table("parts-same", "The same in both", placeHeads, 3, found.same));
      parts.push(fold);
    }
    var one = a.compare.money, two = b.compare.money;
    /** @type {Row} */
    var cost = ["Parts of the build", money(one.minor, one), money(two.minor, two)];
    cost.push({ node: document.createTextNode(money(two.minor - one.minor, one, true)), note: one.at_least || two.at_least ? LEFT_OUT : "" });
    cost.id = "cost";
    if (notes.length) {
      var list = make("ul"), lead = make("p");
      notes.forEach(function (words) { list.appendChild(make("li", "", words)); });
      lead.appendChild(make("strong", "", "Not compared by this"));
      flight.push(lead, list);
    }
    var more = make("p", "quiet", "Wiring, order of work, setup and findings are not compared here: each sheet has its own.");
    area.textContent = "";
    area.appendChild(section("short", "In short", [headline(a, b, uses)]));
    area.appendChild(section("parts", "Parts", parts));
    area.appendChild(section("weight", "Weight", [table("figures-weight", "Weight", heads, 1, weights(a, b, uses))]));
    area.appendChild(section("money", "Money", [table("figures-money", "Money", heads, 1, [cost])]));
    if (flight.length) { area.appendChild(section("flight", "Flight", flight)); }
    area.appendChild(section("turning", "What it takes to turn " + a.build + " into " + b.build, [turning(a, b), more]));
    area.dataset.pair = a.build + "+" + b.build;
  }

  window.benchleafSheet = function (name, sheet) {
    sheets[name] = sheet;
    (waiting[name] || []).forEach(function (go) { go(); });
    delete waiting[name];
  };
  function fetched(name, go, fail) {
    if (sheets[name]) { go(); return; }
    if (waiting[name]) { waiting[name].push(go); return; }
    waiting[name] = [go];
    var script = document.createElement("script");
    script.src = "../../" + encodeURIComponent(name) + "/sheet.js";
    script.onerror = function () { delete waiting[name]; fail(name); };
    document.head.appendChild(script);
  }

  var pick = document.getElementById("pick"), names = Object.create(null), retired = Object.create(null), selects = [];
  /** @type {NodeListOf<HTMLElement>} */
  var lines = pick.querySelectorAll("tr[data-name]");
  lines.forEach(function (line) {
    names[line.dataset.name] = line.dataset.title;
    if (line.dataset.retired) { retired[line.dataset.name] = line.dataset.title + ": " + line.dataset.retired; }
  });
  if (!Object.keys(names).length) { return; }
  pick.querySelectorAll("p, .table").forEach(function (node) { node.remove(); });
  var area = make("div"), state = make("p", "quiet");
  state.setAttribute("role", "status");
  ["First", "Second"].forEach(function (words) {
    var label = make("label", "filter", words + " "), select = make("select");
    Object.keys(names).forEach(function (name) {
      var option = make("option", "", names[name]);
      option.value = name;
      select.appendChild(option);
    });
    select.addEventListener("change", function () { location.hash = selects[0].value + "+" + selects[1].value; });
    label.appendChild(select);
    pick.appendChild(label);
    selects.push(select);
  });
  pick.appendChild(state);
  pick.parentNode.appendChild(area);
  // The pair that the address names: behind #, as this page writes it, or as ?a=...&b=...
  function asked() {
    var query = new URLSearchParams(location.search), behind = location.hash.slice(1);
    if (!behind && (query.get("a") || query.get("b"))) { return [query.get("a") || "", query.get("b") || ""]; }
    try { return decodeURIComponent(behind).split("+"); } catch (error) { return [behind]; }
  }
  function show() {
    var wanted = asked(), all = Object.keys(names), turn = ++sequence;
    // An address that names no pair (a link to a heading of this page, say) leaves what stands there.
    if (wanted.length !== 2 && area.dataset.pair) { return; }
    var a = names[wanted[0]] ? wanted[0] : all[0], b = names[wanted[1]] ? wanted[1] : all[1] || all[0];
    var unknown = wanted.filter(function (name) { return name && !names[name]; });
    var missing = unknown.length && wanted.length === 2 ? "There is no build " + unknown.join(", and none ") + " here. " : "";
    selects[0].value = a;
    selects[1].value = b;
    state.textContent = "Reading both sheets.";
    function fail(name) { if (turn === sequence) { state.textContent = "The sheet of " + name + " could not be read."; area.textContent = ""; } }
    fetched(a, function () {
      fetched(b, function () {
        if (turn !== sequence) { return; }
        draw(area, sheets[a], sheets[b]);
        [b, a].forEach(function (name) { if (retired[name]) { area.prepend(make("p", "banner", retired[name])); } });
        state.textContent = missing + names[a] + " beside " + names[b] + ". The address of this page names the pair.";
      }, fail);
    }, fail);
  }
  window.addEventListener("hashchange", show);
  show();
})();
