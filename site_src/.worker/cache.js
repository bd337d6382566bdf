/* -- What lies in the caches --------------------------------------------------------------------- */

const RECORD = new URL("?what-is-kept", ROOT).href;
const AT_ONCE = 6; // files fetched together
const MOST_READ = 4e6; // bytes of what was merely read; the oldest goes first

/* The record of what is saved lies in the edition's own cache, so that it is never another's:
   {kept: [name], titles: {name: [title, version]}, left: {name: [title, version]}, lost: [name]}.
   `left` has what is not in this edition, or could not be brought; `lost` is the latter. */
async function record(cache) {
  const found = await cache.match(RECORD);
  return { kept: [], titles: {}, left: {}, lost: [], ...(found ? await found.json() : {}) };
}

const write = (cache, data) => cache.put(RECORD, new Response(JSON.stringify(
  { ...data, titles: Object.fromEntries(data.kept.map((name) => [name, titleOf(name)])) })));

const titleOf = (name) => [EDITION.groups[name].title, EDITION.groups[name].version];

async function cacheNames() {
  return (await caches.keys()).filter((name) => name.startsWith(CACHES));
}

const olderNames = async () => (await cacheNames()).filter((name) => ![NAME, LEFT].includes(name));

const opened = (names) => Promise.all(names.map((name) => caches.open(name)));

/* What some caches say is saved, by name with title and version: {kept, left}. */
async function savedIn(names) {
  const found = { kept: {}, left: {} };
  for (const now of await Promise.all((await opened(names)).map(record))) {
    for (const name of now.kept) found.kept[name] = now.titles[name] || [name, ""];
    Object.assign(found.left, now.left);
  }
  for (const name of Object.keys(found.kept)) delete found.left[name];
  return found;
}

/* True when every file of the frame and of what is saved lies in the edition's cache. */
async function holdsAll(kept) {
  const held = new Set((await (await caches.open(NAME)).keys()).map((request) => request.url));
  return ["frame", ...kept].flatMap(filesOf).every((file) => held.has(address(file[0])));
}

async function editionOfServer() {
  const response = await fetch(address("edition.json"), { cache: "no-store" });
  const { edition } = response.ok ? await response.json() : {};
  return DIGEST.test(edition) ? edition : null;
}

/* Why an answer of the server is not the file that it should be: it is of another edition, or
   something on the way answered in the site's place. */
async function whyOther() {
  const edition = await editionOfServer().catch(() => null);
  return edition && edition !== EDITION.edition ? "changed" : "foreign";
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
  if (await digest(body) !== wanted) throw new Refusal(await whyOther());
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

/* What lies in the cache and belongs to nothing that is saved: pages that were read, the oldest first. */
async function lastRead(cache, kept) {
  const used = new Set(["frame", ...kept].flatMap(filesOf));
  const held = (await cache.keys()).map((request) => FILES.get(pathOf(request.url)));
  return held.filter((file) => file && !used.has(file));
}

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

/* -- What was saved and is not in this edition ---------------------------------------------------- */

const ownerOf = (path) => (/^patterns\/([^/]+)\//.exec(path) || [])[1];

/* Copies patterns as an older edition has them, and all that their pages may ask for. The scripts
   and styles of a page are named by their digests, so that they are never another edition's. */
async function setAside(names, older) {
  const frame = new Set(filesOf("frame").map((file) => address(file[0])));
  const left = await caches.open(LEFT);
  for (const cache of older) {
    for (const request of await cache.keys()) {
      const owner = ownerOf(pathOf(request.url));
      if (request.url === RECORD || frame.has(request.url) || (owner && !names.includes(owner))) continue;
      if (!await left.match(request)) await left.put(request, await cache.match(request));
    }
  }
}

/* Takes one of them away; with the last of them goes what they shared. */
async function dropLeft(now, name) {
  delete now.left[name];
  if (!Object.keys(now.left).length) return caches.delete(LEFT);
  const left = await caches.open(LEFT);
  const own = (await left.keys()).filter((request) => ownerOf(pathOf(request.url)) === name);
  return Promise.all(own.map((request) => left.delete(request)));
}

const fromLeft = (path) => caches.match(address(path), { cacheName: LEFT });

/* The bytes of what is left, by pattern; under "" what they share. */
async function sizesLeft() {
  const sizes = {};
  if (!await caches.has(LEFT)) return sizes;
  const left = await caches.open(LEFT);
  for (const request of await left.keys()) {
    const owner = ownerOf(pathOf(request.url)) || "";
    sizes[owner] = (sizes[owner] || 0) + (await (await left.match(request)).blob()).size;
  }
  return sizes;
}
