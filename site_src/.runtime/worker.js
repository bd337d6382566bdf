// Works at a reader's own gauge, in a worker: loads the runtime from where this script lies, then
// answers. What it loads must be what the build wrote here. Nothing else is ever fetched. The start that
// is kept on the device is that of `kept_start.js`, which stands behind this script in one file.

// {files: [[name, digest, bytes]], wasm, info, door}: what is loaded, what Python must be when it is
// unpacked (as `integrity`), what the runtime says of itself, and how the function is got that answers.
/** @type {gauge.Runtime | null} */
const RUNTIME = null;

const HERE = new URL("./", self.location.href);
const AT_ONCE = 10_000; // ms in which an empty module must be taken; a browser may refuse in silence
const EMPTY = new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0]);
const PYTHON = "python.bin";
const LIBRARY = "library.bin";
const UNPACKER = "unpack.js";
const SCRIPTS = ["loader.js", "python.js"];
const WASM = "application/wasm";
const COMPILES = 10_000; // ms after a rehearsal in which the browser keeps what it compiled of Python
const load = self.fetch.bind(self);

class Fault extends Error {}

/** @type {(message: gauge.Said) => void} */
const say = (message) => self.postMessage(message);

// True where this browser has WebAssembly, and compiles it as it comes.
const isAble = () => typeof WebAssembly === "object" && typeof WebAssembly.compileStreaming === "function";

// True where WebAssembly may run here.
/** @type {() => Promise<boolean>} */
function isAllowed() {
  /** @type {Promise<boolean>} */
  const late = new Promise((done) => { setTimeout(done, AT_ONCE, false); });
  if (!isAble()) return Promise.resolve(false);
  return Promise.race([late, WebAssembly.instantiate(EMPTY).then(() => true, () => false)]);
}

/** @type {(body: BufferSource) => Promise<string>} */
async function digest(body) {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

// What is loaded

// A file, whole and as it was written; `more` is given each part as it comes. Nobody has asked yet where
// it `isWarm`: then only what the browser has already.
/** @type {(file: gauge.File, isWarm: boolean, more: (part: Uint8Array) => void) => Promise<Uint8Array>} */
async function loaded([name, wanted, bytes], isWarm, more) {
  /** @type {RequestInit} */
  const how = isWarm ? { cache: "only-if-cached", mode: "same-origin" } : {};
  const response = await load(new URL(name, HERE), how).catch(() => { throw new Fault("unreachable"); });
  if (!response.ok || !response.body) throw new Fault("missing");
  const reader = response.body.getReader();
  const next = () => reader.read().catch(() => { throw new Fault("unreachable"); });
  const file = new Uint8Array(bytes);
  let at = 0;
  for (let part = await next(); !part.done; part = await next()) {
    if (at + part.value.length > bytes) throw new Fault("damaged");
    file.set(part.value, at);
    at += part.value.length;
    more(part.value);
  }
  // A page without https has no digests; there the length must do.
  const isWhole = at === bytes && (!crypto.subtle || await digest(file) === wanted);
  if (!isWhole) throw new Fault("damaged");
  return file;
}

// Files that come at the same time, told of as they come: each by its name, as soon as it is there.
/** @type {(files: gauge.File[], isWarm: boolean, python: ((part: Uint8Array) => void) | null) => gauge.Coming} */
function coming(files, isWarm, python) {
  const whole = files.reduce((sum, file) => sum + file[2], 0);
  let done = 0;
  return new Map(files.map((file) => [file[0], loaded(file, isWarm, (part) => {
    done += part.length;
    say({ loading: Math.min(1, done / whole) });
    if (file[0] === PYTHON && python) python(part);
  })]));
}

// All of what comes, once all of it is as it was written.
/** @type {(files: gauge.Coming) => Promise<Map<string, Uint8Array>>} */
async function all(files) {
  const came = await Promise.all([...files].map(async ([name, file]) => /** @type {const} */ ([name, await file])));
  say({ loading: 1 });
  if (!await isAllowed()) throw new Fault("refused");
  return new Map(came);
}

/** @type {(files: gauge.Coming) => Promise<gauge.Zstd>} */
async function unpacker(files) {
  await files.get(UNPACKER);
  return import(new URL(UNPACKER, HERE).href);
}

// Python, unpacked and compiled while it comes: `more` takes its parts in turn, of so many bytes in all. The
// module is thrown away where they are not what the build wrote.
/** @type {(bytes: number, unpack: () => Promise<gauge.Zstd>) => gauge.Compiling} */
function compiling(bytes, unpack) {
  /** @type {ReadableStreamDefaultController<Uint8Array>} */
  let to;
  const stream = new ReadableStream({ start: (control) => { to = control; } });
  /** @type {Promise<InstanceType<gauge.Zstd["Decompress"]>> | null} */
  let unpacking = null;
  const begin = () => unpack().then(({ Decompress }) => new Decompress((part, isLast) => {
    if (part.length) to.enqueue(part);
    if (isLast) to.close();
  }));
  let last = Promise.resolve();
  let at = 0;
  const module = WebAssembly.compileStreaming(new Response(stream, { headers: { "content-type": WASM } }));
  module.catch(() => null);
  return { module, more(part) {
    unpacking = unpacking || begin();
    const made = unpacking;
    const isLast = (at += part.length) >= bytes;
    last = last.then(async () => (await made).push(part, isLast)).catch((fault) => to.error(fault));
  } };
}

// From now on a request gets what was loaded, under the names that the runtime asks for, or nothing.
/** @type {(library: Uint8Array, module: WebAssembly.Module | null) => void} */
function answerAlone(library, module) {
  if (!module) throw new Fault("refused");
  const given = new Map([[new URL("pyodide.asm.wasm", HERE).href, new Uint8Array()],
    [new URL("library.zip", HERE).href, library]]);
  self.fetch = async (asked) => {
    const file = given.get(asked instanceof Request ? asked.url : String(asked));
    if (!file) throw new TypeError("nothing is fetched here");
    return new Response(/** @type {Uint8Array<ArrayBuffer>} */ (file));
  };
  WebAssembly.instantiateStreaming = async (_, imports) => (
    { module, instance: await WebAssembly.instantiate(module, imports) });
}

// The runtime's own scripts, once they are as they were written.
/** @type {(files: gauge.Coming, info: Record<string, string>) => Promise<gauge.Begin>} */
function loader(files, info) {
  const made = imported(files, info);
  made.catch(() => null); // what is wrong is said by who awaits it
  return made;
}

/** @type {(files: gauge.Coming, info: Record<string, string>) => Promise<gauge.Begin>} */
async function imported(files, info) {
  await Promise.all(SCRIPTS.map((name) => files.get(name)));
  const [{ loadPyodide }, { default: make }] = await Promise.all(
    SCRIPTS.map((name) => import(new URL(name, HERE).href)));
  return ({ fill = null, ...how }) => loadPyodide({ indexURL: HERE.href, packageBaseUrl: HERE.href,
    stdLibURL: new URL("library.zip", HERE).href, createPyodideModule: fill ? filled(make, fill) : make,
    lockFileContents: { info, packages: {} }, ...how });
}

/** @type {(make: gauge.Make, fill: (made: gauge.Module) => Promise<void>) => gauge.Make} */
const filled = (make, fill) => async (settings) => {
  const made = await make(settings);
  await fill(made);
  return made;
};

// Starts

// What a Python answers. Nothing of it is handed out but texts, so that its memory can be kept at any time.
/** @type {(python: gauge.Python, door: string) => (asked: string) => string} */
const answering = (python, door) => (asked) => python.runPython(`${door}(${JSON.stringify(asked)})`);

// What comes, and Python's module: of what is kept unpacked, or compiled while it comes.
/** @type {(runtime: gauge.Runtime, isWarm: boolean, wasm: Response | null) => gauge.Loading} */
function loading({ files: listed }, isWarm, wasm) {
  if (wasm) {
    const module = WebAssembly.compileStreaming(wasm);
    module.catch(() => null); // what is wrong is said by who awaits it
    return { files: coming(listed.filter(([name]) => name !== PYTHON), isWarm, null), module };
  }
  if (!isAble()) return { files: coming(listed, isWarm, null), module: Promise.resolve(null) };
  /** @type {gauge.Coming} */
  let files = new Map();
  const bytes = listed.find(([name]) => name === PYTHON)?.[2] || 0;
  const { more, module } = compiling(bytes, () => unpacker(files));
  files = coming(listed, isWarm, more);
  return { files, module };
}

// Starts from the start that is kept, or anew where there is none or it does not fit. Where it `isWarm`
// nobody has asked yet: nothing is fetched then.
/** @type {(runtime: gauge.Runtime, isWarm: boolean, keeps: boolean) => Promise<gauge.Started>} */
async function start(runtime, isWarm, keeps) {
  const [kept, wasm] = await Promise.all([keptStart(), keptWasm(runtime)]);
  if (!kept && isWarm) throw new Fault("missing");
  if (!kept) return begun(runtime, loading(runtime, isWarm, wasm), keeps);
  const { files, module } = loading(runtime, isWarm, wasm);
  const scripts = loader(files, runtime.info);
  const packed = (await all(files)).get(LIBRARY) || new Uint8Array();
  const { decompress } = await unpacker(files);
  try {
    answerAlone(new Uint8Array(), await module);
    const begin = await scripts;
    const python = await begin({ fill: (made) => fillFrom(kept, made), _loadSnapshot: Promise.resolve(kept.head) });
    lieReady(python, runtime.info, () => decompress(packed));
    return { answer: answering(python, runtime.door), keep: () => Promise.resolve() };
  } catch {
    await forget(""); // it does not fit this browser: it starts anew
    return begun(runtime, loading(runtime, isWarm, null), keeps);
  }
}

// Starts without a kept start.
/** @type {(runtime: gauge.Runtime, loads: gauge.Loading, keeps: boolean) => Promise<gauge.Started>} */
async function begun(runtime, { files, module }, keeps) {
  const scripts = loader(files, runtime.info);
  const came = await all(files);
  const { decompress } = await unpacker(files);
  answerAlone(decompress(came.get(LIBRARY) || new Uint8Array()), await module);
  const begin = await scripts;
  const python = await begin({ _makeSnapshot: keeps });
  return { answer: answering(python, runtime.door), keep: () => keeps ? keep(python) : Promise.resolve() };
}

// Starts to keep its start: Python is kept unpacked first, so that the browser keeps what it compiles of it.
/** @type {(runtime: gauge.Runtime) => Promise<gauge.Started>} */
async function toKeep(runtime) {
  if (!await keptWasm(runtime)) {
    const python = runtime.files.filter(([name]) => [PYTHON, UNPACKER].includes(name));
    const files = coming(python, true, null);
    const { decompress } = await unpacker(files);
    await keepWasm(decompress(await files.get(PYTHON) || new Uint8Array()));
  }
  return begun(runtime, loading(runtime, true, await keptWasm(runtime)), true);
}

/** @type {Promise<gauge.Started | null> | null} */
let ready = null;
/** @type {Promise<void> | null} */
let keeping = null; // while a memory is kept nothing may change it

// Keeps a start for the next time, where none is kept and the device has all that it takes. It answers
// what is `asked` first, so that a start from it has all modules that an answer takes.
/** @type {(runtime: gauge.Runtime, asked: string) => Promise<void>} */
async function rehearse(runtime, asked) {
  if (ready || await isKept()) return;
  ready = toKeep(runtime).then((made) => {
    made.answer(asked);
    keeping = made.keep();
    return made;
  }).catch(() => null);
  await ready;
  await keeping;
  await new Promise((done) => { setTimeout(done, COMPILES); });
}

// Answers; a first start keeps its own after its first answer, where it `keeps`.
/** @type {(runtime: gauge.Runtime, asked: string, keeps: boolean) => Promise<void>} */
async function work(runtime, asked, keeps) {
  ready = ready || start(runtime, false, keeps);
  const started = await ready || await (ready = start(runtime, false, keeps));
  if (!started) throw new Fault("broken");
  say({ working: true });
  await keeping;
  say({ answer: started.answer(asked) });
  if (keeps && !keeping) keeping = started.keep();
}

/** @type {(event: MessageEvent) => Promise<void>} */
self.onmessage = async ({ data }) => {
  try {
    if (!RUNTIME) throw new Fault("missing");
    if (data.warm) ready = ready || start(RUNTIME, true, false).catch(() => null);
    else if (data.rehearsed) {
      await rehearse(RUNTIME, data.rehearsed).catch(() => null);
      say({ rehearsed: true });
    } else await work(RUNTIME, data.asked, data.keeps);
  } catch (fault) {
    ready = null;
    say({ fault: fault instanceof Fault ? fault.message : "broken" });
  }
};
