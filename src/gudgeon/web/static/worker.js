// Keeps the pages and files that this tablet has seen, for when the network is away. Entries never pass through here:
// they have a queue of their own. A newer version of the bench brings a newer worker, which lets the older one's copies go.
"use strict";
const KEPT = "gudgeon-" + self.GUDGEON_VERSION;
const PATIENCE = 4000;
const MOST = 80;
const ours = (request) => request.method === "GET" && new URL(request.url).origin === location.origin;
const isFile = (request) => new URL(request.url).pathname.startsWith("/static/");

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name !== KEPT && name.startsWith("gudgeon-")) await bring(name);
  await self.clients.claim();
})()));

// Pages that an older version kept stay usable until they are seen anew; its files go, or page and script might not fit.
const bring = async (name) => {
  const old = await caches.open(name), kept = await caches.open(KEPT);
  for (const request of await old.keys()) if (!isFile(request) && !(await kept.match(request))) await kept.put(request, await old.match(request));
  for (const request of await old.keys()) if (isFile(request) && !(await kept.match(request))) {
    const fresh = await fetch(request).catch(() => null);
    await kept.put(request, fresh?.ok ? fresh : await old.match(request));
  }
  await caches.delete(name);
};

const keep = async (request, answer) => {
  const kept = await caches.open(KEPT);
  await kept.put(request, answer);
  const all = await kept.keys();
  const pages = all.filter((other) => !isFile(other));
  for (const old of pages.slice(0, Math.max(0, pages.length - MOST))) await kept.delete(old);
};
const fromNetwork = async (request) => {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), PATIENCE);
  try { return await fetch(request, { signal: stop.signal }); } finally { clearTimeout(timer); }
};
const answer = async (request) => {
  try {
    const fresh = await fromNetwork(request);
    if (fresh.redirected && new URL(fresh.url).pathname === "/enter") { await caches.delete(KEPT); return fresh; }
    if (fresh.ok && !fresh.redirected) await keep(request, fresh.clone());
    return fresh;
  } catch (wrong) {
    const kept = await caches.match(request, { ignoreVary: true });
    if (kept) return kept;
    throw wrong;
  }
};
self.addEventListener("fetch", (event) => {
  if (ours(event.request) && (event.request.mode === "navigate" || isFile(event.request))) event.respondWith(answer(event.request));
});
