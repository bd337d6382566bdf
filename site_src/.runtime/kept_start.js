// The start that is kept on the device: the memory of a Python that has started and answered, without
// its empty parts, and Python unpacked, so that the next start is short. Both have a digest, may be deleted
// at any time, and belong to one runtime alone.

const STARTS = `start ${new URL("../", HERE).href} `; // no name of a cache that the site's worker knows
const STATE = new URL("state", HERE).href;
const UNPACKED = new URL("python.wasm", HERE).href; // kept alone: the server has it packed
const DIGEST = "wb-digest";
const CHUNK = 1 << 22;
const GRAIN = 1 << 12; // bytes of a memory that are kept or left out together

// What is kept of a memory: its length, that of the head, the number of stretches, and for each where it
// begins and how long it is [bytes]; then the head, as the runtime writes and reads it, and the stretches.

/** @type {(memory: Uint8Array, from: number) => boolean} */
const isEmpty = (memory, from) => new Float64Array(memory.buffer, from, GRAIN / 8).every((each) => Object.is(each, 0));

// The stretches of a memory that are not empty, none longer than a part that is looked at in one go.
/** @type {(memory: Uint8Array) => [from: number, bytes: number][]} */
function stretches(memory) {
  /** @type {[from: number, bytes: number][]} */
  const found = [];
  for (let from = 0; from < memory.length; from += GRAIN) {
    if (isEmpty(memory, from)) continue;
    const last = found.at(-1);
    if (last && last[0] + last[1] === from && last[1] < CHUNK) last[1] += GRAIN;
    else found.push([from, GRAIN]);
  }
  return found;
}

// What the runtime writes before a memory, without the memory: that would be copied whole.
/** @type {(python: gauge.Python) => Uint8Array} */
function headOf(python) {
  const made = python._module;
  const whole = made.HEAP8;
  made.HEAP8 = whole.subarray(0, 0);
  try {
    return python.makeMemorySnapshot();
  } finally {
    made.HEAP8 = whole;
  }
}

/** @type {(parts: Uint8Array[]) => Promise<string>} */
async function digestOf(parts) {
  let said = "";
  for (const part of parts) said += await digest(/** @type {Uint8Array<ArrayBuffer>} */ (part));
  return digest(new TextEncoder().encode(said));
}

// Keeps a start. Nothing may run in it meanwhile: its memory is read as it is written.
/** @type {(python: gauge.Python) => Promise<void>} */
async function keep(python) {
  try {
    const head = headOf(python);
    const memory = new Uint8Array(python._module.HEAP8.buffer);
    const found = stretches(memory);
    const table = Uint32Array.of(memory.length, head.length, found.length, ...found.flat());
    const parts = [new Uint8Array(table.buffer), head, ...found.map(([from, bytes]) => memory.subarray(from, from + bytes))];
    const name = STARTS + HERE.href;
    await forget(name);
    const headers = { [DIGEST]: await digestOf(parts) };
    const body = new ReadableStream({ pull(to) {
      const part = parts.shift();
      if (part) to.enqueue(part.slice());
      else to.close();
    } });
    await (await caches.open(name)).put(STATE, new Response(body, { headers }));
  } catch {
    await forget(""); // no room, or it cannot be kept: the next start is as long as this one
  }
}

// Reads an answer in order, each time as many bytes as are to be filled.
/** @type {(answer: Response) => (into: Uint8Array) => Promise<Uint8Array>} */
function readerOf(answer) {
  const reader = answer.body?.getReader();
  let part = new Uint8Array();
  return async (into) => {
    for (let at = 0; at < into.length;) {
      if (!part.length) part = (await reader?.read())?.value || new Uint8Array();
      if (!part.length) throw new Error("too short");
      const some = part.subarray(0, into.length - at);
      into.set(some, at);
      at += some.length;
      part = part.subarray(some.length);
    }
    return into;
  };
}

/** @type {() => Promise<Response | undefined>} */
const isKept = () => caches.match(STATE, { cacheName: STARTS + HERE.href });

// The start that is kept, read as far as its memory.
/** @type {() => Promise<gauge.Kept | null>} */
async function keptStart() {
  try {
    const held = await isKept();
    if (!held) return null;
    const read = readerOf(held);
    const first = new Uint32Array((await read(new Uint8Array(12))).buffer);
    const [bytes, headBytes, count] = first;
    const places = new Uint32Array((await read(new Uint8Array(8 * count))).buffer);
    return { bytes, head: await read(new Uint8Array(headBytes)), first, places, read, digest: held.headers.get(DIGEST) || "" };
  } catch { /* a page without https has no caches, a device may refuse them: then it starts anew */ }
  await forget("");
  return null;
}

// Fills the memory of a Python that has not run yet with what is kept, where it lies: nothing is copied
// twice. The runtime makes no room for it, so the memory grows first, and what that wrote is cleared.
/** @type {(kept: gauge.Kept, made: gauge.Module) => Promise<void>} */
async function fillFrom({ bytes, head, first, places, read, digest: wanted }, made) {
  while (made.HEAP8.length < bytes) if (!made._malloc(CHUNK)) throw new Error("no memory");
  const memory = new Uint8Array(made.HEAP8.buffer);
  const table = new Uint8Array(4 * (first.length + places.length));
  table.set(new Uint8Array(first.buffer));
  table.set(new Uint8Array(places.buffer), 4 * first.length);
  let said = await digest(table) + await digest(/** @type {Uint8Array<ArrayBuffer>} */ (head));
  let last = Promise.resolve("");
  let end = 0;
  for (let n = 0; n < places.length; n += 2) {
    const [from, to] = [places[n], places[n] + places[n + 1]];
    clear(memory, end, from);
    await read(memory.subarray(from, to));
    said += await last;
    last = digest(memory.subarray(from, to)); // while the next is read
    end = to;
  }
  clear(memory, end, memory.length);
  said += await last;
  if (await digest(new TextEncoder().encode(said)) !== wanted) throw new Error("damaged");
}

// Empties a stretch of a memory, and leaves alone what is empty: what nobody writes takes no room.
/** @type {(memory: Uint8Array, from: number, to: number) => void} */
function clear(memory, from, to) {
  for (let at = from; at < to; at += GRAIN) if (!isEmpty(memory, at)) memory.fill(0, at, at + GRAIN);
}

// Lets the library be unpacked when a module is first read from it: a start from what is kept has all
// modules that the answers before it took.
/** @type {(python: gauge.Python, info: Record<string, string>, unpacked: () => Uint8Array) => void} */
function lieReady(python, { python: release }, unpacked) {
  const { node } = python.FS.lookupPath(`/lib/python${release.split(".").slice(0, 2).join("")}.zip`);
  Object.defineProperty(node, "contents", { configurable: true, get() {
    const contents = unpacked();
    Object.defineProperty(node, "contents", { value: contents, writable: true });
    node.usedBytes = contents.length;
    return contents;
  } });
}

/** @type {(but: string) => Promise<void>} */
async function forget(but) {
  try {
    const names = (await caches.keys()).filter((name) => name.startsWith(STARTS) && name !== but);
    await Promise.all(names.map((name) => caches.delete(name)));
  } catch { /* nothing is kept there */ }
}

// Python as it is kept unpacked, if it is. The site's worker answers with it: of an answer with an
// address the browser keeps what it has compiled, and need not compile it again.
/** @type {(runtime: gauge.Runtime) => Promise<Response | null>} */
async function keptWasm({ wasm }) {
  /** @type {RequestInit} */
  const how = { cache: "only-if-cached", mode: "same-origin", integrity: wasm };
  const response = await load(UNPACKED, how).catch(() => null);
  return response?.ok ? response : null;
}

/** @type {(wasm: Uint8Array) => Promise<void>} */
async function keepWasm(wasm) {
  const body = new Response(/** @type {Uint8Array<ArrayBuffer>} */ (wasm), { headers: { "content-type": WASM } });
  await (await caches.open(STARTS + HERE.href)).put(UNPACKED, body);
}
