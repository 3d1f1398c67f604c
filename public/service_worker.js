// Keeps Bleachfield working where there is no network.
//
// Every file of the app is fetched once, checked against the hash it was built
// with, and answered from this device from then on. Files that the first screen
// needs are fetched before this worker takes over ("first"); the rest are
// fetched quietly afterwards, when the page asks ("quiet"). Nothing that a
// person entered is ever kept here: that is in IndexedDB.

// Written by the build (app/xtask/src/post_build.rs): {path, hash, when} of each file,
// the path relative to the folder of this script.
const FILES = 'FILES';

// The folder that the app is served from. Caches belong to the origin: those of an app in a
// folder have its name.
const BASE = new URL('./', self.location);
const OF_FOLDER = BASE.pathname === '/' ? '' : `@${BASE.pathname}`;
const CACHE = `bleachfield-files${OF_FOLDER}`;
const SHARED = `bleachfield-shared${OF_FOLDER}`;
const DEMO = `bleachfield-demo${OF_FOLDER}`;
const SHELL = 'index.html';
const DEMO_FOLDER = 'demo/';
const SHARE_TARGET = 'share';

self.addEventListener('install', (event) => event.waitUntil(fetchAll('first')));
self.addEventListener('activate', (event) => event.waitUntil(deleteStale()));
self.addEventListener('message', obey);
self.addEventListener('fetch', answer);
self.addEventListener('notificationclick', (event) => event.waitUntil(toTheSink(event)));

// A new version waits until the page says that no bath is running.
function obey(event) {
  if (event.data === 'skip-waiting') self.skipWaiting();
  if (event.data === 'fetch-quiet') event.waitUntil(fetchAll('quiet'));
}

// A cue's notice was pressed: to the page that is open, else to a new one.
async function toTheSink(event) {
  event.notification.close();
  const [open] = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  return open ? open.focus() : self.clients.openWindow(new URL('sink', BASE));
}

function answer(event) {
  const url = new URL(event.request.url);
  if (url.origin !== BASE.origin || !url.pathname.startsWith(BASE.pathname)) return;
  const path = url.pathname.slice(BASE.pathname.length);
  if (event.request.method === 'POST' && path === SHARE_TARGET) {
    event.respondWith(takeShared(event));
  } else if (event.request.method !== 'GET') {
    return;
  } else if (event.request.mode === 'navigate' && (path === SHELL || !looksLikeFile(path))) {
    event.respondWith(shell());
  } else if (fileAt(path)) {
    event.respondWith(cacheOrNetwork(fileAt(path)));
  } else if (path.startsWith(DEMO_FOLDER)) {
    event.respondWith(networkOrKept(event.request));
  }
}

// One after another: each page that opens asks, and two at once would fetch all of it twice.
let fetched = Promise.resolve();
function fetchAll(when) {
  const next = () => fetchMissing(when);
  return (fetched = fetched.then(next, next));
}

// One at a time, so that a weak signal is not shared; any failure fails the lot, and what
// did arrive is there for the next try.
async function fetchMissing(when) {
  const cache = await caches.open(CACHE);
  for (const file of FILES) {
    if (file.when !== when || (await cache.match(keyOf(file)))) continue;
    await cache.put(keyOf(file), await fetchChecked(file));
  }
}

// Past the HTTP cache, and only the very bytes that were built: a name can stay
// while its bytes change, and an app half old and half new must never be kept.
async function fetchChecked(file) {
  const response = await fetch(new URL(file.path, BASE), { cache: 'reload', integrity: file.hash });
  if (response.status >= 400) throw new Error(`${file.path}: ${response.status}`);
  return response.redirected ? withoutRedirect(response) : response;
}

// A navigation refuses a response that remembers a redirect.
async function withoutRedirect(response) {
  return new Response(await response.blob(), { headers: response.headers });
}

// The page, at whatever address below the folder: it names the folder, since the addresses in
// it are relative.
async function shell() {
  const response = await cacheOrNetwork(fileAt(SHELL));
  const headers = new Headers(response.headers);
  ['content-encoding', 'content-length'].forEach((name) => headers.delete(name));
  const base = `<base href="${BASE.pathname.replaceAll('&', '&amp;')}">`;
  const page = (await response.text()).replace('<meta', () => `${base}<meta`);
  return new Response(page, { headers });
}

async function cacheOrNetwork(file) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(keyOf(file));
  if (kept) return kept;
  const response = await fetchChecked(file);
  await cache.put(keyOf(file), response.clone());
  return response;
}

// The demo studio is large and no part of the app: kept once somebody has opened it.
async function networkOrKept(request) {
  const cache = await caches.open(DEMO);
  try {
    const response = await fetch(request);
    const page = (response.headers.get('content-type') || '').startsWith('text/html');
    if (response.ok && !page) await cache.put(request, response.clone());
    return response;
  } catch (error) {
    const kept = await cache.match(request);
    if (kept) return kept;
    throw error;
  }
}

// Removes files of earlier versions, and caches of ours that are no longer used.
async function deleteStale() {
  for (const name of await caches.keys()) {
    const folder = name.includes('@') ? name.slice(name.indexOf('@')) : '';
    if (name.startsWith('bleachfield-') && folder === OF_FOLDER && ![CACHE, SHARED, DEMO].includes(name)) {
      await caches.delete(name);
    }
  }
  const cache = await caches.open(CACHE);
  const wanted = new Set(FILES.map(keyOf));
  for (const request of await cache.keys()) {
    if (!wanted.has(request.url)) await cache.delete(request);
  }
  await self.clients.claim();
}

// A file shared to Bleachfield from another app: kept until the page takes it
// (app/src/platform/incoming_file.rs), since the page may have to start first.
async function takeShared(event) {
  const form = await event.request.formData();
  const shared = await caches.open(SHARED);
  for (const file of form.getAll('file')) {
    const name = encodeURIComponent(file.name || 'shared');
    await shared.put(new URL(`shared/${name}`, BASE), new Response(await file.arrayBuffer()));
  }
  return Response.redirect(new URL('?arrived=shared', BASE), 303);
}

function fileAt(path) {
  const wanted = path === '' ? SHELL : path;
  return FILES.find((file) => file.path === wanted);
}

// The demo studio and other real files are not pages of the app.
function looksLikeFile(path) {
  return /\.[a-z0-9]+$/i.test(path);
}

function keyOf(file) {
  return new URL(`${file.path}?hash=${encodeURIComponent(file.hash)}`, BASE).href;
}
