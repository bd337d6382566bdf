/* Saves pages on the reader's device: the frame of the site always, each pattern she chooses, and
   the last pages she has read.

   One build of the site is one edition. A worker belongs to one edition, has one cache for it, and
   puts nothing into it whose digest is not that edition's: two editions are never mixed. A newer
   worker brings everything that is saved, whole, into a new cache, and waits until the
   reader says so or has closed the site. Nothing that she saved is taken away before that is done:
   a pattern that the newer edition does not have stays as it was. What was merely read is not
   brought over to a newer edition.

   The build joins the files of this folder to one worker, so that no part of it is of another
   build, and writes the list into it. There is no worker where the list is not written in. */
"use strict";

/* {edition, list, files: [[path, digest, bytes]], groups: {name: group}}; `files` has none of a
   pattern. A group is {title, version, files: [index]}, or a pattern's, whose files stand in a list
   of their own: {title, version, list: [path, digest, bytes], bytes}, `bytes` of them all. The first
   `list` is the digest of files and groups, so that nothing of them is missing. */
/** @type {unknown} */
const EDITION = null;

const ROOT = new URL("./", self.location.href);
const CACHES = `walebook ${ROOT.pathname} `;
const DIGEST = /^[0-9a-f]{20}$/;

class Refusal extends Error {}

/** @type {(value: unknown) => value is Record<string, unknown>} */
function isObject(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** @type {(text: unknown) => boolean} */
const isDigest = (text) => typeof text === "string" && DIGEST.test(text);

/** @type {(file: unknown) => boolean} */
const isFile = (file) => Array.isArray(file) && file.length === 3 && typeof file[0] === "string"
  && file[0] !== "" && isDigest(file[1]) && Number.isInteger(file[2]) && file[2] >= 0;

/** @type {(group: unknown, files: unknown[]) => boolean} */
const isGroup = (group, files) => isObject(group) && typeof group.title === "string"
  && typeof group.version === "string" && (isFile(group.list) ? Number.isInteger(group.bytes)
    : Array.isArray(group.files) && group.files.length > 0
      && group.files.every((index) => Number.isInteger(index) && index in files));

/* True for a list that has every part it must have. */
/** @type {(list: unknown) => list is sw.Edition} */
function isFormed(list) {
  if (!isObject(list) || !isDigest(list.edition) || !isDigest(list.list)) return false;
  const { files, groups } = list;
  return Array.isArray(files) && files.length > 0 && files.every(isFile)
    && isObject(groups) && isObject(groups.frame) && Array.isArray(groups.frame.files)
    && Object.values(groups).every((group) => isGroup(group, files));
}

/* The list; an empty one where it is not formed, and then nothing is ever installed. */
/** @type {sw.Edition} */
const LIST = isFormed(EDITION) ? EDITION : { edition: "", list: "", files: [], groups: {} };
const NAME = CACHES + LIST.edition;
const LEFT = `${NAME} left`; // what was saved and is not in this edition, as it was
const FILES = new Map(LIST.files.map((file) => [file[0], file]));

/** @type {(body: BufferSource) => Promise<string>} */
async function digest(body) {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("").slice(0, 20);
}

/* True for a list of which nothing is missing or changed. */
async function isWhole() {
  if (!isFormed(EDITION)) return false;
  const files = LIST.files.map((file) => `${file.join("\t")}\n`);
  const groups = Object.keys(LIST.groups).sort().map((name) => {
    const group = LIST.groups[name];
    const what = "list" in group ? [group.list.join(), group.bytes] : [group.files.join()];
    return `${[name, group.title, group.version, ...what].join("\t")}\n`;
  });
  const text = [...files, ...groups].join("");
  return await digest(new TextEncoder().encode(text)) === LIST.list;
}

/** @type {(path: string) => string} */
const address = (path) => new URL(path.split("/").map(encodeURIComponent).join("/"), ROOT).href;
/** @type {(name: string) => boolean} */
const hasGroup = (name) => Object.hasOwn(LIST.groups, name);
/* The pattern to which a file belongs. */
/** @type {(path: string | null) => string | undefined} */
const ownerOf = (path) => (/^patterns\/([^/]+)\//.exec(path || "") || [])[1];
/** @type {(path: string) => boolean} */
const isList = (path) => /^patterns\/[^/]+\/files\.json$/.test(path);
/** @type {(path: string) => boolean} */
const isHtml = (path) => path.endsWith(".html");
/** @type {(files: sw.File[]) => number} */
const sizeOf = (files) => files.reduce((sum, file) => sum + file[2], 0);

/* The path in the site of an address; null for what lies outside of it. */
/** @type {(url: string) => string | null} */
function pathOf(url) {
  const { origin, pathname } = new URL(url);
  if (origin !== ROOT.origin || !pathname.startsWith(ROOT.pathname)) return null;
  try {
    const path = decodeURIComponent(pathname.slice(ROOT.pathname.length));
    return path === "" || path.endsWith("/") ? `${path}index.html` : path;
  } catch {
    return null;
  }
}
