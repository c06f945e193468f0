// The preview's bar: asks for news by loading a script (the pages' policy allows no other way), shows the findings
// that the terminal shows, and loads the page again when it has become another. Never part of a published site.
(function () {
  "use strict";
  var own = document.currentScript.dataset.mark;
  var seen = "";
  var waiting = null;
  var bar = document.createElement("aside");
  bar.id = "benchleaf-preview";
  bar.setAttribute("aria-label", "Preview");
  var fold = document.createElement("details");
  var head = document.createElement("summary");
  var text = document.createElement("pre");
  head.setAttribute("role", "status");
  text.tabIndex = 0;
  fold.append(head, text);
  bar.append(fold);

  function show(words, long, bad) {
    head.textContent = words;
    text.textContent = long;
    text.hidden = !long;
    bar.classList.toggle("bad", bad);
    fold.open = bad;
    if (!bar.isConnected) { document.body.append(bar); }
  }
  function ask() {
    if (waiting || document.hidden) { return; }
    var script = document.createElement("script");
    waiting = script;
    script.src = "/-/preview/news.js?page=" + encodeURIComponent(location.pathname) + "&seen=" + seen + "&own=" + own;
    script.onload = function () { done(script, 10); };
    script.onerror = function () {
      show("The preview has ended or cannot be reached.", "", true);
      seen = "";
      done(script, 1000);
    };
    document.head.append(script);
  }
  function done(script, pause) {
    script.remove();
    waiting = null;
    setTimeout(ask, pause);
  }
  window.benchleafPreview = function (news) {
    if (news.page !== own) { location.reload(); return; }
    if (news.seen !== seen) { show(news.head, news.text, news.bad); }
    seen = news.seen;
  };
  document.addEventListener("visibilitychange", ask);
  if (document.readyState === "complete") { ask(); } else { addEventListener("load", ask); }
})();
