/* -- What a page may ask ------------------------------------------------------------------------ */

const OLDER = "older "; // before the name of what is left although this edition has a newer version
const STARTS = `start ${address("runtime/")} `; // before the caches of a runtime (`.runtime/worker.js`)
const STARTED = ["runtime", "try-it"]; // the groups that begin with a kept start

/** @type {(fault: unknown) => string} */
function reason(fault) {
  if (fault instanceof Refusal) return fault.message;
  if (fault instanceof DOMException && fault.name === "QuotaExceededError") return "full";
  return fault instanceof TypeError ? "unreachable" : "refused";
}

/** @type {(group: sw.Group) => number} */
const bytesOf = (group) => "list" in group ? group.bytes
  : sizeOf(group.files.map((index) => LIST.files[index]));

/** @type {() => Promise<sw.State>} */
async function state() {
  const cache = await caches.open(NAME);
  const { kept, left, lost, aside } = await record(cache);
  const seen = await lastRead(cache, kept);
  const used = await filesOfAll(["frame", ...kept]);
  const sizes = await sizesLeft();
  /** @type {sw.Shown[]} */
  const groups = Object.entries(LIST.groups).map(([name, group]) => ({ name, title: group.title,
    version: group.version, bytes: bytesOf(group), kept: name === "frame" || kept.includes(name) }));
  for (const [name, [title, version]] of Object.entries({ ...aside, ...left })) {
    groups.push({ name: hasGroup(name) ? OLDER + name : name, title, version,
      bytes: sizes[name] || 0, kept: true, left: true, aside: !Object.hasOwn(left, name) });
  }
  if (seen.length) groups.push({ name: "read", title: TEXTS.asks.theLastPages, bytes: sizeOf(seen), kept: true });
  const bytes = sizeOf([...used.values(), ...seen]) + Object.values(sizes).reduce((sum, size) => sum + size, 0);
  return { edition: LIST.edition, groups, gone: [], left: Object.keys(left), lost, bytes,
    aside: await pagesAside(aside) };
}

/* All files of a group, or none of them. For want of room, what was merely read goes first. */
/** @type {(name: string) => Promise<sw.State>} */
async function keep(name) {
  if (!hasGroup(name)) throw new Refusal("missing");
  if (self.registration.installing || self.registration.waiting) throw new Refusal("changed");
  const cache = await caches.open(NAME);
  const now = await record(cache);
  /** @type {(names: string[]) => string[]} */
  const without = (names) => names.filter((each) => each !== name);
  const all = async () => {
    await bring(cache, "frame", []);
    await bring(cache, name, []);
    if (Object.hasOwn(now.left, name)) await dropLeft(now, name);
    await write(cache, { ...now, kept: [...without(now.kept), name], lost: without(now.lost) });
  };
  await all().catch(async (fault) => {
    if (reason(fault) !== "full") throw fault;
    await forget(cache, await lastRead(cache, now.kept));
    return all();
  });
  return state();
}

/* True where pages lie aside: of a pattern that is not in this edition, or has lost some of them. */
/** @type {(now: sw.Saved, name: string) => boolean} */
const isLeft = (now, name) => Object.hasOwn(now.left, name) || Object.hasOwn(now.aside, name);

/** @type {(given: string) => Promise<sw.State>} */
async function drop(given) {
  const name = given.startsWith(OLDER) ? given.slice(OLDER.length) : given;
  const cache = await caches.open(NAME);
  const now = await record(cache);
  if (isLeft(now, name) && (name !== given || !hasGroup(name))) {
    delete now.aside[name];
    await dropLeft(now, name);
    await write(cache, { ...now, lost: now.lost.filter((each) => each !== name) });
  } else await dropKept(cache, now, name);
  const stays = await record(cache);
  await Promise.all((await opened(await olderNames())).map((other) => unname(other, name, stays)));
  return { ...await state(), start: await isServed(cache, name) ? 0 : await dropStart() };
}

/* True while something that is saved may begin with a kept start: a group that does, or a pattern.
   What was merely read has nothing to do with it. */
/** @type {(cache: Cache, dropped: string) => Promise<boolean>} */
async function isServed(cache, dropped) {
  const { kept, left, aside } = await record(cache);
  /** @type {(name: string) => boolean} */
  const isStarted = (name) => STARTED.includes(name);
  if (["read", "reading"].includes(dropped) || kept.some(isStarted)) return true;
  return !isStarted(dropped) && [...kept, ...Object.keys(left), ...Object.keys(aside)].some((name) => name !== "reading");
}

/* Deletes the kept starts of the runtime; what they took [bytes]. It would keep one again. */
/** @type {() => Promise<number>} */
async function dropStart() {
  const names = (await caches.keys()).filter((name) => name.startsWith(STARTS));
  const sizes = await Promise.all((await opened(names)).map(async (cache) => {
    const held = await cache.matchAll();
    return (await Promise.all(held.map((each) => each.blob()))).reduce((sum, each) => sum + each.size, 0);
  }));
  await Promise.all(names.map((name) => caches.delete(name)));
  return sizes.reduce((sum, size) => sum + size, 0);
}

/** @type {(cache: Cache, now: sw.Saved, name: string) => Promise<void>} */
async function dropKept(cache, now, name) {
  if (name !== "read" && !hasGroup(name)) throw new Refusal("missing");
  const kept = now.kept.filter((each) => each !== name);
  const idle = await lastRead(cache, kept);
  const own = name === "read" ? null : await filesOfAll([name]);
  await write(cache, { ...now, kept });
  await forget(cache, idle.filter((file) => !own || own.has(file[0])));
}

/* A newer edition that waits does not bring back what was taken away in the meantime. */
/** @type {(cache: Cache, name: string, stays: sw.Saved) => Promise<void>} */
async function unname(cache, name, stays) {
  if (!await cache.match(RECORD)) return;
  const now = await record(cache);
  delete now.left[name];
  const isKept = stays.kept.includes(name);
  if (!isKept && !isLeft(stays, name)) delete now.aside[name];
  const kept = now.kept.filter((each) => each !== name || isKept);
  await cache.put(RECORD, new Response(JSON.stringify({ ...now, kept })));
}

/* The first page came before the worker did: it is remembered when it says so. */
/** @type {(path: string) => Promise<sw.State>} */
async function visit(path) {
  const cache = await caches.open(NAME);
  const file = await fileOf(path);
  if (file) await bringFile(cache, file, [], []);
  return state();
}

/* What the site has where a page lies aside that she saved; nothing where none does, or without a signal. */
/** @type {(path: string) => Promise<sw.Answer>} */
async function instead(path) {
  if (!await fromLeft(path)) return { aside: false, html: "" };
  const response = await fetch(address(path), { cache: "no-cache" }).catch(() => null);
  return { aside: true, html: response && response.ok ? await response.text() : "" };
}

/* The newer edition is taken only when no other page of the site is open: none changes under
   anyone's hands. */
/** @type {() => Promise<sw.Answer>} */
async function take() {
  const open = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  const ours = open.filter((client) => pathOf(client.url) !== null);
  if (ours.length > 1) return { refused: "open", pages: ours.length - 1 };
  await self.skipWaiting();
  return { taken: true };
}

/** @type {Record<string, (name: string) => Promise<sw.Answer>>} */
const ANSWERS = { state, keep, drop, take, visit, instead };
/** @type {Promise<sw.Answer>} */
let work = Promise.resolve(); // one thing after another: two askings never cross

/** @type {(event: ExtendableEvent, does: () => Promise<sw.Answer>) => Promise<sw.Answer>} */
function later(event, does) {
  work = work.then(does).catch((fault) => ({ refused: reason(fault) }));
  event.waitUntil(work);
  return work;
}

self.addEventListener("message", (event) => {
  const { ask, name } = event.data || {};
  if (!Object.hasOwn(ANSWERS, ask)) return;
  later(event, () => ANSWERS[ask](name)).then((answer) => event.ports[0].postMessage(answer));
});
