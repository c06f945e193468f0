// Over https a worker keeps this page for where there is no network.
(function () {
"use strict";
const { W, byId } = bench, all = navigator.serviceWorker;
/** @param {string} text */
const say = text => { byId("away").textContent = text; };
const kept = () => say(W.away);
if (location.protocol === "file:") { return; }
if (!all) { say(W.http); return; }
let before = Boolean(all.controller);
if (before) { kept(); }
all.addEventListener("controllerchange", () => {
  if (before) { say(W.newer); } else { kept(); }
  before = true;
});
all.register("away.js").then(r => addEventListener("online", () => r.update()), () => {});
const link = document.createElement("link");
link.rel = "manifest"; link.href = "away.webmanifest";
document.head.append(link);
})();
