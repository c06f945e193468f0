// What does not work: follows answers through what the publish has worked out. It decides nothing.
(function (whole) {
"use strict";
// Every cause below a place.
function left(tree) { return tree.length === 1 ? tree[0] : left(tree[1]).concat(left(tree[2])); }

whole.benchTrouble = (data, make, button) => {
  const panel = make("section", "", "at-trouble"), words = make("p"), answers = make("div", "", "at-tools"), causes = make("ul"), way = [];
  panel.setAttribute("aria-label", "This does not work");
  panel.hidden = true;
  words.setAttribute("role", "status");
  panel.append(make("h2", "This does not work"), make("p", data.first), words, causes, answers);

  function tell(list) {
    causes.textContent = "";
    list.forEach(i => { causes.append(make("li", data.causes[i])); });
  }
  function ask(tree, step) {
    answers.textContent = "";
    tell([]);
    if (tree.length === 1) {
      words.textContent = tree[0].length === 1 ? "This is left, with the power off:" : "No measurement here tells these apart. Look at each, with the power off:";
      tell(tree[0]);
    } else {
      words.textContent = "Reading " + step + ". " + data.readings[tree[0]];
      answers.append(button("Yes", () => { go(tree, tree[1]); }), button("No", () => { go(tree, tree[2]); }), button("Cannot tell", () => {
        words.textContent = "These are left. Take the power off and look at each:";
        tell(left(tree));
      }));
    }
    answers.append(button("One back", () => { if (way.length) { ask(way.pop(), way.length + 1); } else { start(); } }));
  }
  function go(from, to) { way.push(from); ask(to, way.length + 1); }
  function start() {
    way.length = 0;
    words.textContent = "What do you see?";
    answers.textContent = "";
    tell([]);
    data.symptoms.forEach(s => { answers.append(button(s.seen, () => { ask(s.tree, 1); })); });
  }
  start();
  return { panel: panel, start: start };
};
})(window);
