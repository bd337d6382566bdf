/* Saves pages on the reader's device: the frame of the site always, each pattern she chooses, and
   the last pages she has read.

   One build of the site is one edition. A worker belongs to one edition, has one cache for it, and
   puts nothing into it whose digest is not that edition's: two editions are never mixed. A newer
   worker brings everything that is saved, whole, into a cache of its own, and waits until the
   reader says so or has closed the site. Nothing that she saved is taken away before that is done:
   a pattern that the newer edition does not have stays as it was. What was merely read is not
   brought over to a newer edition.

   The build joins the files of this folder to one worker, so that no part of it is of another
   build, and writes the list into it. There is no worker where the list is not written in. */
"use strict";

/* {edition, list, files: [[path, digest, bytes]], groups: {name: {title, version, files: [index]}}};
   `list` is the digest of files and groups, so that nothing of them is missing. */
const EDITION = null;

const ROOT = new URL("./", self.location);
const CACHES = `walebook ${ROOT.pathname} `;
const DIGEST = /^[0-9a-f]{20}$/;

class Refusal extends Error {}

const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

const isFile = (file) => Array.isArray(file) && file.length === 3 && typeof file[0] === "string"
  && file[0] !== "" && DIGEST.test(file[1]) && Number.isInteger(file[2]) && file[2] >= 0;

const isGroup = (group, files) => isObject(group) && typeof group.title === "string"
  && typeof group.version === "string" && Array.isArray(group.files) && group.files.length > 0
  && group.files.every((index) => Number.isInteger(index) && index in files);

/* True for a list that has every part it must have. */
const isFormed = (list) => isObject(list) && DIGEST.test(list.edition) && DIGEST.test(list.list)
  && Array.isArray(list.files) && list.files.length > 0 && list.files.every(isFile)
  && isObject(list.groups) && Object.hasOwn(list.groups, "frame")
  && Object.values(list.groups).every((group) => isGroup(group, list.files));

const FORMED = isFormed(EDITION);
const NAME = FORMED && CACHES + EDITION.edition;
const LEFT = FORMED && `${NAME} left`; // what was saved and is not in this edition, as it was
const FILES = new Map(FORMED ? EDITION.files.map((file) => [file[0], file]) : []);

async function digest(body) {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("").slice(0, 20);
}

/* True for a list of which nothing is missing or changed. */
async function isWhole() {
  if (!FORMED) return false;
  const files = EDITION.files.map((file) => `${file.join("\t")}\n`);
  const groups = Object.keys(EDITION.groups).sort().map((name) => {
    const group = EDITION.groups[name];
    return `${[name, group.title, group.version, group.files.join()].join("\t")}\n`;
  });
  const text = [...files, ...groups].join("");
  return await digest(new TextEncoder().encode(text)) === EDITION.list;
}

const address = (path) => new URL(path.split("/").map(encodeURIComponent).join("/"), ROOT).href;
const hasGroup = (name) => Object.hasOwn(EDITION.groups, name);
const filesOf = (name) => EDITION.groups[name].files.map((index) => EDITION.files[index]);
const sizeOf = (files) => files.reduce((sum, file) => sum + file[2], 0);

/* The path in the site of an address; null for what lies outside of it. */
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
