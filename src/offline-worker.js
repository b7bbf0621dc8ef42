/**
 * The app without a network: every file of one build, kept when the page is first opened and answered from there. A
 * newer build waits beside it until it is asked for, and the files of the one before stay for tabs that still run it.
 * The two constants are filled in when the app is built.
 */
const VERSION = 'VERSION';
const FILES = ['FILES'];
const PREFIX = 'underpaper ';
const CACHE = PREFIX + VERSION;
/** A file is known by its path alone: modules are asked for in another mode than the one they were kept in. */
const ANY = { ignoreSearch: true, ignoreVary: true };

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(CACHE)
      .then((cache) => cache.addAll(FILES.map((file) => new Request(file, { cache: 'reload' })))),
  );
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches.keys().then((names) => {
      const others = names.filter((name) => name.startsWith(PREFIX) && name !== CACHE);
      return Promise.all(others.slice(0, -1).map((name) => caches.delete(name)));
    }),
  );
});

self.addEventListener('message', (event) => {
  if (event.data === 'take over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || !request.url.startsWith(self.registration.scope)) return;
  event.respondWith(answer(request));
});

async function answer(request) {
  const cache = await caches.open(CACHE);
  const known =
    request.mode === 'navigate'
      ? await cache.match('./')
      : ((await cache.match(request, ANY)) ?? (await caches.match(request, ANY)));
  return known ?? fetch(request);
}
