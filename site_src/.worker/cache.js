/* -- What lies in the caches --------------------------------------------------------------------- */

const RECORD = new URL("?what-is-kept", ROOT).href;
const AT_ONCE = 6; // files fetched together
const MOST_READ = 4e6; // bytes of what was merely read; the oldest goes first

/* The record of what is saved lies in the edition's own cache, so that it is never another's:
   {kept: [name], titles: {name: [title, version]}, left: {name: [title, version]}, lost: [name],
   aside: {name: [title, version]}}. `left` has what is not in this edition, or could not be brought;
   `lost` is the latter. `aside` has patterns of this edition that have lost saved pages, such as
   that of a withdrawn size: these pages lie beside what is left. */
/** @type {(cache: Cache) => Promise<sw.Saved>} */
async function record(cache) {
  const found = await cache.match(RECORD);
  return { kept: [], titles: {}, left: {}, lost: [], aside: {}, ...(found ? await found.json() : {}) };
}

/** @type {(cache: Cache, data: Omit<sw.Saved, "titles">) => Promise<void>} */
const write = (cache, data) => cache.put(RECORD, new Response(JSON.stringify(
  { ...data, titles: Object.fromEntries(data.kept.map((name) => [name, titleOf(name)])) })));

/** @type {(name: string) => [title: string, version: string]} */
const titleOf = (name) => [LIST.groups[name].title, LIST.groups[name].version];

async function cacheNames() {
  return (await caches.keys()).filter((name) => name.startsWith(CACHES));
}

const olderNames = async () => (await cacheNames()).filter((name) => ![NAME, LEFT].includes(name));

/** @type {(names: string[]) => Promise<Cache[]>} */
const opened = (names) => Promise.all(names.map((name) => caches.open(name)));

/* What some caches say is saved, by name with title and version: {kept, left, aside}. */
/** @type {(names: string[]) => Promise<sw.Found>} */
async function savedIn(names) {
  /** @type {sw.Found} */
  const found = { kept: {}, left: {}, aside: {} };
  for (const now of await Promise.all((await opened(names)).map(record))) {
    for (const name of now.kept) found.kept[name] = now.titles[name] || [name, ""];
    Object.assign(found.left, now.left);
    Object.assign(found.aside, now.aside);
  }
  for (const name of Object.keys(found.kept)) delete found.left[name];
  return found;
}

/** @type {() => Promise<string | null>} */
async function editionOfServer() {
  const response = await fetch(address("edition.json"), { cache: "no-store" });
  const { edition } = response.ok ? await response.json() : {};
  return isDigest(edition) ? edition : null;
}

/* Why an answer of the server is not the file that it should be: it is of another edition, or
   something on the way answered in the site's place. */
/** @type {() => Promise<sw.Other>} */
async function whyOther() {
  const edition = await editionOfServer().catch(() => null);
  return edition && edition !== LIST.edition ? "changed" : "foreign";
}

/* A file that did not change is taken from the older edition: nothing is fetched for it. */
/** @type {(file: sw.File, older: Cache[]) => Promise<sw.Body>} */
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

/** @type {(cache: Cache, path: string, body: ArrayBuffer, type: string | null) => Promise<void>} */
async function put(cache, path, body, type) {
  await cache.put(address(path), new Response(body, { headers: type ? { "content-type": type } : {} }));
}

/** @type {(cache: Cache, file: sw.File, older: Cache[], brought: sw.File[]) => Promise<void>} */
async function bringFile(cache, file, older, brought) {
  if (await cache.match(address(file[0]))) return;
  await put(cache, file[0], ...await bodyOf(file, older));
  brought.push(file);
}

/* The files that a pattern's list has; the list stays in the edition's cache from then on. */
/** @type {(list: sw.File) => Promise<sw.File[]>} */
async function listed(list) {
  const cache = await caches.open(NAME);
  await bringFile(cache, list, [], []);
  const held = await cache.match(address(list[0]));
  const files = held ? await held.json() : null;
  if (!Array.isArray(files) || !files.every(isFile)) throw new Refusal("incomplete");
  return files;
}

/* All files of a group, a pattern's list among them. */
/** @type {(name: string) => Promise<sw.File[]>} */
async function filesOf(name) {
  const group = LIST.groups[name];
  return "list" in group ? [group.list, ...await listed(group.list)]
    : group.files.map((index) => LIST.files[index]);
}

/* The files of all these groups, each once, by its path. */
/** @type {(names: string[]) => Promise<Map<string, sw.File>>} */
async function filesOfAll(names) {
  const files = await Promise.all(names.map(filesOf));
  return new Map(files.flat().map((file) => [file[0], file]));
}

/* The file of this edition at a path; undefined where the edition has none. */
/** @type {(path: string) => Promise<sw.File | undefined>} */
async function fileOf(path) {
  const owner = ownerOf(path) || "";
  if (FILES.has(path) || !hasGroup(owner)) return FILES.get(path);
  return (await filesOf(owner)).find((file) => file[0] === path);
}

/* True when every file of the frame and of what is saved lies in the edition's cache. */
/** @type {(kept: string[]) => Promise<boolean>} */
async function holdsAll(kept) {
  const held = new Set((await (await caches.open(NAME)).keys()).map((request) => request.url));
  return [...(await filesOfAll(["frame", ...kept])).keys()].every((path) => held.has(address(path)));
}

/* All files of a group, or none that was not there before. */
/** @type {(cache: Cache, name: string, older: Cache[]) => Promise<void>} */
async function bring(cache, name, older) {
  const group = LIST.groups[name];
  /** @type {sw.File[]} */
  const brought = [];
  if ("list" in group) await bringFile(cache, group.list, older, brought);
  const files = await filesOf(name);
  for (let at = 0; at < files.length; at += AT_ONCE) {
    const some = files.slice(at, at + AT_ONCE);
    const done = await Promise.allSettled(some.map((file) => bringFile(cache, file, older, brought)));
    const failed = done.find((each) => each.status === "rejected");
    if (!failed) continue;
    await forget(cache, brought);
    throw failed.reason;
  }
}

/** @type {(cache: Cache, files: sw.File[]) => Promise<boolean[]>} */
const forget = (cache, files) => Promise.all(files.map((file) => cache.delete(address(file[0]))));

/* What lies in the cache and belongs to nothing that is saved: pages that were read, the oldest first. */
/** @type {(cache: Cache, kept: string[]) => Promise<sw.File[]>} */
async function lastRead(cache, kept) {
  const used = await filesOfAll(["frame", ...kept]);
  const paths = (await cache.keys()).map((request) => pathOf(request.url) || "");
  const owners = new Set(paths.map((path) => ownerOf(path) || "").filter(hasGroup));
  const known = await filesOfAll([...owners]);
  return paths.flatMap((path) => {
    const file = FILES.get(path) || known.get(path);
    return file && !used.has(path) ? [file] : [];
  });
}

/* Remembers a file that was read, if it is of this edition and there is room. A list stays with
   what it lists. */
/** @type {(path: string, read: Promise<ArrayBuffer>, type: string | null) => Promise<void>} */
async function remember(path, read, type) {
  const file = await fileOf(path);
  const body = await read;
  if (!file || await digest(body) !== file[1]) return;
  const cache = await caches.open(NAME);
  await put(cache, path, body, type);
  const all = (await lastRead(cache, (await record(cache)).kept)).filter((each) => !isList(each[0]));
  while (sizeOf(all) > MOST_READ) await forget(cache, all.splice(0, 1));
}

/* -- What was saved and is not in this edition ---------------------------------------------------- */

/* Copies patterns as an older edition has them, and all that their pages may ask for. The scripts
   and styles of a page are named by their digests, so that they are never another edition's. */
/** @type {(names: string[], older: Cache[]) => Promise<void>} */
async function setAside(names, older) {
  const frame = new Set((await filesOf("frame")).map((file) => address(file[0])));
  const left = await caches.open(LEFT);
  for (const cache of older) {
    for (const request of await cache.keys()) {
      const owner = ownerOf(pathOf(request.url));
      if (request.url === RECORD || frame.has(request.url) || (owner && !names.includes(owner))) continue;
      const response = await left.match(request) ? undefined : await cache.match(request);
      if (response) await left.put(request, response);
    }
  }
}

/* Copies the pages that these patterns had and have no more, with their scripts and styles, which
   other pages do not share. Returns the names of the patterns that have such pages. */
/** @type {(names: string[], older: Cache[]) => Promise<string[]>} */
async function setPagesAside(names, older) {
  const now = await filesOfAll(names);
  /** @type {Set<string>} */
  const found = new Set();
  for (const cache of older) {
    const all = (await cache.keys()).map((request) => pathOf(request.url) || "");
    const gone = all.filter((path) => isHtml(path) && names.includes(ownerOf(path) || "") && !now.has(path));
    if (!gone.length) continue;
    gone.forEach((path) => found.add(ownerOf(path) || ""));
    const left = await caches.open(LEFT);
    for (const path of [...gone, ...all.filter((each) => NAMED.test(each) && !FILES.has(each))]) {
      const response = await left.match(address(path)) ? undefined : await cache.match(address(path));
      if (response) await left.put(address(path), response);
    }
  }
  return [...found];
}

/* Takes one of them away, but for the pages that this edition has no more; with the last of them
   goes what they shared. */
/** @type {(now: sw.Saved, name: string) => Promise<void>} */
async function dropLeft(now, name) {
  delete now.left[name];
  if (!Object.keys({ ...now.left, ...now.aside }).length) {
    await caches.delete(LEFT);
    return;
  }
  const stays = Object.hasOwn(now.aside, name) ? await filesOfAll([name]) : null;
  const left = await caches.open(LEFT);
  const own = (await left.keys()).map((request) => pathOf(request.url) || "")
    .filter((path) => ownerOf(path) === name && (!stays || stays.has(path)));
  await Promise.all(own.map((path) => left.delete(address(path))));
}

/* The pages that lie aside of patterns of this edition. */
/** @type {(aside: sw.Titles) => Promise<string[]>} */
async function pagesAside(aside) {
  if (!Object.keys(aside).length) return [];
  const paths = (await (await caches.open(LEFT)).keys()).map((request) => pathOf(request.url) || "");
  return paths.filter((path) => isHtml(path) && Object.hasOwn(aside, ownerOf(path) || ""));
}

/** @type {(path: string) => Promise<Response | undefined>} */
const fromLeft = (path) => caches.match(address(path), { cacheName: LEFT });

/* The bytes of what is left, by pattern; under "" what they share. */
/** @type {() => Promise<Record<string, number>>} */
async function sizesLeft() {
  /** @type {Record<string, number>} */
  const sizes = {};
  if (!await caches.has(LEFT)) return sizes;
  const left = await caches.open(LEFT);
  for (const request of await left.keys()) {
    const owner = ownerOf(pathOf(request.url)) || "";
    const response = await left.match(request);
    if (response) sizes[owner] = (sizes[owner] || 0) + (await response.blob()).size;
  }
  return sizes;
}
