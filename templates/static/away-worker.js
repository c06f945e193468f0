// A service worker: keeps one build's page at the bench, and what it uses, for where there is no network.
// The file beside the page says which digest: one cache a digest, older ones go. The network comes first, always.
"use strict";
const worker = /** @type {ServiceWorkerGlobalScope & { DIGEST: string }} */ (/** @type {unknown} */ (self)), scope = worker.registration.scope;
const cacheName = "benchleaf-away " + scope + " " + worker.DIGEST;
/** @param {string} name */
const ours = name => name.startsWith("benchleaf-away " + scope + " ");
const USES = /(?:src|href)="([^"#?]+\.(?:css|js|svg|png|jpg|webp))"/g;
// Asked of the network even where the browser holds a copy that it would take for fresh.
/** @param {string | Request} address */
const fresh = address => fetch(address, { cache: "no-cache" });

// Puts a file into the cache, and of a page its styles, scripts and pictures. Fonts stand in the styles.
/** @type {(cache: Cache, address: string, seen: Set<string>) => Promise<void>} */
async function keep(cache, address, seen) {
  if (seen.has(address) || !address.startsWith(worker.location.origin + "/")) { return; }
  seen.add(address);
  const answer = await fresh(address);
  if (!answer.ok) { throw new Error(address); }
  const copy = answer.clone();
  await cache.put(address, answer);
  if (!/text\/html/.test(copy.headers.get("content-type") || "")) { return; }
  const text = await copy.text(), more = [];
  for (const [, one] of text.matchAll(USES)) { more.push(new URL(one, address).href); }
  await Promise.all(more.map(a => keep(cache, a, seen)));
}
/** @param {string} but */
async function forget(but) {
  for (const name of await caches.keys()) { if (ours(name) && name !== but) { await caches.delete(name); } }
}
// The site has this page no longer: nothing of it is kept, and this worker goes.
async function leave() {
  await forget("");
  await worker.registration.unregister();
}
/** @param {Request} request */
async function answer(request) {
  const kept = { ignoreSearch: true };
  let found = null;
  try { found = await fresh(request); } catch (e) { return (await caches.match(request, kept)) || Response.error(); }
  if (request.mode === "navigate" && (found.status === 404 || found.status === 410)) { await leave(); return found; }
  if (found.status === 200 && await caches.has(cacheName)) { // else a newer worker has taken over meanwhile
    const cache = await caches.open(cacheName);
    await cache.put(request, found.clone()).catch(() => { /* a full device: the page goes on */ });
  }
  return found;
}
worker.addEventListener("install", event => {
  const all = caches.open(cacheName).then(cache => keep(cache, scope, new Set()));
  event.waitUntil(all.then(() => worker.skipWaiting()));
});
worker.addEventListener("activate", event => { event.waitUntil(forget(cacheName).then(() => worker.clients.claim())); });
worker.addEventListener("fetch", event => {
  if (event.request.method === "GET" && event.request.url.startsWith(worker.location.origin + "/")) { event.respondWith(answer(event.request)); }
});
