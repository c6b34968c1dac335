// @ts-check
/** Keeps the page itself, so that it opens without a network. Answers of the service are not its business: the page keeps those it needs. */
const Kept = 'page-1';
const Files = [
  './', 'style.css', 'icon.svg', 'icon-192.png', 'icon-512.png', 'icon-maskable-512.png', 'app.webmanifest', 'main.js', 'api.js', 'kept.js', 'take.html', 'take.css',
  ...['axis', 'elements', 'light-states', 'plate', 'ridge', 'shares', 'stair', 'take', 'windows'].map(name => `draw/${name}.js`),
  ...['bytes', 'chart', 'clean', 'clock', 'describe', 'forecast', 'ground', 'history', 'link', 'outline', 'painter', 'patch-map', 'patches', 'plan', 'say', 'scales', 'sight', 'sphere', 'stair', 'starts',
    'stretches', 'summits', 'take', 'take-files', 'tones'].map(name => `think/${name}.js`),
  ...['along', 'bar', 'drag', 'fields', 'grids', 'kept', 'map', 'notes', 'plan-form', 'plate', 'print', 'season', 'span', 'table', 'take', 'take-sheet'].map(name => `views/${name}.js`),
];
const worker = /** @type {any} */ (self);

worker.addEventListener('install', (/** @type {any} */ event) => {
  worker.skipWaiting();
  event.waitUntil(caches.open(Kept).then(cache => cache.addAll(Files)));
});

worker.addEventListener('activate', (/** @type {any} */ event) => event.waitUntil(worker.clients.claim()));

// The service first, so that a newer page is never held back by an older one.
worker.addEventListener('fetch', (/** @type {any} */ event) => {
  const { pathname } = new URL(event.request.url);
  if (event.request.method === 'GET' && !pathname.startsWith('/api/')) event.respondWith(fetch(event.request).catch(() => caches.match(event.request, { ignoreSearch: true })));
});
