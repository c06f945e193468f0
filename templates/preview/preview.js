// The preview's bar: asks for news by loading a script (the pages' policy allows no other way), shows the findings
// that the terminal shows, and loads the page again when it has become another. A chapter is shown again at the place
// that was edited. Never part of a published site.
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
  var WAS = "benchleaf-preview";
  var CHAPTER = /\/guide\/[^/]+\/(index\.html)?$/;
  function pieces() { return Array.from(document.querySelectorAll("main :is(h1, h2, h3, h4, h5, p, li, tr, pre, figure)")); }
  function said(piece) {
    var picture = piece.querySelector("img");
    return piece.tagName + piece.textContent + (picture ? picture.getAttribute("src") + picture.alt : "");
  }
  function remember() {
    if (!CHAPTER.test(location.pathname)) { return; }
    var was = { page: location.pathname, top: scrollY, said: pieces().map(said) };
    try {
      sessionStorage.setItem(WAS, JSON.stringify(was));
      history.scrollRestoration = "manual"; // else the browser goes back to where it was
    } catch (full) { sessionStorage.removeItem(WAS); }
  }
  function showEdited() {
    var was = JSON.parse(sessionStorage.getItem(WAS) || "null");
    sessionStorage.removeItem(WAS);
    setTimeout(function () { history.scrollRestoration = "auto"; }, 1000); // not before the browser would scroll
    if (!was || was.page !== location.pathname) { return; }
    scrollTo(0, was.top);
    var now = pieces();
    var words = now.map(said);
    var at = 0;
    while (at < words.length && words[at] === was.said[at]) { at += 1; }
    if (!now.length || (at === words.length && at === was.said.length)) { return; }
    var edited = now[Math.min(at, now.length - 1)];
    edited.classList.add("benchleaf-edited");
    var box = edited.getBoundingClientRect();
    if (box.top < 0 || box.bottom > innerHeight * 0.8) { edited.scrollIntoView({ block: "center" }); }
  }
  window.benchleafPreview = function (news) {
    if (news.page !== own) { remember(); location.reload(); return; }
    if (news.seen !== seen) { show(news.head, news.text, news.bad); }
    seen = news.seen;
  };
  document.addEventListener("visibilitychange", ask);
  addEventListener("load", showEdited);
  if (document.readyState === "complete") { ask(); } else { addEventListener("load", ask); }
})();
