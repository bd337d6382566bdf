/* Keeps pages on the reader's device: the frame of the site always, each pattern she chooses, and
   the last pages she has read.

   One build of the site is one edition. A worker belongs to one edition, has one cache for it, and
   puts nothing into it whose digest is not that edition's: two editions are never mixed. A newer
   worker brings everything that is kept, whole, into a cache of its own, and waits until the reader
   says so or has closed the site. What was merely read is not brought over to a newer edition.
   While nothing was chosen to be kept, the newest is read: pages come from the cache only as long
   as the server has no other edition, or does not say so in time. */
"use strict";

/* {edition, files: [[path, digest, bytes]], groups: {name: {title, version, files: [index]}}};
   written in when the site is built. As long as it is not, the worker takes itself away. */
const EDITION = null;

const ROOT = new URL("./", self.location);
const CACHES = `walebook ${ROOT.pathname} `;
const NAME = EDITION && CACHES + EDITION.edition;
const RECORD = new URL("?what-is-kept", ROOT).href;
const AT_ONCE = 6; // files fetched together
const MOST_READ = 4e6; // bytes of what was merely read; the oldest goes first
const IN_TIME = 300; // ms in which a server has to say that it has another edition
const FILES = new Map(EDITION ? EDITION.files.map((file) => [file[0], file]) : []);

class Refusal extends Error {}

const address = (path) => new URL(path.split("/").map(encodeURIComponent).join("/"), ROOT).href;
const filesOf = (name) => EDITION.groups[name].files.map((index) => EDITION.files[index]);

function pathOf(url) {
  const { origin, pathname } = new URL(url);
  if (origin !== ROOT.origin || !pathname.startsWith(ROOT.pathname)) return null;
  const path = decodeURIComponent(pathname.slice(ROOT.pathname.length));
  return path === "" || path.endsWith("/") ? `${path}index.html` : path;
}

async function digest(body) {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("").slice(0, 20);
}

/* The record of what is kept lies in the edition's own cache, so that it is never another's. */
async function record(cache) {
  const found = await cache.match(RECORD);
  return found ? found.json() : { kept: [], gone: [], lost: [] };
}

const write = (cache, data) => cache.put(RECORD, new Response(JSON.stringify(data)));

async function olderCaches() {
  const names = (await caches.keys()).filter((name) => name.startsWith(CACHES) && name !== NAME);
  return Promise.all(names.map((name) => caches.open(name)));
}

/* A file that did not change is taken from the older edition: nothing is fetched for it. */
async function bodyOf([path, wanted], older) {
  for (const cache of older) {
    const found = await cache.match(address(path));
    const body = found && await found.arrayBuffer();
    if (body && await digest(body) === wanted) return [body, found.headers.get("content-type")];
  }
  const response = await fetch(address(path), { cache: "no-cache" });
  if (!response.ok) throw new Refusal("missing");
  const body = await response.arrayBuffer();
  if (await digest(body) !== wanted) throw new Refusal("changed");
  return [body, response.headers.get("content-type")];
}

async function put(cache, path, body, type) {
  await cache.put(address(path), new Response(body, { headers: type ? { "content-type": type } : {} }));
}

async function bringFile(cache, file, older, brought) {
  if (await cache.match(address(file[0]))) return;
  await put(cache, file[0], ...await bodyOf(file, older));
  brought.push(file);
}

/* All files of a group, or none that was not there before. */
async function bring(cache, name, older) {
  const files = filesOf(name);
  const brought = [];
  for (let at = 0; at < files.length; at += AT_ONCE) {
    const some = files.slice(at, at + AT_ONCE);
    const done = await Promise.allSettled(some.map((file) => bringFile(cache, file, older, brought)));
    const failed = done.find((each) => each.status === "rejected");
    if (!failed) continue;
    await forget(cache, brought);
    throw failed.reason;
  }
}

const forget = (cache, files) => Promise.all(files.map((file) => cache.delete(address(file[0]))));

/* What lies in the cache and belongs to nothing that is kept: pages that were read, the oldest first. */
async function lastRead(cache, kept) {
  const used = new Set(["frame", ...kept].flatMap(filesOf));
  const held = (await cache.keys()).map((request) => FILES.get(pathOf(request.url)));
  return held.filter((file) => file && !used.has(file));
}

const sizeOf = (files) => files.reduce((sum, file) => sum + file[2], 0);

/* Remembers a file that was read, if it is of this edition and there is room. */
async function remember(path, read, type) {
  const file = FILES.get(path);
  const body = await read;
  if (await digest(body) !== file[1]) return;
  const cache = await caches.open(NAME);
  await put(cache, path, body, type);
  const all = await lastRead(cache, (await record(cache)).kept);
  while (sizeOf(all) > MOST_READ) await forget(cache, all.splice(0, 1));
}

const reason = (fault) =>
  fault instanceof Refusal ? fault.message
    : fault.name === "QuotaExceededError" ? "full"
      : fault instanceof TypeError ? "unreachable" : "refused";

/* -- Editions ---------------------------------------------------------------------------------- */

async function install() {
  const older = await olderCaches();
  const before = (await Promise.all(older.map(record))).flatMap((each) => each.kept);
  const wanted = [...new Set(before)].filter((name) => EDITION.groups[name]);
  const gone = [...new Set(before)].filter((name) => !EDITION.groups[name]);
  try {
    const cache = await caches.open(NAME);
    for (const name of ["frame", ...wanted]) await bring(cache, name, older);
    await write(cache, { kept: wanted, gone, lost: [] });
  } catch (fault) {
    await caches.delete(NAME);
    throw fault;
  }
  // Only where there is none before it: one that is put aside in mid-answer leaves its page waiting.
  if (!self.registration.active) await self.skipWaiting();
}

/* What was kept between the installing of this edition and now is brought as well, or told of. */
async function activate() {
  const older = await olderCaches();
  const cache = await caches.open(NAME);
  const now = await record(cache);
  const before = (await Promise.all(older.map(record))).flatMap((each) => each.kept);
  for (const name of new Set(before)) {
    if (now.kept.includes(name) || !EDITION.groups[name]) continue;
    await bring(cache, name, older).then(() => now.kept.push(name), () => now.lost.push(name));
  }
  await write(cache, now);
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(CACHES) && name !== NAME)
    .map((name) => caches.delete(name)));
}

async function leave() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(CACHES)).map((name) => caches.delete(name)));
  await self.registration.unregister();
}

self.addEventListener("install", (event) => {
  event.waitUntil(EDITION ? install() : self.skipWaiting());
});

self.addEventListener("activate", (event) => {
  event.waitUntil(EDITION ? activate() : leave());
});

/* -- Pages ------------------------------------------------------------------------------------- */

function notice(title, ...paragraphs) {
  const text = paragraphs.map((each) => `<p>${each}</p>`).join("");
  return new Response(
    `<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width,initial-scale=1"><title>${title}</title>
<style>body{margin:2rem;font:1.25rem/1.6 sans-serif;color:#000;background:#fff}</style></head>
<body><main><h1>${title}</h1>${text}
<p><a href="${address("offline.html")}">What is kept on this device</a></p></main></body></html>`,
    { status: 503, headers: { "content-type": "text/html; charset=utf-8" } });
}

const notKept = () => notice("This page is not kept on this device",
  "There is no connection. What you chose to keep can be read without one, and the last pages you read.");

const newer = () => notice("The site has a newer edition",
  "This page is not kept on this device, and the site has it in a newer edition than what you keep."
  + " The two are not mixed. Take the newer edition first, or go back and read on in yours.");

async function editionOfServer() {
  const response = await fetch(address("edition.json"), { cache: "no-store" });
  return response.ok ? (await response.json()).edition : null;
}

async function fromServer(path, mayBeNewer) {
  const response = await fetch(address(path), { cache: "no-cache" });
  if (!response.ok || mayBeNewer) return response;
  const body = await response.clone().arrayBuffer();
  // A server may alter what it sends; if it says that the edition is ours, it is not a newer one.
  if (await digest(body) === FILES.get(path)[1]) return response;
  return await editionOfServer().catch(() => null) === EDITION.edition ? response : null;
}

/* A response that was redirected may not answer a navigation. */
const plain = (response) => !response.redirected ? response
  : new Response(response.body, { status: response.status, headers: response.headers });

/* One answer for a page and all that it asks for, so that it is not put together from two editions. */
const asked = new Map();

function isNewest(client) {
  if (!client || !asked.has(client)) {
    const late = new Promise((done) => { setTimeout(done, IN_TIME, EDITION.edition); });
    asked.set(client, Promise.race([late, editionOfServer().catch(() => EDITION.edition)])
      .then((edition) => edition === EDITION.edition));
  }
  return asked.get(client);
}

async function serve(path, isPage, event) {
  const cache = await caches.open(NAME);
  const held = await cache.match(address(path));
  const nothingKept = !(await record(cache)).kept.length;
  if (held && (!nothingKept || await isNewest(event.resultingClientId || event.clientId))) return held;
  try {
    const response = await fromServer(path, nothingKept);
    if (response && response.ok && !held) {
      // Read at once: an answer left unread would hold back the next request for the same file.
      const body = response.clone().arrayBuffer();
      body.catch(() => null);
      later(event, () => remember(path, body, response.headers.get("content-type")));
    }
    return response ? plain(response) : isPage ? newer() : Response.error();
  } catch {
    return held || (isPage ? notKept() : Response.error());
  }
}

self.addEventListener("fetch", (event) => {
  const path = EDITION && event.request.method === "GET" ? pathOf(event.request.url) : null;
  const isPage = event.request.mode === "navigate";
  if (FILES.has(path)) event.respondWith(serve(path, isPage, event));
  else if (path && isPage) event.respondWith(fetch(event.request).catch(notKept));
});

/* -- What a page may ask ------------------------------------------------------------------------ */

async function state() {
  const cache = await caches.open(NAME);
  const { kept, gone, lost } = await record(cache);
  const seen = await lastRead(cache, kept);
  const used = new Set(["frame", ...kept].flatMap(filesOf));
  const groups = Object.entries(EDITION.groups).map(([name, { title, version }]) => ({ name, title,
    version, bytes: sizeOf(filesOf(name)), kept: name === "frame" || kept.includes(name) }));
  if (seen.length) groups.push({ name: "read", title: "The last pages you read", bytes: sizeOf(seen), kept: true });
  return { edition: EDITION.edition, groups, gone, lost, bytes: sizeOf([...used, ...seen]) };
}

/* All files of a group, or none of them. For want of room, what was merely read goes first. */
async function keep(name) {
  if (!EDITION.groups[name]) throw new Refusal("missing");
  if (self.registration.installing || self.registration.waiting) throw new Refusal("changed");
  const cache = await caches.open(NAME);
  const now = await record(cache);
  const without = (names) => names.filter((each) => each !== name);
  const all = async () => {
    await bring(cache, "frame", []);
    await bring(cache, name, []);
    await write(cache, { ...now, kept: [...without(now.kept), name], lost: without(now.lost) });
  };
  await all().catch(async (fault) => {
    if (reason(fault) !== "full") throw fault;
    await forget(cache, await lastRead(cache, now.kept));
    return all();
  });
  return state();
}

async function drop(name) {
  const cache = await caches.open(NAME);
  const now = await record(cache);
  const kept = now.kept.filter((each) => each !== name);
  const idle = await lastRead(cache, kept);
  const own = name === "read" ? idle : filesOf(name);
  await write(cache, { ...now, kept });
  await forget(cache, idle.filter((file) => own.includes(file)));
  return state();
}

/* The first page came before the worker did: it is remembered when it says so. */
async function visit(path) {
  const cache = await caches.open(NAME);
  if (FILES.has(path)) await bringFile(cache, FILES.get(path), [], []);
  return state();
}

/* The newer edition is taken only when no other page of the site is open: none changes under
   anyone's hands. */
async function take() {
  const open = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  const ours = open.filter((client) => pathOf(client.url) !== null);
  if (ours.length > 1) return { refused: "open", pages: ours.length - 1 };
  await self.skipWaiting();
  return { taken: true };
}

const ANSWERS = { state, keep, drop, take, visit };
let work = Promise.resolve(); // one thing after another: two askings never cross

function later(event, does) {
  work = work.then(does).catch((fault) => ({ refused: reason(fault) }));
  event.waitUntil(work);
  return work;
}

self.addEventListener("message", (event) => {
  const { ask, name } = event.data || {};
  if (!EDITION || !Object.hasOwn(ANSWERS, ask)) return;
  later(event, () => ANSWERS[ask](name)).then((answer) => event.ports[0].postMessage(answer));
});
