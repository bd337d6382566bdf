/* -- From one edition to the next ------------------------------------------------------------------ */

/** @type {(name: string) => boolean} */
const isOfLeft = (name) => name.endsWith(" left");

/* Sets aside, as they are, patterns that older caches have among what is saved or left there. */
/** @type {(kept: string[], left: string[], names: string[]) => Promise<void>} */
async function setAsideAll(kept, left, names) {
  for (const [wanted, from] of [[kept, names.filter((name) => !isOfLeft(name))],
                                [left, names.filter(isOfLeft)]]) {
    if (wanted.length) await setAside(wanted, await opened(from));
  }
}

/* Sets aside the pages that saved patterns have no more. Returns these patterns, with the title
   and version that the pages are of. */
/** @type {(kept: string[], before: sw.Found, names: string[]) => Promise<sw.Titles>} */
async function withPagesAside(kept, before, names) {
  const some = [...new Set([...kept, ...Object.keys(before.aside).filter(hasGroup)])];
  const newestFirst = [...names].sort((one, other) => Number(isOfLeft(one)) - Number(isOfLeft(other)));
  const found = await setPagesAside(some, await opened(newestFirst));
  const titles = { ...before.left, ...before.kept, ...before.aside };
  return Object.fromEntries(found.map((name) => [name, titles[name]]));
}

/* Brings all that is saved. What this edition does not have is set aside. */
/** @type {(names: string[]) => Promise<void>} */
async function bringAll(names) {
  const cache = await caches.open(NAME);
  const older = await opened(names);
  const before = await savedIn([...names, NAME]);
  const titles = { ...before.left, ...before.kept };
  const kept = Object.keys(titles).filter(hasGroup);
  const [gone, left] = [before.kept, { ...before.left, ...before.aside }].map((some) =>
    Object.keys(some).filter((name) => !hasGroup(name)));
  for (const name of ["frame", ...kept]) await bring(cache, name, older);
  await setAsideAll(gone, left, names);
  const aside = await withPagesAside(kept, before, names);
  const every = { ...before.aside, ...titles };
  const titled = Object.fromEntries([...gone, ...left].map((name) => [name, every[name]]));
  await write(cache, { kept, left: titled, lost: [], aside });
  if (!await holdsAll(kept)) throw new Refusal("incomplete");
}

async function install() {
  if (!await isWhole()) throw new Refusal("incomplete");
  const isNew = !await caches.has(NAME);
  try {
    await bringAll(await olderNames());
  } catch (fault) {
    if (isNew) await Promise.all([NAME, LEFT].map((name) => caches.delete(name)));
    throw fault;
  }
  // Only where there is none before it: one that is put aside in mid-answer leaves its page waiting.
  if (!self.registration.active) await self.skipWaiting();
}

/* What was saved between the installing of this edition and now: brought as well, or set aside. */
/** @type {(cache: Cache, now: sw.Saved, names: string[]) => Promise<void>} */
async function bringRest(cache, now, names) {
  const before = await savedIn(names);
  /** @type {(saved: [name: string, title: [string, string]]) => boolean} */
  const isNews = ([name]) => !now.kept.includes(name) && !Object.hasOwn(now.left, name);
  for (const [name, title] of Object.entries(before.kept).filter(isNews)) {
    try {
      if (!hasGroup(name)) throw new Refusal("missing");
      await bring(cache, name, await opened(names));
      now.kept.push(name);
      now.aside = { ...await withPagesAside([name], before, names), ...now.aside };
    } catch {
      await setAsideAll([name], [], names);
      now.left[name] = title;
      if (hasGroup(name)) now.lost.push(name);
    }
  }
}

/* The older caches go last of all; where anything of this edition is not there, they stay. */
async function activate() {
  const cache = await caches.open(NAME);
  const now = await record(cache);
  const names = await olderNames();
  await bringRest(cache, now, names);
  await write(cache, now);
  if (!await holdsAll(now.kept)) return;
  await forget(cache, await lastRead(cache, now.kept));
  await Promise.all(names.map(dropCache));
}

/* One without a record may be of a newer edition that is being installed at this moment. */
/** @type {(name: string) => Promise<void>} */
async function dropCache(name) {
  const hasRecord = isOfLeft(name) || await (await caches.open(name)).match(RECORD);
  if (hasRecord || !self.registration.installing) await caches.delete(name);
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
