// What does not work: by eye first, then as the publish has worked it out. It follows answers and decides nothing.
"use strict";
{
const { W, byId, make, button } = bench, data = bench.data.trouble;
// Every cause below a place.
/** @type {(tree: FaultTree) => number[]} */
function left(tree) { return tree.length === 1 ? tree[0] : left(tree[1]).concat(left(tree[2])); }

bench.trouble = () => {
  const words = byId("at-asked"), causes = byId("at-causes"), answers = byId("at-answers");
  /** @type {(() => void)[]} */
  const way = [];
  byId("at-first").textContent = data.first;
  // Words, causes by their numbers, and answers with the view that each leads to.
  /** @type {(text: string, list: number[], choices: [string, () => void][]) => void} */
  function show(text, list, choices) {
    const within = answers.contains(document.activeElement);
    words.textContent = text;
    causes.textContent = answers.textContent = "";
    list.forEach(i => causes.append(make("li", data.causes[i])));
    choices.forEach(([label, view]) => { answers.append(button(label, () => { way.push(view); view(); })); });
    if (way.length) { answers.append(button("One back", () => { way.pop(); (way[way.length - 1] || start)(); })); }
    if (within) { words.focus(); }
  }
  /** @type {(tree: FaultTree, step: number) => void} */
  function ask(tree, step) {
    if (tree.length === 3) {
      const [first, yes, no] = tree, all = () => show(W.left, left(tree), []);
      show("Reading " + step + ". " + data.readings[first], [], [["Yes", () => ask(yes, step + 1)], ["No", () => ask(no, step + 1)], ["Cannot tell", all]]);
      return;
    }
    show(tree[0].length === 1 ? W.mend : W.alike, tree[0], []);
  }
  // What is seen is the cause. Where nothing is seen every cause stays, for the meter.
  /** @param {FaultSymptom} symptom */
  function look(symptom) {
    /** @type {[string, () => void][]} */
    const seen = symptom.look.map(([text, cause]) => [text, () => ask([[cause]], 0)]);
    show(W.look, [], seen.concat([[W.unseen, () => ask(symptom.tree, 1)]]));
  }
  function start() {
    way.length = 0;
    show(W.ask, [], data.symptoms.map(s => [s.seen, () => look(s)]));
  }
  start();
  return start;
};
}
