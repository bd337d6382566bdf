// Works at a reader's own gauge, in a worker: loads the runtime from where this script lies, then
// answers. What it loads must be what the build wrote here. Nothing else is ever fetched. The memory
// of a Python that has started is kept on the device, with Python unpacked, so that the next start is
// short. Both have a digest, may be deleted at any time, and belong to one runtime alone.

// {files: [[name, digest, bytes]], wasm, info, door}: what is loaded, what Python must be when it is
// unpacked (as `integrity`), what the runtime says of itself, and how the function is got that answers.
/** @type {gauge.Runtime | null} */
const RUNTIME = null;

const HERE = new URL("./", import.meta.url);
const AT_ONCE = 10_000; // ms in which an empty module must be taken; a browser may refuse in silence
const EMPTY = new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0]);
const STARTS = `start ${new URL("../", HERE).href} `; // no name of a cache that the site's worker knows
const STATE = new URL("state", HERE).href;
const PYTHON = "python.bin";
const WASM = new URL("python.wasm", HERE).href; // kept alone: the server has it packed
const DIGEST = "wb-digest";
const LENGTH = "wb-bytes";
const COMPILES = 10_000; // ms after a rehearsal in which the browser keeps what it compiled of Python
const CHUNK = 1 << 22;
const PAGE = 1 << 16; // bytes by which a memory grows; what stands before it in a kept one is less
const load = self.fetch.bind(self);

class Fault extends Error {}

/** @type {(message: gauge.Said) => void} */
const say = (message) => self.postMessage(message);

// True where WebAssembly may run here.
/** @type {() => Promise<boolean>} */
function isAllowed() {
  /** @type {Promise<boolean>} */
  const late = new Promise((done) => { setTimeout(done, AT_ONCE, false); });
  if (typeof WebAssembly !== "object" || typeof DecompressionStream !== "function") return Promise.resolve(false);
  return Promise.race([late, WebAssembly.instantiate(EMPTY).then(() => true, () => false)]);
}

/** @type {(body: BufferSource) => Promise<string>} */
async function digest(body) {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

// A file, told of as it comes: `more` takes the number of bytes of each part. Nobody has asked yet where
// it `isWarm`: then only what the browser has already.
/** @type {(name: string, isWarm: boolean, more: (bytes: number) => void) => Promise<Blob>} */
async function fetched(name, isWarm, more) {
  /** @type {RequestInit} */
  const how = isWarm ? { cache: "only-if-cached", mode: "same-origin" } : {};
  const response = await load(new URL(name, HERE), how).catch(() => { throw new Fault("unreachable"); });
  if (!response.ok || !response.body) throw new Fault("missing");
  const reader = response.body.getReader();
  const parts = [];
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    parts.push(part.value);
    more(part.value.length);
  }
  return new Blob(parts);
}

/** @type {(file: gauge.File, isWarm: boolean, more: (bytes: number) => void) => Promise<[string, Blob]>} */
async function loaded([name, wanted, bytes], isWarm, more) {
  const blob = await fetched(name, isWarm, more).catch((fault) => {
    throw fault instanceof Fault ? fault : new Fault("unreachable");
  });
  // A page without https has no digests; there the length must do.
  const isWhole = crypto.subtle ? await digest(await blob.arrayBuffer()) === wanted : blob.size === bytes;
  if (!isWhole) throw new Fault("damaged");
  return [name, blob];
}

/** @type {(files: gauge.File[], isWarm: boolean) => Promise<Map<string, Blob>>} */
async function all(files, isWarm) {
  const whole = files.reduce((sum, file) => sum + file[2], 0);
  let done = 0;
  const more = (/** @type {number} */ bytes) => {
    done += bytes;
    say({ loading: Math.min(1, done / whole) });
  };
  return new Map(await Promise.all(files.map((file) => loaded(file, isWarm, more))));
}

// The memory of a Python that has started, and what is kept of others

// The digest of a memory, part by part: the whole would be copied to be looked at.
/** @type {(state: Uint8Array<ArrayBuffer>) => Promise<string>} */
async function digestOf(state) {
  let said = "";
  for (let at = 0; at < state.length; at += CHUNK) said += await digest(state.subarray(at, at + CHUNK));
  return digest(new TextEncoder().encode(said));
}

/** @type {(held: Response) => Promise<Uint8Array<ArrayBuffer>>} */
async function stateOf(held) {
  const state = new Uint8Array(Number(held.headers.get(LENGTH)));
  const reader = held.body?.getReader();
  let at = 0;
  for (let part = await reader?.read(); part?.value; part = await reader?.read()) {
    state.set(part.value, at);
    at += part.value.length;
  }
  return state;
}

/** @type {() => Promise<Uint8Array<ArrayBuffer> | null>} */
async function keptState() {
  try {
    const held = await (await caches.open(STARTS + HERE.href)).match(STATE);
    if (!held) return null;
    const state = await stateOf(held);
    if (state.length && await digestOf(state) === held.headers.get(DIGEST)) return state;
  } catch { /* a page without https has no caches, a device may refuse them: then it starts anew */ }
  await forget("");
  return null;
}

/** @type {(but: string) => Promise<void>} */
async function forget(but) {
  try {
    const names = (await caches.keys()).filter((name) => name.startsWith(STARTS) && name !== but);
    await Promise.all(names.map((name) => caches.delete(name)));
  } catch { /* nothing is kept there */ }
}

/** @type {(state: Uint8Array<ArrayBuffer>) => Promise<void>} */
async function keep(state) {
  try {
    const name = STARTS + HERE.href;
    await forget(name);
    const headers = { [DIGEST]: await digestOf(state), [LENGTH]: String(state.length) };
    let at = 0;
    const parts = new ReadableStream({ pull(to) {
      if (at >= state.length) to.close();
      else to.enqueue(state.slice(at, at += CHUNK));
    } });
    await (await caches.open(name)).put(STATE, new Response(parts, { headers }));
  } catch {
    await forget(""); // no room: the next start is as long as this one
  }
}

/** @type {(packed: Blob | undefined, type: string) => Response} */
function unpacked(packed, type) {
  if (!packed) throw new Fault("damaged");
  const stream = packed.stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream, { headers: { "content-type": type } });
}

// Python as it is kept unpacked, if it is. The site's worker answers with it: of an answer with an
// address the browser keeps what it has compiled, and need not compile it again.
/** @type {(runtime: gauge.Runtime) => Promise<Response | null>} */
async function keptWasm({ wasm }) {
  /** @type {RequestInit} */
  const how = { cache: "only-if-cached", mode: "same-origin", integrity: wasm };
  const response = await load(WASM, how).catch(() => null);
  return response?.ok ? response : null;
}

/** @type {(packed: Blob | undefined) => Promise<void>} */
async function keepWasm(packed) {
  await (await caches.open(STARTS + HERE.href)).put(WASM, unpacked(packed, "application/wasm"));
}

// From now on a request gets what was loaded, under the names that the runtime asks for, or nothing.
/** @type {(files: Map<string, Blob>, wasm: Response | null) => void} */
function answerAlone(files, wasm) {
  const given = new Map([
    [new URL("pyodide.asm.wasm", HERE).href, () => wasm || unpacked(files.get(PYTHON), "application/wasm")],
    [new URL("library.zip", HERE).href, () => unpacked(files.get("library.bin"), "application/zip")]]);
  self.fetch = async (asked) => {
    const file = given.get(asked instanceof Request ? asked.url : String(asked));
    if (!file) throw new TypeError("nothing is fetched here");
    return file();
  };
}

// A value for the first who awaits it, and for none later: the runtime keeps what it was given.
/** @type {<T>(value: T) => PromiseLike<T>} */
function once(value) {
  /** @type {any} */
  let given = value;
  return { then(done) {
    const now = given;
    given = null;
    return Promise.resolve(now).then(done);
  } };
}

// The runtime puts a kept memory into its own without making room for it: its own is made as large first.
/** @type {(make: gauge.Make, bytes: number) => gauge.Make} */
const roomy = (make, bytes) => async (settings) => {
  const made = await make(settings);
  while (made.HEAP8.length < bytes) if (!made._malloc(CHUNK)) throw new Error("no memory");
  return made;
};

/** @type {(info: Record<string, string>) => Promise<gauge.Begin>} */
async function loader(info) {
  const { loadPyodide } = await import(new URL("loader.js", HERE).href);
  const { default: make } = await import(new URL("python.js", HERE).href);
  return ({ bytes = 0, ...how }) => loadPyodide({ indexURL: HERE.href, packageBaseUrl: HERE.href,
    stdLibURL: new URL("library.zip", HERE).href, createPyodideModule: bytes ? roomy(make, bytes) : make,
    lockFileContents: { info, packages: {} }, ...how });
}

// Starts from the kept memory, or anew where there is none or it does not fit. Where it `isWarm` nobody has
// asked yet: nothing is fetched then.
/** @type {(runtime: gauge.Runtime, isWarm: boolean, keeps: boolean) => Promise<gauge.Started>} */
async function start(runtime, isWarm, keeps) {
  let state = await keptState();
  if (!state && isWarm) throw new Fault("missing");
  if (!state) return anew(runtime, isWarm, keeps, "");
  const wasm = await keptWasm(runtime);
  const files = await all(runtime.files.filter(([name]) => !wasm || name !== PYTHON), isWarm);
  say({ loading: 1 });
  if (!await isAllowed()) throw new Fault("refused");
  const begin = await loader(runtime.info);
  answerAlone(files, wasm);
  try {
    const bytes = state.length - state.length % PAGE;
    const given = once(state);
    state = null;
    const python = await begin({ bytes, _loadSnapshot: given });
    return { answer: python.runPython(runtime.door), isKept: Promise.resolve() };
  } catch {
    await forget(""); // it does not fit this browser: it starts anew
    return anew(runtime, isWarm, keeps, "");
  }
}

// Starts without a kept memory. It keeps its own where it `keeps`, after it has answered what is `rehearsed`,
// so that a start from it has all modules that an answer takes.
/** @type {(runtime: gauge.Runtime, isWarm: boolean, keeps: boolean, rehearsed: string) => Promise<gauge.Started>} */
async function anew(runtime, isWarm, keeps, rehearsed) {
  const files = await all(runtime.files, isWarm);
  say({ loading: 1 });
  if (!await isAllowed()) throw new Fault("refused");
  if (rehearsed) await keepWasm(files.get(PYTHON));
  const begin = await loader(runtime.info);
  answerAlone(files, rehearsed ? await keptWasm(runtime) : null);
  const python = await begin({ _makeSnapshot: keeps });
  files.clear();
  if (!keeps) return { isKept: Promise.resolve(), answer: python.runPython(runtime.door) };
  python.runPython(`${runtime.door}${rehearsed && `(${JSON.stringify(rehearsed)})`}\nNone`);
  return { isKept: keepOf(python), answer: python.runPython(runtime.door) };
}

// Its memory is copied before anything of it is handed out, and kept while it works.
/** @type {(python: gauge.Python) => Promise<void>} */
function keepOf(python) {
  try {
    return keep(python.makeMemorySnapshot());
  } catch {
    return Promise.resolve(); // the next start is as long as this one
  }
}

/** @type {Promise<gauge.Started | null> | null} */
let ready = null;

// Keeps a start for the next time, where none is kept and the device has all that it takes.
/** @type {(runtime: gauge.Runtime, asked: string) => Promise<void>} */
async function rehearse(runtime, asked) {
  const isThere = await caches.match(STATE, { cacheName: STARTS + HERE.href });
  if (isThere || ready) return;
  ready = anew(runtime, true, true, asked).catch(() => null);
  await (await ready)?.isKept;
  await new Promise((done) => { setTimeout(done, COMPILES); });
}

/** @type {(event: MessageEvent) => Promise<void>} */
self.onmessage = async ({ data }) => {
  try {
    if (!RUNTIME) throw new Fault("missing");
    if (data.warm) {
      ready = ready || start(RUNTIME, true, false).catch(() => null);
      return;
    }
    if (data.rehearsed) {
      await rehearse(RUNTIME, data.rehearsed).catch(() => null);
      say({ rehearsed: true });
      return;
    }
    const { keeps } = data;
    ready = ready || start(RUNTIME, false, keeps);
    const started = await ready || await (ready = start(RUNTIME, false, keeps));
    if (!started) throw new Fault("broken");
    say({ working: true });
    say({ answer: started.answer(data.asked) });
  } catch (fault) {
    ready = null;
    say({ fault: fault instanceof Fault ? fault.message : "broken" });
  }
};
