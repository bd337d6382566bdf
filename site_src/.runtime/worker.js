// Works at a reader's own gauge, in a worker: loads the runtime from where this script lies, then
// answers. What it loads must be what the build wrote here. Nothing else is ever fetched.

// {files: [[name, digest, bytes]], info, door}: what is loaded, what the runtime says of itself, and
// how the function is got that answers.
/** @type {gauge.Runtime | null} */
const RUNTIME = null;

const HERE = new URL("./", import.meta.url);
const AT_ONCE = 10_000; // ms in which an empty module must be taken; a browser may refuse in silence
const EMPTY = new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0]);

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

// A file, told of as it comes: `more` takes the number of bytes of each part.
/** @type {(name: string, more: (bytes: number) => void) => Promise<Blob>} */
async function fetched(name, more) {
  const response = await fetch(new URL(name, HERE)).catch(() => { throw new Fault("unreachable"); });
  if (!response.ok || !response.body) throw new Fault("missing");
  const reader = response.body.getReader();
  const parts = [];
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    parts.push(part.value);
    more(part.value.length);
  }
  return new Blob(parts);
}

/** @type {(file: gauge.File, more: (bytes: number) => void) => Promise<[string, Blob]>} */
async function loaded([name, wanted, bytes], more) {
  const blob = await fetched(name, more).catch((fault) => {
    throw fault instanceof Fault ? fault : new Fault("unreachable");
  });
  // A page without https has no digests; there the length must do.
  const isWhole = crypto.subtle ? await digest(await blob.arrayBuffer()) === wanted : blob.size === bytes;
  if (!isWhole) throw new Fault("damaged");
  return [name, blob];
}

/** @type {(runtime: gauge.Runtime) => Promise<Map<string, Blob>>} */
async function all({ files }) {
  const whole = files.reduce((sum, file) => sum + file[2], 0);
  let done = 0;
  const more = (/** @type {number} */ bytes) => {
    done += bytes;
    say({ loading: Math.min(1, done / whole) });
  };
  return new Map(await Promise.all(files.map((file) => loaded(file, more))));
}

/** @type {(packed: Blob | undefined, type: string) => Response} */
function unpacked(packed, type) {
  if (!packed) throw new Fault("damaged");
  const stream = packed.stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream, { headers: { "content-type": type } });
}

// From now on a request gets what was loaded, under the names that the runtime asks for, or nothing.
/** @type {(files: Map<string, Blob>) => void} */
function answerAlone(files) {
  const given = new Map([
    [new URL("pyodide.asm.wasm", HERE).href, { name: "python.bin", type: "application/wasm" }],
    [new URL("library.zip", HERE).href, { name: "library.bin", type: "application/zip" }]]);
  self.fetch = async (asked) => {
    const file = given.get(asked instanceof Request ? asked.url : String(asked));
    if (!file) throw new TypeError("nothing is fetched here");
    return unpacked(files.get(file.name), file.type);
  };
}

/** @type {(runtime: gauge.Runtime) => Promise<(asked: string) => string>} */
async function start(runtime) {
  const files = await all(runtime);
  say({ loading: 1 });
  if (!await isAllowed()) throw new Fault("refused");
  const { loadPyodide } = await import(new URL("loader.js", HERE).href);
  const { default: createPyodideModule } = await import(new URL("python.js", HERE).href);
  answerAlone(files);
  const python = await loadPyodide({ indexURL: HERE.href, packageBaseUrl: HERE.href,
    stdLibURL: new URL("library.zip", HERE).href, createPyodideModule,
    lockFileContents: { info: runtime.info, packages: {} } });
  files.clear();
  return python.runPython(runtime.door);
}

/** @type {Promise<(asked: string) => string> | null} */
let ready = null;

/** @type {(event: MessageEvent) => Promise<void>} */
self.onmessage = async ({ data }) => {
  try {
    if (!RUNTIME) throw new Fault("missing");
    ready = ready || start(RUNTIME);
    const answer = await ready;
    say({ working: true });
    say({ answer: answer(data.asked) });
  } catch (fault) {
    ready = null;
    say({ fault: fault instanceof Fault ? fault.message : "broken" });
  }
};
