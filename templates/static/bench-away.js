// Over https a worker keeps this page for where there is no network.
(function () {
"use strict";
const all = navigator.serviceWorker, say = text => { document.getElementById("away").textContent = text; };
const kept = () => say("This page is kept for where there is no network.");
if (location.protocol === "file:") { return; }
if (!all) { say("This address is not https: the page is not kept here and needs its network."); return; }
let before = all.controller;
if (before) { kept(); }
all.addEventListener("controllerchange", () => {
  if (before) { say("There is a newer revision of this page: load it again."); } else { kept(); }
  before = true;
});
all.register("away.js").then(r => addEventListener("online", () => r.update()), () => {});
const link = document.createElement("link");
link.rel = "manifest"; link.href = "away.webmanifest";
document.head.append(link);
})();
