// Keeps the page for when there is no network: what is kept answers at once. A new version is fetched whole before it is used.
const VERSION = "@VERSION@";
const FILES = "@FILES@";

addEventListener("install", (event) => {
  const fresh = FILES.map((file) => new Request(file, { cache: "no-cache" }));
  event.waitUntil(caches.open(VERSION).then((cache) => cache.addAll(fresh)).then(() => skipWaiting()));
});

addEventListener("activate", (event) => {
  const old = caches.keys().then((names) => names.filter((name) => name.startsWith("toeline-") && name !== VERSION));
  event.waitUntil(old.then((names) => Promise.all(names.map((name) => caches.delete(name)))).then(() => clients.claim()));
});

addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== location.origin) return;
  const kept = caches.open(VERSION).then((cache) => cache.match(request, { ignoreSearch: true }));
  event.respondWith(kept.then((reply) => reply ?? fetch(request)));
});
